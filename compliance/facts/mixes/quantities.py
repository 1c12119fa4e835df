"""What to order for a volume of wall: buckets and weight of each material, straw and bales, water, batches.

Every figure that practice varies is an argument. Volumes are in m³, densities in kg/m³, masses in kg.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import SoilError, Values
from compliance.record import record
from compliance.steps import Given, Step

_PRACTICE = "common practice, no source"


@record
class OrderingPractice:
    """Figures of the site: waste as a share, loose volume going in for each volume of wall, bucket and straw.

    `straw_dose` is compacted buckets of straw for each bucket of loose soil and sand. `water` is the volume of mixing
    water for each loose volume; None leaves water out.
    """

    waste: float
    loose_for_wall: float
    bucket: float
    straw_dose: float
    straw_density: float
    bale_mass: float
    water: float | None = None

    def __post_init__(self) -> None:
        above = {"loose volume": self.loose_for_wall, "bucket": self.bucket, "bale": self.bale_mass}
        above["straw density"] = self.straw_density
        for name, value in above.items():
            if not (value > 0 and math.isfinite(value)):
                raise SoilError(f"the figure for the {name} must be above zero")
        for name, other in {"waste": self.waste, "straw dose": self.straw_dose, "water": self.water or 0.0}.items():
            if not (other >= 0 and math.isfinite(other)):
                raise SoilError(f"the figure for the {name} must not be below zero")

    @classmethod
    def from_values(cls, values: Values) -> OrderingPractice:
        """From the values of the mix practice reference. Raises ReferenceValueError."""
        root = Part(values)
        straw = root.part("straw")
        return cls(
            root.measure("waste", "share"),
            root.number("loose_for_wall"),
            root.measure("bucket", "vessel_volume"),
            straw.number("dose"),
            straw.measure("density_in_bucket", "density"),
            straw.measure("bale_mass", "mass"),
        )


@record
class MaterialNeed:
    """What is needed of one material: loose volume, whole buckets, and mass where its bulk density is known."""

    name: str
    volume: float
    buckets: int
    mass: float | None


@record
class Quantities:
    """What one volume of wall takes. `batches` is None where no batch size is stated, `water` where none is given."""

    loose_volume: float
    materials: tuple[MaterialNeed, ...]
    straw_volume: float
    straw_mass: float
    bales: int
    batches: int | None
    water: float | None
    steps: tuple[Step, ...]


def quantities(
    wall_volume: float,
    parts: Mapping[str, float],
    practice: OrderingPractice,
    bulk_densities: Mapping[str, float] | None = None,
    batch_buckets: float | None = None,
) -> Quantities:
    """What `wall_volume` of wall takes at `parts` by loose volume.

    `bulk_densities` are loose, by material; `batch_buckets` are the buckets of soil and sand in a batch. Buckets,
    bales and batches are rounded up. Raises SoilError for a volume below zero or parts that are all zero.
    """
    if not (wall_volume >= 0 and math.isfinite(wall_volume)):
        raise SoilError("the volume of wall must not be below zero")
    if any(not part >= 0 for part in parts.values()) or not math.fsum(parts.values()) > 0:
        raise SoilError("the mix needs parts that are not below zero and not all zero")
    if batch_buckets is not None and not batch_buckets > 0:
        raise SoilError("a batch needs more than no buckets")
    densities = bulk_densities or {}
    loose = wall_volume * practice.loose_for_wall * (1 + practice.waste)
    steps = [_loose_step(wall_volume, practice, loose)]
    needs = []
    for name, part in parts.items():
        need = _need(name, loose * part / math.fsum(parts.values()), densities.get(name), practice)
        needs.append(need)
        steps += _need_steps(need, loose, part, math.fsum(parts.values()), densities.get(name), practice)
    straw_volume = loose * practice.straw_dose
    straw_mass = straw_volume * practice.straw_density
    bales = whole_up(straw_mass / practice.bale_mass)
    steps += _straw_steps(loose, straw_volume, straw_mass, bales, practice)
    batches = None
    if batch_buckets is not None:
        batches = whole_up(loose / (batch_buckets * practice.bucket))
        steps.append(_batch_step(loose, batch_buckets, batches, practice))
    water = None if practice.water is None else loose * practice.water
    if water is not None and practice.water is not None:
        steps.append(_water_step(loose, practice.water, water))
    return Quantities(loose, tuple(needs), straw_volume, straw_mass, bales, batches, water, tuple(steps))


def whole_up(value: float) -> int:
    """The whole number at or above `value`; a value that is whole but for the last digits of a float stays."""
    nearest = round(value)
    return nearest if math.isclose(value, nearest, rel_tol=1e-9, abs_tol=1e-9) else math.ceil(value)


def _need(name: str, volume: float, density: float | None, practice: OrderingPractice) -> MaterialNeed:
    if density is not None and not (density > 0 and math.isfinite(density)):
        raise SoilError(f"the bulk density of {name} must be above zero")
    return MaterialNeed(name, volume, whole_up(volume / practice.bucket), None if density is None else volume * density)


def _loose_step(wall_volume: float, practice: OrderingPractice, loose: float) -> Step:
    given = (
        Given("V", wall_volume, "volume", "volume of wall"),
        Given("k", practice.loose_for_wall, "ratio", "loose volume for each volume of wall"),
        Given("w", practice.waste, "share", "waste"),
    )
    return Step("Loose soil and sand", "V × k × (1 + w)", given, Given("Vl", loose, "volume"), _PRACTICE)


def _need_steps(
    need: MaterialNeed, loose: float, part: float, total: float, density: float | None, practice: OrderingPractice
) -> list[Step]:
    volume = Given("v", need.volume, "volume", f"loose volume of {need.name}")
    bucket = Given("B", practice.bucket, "vessel_volume", "bucket")
    shared = (Given("Vl", loose, "volume"), Given("p", part, "ratio", "parts"), Given("P", total, "ratio", "all parts"))
    steps = [
        Step(f"Loose volume of {need.name}", "Vl × p / P", shared, volume, "parts by loose volume"),
        Step(
            f"Buckets of {need.name}, rounded up",
            "v / B",
            (volume, bucket),
            Given("", float(need.buckets), "count"),
            "by definition",
        ),
    ]
    if density is not None and need.mass is not None:
        weighed = (volume, Given("ρ", density, "density", "loose bulk density"))
        steps.append(Step(f"Weight of {need.name}", "v × ρ", weighed, Given("", need.mass, "tonnage"), "by definition"))
    return steps


def _straw_steps(
    loose: float, straw_volume: float, straw_mass: float, bales: int, practice: OrderingPractice
) -> list[Step]:
    volume = Given("Vs", straw_volume, "volume", "straw compacted in buckets")
    mass = Given("m", straw_mass, "mass", "straw")
    dose = Given("s", practice.straw_dose, "ratio", "buckets of straw for each bucket of soil and sand")
    density = Given("ρ", practice.straw_density, "density", "straw compacted in a bucket")
    bale = Given("b", practice.bale_mass, "mass", "one bale")
    return [
        Step("Straw, compacted in buckets", "Vl × s", (Given("Vl", loose, "volume"), dose), volume, _PRACTICE),
        Step("Weight of the straw", "Vs × ρ", (volume, density), mass, _PRACTICE),
        Step("Bales, rounded up", "m / b", (mass, bale), Given("", float(bales), "count"), "by definition"),
    ]


def _batch_step(loose: float, batch_buckets: float, batches: int, practice: OrderingPractice) -> Step:
    given = (
        Given("Vl", loose, "volume"),
        Given("n", batch_buckets, "ratio", "buckets of soil and sand in a batch"),
        Given("B", practice.bucket, "vessel_volume", "bucket"),
    )
    return Step("Batches, rounded up", "Vl / (n × B)", given, Given("", float(batches), "count"), "by definition")


def _water_step(loose: float, share: float, water: float) -> Step:
    given = (Given("Vl", loose, "volume"), Given("a", share, "share", "water for each loose volume"))
    return Step("Mixing water", "Vl × a", given, Given("", water, "vessel_volume"), _PRACTICE)
