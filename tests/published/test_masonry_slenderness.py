"""Slender masonry under axial load, against worked examples.

Source: N. Taly, Design of Reinforced Masonry Structures, chapter 5, examples 5.3 and 5.4 and the height at which the
slenderness formula changes. Published figures are compared as printed: factors to three digits, forces to a kip.
The allowable stresses Fa = 0.25 f'm [1 - (h/140r)²] are recalled (TMS 402, allowable stress design); no worked example
of that exact form was at hand, so their rows were computed apart from this program and guard against change only.
"""

from __future__ import annotations

import math

import pytest

from compliance.facts.mechanics.gravity import Combination, combined, governing
from compliance.facts.mechanics.slenderness import (
    SlendernessCurve,
    allowable_axial_stress,
    radius_of_gyration,
    slenderness_factor,
    slenderness_lines,
)

INCH = 0.0254
FOOT = 0.3048
POUND = 4.4482216152605
PSI = POUND / INCH**2
KSI = 1000 * PSI
KIP = 1000 * POUND
CURVE = SlendernessCurve(short=140, bound=99, tall=70)


@pytest.mark.parametrize(
    ("thickness", "factor", "strength", "area", "steel", "needed", "printed"),
    [(18, 0.891, 2.5, 324, 6.28, 620, 649), (15.625, 0.856, 1.8, 369, 6.0, 540, 544)],
    ids=["Taly example 5.3", "Taly example 5.4"],
)
def test_columns_of_taly(
    thickness: float, factor: float, strength: float, area: float, steel: float, needed: float, printed: float
) -> None:
    left = slenderness_factor(240 * INCH, radius_of_gyration(thickness * INCH), CURVE)
    # Taly's strength of the column, all but its last factor: 0.90 × 0.80 × (0.80 f'm (An - Ast) + fy Ast)
    squat = 0.9 * 0.8 * (0.8 * strength * (area - steel) + 60 * steel) * INCH**2 * KSI
    held = squat * left
    assert round(left, 3) == factor
    assert round(held / KIP) == printed
    assert held / KIP > needed
    assert slenderness_lines(240 * INCH, thickness * INCH, CURVE)[-1] == left


def test_height_at_which_the_formula_changes() -> None:
    """Taly prints about 57 ft for a wall 24 in thick, with r = 0.289 t = 6.936 in: 57.22 ft."""
    assert CURVE.bound * 6.936 * INCH / FOOT == pytest.approx(57.222, abs=5e-4)
    under, over = (slenderness_lines(feet * FOOT, 24 * INCH, CURVE)[-1].step().formula for feet in (57, 57.5))
    assert under != over


def test_both_branches_meet_at_the_bound() -> None:
    at, above = (slenderness_factor(height, 1.0, CURVE) for height in (99.0, 99.0000001))
    assert at == pytest.approx(above, abs=1e-8)
    assert slenderness_factor(140.0, 1.0, CURVE) == pytest.approx(0.25)


def test_at_the_bound_itself_the_first_branch_holds() -> None:
    """1 − (99/140)² at h/r = 99, in the number and in the line; a last digit above it (70 r/h)²."""
    assert slenderness_factor(99.0, 1.0, CURVE) == 1 - (99 / 140) ** 2
    assert slenderness_factor(math.nextafter(99.0, 100), 1.0, CURVE) == pytest.approx((70 / 99) ** 2, rel=1e-12)
    thick = next(t for t in (0.3, 0.4, 0.5, 0.6) if 99 * radius_of_gyration(t) / radius_of_gyration(t) == 99)
    at = slenderness_lines(99 * radius_of_gyration(thick), thick, CURVE)[-1]
    above = slenderness_lines(99.001 * radius_of_gyration(thick), thick, CURVE)[-1]
    formulas = at.step().formula, above.step().formula
    assert formulas == ("max(1 − (h / (c × r))², 0)", "min((c × r / h)², 1)")


def test_what_is_left_lies_between_nothing_and_all_whatever_the_curve() -> None:
    assert slenderness_factor(150.0, 1.0, SlendernessCurve(short=140, bound=200, tall=70)) == 0.0
    assert slenderness_factor(20.0, 1.0, SlendernessCurve(short=140, bound=10, tall=70)) == 1.0


@pytest.mark.parametrize("radius", [0.1, 1.0, 7.0])
def test_the_branch_goes_by_the_ratio_alone(radius: float) -> None:
    """1 − (60/140)² below the bound, (70/120)² above it, whatever the wall's size."""
    assert slenderness_factor(60 * radius, radius, CURVE) == pytest.approx(1 - 9 / 49, rel=1e-12)
    assert slenderness_factor(120 * radius, radius, CURVE) == pytest.approx(49 / 144, rel=1e-12)


@pytest.mark.parametrize(
    ("height", "thickness", "strength", "printed"),
    [(96, 16, 60, 14.66939), (96, 24, 60, 14.85306), (120, 16, 85, 20.51818), (144, 10, 300, 65.47837)],
)
def test_allowable_stress_in_the_recalled_form(
    height: float, thickness: float, strength: float, printed: float
) -> None:
    left = slenderness_factor(height * INCH, radius_of_gyration(thickness * INCH), CURVE)
    assert allowable_axial_stress(strength * PSI, 0.25, left) / PSI == pytest.approx(printed, abs=5e-6)


@pytest.mark.parametrize(
    ("dead", "live", "first", "second"), [(150, 225, 210, 540), (200, 300, 280, 720), (250, 200, 350, 620)]
)
def test_load_combinations_of_the_same_pages(dead: float, live: float, first: float, second: float) -> None:
    combinations = (Combination("1.4 D", {"dead": 1.4}), Combination("1.2 D + 1.6 L", {"dead": 1.2, "live": 1.6}))
    loads = {"dead": dead, "live": live}
    assert [combined(loads, each) for each in combinations] == pytest.approx([first, second], rel=1e-12)
    which, most = governing(loads, combinations)
    assert which is combinations[1]
    assert most == pytest.approx(second)


@pytest.mark.parametrize(("strength", "printed"), [(1200, 240), (1600, 320)])
def test_the_standard_of_1960_allowed_somewhat_less(strength: float, printed: float) -> None:
    """ASA A41.2-1960 as told by masonrymagazine.com: axial stress 0.20 f'm, falling in a straight line to 0.15 f'm from
    h/t 10 to 25. The form recalled above gives 3 to 18 % more over that range: a difference found, not evened out."""
    assert allowable_axial_stress(strength * PSI, 0.20, 1.0) / PSI == pytest.approx(printed)
    for slender in (10.0, 15.0, 20.0, 25.0):
        older = (0.20 - 0.05 * (slender - 10) / 15) * strength * PSI
        left = slenderness_factor(slender, radius_of_gyration(1.0), CURVE)
        assert 1.02 < allowable_axial_stress(strength * PSI, 0.25, left) / older < 1.19, slender
