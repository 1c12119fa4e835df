"""Openings that just touch, and the lines that openings and piers print. Worked by hand."""

from __future__ import annotations

import pytest

from compliance.facts.geometry.openings import opened, pier_facts
from compliance.facts.geometry.wall_plan import Support
from compliance.model.walls import Wall
from compliance.units import Measure
from tests.support_rules import facts_of_opening

# In a wall this long, one part in a hundred million is two to the power of -24, which floats hold exactly.
LONG = 1e8 / 2**24
PART = 2.0**-24


def wall(**openings: tuple[float, float]) -> Wall:
    """Openings as start and width in metres, exactly; those named in capitals from the floor, others above."""
    plain = {"kind": "window", "start": "1 m", "width": "1 m", "height": "1 m"}
    described = {mark: plain | {"sill": "0 m" if mark.isupper() else "1.2 m"} for mark in openings}
    run = {"from": ["0 m", "0 m"], "to": ["6 m", "0 m"]}
    found = Wall.model_validate({"run": run, "height": "2.4 m", "thickness": "0.4 m", "openings": described})
    exact = {
        mark: found.openings[mark].model_copy(
            update={"start": Measure(start, "m", ""), "width": Measure(width, "m", "")}
        )
        for mark, (start, width) in openings.items()
    }
    return found.model_copy(update={"openings": exact})


@pytest.mark.parametrize(("share", "touches"), [(0.95, True), (1.0, True), (1.05, False)])
def test_one_part_in_a_hundred_million_is_no_wall(share: float, touches: bool) -> None:
    """Before the first opening, between the two, and behind the last."""
    assert 1e-8 * LONG == PART
    apart = PART * share
    found = opened(wall(A=(apart, 1.0), B=(2.0, 1.0), C=(3.0 + apart, LONG - apart - 3.0 - apart)), LONG)
    first, _, third, last = (pier.width for pier in found.piers)
    assert [first, third, last] == [0.0, 0.0, 0.0] if touches else [first, third, last] == pytest.approx([apart] * 3)


def test_an_opening_beside_two_others_touches_the_farther_of_them() -> None:
    """One above the other, and one ends a hair beyond: what stands beside both overlaps neither."""
    found = opened(wall(A=(0.5, 0.5), b=(0.4, 0.6 + PART / 2), C=(1.0 + PART / 4 * 3, 1.0)), LONG)
    assert [pier.width for pier in found.piers] == pytest.approx([0.4, 0.0, LONG - 2.0])
    assert found.piers[1].width == 0.0


@pytest.mark.parametrize("start", [1.0, LONG])
def test_an_opening_narrower_than_that_keeps_its_width(start: float) -> None:
    (hole,) = opened(wall(A=(start, PART / 2)), LONG).holes
    assert hole.width == pytest.approx(PART / 2)


def test_the_lines_of_a_pier() -> None:
    piers = opened(wall(A=(1.0, 1.0), B=(2.6, 1.0)), 6.0).piers
    assert [one.mark for one in piers] == ["P1", "P2", "P3"]
    pier = piers[1]
    facts = pier_facts(pier, 0.4)
    (width,), (slender,) = facts["pier.width"].steps, facts["pier.width_to_thickness"].steps
    assert width.says == "Clear width between A and B"
    assert [(one.symbol, one.value) for one in (*width.given, width.result)] == [
        ("s₂", 2.6), ("s₁", 2.0), ("b", pytest.approx(0.6))
    ]  # fmt: skip
    assert [one.value for one in (*slender.given, slender.result)] == pytest.approx([0.6, 0.4, 1.5])
    assert facts["pier.width"].value == pytest.approx(0.6)
    assert facts["pier.width_to_thickness"].value == pytest.approx(1.5)


def test_the_share_of_an_opening_and_what_stands_over_it() -> None:
    one = wall(A=(1.0, 1.5))
    facts = facts_of_opening(one, hole=opened(one, 6.0).holes[0], height=2.4, length=6.0, supports=())
    assert facts["opening.share"].value == pytest.approx(0.25)
    (head,) = facts["opening.head"].steps
    assert [given.value for given in (*head.given, head.result)] == pytest.approx([2.4, 0.0, 1.0, 1.4])


@pytest.mark.parametrize(
    ("off", "distance"), [(0.2 + 0.95e-9, 0.8), (0.2 + 1e-9, 0.8), (0.2 + 1.05e-9, 1.0), (0.1, 0.8)]
)
def test_what_stands_on_the_end_of_a_wall_within_a_millionth_of_a_millimetre(off: float, distance: float) -> None:
    """Half of its 0.4 m from the end, and no farther; the opening begins 1 m from the end."""
    one = wall(A=(1.0, 1.0))
    facts = facts_of_opening(
        one, hole=opened(one, 6.0).holes[0], height=2.4, length=6.0, supports=(Support(off, "W2", 0.2),)
    )
    assert facts["opening.corner_distance"].value == pytest.approx(distance)


def test_of_two_on_the_end_of_a_wall_the_thicker_makes_the_corner() -> None:
    one = wall(A=(1.0, 1.0))
    both = (Support(0.0, "W2", 0.3), Support(0.0, "W3", 0.2))
    facts = facts_of_opening(one, hole=opened(one, 6.0).holes[0], height=2.4, length=6.0, supports=both)
    assert facts["opening.corner_distance"].value == pytest.approx(0.7)


@pytest.mark.parametrize(
    ("start", "says", "given"),
    [
        (3.5, "start", [("s_o", 3.5), ("s_c", 0.25)]),  # as far from either end: the start
        (4.0, "end", [("s_c", 7.75), ("s_o", 5.0)]),
    ],
)
def test_the_line_of_a_corner_distance_names_both_places(
    start: float, says: str, given: list[tuple[str, float]]
) -> None:
    """A wall of 8 m, with walls of half a metre across its ends, and an opening of 1 m."""
    one = wall(A=(start, 1.0))
    supports = (Support(0.0, "W2", 0.25), Support(8.0, "W3", 0.25))
    facts = facts_of_opening(one, hole=opened(one, 8.0).holes[0], height=2.4, length=8.0, supports=supports)
    (step,) = facts["opening.corner_distance"].steps
    assert step.says == f"Clear distance from the opening to the {says} of the wall"
    assert [(entry.symbol, entry.value) for entry in step.given] == given


@pytest.mark.parametrize("at", [4.0, 5.0])
def test_what_meets_a_wall_at_the_very_edge_of_an_opening_bounds_its_bay(at: float) -> None:
    """An opening from 4 to 5 m of 9 m."""
    one = wall(A=(4.0, 1.0))
    facts = facts_of_opening(
        one, hole=opened(one, 9.0).holes[0], height=2.4, length=9.0, supports=(Support(at, "W2", 0.2),)
    )
    assert facts["opening.bay"].value == 5.0
    assert facts["opening.bay"].steps[0].result.value == 5.0
    assert facts["opening.brace_distance"].value == 0.0
