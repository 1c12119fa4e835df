"""What would be read of a table: every value in the units of the project, or why it is refused."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.edit_html import difference_lists
from compliance.desk.pages.field_forms import edit_form
from compliance.desk.pages.frame import page, section, warnings_box
from compliance.desk.pages.lab.match_html import table_of
from compliance.desk.pages.lab.tests_html import TESTS
from compliance.desk.uploads.lab_uploads import LabUpload
from compliance.model.lab_columns import COLUMNS, LabColumn
from compliance.model.specimens import Specimen
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import problems_text
from compliance.problems import Problem
from compliance.reading.tables.proposed_columns import Numbered
from compliance.remedies import Difference
from compliance.report.value_words import counted
from compliance.units import Writer

_WIDE = 88
Fields = Sequence[tuple[str, str]]


def result_page(
    snapshot: Snapshot, number: str, upload: LabUpload, fields: Fields, then: Checked, left_out: Sequence[Numbered],
    differences: Sequence[Difference],
) -> bytes:  # fmt: skip
    """The specimens that would be read; nothing is written before the button. `fields` are those of the match."""
    found = [one for rows in then.specimens.values() for one in rows if one.place.file == upload.file]
    warnings = [one for one in then.warnings if one.place.file.endswith(upload.file)]
    children = [
        tag("h1", f"{counted(len(found), 'specimen')} would be read"),
        tag("p", "As read, in the units of the project; below each figure what the table says."),
        _specimens(found, Writer(then.project.project.units)),
        section("Rows that are left out", table_of(left_out)) if left_out else None,
        warnings_box(warnings, lambda name: None),
        tag("div", _keep(number, fields, snapshot), change_match(number, fields, snapshot), class_="ways"),
        section("What the answer would be", *_changed(differences)),
    ]
    return page("As read", snapshot, *children)


def _changed(differences: Sequence[Difference]) -> Iterator[Child]:
    some = [one for one in differences if one.altered or one.worse]
    yield joined(difference_lists(some)) if some else tag("p", "No finding changes its outcome.")


def refused_page(
    snapshot: Snapshot, number: str, upload: LabUpload, fields: Fields, problems: Sequence[Problem]
) -> bytes:  # fmt: skip
    """Why the table, or what was said of it, is not taken."""
    lines = _lines_of(upload)
    children = [
        tag("h1", "The table cannot be read so"),
        tag("pre", problems_text(problems, _WIDE, lines), class_="care", role="alert", tabindex="0"),
        tag("p", "Nothing was written. Correct the match, or the table itself, and look again."),
        change_match(number, fields, snapshot),
    ]
    return page("Refused", snapshot, *children)


def _lines_of(upload: LabUpload) -> Callable[[str], list[str] | None]:
    def read_lines(name: str) -> list[str] | None:
        if not name.endswith(upload.file):
            return None
        try:
            return upload.data.decode("utf-8-sig").splitlines()
        except UnicodeDecodeError:
            return None

    return read_lines


def _specimens(found: Sequence[Specimen], writer: Writer) -> Markup:
    if not found:
        return tag("p", "No row of the table names a specimen.")
    columns = COLUMNS[found[0].kind]
    used = [name for name in columns if any(one.texts.get(name) or one.value(name) for one in found)]
    head = tag("tr", *(tag("th", _heading(columns[name], writer), scope="col") for name in used))
    rows = [tag("tr", *(_cell(one, columns[name], writer) for name in used)) for one in found]
    table = tag("table", tag("thead", head), tag("tbody", *rows))
    return tag("div", table, class_="wide", tabindex="0", role="group", aria_label="Specimens as read")


def _heading(column: LabColumn, writer: Writer) -> str:
    unit = writer.unit_symbol(column.what) if column.kind else ""
    return f"{column.title}, {unit}" if unit else column.title


def _cell(one: Specimen, column: LabColumn, writer: Writer) -> Markup:
    value = one.mark if column.name == "specimen" else one.value(column.name)
    text = one.texts.get(column.name, "")
    if isinstance(value, float) and column.kind is not None:
        shown = f"{writer.number(value, column.what):.{column.decimals_in(writer)}f}"
    else:
        shown = "" if value is None else str(value)
    if not text or _is_same(text, shown):
        return tag("td", text or shown)
    return tag("td", shown, tag("span", text, class_="small"))


def _is_same(text: str, shown: str) -> bool:
    """Whether the table says the very figure that is shown, in other decimals at most."""
    try:
        return text == shown or float(text) == float(shown)
    except ValueError:
        return False


def _hidden(fields: Fields) -> Iterator[Markup]:
    for name, value in fields:
        if name not in ("do", "seen", "back"):
            yield tag("input", type="hidden", name=name, value=value)


def _keep(number: str, fields: Fields, snapshot: Snapshot) -> Markup:
    button = tag("button", "Keep the table", type="submit", name="do", value="keep")
    return _form(number, fields, button, snapshot)


def change_match(number: str, fields: Fields, snapshot: Snapshot) -> Markup:
    """A button back to the match as it was filled in."""
    return _form(number, fields, tag("button", "Change the match", type="submit", name="do", value="change"), snapshot)


def _form(number: str, fields: Fields, button: Markup, snapshot: Snapshot) -> Markup:
    return edit_form(
        *_hidden(fields), button, snapshot=snapshot, back=TESTS, class_="change", action=f"/tests/table/{number}"
    )
