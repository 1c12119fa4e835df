"""What is known of one soil from all that was tried on it: shares, texture, hand tests, and what to mind.

A laboratory's grading outranks the jar, the jar outranks shares that are merely stated.
"""

from __future__ import annotations

import math
from typing import Literal

from compliance.facts.soil.field_tests import FieldReading, FieldTestPractice, read_field_test
from compliance.facts.soil.fractions import GRAVEL, Remark, SoilError, SoilShares, percent
from compliance.facts.soil.grading import Graded, GradingPoint, chosen_shares, graded_shares
from compliance.facts.soil.jar_test import Jar, JarResult, LayerMark, read_jar
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.facts.soil.texture import Texture, texture_class
from compliance.model.materials import Soil
from compliance.model.soil_tests import JarRecord, LayerReading
from compliance.record import record
from compliance.steps import Given, Step
from compliance.units import Measure

Origin = Literal["grading", "jar", "stated"]
_STATED = "as stated in the project"


@record
class SoilRecord:
    """`origin` says where `shares` come from; both None where nothing gives all three. `practice` is that of the
    field tests. `gravel` is the share of the whole that is coarser, where known."""

    shares: SoilShares | None
    origin: Origin | None
    steps: tuple[Step, ...]
    remarks: tuple[Remark, ...]
    jar: JarResult | None
    graded: Graded | None
    texture: Texture
    readings: tuple[FieldReading, ...]
    gravel: float | None
    practice: FieldTestPractice

    def fractions(self) -> dict[str, float] | None:
        """Shares of the whole soil by name, gravel among them, as blending takes them; None where not known."""
        if self.shares is None:
            return {GRAVEL: 1.0} if self.gravel == 1 else None
        coarser = self.gravel or 0.0
        fine = {name: share * (1 - coarser) for name, share in self.shares.fractions().items()}
        return fine | ({GRAVEL: coarser} if coarser else {})


def soil_record(soil: Soil, practice: MaterialPractice) -> SoilRecord:
    """Everything that follows from the tests of `soil`. Raises SoilError where one of them makes no sense."""
    jar = None if soil.jar is None else read_jar(_jar(soil.jar), practice.settling, practice.sizes, practice.jar)
    graded = None
    if soil.grading is not None:
        points = [GradingPoint(point.size.si, point.finer.si) for point in soil.grading.points]
        graded = graded_shares(points, practice.sizes)
    stated = stated_shares(soil, practice)
    chosen = chosen_shares(graded, jar)
    shares, steps, remarks = chosen.shares, chosen.steps, chosen.remarks
    origin: Origin | None = None if shares is None else "grading" if graded and graded.shares else "jar"
    if shares is None and stated is not None:
        shares, origin, steps = stated, "stated", _stated_steps(stated)
    elif shares is not None and origin is not None:
        remarks += _stated_beside(soil, shares, origin)
    texture = Texture(None, reason="the shares of clay, silt and sand are not known")
    if shares is not None:
        texture = texture_class(practice.texture, shares)
    readings = tuple(read_field_test(test, practice.field_tests) for test in soil.field_tests)
    gravel = shares.gravel if shares is not None and shares.gravel is not None else _si(soil.gravel)
    return SoilRecord(
        shares,
        origin=origin,
        steps=steps,
        remarks=remarks,
        jar=jar,
        graded=graded,
        texture=texture,
        readings=readings,
        gravel=gravel,
        practice=practice.field_tests,
    )


def _si(measure: Measure | None) -> float | None:
    return None if measure is None else measure.si


def _jar(record: JarRecord) -> Jar:
    def mark(reading: LayerReading) -> LayerMark:
        return LayerMark(reading.height.si, _si(reading.time))

    return Jar(
        _si(record.depth),
        sand=mark(record.sand),
        silt=mark(record.silt),
        settled=mark(record.top),
        temperature=_si(record.temperature),
        coarse_sand=_si(record.coarse_sand),
        floating=_si(record.floating),
        clear=record.clear,
        dispersed=record.dispersed,
    )


def stated_shares(soil: Soil, practice: MaterialPractice) -> SoilShares | None:
    """The stated shares, scaled to 100 %; None unless clay, silt and sand are all stated.

    Raises SoilError where they miss 100 % by more than rounding, or the two sands miss the sand.
    """
    clay, silt, sand = _si(soil.clay), _si(soil.silt), _si(soil.sand)
    fine, coarse = _si(soil.fine_sand), _si(soil.coarse_sand)
    slack = practice.lab.shares_sum * (1 + 1e-9)
    if (fine is None) != (coarse is None):
        raise SoilError("only one of fine_sand and coarse_sand is stated: state both or neither")
    if fine is not None and coarse is not None:
        if sand is not None and not math.isclose(fine + coarse, sand, abs_tol=slack):
            raise SoilError(f"fine and coarse sand add up to {percent(fine + coarse)}, but sand is {percent(sand)}")
        sand = fine + coarse
    known = [share for share in (clay, silt, sand) if share is not None]
    total = math.fsum(known)
    if total > 1 + slack or (len(known) == 3 and total < 1 - slack):
        raise SoilError(
            f"clay, silt and sand add up to {percent(total)}, not to 100 %{_of_the_whole(soil, total, slack)}"
        )
    if clay is None or silt is None or sand is None:
        return None
    return SoilShares(
        clay / total,
        silt=silt / total,
        sand=1 - (clay + silt) / total,
        sizes=practice.sizes.system,
        basis="dry weight",
        fine_sand=None if fine is None else fine / total,
        coarse_sand=None if coarse is None else coarse / total,
        gravel=_si(soil.gravel),
    )


def _of_the_whole(soil: Soil, total: float, slack: float) -> str:
    """The cure where the gravel makes up what lacks: the shares are of the whole sample."""
    gravel = _si(soil.gravel) or 0.0
    if not (soil.clay and soil.silt and soil.sand and gravel > 0 and math.isclose(total + gravel, 1.0, abs_tol=slack)):
        return ""
    fine = ", ".join(
        f"{name}: {percent(share.si / total)}"
        for name, share in (("clay", soil.clay), ("silt", soil.silt), ("sand", soil.sand))
    )
    return (
        f"; with the gravel of {percent(gravel)} they do, so they are shares of the whole sample: write those of what "
        f"is finer than gravel, {fine}"
    )


def _stated_steps(shares: SoilShares) -> tuple[Step, ...]:
    named = {"clay": shares.clay, "silt": shares.silt, "sand": shares.sand}
    return tuple(
        Step(name.capitalize(), formula="", given=(), result=Given("", share, "share"), source=_STATED)
        for name, share in named.items()
    )


def _stated_beside(soil: Soil, shares: SoilShares, origin: Origin) -> tuple[Remark, ...]:
    """What the user stated and a test does not bear out, in whole percents."""
    apart = [
        f"{name} {percent(wording)} against {percent(found)}"
        for name, wording, found in (
            ("clay", _si(soil.clay), shares.clay),
            ("silt", _si(soil.silt), shares.silt),
            ("sand", _si(soil.sand), shares.sand),
        )
        if wording is not None and round(100 * wording) != round(100 * found)
    ]
    if not apart:
        return ()
    by = "laboratory grading" if origin == "grading" else "jar"
    return (Remark("stated-outranked", f"The {by} outranks the stated shares: {', '.join(apart)}."),)
