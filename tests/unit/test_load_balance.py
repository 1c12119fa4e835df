"""Over any rectangular building: nothing is lost on the way down, more load never helps, and order never matters."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.bracing.brace_forces import braced_walls
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.subjects import Facts
from compliance.facts.strength.out_of_plane_sections import bent_sections
from tests.tries import tries
from tests.unit.structural_houses import ROOF, SITE, bears, box, facts, number, opening

FEW = settings(max_examples=tries(25), deadline=None)


@st.composite
def houses(draw: st.DrawFn) -> tuple[dict[str, Any], dict[str, Any]]:
    """Four walls, tapered or not, with windows, finishes and single loads; a roof on two of them."""
    length, width = draw(st.integers(14, 40)), draw(st.integers(12, 30))
    sides = {"W1": length, "W2": width, "W3": length, "W4": width}
    walls = box(length, width, **{mark: draw(windows(side)) for mark, side in sides.items()})
    base, top = draw(st.integers(14, 28)), draw(st.integers(10, 14))
    for wall in walls.values():
        wall |= {"thickness": None, "thickness_base": f"{base} in", "thickness_top": f"{top} in",
                 "tapered_face": draw(st.sampled_from(["both", "inside"])), "height": f"{draw(st.integers(6, 10))} ft",
                 "outside": draw(st.sampled_from([[], [{"material": "lime", "thickness": "1 in"}]]))}  # fmt: skip
    walls["W2"]["line_load"], walls["W4"]["line_load"] = "90 plf", "90 plf"
    walls["W2"]["load_eccentricity"] = walls["W4"]["load_eccentricity"] = "0 in"
    walls["W1"]["loads"] = {
        f"P{index}": {"at": f"{draw(st.integers(0, length))} ft", "dead": f"{draw(st.integers(0, 900))} lbf",
                      "live": "100 lbf", "snow": f"{draw(st.integers(0, 900))} lbf", "length": "12 in", "width": "8 in"}
        for index in range(draw(st.integers(0, 3)))
    }  # fmt: skip
    roof = {**ROOF, "dead": f"{draw(st.integers(5, 60))} psf", "snow": f"{draw(st.integers(0, 90))} psf"}
    return walls, {"R": {**roof, "bears_on": bears("W1", "W3", tributary=f"{draw(st.integers(6, 16))} ft")}}


@st.composite
def windows(draw: st.DrawFn, side: int) -> dict[str, Any]:
    found: dict[str, Any] = {}
    at = draw(st.integers(1, 4))
    while at < side - 4 and len(found) < 3 and draw(st.booleans()):
        wide = draw(st.integers(1, 3))
        found[f"N{len(found)}"] = opening(at, wide, draw(st.integers(0, 3)), draw(st.integers(1, 3)))
        at += wide + draw(st.integers(1, 5))
    return found


@FEW
@given(houses())
def test_load_in_is_load_out(house: tuple[dict[str, Any], dict[str, Any]]) -> None:
    found = facts(*house)
    assert number(found, "project.load_balance") <= 1e-9
    for mark in found.of("wall"):
        brought, arrived = number(found, "wall.load_in", mark), number(found, "wall.load_out", mark)
        assert arrived == pytest.approx(brought, rel=1e-9)


SAME = ("wall.load_in", "wall.greatest_stress", "wall.soil_load", "wall.bending_tension", "wall.rocking_factor",
        "wall.brace_shear", "wall.tipping_factor", "wall.shear_stress", "wall.beam_moment")  # fmt: skip


@FEW
@given(houses(), st.permutations(["W1", "W2", "W3", "W4"]))
def test_the_order_of_the_walls_never_matters(house: tuple[dict[str, Any], dict[str, Any]], order: list[str]) -> None:
    walls, roofs = house
    one, other = facts(walls, roofs), facts({mark: walls[mark] for mark in order}, roofs)
    for mark in walls:
        for name in SAME:
            first, second = (each.of("wall")[mark].fact(name).value for each in (one, other))
            assert second == pytest.approx(first, rel=1e-9), (mark, name)
    for name in ("project.base_shear", "project.least_side_solid", "project.load_balance"):
        assert number(other, name) == pytest.approx(number(one, name), rel=1e-9, abs=1e-12)


def margins(found: Facts, mark: str) -> dict[str, float]:
    """Shares of each capacity that are used, and factors; the more, the worse."""
    return {name: number(found, f"wall.{name}", mark) for name in (
        "greatest_stress", "base_load", "soil_load", "soil_pressure", "footing_needed", "axial_use")}  # fmt: skip


@FEW
@given(houses(), st.integers(1, 60))
def test_more_roof_never_raises_a_margin(house: tuple[dict[str, Any], dict[str, Any]], more: int) -> None:
    walls, roofs = house
    snow = int(roofs["R"]["snow"].split()[0])
    heavier = {"R": {**roofs["R"], "snow": f"{snow + more} psf"}}
    light, heavy = facts(walls, roofs), facts(walls, heavier)
    for mark in ("W1", "W3"):
        before, after = margins(light, mark), margins(heavy, mark)
        for name, value in before.items():
            assert after[name] >= value * (1 - 1e-9), name


@FEW
@given(houses(), st.integers(1, 8))
def test_stronger_shaking_never_raises_a_margin(house: tuple[dict[str, Any], dict[str, Any]], more: int) -> None:
    walls, roofs = house
    mild, strong = (facts(walls, roofs, site={**SITE, "sds": sds}) for sds in (0.15, 0.15 + 0.05 * more))
    for mark in walls:
        for name, grows in (("seismic_pressure", 1), ("brace_shear", 1), ("shear_stress", 1), ("anchorage_force", 1),
                            ("bending_tension", 1), ("rocking_factor", -1), ("tipping_factor", -1)):  # fmt: skip
            before, after = number(mild, f"wall.{name}", mark), number(strong, f"wall.{name}", mark)
            assert grows * (after - before) >= -1e-9 * abs(before), name


@FEW
@given(houses(), st.integers(5, 60))
def test_more_wind_never_raises_a_margin(house: tuple[dict[str, Any], dict[str, Any]], more: int) -> None:
    walls, roofs = house
    calm, rough = (facts(walls, roofs, site={**SITE, "wind_speed": f"{speed} mph"}) for speed in (90, 90 + more))
    for mark in walls:
        for name, grows in (("wind_pressure", 1), ("lateral_pressure", 1), ("lift", 1), ("uplift", 1),
                            ("anchorage_force", 1), ("beam_moment", 1), ("brace_shear", 1), ("shear_stress", 1),
                            ("hold_down_depth", 1), ("bending_tension", 1), ("rocking_factor", -1),
                            ("tipping_factor", -1), ("anchor_spacing_most", -1)):  # fmt: skip
            before, after = number(calm, f"wall.{name}", mark), number(rough, f"wall.{name}", mark)
            assert grows * (after - before) >= -1e-9 * abs(before), name


def greatest_moment(found: Facts, mark: str) -> float:
    """Out of plane, of all sections that are looked at. The fact `wall.lateral_moment` is that of the section with the
    greatest tension, which may be another one, less bent, where the wall is higher."""
    wall = found.of("wall")[mark]
    assert found.building is not None
    return max(float(one.moment) for one in bent_sections(found.building, Needs(wall), wall))


@FEW
@given(houses(), st.integers(1, 48))
def test_more_height_never_raises_a_margin(house: tuple[dict[str, Any], dict[str, Any]], more: int) -> None:
    """All walls grow by so many inches. The tension from bending is not among these: a stout wall that its own weight
    keeps pressed is pressed harder by more of it."""
    walls, roofs = house
    tall = {
        mark: {**wall, "height": f"{12 * int(wall['height'].split()[0]) + more} in"} for mark, wall in walls.items()
    }
    low, high = facts(walls, roofs), facts(tall, roofs)
    for mark in walls:
        for name, grows in (("base_stress", 1), ("base_load", 1), ("soil_load", 1), ("soil_pressure", 1),
                            ("footing_needed", 1), ("slenderness_factor", -1), ("slender_allowable", -1),
                            ("eccentric_resistance", -1), ("axial_use", 1), ("shaking_weight", 1)):  # fmt: skip
            before, after = number(low, f"wall.{name}", mark), number(high, f"wall.{name}", mark)
            assert grows * (after - before) >= -1e-9 * abs(before), (mark, name)
        assert greatest_moment(high, mark) >= greatest_moment(low, mark) * (1 - 1e-9), mark
    assert number(high, "project.base_shear") > number(low, "project.base_shear")


@FEW
@given(houses())
def test_the_shares_are_the_whole_push(house: tuple[dict[str, Any], dict[str, Any]]) -> None:
    """Under a loose roof they sum to base shear and to wind, in each direction; under a stiff one the worst of each, no
    twist taken off, sums to no less."""
    found = facts(*house)
    assert found.building is not None
    braced = braced_walls(found.building, Needs(found.of("project")["project"]))
    assert braced is not None
    pushes = {id(part.push): part.push for parts in braced.taken.values() for part in parts}
    assert {push.name for push in pushes.values()} == {"earthquake", "wind"} and len(pushes) == 4
    for key, push in pushes.items():
        parts = [part for taken in braced.taken.values() for part in taken if id(part.push) == key]
        assert math.fsum(part.loose for part in parts) == pytest.approx(push.force, rel=1e-9)
        assert math.fsum(part.stiff for part in parts) >= push.force * (1 - 1e-9)
        if push.name == "earthquake":
            assert push.force == pytest.approx(number(found, "project.base_shear"), rel=1e-12)


@FEW
@given(houses())
def test_a_thicker_wall_is_never_more_slender(house: tuple[dict[str, Any], dict[str, Any]]) -> None:
    """Thickness helps slenderness, tension under a given pressure and tipping by weight; not what is needed below."""
    walls, roofs = house
    thick = {mark: {**wall, "thickness_base": "34 in", "thickness_top": "20 in"} for mark, wall in walls.items()}
    one, other = facts(walls, roofs), facts(thick, roofs)
    for mark in walls:
        for name in ("slenderness_factor", "slender_allowable", "eccentric_resistance"):
            assert number(other, f"wall.{name}", mark) >= number(one, f"wall.{name}", mark) * (1 - 1e-9), name
        assert number(other, "wall.own_weight", mark) > number(one, "wall.own_weight", mark)
        assert number(other, "wall.base_load", mark) > number(one, "wall.base_load", mark)
