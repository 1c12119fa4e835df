"""The engineer's brief: for each wall on the list two pages with the question, what the wall is, what bears on it, what
its earth was tested to, what was taken for granted, what nobody knows, and how far the checks got."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.brief.brief_calculations import calculations, nearest
from compliance.documents.brief.brief_elevation import elevation_of
from compliance.documents.brief.brief_facts import (
    BUILDING,
    GEOMETRY,
    LOADS,
    SITE,
    LabeledText,
    Listed,
    assumed,
    doubted,
    fact_texts,
    material_texts,
    opening_texts,
    support_texts,
    unknown,
)
from compliance.documents.brief.page_count import pages_taken
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import running_text
from compliance.documents.elements.theme import PAPERS, Paper, Style
from compliance.documents.elements.tick_boxes import FewLines, FewParts, TickBoxes
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.judging.engineers_list import EngineerItem, engineers_list
from compliance.judging.reasons import RuleSays
from compliance.report.by_rule import SetFindings, by_rule
from compliance.report.marks import Mark
from compliance.report.result_words import format_result, is_in_words
from compliance.report.value_words import NOTHING
from compliance.units import Writer

PAGES = 2
"""Of one wall."""
CAUTION = (
    "A screening never replaces a design. What stands here is where a check against written rules stopped; verify "
    "every value, load and limit."
)
_QUESTION = (
    "Outside what the rules named here cover. Can it be built as described; with what reinforcement, ties or changes; "
    "or what has to be designed anew?"
)
_NONE = "Nothing in this project is marked engineer. That does not say that no engineer is needed."
_NOTHING_TAKEN = "nothing beyond what the project states"
_BESIDE = "Also calculated, within its limit, the nearest first"
_WORTH_MORE = 70.0
_MOST_OF_A_KIND = (10, 7, 4, 2, 1)
_ACROSS = 4
_DENSE = Style(theme.CELL_SMALL.face, 7.2, 9.0, theme.CELL_SMALL.colour)
_LESS = (16.0, 40.0, 80.0, 160.0, 1e6)
"""What the calculations give up, in points, where rows that do not fit leave ends of pages empty; at last all."""
_AIR = (0.8, 1.0)
_LONGEST = 110
_ANSWER = ("as described", "with changes as noted", "needs a design of its own")


def write_brief(checked: Checked, path: Path, walls: Sequence[str] = ()) -> None:
    """Write the brief of the walls named, or of all that are on the engineer's list, the building among them, to `path`
    as PDF. Raises ValueError for a wall that is not on it, DocumentError or OSError; nothing is written then."""
    register_faces()
    paper = PAPERS[checked.project.project.paper]
    if phrases := not_on_the_list(checked, walls):
        raise ValueError(phrases)
    items = engineers_list(checked.findings)
    sets = by_rule(checked)
    story: list[Any] = []
    for item in items:
        if not walls or item.wall in walls:
            story += [
                *([PageBreak()] if story else []),
                *_pages(checked, sets=sets, item=item, items=items, paper=paper),
            ]
    if not story:
        story = [running_text([full_row(Words(_NONE, theme.BODY))])]
    head = head_of(checked, "brief for the engineer", caution=CAUTION)
    Book(head, paper, covered=False).write(story, path)


def not_on_the_list(checked: Checked, walls: Sequence[str]) -> str:
    """What to say of the first wall that no rule leaves to an engineer; empty where there is none."""
    items = engineers_list(checked.findings)
    listed = {item.wall for item in items}
    named = ", ".join(item.called for item in items)
    for wall in walls:
        if wall not in listed:
            return f"wall {wall} has no finding marked engineer ({f'on the list: {named}' if named else 'nothing has'})"
    return ""


def _pages(
    checked: Checked, sets: tuple[SetFindings, ...], item: EngineerItem, items: Sequence[EngineerItem], paper: Paper
) -> list[Any]:
    """Where reasons and openings are many, fewer of them stand at length, so that two pages hold the rest."""
    writer = Writer(checked.project.project.units)
    drawing = elevation_of(checked, sets, item.wall, paper) if item.wall else []
    grounds, answer = _grounds(checked, item, writer), _answer()
    story: list[Any] = []
    for most in _MOST_OF_A_KIND:
        question = _question(checked, item=item, items=items, writer=writer, most=most)
        above = [question, *drawing, *_described(checked, item, writer, most), *grounds]
        room = PAGES * paper.body_height - sum(_tall(one, paper) for one in (*above, answer))
        for less in _LESS:
            story = [*above, *_calculated(checked, item=item, writer=writer, room=room - less, paper=paper), answer]
            if pages_taken(story, paper.body_width, paper.body_height) <= PAGES:
                return story
    return story


def _calculated(checked: Checked, item: EngineerItem, writer: Writer, room: float, paper: Paper) -> list[Any]:
    """How far the checks got: what calls for the engineer, then what else was worked out of the wall."""
    first = calculations(item.findings, writer, room, paper.body_width)
    left = room - sum(_tall(one, paper) for one in first)
    if not item.wall or left < _WORTH_MORE:
        return list(first)
    beside = nearest(checked.findings, item.wall)
    return [*first, *calculations(beside, writer=writer, room=left, width=paper.body_width, title=_BESIDE)]


def _tall(flowable: Any, paper: Paper) -> float:
    return float(flowable.wrap(paper.body_width, paper.body_height)[1] + flowable.getSpaceAfter())


def _question(checked: Checked, item: EngineerItem, items: Sequence[EngineerItem], writer: Writer, most: int) -> Sheet:
    wall = checked.project.walls.get(item.wall)
    name = f"Wall {item.wall}" + (f"  ·  {wall.name}" if wall and wall.name else "") if item.wall else "The building"
    head, people = checked.project.project, checked.project.people
    to = people.engineer.name if people.engineer else "the engineer"
    sender = next((one.name for one in (people.designer, people.builder, people.owner) if one), "not named")
    others = [one.called for one in items if one is not item]
    address, place = f"{head.address}." if head.address else "", checked.project.jurisdiction.name
    phrases = [f"To {to}. From {sender}.", address, f"Jurisdiction: {place}."]
    also = f"Also on the list: {', '.join(others)}." if others else ""
    lead = [
        full_row(FewLines(name, theme.SECTION, 2), anchor=Anchor(f"brief-{item.wall or 'building'}", name, 0)),
        full_row(FewLines("  ".join(text for text in (*phrases, also) if text), theme.SMALL, 2)),
        full_row(Words("The question", theme.SUBSECTION), air=(4.0, 0.0)),
        full_row(Words(_QUESTION, theme.BODY, after=3.0)),
    ]
    reasons = reasons_of(item, writer)
    rows = [_reason(one) for one in reasons[:most]]
    if more := [f"{_cut(one.title)} ({one.clause}; {_cut(one.figures)})" for one in reasons[most:]]:
        rows.append(Row((Cell((Words(f"And {'; '.join(more)}.", _DENSE),), span=3),), air=_AIR))
    columns = (Column(92), Column(share=11), Column(share=4))
    return Sheet(columns, rows, head=[head_row("Clause", "Reason", "Value and limit")], lead=lead, below=8)


class Reason(NamedTuple):
    """Why an engineer must see a wall: what is at stake, what the rule says of it, value and limit."""

    clause: str
    title: str
    says: str
    figures: str


def reasons_of(item: EngineerItem, writer: Writer) -> list[Reason]:
    """Every reason of a check, none left out; parts of the wall that share clause, title and figures share one."""
    parts: dict[Reason, list[str]] = {}
    for one in item.findings:
        part = [] if one.subject in (item.wall, one.about) else [one.subject]
        figures = format_result(one, writer)
        by_rule = isinstance(one.reason, RuleSays) and is_in_words(one)
        reason = Reason(one.clause, one.title, one.say, NOTHING if by_rule else figures)
        parts.setdefault(reason, []).extend(part)
    return [reason._replace(title=f"{', '.join(of)}: {reason.title}") if of else reason for reason, of in parts.items()]


def _reason(one: Reason) -> Row:
    title: tuple[Part, ...] = (
        Marked(Mark.ENGINEER, _cut(one.title), theme.CELL_BOLD),
        FewLines(one.says, theme.CELL_SMALL, 2),
    )
    cells = (Cell((FewLines(one.clause, theme.CELL, 2),)), Cell(title), Cell((FewLines(one.figures, theme.CELL, 2),)))
    return Row(cells, air=_AIR)


def _cut(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def _described(checked: Checked, item: EngineerItem, writer: Writer, most: int) -> list[Sheet]:
    if not item.wall:
        project = checked.facts.of("project")["project"]
        return [_pairs("The building", fact_texts(project, BUILDING, writer))]
    wall = checked.facts.of("wall")[item.wall]
    geometry = fact_texts(wall, GEOMETRY, writer)
    openings = opening_texts(checked, item.wall, writer)
    lines: list[Listed] = [("Meets along it", support_texts(checked, item.wall, writer)), *openings[:most]]
    if len(openings) > most:
        lines.append(("Openings", (f"{len(openings) - most} more, in the submittal",)))
    mix = checked.project.walls[item.wall].mix
    return [
        _pairs("Geometry", geometry),
        _lines("", lines),
        _pairs("Loads by case", fact_texts(wall, LOADS, writer)),
        _lines("Material and its tests", material_texts(checked, mix, writer)),
    ]


def _grounds(checked: Checked, item: EngineerItem, writer: Writer) -> list[Sheet]:
    site = checked.facts.of("site")["site"]
    own = [one for one in checked.findings if one.wall == item.wall] if item.wall else list(item.findings)
    worked = [*item.findings, *(nearest(checked.findings, item.wall) if item.wall else ())]
    taken, forms = assumed(worked, writer), doubted(worked)
    return [
        _pairs("The site as given", fact_texts(site, SITE, writer)),
        _lines("Taken for granted", taken or forms or [("", (_NOTHING_TAKEN,))], 8, _DENSE),
        *([_lines("", forms, 2, _DENSE)] if taken and forms else []),
        _lines("Not known", unknown(own) or [("", ("nothing that a check asked for is lacking",))], 3),
    ]


def _pairs(heading: str, phrases: Sequence[LabeledText]) -> Sheet:
    """Labels with their values, four beside each other, read downwards."""
    deep = -(-len(phrases) // _ACROSS)
    rows = []
    for line in range(deep):
        beside = [phrases[index] if index < len(phrases) else ("", "") for index in range(line, _ACROSS * deep, deep)]
        rows.append(Row(tuple(part for one in beside for part in _pair(one)), air=_AIR))
    columns = (Column(share=11), Column(share=8)) * _ACROSS
    return Sheet(columns, rows, lead=_heading(heading), below=5)


def _pair(one: LabeledText) -> Iterator[Cell]:
    yield Cell((FewLines(one[0], theme.LABEL, 1),))
    yield Cell((FewLines(one[1], theme.CELL, 1),))


def _lines(heading: str, phrases: Sequence[Listed], most: int = 3, style: Style = theme.CELL) -> Sheet:
    labelled = any(label for label, _ in phrases)
    rows = []
    for label, parts in phrases:
        value = Cell((FewParts(parts, style, most),))
        rows.append(Row((cell(label, theme.LABEL), value) if labelled else (value,), air=_AIR))
    columns = (Column(112), Column(share=1)) if labelled else (Column(share=1),)
    return Sheet(columns, rows, lead=_heading(heading), below=6)


def _heading(text: str) -> list[Row]:
    return [full_row(Words(text, theme.BODY_BOLD), air=(2.0, 1.0))] if text else []


def _answer() -> Sheet:
    """Room for the engineer's answer."""
    boxes: tuple[Part, ...] = (TickBoxes(_ANSWER, True, theme.CELL),)
    lead = [full_row(Words("Answer of the engineer: name, licence, date and signature below", theme.LABEL))]
    return Sheet((Column(share=1),), [Row((Cell(boxes),), air=(1.0, 14.0))], lead=lead, below=0)
