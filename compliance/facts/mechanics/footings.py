"""Strip footings: width for the soil, pressure under an off-centre wall, plain projections, frost."""

from __future__ import annotations

import math

from compliance.facts.mechanics.gravity import GIVEN_GRAVITY, STANDARD_GRAVITY
from compliance.facts.mechanics.sections import (
    EdgeStresses,
    edge_stresses,
    need_not_negative,
    need_positive,
    within_kern,
)
from compliance.record import record
from compliance.steps import Given, Step

STATICS = "statics"


def net_bearing(allowable: float, depth: float, density: float) -> float:
    """Allowable soil pressure left for the wall once the footing's own weight is on the soil [Pa].

    Raises ValueError where the footing alone uses it up.
    """
    need_positive(allowable=allowable)
    need_not_negative(depth=depth, density=density)
    left = allowable - density * STANDARD_GRAVITY * depth
    if left <= 0:
        raise ValueError("the footing's own weight uses up the soil's allowable pressure")
    return left


def net_bearing_step(allowable: float, depth: float, density: float) -> Step:
    given = (
        Given("q_a", allowable, "pressure", "allowable soil pressure"),
        Given("ρ", density, "density", "density of the footing"),
        GIVEN_GRAVITY,
        Given("d", depth, "thickness", "depth of the footing"),
    )
    result = Given("q", net_bearing(allowable, depth, density), "pressure", "left for the wall")
    return Step("Soil pressure left for the wall", "q_a - ρ × g × d", given, result, STATICS)


def required_width(line_load: float, bearing: float) -> float:
    """Width [m] that keeps an evenly loaded soil at `bearing` [Pa] under `line_load` [N/m]."""
    need_positive(bearing=bearing)
    need_not_negative(line_load=line_load)
    return line_load / bearing


def required_width_step(line_load: float, bearing: float) -> Step:
    given = (
        Given("w", line_load, "line_load", "load at the base of the wall"),
        Given("q", bearing, "pressure", "soil pressure it may use"),
    )
    result = Given("B", required_width(line_load, bearing), "thickness", "width for the soil")
    return Step("Width for the soil", "w / q", given, result, STATICS)


def least_width(line_load: float, bearing: float, wall_thickness: float, projection: float) -> float:
    """The greater of the width for the soil and the wall with its least projection on both sides [m]."""
    need_positive(wall_thickness=wall_thickness)
    need_not_negative(projection=projection)
    return max(required_width(line_load, bearing), wall_thickness + 2 * projection)


def least_width_step(line_load: float, bearing: float, wall_thickness: float, projection: float) -> Step:
    given = (
        Given("w", line_load, "line_load", "load at the base of the wall"),
        Given("q", bearing, "pressure", "soil pressure it may use"),
        Given("t", wall_thickness, "thickness", "thickness of the wall"),
        Given("p", projection, "thickness", "least projection on each side"),
    )
    result = Given("B", least_width(line_load, bearing, wall_thickness, projection), "thickness", "least width")
    return Step("Least width of the footing", "max(w / q, t + 2 × p)", given, result, STATICS)


def soil_stresses(line_load: float, eccentricity: float, width: float) -> EdgeStresses:
    """Pressures [Pa] under a strip, `line_load` [N/m] standing `eccentricity` [m] off its middle; no tension."""
    return edge_stresses(line_load, eccentricity, width, 1.0)


def soil_stress_step(line_load: float, eccentricity: float, width: float) -> Step:
    """The greatest soil pressure, worked."""
    off = abs(eccentricity)
    given = (
        Given("n", line_load, "line_load", "load on the soil per length"),
        Given("e", off, "thickness", "off the middle of the footing"),
        Given("B", width, "thickness", "width of the footing"),
    )
    found = soil_stresses(line_load, off, width)
    result = Given("q", found.most, "pressure", "greatest soil pressure")
    if math.isinf(found.most):
        return Step("Load outside the footing: nothing balances it", "", given, result, STATICS)
    if within_kern(off, width) or line_load == 0:
        return Step("Greatest soil pressure", "n / B × (1 + 6 × e / B)", given, result, STATICS)
    says = "Greatest soil pressure, part of the footing lifts"
    return Step(says, "2 × n / (3 × (B / 2 - e))", given, result, STATICS + ", no tension")


def projection(footing_width: float, wall_thickness: float) -> float:
    """How far a footing stands out on each side of a wall over its middle [m]; below zero where it is narrower."""
    need_positive(footing_width=footing_width, wall_thickness=wall_thickness)
    return (footing_width - wall_thickness) / 2


@record
class ProjectionStresses:
    """In a plain footing's projection: tension from bending and mean shear stress [Pa]."""

    tension: float
    shear: float


def projection_stresses(pressure: float, out: float, inset: float, depth: float) -> ProjectionStresses:
    """A projection `out` [m] past the wall's face, bent up by the soil `pressure` [Pa].

    `inset` [m] is how far inside the face bending counts: a quarter of the thickness under masonry or earth, zero
    under concrete (ACI 318 strip footings, recalled). `depth` [m] is what counts on: 2 in less than built where
    cast on soil (recalled). Shear is taken at `depth` from the face.
    """
    need_positive(depth=depth)
    need_not_negative(pressure=pressure, inset=inset)
    arm = max(out, 0.0) + inset
    return ProjectionStresses(3 * pressure * arm**2 / depth**2, pressure * max(out - depth, 0.0) / depth)


def projection_steps(pressure: float, out: float, inset: float, depth: float) -> tuple[Step, ...]:
    found = projection_stresses(pressure, out, inset, depth)
    given = (
        Given("q", pressure, "pressure", "soil pressure"),
        Given("p", max(out, 0.0), "thickness", "projection past the face"),
        Given("i", inset, "thickness", "how far inside the face bending counts"),
        Given("d", depth, "thickness", "depth that counts"),
    )
    return (
        Step("Tension in the plain projection", "3 × q × (p + i)² / d²", given,
             Given("f", found.tension, "stress", "tension from bending"), "cantilever of unit width"),
        Step("Shear in the plain projection", "q × max(p - d, 0) / d", (given[0], given[1], given[3]),
             Given("v", found.shear, "stress", "shear stress"), "one-way shear at the depth from the face"),
    )  # fmt: skip


def plain_concrete_tension(strength: float, factor: float, unit_stress: float) -> float:
    """factor × √(f'c in the unit) in that unit, as [Pa]; the usual 5 goes with psi (`unit_stress` 6894.757 Pa)."""
    need_positive(strength=strength, unit_stress=unit_stress)
    return factor * unit_stress * math.sqrt(strength / unit_stress)


def depth_below_frost(bottom: float, frost: float) -> float:
    """Depth of the footing's bottom under finished ground less the frost depth [m]; below zero it is too shallow."""
    need_not_negative(bottom=bottom, frost=frost)
    return bottom - frost


def depth_below_frost_step(bottom: float, frost: float) -> Step:
    given = (
        Given("D", bottom, "length", "bottom of the footing under finished ground"),
        Given("F", frost, "length", "frost depth"),
    )
    return Step(
        "Depth below frost",
        "D - F",
        given,
        Given("m", depth_below_frost(bottom, frost), "length", "to spare"),
        "by definition",
    )
