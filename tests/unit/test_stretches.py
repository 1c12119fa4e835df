"""Walls that run on end to end are one: bays, free ends, rings, near misses, and what counts as a support."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.geometry.plan.joints import near_misses
from compliance.facts.geometry.plan.lateral_supports import Placed, find_stretches
from compliance.facts.geometry.wall_plan import SupportRules, WallLine
from compliance.model.lines import Circular, Line, Straight
from compliance.model.walls import Buttress
from compliance.reading.reference_files.support_rules import read_support_rules

RULES: SupportRules = read_support_rules()
HIGH, THICK = 2.4, 0.4
Point = tuple[float, float]


def wall(mark: str, line: Line, **more: object) -> WallLine:
    made = {"height": HIGH, "thickness": THICK, "holes": (), "story": 1, **more}
    return WallLine(mark, line, **made)  # type: ignore[arg-type]


def chain(*points: Point, name: str = "A", closed: bool = False) -> list[WallLine]:
    pairs = pairwise([*points, points[0]] if closed else points)
    return [wall(f"{name}{place}", Straight(a, b)) for place, (a, b) in enumerate(pairs, 1)]


def stretches(*walls: WallLine, buttresses: dict[str, Buttress] | None = None) -> dict[str, Placed]:
    return find_stretches({one.mark: one for one in walls}, buttresses or {}, RULES)


def lengths(placed: Placed) -> list[float]:
    return [round(bay.length, 6) for bay in placed.stretch.bays()]


ROOM = (
    wall("S", Straight((0, 0), (18, 0))), wall("E", Straight((18, 0), (18, 4))),
    wall("N", Straight((18, 4), (0, 4))), wall("W", Straight((0, 4), (0, 0))),
)  # fmt: skip


def test_five_pieces_are_as_long_as_the_one_wall() -> None:
    pieces = chain(*((3.6 * place, 0.0) for place in range(6)), name="S")
    found = stretches(*pieces, *ROOM[1:])
    assert {one.stretch.marks for mark, one in found.items() if mark[0] == "S"} == {("S1", "S2", "S3", "S4", "S5")}
    assert lengths(found["S3"]) == lengths(stretches(*ROOM)["S"]) == [18]
    assert found["S3"].stretch.free_ends == ()


@pytest.mark.parametrize(
    ("degrees", "one"), [(10, True), (30, True), (45, True), (47.9, True), (48.1, False), (60, False)]
)
def test_walls_run_on_where_they_turn_by_less_than_a_support_needs(degrees: float, one: bool) -> None:
    angle = math.radians(degrees)
    found = stretches(*chain((0, 0), (5, 0), (5 + 5 * math.cos(angle), 5 * math.sin(angle))))
    assert len(found["A1"].stretch.marks) == (2 if one else 1)
    assert len(found["A1"].stretch.counted) == (0 if one else 1)


def test_where_three_ends_meet_the_two_with_the_least_turn_run_on() -> None:
    found = stretches(*chain((0, 0), (5, 0), (10, 0.5)), wall("X", Straight((5, 0), (5, 4))))
    assert found["A1"].stretch.marks == ("A1", "A2") and found["X"].stretch.marks == ("X",)
    assert found["A1"].stretch.counted == (5.0,) and found["X"].stretch.counted == (0.0,)


def test_a_tangent_arc_goes_on_without_a_free_end() -> None:
    arc = wall("A", Circular((5, 3), 3.0, -math.pi / 2, math.pi / 2))
    found = stretches(wall("S", Straight((0, 0), (5, 0))), arc, wall("E", Straight((8, 3), (8, 8))))
    assert found["A"].stretch.marks == ("S", "A", "E")
    assert found["A"].stretch.free_ends == pytest.approx((0.0, 10 + 3 * math.pi / 2))
    assert lengths(found["E"]) == [pytest.approx(10 + 3 * math.pi / 2)]


@pytest.mark.parametrize(("radius", "corner"), [(0.5, True), (1.1, True), (1.3, False), (4.0, False)])
def test_a_tight_arc_is_a_corner(radius: float, corner: bool) -> None:
    """48 degrees within 2.5 thicknesses of 0.4 m: up to a radius of 1.19 m."""
    arc = wall("A", Circular((5, radius), radius, -math.pi / 2, math.pi / 2))
    found = stretches(
        wall("S", Straight((0, 0), (5, 0))), arc, wall("E", Straight((5 + radius, radius), (5 + radius, radius + 5)))
    )
    middle = 5 + radius * math.pi / 4
    assert found["S"].stretch.counted == ((pytest.approx(middle),) if corner else ())


@pytest.mark.parametrize("sides", [8, 9, 12, 24])
def test_a_closed_ring_has_no_free_ends_and_no_bays(sides: int) -> None:
    points = [(4 * math.cos(2 * math.pi * k / sides), 4 * math.sin(2 * math.pi * k / sides)) for k in range(sides)]
    (stretch,) = {one.stretch.marks: one.stretch for one in stretches(*chain(*points, closed=True)).values()}.values()
    assert stretch.ring is not None and stretch.ring.radius == pytest.approx(4, rel=0.06)
    assert stretch.free_ends == () and stretch.bays() == ()


@pytest.mark.parametrize("sides", [3, 4, 5, 6, 7])
def test_polygons_with_corners_are_no_rings(sides: int) -> None:
    points = [(4 * math.cos(2 * math.pi * k / sides), 4 * math.sin(2 * math.pi * k / sides)) for k in range(sides)]
    found = stretches(*chain(*points, closed=True))
    assert all(one.stretch.ring is None and len(one.stretch.counted) == 2 for one in found.values())


def test_an_octagon_in_whole_inches_is_still_a_ring() -> None:
    """Sides of 5 ft, coordinates rounded to an inch."""
    radius = 60 / 2 / math.sin(math.pi / 8)
    corners = [math.pi * (2 * k + 1) / 8 for k in range(8)]
    points = [(round(radius * math.cos(a)) * 0.0254, round(radius * math.sin(a)) * 0.0254) for a in corners]
    found = stretches(*chain(*points, closed=True))
    assert found["A1"].stretch.ring is not None


def test_two_half_circles_are_a_ring_and_a_half_circle_is_none() -> None:
    half, other = (wall(mark, Circular((0, 0), 3.0, first, math.pi)) for mark, first in (("A", 0.0), ("B", math.pi)))
    assert stretches(half, other)["A"].stretch.ring is not None
    assert stretches(half)["A"].stretch.ring is None


X = Straight((6, 0), (6, 4))
"""A crossing wall of the room."""


def why(by: WallLine, held: WallLine = ROOM[0]) -> str:
    (found,) = (one for one in stretches(held, *ROOM[1:], by)["S"].stretch.supports if one.by == by.mark)
    return found.why_not


def test_what_counts_as_a_support() -> None:
    assert why(wall("X", X)) == ""
    assert why(wall("X", X, height=HIGH - 0.11)) == "does not reach its top"
    assert why(wall("X", X, height=HIGH - 0.10)) == ""
    assert why(wall("X", X, thickness=0.11)) == "is too thin"
    assert why(wall("X", Straight((6, 0), (8.5, 2)))) == "meets it at too flat an angle"


@pytest.mark.parametrize(("beyond", "counts"), [(0.47, False), (0.49, True)])
def test_what_stands_out_counts_from_the_face(beyond: float, counts: bool) -> None:
    """A fifth of 2.4 m; half of 0.4 m lies within the wall."""
    assert (why(wall("X", Straight((6, 0), (6, 0.2 + beyond)))) == "") is counts
    assert (why(wall("X", X, holes=((0.2 + beyond, 2.0),))) == "") is counts


@pytest.mark.parametrize(("start", "counts"), [(6.39, False), (6.41, True), (5.5, False)])
def test_no_opening_beside_the_joint(start: float, counts: bool) -> None:
    """Half a thickness of solid wall beside the crossing wall's face."""
    held = wall("S", Straight((0, 0), (18, 0)), holes=((start, start + 1.0),))
    assert (why(wall("X", X), held) == "") is counts


def test_a_wall_of_another_story_holds_nothing() -> None:
    found = stretches(*ROOM, wall("X", X, story=2))
    assert found["S"].stretch.counted == (0, 18) and not found["X"].stretch.supports


def buttress(out: str, wide: str = "0.4 m", high: str = "2.4 m") -> dict[str, Buttress]:
    built = {"wall": "S", "at": "6 m", "projection": out, "width": wide, "height": high}
    return {"B": Buttress.model_validate(built)}


def test_buttresses_count_by_projection_width_and_height() -> None:
    for built, counts in (
        (buttress("0.49 m"), True), (buttress("0.47 m"), False), (buttress("1 m", wide="0.11 m"), False),
        (buttress("1 m", high="2.2 m"), False),
    ):  # fmt: skip
        assert (6.0 in stretches(*ROOM, buttresses=built)["S"].stretch.counted) is counts


@pytest.mark.parametrize(("gap", "near"), [(0.02, None), (0.03, 0.03), (0.49, 0.49), (0.52, None)])
def test_walls_that_nearly_meet(gap: float, near: float | None) -> None:
    """From more than 1 in to a thickness and 4 in, from face to face."""
    by = wall("X", Straight((6, 0.2 + gap), (6, 4)))
    found = near_misses({one.mark: one for one in (*ROOM, by)}, RULES)
    assert [(one.wall, one.other, round(one.gap, 6)) for one in found] == ([("X", "S", near)] if near else [])


cuts = st.lists(st.floats(0.9, 17.1), max_size=4)


@given(cuts, st.floats(0, 2 * math.pi), st.tuples(st.floats(-50, 50), st.floats(-50, 50)), st.booleans(),
       st.lists(st.floats(1.5, 16.5), max_size=3))  # fmt: skip
def test_cutting_and_moving_changes_no_bay(
    parts: list[float], angle: float, off: Point, mirrored: bool, across: list[float]
) -> None:
    """The south wall cut anywhere, the room turned, shifted and mirrored, with crossing walls."""
    kept = [s for place, s in enumerate(sorted(parts)) if all(abs(s - t) > 0.8 for t in sorted(parts)[:place])]
    inner = [s for place, s in enumerate(sorted(across)) if all(abs(s - t) > 1.2 for t in sorted(across)[:place])]

    def moved(point: Point) -> Point:
        x, y = point[0] * (-1 if mirrored else 1), point[1]
        return x * math.cos(angle) - y * math.sin(angle) + off[0], x * math.sin(angle) + y * math.cos(angle) + off[1]

    def placed(one: WallLine) -> WallLine:
        assert isinstance(one.line, Straight)
        return wall(one.mark, Straight(moved(one.line.start), moved(one.line.end)))

    others = [*ROOM[1:], *(wall(f"X{s}", Straight((s, 0), (s, 4))) for s in inner)]
    pieces = chain(*((s, 0.0) for s in (0.0, *kept, 18.0)), name="S")
    whole = stretches(ROOM[0], *others)["S"]
    cut = stretches(*(placed(one) for one in (*pieces, *others)))
    assert lengths(cut["S1"]) == pytest.approx(lengths(whole), abs=1e-6)
    assert cut["S1"].stretch.free_ends == whole.stretch.free_ends


def test_every_corner_of_a_rounded_square_is_found() -> None:
    """Four alike: 4 m sides between arcs of 0.9 m. Each is a corner, wherever the square is looked at from."""
    straight, r = 4.0, 0.9
    middles = ((0.0, 0.0), (straight, 0.0), (straight, straight), (0.0, straight))
    walls = []
    for place, middle in enumerate(middles):
        first = math.pi + place * math.pi / 2
        arc = Circular(middle, r, first, math.pi / 2)
        following = middles[(place + 1) % 4]
        turned = first + math.pi / 2
        start, end = (
            (x + r * math.cos(turned), y + r * math.sin(turned)) for x, y in (middle, following)
        )  # fmt: skip
        walls += [wall(f"C{place}", arc), wall(f"W{place}", Straight(start, end))]
    placed = stretches(*walls)["C0"]
    assert len(placed.stretch.counted) == 4
    assert lengths(placed) == [round(straight + r * math.pi / 2, 6)] * 4
