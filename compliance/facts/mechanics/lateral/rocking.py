"""A wall as rigid blocks that tip: for earth whose tension nobody should count on.

The blocks turn about an edge set in by the earth that crushes there. Displacements are taken as small: the
answer is where tipping starts. A wall that starts to tip may still stand; do not count on it without an engineer.
"""

from __future__ import annotations

import math

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.steps import Given, Step

RIGID = "rigid blocks, statics"


def pivot_inset(load: float, strength: float) -> float:
    """n/(2 f) [m]: half the strip of earth that crushes under all of `load` [N/m] at `strength` [Pa]."""
    need_positive(strength=strength)
    need_not_negative(load=load)
    return load / (2 * strength)


def pivot_inset_step(load: float, strength: float) -> Step:
    given = (
        Given("n", load, "line_load", "load on the edge"),
        Given("f", strength, "stress", "compressive strength"),
    )
    result = Given("a", pivot_inset(load, strength), "thickness", "edge set in")
    return Step("Edge it turns about, set in by", "n / (2 × f)", given, result, RIGID)


def overturning_moment(pressure: float, height: float, top_force: float) -> float:
    """w h²/2 + F h [N] about the base of a wall with a free top."""
    need_positive(height=height)
    need_not_negative(pressure=pressure, top_force=top_force)
    return pressure * height**2 / 2 + top_force * height


def restoring_moment(weight: float, top_load: float, top_offset: float, thickness: float, inset: float) -> float:
    """W (t/2 - a) + P (t/2 - e - a) [N], `top_offset` [m] of the load on top towards the edge it tips over.

    Below zero where the load on top already stands past that edge.
    """
    need_positive(thickness=thickness)
    need_not_negative(weight=weight, top_load=top_load, inset=inset)
    return weight * (thickness / 2 - inset) + top_load * (thickness / 2 - top_offset - inset)


def stability_factor(restoring: float, overturning: float) -> float:
    """Restoring over overturning moment, not below zero; infinite where nothing overturns."""
    need_not_negative(overturning=overturning)
    if overturning == 0:
        return math.inf if restoring > 0 else 0.0
    return max(restoring / overturning, 0.0)


def free_top_steps(
    pressure: float, top_force: float, weight: float, top_load: float, top_offset: float,
    height: float, thickness: float, inset: float,
) -> tuple[Step, ...]:  # fmt: skip
    """Overturning and restoring moments of a wall with a free top, and the factor between them."""
    tips = overturning_moment(pressure, height, top_force)
    stands = restoring_moment(weight, top_load, top_offset, thickness, inset)
    turning = Given("M_o", tips, "line_moment", "overturning moment")
    holding = Given("M_r", stands, "line_moment", "restoring moment")
    given = (
        Given("w", pressure, "pressure", "load square to the wall"),
        Given("h", height, "length", "height"),
        Given("F", top_force, "line_load", "sideways force on the top"),
    )
    kept = (
        Given("W", weight, "line_load", "weight of the wall"),
        Given("t", thickness, "thickness", "thickness"),
        Given("a", inset, "thickness", "edge set in"),
        Given("P", top_load, "line_load", "load on top sure to be there"),
        Given("e", top_offset, "thickness", "its offset towards the edge"),
    )
    factor = Given("n", stability_factor(stands, tips), "ratio", "factor against tipping")
    return (
        Step("Overturning moment about the base", "w × h² / 2 + F × h", given, turning, RIGID),
        Step("Restoring moment", "W × (t / 2 - a) + P × (t / 2 - e - a)", kept, holding, RIGID),
        Step("Factor against tipping", "max(M_r / M_o, 0)" if tips else "", (holding, turning), factor, RIGID),
    )


def held_top_capacity(
    weight: float, top_load: float, top_offset: float, height: float, thickness: float, inset: float
) -> float:
    """Even load [Pa] at which a wall held at top and bottom starts to fold: 2 T (√(W + P) + √(P (1/2 - e/T)))²/h².

    T = t - 2 a. Two blocks turn about opposite edges; `top_load` [N/m] bears `top_offset` [m] off the middle, to the
    worse side. Virtual work for a fold at any height, least over all heights: it lies above the middle, and at the
    top when nothing bears there, where the load is half of what a fold at mid-height would promise. Zero where the
    load on top stands past the edge. The top must be tied to something that holds it.
    """
    need_positive(height=height, thickness=thickness)
    need_not_negative(weight=weight, top_load=top_load, top_offset=top_offset, inset=inset)
    wide = thickness - 2 * inset
    if wide <= 0 or (top_load and top_offset >= wide / 2):
        return 0.0
    on_top = top_load * (0.5 - top_offset / wide)
    return 2 * wide * (math.sqrt(weight + top_load) + math.sqrt(on_top)) ** 2 / height**2


def held_top_steps(
    weight: float, top_load: float, top_offset: float, height: float, thickness: float, inset: float
) -> tuple[Step, ...]:
    """The width between the edges it turns about, and the load at which it starts to fold."""
    wide = Given("T", thickness - 2 * inset, "thickness", "width between the edges")
    edges = (Given("t", thickness, "thickness", "thickness"), Given("a", inset, "thickness", "edges set in"))
    given = (
        wide,
        Given("W", weight, "line_load", "weight of the wall"),
        Given("P", top_load, "line_load", "load on top sure to be there"),
        Given("e", top_offset, "thickness", "load on top off the middle"),
        Given("h", height, "length", "height between supports"),
    )
    value = held_top_capacity(weight, top_load, top_offset, height, thickness, inset)
    result = Given("w", value, "pressure", "load at which it starts to fold")
    formula = "2 × T × (√(W + P) + √(P × (1 / 2 - e / T)))² / h²" if value else ""
    says = "Load at which it starts to fold" if value else "Nothing holds it: no weight, or a load past the edge"
    return (
        Step("Width between the edges it turns about", "t - 2 × a", edges, wide, RIGID),
        Step(says, formula, given if value else (), result, RIGID + ", virtual work"),
    )
