"""The cover: whose building, under whose rules, how it stands, and the cautions."""

from __future__ import annotations

from typing import Any

from reportlab.platypus.doctemplate import NextPageTemplate

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.cover_strata import HEIGHT, strata
from compliance.documents.elements.tally_strip import standing
from compliance.documents.elements.theme import Paper
from compliance.documents.elements.tick_boxes import FewLines
from compliance.documents.page.book import BODY, Head
from compliance.documents.page.faces import NARROW_MEDIUM
from compliance.documents.page.inked import Ornament
from compliance.documents.page.line_breaking import Drawn, Part, Words
from compliance.documents.page.page_refs import Finder, Reference
from compliance.documents.page.prose import caution_paragraphs
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.submittal.wall_pages import wall_key
from compliance.documents.tagging.tagged_canvas import RUNNING
from compliance.model.people import Person
from compliance.report.by_rule import SetFindings

_PAD = 10.0
_MOST_WALLS = 60
_ROLES = ("owner", "builder", "designer", "engineer", "official", "lab")
_USES = {
    "dwelling": "one-family dwelling", "two-family": "two-family dwelling", "townhouse": "townhouse",
    "accessory": "accessory building", "other": "other",
}  # fmt: skip


def cover(checked: Checked, sets: tuple[SetFindings, ...], head: Head) -> list[Any]:
    """What flows on the cover; it runs on to another page where there is much of it."""
    lead = [
        full_row(Drawn(HEIGHT, Ornament(strata)), Words(" ", theme.SMALL)),
        full_row(
            Words("Submittal to the building official", theme.COVER_LINE),
            Words(head.project, theme.COVER_TITLE, after=3.0),
            Words("Load-bearing earthen walls: checks against the rules, tests, and what is still open",
                  theme.COVER_LINE, after=12.0),
            anchor=Anchor("cover", "Cover", listed=False),
        ),
    ]  # fmt: skip
    facts = [_fact(label, value) for label, value in _head_lines(checked, head.revision) if value]
    about = Sheet((Column(104), Column(share=1)), facts, lead=lead, below=7)
    story: list[Any] = [about, standing(checked), _finder(checked)]
    people = [(role, person) for role in _ROLES if (person := getattr(checked.project.people, role))]
    if people:
        story.append(_people(people))
    rows = [_rule_set(one) for one in sets]
    columns = (Column(24), Column(share=3), Column(share=2))
    story.append(Sheet(columns, rows, head=[head_row("", "Rule sets", "Status and edition")], below=4))
    return [NextPageTemplate(BODY), *story]


def _finder(checked: Checked) -> Sheet:
    """The way from the cover to each wall: its height, its strength and the points where it is looked at."""
    walls = list(checked.project.walls)
    shown = tuple((wall, wall_key(wall)) for wall in walls[:_MOST_WALLS])
    parts: list[Part] = [Finder(shown, theme.CELL_BOLD)]
    if len(walls) > _MOST_WALLS:
        parts.append(Reference(f"and {len(walls) - _MOST_WALLS} walls more", "walls-each", theme.CELL))
    heading = Words("Find a wall: its height check, strength evidence and inspection points", theme.HEADING)
    return Sheet((Column(share=1),), [Row((Cell(tuple(parts)),))], lead=[full_row(heading, air=(0.0, 1.0))], below=7)


def _people(people: list[tuple[str, Person]]) -> Sheet:
    """Two people in a row."""
    cells = [part for role, person in people for part in _person(role, person)]
    cells += [Cell(())] * (len(cells) % 4)
    rows = [Row(tuple(cells[start : start + 4])) for start in range(0, len(cells), 4)]
    columns = (Column(52), Column(share=1), Column(52), Column(share=1))
    return Sheet(columns, rows, head=[head_row("People", "", "", "")])


def _head_lines(checked: Checked, revision: str) -> list[tuple[str, str]]:
    project, place = checked.project.project, checked.project.jurisdiction
    number = f"{project.number}, " if project.number else ""
    used = f"{_USES[project.use]}, " if project.use in _USES else ""
    return [
        ("Project", f"{number}revision {revision}, {project.date.isoformat()}"),
        ("Building", f"{used}{project.address or 'no address given'}"),
        ("Jurisdiction", place.name),
        ("Adopted by", place.adopting_text or ""),
    ]


def _fact(label: str, value: str) -> Row:
    return Row((cell(label, theme.LABEL_OF_BODY), cell(value, theme.BODY)), air=(1.6, 1.6))


def _person(role: str, person: Person) -> tuple[Cell, Cell]:
    licence = f"licence {person.licence}" if person.licence else None
    more = ", ".join(text for text in (person.firm, licence, person.contact) if text)
    parts = (Words(person.name, theme.CELL_BOLD), *([Words(more, theme.CELL_SMALL)] if more else []))
    return cell(role.capitalize(), theme.LABEL), Cell(parts)


def _rule_set(one: SetFindings) -> Row:
    rules = one.rule_set
    wording = f"{rules.status}; {rules.edition}"
    cells = (Cell((FewLines(rules.title, theme.CELL_BOLD, 1),)), Cell((FewLines(wording, theme.CELL_SMALL, 1),)))
    return Row((cell(one.letter, theme.CELL_BOLD), *cells), air=(1.2, 1.2))


def cautions_height(paper: Paper) -> float:
    """The height the cautions take at the foot of the cover."""
    width = _caution_width(paper)
    paragraphs = caution_paragraphs()
    return float(sum(one.wrap(width, 1000)[1] + one.getSpaceAfter() for one in paragraphs)) + 2 * _PAD + 22


def draw_cautions(canvas: Any, book: Any) -> None:
    """The cautions in their box, and the page number."""
    paper: Paper = book.paper
    height = cautions_height(paper) - 8
    canvas.begin_decoration()
    canvas.setFillColor(theme.CHALK)
    canvas.setStrokeColor(theme.UMBER)
    canvas.setLineWidth(0.8)
    canvas.rect(paper.side, paper.bottom, paper.body_width, height, stroke=1, fill=1)
    canvas.end()
    y = paper.bottom + height - _PAD
    canvas.begin(canvas.paragraph())
    canvas.setFont(NARROW_MEDIUM, 8.4)
    canvas.setFillColor(theme.UMBER)
    canvas.drawString(paper.side + _PAD, y - 6, "Read with care")
    canvas.end()
    y -= 14
    for one in caution_paragraphs():
        _, taken = one.wrap(_caution_width(paper), y)
        one.drawOn(canvas, paper.side + _PAD, y - taken)
        y -= taken + one.getSpaceAfter()
    canvas.begin(canvas.paragraph())
    canvas.setFillColor(theme.UMBER)
    canvas.setFont(NARROW_MEDIUM, 7.2)
    canvas.drawString(paper.side, 26, f"Fingerprint of the input: {book.head.fingerprint}")
    canvas.end()
    canvas.begin_decoration(RUNNING)
    canvas.setFont(NARROW_MEDIUM, 7.8)
    canvas.drawRightString(paper.width - paper.side, 26, f"Page {book.page} of {book.total}")
    canvas.end()


def _caution_width(paper: Paper) -> float:
    return paper.body_width - 2 * _PAD
