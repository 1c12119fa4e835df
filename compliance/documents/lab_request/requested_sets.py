"""What is told of the sets in a request: their specimens, the test the rules ask for, and how it is to be made."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TypeVar

from compliance.checked import Checked
from compliance.documents.earth.specimen_plan import required_of_mixes
from compliance.documents.elements import theme
from compliance.documents.elements.rule_names import code_and_clause
from compliance.documents.elements.section_titles import part, running_text
from compliance.documents.lab_request.waiting_specimens import Planned, PlannedSet, SetRequirement
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding
from compliance.model.lab_columns import COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import Specimen
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.value_words import NOTHING, counted
from compliance.report.words.specimen_words import in_words
from compliance.rules.rule_set import Rule
from compliance.units import Writer

T = TypeVar("T")
KINDS: dict[SpecimenKind, str] = {
    "compression": "compression",
    "rupture": "bending, for the modulus of rupture",
    "shrinkage": "shrinkage of bars",
}
_ALSO: dict[SpecimenKind, str] = {
    "compression": (
        " Report also what the faces were capped with. A strength is the peak load over the face as measured, not over "
        "its nominal size."
    )
}
"""Common practice, no source."""


def requested_sheets(sets: Sequence[PlannedSet], writer: Writer) -> Iterator[Sheet]:
    """The sets by the kind of test, so that what is asked of several of them stands once."""
    for kind in KINDS:
        of_kind = [one for one in sets if one.test.kind == kind]
        if of_kind:
            yield _specimens(kind, of_kind, writer)
            yield from _required_sheets(kind, of_kind, writer)
            yield running_text([full_row(Words(_report(kind), theme.SMALL))], below=14)


def _report(kind: SpecimenKind) -> str:
    """What the laboratory enters, as the columns of its table say."""
    required = [column.meaning for column in COLUMNS[kind].values() if column.supplier == "laboratory"]
    return f"Report of each specimen: {'; '.join(required)}.{_ALSO.get(kind, '')}"


def _specimens(kind: SpecimenKind, sets: Sequence[PlannedSet], writer: Writer) -> Sheet:
    title = KINDS[kind]
    lead = part(f"kind-{kind}", f"{title[:1].upper()}{title[1:]}")
    lead += [full_row(Words(" ".join(_lead_sentences(one)), theme.BODY, after=3.0)) for one in sets]
    rows = [row for one in sets for row in _rows(one, writer)]
    head = head_row("Specimens", "Set", "Mix", "Batch", "Shape", "Size so far", "Cast", "Test from")
    columns = (Column(96), Column(40), Column(40), Column(50), Column(50), Column(share=1), Column(60), Column(72))
    return Sheet(columns, rows, head=[head], lead=lead, below=8)


def _lead_sentences(of: PlannedSet) -> Iterator[str]:
    yield f"{of.mark}" + (f", {of.test.title}" if of.test.title else "") + f", mix {of.test.mix}:"
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


def _rows(of: PlannedSet, writer: Writer) -> Iterator[Row]:
    """A line for each run of specimens of which the same is known."""
    for known, run in groupby(of.specimens, lambda one: _known(of, one, writer)):
        first, *rest = [one.mark for one in run]
        marks = f"{first} to {rest[-1]}" if rest else first
        yield Row((cell(marks, theme.CELL_BOLD), cell(of.mark), cell(of.test.mix), *map(cell, known)))


def _known(of: PlannedSet, one: Planned, writer: Writer) -> tuple[str, ...]:
    row = one.row
    return (
        row.batch if row and row.batch else NOTHING,
        row.shape if row and row.shape else NOTHING,
        size_of(row, writer) if row else NOTHING,
        row.cast.isoformat() if row and row.cast else "____-__-__",
        _from(of, one),
    )


def _from(of: PlannedSet, one: Planned) -> str:
    """The day from which it may be tested, or why none stands here."""
    required = [each.required for each in of.required]
    if one.due:
        return one.due.isoformat()
    if any(each.least_age is not None for each in required):
        return "____-__-__"
    return "age open" if any("age" in each.opened for each in required) else "no age asked"


def size_of(row: Specimen, writer: Writer) -> str:
    """What is measured already, in the order of the columns; the nominal size where nothing is."""
    phrases = [
        f"{name.replace('_', ' ')} {writer.write(value, column.what)}"
        for name, column in COLUMNS[row.kind].items()
        if (value := row.measure(name)) is not None
    ]
    return ", ".join(phrases) or str(row.value("nominal_size") or NOTHING)


def _required_sheets(kind: SpecimenKind, sets: Sequence[PlannedSet], writer: Writer) -> Iterator[Sheet]:
    required = _merged([(one.mark, each.group.code, each) for one in sets for each in one.required])
    if not required:
        words = "No adopted rule asks for this test, or none that is known here."
        yield running_text([full_row(Words(words, theme.BODY_BOLD))])
    else:
        rows = [_rule(one, _only(marks, sets), writer) for marks, one in required]
        head = head_row("Code", "Test asked for", "Specimens of a set", "Value that governs", "Limit", "Standing")
        columns = (Column(56), Column(share=3), Column(share=3), Column(share=3), Column(share=2), Column(50))
        yield Sheet(columns, rows, head=[head], below=8)
    # A question that asks for a yes is the builder's to answer, never the laboratory's.
    asked = [(one.mark, each[0].code, each) for one in sets for each in one.besides if not each[1].attest]
    besides = _merged(asked)
    if besides:
        beside = [
            _beside(group, rule=rule, one=one, only=_only(marks, sets), writer=writer)
            for marks, (group, rule, one) in besides
        ]
        head = head_row("Code", "Also asked of the set", "What is asked")
        yield Sheet((Column(56), Column(share=2), Column(share=5)), beside, head=[head], below=8)


def _merged(found: Sequence[tuple[str, str, T]]) -> list[tuple[list[str], T]]:
    """What several sets are asked by one rule, once, with the marks of these sets."""
    by_code: dict[str, tuple[list[str], T]] = {}
    for mark, code, one in found:
        by_code.setdefault(code, ([], one))[0].append(mark)
    return list(by_code.values())


def _only(marks: Sequence[str], sets: Sequence[PlannedSet]) -> str:
    return "" if len(marks) == len(sets) else f"set {', '.join(marks)} only"


def _rule(one: SetRequirement, only: str, writer: Writer) -> Row:
    specimens: list[Part] = [Words(in_words(one.required, writer), theme.CELL)]
    limit: list[Part] = [Words(one.limit, theme.CELL)]
    if one.opened:
        limit.append(Words(f"open: {', '.join(one.opened)}", theme.CELL_SMALL))
    return Row(
        (
            Cell(code_and_clause(one.group)),
            _titled(one.group.first.title, only),
            Cell(tuple(specimens)),
            cell(one.governs),
            Cell(tuple(limit)),
            cell(one.standing.value if one.standing else NOTHING),
        )
    )


def _beside(group: RuleFindings, rule: Rule, one: Finding, only: str, writer: Writer) -> Row:
    """A limit in words."""
    given = {name.replace("_", " "): limit.given for name, limit in rule.limits.items()}
    limits = [f"{name}: {value.written(writer) if value else 'open'}" for name, value in given.items()]
    known = f"{'; '.join(limits)}. " if limits else ""
    asks = (Words(f"{known}{rule.say}", theme.CELL), *([Words(rule.note, theme.CELL_SMALL)] if rule.note else []))
    return Row((Cell(code_and_clause(group)), _titled(one.title, only), Cell(asks)))


def _titled(title: str, only: str) -> Cell:
    return Cell((Words(title, theme.CELL), *([Words(only, theme.CELL_SMALL)] if only else [])))


def sets_without_results(checked: Checked, sets: tuple[SetFindings, ...]) -> list[str]:
    """Tests that a rule asks for and no described set is of, each once: "compression of mix M2 (A56, A57)"."""
    codes: dict[tuple[str, str], list[str]] = {}
    for one in required_of_mixes(checked, sets):
        if not one.sets:
            codes.setdefault((one.kind, one.mix), []).append(one.group.code)
    return [f"{kind} of mix {mix} ({', '.join(found)})" for (kind, mix), found in codes.items()]
