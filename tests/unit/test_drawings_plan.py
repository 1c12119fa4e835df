"""Plans: dimensions read back, sides of the chains, marks, north, groups apart."""

from __future__ import annotations

import math

import pytest
from hypothesis import HealthCheck, assume, given, settings

from compliance.drawings.common.board import Board
from compliance.drawings.common.draft import PLAN_KEY, Cut, elevation_key
from compliance.drawings.common.primitives import (
    Bow,
    Box,
    Bubble,
    Dimension,
    Drawing,
    Filled,
    Lettering,
    Pen,
    Sign,
    Stroke,
    Tone,
)
from compliance.drawings.common.scales import Scale
from compliance.drawings.elevation.elevation_labels import HELD, NOT_HELD
from compliance.drawings.plan.outer_faces import outside_faces
from compliance.drawings.plan.plan_drawing import connected, plans
from compliance.drawings.plan.plan_face import PlanFace, PlanSubject
from compliance.drawings.plan.plan_marks import draw_north
from compliance.model.lines import Circular
from compliance.model.project import Project
from compliance.record import replace
from tests.tries import tries
from tests.unit.drawn import arc, buildings, faults, hand, project, room, run, sound, views_of


def subject(made: Project, north: float | None = None) -> PlanSubject:
    views = views_of(made)
    return PlanSubject(views, walls=made.walls, buttresses=made.buttresses, outside=outside_faces(views), north=north)


def drawn(made: Project, tallest: float = 520.0) -> list[Drawing]:
    found = plans(subject(made), hand(made.project.units), 470.0, tallest)
    return [draft.draw(draft.least) for draft in found]


def hole(start: float, width: float, kind: str = "window") -> dict[str, str]:
    return {"kind": kind, "start": f"{start} m", "width": f"{width} m", "height": "1 m", "sill": "0.5 m"}


def values(drawing: Drawing) -> dict[str, float]:
    return {item.subject: item.value for item in drawing.items if isinstance(item, Dimension)}


def texts(drawing: Drawing) -> list[str]:
    return [item.text for item in drawing.items if isinstance(item, Lettering)]


def test_chains_and_the_whole_equal_the_model() -> None:
    walls = room(6, 4)
    walls["W1"]["openings"] = {"N1": hole(1, 0.8), "D1": hole(3, 0.9, "door")}
    (drawing,) = drawn(project(walls))
    found = values(drawing)
    assert found["plan, the whole across"] == pytest.approx(6.4) and found[
        "plan, the whole up the page"
    ] == pytest.approx(4.4)
    assert [found[f"W1, {name}"] for name in ("pier P1", "width of N1", "pier P2", "width of D1", "pier P3")] == (
        pytest.approx([1.0, 0.8, 1.2, 0.9, 2.1])
    )
    assert found["W2, whole length"] == pytest.approx(4.0)
    assert not list(faults(drawing)) and not drawing.unset
    assert drawing.scale
    for one in (item for item in drawing.items if isinstance(item, Dimension)):
        assert math.dist(one.start, one.end) / drawing.scale.per_metre == pytest.approx(one.value)


def test_chains_stand_outside() -> None:
    (drawing,) = drawn(project(room(6, 4)))
    solid = [item for item in drawing.items if isinstance(item, Filled) and item.tone is Tone.EARTH]
    left, right = min(x for one in solid for x, _ in one.points), max(x for one in solid for x, _ in one.points)
    low, high = min(y for one in solid for _, y in one.points), max(y for one in solid for _, y in one.points)
    for one in (item for item in drawing.items if isinstance(item, Dimension)):
        (x0, y0), (x1, y1) = one.start, one.end
        assert max(x0, x1) < left or min(x0, x1) > right or max(y0, y1) < low or min(y0, y1) > high


def test_chains_of_inner_walls_run_through_no_opening() -> None:
    """A wall between rooms ends beside a door of the wall across: to its right, then to its left."""
    for start in (3.35, 1.75):
        walls = room(6, 4) | {"W5": run(3, 0, 3, 4, use="interior")}
        walls["W1"]["openings"] = {"D1": hole(start, 0.9, "door")}
        walls["W5"]["openings"] = {"D2": hole(1.5, 0.9, "door")}
        (drawing,) = drawn(project(walls))
        chain = [one for one in drawing.items if isinstance(one, Dimension) and one.subject.startswith("W5")]
        doors = [one for one in drawing.items if isinstance(one, Filled) and one.tone is Tone.PAPER]
        of_w1 = min(doors, key=lambda one: min(y for _, y in one.points))
        left, right = min(x for x, _ in of_w1.points), max(x for x, _ in of_w1.points)
        assert len(chain) == 3 and all(not left < one.start[0] < right for one in chain)


def test_openings_of_a_curve_are_located_from_the_wall_at_its_start() -> None:
    walls = {"W1": run(0, 0, 4, 0), "W2": arc(4, 0, 6, 2, 4, 4), "W3": run(4, 4, 0, 4), "W4": run(0, 4, 0, 0)}
    walls["W2"]["openings"] = {"N1": hole(2, 0.8)}
    (drawing,) = drawn(project(walls))
    assert "N1 2 m from W1, 0.8 m wide" in texts(drawing)


def test_rooms_and_sections_are_marked_where_nothing_else_stands() -> None:
    made = project(room(6, 4), rooms={"A": {"name": "Workroom", "at": ["2 m", "2 m"]}})
    cuts = (Cut("W1", number="1", key="section-W1"), Cut("W2", number="2", key="section-W2"))
    of = replace(subject(made), cuts=cuts, rooms=made.rooms)
    (draft,) = plans(of, hand(), 470.0, 520.0)
    drawing = draft.draw(draft.least)
    marks = [one for one in drawing.items if isinstance(one, Bubble)]
    assert [(one.number, one.key) for one in marks] == [("1", "section-W1"), ("2", "section-W2")]
    assert "Workroom" in texts(drawing) and not drawing.unset and not list(faults(drawing))
    taken = [one.box for one in drawing.items if isinstance(one, Lettering)]
    assert not any(one.box.overlaps(other) for one in marks for other in taken)


def test_slanted_walls_are_dimensioned_along_their_line() -> None:
    made = project({"W1": run(0, 0, 3, 4, openings={"N1": hole(1, 2)})})
    (drawing,) = drawn(made)
    found = values(drawing)
    assert [found["W1, pier P1"], found["W1, width of N1"], found["W1, pier P2"]] == pytest.approx([1, 2, 2])
    for one in (item for item in drawing.items if isinstance(item, Dimension) and item.subject.startswith("W1")):
        rise = (one.end[1] - one.start[1]) / (one.end[0] - one.start[0])
        assert rise == pytest.approx(4 / 3)


def test_curves_are_arcs_with_radius_and_length() -> None:
    (drawing,) = drawn(project({"W1": arc(-3, 0, 0, 3, 3, 0)}))
    assert drawing.scale
    k = drawing.scale.per_metre
    cut = [item for item in drawing.items if isinstance(item, Bow) and item.pen is Pen.CUT]
    assert sorted(item.radius / k for item in cut) == pytest.approx([2.8, 3.2])
    assert {"W1: R 3 m", "length 9.425 m"} <= set(texts(drawing))


def test_marks_of_walls_lead_to_their_elevation_and_tell_the_thickness() -> None:
    (drawing,) = drawn(project(room(6, 4)))
    links = {item.text: item.link for item in drawing.items if isinstance(item, Lettering) and item.link}
    assert links == {mark: elevation_key(mark) for mark in ("W1", "W2", "W3", "W4")}
    assert texts(drawing).count("400 mm") == 4


def test_what_holds_a_wall_has_another_sign_than_what_does_not() -> None:
    walls = room(6, 4) | {"W5": run(2.5, 0, 2.5, 4, height="1 m")}
    made = project(walls, buttresses={"BT1": {
        "wall": "W3", "at": "1.5 m", "projection": "1 m", "width": "0.5 m", "height": "2.4 m"}})  # fmt: skip
    (drawing,) = drawn(made)
    signs = [item.mark for item in drawing.items if isinstance(item, Sign)]
    supports = [one for view in views_of(made).values() for one in view.supports]
    assert signs.count(HELD) == sum(not one.why_not for one in supports)
    assert signs.count(NOT_HELD) == sum(bool(one.why_not) for one in supports) == 2
    assert "BT1" in texts(drawing)


def test_doors_have_sill_lines_and_windows_their_panes_between() -> None:
    walls = {
        "W1": run(0, 0, 6, 0, openings={"D1": hole(1, 1, "door")}),
        "W2": run(0, 5, 6, 5, openings={"N1": hole(1, 1)}),
    }
    (drawing,) = drawn(project(walls))
    fine = [item for item in drawing.items if isinstance(item, Stroke) and item.pen is Pen.FINE]
    assert len(fine) == 2 + 4


def test_the_raster_names_coordinates_of_the_description() -> None:
    (drawing,) = drawn(project({"W1": run(-2, 3, 6, 3), "W2": run(-2, 3, -2, 9)}))
    assert {"−2 m", "0 m", "2 m", "4 m", "6 m", "8 m"} <= set(texts(drawing))


@pytest.mark.parametrize(
    "degrees, way", [(0, (0, 1)), (90, (1, 0)), (180, (0, -1)), (-90, (-1, 0)), (45, (0.7071, 0.7071))]
)
def test_north_is_where_the_project_says(degrees: float, way: tuple[float, float]) -> None:
    """Clockwise from up the page."""
    board = Board(Box(0, 0, 200, 200), hand())
    draw_north(
        PlanFace(
            board,
            subject=subject(project(room(3, 3)), math.radians(degrees)),
            scale=Scale(50, "1:50"),
            left=0,
            bottom=0,
        )
    )
    (shaft, _) = (item for item in board.items if isinstance(item, Stroke))
    (x0, y0), (x1, y1) = shaft.points
    far = math.dist((x0, y0), (x1, y1))
    assert ((x1 - x0) / far, (y1 - y0) / far) == pytest.approx(way, abs=1e-4)
    (letter,) = (item for item in board.items if isinstance(item, Lettering))
    assert letter.text == "N" and board.frame.holds(letter.box)
    assert math.dist(letter.box.centre, (x1, y1)) < math.dist(letter.box.centre, (x0, y0))


def test_north_not_stated_is_said() -> None:
    assert "north not stated" in texts(drawn(project(room(3, 3)))[0])


def test_groups_of_walls_far_apart_have_plans_of_their_own() -> None:
    walls = room(6, 4)
    far = {
        f"F{n}": run(*(300 + a for a in ends))
        for n, ends in enumerate([(0, 0, 5, 0), (5, 0, 5, 3), (5, 3, 0, 3), (0, 3, 0, 0)])
    }
    made = project(walls | far | {"ALONE": run(150, 0, 152, 0)})
    assert connected(views_of(made)) == [list(walls), list(far), ["ALONE"]]
    whole, one, other = drawn(made)
    assert whole.scale and one.scale and other.scale and one.scale.ratio < whole.scale.ratio
    assert one.name.startswith("Plan of W1, W2, W3, W4") and set(values(one)) >= {
        "W1, whole length",
        "W4, whole length",
    }
    assert set(values(whole)) == {"plan, the whole across", "plan, the whole up the page"}
    assert any("drawn again, larger" in note for note in whole.notes)
    assert len({drawing.key for drawing in (whole, one, other)}) == 3


def test_a_buttress_whose_side_the_plan_does_not_tell_is_said_so() -> None:
    made = project({"W1": run(0, 0, 5, 0)}, buttresses={"BT1": {
        "wall": "W1", "at": "2 m", "projection": "0.5 m", "width": "0.5 m", "height": "2 m"}})  # fmt: skip
    (drawing,) = drawn(made)
    assert any("BT1" in note and "does not tell" in note for note in drawing.notes)
    assert values(drawing)["plan, the whole up the page"] == pytest.approx(0.4 + 0.5)


@settings(deadline=None, max_examples=tries(60), suppress_health_check=[HealthCheck.too_slow])
@given(buildings())
def test_every_length_equals_the_model_of_any_building(made: Project) -> None:
    """Straight walls by their openings and piers or as a whole, curves by radius and length in words."""
    assume(sound(made))
    views = views_of(made)
    for drawing in drawn(made):
        assert drawing.scale
        found = {item.subject: item for item in drawing.items if isinstance(item, Dimension)}
        for one in found.values():
            assert math.dist(one.start, one.end) / drawing.scale.per_metre == pytest.approx(
                one.value, rel=1e-6, abs=1e-7
            )
            assert one.text == hand(made.project.units).writer.write(one.value, "length")
        for mark, view in views.items():
            length = view.place.line.length
            own = [(subject.partition(", "), one.value) for subject, one in found.items()]
            of_wall = {says: value for (name, _, says), value in own if name == mark}
            if of_wall:
                assert sum(of_wall.values()) == pytest.approx(length)
            elif drawing.key == PLAN_KEY and isinstance(view.place.line, Circular):
                write = hand(made.project.units).writer.write
                radius, along = write(view.place.line.radius, "length"), write(length, "length")
                said = [*texts(drawing), *drawing.unset, *drawing.notes]
                assert any(radius in text for text in said) and any(along in text for text in said)
            piers = {f"pier {pier.mark}": pier.width for pier in view.opened.piers}
            for says, value in of_wall.items():
                if says in piers:
                    assert value == pytest.approx(piers[says])


def test_the_whole_of_a_round_building_is_exact() -> None:
    """Three arcs of a circle of 3.5 m and walls of 0.4 m: 7.4 m from face to face, whichever way it is turned."""
    for turned in (0.0, 17.0, 71.0):
        angles = [math.radians(turned + 60 * step) for step in range(7)]
        points = [(3.5 * math.cos(one), 3.5 * math.sin(one)) for one in angles]
        walls = {f"W{n + 1}": arc(*points[2 * n], *points[2 * n + 1], *points[2 * n + 2]) for n in range(3)}
        (drawing,) = drawn(project(walls))
        found = values(drawing)
        assert found["plan, the whole across"] == pytest.approx(7.4, abs=1e-6)
        assert found["plan, the whole up the page"] == pytest.approx(7.4, abs=1e-6)


def test_a_plan_too_small_for_openings_still_measures_every_wall() -> None:
    holes = {f"N{n}": hole(1 + 2.5 * n, 0.9) for n in range(11)}
    walls = room(30, 5)
    walls["W1"]["openings"] = holes
    walls["W5"] = run(10, 0, 10, 5)
    (drawing,) = drawn(project(walls))
    assert drawing.scale and drawing.scale.ratio > 200
    found = values(drawing)
    assert [found[f"W{n}, whole length"] for n in range(1, 6)] == pytest.approx([30, 5, 30, 5, 5])
    assert not list(faults(drawing))
    assert "each wall is dimensioned as a whole" in " ".join(drawing.notes)
