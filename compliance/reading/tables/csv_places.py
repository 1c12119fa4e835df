"""Where the cells of a comma-separated file stand, worked out only for those that are asked for."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.problems import Place

# Trimmed from a cell, but not passed over by the csv module, for which only a blank may stand before a quote mark.
_BLANKS = " \t\xa0"


class CsvPlaces:
    """Finds cells again in the lines they were read from. The rules are those of `csv.reader`, strict, with blanks
    after a separator passed over."""

    def __init__(self, shown: str, lines: Sequence[str], separator: str) -> None:
        self._shown = shown
        self._lines = lines
        self._separator = separator

    def __call__(self, line: int, index: int | None) -> Place:
        """The place of the first character of cell `index` (from 0) of the row that begins on `line`.

        `index` None is the row as a whole. A cell that the row does not have stands at the end of the row.
        """
        if index is None:
            return Place(self._shown, line, 1)
        row, column = self._past_blanks(line - 1, 0, " ")
        for _ in range(index):
            row, column = self._cell_end(row, column)
            if self._lines[row][column : column + 1] != self._separator:
                return Place(self._shown, row + 1, column + 1)
            row, column = self._past_blanks(row, column + 1, " ")
        row, column = self._past_blanks(row, column, _BLANKS)
        return Place(self._shown, row + 1, column + 1)

    def _past_blanks(self, row: int, column: int, blanks: str) -> tuple[int, int]:
        text = self._lines[row]
        while column < len(text) and text[column] in blanks:
            column += 1
        return row, column

    def _cell_end(self, row: int, column: int) -> tuple[int, int]:
        """Where the cell ends that starts here: at its separator, or at the end of its last line."""
        if self._lines[row][column : column + 1] == '"':
            row, column = self._quotation_end(row, column + 1)
        text = self._lines[row]
        found = text.find(self._separator, column)
        return row, found if found >= 0 else len(text.rstrip("\r\n"))

    def _quotation_end(self, row: int, column: int) -> tuple[int, int]:
        """Just after the closing mark of the quotation whose text starts here; a doubled mark is part of the text."""
        while row < len(self._lines):
            found = self._lines[row].find('"', column)
            if found < 0:
                row, column = row + 1, 0
            elif self._lines[row][found + 1 : found + 2] == '"':
                column = found + 2
            else:
                return row, found + 1
        return len(self._lines) - 1, len(self._lines[-1])
