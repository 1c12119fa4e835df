"""Lettering keeps apart, whatever is asked for; texts of a chain give way without crossing their leads."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, box

from compliance.drawings.common.board import Board, LabelLine
from compliance.drawings.common.dimension_chains import Span, chain, stagger
from compliance.drawings.common.label_columns import Note, set_column
from compliance.drawings.common.lettering import Role, fitted, wrapped
from compliance.drawings.common.placing import Placer, around, crosses
from compliance.drawings.common.primitives import Box, Dimension, Lettering, Pen, Stroke, box_about
from tests.unit.drawn import hand

coordinates = st.floats(0, 300)
points = st.tuples(coordinates, coordinates)
boxes = st.builds(box_about, points, st.floats(1, 60), st.floats(1, 30))


@given(boxes, points, points)
def test_a_line_through_a_box(one: Box, start: tuple[float, float], end: tuple[float, float]) -> None:
    """Held against shapely, the inside of the box without its edge."""
    inside = box(one.left, one.bottom, one.right, one.top).buffer(-1e-6)
    line = LineString([start, end])
    if crosses(one, start, end):
        assert line.distance(inside) < 1e-5
    else:
        assert not line.intersects(inside) or line.intersection(inside).length < 1e-5


@given(
    st.lists(st.tuples(points, st.floats(2, 50), st.floats(2, 12)), max_size=60), st.lists(st.tuples(points, points))
)
def test_spots_that_were_given_never_overlap(
    asked: list[tuple[tuple[float, float], float, float]], lines: list[tuple[tuple[float, float], tuple[float, float]]]
) -> None:
    placer = Placer(Box(0, 0, 300, 300))
    for start, end in lines:
        placer.avoid(start, end)
    found = [spot for at, wide, high in asked if (spot := placer.first(around(at, wide, high), at))]
    assert all(placer.frame.holds(one) for one in found)
    assert not any(one.overlaps(other) for one, other in combinations(found, 2))


def test_off_the_lines_where_there_is_room_and_on_them_where_not() -> None:
    placer = Placer(Box(0, 0, 100, 100))
    placer.avoid((0, 50), (100, 50))
    spots = [box_about((50, 50), 20, 8), box_about((50, 70), 20, 8)]
    assert placer.first(spots) == spots[1]
    assert placer.first(spots) == spots[0]
    assert placer.first(spots) is None


def test_no_lead_runs_over_other_lettering() -> None:
    placer = Placer(Box(0, 0, 100, 100))
    placer.take(Box(40, 20, 60, 80))
    beyond = box_about((80, 50), 10, 8)
    assert placer.first([beyond], (10, 50)) is None
    assert placer.first([beyond], (70, 50)) == beyond


spans = st.lists(st.tuples(st.floats(0.2, 60), st.floats(5, 45)), min_size=1, max_size=40)


@given(spans)
def test_texts_of_a_chain_keep_apart(asked: list[tuple[float, float]]) -> None:
    low, chained = 20.0, []
    for length, _ in asked:
        chained.append(Span(low, low + length, length, "a length"))
        low += length
    places = stagger(chained, [width for _, width in asked], 0.0, low + 20)
    found = [(span, place) for span, place in zip(chained, places, strict=True) if place]
    for (one, a), (other, b) in combinations(found, 2):
        assert a.row != b.row or a.high <= b.low or b.high <= a.low
        for lead, far, near in ((one.middle, a, b), (other.middle, b, a)):
            assert not (0 < near.row < far.row and near.low < lead < near.high), "a lead runs through a text"
    for span, place in found:
        assert place.low >= 0 and place.high <= low + 20
        assert place.row or (span.low <= place.low and place.high <= span.high)


@given(spans, st.booleans())
def test_a_chain_sets_every_length_or_names_it(asked: list[tuple[float, float]], upright: bool) -> None:
    board = Board(Box(0, 0, 500, 500), hand())
    low, chained = 10.0, []
    for length, value in asked[:8]:
        chained.append(Span(low, low + length, value / 7, f"length {len(chained)}"))
        low += length
    chain(board, spans=chained, at=250.0, least=0.0, most=500.0, upright=upright)
    texts = [item for item in board.items if isinstance(item, Lettering)]
    dimensions = [item for item in board.items if isinstance(item, Dimension)]
    assert [one.value for one in dimensions] == [span.value for span in chained]
    assert len(texts) + len(board.unset) == len(chained)
    assert not any(one.box.overlaps(other.box) for one, other in combinations(texts, 2))


@given(st.lists(st.tuples(points, st.text("abc ", min_size=1, max_size=60)), min_size=1, max_size=12))
def test_columns_keep_the_order_of_what_they_name(asked: list[tuple[tuple[float, float], str]]) -> None:
    board = Board(Box(0, 0, 400, 300), hand())
    notes = [Note(at, f"head {index}", text) for index, (at, text) in enumerate(asked)]
    set_column(board, notes=notes, left=300.0, width=90.0, low=4.0, high=296.0)
    heads = [item for item in board.items if isinstance(item, Lettering) and item.role is Role.HEADING]
    order = [next(note.at for note in notes if note.head == one.text) for one in heads]
    assert [at[1] for at in order] == sorted((at[1] for at in order), reverse=True)
    assert all(one.box.top > other.box.top for one, other in pairwise(heads))
    assert len(heads) + len(board.unset) == len(notes)
    leads = [item for item in board.items if isinstance(item, Stroke) and item.pen is Pen.MEASURE]
    assert {lead.points[0] for lead in leads} == set(order)


@pytest.mark.parametrize("named", [(100.0, 150.0), (100.0, 30.0), (100.0, 280.0)])
def test_a_line_to_what_is_named_runs_over_no_dimension(named: tuple[float, float]) -> None:
    """A dimension stands on the straight way: the label goes up or down until its line passes it."""
    board = Board(Box(0, 0, 400, 300), hand())
    dimension = Box(200, named[1] - 6, 212, named[1] + 6)
    board.placer.take(dimension)
    set_column(board, notes=[Note(named, "head", "text")], left=300.0, width=90.0, low=4.0, high=296.0)
    (lead,) = [item for item in board.items if isinstance(item, Stroke) and item.pen is Pen.MEASURE]
    edges = (dimension.left, dimension.bottom, dimension.right, dimension.top)
    assert lead.points[0] == named and not board.unset
    assert not LineString(lead.points).intersects(box(*edges))


def test_a_label_without_room_is_named() -> None:
    board = Board(Box(0, 0, 20, 6), hand())
    assert not board.label((LabelLine("far too long for it"),), [Box(0, 0, 90, 8)], "the label")
    assert board.unset == ["the label"] and not board.items


@given(st.text(st.characters(codec="utf-8", categories=("L", "N", "Zs")), max_size=80), st.floats(8, 200))
def test_texts_are_fitted_and_wrapped_to_their_width(text: str, width: float) -> None:
    letters = hand().letters
    short = fitted(text, Role.NOTE, width, letters)
    assert letters(short, Role.NOTE) <= width and (short == text or short.endswith("…"))
    lines = wrapped(text, Role.NOTE, width, letters)
    assert all(letters(line, Role.NOTE) <= width for line in lines)
    if letters(text, Role.NOTE) <= width:
        assert lines == [" ".join(text.split())]
