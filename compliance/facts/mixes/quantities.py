"""What to order for a volume of wall: buckets and weight of each material, straw and bales, water, batches.

Every figure that practice varies is an argument. Volumes are in m³, densities in kg/m³, masses in kg.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import SoilError, Values
from compliance.model.materials import Ordering
from compliance.record import record, replace
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step

_PRACTICE = Source("common practice, no source")


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
            loose_for_wall=root.number("loose_for_wall"),
            bucket=root.measure("bucket", "vessel_volume"),
            straw_dose=straw.number("dose"),
            straw_density=straw.measure("density_in_bucket", "density"),
            bale_mass=straw.measure("bale_mass", "mass"),
        )


def stated_ordering(practice: OrderingPractice, ordering: Ordering) -> OrderingPractice:
    """The figures of practice with those that the project states in their place."""
    return replace(
        practice,
        bucket=ordering.bucket.si if ordering.bucket else practice.bucket,
        loose_for_wall=practice.loose_for_wall if ordering.loose_for_wall is None else ordering.loose_for_wall,
        waste=practice.waste if ordering.waste is None else ordering.waste.si,
        bale_mass=ordering.bale.si if ordering.bale else practice.bale_mass,
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
    loose = loose_volume(wall_volume, practice.loose_for_wall, practice.waste)
    lines: list[Solved] = [loose]
    needs = []
    total = math.fsum(parts.values())
    for name, part in parts.items():
        need, of_need = _need(name, loose=loose, part=part, total=total, density=densities.get(name), practice=practice)
        needs.append(need)
        lines += of_need
    straw = straw_volume(loose, practice.straw_dose)
    mass = straw_mass(straw, practice.straw_density)
    bales = bales_of_straw(mass, practice.bale_mass)
    lines += (straw, mass, bales)
    batches = None
    if batch_buckets is not None:
        batches = batches_of_mix(loose, batch_buckets, practice.bucket)
        lines.append(batches)
    water = None if practice.water is None else mixing_water(loose, practice.water)
    lines += () if water is None else (water,)
    return Quantities(
        float(loose),
        materials=tuple(needs),
        straw_volume=float(straw),
        straw_mass=float(mass),
        bales=int(bales),
        batches=None if batches is None else int(batches),
        water=None if water is None else float(water),
        steps=tuple(line.step() for line in lines),
    )


_LOOSE = Symbol("Vl", "volume")
_BUCKET = Symbol("B", "vessel_volume", "bucket")

loose_volume = equation(
    "Loose soil and sand", "wall * loose_for_wall * (1 + waste)", Symbol("Vl", "volume"), _PRACTICE,
    wall=Symbol("V", "volume", "volume of wall"),
    loose_for_wall=Symbol("k", "ratio", "loose volume for each volume of wall"), waste=Symbol("w", "share", "waste"),
)  # fmt: skip

volume_of_material = equation(
    "Loose volume of the material", "loose * part / total", Symbol("v", "volume"), "parts by loose volume",
    loose=_LOOSE, part=Symbol("p", "ratio", "parts"), total=Symbol("P", "ratio", "all parts"),
)  # fmt: skip

buckets_of_material = equation(
    "Buckets of the material, rounded up", "whole_up(volume / bucket)", Symbol("", "count"), "by definition",
    volume=Symbol("v", "volume"), bucket=_BUCKET,
)  # fmt: skip

weight_of_material = equation(
    "Weight of the material", "volume * density", Symbol("", "tonnage"), "by definition",
    volume=Symbol("v", "volume"), density=Symbol("ρ", "density", "loose bulk density"),
)  # fmt: skip

straw_volume = equation(
    "Straw, compacted in buckets", "loose * dose", Symbol("Vs", "volume", "straw compacted in buckets"), _PRACTICE,
    loose=_LOOSE, dose=Symbol("s", "ratio", "buckets of straw for each bucket of soil and sand"),
)  # fmt: skip

straw_mass = equation(
    "Weight of the straw", "volume * density", Symbol("m", "mass", "straw"), _PRACTICE,
    volume=Symbol("Vs", "volume", "straw compacted in buckets"),
    density=Symbol("ρ", "density", "straw compacted in a bucket"),
)  # fmt: skip

bales_of_straw = equation(
    "Bales, rounded up", "whole_up(mass / bale)", Symbol("", "count"), "by definition",
    mass=Symbol("m", "mass", "straw"), bale=Symbol("b", "mass", "one bale"),
)  # fmt: skip

batches_of_mix = equation(
    "Batches, rounded up", "whole_up(loose / (buckets * bucket))", Symbol("", "count"), "by definition",
    loose=_LOOSE, buckets=Symbol("n", "ratio", "buckets of soil and sand in a batch"), bucket=_BUCKET,
)  # fmt: skip

mixing_water = equation(
    "Mixing water", "loose * share", Symbol("", "vessel_volume"), _PRACTICE,
    loose=_LOOSE, share=Symbol("a", "share", "water for each loose volume"),
)  # fmt: skip

EQUATIONS = (
    loose_volume, volume_of_material, buckets_of_material, weight_of_material, straw_volume, straw_mass,
    bales_of_straw, batches_of_mix, mixing_water,
)  # fmt: skip


def _need(
    name: str, loose: float, part: float, total: float, density: float | None, practice: OrderingPractice
) -> tuple[MaterialNeed, tuple[Solved, ...]]:
    if density is not None and not (density > 0 and math.isfinite(density)):
        raise SoilError(f"the bulk density of {name} must be above zero")
    volume = volume_of_material.titled(f"Loose volume of {name}")(loose, part, total)
    of_name = Given("v", float(volume), "volume", f"loose volume of {name}")
    buckets = buckets_of_material.titled(f"Buckets of {name}, rounded up")(of_name, practice.bucket)
    if density is None:
        return MaterialNeed(name, float(volume), int(buckets), None), (volume, buckets)
    mass = weight_of_material.titled(f"Weight of {name}")(of_name, density)
    return MaterialNeed(name, float(volume), int(buckets), float(mass)), (volume, buckets, mass)
