"""From a few soils, two jars and a row of bricks to a ranked answer, a batch in buckets and field sheets; then the same
folder goes on to a round room. In a real terminal, prompts counted."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.editing.included_files import with_included
from compliance.problems import ProblemsFound
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.refused import RefusedError
from compliance.report.earth.earth_answer import earth_answer
from compliance.start.interview.earth_questions import brick_of, broke_of
from compliance.start.interview.interview_question import Standing
from compliance.start.interview.trial_reading import new_project, write_files
from compliance.start.interview.unattended import answers_of
from compliance.start.project_files.added_building import add_building, known_answers, standing
from tests.running import run_tool
from tests.unit.test_start_talk import interrupt, interview, read_until_prompt

pexpect = pytest.importorskip("pexpect")
DAY = date(2026, 5, 14)
MOST_PROMPTS = 25
EARTH = (
    "Field Day", "earth", "", "pit clay, bank clay, river sand",
    "3 ft, no", "1 1/2 in at 45 s, 2 1/2 in, 4 1/8 in at 2 days", "2 ft, no", "3 in, 2 in, 1 in",
    "1 in, 3 1/4 in, 3 3/4 in", "", "1:0:1, 1:0:1.5, 1:0:2, 1:0:3, 1:0:2 + 0.5 rye straw", "6 ft",
    "45 %, 6", "80 %, 3", "95 %, 2", "30 %", "", "P3",
)  # fmt: skip
"""One of them wrong: heights that do not rise."""
ROOM = (
    "", "Quillmoor County", "cob-irc-2021-au, cob-practice", "round", "16 ft", "8 ft", "16 in", "", "framed 13 ft",
    "W1, W2", "", "", "", "",
)  # fmt: skip
"""The first takes the part that is proposed: the building."""


def run(cwd: Path, *words: str) -> tuple[int, str]:
    done = run_tool(*words, cwd=cwd)
    return done.returncode, " ".join((done.stdout + done.stderr).split())


def talk_through(folder: Path, answers: tuple[str, ...]) -> int:
    """Prompts it took."""
    with interview(folder) as talk:
        for answer in answers:
            read_until_prompt(talk)
            talk.sendline(answer)
        talk.expect("(Wrote|Written to) .*earthwall check")
        talk.expect(pexpect.EOF)
        talk.wait()
        assert talk.exitstatus == 0
    return len(answers)


def test_from_nothing_to_a_recipe_and_on_to_a_round_room(tmp_path: Path) -> None:
    folder = tmp_path / "day"
    assert talk_through(folder, EARTH) <= MOST_PROMPTS
    assert sorted(path.name for path in tmp_path.iterdir()) == ["day"]
    assert not (folder / "walls.yaml").exists()

    code, text = run(tmp_path, "check", "day")
    assert code == 1 and "No walls are described" in text
    assert "1 of 2 clay soils can be used (S1); the best brick is P3 (1 S1 : 2 S3)" in text
    assert "S2 bank clay: doubtful" in text and "Silt in surplus" in text
    assert text.index("1. P3") < text.index("2. P2") < text.index("3. P1") < text.index("4. P4")
    assert "Drop the bricks not broken yet once they are dry: P5" in text and "1 S1 : 2.5 S3" in text

    assert "One batch: 2.5 buckets of S1 pit clay, 5 buckets of S3 river sand" in run(tmp_path, "blend", "day")[1]
    for word, name in (("sheets", "field-sheets"), ("earth", "soils-and-mixes")):
        assert run(tmp_path, word, "day")[0] == 0
        assert (tmp_path / "out" / f"day-{name}.pdf").read_bytes().startswith(b"%PDF")
    for word in ("submittal", "brief", "inspection", "counter"):
        code, text = run(tmp_path, word, "day")
        assert code == 2 and "no walls are described" in text and "earthwall earth day" in text
    assert not (folder / "issued").exists()

    ground = folder / "ground.yaml"
    ground.write_text(ground.read_text("utf-8").replace("organic: no\n", "organic: no  # by my own nose\n"), "utf-8")
    project = folder / "project.yaml"
    project.write_text("# my own line\n" + project.read_text("utf-8"), "utf-8")
    before = {path: path.read_text("utf-8") for path in (ground, project)}
    assert talk_through(folder, ROOM) == len(ROOM)

    assert ground.read_text("utf-8") == before[ground]
    changed = before[project].replace("include: [ground.yaml]", "include: [ground.yaml, building.yaml]")
    assert project.read_text("utf-8") == changed != before[project]
    checked = check_folder(folder)
    assert list(checked.project.walls) == ["W1", "W2"] and not checked.project.is_earth_only
    lengths = [checked.facts.of("wall")[mark].fact("wall.length").value for mark in ("W1", "W2")]
    assert lengths == pytest.approx([3.14159265 * (16 - 16 / 12) * 0.3048] * 2, rel=1e-3)  # one wall, drawn as two
    assert checked.facts.of("wall")["W1"].fact("wall.free_ends").value == 0.0
    assert {wall.mix for wall in checked.project.walls.values()} == {"M1"}


def test_ctrl_c_while_going_on_leaves_the_folder_as_it_was(tmp_path: Path) -> None:
    folder = tmp_path / "day"
    talk_through(folder, EARTH)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    with interview(folder) as talk:
        for answer in ROOM[:5]:
            read_until_prompt(talk)
            talk.sendline(answer)
        read_until_prompt(talk)
        interrupt(talk)
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before
    with interview(folder) as talk:
        assert "Going on after 8 answers" in read_until_prompt(talk)
        for answer in ROOM[5:]:
            talk.sendline(answer)
            if answer is not ROOM[-1]:
                read_until_prompt(talk)
        talk.expect("Written to ")
        talk.expect(pexpect.EOF)
    assert list(check_folder(folder).project.walls) == ["W1", "W2"]
    assert not (tmp_path / "day-answers.yaml").exists()


SHAPES = """\
name: House
place: Quillmoor County
rule_sets: cob-practice
height: 8 ft
thickness: 16 in
"""


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(("sizes", "walls", "run"), [
    ("length: round\ndiameter: 18 ft\n", 2, 2 * 3.14159265 * (18 - 4 / 3)),  # both halves are one wall: each says it
    ("length: L\nsize_east: 30 ft\nsize_north: 26 ft\nwing_south: 14 ft\nwing_west: 12 ft\n", 6,
     2 * (30 - 4 / 3) + 2 * (26 - 4 / 3)),
    ("length: round-end\nsize_east: 28 ft\nsize_north: 16 ft\n", 4,
     2 * (28 - 4 / 3 - (16 - 4 / 3) / 2) + (16 - 4 / 3) * (1 + 3.14159265 / 2)),
])  # fmt: skip
def test_shapes_close_with_the_length_that_geometry_gives(
    tmp_path: Path, sizes: str, walls: int, run: float, units: str
) -> None:
    """Lengths of center lines by hand, from outside sizes less the thickness of 16 in."""
    answers = answers_of(parse_yaml(f"{SHAPES}units: {units}\n{sizes}", "answers.yaml"), new_project(DAY))
    write_files(tmp_path, answers, DAY)
    checked = check_folder(tmp_path)
    subjects = checked.facts.of("wall")
    assert len(subjects) == walls and {one.code for one in checked.warnings} <= {"implausible"}  # a long curved run
    total = 0.0
    for subject in subjects.values():
        assert subject.fact("wall.free_ends").value == 0.0
        length = subject.fact("wall.length").value
        assert isinstance(length, float)
        total += length
    assert total / 0.3048 == pytest.approx(run, rel=2e-3)


@pytest.mark.parametrize("sizes", [
    "length: round\ndiameter: 2 ft\n", "length: round-end\nsize_east: 10 ft\nsize_north: 18 ft\n",
    "length: L\nsize_east: 30 ft\nsize_north: 26 ft\nwing_south: 26 ft\nwing_west: 12 ft\n",
])  # fmt: skip
def test_sizes_that_make_no_shape_are_refused(sizes: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        answers_of(parse_yaml(SHAPES + sizes, "answers.yaml"), new_project(DAY))
    assert [one.code for one in found.value.problems] == ["start-shape"]


@pytest.mark.parametrize(("include", "after"), [
    ("include: [ground.yaml]  # mine\n", "include: [ground.yaml, building.yaml]  # mine\n"),
    ("include: []\n", "include: [building.yaml]\n"),
    ("include:\n  - ground.yaml # mine\nsite: {}\n", "include:\n  - ground.yaml # mine\n  - building.yaml\nsite: {}\n"),
    ("site: {}\n", "site: {}\n\ninclude:\n  - building.yaml\n"),
    ("include: [building.yaml]\n", "include: [building.yaml]\n"),
])  # fmt: skip
def test_a_file_is_named_and_all_else_stays(include: str, after: str) -> None:
    head = "# a comment\nproject: {name: House, date: 2026-05-14}\n"
    assert with_included(head + include, "building.yaml", "project.yaml") == head + after


def test_a_building_described_in_part_is_not_replaced(tmp_path: Path) -> None:
    text = (
        "project: {name: Day, date: 2026-05-14}\nsoils: {S1: {name: clay}}\nmixes: {M1: {name: mix, parts: {S1: 1}}}\n"
        "roofs: {R1: {kind: framed, span: 20 ft}}\n"
    )
    (tmp_path / "project.yaml").write_text(text, encoding="utf-8")
    there = Standing((("M1", "mix"),))
    known = {"name": "Day", "begin": "building", "units": "us"}
    given_answers = answers_of(
        parse_yaml(f"{SHAPES}length: round\ndiameter: 18 ft\nroof: framed 15 ft\nmix: M1\n", "answers.yaml"),
        new_project(DAY, there), known=known,
    )  # fmt: skip
    with pytest.raises(ProblemsFound) as found:
        add_building(tmp_path, given_answers, there, DAY)
    assert [one.code for one in found.value.problems] == ["start-there"]
    assert [path.name for path in tmp_path.iterdir()] == ["project.yaml"]
    assert (tmp_path / "project.yaml").read_text("utf-8") == text


@given(st.text(max_size=30))
def test_no_answer_about_bricks_breaks_the_talk(text: str) -> None:
    for read in (lambda: brick_of(text, 2), lambda: broke_of(text)):
        try:
            read()
        except RefusedError as refused:
            assert refused.instead


def test_rules_adopted_with_the_earth_are_not_asked_again(tmp_path: Path) -> None:
    """How many specimens a mix needs the code says, before there is a plan; the building is held to the same code."""
    earth = parse_yaml("name: Day\nbegin: earth\nsoils: clay\ntrials: '1'\ntrial.1: whole\nmix: P1\n", "answers.yaml")
    write_files(tmp_path, answers_of(earth, new_project(DAY)), DAY)
    text = (tmp_path / "project.yaml").read_text("utf-8")
    assert "\n## jurisdiction: {" in text
    (tmp_path / "project.yaml").write_text(text.replace("## jurisdiction: {", "jurisdiction: {"), "utf-8")
    checked = check_folder(tmp_path)
    assert [one.id for one in checked.rule_sets] == ["cob-irc-2021-au", "earth-evidence"]
    steps = [one.says for one in earth_answer(checked).steps]
    assert any("Cast a set of M1 for compression: AU106.6" in says and "at least 5" in says for says in steps)
    project = check_folder(tmp_path).project
    there = standing(project)
    building = parse_yaml("length: round\ndiameter: 18 ft\nheight: 8 ft\nthickness: 16 in\n", "answers.yaml")
    add_building(tmp_path, answers_of(building, new_project(DAY, there), known=known_answers(project)), there, DAY)
    after = check_folder(tmp_path)
    assert [one.id for one in after.rule_sets] == ["cob-irc-2021-au", "earth-evidence"]
    assert len(after.project.walls) == 2
    assert "jurisdiction:" not in (tmp_path / "building.yaml").read_text("utf-8")
