"""What a wall resists with eccentricity and buckling, worked by hand in metres by the form of EN 1996-1-1, 6.1.2.2 and
Annex G (recalled), and put beside the facts.

A wall 16 in (0.4064 m) thick of 100 psi (689 476 Pa), the load stated 300 plf. E/f = 300, so the curve is 0.063, 0.73
and 1.17 times √300 = 17.3205: 1.09119, 12.6440, 20.2650. Design strength 689 476 / (3.0 × 1.5) = 153 217 Pa.

- 8 ft high, load 3 in off: out of true 2.4384 / 450 = 5.4187 mm. End 76.2 + 5.4187 = 81.619 mm, Φ = 1 − 2 × 0.200833 =
  0.598333. Mid-height 38.1 + 5.4187 = 43.519 mm, creep 0.002 × 2 × 6 × √(406.4 × 43.519) = 3.1917 mm;
  u = (6 − 1.09119) / (12.6440 − 20.2650 × 0.114937) = 0.475901, Φ = 0.770126 × exp(−u² / 2) = 0.68767. The end governs:
  0.598333 × 0.4064 × 153 217 = 37 257 N/m.
- 16 ft high, load 1 in off: out of true 10.8373 mm. End 36.237 mm, Φ = 0.82167. Mid-height 12.7 + 10.8373 = 23.537 mm,
  creep 0.048 × √(406.4 × 23.537) = 4.6946 mm; u = (12 − 1.09119) / (12.6440 − 20.2650 × 0.0694682) = 0.970864,
  Φ = 0.861064 × exp(−u² / 2) = 0.53747. Mid-height governs: 0.53747 × 0.4064 × 153 217 = 33 467 N/m.
- 16 ft high, load in the middle: at once the least, 0.05 × 406.4 = 20.32 mm, creep 0.048 × √(406.4 × 20.32) =
  4.3619 mm; u = 10.90881 / (12.6440 − 20.2650 × 0.0607331) = 0.955821,
  Φ = 0.878534 × exp(−u² / 2) = 0.55637: 34 644 N/m.
"""

from __future__ import annotations

import copy
from typing import Any

import pytest

from compliance.facts.derive import derive
from compliance.facts.geometry.subjects import Facts
from compliance.facts.site.action_tables import ACTION_REFERENCES, ActionTables
from compliance.model.project import Project
from compliance.reading.reference_files.support_rules import read_reference, read_support_rules
from tests.recomputing import recomputed
from tests.unit.structural_houses import TESTED, WALL, described, facts_of, number, run

ROUNDED = 1e-4


def wall(height: str, off: str) -> Project:
    wall = {**WALL, "run": run(0, 0, 20, 0), "height": height, "line_load": "300 plf", "load_eccentricity": off}
    return described({"W1": wall | {"beam": None, "top_restraint": "roof"}})


def eccentric(height: str, off: str) -> Facts:
    return facts_of(wall(height, off))


@pytest.mark.parametrize(
    ("height", "off", "by_hand"),
    [("8 ft", "3 in", 37_257), ("16 ft", "1 in", 33_467), ("16 ft", "0 in", 34_644)],
)
def test_eccentric_resistance(height: str, off: str, by_hand: float) -> None:
    assert number(eccentric(height, off), "wall.eccentric_resistance") == pytest.approx(by_hand, rel=ROUNDED)


def test_the_lines_of_the_resistance_are_those_by_hand() -> None:
    """The wall 8 ft high with its load 3 in off (above): mm and shares as worked there."""
    fact = eccentric("8 ft", "3 in").of("wall")["W1"].fact("wall.eccentric_resistance")
    found = {step.result.symbol: float(step.result.value) for step in fact.steps if step.formula}
    by_hand = {
        "e_init": 5.4187e-3, "e_i": 81.619e-3, "Φ_i": 0.598333, "e_m": 43.519e-3, "e_k": 3.1917e-3, "u": 0.475901,
        "Φ_m": 0.68767, "f_d": 153_217, "N_Rd": 37_257,
    }  # fmt: skip
    assert {name: found[name] for name in by_hand} == pytest.approx(by_hand, rel=ROUNDED)
    for step in fact.steps:
        if step.formula:
            assert recomputed(step) == pytest.approx(step.result.value), step.says


def test_a_resultant_outside_the_wall_has_no_resistance_and_says_so() -> None:
    """24 in off a wall of 16 in: half of it is left at mid-height, 12 in and more, past the face at 8 in."""
    fact = eccentric("8 ft", "24 in").of("wall")["W1"].fact("wall.eccentric_resistance")
    assert fact.value == 0
    assert "Resultant outside the wall at mid-height" in [step.says for step in fact.steps]


def test_an_eccentricity_that_a_buckling_curve_does_not_reach_has_no_resistance_and_says_so() -> None:
    """With the slope put at 8 the curve ends at e/t = 0.73 / 8 = 0.091, short of the 46.71 / 406.4 = 0.115 above."""
    values: dict[str, Any] = {name: read_reference(name)["values"] for name in ACTION_REFERENCES}
    values["screening"] = copy.deepcopy(values["screening"])
    values["screening"]["coefficients"]["bend_slope"]["value"] = 8
    tables = ActionTables.from_values(values, "us")
    about = derive(wall("8 ft", "3 in"), TESTED, read_support_rules(), tables=lambda: tables).of("wall")["W1"]
    fact = about.fact("wall.eccentric_resistance")
    assert fact.value == 0
    beyond = next(step for step in fact.steps if step.says == "Eccentricity beyond the reach of the buckling curve")
    assert (beyond.result.symbol, beyond.result.value) == ("Φ_m", 0)
