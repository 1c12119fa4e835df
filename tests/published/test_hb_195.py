"""The Australian handbook HB 195-2002 and Bulletin 5.

Scope and contents were read on pages that show the handbook; figures are recalled from memory. Factors for the shape of
specimens: Krefeld's, as given by Morel, Pkla and Walker (2007), recalled; that HB 195 prints the same is recalled too.
"""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest

from compliance.findings import Standing
from tests.conftest import Write
from tests.published.international import GRAVITY, HEAD, MM, Entered, Facts, Known, cubes, findings, limits_of, rule
from tests.published.international import verdict as verdict_of

NAME = "hb-195-2002"
LIMITS: Known = {
    ("unbaked-earth", "forms"): (["adobe", "cob", "poured-earth", "pressed-block", "rammed-earth"], "reported"),
    ("stories", "maximum"): (2, "reported"),
    ("wall-thickness-external", "minimum"): (200 * MM, "recalled"),
    ("wall-thickness-internal", "minimum"): (125 * MM, "recalled"),
    ("slenderness-held", "maximum"): (18, "recalled"),
    ("slenderness-held", "factor"): (None, "open"),
    ("slenderness-free-top", "maximum"): (10, "recalled"),
    ("slenderness-free-top", "factor"): (None, "open"),
    ("axial-capacity", "load_factor"): (None, "open"),
    ("axial-capacity", "phi"): (None, "open"),
    ("axial-capacity", "k"): (None, "open"),
    ("axial-capacity", "strength"): (None, "open"),
    ("axial-capacity", "gravity"): (GRAVITY, "recalled"),
    ("compressive-strength", "minimum"): (None, "open"),
    ("compressive-strength", "governs"): ("lowest", "recalled"),
    ("specimens-count", "count"): (None, "open"),
    ("specimens-count", "governs"): ("lowest", "recalled"),
    ("opening-width", "maximum"): (None, "open"),
    ("opening-corner-distance", "minimum"): (None, "open"),
    ("opening-share", "maximum"): (None, "open"),
}
KREFELD = {0.0: 0.0, 0.4: 0.50, 0.7: 0.60, 1.0: 0.70, 3.0: 0.85, 5.0: 1.00}
verdict = partial(verdict_of, NAME)


def test_every_limit_and_how_well_it_is_known() -> None:
    assert limits_of(NAME) == {
        key: (pytest.approx(value, rel=1e-12) if isinstance(value, (int, float)) else value, standing)
        for key, (value, standing) in LIMITS.items()
    }


def test_shape_factors() -> None:
    """Every row, straight lines between them as numpy draws them, one at or past the last row, none below zero."""
    table = rule(NAME, "compressive-strength").tables["shape_factor"]
    assert table.standing is Standing.RECALLED
    for ratio, factor in KREFELD.items():
        assert table.look_up(ratio).value == pytest.approx(factor)
    for ratio in np.linspace(0.0, 6.0, 61):
        expected = np.interp(ratio, list(KREFELD), list(KREFELD.values()))
        assert table.look_up(float(ratio)).value == pytest.approx(float(expected))
    assert table.look_up(-0.1).outside


@pytest.mark.parametrize(("use", "least"), [("exterior", 200), ("interior", 125)])
def test_thickness(use: str, least: int) -> None:
    rule_id = "wall-thickness-external" if use == "exterior" else "wall-thickness-internal"
    for thickness, outcome in ((least, "meets"), (least + 1, "meets"), (least - 1, "revise")):
        assert verdict(rule_id, {"wall.use": use, "wall.least_thickness": f"{thickness} mm"}) == outcome


@pytest.mark.parametrize(
    ("rule_id", "top", "most"), [("slenderness-held", "bond-beam", 18), ("slenderness-free-top", "free", 10)]
)
@pytest.mark.parametrize("factor", [0.8, 1.0, 2.0])
def test_slenderness_once_its_factor_is_entered(rule_id: str, top: str, most: float, factor: float) -> None:
    """S_r = a_v × H / t with t 250 mm; without a_v the answer stays open, however stout the wall."""
    highest = most * 0.25 / factor
    for height, outcome in ((highest, "meets"), (highest - 0.001, "meets"), (highest + 0.001, "engineer")):
        facts: Facts = {"wall.top_restraint": top, "wall.height": f"{height:.9f} m", "wall.least_thickness": "250 mm"}
        assert verdict(rule_id, facts, {"factor": factor}) == outcome
        assert verdict(rule_id, facts) == "confirm"


def test_capacity_once_its_figures_are_entered() -> None:
    """F_d <= k × φ × f'm × A per metre of wall: 0.6 × 0.5 × 0.5 MPa × 0.4 m = 60 kN/m, divided by a load factor of
    1.5, less the weight of 2.5 m of wall at 1800 kg/m3."""
    entered: Entered = {
        "load_factor": 1.5,
        "phi": 0.5,
        "k": 0.6,
        "strength": "0.5 MPa",
    }
    most = 60e3 / 1.5 - 1800 * GRAVITY * 2.5 * 0.4
    for load, outcome in ((most, "meets"), (most - 1, "meets"), (most + 1, "engineer")):
        facts: Facts = {
            "wall.bears_load": "yes", "wall.line_load": f"{load:.6f} N/m", "wall.least_thickness": "400 mm",
            "mix.dry_density": "1800 kg/m3", "wall.height": "2.5 m", "wall.opening_share": "0 %",
        }  # fmt: skip
        assert verdict("axial-capacity", facts, entered) == outcome
        assert verdict("axial-capacity", facts) == "confirm"


@pytest.mark.parametrize(
    ("form", "outcome"), [("cob", "meets"), ("adobe", "meets"), ("fired-adobe", "engineer"), ("cut-sod", "engineer")]
)
def test_unbaked_earth(form: str, outcome: str) -> None:
    assert verdict("unbaked-earth", {"mix.volume": "1 m3", "mix.form": form}) == outcome


@pytest.mark.parametrize(("stories", "outcome"), [(1, "meets"), (2, "meets"), (3, "engineer")])
def test_stories(stories: int, outcome: str) -> None:
    assert verdict("stories", {"project.stories": stories}) == outcome


HOUSE = """\
mixes: {M1: {name: cob, parts: {S1: 1}, form: cob}}
test_sets: {C1: {kind: compression, mix: M1}}
wall_types: {T: {height: 2.6 m, mix: M1}}
walls:
  W1: {type: T, run: {from: [0 m, 0 m], to: [5 m, 0 m]}, thickness: 200 mm, use: exterior, top_restraint: free}
  W2: {type: T, run: {from: [5 m, 0 m], to: [5 m, 4 m]}, thickness: 124 mm, use: interior, top_restraint: roof}
"""


def test_a_house_in_si(project: Write) -> None:
    files = {"lab/compression.csv": cubes([9.0, 11.0])}
    found = findings(project(HOUSE, head=HEAD.format(rule_set=NAME), files=files))
    outcomes = {key: one.outcome.value for key, one in found.items()}
    assert outcomes["unbaked-earth", "M1"] == outcomes["stories", "project"] == "meets"
    assert outcomes["wall-thickness-external", "W1"] == "meets"
    assert outcomes["wall-thickness-internal", "W2"] == "revise"
    assert outcomes["slenderness-free-top", "W1"] == outcomes["slenderness-held", "W2"] == "confirm"
    assert outcomes["slenderness-held", "W1"] == outcomes["slenderness-free-top", "W2"] == "not-applicable"
    assert outcomes["compressive-strength", "C1"] == "confirm"
    assert outcomes["rest-of-the-handbook", "project"] == "missing"


def test_footings_go_by_those_of_masonry() -> None:
    """ABCB Housing Provisions 2022, 4.2.17 and its Table 4.2.17c, read in a public copy: load-bearing earth walls take
    footings sized as for articulated full masonry. No size of its own, so a person says so."""
    found = rule(NAME, "footing-as-masonry")
    assert found.standing is Standing.READ and "4.2.17" in found.source
    outcomes = [verdict("footing-as-masonry", {"answer": answer}) for answer in ("yes", "no")]
    assert outcomes == ["meets", "engineer"]
