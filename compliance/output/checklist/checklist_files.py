"""The checklist as a file: a workbook, comma-separated values, or a page for the phone."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

from compliance.checked import Checked
from compliance.files.atomic_files import write_whole
from compliance.output.checklist.checklist_tables import all_tables, checklist_table
from compliance.output.checklist.html_page import html_page
from compliance.output.checklist.workbook import CellValue, Number, workbook
from compliance.report.by_rule import by_rule
from compliance.report.revisions.findings_data import harmless


def write_checklist(checked: Checked, path: Path, form: str) -> None:
    """`form` is xlsx, csv or html. Raises OSError with nothing written, ValueError for more rows than fit."""
    write_whole(path, {"xlsx": as_workbook, "csv": as_csv, "html": as_page}[form](checked))


def as_workbook(checked: Checked) -> bytes:
    head = checked.project.project
    return workbook(all_tables(checked), f"{head.name}: checklist, revision {head.revision}", head.date, head.units)


def as_csv(checked: Checked) -> bytes:
    """Only the checklist. With a byte-order mark, by which spreadsheets know that it is UTF-8."""
    table = checklist_table(checked, by_rule(checked))
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow([column.title for column in table.columns])
    rows.writerows([_written(cell) for cell in row] for row in table.rows)
    return out.getvalue().encode("utf-8-sig")


def _written(cell: CellValue) -> str:
    if cell is None:
        return ""
    if isinstance(cell, str):
        return harmless(cell)
    if isinstance(cell, date):
        return cell.isoformat()
    return f"{cell.value if isinstance(cell, Number) else cell:.10g}"


def as_page(checked: Checked) -> bytes:
    return html_page(checked).encode("utf-8")
