"""What a drawing is made of: lines, arcs, filled outlines, lettering with its box, signs and dimensions.

All coordinates are points of the page (1/72 in) from the lower left corner of the drawing, y upward.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import Enum

from compliance.drawings.common.lettering import Role
from compliance.drawings.common.scales import Scale
from compliance.record import record

Point = tuple[float, float]


class Pen(Enum):
    """Kinds of line, heaviest first."""

    CUT = "cut"
    EDGE = "edge"
    FINE = "fine"
    HIDDEN = "hidden"
    BREAK = "break"
    PROPERTY = "property"
    MEASURE = "measure"
    GRID = "grid"
    RASTER = "raster"


class Tone(Enum):
    """Kinds of fill, by what they stand for."""

    EARTH = "earth"
    MASONRY = "masonry"
    CONCRETE = "concrete"
    RUBBLE = "rubble"
    WOOD = "wood"
    FINISH = "finish"
    BAND = "band"
    INK = "ink"
    PAPER = "paper"


@record
class Box:
    """A rectangle along the page."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.top - self.bottom

    @property
    def centre(self) -> Point:
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def overlaps(self, other: Box, gap: float = 0.0) -> bool:
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.bottom < other.top + gap
            and other.bottom < self.top + gap
        )

    def holds(self, other: Box) -> bool:
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.bottom <= other.bottom
            and other.top <= self.top
        )

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def nearest(self, point: Point) -> Point:
        """The point of the box that lies nearest to `point`."""
        x, y = point
        return min(max(x, self.left), self.right), min(max(y, self.bottom), self.top)


def box_about(centre: Point, width: float, height: float) -> Box:
    x, y = centre
    return Box(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


@record
class Stroke:
    """Straight lines from point to point."""

    points: tuple[Point, ...]
    pen: Pen
    closed: bool = False


@record
class Bow:
    """An arc of a circle: angles in radians, `sweep` above 0 runs counter-clockwise."""

    centre: Point
    radius: float
    first: float
    sweep: float
    pen: Pen

    def point(self, share: float) -> Point:
        angle = self.first + share * self.sweep
        return self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle)


@record
class Filled:
    """A closed outline filled with a tone; arcs as chords so short that the eye takes them for the curve. A tone with
    a pattern keeps to one raster over the whole drawing, so that parts that overlap look like one."""

    points: tuple[Point, ...]
    tone: Tone


@record
class Lettering:
    """One line of text in its box. `upright` runs up the page. A `plate` clears what lies under it. `link` names the
    place in the document that a click leads to."""

    text: str
    box: Box
    role: Role
    upright: bool = False
    plate: bool = False
    link: str = ""


@record
class Sign:
    """The mark of an outcome, by its name, filling a square box."""

    mark: str
    box: Box
    link: str = ""


@record
class Dimension:
    """A dimension line from `start` to `end`, with a tick at each. `value` in m is what its text says; `subject` is
    what it measures, in words. `feet` are the points it is measured from, where lines lead to it."""

    start: Point
    end: Point
    value: float
    subject: str
    text: str
    feet: tuple[Point, ...] = ()


@record
class Bubble:
    """A mark of a section: its number over the sheet it is on, which is known once the sheets are numbered. `key` is
    the place of the section in the document."""

    centre: Point
    radius: float
    number: str
    key: str

    @property
    def box(self) -> Box:
        return box_about(self.centre, 2 * self.radius, 2 * self.radius)


Item = Stroke | Bow | Filled | Lettering | Sign | Dimension | Bubble


@record
class Drawing:
    """A finished drawing. `scale` is None for one that is not to scale. `notes` are sentences set under it; `unset` is
    what found no room on it, in words, for the list after the drawings. `origin` is where the coordinates 0, 0 of the
    description lie, in a plan."""

    key: str
    name: str
    scale: Scale | None
    width: float
    height: float
    items: tuple[Item, ...]
    notes: tuple[str, ...] = ()
    unset: tuple[str, ...] = ()
    origin: Point | None = None


def bounds(points: Sequence[Point]) -> Box:
    """The least box about `points`. Raises ValueError for none."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(min(xs), min(ys), max(xs), max(ys))
