"""Every worked line of loads and structure: its formula, worked from its own values, gives its result; it prints."""

from __future__ import annotations

import inspect
import math
from collections.abc import Iterator
from functools import cache
from importlib import import_module

import pytest
from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.cli import app
from compliance.facts.catalogue import FACTS
from compliance.facts.common.coefficients import is_taken
from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Facts
from compliance.output.terminal.explanation import explanation
from compliance.steps import Step
from compliance.units import KINDS, Writer
from tests.conftest import EXAMPLE
from tests.each import for_each
from tests.recomputing import recomputed
from tests.unit.structural_houses import ROOF, SITE, WALL, bears, box, facts, opening, run

LIVING = {
    **ROOF, "kind": "living", "dead": None, "snow": None, "thrust_held_by": "bond-beam",
    "layers": [{"material": "sod", "thickness": "6 in", "saturated_density": "100 pcf"},
               {"material": "drain", "weight": "2 psf"},
               {"material": "water in the drain", "weight": "3 psf", "passing_water": "yes"}],
}  # fmt: skip
ROUND = {**ROOF, "kind": "reciprocal", "radius": "8 ft", "ring_radius": "1 ft", "thrust_held_by": "ring",
         "ring_capacity": "9000 lbf"}  # fmt: skip
RIDGE = {**ROOF, "thrust_held_by": "ridge-beam", "ridge_capacity": "700 plf"}
LOOSE = {**ROOF, "thrust_held_by": "none"}
COLLAR = {**ROOF, "tie_height": "3 ft", "thrust_held_by": "collar-tie"}
GARDEN = {
    **WALL, "use": "garden", "top_restraint": "free", "beam": None, "bears_load": "no", "braces": "no",
    "thickness": None, "thickness_base": "20 in", "thickness_top": "14 in", "tapered_face": "outside",
}  # fmt: skip


@cache
def buildings() -> list[Facts]:
    """Buildings that together go through every branch of the workings."""
    windows = {"W1": {"A": opening(4, 3), "B": opening(12, 4)}, "W3": {"A": opening(0, 3)}}
    load = {"loads": {"P": {"at": "9 ft", "dead": "500 lbf", "live": "0 lbf", "snow": "800 lbf", "length": "12 in",
                            "width": "12 in"}}}  # fmt: skip
    walls = box(24, 16, **windows)
    walls["W1"] |= load
    walls["G"] = GARDEN | {"run": run(24, 16, 40, 16), "height": "5 ft"}
    walls["H"] = GARDEN | {"run": run(0, 20, 12, 20), "thickness_base": "14 in", "tapered_face": "both"}
    site_05 = {"asce7": "7-05", "sds": None, "sd1": None, "ss": 0.3, "site_class": "D", "category_by": "asce7",
               "roof_snow": "20 psf"}  # fmt: skip
    found = [
        facts(walls, {"R": {**roof, "bears_on": bears("W1", "W3", eccentricity="2 in")}})
        for roof in (LIVING, ROUND, RIDGE, LOOSE, COLLAR)
    ]
    found.append(facts(walls, {"R": {**LIVING, "bears_on": bears("W1", "W3")}}, site={**SITE, **site_05}))
    return found


def derived() -> Iterator[tuple[str, Fact]]:
    for found in buildings():
        for subject in found:
            names = [name for name in FACTS if FACTS[name].compute and FACTS[name].about == subject.about]
            yield from ((name, subject.fact(name)) for name in names)


def example_steps() -> list[Step]:
    checked = check_folder(EXAMPLE)
    sets = ("structural-screening", "engineers-list")
    return [step for one in checked.findings if one.rule_set in sets for step in one.steps]


@cache
def all_steps() -> tuple[Step, ...]:
    return tuple(dict.fromkeys([*(step for _, fact in derived() for step in fact.steps), *example_steps()]))


def formulas(_: str) -> list[tuple[str, Step]]:
    return [(one.says, one) for one in all_steps() if one.formula and isinstance(one.result.value, float)]


@for_each(["all"], formulas)
def test_a_worked_line_gives_its_result(step: Step) -> None:
    if not math.isfinite(float(step.result.value)):
        return
    assert recomputed(step) == pytest.approx(float(step.result.value), rel=1e-9, abs=1e-9)


def test_a_fact_is_the_result_of_one_of_its_lines() -> None:
    tried = set()
    for name, fact in derived():
        results = [float(one.result.value) for one in fact.steps if isinstance(one.result.value, float)]
        if not results or not isinstance(fact.value, float) or not math.isfinite(fact.value):
            continue
        assert any(one == pytest.approx(fact.value, rel=1e-9, abs=1e-12) for one in results), name
        tried.add(name)
    assert len(tried) > 60


@pytest.mark.parametrize("system", ["us", "si"])
def test_every_line_prints_in_both_systems(system: str) -> None:
    writer = Writer("us" if system == "us" else "si")
    for step in all_steps():
        line = step.line(writer)
        assert line.startswith(step.says) and "not finite" not in line, line
        assert all(given.kind in (*KINDS, "word", "words", "yes-no", "") for given in (*step.given, step.result)), line


def test_the_lines_are_of_many_kinds() -> None:
    assert len({step.says for step in all_steps()}) > 120
    assert sum(bool(step.formula) for step in all_steps()) > 250


@for_each(["all"], lambda _: [(name, name) for name, spec in FACTS.items() if spec.compute])
def test_the_catalogue_names_a_function_of_the_building_and_the_subject(name: str) -> None:
    module, _, function = FACTS[name].compute.rpartition(".")
    found = getattr(import_module(f"compliance.facts.{module}"), function)
    told = inspect.signature(found)
    assert [one.annotation for one in told.parameters.values()] == ["Building", "Subject"]
    assert told.return_annotation == "Fact"


def test_no_function_computes_two_facts() -> None:
    paths = [spec.compute for spec in FACTS.values() if spec.compute]
    assert len(paths) > 100 and len(set(paths)) == len(paths)


def test_explain_prints_any_of_these_calculations() -> None:
    """Each line with its source, the limit with its standing, the margin; by the command for one of each part."""
    checked = check_folder(EXAMPLE)
    worked = [one for one in checked.findings if any(is_taken(step) for step in one.steps)]
    assert len(worked) > 150 and len({one.rule for one in worked}) > 30
    writer = Writer("us")
    for one in worked:
        told = explanation(one, checked)
        for step in one.steps:
            assert f"  {step.line(writer)}" in told and (not step.source or f"[{step.source}]" in told)
        assert one.verdict.upper() in told and (one.margin is None or "margin" in told)
    for subject, rule, words in (
        ("W4", "wall-tipping", "Factor against overturning: n = V_R / V"),
        ("W3.N5", "lintel-end-pressure", "Pressure on the earth at each end"),
        ("W3.P2", "pier-shear", "Shear stress: v = V / (t × L)"),
        ("R1", "tie-pull", "[three-hinged frame, statics]"),
        ("project", "load-balance", "Comes out under W7"),
    ):
        done = CliRunner().invoke(app, ["explain", str(EXAMPLE), subject, rule])
        assert done.exit_code == 0 and words in done.output, done.output
