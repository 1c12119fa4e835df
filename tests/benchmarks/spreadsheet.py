"""The route a spreadsheet takes: the findings, worked lines, limits and specimens of a submittal as a workbook whose
formulas work them out, with its drawings and attached files as pictures, recalculated and printed to PDF by headless
LibreOffice.

It does less than the submittal does: its pictures are there already, it draws none; no plots, no page references.
"""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import openpyxl
import pypdf
import pypdfium2
from openpyxl.drawing.image import Image
from openpyxl.worksheet.worksheet import Worksheet

from compliance.checked import Checked
from compliance.findings import Finding
from compliance.report.limits.limit_list import limits_relied_on
from compliance.steps import Given, Step
from tests.sentences import sentence

_SPOKEN = {
    "×": "*",
    "−": "-",
    "²": "^2",
    "³": "^3",
    "⁴": "^4",
    "√": "SQRT",
    "min(": "MIN(",
    "max(": "MAX(",
    "abs(": "ABS(",
}
_CALCULABLE = re.compile(r"(?:[A-Z]{1,3}[0-9]+|MIN|MAX|ABS|SQRT|[0-9.]+|[-+*/^(), ])+")
_COMPARED = {"<=": "<=", ">=": ">=", "<": "<", ">": ">", "=": "="}
_HEAD = ("rule set", "rule", "title", "clause", "about", "wall", "value", "relation", "limit", "margin", "holds",
         "outcome", "standing", "reason", "what the rule says", "remedy")  # fmt: skip
_DRAWN = ("Drawings", "Plan with the bracing shares", "Attachments")
_FIRST_GIVEN = 5
"""The column of the first value that a worked line is given."""


def formula_of(step: Step, row: int) -> str | None:
    """The worked line as a formula over the cells of its row; None where it is words, or a value as described."""
    cells = {}
    for index, given in enumerate(step.given):
        if not isinstance(given.value, float) or index >= 20:
            return None
        cells[given.symbol] = f"{chr(ord('A') + _FIRST_GIVEN + index)}{row}"
    if not cells or not step.formula or not isinstance(step.result.value, float):
        return None
    symbols = "|".join(re.escape(one) for one in sorted(cells, key=len, reverse=True))
    text = re.sub(rf"(?<![\w.])(?:{symbols})(?![A-Za-z0-9_])", lambda match: cells[match[0]], step.formula)
    for said, written in _SPOKEN.items():
        text = text.replace(said, written)
    text = re.sub(r"SQRT ?([A-Z]+[0-9]+|[0-9.]+)", r"SQRT(\1)", text)
    return f"={text}" if _CALCULABLE.fullmatch(text) else None


def write_workbook(checked: Checked, path: Path, submittal: Path) -> dict[str, float]:
    """Writes it; gives the value of each cell of the worked lines that holds a formula, as the tool has it. `submittal`
    is the printed one, whose drawings and attached files become the pictures."""
    book = openpyxl.Workbook()
    findings = book.active
    assert isinstance(findings, Worksheet)
    findings.title = "Findings"
    wanted = _steps(book.create_sheet("Worked lines"), checked)
    _findings(findings, checked)
    _limits(book.create_sheet("Limits"), checked)
    _specimens(book.create_sheet("Specimens"), checked)
    _tally(book.create_sheet("Tally"), len(checked.findings))
    for number, page in enumerate(_pages_with_pictures(submittal), start=1):
        book.create_sheet(f"Picture {number}").add_image(page, "A1")
    for sheet in book.worksheets:
        sheet.page_setup.orientation = "landscape"
        sheet.sheet_properties.pageSetUpPr = openpyxl.worksheet.properties.PageSetupProperties(fitToPage=True)
        sheet.page_setup.fitToHeight = 0
        sheet.print_title_rows = "1:1"
    book.save(path)
    return wanted


def _pages_with_pictures(submittal: Path) -> Iterator[Image]:
    """The pages of the sections that are drawn or attached, at 150 dots to the inch, as people put them in."""
    reader = pypdf.PdfReader(submittal)
    starts = [(str(one.title), reader.get_destination_page_number(one)) for one in reader.outline
              if isinstance(one, pypdf.generic.Destination)]  # fmt: skip
    ends = [page for _, page in starts[1:]] + [len(reader.pages)]
    shown = pypdfium2.PdfDocument(submittal)
    for (title, first), end in zip(starts, ends, strict=True):
        for number in range(first, end) if title in _DRAWN else ():
            held = BytesIO()
            shown[number].render(scale=150 / 72).to_pil().save(held, "PNG")
            yield Image(held)


def _plain(given: Given | None) -> Any:
    return None if given is None else given.value


def _findings(sheet: Worksheet, checked: Checked) -> None:
    sheet.append(_HEAD)
    for row, one in enumerate(checked.findings, start=2):
        sheet.append([
            one.rule_set, one.rule, one.title, one.clause, one.subject, one.wall, _plain(one.value),
            one.relation or None, _plain(one.limit), *_compared(one, row), one.verdict,
            one.standing.value if one.standing else None, sentence(one), one.say, one.remedy,
        ])  # fmt: skip


def _compared(one: Finding, row: int) -> tuple[str | None, str | None]:
    """The margin and whether the relation holds, as formulas, where two numbers are compared."""
    if one.value is None or one.limit is None or one.relation not in _COMPARED:
        return None, None
    if not isinstance(one.value.value, float) or not isinstance(one.limit.value, float):
        return None, None
    sign = f"(1-G{row}/I{row})" if one.relation.startswith("<") else f"(G{row}/I{row}-1)"
    return f"=IF(I{row}=0,0,{sign})", f'=IF(G{row}{_COMPARED[one.relation]}I{row},"yes","no")'


def _steps(sheet: Worksheet, checked: Checked) -> dict[str, float]:
    sheet.append(["about", "rule", "line", "formula", "result", *(f"value {number}" for number in range(1, 21))])
    wanted: dict[str, float] = {}
    row = 1
    for one in checked.findings:
        for step in one.steps:
            row += 1
            formula = formula_of(step, row)
            if formula and isinstance(step.result.value, float):
                wanted[f"E{row}"] = step.result.value
            given = [_plain(value) for value in step.given][:20]
            sheet.append([one.subject, one.rule, step.says, step.formula, formula or _plain(step.result), *given])
    return wanted


def _limits(sheet: Worksheet, checked: Checked) -> None:
    sheet.append(["rule set", "rule", "limit", "clause", "value", "standing", "source", "about"])
    for listed in limits_relied_on(checked.findings):
        one = listed.limit
        sheet.append([one.rule_set, one.rule, one.name, one.clause, _plain(one.value), one.standing.value, one.source,
                      ", ".join(listed.subjects)])  # fmt: skip


def _specimens(sheet: Worksheet, checked: Checked) -> None:
    sheet.append(["set", "specimen", "width", "depth", "load", "strength"])
    row = 1
    for specimens in checked.specimens.values():
        for one in specimens:
            row += 1
            sizes = (one.width, one.depth, one.peak_load)
            worked = f"=E{row}/(C{row}*D{row})" if one.kind == "compression" and all(sizes) else one.strength
            sheet.append([one.set, one.mark, *sizes, worked])


def _tally(sheet: Worksheet, count: int) -> None:
    sheet.append(["outcome", "findings"])
    for row, word in enumerate(("meets*", "revise", "engineer", "missing", "confirm", "not applicable"), start=2):
        sheet.append([word, f"=COUNTIF(Findings!L2:L{count + 1},A{row})"])


def printing(book: Path, folder: Path, kind: str = "pdf") -> list[str]:
    """The command that recalculates the workbook and prints it into `folder`, with a profile of its own there."""
    profile = f"-env:UserInstallation=file://{folder / 'profile'}"
    return ["soffice", profile, "--headless", "--convert-to", kind, "--outdir", str(folder), str(book)]


def agreeing(book: Path, folder: Path, wanted: dict[str, float]) -> tuple[int, int]:
    """How many of the formulas give the tool's value once LibreOffice has worked them out, of how many."""
    subprocess.run(printing(book, folder, "xlsx"), capture_output=True, check=True)
    sheet = openpyxl.load_workbook(folder / book.name, data_only=True, read_only=True)["Worked lines"]
    found = {f"E{number}": row[0] for number, row in enumerate(_column(sheet), start=1)}
    near = sum(
        isinstance(found.get(cell), (int, float)) and abs(found[cell] - value) <= 1e-6 * max(abs(value), 1e-9)
        for cell, value in wanted.items()
    )
    return near, len(wanted)


def _column(sheet: Any) -> Iterator[tuple[Any, ...]]:
    yield from sheet.iter_rows(min_col=5, max_col=5, values_only=True)
