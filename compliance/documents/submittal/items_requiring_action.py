"""How the findings stand, then every one that requires action, most serious first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.elements.tally_strip import standings
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.grouping import reason_of, remedy_of, subjects, words
from compliance.report.marks import Mark, mark_of
from compliance.report.tally import checks_made, counts
from compliance.report.value_words import counted
from compliance.units import Writer

_ASKING = (Mark.ENGINEER, Mark.REVISE, Mark.MISSING, Mark.CONFIRM)
_INTRODUCTIONS = {
    Mark.ENGINEER: "A licensed engineer must design or review each of these before it is built.",
    Mark.REVISE: "Each of these lies outside its limit. The builder can change it.",
    Mark.MISSING: "The project lacks these, so the rules that need them were not judged.",
    Mark.CONFIRM: "Not settled: the limit, or whether the rule stands in the adopted code, is not known here.",
}


def read_first(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    groups = [group for one in sets for group in one.rules]
    writer = Writer(checked.project.project.units)
    story: list[Any] = [*on_this_page(), _tally(checked)]
    for mark in _ASKING:
        rows = list(_lines(groups, mark, writer))
        if rows:
            story.append(_list(mark, rows))
    if checked.warnings:
        story.append(_warnings(checked))
    return [*story, standings()]


def _tally(checked: Checked) -> Sheet:
    """How many findings have each mark, with what the mark says."""
    found = counts(checked)
    rows = [
        Row(
            (
                Cell((Marked(mark, mark.value.heading, theme.CELL_BOLD),)),
                cell(str(count), theme.CELL_BOLD.aligned("right")),
                cell(mark.value.meaning),
            ),
            joined=bool(place),
        )
        for place, (mark, count) in enumerate(found.items())
    ]
    lead = title("first", "Items requiring action", *_in_words(checked, found))
    head = head_row("Outcome", "Findings", "What it says", right=(1,))
    return Sheet((Column(150), Column(50), Column(share=1)), rows, head=[head], lead=lead, below=12)


def _in_words(checked: Checked, found: dict[Mark, int]) -> Iterator[str]:
    asking = sum(found[mark] for mark in _ASKING)
    walls = counted(len(checked.project.walls), "wall")
    yield (
        f"Checks made: {checks_made(checked)}, over {walls} with materials, openings, "
        f"footings and roofs. Of these {asking} require action; they are listed below, most serious first."
    )
    if found[Mark.RESERVED]:
        yield (
            f"{found[Mark.RESERVED]} of the checks meet a limit that nobody has yet confirmed in the adopted copy of "
            "the code. They count as met only when the official agrees to the limit; every such limit stands in the "
            "section on limits, with room for initials."
        )
    if not asking:
        yield "Nothing was found that asks for a change. That is no statement that the building is safe."


def _lines(groups: Iterable[RuleFindings], mark: Mark, writer: Writer) -> Iterator[Row]:
    """One line for each rule and reason; subjects that share both share the line."""
    for group in groups:
        same: dict[tuple[object, ...], list[Finding]] = {}
        for finding in group.findings:
            if mark_of(finding) is mark:
                same.setdefault(words(finding, writer), []).append(finding)
        for findings in same.values():
            parts: list[Part] = [Words(reason_of(findings, writer), theme.CELL)]
            if remedy := remedy_of(findings[0]):
                parts.append(Words(remedy, theme.CELL_SMALL))
            yield Row(
                (
                    cell(group.code, theme.CELL_BOLD, link=group.key),
                    Cell((Marked(mark, subjects(findings), theme.CELL_BOLD),)),
                    title_and_clause(group),
                    Cell(tuple(parts)),
                )
            )


def title_and_clause(group: RuleFindings) -> Cell:
    return Cell((Words(group.first.title, theme.CELL), Words(group.first.clause, theme.CELL_SMALL)))


def code_and_clause(group: RuleFindings) -> tuple[Part, ...]:
    return Words(group.code, theme.CELL_BOLD), Words(group.first.clause, theme.CELL_SMALL)


def _list(mark: Mark, rows: list[Row]) -> Sheet:
    lead = part(f"first-{mark.name.lower()}", mark.value.heading, _INTRODUCTIONS[mark])
    columns = (Column(28), Column(112), Column(share=2), Column(share=3))
    return Sheet(columns, rows, head=[head_row("Code", "Subject", "Check", "Reason")], lead=lead, below=12)


def _warnings(checked: Checked) -> Sheet:
    """Values the reader found out of the ordinary. They were used all the same."""
    lead = part(
        "first-warnings", "Values out of the ordinary", "They were used as written. Correct any that is a slip."
    )
    rows = [
        Row((cell(f"{one.place.file}, line {one.place.line}"), cell(_sentence(one.wrong)), cell(one.instead)))
        for one in checked.warnings
    ]
    columns = (Column(120), Column(share=1), Column(share=1))
    return Sheet(columns, rows, head=[head_row("Where", "What", "Usual")], lead=lead)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
