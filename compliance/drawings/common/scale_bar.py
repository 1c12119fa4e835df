"""The scale bar: it stays right when a print is enlarged or reduced."""

from __future__ import annotations

from compliance.drawings.common.board import Board
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.primitives import Box, Lettering, Pen, Tone
from compliance.drawings.common.scales import Scale, bar_parts

BAR_HEIGHT = 21.5
_BAR = 3.6


def draw_scale_bar(board: Board, scale: Scale, left: float, bottom: float, longest: float) -> None:
    """A bar of alternating parts with their lengths over it, from (left, bottom) to the right, with its texts at most
    `longest` points wide."""
    role, letters = Role.DIMENSION, board.metrics.letters
    found = bar_parts(scale, board.metrics.writer.system, longest - letters("0000 ft", role))
    part = found.part * scale.per_metre
    left += letters(found.numbers[0], role) / 2 + 1
    y = bottom + 2.0
    last = len(found.numbers) - 1
    for index in range(last):
        box = Box(left + index * part, y, left + (index + 1) * part, y + _BAR)
        board.block(box, Tone.INK if index % 2 == 0 else Tone.PAPER, Pen.FINE)
    crowded = max(letters(one, role) for one in found.numbers) + 2.0 > part
    for index, number in enumerate(found.numbers):
        if crowded and index not in (0, last):
            continue
        text = f"{number} {found.unit}" if index == last else number
        wide = letters(text, role)
        x = left + index * part - letters(number, role) / 2
        box = Box(x, y + _BAR + 1.6, x + wide, y + _BAR + 1.6 + role.height)
        board.placer.take(box)
        board.items.append(Lettering(text, box, role))
