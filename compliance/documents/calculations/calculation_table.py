"""The calculation of several subjects as one table: each formula once with its source, under each subject the numbers
that are put in and the result. What is the same for all stands in the line itself; what was worked out further up is
named by the number of its line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from compliance.documents.elements import theme
from compliance.documents.page.faces import clean, text_width
from compliance.documents.page.line_breaking import Words, Worked
from compliance.documents.page.rows import GAP, Cell, Column, Row
from compliance.record import record
from compliance.report.calculations.calculation_lines import Ledger, Measured, WorkedLine, measured
from compliance.report.calculations.calculation_merge import Merged, merged, names_any, says_without, shared_words
from compliance.report.value_words import NOTHING
from compliance.steps import Given, Scalar, Step
from compliance.units import Writer, words_of

MOST_ABREAST = 7
_ROOM_FOR_NUMBERS = 322.0
_WIDEST = 74.0
_AIR = (0.8, 1.0)
_AIR_OF_LINE = (1.2, 1.4)


@record
class Beside:
    """One subject of the table: how it is headed, its own marks, its lines."""

    heading: str
    marks: frozenset[str]
    lines: tuple[WorkedLine, ...]


def worth_a_table(subjects: Sequence[Beside]) -> bool:
    """Whether some line stands for two subjects or more."""
    rows = merged([one.lines for one in subjects], [one.marks for one in subjects])
    return any(len(row.taken) > 1 for row in rows)


def columns_for(subjects: int) -> tuple[Column, ...]:
    width = min(_WIDEST, _ROOM_FOR_NUMBERS / subjects)
    return Column(share=1), *(Column(width) for _ in range(subjects))


class CalculationTable:
    """Rows of one table, made in the order of printing, for the ledger is filled on the way."""

    def __init__(self, subjects: Sequence[Beside], ledger: Ledger, writer: Writer) -> None:
        self._subjects, self._ledger, self._writer = subjects, ledger, writer
        self._room = min(_WIDEST, _ROOM_FOR_NUMBERS / len(subjects)) - 2 * GAP
        self._shown: dict[tuple[int, str], Scalar] = {}  # what stands last under a subject for a symbol
        self._numbered: dict[tuple[int, Measured], int] = {}  # the line a number of a subject comes from
        self._last = [list(dict.fromkeys(one.lines))[-1] if one.lines else None for one in subjects]

    def rows(self) -> list[Row]:
        found: list[Row] = []
        for row in merged([one.lines for one in self._subjects], [one.marks for one in self._subjects]):
            found += self._rows(row)
        return found

    def _rows(self, row: Merged) -> list[Row]:
        taken = row.taken
        before = {index: number for index, line in taken if (number := self._ledger.known(line))}
        if len(before) == len(taken):
            self._note(taken, before)
            ends = any(self._last[index] is line for index, line in taken)
            return [self._recalled(taken, before)] if ends else []
        number = self._ledger.number(line for _, line in taken)
        behind = f"  ({number})" if number else ""
        if len({line.text for _, line in taken}) == 1:
            made = [self._line(taken, behind)]
        elif self._is_wordy(taken):
            texts = dict.fromkeys(line.text for _, line in taken)
            made = [self._line([one for one in taken if one[1].text == text], behind) for text in texts]
        else:
            made = self._numbers(taken, behind)
        if number:
            self._note(taken, dict.fromkeys((index for index, _ in taken), number))
        return made

    def _note(self, taken: list[tuple[int, WorkedLine]], numbers: dict[int, int]) -> None:
        for index, line in taken:
            if line.gives:
                self._numbered[index, line.gives] = numbers[index]

    def _recalled(self, taken: list[tuple[int, WorkedLine]], before: dict[int, int]) -> Row:
        """What was printed before and is the end of a calculation: the result again."""
        (_, first), *rest = taken
        behind = f"  ({_and(before.values())})"
        if first.step is None or all(line.short == first.short for _, line in rest):
            return self._across(f"{self._who(taken)}From before: {first.short}{behind}")
        return self._under(
            f"From before: {_head(first.step, self._marks(taken))}{behind}", self._written(self._results(taken))
        )

    def _line(self, taken: list[tuple[int, WorkedLine]], behind: str) -> Row:
        """A line that is the same for all who take it."""
        line = taken[0][1]
        if line.step:
            for given in (*line.step.given, line.step.result):
                self._shown |= {(index, given.symbol): given.value for index, _ in taken}
        named = [name for given in (line.step.given if line.step else ()) if (name := self._named(taken, given))]
        from_before = f"  {', '.join(named)}" if named else ""
        who = "" if self._names_itself(taken) else self._who(taken)
        return self._across(f"{who}{line.text}{from_before}{behind}")

    def _names_itself(self, taken: list[tuple[int, WorkedLine]]) -> bool:
        """Whether a line of one subject says by itself which it is."""
        (index, line), *more = taken
        own = self._subjects[index]
        return not more and line.step is not None and names_any(line.step.says, own.marks)

    def _is_wordy(self, taken: list[tuple[int, WorkedLine]]) -> bool:
        """Whether some of the results are words too long for a column of numbers."""
        words = [one for one in self._results(taken).values() if isinstance(one.value, str)]
        face, size = theme.WORKED_RESULT.face, theme.WORKED_RESULT.size
        return any(text_width(clean(one.written(self._writer)), face, size) > self._room for one in words)

    def _named(self, taken: list[tuple[int, WorkedLine]], given: Given) -> str:
        number = measured(given)
        found = {self._numbered.get((index, number)) for index, _ in taken} if number else {None}
        return f"{given.symbol} from ({_and(one for one in found if one)})" if None not in found else ""

    def _numbers(self, taken: list[tuple[int, WorkedLine]], behind: str) -> list[Row]:
        """The formula once; rows for what is put in, where it does not stand above already, then the result."""
        steps = {index: line.step for index, line in taken if line.step}
        first = next(iter(steps.values()))
        rows: list[Row] = []
        same: list[str] = []
        for place, given in enumerate(first.given if first.formula else ()):
            put_in = {index: step.given[place] for index, step in steps.items()}
            if all(self._shown.get((index, one.symbol)) == one.value for index, one in put_in.items()):
                continue
            number = self._origin(put_in)
            if all(one.value == given.value for one in put_in.values()):
                same.append(f"{given.symbol} = {first.put_in(given, self._writer)}{number}")
            else:
                shared = shared_words([one.meaning for one in put_in.values()])
                meaning = f"{shared}: " if shared else ""
                texts = {index: steps[index].put_in(one, self._writer) for index, one in put_in.items()}
                rows.append(self._under(f"{meaning}{given.symbol}{number}", texts))
            self._shown |= {(index, one.symbol): one.value for index, one in put_in.items()}
        results = {index: step.result for index, step in steps.items()}
        self._shown |= {(index, one.symbol): one.value for index, one in results.items()}
        head = _head(first, self._marks(taken))
        formula = f" = {first.formula}" if first.formula else ""
        with_same = f"; {', '.join(same)}" if same else ""
        source = f"  [{first.source}]" if first.source else ""
        text = f"{head}{formula}{with_same}{source}{behind}"
        return [*rows, self._under(text, self._written(results), bold=True)]

    def _origin(self, put_in: dict[int, Given]) -> str:
        """The numbers of the lines that all of these come from; nothing where one of them comes from none."""
        found = [self._numbered.get((index, number)) for index, one in put_in.items() if (number := measured(one))]
        numbers = [one for one in found if one]
        return f" ({_and(numbers)})" if len(numbers) == len(put_in) else ""

    def _results(self, taken: list[tuple[int, WorkedLine]]) -> dict[int, Given]:
        return {index: line.step.result for index, line in taken if line.step}

    def _written(self, values: dict[int, Given]) -> dict[int, str]:
        return {index: one.written(self._writer) for index, one in values.items()}

    def _under(self, text: str, values: dict[int, str], bold: bool = False) -> Row:
        style = theme.WORKED_RESULT if bold else theme.WORKED_NUMBER
        cells = [Cell((Words(text, theme.WORKED_LINE),))]
        for index in range(len(self._subjects)):
            cells.append(Cell((Words(self._fitted(values.get(index, NOTHING)), style),)))
        return Row(tuple(cells), ruled=bold, air=_AIR)

    def _fitted(self, written: str) -> str:
        """Feet and inches too wide for their column stand one under the other, another number above its unit."""
        wide = text_width(clean(written), theme.WORKED_RESULT.face, theme.WORKED_RESULT.size) > self._room
        if not wide or not written.lstrip("−")[:1].isdigit():
            return written
        parts = words_of(written)
        return "\n".join(parts) if len(parts) > 1 else written.replace(" ", "\n", 1)

    def _across(self, text: str) -> Row:
        return Row((Cell((Worked(text, theme.WORKED_LINE),), span=1 + len(self._subjects)),), air=_AIR_OF_LINE)

    def _who(self, taken: list[tuple[int, WorkedLine]]) -> str:
        if len(taken) == len(self._subjects):
            return ""
        return f"{', '.join(self._subjects[index].heading for index, _ in taken)}: "

    def _marks(self, taken: list[tuple[int, WorkedLine]]) -> frozenset[str]:
        """Marks that differ between the subjects of a row are left out of what it says."""
        return self._subjects[taken[0][0]].marks if len(taken) > 1 else frozenset()


def _head(step: Step, marks: frozenset[str]) -> str:
    """What a row says, with the symbol of its result."""
    symbol = f": {step.result.symbol}" if step.result.symbol else ""
    return f"{says_without(step.says, marks)}{symbol}"


def _and(numbers: Iterable[int]) -> str:
    return ", ".join(str(one) for one in sorted(set(numbers)))
