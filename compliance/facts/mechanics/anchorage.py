"""Tying walls to roofs and floors, and the bond beam that carries the top of a wall between crossing walls."""

from __future__ import annotations

from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import GRAVITY, Symbol, not_negative, positive

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


EQUATIONS = (force_at_top, anchorage_force, force_per_anchor, greatest_spacing, net_uplift, depth_to_hold_down)
