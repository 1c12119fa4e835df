"""Lab tables from comma-separated files: what is read, what is refused, and exactly where.

Sources: RFC 4180, section 2, for the form of the file; ISO 8601 (calendar date, extended format) for dates; NIST SP 811
(2008), appendix B, for factors of units. Cells are trimmed, where RFC 4180 (rule 4) would keep the blanks.
"""

from __future__ import annotations

import csv
import io
import re
from datetime import date
from pathlib import Path

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from compliance.files.characters import HIDDEN
from compliance.model.lab_columns import ColumnSpec
from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.tables import table_rows
from compliance.reading.tables.csv_places import CsvPlaces
from compliance.reading.tables.csv_table import MOST_BYTES, Row, parse_csv_table, read_csv_table
from compliance.reading.tables.table_rows import MOST_COLUMNS, MOST_ROWS, read_rows
from compliance.refused import MOST_PROBLEMS
from compliance.units import Measure, MeasureError, measure
from tests.tries import tries

Found = list[tuple[int, int, str]]

COLUMNS = {
    "mark": ColumnSpec("specimen", "text"),
    "width": ColumnSpec("width", "thickness"),
    "load": ColumnSpec("peak load", "force", may_be_empty=True),
    "tested": ColumnSpec("tested", "date", required=False, may_be_empty=True),
    "shape": ColumnSpec("shape", "choice", required=False, choices=("cube", "cylinder", "prism")),
    "straw": ColumnSpec("straw", "share", required=False),
    "blows": ColumnSpec("blows", "count", required=False),
    "factor": ColumnSpec("factor", "ratio", required=False),
    "air": ColumnSpec("air", "temperature", required=False),
    "slope": ColumnSpec("slope", "angle", required=False),
}
HEAD = "specimen,width [in],peak load [lbf]"
ROW = "A1,4,900"


def read(text: str) -> list[Row]:
    return parse_csv_table(text, "lab.csv", COLUMNS)


def problems(text: str) -> list[Problem]:
    with pytest.raises(ProblemsFound) as caught:
        read(text)
    assert all(problem.place.file == "lab.csv" and problem.wrong for problem in caught.value.problems)
    return caught.value.problems


def places(text: str) -> Found:
    return [(problem.place.line, problem.place.column, problem.code) for problem in problems(text)]


class TestRead:
    def test_every_kind_of_cell(self) -> None:
        text = (
            f"{HEAD},tested,shape,straw [%],blows,factor,air [degF],slope [deg],weather,Lab No [2]\n"
            'A1, 4.25 ,900,2024-02-29,cube,25,25,0.85,-4,45,"rain, then sun",7\n'
        )
        [row] = read(text)
        assert row.values == {
            "mark": "A1",
            "width": measure("4.25 in", "thickness"),
            "load": measure("900 lbf", "force"),
            "tested": date(2024, 2, 29),
            "shape": "cube",
            "straw": measure("25 %", "share"),
            "blows": Measure(25.0, "", "25"),
            "factor": Measure(0.85, "", "0.85"),
            "air": measure("-4 degF", "temperature"),
            "slope": measure("45 deg", "angle"),
        }
        assert row.texts["width"] == "4.25" and list(row.texts) == list(COLUMNS)
        assert list(row.extra.items()) == [("weather", "rain, then sun"), ("Lab No [2]", "7")]
        assert (row.line, row.place) == (2, Place("lab.csv", 2, 1))

    @pytest.mark.parametrize(
        ("heading", "cell", "si"),
        [
            # NIST SP 811, appendix B.8: 1 in = 25.4 mm, 1 lbf = 4.448 222 N, 1 kgf = 9.806 65 N; 212 °F = 373.15 K.
            ("width [in]", "1", 0.0254),
            ("width [mm]", "25.4", 0.0254),
            ("peak load [lbf]", "1", 4.448222),
            ("peak load [kN]", "0.004448222", 4.448222),
            ("peak load [kgf]", "1", 9.80665),
            ("peak load [lbs]", "1", 4.448222),
            ("air [°F]", "212", 373.15),
            ("air [degC]", "100", 373.15),
            ("slope [°]", "180", 3.14159265358979),
            ("straw [%]", "100", 1.0),
        ],
    )
    def test_factors(self, heading: str, cell: str, si: float) -> None:
        key = next(key for key, spec in COLUMNS.items() if heading.startswith(spec.name))
        spec = COLUMNS[key]
        [row] = parse_csv_table(f"{heading}\n{cell}\n", "lab.csv", {key: spec})
        value = row.values[key]
        assert isinstance(value, Measure) and value.si == pytest.approx(si, rel=1e-7)

    def test_empty_cells_and_absent_columns_are_none(self) -> None:
        [row] = read(f"{HEAD},tested\nA1,4,,\n")
        assert row.values["load"] is None and row.values["tested"] is None and row.values["shape"] is None
        assert row.texts["load"] == "" and row.texts["shape"] == ""
        assert row.place_of("load") == Place("lab.csv", 2, 6)
        assert row.place_of("tested") == Place("lab.csv", 2, 7)
        assert row.place_of("shape") == row.place == Place("lab.csv", 2, 1)

    def test_order_capitals_and_blanks_of_headings_do_not_count(self) -> None:
        [row] = read(" Peak_Load  [ lbf ] ,WIDTH[in],Specimen\n900,4,A1\n")
        assert (row.texts["mark"], row.texts["load"], row.texts["width"]) == ("A1", "900", "4")

    @pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
    @pytest.mark.parametrize("last", [True, False])
    def test_line_ends(self, end: str, last: bool) -> None:
        """RFC 4180, rules 1 and 2; LF and CR alone are read besides."""
        text = end.join(["", HEAD, "", ROW, " ", ",,", "A2,5,800"]) + (end if last else "")
        assert [(row.line, row.texts["mark"]) for row in read(text)] == [(4, "A1"), (7, "A2")]

    def test_quotes_by_rfc_4180(self) -> None:
        """Rules 5 to 7: quotes around a cell; a separator, a line break and a doubled mark within."""
        text = f'{HEAD},note\n"aaa","4","900","b\r\nbb"\naaa,4,900,"b""bb, x"\nzzz,4,900,6" cube\n'
        rows = read(text)
        assert [row.extra["note"] for row in rows] == ["b\r\nbb", 'b"bb, x', '6" cube']
        assert [row.line for row in rows] == [2, 4, 5]
        assert rows[0].texts["mark"] == "aaa"

    def test_semicolons(self) -> None:
        [row] = read("specimen;width [in];peak load [lbf];note, free\nA1;4;900;dry, hard\n")
        assert row.extra == {"note, free": "dry, hard"} and row.texts["load"] == "900"
        [row] = read('"specimen",width [in],peak load [lbf],"a;b;c;d;e"\nA1,4,900,x\n')
        assert row.extra == {"a;b;c;d;e": "x"}

    def test_as_many_semicolons_as_commas_are_commas(self) -> None:
        [row] = read(f"{HEAD},a;b;c;d\n{ROW},x\n")
        assert row.extra == {"a;b;c;d": "x"}

    def test_a_heading_row_alone(self) -> None:
        assert read(HEAD) == []

    def test_empty_columns_without_heading(self) -> None:
        [row] = read(f"{HEAD},,\n{ROW},,\n")
        assert row.extra == {}

    def test_no_known_column(self) -> None:
        rows = parse_csv_table("a,b\n1,2\n", "lab.csv", {"tested": COLUMNS["tested"]})
        assert [(row.values, row.extra) for row in rows] == [({"tested": None}, {"a": "1", "b": "2"})]

    def test_byte_order_mark(self, tmp_path: Path) -> None:
        path = tmp_path / "lab.csv"
        path.write_bytes(b"\xef\xbb\xbf" + f"{HEAD}\r\nÉ1,4,900\r\n".encode())
        assert read_csv_table(path, "lab.csv", COLUMNS)[0].values["mark"] == "É1"
        assert read("\ufeff" + f"{HEAD}\nÉ1,4,900\n")[0].values["mark"] == "É1"


class TestCells:
    @pytest.mark.parametrize(
        ("cell", "code"),
        [
            ("3,5", "csv-decimal-comma"),
            ("1,234.5", "csv-decimal-comma"),
            ("1.234,5", "csv-decimal-comma"),
            (",5", "csv-decimal-comma"),
            ("-4", "csv-negative"),
            ("-0", "csv-negative"),
            ("nan", "csv-not-finite"),
            ("NaN", "csv-not-finite"),
            ("inf", "csv-not-finite"),
            ("-Infinity", "csv-not-finite"),
            ("#DIV/0!", "csv-not-finite"),
            ("four", "csv-number"),
            ("4 in", "csv-number"),
            ("4in", "csv-number"),
            ("+4", "csv-number"),
            (".5", "csv-number"),
            ("4.", "csv-number"),
            ("1e3", "csv-number"),
            ("0x4", "csv-number"),
            ("1_000", "csv-number"),
            ("1 000", "csv-number"),
            ("3 1/2", "csv-number"),
            ("4-5", "csv-number"),
            ("−4", "csv-number"),
            ("٤", "csv-number"),
            ("４", "csv-number"),
            ("4" * 16, "csv-number"),
            ("0." + "4" * 21, "csv-number"),
            ("<4", "csv-number"),
            ("-", "csv-number"),
            ("n/a", "csv-number"),
            ("=1+1", "csv-number"),
            ("", "csv-empty"),
        ],
    )
    def test_numbers(self, cell: str, code: str) -> None:
        assert places(f'{HEAD}\n{ROW}\nA2, "{cell}",900\n') == [(3, 5, code)]

    @pytest.mark.parametrize(
        ("cell", "instead"),
        [
            ("2024-02-30", "check the month and the day"),
            ("2023-02-29", "check the month and the day"),
            ("2024-13-01", "check the month and the day"),
            ("0000-01-01", "check the month and the day"),
            ("20240501", "2024-05-01"),
            ("2024-W18-3", "2024-05-01"),
            ("2024-5-1", "2024-05-01"),
            ("05/01/2024", "2024-05-01"),
            ("1 May 2024", "2024-05-01"),
            ("2024-05-01T10:00", "2024-05-01"),
            ("２０２４-05-01", "2024-05-01"),
        ],
    )
    def test_dates(self, cell: str, instead: str) -> None:
        """2024 is a leap year and 2023 is not; only year-month-day of ISO 8601 is read."""
        [problem] = problems(f"{HEAD},tested\n{ROW},{cell}\n")
        assert (problem.place, problem.code) == (Place("lab.csv", 2, 10), "csv-date")
        assert instead in problem.instead

    def test_choices(self) -> None:
        [near, far] = problems(f"{HEAD},shape\n{ROW},Cubes\n{ROW},ball\n")
        assert (near.place, near.code) == (Place("lab.csv", 2, 10), "csv-choice")
        assert near.instead == "did you mean cube? write one of cube, cylinder, prism"
        assert (far.place, far.instead) == (Place("lab.csv", 3, 10), "write one of cube, cylinder, prism")

    def test_counts_are_whole(self) -> None:
        assert places(f"{HEAD},blows,factor\n{ROW},2.5,2.5\n{ROW},25.0,1\n") == [(2, 10, "csv-not-whole")]

    def test_below_zero_where_that_makes_sense(self) -> None:
        assert places(f"{HEAD},air [degC],straw [%]\n{ROW},-5,-5\n") == [(2, 13, "csv-negative")]

    def test_empty(self) -> None:
        found = problems(f"{HEAD},shape\n,4,900,cube\nA2,,,\n")
        assert [(p.place.line, p.place.column, p.code) for p in found] == [
            (2, 1, "csv-empty"), (3, 4, "csv-empty"), (3, 6, "csv-empty"),
        ]  # fmt: skip

    def test_every_problem_at_once(self) -> None:
        text = f"{HEAD},tested\r\nA1,x,900,2024-01-01\r\nA2,4,x,soon\r\nA3,4\r\nA4,x,1,2024-01-01\r\n"
        assert places(text) == [
            (2, 4, "csv-number"), (3, 6, "csv-number"), (3, 8, "csv-date"), (4, 5, "csv-cells-few"),
            (5, 4, "csv-number"),
        ]  # fmt: skip


class TestHeading:
    @pytest.mark.parametrize(
        ("heading", "expected"),
        [
            ("specimen,width [in]", [(1, 1, "csv-column-missing")]),
            ("specimen,widht [in],peak load [lbf]", [(1, 10, "csv-column-missing")]),
            ("note", [(1, 1, "csv-column-missing")] * 3),
            ("specimen,width,peak load []", [(1, 10, "csv-unit-missing"), (1, 16, "csv-unit-missing")]),
            ("specimen,width [span],peak load [kg]", [(1, 10, "csv-unit-unknown"), (1, 23, "csv-unit-dimension")]),
            ("specimen,width [inches],peak load [Lbs.]", []),
            ("specimen,width [MM],peak load [psi]", [(1, 10, "csv-unit-unknown"), (1, 21, "csv-unit-dimension")]),
            ("specimen [mm],width [in],peak load [lbf]", [(1, 1, "csv-unit-unexpected")]),
            (f"{HEAD},blows [1],tested [d]", [(1, 37, "csv-unit-unexpected"), (1, 47, "csv-unit-unexpected")]),
            (f"{HEAD},factor [%]", [(1, 37, "csv-unit-unexpected")]),
            (f"{HEAD},straw [deg],slope [%]", [(1, 37, "csv-unit-dimension"), (1, 49, "csv-unit-dimension")]),
            (f"{HEAD},straw", [(1, 37, "csv-unit-missing")]),
            (f"{HEAD},width [mm]", [(1, 37, "csv-column-twice")]),
            (f"{HEAD},note,Note", [(1, 42, "csv-column-twice")]),
            (f"{HEAD},a [mm],a [in]", []),
            (f"{HEAD},testd", [(1, 37, "csv-column-near")]),
            (f"{HEAD},blow", [(1, 37, "csv-column-near")]),
            (f"{HEAD},note [a] b,[mm],a]", [(1, 37, "csv-heading"), (1, 48, "csv-heading"), (1, 53, "csv-heading")]),
        ],
    )
    def test_place_and_code(self, heading: str, expected: Found) -> None:
        assert (places(heading + "\n") if expected else read(heading + "\n")) == expected

    def test_what_to_write_instead(self) -> None:
        unit, column = problems("specimen,width [inc],peak laod [lbf]\n")
        assert unit.instead == "did you mean in? write for example width [in] or width [mm]"
        assert column.wrong == "the column peak load is missing" and "did you mean it by peak laod?" in column.instead

    def test_where_the_first_of_two_headings_stands_is_told(self) -> None:
        [problem] = problems(f"{HEAD},Width [mm]\n")
        assert problem.wrong == "the heading 'Width [mm]' stands here again; it stood first in column 2"

    def test_rows_are_read_though_a_heading_is_wrong(self) -> None:
        assert places("specimen,width,peak load [lbf]\n\nA1,4,x\n") == [
            (1, 10, "csv-unit-missing"),
            (3, 6, "csv-number"),
        ]

    def test_a_cell_without_heading(self) -> None:
        assert places(f"{HEAD},,\n{ROW},,\n{ROW},,x\n{ROW},,y\n") == [(3, 11, "csv-heading")]


class TestForm:
    @pytest.mark.parametrize(
        ("text", "expected"),
        [
            ("", [(0, 0, "csv-empty-file")]),
            ("\r\n , \r\n", [(0, 0, "csv-empty-file")]),
            ("\nspecimen\twidth [in]\nA1\t4\n", [(2, 9, "csv-separator")]),
            (
                f"{HEAD}\nA1,4\nA2,4,900,\nA3\n",
                [(2, 5, "csv-cells-few"), (3, 10, "csv-cells-many"), (4, 3, "csv-cells-few")],
            ),
            (f"{HEAD}\nA1,3,5,900\n", [(2, 8, "csv-cells-many")]),
            (f'{HEAD}\n"A1,4,900\nA2,4,900\n', [(2, 1, "csv-quotes")]),
            (f'{HEAD}\n{ROW}\n"A1"x,4,900\n', [(3, 1, "csv-quotes")]),
            (f'{HEAD}\nA1,x,900\n"A1" ,4,900\n', [(2, 4, "csv-number"), (3, 1, "csv-quotes")]),
            ('"specimen', [(1, 1, "csv-quotes")]),
            (f"{HEAD}\nA\0,4,900\n", [(2, 2, "csv-nul")]),
            (f"{HEAD}\nA\x07,4,\u2028900\n", [(2, 2, "csv-control-character"), (2, 6, "csv-control-character")]),
            (f"{HEAD}\n{'A' * 140_000},4,900\n", [(2, 1, "csv-cell-size")]),
        ],
    )
    def test_place_and_code(self, text: str, expected: Found) -> None:
        assert places(text) == expected

    def test_where_wrong_quotes_end_is_told(self) -> None:
        [problem] = problems(f'{HEAD}\n"A1,4,900\nA2,4,900\nA3,4,900')
        assert "up to line 4" in problem.wrong

    def test_wrong_quotes_in_one_line(self) -> None:
        [problem] = problems(f'{HEAD}\n"A1"x,4,900\n')
        assert problem.wrong == "the quotes of this row are wrong"

    def test_a_long_cell_is_cut_in_the_message(self) -> None:
        whole, cut = problems(f"{HEAD}\nA1,{'x' * 60},900\nA1,{'x' * 61},900\n")
        assert whole.wrong == f"'{'x' * 60}' is not a plain decimal number"
        assert cut.wrong == f"'{'x' * 60}…' is not a plain decimal number"

    def test_as_many_problems_as_are_told(self) -> None:
        assert [code for *_, code in places(f"{HEAD}\n" + "A1,x,900\n" * 100)] == ["csv-number"] * 100

    def test_a_cell_in_a_row_of_several_lines(self) -> None:
        text = f'{HEAD},note\n"A ""1""\r\nb", 4 ,x,é\n'
        assert places(text) == [(3, 8, "csv-number")]

    @pytest.mark.parametrize(
        ("data", "place", "code"),
        [
            (f"{HEAD}\nÉ,4,900\n".encode("cp1252"), (2, 1), "csv-encoding"),
            (f"{HEAD}\n".encode("utf-16"), (1, 1), "csv-encoding"),
            (b"x" * (MOST_BYTES + 1), (0, 0), "csv-size"),
        ],
    )
    def test_files(self, tmp_path: Path, data: bytes, place: tuple[int, int], code: str) -> None:
        path = tmp_path / "lab.csv"
        path.write_bytes(data)
        with pytest.raises(ProblemsFound) as caught:
            read_csv_table(path, "lab.csv", COLUMNS)
        assert [(p.place, p.code) for p in caught.value.problems] == [(Place("lab.csv", *place), code)]

    def test_missing_file(self, tmp_path: Path) -> None:
        with pytest.raises(ProblemsFound, match="file-missing"):
            read_csv_table(tmp_path / "lab.csv", "lab.csv", COLUMNS)

    def test_rows(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(table_rows, "MOST_ROWS", 3)
        assert len(read(f"{HEAD}\n" + f"{ROW}\n\n" * 3)) == 3
        assert places(f"{HEAD}\n" + f"{ROW}\n\n" * 9) == [(8, 1, "csv-rows")]

    def test_limits_are_those_that_are_documented(self) -> None:
        assert (MOST_BYTES, MOST_ROWS, MOST_COLUMNS, MOST_PROBLEMS) == (10_000_000, 50_000, 500, 100)

    def test_columns(self) -> None:
        extra = "".join(f",n{number}" for number in range(MOST_COLUMNS - 3))
        assert read(HEAD + extra) == []
        assert places(f"{HEAD}{extra},one") == [(1, 1, "csv-columns")]

    def test_problems_are_not_endless(self) -> None:
        found = places(f"{HEAD}\n" + "A1,x,x\nA1\n" * 2000)
        assert len(found) == MOST_PROBLEMS + 1 and found[:4] == [
            (2, 4, "csv-number"), (2, 6, "csv-number"), (3, 3, "csv-cells-few"), (4, 4, "csv-number"),
        ]  # fmt: skip
        assert found[-1][2] == "csv-too-many-problems"
        found = places(f"{HEAD}\n" + "".join(f"A1,4,x{number}\n" for number in range(5000)))
        assert len(found) == MOST_PROBLEMS + 1 and found[-1][2] == "csv-too-many-problems"


def test_rows_from_a_spreadsheet() -> None:
    """Cells that come from no text file: the caller says where they stand."""

    def locate(line: int, index: int | None) -> Place:
        return Place("lab.xlsx", line, 1 if index is None else index + 1)

    cells = [(3, ["specimen", "width [in]", "peak load [lbf]"]), (5, ["A1", "4", ""]), (6, ["", "", ""])]
    [row] = read_rows(cells, COLUMNS, locate)
    assert (row.place, row.place_of("load")) == (Place("lab.xlsx", 5, 1), Place("lab.xlsx", 5, 3))
    with pytest.raises(ProblemsFound) as caught:
        read_rows(
            [*cells, (7, ["A2", "x", "1"])], COLUMNS, locate, [Problem(Place("lab.xlsx"), "sheet", "more sheets")]
        )
    assert [(p.place.line, p.place.column, p.code) for p in caught.value.problems] == [
        (0, 0, "sheet"), (7, 2, "csv-number"),
    ]  # fmt: skip


def test_a_cell_after_quotes_that_never_close_stands_at_the_end() -> None:
    assert CsvPlaces("lab.csv", ['a,"b\n', "c"], ",")(1, 2) == Place("lab.csv", 2, 2)


@pytest.mark.parametrize(("what", "choices"), [("lenght", ()), ("choice", ()), ("text", ("a",)), ("thickness", ("a",))])
def test_a_column_that_cannot_be(what: str, choices: tuple[str, ...]) -> None:
    with pytest.raises(ValueError, match="column 'x'"):
        ColumnSpec("x", what, choices=choices)


CELL = st.text(st.characters(codec="utf-8"), max_size=8).filter(lambda text: not HIDDEN.search(text))
HARD_CELL = CELL | st.text(st.sampled_from(' ,;"\r\n\ta'), max_size=8)


@settings(max_examples=tries(300))
@given(
    st.lists(st.lists(HARD_CELL, min_size=4, max_size=4), min_size=1, max_size=4),
    st.sampled_from(",;"),
    st.sampled_from([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
)
def test_what_the_csv_module_writes_is_read_and_found_again(
    rows: list[list[str]], separator: str, quoting: int
) -> None:
    assume(all(any(cell.strip() for cell in row) for row in rows))
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=separator, quoting=quoting, lineterminator="\r\n")  # type: ignore[arg-type]
    names = ["a", "b", "c", "d"]
    writer.writerows([names, *rows])
    # A leading blank before a quote is passed over, so a cell that itself begins so is no fair question.
    assume(not re.search(rf'(?:^|{separator}) +"', out.getvalue(), re.MULTILINE))
    columns = {name: ColumnSpec(name, "text", may_be_empty=True) for name in names}
    read_back = parse_csv_table(out.getvalue(), "lab.csv", columns)
    assert [[row.texts[name] for name in names] for row in read_back] == [
        [cell.strip() for cell in row] for row in rows
    ]
    lines = list(io.StringIO(out.getvalue(), newline=""))
    for row, cells in zip(read_back, rows, strict=True):
        for name, cell in zip(names, cells, strict=True):
            place = row.place_of(name)
            rest = lines[place.line - 1][place.column - 1 :]
            first = cell.strip()[:1]
            assert rest.startswith('"') or (rest.startswith(first) if first else rest[:1] in (separator, "\r"))


TABLE_TEXT = st.text(max_size=60) | st.text(st.sampled_from(' ,;"[]ain4.-\r\n\t'), max_size=60)


@settings(max_examples=tries(500))
@given(TABLE_TEXT, st.booleans())
@example('a"\r"', True)
def test_any_text_is_read_or_refused(text: str, with_heading: bool) -> None:
    try:
        rows = read(f"{HEAD}\n{text}" if with_heading else text)
    except ProblemsFound as found:
        lines = list(io.StringIO(f"{HEAD}\n{text}" if with_heading else text, newline=""))
        assert found.problems
        for problem in found.problems:
            assert problem.place.line <= len(lines)
            assert problem.place.line == 0 or 1 <= problem.place.column <= len(lines[problem.place.line - 1]) + 1
        return
    assert all(row.place.line == row.line for row in rows)


@given(st.decimals(0, 10**9, places=6), st.sampled_from(["in", "mm", "ft", "m"]))
def test_a_cell_means_what_the_same_measure_means_elsewhere(number: object, unit: str) -> None:
    """Also where it means nothing: a size that no specimen has is refused in both."""
    text = f"{number:f}"
    try:
        said = measure(f"{text} {unit}", "thickness")
    except MeasureError as error:
        with pytest.raises(ProblemsFound) as caught:
            parse_csv_table(f"width [{unit}]\n{text}\n", "lab.csv", {"width": COLUMNS["width"]})
        assert [problem.code for problem in caught.value.problems] == [error.code] == ["measure-size"]
        return
    [row] = parse_csv_table(f"width [{unit}]\n{text}\n", "lab.csv", {"width": COLUMNS["width"]})
    assert row.values["width"] == said
