"""The weight of a wall with tapered section and openings."""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.record import record
from compliance.rules.formulas.symbols import STANDARD_GRAVITY, need_not_negative, need_positive

SAME = 1e-8  # of the wall's length or height: as little apart or over one another, two openings touch


@record
class Profile:
    """A wall's cross section: height [m], thickness at base and top [m], even taper between."""

    height: float
    base: float
    top: float

    def __post_init__(self) -> None:
        need_positive(height=self.height, base_thickness=self.base, top_thickness=self.top)

    def thickness_at(self, up: float) -> float:
        """Thickness [m] at `up` [m] above the base."""
        return self.base + (self.top - self.base) * up / self.height

    def area(self, low: float, high: float) -> float:
        """Area of the section [m²] between two heights [m]; exact, as the taper is even."""
        return self.thickness_at((low + high) / 2) * (high - low)

    def offset_above(self, up: float, straight_face: bool) -> float:
        """How far the weight above `up` stands off the centre of the section there [m], towards the straight face.

        Zero when both faces lean alike; with one face plumb the taper is all on the other.
        """
        if not straight_face:
            return 0.0
        low, high = self.thickness_at(up), self.top
        centroid = (low**2 + low * high + high**2) / (3 * (low + high))
        return low / 2 - centroid


@record
class Opening:
    """A hole through the wall: left edge from the wall's start, width, sill above the base, height [m]."""

    left: float
    width: float
    sill: float
    height: float

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def head(self) -> float:
        return self.sill + self.height


@record
class Elevation:
    """A wall seen from the front. Density [kg/m³].

    Raises ValueError for an opening that leaves the wall or overlaps another, last digits lost in adding left out.
    """

    length: float
    profile: Profile
    density: float
    openings: Sequence[Opening] = ()

    def __post_init__(self) -> None:
        need_positive(length=self.length, density=self.density)
        for index, opening in enumerate(self.openings):
            need_positive(opening_width=opening.width, opening_height=opening.height)
            need_not_negative(opening_left=opening.left, opening_sill=opening.sill)
            over = 1 + 1e-12
            if opening.right > self.length * over or opening.head > self.profile.height * over:
                raise ValueError("an opening leaves its wall")
            for other in self.openings[index + 1 :]:
                if _overlap(opening.left, opening.right, other.left, other.right) > SAME * self.length and (
                    _overlap(opening.sill, opening.head, other.sill, other.head) > SAME * self.profile.height
                ):
                    raise ValueError("two openings overlap")

    def weight(self, left: float, right: float, low: float, high: float) -> float:
        """Weight [N] of the solid wall between two places along it and two heights [m]."""
        volume = self.profile.area(low, high) * (right - left)
        holes = (
            _overlap(left, right, hole.left, hole.right) * self.profile.area(max(low, hole.sill), min(high, hole.head))
            for hole in self.openings
            if min(high, hole.head) > max(low, hole.sill)
        )
        return self.density * STANDARD_GRAVITY * max(volume - math.fsum(holes), 0.0)

    @property
    def whole_weight(self) -> float:
        """[N]"""
        return self.weight(0.0, self.length, 0.0, self.profile.height)


def _overlap(left: float, right: float, other_left: float, other_right: float) -> float:
    return max(min(right, other_right) - max(left, other_left), 0.0)
