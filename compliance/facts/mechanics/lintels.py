"""Lintels over openings: what they carry, what it does to them, and how they press on the earth at both ends.

Arching throws part of the wall's weight past the lintel. It needs dry, uncracked wall on both sides to push
against: while earth is wet, and where a pier is narrow, the lintel carries all of it. Loads set on the wall
are always counted in full.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.facts.mechanics.beams import Load, SimpleBeam, triangle, uniform
from compliance.facts.mechanics.bearing import bearing_stress
from compliance.facts.mechanics.sections import bending_stress, second_moment, shear_stress_of_rectangle
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import GRAVITY, Symbol, need_not_negative, need_positive, positive
from compliance.steps import Given, Source

PRACTICE = Source("common practice, no source")

lintel_span = equation(
    "Span between the middles of the bearings", "clear_width + bearing", Symbol("L", "length", "span"), PRACTICE,
    clear_width=positive("c", "length", "clear width"), bearing=positive("a", "length", "bearing at each end"),
)  # fmt: skip
"""From the middle of one bearing to the middle of the other."""

weight_above = equation(
    "Whole wall above the lintel", "density * gravity * thickness * height", Symbol("w", "line_load", "load"),
    "mass × gravity", height=Symbol("h", "length", "height of wall above"),
    thickness=positive("t", "thickness", "thickness"), density=positive("ρ", "density", "density"), gravity=GRAVITY,
)  # fmt: skip
weight_under_arch = weight_above.titled("Wall under the arch, greatest at midspan").sourced(PRACTICE)


@record
class WallAbove:
    """The wall over a lintel as load on it: `intensity` [N/m] even over the span, or at midspan of a triangle."""

    intensity: Solved
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
    need_positive(span=span)
    need_not_negative(height_above=height_above)
    if arching_angle is not None and not 0 < arching_angle < math.pi / 2:
        raise ValueError("the angle of the arch lies between the horizontal and the vertical")
    point = math.inf if arching_angle is None else span / 2 * math.tan(arching_angle)
    if point <= height_above:
        high = Given("h", point, "length", "height to the point of the arch")
        return WallAbove(weight_under_arch(high, thickness, density), True, point)
    return WallAbove(weight_above(height_above, thickness, density), False, height_above)


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
    return LintelForces(beam.greatest_moment, shear=beam.greatest_shear, sag=sag, left=beam.left, right=beam.right)


_EVEN = Symbol("w", "line_load", "even load")
_PEAK = Symbol("p", "line_load", "peak of the triangle")
_SPAN = positive("L", "length", "span")

lintel_moment = equation(
    "Bending moment at midspan", "even * span ** 2 / 8 + peak * span ** 2 / 12",
    Symbol("M", "moment", "bending moment"), "statics", even=_EVEN, peak=_PEAK, span=_SPAN,
)  # fmt: skip

lintel_shear = equation(
    "Force on each end, greatest shear", "even * span / 2 + peak * span / 4",
    Symbol("R", "force", "force on each end"), "statics", even=_EVEN, peak=_PEAK, span=_SPAN,
)  # fmt: skip

lintel_sag = equation(
    "Sag at midspan", "span ** 4 / (modulus * second_moment) * (5 * even / 384 + peak / 120)",
    Symbol("δ", "thickness", "sag"), "elastic bending", even=_EVEN, peak=_PEAK, span=_SPAN,
    modulus=positive("E", "stress", "modulus of elasticity"),
    second_moment=positive("I", "second_moment", "second moment of area"),
)  # fmt: skip


def lintel_lines(
    even: float, peak: float, span: float, modulus: float, width: float, depth: float,
    bearing: float, bearing_width: float, bearing_peak: float,
) -> tuple[Solved, ...]:  # fmt: skip
    """Moment, bending stress, end force, shear stress, sag and pressure on the earth at each end."""
    moment, end = lintel_moment(even, peak, span), lintel_shear(even, peak, span)
    return (
        moment,
        bending_stress(moment, width, depth),
        end,
        shear_stress_of_rectangle(end, width, depth),
        lintel_sag(even, peak, span, modulus, second_moment(width, depth)),
        bearing_stress(
            end, length=bearing, width=bearing_width, peak=bearing_peak, title="Pressure on the earth at each end"
        ),
    )


EQUATIONS = (lintel_span, weight_above, weight_under_arch, lintel_moment, lintel_shear, lintel_sag)
