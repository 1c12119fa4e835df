"""Worked lines of a document, each printed once: where one is used again, its result and its number stand instead."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import field
from functools import lru_cache

from compliance.record import record
from compliance.steps import Given, Step
from compliance.units import Writer

_WORTH_SHORTENING = 24  # characters saved, below which a line is rather printed again
EXPLAINED = (
    "A worked line that is used again bears a number in brackets. Further on, its result stands with that number where "
    "a new line takes it up."
)
Measured = tuple[str, float]
"""A number with its kind, by which a line is known as what another takes up."""


@record
class WorkedLine:
    """The whole line with its source, and what is left of it where it was printed before; a formula of words stays
    whole. `gives` is its result, `takes` are the numbers put in; `step` is what the line was written from."""

    text: str
    short: str
    gives: Measured | None = None
    takes: tuple[Measured, ...] = ()
    step: Step | None = field(default=None, compare=False, repr=False)


@lru_cache(maxsize=16_384)
def worked_line(step: Step, writer: Writer) -> WorkedLine:
    """Written once: the same step stands under many findings."""
    line = step.line(writer)
    text = f"{line}  [{step.source}]" if step.source else line
    short = text
    if step.given or not step.formula:
        symbol = f"{step.result.symbol} = " if step.result.symbol else ""
        short = f"{_within(step.says)}: {symbol}{step.result.written(writer)}"
    takes = tuple(number for given in step.given if (number := measured(given)))
    return WorkedLine(text, short=short, gives=measured(step.result), takes=takes, step=step)


def measured(given: Given) -> Measured | None:
    return (given.kind, given.value) if isinstance(given.value, float) else None


def _within(says: str) -> str:
    """As it stands inside a sentence: a word begins small, a mark such as T1-4 stays."""
    return f"{says[:1].lower()}{says[1:]}" if says[1:2].islower() else says


@record
class LedgerLine:
    """One line to print: a worked line, which may be broken before its equal signs, or plain words."""

    text: str
    calculation: bool


class Ledger:
    """Numbers the lines that stand in several places. `printed` are the lines of every place where lines are printed
    together; `lines`, `number` and `known` are then asked in the order of printing."""

    def __init__(self, printed: Iterable[Iterable[WorkedLine]]) -> None:
        counts = Counter(line for lines in printed for line in set(lines))
        self._shared = {
            line
            for line, count in counts.items()
            if count > 1 and len(line.text) - len(line.short) >= _WORTH_SHORTENING
        }
        self._numbers: dict[WorkedLine, int] = {}
        self._last = 0

    def known(self, line: WorkedLine) -> int | None:
        """The number under which the line was printed before."""
        return self._numbers.get(line)

    def number(self, lines: Iterable[WorkedLine]) -> int | None:
        """The number of lines that are printed now as one; None where none of them is used again."""
        new = [line for line in lines if line in self._shared and line not in self._numbers]
        if not new:
            return None
        self._last += 1
        self._numbers |= dict.fromkeys(new, self._last)
        return self._last

    def lines(self, lines: Sequence[WorkedLine]) -> list[LedgerLine]:
        """The lines of one finding, each once."""
        parts: list[LedgerLine] = []
        recalled: list[str] = []
        each = list(dict.fromkeys(lines))
        taken_up = self._taken_up(each)
        for line in each:
            if line in self._numbers:
                recalled += [f"{line.short} ({self._numbers[line]})"] if line in taken_up else []
                continue
            parts += _recalled(recalled)
            recalled = []
            number = self.number([line])
            parts.append(LedgerLine(f"{line.text}  ({number})" if number else line.text, calculation=True))
        return parts + _recalled(recalled)

    def _taken_up(self, lines: Sequence[WorkedLine]) -> set[WorkedLine]:
        """Of the lines printed before: those whose result goes into a new line, the nearest above it; and the last."""
        given: dict[Measured, WorkedLine] = {}
        found = {lines[-1]} if lines else set()
        for line in lines:
            if line not in self._numbers:
                found |= {given[number] for number in line.takes if number in given}
            if line.gives:
                given[line.gives] = line
        return found


def _recalled(lines: Sequence[str]) -> list[LedgerLine]:
    return [LedgerLine(f"From before: {'; '.join(lines)}", calculation=False)] if lines else []
