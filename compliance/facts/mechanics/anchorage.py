"""Tying walls to roofs and floors, and the bond beam that carries the top of a wall between crossing walls."""

from __future__ import annotations

from compliance.facts.mechanics.gravity import GIVEN_GRAVITY, STANDARD_GRAVITY
from compliance.facts.mechanics.sections import (
    bending_stress_step,
    need_not_negative,
    need_positive,
    second_moment,
    shear_stress_step,
)
from compliance.facts.mechanics.spans import uniform_deflection_step, uniform_moment_step
from compliance.steps import Given, Step

ANCHOR_FORM = "anchorage of structural walls, ASCE 7-05 form (Taly, Design of Reinforced Masonry Structures)"


def force_at_top(pressure: float, height: float, above: float) -> float:
    """w (h + a)²/(2 h) [N/m]: what the top support takes of an even load on the wall and on `above` [m], a parapet."""
    need_positive(height=height)
    need_not_negative(pressure=pressure, above=above)
    return pressure * (height + above) ** 2 / (2 * height)


def force_at_top_step(pressure: float, height: float, above: float) -> Step:
    given = (
        Given("w", pressure, "pressure", "load square to the wall"),
        Given("h", height, "length", "height between supports"),
        Given("a", above, "length", "wall above the support"),
    )
    result = Given("p", force_at_top(pressure, height, above), "line_load", "force on the top support")
    return Step("Force on the top support", "w × (h + a)² / (2 × h)", given, result, "moments about the base")


def anchorage_force(computed: float, per_sds: float, sds: float, importance: float, least: float) -> float:
    """max(computed, per_sds × S_DS × I, least) [N/m]; ASCE 7-05 has 400 lb/ft and 280 lb/ft."""
    need_not_negative(computed=computed, per_sds=per_sds, sds=sds, least=least)
    need_positive(importance=importance)
    return max(computed, per_sds * sds * importance, least)


def anchorage_force_step(computed: float, per_sds: float, sds: float, importance: float, least: float) -> Step:
    given = (
        Given("F_p", computed, "line_load", "force computed"),
        Given("c", per_sds, "line_load", "force for each S_DS"),
        Given("S_DS", sds, "ratio", "design spectral acceleration, in g"),
        Given("I", importance, "ratio", "importance factor"),
        Given("p_0", least, "line_load", "least force"),
    )
    value = anchorage_force(computed, per_sds, sds, importance, least)
    result = Given("p", value, "line_load", "anchorage force")
    return Step("Anchorage force", "max(F_p, c × S_DS × I, p_0)", given, result, ANCHOR_FORM)


def force_per_anchor(line_force: float, spacing: float) -> float:
    """[N] for one anchor at `spacing` [m]."""
    need_positive(spacing=spacing)
    need_not_negative(line_force=line_force)
    return line_force * spacing


def force_per_anchor_step(line_force: float, spacing: float) -> Step:
    given = (Given("p", line_force, "line_load", "force along the wall"), Given("s", spacing, "length", "spacing"))
    return Step(
        "Force on one anchor", "p × s", given, Given("T", force_per_anchor(line_force, spacing), "force"), "statics"
    )


def greatest_spacing(line_force: float, capacity: float) -> float:
    """Anchor capacity [N] over the force along the wall [N/m]: spacing [m] not to be passed."""
    need_positive(line_force=line_force, capacity=capacity)
    return capacity / line_force


def greatest_spacing_step(line_force: float, capacity: float) -> Step:
    given = (
        Given("T", capacity, "force", "capacity of one anchor"),
        Given("p", line_force, "line_load", "force along the wall"),
    )
    return Step(
        "Greatest spacing of anchors",
        "T / p",
        given,
        Given("s", greatest_spacing(line_force, capacity), "length"),
        "statics",
    )


def net_uplift(suction: float, dead: float, dead_share: float, width: float) -> float:
    """(u - c D) b [N/m], not below zero: wind lifts `width` [m] of roof, a share of its dead load [Pa] holds it."""
    need_not_negative(suction=suction, dead=dead, dead_share=dead_share, width=width)
    return max((suction - dead_share * dead) * width, 0.0)


def net_uplift_step(suction: float, dead: float, dead_share: float, width: float) -> Step:
    given = (
        Given("u", suction, "pressure", "wind suction"),
        Given("c", dead_share, "ratio", "share of dead load that counts"),
        Given("D", dead, "pressure", "dead load"),
        Given("b", width, "length", "width of roof this wall holds"),
    )
    result = Given("p", net_uplift(suction, dead, dead_share, width), "line_load", "uplift along the wall")
    return Step("Uplift along the wall", "max((u - c × D) × b, 0)", given, result, "statics")


def depth_to_hold_down(uplift: float, thickness: float, density: float, dead_share: float) -> float:
    """p/(c ρ g t) [m]: height of wall whose weight holds the uplift [N/m] once anchors reach under it.

    `thickness` at the top, where a tapered wall is lightest. No spread of the pull, no tension in the earth.
    """
    need_positive(thickness=thickness, density=density, dead_share=dead_share)
    need_not_negative(uplift=uplift)
    return uplift / (dead_share * density * STANDARD_GRAVITY * thickness)


def depth_to_hold_down_step(uplift: float, thickness: float, density: float, dead_share: float) -> Step:
    given = (
        Given("p", uplift, "line_load", "uplift along the wall"),
        Given("c", dead_share, "ratio", "share of dead load that counts"),
        Given("ρ", density, "density", "density"),
        GIVEN_GRAVITY,
        Given("t", thickness, "thickness", "thickness at the top"),
    )
    value = depth_to_hold_down(uplift, thickness, density, dead_share)
    return Step(
        "Wall that must hang on the anchors",
        "p / (c × ρ × g × t)",
        given,
        Given("d", value, "length", "depth"),
        "statics",
    )


def bond_beam_steps(
    line_force: float, span: float, divisor: float, modulus: float, high: float, wide: float
) -> tuple[Step, ...]:
    """The bond beam lying flat between crossing walls: moment, end force, stresses and sag as a simple span.

    `wide` [m] is its size across the wall, the direction in which it bends; `high` is upright. `divisor` as in
    `uniform_moment`: 8 unless the beam surely runs on. End force and sag are those of a simple span; a beam that
    runs over a crossing wall gives it more than the sum of two such ends: see `spans.support_reactions`.
    """
    need_positive(span=span, high=high, wide=wide)
    moment = uniform_moment_step(line_force, span, divisor, "Moment in the bond beam")
    given = (Given("w", line_force, "line_load", "force along the wall"), Given("L", span, "length", "span"))
    end = Given("V", line_force * span / 2, "force", "force into a crossing wall from one span")
    return (
        moment,
        bending_stress_step(float(moment.result.value), high, wide, "Bending stress in the bond beam"),
        Step("Force into a crossing wall from one span", "w × L / 2", given, end, "statics"),
        shear_stress_step(line_force * span / 2, high, wide, "Shear stress in the bond beam"),
        uniform_deflection_step(line_force, span, modulus, second_moment(high, wide)),
    )
