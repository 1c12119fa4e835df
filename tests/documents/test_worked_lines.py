"""Worked lines are printed once; where they are used again, their result and their number stand."""

from __future__ import annotations

from pathlib import Path

from compliance.documents.submittal.bundle import write_submittal
from compliance.findings import Outcome
from compliance.report.calculations.calculation_lines import Ledger, LedgerLine, WorkedLine, worked_line
from compliance.steps import Given, Step
from compliance.units import Writer
from tests.documents.buildings import checked, finding
from tests.documents.reading_back import read_back

RATIO, LOAD = ("ratio", 6.0), ("line_load", 2335.0)
FIRST = WorkedLine("Slenderness: h/t = h / t = (8 ft) / (16 in) = 6  [statics]", "slenderness: h/t = 6", RATIO)
SECOND = WorkedLine("Load: w = q × b = (20 psf) × (8 ft) = 160 plf  [statics]", "load: w = 160 plf", LOAD)
OWN = WorkedLine("Own line: x = a + b = 1 + 2 = 3  [statics]", "own line: x = 3", ("ratio", 3.0), (RATIO,))
BOTH = WorkedLine("Both: y = w × r = (160 plf) × 6 = 960 plf", "both: y = 960 plf", None, (LOAD, RATIO))
SHORT = WorkedLine("thickness: 16 in", "thickness: 16 in")


def texts(parts: list[object]) -> list[str]:
    assert all(isinstance(part, LedgerLine) for part in parts)
    return [part.text for part in parts]  # type: ignore[attr-defined]


def test_a_line_used_again_is_numbered_and_recalled() -> None:
    ledger = Ledger([[FIRST, SECOND], [FIRST, OWN, SECOND]])
    assert texts(list(ledger.lines([FIRST, SECOND]))) == [f"{FIRST.text}  (1)", f"{SECOND.text}  (2)"]
    assert texts(list(ledger.lines([FIRST, OWN, SECOND]))) == [
        "From before: slenderness: h/t = 6 (1)", OWN.text, "From before: load: w = 160 plf (2)",
    ]  # fmt: skip


def test_lines_recalled_one_after_another_share_a_paragraph() -> None:
    ledger = Ledger([[FIRST, SECOND], [FIRST, SECOND, BOTH]])
    ledger.lines([FIRST, SECOND])
    assert texts(list(ledger.lines([FIRST, SECOND, BOTH]))) == [
        "From before: slenderness: h/t = 6 (1); load: w = 160 plf (2)", BOTH.text,
    ]  # fmt: skip


def test_what_no_new_line_takes_up_is_left_out_but_not_the_last() -> None:
    ledger = Ledger([[FIRST, SECOND], [SECOND, FIRST, OWN], [FIRST, SECOND]])
    ledger.lines([FIRST, SECOND])
    assert texts(list(ledger.lines([SECOND, FIRST, OWN]))) == ["From before: slenderness: h/t = 6 (1)", OWN.text]
    assert texts(list(ledger.lines([FIRST, SECOND]))) == ["From before: load: w = 160 plf (2)"]


def test_of_two_lines_with_one_result_the_nearer_is_meant() -> None:
    other = WorkedLine("Another way: r = 3 × 2 = 6  [a long source of this line]", "another way: r = 6", RATIO)
    ledger = Ledger([[FIRST, other], [FIRST, other, OWN]])
    ledger.lines([FIRST, other])
    assert texts(list(ledger.lines([FIRST, other, OWN])))[0] == "From before: another way: r = 6 (2)"


def test_a_line_used_once_has_no_number_and_a_short_one_is_printed_again() -> None:
    ledger = Ledger([[OWN, SHORT], [SHORT]])
    assert texts(list(ledger.lines([OWN, SHORT]))) == [OWN.text, SHORT.text]
    assert texts(list(ledger.lines([SHORT]))) == [SHORT.text]


def test_within_one_finding_a_line_stands_once() -> None:
    ledger = Ledger([[FIRST, OWN, FIRST]])
    assert texts(list(ledger.lines([FIRST, OWN, FIRST]))) == [FIRST.text, OWN.text]


def test_another_number_makes_another_line() -> None:
    other = WorkedLine(FIRST.text.replace("8 ft", "9 ft"), FIRST.short)
    ledger = Ledger([[FIRST], [other], [FIRST]])
    ledger.lines([FIRST])
    assert texts(list(ledger.lines([other]))) == [other.text]


def test_the_short_form_of_a_step() -> None:
    t = Given("t", 0.4064, "thickness")
    line = worked_line(
        Step("Least thickness", formula="min(t, t)", given=(t,), result=t, source="from the plan"), Writer("us")
    )
    assert line.short == "least thickness: t = 16 in"
    mark = worked_line(Step("T1-4 of set T1", "f / 1", (Given("f", 1e5, "stress"),), t), Writer("us"))
    assert mark.short.startswith("T1-4 of set T1")
    said = worked_line(
        Step("together", formula="not topsoil", given=(), result=Given("", True), source="common practice, no source"),
        Writer("us"),
    )
    assert said.short == said.text


def test_the_submittal_prints_a_shared_line_once(tmp_path: Path) -> None:
    found = [finding("rule-1", Outcome.MEETS), finding("rule-2", Outcome.MEETS)]
    path = tmp_path / "s.pdf"
    write_submittal(checked(findings=found), path)
    text = read_back(path).text
    line = "Least thickness: t = min(t_base, t_top) = min(16 in, 16 in) = 16 in [from the plan]"
    assert text.count(line) == 1 and f"{line} (1)" in text
    assert text.count("From before: least thickness: t = 16 in (1)") == 1
