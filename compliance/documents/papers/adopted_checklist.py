"""The checklist of the adopted code: a line for each clause with its limit, what came of it, and room for initials."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.page.inked import Ornament
from compliance.documents.page.line_breaking import Drawn, Part, Words
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import BINDING, Finding, LimitUsed, Standing
from compliance.judging.records import waits_for_the_work
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.grouping import subjects
from compliance.report.marks import Mark, mark_of
from compliance.report.value_words import quoted
from compliance.units import Writer

_INTRODUCTION = (
    "A line for each clause that has a subject here. Unconfirmed: within a limit that nobody has confirmed in the "
    "adopted copy. Confirm: the limit itself is open. The official initials what was read and agreed. Guides and "
    "practice stand in the calculations; what of them requires action is among the items."
)
_ADOPTED = "Checklist of the adopted code", ""
_COMPARED = (
    "Checklist of the code compared with",
    "By the project this code is not adopted for these walls: it is the measure of the request, not law. ",
)
_COLUMNS = (Column(26), Column(74), Column(share=5), Column(share=5), Column(share=6), Column(38))
_HEAD = head_row("Code", "Clause", "Check", "Limit, standing", "Result and subjects", "Initials")
_AIR = (1.2, 1.4)
_WORDS = {Mark.RESERVED: "meets, unconfirmed"}
_BOX = (30.0, 11.0)
_MOST_LIMITS = 2
_MOST_SUBJECTS = 60
"""Characters of subjects that are named; more are counted."""


def adopted_sets(sets: tuple[SetFindings, ...]) -> tuple[SetFindings, ...]:
    """Those of codes and standards."""
    return tuple(one for one in sets if one.rule_set.status in BINDING)


def checklist(sets: tuple[SetFindings, ...], writer: Writer, none_adopted: bool = False) -> list[Any]:
    """Nothing where no code or standard is named: the code path then says so. With `none_adopted` the jurisdiction is
    known to have adopted none of them."""
    heading, before = _COMPARED if none_adopted else _ADOPTED
    lead = title("checklist", heading, before + _INTRODUCTION)
    story: list[Any] = []
    for one in adopted_sets(sets):
        story += on_this_page() if not story else []
        lead += part(f"checklist-{one.letter}", one.heading)
        judged = [group for group in one.rules if group.judged or Mark.LATER in map(mark_of, group.findings)]
        rows = [_row(group, writer) for group in judged]
        rows += _apart(one, judged)
        story.append(Sheet(_COLUMNS, rows, head=[_HEAD], lead=lead, below=10))
        lead = []
    return story


def _apart(one: SetFindings, judged: Sequence[RuleFindings]) -> list[Row]:
    """The rules that apply to nothing here, in one line."""
    shown = {group.code for group in judged}
    left = [group.code for group in one.rules if group.code not in shown] + list(one.silent)
    if not left:
        return []
    left.sort(key=lambda code: (len(code), code))
    text = f"Do not apply to anything described here (reasons in the calculations): {', '.join(left)}."
    return [Row((Cell((Words(text, theme.CELL_SMALL),), span=6),), air=_AIR)]


def _row(group: RuleFindings, writer: Writer) -> Row:
    return Row(
        (
            cell(group.code, theme.CELL_BOLD, link=group.key),
            cell(group.first.clause),
            cell(group.first.title),
            Cell(tuple(_limits(group, writer))),
            Cell(tuple(_results(group))),
            Cell((Drawn(_BOX[1] + 1, Ornament(_box)),)),
        ),
        anchor=Anchor(f"clause-{group.code}"),
        air=_AIR,
    )


def _limits(group: RuleFindings, writer: Writer) -> Iterator[Part]:
    """Each limit with its standing; of a rule without one, how well the rule is known."""
    shown = group.limits if len(group.limits) <= _MOST_LIMITS else group.limits[:1]
    for limit in shown:
        yield Words(_limit(limit, writer, named=len(group.limits) > 1), theme.CELL)
    if len(shown) < len(group.limits):
        yield Words(f"with {len(group.limits) - 1} conditions of the test", theme.CELL_SMALL)
    if not group.limits and group.first.standing:
        yield Words(f"rule {group.first.standing.value}", theme.CELL)
    elif not group.limits:
        yield Words("not judged yet", theme.CELL)


def _limit(limit: LimitUsed, writer: Writer, named: bool) -> str:
    name = f"{limit.name.replace('_', ' ')} " if named else ""
    if limit.standing is Standing.OPEN:
        return f"{name}open"
    return f"{name}{quoted(limit.value, writer)}, {limit.standing.value}"


def _results(group: RuleFindings) -> list[Part]:
    """Each outcome with the subjects that have it, worst first; those to which it does not apply are left out."""
    same: dict[tuple[Mark, str], list[Finding]] = {}
    for one in group.findings:
        mark = mark_of(one)
        if mark is Mark.NOT_APPLICABLE:
            continue
        waits = mark is Mark.LATER and waits_for_the_work(one)
        word = "waits for the work" if waits else _WORDS.get(mark, mark.value.word)
        same.setdefault((mark, word), []).append(one)
    in_order = sorted(same.items(), key=lambda item: item[0][0].rank)
    return [Marked(mark, f"{word}: {_named(found)}", theme.CELL) for (mark, word), found in in_order]


def _named(found: Sequence[Finding]) -> str:
    text = subjects(found)
    if len(text) <= _MOST_SUBJECTS:
        return text
    about = text.split(" ", 1)[0]
    return f"{len(found)} {about}s, named in the calculations"


def _box(canvas: Any, left: float, top: float, width: float) -> None:
    """An empty box for initials."""
    canvas.setStrokeColor(theme.UMBER)
    canvas.setLineWidth(0.6)
    canvas.rect(left, top - _BOX[1], _BOX[0], _BOX[1], stroke=1, fill=0)
