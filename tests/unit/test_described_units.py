"""What a project says of units of masonry, their tests and their walls reaches the rules, and left out is lacking."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.facts.common.fact import Fact

HEAD = """\
project: {name: Trial, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}
soils:
  S1: {name: clay, largest_stone: 1 in, largest_lump: 10 mm, soluble_salts: 1 %}
  S2: {name: sand}
mixes:
  M1: {name: block, parts: {S1: 1}, form: pressed-block, units: 9000, cement: 6 %, absorption: 2 %, moisture: 4 %,
       cracks_per_unit: 2, crack_length: 2 in, crack_width: 1 mm, dry_density: 110 pcf}
  M2: {name: cob, parts: {S1: 1}}
test_sets:
  C1: {kind: compression, mix: M1, soaked: 4 h}
  R1: {kind: rupture, mix: M1, stress_rate: 500 psi/min}
  R2: {kind: rupture, mix: M1, force_rate: 500 lbf/min}
stems:
  B1: {material: concrete, concrete_strength: 2500 psi}
  B2: {material: stone}
beams:
  T1: {material: wood, bar_diameter: 1/2 in, splice_clear: 12 in, layer_thickness: 2 in, durable: yes,
       anchors: {shear: 500 lbf}}
  T2: {material: wood}
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1, story: 2,
       solar_mass: no, gable: yes, unit_lap: 25 %, stabilised_to: 4 in, lath_fastener_spacing: 16 in,
       outside: [{material: lime, thickness: 1/2 in}, {material: lime, thickness: 1/4 in}]}
  W2: {run: {from: [0 ft, 20 ft], to: [20 ft, 20 ft]}, height: 8 ft, thickness: 16 in, outside: []}
  W3: {run: {from: [0 ft, 40 ft], to: [20 ft, 40 ft]}, height: 8 ft, thickness: 16 in, outside: [{material: clay}]}
"""
INCH, PSI = 0.0254, 6894.757293168361

SAID = (
    ("soil", "S1", {"largest_stone": INCH, "largest_lump": 0.01, "soluble_salts": 0.01}),
    ("mix", "M1", {"form": "pressed-block", "units": 9000, "cement": 0.06, "absorption": 0.02, "moisture": 0.04,
                   "cracks_per_unit": 2, "crack_length": 2 * INCH, "crack_width": 0.001,
                   "dry_density": 110 * 0.45359237 / 0.3048**3}),
    ("set", "C1", {"soaked": 14400}),
    ("set", "R1", {"stress_rate": 500 * PSI / 60}),
    ("set", "R2", {"force_rate": 500 * 4.4482216152605 / 60}),
    ("stem", "B1", {"concrete_strength": 2500 * PSI}),
    ("beam", "T1", {"bar_diameter": INCH / 2, "splice_clear": 12 * INCH, "layer_thickness": 2 * INCH, "durable": True,
                    "anchor_shear": 500 * 4.4482216152605}),
    ("wall", "W1", {"story": 2, "solar_mass": False, "gable": True, "unit_lap": 0.25, "stabilised_to": 4 * INCH,
                    "lath_fastener_spacing": 16 * INCH, "outside_finish": 0.75 * INCH}),
)  # fmt: skip
UNSAID = {"soil": "S2", "mix": "M2", "set": "C1", "stem": "B2", "beam": "T2", "wall": "W3"}
SETS = {"soaked": "R1", "stress_rate": "R2", "force_rate": "R1"}
NAMES = [(about, mark, name) for about, mark, facts in SAID for name in facts]


@pytest.fixture
def fact(project: Callable[..., Path]) -> Callable[[str, str, str], Fact]:
    facts = check_folder(project(text="", head=HEAD)).facts
    return lambda about, mark, name: facts.of(about)[mark].fact(f"{about}.{name}")


@pytest.mark.parametrize(("about", "mark", "name"), NAMES)
def test_what_is_said_is_known_and_what_is_not_is_lacking(
    fact: Callable[[str, str, str], Fact], about: str, mark: str, name: str
) -> None:
    expected = next(facts[name] for one, other, facts in SAID if (one, other) == (about, mark))
    assert fact(about, mark, name).value == (pytest.approx(expected) if isinstance(expected, float) else expected)
    unsaid = fact(about, SETS.get(name, UNSAID[about]), name)
    assert unsaid.value is None and unsaid.missing


def test_a_bare_face_has_a_finish_of_no_thickness(fact: Callable[[str, str, str], Fact]) -> None:
    assert fact("wall", "W2", "outside_finish").value == 0.0
    assert fact("wall", "W3", "outside_finish").missing == (("walls", "W3", "outside", 0, "thickness"),)
