"""What may be described otherwise stays the same building: lengths, places of openings, loads and roofs."""

from __future__ import annotations

import math
from random import Random
from typing import Any

import pytest

from tests.buildings.judging import check_building
from tests.buildings.reading import Building, read_building
from tests.buildings.transforming import (
    beam_bearings,
    line_of,
    mirror,
    original_mark,
    reverse,
    rotate,
    shift,
    split_walls,
)

MARKS = ("sound/cabin-16x12", "sound/d-shaped-room", "sound/workshop-28x14-buttressed", "sound/cabin-ridge-post")
INCH = 0.0254


def building(mark: str) -> Building:
    return next(read_building(mark))


def places(sections: dict[str, Any]) -> set[tuple[float, float]]:
    """Where every opening begins or ends, every load, buttress and beam stands [in, to a hundredth], in the plan."""
    found = []
    for mark, wall in sections["walls"].items():
        line = line_of(wall)
        stations = [number(one["start"]) + share * number(one["width"])
                    for one in wall.get("openings", {}).values() for share in (0, 1)]  # fmt: skip
        stations += [number(one["at"]) for one in wall.get("loads", {}).values()]
        placed = [*sections.get("buttresses", {}).values(), *beam_bearings(sections)]
        stations += [number(one["at"]) for one in placed if one["wall"] == mark]
        found += [line.point(at) for at in stations]
    return {(round(x / INCH, 2) + 0.0, round(y / INCH, 2) + 0.0) for x, y in found}


def number(text: str) -> float:
    from compliance.units import KINDS, parse_measure

    return parse_measure(text, KINDS["length"]).si


def total(sections: dict[str, Any]) -> float:
    return math.fsum(line_of(wall).length for wall in sections["walls"].values())


@pytest.mark.parametrize("mark", MARKS)
@pytest.mark.parametrize("seed", range(5))
def test_split_walls_are_the_same_walls(mark: str, seed: int) -> None:
    sections = dict(building(mark).sections)
    split = split_walls(sections, Random(seed), most=4)
    assert len(split["walls"]) >= len(sections["walls"])
    assert total(split) == pytest.approx(total(sections), rel=1e-9)
    assert places(split) == places(sections)
    assert {original_mark(one) for one in split["walls"]} == set(sections["walls"])


@pytest.mark.parametrize("mark", MARKS)
def test_reversed_walls_are_the_same_walls(mark: str) -> None:
    sections = dict(building(mark).sections)
    turned = reverse(sections)
    assert places(turned) == places(sections)
    assert turned["walls"] != sections["walls"]
    assert places(reverse(turned)) == places(sections)


@pytest.mark.parametrize("mark", MARKS)
def test_moving_keeps_distances(mark: str) -> None:
    sections = dict(building(mark).sections)
    for moved in (shift(sections, 3.0, -40.0), rotate(sections, 0.7), mirror(sections)):
        assert total(moved) == pytest.approx(total(sections), rel=1e-9)
        assert len(places(moved)) == len(places(sections))
    assert places(mirror(mirror(sections))) == places(sections)
    assert places(rotate(rotate(sections, 0.7), -0.7)) == places(sections)


def test_north_turns_with_the_page() -> None:
    """North is measured clockwise from the plan's second direction; turned counter-clockwise it falls behind."""
    assert rotate(building(MARKS[0]).sections, math.radians(30))["site"]["north"].startswith("330")


@pytest.mark.parametrize("seed", range(3))
def test_transformed_buildings_are_valid_projects(seed: int) -> None:
    chance = Random(seed)
    for mark in MARKS:
        whole = building(mark)
        sections = reverse(mirror(rotate(split_walls(whole.sections, chance), chance.uniform(0, 6))))
        result = check_building(
            Building(whole.mark, why=whole.why, sections=sections, sets=whole.sets, tested=whole.tested)
        )
        assert not result.problems
        assert not result.crash


def test_original_mark() -> None:
    assert original_mark("S-2.P1") == "S.P1"
    assert original_mark("S") == "S"
