"""Whether a soil can be used in a wall, what it lacks and has too much of, and how much sand it takes."""

from __future__ import annotations

from typing import Literal

from compliance.facts.common.fact import Fact
from compliance.facts.common.reference_values import at_least, at_most
from compliance.facts.earth.earth_practice import EarthPractice
from compliance.facts.geometry.subjects import Subject
from compliance.facts.mixes.blend_target import Material
from compliance.facts.mixes.blending import best_blend
from compliance.facts.soil.fractions import SAND, Basis, SoilShares
from compliance.facts.soil.soil_record import SoilRecord
from compliance.model.materials import Soil
from compliance.record import record

Verdict = Literal["usable", "doubtful", "unusable", "not known", "aggregate"]
Fault = Literal["organic", "topsoil", "silt", "clay"]
Unknown = Literal["shares", "organic", "depth"]


@record
class SoilUse:
    """`sand_to_add` is parts of clean sand to one of the soil that come nearest to the mix aimed at; None where the
    shares are not known, the soil lacks clay, or no sand helps. Nothing is usable of which something is not known."""

    mark: str
    verdict: Verdict
    faults: tuple[Fault, ...]
    unknown: tuple[Unknown, ...]
    shares: SoilShares | None
    origin: str | None
    sand_to_add: float | None


def soil_use(mark: str, soil: Soil, subject: Subject, found: SoilRecord, practice: EarthPractice) -> SoilUse:
    """By the tests of the soil and by practice, no rule of a code. `subject` holds the facts of the soil."""
    organic, topsoil, silty = (_yes_no(subject.facts.get(f"soil.{name}")) for name in ("organic", "topsoil", "silty"))
    shares, faults, unknown = found.shares, list[Fault](), list[Unknown]()
    if organic:
        faults.append("organic")
    if organic is None:
        unknown.append("organic")
    if soil.material != "clay-subsoil":
        return SoilUse(
            mark,
            verdict="unusable" if organic else "aggregate",
            faults=tuple(faults),
            unknown=(),
            shares=shares,
            origin=found.origin,
            sand_to_add=None,
        )
    if topsoil:
        faults.append("topsoil")
    if topsoil is None:
        unknown.append("depth")
    if silty or (shares is not None and not at_most(shares.silt, practice.silt_to_clay * shares.clay)):
        faults.append("silt")
    if shares is None:
        unknown.append("shares")
    elif not at_least(shares.clay, practice.clay - practice.target.tolerance):
        faults.append("clay")
    return SoilUse(
        mark,
        verdict=_verdict(faults, unknown),
        faults=tuple(faults),
        unknown=tuple(unknown),
        shares=shares,
        origin=found.origin,
        sand_to_add=None if "clay" in faults else _sand_to_add(found, practice),
    )


def _sand_to_add(found: SoilRecord, practice: EarthPractice) -> float | None:
    """Parts of clean sand to one of the soil: a first guess for trial bricks, so that shares by weight are taken as
    they stand where the target is by volume."""
    fractions = found.fractions()
    if found.shares is None or fractions is None:
        return None
    basis: Basis = "settled depth" if practice.target.by == "volume" else "dry weight"
    own, sand = Material("soil", fractions, basis), Material("sand", {SAND: 1.0}, basis)
    nearest = best_blend([own, sand], practice.target).parts
    return nearest["sand"] / nearest["soil"] if nearest["sand"] > 0 and nearest["soil"] > 0 else None


def _yes_no(fact: Fact | None) -> bool | None:
    """None where it is not known."""
    return fact.value if fact is not None and isinstance(fact.value, bool) else None


def _verdict(faults: list[Fault], unknown: list[Unknown]) -> Verdict:
    if "organic" in faults or "topsoil" in faults:
        return "unusable"
    if faults:
        return "doubtful"
    return "not known" if unknown else "usable"
