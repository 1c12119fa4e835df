"""Buttresses, pilasters and returns as what a wall leans on: with a length of the wall bonded to them they make a T
that turns about an edge of its base, set in by the earth that crushes there, or slides on it.

Rigid blocks, statics. Towards: the push turns the T over the outer edge of what stands out. Away: over the wall's far
face. Bonded from the footing up; the dead load of the roof is left out.
"""

from __future__ import annotations

from compliance.facts.mechanics.lateral.rocking import RIGID
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import GRAVITY, Symbol, not_negative, positive

_SHARE = not_negative("k", "ratio", "share of dead load sure to be there")
_OUT = positive("p", "length", "it stands out from the face by")
_WIDE = positive("b", "thickness", "its width along the wall")
_THICK = positive("t", "thickness", "thickness of the wall")
_SUPPORT = not_negative("W_b", "force", "weight of the support")
_FLANGE = not_negative("W_w", "force", "weight of the wall bonded to it")
_STRENGTH = positive("f", "stress", "compressive strength")
_INSET = not_negative("a", "thickness", "edge set in")

weight_of_block = equation(
    "Weight of the support", "density * gravity * out * wide * height", Symbol("W_b", "force"), "mass × gravity",
    density=not_negative("ρ", "density"), out=_OUT, wide=_WIDE,
    height=positive("h_b", "length", "its height"), gravity=GRAVITY,
)  # fmt: skip

edge_set_in = equation(
    "Edge it turns about, set in by", "share * (support + flange) / (2 * strength * along)", Symbol("a", "thickness"),
    RIGID, share=_SHARE, support=_SUPPORT, flange=_FLANGE, strength=_STRENGTH,
    along=positive("l_e", "length", "length of the edge"),
)  # fmt: skip

resists_towards = equation(
    "Restoring moment, pushed towards the support",
    "share * (support * (out / 2 - inset) + flange * (out + thick / 2 - inset))", Symbol("M_r", "moment"), RIGID,
    share=_SHARE, support=_SUPPORT, out=_OUT, inset=_INSET, flange=_FLANGE, thick=_THICK,
)  # fmt: skip

resists_away = equation(
    "Restoring moment, pushed away from the support",
    "share * (support * (thick + out / 2 - inset) + flange * (thick / 2 - inset))", Symbol("M_r", "moment"), RIGID,
    share=_SHARE, support=_SUPPORT, thick=_THICK, out=_OUT, inset=_INSET, flange=_FLANGE,
)  # fmt: skip

overturned_by = equation(
    "Overturning moment on the support", "pressure * height ** 2 / 2 * length / sine", Symbol("M_o", "moment"),
    "statics; the same whether the wall spans sideways or a beam brings half of the load to the top",
    pressure=not_negative("w", "pressure", "load square to the wall"), height=positive("h", "length", "height"),
    length=not_negative("l_m", "length", "length of wall that leans on it"),
    sine=positive("sin z", "ratio", "of its angle to the wall"),
)  # fmt: skip

pushed_by = equation(
    "Force that pushes the support at its base", "pressure * height * length * part / sine", Symbol("V", "force"),
    "statics", pressure=not_negative("w", "pressure", "load square to the wall"),
    height=positive("h", "length", "height"), length=not_negative("l_m", "length", "length of wall that leans on it"),
    part=positive("c", "ratio", "half where a beam and a held foot take the load between them"),
    sine=positive("sin z", "ratio", "of its angle to the wall"),
)  # fmt: skip

resists_sliding = equation(
    "Friction under the support", "friction * share * (support + flange)", Symbol("V_r", "force"), "",
    friction=positive("μ", "ratio", "friction on the base"), share=_SHARE, support=_SUPPORT, flange=_FLANGE,
)  # fmt: skip

factor_against_sliding = equation(
    "Factor against sliding", "resists / pushes", Symbol("n", "ratio"), "statics",
    resists=Symbol("V_r", "force"), pushes=positive("V", "force"),
)  # fmt: skip

EQUATIONS = (
    weight_of_block, edge_set_in, resists_towards, resists_away, overturned_by, pushed_by, resists_sliding,
    factor_against_sliding,
)  # fmt: skip
