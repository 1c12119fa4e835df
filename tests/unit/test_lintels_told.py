"""Lintels, stem walls and layers of roofs as a project describes them, worked by hand in feet and pounds. Synthetic."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.geometry.subjects import Facts
from compliance.steps import Step
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    INCH,
    LBF,
    PLF,
    PSI,
    ROOF,
    UNSAID,
    alone,
    bears,
    box,
    facts,
    given,
    missing,
    number,
    opening,
)

WOOD = opening(8, 4)["lintel"]


def over(lintel: Any = WOOD, **changes: Any) -> Facts:
    hole = opening(8, 4) | {"lintel": lintel}
    return alone(openings={"A": hole}, line_load="300 plf", **changes)


def lines(found: Facts, name: str) -> tuple[Step, ...]:
    return found.of("opening")["W1.A"].fact(f"opening.{name}").steps


def test_a_lintel_carries_all_that_stands_over_it() -> None:
    """300 plf and 2 ft of wall, with no arch counted on."""
    expected = 300 + 110 * 16 / 12 * 2
    assert number(over(), "opening.lintel_load", "W1.A") / PLF == pytest.approx(expected)
    line = lines(over(), "lintel_load")[-1]
    assert recomputed(line) / PLF == pytest.approx(expected) and recomputed(line) == pytest.approx(line.result.value)
    assert missing(over(lintel=None), "opening.lintel_load", "W1.A") == {"walls.W1.openings.A.lintel"}
    assert missing(alone(openings={"A": opening(8, 4)}, top_restraint=None, mix=None), "opening.lintel_load", "W1.A")


def test_a_lintel_without_single_loads_is_worked_by_its_even_load_alone() -> None:
    says = [one.says for one in lines(over(), "lintel_bending")]
    assert "Bending moment at midspan" in says and not [one for one in says if "single load" in one]
    worked = [one for one in lines(over(), "lintel_bending") if one.says in (
        "Bending moment at midspan", "Force on each end, greatest shear"
    )]  # fmt: skip
    assert len(worked) == 2
    for line in worked:
        assert recomputed(line) == pytest.approx(float(line.result.value))


def test_the_span_of_a_lintel_is_told_where_it_bears_on_the_earth() -> None:
    for lintel, told in ((WOOD, True), ({"material": "bond-beam"}, False)):
        says = " ".join(one.says.lower() for one in lines(over(lintel=lintel), "lintel_bending"))
        assert ("span of the lintel" in says or "span between" in says) is told


@pytest.mark.parametrize(("at", "says"), [(["9 ft"], "1 single load"), (["9 ft", "11 ft"], "2 single loads")])
def test_a_lintel_under_single_loads_counts_them(at: list[str], says: str) -> None:
    load = {"dead": "100 lbf", "live": "0 lbf", "snow": "0 lbf", "length": "6 in", "width": "6 in"}
    found = over(loads={f"P{index}": {**load, "at": one} for index, one in enumerate(at)})
    (line,) = [one for one in lines(found, "lintel_bending") if "single load" in one.says]
    assert line.says == f"Bending moment of a simple span with {says}"


def test_a_lintel_presses_the_earth_on_the_narrower_of_the_two() -> None:
    """16 in at the base and 8 in at the top leave 10 in at the head of the opening, 6 ft up; the lintel is 12 in."""
    taper = {"thickness": None, "thickness_base": "16 in", "thickness_top": "8 in", "tapered_face": "both"}
    for wall, wide in (({}, 12), (taper, 10)):
        line = lines(over(**wall), "lintel_pressure")[-1]
        numbers = given(line)
        assert numbers["b"] == pytest.approx(wide * INCH)
        assert recomputed(line) == pytest.approx(float(line.result.value))


@pytest.mark.parametrize("name", ["bending_allowed", "shear_allowed"])
def test_what_a_lintel_may_take_is_told_with_its_source(name: str) -> None:
    for source, told in (("a grader's stamp", "a grader's stamp"), (None, UNSAID)):
        (line,) = lines(over(lintel=WOOD | {"stress_source": source}), name)
        assert line.source == told and line.result.value == pytest.approx((850 if "bend" in name else 90) * PSI)
    arch = over(lintel={"material": "arch"}).of("opening")["W1.A"].fact(f"opening.{name}")
    assert arch.reason == "the opening is spanned by an arch"
    assert missing(over(lintel=None), f"opening.{name}", "W1.A") == {"walls.W1.openings.A.lintel"}


def test_where_the_bond_beam_spans_no_shear_is_asked() -> None:
    fact = over(lintel={"material": "bond-beam"}).of("opening")["W1.A"].fact("opening.shear_allowed")
    assert fact.value is None and fact.reason.startswith("the bond beam spans the opening")


# stem walls


def test_without_a_stem_wall_none_weighs() -> None:
    found = alone().of("wall")["W1"]
    assert number(alone(), "wall.stem_height") == pytest.approx(2 * FOOT) and found.fact("wall.stem_weight").value
    none = alone(stem=None, base_restraint="floor")
    assert (number(none, "wall.stem_height"), number(none, "wall.stem_weight")) == (0.0, 0.0)


def test_the_soil_under_a_pier_takes_what_is_beside_it_too() -> None:
    """The greatest line: the pier over its spread, the wall under the sill of 4 ft beside it, and the stem wall."""
    found = alone(openings={"A": opening(3, 4)}, line_load="2000 plf")
    line = found.of("wall")["W1"].fact("wall.soil_load").steps[-1]
    assert recomputed(line) == pytest.approx(float(line.result.value)) == number(found, "wall.soil_load")
    numbers = given(line)
    assert numbers["w_u"] / PLF == pytest.approx(110 * 16 / 12 * 3)
    assert numbers["N"] / LBF == pytest.approx(2000 * 15 + 110 * 16 / 12 * (13 * 8 + 2 * 2))
    assert line.given[0].meaning == "P2 at its base"
    assert numbers["l"] / FOOT == pytest.approx(13 + 2)
    assert number(alone(line_load="2000 plf"), "wall.soil_load") / PLF == pytest.approx(
        2000 + 110 * 16 / 12 * 8 + 400, rel=1e-9
    )
    whole = alone(line_load="2000 plf").of("wall")["W1"].fact("wall.soil_load").steps[-1]
    assert whole.given[0].meaning == "wall at its base"


# layers of roofs

LAYER = {"material": "soil", "thickness": "6 in", "saturated_density": "100 pcf"}


def roofed(**changes: Any) -> Facts:
    return facts(box(20, 16), {"R": {**ROOF, "bears_on": bears("W1", "W3"), **changes}})


def test_a_stated_load_is_no_less_than_its_layers_but_for_the_last_digits() -> None:
    """Six inches of 100 pcf on a flat roof: 50 psf. A thousand-millionth less passes, a little more does not."""
    for stated, agrees in (("50 psf", True), ("49.99999995001 psf", True), ("49.9999999475 psf", False)):
        found = roofed(layers=[LAYER], dead=stated, slope="0 deg").of("roof")["R"].fact("roof.dead_agrees")
        assert found.value is agrees
    assert roofed(layers=[LAYER], dead=None).of("roof")["R"].fact("roof.dead_agrees").reason
    assert roofed().of("roof")["R"].fact("roof.dead_agrees").reason


def test_the_lines_of_a_load_are_those_of_its_layers_and_its_own() -> None:
    water = {"material": "water", "thickness": "1 in", "saturated_density": "62.4 pcf", "passing_water": "yes"}
    found = roofed(layers=[LAYER, water], dead=None, slope="0 deg").of("roof")["R"]
    dead, wet = found.fact("roof.layer_dead").steps, found.fact("roof.water").steps
    assert dead[-1].says.startswith("Dead") and wet[-1].says.startswith("Water")
    for steps in (dead, wet):
        assert {one.symbol for one in steps[-1].given} - {"slope"} == {one.result.symbol for one in steps[:-1]}
        assert recomputed(steps[-1]) == pytest.approx(float(steps[-1].result.value))


def test_a_layer_that_lacks_its_weight_is_named() -> None:
    bare = {"material": "soil", "passing_water": "yes"}
    assert missing(roofed(layers=[bare], dead=None), "roof.water", "R")
    assert missing(roofed(layers=[bare], dead=None), "roof.layer_dead", "R")


def test_a_roof_is_no_steeper_than_plumb() -> None:
    assert missing(roofed(layers=[LAYER], dead=None, slope="90 deg"), "roof.layer_dead", "R") == {"roofs.R.slope"}
    assert missing(roofed(layers=[LAYER], dead=None, slope=None), "roof.layer_dead", "R")
    assert number(roofed(layers=[LAYER], dead=None, slope="61 deg"), "roof.layer_dead", "R") > 0


def test_snow_is_compared_where_it_is_both_given_and_derived() -> None:
    fact = roofed(warmth=None).of("roof")["R"].fact("roof.snow_agrees")
    assert fact.value is None and "nothing to compare" in fact.reason


def test_how_much_of_the_roof_the_walls_carry() -> None:
    """Ten feet of roof hang on each of two walls 20 ft long: 400 of 440 square feet."""
    found = roofed(plan_area="440 ft2", length="20 ft")
    fact = found.of("roof")["R"].fact("roof.carried_share")
    assert fact.value == pytest.approx(400 / 440) and recomputed(fact.steps[-1]) == pytest.approx(400 / 440)
    assert fact.steps[-1].result.value == fact.value
    parts = [one for one in fact.steps if one.says.startswith("Roof hung on")]
    assert [one.result.symbol for one in parts] == ["A1", "A2"]
    assert all(recomputed(one) == pytest.approx(200 * FOOT**2) for one in parts)
