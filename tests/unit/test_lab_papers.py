"""Tables as laboratories send them: days, numbers, units, ranges, several files, letterheads and footers."""

from __future__ import annotations

import io
from datetime import date, datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest
import xlsxwriter

from compliance.checking import check_folder
from compliance.documents.lab_request.results_form import headings
from compliance.model.lab_columns import COLUMNS as LAB_COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import Specimen
from compliance.problems import Problem, ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.units import Writer, measure
from compliance.units.sieves import OPENINGS
from tests.conftest import WALLS, Write

SETS = "test_sets: {C1: {kind: compression, mix: M1}, R1: {kind: rupture, mix: M1}, H1: {kind: shrinkage, mix: M1}}\n"
HEADINGS = "Set,Piece,Made,Broken,Breadth [in],Depth [in],Load [lbf]\n"
COLUMNS = "set: Set, specimen: Piece, cast: Made, tested: Broken, width: Breadth, depth: Depth, peak_load: Load"


def lab(more: str = "", columns: str = COLUMNS, file: str = "lab/theirs.csv") -> str:
    return f"lab: {{compression: {{file: {file}, columns: {{{columns}}}{', ' if more else ''}{more}}}}}\n"


def read(project: Write, text: str, table: str, **files: str) -> dict[str, Specimen]:
    folder = project(text=WALLS + SETS + text, files={"lab/theirs.csv": table, **files})
    return {one.mark: one for rows in read_project(folder).specimens.values() for one in rows}


def problems(project: Write, text: str, table: str) -> list[Problem]:
    with pytest.raises(ProblemsFound) as found:
        read(project, text, table)
    return found.value.problems


@pytest.mark.parametrize(
    ("order", "written"),
    [
        ("month/day/year", "5/1/2026"), ("day/month/year", "1/5/2026"), ("month-day-year", "05-01-2026"),
        ("day-month-year", "1-5-2026"), ("day.month.year", "01.05.2026"), ("day.month.year", "2026-05-01"),
    ],
)  # fmt: skip
def test_days_in_the_order_that_is_told(project: Write, order: str, written: str) -> None:
    row = f"C1,a,2026-03-01,{written},4,4,1600\n"
    assert read(project, lab(f"dates: {order}"), HEADINGS + row)["a"].tested == date(2026, 5, 1)


def test_a_day_of_another_order_is_refused(project: Write) -> None:
    row = "C1,a,2026-03-01,13/5/2026,4,4,1600\n"
    (one,) = problems(project, lab("dates: month/day/year"), HEADINGS + row)
    assert one.code == "csv-date" and "month/day/year" in one.wrong


def test_days_that_can_be_read_in_two_orders_are_refused_with_the_cure(project: Write) -> None:
    (one,) = problems(project, lab(), HEADINGS + "C1,a,2026-03-01,5/1/2026,4,4,1600\n")
    assert one.code == "csv-date" and "dates: month/day/year" in one.instead


def test_days_that_can_be_read_in_one_order_are_read_and_shown(project: Write) -> None:
    """As a spreadsheet writes them that took 2026-04-13 for a day of its own."""
    rows = "C1,a,4/13/2026,5/1/2026,4,4,1600\nC1,b,4/13/2026,5/2/2026,4,4,1610\n"
    folder = project(text=WALLS + SETS + lab(), files={"lab/theirs.csv": HEADINGS + rows})
    checked = check_folder(folder)
    assert [one.tested for one in checked.specimens["C1"]] == [date(2026, 5, 1), date(2026, 5, 2)]
    (shown,) = (one for one in checked.warnings if one.code == "lab-dates-read")
    assert "month/day/year" in shown.wrong and "4/13/2026 is 2026-04-13" in shown.wrong


@pytest.mark.parametrize(
    ("more", "load", "pounds"),
    [
        ("decimal: comma", '"1600,5"', 1600.5), ("decimal: comma, thousands: point", '"1.600,5"', 1600.5),
        ("decimal: comma, thousands: blank", '"1 600,5"', 1600.5), ("thousands: comma", '"1,600.5"', 1600.5),
        ("thousands: apostrophe", "1'600", 1600.0), ("thousands: comma", "1600", 1600.0),
    ],
)  # fmt: skip
def test_numbers_as_they_are_told_to_be_written(project: Write, more: str, load: str, pounds: float) -> None:
    found = read(project, lab(more), HEADINGS + f"C1,a,2026-03-01,2026-05-01,4,4,{load}\n")["a"]
    assert found.peak_load == pytest.approx(measure(f"{pounds} lbf", "test_load").si)


@pytest.mark.parametrize(
    ("more", "load"),
    [
        ("decimal: comma", "1.600"), ("decimal: comma", "1600.5"), ("thousands: comma", '"16,00"'),
        ("thousands: comma", '"1,60,000"'), ("decimal: comma, thousands: point", '"1.60,5"'),
    ],
)  # fmt: skip
def test_a_number_written_in_another_way_is_refused(project: Write, more: str, load: str) -> None:
    (one,) = problems(project, lab(more), HEADINGS + f"C1,a,2026-03-01,2026-05-01,4,4,{load}\n")
    assert one.code == "csv-number" and "decimal" in one.instead


def test_a_range_of_cells_is_the_table(project: Write) -> None:
    table = (
        "The laboratory;;;\n;Set;Piece;Breadth [in];Depth [in];Load [lbf];kept\n;C1;a;4;4;1600;x\n;mean;;4;4;1600;\n"
    )
    columns = "set: Set, specimen: Piece, width: Breadth, depth: Depth, peak_load: Load"
    found = read(project, lab('cells: "B2:F3"', columns), table)
    assert list(found) == ["a"] and found["a"].extra == {}
    assert found["a"].place.line == 3 and found["a"].place_of("width").column == 7


def test_several_tables_of_one_kind(project: Write) -> None:
    more = f"more: [{{kind: compression, file: lab/later.csv, columns: {{{COLUMNS}}}}}]"
    text = lab().replace("lab: {", f"lab: {{{more}, ")
    first, later = (HEADINGS + f"C1,{mark},2026-03-01,2026-05-01,4,4,1600\n" for mark in ("a", "b"))
    assert set(read(project, text, first, **{"lab/later.csv": later})) == {"a", "b"}


def test_a_slip_in_a_further_table_stands_at_its_place(project: Write) -> None:
    text = lab().replace("lab: {", "lab: {more: [{kind: compression, file: lab/nowhere.csv}], ")
    (one,) = problems(project, text, HEADINGS + "C1,a,2026-03-01,2026-05-01,4,4,1600\n")
    assert (one.code, one.place.file.rpartition("/")[2]) == ("file-missing", "project.yaml")
    assert one.place.column == text.index("lab/nowhere.csv") + 1


def test_a_shrinkage_given_alone(project: Write) -> None:
    head = "set,specimen,mix,cast,tested,dried,form_length [in],dried_length [in],shrinkage [%]\n"
    rows = "H1,a,M1,2026-03-01,2026-05-01,air,,,3.5\nH1,b,M1,2026-03-01,2026-05-01,air,24,23.4,2.5\n"
    rows += "H1,c,M1,2026-03-01,2026-05-01,air,24,23.4,2.0\n"
    checked = check_folder(project(text=WALLS + SETS, files={"lab/shrinkage.csv": head + rows}))
    results = [one.result.value for one in checked.evidence.sets["H1"].specimens]
    assert results == pytest.approx([0.035, 0.025, 0.025])
    assert [one.place.line for one in checked.warnings if one.code == "lab-strength"] == [4]


@pytest.mark.parametrize(
    ("heading", "suggested"),
    [
        ("Breadth (in)", "in"), ("Breadth, mm", "mm"), ("Breadth in inches", "in"), ("Breadth", "the unit"),
        ("Breadth (centimeters)", "cm"),
    ],
)  # fmt: skip
def test_a_hint_never_contradicts_the_heading(project: Write, heading: str, suggested: str) -> None:
    table = f"Set;Piece;{heading}\nC1;a;4\n"
    (one,) = problems(project, lab(columns=f"set: Set, specimen: Piece, width: '{heading}'"), table)
    assert one.code == "lab-unit" and f"{{width: {suggested}" in one.instead


def test_a_heading_of_ours_in_round_brackets_keeps_its_unit(project: Write) -> None:
    head = "set,specimen,mix,cast,tested,dried,form_length [in],dried_length (mm)\n"
    with pytest.raises(ProblemsFound) as found:
        read_project(project(text=WALLS + SETS, files={"lab/shrinkage.csv": head + "H1,a,M1,,,air,24,590\n"}))
    (one,) = found.value.problems
    assert one.code == "csv-column-missing" and "write dried_length [mm]" in one.instead


@pytest.mark.parametrize(
    ("heading", "unit", "sound"),
    [
        ("Load (kN)", "kN", True), ("Load (kN)", "lbf", False), ("Load (lbs)", "lbf", True), ("Load", "kN", True),
        ("Load, Newton", "N", True), ("Load, Newton", "kN", False), ("Load (kg)", "kgf", True),
        ("Load (kg)", "lbf", False),
    ],
)  # fmt: skip
def test_a_unit_that_contradicts_its_heading_is_a_problem(
    project: Write, heading: str, unit: str, sound: bool
) -> None:  # fmt: skip
    columns = f"set: Set, specimen: Piece, peak_load: '{heading}'"
    text, table = lab(f"units: {{peak_load: {unit}}}", columns), f"Set;Piece;{heading}\nC1;a;4\n"
    if sound:
        assert read(project, text, table)["a"].peak_load == pytest.approx(measure(f"4 {unit}", "test_load").si)
        return
    (one,) = problems(project, text, table)
    assert one.code == "lab-unit" and heading in one.wrong


@pytest.mark.parametrize(("written", "meant"), [("kg", "kgf"), ("tons", "lbf")])
def test_units_of_a_load_that_are_not_known_name_the_one_that_is(project: Write, written: str, meant: str) -> None:
    head = (
        f"set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [{written}],"
    )
    table = head + "strength [psi]\nC1,a,M1,2026-03-01,2026-05-01,air,cube,4,4,4,,1600,\n"
    with pytest.raises(ProblemsFound) as found:
        read_project(project(text=WALLS + SETS, files={"lab/compression.csv": table}))
    assert any(meant in one.instead for one in found.value.problems)


def test_a_letterhead_is_told_by_the_row_of_the_headings(project: Write) -> None:
    table = "Marlowe Laboratory\nReport 7\n" + HEADINGS + "C1,a,2026-03-01,2026-05-01,4,4,1600\n"
    (one,) = problems(project, lab(), table)
    assert one.code == "lab-letterhead" and "heading_row: 3" in one.instead


def test_a_footer_is_told_by_the_last_row(project: Write) -> None:
    table = HEADINGS + "C1,a,2026-03-01,2026-05-01,4,4,1600\nMean,,,,4,4,about 1600\nSigned,,,,,,A. Marlowe\n"
    (one,) = problems(project, lab(), table)
    assert one.code == "lab-footer" and "last_row: 2" in one.instead


def test_a_specimen_that_lacks_its_set_is_no_footer(project: Write) -> None:
    """A last row of a weak specimen must not be cut off as if it were a mean."""
    table = HEADINGS + "C1,a,2026-03-01,2026-05-01,4,4,1600\n,b,2026-03-01,2026-05-01,4,4,300\n"
    found = problems(project, lab(), table)
    assert [(one.code, one.place.line) for one in found] == [("csv-empty", 3)]


@pytest.mark.parametrize(("number", "opening"), [(4, 4.75), (10, 2.0), (40, 0.425), (100, 0.15), (200, 0.075)])
def test_sieves_by_their_number(project: Write, number: int, opening: float) -> None:
    """Openings of ASTM E11, recalled."""
    assert float(OPENINGS[number]) == opening
    points = f"[{{size: 25 mm, finer: 100 %}}, {{size: No. {number}, finer: 60 %}}, {{size: 2 µm, finer: 20 %}}]"
    text = WALLS + f"soils: {{S1: {{name: clay, grading: {{points: {points}}}}}}}\n"
    found = read_project(project(text=text, head=_HEAD_WITHOUT_SOILS)).project.soils["S1"].grading
    assert found is not None
    assert [one.size.si for one in found.points] == pytest.approx([0.025, opening / 1000, 2e-6])


_HEAD_WITHOUT_SOILS = """\
project: {name: Trial, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}
mixes: {M1: {name: mix, parts: {S1: 1}}}
"""


def test_the_blank_table_of_a_request_comes_back_filled_by_a_spreadsheet(project: Write) -> None:
    """With days as US offices write them, a letterhead above and a mean and a signature below."""
    loads = {"a": 1610.5, "b": 1580.0, "c": 1650.25}
    filled = _filled(loads)
    folder = project(text=WALLS + SETS + _BACK)
    (folder / "lab").mkdir(exist_ok=True)
    (folder / "lab" / "back.xlsx").write_bytes(filled)
    found = {one.mark: one for one in check_folder(folder).specimens["C1"]}
    assert {mark: one.peak_load for mark, one in found.items()} == pytest.approx(
        {mark: measure(f"{load} lbf", "test_load").si for mark, load in loads.items()}
    )
    assert {one.tested for one in found.values()} == {date(2026, 5, 1)}
    assert {one.cast for one in found.values()} == {date(2026, 3, 2)}


_BACK = "lab: {compression: {file: lab/back.xlsx, heading_row: 4, last_row: 7, dates: month/day/year}}\n"


def _filled(loads: dict[str, float]) -> bytes:
    book = openpyxl.Workbook()
    sheet: Any = book.active
    for line in (["Marlowe Street Laboratory"], ["Report 26-0417"], []):
        sheet.append(line)
    names = headings("compression", Writer("us"))
    sheet.append(list(names))
    typed = {"set": "C1", "mix": "M1", "cast": "3/2/2026", "tested": "5/1/2026", "dried": "air", "shape": "prism"}
    for mark, load in loads.items():
        cells = typed | {"specimen": mark, "width": 4.0, "depth": 4.0, "height": 8.0, "peak_load": load}
        sheet.append([cells.get(name) for name in LAB_COLUMNS["compression"]])
    sheet.append(["Mean", None, None, sum(loads.values()) / len(loads)])
    sheet.append(["Signed: A. Marlowe"])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


_TYPED = {
    "cast": "3/2/2026", "tested": "5/14/2026", "width": 4.02, "depth": 18.5, "height": 8.25, "span": 12.75,
    "mass": 9.13, "form_length": 24.0, "dried_length": 23.19, "nominal_size": "4 x 4 x 8 in", "batch": "",
    "note": "cracked, dried",
}  # fmt: skip


@pytest.mark.parametrize("days", ["text", "date"])
@pytest.mark.parametrize("system", ["us", "si"])
def test_every_column_of_a_request_comes_back_as_typed(project: Write, system: Any, days: str) -> None:
    """All three tables in one workbook, a sheet each, written by another library; days as text, or as dates that the
    sheet shows in the order of the United States."""
    writer, out = Writer(system), io.BytesIO()
    typed: dict[str, dict[str, Any]] = {}
    with xlsxwriter.Workbook(out, {"in_memory": True}) as book:
        shown_as = book.add_format({"num_format": "m/d/yyyy"})
        for mark, kind in _SETS_BY_MARK.items():
            typed[mark] = {"set": mark, "specimen": f"{mark}-1", "mix": "M1"} | {
                name: _TYPED.get(name, column.choices[0] if column.choices else 1.5 if column.kind else "typed")
                for name, column in LAB_COLUMNS[kind].items()
                if name not in ("set", "specimen", "mix")
            }
            sheet = book.add_worksheet(kind)
            sheet.write_row(0, 0, ["Marlowe Street Laboratory", None, "Report 26-0417"])
            sheet.write_row(3, 0, headings(kind, writer))
            for at, (name, value) in enumerate(typed[mark].items()):
                if days == "date" and LAB_COLUMNS[kind][name].what == "date":
                    sheet.write_datetime(4, at, datetime.strptime(value, "%m/%d/%Y"), shown_as)
                else:
                    sheet.write(4, at, value)
            sheet.write_row(6, 0, ["Mean", None, 1.5])
            sheet.write(8, 0, "Signed: A. Marlowe")
    entries = ", ".join(
        f"{kind}: {{file: lab/back.xlsx, sheet: {kind}, heading_row: 4, last_row: 5, dates: month/day/year}}"
        for kind in _SETS_BY_MARK.values()
    )
    folder = project(text=WALLS + SETS + f"lab: {{{entries}}}\n")
    (folder / "lab").mkdir(exist_ok=True)
    (folder / "lab" / "back.xlsx").write_bytes(out.getvalue())
    specimens = read_project(folder).specimens
    assert specimens.keys() == typed.keys()
    for mark, (row,) in specimens.items():
        for name, value in typed[mark].items():
            column = LAB_COLUMNS[_SETS_BY_MARK[mark]][name]
            found = row.mark if name == "specimen" else row.value(name)
            if column.kind is not None:
                assert isinstance(found, float) and writer.number(found, column.what) == pytest.approx(value), name
            elif column.what == "date":
                assert found == datetime.strptime(value, "%m/%d/%Y").date(), name
            else:
                assert found == (value or None), name


_SETS_BY_MARK: dict[str, SpecimenKind] = {"C1": "compression", "R1": "rupture", "H1": "shrinkage"}


def test_without_being_told_the_refusals_of_such_a_paper_lead_to_it(project: Write) -> None:
    folder = project(text=WALLS + SETS + "lab: {compression: {file: lab/back.xlsx}}\n")
    (folder / "lab").mkdir(exist_ok=True)
    (folder / "lab" / "back.xlsx").write_bytes(_filled({"a": 1600.0}))
    told = [_cure(folder)]
    for entry in ("heading_row: 4", "heading_row: 4, last_row: 5"):
        text = (folder / "project.yaml").read_text("utf-8")
        head, _, _ = text.partition("lab: ")
        (folder / "project.yaml").write_text(f"{head}lab: {{compression: {{file: lab/back.xlsx, {entry}}}}}\n", "utf-8")
        told.append(_cure(folder))
    assert "heading_row: 4" in told[0] and "last_row: 5" in told[1] and "dates: month/day/year" in told[2]


def _cure(folder: Path) -> str:
    with pytest.raises(ProblemsFound) as found:
        read_project(folder)
    return "; ".join(one.instead for one in found.value.problems)
