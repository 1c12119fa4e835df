"""Hand tests of a soil: what a reading is taken to mean comes from data, and what is no reading is refused."""

from __future__ import annotations

from typing import get_args

import pytest

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.facts.soil.field_tests import FieldTestPractice, read_field_test
from compliance.facts.soil.fractions import SoilError
from compliance.findings import Standing
from compliance.model.soil_tests import FieldTest, FieldTestKind
from compliance.reading.reference_files.material_practice import read_material_practice

PRACTICE = read_material_practice().field_tests
SMALL = {
    "note": "n",
    "tests": {
        "roll": {
            "title": "Roll", "how": "roll it",
            "words": {"none": {"means": "no roll", "suggests": ["sand"], "source": "s", "standing": "recalled"}},
            "ranges": [
                {"means": "short", "suggests": [], "source": "s", "standing": "recalled"},
                {"from": "50 mm", "means": "long", "suggests": ["clay"], "source": "s", "standing": "reported"},
            ],
        }
    },
    "topsoil": {"shallower_than": "300 mm", "source": "s", "standing": "recalled"},
    "silty": {"classes": ["silt"], "source": "s", "standing": "recalled"},
}  # fmt: skip


def test_every_kind_of_hand_test_is_in_the_reference_and_says_how_well_it_is_known() -> None:
    assert set(PRACTICE.tests) == set(get_args(FieldTestKind))
    for hand in PRACTICE.tests.values():
        assert hand.title and hand.how and (hand.words or hand.ranges)
        for meaning in (*hand.words.values(), *hand.ranges):
            assert meaning.means and meaning.source and isinstance(meaning.standing, Standing)
    assert "not proof" in PRACTICE.note


@pytest.mark.parametrize(
    ("reading", "means", "suggests"),
    [
        ("none", "no roll", ("sand",)),
        ("49.9 mm", "short", ()),
        ("50 mm", "long", ("clay",)),
        ("5 cm", "long", ("clay",)),
        ("2 in", "long", ("clay",)),
        ("1 15/16 in", "short", ()),
        ("0 mm", "short", ()),
    ],
)
def test_a_length_falls_into_the_range_it_reaches(reading: str, means: str, suggests: tuple[str, ...]) -> None:
    found = read_field_test(FieldTest(kind="roll", reading=reading), FieldTestPractice.from_values(SMALL))
    assert (found.meaning.means, found.meaning.suggests) == (means, suggests)


@pytest.mark.parametrize(
    ("kind", "reading", "said"),
    [
        ("shaking", "fast", "none, slow, rapid"),
        ("smell", "3 in", "none, musty"),
        ("ribbon", "3", "3 in"),
        ("ribbon", "long", "none"),
        ("ribbon", "3 psi", "not a thickness"),
    ],
)
def test_what_is_no_reading_is_refused_with_what_to_write(kind: FieldTestKind, reading: str, said: str) -> None:
    with pytest.raises(SoilError, match=said):
        read_field_test(FieldTest(kind=kind, reading=reading), PRACTICE)


@pytest.mark.parametrize("change", [{"from": "60 mm"}, {"suggests": ["loam"]}, {"standing": "sure"}])
def test_a_reference_that_makes_no_sense_is_refused(change: dict[str, object]) -> None:
    first, second = SMALL["tests"]["roll"]["ranges"]  # type: ignore[index]
    roll = SMALL["tests"]["roll"] | {"ranges": [first | change, second]}  # type: ignore[index]
    with pytest.raises(ReferenceValueError):
        FieldTestPractice.from_values(SMALL | {"tests": {"roll": roll}})


@pytest.mark.parametrize(
    ("kind", "point", "tells"), [("shaking", "silt", True), ("smell", "silt", False), ("smell", "organic", True)]
)
def test_which_tests_can_tell_what(kind: str, point: str, tells: bool) -> None:
    assert PRACTICE.tells(kind, point) is tells
