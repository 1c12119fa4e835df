"""Rules made for one type of earth never say that another meets."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome
from compliance.judging.reasons import NotCovered
from compliance.problems import ProblemsFound
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.report.words.missing_words import missing_texts
from tests.conftest import HEAD, RULES, WALLS, Write
from tests.sentences import sentence

MIX_RULE = """\
  - {id: dry-enough, title: Density, clause: T2, about: mix, say: Dense., check: mix.dry_density >= least,
     limits: {least: {value: 90 pcf, standing: read, source: trial}}}
"""
COB = (RULES + MIX_RULE).replace("forms: [any]", "forms: [cob]")
ADOBE = COB.replace("rule_set: trial", "rule_set: other").replace("Trial rules", "Other").replace("[cob]", "[adobe]")
THIN = "thickness: 9 in"


def found(project: Write, form: str, walls: str = WALLS, other: str = "", status: str = "practice") -> list[Finding]:
    """The findings of a wall of one type of earth under the rules for cob, and those of another set beside them."""
    stated = f", form: {form}" if form else ""
    head = HEAD.replace("{name: mix,", f"{{name: mix, dry_density: 100 pcf{stated},")
    if other:
        head = head.replace("[rules.yaml]", "[rules.yaml, other.yaml]")
    files = {"other.yaml": other.replace("status: practice", f"status: {status}")} if other else {}
    return list(check_folder(project(text=walls, head=head, rules=COB, files=files)).findings)


def outcomes(findings: list[Finding], rule_set: str = "trial") -> dict[str, Outcome]:
    return {one.rule: one.outcome for one in findings if one.rule_set == rule_set}


def test_the_type_that_is_covered_meets(project: Write) -> None:
    assert set(outcomes(found(project, "cob")).values()) == {Outcome.MEETS}


def test_what_holds_for_another_type_is_for_an_engineer(project: Write) -> None:
    findings = found(project, "rammed-earth")
    assert set(outcomes(findings).values()) == {Outcome.ENGINEER}
    assert {type(one.reason) for one in findings} == {NotCovered}
    assert all("covers cob, and this is rammed earth, so it shows nothing" in sentence(one) for one in findings)


def test_what_does_not_hold_stays_as_it_is(project: Write) -> None:
    walls = WALLS.replace("thickness: 16 in", THIN)
    assert outcomes(found(project, "rammed-earth", walls))["thick-enough"] is Outcome.REVISE


def test_a_mix_of_no_stated_type_lacks_it(project: Write) -> None:
    findings = found(project, "")
    assert outcomes(findings) == {"thick-enough": Outcome.MEETS, "dry-enough": Outcome.MISSING}
    (mix,) = (one for one in findings if one.rule == "dry-enough")
    assert missing_texts(mix) == ("mixes.M1.form in project.yaml",)


@pytest.mark.parametrize(
    ("status", "outcome"), [("code", Outcome.NOT_APPLICABLE), ("practice", Outcome.NOT_APPLICABLE)]
)
def test_a_set_that_binds_as_much_and_covers_the_type_takes_its_place(
    project: Write, status: str, outcome: Outcome
) -> None:
    findings = found(project, "adobe", other=ADOBE, status=status)
    assert set(outcomes(findings).values()) == {outcome}
    assert set(outcomes(findings, "other").values()) == {Outcome.MEETS}


def test_a_guide_does_not_take_the_place_of_the_code(project: Write) -> None:
    head = HEAD.replace("{name: mix,", "{name: mix, dry_density: 100 pcf, form: adobe,")
    head = head.replace("[rules.yaml]", "[rules.yaml, other.yaml]")
    code = COB.replace("status: practice", "status: code")
    findings = list(check_folder(project(text=WALLS, head=head, rules=code, files={"other.yaml": ADOBE})).findings)
    assert set(outcomes(findings).values()) == {Outcome.ENGINEER}


TEST_SET = "test_sets: {C1: {kind: compression, mix: M1}}\n"
TESTED = """\
  - id: strong
    title: Strength
    clause: T3
    about: mix
    test: {of: compression, statistic: governs}
    limits: {least: {value: 60 psi, standing: read, source: trial}, governs: {value: lowest, standing: read, source: x}}
    check: result >= least
    say: Strong.
    question: compressive-strength
"""
COVERS = """\
  - id: tested
    title: Tested
    clause: T4
    about: wall
    covers: {question: compressive-strength}
    limits: {sets: {value: 1, kind: count, standing: read, source: trial}}
    check: passing >= sets
    say: Tested.
"""
ROWS = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\nC1,a,M1,,,air,cube,4,4,4,,1600,\n"
)


@pytest.mark.parametrize(("form", "outcome"), [("cob", Outcome.MEETS), ("adobe", Outcome.ENGINEER)])
def test_a_test_by_rules_for_another_type_passes_for_no_set(project: Write, form: str, outcome: Outcome) -> None:
    """A rule set for any earth does not count a set that passes by the rules for cob."""
    head = HEAD.replace("{name: mix,", f"{{name: mix, form: {form},").replace("[rules.yaml]", "[rules.yaml, any.yaml]")
    files = {
        "any.yaml": (RULES + COVERS).replace("rule_set: trial", "rule_set: evidence").replace("Trial rules", "Any"),
        "lab/compression.csv": ROWS,
    }
    findings = check_folder(project(WALLS + TEST_SET, head, COB + TESTED, files)).findings
    (one,) = (one for one in findings if one.rule == "tested")
    assert (one.outcome is Outcome.MEETS) is (outcome is Outcome.MEETS)


@pytest.mark.parametrize(("forms", "refused"), [("", False), ("forms: [cob]\n", False), ("forms: [any]\n", True)])
def test_what_extends_a_set_covers_no_more(project: Write, forms: str, refused: bool) -> None:
    head = COB.partition("rules:\n")[0].replace("forms: [cob]\n", forms).replace("rule_set: trial", "rule_set: own")
    files = {"own.yaml": head.replace("Trial rules", "Own rules") + "extends: rules.yaml\n"}
    folder = project(head=HEAD.replace("[rules.yaml]", "[own.yaml]"), rules=COB, files=files)
    if refused:
        with pytest.raises(ProblemsFound) as raised:
            check_folder(folder)
        assert [one.code for one in raised.value.problems] == ["rule-set-forms"]
    else:
        assert check_folder(folder).rule_sets[0].forms == {"cob"}


@pytest.mark.parametrize("name", shipped_rule_sets())
def test_a_shipped_set_that_has_a_rule_on_the_type_covers_the_same(name: str) -> None:
    rule_set = read_shipped(name)
    for rule in rule_set.rules:
        if rule.question == "form-of-earth":
            (limit,) = rule.limits.values()
            assert limit.value == rule_set.forms
