"""Rammed earth in Zimbabwe: SAZS 724.

Every figure is recalled from memory, and those on openings so uncertainly that they are open; no page of the standard
was read.
"""

from __future__ import annotations

from functools import partial

import pytest

from compliance.findings import Standing
from tests.conftest import Write
from tests.published.international import HEAD, MM, MPA, Facts, Known, cubes, findings, limits_of, rule
from tests.published.international import verdict as verdict_of

NAME = "zimbabwe-saz-724"
LIMITS: Known = {
    ("form-of-earth", "form"): (["rammed-earth"], "recalled"),
    ("wall-thickness", "minimum"): (300 * MM, "recalled"),
    ("height-to-thickness", "maximum"): (12, "recalled"),
    ("opening-corner-distance", "minimum"): (None, "open"),
    ("opening-share", "maximum"): (None, "open"),
    ("compressive-strength", "governs"): ("lowest", "recalled"),
    ("specimens-count", "count"): (None, "open"),
    ("specimens-count", "governs"): ("lowest", "recalled"),
}
verdict = partial(verdict_of, NAME)


def test_every_limit_and_how_well_it_is_known() -> None:
    assert limits_of(NAME) == {
        key: (pytest.approx(value, rel=1e-12) if isinstance(value, (int, float)) else value, standing)
        for key, (value, standing) in LIMITS.items()
    }


@pytest.mark.parametrize(
    ("rule_id", "fact", "at", "inside", "outside", "otherwise"),
    [
        ("wall-thickness", "wall.least_thickness", "300 mm", "301 mm", "299 mm", "revise"),
        ("height-to-thickness", "wall.height_to_thickness", 12, 11.99, 12.01, "engineer"),
    ],
)
def test_at_inside_and_outside(
    rule_id: str, fact: str, at: str | float, inside: str | float, outside: str | float, otherwise: str
) -> None:
    for value, outcome in ((at, "meets"), (inside, "meets"), (outside, otherwise)):
        assert verdict(rule_id, {fact: value}) == outcome


def test_strength_by_stories() -> None:
    table = rule(NAME, "compressive-strength").tables["minimum"]
    assert (table.rows.entries, table.cells) == ((1, 2), ((1.5 * MPA,), (2.0 * MPA,)))
    assert table.standing is Standing.RECALLED
    for stories, least in ((1, 1.5), (2, 2.0)):
        for strength, outcome in ((least, "meets"), (least + 0.01, "meets"), (least - 0.01, "revise")):
            given: Facts = {"mix.volume": "1 m3", "project.stories": stories, "specimens": 3}
            assert verdict("compressive-strength", given | {"result": f"{strength} N/mm2"}) == outcome
    beyond: Facts = {"mix.volume": "1 m3", "project.stories": 3, "result": "20 MPa", "specimens": 3}
    assert verdict("compressive-strength", beyond) == "engineer"


HOUSE = """\
mixes: {{M1: {{name: soil, parts: {{S1: 1}}, form: {form}}}}}
test_sets: {{C1: {{kind: compression, mix: M1}}}}
walls:
  W1:
    run: {{from: [0 m, 0 m], to: [6 m, 0 m]}}
    height: 3.6 m
    thickness: 300 mm
    mix: M1
    openings:
      A: {{kind: window, start: 0.9 m, width: 1.0 m, height: 1 m, sill: 1 m}}
      B: {{kind: window, start: 4.1 m, width: 1.0 m, height: 1 m, sill: 1 m}}
  W2: {{run: {{from: [0 m, 0 m], to: [0 m, 4 m]}}, height: 3.63 m, thickness: 300 mm, mix: M1}}
"""


def test_a_wall_in_si(project: Write) -> None:
    """h/t 3.6 / 0.3 = 12; two windows of 1 m in 6 m are a third; 0.9 m less half the cross wall leaves 750 mm."""
    files = {"lab/compression.csv": cubes([15.0, 18.0])}
    found = findings(project(HOUSE.format(form="rammed-earth"), head=HEAD.format(rule_set=NAME), files=files))
    outcomes = {key: one.outcome.value for key, one in found.items()}
    assert outcomes["wall-thickness", "W1"] == outcomes["height-to-thickness", "W1"] == "meets"
    assert outcomes["height-to-thickness", "W2"] == "engineer"
    assert outcomes["opening-share", "W1"] == outcomes["opening-corner-distance", "W1.A"] == "confirm"
    assert outcomes["opening-corner-distance", "W1.B"] == "confirm"
    assert outcomes["compressive-strength", "C1"] == "meets"
    assert found["compressive-strength", "C1"].value.value == pytest.approx(1.5 * MPA)  # type: ignore[union-attr]
    assert outcomes["specimens-count", "C1"] == "confirm"


def test_cob_lies_outside_and_no_lab_rows_are_missing(project: Write) -> None:
    found = findings(project(HOUSE.format(form="cob"), head=HEAD.format(rule_set=NAME)))
    assert found["form-of-earth", "M1"].outcome.value == "engineer"
    assert found["compressive-strength", "C1"].outcome.value == "missing"
