"""Answers of persons entered by name, from a sheet or one after the other: what is written, and what is left alone."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import pytest
from PIL import Image
from typer.testing import CliRunner, Result

from compliance.checking import check_folder
from compliance.cli import app
from compliance.editing.evidence_files import Evidence
from compliance.editing.file_entries import with_records
from compliance.editing.written_answers import GivenAnswer, enter_answers
from compliance.problems import ProblemsFound
from tests.conftest import ATTESTED_RULE, RULES, Write

ASKED = (
    RULES
    + ATTESTED_RULE
    + """\
  - id: seen
    title: Trench
    clause: T3
    about: project
    standing: read
    source: trial
    inspect: {stage: trench, point: hold, who: official, look_at: the trench, record: a note}
    say: The trench is seen.
"""
)
WALLS = """\
walls:  # mine
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1}
  W2: {run: {from: [20 ft, 0 ft], to: [20 ft, 20 ft]}, height: 8 ft, thickness: 16 in, mix: M1}
## Files of this folder.
# attachments:
#   A1:
#     file: photos/one.jpg
## Answers.
# attestations:
#   - rule: covered  # what is asked
# the end
"""


@pytest.fixture
def folder(project: Write) -> Path:
    return project(text=WALLS, rules=ASKED)


@pytest.fixture
def photo(tmp_path: Path) -> Path:
    picture = Image.new("RGB", (8, 6))
    exif = picture.getexif()
    exif.get_ifd(0x8769)[0x9003] = "2026:05:14 10:00:00"
    picture.save(tmp_path / "wall top.jpg", exif=exif)
    return tmp_path / "wall top.jpg"


def run(*words: str | Path, typed: str | None = None) -> Result:
    return CliRunner().invoke(app, ["answer", *map(str, words)], input=typed)


def outcomes(folder: Path, rule: str = "covered") -> dict[str, str]:
    return {one.subject: one.outcome.value for one in check_folder(folder).findings if one.rule == rule}


def state(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_by_name_with_a_photo_that_is_copied_in(folder: Path, photo: Path) -> None:
    before = (folder / "project.yaml").read_text("utf-8")
    done = run(folder, "covered", "--yes", "--by", 'Ana "Ann" Diaz', "--on", "2026-05-15", "--evidence", photo,
               "--title", "Tops, covered")  # fmt: skip
    assert done.exit_code == 0 and done.stdout.splitlines() == [
        "Copied photos/wall top.jpg", "Covered tops (W1, W2): meets",
    ]  # fmt: skip
    assert (folder / "photos" / "wall top.jpg").read_bytes() == photo.read_bytes()
    new = (
        "attachments:\n  A1:\n    file: \"photos/wall top.jpg\"\n    title: \"Tops, covered\"\n    date: 2026-05-14\n"
    )  # fmt: skip
    said = 'answer: yes, by: "Ana \\"Ann\\" Diaz", on: 2026-05-15, evidence: [A1]}\n'
    answers = "attestations:\n" + "".join(f'  - {{rule: "covered", about: "{mark}", {said}' for mark in ("W1", "W2"))
    assert (folder / "project.yaml").read_text("utf-8") == before.replace("# attachments:\n", new).replace(
        "# attestations:\n", answers
    )
    assert outcomes(folder) == {"W1": "meets", "W2": "meets"}


def test_what_is_there_stays_to_the_last_byte(folder: Path, photo: Path) -> None:
    """CR LF, comments that belong to the last entry, and a file of its own for the answers."""
    text = (folder / "project.yaml").read_text("utf-8").partition("## Files")[0] + "include: [said.yaml]\n"
    (folder / "project.yaml").write_bytes(text.replace("\n", "\r\n").encode())
    held = (
        "attestations:  # ours\r\n- rule: covered\r\n  about: W2\r\n  answer: no\r\n  by: Bo\r\n  on: 2026-05-01\r\n"
        "    # it leaks\r\n"
    )  # fmt: skip
    (folder / "said.yaml").write_bytes(f"{held}# tail\r\n".encode())
    before = (folder / "project.yaml").read_bytes()
    assert run(folder, "covered", "--no", "--about", "W1", "--by", "Bo", "--on", "2026-05-14").exit_code == 0
    assert (folder / "project.yaml").read_bytes() == before
    entry = '- {rule: "covered", about: "W1", answer: no, by: "Bo", on: 2026-05-14}\r\n'
    assert (folder / "said.yaml").read_bytes() == f"{held}{entry}# tail\r\n".encode()
    assert run(folder, "seen", "--yes", "--by", "Bo", "--on", "2026-05-14", "--note", "dry: # firm").exit_code == 0
    said = 'passed: yes, by: "Bo", on: 2026-05-14, note: "dry: # firm"}'
    added = f'\r\ninspections:\r\n  - {{rule: "seen", about: "project", {said}\r\n'
    assert (folder / "project.yaml").read_bytes() == before + added.encode()
    assert outcomes(folder, "seen") == {"project": "meets"}


def test_records_stand_after_the_last_with_its_comments() -> None:
    text = "attachments:\n  A1:\n    file: a.jpg\n      # seen\n\n  # between\nother: 1\n"
    assert with_records(text, {"A2": ["file: b.jpg"]}, "p.yaml", "attachments") == (
        "attachments:\n  A1:\n    file: a.jpg\n      # seen\n  A2:\n    file: b.jpg\n\n  # between\nother: 1\n"
    )


@pytest.mark.parametrize(("name", "data"), [("a.HEIC", b"anything"), ("a.jpg", b"\0\0\0\x18ftypheic\0\0\0\0")])
def test_a_heic_photo_is_refused_by_name(folder: Path, tmp_path: Path, name: str, data: bytes) -> None:
    (tmp_path / name).write_bytes(data)
    before = state(folder)
    done = run(folder, "covered", "--yes", "--by", "Bo", "--evidence", tmp_path / name)
    assert done.exit_code == 2 and "HEIC photos cannot be printed" in done.output and "JPEG" in done.output
    assert state(folder) == before


@pytest.mark.parametrize(("words", "says"), [
    (("coverd", "--yes", "--by", "Bo"), "did you mean covered?"),
    (("thick-enough", "--yes", "--by", "Bo"), "asks a person anything"),
    (("covered", "--about", "W3", "--yes", "--by", "Bo"), "nothing is called 'W3'"),
    (("covered", "--yes"), "need RULE and --by"),
    (("covered", "--yes", "--by", "Bo", "--on", "14 May"), "2026-05-14"),
    (("covered", "--yes", "--by", "Bo", "--evidence", "none.jpg"), "no such file"),
    (("covered", "--by", "Bo", "--evidence", "A1"), "--yes or --no"),
])  # fmt: skip
def test_refused_and_nothing_written(folder: Path, words: tuple[str, ...], says: str) -> None:
    before = state(folder)
    done = run(folder, *words)
    assert done.exit_code == 2 and says in " ".join(done.output.split())
    assert state(folder) == before


def test_what_the_project_refuses_leaves_no_copy(folder: Path, photo: Path) -> None:
    before = state(folder)
    given = GivenAnswer("attestations", rule="covered", about=("W9",), answer=True, by="Bo",
                        on=date(2026, 5, 14), evidence=(Evidence(str(photo)),))  # fmt: skip
    with pytest.raises(ProblemsFound) as found:
        enter_answers(folder, [given])
    assert [one.code for one in found.value.problems] == ["answer-mark"]
    assert state(folder) == before


def test_a_yes_without_its_evidence_does_not_meet(folder: Path) -> None:
    done = run(folder, "covered", "--yes", "--by", "Bo", "--on", "2026-05-14")
    assert "Covered tops (W1, W2): missing" in done.stdout and "photo" in done.stdout


def test_a_filled_in_sheet(folder: Path, photo: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(run(folder, "--sheet").stdout)))
    assert [(row["rule"], row["about"]) for row in rows] == [("covered", "W1"), ("covered", "W2"), ("seen", "project")]
    rows[0] |= {"answer": "Yes", "by": "Ana", "on": "2026-05-15", "evidence": photo.name}
    rows[2] |= {"answer": "no", "on": "2026-05-14"}
    done = run(folder, "--from", _sheet(rows, photo.parent / "filled.csv"), "--by", "Bo")
    assert done.exit_code == 0, done.output
    assert outcomes(folder) == {"W1": "meets", "W2": "missing"} and outcomes(folder, "seen") == {"project": "revise"}
    assert [one.by for one in check_folder(folder).project.attestations] == ["Ana"]
    assert len(list(csv.DictReader(io.StringIO(run(folder, "--sheet").stdout)))) == 1


@pytest.mark.parametrize(("change", "says"), [
    ({"answer": "perhaps"}, "neither yes nor no"), ({"answer": "yes", "on": "5/14/26"}, "no date"),
    ({"answer": "yes", "rule": "covred"}, "no question"), ({"answer": "yes", "about": "W7"}, "nothing called 'W7'"),
    ({"answer": "yes", "by": ""}, "nobody is named"), ({"note": "wet"}, "no answer"), ({}, "no answer is filled in"),
])  # fmt: skip
def test_a_sheet_that_cannot_be_taken(folder: Path, tmp_path: Path, change: dict[str, str], says: str) -> None:
    rows = list(csv.DictReader(io.StringIO(run(folder, "--sheet").stdout)))
    rows[1] |= {"by": "Bo"} | change
    before = state(folder)
    done = run(folder, "--from", _sheet(rows, tmp_path / "filled.csv"))
    text = " ".join(done.output.split())
    assert done.exit_code == 2 and says in text and "answer-sheet" in text
    assert ("filled.csv:3:" in text) == bool(change)
    assert state(folder) == before


def test_one_after_the_other(folder: Path, photo: Path) -> None:
    """Each by itself, one of them begun again, one skipped, a wrong file named first; who answered is suggested."""
    typed = (
        "each", "yes", "Ana", "2026-05-15", "none.jpg", str(photo), "Tops", "", "", "?", "maybe", "back",
        "no", "", "2026-05-15", "", "it leaks", "",
    )  # fmt: skip
    done = run(folder, typed="".join(f"{line}\n" for line in typed))
    assert done.exit_code == 0, done.output
    assert "there is no file none.jpg" in done.stdout and "[2026-05-14]" in done.stdout and "[Ana]" in done.stdout
    assert "About W2." in done.stdout and "start-choice" in done.stdout
    said = check_folder(folder).project.attestations
    assert [(one.about, one.answer, one.by, one.note) for one in said] == [
        ("W1", True, "Ana", None), ("W2", False, "Ana", "it leaks"),
    ]  # fmt: skip
    assert outcomes(folder) == {"W1": "meets", "W2": "revise"}


def test_stop_keeps_what_was_answered(folder: Path) -> None:
    done = run(folder, typed="each\nno\nBo\n2026-05-14\n\nwet\nstop\n")
    assert done.exit_code == 0 and "To go on: earthwall answer" in done.stdout
    assert [one.about for one in check_folder(folder).project.attestations] == ["W1"]


def _sheet(rows: list[dict[str, str]], path: Path) -> Path:
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0].keys())
        writer.writeheader()
        writer.writerows(rows)
    return path
