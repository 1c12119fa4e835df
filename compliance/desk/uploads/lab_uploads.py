"""A laboratory's table that was pasted or dropped in: its bytes as a file of the project would hold them."""

from __future__ import annotations

import csv
import io
from pathlib import PurePath

from compliance.desk.uploads.held_uploads import last_part
from compliance.model.materials import SpecimenKind
from compliance.reading.tables.csv_table import MOST_BYTES
from compliance.reading.tables.lab_tables import TABLES, WORKBOOKS
from compliance.reading.tables.proposed_columns import Numbered, raw_rows
from compliance.record import record
from compliance.refused import RefusedError

TAKEN = (*WORKBOOKS, *TABLES)


@record
class LabUpload:
    """`file` is where it would lie in the folder."""

    file: str
    data: bytes

    @property
    def sheets(self) -> list[str]:
        """Of a workbook; none of a text. Raises ProblemsFound."""
        if PurePath(self.file).suffix.lower() not in WORKBOOKS:
            return []
        from compliance.reading.tables.xlsx_table import sheet_names

        return sheet_names(self.data, self.file)

    def rows(self, kind: SpecimenKind, sheet: str | None, heading_row: int | None) -> list[Numbered]:
        """Raises ProblemsFound."""
        return raw_rows(self.data, self.file, kind, sheet=sheet, heading_row=heading_row)


def suffix_of(name: str) -> str:
    """The ending of a table that is taken. Raises RefusedError."""
    found = last_part(name).suffix.lower()
    if found not in TAKEN:
        raise RefusedError(
            "lab-file-kind", f"{name!r} is no table that can be read", f"save it as one of {', '.join(TAKEN)}"
        )
    return found


def refuse_size(data: bytes) -> None:
    """Raises RefusedError."""
    if not data.strip():
        raise RefusedError("csv-empty-file", "the table holds nothing", "copy the whole table, its headings included")
    if len(data) > MOST_BYTES:
        raise RefusedError("csv-size", f"the file is larger than {MOST_BYTES // 1_000_000} MB", "divide it")


def pasted_table(text: str) -> bytes:
    """Cells copied from a spreadsheet, separated by tabs, as comma-separated values with rows of one length; a text
    without tabs as it is."""
    text = text.replace("\r\n", "\n").strip("\n") + "\n"
    if "\t" not in text:
        return text.encode()
    rows = list(csv.reader(io.StringIO(text, newline=""), delimiter="\t"))
    width = max(map(len, rows))
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\n").writerows([*row, *[""] * (width - len(row))] for row in rows)
    return out.getvalue().encode()
