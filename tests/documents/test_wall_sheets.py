"""Each wall has a calculation sheet: its whole load path, and every check of loads and stability as by hand."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.alike import figures
from compliance.documents.by_rule import by_rule
from compliance.documents.submittal import write_submittal
from compliance.documents.wall_sheets import calculated, wall_sheets
from compliance.facts.coefficients import is_taken
from compliance.steps import Step
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked
from tests.documents.reading_back import one_line, read_back

WRITER = Writer("us")
HELD = 1e-9


@pytest.fixture(scope="module")
def example() -> Checked:
    return check_folder(EXAMPLE)


@pytest.fixture(scope="module")
def sheets(example: Checked, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The text of each wall's sheet in the printed submittal."""
    path: Path = tmp_path_factory.mktemp("sheets") / "s.pdf"
    write_submittal(example, path)
    read = read_back(path)
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


def test_a_building_without_such_checks_has_no_sheets() -> None:
    made = checked()
    assert wall_sheets(made, by_rule(made)) == []
