"""Strip footings: width for the soil, pressure under an off-centre wall, plain projections, frost."""

from __future__ import annotations

import math

from compliance.facts.mechanics.sections import within_kern
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import GRAVITY, Symbol, not_negative, positive, size

STATICS = "statics"

pressure_left = equation(
    "Soil pressure left for the wall", "allowable - density * gravity * depth",
    Symbol("q", "pressure", "left for the wall"), STATICS,
    allowable=positive("q_a", "pressure", "allowable soil pressure"),
    depth=not_negative("d", "thickness", "depth of the footing"),
    density=not_negative("ρ", "density", "density of the footing"), gravity=GRAVITY,
)  # fmt: skip


def net_bearing(allowable: float, depth: float, density: float) -> Solved:
    """Allowable soil pressure left for the wall once the footing's own weight is on the soil [Pa].

    Raises ValueError where the footing alone uses it up.
    """
    left = pressure_left(allowable, depth, density)
    if left <= 0:
        raise ValueError("the footing's own weight uses up the soil's allowable pressure")
    return left


_LOAD = not_negative("w", "line_load", "load at the base of the wall")
_BEARING = positive("q", "pressure", "soil pressure it may use")

required_width = equation(
    "Width for the soil", "line_load / bearing", Symbol("B", "thickness", "width for the soil"), STATICS,
    line_load=_LOAD, bearing=_BEARING,
)  # fmt: skip


_ON_SOIL = not_negative("n", "line_load", "load on the soil per length")
_OFF = size("e", "thickness", "off the middle of the footing")
_WIDTH = positive("B", "thickness", "width of the footing")
_MOST = Symbol("q", "pressure", "greatest soil pressure")

soil_pressure = equation(
    "Greatest soil pressure", "line_load / width * (1 + 6 * off / width)", _MOST, STATICS,
    line_load=_ON_SOIL, off=_OFF, width=_WIDTH,
)  # fmt: skip

soil_pressure_lifting = equation(
    "Greatest soil pressure, part of the footing lifts", "2 * line_load / (3 * (width / 2 - off))", _MOST,
    STATICS + ", no tension", line_load=_ON_SOIL, off=_OFF, width=_WIDTH,
)  # fmt: skip


def greatest_soil_pressure(line_load: float, eccentricity: float, width: float) -> Solved:
    """[Pa] under a strip, `line_load` [N/m] standing `eccentricity` [m] off its middle; infinite where it stands
    outside the strip."""
    off = abs(eccentricity)
    if within_kern(off, width) or line_load == 0:
        return soil_pressure(line_load, off, width)
    if off < width / 2:
        return soil_pressure_lifting(line_load, off, width)
    outside = soil_pressure.titled("Load outside the footing: nothing balances it")
    return outside.without_value(math.inf, line_load, off, width)


projection = equation(
    "Projection of the footing", "(footing_width - wall_thickness) / 2", Symbol("p", "thickness"),
    "footing in the middle", footing_width=positive("B", "thickness"),
    wall_thickness=positive("t", "thickness", "thickness of what stands on it"),
)  # fmt: skip
"""On each side; below zero where the footing is narrower than the wall."""


@record
class ProjectionStresses:
    """In a plain footing's projection: tension from bending and mean shear stress [Pa]."""

    tension: Solved
    shear: Solved


_SOIL = not_negative("q", "pressure", "soil pressure")
_OUT = Symbol("p", "thickness", "projection past the face")
_DEPTH = positive("d", "thickness", "depth that counts")

tension_in_projection = equation(
    "Tension in the plain projection", "3 * pressure * (out + inset) ** 2 / depth ** 2",
    Symbol("f", "stress", "tension from bending"), "cantilever of unit width",
    pressure=_SOIL, out=_OUT, inset=not_negative("i", "thickness", "how far inside the face bending counts"),
    depth=_DEPTH,
)  # fmt: skip

shear_in_projection = equation(
    "Shear in the plain projection", "pressure * max(out - depth, 0) / depth", Symbol("v", "stress", "shear stress"),
    "one-way shear at the depth from the face", pressure=_SOIL, out=_OUT, depth=_DEPTH,
)  # fmt: skip


def projection_stresses(pressure: float, out: float, inset: float, depth: float) -> ProjectionStresses:
    """A projection `out` [m] past the wall's face, bent up by the soil `pressure` [Pa].

    `inset` [m] is how far inside the face bending counts: a quarter of the thickness under masonry or earth, zero
    under concrete (ACI 318 strip footings, recalled). `depth` [m] is what counts on: 2 in less than built where
    cast on soil (recalled). Shear is taken at `depth` from the face.
    """
    past = max(out, 0.0)
    return ProjectionStresses(
        tension_in_projection(pressure, past, inset, depth), shear_in_projection(pressure, past, depth)
    )


plain_concrete_tension = equation(
    "Allowable tension of plain concrete", "factor * unit_stress * sqrt(strength / unit_stress)",
    Symbol("F_t", "stress"), "",
    strength=positive("f'c", "stress"), factor=Symbol("k"),
    unit_stress=positive("u", "stress", "the unit the factor goes with"),
)  # fmt: skip
"""The usual factor 5 goes with psi, a unit stress of 6894.757 Pa."""


EQUATIONS = (
    pressure_left, required_width, soil_pressure, soil_pressure_lifting, projection, tension_in_projection,
    shear_in_projection, plain_concrete_tension,
)  # fmt: skip
