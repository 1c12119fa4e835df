"""What the official is asked to accept where the walls need approval as an alternative, a line each, with room for an
answer.

Tests by an approved agency: IBC 2021, 104.11.2, 1703.1 and 1706.2, IRC R104.11.1; design of elements outside the
limits: IRC R301.1.3 (read in copies of the adopted code).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.elements.tick_boxes import TickBoxes
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.page_refs import Reference
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import BINDING
from compliance.report.mark_runs import in_runs
from compliance.report.marks import Mark
from compliance.report.summaries.action_items import ActionItem

_LEAD = "The office ticks what it accepts, or asks for more. A refusal gives its reasons in writing."
_Asked = tuple[str, str, str]
"""What it is about, what is asked, and the place of this submittal where it stands."""


def acceptances(checked: Checked, items: Sequence[ActionItem]) -> Sheet:
    rows = [
        Row(
            (
                cell(about, theme.CELL_BOLD),
                Cell((Words(asked, theme.CELL), Reference("where it stands", key, theme.CELL_SMALL, far=True))),
                Cell((TickBoxes(("accepted", "more is asked"), False, theme.CELL),)),
            )
        )
        for about, asked, key in _asked(checked, items)
    ]
    head = head_row("About", "The official is asked to accept", "Office")
    lead = part("acceptances", "What the official is asked to accept", _LEAD)
    return Sheet((Column(82), Column(share=1), Column(92)), rows, head=[head], lead=lead, below=8)


def _asked(checked: Checked, items: Sequence[ActionItem]) -> Iterator[_Asked]:
    measure = "; ".join(one.edition for one in checked.rule_sets if one.status in BINDING)
    if measure:
        yield "Measure", f"{measure}, as the measure of what the walls must equal.", "checks"
    yield from _tests(checked)
    engineered = [one for one in items if one.mark is Mark.ENGINEER]
    if engineered:
        named = in_runs([str(one.number) for one in engineered])
        text = f"Which of the items for an engineer ({', '.join(named)}) a licensed engineer designs, and how far."
        yield "Design", text, "items"
    yield "Inspections", "The points of inspection, and who makes them as special inspections.", "inspections"


def _tests(checked: Checked) -> Iterator[_Asked]:
    """A line for each who tested sets of specimens."""
    laboratory = checked.project.people.lab
    by: dict[str, list[str]] = {}
    for mark, test in checked.project.test_sets.items():
        by.setdefault(test.tested_by or (test.made_by or ""), []).append(mark)
    for tester, marks in by.items():
        sets = f"set{'s' if len(marks) > 1 else ''} {', '.join(in_runs(marks))}"
        if laboratory is not None and tester == laboratory.name:
            text = f"The reports of {tester} ({sets}) as those of an approved agency."
        else:
            named = tester or "a person not named"
            text = (
                f"The tests by {named} ({sets}) as if an approved agency had made them; or the office names the agency "
                "that repeats them, at no cost to the jurisdiction. Until then they show nothing to the office."
            )
        yield "Tests", text, "tests"
