"""Wall by wall: height, strength, inspection and items requiring action, each with the page that tells more."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from typing import Any

from compliance.checked import Checked
from compliance.documents.calculations.wall_sheets import sheet_key
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.elements.tick_boxes import FewLines
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.page_refs import PageOf, Reference
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.drawings.common.draft import elevation_key
from compliance.findings import Finding
from compliance.model.walls import Wall
from compliance.report.by_rule import SetFindings
from compliance.report.inspection_points import SitePoint, site_points
from compliance.report.marks import mark_of
from compliance.report.result_words import format_result
from compliance.report.value_words import counted
from compliance.report.wall_evidence import WallEvidence, WallFinding, wall_evidence
from compliance.units import Writer

_INTRODUCTION = (
    "One place for each wall: the checks of its height, the evidence of its strength, when it is looked at, and what "
    "requires action. The last column is the page of the calculation."
)
_COLUMNS = (Column(30), Column(share=5), Column(share=4), Column(130), Column(26))
_HEAD = head_row("Code", "Check", "Result and limit", "Outcome", "Page", right=(4,))
_AIR = (1.0, 1.4)
_MOST_ASKING = 14


def wall_key(mark: str) -> str:
    """The place in the document where a wall is told of."""
    return f"wall-{mark}"


def wall_pages(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    writer = Writer(checked.project.project.units)
    lead = title("walls-each", "Wall by wall", _INTRODUCTION)
    story: list[Any] = []
    for one in wall_evidence(checked, sets, site_points(sets)):
        story += on_this_page()
        carried = [full_row(Words(f"{one.mark}, continued", theme.CELL_BOLD, after=2.0))]
        rows = list(_rows(one, writer))
        story.append(Sheet(_COLUMNS, rows, head=[_HEAD], lead=[*lead, _name(checked, one, writer)], carried=carried))
        lead = []
    return story


def _name(checked: Checked, one: WallEvidence, writer: Writer) -> Row:
    """Mark and name, what the wall is, and the way to its drawing."""
    wall = checked.project.walls[one.mark]
    heading = f"{one.mark}  ·  {wall.name}" if wall.name else one.mark
    parts: list[Part] = [
        Words(heading, theme.SUBSECTION, after=1.0),
        Words(_described(checked, one.mark, wall, writer), theme.SMALL),
        Reference("Elevation", elevation_key(one.mark), theme.SMALL_ITALIC, leads=True),
        Reference("Calculation sheet", sheet_key(one.mark), theme.SMALL_ITALIC, leads=True),
    ]
    return full_row(*parts, anchor=Anchor(wall_key(one.mark), heading, 1, listed=False), air=(6.0, 3.0))


def _described(checked: Checked, mark: str, wall: Wall, writer: Writer) -> str:
    subject = checked.facts.of("wall")[mark]
    phrases = []
    for name, label, kind in (
        ("wall.length", "long", "length"), ("wall.height", "high", "length"),
        ("wall.base_thickness", "thick at the base", "thickness"),
        ("wall.least_thickness", "at the least", "thickness"),
    ):  # fmt: skip
        value = subject.fact(name).value
        phrases.append(f"{writer.write(value, kind)} {label}" if isinstance(value, float) else f"not known how {label}")
    parts = [f"{label} {part}" for label, part in _parts_of(wall) if part]
    openings = counted(len(wall.openings), "opening") if wall.openings else "no opening"
    return f"{', '.join(phrases)}; {openings}; {', '.join(parts) or 'no parts named'}."


def _parts_of(wall: Wall) -> tuple[tuple[str, str | None], ...]:
    return ("mix", wall.mix), ("stem wall", wall.stem), ("footing", wall.footing), ("bond beam", wall.beam)


def _rows(one: WallEvidence, writer: Writer) -> Iterator[Row]:
    yield from _part("Height", _findings(one.height, writer), "No rule judges the height of this wall.")
    yield from _part("Strength", _findings(one.strength, writer), "No evidence of strength is asked for.")
    yield from _part("Inspection", _points(one), "No point of inspection concerns this wall.")
    asking = _findings(one.asking, writer)
    over = len(asking) - _MOST_ASKING
    asking = asking[:_MOST_ASKING]
    more = [f"{counted(over, 'rule')} more ask for something"] if over > 0 else []
    more += [f"{counted(one.open, 'finding waits', 'findings wait')} for a limit or rule"] if one.open else []
    if more:
        left = Reference(f"{'; '.join(more)}: Items requiring action", "first", theme.CELL_SMALL)
        asking.append(Row((Cell((left,), span=5),), air=_AIR))
    yield from _part("Requires action", asking, "Nothing else of this wall requires action.")


def _part(name: str, rows: Sequence[Row], without: str) -> Iterator[Row]:
    """A heading kept with its first row."""
    yield Row((cell(name, theme.HEADING, span=5),), ruled=False, air=(3.0, 0.0))
    first, *rest = rows or [Row((Cell((Words(without, theme.CELL_SMALL),), span=5),), air=_AIR)]
    yield Row(first.cells, joined=True, ruled=first.ruled, air=first.air)
    yield from rest


def _findings(shown: Sequence[WallFinding], writer: Writer) -> list[Row]:
    """A row for each finding; those of one rule that say the same share one."""
    same: dict[tuple[str, str, str], list[WallFinding]] = {}
    for one in shown:
        key = (one.group.code, one.finding.verdict, format_result(one.finding, writer))
        same.setdefault(key, []).append(one)
    return [_row(alike, verdict, figures) for (_, verdict, figures), alike in same.items()]


def _row(alike: Sequence[WallFinding], verdict: str, figures: str) -> Row:
    finding, group = alike[0].finding, alike[0].group
    subjects = [one.finding.subject for one in alike if one.finding.subject != one.finding.wall]
    name = f"{finding.title}: {', '.join(subjects)}" if subjects else finding.title
    cells = (
        cell(group.code, theme.CELL_BOLD, link=group.key),
        Cell((FewLines(name, theme.CELL, 2),)),
        Cell((FewLines(figures, theme.CELL, 2),)),
        Cell((Marked(mark_of(finding), verdict, theme.CELL),)),
        Cell((PageOf(group.key, theme.NUMBER),), link=group.key),
    )
    return Row(cells, air=_AIR)


def _points(one: WallEvidence) -> list[Row]:
    """Two points beside each other, each with the page of the plan where it is signed."""
    lines = [Reference(_point(point, found), point.key, theme.CELL) for point, found in one.points]
    half = -(-len(lines) // 2)
    pairs = list(zip_longest(lines[:half], lines[half:]))
    left = tuple(pair[0] for pair in pairs)
    right = tuple(pair[1] for pair in pairs if pair[1])
    return [Row((Cell(left, span=2), Cell(right, span=3)), air=_AIR)] if lines else []


def _point(point: SitePoint, found: Sequence[Finding]) -> str:
    passed = {id(one) for one in point.passed}
    left = [one.subject for one in found if id(one) not in passed]
    state = f"wait: {', '.join(left)}" if left else "passed"
    return f"{point.code} {point.inspect.point}: {point.stage} ({state})"
