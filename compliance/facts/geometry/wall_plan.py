"""The plan of the walls: each wall's line and, found from it, what supports the wall sideways."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from compliance.findings import Standing
from compliance.model.lines import Line, Point, Straight, angle_between, line_of
from compliance.model.walls import Buttress, Wall
from compliance.record import record

MOST_SQUARES = 1_000_000
MOST_PAIRS = 1_000_000


@record
class SupportRules:
    """What counts as a lateral support. Shares are of the supported wall: its height, its thickness.

    `least_angle` in radians; `standing` is the lowest standing of the four.
    """

    least_angle: float
    least_height_share: float
    least_length_share: float
    least_thickness_share: float
    standing: Standing
    source: str


@record
class WallLine:
    """A wall reduced to what the plan needs. Lengths in m."""

    mark: str
    line: Line
    height: float
    thickness: float
    holes: tuple[tuple[float, float], ...] = ()

    def solid_reach(self, s: float) -> float:
        """The longer of the two solid lengths that run from station `s` to an opening or the wall's end."""
        if any(start < s < end for start, end in self.holes):
            return 0.0
        before = max((end for _, end in self.holes if end <= s), default=0.0)
        after = min((start for start, _ in self.holes if start >= s), default=self.line.length)
        return max(s - before, after - s)


@record
class Support:
    """Something that meets a wall at station `s`: another wall or a buttress.

    `half_width` is half of its extent along the wall. It counts as a lateral support when `why_not` is empty.
    """

    s: float
    by: str
    half_width: float
    why_not: str = ""


def wall_line(mark: str, wall: Wall) -> WallLine | None:
    """A wall in the plan; None where it has no sound line (a problem the reader names)."""
    line = line_of(wall)
    base = wall.thickness_base or wall.thickness
    if line is None or base is None or wall.height is None:
        return None
    holes = sorted((hole.start.si, hole.start.si + hole.width.si) for hole in wall.openings.values())
    return WallLine(mark, line, wall.height.si, base.si, tuple(holes))


def find_supports(
    walls: Mapping[str, WallLine], buttresses: Mapping[str, Buttress], rules: SupportRules, only: str = ""
) -> dict[str, tuple[Support, ...]]:
    """For each wall, all that meets it, by station; that of one wall alone where `only` names it. Walls meet where the
    end of one comes within half the other's thickness of its centre line, or where their lines cross."""
    found: dict[str, list[Support]] = {mark: [] for mark in walls}
    for one, other in _neighbours(walls.values()):
        if only and only not in (one.mark, other.mark):
            continue
        for s, t in _meetings(one, other):
            found[one.mark].append(_judge(one, s, other, t, rules))
            found[other.mark].append(_judge(other, t, one, s, rules))
    for mark, buttress in buttresses.items():
        if buttress.wall in walls:
            found[buttress.wall].append(_judge_buttress(walls[buttress.wall], mark, buttress, rules))
    return {
        mark: tuple(sorted(supports, key=lambda support: (support.s, support.by))) for mark, supports in found.items()
    }


def too_crowded(walls: Iterable[WallLine]) -> bool:
    """Whether walls lie across one another, or one so far across all others, in numbers that no building has and
    that could keep a check busy for hours."""
    items = list(walls)
    if sum(len(columns) * len(rows) for columns, rows in _ranges(items)) > MOST_SQUARES:
        return True
    return sum(len(members) * (len(members) - 1) // 2 for members in _squares(items).values()) > MOST_PAIRS


def _ranges(items: Sequence[WallLine]) -> list[tuple[range, range]]:
    """The columns and rows of a grid of squares that each wall's box comes close to."""
    if not items:
        return []
    boxes = [wall.line.box() for wall in items]
    reach = max(wall.thickness for wall in items)
    size = max(sum(max(x1 - x0, y1 - y0) for x0, y0, x1, y1 in boxes) / len(boxes), reach)

    def along(start: float, end: float) -> range:
        return range(math.floor((start - reach) / size), math.floor((end + reach) / size) + 1)

    return [(along(x0, x1), along(y0, y1)) for x0, y0, x1, y1 in boxes]


def _squares(items: Sequence[WallLine]) -> dict[tuple[int, int], list[int]]:
    """The walls, by their index, that come close to each square of the grid."""
    squares: dict[tuple[int, int], list[int]] = defaultdict(list)
    for index, (columns, rows) in enumerate(_ranges(items)):
        for column in columns:
            for row in rows:
                squares[column, row].append(index)
    return squares


def _neighbours(walls: Iterable[WallLine]) -> Iterator[tuple[WallLine, WallLine]]:
    """Pairs of walls whose boxes come close, each once, through a grid of squares (linear in the walls)."""
    items = list(walls)
    squares = _squares(items)
    pairs = {
        (first, second)
        for members in squares.values()
        for place, first in enumerate(members)
        for second in members[place + 1 :]
    }
    for first, second in sorted(pairs):
        yield items[first], items[second]


def _meetings(one: WallLine, other: WallLine) -> list[tuple[float, float]]:
    """Stations on both walls where they meet, without repeats."""
    meetings: list[tuple[float, float]] = []

    def add(s: float, t: float) -> None:
        reach = max(one.thickness, other.thickness)
        if all(abs(s - a) > reach or abs(t - b) > reach for a, b in meetings):
            meetings.append((s, t))

    for t in (0.0, other.line.length):
        s, distance = one.line.nearest(other.line.point(t))
        if distance <= one.thickness / 2 * (1 + 1e-6):
            add(s, t)
    for s in (0.0, one.line.length):
        t, distance = other.line.nearest(one.line.point(s))
        if distance <= other.thickness / 2 * (1 + 1e-6):
            add(s, t)
    for s, t in _crossings(one.line, other.line):
        add(s, t)
    return meetings


def _crossings(one: Line, other: Line) -> list[tuple[float, float]]:
    """Stations where two lines cross. Arcs are walked in chords of at most 5 degrees, then refined."""
    crossings = []
    for s0, s1 in _chords(one):
        a, b = one.point(s0), one.point(s1)
        for t0, t1 in _chords(other):
            shares = _cross(a, b, other.point(t0), other.point(t1))
            if shares is not None:
                s = s0 + shares[0] * (s1 - s0)
                crossings.append((s, other.nearest(one.point(s))[0]))
    return crossings


def _chords(line: Line) -> list[tuple[float, float]]:
    if isinstance(line, Straight):
        return [(0.0, line.length)]
    count = math.ceil(abs(line.sweep) / math.radians(5))
    marks = [line.length * index / count for index in range(count + 1)]
    return list(pairwise(marks))


def _cross(a: Point, b: Point, c: Point, d: Point) -> tuple[float, float] | None:
    (rx, ry), (qx, qy) = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    cross = rx * qy - ry * qx
    if abs(cross) < 1e-12:
        return None
    u = ((c[0] - a[0]) * qy - (c[1] - a[1]) * qx) / cross
    v = ((c[0] - a[0]) * ry - (c[1] - a[1]) * rx) / cross
    return (u, v) if 0 <= u <= 1 and 0 <= v <= 1 else None


def _judge(wall: WallLine, s: float, by: WallLine, t: float, rules: SupportRules) -> Support:
    angle = angle_between(wall.line.direction(s), by.line.direction(t))
    reach = by.solid_reach(t)
    why_not = _why_not(wall, angle, by.height, reach, by.thickness, rules)
    sine = math.sin(angle)
    half = by.thickness / 2 / sine if sine > 0.1 else by.thickness / 2
    return Support(s, by.mark, half, why_not)


def _judge_buttress(wall: WallLine, mark: str, buttress: Buttress, rules: SupportRules) -> Support:
    reach = buttress.projection.si + wall.thickness / 2
    why_not = _why_not(wall, math.pi / 2, buttress.height.si, reach, buttress.width.si, rules)
    return Support(buttress.at.si, mark, buttress.width.si / 2, why_not)


def _why_not(wall: WallLine, angle: float, height: float, length: float, thickness: float, rules: SupportRules) -> str:
    """Why what meets the wall does not hold it sideways; empty when it does."""
    slack = 1 - 1e-9
    if angle < rules.least_angle * slack:
        return "meets it at too flat an angle"
    if height < rules.least_height_share * wall.height * slack:
        return "is too low"
    if length < rules.least_length_share * wall.height * slack:
        return "is too short"
    if thickness < rules.least_thickness_share * wall.thickness * slack:
        return "is too thin"
    return ""
