"""The headings of a table, each with the column it is and its unit, and what is the same for every row."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import get_args

from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.described_forms import marks_of
from compliance.desk.pages.field_forms import choice_field, edit_form
from compliance.desk.pages.frame import page, section
from compliance.desk.pages.lab.tests_html import TESTS, kind_choice
from compliance.desk.uploads.lab_uploads import LabUpload
from compliance.desk.uploads.table_matches import TableMatch
from compliance.model.lab import DateOrder, LabTable
from compliance.model.lab_columns import COLUMNS, LabColumn
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.reading.tables.proposed_columns import Numbered

_SHOWN, _SAMPLES = 14, 3
_OF_EACH = ("specimen", "peak_load", "strength", "dried_length", "shrinkage", "mass", "failure", "note", "batch")
_THOUSANDS = ("comma", "point", "blank", "apostrophe")


def match_page(
    snapshot: Snapshot, number: str, upload: LabUpload, match: TableMatch, rows: Sequence[Numbered],
    sheets: Sequence[str],
) -> bytes:  # fmt: skip
    """What is proposed or was filled in last, to correct and to look at the result."""
    headings = next((cells for line, cells in rows if line == match.line), [])
    form = edit_form(
        section("How the table is written", joined(_layout(match, sheets)), _again()),
        section("What stands in its columns", _columns(match, headings, rows)),
        section("The same for every row", joined(_every(match, snapshot))),
        tag("button", "Show the result", type="submit", name="do", value="show"),
        snapshot=snapshot, back=TESTS, class_="fields", action=f"/tests/table/{number}",
    )  # fmt: skip
    says = f"It would be kept as {upload.file}. Nothing is written yet."
    return page(
        "Match headings", snapshot, tag("h1", "Match the headings"), tag("p", says),
        section("The table as it came", table_of(rows[:_SHOWN])), form,
    )  # fmt: skip


def table_of(rows: Sequence[Numbered]) -> Markup:
    """Rows of cells under the number of their line."""
    lines = [tag("tr", tag("th", str(line), scope="row"), *(tag("td", cell) for cell in cells)) for line, cells in rows]
    return tag("div", tag("table", tag("tbody", *lines)), class_="wide", tabindex="0", role="group", aria_label="Table")


def _row(label: str, key: str, control: Markup) -> Markup:
    return tag("div", tag("label", label, for_=key), control, class_="field")


def _layout(match: TableMatch, sheets: Sequence[str]) -> Iterator[Markup]:
    yield _row("kind of test", "match-kind", kind_choice("match-kind", match.kind))
    if sheets:
        yield _row("sheet", "match-sheet", choice_field(sheets, "match-sheet", "sheet", match.sheet or sheets[0]))
    yield _row("row of the headings", "match-heading", _text("heading_row", "match-heading", match.heading_row))
    yield tag("input", type="hidden", name="proposed_row", value=match.proposed_row)
    yield _row("last row with a specimen", "match-last", _text("last_row", "match-last", match.last_row))
    orders = get_args(DateOrder)
    yield _row("order of dates", "match-dates", choice_field(orders, "match-dates", "dates", match.dates))
    signs = get_args(LabTable.model_fields["decimal"].annotation)
    yield _row("decimal sign", "match-decimal", choice_field(signs, "match-decimal", "decimal", match.decimal))
    marks = choice_field(_THOUSANDS, "match-thousands", "thousands", match.thousands)
    yield _row("thousands separator", "match-thousands", marks)


def _again() -> Markup:
    return tag("button", "Match again with these", type="submit", name="do", value="again")


def _text(name: str, key: str, value: str, **more: str) -> Markup:
    return tag("input", type="text", name=name, id=key, value=value, autocomplete="off", maxlength="400", **more)


def _columns(match: TableMatch, headings: Sequence[str], rows: Sequence[Numbered]) -> Markup:
    options = [(name, f"{name}: {one.meaning}") for name, one in COLUMNS[match.kind].items()]
    below = [cells for line, cells in rows if match.line is not None and line > match.line][:_SAMPLES]
    shown = []
    for index, heading in enumerate(headings):
        if not heading.strip():
            continue
        samples = ", ".join(cells[index] for cells in below if index < len(cells) and cells[index].strip())
        key = f"column-{index}"
        choose = choice_field(options, key, f"column.{index}", match.columns.get(index, ""))
        unit = _text(
            f"unit.{index}", f"unit-{index}", match.units.get(index, ""), placeholder="unit, as mm",
            aria_label=f"unit of {heading.strip()}",
        )  # fmt: skip
        named = tag("label", heading.strip(), tag("span", f" {samples}", class_="small"), for_=key)
        shown.append(tag("div", named, choose, unit, class_="field"))
    return joined(shown) if shown else tag("p", "That row holds no headings.")


def _every(match: TableMatch, snapshot: Snapshot) -> Iterator[Child]:
    yield tag("p", "For what no column gives. Leave empty what was not recorded.", class_="small")
    matched = set(match.columns.values())
    for name, one in COLUMNS[match.kind].items():
        if name in matched or name in _OF_EACH:
            continue
        key = f"every-{name}"
        yield _row(f"{name}: {one.meaning}", key, _constant(one, key, match.every.get(name, ""), snapshot))
    if "set" not in matched:
        yield _row("or a new set, by its mark", "new-set", _text("new_set", "new-set", match.new_set))
        mixes = marks_of(snapshot, "mixes")
        yield _row("of mix", "new-mix", choice_field(mixes, "new-mix", "new_mix", match.new_mix))


def _constant(column: LabColumn, key: str, value: str, snapshot: Snapshot) -> Markup:
    name, named = column.name, f"every.{column.name}"
    if name == "set":
        return choice_field(marks_of(snapshot, "test_sets"), key, named, value)
    if name == "mix":
        return choice_field(marks_of(snapshot, "mixes"), key, named, value)
    if column.choices:
        return choice_field(column.choices, key, named, value)
    hint = column.kind.example if column.kind else "2026-05-20" if column.what == "date" else ""
    return _text(named, key, value, **({"placeholder": f"as {hint}"} if hint else {}))
