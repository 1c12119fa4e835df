"""Every worked line of the soil tests: its formula, worked from its own given values, gives its result."""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.facts.mixes.blend_target import Material, Target
from compliance.facts.mixes.blending import best_blend, blend_of
from compliance.facts.mixes.quantities import OrderingPractice, quantities
from compliance.facts.soil.fractions import GrainSizes, SoilShares
from compliance.facts.soil.grading import GradingPoint, graded_shares
from compliance.facts.soil.jar_test import Jar, JarPractice, LayerMark, read_jar
from compliance.facts.soil.settling import Settling, settling_steps
from compliance.facts.soil.texture import TextureRules, texture_class
from compliance.facts.soil.water_properties import water_at
from compliance.steps import Step
from compliance.units import KINDS, Writer
from tests.recomputing import recomputed

REFERENCE = Path(__file__).parents[2] / "rulesets/reference"
ROUNDED_UP = "rounded up"


def values(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load((REFERENCE / f"{name}.yaml").read_text("utf-8"))
    assert set(loaded) == {"reference", "title", "source", "standing", "values"}
    assert loaded["reference"] == name
    held: dict[str, Any] = loaded["values"]
    return held


def all_steps() -> list[Step]:
    settling = Settling.from_values(values("settling"))
    sizes = GrainSizes.from_values(values("settling"), "usda")
    practice = values("mix-practice")
    jar = Jar(
        0.1,
        sand=LayerMark(0.02, 40),
        silt=LayerMark(0.03, 3600),
        settled=LayerMark(0.04, 90000),
        temperature=288.15,
        coarse_sand=0.01,
    )
    grading = [GradingPoint(2.36e-3, 0.9), GradingPoint(0.075e-3, 0.4), GradingPoint(0.001e-3, 0.1)]
    shares = SoilShares(0.2, silt=0.25, sand=0.55, sizes="usda", basis="dry weight")
    soil = Material("soil", {"clay": 0.3, "silt": 0.3, "fine sand": 0.4}, "dry weight", 1200.0)
    sand = Material("sand", {"coarse sand": 1.0}, "dry weight", 1600.0)
    loose = Material("loose", {"clay": 0.3, "fine sand": 0.7}, "settled depth")
    target = Target.from_values(practice, "cob")
    ordering = OrderingPractice.from_values(practice)
    return [
        *settling_steps(settling, 0.05e-3, 0.12, water_at(settling.formulas, 288.15)),
        *read_jar(jar, settling, sizes, JarPractice.from_values(values("settling"))).steps,
        *graded_shares(grading, sizes).steps,
        *texture_class(TextureRules.from_values(values("usda-texture")), shares).steps,
        *blend_of([soil, sand, loose], [2, 1.5, 0], target).steps,
        *best_blend([soil, sand], target).steps,
        *quantities(10, {"soil": 1, "sand": 2}, ordering, {"soil": 1200.0}, batch_buckets=7.5).steps,
    ]


@pytest.mark.parametrize("step", all_steps(), ids=lambda step: step.says)
def test_a_worked_line_gives_its_result(step: Step) -> None:
    assert isinstance(step.result.value, float)
    if step.formula:
        value = recomputed(step)
        if ROUNDED_UP in step.says:
            value = math.ceil(value)
        assert step.result.value == pytest.approx(value, rel=1e-9, abs=1e-12)
        for given in step.given:
            assert re.search(rf"(?<!\w){re.escape(given.symbol)}(?![^\W²³])", step.formula), given.symbol


@pytest.mark.parametrize("step", all_steps(), ids=lambda step: step.says)
@pytest.mark.parametrize("system", ["us", "si"])
def test_a_worked_line_prints(step: Step, system: Any) -> None:
    for given in (*step.given, step.result):
        assert given.kind in KINDS
        assert given.value == 0 or re.search("[1-9]", given.written(Writer(system))), f"{given} prints as nothing"
    assert step.says in step.line(Writer(system))
