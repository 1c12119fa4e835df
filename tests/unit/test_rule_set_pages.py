"""What is said of rule sets in the README and on the screen is in step with the rule sets."""

from __future__ import annotations

import re
import shlex
import textwrap
from pathlib import Path

import pytest
from typer.testing import CliRunner

from compliance.cli import app
from compliance.files.shipped import shipped
from compliance.linting.lint_rule_set import lint_file
from compliance.output.terminal.rule_pages import STATUSES
from compliance.reading.rule_files.rule_cases import read_cases
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.rules.case_schema import CasesText
from tests.conftest import ROOT, RULES

STATUS = {name: read_shipped(name).status for name in shipped_rule_sets()}


def test_the_readme_lists_every_rule_set_with_its_status() -> None:
    page = (ROOT / "README.md").read_text(encoding="utf-8")
    table = page[page.index("| rule set | what it is | status |") :].partition("\n\n")[0]
    rows = re.findall(r"^\| `([a-z0-9-]+)` \| (.+) \| ([a-z]+) \|$", table, re.MULTILINE)
    assert {name: status for name, _, status in rows} == STATUS
    assert len(rows) == len(STATUS) == table.count("\n") - 1
    assert [status for *_, status in rows] == sorted((status for *_, status in rows), key=list(STATUSES).index)
    assert all(len(said.split()) >= 3 for _, said, _ in rows)


def test_the_list_groups_them_by_status() -> None:
    printed = CliRunner().invoke(app, ["rules", "list"]).stdout
    found: dict[str, str] = {}
    status = ""
    for line in printed.splitlines():
        if head := re.match(r"([a-z]+): ", line):
            status = head[1]
        elif name := re.fullmatch(r"  ([a-z0-9-]+)", line):
            found[name[1]] = status
    assert found == STATUS
    assert [one for one in STATUSES if one in set(STATUS.values())] == list(dict.fromkeys(found.values()))


def test_tables_are_shown_with_the_numbers_of_rows_and_columns() -> None:
    shown = CliRunner().invoke(app, ["rules", "show", "nm-14-7-4-adobe", "wall-height"]).stdout
    (columns,) = [line for line in shown.splitlines() if line.endswith("(site.sds)")]
    assert re.findall(r"(\d+): ([0-9.]+)", columns) == [
        ("1", "0.25"), ("2", "0.3"), ("3", "0.35"), ("4", "0.4"), ("5", "0.45"), ("6", "0.5")
    ]  # fmt: skip
    (row,) = [line for line in shown.splitlines() if line.startswith("  2: 12 in")]
    assert re.findall(r"\d+ ft(?: \d+ in)?", row) == ["10 ft 8 in"] * 5 + ["9 ft 4 in"]


def test_cells_with_long_units_stand_apart() -> None:
    shown = CliRunner().invoke(app, ["rules", "show", "irc-2021-energy-mass-walls", "wall-insulation"]).stdout
    rows = [line for line in shown.splitlines() if line.startswith("  5: 5 ")]
    resistance, transmittance = "ft²·h·°F/Btu", "Btu/(h·ft²·°F)"
    assert [re.split(" {2,}", row.strip())[1:] for row in rows] == [
        [f"13 {resistance}", f"17 {resistance}"], [f"0.082 {transmittance}", f"0.065 {transmittance}"],
    ]  # fmt: skip


def section(page: str, title: str) -> str:
    text = (ROOT / page).read_text(encoding="utf-8")
    return text[text.index(f"## {title}") :].partition("\n## ")[0]


def test_the_way_to_local_limits_goes_as_the_readme_says(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every command of the section, in its order, on a copy of the example."""
    monkeypatch.chdir(tmp_path)
    commands = re.findall(r"^ +earthwall (.+)$", section("README.md", "Your jurisdiction's own limits"), re.MULTILINE)
    assert len(commands) == 9
    run = CliRunner()
    assert run.invoke(app, ["example", "my_house"]).exit_code == 0
    for command in commands:
        arguments = shlex.split(command.partition(" > ")[0])
        done = run.invoke(app, arguments)
        assert done.exit_code == (1 if arguments[0] == "check" else 0), (command, done.stderr)
    entered = (tmp_path / "my_house" / "amendments.yaml").read_text(encoding="utf-8")
    assert entered.count("standing: confirmed") == 2 and "row: 3" in entered


def test_the_worked_rule_of_the_developers_page_is_sound(tmp_path: Path) -> None:
    worked = section("DEVELOPERS.md", "From a clause in a book to a working rule")
    (rule,) = re.findall(r"^ {3}```yaml\n(.*?)^ {3}```$", worked, re.MULTILINE | re.DOTALL)
    (tmp_path / "rules.yaml").write_text(RULES.partition("  - id")[0] + textwrap.dedent(rule), encoding="utf-8")
    assert lint_file(tmp_path / "rules.yaml") == []
    changed = textwrap.dedent(rule).replace("value: 3 ft", "value: 4 ft")
    (tmp_path / "rules.yaml").write_text(RULES.partition("  - id")[0] + changed, encoding="utf-8")
    assert "example-outcome" in {problem.code for problem in lint_file(tmp_path / "rules.yaml")}


def test_the_cases_of_the_developers_page_are_cases_that_ship() -> None:
    (text,) = re.findall(r"^```yaml\n(cases_of: .*?)^```$", section("DEVELOPERS.md", "Cases"), re.MULTILINE | re.DOTALL)
    shown = CasesText.model_validate(parse_yaml(text, "DEVELOPERS.md"))
    path = shipped("rulesets") / "cases" / f"{shown.cases_of}.yaml"
    assert all(case in read_cases(path, path.name)[0].cases for case in shown.cases)
