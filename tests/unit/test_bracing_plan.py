"""Bracing walls as panels in the plan: where their solid lengths lie, and how wide the building is."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.bracing.solid_lengths import (
    Extent,
    Lump,
    Solid,
    bracing_lines,
    directions,
    extent,
    lengths,
    solids,
)
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.mechanics.lateral.torsion import Panel
from tests.unit.structural_houses import FOOT, WALL, box, facts, opening, run

BENDING, SHEAR = 4.0, 3.0


def view(**changes: object) -> WallView:
    return facts({"W1": {**WALL, "run": run(0, 0, 20, 0), **changes}}).views["W1"]


def test_the_solid_lengths_of_a_wall() -> None:
    """8 ft each beside a window of 4 ft; their middles 4 and 16 ft along."""
    left, right = solids(view(openings={"A": opening(8, 4)}), BENDING, SHEAR)
    assert [one.panel.x / FOOT for one in (left, right)] == pytest.approx([4, 16])
    assert [one.length / FOOT for one in (left, right)] == pytest.approx([8, 8])
    assert (left.index, right.index, left.panel.y, left.panel.direction) == (0, 1, 0, 0)
    # t / (4 (h/L)³ + 3 h/L) with h = L
    assert left.panel.stiffness == pytest.approx(4 / 3 * FOOT / 7) == pytest.approx(right.panel.stiffness)


@pytest.mark.parametrize(
    ("openings", "solid"),
    [
        ({}, [(0, 20)]),
        ({"A": opening(4, 3), "B": opening(7, 2)}, [(0, 4), (9, 20)]),  # that touch
        ({"A": opening(4, 6, 0, 3), "B": opening(5, 2, 3, 3)}, [(0, 4), (10, 20)]),  # above one another
        ({"A": opening(0, 3), "B": opening(16, 4)}, [(0, 0), (3, 16), (20, 20)]),
    ],
)
def test_lengths_are_those_of_the_columns(openings: dict[str, object], solid: list[tuple[float, float]]) -> None:
    found = [(start / FOOT, end / FOOT) for start, end in lengths(view(openings=openings))]
    assert found == [pytest.approx(pair) for pair in solid]


@pytest.mark.parametrize(("gap", "counts"), [(0.19, False), (0.21, True)])
def test_a_wall_that_all_but_closes_a_circle_braces_nothing(gap: float, counts: bool) -> None:
    """0.4 m thick, so its ends must be more than 0.2 m apart; as a panel it is as long as that."""
    half = gap / 2
    arc = {"from": [f"{-half} m", "0 m"], "through": ["0 m", "6 m"], "to": [f"{half} m", "0 m"]}
    found = solids(view(run=None, arc=arc, thickness="0.4 m"), BENDING, SHEAR)
    assert bool(found) is counts
    assert [one.length for one in found] == ([pytest.approx(gap)] if counts else [])


@pytest.mark.parametrize(("degrees", "across", "along"), [(0, 16, 20), (90, 20, 16)])
def test_how_wide_and_long_a_box_is(degrees: float, across: float, along: float) -> None:
    """20 by 16 ft to the centre lines, 16 in thick: half of it more all round."""
    views = list(facts(box(20, 16)).views.values())
    seen = extent(views, math.radians(degrees))
    assert (seen.across / FOOT, seen.along / FOOT) == pytest.approx((across + 4 / 3, along + 4 / 3))
    assert [value / FOOT for value in seen.middle] == pytest.approx([10, 8])


def test_a_house_away_from_the_corner_of_the_drawing_is_as_wide() -> None:
    """One wall 20 ft long, from (30, 50) ft on, 16 in thick."""
    seen = extent([view(run=run(30, 50, 50, 50))], 0.0)
    assert (seen.across / FOOT, seen.along / FOOT) == pytest.approx((4 / 3, 20 + 4 / 3))
    assert [value / FOOT for value in seen.middle] == pytest.approx([40, 50])


def test_a_tapered_wall_is_as_stiff_as_it_is_at_its_thinnest() -> None:
    """16 in at the base, 12 in at the top, h / L = 8 / 20: 1 ft / (4 × 0.064 + 3 × 0.4)."""
    taper = {"thickness": None, "thickness_base": "16 in", "thickness_top": "12 in", "tapered_face": "both"}
    (one,) = solids(view(**taper), BENDING, SHEAR)
    assert one.panel.stiffness == pytest.approx(FOOT / (4 * 0.064 + 3 * 0.4))


def test_a_wall_turned_as_far_as_may_be_takes_part() -> None:
    """But for the last digits: a billionth of the angle more does, a little beyond that does not."""
    within = math.radians(10)
    for turned, counts in ((within * (1 + 1e-9), True), (within * (1 + 1.05e-9), False)):
        piece = Solid("W1", 0, 1.0, Panel(0.0, 1.0, turned, 1.0))
        assert bool(bracing_lines([piece], Extent(0.0, 4.0, 4.0, (0.0, 2.0)), within, 0.5)) is counts


def test_lines_of_bracing_share_the_width() -> None:
    """Walls at 0, 6 and 16 ft across: lines take 3 + 2/3, 3 + 5 and 5 + 2/3 ft; two solid lengths of a line by
    stiffness."""
    walls = box(20, 16, W1={"A": opening(8, 4)}) | {"I": {**WALL, "use": "interior", "run": run(0, 6, 20, 6)}}
    views = facts(walls).views
    panels = [one for each in views.values() for one in solids(each, BENDING, SHEAR)]
    assert directions(panels) == pytest.approx((0, math.pi / 2))
    lines = bracing_lines(panels, extent(list(views.values()), 0.0), math.radians(10), 0.3)
    shares = {(one.wall, one.index): (share, line.width) for line in lines for one, share in line.parts}
    assert {key: (round(share, 9), round(width / FOOT, 9)) for key, (share, width) in shares.items()} == {
        ("W1", 0): (0.5, round(3 + 2 / 3, 9)), ("W1", 1): (0.5, round(3 + 2 / 3, 9)), ("I", 0): (1, 8),
        ("W3", 0): (1, round(5 + 2 / 3, 9)),
    }  # fmt: skip


_TURNS = st.lists(st.integers(0, 35), min_size=2, max_size=12, unique=True)


@given(_TURNS, st.lists(st.floats(0.01, 5), min_size=12, max_size=12), st.integers(0, 17))
def test_lines_of_a_ring_share_the_whole_push_however_short_a_piece(
    turns: list[int], stiff: list[float], way: int
) -> None:
    """Pieces of a ring of 4 m, each along its chord: those within 30° of the push take all of the width between them,
    whatever their stiffness, so that a short piece alone on its side is given more than it can hold and never less
    than statics gives it (what is not taken by one line is taken by the next)."""
    pieces = []
    for index, turn in enumerate(turns):
        around = math.radians(10 * turn)
        along = (around + math.pi / 2) % math.pi
        panel = Panel(4 * math.cos(around), 4 * math.sin(around), along, stiff[index])
        pieces.append(Solid(f"W{turn}", 0, 1.0, panel))
    seen = Extent(math.radians(10 * way), 8.4, 8.4, (0.0, 0.0))
    lines = bracing_lines(pieces, seen, math.radians(30), 0.4)
    assert all(share > 0 and line.width >= 0 for line in lines for _, share in line.parts)
    lumps = [Lump(-9.0, 9.0, 5.0), Lump(1.0, 1.0, 3.0)]
    if lines:
        shares = [share * line.width for line in lines for _, share in line.parts]
        assert math.fsum(shares) == pytest.approx(8.4, rel=1e-9)
        ends = (lines[0], lines[-1])
        weights = [line.weight_braced(lumps, line is ends[0], line is ends[1]) for line in lines]
        assert math.fsum(weights) == pytest.approx(8.0, rel=1e-9)
