"""Triangles of earth over the eaves, pushed square to their face: as rigid blocks, and what they hand to a beam below.

The base runs from one eaves point to the other, the highest point stands in its middle, and the thickness is even.
"""

from __future__ import annotations

import math

from compliance.facts.mechanics.beams import Point
from compliance.facts.mechanics.lateral.rocking import RIGID
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol, not_negative, positive

_STRIPS = 24

_BASE = positive("B", "length", "between the eaves points")
_RISE = positive("H", "length", "height over the eaves")
_HEIGHT = positive("h", "length", "height of the wall below")
_THICK = positive("t", "thickness", "thickness")
_PRESSURE = positive("w", "pressure", "load square to the wall")
_SHARE = not_negative("k", "ratio", "share of dead load sure to be there")
_FACE = not_negative("g_f", "pressure", "weight of an area of the face")
_STRENGTH = positive("f", "stress", "compressive strength")
_INSET = not_negative("a", "thickness", "edge set in")

rise_of_slope = equation(
    "Height of the gable over the eaves", "base / 2 * tangent", Symbol("H", "length"), "geometry, ridge in the middle",
    base=_BASE, tangent=positive("tan θ", "ratio", "slope of the roof"),
)  # fmt: skip


weight_of_gable = equation(
    "Weight of the gable", "face * base * rise / 2", Symbol("W_g", "force"), "mass × gravity",
    face=_FACE, base=_BASE, rise=_RISE,
)  # fmt: skip

inset_of_triangle = equation(
    "Edge the triangle turns about, set in by", "face * rise / (4 * strength)", Symbol("a", "thickness"), RIGID,
    face=_FACE, rise=_RISE, strength=_STRENGTH,
)  # fmt: skip
"""Its mean weight along the eaves is half of that of its highest strip."""

factor_of_triangle = equation(
    "Factor of the whole triangle against tipping at the eaves",
    "3 * share * face * (thick / 2 - inset) / (pressure * rise)", Symbol("n", "ratio"), RIGID,
    share=_SHARE, face=_FACE, thick=_THICK, inset=_INSET, pressure=_PRESSURE, rise=_RISE,
)  # fmt: skip

inset_of_strip = equation(
    "Edge the highest strip turns about, set in by", "face * rise / (2 * strength)", Symbol("a", "thickness"), RIGID,
    face=_FACE, rise=_RISE, strength=_STRENGTH,
)  # fmt: skip

factor_of_strip = equation(
    "Factor of the highest upright strip alone against tipping at the eaves",
    "2 * share * face * (thick / 2 - inset) / (pressure * rise)", Symbol("n", "ratio"), RIGID,
    share=_SHARE, face=_FACE, thick=_THICK, inset=_INSET, pressure=_PRESSURE, rise=_RISE,
)  # fmt: skip

weight_of_whole = equation(
    "Weight of the wall with its gable", "face * base * (height + rise / 2)", Symbol("W", "force"), "mass × gravity",
    face=_FACE, base=_BASE, height=_HEIGHT, rise=_RISE,
)  # fmt: skip

inset_of_whole = equation(
    "Edge the wall turns about, set in by", "weight / (2 * strength * base)", Symbol("a", "thickness"), RIGID,
    weight=not_negative("W", "force"), strength=_STRENGTH, base=_BASE,
)  # fmt: skip

turning_whole = equation(
    "Overturning moment of wall and gable about the base",
    "pressure * (base * height ** 2 / 2 + base * rise / 2 * (height + rise / 3))", Symbol("M_o", "moment"), RIGID,
    pressure=_PRESSURE, base=_BASE, height=_HEIGHT, rise=_RISE,
)  # fmt: skip

restoring_whole = equation(
    "Restoring moment of wall and gable", "share * weight * (thick / 2 - inset)", Symbol("M_r", "moment"), RIGID,
    share=_SHARE, weight=not_negative("W", "force"), thick=_THICK, inset=_INSET,
)  # fmt: skip

moment_under_gable = equation(
    "Moment in the bond beam under the gable",
    "pressure / (2 * height) * (base / (2 * rise)) ** 2 * (((height + rise) ** 4 - height ** 4) / 4 "
    "- height * ((height + rise) ** 3 - height ** 3) / 3)",
    Symbol("M", "moment"),
    "statics: at a height y of gable over it the beam takes w × (h + y)² / (2 × h) along its length, as the upper "
    "support of an upright strip that stands out over it",
    pressure=_PRESSURE, height=_HEIGHT, base=_BASE, rise=_RISE,
)  # fmt: skip

EQUATIONS = (
    rise_of_slope, weight_of_gable, inset_of_triangle, factor_of_triangle, inset_of_strip,
    factor_of_strip, weight_of_whole, inset_of_whole, turning_whole, restoring_whole, moment_under_gable,
)  # fmt: skip


def strips_of(weight: float, length: float) -> list[Point]:
    """A gable's weight [N] as forces on the top of the wall below, `length` long [m]: that of each strip in its
    middle."""
    if weight <= 0:
        return []
    width = length / _STRIPS
    middles = [width * (place + 0.5) for place in range(_STRIPS)]
    heights = [min(at, length - at) for at in middles]
    return [Point(at, weight * high / math.fsum(heights)) for at, high in zip(middles, heights, strict=True)]
