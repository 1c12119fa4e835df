"""Bracing walls, sections that bend and the plan of the bracing exactly at their bounds. Synthetic numbers."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.bracing.brace_forces import BracedWalls, braced_walls
from compliance.facts.bracing.brace_shares import Braced, Push, share_by_width, twist_steps
from compliance.facts.bracing.solid_lengths import Extent
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.subjects import Facts
from compliance.facts.mechanics.lateral.torsion import Bracing, Panel
from compliance.facts.strength.out_of_plane_sections import Bent, bent_sections
from compliance.steps import no_steps
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    FREE,
    INCH,
    PLAIN,
    PLF,
    ROOF,
    WALL,
    alone,
    bears,
    box,
    facts,
    number,
    opening,
    push,
    run,
)

# sections that bend


def sections(found: Facts) -> tuple[tuple[Bent, ...], Needs]:
    need = Needs(found.of("wall")["W1"])
    assert found.building is not None
    return bent_sections(found.building, need, found.of("wall")["W1"]), need


def test_without_where_the_load_bears_no_section_is_looked_at() -> None:
    found = alone(**FREE, line_load="300 plf", load_eccentricity=None)
    bent, need = sections(found)
    assert bent == () and need.lacking.missing == (("walls", "W1", "load_eccentricity"),)


def test_the_load_on_a_wall_that_leans_is_off_its_base_by_the_lean_as_well() -> None:
    """w h² / 2 + n (e + (20 − 12) / 2 in): 500 plf, 2 in off the middle of a top that stands 4 in off that of the
    base. Of a wall that leans on both faces only the 2 in."""
    taper: dict[str, Any] = {"thickness": None, "thickness_base": "20 in", "thickness_top": "12 in"}
    for face, off in (("inside", 6), ("both", 2)):
        found = alone(**FREE, **taper, tapered_face=face, line_load="500 plf", load_eccentricity="2 in")
        expected = push(found) * (8 * FOOT) ** 2 / 2 + 500 * PLF * off * INCH
        assert number(found, "wall.lateral_moment") == pytest.approx(expected)


def test_a_held_pier_takes_what_bears_beside_it_too() -> None:
    """8 ft of pier for 10 ft of wall: w and n are 10 / 8 times as much. At the depth z where tension is greatest, M = w
    z (h − z) / 2 + n e (1 − z / h) (statics); earth grows by g = 0.6 × 146.67 plf a foot, so that z = h / 2 − n e / w h
    − g t / 6 w."""
    held: dict[str, Any] = {"beam": None, "top_restraint": "roof", "openings": {"A": opening(8, 4)}}
    found = alone(**held, line_load="300 plf", load_eccentricity="1 in")
    w, h, m = push(found) * 10 / 8, 8 * FOOT, 300 * PLF * 10 / 8 * INCH
    z = h / 2 - m / (w * h) - 0.6 * 110 * 4 / 3 * PLF / FOOT * (16 * INCH) / (6 * w)
    expected = w * z * (h - z) / 2 + m * (1 - z / h)
    assert number(found, "wall.lateral_moment") == pytest.approx(expected)


def test_a_free_pier_takes_push_thrust_and_load_of_what_is_beside_it() -> None:
    """10 / 8 of w h² / 2, of the thrust of 320 plf at the top (40 psf × 16² / (8 × 4)), and of 400 plf, 2 in off."""
    roof = {**ROOF, "thrust_held_by": "none", "bears_on": bears("W1", eccentricity="2 in")}
    found = alone({"R": roof}, **FREE, line_load=None, load_eccentricity=None, openings={"A": opening(8, 4)})
    assert number(found, "wall.top_thrust") == pytest.approx(320 * PLF)
    h = 8 * FOOT
    expected = (push(found) * h**2 / 2 + 320 * PLF * h + 400 * PLF * 2 * INCH) * 10 / 8
    assert number(found, "wall.lateral_moment") == pytest.approx(expected)


@pytest.mark.parametrize(("off", "told"), [("0 in", False), ("2 in", True)])
def test_the_moment_at_the_base_is_told_where_a_load_adds_to_it(off: str, told: bool) -> None:
    found = alone(**FREE, line_load="500 plf", load_eccentricity=off)
    steps = found.of("wall")["W1"].fact("wall.lateral_moment").steps
    assert ("Moment at the base" in [step.says for step in steps]) is told


def crossed(openings: dict[str, Any], **changes: Any) -> Facts:
    """A wall of 12 m with a free top, 0.5 m thick, 2.5 m high, crossed at 0, 7 and 12 m; floats hold all exactly."""
    walls = {"W1": {**WALL, **FREE, **PLAIN, "run": metres(0, 0, 12, 0), "thickness": "0.5 m", "height": "2.5 m",
                    "openings": openings} | changes}  # fmt: skip
    walls |= {mark: {**WALL, **PLAIN, "run": metres(at, -4, at, 4)} for mark, at in zip("ABC", (0, 7, 12), strict=True)}
    return facts(walls)


def metres(x0: float, y0: float, x1: float, y1: float) -> dict[str, Any]:
    return {"from": [f"{x0} m", f"{y0} m"], "to": [f"{x1} m", f"{y1} m"]}


@pytest.mark.parametrize(
    ("start", "worst"),
    [
        (8.0, 49),  # 0.5 of 2.5 m is open, of the stretch of 5 m alone: 5² × 2.5 / 2 = 31.25 is less than 7²
        (7.75, 49),  # beginning a thickness past the face of the crossing wall
        (1.0, 61.25),  # of the long one: 7² × 2.5 / 2
        (5.25, 61.25),  # ending as far before it
    ],
)
def test_an_opening_weakens_the_stretch_it_stands_in_and_no_other(start: float, worst: float) -> None:
    window = opening(0, 1) | {"start": f"{start} m", "width": "1 m", "sill": "1 m", "height": "0.5 m"}
    found = crossed({"A": window})
    bent, _ = sections(found)
    assert number(found, "wall.lateral_moment") == pytest.approx(push(found) * worst / 8)
    spans = sorted(one.moment / one.action.pressure * 8 for one in bent)
    short = 31.25 if start >= 7 else 25
    assert spans == pytest.approx([short, short, worst, worst])


@pytest.mark.parametrize("start", [7.0, 6.0])
def test_an_opening_beside_a_crossing_wall_leaves_one_long_stretch(start: float) -> None:
    found = crossed({"A": opening(0, 1) | {"start": f"{start} m", "width": "1 m", "sill": "1 m", "height": "0.5 m"}})
    assert number(found, "wall.lateral_moment") == pytest.approx(push(found) * 12**2 * 2.5 / 2 / 8)


def test_sideways_the_least_thickness_bends_and_its_line_gives_the_moment() -> None:
    found = crossed({}, thickness=None, thickness_base="0.5 m", thickness_top="0.25 m", tapered_face="both")
    moment = push(found) * 49 / 8
    assert number(found, "wall.lateral_moment") == pytest.approx(moment)
    assert number(found, "wall.bending_tension") == pytest.approx(6 * moment / 0.25**2)
    line = next(one for one in found.of("wall")["W1"].fact("wall.lateral_moment").steps
                if one.says == "Moment between supports sideways")  # fmt: skip
    assert recomputed(line) == line.result.value == pytest.approx(moment)


# shares under a stiff roof, with their lines: a box of 10 by 8 m, its walls along x twice as stiff as the others. The
# centre of stiffness is (5, 4), the sum of k r² = 2 × 2 × 4² + 2 × 1 × 5² = 114. Statics by hand.
BOX = Bracing([Panel(5, 0, 0.0, 2), Panel(5, 8, 0.0, 2), Panel(0, 4, math.pi / 2, 1), Panel(10, 4, math.pi / 2, 1)])


def pushed(degrees: float, at: tuple[float, float], force: float = 1000.0, off: float = 0.5) -> Push:
    return Push(
        "wind", force=force, seen=Extent(math.radians(degrees), 8.0, 10.0, (5.0, 4.0)), at=at, off=off, steps=()
    )


@pytest.mark.parametrize(
    ("degrees", "at", "place", "turn", "force"),
    [
        # Along x at y = 5, so 1 ± 0.5 m off: T = −500 or −1500 N·m; 500 N each, ± 2 × 4 × T / 114.
        (0, (5, 5), 0, -500, 500 - 4000 / 114),
        (0, (5, 5), 1, -1500, 500 + 12_000 / 114),
        # Along y at x = 6: T = 1500 or 500; 500 N each, ± 1 × 5 × T / 114.
        (90, (6, 4), 3, 1500, 500 + 7500 / 114),
        (90, (6, 4), 2, 500, 500 - 2500 / 114),
        # Slanting through the centre, 0.5 m off either way: the walls along x take 1000 × cos 30° / 2 each.
        (30, (5, 4), 0, 500, 1000 * math.cos(math.radians(30)) / 2 + 4000 / 114),
        (30, (5, 4), 1, -500, 1000 * math.cos(math.radians(30)) / 2 + 4000 / 114),
    ],
)
def test_the_lines_of_a_stiff_share_stray_to_the_side_that_loads_it_more(
    degrees: float, at: tuple[float, float], place: int, turn: float, force: float
) -> None:
    push = pushed(degrees, at)
    turning, share = twist_steps(BOX, push, place)
    assert turning.result.value == pytest.approx(turn) and recomputed(turning) == pytest.approx(turn)
    assert next(one.value for one in turning.given if one.symbol == "e") == pytest.approx(turn / 1000)
    assert share.result.value == pytest.approx(force) and recomputed(share) == pytest.approx(force)
    assert BOX.worst(push.force, push.seen.direction, *at, push.off)[place] >= force * (1 - 1e-12)


def test_no_force_has_no_lever_and_turns_nothing() -> None:
    turning, share = twist_steps(BOX, pushed(0, (5, 5), force=0.0), 0)
    assert [one.value for one in turning.given] == [0, 0] and turning.result.value == 0 == share.result.value


def test_the_lines_show_the_diaphragm_and_what_pushes() -> None:
    loose = share_by_width(1000.0, 3.0, 10.0, 0.5)
    part = Braced(pushed(0, (5, 5)), loose=loose, stiff=400.0, twisted=no_steps, diaphragm="rigid")
    kind, stiff = part.steps[-2:]
    assert kind.result.value == "rigid" and stiff.says.startswith("Share under a rigid diaphragm")
    assert [(one.symbol, one.value) for one in stiff.given] == [
        ("V", 1000.0)
    ] and stiff.result.value == 400 == part.force
    for diaphragm in ("", "none", "flexible"):
        part = Braced(pushed(0, (5, 5)), loose=loose, stiff=400.0, twisted=no_steps, diaphragm=diaphragm)
        assert part.force == part.steps[-1].result.value == 150
        assert (part.steps[-2].result.value == diaphragm) is bool(diaphragm)


# what is shared among the walls of a house


def braced(walls: dict[str, Any], diaphragm: str = "flexible") -> BracedWalls:
    head = {"name": "Trial", "date": "2026-01-02", "building_height": "14 ft", "diaphragm": diaphragm}
    found = facts({mark: wall | PLAIN for mark, wall in walls.items()}, project=head)
    assert found.building is not None
    shared = braced_walls(found.building, Needs(found.of("project")["project"]))
    assert shared is not None
    return shared


def test_walls_no_farther_apart_than_the_thickest_is_thick_make_one_line() -> None:
    """12 in but for one of 16 in; two along x with their middles 1.2 ft apart are one line at 0.6 ft, which braces from
    the edge, 16 / 2 in out, to half way to the line at 16 ft."""
    walls = box(20, 16) | {"I": {**WALL, "use": "interior", "run": run(0, 1.2, 20, 1.2)}}
    for mark in ("W1", "W3", "W4", "I"):
        walls[mark] |= {"thickness": "12 in"}
    wind = next(part for part in braced(walls).taken["W1", 0] if part.push.name == "wind" and part.loose > 0)
    values = {one.symbol: one.value for one in wind.loose.step().given}
    assert values["b"] == pytest.approx((8 / 12 + 8.3) * FOOT) and values["k"] == pytest.approx(0.5)


def test_a_wall_across_a_push_takes_no_part_of_a_loose_roof() -> None:
    shared = braced(box(20, 16))
    for part in shared.taken["W2", 0]:
        along = abs(math.cos(part.push.seen.direction)) < 0.5
        assert part.loose == pytest.approx(part.push.force / 2 if along else 0)


def test_it_is_known_whether_walls_brace_both_ways() -> None:
    one_way = box(20, 16)
    for mark in ("W2", "W4"):
        one_way[mark] |= {"braces": "no"}
    assert braced(box(20, 16)).two_way is True and braced(one_way).two_way is False


def test_a_stiff_share_has_its_lines_where_walls_can_hold_it_and_none_elsewhere() -> None:
    cross = {"W1": {**WALL, "run": run(-10, 0, 10, 0)}, "W2": {**WALL, "run": run(0, -8, 0, 8)}}
    for walls, told in ((box(20, 16), True), (cross, False)):
        for parts in braced(walls, "rigid").taken.values():
            for part in parts:
                says = [step.says for step in part.steps]
                assert ("Force in the wall" in says) is told
                assert math.isfinite(part.stiff) is told


def test_the_lines_of_the_wind_on_the_building_lead_to_its_force() -> None:
    """Exposure B at 14 ft, so at 15 ft: Kz 0.575 (ASCE 7-10 table 27.3-1: 0.57), not the 0.70 of components."""
    for part in braced(box(20, 16)).taken["W1", 0]:
        if part.push.name == "wind":
            *_, velocity, both, whole = part.push.steps
            assert recomputed(velocity) == velocity.result.value == both.given[0].value
            assert next(one.value for one in velocity.given if one.symbol == "Kz") == pytest.approx(0.5747, abs=5e-5)
            assert recomputed(whole) == pytest.approx(part.push.force)


def test_the_force_along_a_wall_is_the_sum_of_its_lengths_under_the_worst_push() -> None:
    walls = {mark: wall | PLAIN for mark, wall in box(20, 16, W1={"A": opening(8, 4)}).items()}
    subject = facts(walls).of("wall")["W1"]
    line = subject.fact("wall.brace_shear").steps[-1]
    assert line.formula == "V1 + V2" and [one.symbol for one in line.given] == ["V1", "V2"]
    assert recomputed(line) == pytest.approx(subject.fact("wall.brace_shear").value)
    taken = braced(walls).taken
    sums = [one.force + other.force for one, other in zip(taken["W1", 0], taken["W1", 1], strict=True)]
    assert subject.fact("wall.brace_shear").value == pytest.approx(max(sums))


@pytest.mark.parametrize("change", [{"use": "garden"}, {"braces": "no"}])
def test_a_wall_that_does_not_brace_says_so(change: dict[str, str]) -> None:
    walls = {mark: wall | PLAIN for mark, wall in box(20, 16).items()}
    walls["G"] = {**WALL, **PLAIN, "run": run(30, 0, 40, 0), **change}
    fact = facts(walls).of("wall")["G"].fact("wall.brace_shear")
    assert fact.value is None and fact.reason == "the wall is not counted on to brace"
