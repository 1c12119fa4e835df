"""The bay of an opening and its nearest lateral support."""

from __future__ import annotations

import pytest

from compliance.facts.common.fact import Fact
from compliance.facts.geometry.openings import opened
from compliance.facts.geometry.wall_plan import Support
from compliance.model.walls import Wall
from tests.support_rules import facts_of_opening

WALL = Wall.model_validate(
    {
        "run": {"from": ["0 m", "0 m"], "to": ["9 m", "0 m"]}, "height": "2.4 m", "thickness": "0.4 m",
        "openings": {"A": {"kind": "door", "start": "4 m", "width": "1 m", "height": "2 m", "sill": "0 m"}},
    }
)  # fmt: skip


def facts(*supports: Support) -> dict[str, Fact]:
    hole = opened(WALL, 9.0).holes[0]
    return facts_of_opening(WALL, hole=hole, height=2.4, length=9.0, supports=supports)


def test_bay_runs_between_the_counted_supports_on_either_side() -> None:
    found = facts(Support(0.0, "W2", 0.2), Support(3.0, "W3", 0.2, "is too low"), Support(7.0, "W4", 0.3))
    assert found["opening.bay"].value == pytest.approx(7.0)
    assert found["opening.brace_distance"].value == pytest.approx(7.0 - 5.0 - 0.3)
    assert "W4" in found["opening.brace_distance"].steps[0].says


def test_bay_runs_between_the_nearest_of_several_supports() -> None:
    found = facts(*(Support(float(s), f"W{s}", 0.2) for s in (1, 3, 6, 8)))
    assert found["opening.bay"].value == 3.0
    assert [one.value for one in found["opening.bay"].steps[0].given] == [6.0, 3.0]


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
