"""Labels in a column beside a drawing, each led to what it names, pushed apart but never out of order."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.drawings.common.board import Board, LabelLine
from compliance.drawings.common.draft import Flag
from compliance.drawings.common.lettering import Role, wrapped
from compliance.drawings.common.primitives import Box, Pen, Point, Tone
from compliance.record import record

_BETWEEN = 4.5
_DOT = 1.3
_SHORT_OF = 2.0
_OFF = 2.5
"""What a line to what is named keeps off lettering where it can, in points."""
_STEP, _TRIES = 3.0, 24
"""How far a label gives way, in points and steps, so that its line crosses no dimension."""


@record
class Note:
    """A label of a column: what it names, and the text, the first line of which stands out; below it the findings that
    pass a limit there."""

    at: Point
    head: str
    text: str = ""
    flags: tuple[Flag, ...] = ()

    @property
    def whole(self) -> str:
        """All of it in words."""
        flags = ", ".join(f"{flag.code} ({flag.mark.lower()})" for flag in self.flags)
        return "; ".join(part for part in (f"{self.head} {self.text}".strip(), flags) if part)


def notes_height(notes: Sequence[Note], width: float, board: Board) -> float:
    """What a column of labels takes in height."""
    return sum(board.size(_lines(board, note, width))[1] + _BETWEEN for note in notes)


def set_column(board: Board, notes: Sequence[Note], left: float, width: float, low: float, high: float) -> None:
    """Labels between the heights `low` and `high`, as near to the height of what they name as the others allow. The
    way to what is named starts at the edge of the column that faces it."""
    ordered = sorted(notes, key=lambda note: (-note.at[1], note.at[0]))
    blocks = [_lines(board, note, width) for note in ordered]
    heights = [board.size(lines)[1] for lines in blocks]
    tops = _tops(ordered, heights, low, high)
    for index, (note, lines) in enumerate(zip(ordered, blocks, strict=True)):
        wide, tall = board.size(lines)
        to_right = note.at[0] > left + width / 2
        x = left + width - wide if to_right else left
        edge = x + wide + _SHORT_OF if to_right else x - _SHORT_OF
        highest = tops[index - 1] - heights[index - 1] - _BETWEEN if index else high
        lowest = (tops[index + 1] + _BETWEEN if index + 1 < len(tops) else low) + tall
        top = tops[index] = _clear_top(board, note.at, edge, tops[index], lowest=lowest, highest=highest)
        box = Box(x, top - tall, x + wide, top)
        if not board.placer.free(box, off_lines=False):
            board.unset.append(note.whole)
            continue
        board.placer.take(box)
        board.write(lines, box, align="right" if to_right else "left")
        _lead(board, note.at, (edge, top - Role.HEADING.height / 2))


def _clear_top(board: Board, at: Point, edge: float, wish: float, lowest: float, highest: float) -> float:
    """The upper edge of a label, the nearest to `wish` from which the way to what is named keeps off all lettering, or
    runs over none; as wished where there is no such way."""
    steps = [sign * step * _STEP for step in range(_TRIES) for sign in (1, -1)]
    tops = [wish, *(wish + step for step in steps if lowest <= wish + step <= highest)]
    for off in (_OFF, 0.0):
        for top in tops:
            y = top - Role.HEADING.height / 2
            if all(board.placer.is_clear_line((at[0], at[1] + up), (edge, y + up)) for up in (-off, off)):
                return top
    return wish


def _lines(board: Board, note: Note, width: float) -> list[LabelLine]:
    letters = board.metrics.letters
    lines = [LabelLine(text, Role.HEADING) for text in wrapped(note.head, Role.HEADING, width, letters)]
    lines += [LabelLine(text) for text in wrapped(note.text, Role.NOTE, width, letters) if text]
    return lines + [LabelLine(flag.code, Role.CODE, flag.mark, flag.link) for flag in note.flags]


def _tops(notes: Sequence[Note], heights: Sequence[float], low: float, high: float) -> list[float]:
    """Upper edges: each as wished or below the one before, then up again from the lowest where they run too low."""
    tops: list[float] = []
    for note, height in zip(notes, heights, strict=True):
        wish = min(note.at[1] + height / 2, high)
        tops.append(min(wish, tops[-1] - heights[len(tops) - 1] - _BETWEEN) if tops else wish)
    floor = low
    for index in reversed(range(len(tops))):
        tops[index] = max(tops[index], floor + heights[index])
        floor = tops[index] + _BETWEEN
    return tops


def _lead(board: Board, at: Point, end: Point) -> None:
    x, y = at
    board.fill(((x - _DOT, y), (x, y - _DOT), (x + _DOT, y), (x, y + _DOT)), Tone.INK)
    board.stroke(at, end, pen=Pen.MEASURE)
