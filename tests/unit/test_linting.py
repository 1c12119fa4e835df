"""Linting names the line of whatever is broken in a rule set."""

from __future__ import annotations

from pathlib import Path

import pytest

from compliance.linting import lint_file
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
    assert codes(tmp_path, RULES) == [(11, "example-fails"), (11, "example-meets")]


@pytest.mark.parametrize(
    ("change", "line", "code"),
    [
        (("9 in}, gives: revise", "9 in}, gives: meets"), 20, "example-outcome"),
        (("wall.least_thickness: 10 in", "wall.leest: 10 in"), 19, "example"),
        (("wall.least_thickness: 10 in", "wall.least_thickness: 10 psi"), 19, "example"),
        (("value: 10 in", "value: 11 in"), 19, "example-outcome"),
        (("say:", "when: wall.height_to_thickness < 9\n    say:"), 17, "formula-constant"),
    ],
)
def test_what_is_broken_is_named_with_its_line(tmp_path: Path, change: tuple[str, str], line: int, code: str) -> None:
    assert (line, code) in codes(tmp_path, (RULES + EXAMPLES).replace(*change))


@pytest.mark.parametrize("path", sorted((ROOT / "rulesets").glob("*.yaml")), ids=lambda path: path.stem)
def test_the_library_is_sound(path: Path) -> None:
    assert lint_file(path) == []
