"""The counter sheet: two pages whatever the project, every question with room for its answer, every open limit told."""

from __future__ import annotations

import re
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.counter.counter_sheet import write_counter_sheet
from compliance.documents.counter.project_statements import SAYINGS
from compliance.facts.common.reference_values import ReferenceValueError
from compliance.findings import Outcome
from compliance.reading.reference_files import counter_reference
from compliance.reading.reference_files.counter_reference import read_counter_questions
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.report.by_rule import by_rule
from compliance.report.limits.open_limits import limits_to_read
from tests.conftest import EXAMPLE
from tests.documents.buildings import checked, finding, limit_used, project, rule_set
from tests.documents.reading_back import Read, fonts_without_file, one_line, overlapping, read_back

QUESTIONS = read_counter_questions()


def written(made: Checked, path: Path) -> Read:
    write_counter_sheet(made, QUESTIONS, path)
    read = read_back(path)
    assert len(read.pages) <= 2
    for boxes, (width, _) in zip(read.boxes, read.sizes, strict=True):
        assert not overlapping(boxes)
        assert all(left >= 53 and right <= width - 53 for left, _, right, _ in boxes)
    return read


@pytest.fixture(scope="module")
def example(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Read, Checked]:
    path, made = tmp_path_factory.mktemp("counter") / "counter.pdf", check_folder(EXAMPLE)
    return path, written(made, path), made


def test_every_question_is_asked_with_its_boxes(example: tuple[Path, Read, Checked]) -> None:
    text = example[1].text
    for section in QUESTIONS:
        assert section.section in text
        for question in section.questions:
            assert one_line(question.ask) in text
            assert all(box in text for box in question.boxes)
            assert question.boxes or question.write, "a question without room for an answer"
    numbers = [int(one) for one in re.findall(r"(?<![\w.])(\d{1,2}) [A-Z]", text)]
    assert set(range(1, sum(len(one.questions) for one in QUESTIONS) + 1)) <= set(numbers)


def test_the_subjects_the_task_names_are_all_asked_about() -> None:
    asked = " ".join(one_line(f"{one.ask} {one.why}") for section in QUESTIONS for one in section.questions).casefold()
    for word in ("adopt", "amendment", "specimens", "special inspection", "who decides", "engineer", "edition"):
        assert word in asked, word


def test_what_is_shown_is_known() -> None:
    named = {one.shows for section in QUESTIONS for one in section.questions if one.shows}
    assert named == set(SAYINGS)


def test_what_the_project_says(example: tuple[Path, Read, Checked]) -> None:
    text = example[1].text
    assert "adopted by Orrin Vale ordinance 2024-11 (invented)" in text
    assert "seismic design category B; design wind speed 110 mph" in text
    assert "tests by Marle Street Materials Laboratory" in text


def test_each_open_limit_has_its_line(example: tuple[Path, Read, Checked]) -> None:
    _, read, made = example
    limits = limits_to_read(by_rule(made))
    assert f"Limits to read: {len(limits)} open" in read.text
    waiting = {one.group.rule for one in limits}
    assert waiting == {one.rule for one in made.findings if one.outcome is Outcome.CONFIRM}
    for one in limits:
        assert one.group.code in read.text


def test_walls_for_an_engineer_are_asked_about(example: tuple[Path, Read, Checked]) -> None:
    _, read, made = example
    for wall in {one.wall for one in made.findings if one.outcome is Outcome.ENGINEER and one.wall}:
        assert f"Wall {wall} has" in read.text


def _crowded() -> Checked:
    """120 open limits, 40 walls for an engineer, 20 rule sets, long names."""
    long = "A very long title of something that nobody would ever call so " * 5
    sets = tuple(replace(rule_set(6), id=f"set-{n}", title=long[:390]) for n in range(20))
    found = [
        replace(finding(f"rule-{rule}", Outcome.CONFIRM, title=long[:390]), rule_set=f"set-{n}")
        for n in range(20)
        for rule in range(1, 7)
    ]
    found += [replace(finding("rule-1", Outcome.ENGINEER, f"W{n}"), rule_set="set-1") for n in range(1, 41)]
    return checked(of=project(40, name=long[:390]), findings=found, sets=sets)


def test_two_pages_also_where_there_is_much_of_it(tmp_path: Path) -> None:
    read = written(_crowded(), tmp_path / "counter.pdf")
    assert len(read.pages) == 2
    (more,) = re.findall(r"(\d+) more open limits", read.text)
    shown = len(set(re.findall(r"\b[A-Z]{1,2}[1-6] T\.", read.text)))
    assert int(more) + shown == 120
    assert "32 more walls have findings marked engineer" in read.text


def test_two_pages_on_a4(tmp_path: Path) -> None:
    made = _crowded()
    paper = made.project.project.model_copy(update={"paper": "a4"})
    read = written(replace(made, project=made.project.model_copy(update={"project": paper})), tmp_path / "c.pdf")
    assert {round(width) for width, _ in read.sizes} == {595}


def test_nothing_open(tmp_path: Path) -> None:
    read = written(checked(findings=[finding("rule-1", Outcome.MEETS)]), tmp_path / "c.pdf")
    assert "No limit that a finding of this project rests on is open." in read.text
    assert "1 finding meets a limit that nobody has read" in read.text


def test_a_limit_counts_once_and_with_what_waits_for_it() -> None:
    found = [finding("rule-1", Outcome.CONFIRM, wall) for wall in ("W1", "W2", "W3")]
    (one,) = limits_to_read(by_rule(checked(findings=found)))
    assert (one.group.code, one.waiting, one.where) == ("A1", 3, "T.1")
    assert limit_used("rule-1").value is not None


@pytest.mark.parametrize(
    "text",
    ["values: []\n", "values: 3\n", "other: 1\n", "values:\n  - {section: A, questions: [{ask: B, box: [c]}]}\n"],
)
def test_questions_of_another_form_are_refused(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(counter_reference, "read_reference", lambda name: parse_yaml(text, name))
    with pytest.raises(ReferenceValueError):
        read_counter_questions()


def test_sound_embedded_and_the_same_twice(example: tuple[Path, Read, Checked], tmp_path: Path) -> None:
    path = example[0]
    write_counter_sheet(check_folder(EXAMPLE), QUESTIONS, tmp_path / "again.pdf")
    assert (tmp_path / "again.pdf").read_bytes() == path.read_bytes()
    assert fonts_without_file(path) == []
    if shutil.which("qpdf") is None:
        pytest.skip("qpdf is not installed")
    run = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr
