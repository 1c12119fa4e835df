"""The page to sign: who stands for what, with room for name, licence, date and signature."""

from __future__ import annotations

from typing import Any

from reportlab.platypus.flowables import CondPageBreak

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import running_text, title
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.form_fields import text_field
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Drawn, Words
from compliance.documents.page.prose import caution_paragraphs
from compliance.documents.page.rows import Row, full_row
from compliance.findings import Outcome
from compliance.model.people import People, Person
from compliance.record import record
from compliance.report.summaries.design_data import stands_alone
from compliance.report.summaries.place_cautions import place_cautions

_INTRODUCTION = "A signature stands for the words above it and for nothing else. Words may be struck or added by hand."
_ON_COVER = "The cautions on the cover hold for what is signed."
_LINE = 24.0
_HEIGHT = 2 * _LINE + 11
_SEAL = 96.0
_ROOM, _ROOM_OF_EACH = 320.0, 100.0
"""A sign-off begins on the page it finds where as much is left, in points; no signature is parted from what it says."""
_SEALED = ("designer", "engineer")


@record
class _Signer:
    key: str
    heading: str
    says: str
    roles: tuple[str, ...]


_SIGNERS = (
    _Signer(
        "owner",
        "Owner or builder",
        "The building, the ground and the tests are described in this submittal as they are or will be.",
        ("owner", "builder"),
    ),
    _Signer("designer", "Designer", "The plan and the details submitted are those described here.", ("designer",)),
    _Signer(
        "engineer",
        "Engineer",
        "I have designed or reviewed the items marked engineer in this submittal, as my own documents list them.",
        ("engineer",),
    ),
    _Signer(
        "official",
        "Building official",
        "Received. Limits initialed in the checklist agree with the adopted copy. This is no approval.",
        ("official",),
    ),
)


def sign_off(checked: Checked) -> list[Any]:
    signers = _signers(checked)
    short = len(signers) < len(_SIGNERS)
    rows = title("sign", "Sign-off", f"{_INTRODUCTION} {_ON_COVER}" if short else _INTRODUCTION)
    rows += [full_row(Words(text, theme.BODY, after=4.0)) for text in place_cautions(checked, "sign-off")]
    *before, last = (_block(signer, checked.project.people) for signer in signers)
    rows += [row for block in before for row in block]
    if short:
        return [CondPageBreak(_ROOM_OF_EACH * len(signers)), running_text([*rows, *last], below=2.0)]
    last.append(full_row(Words("Cautions", theme.SUBSECTION, after=2.0), air=(2.0, 0.0)))
    # No caution stands alone on a last page: where they do not all fit, the last signature goes with them.
    together = [running_text(last, below=2.0), *caution_paragraphs()]
    width = PAPERS[checked.project.project.paper].body_width
    height = sum(one.wrap(width, 1e6)[1] + one.getSpaceAfter() for one in together)
    return [CondPageBreak(_ROOM), running_text(rows, below=0.0), CondPageBreak(height), *together]


def _signers(checked: Checked) -> tuple[_Signer, ...]:
    """All four; of walls that stand alone, those who have something to sign."""
    if not stands_alone(checked):
        return _SIGNERS
    people = checked.project.people
    signers = {"owner", "official"} | ({"designer"} if people.designer else set())
    if people.engineer or any(one.outcome is Outcome.ENGINEER for one in checked.findings):
        signers.add("engineer")
    return tuple(one for one in _SIGNERS if one.key in signers)


def _block(signer: _Signer, people: People) -> list[Row]:
    known = [person for role in signer.roles if (person := getattr(people, role))]
    parts = [Words(signer.heading, theme.BODY_BOLD), Words(signer.says, theme.SMALL)]
    named = "; ".join(dict.fromkeys(map(_named, known)))
    if named:
        parts.append(Words(f"In the project: {named}", theme.CELL_SMALL))
    return [
        full_row(
            *parts,
            Drawn(_HEIGHT, Lettered(_Lines(signer.key, signer.heading, signer.key in _SEALED).draw)),
            air=(2.0, 0.0),
        )
    ]


def _named(person: Person) -> str:
    return ", ".join(text for text in (person.name, person.firm, person.licence) if text)


@record
class _Lines:
    """Two lines: name, licence and date with fields to type into; then one to sign on."""

    key: str
    heading: str
    sealed: bool

    def draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        if self.sealed:
            width -= _SEAL + 14.0
            _seal(canvas, left + width + 14.0, top)
        name, licence, date = 0.46 * width, 0.28 * width, 0.20 * width
        gap = (width - name - licence - date) / 2
        x = left
        for field, label, across in (("name", "Name", name), ("licence", "License", licence), ("date", "Date", date)):
            y = top - _LINE
            _line(canvas, x=x, y=y, width=across, label=label)
            text_field(
                canvas, f"{self.key}_{field}", f"{self.heading}: {label.lower()}", (x, y + 1, x + across, y + 16)
            )
            x += across + gap
        _line(canvas, x=left, y=top - 2 * _LINE, width=width, label="Signature")


def _seal(canvas: Any, left: float, top: float) -> None:
    """Room for a seal."""
    canvas.setStrokeColor(theme.UMBER)
    canvas.setLineWidth(0.6)
    canvas.rect(left, top - _HEIGHT + 6.0, _SEAL, _HEIGHT - 6.0, stroke=1, fill=0)
    canvas.setFont(theme.LABEL.face, 8.0)
    canvas.setFillColor(theme.UMBER)
    canvas.drawString(left + 4.0, top - 10.0, "Seal ")


def _line(canvas: Any, x: float, y: float, width: float, label: str) -> None:
    canvas.setStrokeColor(theme.INK)
    canvas.setLineWidth(0.6)
    canvas.line(x, y, x + width, y)
    canvas.setFont(theme.LABEL.face, 8.0)
    canvas.setFillColor(theme.UMBER)
    canvas.drawString(x, y - 8, f"{label} ")
