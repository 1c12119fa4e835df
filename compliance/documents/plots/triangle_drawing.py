"""The texture triangle, drawn: the classes with their names, the soils as hollow marks, the mixes as filled ones."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.lib.colors import white

from compliance.documents.elements import theme
from compliance.documents.page.faces import NARROW, NARROW_BOLD, NARROW_MEDIUM, text_width
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line
from compliance.documents.plots.texture_triangle import (
    HIGH,
    Box,
    Labelled,
    Plotted,
    Point,
    centroid,
    labelled,
    outline,
    place,
    width_at,
)
from compliance.facts.soil.texture import TextureRules
from compliance.record import record

_SIDE = 300.0
_AROUND = 34.0
_BELOW = 30.0
_ABOVE = 12.0
_NAME = 8.0
_LABEL = 8.2
_REACH = 3.4
_MOST_NAMED = 12
_OUT = 20.0
"""From a side out to its title."""
_TENTHS = range(1, 10)


@record
class TriangleFigure:
    """The triangle as part of a cell."""

    rules: TextureRules
    points: tuple[Plotted, ...]

    def lines(self, width: float) -> list[Line]:
        return [Line(_SIDE * HIGH + _BELOW + _ABOVE, ink=Figure(self._draw, self._alt()))]

    def _alt(self) -> str:
        phrases = [
            f"{'mix' if one.is_mix else 'soil'} {one.mark} clay {100 * one.clay:.3g} %, silt {100 * one.silt:.3g} %, "
            f"sand {100 * max(1 - one.clay - one.silt, 0.0):.3g} %"
            for one in self.points
        ]
        more = f"; and {len(phrases) - _MOST_NAMED} more" if len(phrases) > _MOST_NAMED else ""
        return f"Texture triangle of clay, silt and sand: {'; '.join(phrases[:_MOST_NAMED])}{more}."

    @property
    def labels(self) -> list[Labelled]:
        sizes = [(text_width(one.mark, NARROW_BOLD, _LABEL) + 2, _LABEL) for one in self.points]
        names = [box for _, _, box in _names(self.rules)]
        frame = (-_AROUND, 0.0, _SIDE + _AROUND, _SIDE * HIGH + _ABOVE)
        return labelled(self.points, sizes=sizes, side=_SIDE, taken=names, frame=frame, reach=_REACH)

    @property
    def unlabelled(self) -> tuple[str, ...]:
        return tuple(one.of.mark for one in self.labels if one.box is None)

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        canvas.saveState()
        canvas.translate(left + (width - _SIDE) / 2, top - _ABOVE - _SIDE * HIGH)
        _grid(canvas)
        _classes(canvas, self.rules)
        _sides(canvas)
        found = self.labels
        for one in found:
            _leader(canvas, one)
        for one in found:
            _mark(canvas, one)
        for one in found:
            _label(canvas, one)
        canvas.restoreState()


def _grid(canvas: Any) -> None:
    canvas.setStrokeColor(theme.SAND)
    canvas.setLineWidth(0.25)
    for tenth in _TENTHS:
        share = tenth / 10
        for start, end in (
            ((share, 0.0), (share, 1 - share)),
            ((0.0, share), (1 - share, share)),
            ((1 - share, 0.0), (0.0, 1 - share)),
        ):
            canvas.line(*place(*start, _SIDE), *place(*end, _SIDE))


def _classes(canvas: Any, rules: TextureRules) -> None:
    canvas.setStrokeColor(theme.UMBER)
    canvas.setLineWidth(0.8)
    for corners in rules.outlines.values():
        points = outline(corners, _SIDE)
        path = canvas.beginPath()
        path.moveTo(*points[0])
        for point in points[1:]:
            path.lineTo(*point)
        path.close()
        canvas.drawPath(path, stroke=1, fill=0)
    canvas.setFont(NARROW, _NAME)
    for text, (x, y), box in _names(rules):
        canvas.setFillColor(white)
        canvas.rect(box[0], box[1], box[2] - box[0], box[3] - box[1], stroke=0, fill=1)
        canvas.setFillColor(theme.UMBER)
        canvas.drawString(x, y, text)


def _names(rules: TextureRules) -> list[tuple[str, Point, Box]]:
    """The names of the classes, broken between words where the class is narrow: text, baseline, box of each line."""
    found = []
    for name, corners in rules.outlines.items():
        points = outline(corners, _SIDE)
        x, y = centroid(points)
        broken = _broken(name, width_at(points, x, y) - 6)
        for number, text in enumerate(broken):
            across = text_width(text, NARROW, _NAME)
            base = y + (len(broken) / 2 - number - 1) * _NAME * 1.05 + 0.2 * _NAME
            box = (x - across / 2 - 1, base - 0.24 * _NAME, x + across / 2 + 1, base + 0.78 * _NAME)
            found.append((text, (x - across / 2, base), box))
    return found


def _broken(name: str, room: float) -> list[str]:
    lines: list[str] = []
    for word in name.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, NARROW, _NAME) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _sides(canvas: Any) -> None:
    """Shares along the sides, each to be read along the grid line that leaves its figure."""
    canvas.setFont(NARROW, _NAME)
    canvas.setFillColor(theme.INK)
    for tenth in _TENTHS:
        share = tenth / 10
        x, y = place(share, 0.0, _SIDE)
        canvas.drawRightString(x - 4, y - 2.4, f"{10 * tenth}")
        x, y = place(1 - share, share, _SIDE)
        canvas.drawString(x + 4, y - 1, f"{10 * tenth}")
        x, y = place(0.0, 1 - share, _SIDE)
        canvas.drawCentredString(x + 2, y - 9, f"{10 * tenth}")
    canvas.setFont(NARROW_MEDIUM, theme.LABEL.size)
    canvas.drawCentredString(_SIDE / 2, -22, "sand, % (lines up to the left)")
    y = HIGH / 2 * _SIDE
    canvas.drawRightString(0.25 * _SIDE - _OUT, y, "clay, %")
    canvas.drawRightString(0.25 * _SIDE - _OUT, y - theme.LABEL.leading, "(level lines)")
    canvas.drawString(0.75 * _SIDE + _OUT, y, "silt, %")
    canvas.drawString(0.75 * _SIDE + _OUT, y - theme.LABEL.leading, "(lines down to the left)")


def _leader(canvas: Any, one: Labelled) -> None:
    if one.box is None:
        return
    x, y = one.at
    end = (min(max(x, one.box[0]), one.box[2]), min(max(y, one.box[1]), one.box[3]))
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(0.4)
    canvas.line(x, y, *end)


def _mark(canvas: Any, one: Labelled) -> None:
    """Soils hollow and round, mixes filled and square."""
    x, y = one.at
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(1.2)
    if one.of.is_mix:
        canvas.setFillColor(theme.INK)
        canvas.rect(x - _REACH + 0.6, y - _REACH + 0.6, 2 * _REACH - 1.2, 2 * _REACH - 1.2, stroke=0, fill=1)
    else:
        canvas.setFillColor(white)
        canvas.circle(x, y, _REACH - 0.6, stroke=1, fill=1)


def _label(canvas: Any, one: Labelled) -> None:
    if one.box is None:
        return
    left, bottom, right, top = one.box
    canvas.setFillColor(white)
    canvas.rect(left, bottom, right - left, top - bottom, stroke=0, fill=1)
    canvas.setFillColor(theme.INK)
    canvas.setFont(NARROW_BOLD, _LABEL)
    canvas.drawString(left + 1, bottom + 0.22 * _LABEL, one.of.mark)


def legend(points: Sequence[Plotted]) -> str:
    phrases = ["open circles are soils"] if any(not one.is_mix for one in points) else []
    if any(one.is_mix for one in points):
        phrases.append("filled squares are mixes, blended from their soils without gravel and straw")
    text = "; ".join(phrases)
    return f"{text[:1].upper()}{text[1:]}."
