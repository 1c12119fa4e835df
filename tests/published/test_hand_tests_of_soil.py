"""The meanings of hand tests against what is published of them.

Unified soil classification, field identification of fine-grained soils (reported, from a textbook's copy of the chart):
dry strength and reaction to shaking of inorganic silts and clays. Texture by feel, S. J. Thien, Journal of Agronomic
Education 8 (1979) 54 (reported, from extension copies): ribbons below 1 in are loams and silts, from 1 to 2 in clay
loams, above 2 in clays.
"""

from __future__ import annotations

import pytest

from compliance.facts.soil.field_tests import read_field_test
from compliance.model.soil_tests import FieldTest, FieldTestKind
from compliance.reading.reference_files.material_practice import read_material_practice

PRACTICE = read_material_practice().field_tests

SILTS = [("dry-strength", "none"), ("dry-strength", "low"), ("shaking", "rapid"), ("shaking", "slow")]
CLAYS = [("dry-strength", "high"), ("dry-strength", "very-high"), ("shaking", "none")]


def suggests(kind: FieldTestKind, reading: str) -> tuple[str, ...]:
    return read_field_test(FieldTest(kind=kind, reading=reading), PRACTICE).meaning.suggests


@pytest.mark.parametrize(("kind", "reading"), SILTS)
def test_what_the_chart_has_for_silt_never_points_to_clay(kind: FieldTestKind, reading: str) -> None:
    assert "clay" not in suggests(kind, reading)


@pytest.mark.parametrize(("kind", "reading"), CLAYS)
def test_what_the_chart_has_for_clay_points_to_clay_and_never_to_silt(kind: FieldTestKind, reading: str) -> None:
    assert suggests(kind, reading) == ("clay",)


def test_what_the_chart_has_for_both_points_to_neither() -> None:
    """Slow reaction: silts and lean clays alike; medium dry strength: lean clays and plastic silts."""
    assert suggests("shaking", "slow") == () and suggests("dry-strength", "medium") == ()


@pytest.mark.parametrize(
    ("length", "clay"),
    [("0.9 in", False), ("25.3 mm", False), ("1 in", True), ("1.9 in", True), ("2 in", True), ("60 mm", True)],
)
def test_ribbons_by_length(length: str, clay: bool) -> None:
    assert ("clay" in suggests("ribbon", length)) is clay


def test_the_ribbon_changes_its_meaning_at_one_and_two_inches() -> None:
    meanings = [
        read_field_test(FieldTest(kind="ribbon", reading=length), PRACTICE).meaning.means
        for length in ("0.99 in", "25.4 mm", "1.99 in", "50.8 mm")
    ]
    assert len(set(meanings)) == 3 and meanings[1] == meanings[2]


@pytest.mark.parametrize("kind", ["shaking", "dry-strength"])
def test_readings_of_the_chart_are_reported_not_read(kind: str) -> None:
    assert {meaning.standing.value for meaning in PRACTICE.tests[kind].words.values()} == {"reported"}
