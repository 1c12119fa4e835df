"""The README alone brings a new user to a checked project, names every command, and explains the words it uses."""

from __future__ import annotations

import os
import re
import shlex
import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from typer.main import get_command

from compliance.cli import app
from compliance.findings import Outcome
from tests.conftest import ROOT
from tests.running import run_tool

TEXT = (ROOT / "README.md").read_text(encoding="utf-8")
ENVIRONMENT = os.environ | {"PYTHONPATH": str(ROOT), "COLUMNS": "100", "PYTHONIOENCODING": "utf-8"}


def section(heading: str) -> str:
    return TEXT.partition(f"\n## {heading}\n")[2].partition("\n## ")[0]


def table(text: str, first: str) -> list[list[str]]:
    """The rows of the table whose heading begins with a cell."""
    rows = [line.strip(" |").split(" | ") for line in text.partition(f"| {first} |")[2].splitlines()[2:]]
    return rows[: next((index for index, row in enumerate(rows) if row == [""]), len(rows))]


@cache
def commands() -> dict[tuple[str, ...], Any]:
    found: dict[tuple[str, ...], Any] = {}
    for name, one in get_command(app).commands.items():  # type: ignore[attr-defined]
        inner = getattr(one, "commands", None)
        found |= {(name, sub): command for sub, command in inner.items()} if inner else {(name,): one}
    return found


def options(command: Any) -> set[str]:
    return {option for parameter in command.params for option in parameter.opts}


def named_in(cell: str) -> list[tuple[str, ...]]:
    """The commands that the first cell of a row names; a lone word goes with the group of the one before it."""
    known, found, group = commands(), [], ""
    for code in re.findall(r"`([^`]*)`", cell):
        words = code.removeprefix("earthwall ").split()
        group = words[0] if words[0] == "rules" else group
        for name in ((words[0],), tuple(words[:2]), (group, words[0])):
            if name in known:
                found.append(name)
                break
    return found


def test_the_table_names_every_command_and_no_other() -> None:
    rows = table(section("Commands"), "command")
    named = [name for row in rows for name in named_in(row[0])]
    assert sorted(named) == sorted(commands())


def test_the_table_names_only_options_that_are_there() -> None:
    known = commands()
    told = 0
    for first, *rest in table(section("Commands"), "command"):
        allowed = set().union(*(options(known[name]) for name in named_in(first)))
        for option in re.findall(r"--[a-z][a-z-]*", " ".join((first, *rest))):
            assert option in allowed, (first, option)
            told += 1
    assert told > 15


def shell_lines() -> list[str]:
    """Every command line of this tool in a block of code."""
    blocks = re.findall(r"^ *```sh\n(.*?)^ *```$", TEXT, re.MULTILINE | re.DOTALL)
    return [line.strip() for block in blocks for line in block.splitlines() if line.strip().startswith("earthwall ")]


@pytest.mark.parametrize("line", shell_lines())
def test_every_line_of_code_names_a_command_and_options_that_are_there(line: str) -> None:
    words = shlex.split(line, comments=True)[1:]
    known = commands()
    name = tuple(words[:1]) if tuple(words[:1]) in known else tuple(words[:2])
    assert name in known, line
    assert {word for word in words if word.startswith("--")} <= options(known[name]), line


def test_pictures_and_links_lead_somewhere() -> None:
    pictures = re.findall(r"!\[([^]]+)\]\(([^)]+)\)", TEXT)
    pictures += [(alt, path) for path, alt in re.findall(r'<img src="([^"]+)"[^>]* alt="([^"]+)"', TEXT)]
    assert len(pictures) == 4
    for alt, path in pictures:
        assert (ROOT / path).is_file() and len(alt) > 20, path


def glossary() -> list[str]:
    return [row[0] for row in table(section("Words of the trade"), "word")]


def test_the_words_of_the_trade_are_in_order_and_each_is_used() -> None:
    words = glossary()
    assert words == sorted(words) and len(set(words)) == len(words) > 30
    whole = TEXT.replace(section("Words of the trade"), "")
    for path in (*(ROOT / "rulesets").glob("*.yaml"), *(ROOT / "compliance").rglob("*.yaml"),
                 *(ROOT / "compliance").rglob("*.py")):  # fmt: skip
        whole += path.read_text(encoding="utf-8")
    text = whole.casefold().replace("-", " ")
    assert [word for word in words if word not in text] == []


def test_every_outcome_is_explained() -> None:
    assert {row[0].strip("`") for row in table(TEXT, "outcome")} == {one.value for one in Outcome}


def run(*arguments: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    return run_tool(*arguments, cwd=cwd)


def test_a_new_user_comes_from_nothing_to_a_submittal_by_the_readme_alone(tmp_path: Path) -> None:
    pexpect = pytest.importorskip("pexpect")
    walk = section("Your own building in ten minutes")
    rows = table(walk, "| it asks for | such as")
    answers = [found[1] if (found := re.fullmatch(r"`(.*)`", row[-1])) else "" for row in rows]
    assert len(answers) == 16 and answers.count("") == 7
    lines = [shlex.split(line)[1:] for block in re.findall(r"```sh\n(.*?)```", walk, re.DOTALL)
             for line in block.splitlines() if line.startswith("earthwall")]  # fmt: skip
    begin, *rest = lines
    talk = pexpect.spawn(sys.executable, ["-m", "compliance", *begin], cwd=str(tmp_path), env=ENVIRONMENT,
                         encoding="utf-8", timeout=60, echo=False)  # fmt: skip
    for answer in answers:
        talk.expect("> $")
        talk.sendline(answer)
    talk.expect("Wrote my_house")
    talk.expect(pexpect.EOF)
    talk.close()
    done = {words[0]: run(*words, cwd=tmp_path) for words in rest}
    assert list(done) == ["check", "mend", "try", "explain", "submittal"]
    assert all(one.returncode in (0, 1) and one.stderr == "" for one in done.values()), done
    shown = re.search(r"```text\n(.*?)```", walk, re.DOTALL)
    assert shown and shown[1] == done["check"].stdout
    assert len(done["check"].stdout.splitlines()) <= 40
    assert "make the thickness of W1 14 in (now 12 in)" in done["mend"].stdout
    assert "Gets better (4)" in done["try"].stdout and "Gets worse" not in done["try"].stdout
    assert list((tmp_path / "out").glob("*/*.pdf"))
    path = tmp_path / "my_house" / "walls.yaml"
    text = path.read_text(encoding="utf-8")
    head, found, tail = text.partition("    thickness: 12 in\n")
    assert found and head.rstrip().endswith("height: 8 ft"), "the line the README says to change"
    path.write_text(f"{head}    thickness: 14 in\n{tail}", encoding="utf-8")
    again = run("check", "my_house", "--only", "cob-practice/wall-height-to-thickness", cwd=tmp_path)
    assert again.stdout.count("MEETS") + again.stdout.count("meets") >= 4 and "ENGINEER" not in again.stdout


def test_the_files_told_of_are_those_that_are_written(tmp_path: Path) -> None:
    answers = {"name": "x", "place": "y", "rule_sets": "cob-practice", "length": "24 ft", "width": "16 ft",
               "height": "8 ft", "thickness": "12 in"}  # fmt: skip
    (tmp_path / "answers.yaml").write_text(yaml.safe_dump(answers), encoding="utf-8")
    assert run("start", "new", "--answers", "answers.yaml", cwd=tmp_path).returncode == 0
    told = {row[0].strip("`") for row in table(section("Your own building in ten minutes"), "file")}
    assert all(list((tmp_path / "new").glob(name)) for name in told)
    written = {path.name for path in (tmp_path / "new").glob("*.yaml")}
    assert written <= told
