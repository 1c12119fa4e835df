"""Earthen buildings in India: IS 13827:1993.

Every figure is recalled from memory; only the standard's identity was read. The length at which one cap takes over from
the other was computed from the recalled formulas, so it guards against change and proves no clause.
"""

from __future__ import annotations

from functools import partial

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.findings import Standing
from tests.conftest import Write
from tests.published.international import CM, HEAD, MPA, Facts, Known, cubes, findings, limits_of, rule
from tests.published.international import verdict as verdict_of

NAME = "india-is-13827-1993"
LIMITS: Known = {
    ("stories", "maximum"): (None, "open"),
    ("lintel-bearing", "minimum"): (None, "open"),
    ("height-to-thickness", "maximum"): (8, "recalled"),
    ("length-between-cross-walls", "maximum"): (10, "recalled"),
    ("length-of-a-high-wall", "factor"): (64, "recalled"),
    ("opening-width", "maximum"): (1.20, "recalled"),
    ("opening-corner-distance", "minimum"): (1.20, "recalled"),
    ("pier-between-openings", "minimum"): (1.20, "recalled"),
    ("compressive-strength", "minimum"): (1.2 * MPA, "recalled"),
    ("compressive-strength", "governs"): ("lowest", "recalled"),
    ("specimens-count", "count"): (None, "open"),
    ("specimens-count", "governs"): ("lowest", "recalled"),
    ("ribbon-too-short", "minimum"): (5 * CM, "recalled"),
    ("ribbon-of-good-soil", "shortest"): (12 * CM, "recalled"),
    ("ribbon-of-good-soil", "longest"): (15 * CM, "recalled"),
}
verdict = partial(verdict_of, NAME)


def test_every_limit_and_how_well_it_is_known() -> None:
    assert limits_of(NAME) == {
        key: (pytest.approx(value, rel=1e-12) if isinstance(value, (int, float)) else value, standing)
        for key, (value, standing) in LIMITS.items()
    }


@pytest.mark.parametrize(
    ("rule_id", "fact", "at", "inside", "outside"),
    [
        ("height-to-thickness", "wall.height_to_thickness", 8, 7.99, 8.01),
        ("opening-width", "opening.width", "1.20 m", "1.199 m", "1.201 m"),
        ("opening-corner-distance", "opening.corner_distance", "1.20 m", "1.201 m", "1.199 m"),
        ("pier-between-openings", "pier.width", "1.20 m", "1.201 m", "1.199 m"),
        ("compressive-strength", "result", "1.2 N/mm2", "1.21 N/mm2", "1.19 N/mm2"),
        ("ribbon-too-short", "soil.ribbon", "5 cm", "5.1 cm", "4.9 cm"),
        ("ribbon-of-good-soil", "soil.ribbon", "12 cm", "12.1 cm", "11.9 cm"),
        ("ribbon-of-good-soil", "soil.ribbon", "15 cm", "14.9 cm", "15.1 cm"),
    ],
)
def test_at_inside_and_outside(
    rule_id: str, fact: str, at: str | float, inside: str | float, outside: str | float
) -> None:
    for value, outcome in ((at, "meets"), (inside, "meets"), (outside, "revise")):
        facts: Facts = {
            "pier.at_end": "no", "mix.volume": "5 m3", "mix.form": "adobe", "soil.material": "clay-subsoil",
            "specimens": 5, fact: value,
        }  # fmt: skip
        assert verdict(rule_id, {key: each for key, each in facts.items() if key in wanted(rule_id)}) == outcome


def wanted(rule_id: str) -> set[str]:
    """The facts that the rule uses."""
    one = rule(NAME, rule_id)
    names = {name for formula in (one.when, one.check) if formula for name in formula.names}
    return names | ({"result", "specimens"} if one.test else set())


@pytest.mark.parametrize(
    ("zone", "share", "outcome"),
    [
        ("V", "33 %", "meets"), ("V", "33.1 %", "revise"), ("IV", "40 %", "meets"), ("IV", "40.1 %", "revise"),
        ("III", "40 %", "meets"), ("III", "39.9 %", "meets"), ("III", "40.1 %", "revise"), ("II", "1 %", "engineer"),
    ],
)  # fmt: skip
def test_openings_by_zone(zone: str, share: str, outcome: str) -> None:
    assert verdict("opening-share", {"site.seismic_zone": zone, "wall.opening_share": share}) == outcome
    table = rule(NAME, "opening-share").tables["maximum"]
    assert table.standing is Standing.RECALLED
    assert (table.rows.entries, table.cells) == (("III", "IV", "V"), ((0.4,), (0.4,), (0.33,)))


def lengths(length: float, height: float, thickness: float) -> set[str]:
    facts: Facts = {"wall.unsupported_length": f"{length:.9f} m", "wall.least_thickness": f"{thickness:.9f} m"}
    return {
        verdict("length-between-cross-walls", facts),
        verdict("length-of-a-high-wall", facts | {"wall.height": f"{height:.9f} m"}),
    }


@given(thickness=st.integers(300, 900).map(lambda mm: mm / 1000), share=st.integers(40, 80).map(lambda n: n / 10))
def test_the_caps_on_length_meet_where_the_wall_is_six_point_four_thick_high(thickness: float, share: float) -> None:
    """Computed: 64 t²/h = 10 t at h = 6.4 t; below, 10 t bounds the length, above 64 t²/h, which is 8 t at h = 8 t."""
    height = share * thickness
    longest = min(10 * thickness, 64 * thickness**2 / height)
    assert longest == pytest.approx(thickness * (10 if share <= 6.4 else 64 / share))
    assert lengths(longest * (1 - 1e-6), height, thickness) == {"meets"}
    assert "revise" in lengths(longest * (1 + 1e-6), height, thickness)


def test_figures_of_a_wall_of_400_mm() -> None:
    """Computed by hand: t 0.40 m allows 4.00 m at h 2.40 m (64 t²/h would be 4.267 m) and 3.20 m at h 3.20 m."""
    assert pytest.approx(4.2667, abs=1e-4) == 64 * 0.4**2 / 2.4
    assert lengths(4.0, 2.4, 0.4) == {"meets"}
    assert lengths(3.2, 3.2, 0.4) == {"meets"}
    assert lengths(3.21, 3.2, 0.4) == {"meets", "revise"}


HOUSE = """\
site: {seismic_zone: IV}
mixes: {M1: {name: brick, parts: {S1: 1}, form: adobe}}
test_sets: {C1: {kind: compression, mix: M1}}
wall_types: {T: {use: exterior, height: 3.0 m, thickness: 400 mm, mix: M1}}
walls:
  W1:
    type: T
    run: {from: [0 m, 0 m], to: [3.8 m, 0 m]}
    openings: {D: {kind: door, start: 1.4 m, width: 1.0 m, height: 2 m, sill: 0 m}}
  W2: {type: T, run: {from: [3.8 m, 0 m], to: [3.8 m, 3.4 m]}}
  W3: {type: T, run: {from: [3.8 m, 3.4 m], to: [0 m, 3.4 m]}}
  W4: {type: T, run: {from: [0 m, 3.4 m], to: [0 m, 0 m]}}
"""


def test_a_room_in_si(project: Write) -> None:
    """t 0.40 m, h 3.0 m: 10 t is 4.0 m, 64 t²/h is 3.413 m, so the 3.8 m walls are too long and the 3.4 m walls not."""
    files = {"lab/compression.csv": cubes([12.0, 12.5, 13.0])}
    found = findings(project(HOUSE, head=HEAD.format(rule_set=NAME), files=files))
    outcomes = {key: one.outcome.value for key, one in found.items()}
    assert outcomes["length-between-cross-walls", "W1"] == "meets"
    assert outcomes["length-of-a-high-wall", "W1"] == "revise"
    assert outcomes["length-of-a-high-wall", "W2"] == "meets"
    assert outcomes["opening-share", "W1"] == "meets"
    assert found["opening-corner-distance", "W1.D"].value.value == pytest.approx(1.2)  # type: ignore[union-attr]
    assert outcomes["opening-corner-distance", "W1.D"] == "meets"
    assert outcomes["compressive-strength", "C1"] == "meets"
    assert outcomes["specimens-count", "C1"] == "confirm"
    assert outcomes["rest-of-the-guideline", "project"] == "missing"
