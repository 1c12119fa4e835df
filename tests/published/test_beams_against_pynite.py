"""Beams, bond beams and rafter pairs against PyNiteFEA, an independent finite-element solver (reference library)."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from Pynite import FEModel3D

from compliance.facts.mechanics.beams import Load, Point, SimpleBeam, Spread, uniform
from compliance.facts.mechanics.lateral.out_of_plane import greatest_moment
from compliance.facts.mechanics.lintels import force_on_end, lintel_moment, lintel_sag
from compliance.facts.mechanics.spans import support_moments, support_reactions
from compliance.facts.mechanics.thrust import rafter_thrust, tie_force

MODULUS, SECOND_MOMENT = 11e9, 1.3e-4
EXACT = 1e-6  # its shape functions are exact at nodes and along prismatic members; what is left is rounding

_TRIANGLE = (Spread(0.0, 1.2, 0.0, 7000.0), Spread(1.2, 2.4, 7000.0, 0.0))
CASES: dict[str, tuple[float, tuple[Load, ...]]] = {
    "even": (3.0, uniform(3.0, 5000.0)),
    "triangle": (2.4, _TRIANGLE),
    "one force": (4.0, (Point(1.1, 9000.0),)),
    "arch and rafters": (
        2.0,
        (
            *uniform(2.0, 800.0),
            Spread(0.0, 1.0, 0.0, 3000.0),
            Spread(1.0, 2.0, 3000.0, 0.0),
            Point(0.4, 2500.0),
            Point(1.5, 1200.0),
        ),
    ),
    "part of the span": (5.0, (Spread(0.7, 2.9, 1000.0, 6000.0), Spread(3.0, 5.0, 4000.0, 0.0))),
}


def _model() -> FEModel3D:
    model = FEModel3D()
    model.add_material("wood", MODULUS, MODULUS / 16, 0.3, 500)
    model.add_section("beam", 0.05, SECOND_MOMENT, SECOND_MOMENT, 1e-4)
    return model


def _line(stations: Sequence[float], supports: Sequence[float]) -> FEModel3D:
    model = _model()
    for index, x in enumerate(stations):
        model.add_node(f"n{index}", x, 0, 0)
        model.def_support(f"n{index}", index == 0, x in supports, True, True, True, False)
    for index in range(len(stations) - 1):
        model.add_member(f"m{index}", f"n{index}", f"n{index + 1}", "wood", "beam")
    return model


@pytest.mark.parametrize("case", CASES)
def test_one_span(case: str) -> None:
    span, loads = CASES[case]
    model = _line([0.0, span], [0.0, span])
    for load in loads:
        if isinstance(load, Point):
            model.add_member_pt_load("m0", "Fy", -load.force, load.at)
        else:
            model.add_member_dist_load("m0", "Fy", -load.at_start, -load.at_end, load.start, load.end)
    model.analyze_linear()
    beam, member = SimpleBeam(span, loads), model.members["m0"]
    assert beam.left == pytest.approx(model.nodes["n0"].RxnFY["Combo 1"], rel=EXACT)
    assert beam.right == pytest.approx(model.nodes["n1"].RxnFY["Combo 1"], rel=EXACT)
    size = beam.greatest_moment
    sag = beam.greatest_deflection(MODULUS, SECOND_MOMENT)
    for tenth in range(1, 10):
        x = span * tenth / 10 + 0.003
        assert beam.moment(x) == pytest.approx(abs(member.moment("Mz", x)), rel=EXACT, abs=EXACT * size)
        found = beam.deflection(x, MODULUS, SECOND_MOMENT)
        assert found == pytest.approx(-member.deflection("dy", x), rel=EXACT, abs=EXACT * sag)
        assert abs(beam.shear(x)) == pytest.approx(abs(member.shear("Fy", x)), rel=EXACT, abs=EXACT * beam.left)
    most = max(abs(member.max_moment("Mz")), abs(member.min_moment("Mz")))
    assert size == pytest.approx(most, rel=EXACT)
    sampled = max(-member.deflection("dy", span * i / 2000) for i in range(2001))
    assert sampled * (1 - EXACT) <= sag <= sampled * (1 + 1e-5)


def test_even_load_has_the_closed_form() -> None:
    beam = SimpleBeam(3.0, uniform(3.0, 5000.0))
    sag = lintel_sag(5000.0, 3.0, MODULUS, SECOND_MOMENT)
    assert beam.greatest_deflection(MODULUS, SECOND_MOMENT) == pytest.approx(sag, rel=1e-12)
    assert beam.greatest_moment == pytest.approx(lintel_moment(5000.0, 3.0), rel=1e-12)
    assert beam.greatest_shear == pytest.approx(force_on_end(5000.0, 3.0), rel=1e-12)


@pytest.mark.parametrize(
    ("spans", "loads"),
    [
        ([4.0], [3000.0]),
        ([4.0, 4.0], [3000.0, 3000.0]),
        ([3.0, 5.0, 4.2], [2500.0, 2500.0, 2500.0]),
        ([3.0, 5.0, 1.0, 4.2], [2500.0, 0.0, 4000.0, 1500.0]),
    ],
)
def test_bond_beam_over_crossing_walls(spans: list[float], loads: list[float]) -> None:
    stations = [sum(spans[:index]) for index in range(len(spans) + 1)]
    model = _line(stations, stations)
    for index, load in enumerate(loads):
        model.add_member_dist_load(f"m{index}", "Fy", -load, -load)
    model.analyze_linear()
    moments, reactions = support_moments(spans, loads), support_reactions(spans, loads)
    for index, reaction in enumerate(reactions):
        assert reaction == pytest.approx(model.nodes[f"n{index}"].RxnFY["Combo 1"], rel=EXACT, abs=1e-3)
    assert sum(reactions) == pytest.approx(sum(span * load for span, load in zip(spans, loads, strict=True)))
    for index, (span, load) in enumerate(zip(spans, loads, strict=True)):
        member = model.members[f"m{index}"]
        start, end = member.moment("Mz", 0.0), member.moment("Mz", span)
        assert abs(moments[index]) == pytest.approx(abs(start), rel=EXACT, abs=1e-2)
        assert abs(moments[index + 1]) == pytest.approx(abs(end), rel=EXACT, abs=1e-2)
        middle = member.moment("Mz", span / 2)
        sagging = load * span**2 / 8 - (moments[index] + moments[index + 1]) / 2
        assert abs(sagging) == pytest.approx(abs(middle), rel=EXACT, abs=1e-2)


def test_wall_held_top_and_bottom_with_an_offset_load() -> None:
    """A strip of wall one metre wide: even pressure, and the moment of the load on its top."""
    height, pressure, load, offset = 3.0, 900.0, 6000.0, 0.12
    model = _line([0.0, height], [0.0, height])
    model.add_member_dist_load("m0", "Fy", -pressure, -pressure)
    model.add_node_load("n1", "MZ", load * offset)
    model.analyze_linear()
    member = model.members["m0"]
    sampled = max(abs(member.moment("Mz", height * i / 4000)) for i in range(4001))
    assert greatest_moment(pressure, height, load, offset) == pytest.approx(sampled, rel=1e-6)


def _rafters(span: float, rise: float, load: float) -> FEModel3D:
    model = _model()
    for name, x, y in (("left", 0.0, 0.0), ("ridge", span / 2, rise), ("right", span, 0.0)):
        model.add_node(name, x, y, 0)
    slope = (rise**2 + (span / 2) ** 2) ** 0.5
    for name, start, end in (("up", "left", "ridge"), ("down", "ridge", "right")):
        model.add_member(name, start, end, "wood", "beam")
        on_slope = -load * span / 2 / slope
        model.add_member_dist_load(name, "FY", on_slope, on_slope)
    model.def_releases("up", Rzj=True)
    return model


def test_rafters_without_tie_push_the_walls() -> None:
    span, rise, load = 6.0, 1.8, 1500.0
    model = _rafters(span, rise, load)
    model.def_support("left", True, True, True, True, True, False)
    model.def_support("right", True, True, True, True, True, False)
    model.def_support("ridge", False, False, True, True, True, False)
    model.analyze_linear()
    assert abs(model.nodes["left"].RxnFX["Combo 1"]) == pytest.approx(rafter_thrust(load, span, rise), rel=1e-4)


@pytest.mark.parametrize("share", [0.0, 1 / 3])
def test_tie_takes_all_the_thrust_once_the_feet_may_slide(share: float) -> None:
    """Feet on rollers; the tie is a stiff bar with pinned ends, at the plate or a third of the way up."""
    span, rise, load = 6.0, 1.8, 1500.0
    model = _model()
    names = {"left": (0.0, 0.0), "right": (span, 0.0), "ridge": (span / 2, rise)}
    if share:
        names |= {"a": (span / 2 * share, rise * share), "b": (span - span / 2 * share, rise * share)}
    for name, (x, y) in names.items():
        model.add_node(name, x, y, 0)
        model.def_support(name, name == "left", name in ("left", "right"), True, True, True, False)
    low, high = ("a", "b") if share else ("left", "right")
    pieces = [(low, "ridge"), ("ridge", high), *([("left", "a"), ("b", "right")] if share else [])]
    whole = (rise**2 + (span / 2) ** 2) ** 0.5
    for start, end in pieces:
        model.add_member(f"{start}-{end}", start, end, "wood", "beam")
        model.add_member_dist_load(f"{start}-{end}", "FY", -load * span / 2 / whole, -load * span / 2 / whole)
    model.def_releases(f"{low}-ridge", Rzj=True)
    model.add_member("tie", low, high, "wood", "beam")
    model.def_releases("tie", Rzi=True, Rzj=True)
    model.analyze_linear()
    assert abs(model.members["tie"].axial(0.1)) == pytest.approx(
        tie_force(load, span=span, rise=rise, tie_height=share * rise, spacing=1.0), rel=1e-6
    )
