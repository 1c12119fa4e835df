"""Patterns that tell materials apart in a grey print, as operators of the page. Each keeps to one raster over the whole
drawing."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from reportlab.lib.colors import HexColor

from compliance.documents.elements import theme
from compliance.documents.elements.strokes import FILL, STROKE, circle, filling, pen, segments
from compliance.drawings.common.primitives import Point, Tone, bounds

_FAINT = HexColor("#BBAA8C")
_GREY = HexColor("#9A948B")


def _raster(points: Sequence[Point], across: float, up: float) -> Iterator[tuple[int, int, float, float]]:
    """Places of the raster that fall on the outline's box: column, row and coordinates."""
    box = bounds(points)
    for row in range(math.floor(box.bottom / up), math.floor(box.top / up) + 1):
        for column in range(math.floor(box.left / across), math.floor(box.right / across) + 1):
            yield column, row, column * across, row * up


def _straw(points: Sequence[Point]) -> str:
    """Short strokes that lean now one way, now the other."""
    lines = []
    for column, row, x, y in _raster(points, 13.0, 8.0):
        x += 6.5 * (row % 2) + 2.0 * ((column * 7 + row * 5) % 3)
        rise = (1.5, -1.1, 0.5)[(column + 2 * row) % 3]
        lines.append((x, y + 3, x + 4.2, y + 3 + rise))
    return f"{pen(0.4, _FAINT)} {segments(lines)} {STROKE}"


def _courses(points: Sequence[Point]) -> str:
    """Courses of stones with their joints broken."""
    box = bounds(points)
    lines = []
    for row in range(math.floor(box.bottom / 7.0), math.floor(box.top / 7.0) + 2):
        lines.append((box.left, row * 7.0, box.right, row * 7.0))
    for column, row, x, y in _raster(points, 15.0, 7.0):
        x += 7.5 * (row % 2) + (column * 5 + row * 3) % 4
        lines.append((x, y, x, y + 7.0))
    return f"{pen(0.45, _GREY)} {segments(lines)} {STROKE}"


def _aggregate(points: Sequence[Point]) -> str:
    """Dots and small triangles."""
    dots, lines = [], []
    for column, row, x, y in _raster(points, 8.0, 6.0):
        x += 4.0 * (row % 2)
        if (column + row) % 3 == 0:
            lines += [(x, y, x + 3, y), (x + 3, y, x + 1.5, y + 2.4), (x + 1.5, y + 2.4, x, y)]
        else:
            dots.append(circle(x + 1, y + 1, 0.4))
    return f"{pen(0.4, _GREY)} {filling(_GREY)} {segments(lines)} {STROKE} {' '.join(dots)} {FILL}"


def _stones(points: Sequence[Point]) -> str:
    """Round stones lying close."""
    stones = [
        circle(x + 4.0 * (row % 2), y, 2.6 + 0.5 * ((column + row) % 2))
        for column, row, x, y in _raster(points, 8.0, 6.6)
    ]
    return f"{pen(0.5, _GREY)} {' '.join(stones)} {STROKE}"


def _grain(points: Sequence[Point]) -> str:
    return _slanted(points, 4.5, theme.OCHRE, 1)


def _backed(points: Sequence[Point]) -> str:
    return _slanted(points, 7.0, _FAINT, -1)


def _slanted(points: Sequence[Point], apart: float, colour: Any, lean: int) -> str:
    """Lines at 45 degrees, `lean` 1 rising to the right."""
    box = bounds(points)
    low = math.floor((box.left - lean * (box.top if lean > 0 else box.bottom)) / apart)
    high = math.ceil((box.right - lean * (box.bottom if lean > 0 else box.top)) / apart)
    lines = [
        (index * apart + lean * box.bottom, box.bottom, index * apart + lean * box.top, box.top)
        for index in range(low, high + 1)
    ]
    return f"{pen(0.4, colour)} {segments(lines)} {STROKE}"


PATTERNS: dict[Tone, Callable[[Sequence[Point]], str]] = {
    Tone.EARTH: _straw,
    Tone.MASONRY: _courses,
    Tone.CONCRETE: _aggregate,
    Tone.RUBBLE: _stones,
    Tone.WOOD: _grain,
    Tone.BAND: _backed,
}
