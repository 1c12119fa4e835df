"""Random plans described otherwise have the same findings: a few here, 5,000 by `described_otherwise`."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from tests.buildings.described_otherwise import (
    NEAR_CHORDS,
    NEAR_EXACT,
    RING,
    Found,
    Outcomes,
    differences,
    differing,
    findings,
)
from tests.buildings.random_plans import random_plan
from tests.buildings.reading import Building, build_sections, merge, read_text
from tests.buildings.transforming import line_of, redraw_arcs

MENDED = (
    7,  # a round ring in pieces
    11,  # a bow drawn as chords
    128, 155, 211,  # a plan with a side left out, its corner turned inward or not by how the page lies
    325,  # a corner rounded by pieces on both sides of where the chain begins
    423,  # a ring of chords, its edges taken for an open side
    62131, 62199,  # directions told apart by how the page lies, lines of walls counted from one side
    62225,  # a pier past the place where a ring begins
)  # fmt: skip
"""Plans that said something else once."""


@pytest.mark.parametrize("number", (*MENDED, *range(1, 6)))
def test_described_otherwise(number: int) -> None:
    assert differing(number) == []


def test_plans_show_what_they_are_for() -> None:
    """Among a few plans there are good and bad, round and bowed ones, and few that are refused."""
    plans = [random_plan(number) for number in range(30)]
    shapes = ["arc" in wall for one in plans for wall in one.sections["walls"].values()]
    assert any(shapes) and not all(shapes)
    some = [findings(one) for one in plans[:12]]
    assert sum(any(rule == "problem" for rule, _ in found) for found in some) <= 2
    assert any(RING in found for found in some)
    outcomes = {outcome for found in some for of_rule in found.values() for outcome in of_rule.outcomes}
    assert outcomes >= {"meets", "revise", "engineer", "missing"}


def test_chords_are_as_long_as_they_can_be() -> None:
    """An arc redrawn keeps within a third of a percent of its length, and its openings their widths."""
    whole = random_plan(11).sections
    drawn = redraw_arcs(whole)
    lengths = [sum(line_of(wall).length for wall in one["walls"].values()) for one in (whole, drawn)]
    assert lengths[1] < lengths[0] < lengths[1] * 1.0029
    assert not any("arc" in wall for wall in drawn["walls"].values())
    widths = [sorted(hole["width"] for wall in one["walls"].values() for hole in wall.get("openings", {}).values())
              for one in (whole, drawn)]  # fmt: skip
    assert widths[0] == widths[1]


def _round_walls(middle: tuple[float, float], radius: float, edges: Sequence[float]) -> dict[str, dict[str, Any]]:
    """Arcs about a point between angles in degrees."""

    def at(angle: float) -> list[str]:
        angle = math.radians(angle)
        return [f"{m + radius * f(angle):.9f} in" for m, f in zip(middle, (math.cos, math.sin), strict=True)]

    return {
        f"A{place}": {"arc": {"from": at(start), "through": at((start + end) / 2), "to": at(end)}}
        for place, (start, end) in enumerate(pairwise(edges))
    }


@pytest.mark.parametrize(
    ("edges", "closed"),
    [
        (((-120, 120), (-120, 0, 40, 120)), False),  # two thirds of a circle
        (((0, 180, 360), (-40, 60, 100, 320)), True),  # a ring, wherever it is drawn from
    ],
)
def test_a_round_wall_in_any_pieces(edges: Sequence[Sequence[float]], closed: bool) -> None:
    """It has a window whose middle lies at 70 degrees."""
    radius, found = 150.0, list[Found]()
    for one in edges:
        walls = _round_walls((0.0, 0.0), radius, one)
        for mark, (low, high) in zip(walls, pairwise(one), strict=True):
            middle = next((angle for angle in (70, 430) if low + 9 < angle < high - 9), None)
            if middle is not None:
                start = radius * math.radians(middle - low) - 15
                walls[mark]["openings"] = {
                    "H": {"kind": "window", "start": f"{start:.9f} in", "width": "30 in", "height": "36 in",
                          "sill": "30 in"}
                }  # fmt: skip
        if not closed:
            x, y = -radius / 2, radius * math.sin(math.pi / 3)
            walls["E"] = {"run": {"from": [f"{x:.9f} in", f"{y:.9f} in"],
                                  "to": [f"{x:.9f} in", f"{-y:.9f} in"]}}  # fmt: skip
        full = merge(read_text("defaults"), {"walls": walls})
        building = Building(
            "round", why="", sections=build_sections(full), sets=("structural-screening", "engineers-list"),
            tested=full["tested"],
        )  # fmt: skip
        found.append(_of_all_walls(findings(building)))
    drawn = replace(building, sections=redraw_arcs(building.sections))
    assert not differences(found[-1], _of_all_walls(findings(drawn)), near=2 * NEAR_CHORDS)
    for arcs in found[1:]:
        assert not differences(found[0], arcs, near=NEAR_EXACT)
    assert any("engineer" in of_rule.outcomes for of_rule in found[0].values())


def _of_all_walls(found: Found) -> Found:
    """What is found of each piece, under one mark."""
    together: Found = {}
    for (rule, subject), of_rule in found.items():
        wall, dot, rest = subject.partition(".")
        key = rule, ("A" if wall.startswith("A") else wall) + dot + rest
        if of_rule.outcomes:
            assert key not in together or together[key].outcomes == of_rule.outcomes or rest, (
                key,
                of_rule,
                together[key],
            )
            together[key] = of_rule
    return together


def test_what_differs_is_seen() -> None:
    meets, fails = Outcomes(frozenset({"meets"}), (0.2,)), Outcomes(frozenset({"engineer"}), (-0.2,))
    near = Outcomes(frozenset({"engineer"}), (-1e-9,))
    assert differences({("rule", "W"): meets}, {("rule", "W"): fails}, 1e-6)
    assert differences({("rule", "W"): meets}, {}, 1e-6)
    assert differences({("rule", "W"): meets}, {("rule", "W"): near}, 1e-6)
    assert not differences({("rule", "W"): Outcomes(frozenset({"meets"}), (0.0,))}, {("rule", "W"): near}, 1e-6)
