"""The interview in a real terminal: answering, going back, stopping and going on, wrong answers, Ctrl-C anywhere."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from compliance.checking import check_folder
from compliance.reading.yaml.strict_yaml import read_yaml
from tests.conftest import ROOT

pexpect = pytest.importorskip("pexpect")

PROMPT = r"> $"
ENVIRONMENT = os.environ | {"PYTHONPATH": str(ROOT), "COLUMNS": "100", "PYTHONIOENCODING": "utf-8"}
FIRST = (
    "Clay Cottage", "", "Quillmoor County", "cob-irc-2021-au, cob-practice", "", "24 ft", "16 ft", "8 ft", "16 in",
    "1 clay soil, 2 sand", "framed 15 ft", "W1, W3", "", "A", "CL",
)  # fmt: skip
"""Fifteen answers; the last is what the ground is."""
KEYS = ("name", "begin", "place", "rule_sets", "units", "length", "width", "height", "thickness", "mix", "roof",
        "roof_walls", "point_loads", "outer.method", "site.soil_group")  # fmt: skip


@contextmanager
def interview(folder: Path, *more: str) -> Iterator[Any]:
    talk = pexpect.spawn(
        sys.executable, ["-m", "compliance", "start", str(folder), *more],
        env=ENVIRONMENT, encoding="utf-8", timeout=60, dimensions=(40, 100), echo=False,
    )  # fmt: skip
    try:
        yield talk
    finally:
        talk.close(force=True)


def read_until_prompt(talk: Any) -> str:
    """What stands before the prompt that is now open."""
    talk.expect(PROMPT)
    return str(talk.before)


def interrupt(talk: Any) -> None:
    """Ctrl-C until it stops, as a user would: one that comes between the prompt and the read behind it is not noticed
    before the next key."""
    for _ in range(4):
        talk.sendintr()
        if talk.expect(["Stopped", pexpect.TIMEOUT], timeout=10) == 0:
            return
    raise AssertionError("four times Ctrl-C, and it goes on")


def kept(folder: Path) -> dict[str, Any]:
    return dict(read_yaml(folder.parent / f"{folder.name}-answers.yaml", "answers"))


def test_fifteen_answers_to_a_first_check(tmp_path: Path) -> None:
    folder = tmp_path / "house"
    with interview(folder) as talk:
        for answer in (*FIRST, ""):
            read_until_prompt(talk)
            talk.sendline(answer)
        talk.expect("Wrote .*earthwall check")
        talk.expect(pexpect.EOF)
        talk.wait()
        assert talk.exitstatus == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["house"]
    checked = check_folder(folder)
    assert list(checked.project.walls) == ["W1", "W2", "W3", "W4"]
    assert checked.project.walls["W1"].run is not None
    length = checked.project.walls["W1"].run.end[0].si
    assert length == pytest.approx((24 - 16 / 12) * 0.3048)
    assert checked.facts.of("wall")["W1"].fact("wall.free_ends").value == 0.0
    assert [wall.bears_load for wall in checked.project.walls.values()] == [True, False, True, False]
    assert checked.project.site.soil_group == "CL" and checked.project.walls["W4"].method == "A"


def test_back_asks_again_and_a_wrong_answer_is_told_what_to_write(tmp_path: Path) -> None:
    with interview(tmp_path / "house") as talk:
        read_until_prompt(talk)
        talk.sendline("back")
        assert "first question" in read_until_prompt(talk)
        talk.sendline("")
        assert "needs an answer" in read_until_prompt(talk)
        for answer in FIRST[:5]:
            talk.sendline(answer)
            read_until_prompt(talk)
        for wrong, code in (
            ("24", "measure-no-unit"), ("24 psi", "measure-dimension"), ("24,5 ft", "measure-comma"),
            ("0 ft", "measure-zero"), ("no-such.csv", "file-missing"),
        ):  # fmt: skip
            talk.sendline(wrong)
            assert f"[{code}]" in read_until_prompt(talk)
        talk.sendline("?")
        assert "table" in read_until_prompt(talk) and "|________|" in str(talk.before)
        talk.sendline("24 ft")
        read_until_prompt(talk)
        talk.sendline("back")
        assert "6 of 15" in read_until_prompt(talk)
    assert list(kept(tmp_path / "house")) == list(KEYS[:5])


def test_stop_keeps_the_answers_and_the_next_run_goes_on(tmp_path: Path) -> None:
    folder = tmp_path / "house"
    with interview(folder) as talk:
        for answer in (*FIRST[:6], "stop"):
            read_until_prompt(talk)
            talk.sendline(answer)
        talk.expect("6 answers are kept")
        talk.expect(pexpect.EOF)
        talk.wait()
        assert talk.exitstatus == 0
    assert list(kept(folder)) == list(KEYS[:6]) and not folder.exists()
    with interview(folder) as talk:
        assert "Going on after 6 answers" in read_until_prompt(talk)
        for answer in (*FIRST[6:], ""):
            talk.sendline(answer)
            if answer != "":
                read_until_prompt(talk)
        talk.expect("Wrote ")
    assert check_folder(folder).project.project.name == "Clay Cottage"
    assert not (tmp_path / "house-answers.yaml").exists()


def test_a_kept_answer_that_no_longer_holds_is_asked_again(tmp_path: Path) -> None:
    folder = tmp_path / "house"
    given = dict(zip(KEYS, FIRST, strict=True)) | {"begin": "building", "units": "us"}
    lines = [f"{key}: {json.dumps(text)}\n" for key, text in given.items()]
    text = "".join(lines).replace("24 ft", "24").replace("16 in", "thick") + "walls.1.from: nowhere\n"
    (tmp_path / "house-answers.yaml").write_text(text, encoding="utf-8")
    with interview(folder) as talk:
        assert "Going on after 5 answers" in read_until_prompt(talk)
        assert "6 of 15" in str(talk.before)


@pytest.mark.parametrize("count", [0, 4, len(FIRST)])
def test_ctrl_c_at_any_question_keeps_what_was_answered(tmp_path: Path, count: int) -> None:
    folder = tmp_path / "house"
    with interview(folder) as talk:
        for answer in FIRST[:count]:
            read_until_prompt(talk)
            talk.sendline(answer)
        read_until_prompt(talk)
        interrupt(talk)
        talk.expect(pexpect.EOF)
        talk.wait()
        assert talk.exitstatus == 130
    assert not folder.exists()
    assert [path.name for path in tmp_path.iterdir()] == (["house-answers.yaml"] if count else [])
    if count:
        assert list(kept(folder)) == list(KEYS[:count])


def test_an_opening_that_does_not_fit_is_refused_when_it_is_whole(tmp_path: Path) -> None:
    folder = tmp_path / "house"
    with interview(folder) as talk:
        for answer in (*FIRST, "yes", "window", "21 ft", "3 ft", "3 ft", "3 ft"):
            read_until_prompt(talk)
            talk.sendline(answer)
        assert "[opening-outside]" in read_until_prompt(talk)
        for answer in ("back", "back", "back", "4 ft", "3 ft", "3 ft", "3 ft", "wood", "12 in", "", "", "", "stop"):
            talk.sendline(answer)
            if answer != "stop":
                read_until_prompt(talk)
        talk.expect("Stopped")
    assert kept(folder)["openings.W1.1.start"] == "4 ft"


def test_lines_from_a_pipe_are_answers_too(tmp_path: Path) -> None:
    lines = "\n".join((*FIRST, "")) + "\n"
    done = subprocess.run(
        [sys.executable, "-m", "compliance", "start", str(tmp_path / "house")], input=lines, text=True,
        capture_output=True, env=ENVIRONMENT, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert check_folder(tmp_path / "house").project.mixes["M1"].parts == {"S1": 1, "S2": 2}
