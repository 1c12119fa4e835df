"""The answer on one page: what is asked, what meets, what does not, what an engineer has, what is still open.

Every part has its share of the page; what is over is counted and led to, so that the page never runs on.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_new_page, title
from compliance.documents.elements.tick_boxes import FewLines
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.page_refs import Reference
from compliance.documents.page.rows import Cell, Column, Row
from compliance.documents.page.sheet import Sheet
from compliance.documents.submittal.wall_pages import wall_key
from compliance.findings import Finding, Outcome
from compliance.judging.engineers_list import EngineerItem, engineers_list
from compliance.report.adoption_statement import state_adoption
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.grouping import subjects
from compliance.report.mark_runs import in_runs
from compliance.report.marks import Mark, mark_of
from compliance.report.result_words import format_result
from compliance.report.tally import checks_made, counts
from compliance.report.value_words import counted
from compliance.units import Writer

_CAUTION = (
    "This is what a screening against the named rule sets came to. It is no design, and nothing here says that a wall "
    "is safe; the official decides, and licensed engineers design what is marked engineer."
)
_COLUMNS = (Column(112), Column(share=1))
_MOST = {Mark.REVISE: 9, Mark.ENGINEER: 8, Mark.MISSING: 6, Mark.CONFIRM: 6}
_MOST_STRENGTHS = 3
_BINDING = ("code", "standard")
_LABEL = theme.BODY_BOLD


def answer(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    writer = Writer(checked.project.project.units)
    groups = [group for one in sets for group in one.rules]
    rows = [
        _block(Words("What is asked", _LABEL), _purpose(checked)),
        _block(Marked(Mark.MEETS, "What meets", _LABEL), _meets(checked, groups, writer)),
        _block(Marked(Mark.REVISE, "What does not", _LABEL), _rules(checked, groups, Mark.REVISE, writer)),
        _block(Marked(Mark.ENGINEER, "What an engineer has", _LABEL), _engineer(checked)),
        _block(Marked(Mark.MISSING, "What is still missing", _LABEL), _rules(checked, groups, Mark.MISSING, writer)),
        _block(Marked(Mark.CONFIRM, "Limits still open", _LABEL), _rules(checked, groups, Mark.CONFIRM, writer)),
    ]
    return [*on_new_page(), Sheet(_COLUMNS, rows, lead=title("answer", "The answer on one page", _CAUTION), below=0)]


def _block(label: Part, parts: Iterable[Part]) -> Row:
    return Row((Cell((label,)), Cell(tuple(parts))), air=(5.0, 6.0))


def _purpose(checked: Checked) -> list[Part]:
    place, walls = checked.project.jurisdiction, checked.project.walls
    named = "; ".join(
        f"{one.title} ({one.edition})" if one.status in _BINDING else one.title for one in checked.rule_sets
    )
    adopted = f"Adopted by: {place.adopting_text}." if place.adopting_text else "The adopting ordinance is not stated."
    purpose = (
        f"The building official of {place.name} is asked to look at {counted(len(walls), 'wall')} of earth "
        f"({', '.join(in_runs(list(walls)))}), as described in this bundle, under: {named}."
    )
    state = state_adoption(checked)
    law = [FewLines(state, theme.BODY, 4)] if state else []
    return [FewLines(purpose, theme.BODY, 5), FewLines(adopted, theme.BODY, 2), *law]


def _meets(checked: Checked, groups: Sequence[RuleFindings], writer: Writer) -> list[Part]:
    found = counts(checked)
    parts: list[Part] = [
        FewLines(
            f"{found[Mark.MEETS] + found[Mark.RESERVED]} of "
            f"{checks_made(checked)} checks: {found[Mark.MEETS]} within their limit, and "
            f"{found[Mark.RESERVED]} within a limit that nobody has yet confirmed in the adopted copy. The second kind "
            "counts as met only when the official agrees to the limit.",
            theme.BODY, 3,
        ),
        FewLines(_sound(checked), theme.BODY, 2),
    ]  # fmt: skip
    strengths = [(group, one) for group in groups for one in group.judged if _tells_strength(one)]
    for group, one in strengths[:_MOST_STRENGTHS]:
        parts.append(Reference(f"{one.title}, {one.subject}: {format_result(one, writer)}", group.key, theme.CELL))
    return parts


def _sound(checked: Checked) -> str:
    """The walls of which nothing is to be revised, missing or for an engineer."""
    asking = {one.wall for one in checked.findings if one.outcome in _ASKING}
    free = [wall for wall in checked.project.walls if wall not in asking]
    if not free:
        return "There is no wall without something to revise, to add or for an engineer."
    named = ", ".join(in_runs(free))
    return f"Walls with nothing to revise, to add or for an engineer, limits still to confirm set aside: {named}."


_ASKING = (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING)


def _tells_strength(one: Finding) -> bool:
    return one.kind == "test" and one.outcome is Outcome.MEETS and one.value is not None and one.value.kind == "stress"


def _rules(checked: Checked, groups: Sequence[RuleFindings], mark: Mark, writer: Writer) -> list[Part]:
    """How many findings have the mark, then a line for each rule, as many as have room."""
    lines = []
    for group in groups:
        found = [one for one in group.findings if mark_of(one) is mark]
        if found:
            wording = f"{subjects(found)}: {found[0].title}"
            shared = {format_result(one, writer) for one in found}
            figures = f", {shared.pop()}" if len(shared) == 1 and mark is Mark.REVISE else ""
            lines.append(Reference(f"{wording}{figures} ({group.first.clause})", group.key, theme.CELL))
    count = counts(checked)[mark]
    if not count:
        return [Words("Nothing.", theme.BODY)]
    head = f"{counted(count, 'finding')} of {counted(len(lines), 'rule')}."
    return [FewLines(head, theme.BODY, 1), *_with_room(lines, mark, "rule")]


def _engineer(checked: Checked) -> list[Part]:
    found = engineers_list(checked.findings)
    if not found:
        return [Words("Nothing is marked engineer. That does not say that no engineer is needed.", theme.BODY)]
    count = sum(len(one.findings) for one in found)
    head = f"{counted(count, 'finding')}: a licensed engineer designs or reviews each before it is built."
    keys = (wall_key(one.wall) if one.wall else _all_of(Mark.ENGINEER) for one in found)
    lines = [Reference(_of_wall(one), key, theme.CELL) for one, key in zip(found, keys, strict=True)]
    return [FewLines(head, theme.BODY, 1), *_with_room(lines, Mark.ENGINEER, "wall")]


def _of_wall(one: EngineerItem) -> str:
    titles = dict.fromkeys(finding.title for finding in one.findings)
    named = f"Wall {one.wall}" if one.wall else "The building"
    return f"{named}, {counted(len(one.findings), 'finding')}: {'; '.join(titles)}"


def _with_room(lines: Sequence[Part], mark: Mark, what: str) -> list[Part]:
    most = _MOST[mark]
    shown = list(lines) if len(lines) <= most else list(lines[: most - 1])
    left = len(lines) - len(shown)
    if left:
        shown.append(Reference(f"and {counted(left, f'{what} more', f'{what}s more')}", _all_of(mark), theme.CELL_BOLD))
    return shown


def _all_of(mark: Mark) -> str:
    """The list of all findings with the mark."""
    return f"first-{mark.name.lower()}"
