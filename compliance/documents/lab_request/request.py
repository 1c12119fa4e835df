"""What goes to the laboratory with the specimens: which they are, what is to be tested, a table to fill in, labels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from reportlab.platypus.doctemplate import NextPageTemplate
from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import running_text, title
from compliance.documents.elements.theme import PAPERS, Paper
from compliance.documents.lab_request.requested_sets import requested_sheets, sets_without_results
from compliance.documents.lab_request.results_form import results_sheets
from compliance.documents.lab_request.specimen_labels import label_sheet
from compliance.documents.lab_request.waiting_specimens import PlannedSet, planned_sets
from compliance.documents.page import running_lines
from compliance.documents.page.book import BODY, Book, Head
from compliance.documents.page.document_head import head_of
from compliance.documents.page.errors import DocumentError
from compliance.documents.page.faces import register_faces
from compliance.documents.page.form_fields import text_field
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row
from compliance.documents.page.sheet import Sheet
from compliance.model.lab_columns import COLUMNS
from compliance.model.people import Person
from compliance.report.by_rule import by_rule
from compliance.units import Writer

_WIDE = "wide"
_INTRODUCTION = (
    "Specimens of earthen walls, to be tested as told below. Please report every specimen, also one that broke early "
    "or in an odd way: none is to be left out or replaced. What the rules ask is told in our own words with its "
    "standing; the adopted code and the building official go before it."
)
_SUBJECT = "Specimens of earthen walls for a laboratory: what is to be tested, and the table to report in."
_WITHOUT_SET = "Still without a set: "
_LINE = 26.0
_OF_REPORT = (
    ("report_number", "report number"), ("laboratory_contact", "contact at the laboratory"),
    ("accreditation", "accreditation, and by whom"),
)  # fmt: skip
"""What the laboratory enters of itself and its report, once."""


def write_lab_request(checked: Checked, path: Path) -> None:
    """Write the request to `path` as PDF. Raises DocumentError where no specimen waits for a result, else as
    `write_submittal` does."""
    register_faces()
    sets, writer = by_rule(checked), Writer(checked.project.project.units)
    planned = planned_sets(checked, sets, writer)
    waiting = sets_without_results(checked, sets)
    if not planned:
        raise DocumentError("every described set has its results. " + _waiting_text(waiting))
    paper = PAPERS[checked.project.project.paper]
    wide = Paper(paper.height, height=paper.width, side=paper.side, top=paper.top, bottom=paper.bottom)
    story = [
        _head(checked),
        *requested_sheets(planned, writer),
        *_not_in_request(waiting),
        _report(checked),
        _delivery(),
    ]
    story += [NextPageTemplate(_WIDE), PageBreak(), *_tables(planned, writer, wide)]
    story += [NextPageTemplate(BODY), PageBreak(), label_sheet(checked.project.project.name, planned)]
    _Request(head_of(checked, "request to the laboratory", _SUBJECT), paper, wide).write(story, path)


class _Request(Book):
    """A book with pages across for the tables to fill in."""

    def __init__(self, head: Head, paper: Paper, wide: Paper) -> None:
        super().__init__(head, paper, covered=False)
        self._wide = wide
        self.addPageTemplates([self._template(_WIDE, wide, self._wide_page)])

    def _wide_page(self, canvas: Any, book: Any) -> None:
        upright, self.paper = self.paper, self._wide
        running_lines.draw(canvas, self)
        self.paper = upright


def _head(checked: Checked) -> Sheet:
    project, people = checked.project.project, checked.project.people
    sender = people.builder or people.owner or people.designer
    phrases = [
        ("To", _person(people.lab) or "the laboratory"),
        ("From", _person(sender) or "the builder"),
        ("Building", ", ".join(text for text in (project.name, project.number, project.address) if text)),
        ("Rules of", checked.project.jurisdiction.name),
        ("Date", project.date.isoformat()),
    ]
    rows = [Row((cell(label, theme.LABEL_OF_BODY), cell(text, theme.BODY)), air=(1.0, 1.0)) for label, text in phrases]
    return Sheet((Column(70), Column(share=1)), rows, lead=title("request", "Request to the laboratory", _INTRODUCTION))


def _person(person: Person | None) -> str:
    return ", ".join(text for text in (person.name, person.firm, person.contact) if text) if person else ""


def _waiting_text(waiting: Sequence[str]) -> str:
    if not waiting:
        return "No rule asks for a test that no set is described for."
    return f"{_WITHOUT_SET}{'; '.join(waiting)}. Describe it under test_sets: to ask for it."


def _not_in_request(waiting: Sequence[str]) -> Iterator[Sheet]:
    if waiting:
        words = f"Not in this request. {_WITHOUT_SET}{'; '.join(waiting)}."
        yield running_text([full_row(Words(words, theme.SMALL))])


def _tables(planned: Sequence[PlannedSet], writer: Writer, wide: Paper) -> Iterator[Sheet]:
    for kind in COLUMNS:
        of_kind = [one for one in planned if one.test.kind == kind]
        if of_kind:
            yield from results_sheets(kind, of_kind, writer, wide.body_width)


def _report(checked: Checked) -> Sheet:
    """Number and contact of the report; what the project knows of the laboratory stands there already."""
    laboratory = checked.project.people.lab
    known = {
        "laboratory_contact": laboratory.contact if laboratory else None,
        "accreditation": laboratory.accreditation if laboratory else None,
    }
    cells = tuple(
        Cell((Words(f"{label}: {text}", theme.CELL),)) if (text := known.get(name))
        else Cell((Drawn(_LINE, Lettered(_blank_for(name, label))),))
        for name, label in _OF_REPORT
    )  # fmt: skip
    return Sheet((Column(share=1), Column(share=1), Column(share=1)), [Row(cells, ruled=False)], below=2)


def _delivery() -> Sheet:
    """Who took the specimens, and when."""
    rows = [
        Row(tuple(Cell((Drawn(_LINE, Lettered(_line_for(name, who, what))),)) for what in ("name", "signature", "day")),
            joined=name == "received", ruled=False)
        for name, who in (("handed", "handed over"), ("received", "received"))
    ]  # fmt: skip
    return Sheet((Column(share=2), Column(share=2), Column(share=1)), rows)


def _line_for(name: str, who: str, what: str) -> Any:
    """A line for a person; a signature is no field to type in."""
    return _blank_for("" if what == "signature" else f"{name}_{what}", f"{who}: {what}")


def _blank_for(field: str, label: str) -> Any:
    """A line to write on with its label below, and a `field` to type in where it has a name."""

    def draw(canvas: Any, left: float, top: float, width: float) -> None:
        y = top - _LINE + 9
        canvas.setStrokeColor(theme.INK)
        canvas.setLineWidth(0.6)
        canvas.line(left, y, left + width - 8, y)
        canvas.setFont(theme.LABEL.face, 8.0)
        canvas.setFillColor(theme.UMBER)
        canvas.drawString(left, y - 8.4, f"{label} ")
        if field:
            text_field(canvas, field, label, (left, y + 1, left + width - 8, y + 16))

    return draw
