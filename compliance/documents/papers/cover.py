"""The cover: whose building, where, under whose rules, how it stands, what the parts are, and the cautions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from reportlab.platypus.doctemplate import NextPageTemplate

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.cover_strata import HEIGHT, strata
from compliance.documents.elements.tally_strip import standing
from compliance.documents.elements.theme import Paper
from compliance.documents.page.book import BODY, Head
from compliance.documents.page.faces import NARROW_MEDIUM
from compliance.documents.page.inked import Lettered, Ornament
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.page_refs import PageOf
from compliance.documents.page.prose import caution_paragraphs
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.tagging.tagged_canvas import RUNNING
from compliance.model.people import Person
from compliance.report.tally import limits_in_words
from compliance.units import Writer

ASK = "not given: ask the office"
PARTS = (
    ("papers", "Papers", "what the office reads: answer, code path, items, checklist, inspections"),
    ("drawings", "Drawings", "plan, elevations, sections and details on sheets of their own"),
    ("calculations", "Calculations", "what an engineer checks: every calculation, tests in full, limits, attachments"),
)
"""The parts of a submittal: key, name, what each holds."""
_PAD = 10.0
_STAMP = 44.0
_ROLES = ("owner", "builder", "designer", "engineer", "official", "lab")
_USES = {
    "dwelling": "one-family dwelling", "two-family": "two-family dwelling", "townhouse": "townhouse",
    "accessory": "accessory building", "other": "other",
}  # fmt: skip


def cover(checked: Checked, head: Head) -> list[Any]:
    """What flows on the cover; it runs on to another page where there is much of it."""
    lead = [
        full_row(Drawn(HEIGHT, Ornament(strata)), Words(" ", theme.SMALL)),
        full_row(
            Words("Submittal to the building official", theme.COVER_LINE),
            Words(head.project, theme.COVER_TITLE, after=4.0),
            anchor=Anchor("cover", "Cover", listed=False),
        ),
    ]
    columns = (Column(80), Column(share=1), Column(84), Column(share=1))
    about = Sheet(columns, list(_paired(_head_lines(checked, head.revision))), lead=lead, below=6)
    story: list[Any] = [about, standing(checked), _confirmed(checked)]
    people = [(role, person) for role in _ROLES if (person := getattr(checked.project.people, role))]
    if people:
        story.append(_people(people))
    return [NextPageTemplate(BODY), *story, part_index("papers"), _stamp()]


def part_index(own: str) -> Sheet:
    """The parts of the submittal, made together; how many pages each has is known once all are laid out."""
    rows = [
        Row(
            (
                cell(name, theme.CELL_BOLD if key == own else theme.CELL),
                cell(holds),
                Cell((PageOf(f"extent-{key}", theme.NUMBER),)),
            ),
            air=(1.4, 1.6),
        )
        for key, name, holds in PARTS
    ]
    head = head_row("Part", "What it holds", "Extent", right=(2,))
    return Sheet((Column(70), Column(share=1), Column(120)), rows, head=[head], below=6)


def _confirmed(checked: Checked) -> Sheet:
    return Sheet((Column(share=1),), (), lead=[full_row(Words(limits_in_words(checked), theme.BODY_BOLD))], below=6)


def _people(people: list[tuple[str, Person]]) -> Sheet:
    """Two people in a row."""
    cells = [part for role, person in people for part in _person(role, person)]
    cells += [Cell(())] * (len(cells) % 4)
    rows = [Row(tuple(cells[start : start + 4]), air=(1.4, 1.6)) for start in range(0, len(cells), 4)]
    columns = (Column(52), Column(share=1), Column(52), Column(share=1))
    return Sheet(columns, rows, head=[head_row("People", "", "", "")], below=6)


def _head_lines(checked: Checked, revision: str) -> Iterator[tuple[str, str]]:
    project, place = checked.project.project, checked.project.jurisdiction
    writer = Writer(project.units)
    number = f"{project.number}, " if project.number else ""
    yield "Project", f"{number}revision {revision}, {project.date.isoformat()}"
    yield "Address", project.address or ASK
    yield "Jurisdiction", place.name
    yield "Adopted by", place.adopting_text or ASK
    yield "Parcel", project.parcel or ASK
    yield "Permit number", project.permit_number or ASK
    yield "Use, occupancy", ", ".join(text for text in (_USES.get(project.use or ""), project.occupancy) if text) or ASK
    yield "Construction type", project.construction_type or ASK
    yield "Floor area", writer.write(project.floor_area.si, "area") if project.floor_area else ASK
    yield "Stories", str(project.stories) if project.stories else ASK


def _paired(lines: Iterator[tuple[str, str]]) -> Iterator[Row]:
    """Two facts in a row."""
    cells = [part for label, value in lines for part in (cell(label, theme.LABEL), cell(value))]
    cells += [Cell(())] * (len(cells) % 4)
    for start in range(0, len(cells), 4):
        yield Row(tuple(cells[start : start + 4]), air=(1.4, 1.6))


def _person(role: str, person: Person) -> tuple[Cell, Cell]:
    licence = f"license {person.licence}" if person.licence else None
    more = ", ".join(text for text in (person.firm, licence, person.contact) if text)
    parts = (Words(person.name, theme.CELL_BOLD), *([Words(more, theme.CELL_SMALL)] if more else []))
    return cell(role.capitalize(), theme.LABEL), Cell(parts)


def _stamp() -> Sheet:
    """Room for the office's stamp and permit."""
    return Sheet((Column(share=1),), (), lead=[full_row(Drawn(_STAMP, Lettered(_draw_stamp)))], below=0)


def _draw_stamp(canvas: Any, left: float, top: float, width: float) -> None:
    canvas.setStrokeColor(theme.UMBER)
    canvas.setLineWidth(0.6)
    canvas.rect(left, top - _STAMP + 2, width, _STAMP - 4, stroke=1, fill=0)
    canvas.setFont(theme.LABEL.face, theme.LABEL.size)
    canvas.setFillColor(theme.UMBER)
    canvas.drawString(left + 6, top - 14, "For the office: received, reviewed, permit ")


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
    canvas.setFont(NARROW_MEDIUM, 9.0)
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
    canvas.setFont(NARROW_MEDIUM, 8.0)
    canvas.drawString(paper.side, 26, f"Fingerprint of the input: {book.head.fingerprint}")
    canvas.end()
    canvas.begin_decoration(RUNNING)
    canvas.setFont(NARROW_MEDIUM, 8.4)
    canvas.drawRightString(paper.width - paper.side, 26, f"{book.head.part or 'Page'} {book.page} of {book.total}")
    canvas.end()


def _caution_width(paper: Paper) -> float:
    return paper.body_width - 2 * _PAD
