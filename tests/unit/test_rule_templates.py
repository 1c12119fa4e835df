"""Templates for authors of rules: sound as they are, sound with their examples taken in, never written over a file."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.cli import app
from compliance.files.shipped import shipped
from compliance.findings import Outcome
from compliance.linting.lint_rule_set import lint_file
from compliance.output.files.new_rules import SCHEMAS, shipped_amendments
from compliance.reading.rule_files.rule_library import read_rule_set, shipped_rule_sets
from compliance.schemas import schema_text
from tests.conftest import RULES, WALLS, Write

TEMPLATES = shipped("rulesets") / "templates"
KINDS = {"limit", "table", "test", "attest", "inspect"}


def taken_in(text: str) -> str:
    """The text with its example lines taken in: those whose # stands right before the text, or before two spaces."""
    return re.sub(r"^#(?=[a-z]|  )", "", text, flags=re.MULTILINE)


def test_the_templates_are_no_rule_sets_that_a_project_could_adopt() -> None:
    assert {path.name for path in TEMPLATES.iterdir()} == set(SCHEMAS)
    assert not {path.stem for path in TEMPLATES.iterdir()} & set(shipped_rule_sets())


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_template_is_sound_as_it_is_and_with_its_examples_taken_in(tmp_path: Path, name: str) -> None:
    text = (TEMPLATES / name).read_text(encoding="utf-8")
    assert lint_file(TEMPLATES / name) == []
    assert taken_in(text) != text
    (tmp_path / name).write_text(taken_in(text), encoding="utf-8")
    assert lint_file(tmp_path / name) == []


def test_the_template_has_a_rule_of_every_kind_and_knows_no_limit_of_a_place() -> None:
    rule_set = read_rule_set(TEMPLATES / "county.yaml", "county.yaml")
    assert {rule.kind for rule in rule_set.rules} == KINDS
    known = [limit for rule in rule_set.rules for limit in rule.limits.values() if limit.value is not None]
    assert [limit.name for limit in known] == ["governs"]


def test_a_project_that_adopts_the_template_untouched_meets_none_of_its_limits(project: Write) -> None:
    folder = project(rules=(TEMPLATES / "county.yaml").read_text(encoding="utf-8"))
    found = check_folder(folder).findings
    assert {one.outcome for one in found if one.kind in ("limit", "table", "test")} == {Outcome.CONFIRM}


@pytest.mark.parametrize(("option", "template"), [([], "county.yaml"), (["--amendment"], "amendments.yaml")])
def test_the_command_writes_a_template_once(tmp_path: Path, option: list[str], template: str) -> None:
    target = tmp_path / "mine.yaml"
    done = CliRunner().invoke(app, ["rules", "new", str(target), *option])
    assert done.exit_code == 0 and f"rules lint {target}" in done.stdout
    assert lint_file(target) == []
    written = target.read_text(encoding="utf-8")
    schema = SCHEMAS[template]
    assert written.startswith(f"# yaml-language-server: $schema=schemas/{schema}\n")
    assert (tmp_path / "schemas" / schema).read_text(encoding="utf-8") == schema_text(schema)
    assert template not in written and "mine.yaml" in written
    target.write_text("mine: now\n", encoding="utf-8")
    again = CliRunner().invoke(app, ["rules", "new", str(target), *option])
    assert again.exit_code == 2 and "already" in again.stderr
    assert target.read_text(encoding="utf-8") == "mine: now\n"


def test_the_command_refuses_what_it_cannot_write(tmp_path: Path) -> None:
    for name, said in (("rules.txt", ".yaml"), ("gone/rules.yaml", "not written")):
        done = CliRunner().invoke(app, ["rules", "new", str(tmp_path / name)])
        assert done.exit_code == 2 and said in done.stderr


def test_a_schema_of_the_folder_is_kept(tmp_path: Path) -> None:
    (tmp_path / "schemas").mkdir()
    (tmp_path / "schemas" / "rule-set.schema.json").write_text("{}", encoding="utf-8")
    CliRunner().invoke(app, ["rules", "new", str(tmp_path / "county.yaml")])
    assert (tmp_path / "schemas" / "rule-set.schema.json").read_text(encoding="utf-8") == "{}"
    assert (tmp_path / "county.yaml").is_file()


@pytest.mark.parametrize("name", shipped_amendments())
def test_an_amendment_that_ships_is_sound_and_asks_its_question(tmp_path: Path, name: str, project: Write) -> None:
    assert lint_file(shipped("rulesets") / "amendments" / f"{name}.yaml") == []
    folder = project(WALLS)
    done = CliRunner().invoke(app, ["rules", "new", str(folder / "state.yaml"), "--of", name])
    assert done.exit_code == 0 and "amendments:" in done.stdout
    text = (folder / "state.yaml").read_text(encoding="utf-8")
    assert text.startswith("# yaml-language-server: $schema=schemas/amendment.schema.json\n")
    page = folder / "project.yaml"
    page.write_text(page.read_text(encoding="utf-8") + "amendments: [state.yaml]\n", encoding="utf-8")
    [asked] = {one.rule for one in check_folder(folder).findings} & set(
        re.findall(r"^  - id: (\S+)", text, re.MULTILINE)
    )
    outcomes = {one.outcome for one in check_folder(folder).findings if one.rule == asked}
    assert outcomes == {Outcome.MISSING}, "nobody answered, so nothing meets"


def test_an_amendment_that_does_not_ship_is_named(tmp_path: Path) -> None:
    done = CliRunner().invoke(app, ["rules", "new", str(tmp_path / "a.yaml"), "--of", "texas"])
    assert done.exit_code == 2 and "california-2025-adobe" in done.stderr and not list(tmp_path.iterdir())


AMENDMENT = """\
changes:
  - {rule_set: county, rule: thick-enough, limit: least, value: 9 in, standing: read, by: R. Pell, on: 2026-03-01,
     where: handout, reason: written consent, authority: County}
"""


@pytest.mark.parametrize(
    ("change", "found"),
    [
        (("", ""), []),
        ((", reason: written consent, authority: County", ""), [(2, "amendment-reason")]),
        (("rule_set: county", "rule_set: cob-practise"), [(2, "amendment-rule-set")]),
        (("limit: least", "limit: lest"), [(2, "amendment-limit")]),
        (("on: 2026-03-01", "on: 2026-13-01"), [(2, "date")]),
    ],
)
def test_an_amendment_file_is_linted_by_itself(
    project: Write, change: tuple[str, str], found: list[tuple[int, str]]
) -> None:
    """Against shipped rule sets, and those in files beside it."""
    folder = project(WALLS, rules=RULES.replace("rule_set: trial", "rule_set: county"))
    (folder / "local.yaml").write_text(AMENDMENT.replace(*change), encoding="utf-8")
    problems = lint_file(folder / "local.yaml")
    assert [(problem.place.line, problem.code) for problem in problems] == found
    assert not found or change[1] != "rule_set: cob-practise" or "cob-practice" in problems[0].instead
