"""Loads from above: combinations, loads from roofs and floors, and pressures down a wall."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.facts.mechanics.sections import EdgeStresses, edge_stresses, within_kern
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Numerals, Series, Symbol, need_not_negative, not_negative, positive
from compliance.steps import Given


@record
class Combination:
    """Named factors by load case, as the code lists them: ("D + 0.75 L + 0.75 S", {"dead": 1, ...})."""

    name: str
    factors: Mapping[str, float]


combined_load = equation(
    "Load combination", "sum(factor * load)", Symbol("w", "line_load", "combined load"), "",
    factor=Numerals(), load=Series("load", "line_load"),
)  # fmt: skip


def combined(loads: Mapping[str, float], combination: Combination, source: str = "", kind: str = "line_load") -> Solved:
    """Sum of factor × load; `kind` is that of the loads, `source` its code.

    Raises ValueError when a case of the combination has no load: write zero, not nothing.
    """
    lacking = sorted(set(combination.factors) - set(loads))
    if lacking:
        raise ValueError(f"no load given for {', '.join(lacking)}, needed by {combination.name}")
    named = combined_load.titled(f"Load combination {combination.name}").sourced(source).of_kinds(result=kind)
    parts = [Given(case, loads[case], kind, f"{case} load") for case in combination.factors]
    return named(tuple(combination.factors.values()), parts)


def governing(
    loads: Mapping[str, float], combinations: Sequence[Combination], source: str = ""
) -> tuple[Combination, Solved]:
    """The combination with the greatest load, and that load; `source` is its code.

    Raises ValueError when there is no combination or when a load above zero stands in none of them.
    """
    if not combinations:
        raise ValueError("no load combination given")
    counted = {case for combination in combinations for case in combination.factors}
    left_out = sorted(case for case, load in loads.items() if load and case not in counted)
    if left_out:
        raise ValueError(f"no combination counts {', '.join(left_out)}")
    return max(((each, combined(loads, each, source)) for each in combinations), key=lambda pair: pair[1])


plan_load = equation(
    "Roof load on plan", "load_on_slope * sqrt(rise ** 2 + run ** 2) / run", Symbol("w", "pressure", "load on plan"),
    "geometry", load_on_slope=Symbol("D", "pressure", "load on the slope"),
    rise=not_negative("f", "length", "rise"), run=positive("r", "length", "run"),
)  # fmt: skip
"""A roof's own load on the slope as load on its plan."""


tributary_load = equation(
    "Load on the wall", "load * width", Symbol("w", "line_load", "load on the wall"),
    "load × the width that hangs on the wall", load=not_negative("q", "pressure", "load"),
    width=not_negative("b", "length", "width that hangs on this wall"),
)  # fmt: skip


@record
class LevelStress:
    """At one level of a wall or pier: load [N], eccentricity [m], pressures, whether all of it stays pressed."""

    load: float
    eccentricity: float
    edges: EdgeStresses
    whole: bool


def moment_share_below(level: float, held_at_top: bool) -> float:
    """Share of the moment from an off-centre bearing that is left at `level`, 0 at the top and 1 at the base.

    Held at top and bottom it fades evenly to nothing at the base; a wall with a free top keeps all of it.
    """
    if not 0 <= level <= 1:
        raise ValueError(f"a level lies between 0 (top) and 1 (base), not {level!r}")
    return 1 - level if held_at_top else 1.0


def level_stress(
    top_load: float,
    top_offset: float,
    moment_share: float,
    weight: float,
    weight_offset: float,
    depth: float,
    width: float,
) -> LevelStress:
    """Pressures at one level under a bearing load [N] `top_offset` [m] off the centre and `weight` [N] above the level.

    Offsets to opposite faces have opposite signs. Raises ValueError for sizes not above zero, loads below zero.
    """
    need_not_negative(top_load=top_load, weight=weight)
    load = top_load + weight
    off = resultant_offset(top_load, top_offset, moment_share, weight, weight_offset) if load else 0.0
    return LevelStress(load, off, edge_stresses(load, off, depth, width), within_kern(off, depth))


resultant_offset = equation(
    "Eccentricity", "(moment_share * top_load * top_offset + weight * weight_offset) / (top_load + weight)",
    Symbol("e", "thickness", "eccentricity"), "statics",
    top_load=Symbol("P", "force", "bearing load"), top_offset=Symbol("e_P", "thickness", "bearing off the centre"),
    moment_share=Symbol("s", "ratio", "share of the bearing's moment left at this level"),
    weight=Symbol("W", "force", "weight above this level"),
    weight_offset=Symbol("e_W", "thickness", "weight off the centre"),
)  # fmt: skip

EQUATIONS = (combined_load, plan_load, tributary_load, resultant_offset)
