"""Lintels as simple spans, and what a simple beam takes and refuses."""

from __future__ import annotations

import math

import pytest

from compliance.facts.mechanics.beams import Point, SimpleBeam, Spread
from compliance.facts.mechanics.lintels import force_on_end, lintel_moment, lintel_sag, lintel_span
from compliance.facts.mechanics.sections import second_moment


def test_a_lintel_worked_by_hand() -> None:
    """Even 4 kN/m on 2 m, 300 × 200 mm: M 2 kN·m, R 4 kN, δ 5 w L⁴ / (384 E I)."""
    assert lintel_moment(4000.0, 2.0) == pytest.approx(2000)
    assert force_on_end(4000.0, 2.0) == pytest.approx(4000)
    stiff = second_moment(0.3, 0.2)
    assert lintel_sag(4000.0, 2.0, 9e9, stiff) == pytest.approx(5 * 4000 * 16 / (384 * 9e9 * stiff))


def test_span_runs_between_the_middles_of_the_bearings() -> None:
    assert lintel_span(1.2, 0.3) == pytest.approx(1.5)


def test_beam_on_which_a_load_lies_off_centre() -> None:
    """P a b/L at the force, P b/L at the near end (handbook form of any beam table, common practice)."""
    beam = SimpleBeam(4.0, [Point(1.0, 800.0)])
    assert beam.greatest_moment == pytest.approx(800 * 1 * 3 / 4)
    assert (beam.left, beam.right) == pytest.approx((600, 200))
    assert beam.greatest_shear == pytest.approx(600)


def test_a_force_right_over_a_support_goes_into_it() -> None:
    """Whichever end it stands over, and where calculating has left it a little beyond."""
    for at, ends in ((0.0, (800.0, 0.0)), (4.0, (0.0, 800.0)), (4.0 * (1 + 1e-12), (0.0, 800.0))):
        beam = SimpleBeam(4.0, [Point(at, 800.0)])
        assert (beam.left, beam.right) == ends
        assert beam.greatest_shear == 800.0 and beam.greatest_moment == pytest.approx(0.0, abs=1e-6)


def test_how_little_is_off_the_beam() -> None:
    for end in (1 + 0.95e-12, 1 + 1e-12):
        assert SimpleBeam(1.0, [Spread(0.0, end, 6.0, 6.0)]).left == pytest.approx(3.0)
        assert SimpleBeam(1.0, [Point(end, 6.0)]).right == 6.0
    for load in (Spread(0.0, 1 + 1.05e-12, 6.0, 6.0), Point(1 + 1.05e-12, 6.0)):
        with pytest.raises(ValueError, match="off the beam"):
            SimpleBeam(1.0, [load])


@pytest.mark.parametrize(
    "load",
    [Point(5.0, 1.0), Point(-0.1, 1.0), Point(1.0, -1.0), Spread(1.0, 5.0, 1.0, 1.0), Spread(2.0, 2.0, 1.0, 1.0),
     Spread(0.0, 2.0, 1.0, -1.0), Point(1.0, math.inf)],
)  # fmt: skip
def test_impossible_loads(load: Spread | Point) -> None:
    with pytest.raises(ValueError, match=r"beam|below zero"):
        SimpleBeam(4.0, [load])


@pytest.mark.parametrize("span", [0.0, -1.0, math.nan, math.inf])
def test_impossible_spans(span: float) -> None:
    with pytest.raises(ValueError, match="span"):
        SimpleBeam(span, [])
