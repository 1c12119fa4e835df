"""The lines that show what a solid length takes under a stiff roof lead to the share that is judged."""

from __future__ import annotations

import math

import pytest

from compliance.facts.bracing.brace_forces import braced_walls
from compliance.facts.common.needs import Needs
from tests.unit.structural_houses import ROOF, WALL, bears, box, facts, opening, run


def test_the_lines_show_the_stray_that_loads_a_length_more() -> None:
    """A lopsided house with a wall askew, so that each way of straying, and either direction, gives another share."""
    walls = box(24, 16, W1={"A": opening(3, 9)}, W2={"B": opening(4, 3)})
    walls["W5"] = {**WALL, "run": run(0, 0, 9, 16), "line_load": "100 plf", "load_eccentricity": "0 in"}
    for mark in ("W2", "W4"):
        walls[mark] |= {"line_load": "100 plf", "load_eccentricity": "0 in"}
    building = facts(walls, {"R": {**ROOF, "bears_on": bears("W1", "W3")}}).building
    assert building is not None
    found = braced_walls(building, Needs(building.subject("project", "project")))
    assert found is not None and found.two_way
    turned = 0
    for parts in found.taken.values():
        for part in parts:
            turn, share = part.twisted()
            direct = next(one.value for one in share.given if one.symbol == "F_d")
            assert isinstance(share.result.value, float) and isinstance(direct, float)
            assert part.stiff == pytest.approx(max(abs(share.result.value), abs(direct)))
            arm = next(one.value for one in turn.given if one.symbol == "e")
            assert isinstance(arm, float) and isinstance(turn.result.value, float)
            assert turn.result.value == pytest.approx(part.push.force * arm)
            turned += abs(share.result.value) > abs(direct) * 1.001
    assert turned > 5 and all(math.isfinite(part.stiff) for parts in found.taken.values() for part in parts)
