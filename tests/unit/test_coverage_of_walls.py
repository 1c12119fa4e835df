"""Rules that ask for passing sets behind each wall: nothing short of a passing set of the wall's own mix meets."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome, Standing
from compliance.judging.examples import run_example
from compliance.problems import ProblemsFound
from compliance.reading.rule_files.rule_library import read_rule_set
from compliance.report.words.missing_words import missing_texts
from tests.conftest import RULE_SET, Write
from tests.sentences import sentence

HEAD = """\
project: {name: Trial, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml, more.yaml]}
soils: {S1: {name: clay, place: hill, depth: 3 ft}}
trials: {TR1: {parts: {S1: 1}}}
mixes: {M1: {name: one, parts: {S1: 1}, trial: TR1}, M2: {name: two, parts: {S1: 1}}}
"""
BUILD = "thickness: 16 in, braces: no"
WALLS = f"""\
walls:
  W1: {{run: {{from: [0 ft, 0 ft], to: [20 ft, 0 ft]}}, height: 8 ft, mix: M1, bears_load: yes, {BUILD}}}
  W2: {{run: {{from: [0 ft, 0 ft], to: [0 ft, 20 ft]}}, height: 8 ft, mix: M2, bears_load: yes, {BUILD}}}
  W3: {{run: {{from: [0 ft, 30 ft], to: [9 ft, 30 ft]}}, height: 4 ft, mix: M1, bears_load: no, {BUILD}}}
  W4: {{run: {{from: [0 ft, 40 ft], to: [9 ft, 40 ft]}}, height: 8 ft, bears_load: yes, {BUILD}}}
"""
RULES = (
    RULE_SET
    + """\
  - id: strong
    title: Strength
    clause: T1
    about: mix
    when: mix.volume > 0
    test: {of: compression, statistic: governs}
    limits:
      least: {value: 60 psi, standing: read, source: trial}
      governs: {value: lowest, standing: recalled}
    check: result >= least
    say: Strong enough.
    question: strength
  - id: shrunk
    title: Shrinkage
    clause: T2
    about: mix
    when: mix.volume > 0
    test: {of: shrinkage, statistic: governs}
    limits:
      most: {value: 4 %, standing: read, source: trial}
      governs: {value: highest, standing: read, source: trial}
    check: result <= most
    say: Shrinks little.
"""
)
MORE = """\
rule_set: more
title: More rules
edition: "2026"
jurisdiction: nowhere
material: cob
forms: [any]
status: practice
scope: trial
source: written for the tests
verify: verify locally
rules:
  - id: covered
    title: Covered
    clause: M1
    about: wall
    when: wall.structural
    covers: {question: strength}
    limits: {sets: {value: 1, kind: count, standing: read, source: trial}}
    check: passing >= sets
    otherwise: engineer
    say: Each wall has its passing set.
"""
SETS = (
    "test_sets: {C1: {kind: compression, mix: M1}, C2: {kind: compression, mix: M1}, H1: {kind: shrinkage, mix: M1}}\n"
)
CRUSHED = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\n"
)
SHRUNK = "set,specimen,mix,cast,tested,dried,form_length [in],dried_length [in]\n"
GOOD, WEAK = "C1,a,M1,,,air,cube,4,4,4,,1600,\n", "C2,b,M1,,,air,cube,4,4,4,,800,\n"
BAR = "H1,c,M1,,,air,24,23.5\n"


def cover(
    project: Write,
    rows: str,
    more: str = MORE,
    rules: str = RULES,
    sets: str = SETS,
    bars: str = "",
    rule: str = "covered",
) -> dict[str, Finding]:
    files = {"lab/compression.csv": CRUSHED + rows, "lab/shrinkage.csv": SHRUNK + bars, "more.yaml": more}
    found = check_folder(project(text=WALLS + sets, head=HEAD, rules=rules, files=files)).findings
    return {one.subject: one for one in found if one.rule == rule}


def test_a_passing_set_covers_the_walls_of_its_mix_alone(project: Write) -> None:
    found = cover(project, GOOD)
    assert {mark: one.outcome for mark, one in found.items()} == {
        "W1": Outcome.MEETS, "W2": Outcome.MISSING, "W3": Outcome.NOT_APPLICABLE, "W4": Outcome.MISSING,
    }  # fmt: skip
    assert "a compression set of mix M2" in missing_texts(found["W2"])[0]
    assert missing_texts(found["W4"]) == ("walls.W4.mix in project.yaml",)


def test_the_finding_carries_the_chain_and_rests_on_the_lowest_standing(project: Write) -> None:
    one = cover(project, GOOD)["W1"]
    assert one.kind == "covers" and one.standing is Standing.RECALLED and one.verdict == "meets (practice)"
    says = [step.says for step in one.steps]
    for link in ("Pit S1", "Soil S1", "Trial TR1", "Mix M1", "Set C1", "Wall W1", "Set C1, Strength (T1)"):
        assert link in says, says


def test_a_failing_set_is_not_outweighed(project: Write) -> None:
    one = cover(project, GOOD + WEAK)["W1"]
    assert one.outcome is Outcome.ENGINEER
    assert "C2" in sentence(one) and "C1" in sentence(one) and not one.missing
    alone = cover(project, WEAK)["W1"]
    assert alone.outcome is Outcome.ENGINEER


def test_a_set_without_rows_neither_covers_nor_spoils(project: Write) -> None:
    nothing = cover(project, "")["W1"]
    assert nothing.outcome is Outcome.MISSING
    assert set(missing_texts(nothing)) == {f"rows of set {mark} in lab/compression.csv" for mark in ("C1", "C2")}
    assert cover(project, GOOD)["W1"].outcome is Outcome.MEETS


def test_too_few_sets_are_missing_not_failing(project: Write) -> None:
    two = MORE.replace("value: 1", "value: 2")
    one = cover(project, GOOD, more=two)["W1"]
    assert one.outcome is Outcome.MISSING and "1 < 2 minimum" in sentence(one) and one.missing
    assert cover(project, GOOD + GOOD.replace("C1,a", "C2,b"), more=two)["W1"].outcome is Outcome.MEETS


@pytest.mark.parametrize(("per_set", "outcome"), [("300 ft3", Outcome.MEETS), ("261.33 ft3", Outcome.MISSING)])
def test_sets_due_for_the_volume(project: Write, per_set: str, outcome: Outcome) -> None:
    """Walls of M1: 20 × 8 and 9 × 4 ft of 16 in, 261 1/3 ft3."""
    more = MORE.replace("{sets: {value: 1, kind: count,", f"{{volume: {{value: {per_set},").replace(
        "passing >= sets", "passing * volume >= mix.volume"
    )
    assert cover(project, GOOD, more=more)["W1"].outcome is outcome


def test_an_open_limit_waits_and_an_open_test_waits(project: Write) -> None:
    more = MORE.replace(
        "value: 1, kind: count, standing: read, source: trial", "value: open, kind: count, standing: open"
    )
    assert cover(project, GOOD, more=more)["W1"].outcome is Outcome.CONFIRM
    rules = RULES.replace("value: 60 psi, standing: read, source: trial", "value: open, kind: stress, standing: open")
    assert cover(project, GOOD, rules=rules)["W1"].outcome is Outcome.CONFIRM


OPEN_SETS = ("value: 1, kind: count, standing: read, source: trial", "value: open, kind: count, standing: open")


def test_where_the_rule_does_not_apply_an_open_limit_asks_for_nothing(project: Write) -> None:
    """W3 is not structural."""
    found = cover(project, GOOD, more=MORE.replace(*OPEN_SETS))
    assert {mark: one.outcome for mark, one in found.items()} == {
        "W1": Outcome.CONFIRM, "W2": Outcome.CONFIRM, "W3": Outcome.NOT_APPLICABLE, "W4": Outcome.CONFIRM,
    }  # fmt: skip


def test_where_it_is_not_known_whether_the_rule_applies_a_passing_set_does_not_meet(project: Write) -> None:
    more = MORE.replace("when: wall.structural", "when: site.sds > 0")
    one = cover(project, GOOD, more=more)["W1"]
    assert one.outcome is Outcome.MISSING and missing_texts(one) == ("site.sds in project.yaml",)
    assert cover(project, GOOD, more=more.replace(*OPEN_SETS))["W1"].outcome is Outcome.CONFIRM


def test_a_check_without_a_value_calls_for_an_engineer(project: Write) -> None:
    """The walls have no opening to divide by. That is not too few sets, nor does the check break off over it."""
    for otherwise in ("engineer", "revise"):
        more = MORE.replace("passing >=", "passing / wall.opening_count >=").replace("engineer", otherwise)
        one = cover(project, GOOD, more=more)["W1"]
        assert one.outcome is Outcome.ENGINEER and sentence(one).startswith("the check has no value here: ")
        assert one.steps and not one.missing


def test_a_wall_outside_the_table_of_sets_calls_for_an_engineer(project: Write) -> None:
    """W1 is 8 ft high; so many sets are asked of walls up to 7 ft, and up to 9 ft."""
    for tallest, outcome in ((7, Outcome.ENGINEER), (9, Outcome.MEETS)):
        table = (
            "    tables: {{sets: {{rows: {{fact: wall.height, at: [{} ft], worse: larger}}, cells: [[1]], kind: count, "
            "standing: read, source: trial}}}}\n"
        )
        limits = MORE[MORE.index("    limits: {sets") : MORE.index("    check:")]
        one = cover(project, GOOD, more=MORE.replace(limits, table.format(tallest)))["W1"]
        assert one.outcome is outcome and not one.missing


def test_what_lacks_is_a_set_that_passes_where_a_rule_asks_for_one(project: Write) -> None:
    """C1 and C2 of M1 have no rows, M2 has no set, and of M1 no rule asks for a set where it does not apply."""
    found = cover(project, "")
    assert sentence(found["W1"]) == "no set of mix M1 passes yet"
    assert sentence(found["W2"]) == "no set of mix M2 passes yet"
    rules = RULES.replace("when: mix.volume > 0", "when: mix.replaced")
    one = cover(project, GOOD, rules=rules)["W1"]
    assert (one.outcome, sentence(one)) == (Outcome.MISSING, "no adopted rule asks for a test of mix M1 here")
    assert missing_texts(one) == ("a set of mix M1 that passes under test_sets: in project.yaml",)


def test_no_rule_that_asks_is_no_cover(project: Write) -> None:
    more = MORE.replace("question: strength", "question: stiffness")
    one = cover(project, GOOD, more=more)["W1"]
    assert one.outcome is Outcome.MISSING and "no adopted rule asks" in sentence(one)


def test_every_named_rule_needs_a_set_of_its_own(project: Write) -> None:
    """A crushed cube does not stand in for the bar."""
    own = MORE.replace("rule_set: more", "rule_set: trial2").replace(
        "{question: strength}", "{rules: [strong, shrunk]}"
    )
    both = RULES + own[own.index("  - id: covered") :]
    empty = MORE.replace("id: covered", "id: other")
    assert cover(project, GOOD, more=empty, rules=both)["W1"].outcome is Outcome.MISSING
    assert cover(project, GOOD, more=empty, rules=both, bars=BAR)["W1"].outcome is Outcome.MEETS
    assert (
        cover(project, GOOD, more=empty, rules=both, bars=BAR.replace("23.5", "22"))["W1"].outcome is Outcome.ENGINEER
    )


def test_a_named_rule_is_that_of_the_same_rule_set(project: Write) -> None:
    """Another rule set has a rule of the same name, which no set passes: that is for its own findings to say."""
    rules = RULES + MORE[MORE.index("  - id: covered") :].replace("{question: strength}", "{rules: [strong]}")
    other = RULES[RULES.index("  - id: strong") : RULES.index("  - id: shrunk")].replace("60 psi", "999 psi")
    more = MORE[: MORE.index("  - id: covered")] + other
    found = cover(project, GOOD, more=more, rules=rules)
    assert found["W1"].outcome is Outcome.MEETS
    assert [step.says for step in found["W1"].steps if ", Strength (" in step.says] == [
        "Set C1, Strength (T1)", "Set C2, Strength (T1)",
    ]  # fmt: skip


def test_two_rule_sets_that_ask_must_both_be_met(project: Write) -> None:
    stricter = RULES[RULES.index("  - id: strong") : RULES.index("  - id: shrunk")].replace("60 psi", "120 psi")
    one = cover(project, GOOD, more=MORE + stricter.replace("id: strong", "id: stronger"))["W1"]
    assert one.outcome is Outcome.ENGINEER


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (("{question: strength}", "{rules: [strong]}"), "rule-covers"),
        (("{question: strength}", "{}"), "rule-covers"),
        (("{question: strength}", "{question: strength, rules: [strong]}"), "rule-covers"),
        (("about: wall", "about: mix"), "rule-covers"),
        (("    check: passing >= sets\n", ""), "rule-check"),
        (("passing >= sets", "result >= sets"), "formula-name"),
        (("when: wall.structural", "when: passing >= sets"), "formula-name"),
    ],
)
def test_covers_rules_that_cannot_be_judged_are_refused(project: Write, change: tuple[str, str], code: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        cover(project, GOOD, more=MORE.replace(*change))
    assert code in {one.code for one in found.value.problems}


def test_examples_of_covers_rules_run(project: Write) -> None:
    examples = """\
    examples:
      - {given: {wall.structural: yes, passing: 1}, gives: meets}
      - {given: {wall.structural: yes, passing: 0}, gives: missing}
      - {given: {wall.structural: yes, passing: 4, failing: 1}, gives: engineer}
      - {given: {wall.structural: no, passing: 0}, gives: not-applicable}
      - {given: {passing: 1}, gives: missing}
"""
    folder = project(text=WALLS, head=HEAD, files={"more.yaml": MORE + examples})
    (rule,) = read_rule_set(folder / "more.yaml", "more.yaml").rules
    found = [run_example(rule, one) for one in rule.examples]
    assert [one.outcome for one in found] == [one.outcome for one in rule.examples]
    assert sentence(found[2]) == "1 set fails, whatever others show" and not found[2].missing


def test_an_example_with_several_failing_sets(project: Write) -> None:
    example = "    examples: [{given: {wall.structural: yes, passing: 4, failing: 2}, gives: engineer}]\n"
    folder = project(text=WALLS, head=HEAD, files={"more.yaml": MORE + example})
    (rule,) = read_rule_set(folder / "more.yaml", "more.yaml").rules
    (found,) = (run_example(rule, one) for one in rule.examples)
    assert (found.outcome, sentence(found)) == (Outcome.ENGINEER, "2 sets fail, whatever others show")
