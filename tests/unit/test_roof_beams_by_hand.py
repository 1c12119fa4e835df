"""Ridge beams, purlins, rakes and uneven snow, worked by hand in feet and pounds. Statics; figures invented."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.geometry.subjects import Facts
from compliance.facts.loads.roof_beams import reactions
from compliance.facts.loads.tributary import beside_ridge_beam, on_ridge_beam
from compliance.facts.site.snow_unbalanced import drift_height, leeward_share
from tests.unit.structural_houses import LBF, PLF, PSF, ROOF, SITE, WALL, box, facts, missing, number, run


def test_a_rafter_with_an_overhang() -> None:
    """Half span 6 ft, 2 ft past the wall, 70 psf: wall 70 × 8² / 12 = 373.3, ridge 70 × (36 − 4) / 6 = 373.3 plf."""
    wall, ridge = beside_ridge_beam(6.0, 2.0), on_ridge_beam(6.0, 2.0)
    assert 70 * wall == pytest.approx(373.33, rel=1e-4) and 70 * ridge == pytest.approx(373.33, rel=1e-4)
    assert 2 * wall + ridge == pytest.approx(16)


def test_a_ridge_beam_over_both_rakes() -> None:
    """16 ft with rakes of 2 ft, 373.3 plf: 3,733 lb at each end."""
    assert [373.333 * one for one in reactions([0.0, 16.0], 2.0, 2.0)] == pytest.approx([3733.3, 3733.3], rel=1e-4)
    assert sum(reactions([0.0, 10.0], 1.0, 4.0)) == pytest.approx(15)
    # moments about the second support: R (10) = 11² / 2 − 4² / 2
    assert reactions([0.0, 10.0], 1.0, 4.0)[0] == pytest.approx((121 - 16) / 20)


def test_an_inner_support_takes_that_of_a_continuous_beam() -> None:
    """Two even spans: 1.25 w L in the middle (handbook value), never less than the simple spans give."""
    assert reactions([0.0, 8.0, 16.0], 0.0, 0.0) == pytest.approx([4, 10, 4])


PLATE = {"length": "24 in", "width": "12 in", "eccentricity": "0 in"}


def under(*, beams: Any = None, length: str | None = "20 ft", **changes: Any) -> Facts:
    """A box of 20 by 16 ft, 16 in walls, eaves of 2 ft; the roof ends over the middle of the end walls."""
    bears = [{"wall": wall, "eccentricity": "0 in"} for wall in ("W1", "W3")]
    made = {**ROOF, "bears_on": bears, "length": length} | changes
    return facts(box(20, 16), {"R": made | ({"beams": beams} if beams else {})})


def ridge(*, at: tuple[str, str] = ("8 ft", "8 ft")) -> dict[str, Any]:
    ends = [{"wall": wall, "at": one, **PLATE} for wall, one in zip(("W2", "W4"), at, strict=True)]
    return {"RB": {"kind": "ridge", "bears_on": ends}}


def test_the_reactions_of_a_ridge_beam_stand_on_the_end_walls() -> None:
    """s 8 ft, 2.667 ft past the wall: (64 − 7.111) / 8 = 7.111 ft, over 10 ft at each end: 71.11 sq ft at 15 + 25."""
    found = under(beams=ridge(), thrust_held_by="ridge-beam", plan_area=f"{20 * (20 + 4 / 3):.4f} ft2")
    assert number(found, "wall.point_load", "W2") == pytest.approx(71.111 * 40 * LBF, rel=1e-4)
    assert number(found, "wall.top_dead", "W1") == pytest.approx((15 * (8 + 8 / 3) ** 2 / 16 + 17.5) * PLF, rel=1e-6)
    assert number(found, "roof.carried_share", "R") == pytest.approx(1, rel=1e-6)
    assert number(found, "wall.load_balance", "W2") <= 1e-9


def test_a_ridge_beam_that_bears_on_nothing_lacks_its_supports() -> None:
    assert missing(under(thrust_held_by="ridge-beam"), "roof.beams_described", "R") == {"roofs.R.beams"}
    bare = {"RB": {"kind": "ridge", "bears_on": [{"wall": "W2", "at": "8 ft"}]}}
    lacks = missing(under(beams=bare, thrust_held_by="ridge-beam"), "roof.beams_described", "R")
    assert {"roofs.R.beams.RB.bears_on", "roofs.R.beams.RB.bears_on.0.length"} <= lacks


def test_rakes_stand_on_the_ends_of_the_walls() -> None:
    """1 ft of rake and 8 in of the end wall, 10.667 ft wide, 40 psf: 711.1 lb at each end, nothing along the wall."""
    with_rake, without = under(length=None, rake="1 ft"), under()
    assert number(with_rake, "wall.end_load") == pytest.approx(40 * 32 / 3 * 5 / 3 * LBF, rel=1e-6)
    assert number(with_rake, "wall.top_dead") == pytest.approx(number(without, "wall.top_dead"))
    more = number(with_rake, "wall.load_in") - number(without, "wall.load_in")
    assert more == pytest.approx(2 * 40 * 32 / 3 * 5 / 3 * LBF, rel=1e-6)
    assert number(with_rake, "wall.load_balance") <= 1e-9
    shaken = number(with_rake, "wall.shaking_weight") - number(without, "wall.shaking_weight")
    assert shaken == pytest.approx(2 * 15 * 32 / 3 * 5 / 3 * LBF, rel=1e-6)


def test_a_roof_on_one_wall_is_not_carried() -> None:
    one = [{"wall": "W1", "tributary": "10 ft 8 in", "eccentricity": "0 in"}]
    found = under(bears_on=one, plan_area=f"{20 * (20 + 4 / 3):.4f} ft2")
    assert number(found, "roof.carried_share", "R") == pytest.approx(0.5, rel=1e-4)


@pytest.mark.parametrize(("stated", "share"), [("16 ft", 1.0), ("14 ft 8 in", 1.0), ("8 ft", 8 / (16 - 4 / 3))])
def test_a_span_lies_between_faces_and_thrust_takes_the_longer(stated: str, share: float) -> None:
    found = under(span=stated)
    assert number(found, "roof.span_share", "R") == pytest.approx(share)
    assert number(found, "roof.thrust", "R") == pytest.approx(40 * 16**2 / (8 * 4) * PLF)


def test_a_rise_is_held_against_the_slope_and_thrust_takes_the_lower() -> None:
    """1 in 4 over 8 ft is 2 ft; 4 ft are stated."""
    found = under(slope="14.0362435 deg")
    assert number(found, "roof.rise_share", "R") == pytest.approx(2, rel=1e-6)
    assert number(found, "roof.thrust", "R") == pytest.approx(40 * 16**2 / (8 * 2) * PLF, rel=1e-6)


def test_snow_on_one_slope() -> None:
    """Rafters tied at the plate, snow on one slope: moments about the other wall give p (s + o) (3 s + o) / (4 s).
    Ground snow 30 psf, s 8, o 1.5 under a ridge beam: 30 × 9.5² / 16 = 169.2 plf on the leeward wall (ASCE 7-10)."""
    assert 30 * beside_ridge_beam(8.0, 1.5) == pytest.approx(169.2, rel=1e-3)
    assert 9.5 * leeward_share(8.0, 1.5) == pytest.approx(9.5 * 25.5 / 32)


def test_the_leeward_wall_takes_the_greater_of_even_and_uneven_snow() -> None:
    """40 psf on the ground over 25 even: 40 × (24 + 2.667) / 32 = 33.33 psf of 10.667 ft."""
    site = {**SITE, "ground_snow": "40 psf", "risk_category": "II"}
    bears = [{"wall": wall, "eccentricity": "0 in"} for wall in ("W1", "W3")]
    found = facts(box(20, 16), {"R": {**ROOF, "bears_on": bears}}, site=site)
    assert number(found, "wall.top_snow") == pytest.approx(40 * (24 + 8 / 3) / 32 * 32 / 3 * PLF, rel=1e-6)


def test_a_published_drift() -> None:
    """Upper roof 40 ft, ground snow 25 psf: 35.8 psf at the step (worked figure of a published guide to ASCE 7)."""
    high = drift_height.sourced("ASCE 7")(0.43, 40 ** (1 / 3) * 35**0.25, 1.5, 100.0)
    assert high * (0.13 * 25 + 14) == pytest.approx(35.8, abs=0.05)


def test_a_lower_roof_beside_a_higher_wall_gathers_a_drift() -> None:
    walls = box(20, 16) | {"W5": {**WALL, "run": run(20, 24, 0, 24)}}
    walls |= {mark: {**walls[mark], "height": "14 ft"} for mark in ("W1", "W2", "W3", "W4")}
    main = {**ROOF, "bears_on": [{"wall": one, "eccentricity": "0 in"} for one in ("W1", "W3")], "length": "20 ft"}
    low = {**main, "rise": "1 ft", "bears_on": [{"wall": one, "eccentricity": "0 in"} for one in ("W3", "W5")]}
    found = facts(walls, {"R": main, "L": low}, site={**SITE, "ground_snow": "25 psf", "risk_category": "II"})
    assert number(found, "roof.drift_snow", "L") > 20 * PSF
    assert number(found, "roof.drift_snow", "R") == 0


def test_snow_slides_onto_a_lower_roof_from_the_eave_above() -> None:
    """0.4 of the flat-roof load over 10 ft, on 15 ft: 0.4 × 0.7 × 30 × 10 / 15 = 5.6 psf (ASCE 7 section 7.9). None
    from a gable end, from a roof of 2 on 12, or where it is the lower roof."""
    walls = box(20, 16) | {"W5": {**WALL, "run": run(20, 24, 0, 24)}}
    walls |= {mark: {**walls[mark], "height": "14 ft"} for mark in ("W1", "W2", "W3", "W4")}
    site = {**SITE, "ground_snow": "30 psf", "risk_category": "II", "wind_exposure": "B",
            "snow_sheltering": "partially exposed"}  # fmt: skip
    snow = {"warmth": "heated", "length": "20 ft", "run": "10 ft"}

    def slides(slope: str, main: tuple[str, str]) -> tuple[float, float]:
        def roof(*on: str, **more: object) -> dict[str, object]:
            return {**ROOF, **snow, "bears_on": [{"wall": one, "eccentricity": "0 in"} for one in on], **more}

        roofs = {"R": roof(*main, slope=slope), "L": roof("W3", "W5", rise="1 ft")}
        found = facts(walls, roofs, site=site)
        return number(found, "roof.sliding_snow", "L"), number(found, "roof.sliding_snow", "R")

    assert slides("26.565 deg", ("W1", "W3")) == (pytest.approx(5.6 * PSF, rel=1e-6), 0.0)
    assert slides("9.46 deg", ("W1", "W3")) == (0.0, 0.0)
    assert slides("26.565 deg", ("W2", "W4"))[1] == 0.0
