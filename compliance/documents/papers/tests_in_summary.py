"""The tests in summary: each set with who made and tested it, how many results count, and what they come to."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, running_text, title
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.page_refs import Reference
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding
from compliance.model.materials import TestSet
from compliance.report.by_rule import SetFindings
from compliance.report.counting_results import counting_results
from compliance.report.marks import Mark, mark_of
from compliance.report.summaries.place_cautions import place_cautions
from compliance.report.value_words import counted
from compliance.units import Writer

_INTRODUCTION = (
    "Strengths follow from tests of the mix, not from tables. A test counts where the official accepts who made it: "
    "reports of an approved agency, independent of the builder, may be accepted (IBC 1703.1, 1706.2). Tests by the "
    "owner or builder count only if the official accepts them as an approved agency's. Every specimen, with its "
    "dimensions, load and drying, stands in the calculations."
)
_NONE = (
    "The project has no test records. Nothing here says how strong the walls are: strengths follow from tests of the "
    "mix, by an agency that the official approves (IBC 1703.1, 1706.2)."
)
_NOT_GIVEN = "not given"
_KINDS = {"compression": "compression", "rupture": "modulus of rupture", "shrinkage": "shrinkage"}
_MEASURED = {"compression": "stress", "rupture": "stress", "shrinkage": "share"}
_WORDS = {Mark.RESERVED: "meets, unconfirmed"}


def tests_in_summary(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    tests = checked.project.test_sets
    lead = title("tests", "Tests in summary", *((_INTRODUCTION,) if tests else ()))
    if not tests:
        return [*on_this_page(), running_text([*lead, full_row(Words(_NONE, theme.BODY_BOLD))])]
    lead += [full_row(Words(text, theme.CELL, after=4.0)) for text in place_cautions(checked, "tests")]
    judged = _judged(sets)
    writer = Writer(checked.project.project.units)
    rows = [
        _row(checked, mark=mark, test=test, judged=judged.get(mark, ()), writer=writer) for mark, test in tests.items()
    ]
    head = head_row("Set", "Test, mix", "Results that count", "Made by; tested by", "Report; accreditation", "Outcome")
    columns = (Column(28), Column(share=3), Column(share=4), Column(share=4), Column(share=4), Column(share=4))
    return [*on_this_page(), Sheet(columns, rows, head=[head], lead=lead, below=10)]


def _judged(sets: tuple[SetFindings, ...]) -> dict[str, list[tuple[str, Finding]]]:
    """The findings of test rules by set, each with the code of its rule."""
    found: dict[str, list[tuple[str, Finding]]] = {}
    for one in sets:
        for group in one.rules:
            for finding in group.judged:
                if finding.about == "set" and finding.kind == "test":
                    found.setdefault(finding.subject, []).append((group.code, finding))
    return found


def _row(checked: Checked, mark: str, test: TestSet, judged: Sequence[tuple[str, Finding]], writer: Writer) -> Row:
    report = checked.project.attachments.get(test.report or "")
    laboratory = checked.project.people.lab
    tested_by = test.tested_by or (laboratory.name if laboratory and test.report else None)
    is_of_laboratory = laboratory is not None and tested_by == laboratory.name
    accreditation = laboratory.accreditation if laboratory and is_of_laboratory else None
    shown = f"shown to the official {test.shown_to_official}" if test.shown_to_official else "not shown to the official"
    name = (
        Words(f"{_KINDS[test.kind]}, mix {test.mix}", theme.CELL),
        Reference("in full", f"set-{mark}", theme.CELL_SMALL, far=True),
    )
    made_by = f"made by {test.made_by}" if test.made_by else "maker not given"
    tester = f"tested by {tested_by}" if tested_by else "tester not given"
    by = (Words(made_by, theme.CELL), Words(tester, theme.CELL))
    paper = (
        Words(f"report: {report.title if report else _NOT_GIVEN}", theme.CELL),
        Words(f"report no. {test.report_number or _NOT_GIVEN}", theme.CELL_SMALL),
        Words(f"accreditation: {accreditation or _NOT_GIVEN}", theme.CELL_SMALL),
        Words(shown, theme.CELL_SMALL),
    )
    cells = (
        cell(mark, theme.CELL_BOLD), Cell(name), Cell(tuple(_results(checked, mark, test, writer))), Cell(by),
        Cell(paper), Cell(tuple(_outcomes(judged))),
    )  # fmt: skip
    return Row(cells, anchor=Anchor(f"test-{mark}"), air=(1.8, 2.2))


def _results(checked: Checked, mark: str, test: TestSet, writer: Writer) -> list[Part]:
    """How many count, their mean and the lowest and highest."""
    counting = counting_results(checked, mark)
    found = counting.summary
    if found is None:
        return [Words("no result", theme.CELL)]
    kind = _MEASURED[test.kind]
    mean, low, high = (writer.write(value, kind) for value in (found.mean, found.lowest, found.highest))
    aside = f"; {counted(len(counting.aside), 'specimen')} set aside" if counting.aside else ""
    said = f"mean {mean}, {low} to {high}" if found.count > 1 else mean
    return [Words(f"{found.count}: {said}{aside}", theme.CELL)]


def _outcomes(judged: Sequence[tuple[str, Finding]]) -> list[Part]:
    """Which rules it was judged by, by what came of it."""
    same: dict[Mark, list[str]] = {}
    for code, finding in judged:
        same.setdefault(mark_of(finding), []).append(code)
    if not same:
        return [Words("no rule judges it", theme.CELL_SMALL)]
    return [
        Marked(mark, f"{_WORDS.get(mark, mark.value.word)}: {', '.join(dict.fromkeys(codes))}", theme.CELL)
        for mark, codes in sorted(same.items(), key=lambda item: item[0].rank)
    ]
