"""Openings, piers and corner distances along a wall."""

from __future__ import annotations

import pytest

from compliance.facts.geometry.openings import opened, pier_facts
from compliance.facts.geometry.wall_plan import Support
from compliance.model.walls import Lintel, Wall
from tests.support_rules import facts_of_opening


def wall(**openings: tuple[str, str, str, str]) -> Wall:
    """Openings as start, width, height, sill in metres; the wall is 6 m long and 2.4 m high."""
    described = {
        mark: {"kind": "window", "start": f"{a} m", "width": f"{b} m", "height": f"{c} m", "sill": f"{d} m"}
        for mark, (a, b, c, d) in openings.items()
    }
    run = {"from": ["0 m", "0 m"], "to": ["6 m", "0 m"]}
    return Wall.model_validate({"run": run, "height": "2.4 m", "thickness": "0.4 m", "openings": described})


def test_piers_between_openings_and_ends() -> None:
    found = opened(wall(A=("1", "1", "1", "1"), B=("3.5", "1.5", "2", "0")), 6.0)
    assert [(round(p.start, 9), round(p.end, 9), p.at_end) for p in found.piers] == [
        (0, 1, True), (2, 3.5, False), (5, 6, True)
    ]  # fmt: skip
    assert [p.height for p in found.piers] == [1, 2, 2]
    assert found.widths == pytest.approx(2.5)
    assert found.area == pytest.approx(1 + 3)


def test_an_opening_at_the_very_end_leaves_a_pier_of_no_width() -> None:
    found = opened(wall(A=("0", "1", "1", "1")), 6.0)
    assert [p.width for p in found.piers] == pytest.approx([0, 5])


@pytest.mark.parametrize(("start", "width"), [("0.7", "0.4"), ("2.3333", "1.1"), ("1.1", "2.2"), ("0.1", "0.2")])
def test_openings_that_touch_leave_a_pier_of_no_width_whatever_the_last_digit(start: str, width: str) -> None:
    """In floats 0.7 + 0.4 falls short of 1.1, and 1.1 + 2.2 passes 3.3."""
    place = float(start) + float(width)
    found = opened(wall(A=(start, width, "1", "1"), B=(f"{place:.4f}", "1", "1", "1")), 6.0)
    assert [p.width for p in found.piers] == [float(start), 0, pytest.approx(5 - place)]
    at_end = opened(wall(A=(start, f"{6 - float(start):.4f}", "1", "1")), 6.0)
    assert [p.width for p in at_end.piers] == [float(start), 0]


def test_openings_above_each_other_count_once_in_the_length() -> None:
    found = opened(wall(A=("1", "2", "1", "0"), B=("2", "2", "1", "1.2")), 6.0)
    assert found.widths == pytest.approx(3)
    assert len(found.piers) == 2


def test_a_wall_without_openings_has_no_piers() -> None:
    found = opened(wall(), 6.0)
    assert found.piers == () and found.holes == ()


def test_corner_distance_is_clear_of_the_crossing_wall() -> None:
    one = wall(A=("1", "1", "1", "1"))
    hole = opened(one, 6.0).holes[0]
    supports = (Support(0.0, "W2", 0.2), Support(6.0, "W3", 0.2))
    facts = facts_of_opening(one, hole=hole, height=2.4, length=6.0, supports=supports)
    assert facts["opening.corner_distance"].value == pytest.approx(0.8)
    assert facts["opening.head"].value == pytest.approx(0.4)
    free = facts_of_opening(one, hole=hole, height=2.4, length=6.0, supports=())
    assert free["opening.corner_distance"].value == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("start", "distance", "where", "given"),
    [  # a wall of 6 m, an opening of 1 m, walls with half their thickness of 0.2 and 0.3 m across its ends
        ("0.5", 0.3, "start", ("s_o − s_c", 0.5, 0.2)),
        ("4.4", 0.3, "end", ("s_c − s_o", 5.7, 5.4)),
        ("2.45", 2.25, "start", ("s_o − s_c", 2.45, 0.2)),  # as far from either: 6 − 0.3 − 3.45
    ],
)
def test_corner_distance_goes_to_the_nearer_end_and_shows_both_places(
    start: str, distance: float, where: str, given: tuple[str, float, float]
) -> None:
    one = wall(A=(start, "1", "1", "1"))
    supports = (Support(0.0, "W2", 0.2), Support(6.0, "W3", 0.3), Support(3.0, "W4", 0.2))
    facts = facts_of_opening(one, hole=opened(one, 6.0).holes[0], height=2.4, length=6.0, supports=supports)
    fact = facts["opening.corner_distance"]
    assert fact.value == pytest.approx(distance)
    (step,) = fact.steps
    assert step.says.endswith(f"the {where} of the wall")
    assert (step.formula, *(one.value for one in step.given)) == (given[0], *map(pytest.approx, given[1:]))
    assert step.result.value == fact.value


def test_a_wall_that_ends_at_the_face_counts_for_the_corner() -> None:
    """The middle of what meets the wall lies half its thickness from the end, give or take what rounding leaves."""
    one = wall(A=("1", "1", "1", "1"))
    hole = opened(one, 6.0).holes[0]
    facts = facts_of_opening(one, hole=hole, height=2.4, length=6.0, supports=(Support(0.1 + 0.1 + 1e-12, "W2", 0.2),))
    assert facts["opening.corner_distance"].value == pytest.approx(0.8)


@pytest.mark.parametrize(("material", "spanned"), [("arch", "an arch"), ("bond-beam", "the bond beam")])
def test_what_spans_without_a_lintel_has_no_bearing(material: str, spanned: str) -> None:
    one = wall(A=("1", "1", "1", "1"))
    opening = one.openings["A"].model_copy(update={"lintel": Lintel.model_validate({"material": material})})
    one = one.model_copy(update={"openings": {"A": opening}})
    facts = facts_of_opening(one, hole=opened(one, 6.0).holes[0], height=2.4, length=6.0, supports=())
    assert facts["opening.lintel"].value == material
    for name in ("lintel_bearing", "lintel_depth", "lintel_width"):
        assert facts[f"opening.{name}"].reason == f"the opening is spanned by {spanned}"


def test_a_lintel_of_wood_gives_its_sizes_or_lacks_them() -> None:
    one = wall(A=("1", "1", "1", "1"))
    described = {"material": "wood", "bearing": "300 mm", "depth": "200 mm"}
    opening = one.openings["A"].model_copy(update={"lintel": Lintel.model_validate(described)})
    one = one.model_copy(update={"openings": {"A": opening}})
    facts = facts_of_opening(one, hole=opened(one, 6.0).holes[0], height=2.4, length=6.0, supports=())
    assert facts["opening.lintel"].value == "wood"
    assert facts["opening.lintel_bearing"].value == pytest.approx(0.3)
    assert facts["opening.lintel_depth"].value == pytest.approx(0.2)
    assert facts["opening.lintel_width"].missing == (("walls", "W1", "openings", "A", "lintel", "width"),)


def test_each_pier_is_as_high_as_the_openings_beside_it() -> None:
    found = opened(wall(A=("0.5", "1", "0.6", "1"), B=("2.5", "1", "2.1", "0"), C=("4.5", "1", "0.9", "1")), 6.0)
    assert [p.height for p in found.piers] == [0.6, 2.1, 2.1, 0.9]
    assert [p.between for p in found.piers] == [
        ("the start of the wall", "A"), ("A", "B"), ("B", "C"), ("C", "the end of the wall")
    ]  # fmt: skip


def test_a_lintel_that_is_not_described_is_lacking() -> None:
    one = wall(A=("1", "1", "1", "1"))
    facts = facts_of_opening(one, hole=opened(one, 6.0).holes[0], height=2.4, length=6.0, supports=())
    assert facts["opening.lintel_bearing"].missing == (("walls", "W1", "openings", "A", "lintel"),)


def test_pier_over_thickness() -> None:
    pier = opened(wall(A=("1", "1", "1", "1")), 6.0).piers[0]
    assert pier_facts(pier, 0.4)["pier.width_to_thickness"].value == pytest.approx(2.5)
