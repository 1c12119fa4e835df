"""A project begun from answers: its files read as a form does, its blanks take what they say they take."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.model.site import Site
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.walls import Lintel, Opening
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.refused import RefusedError
from compliance.start.interview.field_examples import EXAMPLES
from compliance.start.interview.mix_parts import read_parts
from compliance.start.interview.trial_reading import new_project, write_files
from compliance.start.interview.unattended import answers_of
from compliance.start.project_files.added_building import add_building, known_answers, standing
from compliance.start.project_files.created_folder import refusal, write_project
from compliance.start.project_files.field_help import example_of, read_field
from compliance.start.project_files.form_lines import flow, scalar
from compliance.start.project_files.kept_answers import keep, kept
from compliance.start.shapes.wall_table import read_wall_table
from tests.conftest import ROOT

DAY = date(2026, 5, 14)
FIRST = """\
name: Clay Cottage
place: Quillmoor County
rule_sets: [cob-irc-2021-au, cob-practice]
length: 24 ft
width: 16 ft
height: 8 ft
thickness: 16 in
"""
FULL = (
    FIRST
    + """\
mix: 1 clay soil, 2 sand, 0.6 wheat straw
roof: framed 15 ft
openings:
  W1:
    - {kind: door, start: 4 ft, width: 3 ft, sill: 0 ft, height: 6 ft 8 in, lintel: wood, lintel_bearing: 12 in}
    - {kind: window, start: 14 ft, width: 3 ft, sill: 2 ft 6 in, height: 3 ft 6 in}
walls:
  - {from: [11 ft, 0 ft], to: [11 ft, 14 ft 8 in], use: interior, height: 8 ft, thickness: 12 in, name: wall between}
outer: {braces: yes, method: A, top_restraint: bond-beam}
point_loads: "W2 at 7 ft: 900 lb, 0 lb, 1300 lb"
site: {seismic_category: B, wind_speed: 110 mph, soil_bearing: 2000 psf}
stem: {material: stone, thickness: 20 in}
footing: {kind: concrete, width: 24 in, bar_count: 2}
beam: {material: wood, width: 12 in}
people: {owner: Ana Diaz}
tests: [compression, shrinkage]
"""
)
FULL = FULL.replace("outer:", "roof_walls: [W1, W3]\nfloor_walls: W5\nroof.overhang: 30 in\nouter:")


def made(folder: Path, text: str) -> Path:
    folder.mkdir()
    write_files(folder, answers_of(parse_yaml(text, "answers.yaml"), new_project(DAY)), DAY)
    return folder


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("text", [FIRST, FULL])
def test_what_is_written_checks_without_problems(tmp_path: Path, text: str, units: str) -> None:
    checked = check_folder(made(tmp_path / "house", f"{text}units: {units}\n"))
    assert checked.project.project.units == units
    assert checked.warnings == ()


def test_every_answer_reaches_the_project(tmp_path: Path) -> None:
    project = read_project(made(tmp_path / "house", FULL)).project
    assert project.walls["W1"].openings["D1"].lintel is not None
    assert project.walls["W5"].use == "interior" and project.walls["W5"].mix == "M1"
    assert project.walls["W2"].footing == "F1" and project.walls["W2"].loads["L1"].dead.text == "900 lb"
    bears = {mark: wall.bears_load for mark, wall in project.walls.items()}
    assert bears == {"W1": True, "W2": True, "W3": True, "W4": False, "W5": True}
    assert project.mixes["M1"].straw == "wheat" and project.mixes["M1"].straw_parts == 0.6
    assert [one.wall for one in project.roofs["R1"].bears_on] == ["W1", "W3"]
    assert project.site.wind_speed is not None and project.site.wind_speed.text == "110 mph"
    assert project.people.owner is not None and project.people.owner.name == "Ana Diaz"
    assert {test.kind for test in project.test_sets.values()} == {"compression", "shrinkage"}
    assert project.soils["S2"].material == "sand"


def test_the_schema_is_named_on_the_first_line_and_copied(tmp_path: Path) -> None:
    folder = made(tmp_path / "house", FIRST)
    first = (folder / "project.yaml").read_text(encoding="utf-8").partition("\n")[0]
    assert first == "# yaml-language-server: $schema=schemas/project.schema.json"
    assert (folder / "schemas" / "project.schema.json").is_file()
    first = (folder / "amendments.yaml").read_text(encoding="utf-8").partition("\n")[0]
    assert first == "# yaml-language-server: $schema=schemas/amendment.schema.json"
    assert (folder / "schemas" / "amendment.schema.json").is_file()
    for kind in ("compression", "rupture", "shrinkage"):
        assert (folder / "lab" / f"{kind}.csv").read_text(encoding="utf-8").count("\n") == 1


BLANK = re.compile(r"^(?P<indent> *)# (?P<text> *(- )?[A-Za-z_0-9]+:.*)$")
ROUND = FIRST.replace("length: 24 ft\nwidth: 16 ft", "length: round\ndiameter: 18 ft")
EARTH = """\
name: Field Day
begin: earth
soils: pit clay, river sand
soil.1.jar: 3 in, 3 5/8 in, 4 1/8 in
trials: 1:1, 1:2
trial.1: 80 %, 3
mix: P1
"""
FOLDERS = {"first": FIRST, "full": FULL, "round": ROUND, "earth": EARTH}


def begun_with_the_earth(folder: Path, units: str) -> Path:
    """A folder of the earth that went on with a round building."""
    made(folder, f"{EARTH}units: {units}\n")
    project = read_project(folder).project
    known, there = known_answers(project), standing(project)
    given_answers = parse_yaml(f"{ROUND}roof: framed 15 ft\nmix: M1\n", "answers.yaml")
    add_building(folder, answers_of(given_answers, new_project(DAY, there), known=known), there, DAY)
    return folder


def blanks(text: str) -> list[list[int]]:
    """Numbers of the lines to uncomment together: a blank of a record that is there by itself; of a sample record its
    heads and the fields that it needs, with each other field in turn, and the whole."""
    lines = text.splitlines()
    found: list[list[int]] = []
    block: list[int] = []
    for number, line in enumerate([*lines, ""]):
        match = BLANK.match(line) if number else None  # the first line is for editors
        if match and not match["indent"]:
            block.append(number)
        elif match:
            found.append([number])
        elif not line.startswith("##") and block:
            heads = [one for one in block if re.fullmatch(r"# *[A-Za-z0-9_]+:", lines[one]) or "needed" in lines[one]]
            found += [sorted({*heads, one}) for one in block if len(block) > len(heads) or one == block[0]]
            found.append(block)
            block = []
    return found


def without_marks(text: str, chosen: list[int]) -> str:
    lines = text.splitlines()
    for number in chosen:
        match = BLANK.match(lines[number])
        assert match
        lines[number] = match["indent"] + match["text"]
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", [*FOLDERS, "both"])
def test_every_blank_reads_as_it_stands(tmp_path: Path, name: str, units: str) -> None:
    """Each in turn, and all of a folder at once, which is checked to the end."""
    house = tmp_path / "house"
    both = name == "both"
    folder = begun_with_the_earth(house, units) if both else made(house, f"{FOLDERS[name]}units: {units}\n")
    texts = {path: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.yaml"))}
    tried, wrong = 0, []
    for path, text in texts.items():
        for chosen in blanks(text):
            path.write_text(without_marks(text, chosen), encoding="utf-8")
            try:
                read_project(folder)
            except ProblemsFound as found:
                wrong.append(f"{path.name}: {text.splitlines()[chosen[-1]].strip()}: {found}")
            tried += 1
        path.write_text(text, encoding="utf-8")
    assert wrong == [], "\n".join(wrong)
    assert tried > (60 if name == "earth" else 150)
    for path, text in texts.items():
        every = sorted({number for chosen in blanks(text) for number in chosen})
        path.write_text(without_marks(text, every), encoding="utf-8")
    check_folder(folder)


def test_a_section_is_never_written_twice_in_a_file(tmp_path: Path) -> None:
    """`soils: {}` beside a blank `soils:` would collide as soon as the blank is taken up."""
    for number, text in enumerate(FOLDERS.values()):
        for path in made(tmp_path / str(number), text).glob("*.yaml"):
            heads = re.findall(r"^(?:# )?([a-z_]+):", path.read_text(encoding="utf-8"), re.MULTILINE)
            assert len(set(heads)) == len(heads), path.name


def test_a_blank_section_counts_as_not_there(tmp_path: Path) -> None:
    folder = made(tmp_path / "house", FIRST)
    ground, project = folder / "ground.yaml", folder / "project.yaml"
    ground.write_text("soils:\n", encoding="utf-8")
    project.write_text(project.read_text("utf-8") + "soils: {}\nmixes:\n", encoding="utf-8")
    assert read_project(folder).project.soils == {}
    ground.write_text("# nothing yet\n", encoding="utf-8")
    assert read_project(folder).project.soils == {}


def test_what_is_not_there_yet_stays_a_note(tmp_path: Path) -> None:
    folder = made(tmp_path / "house", FIRST)
    walls = (folder / "walls.yaml").read_text(encoding="utf-8")
    assert "    ## stem: ST1 " in walls and "## attachments:" in (folder / "project.yaml").read_text(encoding="utf-8")
    full = (made(tmp_path / "more", FULL) / "walls.yaml").read_text(encoding="utf-8")
    assert "    stem: ST1\n" in full


@given(st.text(st.characters(codec="utf-8", exclude_categories=("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")), min_size=1))
def test_texts_read_back_as_they_were(text: str) -> None:
    read = parse_yaml(f"a: {scalar(text)}\nb: {flow([text, {'c': text}])}\n", "form")
    assert str(read["a"]) == text or float(read["a"]) == float(text)
    if isinstance(read["a"], str):
        assert read["b"] == [text, {"c": text}]


@given(st.dictionaries(st.from_regex(r"[a-z]+(\.[0-9]+)?", fullmatch=True), st.text("ab 'é:#\"{}1,", max_size=12)))
def test_kept_answers_read_back(tmp_path_factory: pytest.TempPathFactory, answers: dict[str, str]) -> None:
    path = tmp_path_factory.mktemp("kept") / "house-answers.yaml"
    keep(answers, path, path.with_name("house"))
    assert kept(path) == answers
    assert path.exists() == bool(answers)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (FIRST.replace("8 ft", "8"), "measure-no-unit"),
        (FIRST + "widht: 3 ft\n", "start-unknown"),
        (FIRST.replace("width: 16 ft\n", ""), "start-missing"),
        (FIRST + "mix: clay\n", "start-parts"),
        (FIRST.replace("cob-practice", "cob-practise"), "start-choice"),
        (FIRST + "walls: [{from: 3 ft, to: [0 ft, 0 ft]}]\n", "start-point"),
        (FIRST + "openings: {W1: [{kind: door, start: 22 ft, width: 3 ft, sill: 0 ft, height: 7 ft}]}\n",
         "opening-outside"),
    ],
)  # fmt: skip
def test_a_wrong_file_of_answers_is_told_where(text: str, code: str) -> None:
    with pytest.raises(ProblemsFound) as found:
        answers_of(parse_yaml(text, "answers.yaml"), new_project(DAY))
    assert code in {problem.code for problem in found.value.problems}


@pytest.mark.parametrize("text", ["", "clay", "0 clay", "-1 clay", "1 clay, 1 clay", "2 wheat straw", "1/0 clay"])
def test_parts_that_are_none(text: str) -> None:
    with pytest.raises(RefusedError):
        read_parts(text)


TABLE = """\
mark,name,from x [ft],from y [ft],to x [ft],to y [ft],height [ft],thickness [in],use
A,south,0,0,20,0,8,16,exterior
B,east,20,0,20,14.5,8,16,exterior
C,middle,10,0,10,14.5,8,12,interior
"""


def test_walls_from_a_table(tmp_path: Path) -> None:
    (tmp_path / "walls.csv").write_text(TABLE, encoding="utf-8")
    text = f"name: A\nplace: B\nrule_sets: cob-practice\nlength: {tmp_path / 'walls.csv'}\nouter: {{braces: yes}}\n"
    project = read_project(made(tmp_path / "house", text)).project
    assert list(project.walls) == ["A", "B", "C"]
    assert project.walls["A"].braces is True and project.walls["C"].braces is None
    assert project.walls["B"].run is not None and project.walls["B"].run.end[1].si == pytest.approx(14.5 * 0.3048)


def test_walls_from_a_workbook(tmp_path: Path) -> None:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    for line in TABLE.splitlines():
        book.active.append([float(cell) if re.fullmatch(r"[0-9.]+", cell) else cell for cell in line.split(",")])
    book.save(tmp_path / "walls.xlsx")
    (tmp_path / "walls.csv").write_text(TABLE, encoding="utf-8")
    assert read_wall_table(tmp_path / "walls.xlsx") == read_wall_table(tmp_path / "walls.csv")


@pytest.mark.parametrize(
    ("table", "code"),
    [
        (TABLE + "A,again,0,0,20,0,8,16,exterior\n", "start-wall-twice"),
        (TABLE.replace("\nC,", "\n1C,"), "mark"),
        (TABLE.partition("\n")[0] + "\n", "start-no-walls"),
        (TABLE.replace("height [ft]", "height"), "csv-unit-missing"),
    ],
)
def test_a_wrong_table_is_told_where(tmp_path: Path, table: str, code: str) -> None:
    path = tmp_path / "walls.csv"
    path.write_text(table, encoding="utf-8")
    with pytest.raises(ProblemsFound) as found:
        read_wall_table(path)
    assert [problem.code for problem in found.value.problems] == [code]


def test_a_folder_that_holds_something_is_refused(tmp_path: Path) -> None:
    folder, answers = tmp_path / "house", tmp_path / "house" / "house-answers.yaml"
    assert refusal(folder, answers) == ""
    folder.mkdir()
    answers.write_text("a: b\n", encoding="utf-8")
    assert refusal(folder, answers) == ""
    (folder / "notes.txt").write_text("mine", encoding="utf-8")
    assert "not empty" in refusal(folder, answers)
    assert "of that name" in refusal(folder / "notes.txt", answers)
    assert "is not there" in refusal(tmp_path / "no" / "house", answers)


def test_a_folder_with_its_own_answers_becomes_the_project(tmp_path: Path) -> None:
    folder, answers = tmp_path / "house", tmp_path / "house" / "house-answers.yaml"
    folder.mkdir()
    answers.write_text("a: b\n", encoding="utf-8")
    write_project(folder, answers_of(parse_yaml(FIRST, "answers"), new_project(DAY)), answers, DAY)
    assert check_folder(folder).project.project.name == "Clay Cottage"
    assert [path.name for path in tmp_path.iterdir()] == ["house"] and not answers.exists()


def test_nothing_is_left_where_writing_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(folder: Path) -> None:
        raise OSError(28, "no space left")

    monkeypatch.setattr("compliance.start.project_files.created_folder.check_folder", fails)
    answers = answers_of(parse_yaml(FIRST, "answers"), new_project(DAY))
    with pytest.raises(OSError, match="no space"):
        write_project(tmp_path / "house", answers, tmp_path / "house-answers.yaml", DAY)
    assert list(tmp_path.iterdir()) == []


def test_the_command_with_a_file_of_answers(tmp_path: Path) -> None:
    (tmp_path / "answers.yaml").write_text(FULL, encoding="utf-8")
    command = [sys.executable, "-m", "compliance", "start", "house", "--answers", "answers.yaml"]
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    done = subprocess.run(command, capture_output=True, text=True, cwd=tmp_path, env=environment, check=False)
    assert done.returncode == 0, done.stderr
    again = subprocess.run(command, capture_output=True, text=True, cwd=tmp_path, env=environment, check=False)
    assert again.returncode == 2 and "section: openings" in again.stderr


@pytest.mark.parametrize("named", EXAMPLES, ids=".".join)
@pytest.mark.parametrize("units", ["us", "si"])
def test_each_example_of_a_field_is_taken_by_it(named: tuple[str, str], units: str) -> None:
    models = {model.__name__: model for model in (Opening, Lintel, Site, Stem, Footing, BondBeam, Roof)}
    example = example_of(models[named[0]], named[1], units)
    assert example == EXAMPLES[named][units == "si"]
    assert read_field(models[named[0]], named[1], example) == example
