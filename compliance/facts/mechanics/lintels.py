"""Lintels over openings: what they carry, what it does to them, and how they press on the earth at both ends.

Arching throws part of the wall's weight past the lintel. It needs dry, uncracked wall on both sides to push
against: while earth is wet, and where a pier is narrow, the lintel carries all of it. Loads set on the wall
are always counted in full.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.facts.mechanics.beams import Load, SimpleBeam, triangle, uniform
from compliance.facts.mechanics.bearing import bearing_stress_step
from compliance.facts.mechanics.gravity import GIVEN_GRAVITY, STANDARD_GRAVITY
from compliance.facts.mechanics.sections import (
    bending_stress_step,
    need_not_negative,
    need_positive,
    second_moment,
    shear_stress_step,
)
from compliance.record import record
from compliance.steps import Given, Step

PRACTICE = "common practice, no source"


def lintel_span(clear_width: float, bearing: float) -> float:
    """Clear width + one bearing length [m]: from the middle of one bearing to the middle of the other."""
    need_positive(clear_width=clear_width, bearing=bearing)
    return clear_width + bearing


def lintel_span_step(clear_width: float, bearing: float) -> Step:
    given = (
        Given("c", clear_width, "length", "clear width"),
        Given("a", bearing, "length", "bearing at each end"),
    )
    result = Given("L", lintel_span(clear_width, bearing), "length", "span")
    return Step("Span between the middles of the bearings", "c + a", given, result, PRACTICE)


@record
class WallAbove:
    """The wall over a lintel as load on it: `intensity` [N/m] even over the span, or at midspan of a triangle."""

    intensity: float
    arched: bool
    height: float

    def loads(self, span: float) -> tuple[Load, ...]:
        return triangle(span, self.intensity) if self.arched else uniform(span, self.intensity)


def wall_above(
    span: float, height_above: float, thickness: float, density: float, arching_angle: float | None
) -> WallAbove:
    """Without an angle all of the wall above, `height_above` [m] high.

    With one [rad from the horizontal; 45° in practice], the triangle under the arch, where its point lies within
    the wall; a wall too low for that weighs on the lintel in full. Raises ValueError for impossible sizes or angles.
    """
    need_positive(span=span, thickness=thickness, density=density)
    need_not_negative(height_above=height_above)
    if arching_angle is not None and not 0 < arching_angle < math.pi / 2:
        raise ValueError("the angle of the arch lies between the horizontal and the vertical")
    point = math.inf if arching_angle is None else span / 2 * math.tan(arching_angle)
    arched = point <= height_above
    high = point if arched else height_above
    return WallAbove(density * STANDARD_GRAVITY * thickness * high, arched, high)


def wall_above_step(above: WallAbove, thickness: float, density: float) -> Step:
    """The intensity of that load, worked."""
    given = (
        Given("ρ", density, "density", "density"),
        GIVEN_GRAVITY,
        Given("t", thickness, "thickness", "thickness"),
        Given(
            "h", above.height, "length", "height to the point of the arch" if above.arched else "height of wall above"
        ),
    )
    says = "Wall under the arch, greatest at midspan" if above.arched else "Whole wall above the lintel"
    source = PRACTICE if above.arched else "mass × gravity"
    return Step(says, "ρ × g × t × h", given, Given("w", above.intensity, "line_load", "load"), source)


@record
class LintelForces:
    """In a lintel: greatest moment [N·m], shear [N], sag [m], and the force on each end [N]."""

    moment: float
    shear: float
    sag: float
    left: float
    right: float


def lintel_forces(span: float, loads: Sequence[Load], modulus: float, width: float, depth: float) -> LintelForces:
    """A solid rectangular lintel, simply supported. Modulus of elasticity [Pa]; sizes [m].

    Sag is elastic, at once; wood under lasting load and concrete that cracks sag more.
    """
    beam = SimpleBeam(span, loads)
    sag = beam.greatest_deflection(modulus, second_moment(width, depth))
    return LintelForces(beam.greatest_moment, beam.greatest_shear, sag, beam.left, beam.right)


def lintel_moment_step(even: float, peak: float, span: float) -> Step:
    """Moment at midspan under an even load and a triangle [N/m]: w L²/8 + p L²/12."""
    need_positive(span=span)
    given = (
        Given("w", even, "line_load", "even load"),
        Given("p", peak, "line_load", "peak of the triangle"),
        Given("L", span, "length", "span"),
    )
    result = Given("M", even * span**2 / 8 + peak * span**2 / 12, "moment", "bending moment")
    return Step("Bending moment at midspan", "w × L² / 8 + p × L² / 12", given, result, "statics")


def lintel_shear_step(even: float, peak: float, span: float) -> Step:
    """Force on each end under the same loads: w L/2 + p L/4."""
    need_positive(span=span)
    given = (
        Given("w", even, "line_load", "even load"),
        Given("p", peak, "line_load", "peak of the triangle"),
        Given("L", span, "length", "span"),
    )
    result = Given("R", even * span / 2 + peak * span / 4, "force", "force on each end")
    return Step("Force on each end, greatest shear", "w × L / 2 + p × L / 4", given, result, "statics")


def lintel_sag_step(even: float, peak: float, span: float, modulus: float, width: float, depth: float) -> Step:
    """Sag at midspan under the same loads: L⁴/(E I) × (5 w/384 + p/120)."""
    need_positive(span=span, modulus=modulus, width=width, depth=depth)
    stiff = modulus * second_moment(width, depth)
    given = (
        Given("w", even, "line_load", "even load"),
        Given("p", peak, "line_load", "peak of the triangle"),
        Given("L", span, "length", "span"),
        Given("E", modulus, "stress", "modulus of elasticity"),
        Given("I", second_moment(width, depth), "second_moment", "second moment of area"),
    )
    result = Given("δ", span**4 / stiff * (5 * even / 384 + peak / 120), "thickness", "sag")
    return Step("Sag at midspan", "L⁴ / (E × I) × (5 × w / 384 + p / 120)", given, result, "elastic bending")


def lintel_steps(
    even: float, peak: float, span: float, modulus: float, width: float, depth: float,
    bearing: float, bearing_width: float, bearing_peak: float,
) -> tuple[Step, ...]:  # fmt: skip
    """Moment, bending stress, end force, shear stress, sag and pressure on the earth at each end."""
    moment, end = lintel_moment_step(even, peak, span), lintel_shear_step(even, peak, span)
    return (
        moment,
        bending_stress_step(_number(moment), width, depth),
        end,
        shear_stress_step(_number(end), width, depth),
        lintel_sag_step(even, peak, span, modulus, width, depth),
        bearing_stress_step(_number(end), bearing, bearing_width, bearing_peak, "Pressure on the earth at each end"),
    )


def _number(step: Step) -> float:
    return float(step.result.value)
