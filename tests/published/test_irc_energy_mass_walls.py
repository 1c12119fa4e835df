"""Figures of the rule set on mass walls: IRC 2021 (IECC 2021), N1102.1.2 and its table, N1102.1.3 and its table,
N1102.2.5, read in a third party's copy of the code as Colorado adopted it; and the heat capacity of a wall of cob."""

from __future__ import annotations

import math

import pytest

from compliance.facts.energy.mass_walls import heat_stored, resistance_of_earth, resistance_of_layers, transmittance
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.steps import Given
from compliance.units import measure
from tests.published.american import verdict

NAME = "irc-2021-energy-mass-walls"
ZONES = ("0-1", "2", "3", "4", "5", "6", "7-8")
# Table N1102.1.3, mass wall: R outside or even, R with more than half inside [ft2 h F/Btu].
RESISTANCE = ((3, 4), (4, 6), (8, 13), (8, 13), (13, 17), (15, 20), (19, 21))
# Table N1102.1.2, mass wall, and its note b for insulation mostly inside [Btu/(h ft2 F)].
TRANSMITTANCE = (
    (0.197, 0.17), (0.165, 0.14), (0.098, 0.12), (0.098, 0.087), (0.082, 0.065), (0.060, 0.057), (0.057, 0.057),
)  # fmt: skip
BTU_HOUR = 5.678263  # W/(m2 K) in Btu/(h ft2 F), NIST SP 811, appendix B.8


def test_tables() -> None:
    rule = next(one for one in read_shipped(NAME).rules if one.id == "wall-insulation")
    resistance, through = rule.tables["resistance"], rule.tables["transmittance"]
    assert resistance.rows.entries == through.rows.entries == ZONES
    assert resistance.columns is not None and resistance.columns.entries == ("outside", "inside")
    for index in range(len(ZONES)):
        for side in (0, 1):
            held, let = resistance.cells[index][side], through.cells[index][side]
            assert held is not None and math.isclose(held * BTU_HOUR, RESISTANCE[index][side], rel_tol=2e-7)
            assert let is not None and math.isclose(let / BTU_HOUR, TRANSMITTANCE[index][side], rel_tol=2e-7)


@pytest.mark.parametrize(
    ("form", "capacity", "gives"),
    [("adobe", "3 Btu/(ft2*F)", "not-applicable"), ("pressed-block", "3 Btu/(ft2*F)", "not-applicable"),
     ("rammed-earth", "3 Btu/(ft2*F)", "not-applicable"), ("cob", "6 Btu/(ft2*F)", "meets"),
     ("cob", "123 kJ/(m2*K)", "meets"), ("cob", "5.9 Btu/(ft2*F)", "revise")],
)  # fmt: skip
def test_what_counts_as_a_mass_wall(form: str, capacity: str, gives: str) -> None:
    """N1102.2.5: adobe, compressed earth block and rammed earth by name, so that no heat capacity is asked; others
    from 6 Btu/(ft2 F) (123 kJ/(m2 K))."""
    given = {"wall.use": "exterior", "mix.form": form, "wall.heat_capacity": capacity}
    assert verdict(NAME, "mass-wall", given) == gives


def test_insulation_and_u_factor_are_two_ways() -> None:
    """N1102.1.3 is an alternative to N1102.1.2: either is enough; N1102.1.4 counts insulation alone for the first."""
    wall = {"wall.use": "exterior", "mix.form": "adobe", "site.energy_zone": "5", "wall.insulation_side": "outside"}
    short = wall | {"wall.insulation_resistance": "12 ft2*h*F/Btu"}
    assert verdict(NAME, "wall-insulation", short | {"wall.u_factor": "0.082 Btu/(h*ft2*F)"}) == "meets"
    assert verdict(NAME, "wall-insulation", short | {"wall.u_factor": "0.083 Btu/(h*ft2*F)"}) == "revise"
    assert verdict(NAME, "wall-insulation", short) == "missing"


def test_cob_of_a_foot_stores_22_btu() -> None:
    """12 in x 110 pcf x 0.2 Btu/(lb F) = 22 Btu/(ft2 F). Specific heat: common practice, no source."""
    stored = heat_stored(
        measure("110 pcf", "density").si,
        measure("0.2 Btu/(lb*F)", "specific_heat").si,
        measure("12 in", "thickness").si,
    )
    assert math.isclose(stored, measure("22 Btu/(ft2*F)", "heat_capacity").si, rel_tol=1e-12)


def test_layers_in_series_by_hand() -> None:
    """16 in of earth at 4.5 Btu in/(h ft2 F) is R 16/4.5 = 3.5556; with R-5 and R-4.2 R 12.7556, U 0.0783972."""
    earth = resistance_of_earth(measure("16 in", "thickness").si, measure("4.5 Btu*in/(h*ft2*F)", "conductivity").si)
    r = measure("1 ft2*h*F/Btu", "thermal_resistance").si
    layers = resistance_of_layers(
        [Given("R1", 5 * r, "thermal_resistance"), Given("R2", 4.2 * r, "thermal_resistance")]
    )
    assert math.isclose(earth / r, 3.5556, rel_tol=1e-4) and math.isclose(layers / r, 9.2, rel_tol=1e-9)
    assert math.isclose(transmittance(earth, layers) / BTU_HOUR, 0.0783972, rel_tol=1e-6)
