"""A small workbook in the open format of spreadsheets (OOXML, ECMA-376): typed cells, no formulas, always the same.

Text stands in the cells as text and can never become a formula, also when somebody edits the cell; numbers are
numbers, days are days.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from io import BytesIO
from xml.sax.saxutils import escape, quoteattr

from compliance.record import record

CellValue = str | float | int | date | None

_EPOCH = date(1899, 12, 30)  # day 0 of spreadsheets, for days after February 1900
_STAMP = (1980, 1, 1, 0, 0, 0)
_MOST_TEXT, _MOST_NAME, _MOST_ROWS = 32_000, 31, 1_048_576
_NO_NAME = re.compile(r"[\[\]:*?/\\']")
_ESCAPED = re.compile(r"_(?=x[0-9A-Fa-f]{4}_)")
_NO_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
_PLAIN, _HEAD, _DAY, _GUARDED = 0, 1, 2, 3
_XML = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'
_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_RELATED = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"


@record
class Column:
    """A column: its title with the unit in brackets, and its width in characters."""

    title: str
    width: float = 14.0


@record
class Table:
    """One sheet. Its first row, the titles, stays in sight."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[CellValue, ...], ...]


def workbook(tables: Sequence[Table], title: str, made: date) -> bytes:
    """The whole file. Raises ValueError for a table with more rows than a spreadsheet holds."""
    names = _names(tables)
    parts = {
        "[Content_Types].xml": _content_types(len(tables)),
        "_rels/.rels": _rels([("officeDocument", "xl/workbook.xml"), ("extended-properties", "docProps/app.xml")],
                             core="docProps/core.xml"),
        "docProps/app.xml": _app(),
        "docProps/core.xml": _core(title, made),
        "xl/workbook.xml": _book(names, tables),
        "xl/_rels/workbook.xml.rels": _rels(
            [("worksheet", f"worksheets/sheet{number}.xml") for number in range(1, len(tables) + 1)]
            + [("styles", "styles.xml")]
        ),
        "xl/styles.xml": _STYLES,
        **{f"xl/worksheets/sheet{number}.xml": _sheet(table) for number, table in enumerate(tables, start=1)},
    }  # fmt: skip
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as file:
        for name, text in parts.items():
            info = zipfile.ZipInfo(name, _STAMP)
            info.compress_type, info.create_system, info.external_attr = zipfile.ZIP_DEFLATED, 0, 0
            file.writestr(info, text.encode("utf-8"))
    return out.getvalue()


def _names(tables: Sequence[Table]) -> list[str]:
    """Names of sheets, made fit and unlike each other."""
    names: list[str] = []
    for table in tables:
        name = _NO_NAME.sub("-", table.name)[:_MOST_NAME] or "Sheet"
        while name.casefold() in (one.casefold() for one in names):
            name = f"{name[: _MOST_NAME - 2]}-{len(names) + 1}"
        names.append(name)
    return names


def _sheet(table: Table) -> str:
    if len(table.rows) + 1 > _MOST_ROWS:
        raise ValueError(f"the sheet {table.name} would have {len(table.rows)} rows, more than a spreadsheet holds")
    across = len(table.columns)
    last = f"{_letters(across)}{len(table.rows) + 1}"
    widths = "".join(
        f'<col min="{index}" max="{index}" width="{one.width:g}" customWidth="1"/>'
        for index, one in enumerate(table.columns, start=1)
    )
    head = _row(1, [one.title for one in table.columns], _HEAD)
    body = "".join(_row(number, row) for number, row in enumerate(table.rows, start=2))
    return (
        f'{_XML}<worksheet xmlns="{_MAIN}"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><dimension ref="A1:{last}"/>'
        '<sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" '
        'state="frozen"/><selection pane="bottomLeft"/></sheetView></sheetViews><sheetFormatPr defaultRowHeight="15"/>'
        f'<cols>{widths}</cols><sheetData>{head}{body}</sheetData><autoFilter ref="A1:{last}"/>'
        '<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/>'
        '<pageSetup orientation="landscape" fitToWidth="1" fitToHeight="0"/></worksheet>'
    )


def _row(number: int, values: Iterable[CellValue], style: int = _PLAIN) -> str:
    cells = "".join(_cells(number, values, style))
    return f'<row r="{number}">{cells}</row>'


def _cells(number: int, values: Iterable[CellValue], style: int) -> Iterator[str]:
    for index, value in enumerate(values, start=1):
        if value is None or value == "":
            continue
        place = f'r="{_letters(index)}{number}"'
        if isinstance(value, str):
            look = _GUARDED if value.startswith(_FORMULA_STARTS) and style == _PLAIN else style
            yield f'<c {place} s="{look}" t="inlineStr"><is><t xml:space="preserve">{_text(value)}</t></is></c>'
        elif isinstance(value, date):
            yield f'<c {place} s="{_DAY}"><v>{(value - _EPOCH).days}</v></c>'
        else:
            yield f'<c {place} s="{style}"><v>{value!r}</v></c>'


def _letters(index: int) -> str:
    """The name of a column: A, B ... Z, AA ..."""
    letters = ""
    while index:
        index, rest = divmod(index - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def _text(value: str) -> str:
    """As XML; what XML cannot hold is replaced, and what readers would take for an escape is written out."""
    shown = value if len(value) <= _MOST_TEXT else f"{value[:_MOST_TEXT]}…"
    return escape(_ESCAPED.sub("_x005F_", _NO_XML.sub("\ufffd", shown)))


def _content_types(count: int) -> str:
    sheets = "".join(
        f'<Override PartName="/xl/worksheets/sheet{number}.xml" '
        'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>'
        for number in range(1, count + 1)
    )
    return (
        f'{_XML}<Types xmlns="{_PACKAGE}/content-types">'
        '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
        '<Default Extension="xml" ContentType="application/xml"/>'
        '<Override PartName="/xl/workbook.xml" '
        'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>'
        '<Override PartName="/xl/styles.xml" '
        'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>'
        '<Override PartName="/docProps/app.xml" '
        'ContentType="application/vnd.openxmlformats-officedocument.extended-properties+xml"/>'
        '<Override PartName="/docProps/core.xml" '
        'ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>'
        f"{sheets}</Types>"
    )


def _rels(targets: Sequence[tuple[str, str]], core: str = "") -> str:
    lines = [f'Type="{_RELATED}/{kind}" Target="{target}"' for kind, target in targets]
    lines += [f'Type="{_PACKAGE}/relationships/metadata/core-properties" Target="{core}"'] if core else []
    rels = "".join(f'<Relationship Id="rId{number}" {line}/>' for number, line in enumerate(lines, start=1))
    return f'{_XML}<Relationships xmlns="{_PACKAGE}/relationships">{rels}</Relationships>'


def _book(names: Sequence[str], tables: Sequence[Table]) -> str:
    """Filters and titles repeated in print are names of their own."""
    sheets, defined = "", ""
    for index, (name, table) in enumerate(zip(names, tables, strict=True)):
        sheets += f'<sheet name={quoteattr(name)} sheetId="{index + 1}" r:id="rId{index + 1}"/>'
        area = f"'{escape(name)}'!$A$1:${_letters(len(table.columns))}${len(table.rows) + 1}"
        defined += f'<definedName name="_xlnm._FilterDatabase" localSheetId="{index}" hidden="1">{area}</definedName>'
    for index, name in enumerate(names):
        defined += (
            f'<definedName name="_xlnm.Print_Titles" localSheetId="{index}">\'{escape(name)}\'!$1:$1</definedName>'
        )
    return (
        f'{_XML}<workbook xmlns="{_MAIN}" xmlns:r="{_RELATED}"><sheets>{sheets}</sheets>'
        f"<definedNames>{defined}</definedNames></workbook>"
    )


def _app() -> str:
    space = "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"
    return f'{_XML}<Properties xmlns="{space}"><Application>earthwall</Application></Properties>'


def _core(title: str, made: date) -> str:
    day = f'<dcterms:{{0}} xsi:type="dcterms:W3CDTF">{made.isoformat()}T00:00:00Z</dcterms:{{0}}>'
    return (
        f'{_XML}<cp:coreProperties xmlns:cp="{_PACKAGE}/metadata/core-properties" '
        'xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" '
        'xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">'
        f"<dc:title>{_text(title)}</dc:title><dc:creator>earthwall</dc:creator>"
        f"{day.format('created')}{day.format('modified')}</cp:coreProperties>"
    )


_STYLES = (
    f'{_XML}<styleSheet xmlns="{_MAIN}">'
    '<numFmts count="1"><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/></numFmts>'
    '<fonts count="2"><font><sz val="10"/><name val="Calibri"/></font>'
    '<font><b/><sz val="10"/><name val="Calibri"/></font></fonts>'
    '<fills count="3"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>'
    '<fill><patternFill patternType="solid"><fgColor rgb="FFE9E2D3"/><bgColor indexed="64"/></patternFill></fill>'
    "</fills>"
    '<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>'
    '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs><cellXfs count="4">'
    '<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0" applyAlignment="1">'
    '<alignment vertical="top" wrapText="1"/></xf>'
    '<xf numFmtId="0" fontId="1" fillId="2" borderId="0" xfId="0" applyFont="1" applyFill="1" applyAlignment="1">'
    '<alignment vertical="top" wrapText="1"/></xf>'
    '<xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1" applyAlignment="1">'
    '<alignment vertical="top"/></xf>'
    '<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0" quotePrefix="1" applyAlignment="1">'
    '<alignment vertical="top" wrapText="1"/></xf></cellXfs>'
    '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>'
)
