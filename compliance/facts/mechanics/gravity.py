"""Loads from above: combinations, loads from roofs and floors, and pressures down a wall."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from compliance.facts.mechanics.sections import (
    EdgeStresses,
    edge_stresses,
    need_not_negative,
    need_positive,
    within_kern,
)
from compliance.record import record
from compliance.steps import Given, Step

STANDARD_GRAVITY = 9.80665  # m/s², by definition
GIVEN_GRAVITY = Given("g", "standard gravity", "ratio", "9.80665 m/s², which makes a pound weigh a pound-force")


@record
class Combination:
    """Named factors by load case, as the code lists them: ("D + 0.75 L + 0.75 S", {"dead": 1, ...})."""

    name: str
    factors: Mapping[str, float]


def combined(loads: Mapping[str, float], combination: Combination) -> float:
    """Sum of factor × load. Raises ValueError when a case of the combination has no load: write zero, not nothing."""
    lacking = sorted(set(combination.factors) - set(loads))
    if lacking:
        raise ValueError(f"no load given for {', '.join(lacking)}, needed by {combination.name}")
    return math.fsum(factor * loads[case] for case, factor in combination.factors.items())


def governing(loads: Mapping[str, float], combinations: Sequence[Combination]) -> tuple[Combination, float]:
    """The combination with the greatest load, and that load.

    Raises ValueError when there is no combination or when a load above zero stands in none of them.
    """
    if not combinations:
        raise ValueError("no load combination given")
    counted = {case for combination in combinations for case in combination.factors}
    left_out = sorted(case for case, load in loads.items() if load and case not in counted)
    if left_out:
        raise ValueError(f"no combination counts {', '.join(left_out)}")
    return max(((each, combined(loads, each)) for each in combinations), key=lambda pair: pair[1])


def combination_step(
    loads: Mapping[str, float], combination: Combination, source: str, kind: str = "line_load"
) -> Step:
    """The combination worked; symbols are the names of the cases, `kind` that of the loads, `source` its code."""
    total = combined(loads, combination)
    cases = tuple(combination.factors.items())
    formula = " + ".join(f"{factor:g} × {case}" for case, factor in cases)
    given = tuple(Given(case, loads[case], kind, f"{case} load") for case, _ in cases)
    result = Given("w", total, kind, "combined load")
    return Step(f"Load combination {combination.name}", formula, given, result, source)


def plan_load(load_on_slope: float, rise: float, run: float) -> float:
    """A roof's own load on the slope [Pa] as load on its plan [Pa]: D × √(rise² + run²)/run."""
    need_positive(run=run)
    need_not_negative(rise=rise)
    return load_on_slope * math.hypot(rise, run) / run


def plan_load_step(load_on_slope: float, rise: float, run: float) -> Step:
    given = (
        Given("D", load_on_slope, "pressure", "load on the slope"),
        Given("f", rise, "length", "rise"),
        Given("r", run, "length", "run"),
    )
    result = Given("w", plan_load(load_on_slope, rise, run), "pressure", "load on plan")
    return Step("Roof load on plan", "D × √(f² + r²) / r", given, result, "geometry")


def bearing_line_load(load: float, span: float, near: float, far: float) -> float:
    """Reaction per length [N/m] at a wall under joists with overhangs, from even `load` [Pa] over all of them.

    `span` [m] between supports, `near` the overhang past this wall, `far` past the other support; the far one
    takes load off this wall, so check it with `far` zero as well. w × ((span + near)² - far²)/(2 span).
    """
    need_positive(span=span)
    need_not_negative(load=load, near=near, far=far)
    return load * ((span + near) ** 2 - far**2) / (2 * span)


def bearing_line_load_step(load: float, span: float, near: float, far: float, says: str) -> Step:
    given = (
        Given("q", load, "pressure", "load"),
        Given("L", span, "length", "span"),
        Given("a", near, "length", "overhang past this wall"),
        Given("c", far, "length", "overhang past the other support"),
    )
    result = Given("w", bearing_line_load(load, span, near, far), "line_load", "load on the wall")
    return Step(says, "q × ((L + a)² - c²) / (2 × L)", given, result, "moments about the other support")


def tributary_load(load: float, width: float) -> float:
    """Load [Pa] × the width [m] that hangs on this wall: [N/m]."""
    need_not_negative(load=load, width=width)
    return load * width


def tributary_load_step(load: float, width: float, says: str) -> Step:
    given = (Given("q", load, "pressure", "load"), Given("b", width, "length", "width that hangs on this wall"))
    return Step(
        says,
        "q × b",
        given,
        Given("w", tributary_load(load, width), "line_load", "load on the wall"),
        "load × the width that hangs on the wall",
    )


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
    off = (moment_share * top_load * top_offset + weight * weight_offset) / load if load else 0.0
    return LevelStress(load, off, edge_stresses(load, off, depth, width), within_kern(off, depth))


def eccentricity_step(
    top_load: float, top_offset: float, moment_share: float, weight: float, weight_offset: float
) -> Step:
    """The eccentricity of `level_stress`, worked. Raises ValueError when there is no load at all."""
    need_positive(load=top_load + weight)
    given = (
        Given("s", moment_share, "ratio", "share of the bearing's moment left at this level"),
        Given("P", top_load, "force", "bearing load"),
        Given("e_P", top_offset, "thickness", "bearing off the centre"),
        Given("W", weight, "force", "weight above this level"),
        Given("e_W", weight_offset, "thickness", "weight off the centre"),
    )
    value = (moment_share * top_load * top_offset + weight * weight_offset) / (top_load + weight)
    result = Given("e", value, "thickness", "eccentricity")
    return Step("Eccentricity", "(s × P × e_P + W × e_W) / (P + W)", given, result, "statics")
