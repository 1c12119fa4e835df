"""The figures of practice by which soils and trial bricks are looked at before there is a building."""

from __future__ import annotations

from compliance.facts.common.reference_values import Part
from compliance.facts.mixes.blend_target import Target
from compliance.facts.soil.fractions import CLAY, SoilError, Values
from compliance.record import record
from compliance.steps import Source


@record
class EarthPractice:
    """`target` is the mix aimed at and `clay` its share of clay, within the tolerance of the target; `silt_to_clay` the
    silt that is too much, for each part of clay. Trials go up and down by `step` parts of sand to one of soil, then by
    `straw` buckets for each bucket of soil and sand. A best brick that keeps less than `weak_below` in one piece is no
    mix to build with yet. `depth` in m and `temperature` in K are those that the times of a jar are printed for where
    none is recorded."""

    target: Target
    clay: float
    silt_to_clay: float
    step: float
    straw: tuple[float, ...]
    weak_below: float
    depth: float
    temperature: float
    source: Source

    @classmethod
    def from_values(cls, values: Values) -> EarthPractice:
        """From the values of the mix practice reference. Raises ReferenceValueError."""
        root = Part(values)
        part = root.part("before_a_building")
        target = Target.from_values(values, part.text("target"))
        clay = next((component.share for component in target.components if component.of == (CLAY,)), None)
        if clay is None:
            part.refuse("target", "must name a target with clay by itself")
        return cls(
            target=target,
            clay=clay,
            silt_to_clay=part.number("silt_to_clay"),
            step=_above_zero(part, "step"),
            straw=part.rising("straw"),
            weak_below=part.measure("weak_below", "share"),
            depth=part.measure("jar_depth", "layer_height"),
            temperature=part.measure("jar_temperature", "temperature"),
            source=part.source(),
        )


def _above_zero(part: Part, name: str) -> float:
    value = part.number(name)
    if not value > 0:
        raise SoilError(f"{part.path}.{name} must be above zero")
    return value
