"""Reduction factors in the form of EN 1996-1-1, 6.1.2.2 and Annex G.

The formulas are recalled, not read. The table was computed from them beforehand, apart from this program, and is
compared to its printed digits: it guards the formulas as recalled, and says nothing about the printed standard.
"""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.eccentricity import (
    MiddleCurve,
    creep_eccentricity,
    curve_figures,
    end_eccentricity,
    end_reduction,
    initial_eccentricity,
    middle_lines,
    resistance,
)

STIFF = MiddleCurve(start=2, span=23, slope=37)  # E = 1000 f
SOFTER = MiddleCurve(start=1.67, span=19.3, slope=31)  # E = 700 f
SLENDERNESS = (5, 10, 15, 20, 25, 27)
TABLE = {
    0.05: ((0.89, 0.84, 0.75, 0.63, 0.50, 0.45), (0.88, 0.81, 0.68, 0.53, 0.38, 0.33)),
    0.10: ((0.79, 0.73, 0.64, 0.52, 0.39, 0.35), (0.78, 0.70, 0.57, 0.42, 0.28, 0.24)),
    0.15: ((0.69, 0.63, 0.53, 0.41, 0.29, 0.25), (0.68, 0.60, 0.46, 0.32, 0.20, 0.16)),
    0.20: ((0.59, 0.53, 0.42, 0.31, 0.20, 0.17), (0.58, 0.49, 0.36, 0.23, 0.12, 0.09)),
    0.33: ((0.33, 0.26, 0.16, 0.08, 0.04, 0.02), (0.32, 0.22, 0.12, 0.04, 0.01, 0.01)),
}


@pytest.mark.parametrize("off", TABLE)
@pytest.mark.parametrize(("curve", "column"), [(STIFF, 0), (SOFTER, 1)], ids=["E = 1000 f", "E = 700 f"])
def test_table_of_the_middle_factor(off: float, curve: MiddleCurve, column: int) -> None:
    thickness = 0.4
    found = [middle_lines(off * thickness, ratio * thickness, thickness, curve)[-1] for ratio in SLENDERNESS]
    assert tuple(round(value, 2) for value in found) == TABLE[off][column]


@pytest.mark.parametrize(("ratio", "curve"), [(1000, STIFF), (700, SOFTER)])
def test_general_form_gives_both_printed_curves(ratio: float, curve: MiddleCurve) -> None:
    """0.063, 0.73, 1.17 (recalled) times the root of E/f are 2, 23, 37 and 1.67, 19.3, 31 once rounded."""
    found = MiddleCurve(*curve_figures(ratio, 0.063, 0.73, 1.17))
    assert found.start == pytest.approx(curve.start, abs=0.01)
    assert found.span == pytest.approx(curve.span, abs=0.1)
    assert found.slope == pytest.approx(curve.slope, abs=0.05)


def test_a_curve_that_ends_within_the_wall_is_refused_where_it_ends() -> None:
    """10 − 40 × e / t is zero at a quarter of the thickness, where 1 − 2 e / t still leaves half."""
    short = MiddleCurve(start=2, span=10, slope=40)
    assert middle_lines(0.24, 5.0, 1.0, short)[-1] > 0
    for off in (0.25, 0.3):
        with pytest.raises(ValueError, match="beyond the reach"):
            middle_lines(off, 5.0, 1.0, short)[-1]
    assert middle_lines(0.5, 5.0, 1.0, short)[-1] == 0


def test_softer_earth_buckles_sooner() -> None:
    earth = MiddleCurve(*curve_figures(200, 0.063, 0.73, 1.17))
    assert middle_lines(0.04, 4.0, 0.4, earth)[-1] < middle_lines(0.04, 4.0, 0.4, SOFTER)[-1]


def test_eccentricities() -> None:
    assert initial_eccentricity(2.7, 450) == pytest.approx(0.006)
    assert end_eccentricity(0.0, 10_000, 0.0, 0.006, 0.4, 0.05) == pytest.approx(0.02)
    assert end_eccentricity(-500, 10_000, -0.01, 0.006, 0.4, 0.05) == pytest.approx(0.066)
    assert creep_eccentricity(0.002, 1.5, 2.8, 0.4, 0.04) == pytest.approx(0.002 * 1.5 * 7 * 0.12649110640673517)


def test_end_factor_and_resistance() -> None:
    assert end_reduction(0.02, 0.4) == pytest.approx(0.9)
    assert end_reduction(-0.25, 0.4) == 0.0
    assert resistance(0.9, 0.4, 200_000) == pytest.approx(72_000)
    off = end_eccentricity(500, 10_000, 0.01, 0.006, 0.4, 0.05)
    assert end_reduction(off, 0.4) == pytest.approx(1 - 2 * 0.066 / 0.4)


def test_eccentricities_to_either_side_are_alike() -> None:
    one, other = ([line.step() for line in middle_lines(off, 2.7, 0.4, STIFF)] for off in (-0.05, 0.05))
    assert one == other
    signs = ((500, 9000, -0.002, -0.006, 0.4, 0.05), (-500, 9000, 0.002, 0.006, 0.4, 0.05))
    first, second = (end_eccentricity(*given).step() for given in signs)
    assert first == second
    assert creep_eccentricity(0.002, 1.5, 2.8, 0.4, -0.04) == creep_eccentricity(0.002, 1.5, 2.8, 0.4, 0.04)


def test_resultant_outside_the_wall_leaves_nothing() -> None:
    assert middle_lines(0.2, 2.7, 0.4, STIFF)[-1] == 0.0
    (found,) = middle_lines(0.2, 2.7, 0.4, STIFF)
    assert found == 0.0
    assert "outside" in found.step().says


def test_stocky_wall_keeps_what_eccentricity_leaves() -> None:
    """Below the start of the curve u counts as zero; taken as it stands it would fall again for stockier walls."""
    assert middle_lines(0.02, 0.4, 0.4, STIFF)[-1] == pytest.approx(0.9)
