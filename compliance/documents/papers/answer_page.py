"""The answer on one page: what is asked, what meets, what does not, what an engineer has, what is still open.

Every part has its share of the page; what is over is counted and led to, so that the page never runs on.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import accumulate
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
from compliance.documents.papers.items_requiring_action import item_key, list_key
from compliance.findings import BINDING, Finding, Outcome
from compliance.report.adoption_statement import state_adoption
from compliance.report.by_rule import SetFindings
from compliance.report.limits.open_limits import limits_to_read
from compliance.report.mark_runs import in_runs
from compliance.report.marks import Mark
from compliance.report.result_words import format_result
from compliance.report.summaries.action_items import ActionItem, items_of_walls
from compliance.report.tally import counts
from compliance.report.value_words import counted
from compliance.units import Writer

_CAUTION = (
    "This is what a screening against the named rule sets came to. It is no design, and nothing here says that a wall "
    "is safe; the official decides, and licensed engineers design what is marked engineer."
)
_COLUMNS = (Column(104), Column(share=1))
_MOST = {Mark.REVISE: 8, Mark.ENGINEER: 8, Mark.MISSING: 6}
"""Lines on the page."""
_WIDTH = 370.0
"""Of these lines on the narrowest paper, in points."""
_MOST_STRENGTHS = 3
_LABEL = theme.BODY_BOLD
_ASKING = (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING)


def answer(checked: Checked, sets: tuple[SetFindings, ...], items: Sequence[ActionItem]) -> list[Any]:
    writer = Writer(checked.project.project.units)
    rows = [
        _block(Words("What is asked", _LABEL), _purpose(checked)),
        _block(Marked(Mark.MEETS, "What meets", _LABEL), _meets(checked, sets, writer)),
        _block(Marked(Mark.ENGINEER, "For an engineer", _LABEL), _engineer(checked, items)),
        _block(Marked(Mark.REVISE, "To revise", _LABEL), _items(checked, items, Mark.REVISE)),
        _block(Marked(Mark.MISSING, "Missing", _LABEL), _items(checked, items, Mark.MISSING)),
        _block(Marked(Mark.CONFIRM, "Limits open", _LABEL), _open(checked, sets)),
    ]
    return [*on_new_page(), Sheet(_COLUMNS, rows, lead=title("answer", "The answer on one page", _CAUTION), below=0)]


def _block(label: Part, parts: Iterable[Part]) -> Row:
    return Row((Cell((label,)), Cell(tuple(parts))), air=(5.0, 6.0))


def _purpose(checked: Checked) -> list[Part]:
    place, walls = checked.project.jurisdiction, checked.project.walls
    binding = [one for one in checked.rule_sets if one.status in BINDING]
    named = "; ".join(f"{one.title} ({one.edition})" for one in binding) or "no adopted code, by the rule sets named"
    purpose = (
        f"The building official of {place.name} is asked to look at {counted(len(walls), 'wall')} of earth "
        f"({', '.join(in_runs(list(walls)))}), as described here, {_path(checked)}: {named}."
    )
    parts: list[Part] = [FewLines(purpose, theme.BODY, 6)]
    state = state_adoption(checked)
    if state:
        parts.append(FewLines(state, theme.CELL, 4))
    return [*parts, Reference("What is adopted, and on which path approval is asked", "code-path", theme.CELL)]


def _path(checked: Checked) -> str:
    if checked.project.jurisdiction.adopts_earthen_code is False:
        return "as an alternative that no adopted code covers, compared with"
    return "under"


def _meets(checked: Checked, sets: tuple[SetFindings, ...], writer: Writer) -> list[Part]:
    """Those on confirmed limits and those on others stand in lines of their own: the second kind is no result yet."""
    found = counts(checked)
    on_confirmed = counted(found[Mark.MEETS], "check meets", "checks meet")
    on_others = counted(found[Mark.RESERVED], "check is", "checks are")
    parts: list[Part] = [
        Words(
            f"{on_confirmed}; their limit was confirmed in the adopted copy, or they need none.",
            theme.BODY,
        ),
        Words(
            f"{on_others} within a limit that nobody has confirmed in the adopted copy: met only when the official "
            "agrees to the limit.",
            theme.BODY,
        ),
        FewLines(_sound(checked), theme.BODY, 3),
    ]
    strengths = [one for of_set in sets for group in of_set.rules for one in group.judged if _tells_strength(one)]
    shown = {f"{one.subject}: {format_result(one, writer)}": None for one in strengths}
    for text in list(shown)[:_MOST_STRENGTHS]:
        parts.append(Reference(f"Strength, test set {text}", "tests", theme.CELL))
    return parts


def _sound(checked: Checked) -> str:
    """The walls of which nothing is to be revised, missing or for an engineer."""
    asking = {one.wall for one in checked.findings if one.outcome in _ASKING}
    free = [wall for wall in checked.project.walls if wall not in asking]
    if not free:
        return "There is no wall without something to revise, to add or for an engineer."
    named = ", ".join(in_runs(free))
    return f"Walls with nothing to revise, to add or for an engineer, limits still to confirm set aside: {named}."


def _tells_strength(one: Finding) -> bool:
    return one.kind == "test" and one.outcome is Outcome.MEETS and one.value is not None and one.value.kind == "stress"


def _items(checked: Checked, items: Sequence[ActionItem], mark: Mark) -> list[Part]:
    """How many findings have the mark in how many items, then a line for each item, as many as have room."""
    found = [one for one in items if one.mark is mark]
    if not found:
        return [Words("Nothing.", theme.BODY)]
    lines: list[Part] = [Reference(_named(one), item_key(one), theme.CELL) for one in found]
    return [_head(checked, mark, len(found)), *_with_room(lines, mark)]


def _engineer(checked: Checked, items: Sequence[ActionItem]) -> list[Part]:
    """By wall: what an engineer is asked for is asked of a wall, not of a rule."""
    found = [one for one in items if one.mark is Mark.ENGINEER]
    if not found:
        return [Words("Nothing is marked engineer. That does not say that no engineer is needed.", theme.BODY)]
    lines: list[Part] = []
    for wall, numbers in items_of_walls(found).items():
        named = [one for one in found if one.number in numbers]
        titles = "; ".join(dict.fromkeys(one.groups[0].first.title for one in named))
        what = counted(len(numbers), "item")
        lines.append(Reference(f"{wall or 'The building'}, {what}: {titles}", item_key(named[0]), theme.CELL))
    return [_head(checked, Mark.ENGINEER, len(found)), *_with_room(lines, Mark.ENGINEER)]


def _head(checked: Checked, mark: Mark, items: int) -> Part:
    findings = counted(counts(checked)[mark], "finding")
    of_engineer = ": a licensed engineer designs or reviews each before it is built" if mark is Mark.ENGINEER else ""
    return Words(f"{counted(items, 'item')}, {findings}{of_engineer}.", theme.BODY)


def _named(one: ActionItem) -> str:
    first = one.groups[0].first
    if len(one.groups) > 1:
        return f"{one.lacks or one.reason} ({counted(len(one.groups), 'check waits', 'checks wait')})"
    return f"{one.subject}: {first.title}"


def _open(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Part]:
    count, to_read = counts(checked)[Mark.CONFIRM], len(limits_to_read(sets))
    if not count:
        return [Words("Nothing.", theme.BODY)]
    waits = counted(count, "finding waits", "findings wait")
    wording = f"{waits} for {counted(to_read, 'limit or rule', 'limits or rules')} to be read in the adopted copy."
    return [
        Words(wording, theme.BODY),
        Reference("The checklist and the register of limits name each", "limits", theme.CELL, far=True),
    ]


def _with_room(lines: Sequence[Part], mark: Mark) -> list[Part]:
    """As many as fit on the lines that are the mark's share of the page; those left out are counted and led to."""
    taken = [len(one.lines(_WIDTH)) for one in lines]
    fitting = sum(1 for total in accumulate(taken) if total <= _MOST[mark])
    shown = list(lines) if fitting == len(lines) else list(lines[: max(fitting - 1, 0)])
    left = len(lines) - len(shown)
    if left:
        shown.append(Reference(f"and {left} more", list_key(mark), theme.CELL_BOLD))
    return shown
