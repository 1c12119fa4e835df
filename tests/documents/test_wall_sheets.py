"""Each wall has a calculation sheet: its whole load path, and every check of loads and stability as by hand. And all
that is printed names where it comes from: formulas their source, coefficients their standing, pages their caution."""

from __future__ import annotations

import math
import re

import pytest

from compliance.checked import Checked
from compliance.documents.calculations.wall_sheets import calculated, wall_sheets
from compliance.facts.common.coefficients import is_taken
from compliance.findings import Standing
from compliance.report.by_rule import by_rule
from compliance.report.cautions import SHORT
from compliance.report.grouping import figures
from compliance.steps import Step
from compliance.units import Writer
from tests.documents.buildings import checked
from tests.documents.conftest import PrintedExample
from tests.documents.reading_back import Read, one_line

WRITER = Writer("us")
HELD = 1e-9


@pytest.fixture
def example(checked_example: Checked) -> Checked:
    return checked_example


@pytest.fixture
def read(printed_example: PrintedExample) -> Read:
    return printed_example.read


@pytest.fixture
def sheets(example: Checked, read: Read) -> dict[str, str]:
    """The text of each wall's sheet in the printed submittal."""
    first, after = (next(page for _, title, page in read.outline if title == wanted)
                    for wanted in ("Calculation sheets, wall by wall", "Calculations"))  # fmt: skip
    text = " ".join(read.pages[first - 1 : after])
    found = {}
    marks = list(example.project.walls)
    for mark, following in zip(marks, [*marks[1:], ""], strict=True):
        wall = example.project.walls[mark]
        after_it = f"{following} · {example.project.walls[following].name}" if following else "Rule by rule"
        found[mark] = text.partition(one_line(f"{mark} · {wall.name}"))[2].partition(one_line(after_it))[0]
    return found


def written(step: Step) -> str:
    return one_line(step.line(WRITER))


def test_every_wall_prints_its_whole_load_path(example: Checked, sheets: dict[str, str]) -> None:
    assert list(sheets) == list(example.project.walls)
    for mark, subject in example.facts.of("wall").items():
        text = sheets[mark]
        for name in ("earth_weight", "own_weight", "stem_weight", "footing_weight", "soil_load", "load_in", "load_out"):
            step = subject.fact(f"wall.{name}").steps[-1]
            assert written(step) in text and step.source and one_line(f"[{step.source}]") in text, (mark, name)
        brought, arrived = (subject.fact(f"wall.{name}").value for name in ("load_in", "load_out"))
        assert isinstance(brought, float) and isinstance(arrived, float)
        assert math.isclose(brought, arrived, rel_tol=HELD)
        balance = subject.fact("wall.load_balance").steps[-1]
        assert written(balance) in text and isinstance(balance.result.value, float) and balance.result.value <= HELD


def test_every_check_of_loads_stands_with_result_limit_and_margin(example: Checked, sheets: dict[str, str]) -> None:
    told = 0
    for one in example.findings:
        if not one.wall or not one.value or not one.limit or not any(is_taken(step) for step in one.steps):
            continue
        if one.remark is not None:  # another rule decides
            continue
        said = figures(one, WRITER)
        part = "" if one.subject == one.wall else f"{one.subject.partition('.')[2]}: "
        row = one_line(f"{part}{one.title} {said.value} {said.limit} {said.margin} {one.verdict}")
        assert one_line(row) in sheets[one.wall], (one.subject, one.rule)
        told += 1
    assert told > 150


def test_each_line_has_its_numbers_put_in_and_its_source(example: Checked, sheets: dict[str, str]) -> None:
    sets = by_rule(example)
    for mark, text in sheets.items():
        for one in calculated(sets, mark):
            assert one.lines, f"no line gives result or limit of {one.finding.rule} of {one.finding.subject}"
            for step in one.lines:
                assert written(step) in text and step.source and one_line(f"[{step.source}]") in text
                assert step.numbers_put_in(WRITER) or not step.given


def test_what_lacks_for_a_wall_is_said(example: Checked, sheets: dict[str, str]) -> None:
    said = sheets["W5"].partition("Not worked out:")[2]
    assert "Axial stress, masonry method" in said and "results of test set T5" in said
    assert "Not worked out:" not in sheets["W3"]


def test_a_building_without_such_checks_has_no_sheets() -> None:
    made = checked()
    assert wall_sheets(made, by_rule(made)) == []


OF_THE_RULE = ("check", "together", "either", "value", "limit")
NEAR = 700
"""Characters between a formula and its source: one line, or one row of a table with its numbers."""


def steps_of(made: Checked) -> list[Step]:
    return list(dict.fromkeys(step for one in made.findings for step in one.steps))


def test_every_formula_has_a_source(example: Checked) -> None:
    """A line of a fact names its own; one of the rule itself stands under the rule, whose source or limits
    name it, or where to read it."""
    for one in example.findings:
        for step in one.steps:
            if step.says in OF_THE_RULE:
                assert one.source or all(limit.source or limit.read_in for limit in one.limits), one.rule
            elif step.formula:
                assert step.source, (one.rule, step.says)


def test_every_formula_is_printed_with_its_source(example: Checked, read: Read) -> None:
    text = read.text
    formulas = {(one_line(step.formula), one_line(f"[{step.source}]")) for step in steps_of(example)
                if step.formula and step.says not in OF_THE_RULE}  # fmt: skip
    assert len(formulas) > 100
    for formula, source in formulas:
        places = [found.start() for found in re.finditer(re.escape(formula), text)]
        assert any(source in text[place : place + len(formula) + NEAR] for place in places), (formula, source)


def test_every_coefficient_is_printed_with_its_source_and_standing(example: Checked, read: Read) -> None:
    taken = [step for step in steps_of(example) if is_taken(step)]
    assert len({step.says for step in taken}) > 40
    for step in taken:
        assert step.result.meaning in (*Standing,) and step.result.meaning in step.source
        assert one_line(f"{written(step)} [{step.source}]") in read.text, step.says


_ON_SHEETS = "Field-verify dimensions. Code, official and licensed engineer come first."


def test_every_screening_has_its_caution(example: Checked, read: Read) -> None:
    """At the foot of each page; in the title block of each sheet; in the words of each rule set; and in the verdict,
    where a limit was not read in the adopted copy."""
    for page, (width, height) in zip(read.pages[1:], read.sizes[1:], strict=True):
        assert one_line(SHORT if width < height else _ON_SHEETS) in page
    assert "A screening never replaces a design" in read.text
    for one in example.rule_sets:
        assert one_line(one.verify) in read.text, one.id
    screened = [one for one in example.findings if any(is_taken(step) for step in one.steps)]
    assert all(one.standing and one.standing.wants_confirming for one in screened)
    assert not any(one.verdict == "meets" for one in screened)
