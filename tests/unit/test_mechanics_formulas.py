"""Every worked line of the mechanics says what was computed: its formula, with its numbers put in, gives its result."""

from __future__ import annotations

import math
import re
from typing import Literal

import pytest

from compliance.facts.mechanics import (
    anchorage,
    bearing,
    eccentricity,
    footings,
    gravity,
    lintels,
    sections,
    slenderness,
    spans,
    thrust,
)
from compliance.facts.mechanics.lateral import in_plane, out_of_plane, piers, rocking, torsion
from compliance.facts.specimens import rupture
from compliance.steps import Step
from compliance.units import KINDS, Writer

CURVE = slenderness.SlendernessCurve(140, 99, 70)
AXIAL = slenderness.AxialFactors(0.9, 0.8, 0.8)
MIDDLE = eccentricity.MiddleCurve(2, 23, 37)
PIER = piers.PierLoad(0.0, 1.2, 9000.0, 4000.0, 1500.0, 700.0, 20_000.0)
BRACING = torsion.Bracing(
    [torsion.Panel(0, 0, 0, 1.0), torsion.Panel(0, 5, 0, 2.0), torsion.Panel(4, 1, math.pi / 2, 0.7)]
)
COMBINATION = gravity.Combination("D + 0.75 L", {"dead": 1, "live": 0.75})


def _steps() -> list[Step]:
    """One of every line, and of every way it can come out."""
    turned = BRACING.shares(5000.0, 0.3, 2.0, 2.0)
    return [
        sections.edge_stress_step(50_000.0, 0.03, 0.4, 1.0),
        sections.edge_stress_step(50_000.0, -0.12, 0.4, 1.0),
        sections.edge_stress_step(50_000.0, 0.2, 0.4, 1.0),
        sections.bending_stress_step(900.0, 0.09, 0.14),
        sections.shear_stress_step(900.0, 0.09, 0.14),
        *slenderness.slenderness_steps(2.7, 0.3, CURVE),
        *slenderness.slenderness_steps(12.0, 0.3, CURVE),
        slenderness.allowable_axial_step(414e3, 0.25, 0.9),
        slenderness.axial_strength_step(9e6, 0.2, 0.001, 400e6, 0.9, AXIAL),
        slenderness.flat_allowable_step(200e3, 0.4),
        *eccentricity.end_steps(-500.0, 9000.0, 0.002, 0.006, 0.4, 0.05),
        *eccentricity.middle_steps(0.05, 2.7, 0.4, MIDDLE),
        *eccentricity.middle_steps(0.05, 0.5, 0.4, MIDDLE),
        *eccentricity.middle_steps(0.3, 2.7, 0.4, MIDDLE),
        eccentricity.resistance_step(0.8, 0.4, 150e3),
        gravity.combination_step({"dead": 5000.0, "live": 3000.0, "snow": 0.0}, COMBINATION, "a code"),
        gravity.plan_load_step(700.0, 1.5, 3.0),
        gravity.bearing_line_load_step(1500.0, 4.0, 0.6, 0.3, "Roof on the wall"),
        gravity.tributary_load_step(1500.0, 2.4, "Floor on the wall"),
        gravity.eccentricity_step(9000.0, 0.1, 0.5, 8000.0, -0.02),
        piers.pier_step(PIER),
        bearing.bearing_stress_step(5000.0, 0.2, 0.3, 2.0, "Pressure under the beam"),
        *bearing.spread_steps(5000.0, 0.2, 0.9, math.radians(30), 0.3, 2.0, 0.4),
        lintels.lintel_span_step(1.2, 0.3),
        lintels.wall_above_step(lintels.wall_above(1.5, 0.4, 0.4, 1760.0, None), 0.4, 1760.0),
        lintels.wall_above_step(lintels.wall_above(1.5, 1.4, 0.4, 1760.0, math.radians(45)), 0.4, 1760.0),
        *lintels.lintel_steps(4000.0, 2500.0, 1.5, 9e9, 0.3, 0.15, 0.3, 0.3, 2.0),
        footings.net_bearing_step(71_820.0, 0.25, 2400.0),
        footings.required_width_step(30_000.0, 71_820.0),
        footings.least_width_step(30_000.0, 71_820.0, 0.4, 0.05),
        footings.soil_stress_step(30_000.0, 0.05, 0.6),
        footings.soil_stress_step(30_000.0, 0.15, 0.6),
        footings.soil_stress_step(30_000.0, 0.3, 0.6),
        *footings.projection_steps(60_000.0, 0.3, 0.1, 0.2),
        footings.depth_below_frost_step(0.4, 0.6),
        out_of_plane.seismic_wall_load_step(0.4, 0.5, 1.0, 7000.0, 0.1),
        out_of_plane.service_load_step(1400.0, 0.7, "a code"),
        out_of_plane.moment_with_offset_load_step(900.0, 2.7, 6000.0, -0.1),
        out_of_plane.greatest_moment_step(900.0, 2.7, 6000.0, 0.1),
        out_of_plane.greatest_moment_step(10.0, 2.7, 6000.0, 0.1),
        out_of_plane.cantilever_moment_step(900.0, 1.2, 300.0),
        out_of_plane.flexural_tension_step(900.0, 9000.0, 0.4),
        out_of_plane.allowable_tension_step(345e3, 3.0),
        rocking.pivot_inset_step(20_000.0, 414e3),
        *rocking.free_top_steps(900.0, 300.0, 20_000.0, 5000.0, 0.05, 2.7, 0.4, 0.02),
        *rocking.free_top_steps(0.0, 0.0, 20_000.0, 5000.0, 0.05, 2.7, 0.4, 0.02),
        *rocking.held_top_steps(20_000.0, 5000.0, 0.05, 2.7, 0.4, 0.02),
        *rocking.held_top_steps(20_000.0, 5000.0, 0.25, 2.7, 0.4, 0.02),
        rupture.rupture_at_centre_step(2600.0, 0.25, 0.25, 0.1),
        rupture.rupture_at_centre_with_weight_step(2600.0, 90.0, 0.25, 0.25, 0.1),
        rupture.rupture_at_thirds_step(2600.0, 90.0, 0.25, 0.25, 0.1),
        anchorage.force_at_top_step(900.0, 2.7, 0.5),
        anchorage.anchorage_force_step(1500.0, 5837.0, 0.5, 1.0, 4086.0),
        anchorage.force_per_anchor_step(4086.0, 1.2),
        anchorage.greatest_spacing_step(4086.0, 6000.0),
        anchorage.net_uplift_step(1500.0, 700.0, 0.6, 2.4),
        anchorage.depth_to_hold_down_step(2600.0, 0.4, 1760.0, 0.6),
        *anchorage.bond_beam_steps(1500.0, 5.0, 8, 9e9, 0.15, 0.3),
        spans.uniform_moment_step(900.0, 2.7, 8, "Moment", "pressure", "line_moment"),
        spans.uniform_deflection_step(900.0, 2.7, 9e9, 8e-5),
        *in_plane.base_shear_steps(0.5, 1.5, 1.0, 0.01, 250_000.0),
        in_plane.wind_force_step(1100.0, 8.0, 1.6),
        in_plane.stiffness_step(2.4, 1.8, 0.4, 4, 3),
        in_plane.shear_stress_step(-30_000.0, 0.4, 1.8),
        *in_plane.tipping_steps(30_000.0, 2.4, 60_000.0, 1.8, 0.4, 1.7),
        *in_plane.tipping_steps(0.0, 2.4, 60_000.0, 1.8, 0.4, 1.7),
        *(
            torsion.share_step(BRACING, i, share, BRACING.moment(5000.0, 0.3, 2.0, 2.0))
            for i, share in enumerate(turned)
        ),
        thrust.rafter_thrust_step(1500.0, 6.0, 1.8),
        thrust.tie_force_step(1500.0, 6.0, 1.8, 0.5, 0.6),
        thrust.ridge_beam_load_step(1500.0, 6.0),
        thrust.ring_roof_thrust_step(3000.0, 4.0, 0.6, 1.2),
        thrust.ring_tension_step(4000.0, 4.0),
    ]


_NAMED = {"max": max, "min": min, "exp": math.exp, "root": math.sqrt}
_WORDS = {"×": "*", "√12": "root(12)", "√": "root", "²": "**2", "³": "**3", "⁴": "**4"}


def _worked_out(step: Step) -> float:
    """The formula computed again from the values beside it, with nothing but its own text."""
    values = {given.symbol: given.value for given in step.given}
    if "g" in values:
        assert values["g"] == "standard gravity"
        values["g"] = 9.80665
    names = {symbol: f"v{index}" for index, symbol in enumerate(sorted(values, key=len, reverse=True))}
    text = step.formula
    for symbol, name in names.items():
        text = re.sub(rf"(?<![\w.]){re.escape(symbol)}(?=[²³⁴]|\b|\W|$)(?![A-Za-z_])", name, text)
    for word, python in _WORDS.items():
        text = text.replace(word, python)
    return float(eval(text, {"__builtins__": {}}, _NAMED | {names[symbol]: values[symbol] for symbol in values}))


def test_formula_gives_the_result() -> None:
    for step in _steps():
        if step.formula:
            assert _worked_out(step) == pytest.approx(step.result.value, rel=1e-12, abs=1e-12), step
        else:
            assert math.isinf(float(step.result.value)) or step.result.value == 0, step


def test_symbols_are_those_given() -> None:
    for step in _steps():
        used = set(re.findall(r"[^\W\d][\w']*", re.sub(r"[²³⁴]", " ", step.formula))) - set(_NAMED)
        assert used <= {given.symbol for given in step.given}, step
        assert all(given.symbol in step.formula or not step.formula for given in step.given), step


@pytest.mark.parametrize("system", ["us", "si"])
def test_line_prints(system: Literal["us", "si"]) -> None:
    for step in _steps():
        assert {given.kind for given in (*step.given, step.result)} <= set(KINDS), step
        line = step.line(Writer(system))
        assert line.startswith(step.says), step
        assert step.result.written(Writer(system)) in line, step
