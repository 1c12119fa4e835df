"""Loads from above: nothing gets lost on the way down, and pressures follow from statics."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.facts.mechanics.beams import Point
from compliance.facts.mechanics.bearing import bearing_stress, spread
from compliance.facts.mechanics.gravity import (
    Combination,
    combined,
    governing,
    level_stress,
    moment_share_below,
    plan_load,
    resultant_offset,
    tributary_load,
)
from compliance.facts.mechanics.lateral.piers import pier_weight_above, share_loads
from compliance.facts.mechanics.sections import edge_stresses, within_kern
from compliance.facts.mechanics.wall_weight import Elevation, Opening, Profile
from compliance.rules.formulas.nodes import FormulaUndefined
from tests.tries import tries

GRAVITY = 9.80665
PLAIN = Profile(2.5, 0.4, 0.4)
TAPERED = Profile(3.0, 0.6, 0.3)


def test_combinations_ask_for_every_case() -> None:
    loads = {"dead": 10.0, "live": 4.0, "snow": 0.0}
    assert combined(loads, Combination("D + L", {"dead": 1, "live": 1})) == 14
    with pytest.raises(ValueError, match="wind"):
        combined(loads, Combination("0.6 D + W", {"dead": 0.6, "wind": 1}))
    with pytest.raises(ValueError, match="no combination counts live"):
        governing(loads, [Combination("D + S", {"dead": 1, "snow": 1})])
    with pytest.raises(ValueError, match="no load combination"):
        governing(loads, [])


def test_governing_is_the_greatest() -> None:
    both = Combination("D + 0.75 L + 0.75 S", {"dead": 1, "live": 0.75, "snow": 0.75})
    snow = Combination("D + S", {"dead": 1, "snow": 1})
    assert governing({"dead": 10, "live": 4, "snow": 4}, [snow, both]) == (both, 16)
    assert governing({"dead": 10, "live": 0, "snow": 4}, [snow, both]) == (snow, 14)


def test_roof_loads() -> None:
    assert plan_load(600.0, 3.0, 4.0) == pytest.approx(750)
    assert tributary_load(600.0, 2.5) == 1500


def test_weight_of_a_tapered_wall() -> None:
    assert Elevation(1.0, TAPERED, 1800.0).whole_weight == pytest.approx(1800 * GRAVITY * 0.45 * 3)
    slices = sum(TAPERED.thickness_at((i + 0.5) * 3.0 / 1000) * 3.0 / 1000 for i in range(1000))
    assert TAPERED.area(0.0, 3.0) == pytest.approx(slices, rel=1e-12)
    assert TAPERED.offset_above(0.0, straight_face=False) == 0.0
    # one face plumb: middle of the area by slices, measured from the plumb face
    moment = sum(TAPERED.thickness_at((i + 0.5) * 0.003) ** 2 / 2 * 0.003 for i in range(1000))
    assert TAPERED.offset_above(0.0, straight_face=True) == pytest.approx(0.3 - moment / slices, rel=1e-6)
    assert PLAIN.offset_above(1.0, straight_face=True) == pytest.approx(0.0)


def test_openings_take_their_weight_out() -> None:
    wall = Elevation(6.0, TAPERED, 1800.0, (Opening(1.0, 1.0, 0.9, 1.2), Opening(3.0, 0.9, 0.0, 2.1)))
    holes = 1.0 * TAPERED.area(0.9, 2.1) + 0.9 * TAPERED.area(0.0, 2.1)
    assert wall.whole_weight == pytest.approx(1800 * GRAVITY * (6.0 * 1.35 - holes))


@pytest.mark.parametrize(
    "openings",
    [
        (Opening(5.5, 1.0, 0.9, 1.0),),
        (Opening(1.0, 1.0, 0.9, 1.7),),
        (Opening(1.0, 1.0, 0.5, 1.0), Opening(1.5, 1.0, 1.0, 1.0)),
        (Opening(-0.1, 1.0, 0.5, 1.0),),
        (Opening(1.0, 0.0, 0.5, 1.0),),
        (Opening(1.0, math.nan, 0.5, 1.0),),
    ],
)
def test_impossible_openings(openings: tuple[Opening, ...]) -> None:
    with pytest.raises(ValueError, match="opening"):
        Elevation(6.0, PLAIN, 1800.0, openings)


def test_one_window_in_the_middle() -> None:
    wall = Elevation(5.0, PLAIN, 1000.0, (Opening(2.0, 1.0, 0.8, 1.2),))
    shared = share_loads(wall, 6000.0)
    left, right = shared.piers
    per_square = 1000 * GRAVITY * 0.4
    assert (left.width, right.width) == (2.0, 2.0)
    assert left.on_top == 12_000
    assert left.opening_top == 3000
    assert left.opening_weight == pytest.approx(0.5 * per_square * 0.5)
    assert left.weight == pytest.approx(2.0 * 2.5 * per_square)
    assert shared.below_sills == pytest.approx((0.8 * per_square,))
    assert pier_weight_above(wall, left, 1.25) == pytest.approx(left.weight / 2)
    assert left.at_base == pytest.approx(left.from_above + left.weight)


def test_forces_on_the_wall_go_by_their_distance() -> None:
    wall = Elevation(5.0, PLAIN, 1000.0, (Opening(2.0, 1.0, 0.8, 1.2),))
    left, right = share_loads(
        wall, 0.0, [Point(2.25, 1000.0), Point(0.0, 10.0), Point(5.0, 20.0), Point(3.0, 4.0)]
    ).piers
    assert left.points == pytest.approx(760)
    assert right.points == pytest.approx(274)


def test_opening_at_the_end_leaves_its_load_with_nothing_to_stand_on() -> None:
    wall = Elevation(4.0, PLAIN, 1000.0, (Opening(0.0, 1.0, 0.0, 2.0),))
    nothing, pier = share_loads(wall, 6000.0, [Point(0.0, 100.0)]).piers
    assert nothing.width == 0
    assert nothing.from_above == pytest.approx(3000 + 0.25 * 1000 * GRAVITY * 0.4 + 100)
    assert pier.width == 3.0


def test_openings_above_one_another_count_as_one() -> None:
    wall = Elevation(5.0, PLAIN, 1000.0, (Opening(2.0, 1.0, 0.0, 1.0), Opening(2.5, 1.0, 1.5, 0.5)))
    shared = share_loads(wall, 6000.0)
    assert [(pier.left, pier.right) for pier in shared.piers] == [(0.0, 2.0), (3.5, 5.0)]
    assert shared.piers[0].opening_top == pytest.approx(4500)
    # From the lowest sill up, here the ground, all that is solid over both openings goes to the piers.
    assert shared.below_sills == (0.0,)
    solid = 1.5 * 2.5 - 1.0 * 1.0 - 1.0 * 0.5
    assert shared.piers[0].opening_weight == pytest.approx(solid * 0.4 * 1000 * GRAVITY / 2)


@st.composite
def _walls(draw: st.DrawFn) -> Elevation:
    """A wall with up to five openings, side by side or touching, some with another above."""
    profile = Profile(draw(st.floats(2, 4)), draw(st.floats(0.3, 0.8)), draw(st.floats(0.2, 0.6)))
    at, openings = draw(st.floats(0, 1)), []
    for _ in range(draw(st.integers(0, 5))):
        width, sill = draw(st.floats(0.3, 2)), draw(st.floats(0, 0.9))
        openings.append(Opening(at, width, sill, draw(st.floats(0.2, 0.9))))
        if draw(st.booleans()):
            openings.append(Opening(at + width / 2, width, 1.85, 0.1))
            at += width / 2
        at += width + draw(st.sampled_from([0.0, 0.4, 1.7]))
    return Elevation(at + draw(st.floats(0.1, 2)), profile, draw(st.floats(1000, 2200)), _apart(openings))


def _apart(openings: list[Opening]) -> tuple[Opening, ...]:
    """Drops upper openings that would run into the next upper one."""
    kept: list[Opening] = []
    for opening in openings:
        if opening.sill == 1.85 and any(o.sill == 1.85 and o.right > opening.left for o in kept):
            continue
        kept.append(opening)
    return tuple(kept)


@settings(max_examples=tries(200), deadline=None)
@given(_walls(), st.floats(0, 50_000), st.lists(st.tuples(st.floats(0, 1), st.floats(0, 9000)), max_size=4))
def test_load_down_is_load_in(wall: Elevation, line_load: float, forces: list[tuple[float, float]]) -> None:
    points = [Point(share * wall.length, force) for share, force in forces]
    shared = share_loads(wall, line_load, points)
    brought = line_load * wall.length + sum(point.force for point in points) + wall.whole_weight
    assert shared.total == pytest.approx(brought, rel=1e-9)
    assert all(pier.width >= 0 for pier in shared.piers)


def test_pressures_down_a_wall_held_top_and_bottom() -> None:
    """The bearing's moment is all there at the top, half at mid-height, gone at the base."""
    assert [moment_share_below(level, held_at_top=True) for level in (0, 0.5, 1)] == [1, 0.5, 0]
    assert [moment_share_below(level, held_at_top=False) for level in (0, 0.5, 1)] == [1, 1, 1]
    with pytest.raises(ValueError, match="level"):
        moment_share_below(1.2, held_at_top=True)
    top = level_stress(10_000.0, top_offset=0.1, moment_share=1.0, weight=0.0, weight_offset=0.0, depth=0.4, width=1.0)
    middle = level_stress(
        10_000.0, top_offset=0.1, moment_share=0.5, weight=8_000.0, weight_offset=0.0, depth=0.4, width=1.0
    )
    base = level_stress(
        10_000.0, top_offset=0.1, moment_share=0.0, weight=16_000.0, weight_offset=0.0, depth=0.4, width=1.0
    )
    assert not top.whole
    assert top.edges.most == pytest.approx(2 * 10_000 / (3 * 0.1))
    assert middle.eccentricity == pytest.approx(500 / 18_000)
    assert middle.edges.most == pytest.approx(18_000 / 0.4 * (1 + 6 * 500 / 18_000 / 0.4))
    assert (base.eccentricity, base.edges.most) == pytest.approx((0.0, 65_000))
    # 10 kN 0.1 m off with 8 kN 0.05 m off to the same side, and to the other
    for aside, off in ((0.05, 1400 / 18_000), (-0.05, 600 / 18_000)):
        assert level_stress(
            10_000.0, top_offset=0.1, moment_share=1.0, weight=8_000.0, weight_offset=aside, depth=0.6, width=1.0
        ).eccentricity == pytest.approx(off)
        assert resultant_offset(10_000.0, 0.1, 1.0, 8_000.0, aside) == pytest.approx(off)
    assert resultant_offset(8_000.0, 0.1, 0.5, 8_000.0, 0.0) == pytest.approx(0.025)
    with pytest.raises(FormulaUndefined, match="division by zero"):
        resultant_offset(0.0, 0.1, 1.0, 0.0, 0.0)
    unloaded = level_stress(0.0, top_offset=0.1, moment_share=1.0, weight=0.0, weight_offset=0.0, depth=0.4, width=1.0)
    assert (unloaded.edges.most, unloaded.eccentricity) == (0.0, 0.0)


@given(st.floats(1, 1e6), st.floats(-0.6, 0.6), st.floats(0.1, 1.0), st.floats(0.1, 5.0))
def test_edge_pressures_balance_the_load(force: float, off: float, depth: float, width: float) -> None:
    found = edge_stresses(force, off, depth, width)
    if abs(off) >= depth / 2:
        assert math.isinf(found.most)
        assert found.pressed == 0
        return
    if found.pressed < 1e-9:
        return
    mean = (found.most + found.least) / 2
    assert mean * found.pressed * width == pytest.approx(force, rel=1e-9)
    centroid = found.pressed / 3 * (found.most + 2 * found.least) / (found.most + found.least)
    assert depth / 2 - centroid == pytest.approx(abs(off), abs=1e-9)
    assert within_kern(off, depth) == (found.pressed == depth)


def test_lifted_wall_has_no_pressure() -> None:
    with pytest.raises(ValueError, match="force"):
        edge_stresses(-1.0, 0.0, 0.4, 1.0)


def test_single_force_spreads_no_further_than_there_is_room() -> None:
    angle = math.radians(30)
    free = spread(0.2, below=1.0, angle=angle, left_room=9.0, right_room=9.0)[1]
    assert free == pytest.approx(0.2 + 2 * math.tan(angle))
    assert spread(0.2, below=1.0, angle=angle, left_room=0.1, right_room=9.0)[1] == pytest.approx(0.3 + math.tan(angle))
    assert spread(0.2, below=0.0, angle=angle, left_room=9.0, right_room=9.0)[1] == 0.2
    assert spread(0.2, below=1.0, angle=0.0, left_room=9.0, right_room=9.0)[1] == 0.2
    assert spread(0.2, below=1.0, angle=math.radians(75), left_room=9.0, right_room=9.0)[1] == pytest.approx(
        0.2 + 2 * (2 + math.sqrt(3))
    )
    with pytest.raises(ValueError, match="angle"):
        spread(0.2, below=1.0, angle=math.pi / 2, left_room=9.0, right_room=9.0)[1]


def test_bearing_pressure() -> None:
    assert bearing_stress(6000.0, 0.2, 0.3, 1.0) == pytest.approx(100_000)
    assert bearing_stress(6000.0, 0.2, 0.3, 2.0) == pytest.approx(200_000)
    with pytest.raises(ValueError, match="peak"):
        bearing_stress(6000.0, 0.2, 0.3, 0.5)
