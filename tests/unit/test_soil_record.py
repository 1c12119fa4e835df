"""A soil's shares: a grading outranks the jar, the jar outranks what is stated; and what the flags rest on.

Plain synthetic numbers. The jar of 200 mm has its marks at 80, 120 and 160 mm; the grading is read at its own points.
"""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.soil.fractions import SoilError
from compliance.facts.soil.soil_facts import soil_facts
from compliance.facts.soil.soil_record import SoilRecord, soil_record
from compliance.findings import Standing
from compliance.model.materials import Soil
from compliance.reading.reference_files.material_practice import read_material_practice

PRACTICE = read_material_practice()
STATED = {"clay": "20 %", "silt": "30 %", "sand": "50 %"}
JAR = {
    "depth": "200 mm",
    "sand": {"height": "80 mm"},
    "silt": {"height": "120 mm"},
    "settled": {"height": "160 mm"},
}
GRADING = {
    "points": [
        {"size": "0.002 mm", "finer": "36 %"},
        {"size": "0.05 mm", "finer": "54 %"},
        {"size": "0.25 mm", "finer": "72 %"},
        {"size": "2 mm", "finer": "90 %"},
        {"size": "8 mm", "finer": "100 %"},
    ]
}


def soil(**fields: Any) -> Soil:
    return Soil.model_validate({"name": "pit"} | fields)


def record(**fields: Any) -> SoilRecord:
    return soil_record(soil(**fields), PRACTICE)


@pytest.mark.parametrize(
    ("fields", "origin", "clay"),
    [
        ({}, None, None),
        (STATED, "stated", 0.2),
        (STATED | {"jar": JAR}, "jar", 0.25),
        (STATED | {"jar": JAR, "grading": GRADING}, "grading", 0.4),
        ({"grading": GRADING}, "grading", 0.4),
        ({"clay": "20 %"}, None, None),
    ],
)
def test_which_shares_stand(fields: dict[str, Any], origin: str | None, clay: float | None) -> None:
    found = record(**fields)
    assert found.origin == origin
    assert (found.shares and found.shares.clay) == (clay and pytest.approx(clay))
    assert (found.texture.name is None) == (origin is None)


def test_what_was_outranked_is_said_with_both_numbers() -> None:
    says = {remark.code: remark.says for remark in record(**STATED, jar=JAR, grading=GRADING).remarks}
    assert "clay 20 % against 40 %" in says["stated-outranked"]
    assert "25 % against 40 %" in says["grading-outranks-jar"]


def test_a_grading_that_stops_short_gives_way_to_the_jar_and_says_why() -> None:
    short = {"points": [{"size": "0.05 mm", "finer": "54 %"}, {"size": "2 mm", "finer": "90 %"}]}
    found = record(jar=JAR, grading=short)
    assert found.origin == "jar"
    assert any(remark.code == "grading-incomplete" for remark in found.remarks)


def test_fractions_count_gravel_and_both_sands() -> None:
    found = record(grading=GRADING).fractions()
    assert found == pytest.approx({"clay": 0.36, "silt": 0.18, "fine sand": 0.18, "coarse sand": 0.18, "gravel": 0.1})
    assert record(material="gravel", gravel="100 %").fractions() == {"gravel": 1.0}
    assert record(clay="20 %").fractions() is None


@pytest.mark.parametrize(
    "fields",
    [
        {"clay": "20 %", "silt": "30 %", "sand": "48 %"},
        {"clay": "60 %", "silt": "50 %"},
        STATED | {"fine_sand": "20 %"},
        STATED | {"fine_sand": "20 %", "coarse_sand": "20 %"},
        {"jar": JAR | {"silt": {"height": "70 mm"}}},
        {"jar": JAR | {"temperature": "150 degC"}},
        {"grading": {"points": [{"size": "1 mm", "finer": "50 %"}, {"size": "2 mm", "finer": "40 %"}]}},
    ],
)
def test_shares_and_tests_that_cannot_be_are_refused(fields: dict[str, Any]) -> None:
    with pytest.raises(SoilError):
        record(**fields)


def test_shares_of_the_whole_sample_name_those_of_the_fine_earth() -> None:
    """20, 16 and 44 of what is 80 % of the whole are 25, 20 and 55 %."""
    whole = {"clay": "20 %", "silt": "16 %", "sand": "44 %"}
    with pytest.raises(SoilError, match="finer than gravel, clay: 25 %, silt: 20 %, sand: 55 %"):
        record(**whole, gravel="20 %")
    with pytest.raises(SoilError, match=r"add up to 80 %, not to 100 %$"):
        record(**whole, gravel="10 %")


def test_rounded_shares_are_scaled_to_the_whole() -> None:
    found = record(clay="33.3 %", silt="33.3 %", sand="33.3 %").shares
    assert found is not None and found.clay + found.silt + found.sand == pytest.approx(1)


def facts(**fields: Any) -> dict[str, Any]:
    one = soil(**fields)
    return {name.partition(".")[2]: fact for name, fact in soil_facts("S1", one, soil_record(one, PRACTICE)).items()}


@pytest.mark.parametrize(
    ("fields", "organic"),
    [
        ({}, None),
        ({"organic": "no"}, False),
        ({"organic": "yes"}, True),
        ({"organic": "no", "field_tests": [{"kind": "smell", "reading": "musty"}]}, True),
        ({"organic": "no", "field_tests": [{"kind": "smell", "reading": "none"}]}, False),
        ({"field_tests": [{"kind": "smell", "reading": "none"}]}, None),
        ({"organic": "no", "jar": JAR | {"floating": "2 mm"}}, True),
        ({"organic": "no", "jar": JAR | {"floating": "0 mm"}}, False),
    ],
)
def test_organic_matter_that_shows_outweighs_a_no(fields: dict[str, Any], organic: bool | None) -> None:
    """A smell of nothing proves nothing: unsaid stays lacking."""
    found = facts(**fields)["organic"]
    assert found.value is organic
    assert bool(found.missing) == (organic is None)
    if organic and fields.get("organic") == "no":
        assert found.steps


@pytest.mark.parametrize(
    ("fields", "topsoil"),
    [
        ({"depth": "12 in"}, False),
        ({"depth": "304.8 mm"}, False),
        ({"depth": "11.9 in"}, True),
        ({}, None),
    ],
)
def test_topsoil_is_what_is_dug_from_above_the_stated_depth(fields: dict[str, Any], topsoil: bool | None) -> None:
    found = facts(**fields)["topsoil"]
    assert found.value is topsoil
    assert bool(found.missing) == (topsoil is None)
    assert topsoil is None or found.standing is Standing.RECALLED


def test_bought_sand_is_no_topsoil() -> None:
    found = facts(material="sand")["topsoil"]
    assert found.value is None and found.reason and not found.missing


@pytest.mark.parametrize(
    ("fields", "silty"),
    [
        ({}, None),
        ({"field_tests": [{"kind": "smell", "reading": "none"}]}, None),
        ({"field_tests": [{"kind": "shaking", "reading": "rapid"}]}, True),
        ({"field_tests": [{"kind": "shaking", "reading": "none"}]}, False),
        ({"clay": "8 %", "silt": "82 %", "sand": "10 %"}, True),
        (STATED, False),
        (STATED | {"field_tests": [{"kind": "stain", "reading": "powdery"}]}, True),
    ],
)
def test_silt_is_told_by_texture_or_by_a_test_that_can_tell_it(fields: dict[str, Any], silty: bool | None) -> None:
    found = facts(**fields)["silty"]
    assert found.value is silty
    assert bool(found.missing) == (silty is None)


def test_the_texture_names_its_lines_and_the_shares_their_origin() -> None:
    found = facts(grading=GRADING)
    assert found["texture"].value == "clay" and found["shares_from"].value == "grading"
    assert any("clay" in step.formula for step in found["texture"].steps)
    assert found["gravel"].value == pytest.approx(0.1)
    assert found["clay"].steps and found["tested"].value is True


def test_without_records_only_what_is_stated_counts() -> None:
    found = soil_facts("S1", soil(**STATED), None)
    assert found["soil.clay"].value == pytest.approx(0.2)
    assert found["soil.topsoil"].missing and found["soil.texture"].missing
