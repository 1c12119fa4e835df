"""The bay of an opening, its nearest lateral support, and the weakest and squattest specimen of a set."""

from __future__ import annotations

import pytest

from compliance.facts.fact import Fact
from compliance.facts.material_facts import set_facts
from compliance.facts.openings import opened, opening_facts
from compliance.facts.plan import Support
from compliance.model.materials import TestSet as SetRecord
from compliance.model.specimens import Specimen
from compliance.model.walls import Wall
from compliance.problems import Place

WALL = Wall.model_validate(
    {
        "run": {"from": ["0 m", "0 m"], "to": ["9 m", "0 m"]}, "height": "2.4 m", "thickness": "0.4 m",
        "openings": {"A": {"kind": "door", "start": "4 m", "width": "1 m", "height": "2 m", "sill": "0 m"}},
    }
)  # fmt: skip


def facts(*supports: Support) -> dict[str, Fact]:
    hole = opened(WALL, 9.0).holes[0]
    return opening_facts("W1", "A", WALL.openings["A"], hole, 2.4, 9.0, supports)


def test_bay_runs_between_the_counted_supports_on_either_side() -> None:
    found = facts(Support(0.0, "W2", 0.2), Support(3.0, "W3", 0.2, "is too low"), Support(7.0, "W4", 0.3))
    assert found["opening.bay"].value == pytest.approx(7.0)
    assert found["opening.brace_distance"].value == pytest.approx(7.0 - 5.0 - 0.3)
    assert "W4" in found["opening.brace_distance"].steps[0].says


def test_bay_runs_to_the_end_of_the_wall_where_nothing_supports_it() -> None:
    found = facts(Support(1.0, "W2", 0.2))
    assert found["opening.bay"].value == pytest.approx(8.0)
    assert found["opening.brace_distance"].value == pytest.approx(2.8)
    assert found["opening.bay"].steps[0].result.value == pytest.approx(8.0)


def test_a_wall_nothing_supports_has_no_brace_distance() -> None:
    found = facts(Support(1.0, "W2", 0.2, "is too short"))
    assert found["opening.bay"].value == pytest.approx(9.0)
    assert found["opening.brace_distance"].value is None
    assert found["opening.brace_distance"].reason


def test_a_support_that_covers_the_edge_leaves_no_distance() -> None:
    assert facts(Support(5.1, "W2", 0.2))["opening.brace_distance"].value == 0.0


def cube(mark: str, load: float | None, height: float | None = 0.1) -> Specimen:
    return Specimen(
        "compression", "C1", mark, "M1", Place("lab"), width=0.1, depth=0.1, height=height, peak_load=load, shape="cube"
    )


def test_weakest_and_squattest_specimen() -> None:
    found = set_facts("C1", SetRecord(kind="compression", mix="M1"), [cube("a", 2e4), cube("b", 1e4, 0.2)])
    assert found["set.lowest_strength"].value == pytest.approx(1e6)
    assert "b" in found["set.lowest_strength"].steps[-1].says
    assert found["set.height_to_width"].value == pytest.approx(1.0)


def test_a_specimen_without_result_does_not_count_and_one_without_height_hides_the_ratio() -> None:
    found = set_facts("C1", SetRecord(kind="compression", mix="M1"), [cube("a", 2e4, None), cube("b", None, 0.01)])
    assert found["set.lowest_strength"].value == pytest.approx(2e6)
    assert found["set.height_to_width"].missing
    empty = set_facts("C1", SetRecord(kind="compression", mix="M1"), [])
    assert empty["set.lowest_strength"].missing and not empty["set.lowest_strength"].reason


def test_shrinkage_bars_have_no_strength() -> None:
    found = set_facts("S1", SetRecord(kind="shrinkage", mix="M1"), [])
    assert found["set.lowest_strength"].reason and not found["set.lowest_strength"].missing
