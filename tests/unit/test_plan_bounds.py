"""Where walls just meet, just hold each other, or just do not: bounds of the plan, worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from compliance.facts.geometry import wall_plan
from compliance.facts.geometry.plan.chains import Chain, Link
from compliance.facts.geometry.plan.lateral_supports import find_stretches
from compliance.facts.geometry.wall_plan import Support, WallLine, too_crowded
from compliance.model.lines import Circular, Straight
from compliance.model.walls import Buttress
from tests.support_rules import RULES, find_supports

THICK, HIGH = 0.4, 2.4

Ends = tuple[tuple[float, float], tuple[float, float]]


def wall(mark: str, start: tuple[float, float], end: tuple[float, float], thick: float = THICK) -> WallLine:
    return WallLine(mark, Straight(start, end), HIGH, thick)


def met(*walls: WallLine) -> dict[str, tuple[Support, ...]]:
    return find_supports({one.mark: one for one in walls})


@pytest.mark.parametrize(
    ("s", "back", "forth"),
    [
        (0.0, 0.0, 1.0), (0.9, 0.9, 0.1), (1.0, 1.0, 0.0), (1.5, 0.0, 0.0), (2.0, 0.0, 1.0), (2.25, 0.25, 0.75),
        (3.5, 0.0, 0.0), (5.0, 1.0, 2.0), (7.5, 0.0, 0.0), (9.0, 1.0, 0.0),
    ],
)  # fmt: skip
def test_what_is_solid_runs_from_a_place_to_the_opening_on_either_side(s: float, back: float, forth: float) -> None:
    """A wall of 9 m with openings from 1 to 2, 3 to 4 and 7 to 8 m, described in two pieces; none within an opening."""
    one = WallLine(
        "A", line=Straight((0.0, 0.0), (5.0, 0.0)), height=HIGH, thickness=THICK, holes=((1.0, 2.0), (3.0, 4.0))
    )
    other = WallLine("B", line=Straight((9.0, 0.0), (5.0, 0.0)), height=HIGH, thickness=THICK, holes=((1.0, 2.0),))
    chain = find_stretches({"A": one, "B": other}, {}, RULES)["A"].stretch.chain
    assert chain.solid_reaches(s) == pytest.approx((back, forth))


def test_a_station_past_the_start_of_a_closed_chain_is_one_of_the_next_round() -> None:
    """A square of 4 m walls, a door from 1 to 2 m in the first: 15 m are solid, wherever the count begins."""
    corners = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))
    lines = [Straight(start, end) for start, end in zip(corners, (*corners[1:], corners[0]), strict=True)]
    links = tuple(
        Link(
            WallLine(mark, line, height=HIGH, thickness=THICK, holes=((1.0, 2.0),) if mark == "A" else ()),
            start=4.0 * place, turned=False,
        ) for place, (mark, line) in enumerate(zip("ABCD", lines, strict=True))
    )  # fmt: skip
    chain = Chain(links, closed=True)
    for station in (6.0, 6.0 - 16.0, 6.0 + 16.0):
        assert chain.solid_reaches(station) == pytest.approx((4.0, 11.0))


@pytest.mark.parametrize(
    ("box", "squares"),
    [  # squares of 6 m, the length of the wall, and 0.4 m around it
        (((0.0, 0.0), (6.0, 0.0)), 3 * 2),
        (((3.0, 2.0), (9.0, 2.0)), 2 * 1),
        (((3.0, 2.0), (3.0, 8.0)), 1 * 2),
        (((5.5, 7.0), (11.5, 7.0)), 2 * 1),
        (((5.7, 7.0), (11.7, 7.0)), 3 * 1),
    ],
)
def test_walls_are_too_crowded_by_the_squares_they_come_close_to(
    box: Ends, squares: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Four walls in one place: four times its squares, and in each square six pairs."""
    walls = [wall(mark, *box) for mark in "ABCD"]
    for most, crowded in ((4 * squares, False), (4 * squares - 1, True)):
        monkeypatch.setattr(wall_plan, "MOST_SQUARES", most)
        assert too_crowded(walls) is crowded
    monkeypatch.setattr(wall_plan, "MOST_SQUARES", 4 * squares)
    for most, crowded in ((6 * squares, False), (6 * squares - 1, True)):
        monkeypatch.setattr(wall_plan, "MOST_PAIRS", most)
        assert too_crowded(walls) is crowded


def test_the_thickest_wall_says_how_close_is_close(monkeypatch: pytest.MonkeyPatch) -> None:
    """3.5 m around walls of 6 m: four columns, from -0.5 to 12.5 m, and two rows, from -1.5 to 5.5 m."""
    walls = [wall("A", (3.0, 2.0), (9.0, 2.0)), wall("B", (3.0, 2.0), (9.0, 2.0), 3.5)]
    for most, crowded in ((16, False), (15, True)):
        monkeypatch.setattr(wall_plan, "MOST_SQUARES", most)
        assert too_crowded(walls) is crowded


def test_squares_are_no_smaller_than_the_thickest_wall(monkeypatch: pytest.MonkeyPatch) -> None:
    """Walls of 1 m, 2 m thick, in squares of 2 m: from -1 to 4 m and from -1 to 3 m, four times three."""
    for most, crowded in ((12, False), (11, True)):
        monkeypatch.setattr(wall_plan, "MOST_SQUARES", most)
        assert too_crowded([wall("A", (1.0, 1.0), (2.0, 1.0), 2.0)]) is crowded


def test_squares_are_as_large_as_walls_are_long_on_average(monkeypatch: pytest.MonkeyPatch) -> None:
    """Walls of 2 m and 6 m, squares of 4 m: two columns and three, of two rows."""
    for most, crowded in ((10, False), (9, True)):
        monkeypatch.setattr(wall_plan, "MOST_SQUARES", most)
        assert too_crowded([wall("A", (0.0, 0.0), (2.0, 0.0)), wall("B", (0.0, 0.0), (6.0, 0.0))]) is crowded


@pytest.mark.parametrize(("share", "meets"), [(1.0, True), (1.0999, True), (1.1001, False)])
@pytest.mark.parametrize("order", ["AB", "BA"])
@pytest.mark.parametrize("turned", [False, True])
def test_an_end_meets_within_the_gap_of_a_joint(share: float, meets: bool, turned: bool, order: str) -> None:
    """Half of 0.5 m from the center line and 25 mm more, with either end."""
    ends = ((2.5, 3.0), (2.5, 0.25 * share))
    walls = {"A": wall("A", (0, 0), (8, 0), 0.5), "B": wall("B", *(ends[::-1] if turned else ends), 0.1)}
    found = met(*(walls[mark] for mark in order))
    assert [one.s for one in found["A"]] == ([2.5] if meets else [])


def test_a_thin_wall_aslant_through_a_thick_one_meets_it_once() -> None:
    """It begins 0.25 m before the center line and crosses it 0.25 m further along, where they come closest."""
    found = met(wall("A", (0, 0), (6, 0), 0.6), wall("B", (2.0, -0.25), (5.0, 2.75), 0.2))
    assert [one.s for one in found["A"]] == pytest.approx([2.25])


@pytest.mark.parametrize(("overlap", "stations"), [(0.49, [7.51]), (0.5, [7.5]), (0.51, [7.49, 8.0])])
def test_walls_in_line_that_overlap_by_their_thickness_meet_once(overlap: float, stations: list[float]) -> None:
    found = met(wall("A", (0, 0), (8, 0), 0.5), wall("B", (8 - overlap, 0), (12, 0), 0.5))
    assert [one.s for one in found["A"]] == pytest.approx(stations)


@pytest.mark.parametrize("order", ["AB", "BA"])
@pytest.mark.parametrize("turned", [False, True])
def test_a_wall_that_ends_short_of_another_does_not_meet_it(turned: bool, order: str) -> None:
    """It would a metre further on."""
    ends = ((2.0, -3.0), (2.0, -1.0))
    walls = {"A": wall("A", (0, 0), (6, 0)), "B": wall("B", *(ends[::-1] if turned else ends))}
    assert met(*(walls[mark] for mark in order)) == {"A": (), "B": ()}


def test_walls_cross_near_their_starts() -> None:
    found = met(wall("A", (0, 0), (6, 0)), wall("B", (0.5, -0.5), (0.5, 6)))
    assert [[one.s for one in found[mark]] for mark in "AB"] == [[0.5], [0.5]]


def test_a_round_wall_meets_another_with_both_its_ends() -> None:
    """Ends that stand nearer to each other than the walls are thick, and are the whole way round apart."""
    tight = math.radians(5)
    around = WallLine("R", Circular((0.0, 1.5), 1.5, -math.pi / 2 + tight, 2 * math.pi - 2 * tight), HIGH, THICK)
    found = met(wall("A", (-3, 0), (3, 0)), around)
    assert [one.s for one in found["A"]] == pytest.approx([3 - 1.5 * math.sin(tight), 3 + 1.5 * math.sin(tight)])


def _spoke(degrees: float, aslant: float = 0.0) -> WallLine:
    """A straight wall across the circle of 10 m about the origin, where a ray at so many degrees meets it."""
    ray, along = math.radians(degrees), math.radians(degrees + aslant)
    x, y = 10 * math.cos(ray), 10 * math.sin(ray)
    dx, dy = 3 * math.cos(along), 3 * math.sin(along)
    return wall("S", (x - dx, y - dy), (x + dx, y + dy), 0.1)


@pytest.mark.parametrize("sweep", [90.0, 3.0])
def test_an_arc_is_met_to_its_very_end_and_not_beyond(sweep: float) -> None:
    arc = WallLine("R", Circular((0.0, 0.0), 10.0, 0.0, math.radians(sweep)), HIGH, 0.1)
    for degrees, stations in ((sweep - 1, [math.radians(sweep - 1) * 10]), (sweep + 3, [])):
        assert [one.s for one in met(arc, _spoke(degrees))["R"]] == pytest.approx(stations, abs=1e-3)


def test_an_arc_is_walked_in_chords_of_at_most_five_degrees() -> None:
    """19 chords to 92 degrees, and amid the first a wall at 45 degrees to it: along the chord it meets it as far off as
    the arc rises over the chord, which is r × (1 - cos(half its angle)); for chords of 5 degrees that is 9.5 mm."""
    arc = WallLine("R", Circular((0.0, 0.0), 10.0, 0.0, math.radians(92)), HIGH, THICK)
    middle = 92 / 19 / 2
    (found,) = met(arc, _spoke(middle, 45))["R"]
    off = abs(found.s - 10 * math.radians(middle))
    assert off == pytest.approx(10 * (1 - math.cos(math.radians(middle))), rel=1e-2)


@pytest.mark.parametrize("what", ["height", "length", "thickness"])
@pytest.mark.parametrize(("less", "holds"), [(0.95e-9, True), (1e-9, True), (1.05e-9, False)])
def test_what_holds_is_told_within_one_part_in_a_thousand_million(what: str, less: float, holds: bool) -> None:
    share = {what: 1 - less}
    high = (HIGH - RULES.short_of_top) * share.get("height", 1.0)
    long = THICK / 2 + 0.2 * HIGH * share.get("length", 1.0)
    thick = 0.3 * THICK * share.get("thickness", 1.0)
    (support,) = met(wall("A", (0, 0), (6, 0)), WallLine("B", Straight((3, 0), (3, long)), high, thick))["A"]
    assert (not support.why_not) is holds


def test_a_right_angle_holds_where_a_right_angle_is_asked_for() -> None:
    walls = {"A": wall("A", (0, 0), (6, 0)), "B": wall("B", (3, 0), (3, 4))}
    for least, holds in (
        (math.pi / 2 / (1 - 0.95e-9), True),
        (math.pi / 2 / (1 - 1e-9), True),
        (math.pi / 2 / (1 - 1.05e-9), False),
    ):
        (support,) = find_supports(walls, {}, replace(RULES, least_angle=least))["A"]
        assert (not support.why_not) is holds


@pytest.mark.parametrize(("projection", "holds"), [("0.48 m", True), ("0.479 m", False)])
def test_a_buttress_reaches_from_the_face_of_its_wall(projection: str, holds: bool) -> None:
    """A fifth of 2.4 m. It stands at a right angle, whatever is asked."""
    described = {"wall": "A", "at": "3 m", "projection": projection, "width": "0.3 m", "height": "2.4 m"}
    rules = replace(RULES, least_angle=math.pi / 2)
    walls, buttress = {"A": wall("A", (0, 0), (6, 0))}, Buttress.model_validate(described)
    (support,) = find_supports(walls, {"B1": buttress}, rules)["A"]
    assert (support.s, support.half_width, not support.why_not) == (3.0, 0.15, holds)
