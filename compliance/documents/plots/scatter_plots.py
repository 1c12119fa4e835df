"""Results of several sets of one kind side by side: strength against density, and against age."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from reportlab.lib.colors import white

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.faces import NARROW, NARROW_MEDIUM
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line, Words
from compliance.documents.page.rows import Cell, Column, Row, full_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.plot_scales import Scale, scale, tick_text
from compliance.facts.specimens.set_record import SpecimenRecord
from compliance.record import record
from compliance.report.value_words import counted
from compliance.units import Writer

_TALL, _ABOVE, _BELOW, _LEFT = 150.0, 14.0, 26.0, 34.0
_SIZE = 8.0
_REACH = 2.8
_KINDS = {"compression": "Compression", "rupture": "Modulus of rupture"}


@record
class Cloud:
    """Points (across, up) of one set, in the units shown."""

    mark: str
    points: tuple[tuple[float, float], ...]


def scatter_sheets(checked: Checked, writer: Writer) -> list[Sheet]:
    """A sheet for each kind of strength that more than one set was tested for."""
    found = []
    for kind, name in _KINDS.items():
        marks = [mark for mark, test in checked.project.test_sets.items() if test.kind == kind]
        rows = {mark: checked.evidence.sets[mark].specimens for mark in marks if mark in checked.evidence.sets}
        by_density, no_density = clouds(rows, lambda one: one.density, "density", writer)
        by_age, no_age = clouds(rows, lambda one: None if one.age is None else float(one.age), "", writer)
        if max(len(by_density), len(by_age)) < 2:
            continue
        figures = (
            CloudFigure(by_density, f"Density, {writer.unit_symbol('density')}", writer.unit_symbol("stress")),
            CloudFigure(by_age, "Age at the test, days", writer.unit_symbol("stress")),
        )
        row = Row(tuple(Cell((one,)) for one in figures), ruled=False)
        lead = part(f"scatter-{kind}", f"{name}: the sets side by side", _left_out(no_density, no_age))
        marks_shown = dict.fromkeys(one.mark for one in (*by_density, *by_age))
        key = full_row(Legend(tuple(marks_shown)), Words(_CAUTION, theme.SMALL_ITALIC), air=(2.0, 4.0))
        found.append(Sheet((Column(share=1), Column(share=1)), [row], lead=[*lead, key], below=14))
    return found


_CAUTION = (
    "Sets of different mixes, shapes or drying do not compare as they stand. A point far from its neighbours asks for "
    "a look at that specimen, and proves nothing by itself."
)


def clouds(
    sets: Mapping[str, Sequence[SpecimenRecord]],
    across: Callable[[SpecimenRecord], float | None],
    kind: str,
    writer: Writer,
) -> tuple[tuple[Cloud, ...], int]:
    """The points of each set that has any, and how many results have no place on the scale across."""
    found, without = [], 0
    for mark, rows in sets.items():
        points = []
        for one in rows:
            value = across(one)
            if one.result.value is None:
                continue
            if value is None:
                without += 1
                continue
            points.append((writer.number(value, kind) if kind else value, writer.number(one.result.value, "stress")))
        if points:
            found.append(Cloud(mark, tuple(points)))
    return tuple(found), without


def _left_out(no_density: int, no_age: int) -> str:
    phrases = [f"{counted(no_density, 'result')} without mass or all sides"] if no_density else []
    phrases += [f"{counted(no_age, 'result')} without the day of casting or testing"] if no_age else []
    return f"Left out for want of a value: {' and '.join(phrases)}." if phrases else "Every result is shown."


@record
class CloudFigure:
    """Clouds over a scale across and one upward, as part of a cell. A shape for each set."""

    clouds: tuple[Cloud, ...]
    across: str
    unit: str

    def lines(self, width: float) -> list[Line]:
        return [Line(_ABOVE + _TALL + _BELOW, ink=Figure(self._draw, self._alt()) if self.clouds else None)]

    def _alt(self) -> str:
        phrases = "; ".join(
            f"set {one.mark}, {counted(len(one.points), 'result')}, strength {_range([y for _, y in one.points])}"
            for one in self.clouds
        )
        return f"Plot of strength, {self.unit}, against {self.across[:1].lower()}{self.across[1:]}: {phrases}."

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        points = [point for one in self.clouds for point in one.points]
        wide = width - _LEFT - 10
        right = scale([x for x, _ in points], 0.0, wide, from_zero=False, most_ticks=6)
        up = scale([y for _, y in points], 0.0, _TALL)
        canvas.saveState()
        canvas.translate(left + _LEFT, top - _ABOVE - _TALL)
        self._axes(canvas, right, up, wide)
        for number, cloud in enumerate(self.clouds):
            for x, y in cloud.points:
                draw_shape(canvas, number, right.at(x), up.at(y))
        canvas.restoreState()

    def _axes(self, canvas: Any, right: Scale, up: Scale, wide: float) -> None:
        canvas.setStrokeColor(theme.INK)
        canvas.setLineWidth(0.6)
        canvas.lines([(0, 0, 0, _TALL), (0, 0, wide, 0)])
        canvas.setFillColor(theme.INK)
        canvas.setFont(NARROW, _SIZE)
        for tick in up.ticks:
            canvas.line(-3, up.at(tick), 0, up.at(tick))
            canvas.drawRightString(-5, up.at(tick) - 2.5, tick_text(tick))
        for tick in right.ticks:
            canvas.line(right.at(tick), -3, right.at(tick), 0)
            canvas.drawCentredString(right.at(tick), -11, tick_text(tick))
        canvas.setFont(NARROW_MEDIUM, _SIZE)
        canvas.drawString(-_LEFT, _TALL + 6, f"Strength, {self.unit}")
        canvas.drawRightString(wide, -21, self.across)


def _range(values: Sequence[float]) -> str:
    low, high = (f"{one:.6g}" for one in (min(values), max(values)))
    return low if low == high else f"{low} to {high}"


def shape_name(number: int) -> str:
    """What `draw_shape` draws, in words."""
    shape = ("disc", "square", "wedge", "lozenge")[number % 4]
    bars = number // 8
    return f"{'full' if number % 8 < 4 else 'open'} {shape}" + (f" with {counted(bars, 'bar')}" if bars else "")


def draw_shape(canvas: Any, number: int, x: float, y: float) -> None:
    """Disc, square, wedge or lozenge; full for the first four sets, open for the next four, then anew with a bar."""
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(0.9)
    full = number % 8 < 4
    canvas.setFillColor(theme.INK if full else white)
    reach = _REACH
    if number % 4 == 0:
        canvas.circle(x, y, reach, stroke=1, fill=1)
    else:
        corners = (
            ((-1, -1), (1, -1), (1, 1), (-1, 1)),
            ((-1.15, -0.9), (1.15, -0.9), (0, 1.2)),
            ((-1.3, 0), (0, -1.3), (1.3, 0), (0, 1.3)),
        )[number % 4 - 1]
        path = canvas.beginPath()
        path.moveTo(x + corners[0][0] * reach, y + corners[0][1] * reach)
        for dx, dy in corners[1:]:
            path.lineTo(x + dx * reach, y + dy * reach)
        path.close()
        canvas.drawPath(path, stroke=1, fill=1)
    for bar in range(number // 8):
        canvas.line(x - reach * 1.8, y - reach - 1.5 - bar * 1.5, x + reach * 1.8, y - reach - 1.5 - bar * 1.5)


@record
class Legend:
    """The shape of each set with its mark, in as many lines as it takes."""

    marks: tuple[str, ...]

    def lines(self, width: float) -> list[Line]:
        count = max(1, int(width // _SLOT))
        rows = [
            [(number, self.marks[number]) for number in range(start, min(start + count, len(self.marks)))]
            for start in range(0, len(self.marks), count)
        ]
        return [Line(12.0, ink=_LegendRow(tuple(row)).figure) for row in rows]


_SLOT = 84.0


@record
class _LegendRow:
    marks: tuple[tuple[int, str], ...]

    @property
    def figure(self) -> Figure:
        phrases = ", ".join(f"{mark} {shape_name(number)}" for number, mark in self.marks)
        return Figure(self.draw, f"Shapes in the plots: {phrases}.")

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        for place, (number, mark) in enumerate(self.marks):
            x = left + place * _SLOT + 5
            draw_shape(canvas, number, x, top - 6)
            canvas.setFillColor(theme.INK)
            canvas.setFont(NARROW, _SIZE)
            canvas.drawString(x + 8, top - 8.5, mark)
