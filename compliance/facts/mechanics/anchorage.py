"""Tying walls to roofs and floors, and the bond beam that carries the top of a wall between crossing walls."""

from __future__ import annotations

from compliance.facts.mechanics.sections import bending_stress, second_moment, shear_stress_of_rectangle
from compliance.facts.mechanics.spans import uniform_deflection, uniform_moment
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import GRAVITY, Symbol, need_positive, not_negative, positive

ANCHOR_FORM = "anchorage of structural walls, ASCE 7-05 form (Taly, Design of Reinforced Masonry Structures)"

_ALONG = not_negative("p", "line_load", "force along the wall")
_DEAD_SHARE = not_negative("c", "ratio", "share of dead load that counts")

force_at_top = equation(
    "Force on the top support", "pressure * (height + above) ** 2 / (2 * height)",
    Symbol("p", "line_load", "force on the top support"), "moments about the base",
    pressure=not_negative("w", "pressure", "load square to the wall"),
    height=positive("h", "length", "height between supports"),
    above=not_negative("a", "length", "wall above the support"),
)  # fmt: skip
"""What the top support takes of an even load on the wall and on a parapet above the support."""

anchorage_force = equation(
    "Anchorage force", "max(computed, per_sds * sds * importance, least, by_weight)",
    Symbol("p", "line_load", "anchorage force"), ANCHOR_FORM,
    computed=not_negative("F_p", "line_load", "force computed"),
    per_sds=not_negative("c", "line_load", "force for each S_DS"),
    sds=not_negative("S_DS", "ratio", "design spectral acceleration, in g"),
    importance=positive("I", "ratio", "importance factor"),
    least=not_negative("p_0", "line_load", "least force"),
    by_weight=not_negative("p_w", "line_load", "by the weight of the wall"),
)  # fmt: skip
"""ASCE 7-05 has 400 lb/ft for each S_DS and 280 lb/ft at the least; later editions go by the weight of the wall. The
greatest of all is kept, which is on the safe side."""

force_per_anchor = equation(
    "Force on one anchor", "line_force * spacing", Symbol("T", "force"), "statics",
    line_force=_ALONG, spacing=positive("s", "length", "spacing"),
)  # fmt: skip

greatest_spacing = equation(
    "Greatest spacing of anchors", "capacity / line_force", Symbol("s", "length"), "statics",
    line_force=positive("p", "line_load", "force along the wall"),
    capacity=positive("T", "force", "capacity of one anchor"),
)  # fmt: skip
"""Not to be passed."""

net_uplift = equation(
    "Uplift along the wall", "max((suction - dead_share * dead) * width, 0)",
    Symbol("p", "line_load", "uplift along the wall"), "statics",
    suction=not_negative("u", "pressure", "wind suction"), dead=not_negative("D", "pressure", "dead load"),
    dead_share=_DEAD_SHARE, width=not_negative("b", "length", "width of roof this wall holds"),
)  # fmt: skip
"""Wind lifts a width of roof, a share of its dead load holds it."""

depth_to_hold_down = equation(
    "Wall that must hang on the anchors", "uplift / (dead_share * density * gravity * thickness)",
    Symbol("d", "length", "depth"), "statics",
    uplift=not_negative("p", "line_load", "uplift along the wall"),
    thickness=positive("t", "thickness", "thickness at the top"), density=positive("ρ", "density", "density"),
    dead_share=positive("c", "ratio", "share of dead load that counts"), gravity=GRAVITY,
)  # fmt: skip
"""Height of wall whose weight holds the uplift once anchors reach under it. Thickness at the top, where a tapered wall
is lightest. No spread of the pull, no tension in the earth."""

force_at_crossing_wall = equation(
    "Force into a crossing wall from one span", "line_force * span / 2",
    Symbol("V", "force", "force into a crossing wall from one span"), "statics",
    line_force=Symbol("w", "line_load", "force along the wall"), span=positive("L", "length", "span"),
)  # fmt: skip


def bond_beam(
    line_force: float, span: float, divisor: float, modulus: float, high: float, wide: float
) -> tuple[Solved, ...]:
    """The bond beam lying flat between crossing walls: moment, stress, end force, stress and sag as a simple span.

    `wide` [m] is its size across the wall, the direction in which it bends; `high` is upright. `divisor` as in
    `uniform_moment`: 8 unless the beam surely runs on. End force and sag are those of a simple span; a beam that
    runs over a crossing wall gives it more than the sum of two such ends: see `spans.support_reactions`.
    """
    need_positive(span=span, high=high, wide=wide)
    moment = uniform_moment.titled("Moment in the bond beam")(line_force, span, divisor)
    end = force_at_crossing_wall(line_force, span)
    return (
        moment,
        bending_stress.titled("Bending stress in the bond beam")(moment, high, wide),
        end,
        shear_stress_of_rectangle.titled("Shear stress in the bond beam")(end, high, wide),
        uniform_deflection(line_force, span, modulus, second_moment(high, wide)),
    )


EQUATIONS = (
    force_at_top, anchorage_force, force_per_anchor, greatest_spacing, net_uplift, depth_to_hold_down,
    force_at_crossing_wall,
)  # fmt: skip
