"""Snow and the weight of a living roof: what must hold whatever the numbers, and what is refused."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.site.roof_layers import Layer, layer_weight, roof_weight
from compliance.facts.site.snow import (
    NOT_COVERED,
    RUN_NOT_GIVEN,
    SnowRoof,
    SnowTables,
    flat_roof_snow,
    rain_on_snow,
    roof_snow,
    slope_factor,
)
from compliance.units import Writer, measure, unit
from tests.recomputing import recomputed

FOLDER = Path(__file__).parents[2] / "rulesets" / "reference"


def values(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))["values"]
    return loaded


SNOW = SnowTables.from_values(values("snow"))
PSF = unit("psf").factor


@given(st.floats(0.0, 10_000.0), st.floats(0.0, 10_000.0))
def test_flat_roof_snow_grows_with_the_ground_snow(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert flat_roof_snow(0.7, 1.0, 1.1, 1.0, low) <= flat_roof_snow(0.7, 1.0, 1.1, 1.0, high)


@given(st.floats(0.0, 1.57), st.floats(0.0, 1.57), st.sampled_from([0.85, 1.0, 1.1, 1.2, 1.3]), st.booleans())
def test_slope_factor_falls_with_slope_and_warmth(a: float, b: float, thermal: float, slippery: bool) -> None:
    low, high = sorted((a, b))
    assert 1.0 >= slope_factor(low, thermal, slippery, SNOW) >= slope_factor(high, thermal, slippery, SNOW) >= 0.0
    assert slope_factor(low, thermal, True, SNOW) <= slope_factor(low, thermal, False, SNOW)
    assert slope_factor(low, 1.0, slippery, SNOW) <= slope_factor(low, 1.2, slippery, SNOW)


ROOF = SnowRoof(
    math.radians(20), run=4.0, terrain="C", sheltering="partially exposed", warmth="heated", risk_category="II"
)


def test_a_given_roof_load_stands_above_the_derived() -> None:
    found = roof_snow(1000.0, 5000.0, ROOF, SNOW)
    assert found.pressure == 1000.0 and found.standing is None
    assert found.steps[0].source == "as given by the jurisdiction"
    assert roof_snow(0.0, 5000.0, ROOF, SNOW).pressure == 0.0
    with pytest.raises(ValueError, match="given must be"):
        roof_snow(-1.0, None, None, SNOW)


def test_snow_without_its_values_is_missing() -> None:
    assert roof_snow(None, None, None, SNOW).missing == ("ground snow load", "roof")
    assert roof_snow(None, None, ROOF, SNOW).pressure is None


def test_rain_comes_on_snow_below_a_slope_that_goes_with_the_run() -> None:
    """5 psf where the slope in degrees is below the run in feet over 50 (ASCE 7-10 section 7.10): 1 degree, 50 ft."""
    ground, slope, run = 15 * PSF, math.radians(1.0), SNOW.surcharge_run
    assert run == pytest.approx(50 * 0.3048)
    assert rain_on_snow(ground, slope, run * 1.001, SNOW) == pytest.approx(5 * PSF)
    assert rain_on_snow(ground, slope, run, SNOW) == 0.0
    assert rain_on_snow(ground, slope, None, SNOW) == pytest.approx(5 * PSF)


@pytest.mark.parametrize("slippery", [False, True])
def test_the_line_of_the_slope_factor_gives_the_factor(slippery: bool) -> None:
    """Warm roofs (ASCE 7-10 Figure 7-2a): falling from 5 to 70 degrees where slippery, from 30 to 70 elsewhere."""
    roof = SnowRoof(
        math.radians(50),
        run=4.0,
        terrain="C",
        sheltering="partially exposed",
        warmth="heated",
        risk_category="II",
        slippery=slippery,
    )
    step = next(one for one in roof_snow(None, 2000.0, roof, SNOW).steps if one.says == "Slope factor")
    assert recomputed(step) == step.result.value == pytest.approx(20 / (65 if slippery else 40))


def test_snow_remarks_and_words() -> None:
    light = 15 * PSF
    assert roof_snow(None, light, ROOF, SNOW).remarks == (NOT_COVERED,)
    unknown = SnowRoof(
        ROOF.slope, run=None, terrain="C", sheltering="partially exposed", warmth="heated", risk_category="II"
    )
    assert roof_snow(None, light, unknown, SNOW).remarks == (NOT_COVERED, RUN_NOT_GIVEN)
    for change, says in (
        ({"terrain": "A"}, "terrain must be one of B, C, D, not 'A'"),
        ({"sheltering": "windy"}, "sheltering must be one of fully exposed"),
        ({"warmth": "cosy"}, "warmth must be one of heated"),
        ({"risk_category": "V"}, "risk category must be one of I, II"),
    ):
        words: dict[str, Any] = {
            "terrain": "C",
            "sheltering": "sheltered",
            "warmth": "heated",
            "risk_category": "II",
            **change,
        }
        with pytest.raises(ValueError, match=says):
            roof_snow(None, light, SnowRoof(0.3, 4.0, **words), SNOW)
    with pytest.raises(ValueError, match="no slope factors for a thermal factor"):
        slope_factor(0.3, 1.4, False, SNOW)


def test_layers_in_pounds_and_feet() -> None:
    """A layer of 4 in at 90 pcf weighs 30 psf, by the definition of the units (no published example was found)."""
    soil = Layer("growing medium", measure("4 in", "thickness").si, measure("90 pcf", "density").si)
    weight = layer_weight(soil)
    assert weight is not None and weight / PSF == pytest.approx(30.0, rel=1e-12)
    drain = Layer("drainage mat", weight=2 * PSF)
    water = Layer("water in the mat", weight=3 * PSF, passing_water=True)
    flat = roof_weight([soil, drain, water], 0.0)
    assert flat.dead is not None and flat.live is not None and flat.total is not None
    assert (flat.dead / PSF, flat.live / PSF, flat.total / PSF) == pytest.approx((32.0, 3.0, 35.0))
    sloped = roof_weight([soil, drain, water], math.radians(60))
    assert sloped.total is not None and sloped.total / PSF == pytest.approx(70.0)


@pytest.mark.parametrize(
    ("passing", "sums"),
    [
        ((False, False), [("Dead load", "(w1 + w2) / cos(slope)", 10.0)]),
        ((True, False), [("Dead load", "w2 / cos(slope)", 6.0), ("Water passing", "w1 / cos(slope)", 4.0)]),
        ((True, True), [("Water passing", "(w1 + w2) / cos(slope)", 10.0)]),
    ],
)
def test_each_kind_of_load_has_its_sum_and_no_other(
    passing: tuple[bool, bool], sums: list[tuple[str, str, float]]
) -> None:
    """2 and 3 psf of the surface at 60 degrees weigh twice as much over the plan."""
    layers = [
        Layer(name, weight=weight * PSF, passing_water=passes)
        for name, weight, passes in zip("ab", (2, 3), passing, strict=True)
    ]
    lines = roof_weight(layers, math.radians(60)).steps[2:]
    assert [(line.says.partition(" of ")[0].partition(" through")[0], line.formula) for line in lines] == [
        (says, formula) for says, formula, _ in sums
    ]
    assert [float(line.result.value) / PSF for line in lines] == pytest.approx([total for *_, total in sums])


def test_a_layer_without_saturated_density_leaves_the_roof_without_weight() -> None:
    known = Layer("membrane", weight=50.0)
    found = roof_weight([known, Layer("sod", thickness=0.1), Layer("gravel")], 0.1)
    assert (found.dead, found.live, found.total) == (None, None, None)
    assert found.missing == ("sod: saturated density", "gravel: thickness and saturated density")
    assert layer_weight(Layer("sod", thickness=0.1)) is None


layers = st.builds(Layer, st.just("layer"), st.floats(0, 1), st.floats(0, 2500), passing_water=st.booleans())


@given(st.lists(layers, min_size=1, max_size=6), layers, st.floats(0.0, 1.5))
def test_more_layers_and_more_slope_never_weigh_less(few: list[Layer], another: Layer, slope: float) -> None:
    base, more, steep = (roof_weight(*case).total for case in ((few, slope), ([*few, another], slope), (few, 1.5)))
    assert base is not None and more is not None and steep is not None
    assert base <= more * (1 + 1e-12)
    assert base <= steep * (1 + 1e-12)


def test_wrong_roofs_are_refused() -> None:
    with pytest.raises(ValueError, match="at least one layer"):
        roof_weight([], 0.1)
    with pytest.raises(ValueError, match="below a right angle"):
        roof_weight([Layer("sod", weight=1.0)], math.pi / 2)
    for wrong in (Layer("sod", weight=-1.0), Layer("sod", -0.1, 1000.0), Layer("sod", 0.1, float("inf"))):
        with pytest.raises(ValueError, match="must be a finite number not below zero"):
            roof_weight([wrong], 0.1)


def test_worked_lines_print_in_both_systems() -> None:
    layers = [Layer("sod", 0.1, 1500.0), Layer("mat", weight=40.0), Layer("rain", weight=9.0, passing_water=True)]
    for step in (*roof_snow(None, 700.0, ROOF, SNOW).steps, *roof_weight(layers, 0.3).steps):
        assert step.source or "as given" in step.says
        assert all(value.symbol in step.formula for value in step.given)
        assert all(step.line(Writer(system)).startswith(step.says) for system in ("us", "si"))


def test_a_printed_line_reads_like_a_hand_calculation() -> None:
    soil = Layer("soil", measure("4 in", "thickness").si, measure("90 pcf", "density").si)
    assert roof_weight([soil], 0.0).steps[0].line(Writer()) == (
        "soil, weight per area of the surface: w1 = t × γ × g = (4 in) × (90 pcf) × (standard gravity) = 30 psf"
    )
