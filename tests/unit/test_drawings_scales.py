"""Scales and scale bars against what draughtsmen use, and against plain arithmetic."""

from __future__ import annotations

from fractions import Fraction
from itertools import islice, pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from compliance.drawings.common.board import Board
from compliance.drawings.common.primitives import Box, Filled, Lettering, Tone
from compliance.drawings.common.scale_bar import BAR_HEIGHT, draw_scale_bar
from compliance.drawings.common.scales import Scale, bar_parts, largest, usual_scales
from compliance.units.writing import System
from tests.unit.drawn import hand


def test_metric_scales_hold_those_of_iso_5455() -> None:
    """ISO 5455:1979, recommended reductions, recalled: 1, 2 and 5 times powers of ten."""
    ratios = {scale.ratio for scale in islice(usual_scales("si"), 18)}
    assert ratios >= {5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000}


INCHES = (("3", 4), ("1 1/2", 8), ("1", 12), ("3/4", 16), ("1/2", 24), ("3/8", 32), ("1/4", 48), ("3/16", 64),
          ("1/8", 96), ("3/32", 128), ("1/16", 192))  # fmt: skip


@pytest.mark.parametrize("inches, ratio", INCHES)
def test_inches_to_a_foot(inches: str, ratio: int) -> None:
    """An architect's scale: twelve inches over the inches drawn for a foot (common practice, no source)."""
    assert Fraction(12) / sum(map(Fraction, inches.split())) == ratio
    assert Scale(float(ratio), f"{inches} in = 1 ft") in list(islice(usual_scales("us"), 11))


def test_a_point_of_the_page_is_a_72nd_of_an_inch() -> None:
    """A foot at 1/4 in to the foot is a quarter of an inch, 18 points (ISO 32000-1, user space: 72 units to the inch,
    recalled)."""
    assert Scale(48.0, "").per_metre * 0.3048 == pytest.approx(18.0)
    assert Scale(50.0, "").per_metre == pytest.approx(72 / 2.54 * 2)


@given(st.sampled_from(("us", "si")), st.floats(0.05, 5e4), st.floats(60, 800))
def test_the_largest_that_fits(system: System, metres: float, room: float) -> None:
    scale = largest(system, lambda one: metres * one.per_metre <= room)
    assert metres * scale.per_metre <= room or scale.ratio == next(usual_scales(system)).ratio
    larger = [one for one in islice(usual_scales(system), 60) if one.ratio < scale.ratio]
    assert all(metres * one.per_metre > room for one in larger)


@given(st.sampled_from(("us", "si")), st.integers(0, 25), st.floats(70, 200))
@example("us", 0, 90.0)  # five inches at 3 in = 1 ft, to the last digit
def test_a_bar_is_to_scale_and_as_long_as_it_may_be(system: System, index: int, longest: float) -> None:
    scale = next(islice(usual_scales(system), index, None))
    found = bar_parts(scale, system, longest)
    count = len(found.numbers) - 1
    unit = {"ft": 0.3048, "in": 0.0254, "m": 1.0}[found.unit]
    assert float(found.numbers[-1]) * unit == pytest.approx(count * found.part)
    assert 2 <= count <= 5 and count * found.part * scale.per_metre <= longest * (1 + 1e-12)


@pytest.mark.parametrize("system", ["us", "si"])
def test_the_bar_as_drawn(system: System) -> None:
    for scale in islice(usual_scales(system), 25):
        board = Board(Box(0, 0, 168, BAR_HEIGHT), hand(system))
        draw_scale_bar(board, scale=scale, left=6.0, bottom=2.0, longest=150.0)
        filled = [item for item in board.items if isinstance(item, Filled)]
        texts = [item for item in board.items if isinstance(item, Lettering)]
        parts = bar_parts(scale, system, 150.0 - hand(system).letters("0000 ft", texts[0].role))
        widths = {round(one.points[1][0] - one.points[0][0], 6) for one in filled}
        assert widths == {round(parts.part * scale.per_metre, 6)}
        assert [one.tone for one in filled][:2] == [Tone.INK, Tone.PAPER]
        assert all(board.frame.holds(one.box) for one in texts)
        ends = sorted(texts, key=lambda one: one.box.left)
        assert all(a.box.right < b.box.left for a, b in pairwise(ends))
