"""Loads of site and roof as facts: the given value first, else the derived one, else the field that is lacking."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.geometry.subjects import Facts
from compliance.facts.site.site_actions import contradictions
from compliance.findings import Standing
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    LBF,
    PLF,
    PSF,
    ROOF,
    SITE,
    bears,
    box,
    facts,
    missing,
    number,
)

MAPPED = {**SITE, "sds": None, "sd1": None, "ss": 0.97, "s1": 0.348, "site_class": "D", "site_class_measured": "yes"}


def of_site(**changes: Any) -> Facts:
    return facts(box(20, 16), site={**MAPPED, **changes})


def test_design_accelerations_follow_where_none_is_given() -> None:
    """Ss 0.970, S1 0.348, class D: S_DS 0.719 and S_D1 0.395 in a report of a public design-map service (ASCE 7-10)."""
    found = of_site(asce7="7-10")
    assert number(found, "site.sds") == pytest.approx(0.719, abs=1e-3)
    assert number(found, "site.sd1") == pytest.approx(0.395, abs=1e-3)
    assert found.of("site")["site"].fact("site.sds").steps[-1].result.symbol == "SDS"
    assert found.of("site")["site"].fact("site.sds").standing is Standing.READ


def test_the_greater_acceleration_governs_and_a_contradiction_is_told() -> None:
    found = of_site(asce7="7-10", sds=0.5, sd1=0.395)
    site = found.of("site")["site"]
    assert number(found, "site.sds") == pytest.approx(0.719, abs=1e-3)
    assert site.fact("site.sds").steps[-1].source.startswith("two statements disagree")
    assert number(of_site(asce7="7-10", sds=0.9, sd1=0.395), "site.sds") == 0.9
    assert number(of_site(asce7="7-10", sds=0.7191, sd1=0.395), "site.sds") == 0.7191
    assert site.fact("site.sds_agrees").value is False and site.fact("site.sd1_agrees").value is True
    assert found.building is not None
    told = contradictions(found.building, site)
    assert set(told) == {"sds"} and "0.500, lower than the 0.719" in told["sds"]


def test_without_both_there_is_nothing_to_compare() -> None:
    fact = of_site().of("site")["site"].fact("site.sds_agrees")
    assert fact.value is None and not fact.missing and "nothing to compare" in fact.reason


@pytest.mark.parametrize(
    ("changes", "lacks"),
    [
        ({"ss": None}, {"site.sds"}),
        ({"site_class": None}, {"site.sds"}),
        ({"asce7": None}, {"site.sds"}),
        ({"asce7": "7-22"}, {"site.sds"}),
        ({"asce7": "7-16", "site_class": "F"}, {"site.sds"}),
    ],
)
def test_what_does_not_follow_must_be_stated(changes: dict[str, Any], lacks: set[str]) -> None:
    assert missing(of_site(**changes), "site.sds") == lacks


def test_a_site_study_is_named_as_the_reason() -> None:
    assert "needs a site study" in of_site(site_class="F").of("site")["site"].fact("site.sds").reason


@pytest.mark.parametrize(
    ("by", "category"), [("asce7", "D"), ("irc-2021", "D1"), ("irc-2012", "D1")]
)  # S_DS 0.719 and S_D1 0.395: D by ASCE 7-10; above 0.67 and up to 0.83 by the residential code
def test_category_by_the_table_named(by: str, category: str) -> None:
    found = of_site(asce7="7-10", category_by=by)
    assert found.of("site")["site"].fact("site.seismic_category").value == category


def test_category_without_a_table_must_be_stated() -> None:
    assert missing(of_site(), "site.seismic_category") == {"site.seismic_category"}


def test_a_given_category_that_differs_is_told() -> None:
    found = of_site(asce7="7-10", category_by="asce7", seismic_category="B")
    site = found.of("site")["site"]
    assert site.fact("site.seismic_category").value == "D" and site.fact("site.category_agrees").value is False
    stricter = of_site(asce7="7-10", category_by="asce7", seismic_category="E").of("site")["site"]
    assert stricter.fact("site.seismic_category").value == "E"
    for alone in ({"category_by": "asce7"}, {"category_by": "asce7", "ss": None, "seismic_category": "B"}):
        fact = of_site(asce7="7-10", **alone).of("site")["site"].fact("site.category_agrees")
        assert fact.value is None and not fact.missing and "nothing to compare" in fact.reason
    assert found.building and "B, milder than the D" in contradictions(found.building, site)["seismic_category"]


@pytest.mark.parametrize(("risk", "factor"), [("I", 1.0), ("II", 1.0), ("III", 1.25), ("IV", 1.5)])
def test_importance(risk: str, factor: float) -> None:
    """1.0, 1.0, 1.25 and 1.5 (ASCE 7-10 Table 1.5-2, recalled)."""
    assert number(facts(box(20, 16), site={**SITE, "risk_category": risk}), "site.importance") == factor


def test_velocity_pressure_names_what_it_lacks() -> None:
    found = facts(box(20, 16), site={"wind_speed": "110 mph", "asce7": "7-16"})
    assert missing(found, "site.wind_pressure") == {"site.wind_exposure", "site.topographic_factor"}
    early = facts(box(20, 16), site={**SITE, "asce7": "7-05", "risk_category": "I"})
    late = facts(box(20, 16))
    assert number(early, "site.wind_pressure") == pytest.approx(0.87 * number(late, "site.wind_pressure"))


def roof(**changes: Any) -> Facts:
    return facts(box(20, 16), {"R": {**ROOF, "bears_on": bears("W1", "W3"), **changes}})


SOD = [{"material": "sod", "thickness": "6 in", "saturated_density": "100 pcf"},
       {"material": "water", "weight": "3 psf", "passing_water": "yes"}]  # fmt: skip


def test_layers_give_the_dead_load_and_passing_water_is_live() -> None:
    """6 in at 100 pcf weigh 50 psf by the definition of the units."""
    found = roof(kind="living", dead=None, slope="0 deg", layers=SOD)
    assert number(found, "roof.dead", "R") == pytest.approx(50 * PSF)
    assert number(found, "roof.water", "R") == pytest.approx(3 * PSF)
    assert number(found, "wall.top_water") == pytest.approx(30 * PLF)
    loaded = [number(found, f"wall.top_{case}") for case in ("dead", "snow", "water")]
    assert number(found, "wall.top_load") == pytest.approx(sum(loaded))


def test_a_stated_dead_load_below_its_layers_is_told() -> None:
    light = roof(kind="living", dead="20 psf", layers=SOD).of("roof")["R"]
    assert light.fact("roof.dead").value == pytest.approx(20 * PSF)
    assert light.fact("roof.dead_agrees").value is False
    heavy = roof(kind="living", dead="60 psf", layers=SOD).of("roof")["R"]
    assert heavy.fact("roof.dead_agrees").value is True


def test_a_layer_without_its_weight_is_named() -> None:
    lacking = roof(dead=None, layers=[{"material": "sod", "thickness": "6 in"}])
    assert missing(lacking, "roof.dead", "R") == {"roofs.R.layers.0.saturated_density"}
    assert missing(roof(dead=None), "roof.dead", "R") == {"roofs.R.dead"}


def test_snow_stated_then_of_the_jurisdiction_then_derived() -> None:
    """0.7 × 1.0 × 1.0 × 1.0 × 30 psf = 21 psf on a warm roof of 20° in partly exposed terrain (ASCE 7 chapter 7)."""
    assert number(roof(), "roof.snow", "R") == pytest.approx(25 * PSF)
    jurisdiction = facts(box(20, 16), {"R": {**ROOF, "snow": None, "bears_on": bears("W1", "W3")}},
                         site={**SITE, "roof_snow": "40 psf"})  # fmt: skip
    assert number(jurisdiction, "roof.snow", "R") == pytest.approx(40 * PSF)
    derived = roof(snow=None)
    assert number(derived, "roof.snow", "R") == pytest.approx(21 * PSF)
    assert derived.of("roof")["R"].fact("roof.snow").standing is Standing.RECALLED
    assert roof().of("roof")["R"].fact("roof.snow_agrees").value is True
    assert roof(snow="20 psf").of("roof")["R"].fact("roof.snow_agrees").value is False
    assert missing(roof(snow=None, warmth=None), "roof.snow", "R") == {"roofs.R.snow"}


def test_the_share_of_the_roof_that_is_carried() -> None:
    """Two walls of 20 ft with 10 ft each carry 400 of 400 or of 500 square feet."""
    assert number(roof(plan_area="400 ft2", length="20 ft"), "roof.carried_share", "R") == pytest.approx(1)
    assert number(roof(plan_area="500 ft2", length="20 ft"), "roof.carried_share", "R") == pytest.approx(0.8)
    assert missing(roof(), "roof.carried_share", "R") == {"roofs.R.plan_area", "roofs.R.rake"}


@pytest.mark.parametrize(
    ("changes", "left", "pull"),
    [
        # w = 15 + 25 = 40 psf; 40 × 16² / (8 × 4) = 320 plf, statics of a three-hinged frame
        ({}, 0, 640), ({"thrust_held_by": "none"}, 320, None), ({"tie_height": "1 ft 4 in"}, 0, 960),
        ({"tie_height": "2 ft"}, 320, 1280), ({"thrust_held_by": "ridge-beam"}, 0, None),
        ({"thrust_held_by": "no-thrust", "slope": "4 deg"}, 0, None),
        ({"kind": "trussed", "thrust_held_by": "none"}, 0, None),
        ({"thrust_held_by": "bond-beam"}, 0, None),
    ],
)  # fmt: skip
def test_thrust_of_rafters_and_what_holds_it(changes: dict[str, Any], left: float, pull: float | None) -> None:
    found = roof(**changes)
    subject = found.of("roof")["R"]
    assert number(found, "roof.thrust_left", "R") == pytest.approx(left * PLF)
    tie = subject.fact("roof.tie_force")
    assert tie.value == (None if pull is None else pytest.approx(pull * LBF))
    assert bool(tie.reason) == (pull is None)
    assert number(found, "wall.top_thrust") == pytest.approx(left * PLF)
    assert found.of("wall")["W1"].fact("wall.thrust_held").value is (left == 0)


def test_pitched_rafters_push_whatever_is_said_of_them() -> None:
    """By hand as above: 320 plf; a word does not hold them."""
    assert missing(roof(thrust_held_by="no-thrust"), "roof.thrust_left", "R") == {"roofs.R.thrust_held_by"}


def test_a_tie_is_said_to_be_low_enough_or_too_high() -> None:
    """Up to a third of the rise, here 16 in of 4 ft (reference file screening)."""
    for height, says in (("1 ft 4 in", "low enough"), ("17 in", "too high")):
        steps = roof(tie_height=height).of("roof")["R"].fact("roof.thrust_left").steps
        assert says in next(one for one in steps if one.formula == "c × f").says


def test_a_ridge_beam_carries_half_the_span_less_what_the_eaves_balance() -> None:
    """Each slope is a beam over 8 ft with 2 ft 8 in past the wall: (8² − 2.667²) / 8 = 7.111 ft at 40 psf (statics)."""
    held = roof(thrust_held_by="ridge-beam")
    assert number(held, "roof.ridge_load", "R") == pytest.approx(40 * (8**2 - (8 / 3) ** 2) / 8 * PLF)


def test_a_straight_bond_beam_that_holds_the_thrust_is_bent_by_it() -> None:
    held, free = roof(thrust_held_by="bond-beam"), roof()
    more = number(held, "wall.beam_moment") - number(free, "wall.beam_moment")
    assert number(held, "wall.beam_thrust") == pytest.approx(320 * PLF)
    assert more == pytest.approx(320 * PLF * (20 * FOOT) ** 2 / 8)


def test_a_round_roof_pulls_its_ring() -> None:
    """w R / (6 f) × R with rafters that meet in a point: 40 × 8² / (6 × 4) = 106.7 plf, × 8 = 853.3 lbf."""
    found = roof(kind="reciprocal", radius="8 ft", ring_radius="0 ft", thrust_held_by="ring", ring_capacity="900 lbf")
    assert number(found, "roof.thrust", "R") == pytest.approx(106.667 * PLF, rel=1e-5)
    assert number(found, "roof.ring_tension", "R") == pytest.approx(853.333 * LBF, rel=1e-5)
    assert number(found, "roof.ring_capacity", "R") == pytest.approx(900 * LBF)
    for ring in ("8 ft", "9 ft"):
        wide = roof(kind="reciprocal", radius="8 ft", ring_radius=ring, thrust_held_by="ring")
        assert missing(wide, "roof.thrust", "R") == {"roofs.R.ring_radius"}
        assert "outside the wall" in wide.of("roof")["R"].fact("roof.thrust").reason
    assert missing(roof(kind="reciprocal", thrust_held_by="ring"), "roof.thrust", "R") == {
        "roofs.R.radius", "roofs.R.ring_radius",
    }  # fmt: skip


@pytest.mark.parametrize("kind", ["vault", "other"])
def test_the_thrust_of_other_roofs_is_not_guessed(kind: str) -> None:
    fact = roof(kind=kind, thrust_held_by="none").of("roof")["R"].fact("roof.thrust")
    assert fact.value is None and "for an engineer" in fact.reason


def test_what_two_roofs_lift_comes_together() -> None:
    """Roofs with eaves of 2 ft, 10 and 6 ft of them on the wall: 125.75 plf (see below), and 11.667 × 4 + 16.206 × 2
    = 79.08 plf."""
    roofs = {
        "R": {**ROOF, "bears_on": bears("W1", "W3")},
        "S": {**ROOF, "bears_on": bears("W1", tributary="6 ft")},
    }
    fact = facts(box(20, 16), roofs).of("wall")["W1"].fact("wall.lift")
    assert fact.value == pytest.approx((125.75 + 79.08) * PLF, rel=1e-3)
    one, other, both = [step for step in fact.steps if step.result.kind == "line_load"]
    assert [step.result.symbol for step in (one, other)] == ["p1", "p2"] and both.formula == "p1 + p2"
    assert [recomputed(step) for step in (one, other, both)] == pytest.approx(
        [125.75 * PLF, 79.08 * PLF, (125.75 + 79.08) * PLF], rel=1e-3
    )
    alone = roof().of("wall")["W1"].fact("wall.lift")
    assert alone.steps[-1].formula == "u × b" and alone.steps[-1].result.symbol == "p1"


def test_uplift_is_what_the_weight_does_not_hold() -> None:
    """Suction (11.667 × 8 + 16.206 × 2) / 10 = 12.575 psf less 0.6 × dead, on 10 ft (see the hand-worked wall)."""
    assert number(roof(), "wall.lift") == pytest.approx(125.75 * PLF, rel=1e-3)
    assert number(roof(), "roof.line_uplift", "R") == pytest.approx((125.75 - 0.6 * 150) * PLF, rel=2e-3)
    assert number(roof(dead="40 psf"), "wall.uplift") == 0 == number(roof(dead="40 psf"), "wall.hold_down_depth")
    anchors = roof(uplift_anchor_spacing="4 ft", uplift_anchor="300 lbf")
    assert number(anchors, "roof.anchor_uplift", "R") == pytest.approx(4 * 35.75 * LBF, rel=2e-3)
    depth = number(anchors, "wall.hold_down_depth")
    assert depth == pytest.approx(35.75 / (0.6 * 110 * 16 / 12) * FOOT, rel=2e-3)
    assert missing(roof(overhang=None), "wall.uplift") == {"roofs.R.overhang"}


def test_a_wind_speed_of_the_older_map_is_converted() -> None:
    """110 / √0.6 = 142.0 mph, the limit of IBC 2109 as the table of IBC 2021 section 1609.3.1 gives it."""
    mph = 0.44704
    assert number(of_site(asce7="7-05"), "site.wind_speed") / mph == pytest.approx(142.0, abs=0.05)
    assert number(of_site(asce7="7-10"), "site.wind_speed") / mph == pytest.approx(110)


@pytest.mark.parametrize(("group", "stated", "swells"), [("CH", "no", True), ("SM", "no", False), ("SM", "yes", True)])
def test_a_soil_group_that_swells_governs(group: str, stated: str, swells: bool) -> None:
    found = of_site(asce7="7-10", soil_group=group, expansive_soil=stated)
    site = found.of("site")["site"]
    assert site.fact("site.expansive_soil").value is swells


@pytest.mark.parametrize(("height", "stated", "used"), [(8, 13, 13), (17, 13, 22.5), (9.5, 13, 13)])
def test_walls_higher_than_stated_make_the_building_higher(height: float, stated: float, used: float) -> None:
    """Walls on a stem of 1 ft under a beam of 6 in and a rise of 4 ft: 17 + 1 + 0.5 + 4 ft, where half of the rise
    alone passes 13 ft."""
    walls = {mark: {**wall, "height": f"{height} ft"} for mark, wall in box(20, 16).items()}
    head = {"name": "Trial", "date": "2026-01-02", "stories": 1, "building_height": f"{stated} ft"}
    found = facts(walls, {"R": {**ROOF, "bears_on": bears("W1", "W3")}}, project=head)
    assert number(found, "project.building_height") / 0.3048 == pytest.approx(used)


def test_a_wall_of_the_second_story_makes_two() -> None:
    walls = box(20, 16)
    walls["W1"] |= {"story": 2}
    assert number(facts(walls), "project.stories") == 2 and number(facts(box(20, 16)), "project.stories") == 1


def test_an_open_side_is_not_enclosed() -> None:
    walls = box(20, 16)
    walls.pop("W1")
    for found, enclosure, agrees in (
        (facts(walls), "partially enclosed", False),
        (facts(box(20, 16)), "enclosed", True),
    ):
        site = found.of("site")["site"]
        assert (site.fact("site.enclosure").value, site.fact("site.enclosure_agrees").value) == (enclosure, agrees)
