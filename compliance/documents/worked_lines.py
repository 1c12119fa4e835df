"""Worked lines of a document, each printed once: where one is used again, its result and its number stand instead."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from compliance.documents import theme
from compliance.documents.words import Part, Words, Worked
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
    whole. `gives` is its result, `takes` are the numbers put in."""

    text: str
    short: str
    gives: Measured | None = None
    takes: tuple[Measured, ...] = ()


def worked_line(step: Step, writer: Writer) -> WorkedLine:
    line = step.line(writer)
    text = f"{line}  [{step.source}]" if step.source else line
    short = text
    if step.given or not step.formula:
        symbol = f"{step.result.symbol} = " if step.result.symbol else ""
        short = f"{_within(step.says)}: {symbol}{step.result.written(writer)}"
    takes = tuple(number for given in step.given if (number := _number(given)))
    return WorkedLine(text, short, _number(step.result), takes)


def _number(given: Given) -> Measured | None:
    return (given.kind, given.value) if isinstance(given.value, float) else None


def _within(says: str) -> str:
    """As it stands inside a sentence: a word begins small, a mark such as T1-4 stays."""
    return f"{says[:1].lower()}{says[1:]}" if says[1:2].islower() else says


class Ledger:
    """Numbers the lines that findings share. `printed` are the lines of every finding, in the order of printing;
    `parts` is then asked for each of them in that order."""

    def __init__(self, printed: Iterable[Sequence[WorkedLine]]) -> None:
        counts = Counter(line for lines in printed for line in set(lines))
        self._shared = {
            line
            for line, count in counts.items()
            if count > 1 and len(line.text) - len(line.short) >= _WORTH_SHORTENING
        }
        self._numbers: dict[WorkedLine, int] = {}

    def parts(self, lines: Sequence[WorkedLine]) -> list[Part]:
        """The lines of one finding, each once."""
        parts: list[Part] = []
        recalled: list[str] = []
        each = list(dict.fromkeys(lines))
        taken_up = self._taken_up(each)
        for line in each:
            if line in self._numbers:
                recalled += [f"{line.short} ({self._numbers[line]})"] if line in taken_up else []
                continue
            parts += _recalled(recalled)
            recalled = []
            text = line.text
            if line in self._shared:
                self._numbers[line] = len(self._numbers) + 1
                text = f"{text}  ({self._numbers[line]})"
            parts.append(Worked(text, theme.CALCULATION))
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


def _recalled(lines: Sequence[str]) -> list[Part]:
    return [Words(f"From before: {'; '.join(lines)}", theme.CALCULATION)] if lines else []
