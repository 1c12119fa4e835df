"""A check of each project of a folder: a line for each, in order, whatever is wrong with the others."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from typer.testing import CliRunner

from compliance.checking import check_folder
from compliance.checking_each import line_of, projects_in
from compliance.cli import app
from compliance.commands.common.each_project import _whole
from compliance.output.terminal.check_each_lines import tally_of
from compliance.reading.rule_files import rule_library
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.report.revisions.findings_data import as_data
from compliance.schemas import schema_text
from compliance.worker_pool import in_order
from tests.conftest import HEAD, ROOT, RULES, WALLS
from tests.unit.work_at_once import end_at_two, end_while_sending_two, slow_first

SHIPPED = HEAD.replace("rules.yaml", "cob-practice")


def lay(folder: Path, **projects: str) -> Path:
    for name, text in projects.items():
        (folder / name).mkdir(parents=True)
        (folder / name / "project.yaml").write_text(text, encoding="utf-8")
        (folder / name / "rules.yaml").write_text(RULES, encoding="utf-8")
    return folder


def run(folder: Path, *more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "compliance", "check", str(folder), "--each", *more],
        cwd=ROOT, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip


def lines(text: str) -> list[dict[str, Any]]:
    return [json.loads(line) for line in text.splitlines()]


def test_one_broken_project_stops_no_other(tmp_path: Path) -> None:
    thin, sound = HEAD + WALLS.replace("16 in", "9 in"), HEAD + WALLS
    folder = lay(tmp_path / "all", b_meets=sound, a_revise=thin, c_broken="project: [", d_meets=sound)
    (folder / "e_no_project").mkdir()
    (folder / ".hidden").mkdir()
    ran = run(folder)
    told = lines(ran.stdout)
    assert [(one["folder"], one["code"]) for one in told] == [
        ("a_revise", 1), ("b_meets", 0), ("c_broken", 2), ("d_meets", 0)
    ]  # fmt: skip
    assert ran.returncode == 2
    assert [one["code"] for one in told[2]["problems"]] == ["yaml-syntax"]
    assert told[2]["problems"][0]["file"].endswith("c_broken/project.yaml")
    assert told[1]["result"] == json.loads(json.dumps(as_data(check_folder(folder / "b_meets"))))
    assert "4 projects: 2 where everything meets, 1 where something does not, 1 not judged" in ran.stderr
    assert "left out: e_no_project" in ran.stderr
    assert "Traceback" not in ran.stderr


def test_each_result_keeps_to_the_published_schema(tmp_path: Path) -> None:
    folder = lay(tmp_path / "all", one=SHIPPED + WALLS)
    line, code = line_of(folder / "one")
    assert line.endswith("}\n") and line.count("\n") == 1
    jsonschema.validate(json.loads(line)["result"], json.loads(schema_text("findings.schema.json")))
    assert code == json.loads(line)["code"] == 1


@pytest.mark.parametrize(("texts", "code"), [((WALLS,), 0), ((WALLS, WALLS.replace("16 in", "9 in")), 1)])
def test_leaves_with_the_worst(tmp_path: Path, texts: tuple[str, ...], code: int) -> None:
    folder = lay(tmp_path / "all", **{f"p{number}": HEAD + text for number, text in enumerate(texts)})
    assert run(folder).returncode == code


def test_a_check_that_fails_itself_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object, **__: object) -> None:
        raise ZeroDivisionError("by nothing")

    monkeypatch.setattr("compliance.checking_each.check_folder", fail)
    line, code = line_of(lay(tmp_path / "all", one=HEAD + WALLS) / "one")
    assert (json.loads(line), code) == ({"folder": "one", "code": 2, "failed": "ZeroDivisionError: by nothing"}, 2)


def test_rule_sets_are_read_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Three projects with the same shipped rule set, one by way of a rule set of its own: one reading, and the same
    findings as without."""
    own = RULES.replace("title: Trial rules", "title: Trial rules\nextends: cob-practice").replace("forms: [any]\n", "")
    folder = lay(tmp_path / "all", a=SHIPPED + WALLS, b=SHIPPED + WALLS, c=HEAD + WALLS)
    (folder / "c" / "rules.yaml").write_text(own, encoding="utf-8")
    alone = {name: as_data(check_folder(folder / name)) for name in "abc"}
    read: list[str] = []
    real = parse_yaml

    def counted(text: str, shown: str) -> Any:
        read.append(shown)
        return real(text, shown)

    monkeypatch.setattr("compliance.reading.rule_files.rule_library.parse_yaml", counted)
    rule_library._read_shipped_once.cache_clear()
    assert {name: as_data(check_folder(folder / name)) for name in "abc"} == alone
    assert sum(name == "rulesets/cob-practice.yaml" for name in read) == 1


def test_folders_by_name_hidden_ones_left_out(tmp_path: Path) -> None:
    lay(tmp_path, b=HEAD, a=HEAD, c=HEAD)
    (tmp_path / "a_file").write_text("", encoding="utf-8")
    (tmp_path / "empty").mkdir()
    (tmp_path / ".git").mkdir()
    projects, none = projects_in(tmp_path)
    assert [one.name for one in projects] == ["a", "b", "c"]
    assert none == ["empty"]


@pytest.mark.parametrize("more", [("--watch",), ("--format", "csv"), ("--quiet",), ("--wall", "W1"), ("--all",)])
def test_goes_with_no_other_option(tmp_path: Path, more: tuple[str, ...]) -> None:
    ran = CliRunner().invoke(app, ["check", str(tmp_path), "--each", *more])
    assert ran.exit_code == 2
    assert "leave the other options out" in ran.stderr


@pytest.mark.parametrize("name", ["nowhere", "empty"])
def test_nothing_to_check(tmp_path: Path, name: str) -> None:
    (tmp_path / "empty").mkdir()
    ran = CliRunner().invoke(app, ["check", str(tmp_path / name), "--each"])
    assert (ran.exit_code, ran.stdout) == (2, "")
    assert name in ran.stderr


def test_the_tally_names_few() -> None:
    none = [f"n{number}" for number in range(12)]
    assert tally_of([0], none).endswith("n8, n9 and 2 more")
    assert tally_of([2, 1], []) == "2 projects: 0 where everything meets, 1 where something does not, 1 not judged"


def test_in_the_order_of_the_items() -> None:
    assert list(in_order(slow_first, range(20), 2)) == [number * number for number in range(20)]


def test_a_process_that_is_ended_costs_one_item() -> None:
    assert list(in_order(end_at_two, range(4), 2)) == [0, 1, None, 3]


def test_a_process_that_is_ended_while_it_sends_costs_one_item() -> None:
    """A pool whose workers share a pipe waits for the rest of that result forever."""
    assert list(in_order(end_while_sending_two, range(4), 2)) == [0, 1, None, 3]


def test_told_to_stop_within_a_line_it_stops_after_it() -> None:
    seen = []
    with pytest.raises(KeyboardInterrupt):
        with _whole():
            signal.raise_signal(signal.SIGINT)
            seen.append("the rest of the line")
        seen.append("never")
    assert seen == ["the rest of the line"]


def all_ended(group: int) -> bool:
    """Are all processes of the group gone, within ten seconds?"""
    for _ in range(100):
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.1)
    return False


@pytest.mark.skipif(sys.platform == "win32", reason="signals as POSIX has them")
def test_broken_off_it_leaves_whole_lines_and_no_process(tmp_path: Path) -> None:
    folder = lay(tmp_path / "all", **{f"p{number:03}": SHIPPED + WALLS for number in range(300)})
    process = subprocess.Popen(
        [sys.executable, "-m", "compliance", "check", str(folder), "--each"],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True,
        bufsize=0,  # what a first line leaves in a buffer, communicate() does not find
    )  # fmt: skip
    assert process.stdout is not None and process.stderr is not None
    first = process.stdout.readline()
    threading.Timer(0.05, lambda: os.killpg(process.pid, signal.SIGINT)).start()
    rest, told = process.communicate(timeout=60)
    assert process.returncode == 130
    assert b"Traceback" not in told
    assert [one["folder"] for one in lines((first + rest).decode())] == [
        f"p{number:03}" for number in range(len((first + rest).splitlines()))
    ]
    assert (first + rest).endswith(b"\n")
    assert all_ended(process.pid)


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="processes as Linux has them")
def test_killed_it_leaves_no_process(tmp_path: Path) -> None:
    folder = lay(tmp_path / "all", **{f"p{number:03}": SHIPPED + WALLS for number in range(300)})
    process = subprocess.Popen(
        [sys.executable, "-m", "compliance", "check", str(folder), "--each"],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, start_new_session=True,
    )  # fmt: skip
    assert process.stdout is not None and process.stdout.readline()
    process.kill()
    process.communicate(timeout=60)
    assert all_ended(process.pid)
