"""The checklist: every rule by clause, in the order of its rule set, with its result and where its evidence stands."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.elements.tick_boxes import TickBoxes
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.page_refs import Reference
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding
from compliance.judging.records import waits_for_the_work
from compliance.report.by_rule import SetFindings
from compliance.report.checklist_rows import ChecklistRow, checklist_rows
from compliance.report.grouping import subjects
from compliance.report.marks import Mark, mark_of

_INTRODUCTION = (
    "Every rule that has a subject in this project, by clause and in the order of its rule set: how it is answered, "
    "what came of it for which subjects, and where the evidence stands. Unconfirmed: the limit is met, but nobody has "
    "yet confirmed it in the adopted copy. Confirm: the limit itself is open. Not applicable: the rule does not "
    "apply to these. Waits: a look at work that is still to come. The box is for whoever goes through the list."
)
_COLUMNS = (
    Column(27), Column(66), Column(share=8), Column(46), Column(share=11), Column(94), Column(24),
)  # fmt: skip
_HEAD = head_row("Code", "Clause", "Check", "Answered", "Result and subjects", "Evidence", "Seen")
_AIR = (1.2, 1.6)
_WORDS = {Mark.RESERVED: "meets, unconfirmed"}
_MOST_EVIDENCE = 4


def checklist(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    story = on_this_page()
    lead = title("checklist", "Checklist by clause", _INTRODUCTION)
    for one in checklist_rows(checked, sets):
        lead += part(f"checklist-{one.rule_set.letter}", one.rule_set.heading)
        story.append(Sheet(_COLUMNS, [_row(row) for row in one.rows], head=[_HEAD], lead=lead, below=12))
        lead = []
    return story


def _row(row: ChecklistRow) -> Row:
    group = row.group
    evidence = list(dict.fromkeys((one.short or one.text, one.key) for one in row.evidence))
    shown = tuple(Reference(text, key, theme.CELL_SMALL) for text, key in evidence[:_MOST_EVIDENCE])
    left = len(evidence) - _MOST_EVIDENCE
    more = (Words(f"and {left} more", theme.CELL_SMALL),) if left > 0 else ()
    return Row(
        (
            cell(group.code, theme.CELL_BOLD, link=group.key),
            cell(group.first.clause),
            cell(group.first.title),
            cell(row.how, theme.CELL_SMALL),
            Cell(tuple(_results(row))),
            Cell((*shown, *more)),
            Cell((TickBoxes(("",), False, theme.CELL),)),
        ),
        air=_AIR,
    )


def _results(row: ChecklistRow) -> list[Part]:
    """Each outcome with the subjects that have it, worst first: every finding of the rule once."""
    same: dict[tuple[Mark, str], list[Finding]] = {}
    for one in row.group.findings:
        mark = mark_of(one)
        word = "waits" if mark is Mark.LATER and waits_for_the_work(one) else _WORDS.get(mark, mark.value.word)
        same.setdefault((mark, word), []).append(one)
    in_order = sorted(same.items(), key=lambda item: item[0][0].rank)
    return [Marked(mark, f"{word}: {subjects(found)}", theme.CELL) for (mark, word), found in in_order]
