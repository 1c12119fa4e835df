"""What a mix is made of: the shares that its parts blend to, and the trial it was chosen from."""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.mixes.blend_target import Material
from compliance.facts.mixes.trial_ranking import RankedTrial, Ranking, TrialComparison, compare_with_trial
from compliance.facts.mixes.weighted_mean import weighted_mean
from compliance.facts.soil.fractions import CLAY, COARSE_SAND, FINE_SAND, GRAVEL, SAND, SILT, Remark
from compliance.facts.soil.soil_record import SoilRecord
from compliance.model.materials import Mix, Soil
from compliance.model.project import Project
from compliance.record import record
from compliance.steps import Step

_SOURCE = "weighted mean of the soils"


@record
class MixRecord:
    """`shares` of the dry mix without straw, by clay, silt, sand and gravel; None where `unknown` soils have no
    shares. `weighed`: parts were turned into weights by the bulk densities; else they count by volume.

    `comparison` compares the mix with its trial, `rank` is that trial's; both None without a trial.
    """

    shares: Mapping[str, float] | None
    weighed: bool
    unknown: tuple[str, ...]
    steps: Mapping[str, tuple[Step, ...]]
    remarks: tuple[Remark, ...]
    comparison: TrialComparison | None
    rank: RankedTrial | None


def mix_record(mix: Mix, project: Project, soils: Mapping[str, SoilRecord], ranking: Ranking) -> MixRecord:
    """`soils` are the records of all soils by mark."""
    trial = project.trials.get(mix.trial) if mix.trial else None
    compared = None if trial is None else compare_with_trial(mix, trial)
    rank = None if mix.trial is None else ranking.of(mix.trial)
    unknown = tuple(mark for mark in mix.parts if mark not in soils or soils[mark].fractions() is None)
    if unknown:
        return MixRecord(None, weighed=False, unknown=unknown, steps={}, remarks=(), comparison=compared, rank=rank)
    materials = mix_materials(mix, project.soils, soils)
    weighed = all(one.by == "dry weight" and one.bulk_density is not None for one in materials)
    found = {
        name: weighted_mean(
            f"{name.capitalize()} in the mix",
            source=_SOURCE,
            name=name,
            materials=materials,
            parts=tuple(mix.parts.values()),
            held=[_share(one, name) for one in materials],
            weighed=weighed,
        )
        for name in (CLAY, SILT, SAND, GRAVEL)
    }
    shares = {name: float(one) for name, one in found.items()}
    steps = {name: one.steps() for name, one in found.items()}
    return MixRecord(
        shares,
        weighed=weighed,
        unknown=(),
        steps=steps,
        remarks=_remarks(materials, weighed),
        comparison=compared,
        rank=rank,
    )


def mix_materials(mix: Mix, soils: Mapping[str, Soil], records: Mapping[str, SoilRecord]) -> list[Material]:
    """The soils of a mix as blending takes them, in the order of its parts; every one must have its shares."""
    found = []
    for mark in mix.parts:
        record, density = records[mark], soils[mark].bulk_density
        fractions = record.fractions()
        assert fractions is not None
        basis = record.shares.basis if record.shares is not None else "dry weight"
        found.append(Material(mark, fractions, basis, None if density is None else density.si))
    return found


def _share(material: Material, name: str) -> float:
    parts = (SAND, FINE_SAND, COARSE_SAND) if name == SAND else (name,)
    return math.fsum(material.shares.get(part, 0.0) for part in parts)


def _remarks(materials: list[Material], weighed: bool) -> tuple[Remark, ...]:
    found = []
    if not weighed:
        says = (
            "The parts are counted by volume, since not every soil has its shares by dry weight and its bulk density. "
            "Shares of the mix are then a first guess."
        )
        found.append(Remark("mix-by-volume", says))
    if any(one.by == "settled depth" for one in materials):
        says = (
            "Shares from a jar count by settled depth, where clay reads too high: the mix has less clay than it says."
        )
        found.append(Remark("mix-by-jar", says))
    return tuple(found)
