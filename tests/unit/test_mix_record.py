"""What the parts of a mix blend to, against means worked out with numpy."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.evidence.gathered import gathered
from compliance.facts.mixes.mix_composition import MixRecord
from compliance.facts.soil.soil_record import soil_record
from compliance.model.materials import Soil
from compliance.model.project import Project
from compliance.reading.reference_files.material_practice import read_material_practice
from tests.tries import tries

PRACTICE = read_material_practice()
CLAY = {"name": "clay", "clay": "40 %", "silt": "20 %", "sand": "40 %", "bulk_density": "1200 kg/m3"}
SAND = {"name": "sand", "material": "sand", "clay": "0 %", "silt": "5 %", "sand": "95 %", "bulk_density": "1600 kg/m3"}


def mixed(soils: dict[str, Any], parts: dict[str, float], **more: Any) -> MixRecord:
    project = Project.model_validate(
        {
            "project": {"name": "p", "date": "2026-01-01"},
            "jurisdiction": {"name": "j", "rule_sets": ["r"]},
            "soils": soils,
            "mixes": {"M1": {"name": "m", "parts": parts} | more},
            "walls": {
                "W1": {"run": {"from": ["0 m", "0 m"], "to": ["5 m", "0 m"]}, "height": "2 m", "thickness": "0.4 m"}
            },
        }
    )
    return gathered(project, {}, PRACTICE).mixes["M1"]


@settings(deadline=None, max_examples=tries(40))
@given(st.floats(0.1, 20), st.floats(0.1, 20), st.booleans())
def test_shares_are_the_mean_weighted_by_weight_or_else_by_volume(a: float, b: float, weighed: bool) -> None:
    soils = {"S1": CLAY, "S2": SAND}
    if not weighed:
        soils = {mark: {k: v for k, v in one.items() if k != "bulk_density"} for mark, one in soils.items()}
    found = mixed(soils, {"S1": a, "S2": b})
    weights = np.array([a * (1200 if weighed else 1), b * (1600 if weighed else 1)])
    shares = np.average([[0.4, 0.2, 0.4], [0, 0.05, 0.95]], axis=0, weights=weights)
    assert found.weighed is weighed and found.shares is not None
    assert [found.shares[name] for name in ("clay", "silt", "sand")] == pytest.approx(list(shares))
    assert bool([one for one in found.remarks if one.code == "mix-by-volume"]) is not weighed


def test_a_soil_from_a_jar_is_never_turned_into_weight() -> None:
    jar = {
        "depth": "200 mm",
        "sand": {"height": "80 mm"},
        "silt": {"height": "120 mm"},
        "settled": {"height": "160 mm"},
    }
    found = mixed({"S1": {"name": "c", "jar": jar, "bulk_density": "1200 kg/m3"}, "S2": SAND}, {"S1": 1, "S2": 1})
    assert not found.weighed and {one.code for one in found.remarks} == {"mix-by-volume", "mix-by-jar"}


def test_a_soil_without_shares_is_named_and_nothing_is_guessed() -> None:
    found = mixed({"S1": CLAY, "S2": {"name": "sand", "material": "sand"}}, {"S1": 1, "S2": 2, "S9": 1})
    assert found.shares is None and found.unknown == ("S2", "S9")


def test_gravel_of_the_whole_stays_gravel() -> None:
    soils = {"S1": CLAY | {"gravel": "10 %"}, "S2": {"name": "g", "material": "gravel", "gravel": "100 %"}}
    found = mixed({mark: {k: v for k, v in one.items() if k != "bulk_density"} for mark, one in soils.items()},
                  {"S1": 1, "S2": 1})  # fmt: skip
    assert found.shares is not None
    assert found.shares == pytest.approx({"clay": 0.18, "silt": 0.09, "sand": 0.18, "gravel": 0.55})
    assert soil_record(Soil.model_validate(CLAY), PRACTICE).origin == "stated"
