"""What is told of each set in a request: its specimens, the test the rules ask for, and how it is to be made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.checked import Checked
from compliance.documents import theme
from compliance.documents.by_rule import SetFindings
from compliance.documents.figures import NOTHING, counted
from compliance.documents.lab_request_plan import AskedOfSet, Planned, PlannedSet
from compliance.documents.read_first import code_and_clause
from compliance.documents.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.sections import part, running_text
from compliance.documents.sheet import Sheet
from compliance.documents.specimen_plan import asked_of_mixes
from compliance.documents.specimens_to_cast import in_words
from compliance.documents.words import Part, Words
from compliance.findings import Finding
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import Specimen
from compliance.rules.rule_set import Rule
from compliance.units import Writer

KINDS: dict[SpecimenKind, str] = {
    "compression": "compression",
    "rupture": "bending, for the modulus of rupture",
    "shrinkage": "shrinkage of bars",
}
_REPORT: dict[SpecimenKind, str] = {
    "compression": (
        "Report of each specimen: the sides of the loaded face and the height as measured at the test, its mass, the "
        "peak load, the day, how it was dried, what the faces were capped with, how fast it was loaded, and how it "
        "broke. A strength is the peak load over the face as measured, not over its nominal size."
    ),
    "rupture": (
        "Report of each beam: width, height along the load and length as measured, the span between supports, whether "
        "it was loaded at the centre or at the third points, its mass, the peak load, the day, how it was dried, and "
        "where it broke."
    ),
    "shrinkage": (
        "Report of each bar: the length of the form inside and of the dried bar from end to end with its cracks pushed "
        "shut, how it was dried, and the days of casting and measuring."
    ),
}
"""Common practice, no source."""


def asked_sheets(sets: Sequence[PlannedSet], writer: Writer) -> Iterator[Sheet]:
    for one in sets:
        yield _specimens(one, writer)
        yield from _asked(one, writer)
        yield running_text([full_row(Words(_REPORT[one.test.kind], theme.SMALL))], below=14)


def _specimens(of: PlannedSet, writer: Writer) -> Sheet:
    name = f"{of.mark}  ·  {KINDS[of.test.kind]}, mix {of.test.mix}" + (f": {of.test.title}" if of.test.title else "")
    rows = [_specimen(of, one, writer) for one in of.specimens]
    head = head_row("Specimen", "Mix", "Batch", "Shape", "Size so far", "Cast", "Test from")
    columns = (Column(92), Column(52), Column(58), Column(56), Column(share=1), Column(62), Column(78))
    lead = part(f"set-{of.mark}", name, " ".join(_told(of)))
    return Sheet(columns, rows, head=[head], lead=lead, below=8)


def _told(of: PlannedSet) -> Iterator[str]:
    count = counted(len(of.specimens), "specimen")
    yield f"{count} to test." if not of.done else f"{count} to test; {of.done} of this set have their result."
    if not of.specimens[0].row:
        number = "as many as the rules below ask for" if of.stated else "the rules below state no number"
        yield f"None is entered in the lab tables yet: {number}."
    if of.test.made_by:
        yield f"Made by {of.test.made_by}."
    if of.test.capped:
        yield f"To be capped with: {of.test.capped}."
    if of.test.note:
        yield of.test.note


def _specimen(of: PlannedSet, one: Planned, writer: Writer) -> Row:
    row = one.row
    return Row(
        (
            cell(one.mark, theme.CELL_BOLD),
            cell(of.test.mix),
            cell(row.batch if row and row.batch else NOTHING),
            cell(row.shape if row and row.shape else NOTHING),
            cell(size_of(row, writer) if row else NOTHING),
            cell(row.cast.isoformat() if row and row.cast else "____-__-__"),
            cell(one.due.isoformat() if one.due else "see below"),
        )
    )


def size_of(row: Specimen, writer: Writer) -> str:
    """The sides that are known, in the order of the columns."""
    known = {name: getattr(row, name) for name in ("width", "depth", "height", "span", "form_length")}
    said = [
        f"{name.replace('_', ' ')} {writer.write(value, 'thickness')}"
        for name, value in known.items()
        if value is not None
    ]
    return ", ".join(said) or NOTHING


def _asked(of: PlannedSet, writer: Writer) -> Iterator[Sheet]:
    rows = [_rule(one, writer) for one in of.asked]
    if not rows:
        words = f"No adopted rule asks for a {of.test.kind} test of mix {of.test.mix}, or none that is known here."
        yield running_text([full_row(Words(words, theme.BODY_BOLD))])
    else:
        head = head_row("Code", "Test asked for", "Specimens", "Value that governs", "Limit", "Standing")
        columns = (Column(56), Column(share=3), Column(share=3), Column(share=3), Column(share=2), Column(50))
        yield Sheet(columns, rows, head=[head], below=8)
    besides = [_beside(group.first.clause, group.code, rule, one, writer) for group, rule, one in of.besides]
    if besides:
        head = head_row("Code", "Also asked of the set", "What is asked")
        yield Sheet((Column(56), Column(share=2), Column(share=5)), besides, head=[head], below=8)


def _rule(one: AskedOfSet, writer: Writer) -> Row:
    specimens: list[Part] = [Words(in_words(one.asked, writer), theme.CELL)]
    limit: list[Part] = [Words(one.limit, theme.CELL)]
    if one.opened:
        limit.append(Words(f"open: {', '.join(one.opened)}", theme.CELL_SMALL))
    return Row(
        (
            Cell(code_and_clause(one.group)),
            cell(one.group.first.title),
            Cell(tuple(specimens)),
            cell(one.governs),
            Cell(tuple(limit)),
            cell(one.standing.value if one.standing else NOTHING),
        )
    )


def _beside(clause: str, code: str, rule: Rule, one: Finding, writer: Writer) -> Row:
    """A question to answer with yes, or a limit in words."""
    given = {name.replace("_", " "): limit.given for name, limit in rule.limits.items()}
    limits = [f"{name}: {value.written(writer) if value else 'open'}" for name, value in given.items()]
    known = f"{'; '.join(limits)}. " if limits else ""
    said = rule.attest.ask if rule.attest else f"{known}{rule.say}"
    return Row(
        (
            Cell((Words(code, theme.CELL_BOLD), Words(clause, theme.CELL_SMALL))),
            cell(one.title),
            Cell((Words(said, theme.CELL), *([Words(rule.note, theme.CELL_SMALL)] if rule.note else []))),
        )
    )


def owed(checked: Checked, sets: tuple[SetFindings, ...]) -> list[str]:
    """Tests that a rule asks for and no described set is of, each once: "compression of mix M2 (A56, A57)"."""
    codes: dict[tuple[str, str], list[str]] = {}
    for one in asked_of_mixes(checked, sets):
        if not one.sets:
            codes.setdefault((one.kind, one.mix), []).append(one.group.code)
    return [f"{kind} of mix {mix} ({', '.join(found)})" for (kind, mix), found in codes.items()]
