"""Outlines of walls laid over each other, held against shapely, and joins against its mitred buffers."""

from __future__ import annotations

import math
from collections.abc import Iterable

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from shapely import Polygon as Shape
from shapely import unary_union
from shapely.geometry import LinearRing, LineString

from compliance.drawings.common.joins import joins
from compliance.drawings.common.outlines import outline
from compliance.drawings.common.regions import Polygon, Region, Sector, length_of_wall
from compliance.drawings.plan.outer_faces import enclosed, outside_faces
from compliance.drawings.plan.plan_shape import plan_shape
from compliance.model.lines import Circular, Line, Straight
from compliance.model.project import Project
from tests.tries import tries
from tests.unit.drawn import arc, buildings, project, room, run, sound, views_of

_CHORDS = 4000


def area(pieces: Iterable[Line]) -> float:
    """Green's theorem, the part under an arc included: half the sum of x dy − y dx."""
    total = 0.0
    for piece in pieces:
        (x0, y0), (x1, y1) = piece.point(0.0), piece.point(piece.length)
        total += (x0 * y1 - x1 * y0) / 2
        if isinstance(piece, Circular):
            total += piece.radius**2 * (piece.sweep - math.sin(piece.sweep)) / 2
    return total


def length(pieces: Iterable[Line]) -> float:
    return sum(piece.length for piece in pieces)


def shape(region: Region) -> Shape:
    if isinstance(region, Polygon):
        return Shape(region.corners).buffer(0)
    angles = [region.first + region.sweep * index / _CHORDS for index in range(_CHORDS + 1)]
    cx, cy = region.centre
    outer = [(cx + region.outer * math.cos(a), cy + region.outer * math.sin(a)) for a in angles]
    inner = [(cx + region.inner * math.cos(a), cy + region.inner * math.sin(a)) for a in reversed(angles)]
    return Shape(outer + inner).buffer(0)


@settings(deadline=None, max_examples=tries(30), suppress_health_check=[HealthCheck.too_slow])
@given(buildings())
def test_the_outline_of_any_building(made: Project) -> None:
    """The area of all walls, corners and buttresses, and of what the openings leave of it."""
    assume(sound(made))
    views = views_of(made)
    drawn = plan_shape(views, made.buttresses, outside_faces(views))
    whole = unary_union([shape(one) for one in drawn.solid]).difference(
        unary_union([shape(one) for one in drawn.cuts.values()])
    )
    assert area(drawn.edges) == pytest.approx(whole.area, rel=2e-3, abs=2e-3)
    assert area(outline(drawn.solid)) == pytest.approx(unary_union([shape(one) for one in drawn.solid]).area, rel=2e-3)


quarter = st.integers(-3, 3)


@settings(deadline=None)
@given(st.lists(st.tuples(quarter, quarter, quarter, quarter), min_size=1, max_size=6))
def test_straight_walls_on_a_grid(lines: list[tuple[int, int, int, int]]) -> None:
    """Faces that fall together, walls through and on each other: exact."""
    kept = [one for one in lines if one[:2] != one[2:]]
    assume(kept)
    bodies = [length_of_wall(line, 0.0, line.length, 0.5) for line in (Straight(one[:2], one[2:]) for one in kept)]
    whole = unary_union([shape(one) for one in bodies])
    pieces = outline(bodies)
    assert area(pieces) == pytest.approx(whole.area, rel=1e-6)
    assert length(pieces) == pytest.approx(whole.length, rel=1e-6)


@settings(deadline=None)
@given(st.lists(st.floats(0.4, 1.6), min_size=3, max_size=7), st.floats(2.0, 6.0), st.floats(0.1, 0.6))
def test_corners_of_a_ring_of_walls_are_mitred(turns: list[float], radius: float, thick: float) -> None:
    """A ring of straight walls is what shapely makes of its centre line with mitred corners."""
    total, corners, angle = sum(turns), [], 0.0
    for turn in turns:
        angle += 2 * math.pi * turn / total
        corners.append((radius * math.cos(angle), radius * math.sin(angle)))
    sharpest = min(_angle(corners, index) for index in range(len(corners)))
    assume(sharpest > math.radians(60) and min(map(math.dist, corners, corners[1:] + corners[:1])) > 2.5 * thick)
    walls = {
        f"W{index}": run(*corners[index - 1], *corners[index], thickness=f"{thick:.4f} m")
        for index in range(len(corners))
    }
    views = views_of(project(walls))
    bodies = [length_of_wall(v.place.line, 0.0, v.place.line.length, v.place.thickness) for v in views.values()]
    ring = LinearRing(corners).buffer(round(thick, 4) / 2, join_style="mitre", mitre_limit=10)
    pieces = outline([*bodies, *joins(views)])
    assert area(pieces) == pytest.approx(ring.area, rel=1e-4)
    assert length(pieces) == pytest.approx(ring.length, rel=1e-4)


def _angle(corners: list[tuple[float, float]], index: int) -> float:
    (ax, ay), (bx, by), (cx, cy) = corners[index - 1], corners[index], corners[(index + 1) % len(corners)]
    u, v = (ax - bx, ay - by), (cx - bx, cy - by)
    return math.acos((u[0] * v[0] + u[1] * v[1]) / (math.hypot(*u) * math.hypot(*v)))


def test_a_room_has_two_clean_rings() -> None:
    """Five by four metres of walls 0.4 m thick: 5.4 by 4.4 outside, 4.6 by 3.6 inside, eight edges and no more."""
    views = views_of(project(room(5, 4)))
    shown = plan_shape(views, {}, outside_faces(views))
    assert shown.box == pytest.approx((-0.2, -0.2, 5.2, 4.2))
    assert length(shown.edges) == pytest.approx(2 * (5.4 + 4.4) + 2 * (4.6 + 3.6))
    assert area(shown.edges) == pytest.approx(5.4 * 4.4 - 4.6 * 3.6)


def test_a_wall_that_runs_against_another_leaves_no_line_across() -> None:
    """The foot of a T: 0.4 m of the long wall's face is gone, two faces and an end are added."""
    views = views_of(project({"W1": run(0, 0, 6, 0), "W2": run(3, 0, 3, 2)}))
    shown = plan_shape(views, {}, outside_faces(views))
    assert length(shown.edges) == pytest.approx(2 * 6 + 2 * 0.4 - 0.4 + 2 * 1.8 + 0.4)


def test_a_wall_that_stops_short_of_the_one_it_meets_is_drawn_up_to_it() -> None:
    views = views_of(project({"W1": run(0, 0, 6, 0), "W2": run(3, 0.19, 3, 2)}))
    shown = plan_shape(views, {}, outside_faces(views))
    assert area(shown.edges) == pytest.approx(6 * 0.4 + 1.8 * 0.4)


def test_walls_that_cross() -> None:
    views = views_of(project({"W1": run(0, 0, 6, 0), "W2": run(3, -2, 3, 2)}))
    shown = plan_shape(views, {}, outside_faces(views))
    assert area(shown.edges) == pytest.approx(0.4 * (6 + 4) - 0.16)
    assert length(shown.edges) == pytest.approx(2 * (6 + 4) + 4 * 0.4 - 4 * 0.4)


def test_curves_stay_arcs_about_their_centre() -> None:
    """A half circle of radius 3 m, 0.4 m thick: faces of 3.2 and 2.8 m, π (3.2² − 2.8²) / 2 of it."""
    views = views_of(project({"W1": arc(-3, 0, 0, 3, 3, 0)}))
    shown = plan_shape(views, {}, {})
    curves = [piece for piece in shown.edges if isinstance(piece, Circular)]
    assert sorted(round(piece.radius, 9) for piece in curves) == [2.8, 3.2]
    assert all(piece.centre == pytest.approx((0, 0), abs=1e-9) for piece in curves)
    assert area(shown.edges) == pytest.approx(math.pi * (3.2**2 - 2.8**2) / 2)


def test_openings_leave_their_cheeks_in_straight_and_in_curved_walls() -> None:
    hole = {"N1": {"kind": "window", "start": "1 m", "width": "0.8 m", "height": "1 m", "sill": "0.5 m"}}
    views = views_of(project({"W1": run(0, 0, 4, 0, openings=hole)}))
    straight = plan_shape(views, {}, {})
    assert area(straight.edges) == pytest.approx(0.4 * (4 - 0.8))
    assert length(straight.edges) == pytest.approx(2 * (4 - 0.8) + 4 * 0.4)
    views = views_of(project({"W1": arc(-3, 0, 0, 3, 3, 0, openings=hole)}))
    curved = plan_shape(views, {}, {})
    assert area(curved.edges) == pytest.approx(math.pi * (3.2**2 - 2.8**2) / 2 * (1 - 0.8 / (3 * math.pi)))


def test_a_wall_thicker_than_its_curve_is_wide_comes_to_a_point() -> None:
    sector = length_of_wall(Circular((0, 0), 0.2, 0.0, 1.0), 0.0, 0.2, 0.6)
    assert isinstance(sector, Sector) and sector.inner == 0
    assert area(outline([sector])) == pytest.approx(0.5**2 * 1.0 / 2)


def test_a_buttress_stands_out_from_the_outer_face() -> None:
    made = project(
        room(5, 4),
        buttresses={"BT1": {"wall": "W1", "at": "2 m", "projection": "0.5 m", "width": "0.6 m", "height": "2 m"},
                    "BT2": {"wall": "W3", "at": "2 m", "projection": "0.3 m", "width": "0.6 m", "height": "2 m",
                            "side": "inside"}},
    )  # fmt: skip
    views = views_of(made)
    shown = plan_shape(views, made.buttresses, outside_faces(views))
    assert shown.box == pytest.approx((-0.2, -0.7, 5.2, 4.2))
    assert area(shown.edges) == pytest.approx(5.4 * 4.4 - 4.6 * 3.6 + 0.6 * (0.5 + 0.3))


def test_rooms_and_outer_faces() -> None:
    """Counter-clockwise, the open lies to the right of every wall; clockwise, to the left."""
    walls = room(5, 4)
    assert outside_faces(views_of(project(walls))) == dict.fromkeys(walls, -1)
    turned = {mark: {"run": {"from": one["run"]["to"], "to": one["run"]["from"]}} for mark, one in walls.items()}
    assert outside_faces(views_of(project(turned))) == dict.fromkeys(walls, 1)
    (found,) = enclosed(views_of(project(walls)))
    assert found.box == pytest.approx((0.2, 0.2, 4.8, 3.8))


def test_walls_between_rooms_and_in_the_open_have_no_outside() -> None:
    walls = room(5, 4) | {"W5": run(2, 0, 2, 4), "W6": run(5, 0, 9, 0), "W7": run(20, 0, 20, 3)}
    views = views_of(project(walls))
    assert {mark: side for mark, side in outside_faces(views).items() if side is None} == dict.fromkeys(
        ("W5", "W6", "W7")
    )
    assert len(enclosed(views)) == 2


def test_a_curved_bay_closes_a_room() -> None:
    walls = {"W1": run(0, 0, 5, 0), "W2": arc(5, 0, 6.5, 2, 5, 4), "W3": run(5, 4, 0, 4), "W4": run(0, 4, 0, 0)}
    assert outside_faces(views_of(project(walls))) == dict.fromkeys(walls, -1)


def test_a_gap_in_the_ring_leaves_it_open() -> None:
    walls = room(5, 4)
    walls["W4"] = run(0, 4, 0, 0.5)
    assert set(outside_faces(views_of(project(walls))).values()) == {None}


def test_shapely_agrees_on_flat_ended_walls() -> None:
    """The body of a wall is its centre line widened by half its thickness with flat ends."""
    body = length_of_wall(Straight((1, 2), (4, 6)), 0.0, 5.0, 0.5)
    assert shape(body).equals_exact(LineString([(1, 2), (4, 6)]).buffer(0.25, cap_style="flat").normalize(), 1e-9) or (
        shape(body).symmetric_difference(LineString([(1, 2), (4, 6)]).buffer(0.25, cap_style="flat")).area < 1e-9
    )
