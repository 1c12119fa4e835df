"""How fast a grain sinks in still water by Stokes' law, and when to mark the layers of a jar.

Stokes holds for slow fall. `reynolds_number` tells how slow: towards 0.1 mm in water the law overstates the
speed, so the true time is longer than the one given here.
"""

from __future__ import annotations

import math

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import (
    GrainSizes,
    Remark,
    SoilError,
    Values,
    duration,
    millimetres,
    percent,
    time_kind,
)
from compliance.facts.soil.water_properties import Water, WaterFormulas, water_at
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step


@record
class Settling:
    """Everything Stokes' law needs beside the grain and the depth: m/s², kg/m³ and the limits of validity."""

    gravity: float
    grain_density: float
    formulas: WaterFormulas
    reynolds_limit: float
    overstated_per_reynolds: float
    schedule_notes: tuple[str, ...]

    @classmethod
    def from_values(cls, values: Values) -> Settling:
        """From the values of the settling reference. Raises ReferenceValueError."""
        root = Part(values)
        return cls(
            root.part("gravity").measure("value", "acceleration"),
            grain_density=root.part("grain_density").measure("value", "grain_density"),
            formulas=WaterFormulas.from_values(values),
            reynolds_limit=root.part("validity").number("reynolds_limit"),
            overstated_per_reynolds=root.part("validity").number("overstated_per_reynolds"),
            schedule_notes=root.part("jar").texts("schedule_notes"),
        )


@record
class ScheduledReading:
    """When to mark the top of a layer. `time` in s; None where the water has to clear first."""

    layer: str
    size: float | None
    time: float | None
    says: str
    steps: tuple[Step, ...] = ()
    remarks: tuple[Remark, ...] = ()


@record
class Schedule:
    """The readings of one jar in order, with what the reader must know of all of them."""

    readings: tuple[ScheduledReading, ...]
    notes: tuple[str, ...]


_VISCOSITY = Symbol("η", "viscosity", "viscosity of the water")
_DEPTH = Symbol("h", "layer_height", "depth of water")
_GRAVITY = Symbol("g", "acceleration", "gravity")
_GRAIN = Symbol("ρs", "grain_density", "density of the grains")
_WATER = Symbol("ρf", "grain_density", "density of the water")
_SIZE = Symbol("d", "grain_size", "grain size")

time_to_settle = equation(
    "Time for a grain to sink the depth of water",
    "18 * viscosity * depth / (gravity * (grain - water) * size ** 2)", Symbol("t", "seconds", "settling time"),
    "Stokes 1851", viscosity=_VISCOSITY, depth=_DEPTH, gravity=_GRAVITY, grain=_GRAIN, water=_WATER, size=_SIZE,
)  # fmt: skip

reynolds_of_grain = equation(
    "Reynolds number of that grain", "water * (grain - water) * gravity * size ** 3 / (18 * viscosity ** 2)",
    Symbol("Re", "ratio", "Reynolds number"), "definition, at the Stokes speed",
    viscosity=_VISCOSITY, gravity=_GRAVITY, grain=_GRAIN, water=_WATER, size=_SIZE,
)  # fmt: skip

EQUATIONS = (time_to_settle, reynolds_of_grain)


def settling_time(size: float, depth: float, water: Water, grain_density: float, gravity: float) -> Solved:
    """Seconds in which a grain of `size` m sinks `depth` m (Stokes 1851)."""
    _refuse_unless_positive(size=size, depth=depth)
    _refuse_floating(water, grain_density)
    named = time_to_settle.titled(f"Time for a grain of {millimetres(size)} to sink the depth of water")
    given = water.viscosity, depth, gravity, grain_density, water.density, size
    return named.of_kinds(result=time_kind(named(*given)))(*given)


def settled_size(time: float, depth: float, water: Water, grain_density: float, gravity: float) -> float:
    """The smallest grain in m that sinks `depth` m within `time` s: `settling_time` solved for the size."""
    _refuse_unless_positive(time=time, depth=depth)
    return math.sqrt(settling_time(1.0, depth=depth, water=water, grain_density=grain_density, gravity=gravity) / time)


def reynolds_number(size: float, water: Water, grain_density: float, gravity: float) -> Solved:
    """Reynolds number of a grain of `size` m sinking at its Stokes speed."""
    _refuse_unless_positive(size=size)
    _refuse_floating(water, grain_density)
    return reynolds_of_grain(water.viscosity, gravity, grain_density, water.density, size)


def settling_steps(settling: Settling, size: float, depth: float, water: Water) -> tuple[Step, ...]:
    """The worked lines of one settling time: water, time, Reynolds number."""
    viscosity = Given("η", water.viscosity, "viscosity", "viscosity of the water")
    density = Given("ρf", water.density, "grain_density", "density of the water")
    warmth = () if water.temperature is None else (Given("T", water.temperature, "temperature", "water temperature"),)
    return (
        Step("Density of the water", formula="", given=warmth, result=density, source=water.density_source),
        Step("Viscosity of the water", formula="", given=warmth, result=viscosity, source=water.viscosity_source),
        settling_time(
            size, depth=depth, water=water, grain_density=settling.grain_density, gravity=settling.gravity
        ).step(),
        reynolds_number(size, water, settling.grain_density, settling.gravity).step(),
    )


def stokes_remarks(settling: Settling, size: float, water: Water) -> tuple[Remark, ...]:
    """A remark where a grain of `size` m falls too fast for Stokes' law; empty where the law holds."""
    reynolds = reynolds_number(size, water, settling.grain_density, settling.gravity)
    if reynolds <= settling.reynolds_limit:
        return ()
    excess = percent(settling.overstated_per_reynolds * reynolds)
    return (
        Remark(
            "stokes-too-fast",
            f"A grain of {millimetres(size)} falls at Reynolds number {reynolds:.2g}, above "
            f"{settling.reynolds_limit:g}: Stokes overstates its speed by about {excess}, so the true time is longer.",
        ),
    )


def reading_schedule(settling: Settling, sizes: GrainSizes, depth: float, temperature: float) -> Schedule:
    """When to mark sand, silt and clay in a jar with `depth` m of water at `temperature` K. Raises SoilError."""
    water = water_at(settling.formulas, temperature)
    last = ScheduledReading(
        "clay",
        None,
        None,
        "When the water is clear, mark the top of everything that has settled. This takes a day or more; "
        "the finest clay may need weeks.",
    )
    timed = [
        _scheduled(settling, layer=layer, size=size, depth=depth, water=water)
        for layer, size in (("sand", sizes.silt), ("silt", sizes.clay))
    ]
    return Schedule((*timed, last), settling.schedule_notes)


def _scheduled(settling: Settling, layer: str, size: float, depth: float, water: Water) -> ScheduledReading:
    time = settling_time(size, depth=depth, water=water, grain_density=settling.grain_density, gravity=settling.gravity)
    says = f"{duration(time)} after the shaking stops, mark the top of the {layer}: grains down to {millimetres(size)}."
    steps = settling_steps(settling, size, depth, water)
    return ScheduledReading(
        layer, size=size, time=time, says=says, steps=steps, remarks=stokes_remarks(settling, size, water)
    )


def _refuse_floating(water: Water, grain_density: float) -> None:
    if not grain_density > water.density:
        raise SoilError("grains that are not denser than water do not sink")


def _refuse_unless_positive(**values: float) -> None:
    for name, value in values.items():
        if not (value > 0 and math.isfinite(value)):
            raise SoilError(f"the {name} of a settling grain must be above zero")
