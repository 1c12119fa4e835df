"""A laboratory's own tables: headings, units and constants as the `lab:` section says; slips by their place."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any

import openpyxl
import pytest

from compliance.checking import check_folder
from compliance.model.specimens import Specimen
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from tests.conftest import HEAD, WALLS, Write
from tests.unit.test_cli import run

SETS = "test_sets: {C1: {kind: compression, mix: M1}, R1: {kind: rupture, mix: M1}}\n"
LAB = """\
lab:
  compression:
    file: lab/theirs.csv
    columns: {set: Set no., specimen: Piece, width: Breadth, depth: Depth (mm), peak_load: "Load, greatest"}
    units: {depth: mm, peak_load: kN}
    every_row: {dried: air, shape: prism, height: 8 in}
"""
TABLE = """\
Set no.;Piece;Breadth [mm];Depth (mm);Load, greatest;Room
C1;C1-1;100;100;10;east
C1;C1-2;100;101;11;west
"""
LINES = (HEAD + WALLS + SETS).count("\n")


def specimens(folder: Any) -> dict[str, Specimen]:
    return {one.mark: one for rows in read_project(folder).specimens.values() for one in rows}


def problems(project: Write, **parts: Any) -> list[tuple[str, int, int, str]]:
    """File, line, column and code; lines of project.yaml counted from the first of the `lab:` section."""
    with pytest.raises(ProblemsFound) as found:
        read_project(project(**parts))
    rows = []
    for problem in found.value.problems:
        name = problem.place.file.rpartition("/")[2]
        rows.append(
            (name, problem.place.line - (LINES if name == "project.yaml" else 0), problem.place.column, problem.code)
        )
        assert problem.wrong and problem.instead, problem
    return rows


def at(text: str, part: str) -> tuple[int, int]:
    before = text[: text.index(part)]
    return before.count("\n") + 1, len(before.rpartition("\n")[2]) + 1


def test_their_headings_units_and_constants_become_ours(project: Write) -> None:
    found = specimens(project(text=WALLS + SETS + LAB, files={"lab/theirs.csv": TABLE}))
    one = found["C1-2"]
    assert (one.set, one.mix, one.dried, one.shape) == ("C1", "M1", "air", "prism")
    assert (one.width, one.depth, one.height, one.peak_load) == pytest.approx((0.1, 0.101, 0.2032, 11_000))
    assert one.extra == {"Room": "west"} and str(one.place) == "lab/theirs.csv:3:1"


def test_the_table_stands_between_a_letterhead_and_a_mean(project: Write) -> None:
    table = "Laboratory, of somewhere\n\n" + TABLE + "mean;;100;100.5;10.5;\n"
    lab = LAB.replace("columns:", "heading_row: 3\n    last_row: 5\n    columns:")
    assert set(specimens(project(text=WALLS + SETS + lab, files={"lab/theirs.csv": table}))) == {"C1-1", "C1-2"}


def test_own_and_mapped_tables_are_read_side_by_side(project: Write) -> None:
    own = (
        "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
        "strength [psi]\n"
        "C1,C1-9,M1,,,air,cube,4,4,4,,1600,\n"
    )
    files = {"lab/theirs.csv": TABLE, "lab/compression.csv": own}
    assert set(specimens(project(text=WALLS + SETS + LAB, files=files))) == {"C1-1", "C1-2", "C1-9"}


def book(change: Callable[[Any], None] | None = None) -> bytes:
    made = openpyxl.Workbook()
    sheet = made.active
    assert sheet is not None
    sheet.title = "Prisms"
    for line in TABLE.splitlines():
        cells: list[Any] = line.split(";")
        sheet.append([float(cell) if cell.replace(".", "").isdigit() else cell for cell in cells])
    if change:
        change(sheet)
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


def test_a_workbook_reads_like_the_table_of_text(project: Write) -> None:
    text = WALLS + SETS + LAB.replace("theirs.csv", "theirs.xlsx\n    sheet: Prisms")
    folder = project(text=text, files={"lab/none": ""})
    (folder / "lab/theirs.xlsx").write_bytes(book())
    from_book = specimens(folder)
    from_text = specimens(project(text=WALLS + SETS + LAB, files={"lab/theirs.csv": TABLE}))
    assert {k: (v.width, v.depth, v.peak_load, v.mix) for k, v in from_book.items()} == {
        k: (v.width, v.depth, v.peak_load, v.mix) for k, v in from_text.items()
    }
    assert str(from_book["C1-2"].place) == "lab/theirs.xlsx:3:1"


def test_every_wrong_cell_of_a_workbook_at_once(project: Write) -> None:
    def change(sheet: Any) -> None:
        sheet["C2"], sheet["D2"], sheet["E3"] = "=B2*2", "wide", -3
        sheet["A3"] = None

    text = WALLS + SETS + LAB.replace("theirs.csv", "theirs.xlsx")
    folder = project(text=text, files={"lab/none": ""})
    (folder / "lab/theirs.xlsx").write_bytes(book(change))
    with pytest.raises(ProblemsFound) as found:
        read_project(folder)
    rows = [(one.place.line, one.place.column, one.code) for one in found.value.problems]
    assert rows == [(2, 3, "xlsx-formula"), (2, 4, "csv-number"), (3, 1, "csv-empty"), (3, 5, "csv-negative")]


@pytest.mark.parametrize(
    ("change", "part", "code"),
    [
        (("lab/theirs.csv", "lab/nothing.csv"), "lab/nothing", "file-missing"),
        (("lab/theirs.csv", "../theirs.csv"), "../theirs", "path-parent"),
        (("lab/theirs.csv", "lab/theirs.pdf"), "lab/theirs.pdf", "lab-file-kind"),
        (("set: Set no.", "set: Set number"), "Set number", "lab-heading"),
        (("specimen: Piece", "specimen: Set no."), "Set no., width", "lab-heading"),
        (("width: Breadth", "breadth: Breadth"), "Breadth, depth", "lab-column"),
        (("depth: mm", "depth: mmm"), "mmm", "csv-unit-unknown"),
        (("depth: mm", "depth: kN"), "kN, peak", "csv-unit-dimension"),
        (("{depth: mm, peak_load: kN}", "{depth: mm, peak_load: kN, mass: kg}"), "kg}", "lab-unit"),
        (("units: {depth: mm, peak_load: kN}", "units: {peak_load: kN}"), "Depth (mm)", "lab-unit"),
        (("dried: air", "dried: sun"), "sun", "csv-choice"),
        (("height: 8 in", "height: 8"), "8}", "measure-no-unit"),
        (("height: 8 in", "specimen: C1-1"), "C1-1}", "lab-column"),
        (("height: 8 in", "room: east"), "east}", "lab-column"),
        (("height: 8 in", "width: 8 in"), "8 in}", "lab-column"),
        (("file: lab/theirs.csv", "file: lab/theirs.csv\n    sheet: Prisms"), "lab/theirs", "lab-sheet"),
        (("every_row: {", "every_row: {colour: brown, "), "brown", "lab-column"),
        (("  compression:", "  crushing:"), "crushing", "field-unknown"),
    ],
)  # fmt: skip
def test_a_slip_of_the_mapping_is_told_at_its_place(
    project: Write, change: tuple[str, str], part: str, code: str
) -> None:
    lab = LAB.replace(*change)
    files = {"lab/theirs.csv": TABLE, "lab/theirs.pdf": "x"}
    found = problems(project, text=WALLS + SETS + lab, files=files)
    assert ("project.yaml", *at(lab, part), code) in found, found


def test_two_columns_of_one_heading_are_not_chosen_between(project: Write) -> None:
    table = TABLE.replace("Room", "Piece")
    found = problems(project, text=WALLS + SETS + LAB, files={"lab/theirs.csv": table})
    assert ("project.yaml", *at(LAB, "Piece"), "lab-heading") in found


def test_a_constant_beside_a_column_of_the_table_is_a_contradiction(project: Write) -> None:
    table = TABLE.replace("Room", "Dried")
    lab = LAB.replace("dried: air, ", "dried: oven, ")
    found = problems(project, text=WALLS + SETS + lab, files={"lab/theirs.csv": table})
    assert ("project.yaml", *at(lab, "oven"), "lab-column") in found


def test_wrong_rows_of_a_mapped_table_are_all_named(project: Write) -> None:
    table = TABLE + "C9;C1-3;100;100;12;\nC1;C1-4;0;100;x;\n"
    found = problems(project, text=WALLS + SETS + LAB, files={"lab/theirs.csv": table})
    assert found == [("theirs.csv", 5, 15, "csv-number")]
    found = problems(project, text=WALLS + SETS + LAB, files={"lab/theirs.csv": table.replace(";x;", ";9;")})
    assert found == [("theirs.csv", 4, 1, "lab-set"), ("theirs.csv", 5, 9, "lab-zero")]


STRENGTH = LAB.replace('peak_load: "Load, greatest"}', 'peak_load: "Load, greatest", strength: Room}').replace(
    "peak_load: kN}", "peak_load: kN, strength: MPa}"
)


@pytest.mark.parametrize(
    ("load", "stated", "sound"),
    [
        ("10", "1.00", True), ("10", "1.01", True), ("10", "0.99", True), ("10", "1.016", False),
        ("10", "0.984", False), ("10", "100", False), ("10.4", "1.0", True), ("10.6", "1.0", False),
        ("14", "1", True), ("16", "1", False),
    ],
)  # fmt: skip
def test_a_stated_strength_may_lie_one_percent_or_half_a_digit_from_load_over_faces(
    project: Write, load: str, stated: str, sound: bool
) -> None:
    """10 kN on 100 × 100 mm is 1 MPa. What lies further off is in doubt, and read all the same."""
    table = TABLE.splitlines()[0] + f"\nC1;C1-1;100;100;{load};{stated}\n"
    checked = check_folder(project(text=WALLS + SETS + STRENGTH, files={"lab/theirs.csv": table}))
    assert [one.mark for one in checked.specimens["C1"]] == ["C1-1"]
    found = [one for one in checked.warnings if one.code == "lab-strength"]
    assert [(one.place.line, one.place.column) for one in found] == ([] if sound else [(2, 18 + len(load))])


def test_beams_say_where_the_load_stood(project: Write) -> None:
    head = (
        "set,specimen,mix,cast,tested,dried,shape,width [mm],depth [mm],height [mm],span [mm],loading,mass [kg],"
        "peak_load [kN],strength [MPa]\n"
    )
    row = "R1,R1-1,M1,,,air,prism,150,300,150,250,{},12,4,\n"
    found = specimens(project(text=WALLS + SETS, files={"lab/rupture.csv": head + row.format("third")}))
    assert found["R1-1"].loading == "third"
    assert (
        specimens(project(text=WALLS + SETS, files={"lab/rupture.csv": head + row.format("")}))["R1-1"].loading is None
    )
    with pytest.raises(ProblemsFound) as stopped:
        read_project(project(text=WALLS + SETS, files={"lab/rupture.csv": head + row.format("middle")}))
    assert [(one.place.column, one.code) for one in stopped.value.problems] == [(40, "csv-choice")]
    long_span = row.format("third").replace(",250,", ",350,")
    with pytest.raises(ProblemsFound) as stopped:
        read_project(project(text=WALLS + SETS, files={"lab/rupture.csv": head + long_span}))
    assert [(one.place.column, one.code) for one in stopped.value.problems] == [(36, "lab-span")]


def test_a_wrong_workbook_stops_the_command_with_every_cell_and_nothing_written(project: Write) -> None:
    def change(sheet: Any) -> None:
        sheet["C2"], sheet["E3"] = "=B2*2", "ten"

    text = WALLS + SETS + LAB.replace("theirs.csv", "theirs.xlsx")
    folder = project(text=text, files={"lab/none": ""})
    (folder / "lab/theirs.xlsx").write_bytes(book(change))
    done = run("submittal", folder, "--output", folder / "x.pdf")
    assert done.returncode == 2 and not (folder / "x.pdf").exists()
    assert "theirs.xlsx:2:3" in done.stderr and "theirs.xlsx:3:5" in done.stderr and "Traceback" not in done.stderr
