"""Items for an engineer, to revise and missing: each once, numbered, with its reason and what to do."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, part, running_text, title
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.page_refs import Reference
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.report.marks import Mark
from compliance.report.summaries.action_items import ASKING, ActionItem
from compliance.report.tally import checks_made, counts
from compliance.report.value_words import counted

_INTRODUCTIONS = {
    Mark.ENGINEER: "A licensed engineer must design or review each of these before it is built.",
    Mark.REVISE: "Each of these lies outside its limit. The builder can change it.",
    Mark.MISSING: "These are not given, so the checks named were not judged.",
}
_NOTHING = "Nothing was found that asks for a change. That is no statement that the building is safe."
_HOW_TO_READ = (
    "Codes (A12, D20) name the rule in the checklist and in the calculations; the letter is that of its rule set on "
    "the page of the code path. Calculations print the working of each."
)
_MOST_CODES = 4


def item_key(item: ActionItem) -> str:
    return f"item-{item.number}"


def list_key(mark: Mark) -> str:
    """The list of all items with the mark."""
    return f"items-{mark.name.lower()}"


def items_requiring_action(checked: Checked, items: Sequence[ActionItem]) -> list[Any]:
    lead = title("items", "Items requiring action", _in_words(checked, items), _HOW_TO_READ)
    story = on_this_page()
    for mark in ASKING:
        found = [one for one in items if one.mark is mark]
        if found:
            lead += part(list_key(mark), mark.value.heading, _INTRODUCTIONS[mark])
            story.append(_list(found, lead))
            lead = []
    if lead:
        story.append(running_text([*lead, full_row(Words(_NOTHING, theme.BODY))]))
    if checked.warnings:
        story.append(_warnings(checked))
    return story


def _in_words(checked: Checked, items: Sequence[ActionItem]) -> str:
    found = counts(checked)
    walls = counted(len(checked.project.walls), "wall")
    made = checks_made(checked)
    phrases = ", ".join(f"{found[mark]} {mark.value.word}" for mark in ASKING)
    return (
        f"Checks made: {made}, over {walls} with materials, openings, footings and roofs. Findings that require "
        f"action: {phrases}; they are {counted(len(items), 'item')}, most serious first."
    )


def _list(found: Sequence[ActionItem], lead: list[Row]) -> Sheet:
    columns = (Column(22), Column(98), Column(share=2), Column(share=3))
    head = head_row("No.", "Subject", "Check", "Reason, and what to do")
    return Sheet(columns, [_row(one) for one in found], head=[head], lead=lead, below=10)


def _row(item: ActionItem) -> Row:
    says: list[Part] = [Words(item.reason, theme.CELL)]
    if item.remedy:
        says.append(Words(item.remedy, theme.CELL_SMALL))
    return Row(
        (
            cell(str(item.number), theme.CELL_BOLD),
            Cell((Marked(item.mark, item.subject, theme.CELL_BOLD),)),
            Cell(_checks(item)),
            Cell(tuple(says)),
        ),
        anchor=Anchor(item_key(item)),
        air=(1.8, 2.2),
    )


def _checks(item: ActionItem) -> tuple[Part, ...]:
    """The one check with its clause; of many that wait for one thing their codes."""
    first, *rest = item.groups
    if not rest:
        where = Reference(f"{first.code} · {first.first.clause}", first.key, theme.CELL_SMALL, far=True)
        return Words(first.first.title, theme.CELL), where
    if len(item.groups) <= _MOST_CODES:
        titles = "; ".join(dict.fromkeys(one.first.title for one in item.groups))
        return Words(titles, theme.CELL), Words(", ".join(item.codes), theme.CELL_SMALL)
    return (
        Words(f"{len(item.groups)} checks wait for it", theme.CELL),
        Words(", ".join(item.codes), theme.CELL_SMALL),
    )


def _warnings(checked: Checked) -> Sheet:
    """Values the reader found out of the ordinary. They were used all the same."""
    lead = part(
        "items-warnings", "Values out of the ordinary", "They were used as written. Correct any that is a slip."
    )
    rows = [Row((cell(_sentence(one.wrong)), cell(one.instead))) for one in checked.warnings]
    columns = (Column(share=1), Column(share=1))
    return Sheet(columns, rows, head=[head_row("What", "Usual")], lead=lead)


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]
