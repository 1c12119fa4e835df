"""Judging: the order of outcomes, values at their limit in any unit, and what a finding says."""

from __future__ import annotations

import math
import sys

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome, Standing
from compliance.report.words.missing_words import missing_texts
from compliance.units import Writer
from compliance.units.unit_table import unit
from tests.conftest import EXAMPLE, HEAD, RULES, WALLS, Write
from tests.sentences import sentence
from tests.tries import tries

RULE = RULES[RULES.index("  - id:") :]
QUIET = settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=tries(60), deadline=None)


def found(project: Write, **parts: str) -> Finding:
    return check_folder(project(**parts)).findings[-1]


def rules(check: str, limits: str = "", more: str = "") -> str:
    return RULES + (
        f"  - id: other\n    title: Other\n    clause: C\n    about: wall\n    say: Other.\n    limits: {{{limits}}}\n"
        f"    check: {check}\n{more}"
    )


WALL = "walls:\n  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: %s}\n"


@QUIET
@given(st.integers(200, 40_000), st.sampled_from(["mm", "m", "in", "ft"]), st.sampled_from(["mm", "m", "in", "ft"]))
def test_a_value_at_its_limit_meets_it_whatever_the_unit(project: Write, hundredths: int, own: str, other: str) -> None:
    """The same length written in two units, each to fifteen digits, is the same length."""
    metres = hundredths * 1e-4
    texts = [f"{metres / unit(symbol).factor:.12f}".rstrip("0").rstrip(".") for symbol in (own, other)]
    wall = WALL % f"{texts[0]} {own}"
    for relation in (">=", "<="):
        rule = RULES.replace("10 in", f"{texts[1]} {other}").replace(">=", relation)
        assert found(project, text=wall, rules=rule).outcome is Outcome.MEETS


@QUIET
@given(st.floats(0.05, 1.5), st.floats(0.0, 1.0))
def test_thicker_is_never_worse(project: Write, thickness: float, more: float) -> None:
    def margin(value: float) -> float:
        finding = found(project, text=WALL % f"{value:.9f} m")
        assert finding.margin is not None
        return finding.margin

    assert margin(thickness + more) >= margin(thickness) - 1e-12


def test_missing_names_the_field_and_its_file(project: Write) -> None:
    finding = found(project, rules=rules("site.sds <= most", "most: {value: 0.5, standing: recalled}"))
    assert finding.outcome is Outcome.MISSING
    assert missing_texts(finding) == ("site.sds in project.yaml",)


def test_an_open_limit_gives_confirm_even_where_a_fact_is_lacking(project: Write) -> None:
    limit = 'most: {value: open, kind: ratio, standing: open, read_in: "Table 9"}'
    finding = found(project, rules=rules("site.sds <= most", limit))
    assert (finding.outcome, finding.standing) == (Outcome.CONFIRM, Standing.OPEN)
    assert "Table 9" in sentence(finding)


def test_when_false_is_not_applicable_and_says_why(project: Write) -> None:
    finding = found(
        project,
        rules=rules("wall.height <= most", "most: {value: 1 ft, standing: recalled}", "    when: wall.curved\n"),
    )
    assert finding.outcome is Outcome.NOT_APPLICABLE
    assert "curved wall" in sentence(finding)


OPEN = "most: {value: open, kind: length, standing: open}"


def test_where_the_rule_does_not_apply_an_open_limit_asks_for_nothing(project: Write) -> None:
    finding = found(project, rules=rules("wall.height <= most", OPEN, "    when: wall.curved\n"))
    assert finding.outcome is Outcome.NOT_APPLICABLE and not finding.missing


@pytest.mark.parametrize(
    ("when", "outcome", "reason"),
    [
        ("site.sds > some", Outcome.MISSING, "the project lacks site.sds in project.yaml"),
        ("1 / wall.opening_count > some", Outcome.ENGINEER, "whether the rule applies cannot be said: "),
    ],
)
def test_where_it_is_not_known_whether_the_rule_applies(
    project: Write, when: str, outcome: Outcome, reason: str
) -> None:
    """Nothing is said of the check, which would hold; an open limit is to be read either way."""
    limits, more = "some: {value: 1, kind: ratio, standing: recalled}, ", f"    when: {when}\n"
    known = rules("wall.height <= most", f"{limits}most: {{value: 9 ft, standing: recalled}}", more)
    finding = found(project, rules=known)
    assert finding.outcome is outcome and sentence(finding).startswith(reason)
    assert finding.value is None and finding.margin is None
    assert found(project, rules=rules("wall.height <= most", limits + OPEN, more)).outcome is Outcome.CONFIRM


@pytest.mark.parametrize("otherwise", ["revise", "engineer"])
def test_a_yes_or_no_says_what_holds_or_what_the_rule_asks(project: Write, otherwise: str) -> None:
    """W1 is straight and has no opening. What an engineer is called for is what the rule says."""
    more = f"    otherwise: {otherwise}\n"
    finding = found(project, rules=rules("wall.curved", more=more))
    assert finding.outcome is Outcome(otherwise) and finding.value is not None and finding.limit is None
    holds_not = "curved wall: no, must be yes" if otherwise == "revise" else "Other."
    assert sentence(finding) == holds_not
    finding = found(project, rules=rules("not wall.curved", more=more))
    assert finding.outcome is Outcome.MEETS and sentence(finding) == "curved wall: no, as required"


def test_a_fact_without_meaning_is_not_applicable(project: Write) -> None:
    finding = found(project, rules=rules("wall.narrowest_pier >= least", "least: {value: 1 ft, standing: recalled}"))
    assert finding.outcome is Outcome.NOT_APPLICABLE and sentence(finding) == "the wall has no opening"


def test_dividing_by_nothing_never_meets(project: Write) -> None:
    finding = found(
        project, rules=rules("wall.height / wall.opening_count <= most", "most: {value: 99 ft, standing: recalled}")
    )
    assert finding.outcome is Outcome.ENGINEER


@pytest.mark.parametrize(("most", "outcome"), [("1", Outcome.REVISE), ("0", Outcome.MEETS)])
def test_equality_of_numbers_has_its_reason(project: Write, most: str, outcome: Outcome) -> None:
    limit = f"most: {{value: {most}, kind: count, standing: recalled}}"
    finding = found(project, rules=rules("wall.opening_count == most", limit))
    assert finding.outcome is outcome and "required" in sentence(finding)


def test_unconfirmed_limits_never_print_as_plain_meets(project: Write) -> None:
    for standing, verdict in (("read", "meets"), ("reported", "meets, limit to be confirmed")):
        text = RULES.replace("standing: read", f"standing: {standing}")
        assert found(project, rules=text.replace("status: practice", "status: code")).verdict == verdict
        assert found(project, rules=text).verdict == "meets (practice)", "practice has no adopted copy"


def test_of_several_comparisons_the_tightest_decides(project: Write) -> None:
    limits = "a: {value: 4 in, standing: recalled}, b: {value: 15 in, standing: recalled}"
    check = "wall.least_thickness >= a and wall.base_thickness >= b"
    finding = found(project, rules=rules(check, limits))
    assert finding.limit is not None and finding.limit.symbol == "b"
    assert finding.margin is not None and math.isclose(finding.margin, 1 / 15, rel_tol=1e-9)


KINDS = "kinds: {value: [roof, bond-beam], standing: recalled}"
KIND = "kind: {value: roof, standing: recalled}"
FEET = "kinds: {value: [floor, none], standing: recalled}"
FOOT = "kind: {value: floor, standing: recalled}"
YES = "asked: {value: true, standing: recalled}"
NONE = "none: {value: 0, kind: count, standing: recalled}"


@pytest.mark.parametrize(
    ("check", "limit", "meets", "relation", "reason"),
    [
        ("wall.top_restraint in kinds", KINDS, True, "in", "roof is among what is allowed: bond-beam, roof"),
        ("wall.top_restraint not in kinds", KINDS, False, "not in", "roof is among what is ruled out: bond-beam, roof"),
        ("wall.base_restraint in kinds", FEET, False, "in", "stem is not among what is allowed: floor, none"),
        ("wall.base_restraint not in kinds", FEET, True, "not in", "stem is not among what is ruled out: floor, none"),
        ("wall.top_restraint == kind", KIND, True, "is", "roof is among what is allowed: roof"),
        ("kind != wall.top_restraint", KIND, False, "is not", "roof is among what is ruled out: roof"),
        ("kind == wall.base_restraint", FOOT, False, "is", "stem is not among what is allowed: floor"),
        ("wall.base_restraint != kind", FOOT, True, "is not", "stem is not among what is ruled out: floor"),
        ("wall.curved == asked", YES, False, "is", "no is not among what is allowed: yes"),
        ("wall.curved != asked", YES, True, "is not", "no is not among what is ruled out: yes"),
        ("wall.opening_count == none", NONE, True, "==", "number of openings 0 = 0 required"),
        ("none != wall.opening_count", NONE, False, "!=", "number of openings 0 = 0 ruled out"),
    ],
)  # fmt: skip
def test_what_a_word_or_a_number_is_held_against(
    project: Write, check: str, limit: str, meets: bool, relation: str, reason: str
) -> None:
    text = WALLS.replace("mix: M1}", "mix: M1, top_restraint: roof, base_restraint: stem}")
    finding = found(project, text=text, rules=rules(check, limit))
    assert (finding.outcome, finding.relation) == (Outcome.MEETS if meets else Outcome.REVISE, relation)
    assert sentence(finding) == reason
    assert finding.limit is not None and finding.limit.symbol == limit.partition(":")[0]


MOST = "most: {value: 8 ft, standing: recalled}"
BESIDE = [
    ("not asked or wall.curved", YES, False, "not satisfied: not asked or curved wall"),
    ("asked and not wall.curved", YES, True, "satisfied: asked and not curved wall"),
    ("not (wall.top_restraint in kinds)", KINDS, False,
     "not satisfied: not (lateral support at the top is one of kinds)"),
    ("wall.top_restraint != 'roof'", "", False, "not satisfied: lateral support at the top ≠ roof"),
    ("wall.top_restraint in ['roof', 'free']", "", True, "satisfied: lateral support at the top is one of roof, free"),
    ("not wall.height <= most", MOST, False, "not satisfied: not (height of the wall ≤ most)"),
]  # fmt: skip


@pytest.mark.parametrize(("check", "limit", "meets", "reason"), BESIDE)
def test_a_fact_is_not_told_as_held_against_a_limit_that_only_stands_beside_it(
    project: Write, check: str, limit: str, meets: bool, reason: str
) -> None:
    """As it was: "yes is not among what is allowed: yes" of a wall that braces where holes are barred."""
    text = WALLS.replace("mix: M1}", "mix: M1, top_restraint: roof}")
    finding = found(project, text=text, rules=rules(check, limit))
    assert (finding.outcome, sentence(finding)) == (Outcome.MEETS if meets else Outcome.REVISE, reason)
    assert finding.value is not None and finding.limit is None and finding.relation == ""


def test_of_several_ways_to_meet_the_loosest_decides(project: Write) -> None:
    limits = "a: {value: 32 in, standing: recalled}, b: {value: 20 in, standing: recalled}"
    finding = found(project, rules=rules("wall.least_thickness >= a or wall.base_thickness >= b", limits))
    assert finding.outcome is Outcome.REVISE and finding.limit is not None and finding.limit.symbol == "b"
    assert finding.margin is not None and math.isclose(finding.margin, -0.2, rel_tol=1e-9)


@pytest.mark.parametrize(
    ("openings", "outcome", "reason"),
    [
        ("", Outcome.MEETS, "8 ft ≤ 9 ft maximum"),
        (
            "D1: {kind: door, start: 6 ft, sill: 0 ft, width: 3 ft, height: 6 ft}",
            Outcome.REVISE,
            "number of openings 1 > 0 maximum",
        ),
    ],
)
def test_a_limit_of_nothing_decides_only_where_it_is_not_kept(
    project: Write, openings: str, outcome: Outcome, reason: str
) -> None:
    """No share of nothing can be left, so that such a comparison has no margin."""
    limits = "none: {value: 0, kind: count, standing: recalled}, most: {value: 9 ft, standing: recalled}"
    text = WALLS.replace("mix: M1}", f"mix: M1, openings: {{{openings}}}}}")
    finding = found(project, text=text, rules=rules("wall.opening_count <= none and wall.height <= most", limits))
    assert (finding.outcome, sentence(finding)) == (outcome, reason)


def test_what_lacks_and_what_has_no_meaning_are_both_said(project: Write) -> None:
    limits = "least: {value: 1 ft, standing: recalled}, most: {value: 0.5, standing: recalled}"
    finding = found(project, rules=rules("wall.narrowest_pier >= least and site.sds <= most", limits))
    assert finding.outcome is Outcome.MISSING and missing_texts(finding) == ("site.sds in project.yaml",)
    assert sentence(finding) == "the project lacks site.sds in project.yaml (the wall has no opening)"


def by_table(cells: str, more: str = "") -> str:
    return rules(
        "wall.least_thickness >= thinnest", more="    tables:\n      thinnest:\n        rows: "
        "{fact: wall.height, at: [7 ft, 8 ft], worse: larger}\n        kind: thickness\n        standing: reported\n"
        f"        source: trial table\n        cells: {cells}\n{more}",
    ).replace("    limits: {}\n", "")  # fmt: skip


TO_READ = "this entry of the table is not known here: read thinnest, row 2 (Table 9) in the adopted copy and enter it"


@pytest.mark.parametrize(
    ("height", "cells", "outcome", "reason", "gives"),
    [
        ("8 ft", "[[10 in], [16 in]]", Outcome.MEETS, "16 in ≥ 16 in minimum", "16 in"),
        ("7 ft 6 in", "[[10 in], [17 in]]", Outcome.REVISE, "16 in < 17 in minimum", "17 in"),
        (
            "8 ft 1 in",
            "[[10 in], [9 in]]",
            Outcome.ENGINEER,
            "thinnest: outside the table's wall.height entries",
            "outside",
        ),
        ("8 ft", "[[10 in], [open]]", Outcome.CONFIRM, TO_READ, "open"),
        ("7 ft", "[[10 in], [open]]", Outcome.MEETS, "16 in ≥ 10 in minimum", "10 in"),
    ],
)
def test_a_table_gives_its_limit_or_says_why_not(
    project: Write, height: str, cells: str, outcome: Outcome, reason: str, gives: str
) -> None:
    """Between two heights the taller row stands; taller than the table is for an engineer; an open cell is read."""
    text = WALLS.replace("height: 8 ft", f"height: {height}")
    finding = found(project, text=text, rules=by_table(cells, "        read_in: Table 9\n"))
    assert (finding.outcome, sentence(finding)) == (outcome, reason)
    (limit,) = finding.limits
    opened = outcome is Outcome.CONFIRM
    assert limit.standing is (Standing.OPEN if opened else Standing.REPORTED)
    line = next(step for step in finding.steps if step.says.startswith("thinnest by height of the wall ("))
    assert line.result.written(Writer()) == gives and line.source == "trial table"
    assert [one.written(Writer()) for one in line.given] == [height]


TWO_TABLES = """\
    limits: {least: {value: 1 in, standing: read, source: trial}}
    tables:
      known:
        rows: {fact: wall.height, at: [9 ft], worse: larger}
        cells: [[10 in]]
        kind: thickness
        standing: reported
        source: trial
      other:
        rows: {fact: wall.height, at: [7 ft, 9 ft], worse: larger}
        columns: {fact: site.sds, at: [1, 2], worse: larger}
        cells: [[10 in, 10 in], [10 in, open]]
        kind: thickness
        standing: reported
        source: trial
"""


def two_tables(project: Write, site: str) -> Finding:
    check = "wall.least_thickness >= least and wall.least_thickness >= known and wall.least_thickness >= other"
    rule = rules(check).replace("    limits: {}\n", TWO_TABLES)
    return found(project, text=WALLS + site, rules=rule)


def test_a_table_with_an_open_entry_is_open_and_nothing_else_of_the_rule(project: Write) -> None:
    opened = two_tables(project, "site: {sds: 1.5}\n")
    assert opened.outcome is Outcome.CONFIRM and "read other, row 2 column 2 (C)" in sentence(opened)
    assert [(one.name, one.standing.value, one.value is None) for one in opened.limits] == [
        ("least", "read", False), ("known", "reported", False), ("other", "open", True),
    ]  # fmt: skip
    known = two_tables(project, "site: {sds: 1}\n")
    assert known.outcome is Outcome.MEETS
    assert [one.standing.value for one in known.limits] == ["read", "reported", "reported"]


def test_a_table_that_is_looked_up_by_what_nobody_says_is_missing(project: Write) -> None:
    finding = two_tables(project, "")
    assert finding.outcome is Outcome.MISSING and missing_texts(finding) == ("site.sds in project.yaml",)


def test_the_lines_of_the_facts_come_before_the_check_and_an_open_check_has_none(project: Write) -> None:
    """8 ft over 16 in is 6."""
    closed, opened = (
        found(project, rules=rules("wall.height_to_thickness <= most", f"most: {limit}")).steps
        for limit in ("{value: 6, kind: ratio, standing: recalled}", "{value: open, kind: ratio, standing: open}")
    )
    assert [step.says for step in closed[:-1]] == [step.says for step in opened]
    assert opened[-1].result.value == pytest.approx(6)
    assert (closed[-1].says, closed[-1].result.value) == ("check", "holds")


def test_what_is_to_be_held_against_an_open_limit_is_worked_out(project: Write) -> None:
    """The wall of 20 ft is 8 ft high: 2.5."""
    opened = found(
        project, rules=rules("wall.length / wall.height <= most", "most: {value: open, kind: ratio, standing: open}")
    )
    assert opened.outcome is Outcome.CONFIRM and opened.value is not None
    assert opened.steps[-1].says == "value" and opened.steps[-1].result.value == pytest.approx(2.5)
    lacking = rules("site.sds * 2 <= most", "most: {value: open, kind: ratio, standing: open}")
    assert "value" not in [step.says for step in found(project, rules=lacking).steps]


def test_order_of_keys_never_matters(project: Write) -> None:
    one = check_folder(project(head=HEAD)).findings
    head, *rest = HEAD.splitlines(keepends=True)
    other = check_folder(project(text="".join(rest) + head, head=WALLS)).findings
    writer = Writer()
    assert [one[0].outcome, sentence(one[0]), [step.line(writer) for step in one[0].steps]] == [
        other[0].outcome, sentence(other[0]), [step.line(writer) for step in other[0].steps]
    ]  # fmt: skip


@pytest.mark.parametrize("at_a_time", [1, 3, 1000])
def test_findings_stand_rule_by_rule_and_subject_by_subject(monkeypatch: pytest.MonkeyPatch, at_a_time: int) -> None:
    """However many subjects are taken up at a time."""
    monkeypatch.setattr(sys.modules["compliance.judging.judge"], "_AT_A_TIME", at_a_time)
    checked = check_folder(EXAMPLE)
    rules = [(one.id, rule) for one in checked.rule_sets for rule in one.rules]
    wanted = [
        (name, rule.id, mark)
        for name, rule in rules
        if not rule.test
        for mark in checked.facts.of(rule.about)
    ]  # fmt: skip
    assert [(one.rule_set, one.rule, one.subject) for one in checked.findings if one.kind != "test"] == wanted
    in_order = [(name, rule.id) for name, rule in rules]
    places = [in_order.index((one.rule_set, one.rule)) for one in checked.findings]
    assert places == sorted(places)
