"""A folder that is gone on with, section by section: what its files do not say yet is written in its place, and no
other line changes."""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from pathlib import Path

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.file_edits import ChangedMeanwhileError, digests
from compliance.problems import ProblemsFound
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.start.continuing.going_on import SECTIONS, proposed_after, round_script, write_round
from compliance.start.interview.unattended import answers_of
from compliance.start.project_files.added_building import known_answers
from tests.unit.test_start_files import DAY, EARTH, FIRST, FULL, made

MINE = "  # mine: asked on the phone, 3 May"


def commented(folder: Path) -> dict[str, str]:
    """Every file with comments of its owner: a line on top, a line at the end, and one behind each value of its own."""
    texts = {}
    for path in sorted(folder.glob("*.yaml")):
        lines = path.read_text("utf-8").splitlines()
        ours = [
            line + MINE if ": " in line and "#" not in line and not line.endswith((">-", "|")) else line
            for line in lines
        ]
        path.write_text("\n".join([lines[0], "# my own line", *ours[1:], "# the end of my file"]) + "\n", "utf-8")
        texts[path.name] = path.read_text("utf-8")
    return texts


def go(folder: Path, answers: str) -> Checked | None:
    """One round with the answers of a file."""
    project = check_folder(folder).project
    seen = digests(folder)
    script = round_script(folder, project, proposed_after(project, ""), DAY)
    given = answers_of(parse_yaml(answers, "answers.yaml"), script, known=known_answers(project))
    return write_round(folder, project, given, seen, DAY)


def changes(folder: Path, before: Mapping[str, str]) -> tuple[list[str], list[str]]:
    """Lines that are gone, and lines that are new."""
    gone, new = [], []
    for name, text in before.items():
        lines = difflib.ndiff(text.splitlines(), (folder / name).read_text("utf-8").splitlines())
        for line in lines:
            gone += [line[2:]] if line.startswith("- ") else []
            new += [line[2:]] if line.startswith("+ ") else []
    return gone, new


def is_blank(line: str) -> bool:
    """A blank of the form, with no word of the owner's."""
    return line.lstrip().startswith("#") and MINE not in line


def holds(longer: str, line: str) -> bool:
    """Whether one line is the other with something put in: an opening in a row of openings."""
    rest = iter(longer)
    return all(character in rest for character in line)


ROUNDS = {
    "earth": """\
soil.S1.dug: 3 ft, no
soil.S1.jar: 3 in, 3 5/8 in, 4 1/8 in
more_soils: bank clay, pit sand
soil.S3: {dug: "2 ft, yes", jar: "2 in, 3 in, 4 in"}
more_trials: "1:2:0:0, 0:0:1:2 + 0.5 straw"
drop_height: 6 ft
trial.P1: 80 %, 3
trial.P2: 50 %, 5
mix: P1
""",
    "walls": """\
wall_types.outer.retains_soil: no
wall_types.outer.top_restraint: roof
point_loads: "W2 at 7 ft: 900 lb, 0 lb, 1300 lb"
walls: [{from: [12 ft, 0 ft], to: [12 ft, 14 ft 8 in], use: interior, height: 8 ft, thickness: 12 in}]
""",
    "openings": """\
openings_in: W3
openings.W3: [{kind: window, start: 4 ft, width: 3 ft, sill: 2 ft 6 in, height: 4 ft, lintel: wood,
               lintel_bearing: 12 in}]
walls.W1.openings.N2.lintel.material: wood
walls.W1.openings.N2.lintel.bearing: 14 in
""",
    "roof": "roofs.R1: {slope: '4:12', rafter_spacing: 24 in}\n",
    "ground": "site: {soil_group: CL, ground_snow: 30 psf}\nstems.ST1.above_grade: 12 in\nfootings.F1.bottom: 24 in\n",
    "tests": "tests.M1: 2 compression, rupture\n",
    "permit": "project: {parcel: 12-0487, floor_area: 320 ft2}\npeople: {lab: Test House, lab_accreditation: No. 7}\n",
}
"""What each section is answered in the folder of all answers, which lacks little."""


def test_every_section_writes_in_place_and_leaves_all_else_alone(tmp_path: Path) -> None:
    text = FULL.replace('point_loads: "W2 at 7 ft: 900 lb, 0 lb, 1300 lb"\n', "").replace(
        "top_restraint: bond-beam", ""
    )
    folder = made(tmp_path / "house", text.replace("method: A, }", "method: A}"))
    commented(folder)
    assert [one.name for one in SECTIONS] == list(ROUNDS)
    for section, answers in ROUNDS.items():
        before = {path.name: path.read_text("utf-8") for path in folder.glob("*.yaml")}
        tally = check_folder(folder).tally()
        after = go(folder, f"section: {section}\n{answers}")
        gone, new = changes(folder, before)
        assert after is not None and new, section
        assert all(is_blank(line) or any(holds(longer, line) for longer in new) for line in gone), (section, gone)
        assert check_folder(folder).tally() == after.tally()
        assert after.tally() != tally or section == "permit", section
    project = check_folder(folder).project
    assert list(project.soils) == ["S1", "S2", "S3", "S4"] and project.soils["S3"].organic is True
    assert project.soils["S1"].jar is not None and project.mixes["M2"].trial == "P1"
    assert project.walls["W6"].mix == "M1" and project.walls["W2"].loads["L1"].snow.text == "1300 lb"
    assert project.walls["W3"].openings["N1"].lintel is not None
    lintel = project.walls["W1"].openings["N2"].lintel
    assert lintel is not None and lintel.bearing is not None and lintel.bearing.text == "14 in"
    assert project.stems["ST1"].above_grade is not None and project.site.soil_group == "CL"
    assert [one.kind for one in project.test_sets.values()] == [
        "compression",
        "shrinkage",
        *["compression"] * 2,
        "rupture",
    ]
    assert project.people.lab is not None and project.people.lab.accreditation == "No. 7"


def test_parts_that_are_new_stand_in_their_blanks_and_under_the_wall_type(tmp_path: Path) -> None:
    """A folder after a first check: no stem wall, footing, beam or roof is described yet."""
    folder = made(tmp_path / "house", FIRST)
    before = commented(folder)
    go(folder, "section: ground\nstems.ST1: {material: stone, thickness: 18 in}\nfootings.F1.kind: rubble-trench\n")
    go(folder, "section: roof\nroof: framed 15 ft\nroofs.R1.overhang: 24 in\n")
    go(folder, "section: walls\nroof_walls.R1: [W1, W3]\n")
    ground = (folder / "ground.yaml").read_text("utf-8")
    assert "\nstems:\n  ST1:\n    material: stone" in ground and "\n    thickness: 18 in\n" in ground
    assert all(is_blank(line) for line in changes(folder, before)[0])
    project = check_folder(folder).project
    assert {(wall.stem, wall.footing) for wall in project.walls.values()} == {("ST1", "F1")}
    assert [one.wall for one in project.roofs["R1"].bears_on] == ["W1", "W3"]
    assert [wall.bears_load for wall in project.walls.values()] == [True, False, True, False]


def test_soils_are_added_to_a_folder_of_the_earth(tmp_path: Path) -> None:
    folder = made(tmp_path / "day", EARTH)
    before = commented(folder)
    after = go(folder, "section: earth\nmore_soils: bank clay\nsoil.S3.jar: 2 in, 3 in, 4 in\nmore_trials: '0:1:1'\n")
    assert after is not None and after.project.is_earth_only and after.project.trials["P3"].parts == {"S2": 1, "S3": 1}
    assert changes(folder, before)[0] == []
    assert go(folder, "section: done\n") is None


def test_what_is_written_already_is_not_asked_and_what_does_not_fit_is_refused(tmp_path: Path) -> None:
    folder = made(tmp_path / "house", FULL)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    for answers, code in (
        ("section: ground\nsite.wind_speed: 90 mph\n", "start-unknown"),
        ("section: openings\nopenings_in: W9\n", "start-choice"),
        ("section: openings\nopenings_in: W3\n"
         "openings.W3: [{kind: window, start: 23 ft, width: 3 ft, sill: 2 ft, height: 4 ft}]\n", "opening-outside"),
        ("section: cellar\n", "start-choice"),
    ):  # fmt: skip
        with pytest.raises(ProblemsFound) as found:
            go(folder, answers)
        assert code in {one.code for one in found.value.problems}, answers
    project, seen = check_folder(folder).project, digests(folder)
    script = round_script(folder, project, "ground", DAY)
    given = answers_of(parse_yaml("section: ground\nsite.frost_depth: 2 ft\n", "a"), script)
    (folder / "project.yaml").write_bytes(before[folder / "project.yaml"] + b"# written meanwhile\n")
    with pytest.raises(ChangedMeanwhileError):
        write_round(folder, project, given, seen, DAY)
    before[folder / "project.yaml"] += b"# written meanwhile\n"
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before
