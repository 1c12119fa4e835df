"""Sides of a building and how solid they are, and what an earthquake shakes, worked by hand. Synthetic numbers."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.bracing.plan_sides import sides
from compliance.facts.bracing.solid_shares import _directions
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    LBF,
    LIME,
    PLF,
    ROOF,
    WALL,
    bears,
    box,
    facts,
    number,
    opening,
    run,
)
from tests.unit.test_stability_facts import house


def names(groups: list[Any]) -> list[str]:
    return sorted(" ".join(sorted(view.mark for view in one)) for one in groups)


def views(**runs: dict[str, Any]) -> list[Any]:
    return list(facts({mark: {**WALL, "run": ends} for mark, ends in runs.items()}).views.values())


def seen(walls: dict[str, Any]) -> dict[str, tuple[float, float, float]]:
    """Length, solid and bare length in feet of each side."""
    found = sides(list(facts(walls).views.values()), frozenset(walls))
    return {f"{one.name}, {'far' if one.far else 'near'}": (one.length / FOOT, one.solid / FOOT, one.open / FOOT)
            for one in found}  # fmt: skip


def test_the_sides_of_a_box() -> None:
    """20 by 16 ft with a window of 5 ft in the south wall."""
    found = seen(box(20, 16, W1={"A": opening(8, 5)}))
    assert found["W1, near"] == pytest.approx((20, 15, 0)) and found["W3, far"] == pytest.approx((20, 20, 0))
    assert found["W4, far"] == pytest.approx((16, 16, 0)) and found["W2, near"] == pytest.approx((16, 16, 0))


def test_a_round_side_is_the_same_from_wherever_it_is_seen() -> None:
    """Two half circles of 7 ft, one with a window of 6 ft, turned by degrees: where a chord of the arc begins is no
    matter. By hand: the arc that runs within 60 degrees of the window spans 2 x 7 sin 60 = 12.12 ft."""
    shares = []
    for degrees in (0, 5, 7.5, 30, 52.5, 60, 82.5):
        points = [(7 * math.cos(a), 7 * math.sin(a)) for a in (math.radians(degrees + 90 * part) for part in range(4))]
        east, north, west, south = ([f"{x:.9f} ft", f"{y:.9f} ft"] for x, y in points)
        half = {key: value for key, value in WALL.items() if key != "run"}
        walls = {
            "A": {**half, "arc": {"from": east, "through": north, "to": west}, "openings": {"N": opening(8, 6)}},
            "B": {**half, "height": "9 ft", "arc": {"from": west, "through": south, "to": east}},
        }
        found = [side for side in sides(list(facts(walls).views.values()), frozenset(walls)) if not side.open]
        assert max(side.length for side in found) / FOOT == pytest.approx(2 * 7 * math.sin(math.radians(60)), rel=1e-6)
        shares.append(sorted(side.solid / side.length for side in found))
    assert all(one == pytest.approx(shares[0], rel=1e-6) for one in shares)


def test_a_side_without_a_wall_is_a_side() -> None:
    """The south wall left out, and all of it but two stubs of 2 ft."""
    walls = box(20, 16)
    walls.pop("W1")
    assert seen(walls)["without a wall, near"] == pytest.approx((20, 0, 20))
    stubs = {"A": {**WALL, "run": run(0, 0, 2, 0)}, "B": {**WALL, "run": run(18, 0, 20, 0)}}
    assert seen(walls | stubs)["A and B, near"] == pytest.approx((20, 4, 16))


def test_an_inner_corner_leaves_no_side_open() -> None:
    """An L: from the north both its north walls are seen, one behind the other."""
    ends = ((0, 0, 24, 0), (24, 0, 24, 12), (24, 12, 12, 12), (12, 12, 12, 24), (12, 24, 0, 24), (0, 24, 0, 0))
    walls = {f"L{place}": {**WALL, "run": run(*one)} for place, one in enumerate(ends)}
    found = seen(walls)
    assert found["L2 and L4, far"] == pytest.approx((24, 24, 0)) and all(one[2] == 0 for one in found.values())


def test_a_curved_wall_is_a_side_where_it_runs_across_the_view() -> None:
    """A half circle of 10 ft on a straight wall of 20 ft."""
    arc = {"from": ["20 ft", "0 ft"], "through": ["10 ft", "10 ft"], "to": ["0 ft", "0 ft"]}
    found = seen({"A": {**WALL, "run": run(0, 0, 20, 0)}, "B": {**WALL, "run": None, "arc": arc}})
    assert found["A, near"] == pytest.approx((20, 20, 0))


def test_walls_within_an_angle_look_one_way() -> None:
    """Ten degrees, but for the last digits; walls that run back are of the same direction."""
    within = math.radians(10)

    def at(degrees: float) -> dict[str, Any]:
        return run(0, 0, 20 * math.cos(math.radians(degrees)), 20 * math.sin(math.radians(degrees)))

    assert names(_directions(views(A=at(0), B=at(9.9)), within)) == ["A B"]
    assert names(_directions(views(A=at(0), B=at(10.1)), within)) == ["A", "B"]
    assert names(_directions(views(A=at(0), B=at(90), C=at(175)), within)) == ["A C", "B"]


def test_how_solid_a_wall_and_the_least_solid_side_are() -> None:
    found = facts(box(20, 16) | {"W1": {**box(20, 16)["W1"], "openings": {"A": opening(8, 5)}}})
    assert number(found, "wall.solid_share") == pytest.approx(15 / 20)
    assert number(found, "project.least_side_solid") == pytest.approx(15 / 20)
    assert found.of("wall")["W1"].fact("wall.solid_share").steps[-1].result.value == pytest.approx(15 / 20)
    line = found.of("project")["project"].fact("project.least_side_solid").steps[-1]
    assert line.says == "Least solid side: W1" and [one.symbol for one in line.given] == ["s1", "s2", "s3", "s4"]
    assert recomputed(found.of("wall")["W1"].fact("wall.solid_share").steps[-1]) == pytest.approx(0.75)


def test_a_building_without_outside_walls_has_no_side() -> None:
    inside = facts({"A": {**WALL, "use": "interior", "run": run(0, 0, 20, 0)}})
    fact = inside.of("project")["project"].fact("project.least_side_solid")
    assert fact.value is None and "no outside wall" in fact.reason


@pytest.mark.parametrize(("width", "both"), [(14, True), (16, False)])
def test_two_feet_of_solid_wall_brace_the_other_way(width: float, both: bool) -> None:
    """A wall that is open all along does not."""
    across = {**WALL, "run": run(0, 0, 0, 16), "openings": {"A": opening(0, width)}}
    found = facts({"A": {**WALL, "run": run(0, 0, 16, 0)}, "B": across})
    assert found.of("project")["project"].fact("project.braced_both_ways").value is both


def test_walls_of_one_direction_brace_one_way() -> None:
    one_way = facts({"A": {**WALL, "run": run(0, 0, 20, 0)}, "B": {**WALL, "run": run(0, 16, 30, 16)}})
    fact = one_way.of("project")["project"].fact("project.braced_both_ways")
    assert fact.value is False and fact.steps[-1].result.value == "A, B"
    assert facts(box(20, 16)).of("project")["project"].fact("project.braced_both_ways").value is True


def test_what_shakes_with_a_wall() -> None:
    """20 ft of 300 plf, a single load of 1000 lbf dead, above mid-height (4 ft) 80 - 4 x 2 ft² of earth, and half of
    148 ft² of lime."""
    load = {"at": "2 ft", "dead": "1000 lbf", "live": "500 lbf", "snow": "0 lbf", "length": "12 in", "width": "12 in"}
    wall = {**WALL, "run": run(0, 0, 20, 0), "line_load": "300 plf", "load_eccentricity": "0 in", "outside": LIME,
            "openings": {"A": opening(8, 4)}, "loads": {"P": load}}  # fmt: skip
    found = facts({"W1": wall})
    dead = number(found, "wall.top_dead")
    stated = max(300 * PLF, dead)
    expected = stated * 20 * FOOT / LBF + 1000 + 110 * 16 / 12 * (80 - 8) + 110 / 12 * 148 / 2
    assert number(found, "wall.shaking_weight") / LBF == pytest.approx(expected)
    assert recomputed(found.of("wall")["W1"].fact("wall.shaking_weight").steps[-1]) / LBF == pytest.approx(expected)


@pytest.mark.parametrize(("snow", "counts"), [("30 psf", False), ("30.1 psf", True)])
def test_heavy_snow_alone_shakes_too(snow: str, counts: bool) -> None:
    """A fifth of a flat roof's snow above 30 psf (ASCE 7-10 section 12.7.2)."""
    found, bare = (
        facts(box(20, 16), {"R": {**ROOF, "snow": one, "bears_on": bears("W1", "W3")}}) for one in (snow, "0 psf")
    )
    more = number(found, "wall.shaking_weight") - number(bare, "wall.shaking_weight")
    assert more == pytest.approx(0.2 * number(found, "wall.top_snow") * 20 * FOOT if counts else 0.0, abs=1e-6)


def test_heavy_snow_on_one_of_two_roofs_is_enough() -> None:
    roofs = {mark: {**ROOF, "snow": snow, "bears_on": bears("W1", tributary="5 ft")}
             for mark, snow in (("R", "60 psf"), ("S", "10 psf"))}  # fmt: skip
    found, bare = (facts(box(20, 16), one) for one in (roofs, {m: {**r, "snow": "0 psf"} for m, r in roofs.items()}))
    assert number(found, "wall.shaking_weight") > number(bare, "wall.shaking_weight")


def test_the_weights_of_all_walls_are_added() -> None:
    (line,) = house().of("project")["project"].fact("project.seismic_weight").steps[-1:]
    assert line.formula == "W1 + W2 + W3 + W4" and recomputed(line) == pytest.approx(float(line.result.value))


def test_the_push_of_an_earthquake_is_lowered_to_allowable_stresses() -> None:
    fact = house({"sds": 1.0}).of("project")["project"].fact("project.base_shear")
    lowered = float(fact.steps[-1].result.value)
    assert recomputed(fact.steps[-1]) == pytest.approx(lowered) and fact.value == lowered
