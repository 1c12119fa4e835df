"""The outline of a roof as far as its description tells it: over parallel walls, or about a middle."""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.drawings.common.primitives import Point
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Circular, Straight
from compliance.model.structure import Roof
from compliance.record import record

_PARALLEL = math.sin(math.radians(2))


@record
class Gabled:
    """A roof over parallel walls: `along` runs from `first` to `last` in the direction of the walls, across from the
    eave `low` to the eave `high`, all in m from `origin`. `low_plate` and `high_plate` are the outermost walls."""

    origin: Point
    direction: Point
    first: float
    last: float
    low: float
    high: float
    low_plate: float
    high_plate: float

    def point(self, along: float, across: float) -> Point:
        (x, y), (dx, dy) = self.origin, self.direction
        return x + along * dx - across * dy, y + along * dy + across * dx

    def stations(self, spacing: float | None, most: int) -> list[float]:
        """Where rafters stand; none where no spacing is stated or they are too many to draw."""
        if not spacing or (self.last - self.first) / spacing > most:
            return []
        count = int((self.last - self.first) / spacing + 1e-6)
        start = self.first + (self.last - self.first - count * spacing) / 2
        return [start + index * spacing for index in range(count + 1)]


@record
class Round:
    """A roof about a middle: to the walls, out to the eaves, and the ring in its middle, zero where there is none."""

    centre: Point
    radius: float
    reach: float
    ring: float


def roof_form(roof: Roof, views: Mapping[str, WallView]) -> Gabled | Round | None:
    """None where the walls it bears on do not tell how its members run. Overhang and rake start at the faces of walls
    as thick as the thickest that it bears on."""
    lines = [views[one.wall].place.line for one in roof.bears_on if one.wall in views]
    arcs = [line for line in lines if isinstance(line, Circular)]
    straight = [line for line in lines if isinstance(line, Straight)]
    thick = max((views[one.wall].place.thickness for one in roof.bears_on if one.wall in views), default=0.0)
    overhang = thick / 2 + (roof.overhang.si if roof.overhang else 0.0)
    if roof.radius and arcs:
        centre = (sum(one.centre[0] for one in arcs) / len(arcs), sum(one.centre[1] for one in arcs) / len(arcs))
        ring = roof.ring_radius.si if roof.ring_radius else 0.0
        return Round(centre, radius=roof.radius.si, reach=roof.radius.si + overhang, ring=ring)
    if len(straight) < 2 or arcs:
        return None
    origin, (dx, dy) = straight[0].start, straight[0].direction(0.0)
    if any(abs(dx * line.direction(0.0)[1] - dy * line.direction(0.0)[0]) > _PARALLEL for line in straight):
        return None
    ends = [(x - origin[0], y - origin[1]) for line in straight for x, y in (line.start, line.end)]
    along = [x * dx + y * dy for x, y in ends]
    across = [y * dx - x * dy for x, y in ends]
    rake = thick / 2 + (roof.rake.si if roof.rake else 0.0)
    low, high = min(across), max(across)
    if high - low < 1e-6:
        return None
    return Gabled(origin, direction=(dx, dy), first=min(along) - rake, last=max(along) + rake,
                  low=low - overhang, high=high + overhang, low_plate=low, high_plate=high)  # fmt: skip
