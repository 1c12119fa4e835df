"""Which face of a wall is outside, found from the rooms that the walls enclose."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from compliance.drawings.common.joins import joins
from compliance.drawings.common.outlines import outline
from compliance.drawings.common.regions import box_of, chords, holds, left_of, length_of_wall, shifted
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Line, Point
from compliance.record import record

_SNAP = 1e-4
_BESIDE = 0.02
_STATIONS = (0.08, 0.2, 0.35, 0.5, 0.65, 0.8, 0.92)


@record
class Room:
    """A space that walls enclose, as a polygon (arcs as chords), in m."""

    corners: tuple[Point, ...]
    box: tuple[float, float, float, float]

    def holds(self, point: Point) -> bool:
        left, bottom, right, top = self.box
        return left < point[0] < right and bottom < point[1] < top and holds(self.corners, point)


def outside_faces(views: Mapping[str, WallView]) -> dict[str, int | None]:
    """For each wall the side of its line that faces the open: 1 the left one, -1 the right one.

    None where both sides or neither do, or where it changes along the wall.
    """
    rooms = enclosed(views)
    return {mark: _outside(view, rooms) for mark, view in views.items()}


def enclosed(views: Mapping[str, WallView]) -> list[Room]:
    """The rooms that walls enclose, openings taken as closed."""
    bodies = [length_of_wall(view.place.line, 0.0, view.place.line.length, view.place.thickness)
              for view in views.values()]  # fmt: skip
    loops = [
        [point for piece in loop for point in chords(piece)[:-1]] for loop in _loops(outline([*bodies, *joins(views)]))
    ]
    return [Room(tuple(loop), box_of(loop)) for loop in loops if len(loop) > 2 and _area(loop) < 0]


def _outside(view: WallView, rooms: Sequence[Room]) -> int | None:
    open_left = _open(view, 1, rooms)
    open_right = _open(view, -1, rooms)
    if open_left is None or open_right is None or open_left == open_right:
        return None
    return 1 if open_left else -1


def _open(view: WallView, side: int, rooms: Sequence[Room]) -> bool | None:
    """Does that side of the wall lie in the open? Stations where something meets the wall are left out."""
    line, out = view.place.line, view.place.thickness / 2 + _BESIDE
    stations = [share * line.length for share in _STATIONS]
    clear = [s for s in stations if all(abs(s - one.s) > one.half_width + _BESIDE for one in view.supports)]
    found = {
        not any(room.holds(shifted(line.point(s), *left_of(line, s), side * out)) for room in rooms)
        for s in clear or stations
    }
    return found.pop() if len(found) == 1 else None


def _loops(pieces: Iterable[Line]) -> list[list[Line]]:
    """Pieces joined end to start into closed rings; what does not close is left out."""
    starts: dict[tuple[int, int], list[Line]] = {}
    for piece in pieces:
        starts.setdefault(_square(piece.point(0.0)), []).append(piece)
    loops = []
    while starts:
        square = next(iter(starts))
        loop = [_taken(starts, square, starts[square][0])]
        while (following := _next(starts, loop[-1].point(loop[-1].length))) is not None:
            loop.append(following)
            if math.dist(following.point(following.length), loop[0].point(0.0)) <= 2 * _SNAP:
                break
        if math.dist(loop[-1].point(loop[-1].length), loop[0].point(0.0)) <= 2 * _SNAP:
            loops.append(loop)
    return loops


def _square(point: Point) -> tuple[int, int]:
    return round(point[0] / _SNAP), round(point[1] / _SNAP)


def _next(starts: dict[tuple[int, int], list[Line]], point: Point) -> Line | None:
    column, row = _square(point)
    for square in ((column + dx, row + dy) for dx in (0, -1, 1) for dy in (0, -1, 1)):
        if square in starts:
            return _taken(starts, square, starts[square][0])
    return None


def _taken(starts: dict[tuple[int, int], list[Line]], square: tuple[int, int], piece: Line) -> Line:
    starts[square].remove(piece)
    if not starts[square]:
        del starts[square]
    return piece


def _area(points: Sequence[Point]) -> float:
    """Above zero where the points run counter-clockwise. By the sum of cross products of the sides."""
    return sum(
        x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True)
    ) / 2  # fmt: skip
