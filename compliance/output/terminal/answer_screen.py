"""The first screen of a check: the answer, what stops, what to decide, what to ask, what comes later."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Mapping

from compliance.checked import Checked
from compliance.output.terminal.check_table import NARROWEST
from compliance.output.terminal.hanging_indent import hung
from compliance.remedies.changes import Change
from compliance.report.answer.answer import Answer
from compliance.report.answer.causes import Cause
from compliance.report.answer.folding import STOPS
from compliance.report.value_words import counted
from compliance.report.words.answer_words import (
    ACCEPTED,
    ASK,
    DECIDE_NOW,
    FOR_AN_ENGINEER,
    TO_CHANGE,
    answer_sentence,
    cause_words,
    clause_words,
    do_words,
    item_words,
    remedy_words,
    stage_words,
    tally_words,
)
from compliance.units import Writer

NearestByCause = Mapping[str, Change | None]
"""The nearest change that meets, by the key of a cause; no entry where none was looked for."""


def answer_screen(checked: Checked, found: Answer, changes: NearestByCause, width: int) -> str:
    """The whole text, at most some sixty lines for a building of a dozen walls."""
    width = max(width, NARROWEST)
    head = checked.project.project
    writer = Writer(head.units)
    rules = counted(len(checked.rule_sets), "rule set")
    lines = hung(f"{head.name}, revision {head.revision}, by {rules}", width, 0, 2)
    lines += textwrap.wrap(answer_sentence(found, len(checked.findings)), width)
    engineer, change = (tuple(one for one in found.stops if one.outcome is outcome) for outcome in STOPS)
    stops = [
        *_section(f"{FOR_AN_ENGINEER}{_folded(found)}", _stops(engineer, changes, writer, width), width),
        *_section(TO_CHANGE, _stops(change, changes, writer, width), width),
        *_section(ACCEPTED, _stops(found.accepted, {}, writer, width), width),
    ]
    write = [line for one in found.to_write for line in _listed(item_words(one, writer), width)]
    read = [line for one in found.to_read for line in _listed(clause_words(one), width)]
    for section in (
        stops,
        _section(f"{DECIDE_NOW}, with how many checks need it", write, width),
        _section(ASK, read, width),
        [*textwrap.wrap(tally_words(checked), width), *textwrap.wrap(stage_words(found), width)],
    ):
        lines += ["", *section] if section else []
    return "\n".join(lines) + "\n"


def _section(title: str, lines: Iterable[str], width: int) -> list[str]:
    some = list(lines)
    return [*textwrap.wrap(title, width), *some] if some else []


def _stops(causes: Iterable[Cause], changes: NearestByCause, writer: Writer, width: int) -> Iterator[str]:
    for cause in causes:
        what, do = cause_words(cause, writer), do_words(cause, changes.get(cause.key), writer)
        if not do:  # what the rule says is told where it costs no line: --why has it in full
            says = f"{what}; {remedy_words(cause)}"
            do = remedy_words(cause) if len(_listed(says, width)) == len(_listed(what, width)) else ""
        yield from _listed(f"{what}{'; ' if do else ''}{do}", width)


def _folded(found: Answer) -> str:
    count = sum(cause.folded for cause in found.stops)
    return f" ({counted(count, 'finding')} that {'follows' if count == 1 else 'follow'} not listed)" if count else ""


def _listed(text: str, width: int) -> list[str]:
    return hung(text, width, 2, 4)
