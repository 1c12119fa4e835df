"""Figures of the shipped rule set on adobe and burnt adobe of Yuma, Arizona: city code 150-030 to 150-032, read."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from compliance.checking import check_folder
from tests.published.american import (
    ENGINEER,
    FOOT,
    INCH,
    MEETS,
    PSI,
    REVISE,
    Facts,
    Published,
    hold,
    numbers_without_case,
    open_limits,
    rules,
    verdict,
)

YUMA = "yuma-150-adobe"
DRIED: Facts = {"mix.form": "adobe"}
BURNT: Facts = {"mix.form": "fired-adobe"}
UNITS: Facts = {**BURNT, "mix.volume": "5 m3"}
BOLTS: Facts = {**BURNT, "wall.has_beam": "yes"}
FREE: Facts = {**DRIED, "wall.least_thickness": "14 in", "wall.top_restraint": "free"}
HELD: Facts = {**DRIED, "wall.least_thickness": "14 in", "wall.top_restraint": "roof"}
EIGHT: Facts = {**BURNT, "wall.least_thickness": "8 in"}

FIGURES = (
    # 150-032 A(1): one story; height or length 10 t, length 24 t where ceiling joists or rafters hold the wall.
    Published("stories", "maximum", 1, "read", "150-032", "project.stories", (1,), 1, 2, fails=ENGINEER),
    Published("height-to-thickness", "maximum", 10, "read", "150-032 A(1)", "wall.height_to_thickness", (10,), 9.9,
        10.1,
              DRIED),
    Published("unsupported-length", "free", 10, "read", "150-032 A(1)", "wall.unsupported_length",
              ("140 in", "3.556 m"), "139 in", "141 in", FREE),
    Published("unsupported-length", "held", 24, "read", "150-032 A(1)", "wall.unsupported_length",
              ("28 ft", "8.5344 m"), "27.9 ft", "28.1 ft", HELD),
    # 150-032 A(2): 14 in outside, 10 in inside, stem wall 6 in above the ground.
    Published("exterior-thickness", "minimum", 14 * INCH, "read", "150-032 A(2)", "wall.least_thickness",
              ("14 in", "355.6 mm"), "14.1 in", "13.9 in", {**DRIED, "wall.use": "exterior"}),
    Published("interior-thickness", "minimum", 10 * INCH, "read", "150-032 A(2)", "wall.least_thickness",
              ("10 in", "254 mm"), "10.1 in", "9.9 in", {**DRIED, "wall.use": "interior"}),
    Published("stem-height", "minimum", 6 * INCH, "read", "150-032 A(2)", "stem.above_grade",
              ("6 in", "152.4 mm"), "6.1 in", "5.9 in"),
    # Burnt adobe: 600 psi on average, 500 psi for one of five; 15 t and 4 ft more at a gable; 8 in; half lap.
    Published("burnt-strength", "minimum", 600 * PSI, "read", "burnt", "result", ("600 psi", "4.136854375901 MPa"),
              "601 psi", "599 psi", {**UNITS, "specimens": 5}),
    Published("burnt-strength", "count", 5, "read", "burnt", "specimens", (5,), 6, 4, {**UNITS, "result": "700 psi"}),
    Published("burnt-strength-single", "minimum", 500 * PSI, "read", "burnt", "result", ("500 psi",
        "3.447378646584 MPa"),
              "501 psi", "499 psi", {**UNITS, "specimens": 5}),
    Published("burnt-height", "maximum", 15, "read", "burnt", "wall.height", ("10 ft", "3.048 m"), "9.9 ft", "10.1 ft",
              {**EIGHT, "wall.gable": "no"}),
    Published("burnt-height", "gable", 4 * FOOT, "read", "burnt", "wall.height", ("14 ft", "4.2672 m"),
              "13.9 ft", "14.1 ft", {**EIGHT, "wall.gable": "yes"}),
    Published("burnt-thickness", "minimum", 8 * INCH, "read", "burnt", "wall.least_thickness", ("8 in", "203.2 mm"),
              "8.1 in", "7.9 in", BURNT),
    Published("burnt-lap", "minimum", 0.5, "read", "burnt", "wall.unit_lap", ("50 %",), "51 %", "49 %", BURNT),
    # Bolts 1/2 in thick, 20 in deep, 24 in on centre.
    Published("burnt-anchor-diameter", "minimum", INCH / 2, "read", "burnt", "beam.anchor_diameter",
              ("1/2 in", "12.7 mm"), "0.6 in", "0.4 in", BOLTS),
    Published("burnt-anchor-embedment", "minimum", 20 * INCH, "read", "burnt", "beam.anchor_embedment",
              ("20 in", "508 mm"), "20.1 in", "19.9 in", BOLTS),
    Published("burnt-anchor-spacing", "maximum", 24 * INCH, "read", "burnt", "beam.anchor_spacing",
              ("24 in", "609.6 mm"), "23.9 in", "24.1 in", BOLTS),
)  # fmt: skip


@pytest.mark.parametrize("one", FIGURES, ids=str)
def test_figure(one: Published) -> None:
    hold(YUMA, one)


def test_every_figure_is_held() -> None:
    assert numbers_without_case(YUMA, FIGURES) == set()


def test_no_strength_of_dried_adobe_was_found() -> None:
    assert open_limits(YUMA) == {("adobe-strength", "minimum")}


def test_stem_wall_as_thick_as_the_adobe() -> None:
    """150-032 A(2), read."""
    found = [verdict(YUMA, "stem-thickness", {**DRIED, "wall.base_thickness": "14 in", "stem.thickness": thickness})
             for thickness in ("14.1 in", "14 in", "355.6 mm", "13.9 in")]  # fmt: skip
    assert found == [MEETS, MEETS, MEETS, REVISE]


@pytest.mark.parametrize(("units", "least"), [(1, 5), (5_000, 5), (5_001, 10), (12_000, 15), (20_000, 20)])
def test_sampling_of_burnt_adobe(units: int, least: int) -> None:
    """Five for 5,000, read; that a begun lot counts whole is the cautious reading."""

    def judged(tested: int) -> str:
        given: Facts = {**BURNT, "set.kind": "compression", "mix.units": units, "set.specimens": tested}
        return verdict(YUMA, "burnt-sampling", given)

    assert [judged(least - 1), judged(least), judged(least + 1)] == [REVISE, MEETS, MEETS]


def test_sampling_past_the_table() -> None:
    given: Facts = {**BURNT, "set.kind": "compression", "mix.units": 20_001, "set.specimens": 500}
    assert verdict(YUMA, "burnt-sampling", given) == ENGINEER


def test_a_beam_alone_does_not_lengthen_the_free_run() -> None:
    """Only ceiling joists or rafters raise 10 t to 24 t; who has not said what holds the top is asked."""
    wall: Facts = {**DRIED, "wall.least_thickness": "14 in", "wall.unsupported_length": "20 ft"}
    found = [verdict(YUMA, "unsupported-length", {**wall, "wall.top_restraint": top}) for top in ("roof", "bond-beam")]
    assert found == [MEETS, REVISE]
    assert verdict(YUMA, "unsupported-length", wall) == "missing"


def test_each_kind_of_adobe_has_its_own_rules() -> None:
    """What is dried never falls under the rules for what is burnt, and the other way round; unsaid, it is asked."""
    dried = {"height-to-thickness", "unsupported-length", "exterior-thickness", "interior-thickness", "stem-thickness"}
    burnt = {rule for rule in rules(YUMA) if rule.startswith(("burnt-", "inspect-anchor"))}
    place: Facts = {"wall.use": "exterior", "wall.has_beam": "yes", "set.kind": "compression", "mix.volume": "5 m3"}
    for rule in dried:
        assert verdict(YUMA, rule, {**place, **BURNT}) == "not-applicable"
    for rule in burnt:
        assert verdict(YUMA, rule, {**place, **DRIED}) == "not-applicable"
        assert verdict(YUMA, rule, place) == "missing"


def test_a_small_house(project: Callable[..., Path]) -> None:
    """A wall of 14 in and 28 ft between ends: within 24 t if rafters hold it, and 9 ft within 10 t."""
    head = """\
project: {name: Trial, date: 2026-12-30, stories: 1}
jurisdiction: {name: Yuma, rule_sets: [yuma-150-adobe]}
soils: {S1: {name: clay}}
mixes: {M1: {name: adobe, form: adobe, parts: {S1: 1}}}
stems: {B1: {material: concrete, thickness: 14 in, above_grade: 6 in}}
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [28 ft, 0 ft]}, height: 9 ft, thickness: 14 in, mix: M1, use: exterior,
       top_restraint: roof, stem: B1}
  W2: {run: {from: [0 ft, 20 ft], to: [28 ft, 20 ft]}, height: 12 ft, thickness: 12 in, mix: M1, use: exterior,
       top_restraint: free, stem: B1}
"""
    folder = project(text="", head=head)
    found = {(one.rule, one.subject): one.outcome.value for one in check_folder(folder).findings}
    for rule in ("height-to-thickness", "unsupported-length", "exterior-thickness", "stem-thickness"):
        assert found[rule, "W1"] == MEETS
    # 12 ft at 12 in is 12 t, the free run 28 t, and the wall is too thin for the outside.
    for rule in ("height-to-thickness", "unsupported-length", "exterior-thickness"):
        assert found[rule, "W2"] == REVISE
    assert found["stem-height", "W1"] == MEETS
