"""The inspection and test plan: points of the work in their order with room to sign, and the specimens to cast."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.rule_names import code_and_clause
from compliance.documents.elements.section_titles import on_this_page, running_text, title
from compliance.documents.elements.sign_lines import SignLines, Tag
from compliance.documents.inspection.specimens_to_cast import specimens_to_cast
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding
from compliance.report.by_rule import SetFindings
from compliance.report.inspection_points import SitePoint, site_points
from compliance.report.marks import mark_of
from compliance.report.words.plain_missing import plain_reasons
from compliance.units import Writer

HOLD, WITNESS = "HOLD", "WITNESS"
MEANING = (
    "At a hold point nobody goes on before it has been passed. At a witness point those named are invited in time, and "
    "the work may go on without them."
)
_INTRODUCTION = (
    f"What is looked at on site, in the order of the work. {MEANING} Inspections that the official or the code asks "
    "for besides come on top of these. Agree the days, and who is called, before the trench is dug."
)
_NONE = (
    "The rule sets of this project name no point of inspection. That does not mean that nobody need look: ask the "
    "official which inspections the adopted code and the permit ask for."
)
_COLUMNS = (Column(70), Column(share=1), Column(108))
_TAG = theme.Style(theme.CELL_BOLD.face, 8.0, 10.0)


def inspection_plan(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    points, writer = site_points(sets, checked.project.footings), Writer(checked.project.project.units)
    lead = title("inspections", "Inspection plan", _INTRODUCTION if points else _NONE)
    story = on_this_page()
    if points:
        head = head_row("Point", "What is looked at and written down", "Who")
        rows = [row for stage in _by_stage(points) for row in _stage(stage, writer)]
        story.append(Sheet(_COLUMNS, rows, head=[head], lead=lead, below=14))
    else:
        story.append(running_text(lead))
    return [*story, *specimens_to_cast(checked, sets)]


def _by_stage(points: tuple[SitePoint, ...]) -> list[list[SitePoint]]:
    stages: dict[str, list[SitePoint]] = {}
    for point in points:
        stages.setdefault(point.stage, []).append(point)
    return list(stages.values())


def _stage(points: list[SitePoint], writer: Writer) -> Iterator[Row]:
    """The stage's name, kept with its first point; then a point and its lines to sign, kept together."""
    yield Row((cell(points[0].stage, theme.RULE_TITLE, span=3),), ruled=False, air=(8.0, 0.0))
    for index, point in enumerate(points):
        yield from _point(point, writer, joined=index == 0)


def _point(point: SitePoint, writer: Writer, joined: bool) -> Iterator[Row]:
    inspect, first = point.inspect, point.group.first
    tag = Tag(HOLD if point.is_hold else WITNESS, point.is_hold, _TAG)
    looked = (
        Words(first.title, theme.CELL_BOLD),
        Words(point.looked_at.look_at, theme.CELL),
        Words(f"Write down: {point.record_text}", theme.CELL_SMALL),
        Words(f"{first.say} ({standing_of(point)})", theme.CELL_SMALL),
    )
    yield Row(
        (Cell((*code_and_clause(point.group), tag)), Cell(looked), cell(inspect.who)),
        joined=joined, ruled=False, anchor=Anchor(point.key), air=(3.0, 1.0),
    )  # fmt: skip
    yield Row((Cell(tuple(_results(point, writer)), span=3),), joined=True, air=(0.0, 4.0))


def standing_of(point: SitePoint) -> str:
    """How well the point is known: standing and source of its rule."""
    rule = point.rule
    return ", ".join(text for text in (rule.standing.value if rule.standing else "", rule.source) if text)


def _results(point: SitePoint, writer: Writer) -> list[Part]:
    """What is on record, then lines for what is still to be looked at."""
    parts: list[Part] = [Marked(mark_of(one), record_text(one, writer), theme.CELL) for one in point.recorded]
    parts += [Words(record_text(one, writer), theme.CELL) for one in point.unsure]
    names = tuple(named(one) for one in point.to_look_at)
    if names:
        parts.append(SignLines(names, theme.CELL))
    return parts


def named(finding: Finding) -> str:
    """The subject's mark; the kind where it has none."""
    return finding.subject


def record_text(finding: Finding, writer: Writer) -> str:
    return f"{named(finding)}: {plain_reasons([finding], writer)}"
