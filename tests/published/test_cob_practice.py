"""Figures of cob practice from before there was a code: value, standing and verdict at, inside and outside.

Sources: pre-code practice for seismic areas, public mailing lists of 2006 and 2008 (second-hand, `reported`); Keefe,
Earth Building, chapter on the building process, and a German glossary on cob (`read`). The rest is common practice, no
source, or recalled from adobe rules (`recalled`); it is held here so that a slip of the pen shows.
"""

from __future__ import annotations

import pytest

from compliance.findings import Outcome, Standing
from compliance.judging.examples import run_example
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.rules.schema import ExampleText, Scalar

RULES = {rule.id: rule for rule in read_shipped("cob-practice").rules}
INCH, FOOT = 0.0254, 0.3048
MEETS, REVISE, ENGINEER = Outcome.MEETS, Outcome.REVISE, Outcome.ENGINEER
REPORTED, READ, RECALLED = Standing.REPORTED, Standing.READ, Standing.RECALLED
Facts = dict[str, Scalar | None]

OUTSIDE: Facts = {"wall.use": "exterior"}
STRUCTURAL: Facts = {"wall.structural": "yes"}
CONCRETE: Facts = {"footing.kind": "concrete"}
WOOD: Facts = {"beam.material": "wood", "beam.width": "3-1/2 in"}
TALL: Facts = {**CONCRETE, "wall.height": "8 ft 1 in", "footing.width": "20 in"}


def verdict(rule: str, given: Facts) -> Outcome:
    return run_example(RULES[rule], ExampleText(given=given, gives="meets")).outcome


@pytest.mark.parametrize(
    ("rule", "name", "value", "standing", "fact", "inside", "outside", "others"),
    [
        # mailing list, 2008
        ("footing-depth", "minimum", 12 * INCH, REPORTED, "footing.thickness", ["12 in", "305 mm"], "11-7/8 in", {}),
        ("footing-width", "minimum", 18 * INCH, REPORTED, "footing.width", ["18 in", "457.2 mm"], "457 mm", {}),
        ("footing-bars", "minimum", 2, REPORTED, "footing.bar_count", [2, 3], 1, CONCRETE),
        ("footing-under-tall-wall", "bars", 3, REPORTED, "footing.bar_count", [3], 2, TALL),
        ("stem-height", "minimum", 16 * INCH, REPORTED, "stem.above_grade", ["16 in", "406.4 mm"], "406 mm", OUTSIDE),
        ("wall-top-thickness", "minimum", 12 * INCH, REPORTED, "wall.least_thickness", ["12 in", "305 mm"], "304 mm",
             {}),
        ("rafter-spacing", "maximum", 24 * INCH, REPORTED, "roof.rafter_spacing", ["24 in", "609.6 mm"], "610 mm",
         {"roof.kind": "framed"}),
        # mailing list, 2008 says a double 2x4; actual sizes of American lumber, 1-1/2 by 3-1/2 in each, recalled
        ("bond-beam-size", "minimum_depth", 2 * 1.5 * INCH, RECALLED, "beam.depth", ["3 in", "76.2 mm"], "2 in", WOOD),
        # the German glossary, read
        ("lift-height-most", "maximum", 1.0, READ, "wall.lift_height", ["1 m", "39 in"], "40 in", {}),
        # adobe rules: IBC for 24 ft, an older New Mexico rule for lintels
        ("unsupported-length", "maximum", 24 * FOOT, RECALLED, "wall.unsupported_length", ["24 ft", "7.3152 m"],
             "7.32 m",
         STRUCTURAL),
        ("pier-width", "minimum", 24 * INCH, REPORTED, "pier.width", ["2 ft", "0.61 m"], "0.6 m", {}),
        ("lintel-bearing", "minimum", 12 * INCH, RECALLED, "opening.lintel_bearing", ["12 in", "305 mm"], "300 mm", {}),
        # mailing list, 2006: corners, piers (24 in), width of openings and their share
        ("opening-corner-distance", "minimum", 3 * FOOT, REPORTED, "opening.corner_distance", ["3 ft", "0.9144 m"],
         "0.9 m", {}),
        ("opening-width", "maximum", 4 * FOOT, REPORTED, "opening.width", ["4 ft", "1.2192 m"], "4 ft 1/2 in",
         STRUCTURAL),
        ("opening-share", "maximum", 1 / 3, REPORTED, "wall.opening_share", ["33 1/3 %", "30 %"], "33.4 %", STRUCTURAL),
        # common practice, no source
        ("roof-overhang", "minimum", 24 * INCH, RECALLED, "wall.overhang", ["24 in", "0.61 m"], "0.6 m", OUTSIDE),
        ("free-ends", "maximum", 0, RECALLED, "wall.free_ends", [0], 1, STRUCTURAL),
        ("straw-dose", "minimum", 0.1, RECALLED, "mix.straw_share", [0.1, 0.2, 0.3], 0.31, {}),
    ],
)  # fmt: skip
def test_figure(
    rule: str,
    name: str,
    value: float,
    standing: Standing,
    fact: str,
    inside: list[Scalar],
    outside: Scalar,
    others: Facts,
) -> None:
    """The value as the source has it, known as well as it is, and the verdict on both sides of it."""
    limit = RULES[rule].limits[name]
    assert limit.value == pytest.approx(value) and limit.standing is standing
    assert [verdict(rule, {**others, fact: one}) for one in inside] == [MEETS] * len(inside)
    assert verdict(rule, {**others, fact: outside}) is REVISE


def test_seven_times_as_tall_as_thick() -> None:
    """Height to thickness at most 7 to 1. Mailing list, 2008, second-hand. Beyond it someone has to design the wall."""
    limit = RULES["wall-height-to-thickness"].limits["maximum"]
    assert limit.value == 7 and limit.standing is REPORTED
    found = [verdict("wall-height-to-thickness", {"wall.height_to_thickness": ratio}) for ratio in (6.9, 7, 7.1)]
    assert found == [MEETS, MEETS, ENGINEER]


def test_free_walls_are_squat() -> None:
    """Free at the top: height to thickness at most 5. Common practice, no source."""
    assert RULES["free-standing-height"].limits["maximum"].standing is RECALLED
    given: Facts = {"wall.top_restraint": "free"}
    found = [verdict("free-standing-height", {**given, "wall.height_to_thickness": ratio}) for ratio in (4.9, 5, 5.1)]
    assert found == [MEETS, MEETS, ENGINEER]


def test_footing_of_a_tall_wall_is_wider() -> None:
    """Over 8 ft: three bars and a wider footing, how much wider not said. Mailing list, 2008, second-hand."""
    tall = RULES["footing-under-tall-wall"].limits["tall"]
    assert tall.value == pytest.approx(8 * FOOT) and tall.standing is REPORTED
    given: Facts = {**TALL, "footing.bar_count": 3}
    assert verdict("footing-under-tall-wall", {**given, "footing.width": "18 in"}) is REVISE
    assert verdict("footing-under-tall-wall", {**given, "footing.width": "18-1/2 in"}) is MEETS
    assert verdict("footing-under-tall-wall", {**given, "wall.height": "2438.4 mm"}) is Outcome.NOT_APPLICABLE


def test_base_wall_as_thick_as_the_cob() -> None:
    """Mailing list, 2008, second-hand."""
    given: Facts = {"wall.base_thickness": "18 in"}
    found = [verdict("stem-thickness", {**given, "stem.thickness": value}) for value in ("19 in", "457.2 mm", "457 mm")]
    assert found == [MEETS, MEETS, REVISE]


def test_lift_about_as_high_as_the_wall_is_thick() -> None:
    """Keefe, read: a lift about equal to the width of the wall."""
    share = RULES["lift-height"].limits["share"]
    assert share.value == 1 and share.standing is READ
    given: Facts = {"wall.base_thickness": "24 in"}
    found = [verdict("lift-height", {**given, "wall.lift_height": value}) for value in ("23 in", "609.6 mm", "25 in")]
    assert found == [MEETS, MEETS, REVISE]


@pytest.mark.parametrize(
    ("rule", "fact", "good"),
    [
        ("retaining", "wall.retains_soil", "no"),
        ("roof-thrust", "roof.thrust_held", "yes"),
        ("flood-zone", "site.flood_zone", "no"),
        ("expansive-soil", "site.expansive_soil", "no"),
    ],
)
def test_what_is_never_left_to_a_rule_of_thumb(rule: str, fact: str, good: str) -> None:
    """Common practice, no source: earth against the wall, roof thrust, flood and swelling ground go to an engineer."""
    assert verdict(rule, {fact: good}) is MEETS
    assert verdict(rule, {fact: "no" if good == "yes" else "yes"}) is ENGINEER
    assert verdict(rule, {}) is Outcome.MISSING


def test_it_never_passes_for_a_code() -> None:
    found = read_shipped("cob-practice")
    assert found.status == "practice"
    assert all(rule.clause.startswith("practice") for rule in found.rules)
