"""Facts of a soil: its shares, its texture, and whether it is topsoil, organic or silty."""

from __future__ import annotations

from collections.abc import Iterable

from compliance.facts.common.fact import Fact, FieldPath, known, lacking, stated, without_meaning
from compliance.facts.common.reference_values import at_least
from compliance.facts.geometry.described import field_facts
from compliance.facts.soil.field_tests import ORGANIC, SILT, FieldReading
from compliance.facts.soil.soil_record import SoilRecord
from compliance.findings import Standing, lowest
from compliance.model.materials import Soil
from compliance.steps import Given, Source, Step

_SHARES = ("clay", "silt", "sand", "fine_sand", "coarse_sand", "gravel")


def soil_facts(mark: str, soil: Soil, record: SoilRecord | None) -> dict[str, Fact]:
    """`record` holds what was tried on the soil; without one, only what is stated counts."""
    path: FieldPath = ("soils", mark)
    facts = field_facts("soil", soil, path)
    facts["soil.tested"] = known(bool(soil.field_tests or soil.jar or soil.grading))
    if record is None:
        lack = lacking((*path, "field_tests"))
        names = ("shares_from", "texture", "topsoil", "silty")
        return facts | {f"soil.{name}": lack for name in names}
    facts |= _share_facts(record, path)
    facts["soil.organic"] = _organic(soil, record, path)
    facts["soil.topsoil"] = _topsoil(soil, record, path)
    facts["soil.silty"] = _silty(record, path)
    return facts


def _share_facts(record: SoilRecord, path: FieldPath) -> dict[str, Fact]:
    shares, steps = record.shares, record.steps
    needed = tuple((*path, name) for name in ("clay", "silt", "sand"))
    if shares is None or record.origin is None:
        return {"soil.shares_from": lacking(*needed), "soil.texture": lacking(*needed)}
    facts = {
        f"soil.{name}": known(value, lambda: steps)
        for name in _SHARES[:-1]
        if (value := getattr(shares, name)) is not None
    }
    if record.gravel is not None:
        facts["soil.gravel"] = known(record.gravel, lambda: steps)
    texture = record.texture
    facts["soil.shares_from"] = known(record.origin, lambda: _notes(record))
    facts["soil.texture"] = (
        without_meaning(texture.reason)
        if texture.name is None
        else known(texture.name, lambda: (*steps, *texture.steps))
    )
    return facts


def _notes(record: SoilRecord) -> tuple[Step, ...]:
    """The remarks on the shares as lines."""
    return tuple(Step("To mind", "", (), Given("", remark.says)) for remark in record.remarks)


def reading_steps(readings: Iterable[FieldReading]) -> tuple[Step, ...]:
    """Hand tests as lines: the reading, and what it is taken to mean."""
    return tuple(
        Step(
            f"{one.title}: {one.test.reading}", formula="", given=(), result=Given("", one.meaning.means),
            source=Source(f"{one.meaning.source} ({one.meaning.standing})", one.meaning.source.is_doubtful),
        )
        for one in readings
    )  # fmt: skip


def _pointing(record: SoilRecord, to: str) -> tuple[FieldReading, ...]:
    return tuple(one for one in record.readings if to in one.meaning.suggests)


def _organic(soil: Soil, record: SoilRecord, path: FieldPath) -> Fact:
    """Yes where it is said, smelt or seen floating, whatever else is said; no only where it is said and not refuted."""
    smelt = _pointing(record, ORGANIC)
    floating = record.jar is not None and any(remark.code == "jar-floating" for remark in record.jar.remarks)
    if not smelt and not floating:
        return stated(soil.organic, *path, "organic")
    seen = (Step("A layer floats in the jar", "", (), Given("", "organic matter")),) if floating else ()
    worked = reading_steps(smelt) + seen
    return known(True, lambda: worked, lowest([one.meaning.standing for one in smelt]))


def _topsoil(soil: Soil, record: SoilRecord, path: FieldPath) -> Fact:
    """Is the soil dug from so near the surface that it is taken for topsoil?"""
    if soil.material != "clay-subsoil":
        return without_meaning("only a soil dug for its clay can be topsoil")
    if soil.depth is None:
        return lacking((*path, "depth"))
    least, practice = record.practice.topsoil_depth, record.practice
    given = (Given("d", soil.depth.si, "length", "depth dug"), Given("t", least, "length", "topsoil above"))
    shallow = not at_least(soil.depth.si, least)
    step = Step("Topsoil", formula="d < t", given=given, result=Given("", shallow), source=practice.topsoil_source)
    return known(shallow, lambda: (step,), practice.topsoil_standing)


def _silty(record: SoilRecord, path: FieldPath) -> Fact:
    """Yes where the texture class or a hand test points to silt; no where there is either and neither does."""
    practice, texture = record.practice, record.texture
    pointing = _pointing(record, SILT)
    steps = reading_steps(record.readings)
    if texture.name is not None:
        steps += (
            Step(
                "Texture class",
                formula="",
                given=(),
                result=Given("", texture.name),
                source=f"shares by {record.origin}",
            ),
        )
    if texture.name in practice.silty_classes or pointing:
        standings: list[Standing] = [one.meaning.standing for one in pointing]
        if texture.name in practice.silty_classes:
            standings.append(practice.silty_standing)
        return known(True, lambda: steps, lowest(standings))
    if texture.name is None and not any(practice.tells(one.test.kind, SILT) for one in record.readings):
        return lacking((*path, "field_tests"))
    standings = [practice.silty_standing, *(one.meaning.standing for one in record.readings)]
    return known(False, lambda: steps, lowest(standings))
