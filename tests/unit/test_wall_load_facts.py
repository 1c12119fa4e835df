"""Loads on and in a wall: what is stated and what follows, taper, loads off the middle, single loads, what lacks."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.geometry.subjects import Facts
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    GRAVITY,
    INCH,
    LBF,
    PARTS,
    PLF,
    PSF,
    PSI,
    ROOF,
    WALL,
    bears,
    box,
    described,
    facts,
    facts_of,
    missing,
    number,
    opening,
    run,
)


def wall(roofed: bool = False, roof: dict[str, Any] | None = None, **changes: Any) -> Facts:
    walls = box(20, 16)
    walls["W1"] |= changes
    roofs = {"R": {**ROOF, "bears_on": bears("W1", "W3"), **(roof or {})}} if roofed else {}
    return facts(walls, roofs)


BEAM = 17.5  # plf: 12 by 6 in of wood at 35 pcf


@pytest.mark.parametrize(
    ("roofed", "changes", "top"),
    [
        (False, {"line_load": "300 plf"}, 300), (True, {}, 417.5), (True, {"line_load": "300 plf"}, 417.5),
        (True, {"line_load": "500 plf"}, 500), (False, {"bears_load": "no"}, BEAM),
        (False, {"bears_load": "no", "beam": None, "top_restraint": "free"}, 0),
    ],
)  # fmt: skip
def test_the_greater_of_the_stated_and_the_derived_load_counts(
    roofed: bool, changes: dict[str, Any], top: float
) -> None:
    found = wall(roofed, **changes)
    assert number(found, "wall.top_load") == pytest.approx(top * PLF)
    agrees = found.of("wall")["W1"].fact("wall.load_agrees")
    both = roofed and "line_load" in changes
    assert agrees.value is ((top == 500) if both else None) and bool(agrees.reason) is not both


@pytest.mark.parametrize(("stated", "agrees"), [("417.5 plf", True), ("417.49 plf", False)])
def test_a_load_stated_just_as_it_follows_agrees(stated: str, agrees: bool) -> None:
    """15 × 10 + 17.5 of the beam + 25 × 10 = 417.5 plf, but for the last digits."""
    assert wall(True, line_load=stated).of("wall")["W1"].fact("wall.load_agrees").value is agrees


def test_no_load_bears_off_the_middle() -> None:
    """Where bears what weighs nothing is not asked; where bears the least load is."""
    assert number(wall(line_load="0 plf"), "wall.load_offset") == 0
    assert missing(wall(line_load="1 plf"), "wall.load_offset") == {"walls.W1.load_eccentricity"}


@pytest.mark.parametrize(
    ("changes", "lacks"),
    [
        ({}, {"walls.W1.line_load"}),
        ({"bears_load": None}, {"walls.W1.bears_load"}),
    ],
)
def test_a_wall_without_a_roof_says_what_it_carries(changes: dict[str, Any], lacks: set[str]) -> None:
    assert missing(wall(**changes), "wall.top_load") == lacks


def test_every_field_that_lacks_is_named_at_once() -> None:
    found = wall(True, {"dead": None, "overhang": None, "bears_on": [{"wall": "W1"}]}, outside=None, mix=None)
    assert missing(found, "wall.base_stress") == {
        "roofs.R.dead", "roofs.R.bears_on.0.tributary", "roofs.R.bears_on.0.eccentricity", "walls.W1.outside",
        "walls.W1.mix",
    }  # fmt: skip


def test_an_unstated_density_is_taken_by_form_and_says_so() -> None:
    plain = {"mixes": {"M1": {"name": "mix", "parts": {"S1": 1.0}}}}
    found = facts(box(20, 16), **plain)
    fact = found.of("wall")["W1"].fact("wall.unit_weight")
    assert fact.value == pytest.approx(110 * 16.018463, rel=1e-6) and fact.standing is not None
    assert "not stated: taken for cob" in fact.steps[0].says and "AU106.2" in fact.steps[0].source
    sod = {"mixes": {"M1": {"name": "mix", "parts": {"S1": 1.0}, "form": "cut-sod"}}}
    assert missing(facts(box(20, 16), **sod), "wall.unit_weight") == {"mixes.M1.dry_density"}


def test_finishes_weigh_by_material_or_as_stated() -> None:
    outside = [
        {"material": "lime", "thickness": "1 in"},
        {"material": "siding", "thickness": "1 in", "density": "36 pcf"},
    ]
    assert number(wall(outside=outside), "wall.finish_weight") == pytest.approx((110 + 36) / 12 * PSF, rel=1e-6)
    assert missing(wall(outside=[{"material": "siding", "thickness": "1 in"}]), "wall.finish_weight") == {
        "walls.W1.outside.0.density"
    }


def test_finishes_press_the_earth_below_them() -> None:
    """Lime of 1 in on both faces, 110 pcf: 18.33 psf, 4 ft of it at mid-height beside 586.7 plf of earth and 417.5."""
    lime = [{"material": "lime", "thickness": "1 in"}]
    found = wall(True, outside=lime, inside=lime)
    whole = 417.5 + 110 * 4 / 3 * 4 + 2 * 110 / 12 * 4
    assert number(found, "wall.middle_stress") == pytest.approx(whole / 192 * PSI, rel=1e-6)
    step = next(one for one in found.of("wall")["W1"].fact("wall.finish_weight").steps if "finishes" in one.says)
    assert recomputed(step) == pytest.approx(2 * 110 / 12 * PSF, rel=1e-6)


def test_load_off_the_middle_fades_to_the_base_of_a_held_wall() -> None:
    """e = 2 in on 417.5 plf at the top, on a beam of 12 in: σ = 417.5 / 144 × (1 + 6 × 2 / 12) = 5.799 psi."""
    found = wall(True, {"bears_on": bears("W1", "W3", eccentricity="2 in")})
    assert number(found, "wall.top_stress") == pytest.approx(417.5 / 144 * 2 * PSI, rel=1e-6)
    assert number(found, "wall.eccentricity") == pytest.approx(2 / 12)
    assert number(found, "wall.base_stress") == pytest.approx((417.5 + 110 * 4 / 3 * 8) / 192 * PSI, rel=1e-6)


def test_load_past_the_middle_third_opens_an_edge_and_past_the_beam_has_no_answer() -> None:
    opened = wall(True, {"bears_on": bears("W1", "W3", eccentricity="3 in")})
    assert number(opened, "wall.eccentricity") == pytest.approx(0.25)
    assert number(opened, "wall.top_stress") == pytest.approx(2 * 417.5 / (3 * 3 * 12) * PSI, rel=1e-6)
    beyond = wall(True, {"bears_on": bears("W1", "W3", eccentricity="7 in")}).of("wall")["W1"]
    assert beyond.fact("wall.top_stress").value == float("inf")


FREE: dict[str, Any] = {"top_restraint": "free", "beam": None, "bears_load": "no"}
TAPER: dict[str, Any] = {"thickness": None, "thickness_base": "20 in", "thickness_top": "12 in"}


def test_a_taper_must_say_which_face_leans() -> None:
    assert missing(wall(**FREE, **TAPER), "wall.base_stress") == {"walls.W1.tapered_face"}
    even = number(wall(**FREE, **TAPER, tapered_face="both"), "wall.base_stress")
    assert even == pytest.approx(110 * 8 * 16 / 12 / (20 * 12) * PSI, rel=1e-6)


def test_one_plumb_face_puts_the_weight_off_the_middle() -> None:
    """Centroid of a trapezium from its plumb face: (20² + 20 × 12 + 12²) / (3 × 32) = 8.1667 in; 10 − 8.1667 off."""
    found = wall(**FREE, **TAPER, tapered_face="inside")
    mean, off = 110 * 8 * 16 / 12 / (20 * 12), 10 - (400 + 240 + 144) / 96
    assert number(found, "wall.base_stress") == pytest.approx(mean * (1 + 6 * off / 20) * PSI, rel=1e-6)


def test_a_load_off_the_top_of_a_free_wall_with_one_plumb_face_is_farther_off_its_base() -> None:
    """500 plf 2 in off the middle of the top, which stands (20 − 12) / 2 in off that of the base: 6 in. The wall's own
    1173.3 plf are 10 − 8.1667 in off (above). e = (500 × 6 + 1173.3 × 1.8333) / 1673.3 = 3.0784 in: no edge opens."""
    carrying = {**FREE, **TAPER, "bears_load": "yes", "line_load": "500 plf", "load_eccentricity": "2 in"}
    found = wall(**carrying, tapered_face="inside")
    own = 110 * 8 * 16 / 12
    off = (500 * 6 + own * (10 - 784 / 96)) / (500 + own)
    assert number(found, "wall.base_stress") == pytest.approx((500 + own) / 240 * (1 + 6 * off / 20) * PSI, rel=1e-6)
    even = wall(**carrying, tapered_face="both")
    off = 500 * 2 / (500 + own)
    assert number(even, "wall.base_stress") == pytest.approx((500 + own) / 240 * (1 + 6 * off / 20) * PSI, rel=1e-6)


LOAD = {"at": "10 ft", "dead": "600 lbf", "live": "100 lbf", "snow": "300 lbf", "length": "12 in", "width": "10 in",
        "eccentricity": "0 in"}  # fmt: skip


def test_a_single_load_presses_under_its_plate_and_spreads_below() -> None:
    """900 lbf: 7.5 psi on 120 in²; from mid-height down on 1 + 8 / 2 = 5 ft (Taly, Design of Reinforced Masonry
    Structures, p. 223), which is less than a plate and four thicknesses, 6.33 ft."""
    bare, loaded = wall(line_load="100 plf", load_eccentricity="0 in"), wall(
        line_load="100 plf", load_eccentricity="0 in", loads={"P": LOAD})  # fmt: skip
    assert number(loaded, "wall.point_load") == pytest.approx(900 * LBF)
    assert number(loaded, "wall.point_pressure") == pytest.approx(7.5 * PSI, rel=1e-6)
    more = number(loaded, "wall.base_stress") - number(bare, "wall.base_stress")
    assert more == pytest.approx(900 / (5 * 12 * 16) * PSI, rel=1e-4)
    assert number(loaded, "wall.load_in") - number(bare, "wall.load_in") == pytest.approx(900 * LBF)
    assert number(loaded, "wall.load_balance") <= 1e-9


def test_a_single_load_without_its_plate_lacks_it() -> None:
    plate = {**LOAD, "length": None, "width": None, "eccentricity": None}
    found = wall(line_load="100 plf", load_eccentricity="0 in", loads={"P": plate})
    of_plate = {"walls.W1.loads.P.length", "walls.W1.loads.P.width"}
    assert missing(found, "wall.base_stress") == of_plate
    assert missing(found, "wall.point_pressure") == {*of_plate, "walls.W1.loads.P.eccentricity"}


def test_without_single_loads_there_is_nothing_to_say() -> None:
    fact = wall(line_load="100 plf").of("wall")["W1"].fact("wall.point_pressure")
    assert not fact.missing and "no single load" in fact.reason


def test_a_narrow_pier_carries_what_stands_over_the_openings_beside_it() -> None:
    """A pier of 1 ft between two openings of 4 ft takes 5 ft of the load on top."""
    found = wall(line_load="300 plf", load_eccentricity="0 in", openings={"A": opening(4, 4), "B": opening(9, 4)})
    over, own = 110 * 4 / 3 * 2, 110 * 4 / 3 * 8
    assert number(found, "pier.base_load", "W1.P2") == pytest.approx((300 * 5 + over * 4 + own) * LBF, rel=1e-6)
    assert number(found, "wall.base_load") == pytest.approx((300 * 5 + over * 4 + own) * PLF, rel=1e-6)


@pytest.mark.parametrize(("start", "width"), [(8, 2), (3, 2.6667), (2.1, 1.1), (2.3333, 1.5), (4.25, 1.1)])
def test_openings_that_touch_are_one_whatever_the_last_digit(start: float, width: float) -> None:
    """Two openings of one sill and head side by side load the wall as one as wide as both; so do two of one width, the
    one upon the other, as one as high as both. A sum of lengths that ends a last digit off must change nothing."""
    alike = ("wall.base_load", "wall.base_stress", "wall.soil_load", "wall.brace_shear", "wall.shear_stress",
             "wall.rocking_factor", "wall.load_balance")  # fmt: skip

    def loaded(**openings: Any) -> dict[str, float]:
        found = wall(True, {"bears_on": bears("W1", "W2", "W3", "W4")}, openings=openings)
        return {name: number(found, name) for name in alike}

    def agree(one: dict[str, float], other: dict[str, float]) -> bool:
        return one == pytest.approx(other, rel=1e-7, abs=1e-9)

    beside = loaded(A=opening(start, width), B=opening(start + width, 1.3))
    assert agree(beside, loaded(A=opening(start, width + 1.3)))
    upon = loaded(A=opening(2, 3, start / 3, width), B=opening(2, 3, start / 3 + width, 1.3))
    assert agree(upon, loaded(A=opening(2, 3, start / 3, width + 1.3)))


def test_an_opening_at_the_very_end_leaves_its_load_with_nothing_to_stand_on() -> None:
    found = wall(line_load="300 plf", load_eccentricity="0 in", openings={"A": opening(0, 4)})
    subject = found.of("wall")["W1"]
    for name in ("base_load", "greatest_stress", "soil_load", "footing_needed", "soil_pressure", "bending_tension"):
        assert subject.fact(f"wall.{name}").value == float("inf"), name
    assert subject.fact("wall.rocking_factor").value == 0
    assert number(found, "wall.load_balance") <= 1e-9


def test_axial_forms_and_their_use() -> None:
    found = wall(True)
    parts = {name: number(found, f"wall.{name}") for name in (
        "greatest_stress", "slender_allowable", "base_load", "eccentric_resistance")}  # fmt: skip
    uses = parts["greatest_stress"] / parts["slender_allowable"], parts["base_load"] / parts["eccentric_resistance"]
    worst = max(uses)
    assert number(found, "wall.axial_use") == pytest.approx(worst)


def test_a_free_top_counts_twice_the_height() -> None:
    assert number(wall(**FREE), "wall.effective_height") == pytest.approx(16 * FOOT)
    assert number(wall(True), "wall.effective_height") == pytest.approx(8 * FOOT)


def test_a_load_far_off_the_middle_leaves_no_resistance() -> None:
    found = wall(True, {"bears_on": bears("W1", "W3", eccentricity="8 in")})
    assert number(found, "wall.eccentric_resistance") == pytest.approx(0, abs=1e-6 * PLF)


def test_strengths_are_the_lowest_tested_or_lacking() -> None:
    assert number(wall(True), "mix.lowest_compression", "M1") == pytest.approx(100 * PSI)
    assert number(wall(True), "mix.lowest_rupture", "M1") == pytest.approx(60 * PSI)
    untested = facts_of(described(box(20, 16)), {})
    assert missing(untested, "mix.lowest_compression", "M1") == {"rows of set C1"}
    none = facts_of(described(box(20, 16), test_sets={}), {})
    assert missing(none, "wall.bearing_allowed") == {"a compression set of mix M1 under test_sets:"}


def test_shares_of_the_strength() -> None:
    """A quarter under plates, 0.40 × 0.025 in shear (Peru E.080:2017, reported), 0.025 / 1.5 in one pier, a third on a
    toe, a third of the rupture in tension (reference file screening)."""
    found = wall(True)
    shares = (("bearing_allowed", 25), ("shear_allowed", 1.0), ("pier_shear_allowed", 2.5 / 1.5),
              ("toe_allowed", 100 / 3), ("tension_allowed", 20))  # fmt: skip
    for name, share in shares:
        assert number(found, f"wall.{name}") == pytest.approx(share * PSI, rel=1e-5)


def test_a_pier_spreads_to_the_middle_of_an_opening_at_most() -> None:
    """Stem wall 2 ft high, so 2 ft at 45°, but 1 ft to the middle of a window of 2 ft: 9 + 1 ft share 417.5 × 10 +
    293.3 + 1173.3 × 9 lbf; 440 plf under the sill and 400 plf of stem wall come to it."""
    found = wall(True, openings={"A": opening(9, 2)})
    pier = 417.5 * 10 + 110 * 4 / 3 * (2 + 8 * 9)
    assert number(found, "wall.soil_load") == pytest.approx((pier / 10 + 440 + 400) * PLF, rel=1e-6)


def test_the_higher_sill_beside_a_pier_counts() -> None:
    """A pier of 12 ft between windows of 2 ft, sills at 3 and 1 ft: 14 ft share it, with 440 plf under one sill."""
    for sills in ((3, 1), (1, 3)):
        windows = {mark: opening(at, 2, sill, 6 - sill) for mark, at, sill in zip("AB", (2, 16), sills, strict=True)}
        found = wall(line_load="300 plf", load_eccentricity="0 in", openings=windows)
        pier = 300 * 14 + 110 * 4 / 3 * (2 * 2 + 8 * 12)
        assert number(found, "wall.soil_load") == pytest.approx((pier / 14 + 440 + 400) * PLF, rel=1e-6)


def footing(**changes: Any) -> Facts:
    return facts(box(20, 16), {"R": {**ROOF, "bears_on": bears("W1", "W3")}},
                 footings={"F1": {**PARTS["footings"]["F1"], **changes}})  # fmt: skip


def test_footing_that_uses_up_the_soil_has_no_width() -> None:
    assert footing(thickness="14 ft", bottom="15 ft").of("wall")["W1"].fact("wall.footing_needed").value == float("inf")


def test_plain_footing_bends_by_its_projection() -> None:
    """q = 1.5 × … net of its weight, projection 4 in, depth 12 − 2 in: 3 × q × (4/10)² (under a concrete stem)."""
    found = footing()
    net = number(found, "wall.soil_pressure") - 150 * 16.018463 * GRAVITY * FOOT
    assert number(found, "wall.footing_tension") == pytest.approx(3 * net * 0.16, rel=1e-6)
    assert number(found, "wall.footing_tension_allowed") == pytest.approx(1.6 * 50 * PSI, rel=1e-6)
    rubble = footing(kind="rubble-trench").of("wall")["W1"].fact("wall.footing_tension")
    assert rubble.value is None and "not of concrete" in rubble.reason
    assert footing(thickness="2 in").of("wall")["W1"].fact("wall.footing_tension").value == float("inf")


def test_projection_may_be_below_zero() -> None:
    assert number(footing(width="12 in"), "wall.footing_projection") == pytest.approx(-2 * INCH)


def test_lintels_of_other_kinds() -> None:
    openings = {
        "A": opening(4, 3, lintel={"material": "arch"}),
        "B": opening(9, 3, 0, 8, lintel={"material": "bond-beam"}),
        "C": opening(14, 2, lintel={"material": "wood"}),
    }
    found = wall(line_load="300 plf", openings=openings)
    arch = found.of("opening")["W1.A"].fact("opening.lintel_bending")
    assert arch.value is None and "arch" in arch.reason and not arch.missing
    beam = number(found, "opening.lintel_bending", "W1.B")
    assert beam == pytest.approx(300 * 9 / 8 / (12 * 36 / 6) * 12 * PSI, rel=1e-6)
    assert number(found, "opening.bending_allowed", "W1.B") == pytest.approx(850 * PSI)
    assert "bond beam" in found.of("opening")["W1.B"].fact("opening.lintel_pressure").reason
    assert missing(found, "opening.lintel_bending", "W1.C") == {
        f"walls.W1.openings.C.lintel.{name}" for name in ("width", "depth", "bearing")
    }
    assert missing(found, "opening.shear_allowed", "W1.C") == {"walls.W1.openings.C.lintel.shear_stress"}
    resting = wall(line_load="1 plf", openings={"A": opening(4, 3, lintel={"material": "wood", "width": "9 in",
                   "depth": "6 in", "bearing": "0 in"})})  # fmt: skip
    assert missing(resting, "opening.lintel_shear", "W1.A") == {"walls.W1.openings.A.lintel.bearing"}


def test_a_single_load_over_an_opening_bends_its_lintel() -> None:
    """A force in the middle of the span adds P L / 4: 900 lbf on 5 ft add 1125 lbf·ft, 187.5 psi of 72 in³."""
    openings, load = {"A": opening(8, 4)}, {"P": {**LOAD, "at": "10 ft"}}
    bare = wall(line_load="100 plf", openings=openings)
    loaded = wall(line_load="100 plf", openings=openings, loads=load)
    more = number(loaded, "opening.lintel_bending", "W1.A") - number(bare, "opening.lintel_bending", "W1.A")
    assert more == pytest.approx(187.5 * PSI, rel=1e-6)


@pytest.mark.parametrize("at", [8, 12])
def test_a_single_load_at_the_jamb_rests_on_the_lintel_too(at: float) -> None:
    """900 lbf half of the bearing, 6 in, from the end of a span of 5 ft: 0.9 of it on that end, over 72 in²."""
    openings, load = {"A": opening(8, 4)}, {"P": {**LOAD, "at": f"{at} ft"}}
    bare = wall(line_load="100 plf", openings=openings)
    loaded = wall(line_load="100 plf", openings=openings, loads=load)
    more = number(loaded, "opening.lintel_shear", "W1.A") - number(bare, "opening.lintel_shear", "W1.A")
    assert more == pytest.approx(1.5 * 0.9 * 900 / 72 * PSI, rel=1e-6)


def test_a_garden_wall_stands_by_itself() -> None:
    walls = box(20, 16) | {"G": {**WALL, "use": "garden", **FREE, "braces": "no", "run": run(30, 0, 40, 0),
                                 "height": "5 ft"}}  # fmt: skip
    found = facts(walls)
    assert number(found, "wall.own_weight", "G") == pytest.approx(110 * 5 * 4 / 3 * PLF, rel=1e-6)
    assert found.of("wall")["G"].fact("wall.span_mode").value == "alone"
    assert "not counted on to brace" in found.of("wall")["G"].fact("wall.brace_shear").reason


def test_a_wall_under_another_story_states_what_it_carries() -> None:
    """Floors and walls above are not added up: left out they would only make the wall look lighter loaded."""
    upper = {**WALL, "run": run(0, 0, 20, 0), "story": 2, "line_load": "200 plf", "load_eccentricity": "0 in"}
    walls = box(20, 16) | {"U": upper}
    found = facts(walls, {"R": {**ROOF, "bears_on": bears("W1", "W3", "W2", "W4")}})
    assert missing(found, "wall.top_load") == {"walls.W1.line_load"}
    assert "story stands above" in found.of("wall")["W1"].fact("wall.top_load").reason
    assert number(found, "wall.top_load", "U") == pytest.approx(200 * PLF)
    by_number = facts(box(20, 16), {"R": {**ROOF, "bears_on": bears("W1")}},
                      project={"name": "Trial", "date": "2026-12-30", "stories": 2})  # fmt: skip
    assert missing(by_number, "wall.top_load") == {"walls.W1.line_load"}
    assert "one story only" in found.of("wall")["W1"].fact("wall.brace_shear").reason
