"""Amendments: what they may change, what they must give a reason for, and the record they leave."""

from __future__ import annotations

from pathlib import Path

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.findings import Outcome, Standing
from compliance.judging.questions import GovernsBy
from compliance.problems import ProblemsFound
from compliance.reading.rule_files.rule_library import read_rule_set
from tests.conftest import RULES, WALLS, Write

OPEN_RULE = """\
  - id: height
    title: Height
    clause: T2
    about: wall
    limits: {most: {value: open, kind: length, standing: open, read_in: "Table 2"}}
    check: wall.height <= most
    say: Low enough.
"""
TABLE_RULE = """\
  - id: tabled
    title: Tabled height
    clause: T3
    about: wall
    tables:
      tallest: {rows: {fact: wall.least_thickness, at: [10 in, 16 in], worse: smaller}, cells: [[open], [10 ft]],
                kind: length, standing: recalled}
    check: wall.height <= tallest
    say: Not taller than the table.
"""
BARE_RULE = """\
  - id: bare
    title: Bare
    clause: T6
    about: wall
    check: wall.height > wall.least_thickness
    say: Higher than thick.
"""
USE = WALLS + "amendments: [local.yaml]\n"
CHANGE = (
    "changes:\n  - {rule_set: trial, rule: %s, limit: %s, value: %s, standing: confirmed, by: R. Pell, "
    "on: 2026-03-01, where: adopted copy%s}\n"
)


def change(rule: str, limit: str, value: str, more: str = "") -> str:
    return CHANGE % (rule, limit, value, more)


def checked(project: Write, amendment: str, rules: str = RULES) -> Checked:
    return check_folder(project(text=USE, rules=rules, files={"local.yaml": amendment}))


def refused(project: Write, amendment: str, rules: str = RULES) -> list[str]:
    with pytest.raises(ProblemsFound) as found:
        checked(project, amendment, rules)
    assert all(problem.place.file.endswith("local.yaml") and problem.place.line for problem in found.value.problems)
    return [problem.code for problem in found.value.problems]


def test_confirming_the_same_value_needs_no_reason(project: Write) -> None:
    found = checked(project, change("thick-enough", "least", "254 mm"))
    assert found.findings[0].verdict == "meets (practice)"
    assert found.findings[0].standing is Standing.CONFIRMED
    assert found.amendments[0].amended.by == "R. Pell"


def test_tightening_needs_no_reason_and_is_judged(project: Write) -> None:
    found = checked(project, change("thick-enough", "least", "18 in"))
    assert found.findings[0].outcome is Outcome.REVISE
    (limit,) = found.findings[0].limits
    assert limit.shipped is not None and limit.shipped.value == pytest.approx(0.254)


def test_loosening_needs_a_reason(project: Write) -> None:
    assert refused(project, change("thick-enough", "least", "8 in")) == ["amendment-reason"]
    found = checked(
        project, change("thick-enough", "least", "8 in", ", reason: council resolution 12, authority: Council")
    )
    assert found.findings[0].outcome is Outcome.MEETS
    amended = found.amendments[0].amended
    assert (amended.reason, amended.authority) == ("council resolution 12", "Council")
    plain = checked(project, change("thick-enough", "least", "18 in")).amendments[0].amended
    assert (plain.reason, plain.authority) == ("", "")


def test_filling_an_open_limit(project: Write) -> None:
    before = check_folder(project(rules=RULES + OPEN_RULE))
    assert [one.outcome for one in before.findings] == [Outcome.MEETS, Outcome.CONFIRM]
    after = checked(project, change("height", "most", "8 ft"), RULES + OPEN_RULE)
    assert [one.outcome for one in after.findings] == [Outcome.MEETS, Outcome.MEETS]


def test_a_cell_of_a_table(project: Write) -> None:
    rules = RULES + TABLE_RULE
    found = checked(
        project, change("tabled", "tallest", "7 ft", ", row: 2, reason: read in the copy, authority: County"), rules
    )
    assert found.findings[1].outcome is Outcome.REVISE
    assert refused(project, change("tabled", "tallest", "7 ft", ", row: 2"), rules) == ["amendment-reason"]
    assert refused(project, change("tabled", "tallest", "7 ft", ", row: 3"), rules) == ["amendment-cell"]
    assert refused(project, change("tabled", "tallest", "7 ft", ", row: 2, column: 2"), rules) == ["amendment-cell"]
    with pytest.raises(ProblemsFound) as sized:
        checked(project, change("tabled", "tallest", "7 ft"), rules)
    assert sized.value.problems[0].wrong == "tallest is a table of 2 rows and 1 columns"
    amended = found.amendments[0].amended
    assert amended.before is not None and amended.before.value == pytest.approx(10 * 0.3048)
    assert amended.after is not None and amended.after.value == pytest.approx(7 * 0.3048)
    assert found.amendments[0].limit == "tallest, row 2, column 1"


def test_an_open_cell_is_filled_where_it_stands(project: Write) -> None:
    """The second column of the only row, from nothing: the other cell stays."""
    wide = TABLE_RULE.replace("[[open], [10 ft]]", "[[10 ft, open]]").replace(
        "rows: {fact: wall.least_thickness, at: [10 in, 16 in], worse: smaller}",
        "rows: {fact: wall.least_thickness, at: [10 in], worse: smaller}, "
        "columns: {fact: wall.length, at: [10 ft, 20 ft], worse: larger}",
    )
    found = checked(project, change("tabled", "tallest", "7 ft", ", row: 1, column: 2"), RULES + wide)
    assert found.findings[1].outcome is Outcome.REVISE
    assert found.amendments[0].amended.before is None and found.amendments[0].limit == "tallest, row 1, column 2"
    first = checked(
        project,
        change("tabled", "tallest", "7 ft", ", row: 1, reason: read in the copy, authority: County"),
        RULES + wide,
    )
    assert first.findings[1].outcome is Outcome.CONFIRM and first.amendments[0].limit == "tallest, row 1, column 1"


@pytest.mark.parametrize("table, cell", [("recalled", "confirmed"), ("confirmed", "recalled"), ("read", "reported")])
def test_a_table_is_known_no_better_than_its_least_known_cell(project: Write, table: str, cell: str) -> None:
    """A finding rests on the cells it looks up: reading one in the adopted copy confirms that one and no other."""
    rules = RULES + TABLE_RULE.replace(
        "standing: recalled", f"standing: {table}, source: a code, by: R. Pell, on: 2026-01-01"
    )
    text = change("tabled", "tallest", "9 ft", ", row: 2, reason: read in the copy, authority: County").replace(
        "confirmed", cell
    )
    assert checked(project, text, rules).findings[1].standing is Standing(cell)
    other = text.replace("row: 2", "row: 1")
    assert checked(project, other, rules).findings[1].standing is Standing(table)


def test_dropping_a_rule_prints_in_the_record(project: Write) -> None:
    text = (
        "drops:\n  - {rule_set: trial, rule: thick-enough, reason: not adopted, by: R. Pell, on: 2026-03-01, "
        "authority: Ordinance 3}\n"
    )
    found = checked(project, text, RULES + OPEN_RULE)
    assert [one.rule for one in found.findings] == ["height"]
    assert (found.amendments[0].what, found.amendments[0].rule) == ("drop", "thick-enough")


def test_added_rules_are_judged_too(project: Write) -> None:
    added = RULES[RULES.index("rules:") :].replace("thick-enough", "thicker").replace("10 in", "20 in")
    found = checked(project, added)
    assert [(one.rule_set, one.rule, one.outcome.value) for one in found.findings] == [
        ("trial", "thick-enough", "meets"), ("local-rules", "thicker", "revise")
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (change("gone", "least", "10 in"), "amendment-rule"),
        (change("thick-enough", "most", "10 in"), "amendment-limit"),
        (change("thick-enough", "least", "10 psi"), "measure-dimension"),
        (change("thick-enough", "least", "open"), "amendment-open"),
        (change("thick-enough", "least", "10 in").replace("trial", "other"), "amendment-rule-set"),
        ("nonsense: 1\n", "field-unknown"),
    ],
)
def test_what_an_amendment_may_not_do(project: Write, text: str, code: str) -> None:
    assert refused(project, text) == [code]


def test_a_rule_set_that_extends_another(project: Write) -> None:
    own = (
        'rule_set: county\ntitle: County\nedition: "1"\njurisdiction: c\nmaterial: cob\nforms: [any]\nstatus: code\n'
        "scope: all\nsource: county\nverify: ask\nextends: rules.yaml\n" + change("thick-enough", "least", "18 in")
    )
    folder = project(rules=RULES + OPEN_RULE, files={"county.yaml": own})
    read = read_rule_set(folder / "county.yaml", "county.yaml")
    assert [(rule.rule_set, rule.id) for rule in read.rules] == [("county", "thick-enough"), ("county", "height")]
    assert read.rules[0].limits["least"].value == pytest.approx(18 * 0.0254)


def test_a_circle_of_extends_is_a_problem(tmp_path: Path) -> None:
    head = 'title: A\nedition: "1"\njurisdiction: x\nmaterial: cob\nforms: [any]\n'
    head += "status: code\nscope: all\nsource: x\nverify: ask\n"
    (tmp_path / "a.yaml").write_text(f"rule_set: a\nextends: b.yaml\n{head}", encoding="utf-8")
    (tmp_path / "b.yaml").write_text(f"rule_set: b\nextends: a.yaml\n{head}", encoding="utf-8")
    with pytest.raises(ProblemsFound) as found:
        read_rule_set(tmp_path / "a.yaml", "a.yaml")
    assert [problem.code for problem in found.value.problems] == ["extends-circle"]


def test_the_stricter_of_two_rule_sets_governs(project: Write) -> None:
    one = RULES.replace("    say:", "    question: wall-thickness\n    say:").replace(
        "status: practice", "status: code"
    )
    other = one.replace("rule_set: trial", "rule_set: other").replace("10 in", "12 in")
    folder = project(rules=one, head=HEAD_TWO, files={"other.yaml": other})
    (question,) = check_folder(folder).questions
    assert question.governs.rule_set == "other" and question.governs_by is GovernsBy.MARGIN
    stricter = project(rules=one, head=HEAD_TWO, files={"other.yaml": other.replace("12 in", "20 in")})
    (question,) = check_folder(stricter).questions
    assert question.governs.rule_set == "other" and question.governs_by is GovernsBy.OUTCOME


HEAD_TWO = """\
project: {name: Trial, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml, other.yaml]}
soils: {S1: {name: clay}}
mixes: {M1: {name: mix, parts: {S1: 1}}}
"""


WORDS_RULE = """\
  - id: straw
    title: Straw
    clause: T4
    about: mix
    limits: {kinds: {value: [wheat, rye], standing: recalled, source: trial}}
    check: mix.straw in kinds
    say: Straw of a named kind.
"""


def test_a_change_of_several_words_is_told_as_people_write_them(project: Write) -> None:
    text = change("straw", "kinds", "[wheat, oat]")
    with pytest.raises(ProblemsFound, match="would go from wheat, rye to wheat, oat, perhaps looser"):
        checked(project, text, RULES + WORDS_RULE)
    found = checked(project, text.replace("}", ", reason: grown here, authority: County}"), RULES + WORDS_RULE)
    assert found.amendments[0].amended.after is not None
    assert found.amendments[0].amended.after.value == "oat, wheat"
