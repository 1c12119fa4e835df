"""The plot of a set, drawn: a mark for every specimen, and level lines named at the right."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from reportlab.lib.colors import white

from compliance.documents.elements import theme
from compliance.documents.page.faces import NARROW, NARROW_MEDIUM, clean, face_for, text_width
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line, shortened
from compliance.documents.plots.plot_scales import Scale, scale, spread, tick_text
from compliance.documents.plots.set_plots import Dot, Plot
from compliance.record import record
from compliance.report.value_words import counted
from compliance.units import Writer

_TALL = 132.0
_ABOVE, _BELOW = 16.0, 18.0
_LEFT, _RIGHT = 34.0, 150.0
_SIZE = 8.0
_LABEL = 8.8
_REACH = 2.9
_SMALL = 1.4
_CROWDED = 120
"""Specimens from which marks are small."""
_HATCH = 6.0


@record
class PlotFigure:
    """A plot as part of a cell. `unit_kind` is the kind of the results."""

    plot: Plot
    writer: Writer

    def lines(self, width: float) -> list[Line]:
        return [Line(_ABOVE + _TALL + _BELOW, ink=Figure(self._draw, self._alt()))]

    def axis(self) -> Scale:
        """The upright scale, in the unit of the project, from zero."""
        plot = self.plot
        values = [one.value for one in plot.dots] + [one.value for one in (*plot.governing, *plot.limits)]
        return scale([self._number(value) for value in values], 0.0, _TALL)

    def _number(self, value: float) -> float:
        return self.writer.number(value, self.plot.kind)

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        axis = self.axis()
        across = width - _LEFT - _RIGHT
        canvas.saveState()
        canvas.translate(left + _LEFT, top - _ABOVE - _TALL)
        self._axes(canvas, axis, across)
        for rung in self.plot.limits:
            _limit_line(canvas, axis.at(self._number(rung.value)), across, rung.side)
        if self.plot.mean is not None:
            _level(canvas, y=axis.at(self._number(self.plot.mean)), across=across, dash=(1.5, 2.0), weight=0.9)
        for rung in self.plot.governing:
            _level(canvas, y=axis.at(self._number(rung.value)), across=across, dash=(7.0, 3.0), weight=0.9)
        reach = _REACH if len(self.plot.dots) < _CROWDED else _SMALL
        for number, dot in enumerate(self.plot.dots):
            x = (number + 0.5) / len(self.plot.dots) * across
            _dot(canvas, x=x, y=axis.at(self._number(dot.value)), dot=dot, reach=reach)
        self._names(canvas, axis, across)
        canvas.restoreState()

    def _axes(self, canvas: Any, axis: Scale, across: float) -> None:
        canvas.setStrokeColor(theme.INK)
        canvas.setLineWidth(0.6)
        canvas.lines([(0, 0, 0, _TALL), (0, 0, across, 0)])
        canvas.setFillColor(theme.INK)
        canvas.setFont(NARROW, _SIZE)
        for tick in axis.ticks:
            y = axis.at(tick)
            canvas.line(-3, y, 0, y)
            canvas.drawRightString(-5, y - 2.5, tick_text(tick))
        canvas.setFont(NARROW_MEDIUM, _SIZE)
        canvas.drawString(-_LEFT, _TALL + 7, self._title())
        for x, text in _marks_below(self.plot.dots, across):
            canvas.setFont(face_for(text, NARROW), _SIZE)
            canvas.drawCentredString(x, -10, text)

    def _title(self) -> str:
        what = "shrinkage" if self.plot.kind == "share" else "strength"
        return f"Set {self.plot.mark}: {what}, {self.writer.unit_symbol(self.plot.kind)}"

    def _alt(self) -> str:
        plot = self.plot
        aside, apart = sum(dot.aside for dot in plot.dots), sum(dot.apart for dot in plot.dots)
        phrases = [counted(len(plot.dots), "result"), *(text for _, text in self._named())]
        phrases += [f"{aside} set aside by a rule"] if aside else []
        phrases += [f"{apart} standing apart"] if apart else []
        return f"Plot. {self._title()}: {'; '.join(phrases)}."

    def _names(self, canvas: Any, axis: Scale, across: float) -> None:
        """The names of the level lines, pushed apart, each led to its line."""
        named = list(self._named())
        ats = [axis.at(self._number(value)) for value, _ in named]
        places = spread(ats, [_LABEL] * len(named), 0.0, _TALL + 8)
        for (_, text), at, place in zip(named, ats, places, strict=True):
            canvas.setStrokeColor(theme.ASH)
            canvas.setLineWidth(0.4)
            canvas.lines([(across + 1, at, across + 8, place), (across + 8, place, across + 12, place)])
            canvas.setFillColor(theme.INK)
            canvas.setFont(NARROW, _SIZE)
            canvas.drawString(across + 14, place - 2.5, shortened(text, NARROW, _SIZE, _RIGHT - 16))

    def _named(self) -> Iterator[tuple[float, str]]:
        if self.plot.mean is not None:
            yield self.plot.mean, f"mean of all {self._written(self.plot.mean)}"
        for rung in self.plot.governing:
            yield rung.value, f"governs {self._written(rung.value)} ({rung.name})"
        for rung in self.plot.limits:
            word = "least" if rung.side < 0 else "most"
            yield rung.value, f"{word} {self._written(rung.value)} ({rung.name})"

    def _written(self, value: float) -> str:
        return self.writer.write(value, self.plot.kind)


def _marks_below(dots: tuple[Dot, ...], across: float) -> Iterator[tuple[float, str]]:
    """The marks of specimens under the axis, every so many where they would run into each other."""
    slot = across / len(dots)
    widest = max(text_width(clean(dot.mark), face_for(clean(dot.mark), NARROW), _SIZE) for dot in dots) + 4
    every = max(1, -int(-widest // slot))
    for number in range(0, len(dots), every):
        text = clean(dots[number].mark)
        yield (number + 0.5) * slot, shortened(text, face_for(text, NARROW), _SIZE, max(slot * every, 40.0))


def _level(canvas: Any, y: float, across: float, dash: tuple[float, float], weight: float) -> None:
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(weight)
    canvas.setDash(*dash)
    canvas.line(0, y, across, y)
    canvas.setDash()


def _limit_line(canvas: Any, y: float, across: float, side: int) -> None:
    """A heavy line with short strokes on the side that is outside."""
    canvas.setStrokeColor(theme.CLAY)
    canvas.setLineWidth(1.6)
    canvas.line(0, y, across, y)
    canvas.setLineWidth(0.5)
    step = 5.0
    count = int(across // step)
    canvas.lines([(n * step + step, y, n * step + step - 3, y + side * _HATCH * 0.7) for n in range(count)])


def _dot(canvas: Any, x: float, y: float, dot: Dot, reach: float) -> None:
    """A full disc counts under every rule; an open square with a cross is set aside by one; a ring stands apart."""
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(0.8)
    if dot.aside:
        canvas.setFillColor(white)
        canvas.rect(x - reach, y - reach, 2 * reach, 2 * reach, stroke=1, fill=1)
        canvas.lines([(x - reach, y - reach, x + reach, y + reach), (x - reach, y + reach, x + reach, y - reach)])
    else:
        canvas.setFillColor(theme.INK)
        canvas.circle(x, y, reach, stroke=0, fill=1)
    if dot.apart:
        canvas.circle(x, y, reach + 3.0, stroke=1, fill=0)


def key_of(plot: Plot) -> str:
    """What the marks and lines mean, as far as they are there."""
    phrases = ["full discs: specimens"]
    if any(dot.aside for dot in plot.dots):
        phrases.append("crossed squares: set aside by a rule")
    if any(dot.apart for dot in plot.dots):
        phrases.append("ringed: stands apart")
    phrases += ["dotted: mean of all results"] if plot.mean is not None else []
    phrases += ["dashed: the value that governs"] if plot.governing else []
    phrases += ["heavy: a limit, its strokes on the side that is outside"] if plot.limits else []
    text = "; ".join(phrases)
    tail = f" Without a result: {', '.join(plot.lacking)}." if plot.lacking else ""
    if plot.corrected:
        tail += " The governing value is of strengths corrected for height to width; the marks are not corrected."
    return f"{text[:1].upper()}{text[1:]}.{tail}"
