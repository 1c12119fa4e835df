"""Three walls of the example worked again in feet and pounds from its description alone, beside what is printed.

W3 has three windows and the roof; W4 is one solid length with a stated load; W5 stands inside, with a door and a post.
Nothing of the package is used for the sums: statics and the coefficients that the reference file screening names. The
fold of a wall comes from a search over heights.
"""

from __future__ import annotations

import math
from functools import cache
from typing import NamedTuple

import numpy as np
import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.unit.structural_houses import LBF, PLF, PSF, PSI

FLOAT = 1e-6
M1, M2 = 108.0, 110.0  # pcf; M2 states none, cob is taken for 110
OUTER, INNER = (0.75 + 1) / 12 * 110, 2 / 12 * 110  # psf of plaster on both faces
BEAM = 35 * 1.0 * 0.5
WIDE_ROOF, PAST = 8 + 7 / 12 + 2.5, 7 / 12 + 0.5  # on the wall; past its end: half of the end wall and the rake
DEAD, ROOF_SURE = 22 * WIDE_ROOF + BEAM, 0.6
SNOW = max(25.0, 30.0 * (3 * 8 + WIDE_ROOF - 8) / (4 * 8))  # even, or on the leeward slope alone
TOP_W3 = DEAD + SNOW * WIDE_ROOF
END = (22 + 25) * WIDE_ROOF * PAST
SILL, HEAD, HIGH = 3.0, 6.0, 8.0
TESTED, RUPTURE = 1870.0 / (4.05 * 4.03) * 144, 60.4 * 144  # psf, the lowest of each set
QUAKE_SURE = 0.6 - 0.7 * 0.2 * 0.18


def thick(up: float) -> float:
    return (18 - 4 * up / HIGH) / 12


def earth(low: float, high: float) -> float:
    """Weight of an outer wall between two heights, for each foot of length."""
    return M1 * (thick(low) + thick(high)) / 2 * (high - low)


class Pier(NamedTuple):
    """A solid length of W3, with the halves of the openings beside it."""

    wide: float
    beside: float
    end: float = 0.0

    @property
    def on_top(self) -> float:
        return TOP_W3 * (self.wide + self.beside) + (earth(HEAD, HIGH) + OUTER * 2) * self.beside + self.end

    def above(self, up: float) -> float:
        return self.wide * (earth(up, HIGH) + OUTER * (HIGH - up))

    def top(self, share: float, lift: float) -> float:
        """What is sure to bear on it, for each foot; below zero where wind lifts more."""
        return (share * DEAD - lift) * (self.wide + self.beside) / self.wide

    def earth_sure(self, share: float, up: float) -> float:
        return share * (earth(HEAD, HIGH) * self.beside + self.wide * earth(up, HIGH)) / self.wide


W3 = (Pier(4, 1.5, END), Pier(7, 1.5 + 1.25), Pier(1, 1.25 + 1.25), Pier(4, 1.25, END))
RODS = 2.0


def pressed(load: float, wide: float, deep: float, off: float) -> float:
    assert off <= deep / 6
    return load / (wide * deep) * (1 + 6 * off / deep)


def wind_square() -> float:
    """ASCE 7-16 components and cladding, zone of a corner, exposure B, to allowable stresses."""
    outward = -1.4 + 0.6 * math.log(HIGH**2 / 3 / 10) / math.log(50)
    return 0.6 * 0.00256 * 2.01 * math.pow(15.5 / 1200, 2 / 7) * 0.85 * 110**2 * (0.18 - outward)


def roof_lift() -> float:
    """Along W3: 8 ft 7 in of roof over the house and the wall, two and a half of eaves."""
    q = 0.00256 * 2.01 * math.pow(15.5 / 1200, 2 / 7) * 0.85 * 110**2
    return 0.6 * q * ((WIDE_ROOF - 2.5) * (0.85 * 1.3 + 0.18) + 2.5 * 0.85 * (1.3 + 0.8))


def quake_square(face: float) -> float:
    return 0.7 * max(0.4 * 0.18 * face, 0.1 * face)


PUSHES = ((wind_square(), ROOF_SURE, roof_lift()), (quake_square(M1 * 16 / 12 + OUTER), QUAKE_SURE, 0.0))


def tension(pier: Pier, push: float, share: float, lift: float) -> float:
    """At the depth where it is greatest, found by a search; at mid-height also with the greatest moment of the height.
    Rods carry what wind lifts above their ends, 2 ft down."""
    times = (pier.wide + pier.beside) / pier.wide
    across, top, bears = push * times * HIGH, TOP_W3 * times / 12, pier.top(share, lift)

    def moment(down: float) -> float:
        return across * down / 2 - across * down**2 / (2 * HIGH) + top * (1 - down / HIGH)

    def at(down: float, bent: float) -> float:
        t = thick(HIGH - down)
        on_top = max(bears, 0.0) if down < RODS else bears
        return 6 * bent / t**2 - (pier.earth_sure(share, HIGH - down) + on_top) / t

    middle = at(4.0, max(moment(down) for down in np.linspace(0, HIGH, 10_001)))
    return max(middle, *(at(down, moment(down)) for down in np.linspace(RODS if bears < 0 else 0.0, HIGH, 2001)))


def folds(pier: Pier, push: float, share: float, lift: float) -> float:
    """Two rigid blocks and a crack between them, at the height where least push folds the wall; below the ends of the
    rods, and never more than without any load on top, where wind lifts more than bears there."""
    times = (pier.wide + pier.beside) / pier.wide
    weight, top = pier.earth_sure(share, 0.0), pier.top(share, lift)
    t = 14 / 12 - 2 * (pier.on_top + pier.above(0.0)) / pier.wide / (2 * TESTED)
    deepest = 1 - 1e-4 if top >= 0 else 1 - RODS / HIGH
    x = np.linspace(1e-4, deepest, 200_001)
    low, up = 1 / (x * HIGH), 1 / ((1 - x) * HIGH)  # turns of the blocks for a unit move of the crack
    off = 1 / 12 if top >= 0 else -1 / 12
    lifted = weight * x * low * t / 2 + weight * (1 - x) * (low * t + up * t / 2) + top * (low * t + up * (t / 2 - off))
    least = float(np.min(lifted)) / (HIGH / 2)
    return min(least, 2 * t * weight / HIGH**2 if top < 0 else least) / (push * times)


# ------------------------------------------------------------------------------------------------------- in the plan
ARC = (8**2 + 3**2) / 6  # radius of W2, a chord of 16 ft with a rise of 3
LONG = 2 * ARC * math.asin(8 / ARC)


def weights() -> dict[str, float]:
    """What shakes: dead load on top, earth above mid-height with openings taken off, half of the finishes."""
    window = 3.5 * 28 / 12
    solid = {
        "W1": 24 * earth(4, 8) - 2 * 28 / 12 * earth(4, 6) - 3 * earth(4, 80 / 12) + OUTER / 2 * (172 - 2 * window),
        "W2": LONG * earth(4, 8) - 2.5 * earth(4, 6) + OUTER / 2 * (LONG * 8 - 2.5 * 3.5),
        "W3": 24 * earth(4, 8) - 8 * earth(4, 6) + OUTER / 2 * (192 - 24),
        "W4": 16 * earth(4, 8) + OUTER / 2 * 128,
        "W5": M2 * 14 / 12 * (64 - 32 / 12 * (80 / 12 - 4)) + INNER / 2 * (128 - 32 / 12 * 80 / 12) + 400,
        "W6": (M1 * 14 / 12 + INNER) * 14.5 * 11.5 / 2,
    }  # fmt: skip
    rakes = 2 * 22 * WIDE_ROOF * PAST
    line = {
        "W1": DEAD * 24 + rakes,
        "W2": 120 * LONG,
        "W3": DEAD * 24 + rakes,
        "W4": 120 * 16,
        "W5": 120 * 16,
        "W6": 120 * 14.5,
    }
    return {mark: solid[mark] + line[mark] for mark in solid}


@cache
def base_shear() -> float:
    return 0.7 * max(0.18 / 1.5, 0.01) * sum(weights().values())


def share_of(wall: str) -> float:
    """The force along a wall across the house: of the weights, spread over what they reach from east to west, those
    that
    stand nearer to it than to the next line. W4 stands at 0, W5 at 14.5 ft, the two lengths of W2 make one line."""
    arc = [27 - ARC + ARC * math.cos((start + end) / 2 / ARC - LONG / 2 / ARC) for start, end in ((0, 7), (9.5, LONG))]
    between = {"W4": (0.0, 7.25), "W5": (7.25, (14.5 + sum(arc) / 2) / 2)}
    low, high = between[wall]
    reach = {"W1": (0, 24), "W3": (0, 24), "W6": (0, 14.5)}
    heavy = weights()
    braced = heavy[wall] + sum(
        heavy[mark] * max(min(high, end) - max(low, start), 0) / (end - start) for mark, (start, end) in reach.items()
    )
    return base_shear() * braced / sum(heavy.values())


# -------------------------------------------------------------------------------------------------------- beside it
@pytest.fixture(scope="module")
def example() -> Checked:
    return check_folder(EXAMPLE)


W4_BASE = 120 + earth(0, 8) + OUTER * 8
W5_PIERS = tuple(
    (120 * (wide + 4 / 3) + (M2 * 14 / 12 + INNER) * (8 - 80 / 12) * 4 / 3 + wide * (M2 * 14 / 12 + INNER) * 8 + post)
    / wide
    for wide, post in ((9.5, 900.0), (23 / 6, 0.0))
)


def under_the_post(up: float, deep: float) -> float:
    """W5's pier beside the door, 9 ft 6 in long: what it carries over its section, and the post's 900 lbf where they
    have spread by half of the depth, down to mid-height, from a plate of 16 in 4 ft from the wall's end."""
    finished = M2 * 14 / 12 + INNER
    carried = 120 * (9.5 + 4 / 3) + finished * (8 - 80 / 12) * 4 / 3 + 9.5 * finished * (8 - up)
    side = min(8 - up, 4) / 2
    shared = 4 / 3 + min(side, 4 - 2 / 3) + min(side, 9.5 - 4 - 2 / 3)
    return carried / (9.5 * deep) + 900 / (deep * shared)


BY_HAND = {
    ("W3", "top_load"): (TOP_W3, PLF, "543 plf"),
    ("W3", "base_load"): (max((one.on_top + one.above(0)) / one.wide for one in W3), PLF, "3913 plf"),
    ("W3", "top_stress"): (max(pressed(one.on_top, one.wide, 1.0, 1 / 12) for one in W3), PSF, "27.4 psi"),
    ("W3", "middle_stress"): (
        max(pressed(one.on_top + one.above(4), one.wide, thick(4), one.on_top / 24 / (one.on_top + one.above(4)))
            for one in W3), PSF, "19.4 psi"),
    ("W3", "base_stress"): (max(pressed(one.on_top + one.above(0), one.wide, 1.5, 0) for one in W3), PSF, "18.1 psi"),
    ("W3", "wind_pressure"): (wind_square(), PSF, "13.4 psf"),
    ("W3", "seismic_pressure"): (quake_square(M1 * 16 / 12 + OUTER), PSF, "11.2 psf"),
    ("W3", "lift"): (roof_lift(), PLF, "142 plf"),
    ("W3", "bending_tension"): (max(tension(one, *push) for one in W3 for push in PUSHES), PSF, "7.7 psi"),
    ("W3", "rocking_factor"): (min(folds(one, *push) for one in W3 for push in PUSHES), 1.0, "0.907"),
    ("W4", "base_load"): (W4_BASE, PLF, "1400 plf"),
    ("W4", "base_stress"): (W4_BASE / 1.5, PSF, "6.5 psi"),
    ("W4", "middle_stress"): ((120 + earth(4, 8) + OUTER * 4) / thick(4), PSF, "3.8 psi"),
    ("W4", "top_stress"): (120.0, PSF, "0.8 psi"),
    ("W4", "bending_tension"): (
        max(3 * push * down * (8 - down) / thick(8 - down) ** 2
            - share * (BEAM + earth(8 - down, 8)) / thick(8 - down)
            for push, share, _ in PUSHES for down in (4.0, *np.linspace(0, 8, 4001))), PSF, "1.2 psi"),
    ("W4", "brace_shear"): (share_of("W4"), LBF, "2503 lbf"),
    ("W4", "shear_stress"): (share_of("W4") / (16 * 14 / 12), PSF, "0.9 psi"),
    ("W5", "base_load"): (max(W5_PIERS), PLF, "1432 plf"),
    ("W5", "top_stress"): (under_the_post(8, 1.0), PSF, "5.8 psi"),
    ("W5", "middle_stress"): (under_the_post(4, 14 / 12), PSF, "5.5 psi"),
    ("W5", "base_stress"): (under_the_post(0, 14 / 12), PSF, "9 psi"),
    ("W5", "wind_pressure"): (5.0, PSF, "5 psf"),
    ("W5", "seismic_pressure"): (quake_square(M2 * 14 / 12 + INNER), PSF, "10.3 psf"),
    ("W5", "shear_stress"): (share_of("W5") / ((9.5 + 23 / 6) * 14 / 12), PSF, "1.4 psi"),
}  # fmt: skip


@pytest.mark.parametrize(("wall", "name"), BY_HAND, ids=lambda one: str(one))
def test_the_wall(example: Checked, wall: str, name: str) -> None:
    by_hand, unit, printed = BY_HAND[wall, name]
    fact = example.facts.of("wall")[wall].fact(f"wall.{name}")
    assert fact.value == pytest.approx(
        by_hand * unit, rel=FLOAT if name not in ("rocking_factor", "bending_tension") else 1e-5
    )
    lines = " ".join(step.line(Writer("us")) for step in fact.steps)
    assert f"= {printed}" in lines or f": {printed}" in lines, "what the worked line prints"


def test_what_shakes_and_how_hard(example: Checked) -> None:
    for wall, weight in weights().items():
        value = example.facts.of("wall")[wall].fact("wall.shaking_weight").value
        assert value == pytest.approx(weight * LBF, rel=FLOAT), wall
    project = example.facts.of("project")["project"]
    assert project.fact("project.base_shear").value == pytest.approx(base_shear() * LBF, rel=FLOAT)


def test_the_piers_that_rock(example: Checked) -> None:
    """W5: 16 in of earth over the door and a beam that runs through couple both piers over its 80 in; 0.9 × (load on
    the head + half of the own weight, as far as sure) × length over 80 in, with 400 lbf of the post on the longer."""
    high = 80 / 12

    def rocks(wide: float, post: float) -> float:
        head = BEAM * (wide + 4 / 3) + post + M2 * 14 / 12 * (8 - high) * (wide + 4 / 3)
        return 0.9 * QUAKE_SURE * (head + M2 * 14 / 12 * high * wide / 2) * wide / high

    factor = (rocks(9.5, 400) + rocks(23 / 6, 0)) / share_of("W5")
    assert example.facts.of("pier")["W5.P1"].fact("pier.tipping_factor").value == pytest.approx(factor, rel=FLOAT)


def test_the_lowest_strengths_are_those_of_the_tables(example: Checked) -> None:
    mix = example.facts.of("mix")["M1"]
    assert mix.fact("mix.lowest_compression").value == pytest.approx(TESTED * PSF, rel=1e-3)
    assert mix.fact("mix.lowest_rupture").value == pytest.approx(RUPTURE / 144 * PSI, rel=1e-3)


def test_solid_wall_on_each_side_and_in_each_direction(example: Checked) -> None:
    """Doors and windows taken off: W1 24 − 7 2/3 ft, W3 24 − 8, W5 16 − 2 2/3, W2 its arc less 2 1/2."""
    project = example.facts.of("project")["project"]
    east_west, across = (24 - 23 / 3 + 24 - 8 + 14.5) / 62.5, (LONG - 2.5 + 16 + 16 - 8 / 3) / (LONG + 32)
    told = {step.says: step.result.value for name in ("least_side_solid", "braced_both_ways")
            for step in project.fact(f"project.{name}").steps if step.result.kind == "share"}  # fmt: skip
    # The bow of W2, 3 ft, is seen from north and south as well.
    assert told == {
        "Solid share of the side W1 and W2": pytest.approx((24 - 23 / 3) / 24, abs=0.02),
        "Solid share of the side W2 and W3": pytest.approx(16 / 24, abs=0.02),
        "Solid share of the side W2": pytest.approx((LONG - 2.5) / LONG, abs=0.02),
        "Solid share of the side W4": 1.0,
        "Least solid side: W2 and W3": pytest.approx(16 / 24, abs=0.02),
        "Solid share along W1 and W3 and W6": pytest.approx(east_west),
        "Solid share along W2 and W4 and W5": pytest.approx(across),
    }
