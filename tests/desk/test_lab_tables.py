"""Tables of a laboratory pasted or dropped in: shown as read before they are kept, and read by a check as typed."""

from __future__ import annotations

import io
from datetime import date, datetime
from pathlib import Path

import pytest
import xlsxwriter

from compliance.desk.kept_check import Watcher
from compliance.model.lab_columns import COLUMNS
from compliance.reading.project_folder import read_project
from compliance.reading.tables.proposed_columns import OTHER_HEADINGS
from compliance.units import KINDS as MEASURES
from compliance.units import parse_measure
from tests.desk.form_fields import fields_of_form
from tests.desk.served import Reply, Visitor, served
from tests.desk.test_editing import state
from tests.desk.test_pages import words

ROWS = (
    ("T8", "T8-1", "8/24/2026", "9/10/2026", "4.01", "3.99", "8.02", "7.91", "2,140", "133.8", ""),
    (
        "T8",
        "T8-2",
        "8/24/2026",
        "9/10/2026",
        "4.02",
        "4.00",
        "8.00",
        "7.88",
        "1,985",
        "123.4",
        "small void, at an edge",
    ),
    ("T8", "T8-3", "8/24/2026", "9/11/2026", "3.98", "4.03", "7.97", "7.90", "2,260", "140.9", '<b>"chip"</b>'),
)
HEADINGS = (
    "Set", "Specimen ID", "Date cast", "Date tested", "Width (in)", "Depth (in)", "Height (in)", "Weight (lb)",
    "Max load, lbf", "Stress (psi)", "Remarks",
)  # fmt: skip
LETTERHEAD = ("Marle Street Materials Laboratory, report 26-0912\tinvented", "Printed 9/12/2026", "")
FOOTER = ("Mean\t\t\t\t\t\t\t\t2,128\t132.7\t", "Signed: J. Marle, for the laboratory")
PASTED = "\r\n".join([*LETTERHEAD, "\t".join(HEADINGS), *("\t".join(row) for row in ROWS), *FOOTER])
KINDS_OF = {"width": "specimen_length", "depth": "specimen_length", "height": "specimen_length",
            "mass": "specimen_mass", "peak_load": "test_load", "strength": "stress"}  # fmt: skip
UNITS = {"width": "in", "depth": "in", "height": "in", "mass": "lb", "peak_load": "lbf", "strength": "psi"}


@pytest.fixture
def house(house: Path) -> Path:
    """With a set whose specimens stand in no table yet."""
    earth = house / "earth.yaml"
    text = earth.read_text("utf-8").replace("test_sets:\n", "test_sets:\n  T8: {kind: compression, mix: M2}\n")
    earth.write_text(text, "utf-8")
    return house


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


def to_match(visitor: Visitor, text: str, kind: str = "compression") -> tuple[str, Reply]:
    reply = visitor.post("/tests/paste", {"table": text, "kind": kind, "name": "marle report", "seen": "{}"})
    assert reply.status == 303
    address = reply.headers["location"]
    return address.partition("?")[0], visitor.get(address)


def answered(visitor: Visitor, address: str, page: Reply, do: str, **changes: str) -> Reply:
    fields = [(name, changes.get(name, value)) for name, value in fields_of_form(page.text, address) if name != "do"]
    return visitor.post(address, [*fields, ("do", do)])


def assert_read_as_typed(folder: Path, file: str) -> None:
    found = [one for one in read_project(folder).specimens["T8"] if one.place.file == file]
    assert [one.mark for one in found] == [row[1] for row in ROWS]
    for one, row in zip(found, ROWS, strict=True):
        cast, tested = (tuple(map(int, day.split("/"))) for day in row[2:4])
        assert (one.cast, one.tested) == (date(cast[2], *cast[:2]), date(tested[2], *tested[:2]))
        assert (one.mix, one.dried, one.shape) == ("M2", "air", "prism")
        for name, text in zip(KINDS_OF, row[4:10], strict=True):
            typed = parse_measure(f"{text.replace(',', '')} {UNITS[name]}", MEASURES[KINDS_OF[name]])
            assert one.value(name) == pytest.approx(typed.si, rel=1e-12), (one.mark, name)
        assert one.note == row[10]


@pytest.mark.usefixtures("one_rule_set")
def test_a_pasted_table_is_shown_then_kept_and_read_as_typed(house: Path) -> None:
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        address, page = to_match(visitor, PASTED)
        assert page.status == 200 and "<b>" not in page.text
        proposed = dict(fields_of_form(page.text, address))
        assert (proposed["heading_row"], proposed["last_row"]) == ("4", "7")
        assert (proposed["dates"], proposed["decimal"], proposed["thousands"]) == ("month/day/year", "point", "comma")
        named = [proposed[f"column.{index}"] for index in range(len(HEADINGS))]
        assert named == ["set", "specimen", "cast", "tested", *KINDS_OF, "note"]
        every = {"every.dried": "air", "every.shape": "prism"}
        shown = answered(visitor, address, page, "show", **every)
        text = words(shown.text)
        assert shown.status == 200 and "3 specimens would be read" in text and "<b>" not in shown.text
        assert (
            "air prism 4.01 3.99 8.02 7.91 2140.0 2,140 133.8" in text
            and "2026-08-24 8/24/2026" in text
            and "Signed: J. Marle" in text
        )
        assert "What the answer would be" in text and state(house) == before
        assert not (house / "lab" / "marle report.csv").exists()
        assert answered(visitor, address, shown, "keep").status == 303
        kept = house / "lab" / "marle report.csv"
        assert_read_as_typed(house, "lab/marle report.csv")
        assert "133.8" in words(visitor.get("/tests").text) or "3 results" in words(visitor.get("/tests").text)
        after = state(house)
        changed = {name for name in after if after[name] != before[name]}
        assert changed == {"earth.yaml"} and after["earth.yaml"].startswith(before["earth.yaml"].rstrip(b"\n"))
        assert visitor.post("/undo").status == 303 and state(house) == before and not kept.exists()
        assert visitor.post("/redo").status == 303 and state(house) == after
        assert_read_as_typed(house, "lab/marle report.csv")


@pytest.mark.usefixtures("one_rule_set")
def test_what_is_refused_is_told_with_its_cell_before_anything_is_kept(house: Path) -> None:
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        address, page = to_match(visitor, PASTED.replace("8.00", "8.00 cm"))
        every = {"every.dried": "air", "every.shape": "prism"}
        shown = answered(visitor, address, page, "show", **every)
        assert shown.status == 422 and "marle report.csv:6:" in shown.text and "8.00 cm" in shown.text
        assert answered(visitor, address, page, "keep", **every).status == 422
        cut = answered(visitor, address, page, "show", **{"last_row": "6", **every})
        assert cut.status == 422 and "looks like a specimen: T8-3" in cut.text
        wrong_unit = answered(visitor, address, page, "show", **{"unit.8": "psi", **every})
        assert wrong_unit.status == 422 and "psi" in wrong_unit.text
        twice, first = to_match(visitor, PASTED.replace("T8-2", "T8-1"))
        assert "T8-1" in answered(visitor, twice, first, "show", **every).text
        again = answered(visitor, address, shown, "change")
        assert dict(fields_of_form(again.text, address))["every.dried"] == "air"
        assert visitor.get("/tests/table/99").status == 404
        assert visitor.post("/tests/paste", {"table": " \n", "kind": "compression"}).status == 422
    assert state(house) == before and not (house / "lab" / "marle report.csv").exists()


@pytest.mark.usefixtures("one_rule_set")
def test_an_ambiguous_order_of_days_is_asked_for(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        text = PASTED.replace("8/24/2026", "8/4/2026")
        address, page = to_match(visitor, text)
        every = {"every.dried": "air", "every.shape": "prism"}
        assert dict(fields_of_form(page.text, address))["dates"] == ""
        assert "day or with the month first" in words(answered(visitor, address, page, "show", **every).text)
        shown = answered(visitor, address, page, "show", dates="month/day/year", **every)
        assert shown.status == 200 and "2026-08-04" in shown.text


def workbook() -> bytes:
    out = io.BytesIO()
    book = xlsxwriter.Workbook(out, {"in_memory": True})
    book.add_worksheet("Notes").write(0, 0, "Nothing to see")
    sheet = book.add_worksheet("Prisms")
    day = book.add_format({"num_format": "m/d/yyyy"})
    sheet.write(0, 0, "Marle Street Materials Laboratory")
    sheet.write_row(3, 0, HEADINGS)
    for line, row in enumerate(ROWS, 4):
        for at, text in enumerate(row):
            if at in (2, 3):
                month, number, year = map(int, text.split("/"))
                sheet.write_datetime(line, at, datetime(year, month, number), day)
            elif at >= 4 and at < 10:
                sheet.write_number(line, at, float(text.replace(",", "")))
            else:
                sheet.write_string(line, at, text)
    sheet.write(8, 0, "Mean of three")
    book.close()
    return out.getvalue()


@pytest.mark.usefixtures("one_rule_set")
def test_a_dropped_workbook_is_kept_as_it_came_and_read_as_typed(house: Path) -> None:
    data = workbook()
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        reply = visitor.ask("PUT", "/tests/drop/..%5CC%3Areport%2031.xlsx", data)
        assert reply.status == 200 and reply.text == "/tests/table/1"
        page = visitor.get(reply.text)
        assert dict(fields_of_form(page.text, reply.text))["sheet"] == "Notes"
        page = answered(visitor, reply.text, page, "again", sheet="Prisms")
        every = {"every.dried": "air", "every.shape": "prism"}
        shown = answered(visitor, reply.text, page, "show", **every)
        assert shown.status == 200, words(shown.text)
        assert answered(visitor, reply.text, shown, "keep").status == 303
        again = visitor.ask("PUT", "/tests/drop/C-report%2031.xlsx", data)
        assert "lab/C-report 31-2.xlsx" in visitor.get(again.text).text  # nothing is replaced
    assert (house / "lab" / "C-report 31.xlsx").read_bytes() == data
    assert_read_as_typed(house, "lab/C-report 31.xlsx")


@pytest.mark.usefixtures("one_rule_set")
def test_a_table_of_a_new_set_brings_its_set_along(house: Path) -> None:
    headings = "Sample\tDate measured\tMold length (mm)\tDry length (mm)"
    text = f"{headings}\r\nB1\t2026-09-01\t600\t585\r\nB2\t2026-09-01\t600\t588"
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        address, page = to_match(visitor, text, "shrinkage")
        changes = {"new_set": "T9", "new_mix": "M1", "every.dried": "air", "every.cast": "2026-08-01"}
        shown = answered(visitor, address, page, "show", **changes)
        assert shown.status == 200, words(shown.text)
        assert answered(visitor, address, shown, "keep").status == 303
        assert answered(visitor, address, shown, "keep").status in (409, 422)
        assert visitor.get("/tests").status == 200
    read = read_project(house)
    assert read.project.test_sets["T9"].mix == "M1"
    assert [one.dried_length for one in read.specimens["T9"]] == pytest.approx([0.585, 0.588])


def test_what_is_no_table_is_refused_by_its_name(reader: Visitor) -> None:
    for name, data in (("house.exe", b"x"), ("a.csv", b" \n"), ("noname", b"a,b"), (".csv.html", b"a,b")):
        reply = reader.ask("PUT", f"/tests/drop/{name}", data)
        assert reply.status == 415 and reply.headers["content-type"].startswith("text/plain"), name
    assert reader.ask("PUT", "/tests/drop/a.csv", b"x" * 10_000_001).status == 415
    assert reader.ask("PUT", "/tests/drop/a.csv", b"x", {"Origin": None}).status == 403
    assert reader.ask("PUT", "/tests/drop/a.csv", b"x", {"Content-Length": "40000001"}).status == 413
    assert reader.ask("PUT", "/edit", b"x").status == 405
    bomb = reader.ask("PUT", "/tests/drop/a.xlsx", b"PK\x03\x04no workbook")
    assert reader.get(bomb.text).status == 422


def test_other_headings_are_of_columns_that_there_are() -> None:
    assert set(OTHER_HEADINGS) <= {name for columns in COLUMNS.values() for name in columns}
