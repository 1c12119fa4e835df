"""The section of drawings: plan, elevations, sections and details, several to a page where they fit."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part, title
from compliance.documents.elements.theme import Paper
from compliance.documents.figures.drawing_block import GAP, PAD, DrawingBlock, Issue, least_height
from compliance.documents.figures.drawing_ink import letters
from compliance.documents.figures.drawing_legend import legend
from compliance.documents.figures.drawing_subjects import earth_of, wall_subjects
from compliance.documents.page.rows import Anchor, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.drawings.common.board import TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.wall_types import WallType, wall_types
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.drawings.elevation.wall_face import WallSubject
from compliance.drawings.plan.plan_drawing import plans
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.drawings.section.details import bond_beam_detail
from compliance.drawings.section.section_drawing import section
from compliance.record import record
from compliance.report.by_rule import SetFindings
from compliance.units import Writer

_INTRODUCTION = (
    "To the scale named under each drawing when printed at full size; the bar stays right at any size. They show what "
    "the project describes and name what it does not. In elevations lengths run along the centre line of the wall, at "
    "a corner to the centre line of the other wall, and heights start at the top of the stem wall; a mark with the "
    "code of a rule stands where that rule finds a limit passed."
)
_AROUND, _AROUND_WALL = 76.0, 90.0
"""Kept for frame, sentences and title line of a drawing, and of an elevation, in points."""
_SLACK = 2.0
_MOST_AIR = 0.6
"""How much of its own height a drawing may gain where a page has room."""
_UNDER_LEAD = 4.0


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


def drawings(checked: Checked, sets: tuple[SetFindings, ...], paper: Paper) -> list[Any]:
    """The whole section; nothing where no wall has a place in the plan."""
    if not checked.facts.views:
        return []
    lead = _lead(paper)
    issue = Issue(checked.project.project.units, checked.project.project.revision)
    taken = lead.wrap(paper.body_width, 1e6)[1] + _UNDER_LEAD
    groups = list(_groups(checked, sets, paper, taken))
    story: list[Any] = []
    unset: list[tuple[str, str]] = []
    pages = list(_paged(groups, paper, taken))
    for number, page in enumerate(pages):
        story += [PageBreak(), lead] if number == 0 else [PageBreak()]
        room = _room(paper) - (taken if number == 0 else 0.0)
        for one in _stretched(page, room, last=number == len(pages) - 1):
            story.append(
                block := DrawingBlock(
                    one.draft, heading=one.heading, width=paper.body_width, height=one.height, issue=issue
                )
            )
            unset += [(block.drawing.name, text) for text in block.drawing.unset]
    return [*story, *_left_over(unset)]


def _lead(paper: Paper) -> Sheet:
    """Title, what holds for all drawings, and the legend over the plan."""
    anchor = Anchor("drawings-plan", "Plan", 1)
    rows = [*title("drawings", "Drawings", _INTRODUCTION), full_row(legend(paper.body_width), anchor=anchor)]
    return Sheet((Column(share=1),), (), lead=rows, below=_UNDER_LEAD)


def _groups(checked: Checked, sets: tuple[SetFindings, ...], paper: Paper, lead: float) -> Iterator[_Group]:
    project, views = checked.project, checked.facts.views
    metrics, width = TextMetrics(letters, Writer(project.project.units)), paper.body_width - 2 * PAD
    subjects, whole = wall_subjects(checked, sets), _room(paper)
    outside = {one.view.mark: one.outside for one in subjects}
    north = project.site.north.si if project.site.north else None
    plan = PlanSubject(views, walls=project.walls, buttresses=project.buttresses, outside=outside, north=north)
    room, half = whole - lead, (whole - GAP) / 2 - _AROUND_WALL

    def planned(less: float) -> Sequence[Draft]:
        return plans(plan, metrics, width, room - _AROUND - less)

    def elevated(one: WallSubject, less: float) -> Sequence[Draft]:
        return elevations(one, metrics, width, (half, whole - _AROUND_WALL - less))

    def cut(one: WallType, less: float) -> Sequence[Draft]:
        return (
            section(
                one,
                mix=earth_of(checked, one.parts.wall.mix),
                metrics=metrics,
                width=width,
                tallest=whole - _AROUND - less,
            ),
        )

    yield _Group(None, _fitting(planned, None, room, paper))
    heading = Anchor("drawings-elevations", "Elevations", 1)
    drafts = [draft for one in subjects for draft in _fitting(partial(elevated, one), heading, whole, paper)]
    yield _Group(heading, drafts)
    heading = Anchor("drawings-sections", "Sections", 1)
    types = wall_types(project, views, {one.view.mark: one.flags for one in subjects})
    yield _Group(heading, [draft for one in types for draft in _fitting(partial(cut, one), heading, whole, paper)])
    users = {mark: [name for name in views if project.walls[name].beam == mark] for mark in project.beams}
    drafts = [
        bond_beam_detail(mark, beam=beam, walls=users[mark], metrics=metrics, width=width)
        for mark, beam in project.beams.items()
        if users[mark]
    ]
    yield _Group(Anchor("drawings-details", "Details", 1), drafts)


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


def _left_over(unset: Sequence[tuple[str, str]]) -> list[Any]:
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
