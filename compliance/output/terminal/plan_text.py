"""The plan of the walls drawn with characters: center lines to scale, north up, each with its mark."""

from __future__ import annotations

import math

from compliance.model.lines import Line, line_of
from compliance.model.project import Project
from compliance.units import Writer

_ACROSS, _TALL = 56, 24
"""Most columns and lines of the drawing."""
_ASPECT = 2.0  # a character is about twice as tall as it is wide
_OPENING = "o"
_INDENT = "   "


def plan_text(project: Project, width: int) -> str:
    """Empty where there is nothing to draw."""
    lines = {mark: line for mark, wall in project.walls.items() if (line := line_of(wall)) is not None}
    if not lines:
        return ""
    points = [line.point(line.length * step / 32) for line in lines.values() for step in range(33)]
    west, east = min(x for x, _ in points), max(x for x, _ in points)
    south, north = min(y for _, y in points), max(y for _, y in points)
    columns, rows = min(_ACROSS, width - len(_INDENT)) - 1, _TALL - 1
    scale = min(columns / max(east - west, 1e-9), _ASPECT * rows / max(north - south, 1e-9))

    def at(point: tuple[float, float]) -> tuple[int, int]:
        return round((north - point[1]) * scale / _ASPECT), round((point[0] - west) * scale)

    cells: dict[tuple[int, int], str] = {}
    for mark, line in lines.items():
        holes = [(one.start.si, one.start.si + one.width.si) for one in project.walls[mark].openings.values()]
        for step in range(count := max(2, math.ceil(2 * line.length * scale)) + 1):
            s = line.length * step / (count - 1)
            is_hole = any(start < s < end for start, end in holes)
            cells[at(line.point(s))] = _OPENING if is_hole else _stroke(line, s)
    for mark, line in lines.items():
        row, column = at(line.point(line.length / 2))
        start = max(0, column - len(mark) // 2)
        cells |= {(row, start + place): character for place, character in enumerate(mark)}
    return "\n".join([*_drawn(cells), _INDENT + _legend(project, east - west, north - south)])


def _stroke(line: Line, s: float) -> str:
    """The character that runs most nearly as the line does."""
    dx, dy = line.direction(s)
    slope = math.degrees(math.atan2(dy, dx)) % 180
    return "-" if slope < 22.5 or slope > 157.5 else "/" if slope < 67.5 else "|" if slope < 112.5 else "\\"


def _drawn(cells: dict[tuple[int, int], str]) -> list[str]:
    last = max(row for row, _ in cells)
    wide = max(column for _, column in cells)
    return [
        _INDENT + "".join(cells.get((row, column), " ") for column in range(wide + 1)).rstrip()
        for row in range(last + 1)
    ]  # fmt: skip


def _legend(project: Project, wide: float, tall: float) -> str:
    writer = Writer(project.project.units)
    sizes = f"{writer.write(wide, 'length')} by {writer.write(tall, 'length')} between center lines, north up"
    has_holes = any(wall.openings for wall in project.walls.values())
    return f"{sizes}{f'; {_OPENING} is an opening' if has_holes else ''}"
