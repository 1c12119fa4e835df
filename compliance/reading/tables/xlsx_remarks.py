"""What people mark in a workbook beside its values: cells struck out, and comments.

A reader of values sees neither: a struck load would count, and "cracked when lifted" be lost.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterator
from io import BytesIO
from xml.etree import ElementTree

from compliance.reading.tables.xlsx_places import Cell, column_number
from compliance.record import record
from compliance.refused import RefusedError

MOST_BYTES = 8_000_000
_STRUCK = re.compile(rb"<(?:\w+:)?strike\b")
_REFERENCE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_STYLES, _SHARED = "xl/styles.xml", "xl/sharedStrings.xml"
_STANDS_FOR_ANOTHER = "[Threaded comment]"
"""How a plain comment begins that is there for programs which do not know threads of comments."""


@record
class Parts:
    """The parts of a workbook by path. `read` gives one that holds nothing foreign, or raises RefusedError."""

    names: frozenset[str]
    read: Callable[[str], bytes]

    def small(self, name: str) -> bytes:
        """A part that is taken apart as a whole. Raises RefusedError where it is too large for that."""
        data = self.read(name)
        if len(data) > MOST_BYTES:
            wrong = f"the formats, texts or comments of the workbook hold more than {MOST_BYTES // 1_000_000} MB"
            raise RefusedError("xlsx-size", wrong, "copy the table to a workbook of its own")
        return data


@record
class Remarks:
    """`struck` are cells whose text, or part of it, is struck out; `comments` what is noted at cells."""

    struck: tuple[Cell, ...] = ()
    comments: tuple[tuple[Cell, str], ...] = ()


NO_REMARKS = Remarks()


def remarks_of(parts: Parts, name: str, sheet: bytes) -> Remarks:
    """The remarks in the sheet at the path `name`, whose text is `sheet`. Raises RefusedError; KeyError, ValueError and
    ParseError for a damaged workbook."""
    return Remarks(tuple(_struck(parts, sheet)), tuple(_comments(parts, name)))


def _struck(parts: Parts, sheet: bytes) -> Iterator[Cell]:
    styles = _struck_styles(parts)
    texts = _struck_texts(parts)
    if not (styles or texts or _STRUCK.search(sheet)):
        return
    row = column = 0
    for event, one in ElementTree.iterparse(BytesIO(sheet), ("start", "end")):
        name = _name(one)
        if event == "start" and name == "row":
            row, column = int(one.get("r") or row + 1), 0
        elif event == "end" and name == "c":
            column = _column_of(one, column)
            if _is_struck(one, styles, texts):
                yield row, column
            one.clear()


def _is_struck(cell: ElementTree.Element, styles: frozenset[int], texts: frozenset[int]) -> bool:
    """Whether a cell with anything in it is struck out by its format or by that of a part of its text."""
    kind, format_is_struck = cell.get("t"), int(cell.get("s") or 0) in styles
    if kind == "inlineStr":
        return format_is_struck or any(map(_is_strike, cell.iter()))
    value = next((one.text or "" for one in cell if _name(one) == "v"), "")
    return bool(value) and (format_is_struck or (kind == "s" and int(value) in texts))


def _struck_styles(parts: Parts) -> frozenset[int]:
    """The formats of cells whose font is struck out."""
    if _STYLES not in parts.names or not _STRUCK.search(parts.read(_STYLES)):
        return frozenset()
    root = ElementTree.fromstring(parts.small(_STYLES))
    fonts = [one for group in root if _name(group) == "fonts" for one in group]
    struck = {index for index, font in enumerate(fonts) if any(map(_is_strike, font))}
    formats = [one for group in root if _name(group) == "cellXfs" for one in group]
    return frozenset(index for index, one in enumerate(formats) if int(one.get("fontId") or 0) in struck)


def _struck_texts(parts: Parts) -> frozenset[int]:
    """The shared texts of which a part is struck out."""
    if _SHARED not in parts.names or not _STRUCK.search(parts.read(_SHARED)):
        return frozenset()
    items = [one for one in ElementTree.fromstring(parts.small(_SHARED)) if _name(one) == "si"]
    return frozenset(index for index, one in enumerate(items) if any(map(_is_strike, one.iter())))


def _is_strike(one: ElementTree.Element) -> bool:
    return _name(one) == "strike" and (one.get("val") or "1").strip() not in ("0", "false")


def _comments(parts: Parts, sheet: str) -> Iterator[tuple[Cell, str]]:
    folder, file = posixpath.split(sheet)
    links = posixpath.join(folder, "_rels", f"{file}.rels")
    if links not in parts.names:
        return
    for link in ElementTree.fromstring(parts.small(links)):
        kind, target = link.get("Type") or "", link.get("Target") or ""
        path = target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(folder, target))
        if kind.endswith(("/comments", "/threadedComment")) and path in parts.names:
            yield from _comments_in(parts.small(path))


def _comments_in(part: bytes) -> Iterator[tuple[Cell, str]]:
    for one in ElementTree.fromstring(part).iter():
        if _name(one) not in ("comment", "threadedComment"):
            continue
        match = _REFERENCE.fullmatch(one.get("ref") or "")
        text = " ".join("".join(piece.text or "" for piece in one.iter() if _name(piece) in ("t", "text")).split())
        if match and text and not text.startswith(_STANDS_FOR_ANOTHER):
            yield (int(match[2]), column_number(match[1])), text


def _column_of(cell: ElementTree.Element, before: int) -> int:
    match = _REFERENCE.fullmatch(cell.get("r") or "")
    return column_number(match[1]) if match else before + 1


def _name(element: ElementTree.Element) -> str:
    return element.tag.rpartition("}")[2]
