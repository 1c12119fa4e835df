"""Wall by wall, two to a page: what each wall is, its checks nearest to their limits, its items and its hold points."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from reportlab.platypus.flowables import CondPageBreak

from compliance.checked import Checked
from compliance.documents.calculations.wall_sheets import are_there_wall_sheets, sheet_key
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.page_refs import Finder, Reference
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.schedule import own_length, run_on
from compliance.drawings.common.draft import elevation_key
from compliance.findings import Finding, Outcome
from compliance.model.walls import Wall
from compliance.report.by_rule import SetFindings
from compliance.report.inspection_points import SitePoint, site_points
from compliance.report.mark_runs import in_runs
from compliance.report.marks import mark_of
from compliance.report.result_words import format_result
from compliance.report.summaries.action_items import ActionItem, items_of_walls
from compliance.report.value_words import counted
from compliance.report.wall_evidence import WallEvidence, WallFinding, wall_evidence
from compliance.units import Writer

_INTRODUCTION = (
    "Of each wall the checks of its height, then those met with the least margin, limits to be confirmed "
    "among them. What requires action is named by the number of its item; every other check stands in the "
    "calculations."
)
_COLUMNS = (Column(30), Column(share=5), Column(share=4), Column(118))
_HEAD = head_row("Code", "Check met", "Result and limit", "Outcome")
_AIR = (1.0, 1.4)
_MOST_CHECKS = 7
_MOST_FOUND = 60
_ROOM = 250.0
"""A wall begins on the page it finds where as much is left, in points."""


def wall_key(mark: str) -> str:
    """The place in the document where a wall is told of."""
    return f"wall-{mark}"


def wall_pages(checked: Checked, sets: tuple[SetFindings, ...], items: Sequence[ActionItem]) -> list[Any]:
    writer, numbers = Writer(checked.project.project.units), items_of_walls(items)
    lead = title("walls-each", "Wall by wall", _INTRODUCTION)
    story: list[Any] = on_this_page()
    has_sheets = are_there_wall_sheets(checked, sets)
    for one in wall_evidence(checked, sets, site_points(sets)):
        story.append(CondPageBreak(_ROOM))
        rows = [*_checks(checked, sets, one, writer), *_below(one, numbers)]
        story.append(
            Sheet(_COLUMNS, rows, head=[_HEAD], lead=[*lead, _name(checked, one, writer, has_sheets)], below=8)
        )
        lead = []
    return story


def wall_finder(checked: Checked) -> Sheet:
    """The way to each wall, under the contents."""
    walls = list(checked.project.walls)
    shown = tuple((wall, wall_key(wall)) for wall in walls[:_MOST_FOUND])
    parts: list[Part] = [Finder(shown, theme.CELL_BOLD)]
    if len(walls) > _MOST_FOUND:
        parts.append(Reference(f"and {len(walls) - _MOST_FOUND} walls more", "walls-each", theme.CELL))
    heading = Words("Find a wall", theme.HEADING)
    return Sheet((Column(share=1),), [Row((Cell(tuple(parts)),))], lead=[full_row(heading, air=(0.0, 1.0))], below=10)


def _name(checked: Checked, one: WallEvidence, writer: Writer, has_sheet: bool) -> Row:
    """Mark and name, what the wall is, and the way to its drawing and its calculation."""
    wall = checked.project.walls[one.mark]
    heading = f"{one.mark}  ·  {wall.name}" if wall.name else one.mark
    parts: list[Part] = [
        Words(heading, theme.SUBSECTION, after=1.0),
        Words(_described(checked, one.mark, wall, writer), theme.CELL),
        Reference("Elevation", elevation_key(one.mark), theme.CELL_SMALL, leads=True, far=True),
    ]
    if has_sheet:
        parts.append(Reference("Calculation sheet", sheet_key(one.mark), theme.CELL_SMALL, leads=True, far=True))
    return full_row(*parts, anchor=Anchor(wall_key(one.mark), heading, 1, listed=False), air=(4.0, 2.0))


def _described(checked: Checked, mark: str, wall: Wall, writer: Writer) -> str:
    subject = checked.facts.of("wall")[mark]
    phrases = [f"{own_length(checked, subject, writer)} long"]
    for name, label, kind in (
        ("wall.height", "high", "length"),
        ("wall.base_thickness", "thick at the base", "thickness"),
        ("wall.least_thickness", "at the thinnest", "thickness"),
    ):  # fmt: skip
        value = subject.fact(name).value
        phrases.append(f"{writer.write(value, kind)} {label}" if isinstance(value, float) else f"not known how {label}")
    parts = [f"{label} {part}" for label, part in _parts_of(wall) if part]
    if others := [one for one in run_on(checked, mark) if one != mark]:
        phrases.append(f"one wall with {', '.join(others)}")
    openings = counted(len(wall.openings), "opening") if wall.openings else "no opening"
    return f"{', '.join(phrases)}; {openings}; {', '.join(parts) or 'no parts named'}."


def _parts_of(wall: Wall) -> tuple[tuple[str, str | None], ...]:
    return ("mix", wall.mix), ("stem wall", wall.stem), ("footing", wall.footing), ("bond beam", wall.beam)


def _checks(checked: Checked, sets: tuple[SetFindings, ...], one: WallEvidence, writer: Writer) -> Iterator[Row]:
    """The checks met, the least margin first; those of height and strength before others of the same margin."""
    met = [
        WallFinding(group, finding)
        for of_set in sets
        for group in of_set.rules
        for finding in group.judged
        if finding.wall == one.mark and finding.outcome is Outcome.MEETS and finding.margin is not None
    ]
    measured = [found for found in met if found.finding.value is not None and found.finding.value.kind != "count"]
    of_height = {id(found.finding) for found in one.height}
    shown = sorted(measured, key=lambda found: (id(found.finding) not in of_height, found.finding.margin or 0.0))
    rows = 0
    same: dict[tuple[str, str], list[WallFinding]] = {}
    for found in shown:
        same.setdefault((found.group.code, format_result(found.finding, writer)), []).append(found)
    for (_, figures), alike in same.items():
        if rows == _MOST_CHECKS:
            break
        rows += 1
        yield _check(alike, figures)
    if not rows:
        yield Row((Cell((Words("No check of this wall is met with a margin.", theme.CELL_SMALL),), span=4),), air=_AIR)


def _check(alike: Sequence[WallFinding], figures: str) -> Row:
    finding, group = alike[0].finding, alike[0].group
    marks = [one.finding.subject for one in alike if one.finding.subject != one.finding.wall]
    name = f"{finding.title}: {', '.join(in_runs(marks))}" if marks else finding.title
    cells = (
        cell(group.code, theme.CELL_BOLD, link=group.key),
        cell(name),
        cell(figures),
        Cell((Marked(mark_of(finding), finding.verdict, theme.CELL),)),
    )
    return Row(cells, air=_AIR)


def _below(one: WallEvidence, numbers: Mapping[str, tuple[int, ...]]) -> Iterator[Row]:
    """The numbers of its items, what waits for a limit, and its hold points."""
    found = numbers.get(one.mark, ())
    text = f"Items {', '.join(map(str, found))}" if found else "No item of its own"
    waits = f"; {counted(one.open, 'finding waits', 'findings wait')} for a limit or rule" if one.open else ""
    key = f"item-{found[0]}" if found else "items"
    yield Row(
        (cell("Items", theme.LABEL), Cell((Reference(f"{text}{waits}", key, theme.CELL),), span=3)),
        joined=True,
        air=_AIR,
    )
    stages: dict[str, dict[str, None]] = {}
    for point, at_point in one.points:
        stages.setdefault(point.stage.lower(), {})[_point(point, at_point)] = None
    if stages:
        points = "; ".join(f"{stage} ({'; '.join(states)})" for stage, states in stages.items())
        link = Reference(points, "inspections", theme.CELL)
        yield Row((cell("Site", theme.LABEL), Cell((link,), span=3)), joined=True, air=_AIR)


def _point(point: SitePoint, found: Sequence[Finding]) -> str:
    done = {id(one) for one in point.passed}
    state = "passed" if all(id(one) in done for one in found) else "waits"
    return f"{'hold' if point.is_hold else 'witness'}, {state}"
