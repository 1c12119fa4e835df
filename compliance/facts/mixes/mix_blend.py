"""A mix beside the mixes that practice aims for: what its parts become, what would come nearer, what it takes."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.facts.earth.batch_counts import BatchCount, batch_count
from compliance.facts.mixes.blend_target import Material, Target
from compliance.facts.mixes.blending import Blend, best_blend, best_buckets, blend_of
from compliance.facts.mixes.mix_composition import mix_materials
from compliance.facts.mixes.quantities import OrderingPractice, Quantities, quantities, stated_ordering
from compliance.facts.soil.fractions import SoilError
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.facts.soil.soil_record import SoilRecord
from compliance.model.materials import Mix
from compliance.model.project import Project
from compliance.record import record, replace


@record
class Aim:
    """One target with the mix as described, the exact parts that come nearest, and the nearest counts of buckets."""

    name: str
    target: Target
    described: Blend
    exact: Blend
    whole: Blend
    halves: Blend


@record
class MixBlend:
    """`unknown` are soils without shares: then nothing is blended. `unfit` says why targets do not fit the materials.

    `dose` is buckets of straw for each bucket of soil and sand, `dose_stated` whether the mix says so itself.
    `volume` in m³ is that of the walls of the mix; `needs` is None where there are none. `batch` is one batch in
    buckets, `ordering` the figures that quantities are counted with. `unfit_before` are those of
    `unfit` that come before the first target that fits.
    """

    mark: str
    mix: Mix
    materials: tuple[Material, ...]
    unknown: tuple[str, ...]
    aims: tuple[Aim, ...]
    unfit: tuple[str, ...]
    dose: float
    dose_stated: bool
    volume: float
    needs: Quantities | None
    batch: BatchCount
    ordering: OrderingPractice
    unfit_before: tuple[str, ...] = ()


def mix_blend(
    mark: str,
    project: Project,
    soils: Mapping[str, SoilRecord],
    practice: MaterialPractice,
    volume: float,
    targets: Mapping[str, Target],
) -> MixBlend:
    """The mix `mark` beside `targets`. `volume` is that of the walls of the mix, in m³."""
    mix = project.mixes[mark]
    unknown = tuple(soil for soil in mix.parts if soil not in soils or soils[soil].fractions() is None)
    aims: list[Aim] = []
    unfit: list[str] = []
    unfit_before: list[str] = []
    materials = () if unknown else tuple(mix_materials(mix, project.soils, soils))
    for name, target in targets.items() if materials else ():
        try:
            aims.append(_aim(name, target=target, materials=materials, mix=mix, most=practice.most_buckets))
        except SoilError as error:
            unfit.append(f"{name}: {error}")
            unfit_before += [unfit[-1]] if not aims else []
    dose, stated = _dose(mix, practice)
    ordering = replace(stated_ordering(practice.ordering, project.ordering), straw_dose=dose)
    needs = None
    if volume > 0:
        densities = {
            soil: density.si
            for soil in mix.parts
            if soil in project.soils and (density := project.soils[soil].bulk_density)
        }
        needs = quantities(volume, mix.parts, ordering, densities)
    return MixBlend(
        mark,
        mix=mix,
        materials=materials,
        unknown=unknown,
        aims=tuple(aims),
        unfit=tuple(unfit),
        dose=dose,
        dose_stated=stated,
        volume=volume,
        needs=needs,
        batch=batch_count(mix.parts, dose, practice.most_buckets),
        ordering=ordering,
        unfit_before=tuple(unfit_before),
    )


def _aim(name: str, target: Target, materials: tuple[Material, ...], mix: Mix, most: int) -> Aim:
    return Aim(
        name,
        target=target,
        described=blend_of(materials, list(mix.parts.values()), target),
        exact=best_blend(materials, target),
        whole=best_buckets(materials, target, most),
        halves=best_buckets(materials, target, most, halves=True),
    )


def _dose(mix: Mix, practice: MaterialPractice) -> tuple[float, bool]:
    if mix.straw == "none":
        return 0.0, True
    if mix.straw_parts is None:
        return practice.ordering.straw_dose, False
    return mix.straw_parts / sum(mix.parts.values()), True
