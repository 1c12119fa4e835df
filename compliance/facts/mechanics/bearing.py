"""Single forces on a wall: the pressure under them and how it spreads on the way down."""

from __future__ import annotations

import math

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.steps import Given, Step


def bearing_stress(force: float, length: float, width: float, peak: float) -> float:
    """peak × force/(length × width) [Pa].

    `peak` is 1 for a plate that presses evenly, 2 where a bending beam tips towards its inner edge (triangle).
    """
    need_positive(length=length, width=width)
    need_not_negative(force=force)
    if peak < 1:
        raise ValueError("the peak of a pressure is not below its mean")
    return peak * force / (length * width)


def bearing_stress_step(force: float, length: float, width: float, peak: float, says: str) -> Step:
    given = (
        Given("k", peak, "ratio", "peak over mean: 1 even, 2 triangle"),
        Given("R", force, "force", "force"),
        Given("a", length, "thickness", "bearing length"),
        Given("b", width, "thickness", "bearing width"),
    )
    result = Given("σ", bearing_stress(force, length, width, peak), "stress", "pressure")
    return Step(says, "k × R / (a × b)", given, result, "statics")


def spread_length(bearing: float, below: float, angle: float, left_room: float, right_room: float) -> float:
    """Length of wall [m] that shares a force `below` [m] under its bearing.

    `angle` [rad] from the vertical, to each side, but not past the room there: the way from the bearing's edge to
    the wall's end, to an opening, or to halfway to the next force. Raises ValueError for an angle outside 0 to 90°.
    """
    need_positive(bearing=bearing)
    need_not_negative(below=below, left_room=left_room, right_room=right_room)
    if not 0 <= angle < math.pi / 2:
        raise ValueError("the angle of spread lies between the vertical and the horizontal")
    side = below * math.tan(angle)
    return bearing + min(side, left_room) + min(side, right_room)


def spread_steps(
    force: float, bearing: float, below: float, angle: float, left_room: float, right_room: float, thickness: float
) -> tuple[Step, ...]:
    """The length that shares the force, and the mean pressure there."""
    need_positive(thickness=thickness)
    length = spread_length(bearing, below, angle, left_room, right_room)
    shared = Given("l", length, "length", "length that shares the force")
    given = (
        Given("a", bearing, "thickness", "bearing length"),
        Given("s", below * math.tan(angle), "length", f"spread to each side at {math.degrees(angle):.0f}° from plumb"),
        Given("r_1", left_room, "length", "room on one side"),
        Given("r_2", right_room, "length", "room on the other"),
    )
    put = (
        Given("R", force, "force", "force"),
        Given("t", thickness, "thickness", "thickness"),
        shared,
    )
    result = Given("σ", force / (thickness * length), "stress", "mean pressure")
    return (
        Step("Length that shares the force", "a + min(s, r_1) + min(s, r_2)", given, shared, "geometry"),
        Step("Mean pressure there", "R / (t × l)", put, result, "statics"),
    )
