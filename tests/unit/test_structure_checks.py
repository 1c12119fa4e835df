"""Buildings that cannot be are refused by name and place; a wall without a footing is warned of."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.problems import Problem, ProblemsFound
from tests.conftest import Write

WALL = "run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1"


def one_wall(more: str = "", rest: str = "") -> str:
    """A project of one wall with `more` of its fields, and the `rest` of the file."""
    return f"walls:\n  W1: {{{WALL}{more}}}\n{rest}"


DOOR = "{D1: {kind: door, start: 0 ft, width: 30 ft, sill: 0 ft, height: 7 ft}}"
LOAD = "dead: 1 lbf, live: 0 lbf, snow: 0 lbf"
STEM = "stems: {S: {material: stone, above_grade: 1 ft}}\n"
CASES = [
    (one_wall(f", openings: {DOOR}"), "opening-wider", 6, "D1 is 30 ft wide, wider than W1 is long"),
    (one_wall(f", loads: {{P: {{at: 21 ft, {LOAD}}}}}"), "load-outside", 6,
     "P stands 21 ft along W1, beyond the wall's end"),
    (one_wall(", line_load: 9 plf, load_eccentricity: 8 in"), "load-off-wall", 6,
     "the load on W1 stands 8 in off the middle of its top, past its face"),
    (one_wall(rest="roofs: {R: {kind: framed, bears_on: [{wall: W1, eccentricity: 9 in}]}}\n"), "load-off-wall", 7,
     "R bears 9 in off the middle of the top of W1, past its face"),
    (one_wall(rest="roofs: {R: {kind: framed, rise: 4 ft, tie_height: 4 ft}}\n"), "tie-above-ridge", 7,
     "the tie of R lies 4 ft over the plate, not below the ridge at 4 ft"),
    (one_wall(rest="roofs: {R: {kind: reciprocal, radius: 8 ft, ring_radius: 8 ft}}\n"), "ring-outside", 7,
     "the ring of R, of radius 8 ft, lies outside the wall at 8 ft"),
    (one_wall(rest="roofs: {R: {kind: framed, slope: -20 deg}}\n"), "slope-impossible", 7,
     "the roof R cannot slope by -20 deg"),
    (one_wall(rest="roofs: {R: {kind: framed, slope: 90 deg}}\n"), "slope-impossible", 7,
     "the roof R cannot slope by 90 deg"),
    (one_wall(rest="site: {ground_slope: -1 deg}\n"), "slope-impossible", 7, "the ground cannot slope by -1 deg"),
    (one_wall(", stem: S, footing: F", STEM + "footings: {F: {kind: stone, thickness: 4 ft, bottom: 2 ft}}\n"),
     "stem-below-footing", 8, "under W1 footing F reaches higher than the top of stem wall S"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "code", "line", "wrong"), CASES, ids=[case[1] for case in CASES])
def test_refused_by_name_and_place(project: Write, text: str, code: str, line: int, wrong: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        check_folder(project(text))
    (problem,) = found.value.problems
    assert problem.code == code and problem.place.line == line and wrong in problem.wrong


def test_what_just_fits_is_not_refused(project: Write) -> None:
    rest = STEM + "footings: {F: {kind: stone, thickness: 3 ft, bottom: 2 ft}}\n"
    rest += "roofs: {R: {kind: framed, rise: 4 ft, tie_height: 3 ft, bears_on: [{wall: W1, eccentricity: 7 in}]}}\n"
    check_folder(project(one_wall(f", stem: S, footing: F, loads: {{P: {{at: 20 ft, {LOAD}}}}}", rest)))


def warned(project: Write, text: str, code: str, **more: str) -> list[Problem]:
    return [one for one in check_folder(project(text, **more)).warnings if one.code == code]


def test_a_structural_wall_without_a_footing_is_warned_of(project: Write) -> None:
    footings = "footings: {F: {kind: stone}}\n"
    (warning,) = warned(project, one_wall(", bears_load: yes", footings), "footing-missing")
    assert warning.warning and "W1 bears load or braces" in warning.wrong
    assert not warned(project, one_wall(", bears_load: yes"), "footing-missing")
    assert not warned(project, one_wall(", bears_load: no", footings), "footing-missing")


RULES = """\
rule_set: trial
title: Trial
edition: "1"
jurisdiction: nowhere
material: cob
forms: [any]
status: practice
scope: trial
source: tests
verify: verify
rules:
"""
AGREES = """\
  - {id: agrees, title: A, clause: T, about: site, check: site.sds_agrees, say: S., standing: recalled, source: t}
"""
ASKS = """\
  - {id: asks, title: A, clause: T, about: wall, check: wall.top_load > least, say: S.,
     limits: {least: {value: 1 plf, standing: recalled}}}
"""


def test_a_contradiction_is_told_where_a_rule_asks_for_it(project: Write) -> None:
    text = one_wall(rest="site: {asce7: 7-10, ss: 0.97, s1: 0.348, site_class: D, sds: 0.5}\n")
    (told,) = warned(project, text, "contradiction", rules=RULES + AGREES)
    assert told.place.line == 7 and "0.500, lower than the 0.719" in told.wrong
    assert not warned(project, text, "contradiction")


def test_an_implausible_fact_is_told_once_a_rule_has_asked_for_it(project: Write) -> None:
    text = one_wall(", line_load: 90000 plf")
    told = {one.wrong for one in warned(project, text, "implausible", rules=RULES + ASKS)}
    assert any("used in the screening of W1 is 90000 plf" in wrong for wrong in told)
    assert not any("screening" in one.wrong for one in warned(project, text, "implausible"))


def test_walls_that_nearly_meet_are_warned_of(project: Write) -> None:
    """A wall of 16 in: a clear gap of 3 in from its face, but not of 1 in."""

    def beside(start: str) -> str:
        run = f"run: {{from: [10 ft, {start}], to: [10 ft, 12 ft]}}"
        return one_wall(rest=f"  X: {{{run}, height: 8 ft, thickness: 16 in}}\n")

    (warning,) = warned(project, beside("11 in"), "near-miss")
    assert warning.warning and "X ends" in warning.wrong and "3 in short of W1" in warning.wrong
    assert not warned(project, beside("9 in"), "near-miss")


def test_two_buttresses_in_one_place_are_refused(project: Write) -> None:
    for at, side, refused in (
        ("6 ft 5 in", "outside", True),
        ("6 ft 6 in", "outside", False),
        ("5 ft", "inside", False),
    ):
        one = "wall: W1, projection: 2 ft, width: 18 in, height: 8 ft"
        rest = f"buttresses: {{P: {{at: 5 ft, {one}}}, Q: {{at: {at}, side: {side}, {one}}}}}\n"
        try:
            check_folder(project(one_wall(rest=rest)))
            codes = []
        except ProblemsFound as found:
            codes = [one.code for one in found.problems]
        assert codes == (["buttresses-overlap"] if refused else []), at


def test_a_buttress_in_an_opening_is_refused(project: Write) -> None:
    holes = ", openings: {N: {kind: window, start: 4 ft, width: 3 ft, sill: 3 ft, height: 3 ft}}"
    for at, refused in (("5 ft", True), ("7 ft 8 in", True), ("7 ft 9 in", False)):
        rest = f"buttresses: {{P: {{wall: W1, at: {at}, projection: 2 ft, width: 18 in, height: 8 ft}}}}\n"
        try:
            check_folder(project(one_wall(holes, rest)))
            codes = []
        except ProblemsFound as found:
            codes = [one.code for one in found.problems]
        assert codes == (["buttress-in-opening"] if refused else [])
