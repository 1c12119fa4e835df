"""Every worked line on the materials: its formula, worked from its own values, gives its result, and it prints."""

from __future__ import annotations

from functools import cache

import pytest

from compliance.checking import check_folder
from compliance.judging.aspect import corrected
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.steps import Step
from compliance.units import KINDS, Writer
from tests.conftest import EXAMPLE
from tests.each import for_each
from tests.published.test_aspect_factors import TABLE
from tests.recomputing import recomputed


@cache
def steps() -> list[Step]:
    """Those of the example's materials, and those of a corrected strength."""
    checked = check_folder(EXAMPLE)
    subjects = [one for about in ("soil", "mix") for one in checked.facts.of(about).values()]
    found = [step for one in subjects for fact in one.facts.values() for step in fact.steps]
    found += [step for one in checked.evidence.ranking.trials for step in one.steps]
    found += [step for record in checked.evidence.sets.values() for one in record.specimens if one.result.step
              for step in [one.result.step]]  # fmt: skip
    prism = Specimen(
        "compression", set="T", mark="a", mix="M", place=Place("lab"), width=0.1, depth=0.12, height=0.21, shape="prism"
    )
    return [*found, *corrected(TABLE, prism, 1.2e6).steps]


def distinct() -> list[Step]:
    return list({(step.says, step.formula, step.given): step for step in steps()}.values())


@for_each(["all"], lambda _: [(step.says, step) for step in distinct() if step.formula])
def test_a_worked_line_gives_its_result(step: Step) -> None:
    assert recomputed(step) == pytest.approx(float(step.result.value), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize("system", ["us", "si"])
def test_every_line_prints_in_both_systems(system: str) -> None:
    writer = Writer("us" if system == "us" else "si")
    for step in distinct():
        line = step.line(writer)
        assert line.startswith(step.says) and "not finite" not in line
        assert all(given.kind in KINDS for given in (*step.given, step.result))


def test_the_lines_of_the_example_are_many_kinds() -> None:
    says = {step.says.partition(" in ")[0] for step in distinct()}
    assert {"Topsoil", "Clay", "Modulus of rupture, load at midspan", "Compressive strength", "Shrinkage"} <= says
    assert sum(bool(step.formula) for step in distinct()) > 40
