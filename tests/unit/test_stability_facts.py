"""Walls pushed square to their face and along it: how they span, tension, tipping, bracing."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.bracing.brace_forces import braced_walls
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.subjects import Facts
from compliance.facts.strength.spanning import ALONE, SIDEWAYS, UPRIGHT, stretches
from tests.unit.structural_houses import (
    FOOT,
    FREE,
    INCH,
    LBF,
    PARTS,
    PLF,
    PSF,
    PSI,
    ROOF,
    SITE,
    WALL,
    bears,
    box,
    facts,
    missing,
    number,
    opening,
    run,
)

HEAD = {"name": "Trial", "date": "2026-01-02", "stories": 1, "building_height": "14 ft", "units": "us"}


def house(
    site: dict[str, Any] | None = None, extra: dict[str, Any] | None = None, diaphragm: str = "flexible", **changes: Any
) -> Facts:
    """A box of 20 by 16 ft whose south wall is changed."""
    walls = box(20, 16) | (extra or {})
    for mark in ("W2", "W4"):
        walls[mark] |= {"line_load": "100 plf", "load_eccentricity": "0 in"}
    walls["W1"] |= changes
    roofs = {"R": {**ROOF, "bears_on": bears("W1", "W3")}}
    return facts(walls, roofs, site={**SITE, **(site or {})}, project={**HEAD, "diaphragm": diaphragm})


def mode(found: Facts, mark: str = "W1") -> object:
    return found.of("wall")[mark].fact("wall.span_mode").value


def test_how_a_wall_spans() -> None:
    assert mode(house()) == UPRIGHT and mode(house(top_restraint="roof")) == UPRIGHT
    assert mode(house(**FREE)) == SIDEWAYS
    alone = house(extra={"G": {**WALL, **FREE, "use": "garden", "run": run(30, 0, 40, 0)}})
    assert mode(alone, "G") == ALONE
    assert missing(house(top_restraint=None), "wall.span_mode") == {"walls.W1.top_restraint"}
    assert missing(house(beam=None), "wall.span_mode") == {"walls.W1.beam"}


def test_a_stretch_with_a_free_end_stands_alone() -> None:
    """A wall of 30 ft crossed at 0 and 20 ft: held on both sides there, free beyond."""
    found = house(extra={"C": {**WALL, "run": run(0, 0, 0, -8)}, "D": {**WALL, "run": run(20, 0, 20, -8)}},
                  run=run(0, 0, 30, 0), **FREE)  # fmt: skip
    parts = stretches(found.views["W1"])
    assert [(round(one.start / FOOT), round(one.end / FOOT), one.mode) for one in parts] == [
        (0, 20, SIDEWAYS), (20, 30, ALONE),
    ]  # fmt: skip
    assert mode(found) == ALONE


@pytest.mark.parametrize(("places", "spans"), [
    ((0.5, 7.5), [(0, 8, SIDEWAYS)]), ((0.5, 7.25), [(0, 7.25, SIDEWAYS), (7.25, 8, ALONE)]),
    ((0.75, 7.5), [(0, 0.75, ALONE), (0.75, 8, SIDEWAYS)]),
])  # fmt: skip
def test_an_end_is_held_where_something_meets_the_wall_within_its_thickness(
    places: tuple[float, float], spans: list[tuple[float, float, str]]
) -> None:
    """A wall 0.5 m thick and 8 m long, crossed so far from its start; numbers that floats hold exactly."""

    def metres(x0: float, y0: float, x1: float, y1: float) -> dict[str, Any]:
        return {"from": [f"{x0} m", f"{y0} m"], "to": [f"{x1} m", f"{y1} m"]}

    walls = {"W1": {**WALL, **FREE, "run": metres(0, 0, 8, 0), "thickness": "0.5 m"}}
    walls |= {mark: {**WALL, "run": metres(at, -4, at, 4)} for mark, at in zip("CD", places, strict=True)}
    found = stretches(facts(walls).views["W1"])
    assert [(one.start, one.end, one.mode) for one in found] == spans


def test_bending_sideways_between_crossing_walls() -> None:
    """w L² / 8 on 20 ft, nothing pressing: 6 M / t² with t = 16 in."""
    found = house(**FREE)
    w = max(number(found, "wall.wind_pressure"), number(found, "wall.seismic_pressure"))
    moment = w * (20 * FOOT) ** 2 / 8
    assert number(found, "wall.lateral_moment") == pytest.approx(moment)
    assert number(found, "wall.bending_tension") == pytest.approx(6 * moment / (16 * INCH) ** 2)


def test_openings_leave_less_height_to_bend_sideways() -> None:
    solid, pierced = house(**FREE), house(**FREE, openings={"A": opening(8, 3, 3, 4)})
    assert number(pierced, "wall.bending_tension") == pytest.approx(2 * number(solid, "wall.bending_tension"))
    gone = house(**FREE, openings={"A": opening(8, 3, 0, 8)}).of("wall")["W1"]
    assert gone.fact("wall.bending_tension").value == math.inf


GARDEN = {
    **WALL,
    **FREE,
    "use": "garden",
    "braces": "no",
    "bears_load": "no",
    "height": "6 ft",
    "run": run(30, 0, 42, 0),
}


def test_bending_of_a_wall_that_stands_alone() -> None:
    """w h² / 2 at the base, pressed by 0.6 - 0.14 S_DS of 110 pcf × 6 ft; the earthquake governs, 0.7 × 0.8 × 0.2 W
    at two thirds of the height: 4/3 of an even pressure."""
    found = house(extra={"G": GARDEN})
    wind, quake = number(found, "wall.wind_pressure", "G"), number(found, "wall.seismic_pressure", "G")
    assert quake == pytest.approx(4 / 3 * 0.7 * 0.8 * 0.2 * 110 * 4 / 3 * PSF, rel=1e-6)
    assert quake > wind
    pressed = (0.6 - 0.14 * 0.2) * 110 * 6 * PSF
    assert number(found, "wall.bending_tension", "G") == pytest.approx(
        3 * quake * (6 * FOOT) ** 2 / (16 * INCH) ** 2 - pressed, rel=1e-6
    )


def test_wind_on_a_wall_that_stands_alone() -> None:
    """12 by 6 ft: length over height 2, C_f = max(0.8 × 2.25, 1.45) = 1.8 (ASCE 7-10 Figure 29.4-1, recalled);
    0.6 × q × 0.85 × 1.8 with q = 0.00256 × 0.5747 × 0.85 × 110²."""
    q = 0.00256 * 0.57475 * 0.85 * 110**2
    assert number(house(extra={"G": GARDEN}), "wall.wind_pressure", "G") == pytest.approx(
        0.6 * q * 0.85 * 1.8 * PSF, rel=1e-4
    )


def test_tipping_of_a_wall_that_stands_alone() -> None:
    """(0.6 - 0.14 S_DS) W (t/2 − a) over 0.112 W at two thirds of 6 ft, a = n / (2 f) under all of its weight."""
    found = house(extra={"G": GARDEN})
    weight, f = 110 * 6 * 4 / 3 * PLF, 100 * PSI
    inset = weight / (2 * f)
    holds, tips = (0.6 - 0.14 * 0.2) * weight * (8 * INCH - inset), 0.112 * weight * 4 * FOOT
    assert number(found, "wall.rocking_factor", "G") == pytest.approx(holds / tips, rel=1e-6)


def test_a_plumb_face_makes_a_free_wall_easier_to_tip() -> None:
    taper = {"thickness": None, "thickness_base": "18 in", "thickness_top": "12 in"}
    factors = [
        number(house(extra={"G": GARDEN | taper | {"tapered_face": face}}), "wall.rocking_factor", "G")
        for face in ("both", "inside")
    ]
    assert factors[1] < factors[0]
    unsaid = house(extra={"G": GARDEN | taper})
    assert missing(unsaid, "wall.rocking_factor", "G") == {"walls.G.tapered_face"}


def test_an_inside_wall_takes_the_least_pressure_and_its_own_shaking() -> None:
    """5 psf inside (IBC 1607.14, recalled); 0.7 × max(0.4 × S_DS, 0.1) × weight, S_DS 0.5: 0.14 × 146.7 psf."""
    inner = {"I": {**WALL, "use": "interior", "line_load": "0 plf", "run": run(10, 0, 10, 16)}}
    found = house({"sds": 0.5}, inner)
    assert number(found, "wall.wind_pressure", "I") == pytest.approx(5 * PSF)
    assert number(found, "wall.seismic_pressure", "I") == pytest.approx(0.7 * 0.2 * 110 * 4 / 3 * PSF, rel=1e-6)
    assert number(found, "wall.lateral_pressure", "I") == number(found, "wall.seismic_pressure", "I")


def test_wind_names_what_it_lacks() -> None:
    found = house({"enclosure": None, "asce7": None})
    assert missing(found, "wall.wind_pressure") == {"site.asce7", "site.enclosure"}
    assert missing(house(use=None), "wall.wind_pressure") == {"walls.W1.use"}


def test_a_building_too_high_for_the_coefficients_has_no_pressure() -> None:
    project = {"name": "Trial", "date": "2026-12-30", "building_height": "70 ft"}
    tall = facts(box(20, 16), project=project).of("wall")["W1"].fact("wall.wind_pressure")
    assert tall.value is None and tall.beyond and "too high" in tall.reason


def test_ties_of_the_top() -> None:
    held, free = house(), house(**FREE)
    for name in ("anchorage_force", "anchor_spacing_most", "beam_moment"):
        assert number(held, f"wall.{name}") > 0
        reason = free.of("wall")["W1"].fact(f"wall.{name}").reason
        assert "nothing is said to hold the top" in reason
    by_roof = house(top_restraint="roof").of("wall")["W1"].fact("wall.beam_moment")
    assert by_roof.value is None and "roof is said to hold" in by_roof.reason
    strong = house({"sds": 1.2, "risk_category": "IV"})  # 0.7 × 400 × 1.2 × 1.5 = 504 plf (ASCE 7-05 12.11.2)
    assert number(strong, "wall.anchorage_force") == pytest.approx(504 * PLF, rel=1e-9)


def test_concrete_beams_state_their_moment() -> None:
    concrete = {**PARTS["beams"]["B1"], "material": "concrete"}
    found = facts(box(20, 16), beams={"B1": concrete})
    assert missing(found, "beam.moment_allowed", "B1") == {"beams.B1.moment_capacity"}
    stated = facts(box(20, 16), beams={"B1": {**concrete, "moment_capacity": "5000 lbf*ft"}})
    assert number(stated, "beam.moment_allowed", "B1") == pytest.approx(5000 * LBF * FOOT)
    bare = facts(box(20, 16), beams={"B1": {**PARTS["beams"]["B1"], "bending_stress": None, "anchors": None}})
    assert missing(bare, "beam.moment_allowed", "B1") == {"beams.B1.bending_stress"}
    assert missing(bare, "beam.anchor_capacity", "B1") == {"beams.B1.anchors.capacity"}


# ------------------------------------------------------------------------------------------------------ along the walls


def test_base_shear_of_the_building() -> None:
    """C_s = 0.2 / 1.5; V = 0.7 × C_s × W; W: the upper half of walls 72 ft long, roofs, beams, stated loads of the
    other two walls."""
    found = house()
    weight = 110 * 4 / 3 * 4 * 72 + 2 * 20 * 167.5 + 2 * 16 * 100
    assert number(found, "project.seismic_weight") == pytest.approx(weight * LBF, rel=1e-6)
    assert number(found, "project.base_shear") == pytest.approx(0.7 * 0.2 / 1.5 * weight * LBF, rel=1e-6)


def test_a_wall_that_carries_nothing_shakes_with_its_upper_half() -> None:
    found = facts({"W1": {**WALL, **FREE, "bears_load": "no", "run": run(0, 0, 20, 0)}})
    assert number(found, "wall.shaking_weight") == pytest.approx(110 * 4 / 3 * 4 * 20 * LBF, rel=1e-9)


def test_heavy_snow_shakes_too() -> None:
    """A fifth of the roof snow counts where it is above 30 psf (ASCE 7-10 12.7.2, recalled)."""

    def weight(snow: str) -> float:
        return number(
            facts(box(20, 16), {"R": {**ROOF, "snow": snow, "bears_on": bears("W1", "W3")}}), "wall.shaking_weight"
        )

    assert weight("30 psf") == pytest.approx(weight("10 psf"))
    assert weight("40 psf") - weight("30 psf") == pytest.approx(0.2 * 40 * 10 * 20 * LBF, rel=1e-6)


def stiffness(length: float) -> float:
    """t / (4 (h/L)³ + 3 h/L), all in feet: a pier with a free top, shear of masonry."""
    return 4 / 3 / (4 * (8 / length) ** 3 + 3 * 8 / length)


def stiff_share(off: float) -> float:
    """Share of the south wall of a box of 20 by 16 ft with the force `off` feet from the middle: half, and by twist."""
    k, other = stiffness(20), stiffness(16)
    return 0.5 + off * k * 8 / (2 * k * 8**2 + 2 * other * 10**2)


def test_a_box_shares_its_shear_in_halves() -> None:
    """Two equal walls each way; without a diaphragm as with a flexible one, and not stated no worse."""
    for found in (house(), house(diaphragm="none")):
        assert number(found, "wall.brace_shear") == pytest.approx(number(found, "project.base_shear") / 2, rel=1e-9)
    stress = number(house(), "wall.brace_shear") / (16 * INCH * 20 * FOOT)
    assert number(house(), "wall.shear_stress") == pytest.approx(stress, rel=1e-9)


def test_under_a_rigid_diaphragm_a_box_twists_a_little() -> None:
    """Half each, and the force 5 % of the building's width off the middle twists it."""
    found = house(diaphragm="rigid")
    shear, width = number(found, "project.base_shear"), 16 + 16 / 12
    assert number(found, "wall.brace_shear") == pytest.approx(shear * stiff_share(0.05 * width), rel=1e-6)
    assert number(found, "wall.brace_shear", "W1") == pytest.approx(number(found, "wall.brace_shear", "W3"), rel=1e-6)


@pytest.mark.parametrize("diaphragm", ["flexible", "rigid"])
def test_wind_at_the_tops_of_the_walls_where_nothing_shakes(diaphragm: str) -> None:
    """q × 0.85 × (0.8 + 0.5 to 0.3 by length over width, here 1.2308) × 0.6 on 17.33 ft by 14 ft less the lower 4 ft of
    the walls; under a rigid diaphragm 15 % off the middle."""
    found = house({"sds": 0.0}, diaphragm=diaphragm)
    q, width, length = 0.00256 * 0.57475 * 0.85 * 110**2, 16 + 16 / 12, 20 + 16 / 12
    lee = 0.5 - 0.2 * (length / width - 1)
    wind = 0.6 * q * 0.85 * (0.8 + lee) * width * 10
    steps = {step.says: step for step in found.of("wall")["W1"].fact("wall.brace_shear").steps}
    both = steps["Windward and leeward walls together"].result
    assert both.value == pytest.approx(q * 0.85 * (0.8 + lee) * PSF, rel=1e-4)
    assert both.value in [given.value for given in steps["Wind at the tops of the walls"].given]
    assert wind * LBF > number(found, "project.base_shear")
    share = stiff_share(0.15 * width) if diaphragm == "rigid" else 0.5
    assert number(found, "wall.brace_shear") == pytest.approx(wind * share * LBF, rel=1e-4)


def test_an_earthquake_pushes_where_the_walls_weigh() -> None:
    """A wall across at 5 ft of 20 draws the middle of the weight to its side; each wall's weight acts at its middle."""
    middles = {"W1": (10, 0), "W2": (20, 8), "W3": (10, 16), "W4": (0, 8), "I": (5, 8)}
    inner = {**WALL, "use": "interior", "line_load": "0 plf", "load_eccentricity": "0 in", "run": run(5, 0, 5, 16)}
    found = house(extra={"I": inner})
    assert found.building is not None
    braced = braced_walls(found.building, Needs(found.of("project")["project"]))
    assert braced is not None
    weights = {mark: number(found, "wall.shaking_weight", mark) for mark in middles}
    middle = [sum(weights[mark] * at[axis] * FOOT for mark, at in middles.items()) / sum(weights.values())
              for axis in (0, 1)]  # fmt: skip
    for parts in braced.taken.values():
        for part in parts:
            at = middle if part.push.name == "earthquake" else (10 * FOOT, 8 * FOOT)
            assert part.push.at == pytest.approx(at, rel=1e-9)


def test_walls_that_meet_in_one_point_hold_no_twist() -> None:
    """Two walls crossing at their middles brace both ways, and turn under any force beside that point."""
    cross = {"W1": {**WALL, "run": run(-10, 0, 10, 0)}, "W2": {**WALL, "run": run(0, -8, 0, 8)}}
    plain = {mark: wall | {"line_load": "100 plf", "load_eccentricity": "0 in"} for mark, wall in cross.items()}
    found = facts(plain, project={**HEAD, "diaphragm": "rigid"})
    assert found.of("project")["project"].fact("project.braced_both_ways").value is True
    for wall in found.of("wall").values():
        assert wall.fact("wall.brace_shear").value == math.inf == wall.fact("wall.shear_stress").value
        assert wall.fact("wall.tipping_factor").value == 0


@pytest.mark.parametrize("field", ["asce7", "wind_speed", "wind_exposure"])
def test_bracing_names_what_the_wind_lacks(field: str) -> None:
    assert missing(house({field: None}), "wall.brace_shear") == {f"site.{field}"}


def test_garden_walls_alone_are_no_building_to_brace() -> None:
    found = facts({"G": {**GARDEN, "height": "6 ft"}})
    need = Needs(found.of("project")["project"])
    assert found.building is not None and braced_walls(found.building, need) is None
    assert "all walls are garden walls" in need.lacking.reason


def test_lines_take_the_weight_that_stands_nearest() -> None:
    """A wall across the middle takes its own upper half and half of what stands on the long walls, of wind half of the
    building's width."""
    inner = {
        "I": {**WALL, "use": "interior", "line_load": "0 plf", "load_eccentricity": "0 in", "run": run(10, 0, 10, 16)}
    }
    found = house(extra=inner)
    steps = found.of("wall")["I"].fact("wall.brace_shear").steps
    quake = next(one for one in steps if one.says == "Share by the weight braced, earthquake")
    values = {given.symbol: float(given.value) for given in quake.given}
    weights = {mark: number(found, "wall.shaking_weight", mark) for mark in ("W1", "W2", "W3", "W4", "I")}
    braced = weights["I"] + (weights["W1"] + weights["W3"]) / 2
    assert values["W_b"] == pytest.approx(braced, rel=1e-9) and values["W"] == pytest.approx(sum(weights.values()))
    assert float(quake.result.value) == pytest.approx(values["V"] * braced / values["W"], rel=1e-9)
    wind = house({"sds": 0.0}, extra=inner).of("wall")["I"].fact("wall.brace_shear").steps
    step = next(one for one in wind if one.says == "Share by the width braced, wind")
    values = {given.symbol: float(given.value) for given in step.given}
    assert values["b"] == pytest.approx(10 * FOOT) and values["B"] == pytest.approx((20 + 16 / 12) * FOOT)


def test_the_upward_part_of_an_earthquake_takes_from_the_dead_load() -> None:
    """0.6 − 0.7 × 0.2 × S_DS (ASCE 7 combinations, recalled): 0.46 at S_DS 1."""
    steps = house({"sds": 1.0}).of("wall")["W1"].fact("wall.rocking_factor").steps
    shares = [float(one.result.value) for one in steps if one.says.startswith("Share of dead load")]
    assert shares == pytest.approx([0.46])


def test_overturning_along_the_wall_under_wind() -> None:
    """Lift, 125.75 plf, is more than 0.6 of the 167.5 plf on top: 0.6 of earth and roof less the lift stand against the
    force at the top: 0.9 × (0.6 × (23 466.7 + 167.5 × 20) − 125.75 × 20) × 20 / 2 over V × 8."""
    found = house({"sds": 0.0})
    earth, push = 110 * 4 / 3 * 8 * 20 * LBF, number(found, "wall.brace_shear")
    assert number(found, "wall.lift") > 0.6 * 167.5 * PLF
    stands = 0.6 * (earth + 167.5 * 20 * LBF) - number(found, "wall.lift") * 20 * FOOT
    assert number(found, "wall.tipping_factor") == pytest.approx(0.9 * stands * 10 / (push * 8), rel=1e-6)


def test_overturning_along_the_wall_under_an_earthquake() -> None:
    """0.9 × (0.6 − 0.7 × 0.2 × 1.2 = 0.432) of all dead load, no lift."""
    found = house({"sds": 1.2})
    earth, push = 110 * 4 / 3 * 8 * 20 * LBF, number(found, "wall.brace_shear")
    stands = 0.432 * (earth + 167.5 * 20 * LBF)
    assert number(found, "wall.tipping_factor") == pytest.approx(0.9 * stands * 10 / (push * 8), rel=1e-6)


def test_tipping_names_what_the_lift_lacks() -> None:
    roofs = {"R": {**ROOF, "overhang": None, "bears_on": bears("W1", "W2", "W3", "W4")}}
    assert missing(facts(box(20, 16), roofs), "wall.tipping_factor") == {"roofs.R.overhang"}


def test_a_wall_turned_by_any_angle_braces_the_same() -> None:
    """The building turned in the plan: nothing but the plan's directions changes."""

    def turned(degrees: float) -> Facts:
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        walls = box(20, 16)
        for wall in walls.values():
            ends = [[float(text.split()[0]) for text in wall["run"][end]] for end in ("from", "to")]
            wall["run"] = run(*(value for x, y in ends for value in (x * c - y * s + 100, x * s + y * c + 100)))
            wall |= {"line_load": "100 plf", "load_eccentricity": "0 in"}
        return facts(walls)

    straight = turned(0)
    for degrees in (17, 45, 90, 133):
        other = turned(degrees)
        for mark in ("W1", "W2"):
            for name in ("brace_shear", "shear_stress", "tipping_factor"):
                before, after = number(straight, f"wall.{name}", mark), number(other, f"wall.{name}", mark)
                assert after == pytest.approx(before, rel=1e-5), (degrees, name)


def test_under_a_rigid_diaphragm_an_open_side_sends_the_force_to_the_other() -> None:
    holes = {"A": opening(1, 8, 0, 7), "B": opening(11, 8, 0, 7)}
    pierced, whole = (house(diaphragm="rigid", openings=one) for one in (holes, {}))
    assert number(pierced, "wall.brace_shear", "W3") > number(whole, "wall.brace_shear", "W3")
    assert number(pierced, "wall.solid_share") == pytest.approx(0.2)
    assert number(pierced, "project.least_side_solid") == pytest.approx(0.2)


def test_piers_share_their_wall() -> None:
    """The mean stress of the wall lies between those of its piers; the whole of it is one block for all."""
    found = house(openings={"A": opening(4, 3), "B": opening(12, 3)})
    piers = ("W1.P1", "W1.P2", "W1.P3")
    stresses = [number(found, "pier.shear_stress", one) for one in piers]
    assert min(stresses) <= number(found, "wall.shear_stress") <= max(stresses)
    factors = {number(found, "pier.tipping_factor", one) for one in piers}
    assert len(factors) == 1 and number(found, "wall.tipping_factor") > 0


def test_walls_in_one_direction_brace_one_direction() -> None:
    walls = box(20, 16)
    for mark in ("W2", "W4"):
        walls[mark] |= {"braces": "no", "line_load": "100 plf", "load_eccentricity": "0 in"}
    rigid = {"project": {**HEAD, "diaphragm": "rigid"}}
    found = facts(walls, {"R": {**ROOF, "bears_on": bears("W1", "W3")}}, **rigid)
    assert found.of("project")["project"].fact("project.braced_both_ways").value is False
    assert found.of("wall")["W1"].fact("wall.brace_shear").value == math.inf
    assert facts(box(20, 16)).of("project")["project"].fact("project.braced_both_ways").value is True


def test_bracing_asks_every_wall_of_the_house() -> None:
    walls = box(20, 16)
    walls["W2"]["braces"] = None
    found = facts(walls, {"R": {**ROOF, "bears_on": bears("W1", "W2", "W3", "W4")}})
    assert missing(found, "wall.brace_shear") == {"walls.W2.braces"}


def test_a_bracing_wall_that_is_all_opening_braces_nothing() -> None:
    found = house(openings={"A": opening(0, 20, 0, 7)}).of("wall")["W1"]
    assert found.fact("wall.brace_shear").value == math.inf and found.fact("wall.tipping_factor").value == 0


def test_the_printed_anchorage_takes_up_every_lowered_figure() -> None:
    steps = house({"sds": 0.5}).of("wall")["W1"].fact("wall.anchorage_force").steps
    lowered = [step.result.value for step in steps if step.says.endswith("at the level of allowable stresses")]
    assert len(lowered) == 3
    assert set(lowered) <= {given.value for given in steps[-1].given}
