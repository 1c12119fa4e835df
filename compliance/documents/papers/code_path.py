"""The code path: what is adopted, under which rule sets the walls were checked, and, where the code does not cover
them, the request for alternative materials, design and methods with its six heads.

Heads and evidence: IBC and IRC 2021, 104.11 and R104.11 (read in copies of the adopted code); IBC 2024, 104.2.3 (read).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.page_refs import Reference
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.asked_of_the_official import acceptances
from compliance.report.adoption_statement import is_adopted, state_adoption
from compliance.report.by_rule import SetFindings
from compliance.report.marks import Mark
from compliance.report.summaries.action_items import ActionItem
from compliance.report.summaries.design_data import stands_alone
from compliance.report.summaries.place_cautions import place_cautions
from compliance.report.value_words import counted

_BY_CODE = (
    "The project names the text that adopts a code for earthen walls. The official says whether it is in force, with "
    "which local amendments, and whether the walls lie within its scope."
)
_NONE_NAMED = "The project names no adopted code that covers these walls. "
_NONE_ADOPTED = "By the project, the jurisdiction has adopted no code that covers these walls. "
_BY_REQUEST = (
    "Approval is asked as an alternative under IBC 104.11 "
    "or IRC R104.11 (IBC 2024: 104.2.3, in writing): an alternative is approved where it meets the intent of the code "
    "and is at least its equal in the six heads below. The official may ask for tests by an approved agency and for a "
    "peer review, at no cost to the jurisdiction, and gives reasons in writing for a refusal."
)
_EDITION_2024 = (
    "IBC 2024 words the heads anew and sets fire safety apart: the office says which form it wants filled in."
)
_DEFERRED = (
    "Deferred submittals: none is named in the project. What is to follow later, trusses or an engineer's design among "
    "it, is listed here by hand and approved before it is built (IBC 107.3.4.1)."
)
_STATUS = {
    "code": "code", "standard": "standard", "practice": "building practice", "guide": "guide",
}  # fmt: skip
_HEADS: tuple[tuple[str, str, tuple[tuple[str, str], ...]], ...] = (
    ("Quality", "Soils, mixes and specimens are recorded from the pit to the wall; inspections have hold points.",
     (("Tests in summary", "tests"), ("Special inspections", "inspections"))),
    ("Strength", "Tests of the mix, and a screening of each wall for axial load, bending, shear and overturning.",
     (("Tests in summary", "tests"), ("Calculations", "checks"))),
    ("Effectiveness", "Each rule of the sets named above is answered with value, limit and standing.",
     (("Every rule", "checks"), ("Items requiring action", "items"))),
    ("Fire resistance", "No fire test of the assembly is part of this submittal; what the rule sets ask is answered in "
     "the calculations. Where a rating is required, evidence is to be added.", (("Every rule", "checks"),)),
    ("Durability", "Rain, ground moisture, finishes, overhang and frost are checked as the rule sets ask.",
     (("Every rule", "checks"), ("Design data", "design-data"))),
    ("Safety", "Items outside the rules are marked for an engineer. A screening does not show that a wall is safe.",
     (("Items requiring action", "items"),)),
)  # fmt: skip


def code_path(checked: Checked, sets: tuple[SetFindings, ...], items: Sequence[ActionItem]) -> list[Any]:
    adopted, place = is_adopted(checked), checked.project.jurisdiction
    by_request = (_NONE_ADOPTED if place.adopts_earthen_code is False else _NONE_NAMED) + _BY_REQUEST
    lead = title("code-path", "Code path", _BY_CODE if adopted else by_request)
    facts = [("Adopting text", place.adopting_text or "not given: ask the office")]
    if state := state_adoption(checked):
        facts.append((f"Law of {place.state}", state))
    facts += [("Caution", text) for text in place_cautions(checked, "code-path")]
    lead += [full_row(Words(f"{label}: {text}", theme.CELL, after=2.0)) for label, text in facts]
    rows = [_rule_set(one) for one in sets]
    head = head_row("", "Rule set", "What it is", "Edition")
    columns = (Column(18), Column(share=5), Column(70), Column(share=4))
    story = [*on_this_page(), Sheet(columns, rows, head=[head], lead=lead, below=8)]
    if not adopted:
        story.append(_request())
        story += [] if stands_alone(checked) else [acceptances(checked, items)]
    return [*story, _scope(items)]


def _rule_set(one: SetFindings) -> Row:
    rules = one.rule_set
    name = (Words(rules.title, theme.CELL_BOLD), Words(f"for {rules.forms_in_words}", theme.CELL_SMALL))
    status = _STATUS.get(rules.status, rules.status)
    return Row((cell(one.letter, theme.CELL_BOLD), Cell(name), cell(status), cell(rules.edition)), air=(1.6, 1.8))


def _request() -> Sheet:
    lead = part("request", "Request for alternative materials, design and methods", _EDITION_2024)
    rows = [
        Row(
            (
                cell(name, theme.CELL_BOLD),
                cell(says),
                Cell(tuple(Reference(text, key, theme.CELL_SMALL, far=True) for text, key in evidence)),
                cell(""),
            )
        )
        for name, says, evidence in _HEADS
    ]
    head = head_row("At least equal in", "What this submittal offers", "Evidence", "Office")
    columns = (Column(82), Column(share=1), Column(148), Column(44))
    return Sheet(columns, rows, head=[head], lead=lead, below=8)


def _scope(items: Sequence[ActionItem]) -> Sheet:
    lead = part("out-of-scope", "Out of scope, and deferred")
    lead += [full_row(Words(text, theme.BODY, after=3.0)) for text in (*_out_of_scope(items), _DEFERRED)]
    return Sheet((Column(share=1),), (), lead=lead, below=8)


def _out_of_scope(items: Sequence[ActionItem]) -> Iterator[str]:
    engineered = [one for one in items if one.mark is Mark.ENGINEER]
    if engineered:
        first, last = engineered[0].number, engineered[-1].number
        numbers = f"numbers {first} to {last}" if last > first else f"number {first}"
        yield (
            f"{counted(len(engineered), 'item')} for an engineer, {numbers} of the items requiring action, "
            f"{'lie' if last > first else 'lies'} outside what the rules cover. IRC R301.1.3 "
            "asks for engineered design of the elements that exceed its limits; how far it reaches is for the official."
        )
    else:
        yield "No item is marked for an engineer. That does not say that no engineer is needed."
    yield (
        "Not checked here: egress, energy, plumbing, wiring, septic, zoning, and every part of the building that is "
        "not an earthen wall or does not bear on one, unless a rule names it."
    )
