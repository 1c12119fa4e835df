"""The plan of the bracing exactly at its bounds: directions, lines, walls too short to brace. Synthetic numbers."""

from __future__ import annotations

import math

import pytest

from compliance.facts.bracing.solid_lengths import Extent, Solid, bracing_lines, chord, directions, solids, turned
from compliance.facts.mechanics.lateral.torsion import Panel
from tests.unit.structural_houses import (
    FOOT,
    WALL,
    facts,
    opening,
    run,
)


def piece(x: float, y: float, degrees: float = 0.0, stiffness: float = 1.0, mark: str = "W") -> Solid:
    return Solid(f"{mark}{x:g},{y:g}", 0, 1.0, Panel(x, y, math.radians(degrees), stiffness))


@pytest.mark.parametrize(
    ("degrees", "seen"),
    [
        ((0.4, 0.2), (0.2, 0.4)),  # no rounding, which would tell them apart by how the page lies
        ((0.4009, 0.4), (0.4,)),  # parallel, but for the last digits of their ends
        ((0.4011, 0.4), (0.4, 0.4011)),
        ((0.0004, 179.9999), (0.0004,)),  # that close on either side of where the half turn ends
        ((0.1, 179.8), (0.1, 179.8)),
        ((91, 1), (1, 91)),
    ],
)
def test_parallel_walls_are_looked_along_once(degrees: tuple[float, ...], seen: tuple[float, ...]) -> None:
    found = directions([piece(0, 0, one) for one in degrees])
    assert [math.degrees(one) for one in found] == pytest.approx(list(seen))


@pytest.mark.parametrize(("one", "other", "apart"), [(0, 170, 10), (170, 0, 10), (0, 90, 90), (30, 100, 70), (5, 5, 0)])
def test_the_angle_between_directions_knows_no_sense(one: float, other: float, apart: float) -> None:
    assert math.degrees(turned(math.radians(one), math.radians(other))) == pytest.approx(apart)


@pytest.mark.parametrize(("degrees", "takes_part"), [(10, True), (170, True), (10.001, False), (0, True)])
def test_a_wall_just_so_far_from_the_direction_takes_part(degrees: float, takes_part: bool) -> None:
    lines = bracing_lines([piece(0, 1, degrees)], Extent(0.0, 4.0, 4.0, (0.0, 2.0)), math.radians(10), 0.5)
    assert [(line.width, line.parts[0][1]) for line in lines] == ([(4.0, 1.0)] if takes_part else [])


@pytest.mark.parametrize(
    ("places", "widths"),
    [
        # Half way between the middles of lines; the edges are at 0 and 12 m.
        ((1.0, 1.5, 9.0), (5.125, 5.125, 6.875)),  # 0.5 m apart: one line, its middle at 1.25
        ((1.0, 1.50001, 9.0), (1.25, 4.0, 6.75)),
        # Within 0.5 m of the next: one line, its middle at 4/3, from whichever side it is counted.
        ((1.0, 1.25, 1.75, 9.0), (31 / 6, 31 / 6, 31 / 6, 41 / 6)),
        ((1.0, 4.0, 10.0, 10.5), (2.5, 4.625, 4.875, 4.875)),  # the last line, not the second
        ((4.0, 4.75, 5.5), (4.375, 0.75, 6.875)),  # a narrow strip of its own
    ],
)
@pytest.mark.parametrize("turn", [0, 90])
def test_middles_as_far_apart_as_walls_are_thick_make_one_line(
    places: tuple[float, ...], widths: tuple[float, ...], turn: int
) -> None:
    """Across a push along x the places are y; across one along y they are −x, so counted from the other side."""
    pieces = [piece(0, at) if turn == 0 else piece(-at, 0, 90) for at in places]
    seen = Extent(math.radians(turn), 12.0, 4.0, (0.0, 6.0) if turn == 0 else (-6.0, 0.0))
    lines = bracing_lines(pieces, seen, math.radians(10), 0.5)
    assert [line.width for line in lines for _ in line.parts] == pytest.approx(list(widths), abs=1e-5)


def test_the_direction_of_a_wall_has_no_sense_and_no_last_digit() -> None:
    """From end to end either way round; a wall that ends a last digit below its start runs along x like one that
    does not."""
    for ends, degrees in (((0, 0, 20, 0), 0), ((20, 0, 0, 0), 0), ((0, 0, 20, -1e-9), 0), ((0, 8, 0, 0), 90)):
        found, length = chord(facts({"W1": {**WALL, "run": run(*ends)}}).views["W1"])
        assert math.degrees(found) == pytest.approx(degrees, abs=1e-12)
        assert length / FOOT == pytest.approx(8 if degrees else 20)


@pytest.mark.parametrize(("long", "counts"), [("0.25 m", False), ("0.2501 m", True)])
def test_a_wall_no_longer_than_half_its_thickness_braces_nothing(long: str, counts: bool) -> None:
    """0.5 m thick; numbers that floats hold exactly."""
    ends = {"from": ["0 m", "0 m"], "to": [long, "0 m"]}
    view = facts({"W1": {**WALL, "run": ends, "thickness": "0.5 m"}}).views["W1"]
    assert bool(solids(view, 4.0, 3.0)) is counts


def test_a_short_solid_length_is_one() -> None:
    wall = {**WALL, "run": run(0, 0, 20, 0), "openings": {"A": opening(2, 17)}}
    found = solids(facts({"W1": wall}).views["W1"], 4.0, 3.0)
    assert [one.length / FOOT for one in found] == pytest.approx([2, 1])
