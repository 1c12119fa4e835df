"""The request to the laboratory: what waits, what is asked, and a table that reads back once it is filled in."""

from __future__ import annotations

import csv
import re
import shutil
import subprocess
from datetime import date
from pathlib import Path

import openpyxl
import pypdf
import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.lab_request.request import write_lab_request
from compliance.documents.lab_request.requested_sets import sets_without_results
from compliance.documents.lab_request.results_form import headings, known_cells
from compliance.documents.lab_request.specimen_labels import Tie
from compliance.documents.lab_request.waiting_specimens import PlannedSet, due_day, planned_sets
from compliance.documents.page.errors import DocumentError
from compliance.model.lab_columns import COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.report.by_rule import by_rule
from compliance.units import Writer
from tests.added_columns import ADDED, MORE, add_columns
from tests.conftest import EXAMPLE
from tests.documents.reading_back import Read, fonts_without_file, overlapping, read_back
from tests.running import run_tool

ROOT = Path(__file__).parents[2]
SETS = """
  T5: {kind: compression, mix: M2, title: Prisms of the interior mix, made_by: Ilse Varga, capped: plaster of paris}
  T6: {kind: rupture, mix: M2}
  T7: {kind: shrinkage, mix: M2}
"""
ROW = "T1,T1-7,M1,2026-09-01,,air,prism,4.00,4.01,8.0,,,,BA1,,east\n"
KINDS: tuple[SpecimenKind, ...] = ("compression", "rupture", "shrinkage")


def folder_with_all_results(folder: Path) -> Path:
    """The example without the set of it that waits."""
    shutil.copytree(EXAMPLE, folder)
    earth, table = folder / "earth.yaml", folder / "lab" / "compression.csv"
    text = re.sub(r"\n  # Cast and drying.*?(?=\n\n)", "", earth.read_text(encoding="utf-8"), flags=re.DOTALL)
    assert "T5:" not in text
    earth.write_text(text, encoding="utf-8")
    rows = table.read_text(encoding="utf-8").splitlines(keepends=True)
    table.write_text("".join(row for row in rows if not row.startswith("T5,")), encoding="utf-8")
    return folder


def waiting_folder(folder: Path, units: str = "us") -> Path:
    """The example with three sets that have no rows, and a row of T1 that has no result yet."""
    earth = folder_with_all_results(folder) / "earth.yaml"
    text = earth.read_text(encoding="utf-8")
    at = re.search(r"^lab:", text, re.MULTILINE)
    assert at
    earth.write_text(text[: at.start()].rstrip() + SETS + "\n" + text[at.start() :], encoding="utf-8")
    table = folder / "lab" / "compression.csv"
    table.write_text(table.read_text(encoding="utf-8") + ROW, encoding="utf-8")
    if units == "si":
        project = folder / "project.yaml"
        project.write_text(project.read_text(encoding="utf-8").replace("units: us", "units: si"), encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def waiting(tmp_path_factory: pytest.TempPathFactory) -> tuple[Checked, Path, Read, list[PlannedSet]]:
    made = check_folder(waiting_folder(tmp_path_factory.mktemp("lab") / "house"))
    path = tmp_path_factory.mktemp("out") / "request.pdf"
    write_lab_request(made, path)
    return made, path, read_back(path), planned_sets(made, by_rule(made), Writer("us"))


def test_rows_without_results_and_sets_without_rows_wait(waiting: tuple[Checked, Path, Read, list[PlannedSet]]) -> None:
    _, _, _, planned = waiting
    assert [(one.mark, [each.mark for each in one.specimens], one.done) for one in planned] == [
        ("T1", ["T1-7"], 6),
        ("T5", [f"T5-{n}" for n in range(1, 6)], 0),
        ("T6", [f"T6-{n}" for n in range(1, 6)], 0),
        ("T7", ["T7-1"], 0),
    ]
    assert [one.stated for one in planned] == [True, True, True, False]


def test_every_waiting_specimen_is_told_and_has_a_label(waiting: tuple[Checked, Path, Read, list[PlannedSet]]) -> None:
    _, _, read, planned = waiting
    labels = read.pages[-1]
    assert "Cut out, punch, and tie to the specimen" in labels
    for one in planned:
        for specimen in one.specimens:
            assert read.text.count(f"{specimen.mark} ") >= 2, specimen.mark
            assert f"{specimen.mark} set {one.mark} · {one.test.kind} mix {one.test.mix}" in labels
    assert "batch BA1 cast 2026-09-01 test from" in labels
    assert "T5-1 to T5-5 T5 M2" in read.pages[0] and "T1-7 T1 M1 BA1 prism width 4 in" in read.pages[0]


def test_what_the_adopted_rules_ask_is_told(waiting: tuple[Checked, Path, Read, list[PlannedSet]]) -> None:
    _, _, read, _ = waiting
    assert "at least 5; cube or prism; dried: air" in read.text
    assert "k-th lowest value (rank, 1 the lowest: 1; least number of values to rank: 5)" in read.text
    assert "at least 60 psi (0.414 MPa) recalled" in read.text
    # The 1 in on 24 in is read, but that the worst bar counts is recalled, and the row stands as its weakest limit.
    assert "at most 4.2 % recalled" in read.text
    assert "at least an open limit open: needed, minimum" in read.text
    assert "capping: plaster of paris. Both loaded faces are capped flat and parallel" in read.text
    assert "Were the specimens made of the mix" not in read.text, "the builder answers that, not the laboratory"
    for line in ("report number", "contact at the laboratory", "accreditation, and by whom"):
        assert line in read.text
    inside = r"\b\w+\.(?:csv|yaml|xlsx)\b|\btest_sets\b|\blab:|earthwall|…"
    assert not re.findall(inside, read.text)
    assert "To be capped with: plaster of paris." in read.text
    assert "the rules below state no number" in read.text
    assert "none is to be left out" in read.text
    assert read.text.count("Capping of compression specimens") == 1
    assert "Design density of cob" in read.text and "Design density of cob set T1 only" not in read.text


def test_the_table_has_the_very_columns_of_the_lab_tables(
    waiting: tuple[Checked, Path, Read, list[PlannedSet]],
) -> None:
    """Against the heading rows of the example's own tables under lab/."""
    _, _, read, _ = waiting
    for kind in ("compression", "shrinkage"):
        own = (EXAMPLE / "lab" / f"{kind}.csv").read_text(encoding="utf-8").splitlines()[0].split(",")
        ours = [re.sub(r"(?<=\w) (?=\w)", "_", one).lower() for one in headings(kind, Writer("us"))]
        assert [one for one in own if one != "room"] == [one for one in ours if one in own]
        assert set(own) - {"room"} <= set(ours)
    for kind in KINDS:
        page = " ".join(text for text in read.pages if f"Results: {kind}" in text)
        for heading in headings(kind, Writer("us")):
            name, _, unit = heading.partition(" ")
            assert name in page and unit in page
    assert all(f"[{unit}]" in read.text for unit in ("in", "lb", "lbf", "psi"))
    assert not re.findall(r"[a-z]_[a-z]", read.text), "a laboratory reads words, no names of fields"


def test_more_columns_break_no_heading_of_the_table(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    add_columns(monkeypatch, (*ADDED, *MORE))
    write_lab_request(check_folder(waiting_folder(tmp_path / "house")), tmp_path / "request.pdf")
    read = read_back(tmp_path / "request.pdf")
    for kind in KINDS:
        page = " ".join(text for text in read.pages if f"Results: {kind}" in text).split()
        assert {word for heading in headings(kind, Writer("us")) for word in heading.split()} <= set(page)
    assert all(not overlapping(boxes) for boxes in read.boxes)
    asked = read.pages[0] + read.pages[1]
    assert all(column.meaning in asked for column in (*ADDED, *MORE))


VALUES = {
    "us": {"width": "4.01", "depth": "4.02", "height": "8.05", "mass": "8.1", "peak_load": "2100", "strength": "",
           "span": "10", "form_length": "24", "dried_length": "23.4"},
    "si": {"width": "102", "depth": "102.5", "height": "204", "mass": "3.7", "peak_load": "9.2", "strength": "",
           "span": "101", "form_length": "610", "dried_length": "595"},
}  # fmt: skip
BEAM = {"us": {"depth": "12"}, "si": {"depth": "305"}}
"""The depth of a beam is its length."""
WORDS = {"cast": "2026-09-02", "tested": "2026-10-20", "dried": "air", "shape": "prism", "loading": "centre",
         "batch": "", "note": "as asked"}  # fmt: skip


def filled(made: Checked, kind: SpecimenKind, units: str) -> tuple[list[str], list[list[str]]]:
    """The printed table with every empty cell filled in."""
    writer = Writer(made.project.project.units)
    titles = headings(kind, writer)
    rows = []
    for one in planned_sets(made, by_rule(made), writer):
        if one.test.kind != kind:
            continue
        for specimen in one.specimens:
            known = known_cells(one, specimen, writer).values()
            values = VALUES[units] | WORDS | (BEAM[units] if kind == "rupture" else {})
            rows.append([text or values.get(name, "") for name, text in zip(COLUMNS[kind], known, strict=True)])
    return titles, rows


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("form", ["csv", "xlsx"])
def test_the_table_filled_in_reads_back(units: str, form: str, tmp_path: Path) -> None:
    folder = waiting_folder(tmp_path / "house", units)
    table = folder / "lab" / "compression.csv"
    made = check_folder(folder)
    expected: dict[tuple[str, str], list[str]] = {}
    texts = {kind: filled(made, kind, units) for kind in KINDS}
    table.write_text(table.read_text(encoding="utf-8").replace(ROW, ""), encoding="utf-8")
    for kind, (titles, rows) in texts.items():
        assert rows
        expected |= {(row[0], row[1]): row for row in rows}
        name = f"returned-{kind}.{form}"
        if form == "csv":
            with (folder / "lab" / name).open("w", newline="", encoding="utf-8") as file:
                csv.writer(file).writerows([titles, *rows])
        else:
            book = openpyxl.Workbook()
            assert book.active
            for line in [titles, *([_as_cell(cell) for cell in row] for row in rows)]:
                book.active.append(line)
            book.save(folder / "lab" / name)
    earth = folder / "earth.yaml"
    text = earth.read_text(encoding="utf-8")
    lab = "lab:\n" + "".join(f"  {kind}: {{file: lab/returned-{kind}.{form}}}\n" for kind in KINDS)
    earth.write_text(text[: re.search(r"^lab:", text, re.MULTILINE).start()] + lab, encoding="utf-8")  # type: ignore[union-attr]
    _without_t2(folder)
    again = check_folder(folder)
    read = {(one.set, one.mark): one for rows in again.specimens.values() for one in rows}
    for key, row in expected.items():
        assert read[key].tested == date(2026, 10, 20) and read[key].mix == row[2] and read[key].note == "as asked"
    prism = read["T5", "T5-1"]
    assert prism.width == pytest.approx(0.1018540 if units == "us" else 0.102)
    assert prism.peak_load == pytest.approx(2100 * 4.4482216152605 if units == "us" else 9200)
    assert read["T1", "T1-7"].cast == date(2026, 9, 1) and read["T1", "T1-7"].batch == "BA1"
    assert read["T1", "T1-7"].depth == pytest.approx(4.01 * 0.0254, rel=1e-4)
    with pytest.raises(DocumentError, match="every described set has its results"):
        write_lab_request(again, tmp_path / "none.pdf")


def _as_cell(text: str) -> str | float | date:
    if re.fullmatch(r"\d{4}-\d\d-\d\d", text):
        return date.fromisoformat(text)
    return float(text) if re.fullmatch(r"\d+(\.\d+)?", text) else text


def _without_t2(folder: Path) -> None:
    """The lab's own table of beams gives way to the returned one, so its set goes too."""
    earth = folder / "earth.yaml"
    text = earth.read_text(encoding="utf-8")
    start = text.index("  T2:\n")
    earth.write_text(text[:start] + text[text.index("  T3:\n") :], encoding="utf-8")


def test_a_plain_csv_under_lab_reads_back_too(tmp_path: Path) -> None:
    folder = waiting_folder(tmp_path / "house")
    titles, rows = filled(check_folder(folder), "rupture", "us")
    with (folder / "lab" / "rupture.csv").open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([titles, *rows])
    again = check_folder(folder)
    assert len(again.specimens["T6"]) == 5 and len(again.specimens["T2"]) == 5


def test_the_day_from_which_a_specimen_may_be_tested() -> None:
    day = 86400.0
    assert due_day(date(2026, 9, 1), 28 * day) == date(2026, 9, 29)
    assert due_day(date(2026, 9, 1), 27.5 * day) == date(2026, 9, 29)
    assert due_day(None, 28 * day) is None and due_day(date(2026, 9, 1), None) is None


def test_the_day_stands_on_the_label(waiting: tuple[Checked, Path, Read, list[PlannedSet]]) -> None:
    _, _, _, planned = waiting
    first = planned[0].specimens[0]
    aged = type(first)(first.mark, first.row, date(2026, 9, 29))
    assert "test from 2026-09-29" in Tie("House", planned[0], aged).texts()
    assert Tie("House", planned[1], planned[1].specimens[0]).texts()[-1].endswith("____")


def test_tests_without_a_set_are_named(tmp_path: Path) -> None:
    made = check_folder(folder_with_all_results(tmp_path / "house"))
    assert any(one.startswith("compression of mix M2 (") for one in sets_without_results(made, by_rule(made)))
    with pytest.raises(DocumentError, match="compression of mix M2") as found:
        write_lab_request(made, tmp_path / "none.pdf")
    assert "test_sets:" in str(found.value)
    assert not (tmp_path / "none.pdf").exists()


def test_the_example_has_a_set_to_send(tmp_path: Path) -> None:
    """T5 is cast and dries: five prisms, the fewest that AU106.6 is recalled to ask for."""
    made = check_folder(EXAMPLE)
    (waits,) = planned_sets(made, by_rule(made), Writer("us"))
    assert [one.mark for one in waits.specimens] == [f"T5-{number}" for number in range(1, 6)] and waits.done == 0
    write_lab_request(made, tmp_path / "request.pdf")
    read = read_back(tmp_path / "request.pdf")
    assert "To Marle Street Materials Laboratory" in read.pages[0] and "T5-1 to T5-5 T5 M2 BA4 prism" in read.pages[0]
    assert not any(one.startswith("compression of mix M2") for one in sets_without_results(made, by_rule(made)))


def test_fields_to_type_in_have_names_of_their_own(waiting: tuple[Checked, Path, Read, list[PlannedSet]]) -> None:
    made, path, _, planned = waiting
    fields = pypdf.PdfReader(path).get_fields()
    assert fields is not None
    writer = Writer(made.project.project.units)
    empty = sum(
        cell == "" for one in planned for each in one.specimens for cell in known_cells(one, each, writer).values()
    )
    assert sum(name.startswith("result-") for name in fields) == empty
    assert sum(one["/FT"] == "/Tx" for one in fields.values()) >= empty


def test_pages_are_sound(waiting: tuple[Checked, Path, Read, list[PlannedSet]]) -> None:
    made, path, read, _ = waiting
    for page, (boxes, (width, height)) in enumerate(zip(read.boxes, read.sizes, strict=True), start=1):
        assert not overlapping(boxes), f"page {page}"
        for left, bottom, right, top in boxes:
            assert left >= 53 and right <= width - 53 and bottom >= 18 and top <= height - 20, f"page {page}"
        assert f"Page {page} of {len(read.pages)}" in read.pages[page - 1]
    across = [width > height for width, height in read.sizes]
    assert across == ["Results: " in text for text in read.pages] and not across[0] and not across[-1]
    assert fonts_without_file(path) == []
    again = path.with_name("again.pdf")
    write_lab_request(made, again)
    assert again.read_bytes() == path.read_bytes()


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_qpdf_finds_no_fault(waiting: tuple[Checked, Path, Read, list[PlannedSet]]) -> None:
    run = subprocess.run(["qpdf", "--check", str(waiting[1])], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr, run.stdout + run.stderr


def test_the_command(tmp_path: Path) -> None:
    folder = waiting_folder(tmp_path / "house")
    target = tmp_path / "request.pdf"
    command = ["lab-request", str(folder), "--output", str(target)]
    run = run_tool(*command)
    assert run.returncode == 0 and f"Wrote {target}" in run.stdout, run.stderr
    assert "Request to the laboratory" in read_back(target).pages[0]
    command[1] = str(folder_with_all_results(tmp_path / "done"))
    command[-1] = str(tmp_path / "none.pdf")
    run = run_tool(*command)
    assert run.returncode == 2 and "every described set has its results" in run.stderr
    assert not (tmp_path / "none.pdf").exists()
