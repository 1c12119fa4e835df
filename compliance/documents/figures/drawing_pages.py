"""The sheets of drawings: floor plan, elevations, sections and details, as many on a sheet as fit."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

from reportlab.platypus.doctemplate import FrameBreak, NextPageTemplate
from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.elements.theme import Paper
from compliance.documents.elements.title_block import column_paper, whole_paper
from compliance.documents.figures.drawing_block import GAP, PAD, DrawingBlock, Issue, least_height
from compliance.documents.figures.drawing_ink import letters
from compliance.documents.figures.drawing_legend import legend
from compliance.documents.figures.drawing_subjects import earth_of, plan_subject, wall_subjects
from compliance.documents.figures.schedule_sheets import (
    ELEVATIONS,
    SECTIONS,
    schedule_sheets,
    schedule_tables,
    schedules_beside,
)
from compliance.documents.page.book import DRAWN_IN_TWO, DRAWN_WHOLE, SheetSeries
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Anchor, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.drawings.common.board import TextMetrics
from compliance.drawings.common.draft import Cut, Draft
from compliance.drawings.common.lettering import LEAST
from compliance.drawings.common.wall_types import WallType, wall_types
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.drawings.elevation.wall_face import WallSubject
from compliance.drawings.framing.foundation_plan import foundation_plan
from compliance.drawings.framing.roof_plan import roof_plan
from compliance.drawings.framing.side_elevations import Outside, side_elevations
from compliance.drawings.framing.site_plan import site_plan
from compliance.drawings.plan.plan_drawing import plans
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.drawings.section.details import bond_beam_detail
from compliance.drawings.section.section_drawing import section
from compliance.model.project import Project
from compliance.record import record, replace
from compliance.report.by_rule import SetFindings
from compliance.units import Writer

_INTRODUCTION = (
    "To the scale named under each drawing when printed at full size; the bar stays right at any size. They show what "
    "the project describes and name what it does not. In elevations lengths run along the centerline of the wall, at "
    "a corner to the centerline of the other wall, and heights start at the top of the stem wall; a mark with the "
    "code of a rule stands where that rule finds a limit passed."
)
_AROUND, _AROUND_WALL = 66.0, 88.0
"""Kept for frame, sentences and title line of a drawing, and of elevations, in points."""
_AROUND_PLAN = 126.0
_WITH_LEAD = "A-1"
"""The series that begins with the legend."""
_SLACK = 2.0
_MOST_AIR = 0.6
"""How much of its own height a drawing may gain where a page has room."""
_UNDER_LEAD = 4.0
_AND_SCHEDULES = ", schedules"


@record
class _Group:
    """Drawings of one kind, the first of which bears the heading."""

    heading: Anchor | None
    drafts: Sequence[Draft]


@record
class _Placed:
    heading: Anchor | None
    draft: Draft
    height: float


@record
class _Series:
    """Sheets numbered together: their drawings, on the whole of a sheet or in its two columns."""

    number: str
    title: str
    template: str
    groups: Sequence[_Group]


def drawings(checked: Checked, sets: tuple[SetFindings, ...], paper: Paper) -> list[Any]:
    """The sheets on `paper`, one series after the other; nothing where no wall has a place in the plan."""
    if not checked.facts.views:
        return []
    whole, column = whole_paper(paper), column_paper(paper)
    lead = _lead(whole)
    issue = Issue(checked.project.project.units, checked.project.project.revision)
    taken = lead.wrap(whole.body_width, 1e6)[1] + _UNDER_LEAD
    laid_out = []
    for series in _all_series(checked, sets, whole=whole, column=column, lead=taken):
        on = whole if series.template == DRAWN_WHOLE else column
        laid_out.append((series, on, list(_paged(series.groups, on, taken if series.number == _WITH_LEAD else 0.0))))
    tables = schedule_tables(checked)
    free = {series.number: _free(pages, on) for series, on, pages in laid_out if series.template == DRAWN_IN_TWO}
    beside = schedules_beside(tables, free, column.body_width)
    story: list[Any] = []
    unset: list[tuple[str, str]] = []
    for series, on, pages in laid_out:
        first = taken if series.number == _WITH_LEAD else 0.0
        title = f"{series.title}{_AND_SCHEDULES if series.number in beside else ''}"
        story += [NextPageTemplate(series.template), PageBreak(), SheetSeries(series.number, title)]
        story += [lead] if first else []
        for number, page in enumerate(pages):
            story += [FrameBreak()] if number else []
            room = _room(on) - (first if number == 0 else 0.0)
            for one in _stretched(page, room, last=number == len(pages) - 1):
                block = DrawingBlock(
                    one.draft, heading=one.heading, width=on.body_width, height=one.height, issue=issue
                )
                story.append(block)
                unset += [(block.drawing.name, text) for text in block.drawing.unset]
        for number, some in enumerate(beside.get(series.number, ())):
            story += [FrameBreak(), *some] if number else some
    left_over = _left_over(unset)
    return [*story, *schedule_sheets([*([] if beside else tables), *left_over])]


def _lead(paper: Paper) -> Sheet:
    """What holds for all drawings, and the legend over the plan."""
    anchor = Anchor("drawings-plan", "Floor plan", 1)
    rows = [full_row(Words(_INTRODUCTION, theme.CELL, after=3.0), legend(paper.body_width), anchor=anchor)]
    return Sheet((Column(share=1),), (), lead=rows, below=_UNDER_LEAD).lettered(LEAST)


def _all_series(
    checked: Checked, sets: tuple[SetFindings, ...], whole: Paper, column: Paper, lead: float
) -> Iterator[_Series]:
    project, views = checked.project, checked.facts.views
    metrics = TextMetrics(letters, Writer(project.project.units))
    width, across = column.body_width - 2 * PAD, whole.body_width - 2 * PAD
    subjects, tall = wall_subjects(checked, sets, is_scheduled=True), _room(column)
    types = wall_types(project, views, {one.view.mark: one.flags for one in subjects})
    cuts = [Cut(one.walls[0], number=str(number), key=one.key) for number, one in enumerate(types, start=1)]
    cut_of = {mark: cut for one, cut in zip(types, cuts, strict=True) for mark in one.walls}
    subjects = [replace(one, cut=cut_of[one.view.mark]) for one in subjects]
    plan = replace(plan_subject(checked, subjects), cuts=tuple(cuts))
    room, half = _room(whole) - lead, (tall - GAP) / 2 - _AROUND_WALL

    def planned(less: float) -> Sequence[Draft]:
        return plans(plan, metrics, across, room - _AROUND - less)

    def elevated(one: WallSubject, less: float) -> Sequence[Draft]:
        return elevations(one, metrics, width, (half, tall - _AROUND_WALL - less))

    def cut(one: WallType, less: float) -> Sequence[Draft]:
        return (
            section(
                one,
                mix=earth_of(checked, one.parts.wall.mix),
                metrics=metrics,
                width=width,
                tallest=tall - _AROUND - less,
                number=cut_of[one.walls[0]].number,
            ),
        )

    if project.site_plan is not None:
        site = site_plan(project.site_plan, plan, metrics=metrics, width=across, tallest=_room(whole) - _AROUND_PLAN)
        yield _Series("C-1", "Site plan", DRAWN_WHOLE, (_Group(Anchor("drawings-site", "Site plan", 1), (site,)),))
    drafts = _fitting(planned, None, room, whole)
    yield _Series("A-1", "Floor plan", DRAWN_WHOLE, (_Group(None, drafts),))
    outside = Outside(subjects, views=views, roofs=project.roofs, north=plan.north)
    heading = Anchor("drawings-sides", "Elevations of all sides", 1)
    sides = side_elevations(outside, metrics, width, half)
    groups: tuple[_Group, ...] = (_Group(heading, sides),) if sides else ()
    heading = Anchor("drawings-elevations", "Elevations", 1)
    drafts = [draft for one in subjects for draft in _fitting(partial(elevated, one), heading, tall, column)]
    yield _Series(ELEVATIONS, "Elevations", DRAWN_IN_TWO, (*groups, _Group(heading, drafts)))
    heading = Anchor("drawings-sections", "Sections", 1)
    sections = [draft for one in types for draft in _fitting(partial(cut, one), heading, tall, column)]
    users = {
        mark: {name: view for name, view in views.items() if project.walls[name].beam == mark} for mark in project.beams
    }
    details = [
        bond_beam_detail(mark, beam=beam, views=users[mark], metrics=metrics, width=width)
        for mark, beam in project.beams.items()
        if users[mark]
    ]
    groups = (_Group(heading, sections), _Group(Anchor("drawings-details", "Details", 1), details))
    yield _Series(SECTIONS, "Sections and details", DRAWN_IN_TWO, groups)
    structural = tuple(_structural(project, plan, metrics, whole))
    yield _Series("S-1", "Foundation and roof framing plans", DRAWN_WHOLE, structural)


def _structural(project: Project, plan: PlanSubject, metrics: TextMetrics, whole: Paper) -> Iterator[_Group]:
    """The foundation plan, and the plan of the roof where one is described."""
    tall, width = _room(whole), whole.body_width - 2 * PAD
    for anchor, make in (
        (Anchor("drawings-foundation", "Foundation plan", 1), foundation_plan),
        (Anchor("drawings-roof", "Roof framing plan", 1), roof_plan),
    ):
        draft = make(project, plan, metrics=metrics, width=width, tallest=tall - _AROUND_PLAN)
        if draft is not None:
            yield _Group(anchor, (draft,))


def _fitting(
    make: Callable[[float], Sequence[Draft]], heading: Anchor | None, room: float, paper: Paper
) -> Sequence[Draft]:
    """What `make` gives with nothing taken off its height; with many sentences under a drawing, with as much taken off
    as they need. Each is counted as if it bore the heading."""
    drafts = make(0.0)
    over = max((least_height(one, heading, paper.body_width) - room for one in drafts), default=0.0)
    return make(over) if over > 0 else drafts


def _room(paper: Paper) -> float:
    return paper.body_height - _SLACK


def _paged(groups: Sequence[_Group], paper: Paper, lead: float) -> Iterator[list[_Placed]]:
    """As many drawings on a page as fit at their least height, in their order."""
    page: list[_Placed] = []
    left = _room(paper) - lead
    for group in groups:
        for index, draft in enumerate(group.drafts):
            heading = None if index else group.heading
            height = least_height(draft, heading, paper.body_width)
            if page and height + GAP > left:
                yield page
                page, left = [], _room(paper)
            left -= height + (GAP if page else 0.0)
            page.append(_Placed(heading, draft, height))
    if page:
        yield page


def _stretched(page: Sequence[_Placed], room: float, last: bool) -> list[_Placed]:
    """What is left of a page goes to its drawings alike, but none floats in it; the last page of the section may end
    early."""
    taken = sum(one.height for one in page) + GAP * (len(page) - 1)
    more = 0.0 if last else max(room - taken, 0.0) / len(page)
    return [_Placed(one.heading, one.draft, math.floor(one.height + min(more, _MOST_AIR * one.height))) for one in page]


def _free(columns: Sequence[Sequence[_Placed]], paper: Paper) -> list[float]:
    """What is free on the last sheet of two columns, in points: under its last drawing, and beside it."""
    if not columns:
        return []
    under = _room(paper) - sum(one.height + GAP for one in columns[-1])
    return [under, _room(paper)] if len(columns) % 2 else [under]


def _left_over(unset: Sequence[tuple[str, str]]) -> list[Sheet]:
    """Marks and lengths for which a drawing had no room: nothing is lost for want of paper."""
    if not unset:
        return []
    lead = part(
        "drawings-unset",
        "What had no room on a drawing",
        "Marks and lengths that could not be set without running into others. They hold like those on the drawings.",
    )
    rows = [Row((cell(name, theme.CELL_BOLD), cell(text))) for name, text in unset]
    return [Sheet((Column(share=2), Column(share=3)), rows, head=[head_row("Drawing", "Mark or length")], lead=lead)]
