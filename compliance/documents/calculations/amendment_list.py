"""Local amendments: what was changed, dropped or added, by whom, on what authority, and why."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Amended
from compliance.report.value_words import quoted
from compliance.rules.amending import AmendmentRecord
from compliance.units import Writer

_SENTENCE = "Laid over the rule sets by files of the project. An amendment counts as far as its authority reaches."
_DONE = {"confirm": "confirmed", "change": "changed", "drop": "dropped"}


def amendments(checked: Checked, writer: Writer) -> list[Any]:
    """Nothing where the project amends nothing."""
    if not checked.amendments:
        return []
    rows = [_row(record, writer) for record in checked.amendments]
    head = head_row("Rule", "What", "Before", "Now", "By, on", "Authority, source and reason")
    columns = (
        Column(share=3),
        Column(natural=True),
        Column(share=2),
        Column(share=2),
        Column(share=2),
        Column(share=4),
    )
    return [Sheet(columns, rows, head=[head], lead=part("amendments", "Local amendments", _SENTENCE), below=12)]


def _row(record: AmendmentRecord, writer: Writer) -> Row:
    where = " ".join(text for text in (record.rule_set, record.rule, record.limit.replace("_", " ")) if text)
    return Row(
        (
            Cell((Words(record.title, theme.CELL), Words(where, theme.CELL_SMALL))),
            cell(_DONE.get(record.what, record.what)),
            cell(quoted(record.amended.before, writer)),
            cell(quoted(record.amended.after, writer), theme.CELL_BOLD),
            cell(signed(record.amended)),
            Cell(
                (
                    Words(_on_what(record), theme.CELL),
                    Words(record.amended.reason, theme.CELL_SMALL),
                )
            ),
        )
    )


def _on_what(record: AmendmentRecord) -> str:
    """Authority, and where it was read; a confirmation rests on the copy alone."""
    amended = record.amended
    lacks = (
        "" if record.what == "confirm" or (amended.before is None and record.what == "change") else "no authority named"
    )
    return "; ".join(text for text in (amended.authority or lacks, amended.where) if text)


def signed(amended: Amended) -> str:
    return ", ".join(text for text in (amended.by, amended.on) if text)
