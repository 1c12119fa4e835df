"""Loads on the top of a wall with their lines: what is summed, what is stated, where it bears. Worked by hand."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Facts
from tests.recomputing import recomputed
from tests.unit.structural_houses import INCH, PLF, ROOF, WALL, bears, facts, missing, number, run

HELD: dict[str, Any] = {"top_restraint": "roof", "beam": None}


def under(*eccentricities: str, **changes: Any) -> Facts:
    """A wall under as many roofs as there are eccentricities: 15 psf dead, 25 psf snow, 10 ft of each."""
    roofs = {
        f"R{place}": {**ROOF, "bears_on": bears("W1", eccentricity=off)} for place, off in enumerate(eccentricities, 1)
    }
    return facts({"W1": {**WALL, "run": run(0, 0, 20, 0)} | changes}, roofs)


def fact(found: Facts, name: str) -> Fact:
    return found.of("wall")["W1"].fact(f"wall.{name}")


@pytest.mark.parametrize(
    ("name", "roofs", "changes", "formula", "plf"),
    [
        ("top_dead", 1, {}, "w1 + w_b", 167.5),  # the bond beam of 12 by 6 in, 35 pcf, weighs 17.5 plf
        ("top_dead", 2, {}, "w1 + w2 + w_b", 317.5),
        ("top_dead", 2, HELD, "w1 + w2", 300),
        ("top_snow", 2, {}, "w1 + w2", 500),
    ],
)
def test_what_bears_on_the_top_is_summed_in_a_line(
    name: str, roofs: int, changes: dict[str, Any], formula: str, plf: float
) -> None:
    found = fact(under(*["0 in"] * roofs, **changes), name)
    assert found.value == pytest.approx(plf * PLF)
    assert found.steps[-1].formula == formula and found.steps[-1].says.endswith("on the wall's top")
    assert recomputed(found.steps[-1]) == pytest.approx(plf * PLF)


@pytest.mark.parametrize(("name", "changes", "plf"), [("top_dead", HELD, 150), ("top_snow", {}, 250)])
def test_a_load_alone_needs_no_sum(name: str, changes: dict[str, Any], plf: float) -> None:
    found = fact(under("0 in", **changes), name)
    assert found.value == pytest.approx(plf * PLF) == found.steps[-1].result.value
    assert found.steps[-1].says.endswith("of R1")


def test_a_load_that_is_not_stated_is_that_of_the_roofs_or_lacks() -> None:
    assert number(under("0 in"), "wall.line_load") == pytest.approx(417.5 * PLF)
    assert missing(under(), "wall.line_load") == {"walls.W1.line_load"}


@pytest.mark.parametrize(("stated", "counts"), [("300 plf", 417.5), ("500 plf", 500)])
def test_the_line_of_the_load_says_the_greater_one(stated: str, counts: float) -> None:
    found = fact(under("0 in", line_load=stated), "top_load")
    assert found.value == pytest.approx(counts * PLF) == recomputed(found.steps[-1])
    assert found.steps[-1].result.value == found.value


def test_of_several_roofs_the_one_farthest_off_counts() -> None:
    found = fact(under("1 in", "2 in"), "load_offset")
    assert found.value == pytest.approx(2 * INCH) == found.steps[-1].result.value
    assert fact(under("0 in"), "load_offset").steps == ()


def test_where_the_least_load_bears_is_asked() -> None:
    assert missing(under(line_load="0.01 plf"), "wall.load_offset") == {"walls.W1.load_eccentricity"}
    assert number(under(line_load="0 plf"), "wall.load_offset") == 0
