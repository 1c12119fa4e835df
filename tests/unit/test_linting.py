"""Linting names the line of whatever is broken in a rule set."""

from __future__ import annotations

from pathlib import Path

import pytest

from compliance.linting.lint_rule_set import lint_file
from tests.conftest import ROOT, RULES

EXAMPLES = """\
    examples:
      - {given: {wall.least_thickness: 10 in}, gives: meets}
      - {given: {wall.least_thickness: 9 in}, gives: revise}
"""


def codes(tmp_path: Path, text: str) -> list[tuple[int, str]]:
    path = tmp_path / "rules.yaml"
    path.write_text(text, encoding="utf-8")
    return [(problem.place.line, problem.code) for problem in lint_file(path)]


def test_a_sound_file(tmp_path: Path) -> None:
    assert codes(tmp_path, RULES + EXAMPLES) == []


def test_a_rule_without_examples(tmp_path: Path) -> None:
    assert codes(tmp_path, RULES) == [(12, "example-fails"), (12, "example-meets")]


@pytest.mark.parametrize(
    ("change", "line", "code"),
    [
        (("9 in}, gives: revise", "9 in}, gives: meets"), 21, "example-outcome"),
        (("wall.least_thickness: 10 in", "wall.leest: 10 in"), 20, "example"),
        (("wall.least_thickness: 10 in", "wall.least_thickness: 10 psi"), 20, "example"),
        (("value: 10 in", "value: 11 in"), 20, "example-outcome"),
        (("say:", "when: wall.height_to_thickness < 9\n    say:"), 18, "formula-constant"),
    ],
)
def test_what_is_broken_is_named_with_its_line(tmp_path: Path, change: tuple[str, str], line: int, code: str) -> None:
    assert (line, code) in codes(tmp_path, (RULES + EXAMPLES).replace(*change))


@pytest.mark.parametrize("path", sorted((ROOT / "rulesets").glob("*.yaml")), ids=lambda path: path.stem)
def test_the_library_is_sound(path: Path) -> None:
    assert lint_file(path) == []


CASES = """\
cases_of: trial
cases:
  - {rule: thick-enough, name: exactly 10 in, given: {wall.least_thickness: 10 in}, gives: meets}
  - {rule: thick-enough, name: just under 10 in, given: {wall.least_thickness: 9.9 in}, gives: revise}
"""


@pytest.mark.parametrize(
    ("change", "found"),
    [
        (("", ""), []),
        (("exactly 10 in, given: {wall.least_thickness: 10 in}", "x, given: {wall.least_thickness: 9 in}"),
         [(3, "example-outcome")]),
        (("wall.least_thickness: 9.9 in", "wall.leest: 9.9 in"), [(4, "example")]),
        (("{rule: thick-enough, name: exactly", "{rule: thick-enogh, name: exactly"), [(3, "case-rule")]),
        (("cases_of: trial", "cases_of: trail"), [(1, "case-rule")]),
        (("gives: revise", "gives: revize"), [(4, "word-unknown")]),
    ],
)  # fmt: skip
def test_the_case_file_beside_a_rule_set_is_run(
    tmp_path: Path, change: tuple[str, str], found: list[tuple[int, str]]
) -> None:
    (tmp_path / "cases").mkdir()
    (tmp_path / "cases" / "rules.yaml").write_text(CASES.replace(*change, 1), encoding="utf-8")
    assert codes(tmp_path, RULES + EXAMPLES) == found


def test_a_text_cut_in_two_by_a_comma_is_told_from_a_field(tmp_path: Path) -> None:
    path = tmp_path / "rules.yaml"
    path.write_text((RULES + EXAMPLES).replace("source: trial}", "source: handout 12, page 3}"), encoding="utf-8")
    (problem,) = lint_file(path)
    assert (problem.code, problem.wrong) == ("field-unknown", "'page 3' is no field here")
    assert "double quotes" in problem.instead


def test_the_former_word_for_not_applicable_is_refused_with_the_present_one(tmp_path: Path) -> None:
    path = tmp_path / "rules.yaml"
    path.write_text((RULES + EXAMPLES).replace("9 in}, gives: revise", "9 in}, gives: apart"), encoding="utf-8")
    (problem,) = lint_file(path)
    assert (problem.code, problem.instead) == ("word-unknown", "write not-applicable")
    assert problem.wrong == "'apart' is now called 'not-applicable'"
