"""Walls that stand alone: earthquake as on a structure of their own, overturning at the foot and under the footing.

Seismic coefficient of self-supporting structures that are no buildings, R 1.25 (ASCE 7-05 Table 15.4-2, read in a
public copy), its force linear with height and so at two thirds of it. Rigid blocks; the earth takes no tension.
"""

from __future__ import annotations

from compliance.facts.mechanics.lateral.rocking import RIGID
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol, not_negative, positive

_SHARE = not_negative("k", "ratio", "share of dead load sure to be there")
_WALL = not_negative("W", "line_load", "wall")
_STEM = not_negative("W_s", "line_load", "stem wall")
_FOOTING = not_negative("W_f", "line_load", "footing")
_HEIGHT = positive("h", "length", "height of the wall")
_TALL = not_negative("h_s", "length", "height of the stem wall")
_DEEP = not_negative("d", "thickness", "thickness of the footing")
_WIDE = positive("B_f", "thickness", "width of the footing")

seismic_share = equation(
    "Seismic coefficient of a wall that stands alone",
    "level * max(sds * importance / response, least * sds * importance, floor)",
    Symbol("c_E", "ratio"), "", level=Symbol("c", "ratio", "to allowable stresses"),
    sds=not_negative("S_DS"), importance=positive("I"), response=positive("R"),
    least=not_negative("c_1", "ratio", "least for each S_DS"), floor=not_negative("c_0", "ratio", "least of all"),
)  # fmt: skip

moment_of_quake = equation(
    "Overturning moment at the foot, earthquake", "coefficient * wall * reach * height", Symbol("M_o", "line_moment"),
    "statics", coefficient=Symbol("c_E"), wall=_WALL,
    reach=positive("c_z", "ratio", "height of the force over that of the wall"), height=_HEIGHT,
)  # fmt: skip

moment_of_wind = equation(
    "Overturning moment at the foot, wind", "pressure * reach * height ** 2", Symbol("M_o", "line_moment"), "statics",
    pressure=not_negative("w", "pressure", "wind"),
    reach=positive("c_z", "ratio", "height of the force over that of the wall"), height=_HEIGHT,
)  # fmt: skip

resists_at_foot = equation(
    "Restoring moment at the foot", "share * wall * (thickness / 2 - inset)", Symbol("M_r", "line_moment"), RIGID,
    share=_SHARE, wall=_WALL, thickness=positive("t", "thickness", "thickness at the base"),
    inset=not_negative("a", "thickness", "edge set in"),
)  # fmt: skip

under_footing_by_quake = equation(
    "Overturning moment under the footing, earthquake",
    "coefficient * (wall * (reach * height + tall + deep) + stem * (deep + tall / 2) + footing * deep / 2)",
    Symbol("M_o", "line_moment"), "statics", coefficient=Symbol("c_E"), wall=_WALL,
    reach=positive("c_z", "ratio", "height of the force over that of the wall"), height=_HEIGHT, tall=_TALL, deep=_DEEP,
    stem=_STEM, footing=_FOOTING,
)  # fmt: skip

under_footing_by_wind = equation(
    "Overturning moment under the footing, wind", "pressure * height * (reach * height + tall + deep)",
    Symbol("M_o", "line_moment"), "statics", pressure=not_negative("w", "pressure", "wind"), height=_HEIGHT,
    reach=positive("c_z", "ratio", "height of the force over that of the wall"), tall=_TALL, deep=_DEEP,
)  # fmt: skip

load_under_footing = equation(
    "Load under the footing", "share * (wall + stem + footing)", Symbol("N", "line_load"), "sum",
    share=_SHARE, wall=_WALL, stem=_STEM, footing=_FOOTING,
)  # fmt: skip

resists_under_footing = equation(
    "Restoring moment under the footing", "load * wide / 2", Symbol("M_r", "line_moment"), RIGID,
    load=Symbol("N", "line_load"), wide=_WIDE,
)  # fmt: skip

EQUATIONS = (
    seismic_share, moment_of_quake, moment_of_wind, resists_at_foot, under_footing_by_quake, under_footing_by_wind,
    load_under_footing, resists_under_footing,
)  # fmt: skip
