"""A jar as it was read, drawn: its layers to scale, with their heights and shares."""

from __future__ import annotations

import math
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.page.faces import NARROW, NARROW_BOLD, text_width
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line
from compliance.documents.plots.plot_scales import spread
from compliance.facts.soil.fractions import percent
from compliance.model.soil_tests import JarRecord
from compliance.record import record
from compliance.units import Writer

_TALL, _WIDE = 150.0, 62.0
_CAP = 7.0
_LABEL = 8.4
_SIZE = 8.0


@record
class Layer:
    """A layer of a jar from `bottom` to `top` in m above its floor; `share` of the settled depth, None for others."""

    name: str
    bottom: float
    top: float
    share: float | None = None


def layers(record: JarRecord) -> list[Layer]:
    """From below: coarse sand where it was seen apart, sand, silt, clay, and what floats."""
    sand, silt, settled = record.sand.height.si, record.silt.height.si, record.top.height.si
    cuts = [("sand", 0.0, sand), ("silt", sand, silt), ("clay", silt, settled)]
    if record.coarse_sand is not None:
        coarse = record.coarse_sand.si
        cuts[:1] = [("coarse sand", 0.0, coarse), ("fine sand", coarse, sand)]
    found = [Layer(name, low, high, (high - low) / settled) for name, low, high in cuts]
    if record.floating is not None and record.floating.si > 0:
        top = max(record.height.si, settled + (0.0 if record.depth else record.floating.si))
        found.append(Layer("floating", max(top - record.floating.si, settled), top))
    return found


@record
class JarFigure:
    """A jar as part of a cell: to scale by height, layers told apart by their pattern, labels at the right."""

    jar: JarRecord
    writer: Writer

    def lines(self, width: float) -> list[Line]:
        return [Line(_TALL + _CAP + 14, ink=Figure(self._draw, self._alt()))]

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        floor = top - _TALL - _CAP - 6
        found = layers(self.jar)
        scale = _TALL / max(self.jar.height.si, found[-1].top)
        canvas.saveState()
        canvas.setStrokeColor(theme.UMBER)
        for one in found:
            _PATTERNS[one.name](canvas, left, floor + one.bottom * scale, _WIDE, (one.top - one.bottom) * scale)
            canvas.setLineWidth(0.5)
            canvas.line(left, floor + one.top * scale, left + _WIDE, floor + one.top * scale)
        _glass(canvas, left, floor)
        wanted = [floor + (one.bottom + one.top) / 2 * scale for one in found]
        wanted.append(floor + _TALL)
        texts = [self._label(one) for one in found] + [self._water()]
        places = spread(wanted, [_LABEL] * len(wanted), floor, floor + _TALL + _CAP)
        for (name, figures), at, place in zip(texts, wanted, places, strict=True):
            _label(canvas, edge=left + _WIDE, at=at, place=place, name=name, figures=figures)
        canvas.restoreState()

    def _alt(self) -> str:
        wording = "; ".join(f"{name} {figures}" for name, figures in map(self._label, layers(self.jar)))
        return f"Jar as it was read, from below: {wording}; {' '.join(self._water())}."

    def _water(self) -> tuple[str, str]:
        depth = self.jar.depth
        return "water to", self.writer.write(depth.si, "layer_height") if depth else "not recorded"

    def _label(self, one: Layer) -> tuple[str, str]:
        thick = self.writer.write(one.top - one.bottom, "layer_height")
        return one.name, thick if one.share is None else f"{percent(one.share)}, {thick}"


def _label(canvas: Any, edge: float, at: float, place: float, name: str, figures: str) -> None:
    canvas.setLineWidth(0.4)
    canvas.setStrokeColor(theme.ASH)
    canvas.lines([(edge + 1, at, edge + 6, place), (edge + 6, place, edge + 9, place)])
    canvas.setFillColor(theme.INK)
    canvas.setFont(NARROW_BOLD, _SIZE)
    canvas.drawString(edge + 11, place - 2.6, name)
    canvas.setFont(NARROW, _SIZE)
    canvas.drawString(edge + 14 + text_width(name, NARROW_BOLD, _SIZE), place - 2.6, figures)


def _glass(canvas: Any, left: float, floor: float) -> None:
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(1.1)
    path = canvas.beginPath()
    path.moveTo(left, floor + _TALL + _CAP)
    path.lineTo(left, floor)
    path.lineTo(left + _WIDE, floor)
    path.lineTo(left + _WIDE, floor + _TALL + _CAP)
    canvas.drawPath(path, stroke=1, fill=0)
    canvas.setLineWidth(0.5)
    canvas.setDash(2, 2)
    canvas.line(left, floor + _TALL, left + _WIDE, floor + _TALL)
    canvas.setDash()


def _dots(
    canvas: Any, x: float, y: float, width: float, height: float, step: float = 4.0, radius: float = 0.55
) -> None:
    canvas.setFillColor(theme.UMBER)
    for row in range(int(height // step)):
        for place in range(int(width // step)):
            canvas.circle(x + (place + 0.5 + 0.25 * (row % 2)) * step, y + (row + 0.5) * step, radius, stroke=0, fill=1)


def _coarse(canvas: Any, x: float, y: float, width: float, height: float) -> None:
    _dots(canvas, x=x, y=y, width=width, height=height, step=6.0, radius=1.1)


def _slants(canvas: Any, x: float, y: float, width: float, height: float) -> None:
    _clipped(
        canvas,
        x=x,
        y=y,
        width=width,
        height=height,
        lines=[(x + at, y, x + at + height, y + height) for at in _steps(-height, width, 4.0)],
    )


def _levels(canvas: Any, x: float, y: float, width: float, height: float) -> None:
    _clipped(
        canvas,
        x=x,
        y=y,
        width=width,
        height=height,
        lines=[(x, y + at, x + width, y + at) for at in _steps(1.0, height, 2.2)],
    )


def _crosses(canvas: Any, x: float, y: float, width: float, height: float) -> None:
    _clipped(
        canvas,
        x=x,
        y=y,
        width=width,
        height=height,
        lines=[(x + at, y, x + at, y + height) for at in _steps(1.0, width, 2.2)],
    )


def _steps(low: float, high: float, step: float) -> list[float]:
    return [low + step * count for count in range(math.ceil((high - low) / step))]


def _clipped(
    canvas: Any, x: float, y: float, width: float, height: float, lines: list[tuple[float, float, float, float]]
) -> None:
    canvas.saveState()
    path = canvas.beginPath()
    path.rect(x, y, width, height)
    canvas.clipPath(path, stroke=0, fill=0)
    canvas.setLineWidth(0.35)
    if lines:
        canvas.lines(lines)
    canvas.restoreState()


_PATTERNS = {
    "coarse sand": _coarse, "fine sand": _dots, "sand": _dots, "silt": _slants, "clay": _levels, "floating": _crosses,
}  # fmt: skip
"""Each kind of layer with a pattern of its own, so that none is told by colour."""
