"""An L-shaped house with a round end, seven openings, two mixes and four sets of cubes: from nothing to a draft
submittal in a real terminal. No file is opened by hand but to paste the rows of the laboratory."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.refused import RefusedError
from compliance.start.interview.first_questions import script
from compliance.start.interview.optional_questions import read_tests
from compliance.start.interview.trial_reading import new_project, write_files
from compliance.start.interview.unattended import answers_of
from compliance.start.shapes.building_shapes import NAMES
from compliance.start.shapes.outline_path import path_walls, read_path
from tests.unit.test_start_earth import run, talk_through

DAY = date(2026, 5, 14)
MOST_PROMPTS = 70
OUTLINE = "0 ft, 0 ft; 26 ft, 0 ft; through 33 ft, 7 ft; 26 ft, 14 ft; 14 ft, 14 ft; 14 ft, 26 ft; 0 ft, 26 ft"
LINTEL = ("wood", "12 in", "8 in", "14 in")
HOUSE = (
    "Round End", "", "Quillmoor County", "cob-irc-2021-au, cob-practice, earth-evidence", "", "lines", OUTLINE, "8 ft",
    "18 in", "1 clay soil, 2 sand, 0.6 wheat straw", "framed 11 ft", "W1, W3, W6", "", "B", "", "yes",
    "door", "4 ft", "3 ft", "0 ft", "6 ft 8 in", *LINTEL,
    "window", "12 ft", "3 ft", "2 ft 6 in", "4 ft", *LINTEL, "same", "20 ft", "",
    "",  # nothing in the round end
    "same", "4 ft", "", "same", "5 ft", "", "same", "5 ft", "", "same", "12 ft", "",
    "",  # no more walls
    "", "yes", "skip",
    "B", "110 mph", "C", "25 psf", "skip",
    "skip", "skip", "skip",  # stem walls, footings and bond beam are still to be decided
    "4:12", "skip", "",
    "2 compression", "1 clay soil, 1 sand, 1 wheat straw", "W2", "2 compression",
)  # fmt: skip
HEAD = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\n"
)
ROWS = [
    f"T{number},T{number}-{each},{'M1' if number < 3 else 'M2'},2026-03-02,2026-04-20,air,cube,4,4,4,4.1,{load},\n"
    for number in range(1, 5) for each, load in enumerate((2160, 2240, 2080, 2320, 2200), 1)
]  # fmt: skip


def test_from_nothing_to_a_draft_submittal(tmp_path: Path) -> None:
    folder = tmp_path / "house"
    assert talk_through(folder, HOUSE) <= MOST_PROMPTS
    (folder / "lab" / "compression.csv").write_text(HEAD + "".join(ROWS), encoding="utf-8")
    checked = check_folder(folder)
    project = checked.project
    assert [bool(wall.arc) for wall in project.walls.values()] == [False, True, False, False, False, False]
    assert {mark: wall.mix for mark, wall in project.walls.items() if wall.mix != "M1"} == {"W2": "M2"}
    holes = [hole for wall in project.walls.values() for hole in wall.openings.values()]
    assert len(holes) == 7 and [hole.kind for hole in holes] == ["door", *["window"] * 6]
    assert {hole.sill.text for hole in holes[1:]} == {"2 ft 6 in"} and len({hole.start.text for hole in holes}) == 4
    assert [(one.kind, one.mix) for one in project.test_sets.values()] == [
        ("compression", "M1"), ("compression", "M1"), ("compression", "M2"), ("compression", "M2"),
    ]  # fmt: skip
    assert all(one.fact("wall.free_ends").value == 0.0 for one in checked.facts.of("wall").values())
    code, text = run(tmp_path, "submittal", "house", "--draft", "--one-file")
    assert code == 0, text
    assert next((tmp_path / "out").rglob("*.pdf")).read_bytes().startswith(b"%PDF")


@pytest.mark.parametrize(("text", "walls"), [
    ("0 ft, 0 ft; 9 ft, 0 ft; 9 ft, 9 ft", 3), ("0 ft, 0 ft; 9 ft, 0 ft; 9 ft, 9 ft; 0 ft, 0 ft", 3),
    ("0 ft, 0 ft; 9 ft, 0 ft; open", 1), ("0 m, 0 m; through 1 m, 1 m; 2 m, 0 m; through 1 m, -1 m; 0 m, 0 m", 2),
])  # fmt: skip
def test_an_outline_closes_unless_it_is_open(text: str, walls: int) -> None:
    assert read_path(text) == text and len(path_walls(text)) == walls
    legs = [one.get("run") or one["arc"] for one in path_walls(text).values()]
    assert all(one["to"] == other["from"] for one, other in pairwise(legs))


@pytest.mark.parametrize("text", [
    "", "open", "0 ft, 0 ft", "through 0 ft, 0 ft; 1 ft, 1 ft", "0 ft, 0 ft; through 1 ft, 1 ft; open",
    "0 ft, 0 ft; through 1 ft, 1 ft; through 2 ft, 1 ft; 3 ft, 0 ft", "0 ft, 0 ft; 9 ft", "0 ft, 0 ft; 9, 0",
])  # fmt: skip
def test_what_is_no_outline_is_refused(text: str) -> None:
    with pytest.raises(RefusedError):
        read_path(text)


def test_a_court_closes_with_the_length_that_geometry_gives(tmp_path: Path) -> None:
    """Center lines by hand: twice the outside sizes less 16 in, and twice the depth of the court."""
    text = (
        "name: House\nplace: Quillmoor County\nrule_sets: cob-practice\nheight: 8 ft\nthickness: 16 in\nlength: U\n"
        "size_east: 40 ft\nsize_north: 28 ft\nwing_south: 14 ft\nwing_west: 13 ft\nwing_east: 12 ft\n"
    )  # fmt: skip
    write_files(tmp_path, answers_of(parse_yaml(text, "answers.yaml"), new_project(DAY)), DAY)
    subjects = check_folder(tmp_path).facts.of("wall")
    total = 0.0
    for one in subjects.values():
        length = one.fact("wall.length").value
        assert isinstance(length, float) and one.fact("wall.free_ends").value == 0.0
        total += length / 0.3048
    assert len(subjects) == len(NAMES["U"]) and total == pytest.approx(2 * (40 + 28 - 8 / 3) + 2 * 14, rel=2e-3)


def test_same_waits_for_an_opening_and_sets_are_counted() -> None:
    first = {"name": "H", "begin": "building", "place": "Q", "rule_sets": "cob-practice", "units": "us",
             "length": "20 ft", "width": "16 ft", "height": "8 ft", "thickness": "16 in", "mix": "1 clay", "roof": "",
             "point_loads": "", "site.soil_group": "", "more": "yes"}  # fmt: skip
    asked = next(one for one in script(first) if one.key not in first)
    assert asked.key == "openings.W1.1.kind" and "same" not in [word for word, _ in asked.choices]
    assert read_tests("2 compression, shrinkage") == "compression, compression, shrinkage"
    assert read_tests("1, 1, 3") == "compression, compression, shrinkage" == read_tests(read_tests("1, 1, 3"))
    for wrong in ("", "0 compression", "99 compression", "2 cubes"):
        with pytest.raises(RefusedError):
            read_tests(wrong)
