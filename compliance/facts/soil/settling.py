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
            root.part("grain_density").measure("value", "grain_density"),
            WaterFormulas.from_values(values),
            root.part("validity").number("reynolds_limit"),
            root.part("validity").number("overstated_per_reynolds"),
            root.part("jar").texts("schedule_notes"),
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


def settling_time(size: float, depth: float, water: Water, grain_density: float, gravity: float) -> float:
    """Seconds in which a grain of `size` m sinks `depth` m: 18 η h / (g (ρs − ρf) d²) (Stokes 1851)."""
    _refuse_unless_positive(size=size, depth=depth)
    return 18 * water.viscosity * depth / (gravity * _buoyant(water, grain_density) * size**2)


def settled_size(time: float, depth: float, water: Water, grain_density: float, gravity: float) -> float:
    """The smallest grain in m that sinks `depth` m within `time` s: `settling_time` solved for the size."""
    _refuse_unless_positive(time=time, depth=depth)
    return math.sqrt(18 * water.viscosity * depth / (gravity * _buoyant(water, grain_density) * time))


def reynolds_number(size: float, water: Water, grain_density: float, gravity: float) -> float:
    """Reynolds number of a grain of `size` m sinking at its Stokes speed: ρf (ρs − ρf) g d³ / (18 η²)."""
    _refuse_unless_positive(size=size)
    return water.density * _buoyant(water, grain_density) * gravity * size**3 / (18 * water.viscosity**2)


def settling_steps(settling: Settling, size: float, depth: float, water: Water) -> tuple[Step, ...]:
    """The worked lines of one settling time: water, time, Reynolds number."""
    time = settling_time(size, depth, water, settling.grain_density, settling.gravity)
    reynolds = reynolds_number(size, water, settling.grain_density, settling.gravity)
    viscosity = Given("η", water.viscosity, "viscosity", "viscosity of the water")
    density = Given("ρf", water.density, "grain_density", "density of the water")
    grain = Given("ρs", settling.grain_density, "grain_density", "density of the grains")
    gravity = Given("g", settling.gravity, "acceleration", "gravity")
    diameter = Given("d", size, "grain_size", "grain size")
    warmth = () if water.temperature is None else (Given("T", water.temperature, "temperature", "water temperature"),)
    return (
        Step("Density of the water", "", warmth, density, water.density_source),
        Step("Viscosity of the water", "", warmth, viscosity, water.viscosity_source),
        Step(
            f"Time for a grain of {millimetres(size)} to sink the depth of water",
            "18 × η × h / (g × (ρs − ρf) × d²)",
            (viscosity, Given("h", depth, "layer_height", "depth of water"), gravity, grain, density, diameter),
            Given("t", time, time_kind(time), "settling time"),
            "Stokes 1851",
        ),
        Step(
            "Reynolds number of that grain",
            "ρf × (ρs − ρf) × g × d³ / (18 × η²)",
            (density, grain, gravity, diameter, viscosity),
            Given("Re", reynolds, "ratio", "Reynolds number"),
            "definition, at the Stokes speed",
        ),
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
        _scheduled(settling, layer, size, depth, water) for layer, size in (("sand", sizes.silt), ("silt", sizes.clay))
    ]
    return Schedule((*timed, last), settling.schedule_notes)


def _scheduled(settling: Settling, layer: str, size: float, depth: float, water: Water) -> ScheduledReading:
    time = settling_time(size, depth, water, settling.grain_density, settling.gravity)
    says = f"{duration(time)} after the shaking stops, mark the top of the {layer}: grains down to {millimetres(size)}."
    steps = settling_steps(settling, size, depth, water)
    return ScheduledReading(layer, size, time, says, steps, stokes_remarks(settling, size, water))


def _buoyant(water: Water, grain_density: float) -> float:
    if not grain_density > water.density:
        raise SoilError("grains that are not denser than water do not sink")
    return grain_density - water.density


def _refuse_unless_positive(**values: float) -> None:
    for name, value in values.items():
        if not (value > 0 and math.isfinite(value)):
            raise SoilError(f"the {name} of a settling grain must be above zero")
