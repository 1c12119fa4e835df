"""How many pages a story takes, worked out before it is set."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from typing import Any

from reportlab.platypus.frames import Frame


def pages_taken(story: Sequence[Any], width: float, height: float) -> int:
    """Pages of this size [points] that the flowables fill from the top of the first on."""
    frame, left, pages = Frame(0, 0, width, height, 0, 0, 0, 0), height, 1
    waiting = deque(story)
    while waiting:
        one = waiting.popleft()
        one._frame = frame
        tall = one.wrap(width, left)[1]
        if tall <= left:
            left -= tall + one.getSpaceAfter()
            continue
        parts = one.split(width, left)
        if not parts and left >= height:
            raise ValueError("a part is taller than a page and cannot be torn")
        waiting.extendleft(reversed(parts or [one]))
        if parts:
            waiting.popleft()
        left, pages = height, pages + 1
    return pages
