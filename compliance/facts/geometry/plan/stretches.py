"""Stretches: walls that run on end to end are one wall for what holds them sideways, wherever they are parted."""

from __future__ import annotations

import math
from itertools import pairwise

from compliance.facts.geometry.plan.chains import Chain
from compliance.facts.geometry.wall_plan import Support, SupportRules
from compliance.model.lines import Circular
from compliance.record import record

_STEP = math.radians(5)


@record
class Ring:
    """A closed stretch that is round: the mean radius of its center line [m]."""

    radius: float


@record
class Bay:
    """A length of a stretch between lateral supports or free ends [m along the stretch], and which ends are held.

    The bay of a closed stretch that runs over its start ends past the stretch's length."""

    start: float
    end: float
    held: tuple[bool, bool]

    @property
    def length(self) -> float:
        return self.end - self.start


@record
class Stretch:
    """Walls that run on as one, with all that meets them by station along them. `slack` is how near to an end a support
    holds it [m]: the thickness there."""

    chain: Chain
    supports: tuple[Support, ...]
    ring: Ring | None
    slack: tuple[float, float]

    @property
    def length(self) -> float:
        return self.chain.length

    @property
    def marks(self) -> tuple[str, ...]:
        return tuple(one.wall.mark for one in self.chain.links)

    @property
    def counted(self) -> tuple[float, ...]:
        """Stations of the lateral supports, in order."""
        return tuple(sorted({one.s for one in self.supports if not one.why_not}))

    @property
    def free_ends(self) -> tuple[float, ...]:
        """Stations of the ends that nothing holds; a closed stretch has none."""
        if self.chain.closed:
            return ()
        stations = self.counted
        first = () if stations and stations[0] <= self.slack[0] else (0.0,)
        last = () if stations and stations[-1] >= self.length - self.slack[1] else (self.length,)
        return (*first, *last)

    def bays(self) -> tuple[Bay, ...]:
        """All lengths between supports, from the start. A round closed stretch has none."""
        stations = self.counted
        if self.ring:
            return ()
        if self.chain.closed:
            if not stations:
                return (Bay(0.0, self.length, (False, False)),)
            return tuple(Bay(a, b, (True, True)) for a, b in pairwise((*stations, stations[0] + self.length)))
        free = self.free_ends
        marks = [*free[:1] * (0.0 in free), *stations, *free[-1:] * (self.length in free)]
        return tuple(
            Bay(a, b, (a in stations or a not in free, b in stations or b not in free)) for a, b in pairwise(marks)
        )

    def drawn_out(self, bay: Bay) -> Bay:
        """A bay with its held ends drawn out to the ends of an open stretch that lie within their reach."""
        if self.chain.closed:
            return bay
        start = 0.0 if bay.start <= self.slack[0] else bay.start
        return Bay(start, self.length if bay.end >= self.length - self.slack[1] else bay.end, bay.held)

    def bays_of(self, start: float, end: float) -> tuple[Bay, ...]:
        """The bays that a part of the stretch lies in; of a part too short to lie in one, the nearest."""
        found = self.bays()
        if self.chain.closed:
            found = tuple(
                Bay(one.start + off, one.end + off, one.held)
                for off in (-self.length, 0.0, self.length)
                for one in found
            )
        within = [one for one in found if min(end, one.end) - max(start, one.start) > 1e-6]
        middle = (start + end) / 2
        nearest = sorted(found, key=lambda one: max(one.start - middle, middle - one.end))[:1]
        return tuple(sorted(within or nearest, key=lambda one: one.start))


def find_ring(chain: Chain, rules: SupportRules) -> Ring | None:
    """The ring that a closed chain makes where its center line keeps within `round_share` of one radius."""
    if not chain.closed:
        return None
    points = []
    for link in chain.links:
        line = link.wall.line
        parts = math.ceil(abs(line.sweep) / _STEP) if isinstance(line, Circular) else 8
        points += [(line.point(line.length * (place + 0.5) / parts), line.length / parts) for place in range(parts)]
    x, y = (math.fsum(point[axis] * part for point, part in points) / chain.length for axis in (0, 1))
    ends = [link.wall.line.point(0.0) for link in chain.links]
    radii = [math.dist((x, y), point) for point in (*(point for point, _ in points), *ends)]
    middle = (min(radii) + max(radii)) / 2
    return Ring(middle) if max(radii) - middle <= rules.round_share * middle else None
