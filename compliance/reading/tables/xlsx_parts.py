"""What a workbook says of its cells beside their values: formulas without a stored result, errors, what is hidden.

The reader of values gives an empty cell for a formula that was never worked out and for an error, and says nothing of
hidden rows; here they are found in the file itself.
"""

from __future__ import annotations

import posixpath
import re
import zipfile
import zlib
from io import BytesIO
from xml.etree import ElementTree

from compliance.reading.tables.xlsx_places import Cell, column_number
from compliance.reading.tables.xlsx_remarks import NO_REMARKS, Parts, Remarks, remarks_of
from compliance.record import record, replace
from compliance.refused import RefusedError

MOST_UNPACKED = 60_000_000
MOST_CELLS = 2_000_000
_MOST_PARTS = 1_000
_MOST_PACKING = 1_032  # times; deflate cannot pack tighter
_CHUNK = 1 << 20
_ADVICE = "save the sheet again as .xlsx without a password, or as .csv"
_BROKEN = (zipfile.BadZipFile, zlib.error, NotImplementedError, RuntimeError, OSError, EOFError, ValueError)
# Any of these in a sheet asks for a closer look; without them, none of what is looked for can be there.
_MARKS = (b"<f>", b"<f ", b"<f/", b":f>", b":f ", b":f/", b't="e"', b"t='e'")
_UNSEEN = re.compile(rb"""hidden|zeroHeight|(?:\bht|[wW]idth|Height)\s*=\s*["']\s*[-+.0]""")
_FOREIGN = (b"<!DOCTYPE", b"<!ENTITY", b"<![CDATA[")
"""What no spreadsheet writes; the reader of values takes a cell with the last for an empty one."""
_SHARED = "xl/sharedStrings.xml"
_LOWEST, _NARROWEST = 1.0, 0.1
"""Points and characters below which a row or a column cannot be seen."""
_LAST_COLUMN = 16_384
_FAR = re.compile(rb"""\sr\s*=\s*["'](?:([A-Z]{2,})[0-9]+|[A-Z]?([0-9]{5,}))["']""")
_ROW = re.compile(rb"""\sr\s*=\s*["'][A-Z]*([0-9]+)["']""")
_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")


@record
class Beside:
    """What stands beside the values of one sheet. `errors` are cells with the error they show."""

    unworked: tuple[Cell, ...] = ()
    errors: tuple[tuple[Cell, str], ...] = ()
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    remarks: Remarks = NO_REMARKS


def refuse_large(data: bytes) -> None:
    """Raises RefusedError: `xlsx-format` for what is no zip archive, `xlsx-size` for one too large to unpack."""
    try:
        with zipfile.ZipFile(BytesIO(data)) as archive:
            too_large = _too_large(archive)
    except _BROKEN as error:
        raise RefusedError("xlsx-format", "this is no workbook of the kind .xlsx", _ADVICE) from error
    if too_large:
        raise RefusedError("xlsx-size", f"the workbook unpacks to more than {MOST_UNPACKED // 1_000_000} MB", _ADVICE)


def _too_large(archive: zipfile.ZipFile) -> bool:
    """By the sizes the archive states, and by unpacking it where these could be a lie."""
    parts = archive.infolist()
    if len(parts) > _MOST_PARTS or sum(part.file_size for part in parts) > MOST_UNPACKED:
        return True
    if sum(part.compress_size for part in parts) * _MOST_PACKING <= MOST_UNPACKED:
        return False
    unpacked = 0
    for part in parts:
        part.file_size = MOST_UNPACKED + 1  # or reading ends at the size that is stated
        with archive.open(part) as opened:
            while chunk := opened.read(_CHUNK):
                unpacked += len(chunk)
                if unpacked > MOST_UNPACKED:
                    return True
    return False


def beside_values(data: bytes, sheet: str) -> Beside:
    """Raises RefusedError: `xlsx-format` for no sound workbook, `xlsx-size` for a sheet that reaches too far."""
    try:
        with zipfile.ZipFile(BytesIO(data)) as archive:
            name = _part_of(archive, sheet)
            part = _plain_xml(archive.read(name))
            if _SHARED in archive.namelist():
                _refuse_foreign(archive.read(_SHARED))
            _refuse_far_cells(part)
            parts = Parts(frozenset(archive.namelist()), lambda path: _plain_xml(archive.read(path)))
            remarks = remarks_of(parts, name, part)
    except RefusedError:
        raise
    except (*_BROKEN, KeyError, ElementTree.ParseError) as error:
        raise RefusedError("xlsx-format", "the workbook cannot be opened", _ADVICE) from error
    try:
        closer = any(mark in part for mark in _MARKS) or _UNSEEN.search(part)
        return replace(_scanned(part) if closer else Beside(), remarks=remarks)
    except RefusedError:
        raise
    except (ElementTree.ParseError, ValueError) as error:
        raise RefusedError("xlsx-format", f"the sheet {sheet!r} is damaged", _ADVICE) from error


def _plain_xml(part: bytes) -> bytes:
    """Refuses what no program writes into a sheet, and what could not be searched as bytes."""
    if b"\0" in part[:400]:
        raise RefusedError("xlsx-format", "the workbook holds what no spreadsheet writes", _ADVICE)
    _refuse_foreign(part)
    return part


def _refuse_foreign(part: bytes) -> None:
    if any(mark in part for mark in _FOREIGN):
        raise RefusedError("xlsx-format", "the workbook holds what no spreadsheet writes", _ADVICE)


def _part_of(archive: zipfile.ZipFile, sheet: str) -> str:
    """The path in the archive of the sheet called so. Raises KeyError."""
    book = ElementTree.fromstring(_plain_xml(archive.read("xl/workbook.xml")))
    links = ElementTree.fromstring(_plain_xml(archive.read("xl/_rels/workbook.xml.rels")))
    ids = {
        one.get("name"): next((value for key, value in one.items() if key.endswith("}id")), None)
        for one in book.iter()
        if _name(one) == "sheet"
    }
    targets = {one.get("Id"): one.get("Target") for one in links.iter()}
    target = targets[ids[sheet]]
    if target is None:
        raise KeyError(sheet)
    return target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join("xl", target))


def _name(element: ElementTree.Element) -> str:
    return element.tag.rpartition("}")[2]


def _refuse_far_cells(part: bytes) -> None:
    """A cell far out would make the reader of values fill everything before it."""
    far = set(_FAR.findall(part))
    columns = max((column_number(letters.decode()) for letters, _ in far if letters), default=26)
    rows = max((int(digits) for _, digits in far if digits), default=9_999)
    if max(columns, 26) * rows > MOST_CELLS:  # then the rows are worth counting
        rows = max(int(digits) for digits in set(_ROW.findall(part)))
    if max(columns, 26) * rows > MOST_CELLS:
        wrong = "the sheet reaches too far: some cell stands far to the right or far down"
        raise RefusedError("xlsx-size", wrong, "copy the table to a sheet of its own")


def _scanned(part: bytes) -> Beside:
    unworked: list[Cell] = []
    errors: list[tuple[Cell, str]] = []
    hidden_rows: set[int] = set()
    columns: list[tuple[int, int, bool]] = []
    row = column = 0
    rows_unseen = columns_unseen = False
    for event, element in ElementTree.iterparse(BytesIO(part), ("start", "end")):
        name = _name(element)
        if event == "start" and name == "sheetFormatPr":
            rows_unseen = _is_yes(element, "zeroHeight") or _is_below(element, "defaultRowHeight", _LOWEST)
            columns_unseen = _is_below(element, "defaultColWidth", _NARROWEST)
        elif event == "start" and name == "row":
            row, column = int(element.get("r") or row + 1), 0
            unseen = _is_below(element, "ht", _LOWEST) or (rows_unseen and element.get("ht") is None)
            if unseen or _is_yes(element, "hidden"):
                hidden_rows.add(row)
        elif event == "end" and name == "col":
            first, last = int(element.get("min", "0")), int(element.get("max", "0"))
            hidden = _is_yes(element, "hidden") or _is_below(element, "width", _NARROWEST)
            columns.append((max(first, 1), min(last, _LAST_COLUMN), hidden))
            element.clear()
        elif event == "end" and name == "c":
            column = _column_of(element, column)
            formula, value = _formula_and_value(element)
            if formula and (value is None or (not value and element.get("t") != "str")):
                unworked.append((row, column))
            if element.get("t") == "e":
                errors.append(((row, column), value or "an error"))
            element.clear()
    return Beside(tuple(unworked), tuple(errors), frozenset(hidden_rows), _unseen_columns(columns, columns_unseen))


def _unseen_columns(stated: list[tuple[int, int, bool]], others: bool) -> frozenset[int]:
    """The columns that cannot be seen; `others`: those that nothing is stated of as well. Each column is looked at
    once, however many statements overlap."""
    unseen = _covered([(first, last) for first, last, hidden in stated if hidden])
    if others:
        unseen |= set(range(1, _LAST_COLUMN + 1)) - _covered([(first, last) for first, last, _ in stated])
    return frozenset(unseen)


def _covered(ranges: list[tuple[int, int]]) -> set[int]:
    found: set[int] = set()
    end = 0
    for first, last in sorted(set(ranges)):
        found.update(range(max(first, end + 1), last + 1))
        end = max(end, last)
    return found


def _is_yes(element: ElementTree.Element, name: str) -> bool:
    return (element.get(name) or "").strip() in ("1", "true")


def _is_below(element: ElementTree.Element, name: str, least: float) -> bool:
    """Whether a size is stated and below `least`. Raises ValueError for what is no number."""
    stated = element.get(name)
    return stated is not None and float(stated) < least


def _column_of(cell: ElementTree.Element, before: int) -> int:
    found = _REFERENCE.fullmatch(cell.get("r") or "")
    return column_number(found[1]) if found else before + 1


def _formula_and_value(cell: ElementTree.Element) -> tuple[bool, str | None]:
    parts = {_name(child): child for child in cell}
    value = parts.get("v")
    return "f" in parts, None if value is None else (value.text or "")
