"""Piers and whole walls that rock, worked by hand (statics, with the factor 0.9 of ASCE 41-13 for the toe, reported).

16 ft by 8 ft by 16 in at 110 pcf under 400 plf of dead load, S_DS 0.11, so k = 0.6 - 0.14 x 0.11 = 0.5846; a window of
3 ft by 3.5 ft in the middle, sill 2.5 ft. Each pier, 6.5 ft: on its head 400 x 8 + 146.7 x (6.5 x 2 + 3 x 2 / 2) =
5,547 lb, own 146.7 x 6.5 x 3.5 = 3,337 lb.
"""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.bracing.bracing_facts import _rocks, _solids
from compliance.facts.bracing.wall_rocking import WallRocks, pier_shares
from compliance.facts.common.needs import Needs
from tests.recomputing import recomputed
from tests.unit.structural_houses import FOOT, LBF, PARTS, PLAIN, SITE, bears, box, facts, number, opening

TIED = {"B1": {**PARTS["beams"]["B1"], "continuous": "yes", "splice_lap": "24 in"}}
K = 0.6 - 0.7 * 0.2 * 0.11


def rocks(window: dict[str, Any], long: float = 16, beams: Any = TIED, **changes: Any) -> WallRocks:
    """W1 of a box; roof 10 ft x 38.25 psf and beam 17.5 plf make 400 plf."""
    walls = box(long, 12)
    walls["W1"] |= {"openings": {"A": window}, **changes}
    for mark in ("W2", "W4"):
        walls[mark] |= PLAIN
    roof = {"kind": "framed", "span": "12 ft", "slope": "20 deg", "rise": "4 ft", "tie_height": "0 in",
            "overhang": "0 ft", "rafter_spacing": "2 ft", "dead": "38.25 psf", "live": "20 psf", "snow": "25 psf",
            "warmth": "heated", "thrust_held_by": "ceiling-tie", "bears_on": bears("W1", "W3")}  # fmt: skip
    found = facts(walls, {"R": roof}, site={**SITE, "sds": 0.11}, beams=beams)
    assert found.building is not None
    need = Needs(found.of("wall")["W1"])
    parts = _solids(found.building, need, "W1")
    assert parts is not None
    quake = next(part for part in parts[0][1] if part.push.name == "earthquake")
    assert number(found, "wall.top_dead") == pytest.approx(400 * LBF / FOOT, rel=1e-4)
    made = _rocks(found.building, need=need, wall="W1", found=parts, part=quake)
    assert made is not None
    return made


WINDOW = opening(6.5, 3, 2.5, 3.5)


def test_coupled_piers_rock_over_the_height_of_the_window() -> None:
    """0.9 x (3,243 + 1,951 / 2) x 6.5 / 3.5 = 7,050 lb each; the whole wall, 0.9 x 13,816 x 16 / 16 = 12,434 lb,
    governs."""
    made = rocks(WINDOW)
    assert [float(one.force) / LBF for one in made.piers] == pytest.approx([7050, 7050], rel=1e-3)
    assert made.together / LBF == pytest.approx(14_100, rel=1e-3)
    assert made.block / LBF == pytest.approx(12_434, rel=1e-3)
    assert all(not one.why_not for one in made.piers)
    for line in (made.piers[0].force, made.together, made.block, *made.piers[0].lines, *made.block_lines):
        assert recomputed(line.step()) == pytest.approx(float(line))


@pytest.mark.parametrize(
    ("beams", "changes", "why"),
    [
        ({"B1": PARTS["beams"]["B1"]}, {}, "the bond beam is not said to be continuous"),
        ({"B1": {**TIED["B1"], "splice_lap": None}}, {}, "the splices of the bond beam are not described"),
        ({"B1": {**TIED["B1"], "splice_lap": "0 in"}}, {}, "the pieces of the bond beam do not lap"),
        (TIED, {"top_restraint": "roof"}, "no bond beam over it"),
    ],
)
def test_piers_without_a_beam_that_runs_through_turn_as_cantilevers(
    beams: Any, changes: dict[str, Any], why: str
) -> None:
    """0.9 x 0.5 x (3,243 + 1,951) x 6.5 / 5.5 = 2,762 lb each, from the sill up."""
    made = rocks(WINDOW, beams=beams, **changes)
    assert [one.why_not for one in made.piers] == [why, why]
    assert [float(one.force) / LBF for one in made.piers] == pytest.approx([2762, 2762], rel=1e-3)
    assert f"not coupled: {why}" in [step.result.value for step in made.piers[0].steps]


@pytest.mark.parametrize(("height", "coupled"), [(6.5, True), (7, True), (7.01, False)])
def test_the_earth_over_the_opening_couples_them(height: float, coupled: bool) -> None:
    """Of a door of 3 ft at least 12 in, of one of 6 ft at least 2 ft."""
    assert [not one.why_not for one in rocks(opening(6.5, 3, 0, height)).piers] == [coupled, coupled]
    wide = rocks(opening(5, 6, 0, height - 1 if height > 6.5 else 5.9))
    assert [not one.why_not for one in wide.piers] == [coupled, coupled]


def test_a_wall_of_twelve_feet_with_a_door_of_six() -> None:
    """Without a bond beam, 3 ft piers: 400 x 6 + 146.7 x (3 x 8 + 3 x 1.333) lb turn about 1.5 ft over 8 ft."""
    weight = K * (400 * 6 + 110 * 4 / 3 * (3 * 8 + 3 * (8 - 20 / 3)))
    made = rocks(opening(3, 6, 0, 20 / 3), long=12, top_restraint="roof")
    assert [float(one.force) / LBF for one in made.piers] == pytest.approx([0.9 * weight * 3 / 2 / 8] * 2, rel=1e-6)


def test_piers_share_by_stiffness_until_one_rocks() -> None:
    """The share by stiffness where none rocks; under ten times that force the greater of it and the share by
    rocking."""
    made = rocks(opening(4, 3, 2.5, 3.5))
    whole = sum(one.stiffness for one in made.piers)
    calm = pier_shares(made, 100.0)[1]
    assert float(calm[-1]) == pytest.approx(100 * made.piers[1].stiffness / whole)
    rough = pier_shares(made, 10 * made.together)[0]
    by_rocking = 10 * made.piers[0].force
    assert float(rough[-1]) == pytest.approx(max(by_rocking, 10 * made.together * made.piers[0].stiffness / whole))
