"""What goes into a wall and comes out of it, and the room a single load has to spread, worked by hand. Synthetic."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import pytest

from compliance.facts.loads.point_loads import _rooms
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    LBF,
    LIME,
    alone,
    number,
    opening,
)


def test_what_is_put_on_a_wall_and_comes_out_under_it() -> None:
    """20 ft of 300 plf, a stem wall of 400 and a footing of 300 plf; earth 146.7 psf and lime 9.2 psf on 148 ft²."""
    found = alone(openings={"A": opening(8, 4)}, line_load="300 plf", outside=LIME)
    expected = (300 + 400 + 300) * 20 + (110 * 16 / 12 + 110 / 12) * (20 * 8 - 4 * 3)
    for name in ("load_in", "load_out"):
        assert number(found, f"wall.{name}") / LBF == pytest.approx(expected)
        line = found.of("wall")["W1"].fact(f"wall.{name}").steps[-1]
        assert recomputed(line) / LBF == pytest.approx(expected)
    assert [one.symbol for one in line.given] == ["N1", "N2", "U1", "w_s", "w_F", "L"]


@pytest.mark.parametrize(("at", "rooms"), [(3.0, (2.5, 0.5)), (5.0, (0.5, 1.5)), (9.0, (1.5, 10.5))])
def test_a_load_spreads_halfway_to_the_next_and_no_further(at: float, rooms: tuple[float, float]) -> None:
    """Plates of 1 m at 3, 5 and 9 m on a pier of 20 m."""
    column = cast(Any, SimpleNamespace(left=0.0, width=20.0))
    assert _rooms(at, 1.0, column, [3.0, 5.0, 9.0]) == rooms
