"""The width of roof that hangs on a wall where the project states none: half of the ways to the next bearing walls."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.recomputing import recomputed
from tests.tries import tries
from tests.unit.structural_houses import (
    FOOT,
    INCH,
    PLF,
    PSF,
    ROOF,
    WALL,
    bears,
    box,
    facts,
    missing,
    number,
    run,
)


def unstated(*walls: str) -> list[dict[str, Any]]:
    return [{"wall": wall, "eccentricity": "0 in"} for wall in walls]


def roof(*walls: str, **changes: Any) -> dict[str, Any]:
    return {"R": {**ROOF, "bears_on": unstated(*walls)} | changes}


def test_by_hand() -> None:
    """16 ft between center lines, walls 16 in thick, 2 ft of overhang: 8 + 8/12 + 2 = 10.667 ft; at 15 psf 160 plf.
    Snow on one slope alone, 30 psf, brings (3 × 8 + 2.667) / (4 × 8) of it, 25.0 psf: not more than the 25 stated."""
    found = facts(box(20, 16), roof("W1", "W3"))
    beam = 35 * 0.5 * PLF
    for mark in ("W1", "W3"):
        assert number(found, "wall.top_dead", mark) == pytest.approx(160 * PLF + beam, rel=1e-6)
        assert number(found, "wall.top_snow", mark) == pytest.approx(25 * (10 + 2 / 3) * PLF, rel=1e-6)
    steps = found.of("wall")["W1"].fact("wall.top_snow").steps
    (width,) = [one for one in steps if one.says == "Width of R that hangs on W1, not stated"]
    assert "common practice, no source" in width.source
    assert recomputed(width) == pytest.approx((8 + 2 / 3 + 2) * FOOT)


def test_an_inner_wall_takes_half_of_either_side() -> None:
    walls = box(20, 16) | {"W5": {**WALL, "run": run(0, 6, 20, 6)}}
    found = facts(walls, roof("W1", "W5", "W3"))
    for mark, feet in (("W1", 3 + 2 / 3 + 2), ("W5", 8.0), ("W3", 5 + 2 / 3 + 2)):
        assert number(found, "wall.top_snow", mark) == pytest.approx(25 * feet * PLF, rel=1e-6)


def test_what_is_stated_goes_before_what_follows() -> None:
    one = [*bears("W1", tributary="9 ft"), *unstated("W3")]
    found = facts(box(20, 16), roof("W1", bears_on=one))
    assert number(found, "wall.top_snow", "W1") == pytest.approx(25 * 9 * PLF)
    assert number(found, "wall.top_snow", "W3") == pytest.approx(25 * (10 + 2 / 3) * PLF, rel=1e-6)


def test_the_widths_make_up_the_whole_plan() -> None:
    """20 ft of roof along the walls, 16 + 16/12 + 4 across."""
    found = facts(box(20, 16), roof("W1", "W3", length="20 ft", plan_area=f"{20 * (20 + 4 / 3):.6f} ft2"))
    assert number(found, "roof.carried_share", "R") == pytest.approx(1, abs=1e-6)


@pytest.mark.parametrize(
    ("walls", "changes"),
    [
        (("W1",), {}),  # one wall alone
        (("W1", "W2"), {}),  # walls that cross
        (("W1", "W1"), {}),  # one wall twice
        (("W1", "W3"), {"kind": "reciprocal"}),
        (("W1", "W3"), {"kind": "vault"}),
    ],
)
def test_where_the_plan_does_not_tell_the_width_lacks(walls: tuple[str, ...], changes: dict[str, Any]) -> None:
    assert "roofs.R.bears_on.0.tributary" in missing(facts(box(20, 16), roof(*walls, **changes)), "wall.top_dead")


def test_a_curved_wall_has_to_state_it() -> None:
    walls = box(20, 16)
    walls["W3"] |= {
        "run": None,
        "arc": {"from": ["20 ft", "16 ft"], "through": ["10 ft", "19 ft"], "to": ["0 ft", "16 ft"]},
    }
    assert "roofs.R.bears_on.0.tributary" in missing(facts(walls, roof("W1", "W3")), "wall.top_dead")


def test_without_an_overhang_it_is_the_overhang_that_lacks() -> None:
    assert missing(facts(box(20, 16), roof("W1", "W3", overhang=None)), "wall.top_snow") == {"roofs.R.overhang"}


@settings(max_examples=tries(25), deadline=None)
@given(
    st.integers(8, 40), st.lists(st.integers(4, 12), min_size=1, max_size=4), st.integers(0, 40), st.integers(10, 24)
)
def test_nothing_of_the_roof_is_lost(long: int, ways: list[int], out: int, thick: int) -> None:
    """Any number of walls side by side: their widths add up to the way across, with a thickness and both overhangs.
    Over two walls the ground's 30 psf on one slope alone may bring more than 25 psf on both: by moments about the wall
    of the other side as much as an even 30 × (3 s + o) / (4 s), s from ridge to wall and o past it."""
    at = [sum(ways[:count]) for count in range(len(ways) + 1)]
    walls = {f"W{place}": {**WALL, "run": run(0, y, long, y), "thickness": f"{thick} in"} for place, y in enumerate(at)}
    found = facts(walls, roof(*walls, overhang=f"{out} in"))
    across = sum(ways) * FOOT + (thick + 2 * out) * INCH
    dead = math.fsum(number(found, "wall.top_dead", mark) - 35 * 0.5 * PLF for mark in walls)
    assert dead == pytest.approx(15 * PSF * across, rel=1e-9)
    half, past = sum(ways) / 2 * FOOT, (thick / 2 + out) * INCH
    uneven = 30 * (3 * half + min(past, half)) / (4 * half) if len(walls) == 2 else 0.0
    snow = math.fsum(number(found, "wall.top_snow", mark) for mark in walls)
    assert snow == pytest.approx(max(25, uneven) * PSF * across, rel=1e-9)
    assert number(found, "wall.lift", "W0") > 0
