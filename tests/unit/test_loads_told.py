"""What goes into a wall and comes out of it, and the room a single load has to spread, worked by hand. Synthetic."""

from __future__ import annotations

from types import SimpleNamespace
from typing import cast

import pytest

from compliance.facts.geometry.columns import Column, Columns
from compliance.facts.loads.point_loads import SpreadRule, spread_of
from compliance.facts.loads.roof_beams import SingleLoad
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


@pytest.mark.parametrize(("at", "shared", "off"), [(3.0, 4.0, 1.0), (5.0, 3.0, 0.5), (9.0, 13.0, 4.5)])
def test_a_load_spreads_halfway_to_the_next_and_no_further(at: float, shared: float, off: float) -> None:
    """Plates of 1 m at 3, 5 and 9 m on a pier of 20 m, where nothing else bounds the spread."""
    loads = [
        SingleLoad(f"P{one:g}", at=one, dead=1.0, live=0.0, snow=0.0, length=1.0, width=1.0, off=0.0, path=())
        for one in (3.0, 5.0, 9.0)
    ]
    column = cast(Column, SimpleNamespace(left=0.0, width=20.0))
    found = cast(Columns, SimpleNamespace(profile=SimpleNamespace(top=1.0, height=100.0), loads=loads))
    load = next(one for one in loads if one.at == at)
    spread = spread_of(
        load, column=column, found=found, rule=SpreadRule(tangent=100.0, down_to=1.0, thicknesses=1000.0), below=100.0
    )
    assert (spread.length, spread.off) == (pytest.approx(shared), pytest.approx(off))
