"""USDA texture classes: rules of the agency, outlines and test points as published in open scientific software."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.soil.fractions import GrainSizes, SoilShares
from compliance.facts.soil.texture import TextureRules, texture_class, texture_classes

ROOT = Path(__file__).parents[2]
VALUES: dict[str, Any] = yaml.safe_load((ROOT / "rulesets/reference/usda-texture.yaml").read_text("utf-8"))["values"]
SETTLING: dict[str, Any] = yaml.safe_load((ROOT / "rulesets/reference/settling.yaml").read_text("utf-8"))["values"]
RULES = TextureRules.from_values(VALUES)
GRID = [(clay, silt, 100 - clay - silt) for clay in range(101) for silt in range(101 - clay)]
Corner = tuple[float, float, float]


def shares(clay: float, silt: float, sand: float, sizes: str = "usda") -> SoilShares:
    return SoilShares(clay, silt=silt, sand=sand, sizes=sizes, basis="dry weight")


def by_rules(clay: int, silt: int) -> str:
    (name,) = texture_classes(RULES, clay / 100, silt / 100)
    return name


# Inputs of the test points as in the CRAN package soiltexture (Soil Survey Manual 1993 triangle).
@pytest.mark.parametrize(
    ("clay", "silt", "sand", "name"),
    [
        (5, 5, 90, "sand"),
        (25, 65, 10, "silt loam"),
        (5, 25, 70, "sandy loam"),
        (75, 15, 10, "clay"),
        (25, 55, 20, "silt loam"),
        (13, 17, 70, "sandy loam"),
    ],
)
def test_published_points(clay: int, silt: int, sand: int, name: str) -> None:
    found = texture_class(RULES, shares(clay / 100, silt / 100, sand / 100))
    assert found.name == name
    assert found.steps and not found.reason


def test_every_whole_percent_point_has_exactly_one_class() -> None:
    """Benham, Ahrens, Nettleton, Clarification of Soil Texture Class Boundaries, USDA-NRCS 2009: no gap, no overlap."""
    assert len(GRID) == 5151
    assert all(len(texture_classes(RULES, clay / 100, silt / 100)) == 1 for clay, silt, _ in GRID)
    assert {by_rules(clay, silt) for clay, silt, _ in GRID} == set(RULES.classes) == set(RULES.outlines)


@settings(deadline=None)
@given(st.floats(0, 1), st.floats(0, 1))
def test_every_soil_has_exactly_one_class(clay: float, silt_of_rest: float) -> None:
    assert len(texture_classes(RULES, clay, (1 - clay) * silt_of_rest)) == 1


# Limits stated by the agency, each side of the line (Benham and others 2009).
@pytest.mark.parametrize(
    ("clay", "silt", "name"),
    [
        (7, 41, "loam"),
        (7, 40, "sandy loam"),
        (27, 40, "clay loam"),
        (26, 40, "loam"),
        (40, 15, "clay"),
        (40, 14, "sandy clay"),
        (35, 20, "clay loam"),
        (35, 19, "sandy clay"),
        (40, 40, "silty clay"),
        (12, 80, "silt loam"),
        (11, 80, "silt"),
        (27, 53, "silty clay loam"),
        (27, 52, "clay loam"),
        (10, 0, "loamy sand"),
        (9, 0, "sand"),
        (15, 0, "sandy loam"),
        (14, 0, "loamy sand"),
        (20, 28, "loam"),
        (20, 27, "sandy clay loam"),
    ],
)
def test_points_on_and_beside_the_lines(clay: int, silt: int, name: str) -> None:
    assert by_rules(clay, silt) == name


def test_shares_by_other_sizes_have_no_usda_class() -> None:
    found = texture_class(RULES, shares(0.2, 0.4, 0.4, sizes="iso-14688"))
    assert found.name is None and "iso-14688" in found.reason
    assert GrainSizes.from_values(SETTLING, RULES.sizes).silt == pytest.approx(0.05e-3)


def on_edge(outline: tuple[Corner, ...], x: float, y: float) -> bool:
    for (x1, y1), (x2, y2) in pairwise([*flat(outline), flat(outline)[0]]):
        across = (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1)
        if abs(across) < 1e-9 and min(x1, x2) <= x <= max(x1, x2) and min(y1, y2) <= y <= max(y1, y2):
            return True
    return False


def crossed(outline: tuple[Corner, ...], x: float, y: float) -> bool:
    """Inside by counting crossings of a ray towards more sand; of a point on an edge it says either."""
    inside = False
    for (x1, y1), (x2, y2) in pairwise([*flat(outline), flat(outline)[0]]):
        if (y1 > y) != (y2 > y) and x < (x2 - x1) * (y - y1) / (y2 - y1) + x1:
            inside = not inside
    return inside


def flat(outline: tuple[Corner, ...]) -> list[tuple[float, float]]:
    """Sand to the right, clay upward, in percent."""
    return [(round(100 * sand, 6), round(100 * clay, 6)) for clay, _, sand in outline]


def test_outlines_fill_the_triangle_once() -> None:
    def area(outline: tuple[Corner, ...]) -> float:
        ring = [*flat(outline), flat(outline)[0]]
        return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairwise(ring))) / 2

    assert sum(map(area, RULES.outlines.values())) == pytest.approx(100 * 100 / 2, rel=1e-12)


def test_outlines_are_for_drawing_only() -> None:
    """The outlines round the lines at 7, 12, 27, 28 and 52 % by up to half a percent: near these they differ.

    Finding: how many of the 5,151 whole-percent points differ depends on where points on a shared edge go. 182 differ
    by counting crossings of a ray towards more sand; 63 lie off the outline of their class altogether, however edges
    are taken; 565 are not strictly inside it.
    """
    crossing = off = not_inside = 0
    for clay, silt, sand in GRID:
        name = by_rules(clay, silt)
        hits = [other for other, outline in RULES.outlines.items() if crossed(outline, sand, clay)]
        edges = [other for other, outline in RULES.outlines.items() if on_edge(outline, sand, clay)]
        assert len(hits) <= 1 and (hits or edges)
        crossing += bool(hits) and hits != [name]
        off += name not in hits and name not in edges
        not_inside += name not in hits or name in edges
    assert (crossing, off, not_inside) == (182, 63, 565)
