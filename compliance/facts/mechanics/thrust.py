"""How roofs push walls outward. Each result is per length of wall [N/m] unless it says otherwise.

These are screening figures for pinned, frictionless joints and even loads on plan. A roof without a tie, a ridge
beam or a ring needs an engineer; a low figure here is no leave to build one.
"""

from __future__ import annotations

from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative, need_positive, not_negative, positive

THREE_HINGES = "three-hinged frame, statics"
RING = "rafters pinned at wall and ring, all weight carried by the wall; screening only"

_LOAD = not_negative("w", "pressure", "load on plan")
_SPAN = positive("L", "length", "span between walls")
_RISE = positive("f", "length", "rise from plate to ridge")
_THRUST = not_negative("H", "line_load", "outward thrust")
_RADIUS = positive("R", "length", "radius to the wall")

rafter_thrust = equation(
    "Thrust of rafters without tie", "load * span ** 2 / (8 * rise)", _THRUST, THREE_HINGES,
    load=_LOAD, span=_SPAN, rise=_RISE,
)  # fmt: skip
"""A couple of rafters without tie, ridge not held up."""

pull_in_tie = equation(
    "Pull in one tie", "load * span ** 2 * spacing / (8 * (rise - tie_height))",
    Symbol("T", "force", "pull in one tie"), THREE_HINGES,
    load=_LOAD, span=_SPAN, rise=_RISE, tie_height=not_negative("y", "length", "tie above the plate"),
    spacing=positive("s", "length", "spacing of ties"),
)  # fmt: skip


def tie_force(load: float, span: float, rise: float, tie_height: float, spacing: float) -> Solved:
    """Pull [N] in one tie at `spacing` [m], at the plate or raised, where ties leave no thrust on the walls.

    A raised tie bends the rafters and lets their feet spread a little: it is only as good as rafters made for it.
    Raises ValueError for a tie at or above the ridge.
    """
    _refuse_above_ridge(rise, tie_height)
    return pull_in_tie(load, span, rise, tie_height, spacing)


def _refuse_above_ridge(rise: float, tie_height: float) -> None:
    need_positive(rise=rise)
    need_not_negative(tie_height=tie_height)
    if tie_height >= rise:
        raise ValueError("a tie lies below the ridge")


def thrust_with_tie(load: float, span: float, rise: float, tie_height: float, highest_share: float) -> float:
    """Thrust left on the walls [N/m]: none with a tie no higher than `highest_share` of the rise, else all of it.

    `highest_share` is the code's; a collar above it only keeps the ridge together and counts for nothing here.
    """
    _refuse_above_ridge(rise, tie_height)
    return 0.0 if tie_height <= highest_share * rise * (1 + 1e-9) else rafter_thrust(load, span, rise)


ridge_beam_load = equation(
    "Load on the ridge beam", "load * span / 2", Symbol("n", "line_load", "load on the ridge beam"), "statics",
    load=_LOAD, span=_SPAN,
)  # fmt: skip
"""On a ridge beam that holds the rafters' upper ends, midway between walls: then no thrust. True only while the beam
and its posts carry this load; what the walls then take is w L/4 each."""

thrust_of_ring_roof = equation(
    "Thrust of rafters that meet in a ring",
    "load * (radius - inner_radius) ** 2 * (radius + 2 * inner_radius) / (6 * rise * radius)", _THRUST, RING,
    load=_LOAD, radius=_RADIUS, inner_radius=not_negative("r", "length", "radius of the ring"),
    rise=positive("f", "length", "rise from plate to ring"),
)  # fmt: skip


def ring_roof_thrust(load: float, radius: float, inner_radius: float, rise: float) -> Solved:
    """Outward thrust [N/m of wall] of a round roof of rafters that meet in a ring or lean on one another.

    `load` [Pa] on plan between the ring (`inner_radius`, zero for a point) and the wall (`radius`), `rise` [m] from
    wall plate to ring. Taken as rafters pinned at the wall and pushing level against one another at the ring, with
    nothing under the ring; for a point that is w R²/(6 f). Rafters that lean on one another with feet free to slide
    push less, those held at the foot may push this much: screening on the safe side. Eaves past the wall push the other
    way and are left out. Raises ValueError for a ring that does not lie inside the wall.
    """
    need_positive(radius=radius, rise=rise)
    if inner_radius >= radius:
        raise ValueError("the ring lies inside the wall")
    return thrust_of_ring_roof(load, radius, inner_radius, rise)


ring_tension = equation(
    "Pull in a closed bond beam", "line_thrust * radius", Symbol("T", "force", "pull in the bond beam"),
    "statics of a ring", line_thrust=_THRUST, radius=_RADIUS,
)  # fmt: skip
"""In a closed bond beam that takes all of the thrust of a round roof."""

EQUATIONS = (rafter_thrust, pull_in_tie, ridge_beam_load, thrust_of_ring_roof, ring_tension)
