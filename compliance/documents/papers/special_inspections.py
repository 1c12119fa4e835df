"""The statement of special inspections: what is looked at, at which stage, to which values, by whom, and its standing.

Items of the statement: IBC 2021, 1704.3.1 and 1705.1.1 (read in copies of the adopted code).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, running_text, title
from compliance.documents.elements.sign_lines import Tag
from compliance.documents.elements.tick_boxes import TickBoxes
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.report.by_rule import SetFindings
from compliance.report.grouping import subjects
from compliance.report.inspection_points import SitePoint, site_points
from compliance.report.summaries.inspection_values import required_values
from compliance.report.summaries.place_cautions import place_cautions

_INTRODUCTION = (
    "In the order of the work. At a hold point nobody goes on before it has been passed; at a witness point those "
    "named are invited in time, and the work may go on without them. The official may require special inspection of an "
    "alternative material (IBC 1705.1.1); the office, or the design professional in charge, marks each as continuous "
    "(C) or periodic (P)."
)
_AGENCY = (
    "The owner, not the contractor, hires the agency and names it to the official "
    "before the work begins; it has no interest in the work. Reports go to the official and to the design professional "
    "in charge, say whether the work conforms, and name discrepancies before the phase ends; a final report follows "
    "(IBC 1704.2). Inspections that the code or the permit asks for besides come on top of these."
)
_NONE = (
    "The rule sets of this project name no point of inspection. That does not mean that nobody need look: ask the "
    "official which inspections the adopted code and the permit ask for."
)
_COLUMNS = (Column(58), Column(share=4), Column(share=5), Column(56), Column(34), Column(60))
_HEAD = head_row("Point", "What is inspected", "Required, and recorded", "Who", "Extent", "State")
_TAG = theme.Style(theme.CELL_BOLD.face, 8.0, 9.6)


def special_inspections(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    points = site_points(sets, checked.project.footings)
    lead = title("inspections", "Statement of special inspections", _INTRODUCTION if points else _NONE)
    cautions = (f"{_agency(checked)} {_AGENCY}", *place_cautions(checked, "inspections"))
    lead += [full_row(Words(text, theme.CELL, after=4.0)) for text in cautions]
    if not points:
        return [*on_this_page(), running_text(lead)]
    rows = [row for stage in _by_stage(points) for row in _stage(checked, stage)]
    return [*on_this_page(), Sheet(_COLUMNS, rows, head=[_HEAD], lead=lead, below=12)]


def _agency(checked: Checked) -> str:
    """Who inspects, and by which accreditation."""
    named = checked.project.people.inspection_agency
    if named is None:
        return "Agency for special inspections: not given."
    who = ", ".join(text for text in (named.name, named.firm, named.contact) if text)
    return f"Agency for special inspections: {who}; accreditation: {named.accreditation or 'not given'}."


def _by_stage(points: Sequence[SitePoint]) -> list[list[SitePoint]]:
    stages: dict[str, list[SitePoint]] = {}
    for point in points:
        stages.setdefault(point.stage, []).append(point)
    return list(stages.values())


def _stage(checked: Checked, points: Sequence[SitePoint]) -> list[Row]:
    """The stage's name, kept with its first point; then a row for each point."""
    head = Row((cell(points[0].stage, theme.BODY_BOLD, span=6),), ruled=False, air=(4.0, 0.0))
    return [head, *(_point(checked, point, joined=index == 0) for index, point in enumerate(points))]


def _point(checked: Checked, point: SitePoint, joined: bool) -> Row:
    inspect, first = point.inspect, point.group.first
    named = (
        Words(point.code, theme.CELL_BOLD),
        Words(first.clause, theme.CELL_SMALL),
        Tag(point.kind_word, point.is_hold, _TAG),
    )
    looked = (
        Words(first.title, theme.CELL_BOLD),
        Words(point.looked_at.look_at, theme.CELL),
    )
    values = [Words(one.text, theme.CELL) for one in required_values(checked, point)]
    required = (*(values or [Words(first.say, theme.CELL)]), Words(f"Record: {point.record_text}", theme.CELL_SMALL))
    return Row(
        (
            Cell(named),
            Cell(looked),
            Cell(required),
            cell(inspect.who),
            Cell((TickBoxes(("C", "P"), False, theme.CELL),)),
            Cell(tuple(Words(text, theme.CELL_SMALL) for text in _state(point))),
        ),
        joined=joined,
        anchor=Anchor(point.key),
        air=(1.4, 1.8),
    )


def _state(point: SitePoint) -> list[str]:
    """What was passed and what waits."""
    found = []
    if point.passed:
        found.append(f"passed: {subjects(point.passed)}")
    if point.to_look_at:
        found.append(f"waits: {subjects(point.to_look_at)}")
    return found
