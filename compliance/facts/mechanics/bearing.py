"""Single forces on a wall: the pressure under them and how it spreads on the way down."""

from __future__ import annotations

import math

from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, not_negative, positive

_FORCE = not_negative("R", "force", "force")

pressure_under_force = equation(
    "Pressure", "peak * force / (length * width)", Symbol("σ", "stress", "pressure"), "statics",
    force=_FORCE, length=positive("a", "thickness", "bearing length"),
    width=positive("b", "thickness", "bearing width"),
    peak=Symbol("k", "ratio", "peak over mean: 1 even, 2 triangle"),
)  # fmt: skip


def bearing_stress(
    force: float, length: float, width: float, peak: float, title: str = pressure_under_force.title
) -> Solved:
    """Greatest pressure [Pa] under a force [N] on `length` × `width` [m].

    `peak` is 1 for a plate that presses evenly, 2 where a bending beam tips towards its inner edge (triangle).
    Raises ValueError for a peak below 1.
    """
    if peak < 1:
        raise ValueError("the peak of a pressure is not below its mean")
    return pressure_under_force.titled(title)(force, length, width, peak)


spread_below = equation(
    "Spread to each side", "below * tan(angle)", Symbol("s", "length", "spread to each side"), "geometry",
    below=not_negative("h", "length", "depth under the bearing"),
    angle=not_negative("α", "angle", "spread to each side, from plumb"),
)  # fmt: skip

length_that_shares = equation(
    "Length that shares the force", "bearing + min(side, left_room) + min(side, right_room)",
    Symbol("l", "length", "length that shares the force"), "geometry",
    bearing=positive("a", "thickness", "bearing length"), side=Symbol("s", "length", "spread to each side"),
    left_room=not_negative("r_1", "length", "room on one side"),
    right_room=not_negative("r_2", "length", "room on the other"),
)  # fmt: skip


def spread(bearing: float, below: float, angle: float, left_room: float, right_room: float) -> tuple[Solved, Solved]:
    """Spread to each side [m], and the length of wall [m] that shares a force `below` [m] under its bearing.

    `angle` [rad] from the vertical, to each side, but not past the room there: the way from the bearing's edge to
    the wall's end, to an opening, or to halfway to the next force. Raises ValueError for an angle outside 0 to 90°.
    """
    if not 0 <= angle < math.pi / 2:
        raise ValueError("the angle of spread lies between the vertical and the horizontal")
    side = spread_below(below, angle)
    return side, length_that_shares(bearing, side, left_room, right_room)


EQUATIONS = (pressure_under_force, spread_below, length_that_shares)
