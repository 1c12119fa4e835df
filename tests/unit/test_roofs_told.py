"""What roofs push, pull and lift, and what is said of it line by line, worked by hand. Synthetic numbers."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.geometry.subjects import Facts
from compliance.steps import Step
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    PARTS,
    PSF,
    ROOF,
    UNSAID,
    bears,
    box,
    facts,
    given,
    missing,
    number,
)


def under(**changes: Any) -> Facts:
    return facts(box(20, 16), {"R": {**ROOF, "bears_on": bears("W1", "W3"), **changes}})


def steps(found: Facts, name: str, mark: str = "R") -> tuple[Step, ...]:
    return found.of(name.partition(".")[0])[mark].fact(name).steps


def test_water_that_drains_weighs_with_what_lies_on_the_roof() -> None:
    """2 in of water at 62.4 pcf along a slope of 1 in 2: 10.4 psf / cos 26.57° of plan."""
    layers = [{"material": "water", "thickness": "2 in", "saturated_density": "62.4 pcf", "passing_water": "yes"}]
    found = under(layers=layers)
    loads = {name: number(found, f"roof.{name}", "R") for name in ("dead", "live", "snow", "water")}
    assert loads["water"] / PSF == pytest.approx(10.4 / math.cos(math.atan(0.5)))
    expected = loads["dead"] + max(loads["live"], loads["snow"]) + loads["water"]
    assert number(found, "roof.plan_load", "R") == pytest.approx(expected)


@pytest.mark.parametrize(
    ("held", "slope", "says"),
    [
        ("no-thrust", "4 deg", "No thrust, as described"),
        ("ridge-beam", "26.565 deg", "Thrust held by the ridge beam"),
        ("bond-beam", "26.565 deg", "Thrust held by the bond beam"),
    ],
)
def test_what_holds_the_thrust_is_told_and_leaves_none(held: str, slope: str, says: str) -> None:
    (line,) = steps(under(thrust_held_by=held, slope=slope), "roof.thrust_left")
    assert (line.says, line.result.value) == (says, 0.0)


def test_trusses_push_no_wall() -> None:
    (line,) = steps(under(kind="trussed"), "roof.thrust")
    assert line.result.value == 0.0


def test_how_high_a_tie_may_be_is_told() -> None:
    """A share of the rise of 4 ft, which a slope of 1 in 2 gives over 8 ft."""
    reach, left = steps(under(tie_height="1 ft", slope="26.56505118 deg"), "roof.thrust_left")[-2:]
    share = next(float(one.value) for one in reach.given if one.symbol == "c")
    assert [one.symbol for one in reach.given] == ["c", "f"]
    assert recomputed(reach) == float(reach.result.value) == pytest.approx(share * 4 * FOOT)
    assert left.result.value == (0.0 if share * 4 >= 1 else number(under(), "roof.thrust", "R"))


@pytest.mark.parametrize("height", ["4 ft", "5 ft"])
def test_a_tie_lies_below_the_ridge(height: str) -> None:
    assert missing(under(tie_height=height), "roof.thrust_left", "R") == {"roofs.R.tie_height"}


def test_a_tie_needs_its_height_and_the_roof_its_rise() -> None:
    assert missing(under(tie_height=None), "roof.thrust_left", "R") == {"roofs.R.tie_height"}
    assert missing(under(rise=None), "roof.thrust_left", "R") >= {"roofs.R.rise"}


def test_a_ring_pulls_under_a_round_roof_alone() -> None:
    straight = under(thrust_held_by="ring").of("roof")["R"].fact("roof.ring_tension")
    assert straight.value is None and "no ring" in straight.reason
    round_one = under(radius="10 ft", ring_radius="1 ft").of("roof")["R"].fact("roof.ring_tension")
    assert round_one.value is None and "no ring" in round_one.reason


@pytest.mark.parametrize(("source", "told"), [("maker's table", "maker's table"), (None, UNSAID)])
def test_what_a_tie_may_take_is_told_with_its_source(source: str | None, told: str) -> None:
    (line,) = steps(under(tie_capacity="900 lbf", capacity_source=source), "roof.tie_capacity")
    assert line.source == told


def test_what_a_tie_may_take_is_asked_for_where_the_pull_lacks_something() -> None:
    """Not so where there is no tie."""
    asked = under(rafter_spacing=None, tie_capacity=None).of("roof")["R"].fact("roof.tie_capacity")
    assert ("roofs", "R", "tie_capacity") in asked.missing
    none = under(thrust_held_by="ridge-beam").of("roof")["R"].fact("roof.tie_capacity")
    assert none.value is None and "no ties" in none.reason and not none.missing


def test_the_wall_that_is_lifted_most_stands_for_the_roof() -> None:
    """Ten and two feet of roof hang on the walls: the wider strip lifts more."""
    wide = facts(box(20, 16), {"R": {**ROOF, "bears_on": [*bears("W1", tributary="4 ft"), *bears("W3")]}})
    lifts = [number(wide, "wall.uplift", mark) for mark in ("W1", "W3")]
    assert number(wide, "roof.line_uplift", "R") == max(lifts) > min(lifts)


def test_the_overhang_is_told_as_it_is() -> None:
    line = next(one for one in steps(under(), "roof.line_uplift") if one.says.startswith("Mean suction on what"))
    numbers = given(line)
    assert numbers["o"] == pytest.approx(2 * FOOT) and numbers["b"] > numbers["o"]
    assert recomputed(line) == pytest.approx(float(line.result.value))


def test_where_nothing_lifts_nothing_is_held_down() -> None:
    heavy = under(dead="200 psf")
    assert number(heavy, "wall.uplift") == 0.0
    line = steps(heavy, "wall.hold_down_depth", "W1")[-1]
    assert (line.says, line.result.value) == ("Nothing lifts the top of the wall", 0.0)


@pytest.mark.parametrize(("source", "told"), [("tests of 2020", "tests of 2020"), (None, UNSAID)])
def test_anchors_are_told_with_the_source_of_their_capacity(source: str | None, told: str) -> None:
    anchors = {**PARTS["beams"]["B1"]["anchors"], "capacity_source": source}
    found = facts(box(20, 16), beams={"B1": {**PARTS["beams"]["B1"], "anchors": anchors}})
    (line,) = steps(found, "beam.anchor_capacity", "B1")
    assert line.source == told


def test_a_wall_ends_at_the_support_of_its_top() -> None:
    line = next(one for one in steps(under(), "wall.anchorage_force", "W1") if one.says == "Force on the top support")
    numbers = given(line)
    assert numbers["a"] == 0.0 and recomputed(line) == pytest.approx(float(line.result.value))
