"""How roofs push walls outward. Each result is per length of wall [N/m] unless it says otherwise.

These are screening figures for pinned, frictionless joints and even loads on plan. A roof without a tie, a ridge
beam or a ring needs an engineer; a low figure here is no leave to build one.
"""

from __future__ import annotations

import math

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.steps import Given, Step

THREE_HINGES = "three-hinged frame, statics"
RING = "rafters pinned at wall and ring, all weight carried by the wall; screening only"


def rafter_thrust(load: float, span: float, rise: float) -> float:
    """w L²/(8 f) [N/m]: a couple of rafters without tie, `load` [Pa] on plan, ridge not held up."""
    need_positive(span=span, rise=rise)
    need_not_negative(load=load)
    return load * span**2 / (8 * rise)


def rafter_thrust_step(load: float, span: float, rise: float) -> Step:
    given = (
        Given("w", load, "pressure", "load on plan"),
        Given("L", span, "length", "span between walls"),
        Given("f", rise, "length", "rise from plate to ridge"),
    )
    result = Given("H", rafter_thrust(load, span, rise), "line_load", "outward thrust")
    return Step("Thrust of rafters without tie", "w × L² / (8 × f)", given, result, THREE_HINGES)


def raised_tie_factor(rise: float, tie_height: float) -> float:
    """f/(f - y): how much more a tie `tie_height` [m] over the plate pulls than one at the plate.

    Raises ValueError for a tie at or above the ridge.
    """
    need_positive(rise=rise)
    need_not_negative(tie_height=tie_height)
    if tie_height >= rise:
        raise ValueError("a tie lies below the ridge")
    return rise / (rise - tie_height)


def tie_line_force(load: float, span: float, rise: float, tie_height: float) -> float:
    """w L²/(8 (f - y)) [N/m]: pull in ties, at the plate or raised, that leave no thrust on the walls.

    A raised tie bends the rafters and lets their feet spread a little: it is only as good as rafters made for it.
    """
    return rafter_thrust(load, span, rise) * raised_tie_factor(rise, tie_height)


def tie_force(load: float, span: float, rise: float, tie_height: float, spacing: float) -> float:
    """The pull [N] in one tie at `spacing` [m]."""
    need_positive(spacing=spacing)
    return tie_line_force(load, span, rise, tie_height) * spacing


def tie_force_step(load: float, span: float, rise: float, tie_height: float, spacing: float) -> Step:
    given = (
        Given("w", load, "pressure", "load on plan"),
        Given("L", span, "length", "span between walls"),
        Given("s", spacing, "length", "spacing of ties"),
        Given("f", rise, "length", "rise from plate to ridge"),
        Given("y", tie_height, "length", "tie above the plate"),
    )
    result = Given("T", tie_force(load, span, rise, tie_height, spacing), "force", "pull in one tie")
    return Step("Pull in one tie", "w × L² × s / (8 × (f - y))", given, result, THREE_HINGES)


def thrust_with_tie(load: float, span: float, rise: float, tie_height: float, highest_share: float) -> float:
    """Thrust left on the walls [N/m]: none with a tie no higher than `highest_share` of the rise, else all of it.

    `highest_share` is the code's; a collar above it only keeps the ridge together and counts for nothing here.
    """
    raised_tie_factor(rise, tie_height)
    return 0.0 if tie_height <= highest_share * rise * (1 + 1e-9) else rafter_thrust(load, span, rise)


def ridge_beam_load(load: float, span: float) -> float:
    """w L/2 [N/m] on a ridge beam that holds the rafters' upper ends, midway between walls: then no thrust.

    True only while the beam and its posts carry this load; what the walls then take is w L/4 each.
    """
    need_positive(span=span)
    need_not_negative(load=load)
    return load * span / 2


def ridge_beam_load_step(load: float, span: float) -> Step:
    given = (Given("w", load, "pressure", "load on plan"), Given("L", span, "length", "span between walls"))
    result = Given("n", ridge_beam_load(load, span), "line_load", "load on the ridge beam")
    return Step("Load on the ridge beam", "w × L / 2", given, result, "statics")


def ring_roof_thrust(load: float, radius: float, inner_radius: float, rise: float) -> float:
    """Outward thrust [N/m of wall] of a round roof of rafters that meet in a ring or lean on one another.

    `load` [Pa] on plan between the ring (`inner_radius`, zero for a point) and the wall (`radius`), `rise` [m] from
    wall plate to ring. Taken as rafters pinned at the wall and pushing level against one another at the ring, with
    nothing under the ring: w (R - r)² (R + 2 r)/(6 f R), which is w R²/(6 f) for a point. Rafters that lean on one
    another with feet free to slide push less, those held at the foot may push this much: screening on the safe
    side. Eaves past the wall push the other way and are left out.
    """
    need_positive(radius=radius, rise=rise)
    need_not_negative(load=load, inner_radius=inner_radius)
    if inner_radius >= radius:
        raise ValueError("the ring lies inside the wall")
    return load * (radius - inner_radius) ** 2 * (radius + 2 * inner_radius) / (6 * rise * radius)


def ring_roof_thrust_step(load: float, radius: float, inner_radius: float, rise: float) -> Step:
    given = (
        Given("w", load, "pressure", "load on plan"),
        Given("R", radius, "length", "radius to the wall"),
        Given("r", inner_radius, "length", "radius of the ring"),
        Given("f", rise, "length", "rise from plate to ring"),
    )
    value = ring_roof_thrust(load, radius, inner_radius, rise)
    result = Given("H", value, "line_load", "outward thrust")
    return Step(
        "Thrust of rafters that meet in a ring", "w × (R - r)² × (R + 2 × r) / (6 × f × R)", given, result, RING
    )


def thrust_per_rafter(line_thrust: float, radius: float, rafters: int) -> float:
    """2 π R H/n [N] at the foot of one of `rafters` evenly set rafters."""
    need_positive(radius=radius, rafters=rafters)
    return 2 * math.pi * radius * line_thrust / rafters


def ring_tension(line_thrust: float, radius: float) -> float:
    """H R [N]: pull in a closed bond beam that takes all of the thrust of a round roof."""
    need_positive(radius=radius)
    need_not_negative(line_thrust=line_thrust)
    return line_thrust * radius


def ring_tension_step(line_thrust: float, radius: float) -> Step:
    given = (Given("H", line_thrust, "line_load", "outward thrust"), Given("R", radius, "length", "radius to the wall"))
    result = Given("T", ring_tension(line_thrust, radius), "force", "pull in the bond beam")
    return Step("Pull in a closed bond beam", "H × R", given, result, "statics of a ring")
