"""A calculation sheet for each wall: its load path from the roof to the soil, then every check of loads and stability
with the formula, the numbers put in, result, limit and margin, as by hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.elements.theme import Style
from compliance.documents.page.line_breaking import Part, Words, Worked
from compliance.documents.page.page_refs import PageOf, Reference
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.drawings.common.draft import elevation_key
from compliance.facts.common.coefficients import is_taken
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding
from compliance.record import record, replace
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.calculations.calculation_lines import worked_line
from compliance.report.grouping import figures
from compliance.report.value_words import NOTHING
from compliance.report.words.plain_missing import plain_lacking, plain_lacks
from compliance.steps import Given, Step
from compliance.units import Writer

_INTRODUCTION = (
    "First the load path of the wall: what comes down from the roof, what the wall weighs, what arrives on the soil. "
    "Then each check of loads and stability, with the line that gives its result and the line that gives its limit, "
    "where that did not stand above. The lines before these, and the coefficients they rest on, stand rule by rule "
    "under Calculations, on the page named."
)
_CAUTION = (
    "A screening never replaces a design: within its limits nothing is proved, beyond them an engineer is needed."
)
_LINE = Style(theme.CALCULATION.face, 9.0, 11.2)
_PATH = (
    "top_dead", "top_live", "top_snow", "top_water", "top_load", "end_load", "earth_weight", "own_weight", "base_load",
    "stem_weight", "footing_weight", "soil_load", "load_in", "load_out", "load_balance",
)  # fmt: skip
_COLUMNS = (Column(28), Column(share=1), Column(58), Column(104), Column(40), Column(116), Column(26))
_HEAD = head_row("Code", "Check", "Result", "Limit", "Margin", "Outcome", "Page", right=(4, 6))
_COMPARED, _OF_THE_RULE = "check", {"value": "Result", "limit": "Limit"}
_SAME = 1e-12


@record
class Calculated:
    """A finding with the lines that give its result and its limit."""

    group: RuleFindings
    finding: Finding
    lines: tuple[Step, ...]


def sheet_key(wall: str) -> str:
    """The place in the document where a wall is calculated."""
    return f"sheet-{wall}"


def are_there_wall_sheets(checked: Checked, sets: Sequence[SetFindings]) -> bool:
    """Whether any wall takes a calculation; then each has a sheet."""
    return any(any(calculated(sets, mark)) for mark in checked.project.walls)


def wall_sheets(checked: Checked, sets: Sequence[SetFindings]) -> list[Any]:
    """Nothing where no wall of the project takes a calculation."""
    found = {mark: list(calculated(sets, mark)) for mark in checked.project.walls}
    if not any(found.values()):
        return []
    rules = {one.group.code for ones in found.values() for one in ones}
    writer = Writer(checked.project.project.units)
    story: list[Any] = on_this_page()
    lead = title("wall-sheets", "Calculation sheets, wall by wall", _INTRODUCTION, _CAUTION)
    for mark, ones in found.items():
        story += [] if lead else on_this_page()
        wall = checked.project.walls[mark]
        heading = f"{mark}  ·  {wall.name}" if wall.name else mark
        name = full_row(
            Words(heading, theme.SUBSECTION, after=1.0),
            Reference("Elevation", elevation_key(mark), theme.SMALL_ITALIC),
            anchor=Anchor(sheet_key(mark), heading, 1, listed=False), air=(6.0, 3.0),
        )  # fmt: skip
        lines = _path(checked.facts.of("wall")[mark], writer)
        path = [replace(full_row(part), joined=index == 1) for index, part in enumerate(lines)]
        carried = [full_row(Words(f"{mark}, continued", theme.CELL_BOLD, after=2.0))]
        rows = [*_rows(ones, writer), *_lacking(sets, mark, rules)]
        story.append(Sheet((Column(share=1),), path, lead=[*lead, name], carried=carried, below=4))
        story.append(Sheet(_COLUMNS, rows, head=[_HEAD], carried=carried, below=10))
        lead = []
    return story


def calculated(sets: Sequence[SetFindings], wall: str) -> Iterator[Calculated]:
    """The findings of a wall, its openings and piers that rest on coefficients of the screening, by rule."""
    for group in (group for one in sets for group in one.rules):
        for finding in group.judged:
            if finding.wall == wall and finding.value and finding.limit:
                steps = finding.steps
                if any(is_taken(step) for step in steps):
                    yield Calculated(group, finding, _lines(finding, steps))


def _lines(finding: Finding, steps: Sequence[Step]) -> tuple[Step, ...]:
    """The last line that gives the value, and the last that gives the limit, where formulas give them: one of a fact
    rather than the rule's own."""
    assert finding.value and finding.limit
    formulas = [step for step in steps if step.formula and step.says != _COMPARED]
    worked = [step for step in formulas if step.says not in _OF_THE_RULE]
    own = [replace(step, says=_OF_THE_RULE[step.says], source=finding.source or finding.clause)
           for step in formulas if step.says in _OF_THE_RULE]  # fmt: skip
    found = [_giving(worked, side) or _giving(own, side) for side in (finding.value, finding.limit)]
    return tuple(dict.fromkeys(step for step in found if step))


def _giving(steps: Sequence[Step], side: Given) -> Step | None:
    return next((step for step in reversed(steps) if _same(step.result, side)), None)


def _same(one: Given, other: Given) -> bool:
    a, b = one.value, other.value
    if not isinstance(a, float) or not isinstance(b, float):
        return False
    return a == b or abs(a - b) <= _SAME * max(abs(a), abs(b))


def _path(wall: Subject, writer: Writer) -> Iterator[Part]:
    yield Words("Load path", theme.HEADING, after=1.0)
    last: str | None = None
    for name in _PATH:
        fact = wall.fact(f"wall.{name}")
        if fact.value is None:
            lacks = plain_lacking(fact.missing)
            why = f"not given: {lacks}" if lacks else fact.reason or NOTHING
            last = f"{name.replace('_', ' ')}: not worked out, {why}"
            yield Words(last, theme.CELL_SMALL)
        elif fact.steps:
            text = worked_line(fact.steps[-1], writer).text
            if text != last:
                yield Worked(text, _LINE)
            last = text


def _rows(ones: Sequence[Calculated], writer: Writer) -> Iterator[Row]:
    printed: set[Step] = set()
    for one in ones:
        numbers = figures(one.finding, writer)
        part = "" if one.finding.subject == one.finding.wall else f"{one.finding.own_mark}: "
        cells = (
            cell(one.group.code, theme.CELL_BOLD, link=one.group.key), cell(f"{part}{one.finding.title}"),
            cell(numbers.value), cell(numbers.limit), cell(numbers.margin, theme.NUMBER),
            Cell((Marked(numbers.mark, one.finding.verdict, theme.CELL),)),
            Cell((PageOf(one.group.key, theme.NUMBER),), link=one.group.key),
        )  # fmt: skip
        new = [step for step in one.lines if step not in printed]
        printed |= set(new)
        lines = tuple(Worked(worked_line(step, writer).text, _LINE) for step in new)
        yield Row(cells, ruled=not lines, air=(1.6, 0.0 if lines else 1.6))
        if lines:
            yield Row((cell(""), Cell(lines, span=len(_COLUMNS) - 1)), joined=True, air=(0.0, 1.6))


def _lacking(sets: Sequence[SetFindings], wall: str, rules: set[str]) -> Iterator[Row]:
    """What is calculated of other walls but not of this one, since something lacks."""
    found = [
        finding for one in sets for group in one.rules if group.code in rules for finding in group.judged
        if finding.wall == wall and finding.missing
    ]  # fmt: skip
    if found:
        titles = "; ".join(dict.fromkeys(one.title for one in found))
        wording = Words(f"Not worked out: {titles}. Not given: {plain_lacks(found)}.", theme.CELL_SMALL)
        yield Row((Cell((wording,), span=len(_COLUMNS)),), air=(2.0, 2.0))
