"""A broken file for each kind of problem, with its exact line and column, and what a sound folder gives."""

from __future__ import annotations

import math
import re

import pytest
from pydantic import BaseModel, ValidationError

from compliance.checking import check_folder
from compliance.model.materials import Mix
from compliance.model.site import Site
from compliance.model.structure import BondBeam, Footing, Roof, Stem
from compliance.model.walls import Opening, Wall
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.reading.validation import problems_of
from compliance.reading.yaml.placed import PlacedDict
from tests.conftest import HEAD, RULES, WALLS, Write

LINES = HEAD.count("\n")


def problems(project: Write, **parts: object) -> list[tuple[str, int, int, str]]:
    """File, line, column and code of every problem; lines of project.yaml counted after the head."""
    folder = project(**parts)
    with pytest.raises(ProblemsFound) as found:
        check_folder(folder)
    rows = []
    for problem in found.value.problems:
        name = problem.place.file.rpartition("/")[2]
        line = problem.place.line - (LINES if name == "project.yaml" else 0)
        rows.append((name, line, problem.place.column, problem.code))
        assert problem.wrong and problem.instead, problem
    return rows


def one(project: Write, **parts: object) -> tuple[str, int, int, str]:
    found = problems(project, **parts)
    assert len(found) == 1, found
    return found[0]


DOOR = ", openings: {D1: {kind: door, start: 4 ft, width: 3 ft, height: 7 ft, sill: 0 ft}}}\n"
WALL = "walls:\n  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in}\n"


@pytest.mark.parametrize(
    ("text", "at", "code"),
    [
        (WALL.replace("height: 8 ft", "height: 8"), "8, thickness", "measure-no-unit"),
        (WALL.replace("8 ft", "8 psi"), "8 psi", "measure-dimension"),
        (WALL.replace("16 in", "1,6 m"), "6 m", "field-unknown"),
        (WALL.replace("height", "heigth"), "heigth", "field-unknown"),
        (WALL.replace("20 ft", "0 ft"), "{from", "wall-line"),
        (WALL.replace("run:", "arc:"), "{from", "field-missing"),
        (WALL.replace("16 in", "16 in, use: outdoors"), "outdoors", "word-unknown"),
        (WALL.replace("16 in", "16 in, mix: M9"), "M9", "mark-unknown"),
        (WALL.replace("16 in", "16 in, bears_load: maybe"), "maybe", "yes-or-no"),
        (WALL.replace("W1", "1W"), "1W", "mark"),
        (WALL.replace("thickness: 16 in", "thickness: 0 in"), "0 in}", "measure-zero"),
        (WALL.replace("thickness: 16 in", "thickness_base: 9 in, thickness_top: 12 in"), "{run", "wall-taper"),
        (WALL.replace(", thickness: 16 in", ""), "{run", "wall-thickness"),
        (WALL.replace("height: 8 ft, ", ""), "{run", "wall-height"),
        (WALL + "soils: 3\n", "soils: 3", "yaml-duplicate-key"),
        (WALL + "site: {ss: much}\n", "much", "wrong-kind"),
        (WALL + "site: {ss: 12}\n", "12}", "less-than-equal"),
        (WALL + "attachments: {a: {file: nowhere.pdf, title: x}}\n", "nowhere", "file-missing"),
        (WALL + "attachments: {a: {file: ../x.pdf, title: x}}\n", "../x", "path-parent"),
        (WALL + "include: [walls2.yaml]\n", "walls2", "file-missing"),
        (WALL + "include: [/etc/passwd]\n", "/etc", "path-absolute"),
        (WALL + "test_sets: {T1: {kind: compression, mix: M2}}\n", "M2", "mark-unknown"),
        (WALL + "inspections: [{rule: x, passed: yes, by: me, on: 2026-13-01}]\n", "2026-13", "date"),
        (WALL + "nonsense: {a: 1}\n", "nonsense", "field-unknown"),
        (WALL + "buttresses: {B1: {wall: W1, at: 21 ft, projection: 2 ft, width: 1 ft, height: 8 ft}}\n", "21 ft",
         "buttress-outside"),
        (WALL[:-2] + DOOR.replace("4 ft", "18 ft"), "3 ft, height: 7", "opening-outside"),
        (WALL[:-2] + DOOR.replace("7 ft", "9 ft"), "9 ft", "opening-outside"),
        (WALL[:-2] + DOOR.replace("4 ft", "20 ft").replace("3 ft", "0.0000001 in"), "0.0000001", "opening-outside"),
        (WALL[:-2] + DOOR.replace("7 ft", "0.0000001 in").replace("0 ft", "8 ft"), "0.0000001", "opening-outside"),
        (WALL[:-2] + DOOR[:-3] + ", D2: {kind: arch, start: 5 ft, width: 3 ft, height: 7 ft, sill: 0 ft}}}\n", "D2:",
         "openings-overlap"),
        (WALL.replace("8 ft,", "8 ft, height: 9 ft,"), "height: 9", "yaml-duplicate-key"),
        (WALL.replace("16 in", "&a 16 in"), "&a", "yaml-anchor"),
    ],
)  # fmt: skip
def test_each_broken_file(project: Write, text: str, at: str, code: str) -> None:
    """The problem stands where the text `at` begins."""
    before = text[: text.index(at)]
    place = before.count("\n") + 1, len(before.rpartition("\n")[2]) + 1
    found = problems(project, text=text)
    assert ("project.yaml", *place, code) in found, found


def test_all_problems_of_all_files_at_once(project: Write) -> None:
    found = problems(
        project,
        text=WALL.replace("8 ft", "8") + "include: [more.yaml]\nsite: {wind_speed: fast}\n",
        files={
            "more.yaml": "footings:\n  F1: {kind: mud}\n",
            "lab/compression.csv": "set,specimen\n",
        },
    )
    assert {name for name, *_ in found} == {"project.yaml", "more.yaml", "compression.csv"}
    assert ("more.yaml", 2, 14, "word-unknown") in found


def test_sections_of_included_files_are_merged(project: Write) -> None:
    more = "walls:\n  W2: {run: {from: [0 ft, 0 ft], to: [0 ft, 9 ft]}, height: 8 ft, thickness: 12 in}\n"
    read = read_project(project(text=WALLS + "include: [more.yaml]\n", files={"more.yaml": more}))
    assert list(read.project.walls) == ["W1", "W2"]
    assert str(read.where(("walls", "W2", "height"))) == "more.yaml:2:61"
    assert sorted(read.files) == ["more.yaml", "project.yaml"]


def test_the_same_mark_in_two_files(project: Write) -> None:
    found = one(project, text=WALLS + "include: [more.yaml]\n", files={"more.yaml": WALLS})
    assert found == ("more.yaml", 2, 3, "include-twice")


def test_a_wall_takes_from_its_type_what_it_does_not_say(project: Write) -> None:
    text = (
        "wall_types:\n  thick: {height: 7 ft, thickness: 20 in}\n"
        "walls:\n  W1: {type: thick, run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, thickness_base: 18 in, "
        "thickness_top: 14 in}\n"
    )
    wall = read_project(project(text=text)).project.walls["W1"]
    assert wall.height is not None and wall.height.text == "7 ft"
    assert wall.thickness is None and wall.thickness_top is not None


HEADER = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi],note\n"
)
SETS = "test_sets: {T1: {kind: compression, mix: M1}}\n"
ROW = "T1,A,M1,2026-01-01,2026-02-01,air,prism,4,4,8,8,1600,,\n"


@pytest.mark.parametrize(
    ("rows", "line", "column", "code"),
    [
        (ROW.replace("2026-02-01", "2025-02-01"), 2, 20, "lab-dates"),
        (ROW.replace("T1", "T9"), 2, 1, "lab-set"),
        (ROW.replace("1600", "-1600"), 2, 49, "csv-negative"),
        (ROW.replace(",M1,", ",M7,"), 2, 1, "lab-mix"),
        (ROW.replace(",4,4,", ",0,4,"), 2, 41, "lab-zero"),
        (ROW + ROW, 2, 1, "lab-repeated"),
        (ROW.replace("prism", "ball"), 2, 35, "csv-choice"),
    ],
)
def test_wrong_rows(project: Write, rows: str, line: int, column: int, code: str) -> None:
    found = problems(project, text=WALLS + SETS, files={"lab/compression.csv": HEADER + rows})
    assert ("compression.csv", line, column, code) in found, found


@pytest.mark.parametrize(
    ("change", "at", "code"),
    [
        (("10 in", "10 spans"), "10 spans", "measure-unit"),
        (("10 in", "10 psi"), "wall.least", "formula-dimension"),
        (("wall.least_thickness", "wall.leest_thickness"), "wall.leest", "formula-name"),
        (("about: wall", "about: walls"), "walls", "word-unknown"),
        (("standing: read, source: trial", "standing: read"), "{value", "limit-source"),
        (("10 in, standing: read", "open, standing: read"), "{value", "limit-open"),
        (("{least: {", "{most: {value: 1 in, standing: recalled}, least: {"), "{value: 1", "limit-unused"),
        (("    check: wall.least_thickness >= least\n", ""), "id: thick", "rule-check"),
        (("least: {value: 10 in", "least: {value: 10"), "wall.least", "formula-dimension"),
        (("say: Thick enough.", "say: Thick enough.\n  - {id: thick-enough, title: T, clause: C, about: wall, say: s, "
          "check: wall.has_beam}"), "thick-enough, title", "rule-repeated"),
    ],
)  # fmt: skip
def test_broken_rule_sets(project: Write, change: tuple[str, str], at: str, code: str) -> None:
    rules = RULES.replace(*change)
    before = rules[: rules.index(at)]
    place = before.count("\n") + 1, len(before.rpartition("\n")[2]) + 1
    found = problems(project, rules=rules)
    assert ("rules.yaml", *place, code) in found, found


def test_a_folder_that_is_not_there(tmp_path: object) -> None:
    from pathlib import Path

    with pytest.raises(ProblemsFound) as found:
        read_project(Path(str(tmp_path)) / "none")
    assert found.value.problems[0].code == "folder-missing"


def test_unknown_rule_set_names_the_nearest(project: Write) -> None:
    head = HEAD.replace("rules.yaml", "cob-practise")
    with pytest.raises(ProblemsFound) as found:
        check_folder(project(head=head))
    assert "did you mean cob-practice?" in found.value.problems[0].instead


def test_units_as_people_write_them_in_a_project(project: Write) -> None:
    wall = WALL.replace("[0 ft, 0 ft]", "[0, 0]").replace("height: 8 ft", "height: 8' 6")
    text = (wall.replace("16 in", "16½ inches")
            + "roofs: {R1: {kind: framed, slope: 6:12, dead: 1 lb/ft2, uplift_anchor: \"1,200 lbs\"}}\n")  # fmt: skip
    built = read_project(project(text=text)).project
    described, roof = built.walls["W1"], built.roofs["R1"]
    assert described.height is not None and described.height.si == pytest.approx(102 * 0.0254)
    assert roof.slope is not None and roof.slope.si == pytest.approx(math.atan(0.5))
    assert str(roof.slope) == "6:12" and roof.uplift_anchor is not None


def test_a_comma_in_a_project_in_si_units_is_asked(project: Write) -> None:
    roof = 'roofs: {R1: {kind: framed, dead: "1,200 psf"}}\n'
    folder = project(text=WALL + roof)
    assert read_project(folder).project.roofs["R1"].dead
    said = (folder / "project.yaml").read_text(encoding="utf-8")
    (folder / "project.yaml").write_text(said.replace("project: {", "project: {units: si, "), encoding="utf-8")
    with pytest.raises(ProblemsFound) as found:
        read_project(folder)
    assert [one.code for one in found.value.problems] == ["measure-comma"]


@pytest.mark.parametrize(
    ("model", "written", "proposed"),
    [
        (Footing, "depth", "bottom: or thickness:"), (Stem, "height", "above_grade:"),
        (BondBeam, "thickness", "depth:"),
        (BondBeam, "bolts", "anchors:"), (Opening, "sill_height", "sill:"), (Opening, "from", "start:"),
        (Site, "sdc", "seismic_category:"), (Site, "snow", "ground_snow:"), (Wall, "bases", ""),
        (Wall, "thicknes", "thickness:"), (Footing, "size", ""), (Mix, "strength", ""), (Roof, "eaves", "overhang:"),
        (Site, "wind", "wind_speed: or wind_exposure:"), (Mix, "density", "dry_density:"),
    ],
)  # fmt: skip
def test_only_fields_that_mean_the_same_are_proposed(model: type[BaseModel], written: str, proposed: str) -> None:
    """Letters alone would turn the height of a sill into that of the opening, and a category into an acceleration."""
    tree = PlacedDict("project.yaml", (1, 1))
    tree[written] = "1 ft"
    with pytest.raises(ValidationError) as refused:
        model.model_validate(tree)
    [one] = [one for one in problems_of(refused.value, tree, model) if one.code == "field-unknown"]
    found = re.fullmatch(r"did you mean (.*)\?|write (.*)", one.instead)
    assert ((found and (found[1] or found[2])) or "") == proposed
