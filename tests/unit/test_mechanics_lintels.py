"""Lintels: what arching takes off, and worked lines that agree with the beam."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.mechanics.beams import Point, SimpleBeam, Spread, triangle, uniform
from compliance.facts.mechanics.lintels import (
    PRACTICE,
    lintel_forces,
    lintel_lines,
    lintel_moment,
    lintel_sag,
    lintel_shear,
    lintel_span,
    wall_above,
)
from compliance.facts.mechanics.sections import second_moment

GRAVITY = 9.80665
ANGLE = math.radians(45)


def test_without_arching_the_whole_wall_weighs_on_it() -> None:
    above = wall_above(1.6, height_above=0.9, thickness=0.4, density=1760.0, arching_angle=None)
    assert not above.arched
    assert above.intensity == pytest.approx(1760 * GRAVITY * 0.4 * 0.9)
    assert above.loads(1.6) == uniform(1.6, above.intensity)


def test_arch_needs_its_point_within_the_wall() -> None:
    """Practice takes 45°: a triangle half as high as the span."""
    low = wall_above(1.6, height_above=0.79, thickness=0.4, density=1760.0, arching_angle=ANGLE)
    high = wall_above(1.6, height_above=0.81, thickness=0.4, density=1760.0, arching_angle=ANGLE)
    assert not low.arched
    assert high.arched
    assert high.height == pytest.approx(0.8)
    assert wall_above(
        1.6, height_above=0.8 * math.tan(ANGLE), thickness=0.4, density=1760.0, arching_angle=ANGLE
    ).arched  # its point just within the wall
    for above, says, height, source in (
        (low, "Whole wall above the lintel", "height of wall above", "mass × gravity"),
        (high, "Wall under the arch, greatest at midspan", "height to the point of the arch", PRACTICE),
    ):
        line = above.intensity.step()
        assert (line.says, line.given[-1].meaning, line.source) == (says, height, source)
    assert wall_above(
        1.6, height_above=2.0, thickness=0.4, density=1760.0, arching_angle=math.radians(60)
    ).height == pytest.approx(0.8 * math.sqrt(3))
    assert sum(_total(load) for load in high.loads(1.6)) == pytest.approx(1760 * GRAVITY * 0.4 * 0.8 * 1.6 / 2)
    for flat_or_plumb in (0.0, math.pi / 2, 2.0):
        with pytest.raises(ValueError, match="angle"):
            wall_above(1.6, height_above=0.9, thickness=0.4, density=1760.0, arching_angle=flat_or_plumb)


def test_an_arch_whose_point_just_touches_the_top_of_the_wall_bears() -> None:
    """At the point itself and a last digit under it; the line says which of the two was taken."""
    point = 0.8 * math.tan(ANGLE)
    touches, lower = (
        wall_above(1.6, height_above=high, thickness=0.4, density=1760.0, arching_angle=ANGLE)
        for high in (point, math.nextafter(point, 0))
    )
    assert touches.arched and touches.height == point
    assert not lower.arched
    for above, says, source in (
        (touches, "Wall under the arch, greatest at midspan", "common practice, no source"),
        (lower, "Whole wall above the lintel", "mass × gravity"),
    ):
        step = above.intensity.step()
        assert (step.says, step.source) == (says, source)
        meaning = {given.symbol: given.meaning for given in step.given}["h"]
        assert meaning == ("height to the point of the arch" if above.arched else "height of wall above")


def _total(load: Spread | Point) -> float:
    assert isinstance(load, Spread)
    return (load.at_start + load.at_end) / 2 * (load.end - load.start)


@given(st.floats(0.5, 4), st.floats(0, 3), st.floats(0.2, 0.8), st.floats(0.3, 1.4))
def test_arching_never_adds(span: float, height: float, thickness: float, angle: float) -> None:
    plain = SimpleBeam(
        span, wall_above(span, height_above=height, thickness=thickness, density=1760.0, arching_angle=None).loads(span)
    )
    arched = SimpleBeam(
        span,
        wall_above(span, height_above=height, thickness=thickness, density=1760.0, arching_angle=angle).loads(span),
    )
    assert arched.greatest_moment <= plain.greatest_moment * (1 + 1e-9)
    assert arched.left <= plain.left * (1 + 1e-9)


@given(st.floats(0, 9000), st.floats(0, 9000), st.floats(0.5, 4))
def test_worked_lines_agree_with_the_beam(even: float, peak: float, span: float) -> None:
    loads = (*uniform(span, even), *triangle(span, peak))
    forces = lintel_forces(span, loads=loads, modulus=9e9, width=0.3, depth=0.15)
    assert lintel_moment(even, peak, span) == pytest.approx(forces.moment, rel=1e-9, abs=1e-9)
    assert lintel_shear(even, peak, span) == pytest.approx(forces.shear, rel=1e-9, abs=1e-9)
    sag = lintel_sag(even, peak, span, 9e9, second_moment(0.3, 0.15))
    assert sag == pytest.approx(forces.sag, rel=1e-9, abs=1e-15)
    assert forces.left == pytest.approx(forces.right, rel=1e-9, abs=1e-9)


def test_whole_lintel_worked_by_hand() -> None:
    """Even 4 kN/m on 2 m, 300 × 200 mm: M 2 kN·m, 1 MPa; V 4 kN, 0.1 MPa; 300 × 300 mm of earth, 44.4 kPa mean."""
    moment, bending, end, shear, sag, pressure = lintel_lines(
        4000.0, peak=0.0, span=2.0, modulus=9e9, width=0.3, depth=0.2, bearing=0.3, bearing_width=0.3, bearing_peak=1.0
    )
    assert moment == pytest.approx(2000)
    assert bending == pytest.approx(1e6)
    assert end == pytest.approx(4000)
    assert shear == pytest.approx(1e5)
    assert sag == pytest.approx(5 * 4000 * 16 / (384 * 9e9 * second_moment(0.3, 0.2)))
    assert pressure == pytest.approx(4000 / 0.09)


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
