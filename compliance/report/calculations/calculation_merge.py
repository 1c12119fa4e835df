"""The worked lines of several subjects laid beside each other, so that a formula all follow is printed once."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from compliance.report.calculations.calculation_lines import WorkedLine
from compliance.steps import Named

_FEW = 3
OWN = "each"
"""Stands for the mark of the subject itself, and for a mark that differs between subjects."""


@dataclass(slots=True)
class Merged:
    """One line: what it says of each subject, None where the subject does not take it."""

    key: Hashable
    lines: list[WorkedLine | None]

    @property
    def taken(self) -> list[tuple[int, WorkedLine]]:
        return [(index, line) for index, line in enumerate(self.lines) if line]


def merged(chains: Sequence[Sequence[WorkedLine]], marks: Sequence[frozenset[str]]) -> list[Merged]:
    """Every line of every chain, each chain in its own order. Lines stand in one row where they differ in their numbers
    only. `marks` are the subject's own marks, which may differ too."""
    shared_texts = _shared_texts(chains, marks)
    rows: list[Merged] = []
    known: dict[tuple[Hashable, ...], list[Merged]] = {}
    for index, chain in enumerate(chains):
        lines = list(dict.fromkeys(chain))
        keys = tuple(line.text if line.text in shared_texts else _key(line, marks[index]) for line in lines)
        if keys not in known:
            rows, known[keys] = _woven(rows, keys, len(chains))
        for row, line in zip(known[keys], lines, strict=True):
            row.lines[index] = line
    return rows


def _shared_texts(chains: Sequence[Sequence[WorkedLine]], marks: Sequence[frozenset[str]]) -> set[str]:
    """Lines about one subject that another takes, too: the same for both, so that one row holds them."""
    own: dict[bool, set[str]] = {True: set(), False: set()}
    for index, chain in enumerate(chains):
        for line in chain:
            if line.step:
                own[names_any(line.step.says, marks[index])].add(line.text)
    return own[True] & own[False]


def _woven(rows: list[Merged], keys: tuple[Hashable, ...], subjects: int) -> tuple[list[Merged], list[Merged]]:
    """`rows` with the lines they lack put in at their place, and the rows that `keys` stand in."""
    woven: list[Merged] = []
    own: list[Merged] = []
    matcher = SequenceMatcher(None, [row.key for row in rows], keys, autojunk=False)
    for what, start, end, first, last in matcher.get_opcodes():
        woven += rows[start:end]
        if what == "equal":
            own += rows[start:end]
            continue
        fresh = [Merged(key, [None] * subjects) for key in keys[first:last]]
        woven += fresh
        own += fresh
    return woven, own


def _key(line: WorkedLine, marks: frozenset[str]) -> Hashable:
    step = line.step
    if step is None:
        return line.text
    symbols = tuple(given.symbol for given in step.given)
    return says_without(step.says, marks), step.formula, step.source, step.result.symbol, step.result.kind, symbols


def shared_words(texts: Sequence[str]) -> str:
    """What is said of all; a mark in which they differ is left out. A few texts that are not said alike stand beside
    each other; nothing where there are more."""
    each = list(dict.fromkeys(texts))
    if len(each) == 1:
        return each[0]
    if shared := _without_differing(each):
        return shared
    return " or ".join(each) if len(each) <= _FEW and all(each) else ""


def _without_differing(texts: Sequence[str]) -> str:
    """The one text of those that differ only in the marks they name; empty where they differ in more, or where they
    say nothing but the marks."""
    named = [text for text in texts if isinstance(text, Named)]
    pieces = {one.texts for one in named}
    if len(named) < len(texts) or len(pieces) > 1 or not any(map(str.strip, named[0].texts)):
        return ""
    marks = tuple(
        of_all[0] if len(set(of_all)) == 1 else OWN for of_all in zip(*(one.marks for one in named), strict=True)
    )
    return Named.of(named[0].texts, marks)


def names_any(says: str, marks: frozenset[str]) -> bool:
    return isinstance(says, Named) and not marks.isdisjoint(says.marks)


def says_without(says: str, marks: frozenset[str]) -> str:
    return says.without(marks, OWN) if isinstance(says, Named) else says
