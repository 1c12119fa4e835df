"""Results of single specimens: where the load of a beam stood, its own weight, and a stated strength beside them.

The reference for bending is the loaded simple beam, worked out apart in `facts.mechanics.beams`.
"""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.mechanics.beams import Point, SimpleBeam, Spread
from compliance.facts.mechanics.sections import section_modulus
from compliance.facts.specimens.beam_tests import weight_between_supports
from compliance.facts.specimens.specimen_results import measured, stated_beside_measured
from compliance.model.specimens import Loading, Specimen
from compliance.problems import Place

G = 9.80665


def beam(loading: Loading | None = "centre", **fields: Any) -> Specimen:
    given_ = {"width": 0.15, "height": 0.15, "depth": 0.30, "span": 0.25, "peak_load": 4000.0, "mass": 12.0} | fields
    return Specimen("rupture", set="T", mark="T-1", mix="M1", place=Place("lab"), loading=loading, **given_)


def by_beam(loads: list[Point | Spread], one: Specimen) -> float:
    assert one.span and one.width and one.height
    return SimpleBeam(one.span, loads).greatest_moment / section_modulus(one.width, one.height)


@given(st.floats(500, 20000), st.floats(2, 30), st.floats(0.1, 0.3))
def test_each_form_is_the_bending_of_the_loaded_beam(load: float, mass: float, span: float) -> None:
    weight = mass * G * span / 0.3
    spread = Spread(0.0, span, weight / span, weight / span)
    thirds: list[Point | Spread] = [Point(span / 3, load / 2), Point(2 * span / 3, load / 2)]
    cases: list[tuple[Loading, list[Point | Spread], float | None]] = [
        ("centre", [Point(span / 2, load)], None),
        ("centre", [Point(span / 2, load), spread], G),
        ("third", thirds, None),
        ("third", [*thirds, spread], G),
    ]
    for loading, loads, gravity in cases:
        one = beam(loading, peak_load=load, mass=mass, span=span)
        found = measured(one, gravity)
        assert found.value == pytest.approx(by_beam(loads, one), rel=1e-9)
        assert found.step is not None and found.step.result.value == found.value


def test_an_unstated_loading_takes_the_lower_form_and_says_so() -> None:
    found, third = measured(beam(None)), measured(beam("third"))
    assert found.value == third.value and found.value < (measured(beam("centre")).value or 0)
    assert found.step is not None and "state loading" in found.step.says
    assert third.step is not None and "state loading" not in third.step.says


@pytest.mark.parametrize("lacking", [{"mass": None}, {"depth": None}])
def test_own_weight_that_is_not_known_is_left_out_and_said(lacking: dict[str, None]) -> None:
    found = measured(beam(**lacking), G)
    assert found.value == measured(beam(**lacking)).value
    assert found.step is not None and "errs low" in found.step.says


def test_only_the_weight_between_the_supports_counts() -> None:
    assert weight_between_supports(beam(), G) == pytest.approx(12 * G * 25 / 30)


@pytest.mark.parametrize("lacking", ["peak_load", "span", "width", "height"])
def test_without_load_or_sides_the_stated_strength_stands(lacking: str) -> None:
    stated = measured(beam(**{lacking: None}, strength=3e5))
    assert stated.value == 3e5 and stated.step is not None and stated.step.source == "lab report"
    nothing = measured(beam(**{lacking: None}))
    assert nothing.value is None and nothing.reason


def prism(**fields: Any) -> Specimen:
    given_ = {"shape": "prism", "width": 0.1, "depth": 0.1, "height": 0.2, "peak_load": 10_000.0} | fields
    return Specimen("compression", set="T", mark="T-1", mix="M1", place=Place("lab"), **given_)


@pytest.mark.parametrize(("stated", "share"), [(1.0e6, 0.0), (1.01e6, 0.01), (0.98e6, 0.02)])
def test_a_stated_strength_beside_load_over_faces(stated: float, share: float) -> None:
    found = stated_beside_measured(prism(strength=stated), G)
    assert found is not None and found.share == pytest.approx(share)
    assert stated_beside_measured(prism(strength=stated, depth=None), G) is None
    assert stated_beside_measured(prism(), G) is None


def test_a_beams_stated_strength_may_count_its_weight_and_an_unstated_loading() -> None:
    for loading in ("centre", "third"):
        for gravity in (None, G):
            value = measured(beam(loading), gravity).value  # type: ignore[arg-type]
            for said in (loading, None):
                found = stated_beside_measured(beam(said, strength=value), G)  # type: ignore[arg-type]
                assert found is not None and found.share == pytest.approx(0, abs=1e-12)
    centre = measured(beam("centre")).value
    found = stated_beside_measured(beam("third", strength=centre), G)
    assert found is not None and found.share > 0.4
