"""Parts of the submittal: lab tables, the register of limits, amendments, questions, tables of limits, schedules."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from compliance.checked import Checked
from compliance.documents.submittal.bundle import write_submittal
from compliance.findings import Amended, Lack, Missing, Outcome, SetAside, Standing
from compliance.judging.questions import side_by_side
from compliance.judging.reasons import Lacks
from compliance.model.specimens import Specimen
from compliance.problems import Place
from compliance.report.grouping import alike, reason_of
from compliance.report.words.missing_words import to_add
from compliance.rules.amending import AmendmentRecord
from compliance.rules.tables import Axis, Table
from compliance.steps import Given, Step
from compliance.units import Writer
from tests.documents.buildings import INCH, PLACE, checked, finding, limit_used, rule_set, specimens
from tests.documents.reading_back import read_back

US = Writer("us")


def text_of(made: Checked, folder: Path) -> str:
    path = folder / "submittal.pdf"
    write_submittal(made, path)
    return read_back(path).text


def test_specimens_with_their_results_by_plain_arithmetic(tmp_path: Path) -> None:
    """P / A by hand: 2000, 2100 ... 2400 lbf over 4 in × 4 in; mean 137.5 psi; s = √(1562.5 × ... / 4) = 9.882 psi."""
    text = text_of(checked(), tmp_path)
    assert "C1-1 2026-03-01 2026-04-01 31 air cube 4 4 4" in text
    for load, strength in ((2000, "125"), (2100, "131.2"), (2200, "137.5"), (2300, "143.8"), (2400, "150")):
        assert f"{load} 1 107.1 {strength} 2.1" in text
    assert "5 results: mean 137.5 psi, lowest 125 psi, highest 150 psi, standard deviation 9.9 psi" in text
    assert "coefficient of variation 7.2 %" in text
    assert "Compressive strength: f = P / (b × d)" in text
    assert "edge chipped" in text and "moisture [%]" in text


def test_a_lab_figure_in_another_unit_stands_under_the_converted_one(tmp_path: Path) -> None:
    text = text_of(checked(), tmp_path)
    assert "entered 1800" in text and "entered 4" not in text


def test_specimens_set_aside_stay_in_the_table_with_the_reason(tmp_path: Path) -> None:
    """Without the 2100 lbf of C1-2: 125, 137.5, 143.75 and 150 psi; mean 556.25 / 4 = 139.06 psi; the squares of what
    they differ by sum to 342.19, s = √(342.19 / 3) = 10.68 psi, and 10.68 / 139.06 = 7.68 %."""
    aside = (SetAside("C1-2", "dried oven; air required"),)
    found = finding("rule-1", Outcome.MEETS, "C1", "set", kind="test", aside=aside)
    text = text_of(checked(findings=[found]), tmp_path)
    assert "Set aside under T.1: dried oven; air required" in text
    statistics = "4 results: mean 139.1 psi, lowest 125 psi, highest 150 psi, standard deviation 10.7 psi"
    assert statistics in text and "coefficient of variation 7.7 %; not counted: C1-2" in text


def test_a_specimen_without_a_result_says_why(tmp_path: Path) -> None:
    bare = Specimen("compression", set="C1", mark="C1-9", mix="M1", place=Place("lab/compression.csv", 9))
    made = replace(checked(), specimens={"C1": [*specimens(), bare]})
    text = text_of(made, tmp_path)
    assert "No result: neither load with measured sides nor a strength is given" in text
    assert "5 results:" in text


def test_the_register_has_each_limit_once_with_both_values_of_an_amended_one(tmp_path: Path) -> None:
    before, after = Given("least", 10 * INCH, "thickness"), Given("least", 12 * INCH, "thickness")
    amended = Amended(
        before,
        by="R. Pell",
        on="2026-03-02",
        authority="County ordinance 7",
        reason="frost",
        after=after,
        where="page 3",
    )
    limit = replace(limit_used("rule-1"), value=after, history=(amended,))
    found = [finding("rule-1", Outcome.MEETS, f"W{n}", limits=(limit,)) for n in (1, 2, 3)]
    record = AmendmentRecord(
        "change",
        rule_set="test-rules",
        rule="rule-1",
        title="Title of rule-1",
        limit="least",
        amended=amended,
        place=PLACE,
    )
    text = text_of(checked(findings=found, amendments=(record,)), tmp_path)
    register = text[text.index("Limits relied on Every limit") :]
    assert register.count("shipped as 10 in (254 mm)") == 1
    assert "12 in (305 mm)" in register
    history = "changed from 10 in (254 mm) to 12 in (305 mm) by R. Pell on 2026-03-02; page 3"
    assert f"{history}; authority: County ordinance 7; reason: frost" in register
    assert "Local amendments" in register and "County ordinance 7" in register and "frost" in register


def test_an_open_limit_is_called_open_in_the_register(tmp_path: Path) -> None:
    text = text_of(checked(findings=[finding("rule-1", Outcome.CONFIRM)]), tmp_path)
    assert "least: open" in text
    assert "1 finding waits for 1 limit or rule to be read in the adopted copy" in text


def test_answers_of_several_rule_sets_stand_side_by_side(tmp_path: Path) -> None:
    sets = (rule_set(1), replace(rule_set(1), id="other-rules", title="Other rules"))
    found = [
        finding("rule-1", Outcome.MEETS, question="wall-thickness", margin=0.6),
        replace(finding("rule-1", Outcome.REVISE, question="wall-thickness", margin=-0.2), rule_set="other-rules"),
    ]
    text = text_of(checked(findings=found, sets=sets, questions=side_by_side(found)), tmp_path)
    part = text[text.index("One question, several rule sets Where") :]
    assert "wall thickness: wall W1" in part
    assert "B1 governs: its answer is the worse one (revise)" in part
    assert part.index("A1 16 in") < part.index("B1 16 in")


@pytest.mark.parametrize("columns", [None, Axis("site.wind_speed", (44.704, 49.1744), "larger")])
def test_a_table_is_printed_with_every_cell(columns: Axis | None, tmp_path: Path) -> None:
    """100 and 110 mph: 44.704 and 49.1744 m/s (1 mph = 0.44704 m/s exactly)."""
    rows = Axis("wall.method", ("A", "B"))
    cells = ((2.4384, None), (3.048, 3.6576)) if columns else ((2.4384,), (None,))
    table = Table(
        "most",
        rows=rows,
        columns=columns,
        cells=cells,
        kind="length",
        between="next-worse",
        standing=Standing.READ,
        source="Book",
        clause="T.1",
        place=PLACE,
    )
    made_rules = tuple(replace(rule, tables={"most": table}) for rule in rule_set(1).rules)
    text = text_of(
        checked(findings=[finding("rule-1", Outcome.MEETS)], sets=(replace(rule_set(1), rules=made_rules),)), tmp_path
    )
    part = text[text.index("Tables relied on A1") :]
    assert "8 ft (2.438 m)" in part and "open" in part
    if columns:
        assert "100 mph (44.7 m/s)" in part and "12 ft (3.658 m)" in part
        assert "wall type of the code's table, by design wind speed" in part


def test_a_table_without_a_known_cell_is_told_in_words(tmp_path: Path) -> None:
    axis = Axis("wall.method", ("A", "B"))
    table = Table(
        "most",
        rows=axis,
        columns=None,
        cells=((None,), (None,)),
        kind="length",
        between="next-worse",
        standing=Standing.OPEN,
        source="",
        clause="T.1",
        place=PLACE,
        read_in="the book",
    )
    made_rules = tuple(replace(rule, tables={"most": table}) for rule in rule_set(1).rules)
    text = text_of(
        checked(findings=[finding("rule-1", Outcome.CONFIRM)], sets=(replace(rule_set(1), rules=made_rules),)), tmp_path
    )
    assert "every entry is open; to be read in the book" in text


def test_the_schedule_says_not_given_and_never_assumes(tmp_path: Path) -> None:
    text = text_of(checked(1, 1), tmp_path)
    part = text[text.index("Building and walls Geometry") :]
    assert "W1 not given yes not given 12 ft 8 ft 16 in 16 in 6 12 ft 1 25 % not given" in part
    assert "type of footing: concrete; width of the footing: 20 in" in part


def test_silent_rules_are_named(tmp_path: Path) -> None:
    text = text_of(checked(findings=[finding("rule-1", Outcome.MEETS)], rules=4), tmp_path)
    assert "Without a subject here A2, A3, A4" in text


def test_warnings_are_printed(tmp_path: Path) -> None:
    text = text_of(checked(1, 1), tmp_path)
    assert "The height of W1 is odd between 1 ft and 20 ft is usual" in text and "project.yaml" not in text


def test_findings_that_say_the_same_share_a_line() -> None:
    made = [finding("rule-1", Outcome.MEETS, f"W{n}", reason="same") for n in (1, 2)]
    made.append(finding("rule-1", Outcome.MEETS, "W3", reason="same", value=Given("t", 15 * INCH, "thickness")))
    assert [[one.subject for one in same.findings] for same in alike(made, US)] == [["W1", "W2"], ["W3"]]


def test_fields_that_each_subject_lacks_are_named_together() -> None:
    made = [
        finding("rule-1", Outcome.MISSING, mark, reason=Lacks(),
                missing=(Missing(Lack.FIELD, ("walls", mark, "mix"), "walls.yaml"),))
        for mark in ("W1", "W2")
    ]  # fmt: skip
    (same,) = alike(made, US)
    assert to_add(same.findings) == "walls.W1.mix, walls.W2.mix in walls.yaml"
    assert reason_of(same.findings, US) == "The project lacks walls.W1.mix, walls.W2.mix in walls.yaml"


def test_an_answer_that_is_owed_of_many_is_asked_for_once() -> None:
    marks = [f"W{n}" for n in range(1, 6)]
    sets_without_results = [
        (
            Missing(Lack.ANSWER, ("raft", mark), "project.yaml"),
            Missing(Lack.TEST_SET, ("", "M1"), "a.yaml"),
        )
        for mark in marks
    ]
    made = [
        finding("rule-1", Outcome.MISSING, mark, missing=missing)
        for mark, missing in zip(marks, sets_without_results, strict=True)
    ]
    together = (
        "rule raft about W1 to W5 under attestations: in project.yaml; a set of mix M1 under test_sets: in a.yaml"
    )
    assert to_add(made) == together
    both = finding(
        "rule-1",
        Outcome.MISSING,
        "W1",
        missing=(
            Missing(Lack.TEST_SET, ("", "M1"), "a.yaml"),
            Missing(Lack.TEST_SET, ("", "M2"), "a.yaml"),
        ),
    )
    assert to_add([both]) == "a set of mix M1 under test_sets, a set of mix M2 under test_sets: in a.yaml"


def test_a_difference_in_steps_keeps_findings_apart() -> None:
    def worked(value: float) -> tuple[Step, ...]:
        return (Step("Height", "", (), Given("h", value, "length")),)

    made = [
        finding("rule-1", Outcome.MEETS, f"W{n}", reason="same", worked=lambda n=n: worked(n * 0.3048)) for n in (1, 2)
    ]
    assert len(alike(made, US)) == 2
