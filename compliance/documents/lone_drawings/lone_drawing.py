"""The plan, the elevation of a wall or its section by itself, with its frame, notes and scale bar, as PDF or SVG."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from compliance.checked import Checked
from compliance.documents.elements.theme import Paper, drawn_on
from compliance.documents.figures.drawing_block import PAD, DrawingBlock, Issue, least_height
from compliance.documents.figures.drawing_ink import letters
from compliance.documents.figures.drawing_subjects import earth_of, plan_subject, wall_subjects
from compliance.documents.lone_drawings.svg_canvas import SvgCanvas
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.drawings.common.board import TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.lettering import one_line
from compliance.drawings.common.wall_types import wall_types
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.drawings.plan.plan_drawing import plans
from compliance.drawings.section.section_drawing import section
from compliance.files.atomic_files import write_whole
from compliance.record import record
from compliance.report.by_rule import by_rule
from compliance.units import Writer

View = Literal["plan", "elevation", "section"]
_AROUND, _APART, _SECTION_WIDTH = 90.0, 12.0, 540.0
"""Points kept for notes and title line of a drawing, and between drawings; how wide a section is."""
_SCREENS = (560.0, 640.0, 720.0, 820.0, 940.0)
"""Widths of a plan on a screen, least first."""


def write_lone_drawing(checked: Checked, view: View, wall: str, path: Path) -> None:
    """Write to `path`, PDF or SVG by its ending: a view of the whole, or of a `wall` that stands in the plan. Raises
    DocumentError or OSError with nothing written."""
    if path.suffix.lower() == ".svg":
        write_whole(path, drawing_as_svg(checked, view, wall).encode())
        return
    blocks = _all_blocks(checked, view, wall)
    book = Book(head_of(checked, one_line(blocks[0].drawing.name)), _paper(checked), covered=False)
    write_whole(path, book.made(list(blocks)))


@record
class PlanPicture:
    """A plan as SVG, `width` by `height` points. `east` and `north` are where the coordinates 0, 0 of the description
    lie, from its upper left corner, and `per_metre` how many points a metre of the building takes."""

    svg: str
    width: float
    height: float
    east: float
    north: float
    per_metre: float


def plan_picture(checked: Checked) -> PlanPicture:
    """The plan for a screen, no wider than its scale asks for, and where its coordinates lie in it. Raises
    DocumentError."""
    register_faces()
    paper, metrics = _paper(checked), TextMetrics(letters, Writer(checked.project.project.units))
    subject = plan_subject(checked, wall_subjects(checked, by_rule(checked)))
    room = paper.body_height - _AROUND
    found = plans(subject, metrics, paper.body_width - 2 * PAD, room)
    width = paper.body_width
    for narrower in _SCREENS:
        drafts = plans(subject, metrics, narrower - 2 * PAD, room) if narrower < width else []
        if drafts and drafts[0].least == found[0].least:  # as tall: to the same scale
            found, width = drafts, narrower
            break
    blocks = _blocks(checked, found, width)
    first = blocks[0]
    assert first.drawing.origin is not None and first.drawing.scale is not None
    (left, low), (x, y) = first.drawing_at, first.drawing.origin
    return PlanPicture(
        _svg(blocks), width=first.width, height=_height(blocks), east=left + x, north=first.height - low - y,
        per_metre=first.drawing.scale.per_metre,
    )  # fmt: skip


def drawing_as_svg(checked: Checked, view: View, wall: str) -> str:
    """The text of a picture of the same. Raises DocumentError."""
    return _svg(_all_blocks(checked, view, wall))


def _all_blocks(checked: Checked, view: View, wall: str) -> list[DrawingBlock]:
    register_faces()
    paper = _paper(checked)
    width = paper.body_width if view != "section" else _SECTION_WIDTH
    return _blocks(checked, _drafts(checked, view=view, wall=wall, width=width, tallest=paper.body_height), width)


def _paper(checked: Checked) -> Paper:
    """A sheet of drawings with room for the running lines of a page."""
    head = checked.project.project
    sheet = drawn_on(head.paper, head.paper_of_drawings)
    return Paper(sheet.width, sheet.height)


def _drafts(checked: Checked, view: View, wall: str, width: float, tallest: float) -> Sequence[Draft]:
    metrics = TextMetrics(letters, Writer(checked.project.project.units))
    width, room = width - 2 * PAD, tallest - _AROUND
    subjects = wall_subjects(checked, by_rule(checked))
    if view == "plan":
        return plans(plan_subject(checked, subjects), metrics, width, room)
    if view == "elevation":
        of_wall = next(one for one in subjects if one.view.mark == wall)
        return elevations(of_wall, metrics, width, (room,))
    types = wall_types(checked.project, checked.facts.views, {one.view.mark: one.flags for one in subjects})
    cut = next(one for one in types if wall in one.walls)
    return (section(cut, mix=earth_of(checked, cut.parts.wall.mix), metrics=metrics, width=width, tallest=room),)


def _blocks(checked: Checked, drafts: Sequence[Draft], width: float) -> list[DrawingBlock]:
    issue = Issue(checked.project.project.units, checked.project.project.revision, stands_alone=True)
    return [
        DrawingBlock(
            one, heading=None, width=width, height=least_height(one, None, width, issue.block), issue=issue, level=0,
        )
        for one in drafts
    ]  # fmt: skip


def _height(blocks: Sequence[DrawingBlock]) -> float:
    return sum(one.height + _APART for one in blocks) - _APART


def _svg(blocks: Sequence[DrawingBlock]) -> str:
    """One under the other."""
    width, height = blocks[0].width, _height(blocks)
    canvas = SvgCanvas(width, height, one_line(blocks[0].drawing.name))
    top = height
    alts = []
    for one in blocks:
        top -= one.height
        canvas.saveState()
        canvas.translate(0.0, top)
        one.canv = canvas
        one.draw()
        canvas.restoreState()
        alts.append(canvas.alt)
        top -= _APART
    canvas.alt = " ".join(alts)
    return canvas.text()
