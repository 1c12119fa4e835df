"""Pressures down a wall and single loads on it, worked by hand with their lines. Synthetic numbers, statics."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Facts
from compliance.steps import Step
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    FREE,
    INCH,
    LBF,
    PLF,
    PSI,
    alone,
    missing,
    number,
    opening,
)

LOAD = {"at": "4 ft", "dead": "600 lbf", "live": "100 lbf", "snow": "300 lbf", "length": "12 in", "width": "10 in",
        "eccentricity": "0 in"}  # fmt: skip
EARTH = 110 * 4 / 3  # psf of a face 16 in thick


def loaded(**changes: Any) -> Facts:
    """20 ft of wall, 8 ft high and 16 in thick, under 300 plf that bear 1 in off its middle on a beam of 12 in."""
    return alone(**{"line_load": "300 plf", "load_eccentricity": "1 in"} | changes)


def fact(found: Facts, name: str, mark: str = "W1") -> Fact:
    return found.of(name.partition(".")[0])[mark].fact(name)


def line(steps: tuple[Step, ...], says: str) -> Step:
    return next(one for one in steps if one.says == says)


def given(step: Step, symbol: str) -> float:
    value = next(one.value for one in step.given if one.symbol == symbol)
    assert isinstance(value, float)
    return value


@pytest.mark.parametrize(
    ("name", "level", "above", "share", "depth"),
    [("top", "top", 0.0, 1.0, 12), ("middle", "mid-height", 4.0, 0.5, 16), ("base", "base", 8.0, 0.0, 16)],
)
def test_pressure_at_each_level_with_its_lines(name: str, level: str, above: float, share: float, depth: int) -> None:
    """N = 300 + 146.7 × the height above; the 300 are off by 1 in at the top, half of it at mid-height, not at all at
    the base; N / d × (1 + 6 e / d), on the beam's width at the top."""
    found = fact(loaded(), f"wall.{name}_stress")
    whole = 300 + EARTH * above
    off = 300 * share / whole
    assert found.value == pytest.approx(whole / (12 * depth) * (1 + 6 * off / depth) * PSI)
    loads, middle, edge = found.steps[-3:]
    assert loads.says == f"Load on the whole wall at its {level}"
    assert recomputed(loads) == loads.result.value == pytest.approx(whole * 20 * LBF)
    assert given(loads, "W") == pytest.approx(EARTH * above * 20 * LBF)
    assert recomputed(middle) == middle.result.value == pytest.approx(off * INCH)
    assert recomputed(edge) == edge.result.value == found.value


def test_the_greatest_pressure_is_that_of_the_worst_level() -> None:
    """At the base of a wall under a small load; at the top of one whose load bears on the edge of its beam."""
    for changes, level in (({}, "base"), ({"line_load": "3000 plf", "load_eccentricity": "4 in"}, "top")):
        found = loaded(**changes)
        levels = {one: number(found, f"wall.{one}_stress") for one in ("top", "middle", "base")}
        assert max(levels, key=lambda one: levels[one]) == level
        assert number(found, "wall.greatest_stress") == levels[level]


def test_without_a_beam_the_top_presses_on_the_whole_thickness() -> None:
    found = loaded(top_restraint="roof", beam=None)
    assert number(found, "wall.top_stress") == pytest.approx(300 / 192 * (1 + 6 / 16) * PSI)
    assert number(loaded(top_restraint="roof", beam=None, outside=[], line_load="300 plf"), "wall.base_stress") == (
        pytest.approx((300 + EARTH * 8) / 192 * PSI)
    )


def test_the_moment_of_a_free_wall_does_not_fade() -> None:
    """Statics: nothing holds the top, so 300 plf × 1 in reach the base."""
    whole = 300 + EARTH * 8
    expected = whole / 192 * (1 + 6 * 300 / whole / 16) * PSI
    assert number(loaded(**FREE), "wall.base_stress") == pytest.approx(expected)


@pytest.mark.parametrize(("face", "moves"), [("outside", 1), ("inside", 1), ("both", 0)])
def test_half_way_down_a_leaning_wall_the_load_is_off_by_half_the_lean(face: str, moves: int) -> None:
    """20 in at the base, 12 at the top, 16 half way: the middle there is (16 − 12) / 2 = 2 in from that of the top. Of
    the 4 ft above, 12 to 16 in thick, the centroid is (16² + 16 × 12 + 12²) / (3 × 28) = 7.0476 in from the plumb
    face, so 0.9524 in off the middle; on both faces neither."""
    taper: dict[str, Any] = {"thickness": None, "thickness_base": "20 in", "thickness_top": "12 in"}
    found = loaded(**FREE, **taper, tapered_face=face)
    own = 110 * 4 * 14 / 12
    off = (300 * (1 + 2 * moves) + own * (8 - 592 / 84) * moves) / (300 + own)
    expected = (300 + own) / 192 * (1 + 6 * off / 16) * PSI
    assert number(found, "wall.middle_stress") == pytest.approx(expected)


def test_the_face_of_a_wall_that_does_not_lean_is_not_asked_for() -> None:
    assert number(loaded(tapered_face=None), "wall.base_stress") > 0
    straight = {"thickness": None, "thickness_base": "16 in", "thickness_top": "16 in"}
    assert number(loaded(**straight), "wall.base_stress") == pytest.approx(number(loaded(), "wall.base_stress"))


def test_the_eccentricity_is_told_as_a_share_of_the_depth() -> None:
    """1 in on a beam of 12 in, at the top, where it is worst."""
    found = fact(loaded(), "wall.eccentricity")
    last = found.steps[-1]
    assert found.value == pytest.approx(1 / 12) == recomputed(last)
    assert given(last, "e") == pytest.approx(INCH) and given(last, "d") == pytest.approx(12 * INCH)


def test_a_single_load_is_added_to_the_greatest_pressure_beside_it() -> None:
    """A pier of 8 ft beside a window of 4 ft, 900 lbf on 12 in of its middle. At the top 300 × 10 + 146.7 × 2 × 2 lbf
    on 96 × 12 in, 1 in off, and 900 on 12 × 12 in. Half way down they are on 12 + 48 in × 16 in (Taly, p. 223)."""
    found = loaded(openings={"A": opening(8, 4)}, loads={"P": LOAD})
    beside = 300 * 10 + EARTH * 2 * 2
    steps = fact(found, "wall.top_stress").steps
    loads = line(steps, "Load on P1 at its top, single loads left out")
    assert recomputed(loads) == pytest.approx(beside * LBF)
    both = steps[-1]
    assert both.says == "Both together under the single load"
    assert given(both, "σ_1") == pytest.approx(beside / (96 * 12) * 1.5 * PSI)
    assert given(both, "σ_2") == pytest.approx(900 / 144 * PSI)
    assert recomputed(both) == both.result.value == number(found, "wall.top_stress")
    own = EARTH * 4 * 8
    middle = (beside + own) / (96 * 16) * (1 + 6 * beside * 0.5 / (beside + own) / 16)
    spread = 900 / (16 * (12 + 48))
    assert number(found, "wall.middle_stress") == pytest.approx((middle + spread) * PSI)


def test_where_nothing_balances_the_rest_a_single_load_changes_nothing() -> None:
    """9 in off the middle of 16 in: beyond the edge."""
    found = fact(loaded(**FREE, load_eccentricity="9 in", loads={"P": LOAD}), "wall.top_stress")
    assert found.value == math.inf
    assert found.steps[-1].says == "Under the single load too nothing balances it"
    assert found.steps[-1].result.value == math.inf


def test_an_end_without_width_has_its_own_line() -> None:
    """300 plf and 146.7 × 2 ft over half of the opening's 4 ft have nothing to stand on."""
    found = loaded(openings={"A": opening(0, 4)})
    for name in ("top_stress", "base_stress", "base_load"):
        last = fact(found, f"wall.{name}").steps[-1]
        assert "nothing to stand on" in last.says
        assert last.result.value == pytest.approx((300 * 2 + EARTH * 2 * 2) * LBF)
    assert number(found, "wall.base_load") == math.inf


def test_over_a_gap_that_carries_nothing_there_is_no_pressure() -> None:
    """As high as the wall, and no load on top: the other 16 ft weigh on their own base alone."""
    found = loaded(**FREE, line_load="0 plf", openings={"A": opening(0, 4, 0, 8)})
    assert number(found, "wall.top_stress") == 0 == number(found, "wall.eccentricity")
    assert number(found, "wall.base_stress") == pytest.approx(EARTH * 8 / 192 * PSI)


def test_the_load_along_the_base_is_that_of_the_pier_with_most_for_its_width() -> None:
    """Piers of 12 and 4 ft beside a window of 4 ft: (300 × 6 + 146.7 × (2 × 2 + 8 × 4)) / 4 plf of the narrow one."""
    found = fact(loaded(openings={"A": opening(12, 4)}), "wall.base_load")
    expected = (300 * 6 + EARTH * (2 * 2 + 8 * 4)) / 4
    assert found.value == pytest.approx(expected * PLF)
    pier, along = found.steps[-2:]
    assert pier.result.value == pytest.approx(expected * 4 * LBF)
    assert along.says == "Load along the base of P2" and recomputed(along) == found.value
    assert given(along, "b") == pytest.approx(4 * FOOT)


def test_a_pier_passes_on_what_its_line_says() -> None:
    found = fact(loaded(openings={"A": opening(12, 4)}), "pier.base_load", "W1.P2")
    assert found.value == pytest.approx((300 * 6 + EARTH * (2 * 2 + 8 * 4)) * LBF)
    assert found.steps[-1].result.value == found.value


# single loads


def pressed(loads: dict[str, Any], **changes: Any) -> Facts:
    """Loads in kN on 6 m of wall 0.5 m thick and 2.5 m high, beside a window of 1 m where that is asked for."""
    ends = {"from": ["0 m", "0 m"], "to": ["6 m", "0 m"]}
    return loaded(**FREE, run=ends, thickness="0.5 m", height="2.5 m", line_load="0 plf", loads=loads, **changes)


def plate(at: str, dead: str = "1 kN", length: str = "0.2 m", **more: str) -> dict[str, str]:
    return {"at": at, "dead": dead, "live": "0 kN", "snow": "0 kN", "length": length, "width": "0.25 m",
            "eccentricity": "0 m"} | more  # fmt: skip


def test_the_heaviest_load_is_told_with_what_it_is_made_of() -> None:
    """The greater of live load and snow stands with the dead load: 1 + 0.5, 1.2 + 0 kN."""
    loads = {"A": plate("1 m", live="0.25 kN", snow="0.5 kN"), "B": plate("3 m", dead="1.2 kN")}
    found = fact(pressed(loads), "wall.point_load")
    assert found.value == pytest.approx(1500) and found.steps[-1].says == "Single load A"
    assert recomputed(found.steps[-1]) == pytest.approx(1500)


def test_the_plate_that_presses_most_need_not_carry_most() -> None:
    """1 kN on 0.1 × 0.25 m is 40 kPa, 1.2 kN on 0.2 × 0.25 m is 24."""
    loads = {"A": plate("1 m", length="0.1 m"), "B": plate("3 m", dead="1.2 kN")}
    found = fact(pressed(loads), "wall.point_pressure")
    assert found.value == pytest.approx(40_000) == recomputed(found.steps[-1])
    assert found.steps[-1].says == "Pressure under the plate of A"


def test_a_plate_wider_than_the_wall_presses_on_the_wall() -> None:
    found = fact(pressed({"A": plate("1 m", width="0.8 m")}), "wall.point_pressure")
    assert found.value == pytest.approx(1000 / (0.2 * 0.5)) == recomputed(found.steps[-1])


@pytest.mark.parametrize(
    ("places", "shared", "off"),
    [
        # From mid-height down it spreads 0.625 m to either side of 0.2 m: half of 1.25 m.
        (("3 m",), 1.45, 0),
        (("0.5 m",), 0.5 + 0.1 + 0.625, 0.1125),  # to the end of the wall, 0.4 m off
        (("5.5 m",), 0.5 + 0.1 + 0.625, 0.1125),
        (("3 m", "4 m"), 0.2 + 0.4 + 0.625, 0.1125),  # to half way between two: 0.4 m off
        (("2 m", "3 m", "4 m"), 0.2 + 0.4 + 0.625, 0.1125),  # an outer one
        (("0 m",), 0.2 + 0.625, 0.3125),  # a plate that hangs over is pushed back onto the wall
        (("6 m",), 0.2 + 0.625, 0.3125),
    ],
)
def test_a_single_load_spreads_as_far_as_there_is_room(places: tuple[str, ...], shared: float, off: float) -> None:
    """Its own share of the pressure at the base, beside that of the earth. Cut on one side it presses unevenly: P / L
    (1 + 6 e / L) within the middle third, 2 P / (3 (L / 2 − e)) beyond it (statics)."""
    loads = {f"L{place}": plate(at) for place, at in enumerate(places)}
    more = number(pressed(loads), "wall.base_stress") - number(pressed({}), "wall.base_stress")
    within = 1 / shared * (1 + 6 * off / shared)
    peak = within if off <= shared / 6 else 2 / (3 * (shared / 2 - off))
    assert more == pytest.approx(1000 / 0.5 * peak)


def test_the_spread_of_a_post_by_the_published_form() -> None:
    """4,500 lb on a plate of 24 in, wall 8 ft high: 2 + 8 / 2 = 6 ft (Taly, Design of Reinforced Masonry Structures,
    p. 223), 750 plf. 1.5 ft from an end: 4.5 ft, 0.75 ft off its middle, 2,000 plf at the peak (statics)."""
    post = {**LOAD, "dead": "4500 lbf", "live": "0 lbf", "snow": "0 lbf", "length": "24 in", "width": "12 in"}
    bare = number(loaded(line_load="0 plf"), "wall.base_stress")
    for at, plf in (("10 ft", 750), ("1 ft 6 in", 2000)):
        more = number(loaded(line_load="0 plf", loads={"P": {**post, "at": at}}), "wall.base_stress") - bare
        assert more == pytest.approx(plf * PLF / (16 * INCH), rel=1e-6)


def test_an_eccentric_plate_presses_more_on_one_edge() -> None:
    """4,500 lb on 24 × 12 in: 15.63 psi, and 1.5 times as much 1 in off the middle (statics)."""
    post = {**LOAD, "dead": "4500 lbf", "live": "0 lbf", "snow": "0 lbf", "length": "24 in", "width": "12 in"}
    for off, psi in (("0 in", 15.625), ("1 in", 23.4375)):
        found = loaded(loads={"P": {**post, "eccentricity": off}})
        assert number(found, "wall.point_pressure") == pytest.approx(psi * PSI)


@pytest.mark.parametrize("places", [("4 m", "1 m", "3 m"), ("2 m", "3 m", "5 m")])
def test_a_single_load_spreads_half_way_to_the_nearest_of_several(places: tuple[str, ...]) -> None:
    """The first, of 3 kN, stands 1 m from the next, so 0.4 m of room; 2 m and more from the end of the wall."""
    loads = {f"L{place}": plate(at, "1 kN" if place else "3 kN") for place, at in enumerate(places)}
    more = number(pressed(loads), "wall.base_stress") - number(pressed({}), "wall.base_stress")
    assert more == pytest.approx(3000 / (0.5 * 1.225) * (1 + 6 * 0.1125 / 1.225))


@pytest.mark.parametrize(("at", "stands"), [("2 m", True), ("3 m", True), ("2.5 m", False)])
def test_a_single_load_over_an_opening_presses_no_pier_by_itself(at: str, stands: bool) -> None:
    """At the very jamb it stands on the pier; over the window the lintel brings it to both."""
    window = opening(0, 1) | {"start": "2 m", "width": "1 m"}
    steps = fact(pressed({"A": plate(at)}, openings={"A": window}), "wall.top_stress").steps
    assert (steps[-1].says == "Both together under the single load") is stands


def test_a_single_load_of_nothing_presses_nothing() -> None:
    steps = fact(pressed({"A": plate("1 m", dead="0 kN")}), "wall.top_stress").steps
    assert "Both together under the single load" not in [one.says for one in steps]
    assert missing(pressed({"A": plate("1 m") | {"width": None}}), "wall.top_stress") == {"walls.W1.loads.A.width"}


# narrow piers, light loads, finishes


def test_a_pier_narrower_than_a_metre_stands() -> None:
    """Piers of 13 and 2 ft beside a window of 5 ft: (300 × 4.5 + 146.7 × (2 × 2.5 + 8 × 2)) / 2 plf."""
    found = loaded(openings={"A": opening(13, 5)})
    expected = (300 * 4.5 + EARTH * (2 * 2.5 + 8 * 2)) / 2
    assert number(found, "wall.base_load") == pytest.approx(expected * PLF)
    assert number(found, "wall.base_stress") == pytest.approx(expected / 192 * PSI)


def test_the_finishes_over_an_opening_press_on_the_piers_beside_it() -> None:
    """Lime of 1 in, 110 pcf, over 2 ft of the opening's 4 ft, and 2 ft high."""
    found = loaded(openings={"A": opening(8, 4)}, outside=[{"material": "lime", "thickness": "1 in"}])
    expected = 300 * 10 + (EARTH + 110 / 12) * 2 * 2
    assert number(found, "wall.top_stress") == pytest.approx(expected / (96 * 12) * 1.5 * PSI)


@pytest.mark.parametrize(("load", "told"), [("0 plf", False), ("0.001 plf", True), ("300 plf", True)])
def test_where_the_load_stands_is_told_where_there_is_one(load: str, told: bool) -> None:
    steps = fact(loaded(**FREE, line_load=load), "wall.top_stress").steps
    assert ("Eccentricity" in [one.says for one in steps]) is told


def test_of_two_narrow_piers_the_one_with_more_for_its_width_counts() -> None:
    """2 ft beside a window of 1 ft, and 3 ft beside one of 8 ft: (300 × 7 + 146.7 × (2 × 4 + 8 × 3)) / 3 plf."""
    found = loaded(openings={"A": opening(2, 1), "B": opening(9, 8)})
    assert number(found, "wall.base_load") == pytest.approx((300 * 7 + EARTH * (2 * 4 + 8 * 3)) / 3 * PLF)
