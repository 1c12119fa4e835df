"""The plan of the walls: each wall's line and, found from it, what supports the wall sideways."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from compliance.findings import Standing
from compliance.model.lines import Line, line_of
from compliance.model.walls import Wall
from compliance.record import record

MOST_SQUARES = 1_000_000
MOST_PAIRS = 1_000_000


@record
class SupportRules:
    """What joins walls, and what counts as a lateral support. Angles in radians, lengths in m.

    Walls that turn by less than `least_angle` where they join run on as one. A support stands out from the face of the
    wall it holds by `least_projection_share` of that wall's height, is as thick as `least_thickness_share` of its
    thickness, reaches its top but for `short_of_top`, and no opening lies within `clear_share` of its thickness beside
    the joint. Ends within `joint_gap` of another wall are joined to it; those within its thickness and `near_gap`
    nearly meet it. A turn of `least_angle` inside `corner_share` thicknesses is a corner. A closed wall whose center
    line keeps within `round_share` of one radius is round. `standing` is the lowest standing of all.
    """

    least_angle: float
    least_projection_share: float
    least_thickness_share: float
    short_of_top: float
    clear_share: float
    joint_gap: float
    near_gap: float
    corner_share: float
    round_share: float
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
    story: int = 1


@record
class SupportSide:
    """One side of what crosses a wall: the walls that make it, from the joint out, as far as it must stand out to hold
    the wall, and whether it counts. `projection` is what is solid beyond the wall's face [m], `in_all` the same past
    its openings, too."""

    walls: tuple[str, ...]
    projection: float
    counts: bool
    in_all: float = 0.0


@record
class Support:
    """Something that meets a wall at station `s`: another wall or a buttress.

    `half_width` is half of its extent along the wall [m]. It counts as a lateral support when `why_not` is empty.
    `projection` is how far it stands out, solid, from the wall's face [m], `angle` its angle to the wall [rad]. A wall
    that crosses has two `sides`, each of which counts by itself; `by` is the wall at the joint on the better one.
    """

    s: float
    by: str
    half_width: float
    why_not: str = ""
    projection: float = 0.0
    angle: float = math.pi / 2
    sides: tuple[SupportSide, ...] = ()

    @property
    def at_joint(self) -> frozenset[str]:
        """The marks of all that meets the wall there."""
        return frozenset((self.by, *(side.walls[0] for side in self.sides)))


def wall_line(mark: str, wall: Wall) -> WallLine | None:
    """A wall in the plan; None where it has no sound line (a problem the reader names)."""
    line = line_of(wall)
    base = wall.thickness_base or wall.thickness
    if line is None or base is None or wall.height is None:
        return None
    holes = sorted((hole.start.si, hole.start.si + hole.width.si) for hole in wall.openings.values())
    return WallLine(
        mark, line=line, height=wall.height.si, thickness=base.si, holes=tuple(holes), story=wall.story or 1
    )


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


def neighbours(walls: Iterable[WallLine]) -> Iterator[tuple[WallLine, WallLine]]:
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
