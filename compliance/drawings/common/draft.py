"""A drawing before it has its place on a page: how low it can be made, and how it is made at a given height."""

from __future__ import annotations

from collections.abc import Callable

from compliance.drawings.common.primitives import Drawing
from compliance.facts.catalogue import FACTS
from compliance.record import record

PLAN_KEY = "plan"
"""The place in a document where the plan stands."""

_PARTS = ("stem", "footing", "beam")
_THICKNESSES = frozenset(
    f"wall.{name}"
    for name in ("base_thickness", "least_thickness", "mean_thickness", "upper_thickness", "height_to_thickness")
)
"""Facts of the thickness of the wall itself."""


@record
class Draft:
    """`alt` says in words what it shows, for a reader who does not see it. `least` is the height in points below which
    the drawing does not fit; `draw` makes it at any greater height."""

    key: str
    name: str
    alt: str
    least: float
    draw: Callable[[float], Drawing]
    notes: tuple[str, ...] = ()
    number: str = ""
    """Of a section, as the marks on plan and elevations bear it."""


@record
class Cut:
    """Where a section is taken: through a wall, under the number and the place of its drawing."""

    wall: str
    number: str
    key: str


@record
class Flag:
    """A finding that is marked at its place: the short code of its rule, the name of its outcome's mark, the place in
    the document that reports it. `about` and `subject` are those of the finding ("pier", "P2")."""

    about: str
    subject: str
    code: str
    mark: str
    link: str
    facts: tuple[str, ...] = ()

    @property
    def part(self) -> str:
        """The part of the wall it stands at, where that is one below or above it: "stem", "footing", "beam"; "earth"
        for the thickness of the wall itself; else nothing. A rule about a wall may compare its footing alone."""
        if self.about in _PARTS:
            return self.about
        facts = [name for name in self.facts if name in FACTS]
        for part in _PARTS:
            if facts and self.about == "wall" and all(FACTS[name].about == part for name in facts):
                return part
        thick = facts and _THICKNESSES.issuperset(facts)
        return "earth" if self.about == "wall" and thick else ""


def elevation_key(wall: str) -> str:
    """The place in a document where the elevation of a wall stands."""
    return f"elevation-{wall}"
