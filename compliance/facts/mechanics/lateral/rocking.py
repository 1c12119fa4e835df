"""A wall as rigid blocks that tip: for earth whose tension nobody should count on.

The blocks turn about an edge set in by the earth that crushes there. Displacements are taken as small: the
answer is where tipping starts. A wall that starts to tip may still stand; do not count on it without an engineer.
"""

from __future__ import annotations

import math

from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative, need_positive, not_negative, positive

RIGID = "rigid blocks, statics"

_THICKNESS = positive("t", "thickness", "thickness")
_WEIGHT = not_negative("W", "line_load", "weight of the wall")
_ON_TOP = not_negative("P", "line_load", "load on top sure to be there")
_SIGNED_TOP = Symbol("P", "line_load", "load on top sure to be there, below zero where it lifts")

pivot_inset = equation(
    "Edge it turns about, set in by", "load / (2 * strength)", Symbol("a", "thickness", "edge set in"), RIGID,
    load=not_negative("n", "line_load", "load on the edge"),
    strength=positive("f", "stress", "compressive strength"),
)  # fmt: skip
"""Half the strip of earth that crushes under all of the load."""

overturning_moment = equation(
    "Overturning moment about the base", "pressure * height ** 2 / 2 + top_force * height",
    Symbol("M_o", "line_moment", "overturning moment"), RIGID,
    pressure=not_negative("w", "pressure", "load square to the wall"),
    height=positive("h", "length", "height"),
    top_force=not_negative("F", "line_load", "sideways force on the top"),
)  # fmt: skip
"""Of a wall with a free top."""

restoring_moment = equation(
    "Restoring moment", "weight * (thickness / 2 - inset) + top_load * (thickness / 2 - top_offset - inset)",
    Symbol("M_r", "line_moment", "restoring moment"), RIGID,
    weight=_WEIGHT, top_load=_SIGNED_TOP, top_offset=Symbol("e", "thickness", "its offset towards the edge"),
    thickness=_THICKNESS, inset=not_negative("a", "thickness", "edge set in"),
)  # fmt: skip
"""`top_offset` towards the edge it tips over; below zero where the load on top already stands past that edge."""

factor_against_tipping = equation(
    "Factor against tipping", "max(restoring / overturning, 0)", Symbol("n", "ratio", "factor against tipping"), RIGID,
    restoring=Symbol("M_r", "line_moment", "restoring moment"),
    overturning=not_negative("M_o", "line_moment", "overturning moment"),
)  # fmt: skip


def stability_factor(restoring: float, overturning: float, kind: str = "line_moment", source: str = RIGID) -> Solved:
    """Restoring over overturning moment, not below zero; infinite where nothing overturns."""
    factor = factor_against_tipping.of_kinds(restoring=kind, overturning=kind).sourced(source)
    if overturning == 0:
        return factor.without_value(math.inf if restoring > 0 else 0.0, restoring, overturning)
    return factor(restoring, overturning)


width_between_edges = equation(
    "Width between the edges it turns about", "thickness - 2 * inset",
    Symbol("T", "thickness", "width between the edges"), RIGID,
    thickness=_THICKNESS, inset=not_negative("a", "thickness", "edges set in"),
)  # fmt: skip

load_of_folding = equation(
    "Load at which it starts to fold",
    "2 * wide * (sqrt(weight + top_load) + sqrt(top_load * (1 / 2 - top_offset / wide))) ** 2 / height ** 2",
    Symbol("w", "pressure", "load at which it starts to fold"), RIGID + ", virtual work",
    weight=_WEIGHT, top_load=_ON_TOP, top_offset=not_negative("e", "thickness", "load on top off the middle"),
    height=positive("h", "length", "height between supports"),
    wide=Symbol("T", "thickness", "width between the edges"),
)  # fmt: skip


def held_top_capacity(
    weight: float, top_load: float, top_offset: float, height: float, thickness: float, inset: float
) -> Solved:
    """Even load [Pa] at which a wall held at top and bottom starts to fold.

    Two blocks turn about opposite edges; `top_load` [N/m] bears `top_offset` [m] off the middle, to the worse side.
    Virtual work for a fold at any height, least over all heights: it lies above the middle, and at the top when nothing
    bears there, where the load is half of what a fold at mid-height would promise. Zero where the load on top stands
    past the edge. The top must be tied to something that holds it.
    """
    need_positive(height=height, thickness=thickness)
    need_not_negative(weight=weight, top_load=top_load, top_offset=top_offset, inset=inset)
    wide = width_between_edges(thickness, inset)
    past = wide <= 0 or (top_load > 0 and top_offset >= wide / 2)
    found = None if past else load_of_folding(weight, top_load, top_offset, height, wide)
    if not found:
        return load_of_folding.titled("Nothing holds it: no weight, or a load past the edge").without_value(0.0)
    return found


folding_below_rods = equation(
    "Load at which it starts to fold below the ends of the rods",
    "max(min(2 * wide / height * ((weight - lift) / (height - rods) - lift * (1 / 2 + top_offset / wide) / rods),"
    " 2 * wide * weight / height ** 2), 0)",
    Symbol("w", "pressure", "load at which it starts to fold"), RIGID + ", virtual work",
    weight=_WEIGHT, lift=not_negative("U", "line_load", "net uplift"),
    top_offset=not_negative("e", "thickness", "uplift off the middle"),
    height=positive("h", "length", "height between supports"),
    wide=Symbol("T", "thickness", "width between the edges"),
    rods=positive("d_a", "length", "how deep the rods reach"),
)  # fmt: skip

folding_of_pulled_out = equation(
    "Rods pull out: it stands free; load at which it tips", "wide * weight / height ** 2",
    Symbol("w", "pressure", "load at which it tips"), RIGID,
    wide=Symbol("T", "thickness", "width between the edges"), weight=_WEIGHT,
    height=positive("h", "length", "height"),
)  # fmt: skip


def lifted_capacity(
    weight: float, lift: float, top_offset: float, height: float, wide: float, rods: float
) -> Solved:  # fmt: skip
    """Even load [Pa] at which a wall held at foot and top starts to fold whose top the wind lifts by `lift` [N/m].

    Rods that reach `rods` [m] down carry the lift above their ends, so that the wall opens below them only. Too short
    to have enough earth over their ends they pull out, and the wall stands free.
    """
    need_positive(height=height)
    if wide <= 0 or weight <= 0:
        return folding_of_pulled_out.titled("Nothing holds it").without_value(0.0)
    if rods < lift * height / weight * (1 - 1e-9):
        return folding_of_pulled_out(wide, weight, height)
    if rods >= height:
        return load_of_folding.titled("Rods reach the foot: load at which it starts to fold")(
            weight, 0.0, 0.0, height, wide)  # fmt: skip
    return folding_below_rods(weight, lift, top_offset, height, wide, rods)


EQUATIONS = (
    folding_below_rods, folding_of_pulled_out,
    pivot_inset, overturning_moment, restoring_moment, factor_against_tipping, width_between_edges, load_of_folding
)  # fmt: skip
