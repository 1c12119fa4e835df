"""Which way answers move: more load, height or wind never helps; more thickness never hurts, where that is true.

Thickness is no help everywhere. It adds weight: footings get wider, base shear and earthquake load on the wall grow,
and a stiffer wall draws more of the twist. A bearing kept at a fixed distance from the face moves off the centre as a
wall gets thicker. The last tests hold such cases, so that nobody takes the rule for a general one.
"""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.mechanics.eccentricity import MiddleCurve, end_reduction, middle_lines
from compliance.facts.mechanics.footings import greatest_soil_pressure, required_width
from compliance.facts.mechanics.gravity import level_stress
from compliance.facts.mechanics.lateral.in_plane import shear_stress
from compliance.facts.mechanics.lateral.out_of_plane import flexural_tension, greatest_moment, seismic_wall_load
from compliance.facts.mechanics.lateral.rocking import (
    held_top_capacity,
    overturning_moment,
    restoring_moment,
    stability_factor,
)
from compliance.facts.mechanics.lateral.rocking_piers import rocking_of_pier, rocking_of_wall
from compliance.facts.mechanics.lintels import lintel_moment, lintel_sag
from compliance.facts.mechanics.sections import edge_stresses
from compliance.facts.mechanics.slenderness import SlendernessCurve, radius_of_gyration, slenderness_factor
from compliance.facts.mechanics.thrust import rafter_thrust

CURVE = SlendernessCurve(140, 99, 70)
STIFF = MiddleCurve(2, 23, 37)
WEIGHT = 1760 * 9.80665  # N/m³
ROUND = 1 + 1e-9
THICK = st.floats(0.2, 0.8)
HIGH = st.floats(1.0, 5.0)
LOAD = st.floats(1.0, 60_000.0)
# None, or what can be measured: squares of far smaller numbers are lost below the least that a float can hold.
WIND = st.just(0.0) | st.floats(1e-6, 5000.0)
OFF = st.just(0.0) | st.floats(1e-6, 0.3)
MORE = st.floats(1.0, 2.0)


@given(HIGH, THICK, MORE)
def test_slenderness_factor(high: float, thick: float, more: float) -> None:
    """The published curve itself rises by 5e-9 where its branches meet; nothing beyond that is let pass."""
    left = slenderness_factor(high, radius_of_gyration(thick), CURVE)
    assert slenderness_factor(high * more, radius_of_gyration(thick), CURVE) <= left + 6e-9
    assert slenderness_factor(high, radius_of_gyration(thick * more), CURVE) >= left - 6e-9


@given(HIGH, THICK, OFF, MORE)
def test_eccentric_buckling(high: float, thick: float, off: float, more: float) -> None:
    left = middle_lines(off, high, thick, STIFF)[-1]
    assert middle_lines(off, high * more, thick, STIFF)[-1] <= left * ROUND
    assert middle_lines(off * more, high, thick, STIFF)[-1] <= left * ROUND
    assert middle_lines(off, high, thick * more, STIFF)[-1] >= left / ROUND
    assert end_reduction(off, thick * more) >= end_reduction(off, thick) / ROUND


@given(LOAD, OFF, THICK, MORE)
def test_edge_pressure(load: float, off: float, thick: float, more: float) -> None:
    """Thickness helps here while load and eccentricity from the centre stay as they are."""
    most = edge_stresses(load, off, thick, 1.0).most
    assert edge_stresses(load * more, off, thick, 1.0).most >= most / ROUND
    assert edge_stresses(load, off * more, thick, 1.0).most >= most / ROUND
    assert edge_stresses(load, off, thick * more, 1.0).most <= most * ROUND


@given(LOAD, OFF, HIGH, THICK, MORE)
def test_base_of_a_wall_with_its_weight(load: float, off: float, high: float, thick: float, more: float) -> None:
    """Held at the top: load on the centre at the base; the own weight's pressure does not depend on thickness."""
    thin, thicker = (
        level_stress(
            load, top_offset=off, moment_share=0.0, weight=WEIGHT * high * t, weight_offset=0.0, depth=t, width=1.0
        ).edges.most
        for t in (thick, thick * more)
    )
    assert thicker <= thin * ROUND
    higher = level_stress(
        load,
        top_offset=off,
        moment_share=0.0,
        weight=WEIGHT * high * more * thick,
        weight_offset=0.0,
        depth=thick,
        width=1.0,
    ).edges.most
    assert higher >= thin / ROUND


@given(WIND, HIGH, LOAD, OFF, THICK, MORE)
def test_bending_square_to_the_wall(w: float, high: float, load: float, off: float, thick: float, more: float) -> None:
    def tension(wind: float, height: float, t: float) -> float:
        return flexural_tension(greatest_moment(wind, height, load, off), 0.0, t)

    found = tension(w, high, thick)
    assert tension(w * more, high, thick) >= found / ROUND
    assert tension(w, high * more, thick) >= found / ROUND
    assert tension(w, high, thick * more) <= found * ROUND


@given(st.floats(0.1, 2.0), HIGH, THICK, MORE)
def test_earthquake_square_to_the_wall(sds: float, high: float, thick: float, more: float) -> None:
    """The load grows with thickness, the tension it causes falls all the same: w ~ t, S ~ t²."""

    def tension(shakes: float, t: float) -> float:
        pressure = seismic_wall_load(0.4, shakes, 1.0, WEIGHT * t, 0.1)
        return flexural_tension(greatest_moment(pressure, high, 0.0, 0.0), 0.0, t)

    assert tension(sds * more, thick) >= tension(sds, thick) / ROUND
    assert tension(sds, thick * more) <= tension(sds, thick) * ROUND


@given(st.floats(1.0, 5000.0), HIGH, LOAD, OFF, THICK, MORE)
def test_tipping_square_to_the_wall(w: float, high: float, load: float, off: float, thick: float, more: float) -> None:
    def factor(wind: float, height: float, t: float) -> float:
        stands = restoring_moment(WEIGHT * high * t, load, off, t, 0.0)
        return stability_factor(stands, overturning_moment(wind, height, 0.0))

    assert factor(w * more, high, thick) <= factor(w, high, thick) * ROUND
    assert factor(w, high * more, thick) <= factor(w, high, thick) * ROUND
    assert factor(w, high, thick * more) >= factor(w, high, thick) / ROUND
    assert held_top_capacity(9000.0, top_load=load, top_offset=off, height=high, thickness=thick * more, inset=0.0) >= (
        held_top_capacity(9000.0, top_load=load, top_offset=off, height=high, thickness=thick, inset=0.0) / ROUND
    )
    assert held_top_capacity(9000.0, top_load=load, top_offset=off, height=high * more, thickness=thick, inset=0.0) <= (
        held_top_capacity(9000.0, top_load=load, top_offset=off, height=high, thickness=thick, inset=0.0) * ROUND
    )


@given(st.floats(0.0, 1e5), HIGH, LOAD, st.floats(0.5, 6.0), THICK, MORE)
def test_along_the_wall(shear: float, high: float, dead: float, long: float, thick: float, more: float) -> None:
    found, whole = rocking_of_pier(0.9, 1.0, dead, dead, long, high), rocking_of_wall(0.9, dead, long, high)
    assert rocking_of_pier(0.9, 0.5, dead, dead, long, high) <= found * ROUND
    assert rocking_of_pier(0.9, 1.0, dead, dead, long, high * more) <= found * ROUND
    assert rocking_of_pier(0.9, 1.0, dead * more, dead, long, high) >= found / ROUND
    assert rocking_of_wall(0.9, dead, long, high * more) <= whole * ROUND
    assert shear_stress(shear, thick * more, long) <= shear_stress(shear, thick, long) * ROUND


@given(LOAD, st.floats(0.5, 4.0), MORE)
def test_lintels(load: float, span: float, more: float) -> None:
    assert lintel_moment(load * more, span) >= lintel_moment(load, span) / ROUND
    assert lintel_moment(load, span * more) >= lintel_moment(load, span) / ROUND
    sag = lintel_sag(load, span, 9e9, 2e-4)
    assert lintel_sag(load * more, span, 9e9, 2e-4) >= sag / ROUND
    assert lintel_sag(load, span * more, 9e9, 2e-4) >= sag / ROUND


@given(LOAD, st.floats(2.0, 9.0), st.floats(0.3, 4.0), MORE)
def test_thrust(load: float, span: float, rise: float, more: float) -> None:
    found = rafter_thrust(load, span, rise)
    assert rafter_thrust(load * more, span, rise) >= found / ROUND
    assert rafter_thrust(load, span * more, rise) >= found / ROUND
    assert rafter_thrust(load, span, rise * more) <= found * ROUND


@given(LOAD, THICK, MORE)
def test_thickness_widens_the_footing(load: float, thick: float, more: float) -> None:
    thin, thicker = (required_width(load + WEIGHT * 2.5 * t, 71_820.0) for t in (thick, thick * more))
    assert thicker >= thin
    assert greatest_soil_pressure(load + WEIGHT * 2.5 * thick * more, 0.0, 0.6) >= (
        greatest_soil_pressure(load + WEIGHT * 2.5 * thick, 0.0, 0.6)
    )


def test_thickness_hurts_a_bearing_kept_near_the_face() -> None:
    """Bearing 100 mm from the face: on the middle of a wall of 200 mm, far off the middle of one of 400 mm."""
    thin, thick = (edge_stresses(10_000.0, t / 2 - 0.1, t, 1.0).most for t in (0.2, 0.4))
    assert thick > thin
