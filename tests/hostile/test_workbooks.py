"""Workbooks of a laboratory that hold what no table holds, or are no workbooks: each refused where it stands."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.fuzz.packing import packed, unpacked
from tests.hostile.laying_out import SOUND, write
from tests.hostile.running import MOST_MEMORY, Host, listing

openpyxl = pytest.importorskip("openpyxl")

PROJECT = SOUND + "lab: {compression: {file: theirs.xlsx}}\n"
HEADING = ["set", "specimen", "mix", "dried", "shape", "width [in]", "depth [in]", "height [in]", "peak_load [lbf]"]
ROW = ["C1", "a", "M1", "air", "cube", 4, 4, 4, 2000]


def _book(change: Callable[[Any], None] = lambda sheet: None) -> bytes:
    """A sound workbook of one specimen, then changed."""
    book = openpyxl.Workbook()
    book.active.append(HEADING)
    book.active.append(ROW)
    change(book.active)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _set(cell: str, value: object) -> Callable[[Any], None]:
    def change(sheet: Any) -> None:
        sheet[cell] = value

    return change


def _merge(area: str) -> Callable[[Any], None]:
    return lambda sheet: sheet.merge_cells(area)


def _hide_row(sheet: Any) -> None:
    sheet.row_dimensions[2].hidden = True


def _hide_column(sheet: Any) -> None:
    sheet.column_dimensions["F"].hidden = True


def _strike(cell: str) -> Callable[[Any], None]:
    def change(sheet: Any) -> None:
        sheet[cell].font = openpyxl.styles.Font(strike=True)

    return change


def _immense_formats() -> bytes:
    parts = unpacked(_book(_strike("I2")))
    return packed(parts.replace(b"<fonts", b" " * 9_000_000 + b"<fonts", 1))


def _hide_sheet(sheet: Any) -> None:
    sheet.parent.create_sheet("Other")
    sheet.sheet_state = "hidden"


def _more_rows(sheet: Any) -> None:
    for number in range(60_000):
        sheet.append(["C1", f"b{number}"])


def _in_sheet(old: bytes, new: bytes) -> bytes:
    """The sound workbook with some bytes of its sheet changed."""
    parts = unpacked(_book())
    assert old in parts
    return packed(parts.replace(old, new))


def _zip(**parts: bytes) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return out.getvalue()


def _lying_about_its_size() -> bytes:
    """A sheet of 200 MB whose directory says that it holds ten bytes."""
    with zipfile.ZipFile(io.BytesIO(_book())) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    name = "xl/worksheets/sheet1.xml"
    parts[name] = parts[name].replace(b"<sheetData>", b"<sheetData>" + b" " * 200_000_000)
    data = bytearray(_zip(**parts))
    for mark, at in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        start = data.find(mark)
        while start >= 0:
            if data[start : start + 200].find(name.encode()) > 0:
                data[start + at : start + at + 4] = (10).to_bytes(4, "little")
                break
            start = data.find(mark, start + 1)
    return bytes(data)


CASES: dict[str, tuple[Callable[[], bytes], list[str]]] = {
    "formula never worked out": (lambda: _book(_set("F2", "=2*2")), ["theirs.xlsx:2:6 xlsx-formula"]),
    "formula in a text column": (lambda: _book(_set("B2", "=A2")), ["theirs.xlsx:2:2 xlsx-formula"]),
    "formula that calls a program": (
        lambda: _book(_set("F2", "=cmd|' /C calc'!A0")), ["theirs.xlsx:2:6 xlsx-formula"]
    ),
    "an error for a number": (
        lambda: _in_sheet(b'<c r="F2" t="n"><v>4</v></c>', b'<c r="F2" t="e"><v>#DIV/0!</v></c>'),
        ["theirs.xlsx:2:6 xlsx-error"],
    ),
    "merged cells": (lambda: _book(_merge("F2:G2")), ["theirs.xlsx:2:6 xlsx-merged"]),
    "merged headings": (
        lambda: _book(_merge("F1:G1")), ["theirs.xlsx:1:6 xlsx-merged", "theirs.xlsx:2:7 csv-heading"]
    ),
    "a hidden row": (lambda: _book(_hide_row), ["theirs.xlsx:2:1 xlsx-hidden-row"]),
    "a hidden column": (lambda: _book(_hide_column), ["theirs.xlsx:1:6 xlsx-hidden-column"]),
    "a row hidden with blanks around the sign": (
        lambda: _in_sheet(b'<row r="2"', b'<row r="2" hidden = "1"'), ["theirs.xlsx:2:1 xlsx-hidden-row"]
    ),
    "a row without height": (
        lambda: _in_sheet(b'<row r="2"', b'<row r="2" ht="0" customHeight="1"'), ["theirs.xlsx:2:1 xlsx-hidden-row"]
    ),
    "rows that are hidden unless they say else": (
        lambda: _in_sheet(b"<sheetFormatPr", b'<sheetFormatPr zeroHeight="1"'),
        ["theirs.xlsx:1:1 xlsx-hidden-row", "theirs.xlsx:2:1 xlsx-hidden-row"],
    ),
    "a column without width": (
        lambda: _in_sheet(b"<sheetData>", b'<cols><col min="6" max="6" width="0"/></cols><sheetData>'),
        ["theirs.xlsx:1:6 xlsx-hidden-column"],
    ),
    "sixty thousand hidden columns over one another": (
        lambda: _in_sheet(
            b"<sheetData>", b"<cols>" + b'<col min="6" max="16384" hidden="1"/>' * 60_000 + b"</cols><sheetData>"
        ),
        [f"theirs.xlsx:1:{column} xlsx-hidden-column" for column in (6, 7, 8, 9)],
    ),
    "a value in CDATA": (
        lambda: _in_sheet(b"<v>4</v>", b"<v><![CDATA[4]]></v>"), ["theirs.xlsx xlsx-format"]
    ),
    "a hidden sheet": (lambda: _book(_hide_sheet), ["theirs.xlsx xlsx-hidden-sheet"]),
    "a unit of another kind": (
        lambda: _book(_set("F1", "width [psi]")), ["theirs.xlsx:1:6 csv-unit-dimension"]
    ),
    "no unit": (lambda: _book(_set("F1", "width")), ["theirs.xlsx:1:6 csv-unit-missing"]),
    "a load that is struck out": (lambda: _book(_strike("I2")), ["theirs.xlsx:2:9 xlsx-struck"]),
    "formats of nine megabytes": (_immense_formats, ["theirs.xlsx xlsx-size"]),
    "a number as text": (lambda: _book(_set("F2", "4 in")), ["theirs.xlsx:2:6 csv-number"]),
    "a date for a number": (
        lambda: _in_sheet(b'<c r="F2" t="n"><v>4</v></c>', b'<c r="F2" t="d"><v>2026-01-02</v></c>'),
        ["theirs.xlsx:2:6 csv-number"],
    ),
    "yes for a number": (lambda: _book(_set("F2", True)), ["theirs.xlsx:2:6 csv-number"]),
    "an immense number": (lambda: _book(_set("F2", 1e300)), ["theirs.xlsx:2:6 csv-number"]),
    "a minute number": (lambda: _book(_set("F2", 1e-18)), ["theirs.xlsx:2:6 measure-size"]),
    "a number below zero": (lambda: _book(_set("F2", -4)), ["theirs.xlsx:2:6 csv-negative"]),
    "a turned text": (lambda: _book(_set("B2", "\u202ea")), ["theirs.xlsx:2:2 xlsx-control-character"]),
    "sixty thousand rows": (lambda: _book(_more_rows), ["theirs.xlsx:50002:1 csv-rows"]),
    "a cell at the far corner": (lambda: _book(_set("XFD1048576", 1)), ["theirs.xlsx xlsx-size"]),
    "a row number of many digits": (
        lambda: _in_sheet(b'<c r="F2"', b'<c r="F' + b"9" * 5000 + b'"'), ["theirs.xlsx xlsx-format"]
    ),
    "a row number that is none": (
        lambda: _in_sheet(b'<row r="2"', b'<row r="two" hidden="1"'), ["theirs.xlsx xlsx-format"]
    ),
    "columns from far below zero": (
        lambda: _in_sheet(b"<sheetData>", b'<cols><col min="-9999999999" max="3" hidden="1"/></cols><sheetData>'),
        [f"theirs.xlsx:1:{column} xlsx-hidden-column" for column in (1, 2, 3)],
    ),
    "entities of entities": (
        lambda: _in_sheet(
            b"<worksheet",
            b'<!DOCTYPE w [<!ENTITY a "xxxxxxxx"><!ENTITY b "&a;&a;&a;&a;">]><worksheet',
        ),
        ["theirs.xlsx xlsx-format"],
    ),
    "an entity from a file": (
        lambda: _in_sheet(b"<worksheet", b'<!DOCTYPE w [<!ENTITY a SYSTEM "file:///etc/passwd">]><worksheet'),
        ["theirs.xlsx xlsx-format"],
    ),
    "a sheet outside the workbook": (
        lambda: _in_sheet(b"/xl/worksheets/sheet1.xml", b"/../../../etc/passwd"), ["theirs.xlsx xlsx-format"]
    ),
    "two hundred megabytes of blanks": (
        lambda: _in_sheet(b"<sheetData>", b"<sheetData>" + b" " * 200_000_000), ["theirs.xlsx xlsx-size"]
    ),
    "a size that is a lie": (_lying_about_its_size, ["theirs.xlsx xlsx-size"]),
    "five thousand parts": (
        lambda: _zip(**{f"part{number}": b"" for number in range(5000)}), ["theirs.xlsx xlsx-size"]
    ),
    "an empty archive": (_zip, ["theirs.xlsx xlsx-format"]),
    "an archive of something else": (lambda: _zip(word=b"<document/>"), ["theirs.xlsx xlsx-format"]),
    "half a workbook": (lambda: _book()[:2000], ["theirs.xlsx xlsx-format"]),
    "nothing": (lambda: b"", ["theirs.xlsx xlsx-format"]),
    "a table of text": (lambda: b"set,specimen\nC1,a\n", ["theirs.xlsx xlsx-format"]),
    "an encrypted workbook": (
        lambda: b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 4096, ["theirs.xlsx xlsx-format"]
    ),
    "thirteen megabytes": (lambda: b"PK\x03\x04" + b"x" * 13_000_000, ["theirs.xlsx xlsx-size"]),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_workbook(name: str, host: Host, tmp_path: Path) -> None:
    make, expected = CASES[name]
    write(tmp_path / "p", {"project.yaml": PROJECT.encode(), "theirs.xlsx": make()})
    before = listing(tmp_path)
    ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    assert not ran.traced, ran.err[:2000]
    assert sorted(ran.problems) == sorted(f"p/{problem}" for problem in expected), ran.err[:1000]
    assert ran.code == 2
    assert ran.peak < MOST_MEMORY
    assert listing(tmp_path) == before


def test_the_ground_is_sound(host: Host, tmp_path: Path) -> None:
    write(tmp_path / "p", {"project.yaml": PROJECT.encode(), "theirs.xlsx": _book()})
    ran = host.run(["check", "p", "--quiet"], tmp_path)
    assert (ran.code, ran.problems) == (1, []), ran.err
