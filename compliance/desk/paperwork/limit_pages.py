"""The worksheet of limits as a page: what is known of each, and room for what was read in the adopted copy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import listed as rows_of
from compliance.desk.pages.frame import section
from compliance.desk.paperwork.record_forms import (
    Entry,
    Fields,
    day_of_field,
    entry_form,
    record_page,
    text_field,
    text_of_field,
    who_and_when,
)
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError
from compliance.editing.limit_confirmation import Confirmation
from compliance.findings import LimitUsed, Standing
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.problems import Place
from compliance.record import record
from compliance.report.limits.limit_history import history_lines
from compliance.report.limits.limit_list import ListedLimit, limit_text, limits_of_codes
from compliance.report.limits.table_words import corner_words, entry_words, table_of
from compliance.report.mark_runs import in_runs
from compliance.report.value_words import counted
from compliance.rules.limits.filled_limit import field_name
from compliance.rules.tables import Table
from compliance.units import Writer

LIMITS = "/limits"
_MOST_SUBJECTS = 8
_LEAD = (
    "Open the adopted code at the clause and enter the value printed there with its unit, and who read it. Fields left "
    "empty stay as they are: nothing is confirmed by leaving it out."
)


@record
class LimitField:
    """Where a value is read: a limit, or a cell of a table with row and column from 1."""

    limit: LimitUsed
    row: int | None = None
    column: int | None = None

    @property
    def name(self) -> str:
        part = "value" if self.row is None else f"{self.row},{self.column}"
        return field_name(self.limit.rule_set, self.limit.rule, self.limit.name, part)

    def beside(self, what: str) -> str:
        """The field for what is said beside the value; the cells of a table share it."""
        return field_name(self.limit.rule_set, self.limit.rule, self.limit.name, what)


def limit_page(snapshot: Snapshot, entry: Entry, read_lines: ReadLines, today: date) -> bytes:
    """The whole page."""
    return record_page(
        "Limits", here=LIMITS, snapshot=snapshot, entry=entry, read_lines=read_lines,
        parts=lambda checked: _parts(checked, entry, today, snapshot.is_for_phone),
    )  # fmt: skip


def _parts(checked: Checked, entry: Entry, today: date, is_for_phone: bool) -> Iterator[Child]:
    """The limits, each with room for what was read; to be read alone on a phone."""
    listed = limits_of_codes(checked)
    if not listed:
        yield tag("p", "No finding of this project rests on a limit of a code or standard.")
        return
    counts = {standing: sum(one.limit.standing is standing for one in listed) for standing in reversed(Standing)}
    says = ", ".join(f"{count} {standing.value}" for standing, count in counts.items() if count)
    lead = "They are entered at the desk." if is_for_phone else _LEAD
    yield tag("p", f"{counted(len(listed), 'limit')} of codes that findings rest on: {says}. {lead}")
    writer = Writer(checked.project.project.units)
    yield tag("details", tag("summary", "Find a limit"), rows_of(map(_way, listed)))
    parts: list[Child] = [] if is_for_phone else [who_and_when(checked, entry, "Read by", today)]
    for standing in reversed(Standing):
        some = [one for one in listed if one.limit.standing is standing]
        if some:
            blocks = (_limit(checked, one, None if is_for_phone else entry, writer) for one in some)
            parts.append(section(standing.value.capitalize(), *blocks))
    if is_for_phone:
        yield from parts
    else:
        yield entry_form(LIMITS, "confirm", *parts, button="Save the limits that were read")


def _limit(checked: Checked, one: ListedLimit, entry: Entry | None, writer: Writer) -> Markup:
    """What is known of a limit; with an entry, room for what was read."""
    limit = one.limit
    table = table_of(checked.rule_sets, limit)
    what = f"{one.title}: {limit.name.replace('_', ' ')}"
    marks = in_runs(one.subjects)
    more = f" and {len(marks) - _MOST_SUBJECTS} more" if len(marks) > _MOST_SUBJECTS else ""
    known = [
        tag("p", "Read in: ", tag("b", limit.read_in or limit.clause)),
        tag("p", "Known so far: ", tag("b", limit_text(limit, writer)), *_from(limit)) if table is None else None,
        *(tag("p", line, class_="small") for line in history_lines(limit, writer)),
        tag("p", limit.note, class_="small") if limit.note else None,
        tag("p", f"For {', '.join(marks[:_MOST_SUBJECTS])}{more}", class_="small"),
    ]  # fmt: skip
    cells = None if table is None else _table(table, limit, entry, writer)
    if entry is None:
        return tag("div", tag("h3", what), *known, cells, class_="asked", id=_key(limit))
    field = LimitField(limit)
    value = cells or text_field(field.name, "Value as read", entry)
    extra = {
        "edition": "Edition",
        "where": "Clause or table",
        "reason": "Reason, if it is less strict than known or unusual",
        "authority": "Authority, such as an ordinance",
    }
    is_open = any(entry.value(field.beside(name)) for name in extra)
    beside = tag(
        "details",
        tag("summary", "Edition, place, reason"),
        *(text_field(field.beside(name), words, entry) for name, words in extra.items()),
        **({"open": "open"} if is_open else {}),
    )
    return tag("fieldset", tag("legend", what), *known, value, beside, class_="asked", id=_key(limit))


def _key(limit: LimitUsed) -> str:
    return f"limit-{limit.rule_set}-{limit.rule}-{limit.name}"


def _way(one: ListedLimit) -> Markup:
    limit = one.limit
    return tag("a", f"{one.title}: {limit.name.replace('_', ' ')} ({limit.clause})", href=f"#{_key(limit)}")


def _from(limit: LimitUsed) -> Iterator[str]:
    """How well a value is known, and from where."""
    if limit.value is not None:
        yield f" ({'; '.join(text for text in (limit.standing.value, limit.source) if text)})"


def _table(table: Table, limit: LimitUsed, entry: Entry | None, writer: Writer) -> Markup:
    """The cells with what is known of each and, with an entry, room for what was read."""
    across = [entry_words(table.columns, one, writer) for one in table.columns.entries] if table.columns else ["value"]
    head = tag("tr", tag("th", corner_words(table), scope="col"), *(tag("th", one, scope="col") for one in across))
    rows = []
    for i, (row, cells) in enumerate(zip(table.rows.entries, table.cells, strict=True), start=1):
        name = entry_words(table.rows, row, writer)
        shown = [
            _cell(LimitField(limit, i, j), value, table, f"{name}, {across[j - 1]}", entry=entry, writer=writer)
            for j, value in enumerate(cells, start=1)
        ]
        rows.append(tag("tr", tag("th", name, scope="row"), *shown))
    return tag("div", tag("table", tag("thead", head), tag("tbody", *rows)), class_="wide", tabindex="0", role="group",
               aria_label=f"Table {limit.name.replace('_', ' ')}")  # fmt: skip


def _cell(
    field: LimitField, value: float | None, table: Table, label: str, entry: Entry | None, writer: Writer
) -> Markup:
    known = "open" if value is None else writer.both(value, table.kind)
    if entry is None:
        return tag("td", known)
    box = tag("input", type="text", name=field.name, value=entry.value(field.name), autocomplete="off",
              aria_label=f"Value as read: {label}")  # fmt: skip
    return tag("td", joined([tag("span", known, class_="small"), tag("br"), box]))


def limits_read(checked: Checked, fields: Fields) -> list[Confirmation]:
    """What was read, at least one. Raises EditRefusedError where who or when is not said, and ChangedMeanwhileError for
    a limit that no finding rests on any more."""
    known = {one.name: one for one in limit_fields(checked, limits_of_codes(checked))}
    names = [name for name, values in fields.items() if "/" in name and values[0].strip()]
    read = [name for name in names if name in known]
    beside = {one.beside(what) for one in known.values() for what in ("edition", "where", "reason", "authority")}
    if strange := [name for name in names if name not in known and name not in beside]:
        raise ChangedMeanwhileError(f"no finding rests on {strange[0]} any more; nothing was written")
    if not read:
        raise EditRefusedError("no value is written yet")
    by = text_of_field(fields, "by", "write who read it")
    on = day_of_field(fields, "on", "write on which day, as 2026-05-14")
    assert on is not None
    return [_confirmation(known[name], fields, by=by, on=on) for name in read]


def limit_fields(checked: Checked, listed: Sequence[ListedLimit]) -> Iterator[LimitField]:
    """A field for each limit, and for each cell of a table."""
    for one in listed:
        table = table_of(checked.rule_sets, one.limit)
        if table is None:
            yield LimitField(one.limit)
            continue
        for i, cells in enumerate(table.cells, start=1):
            for j in range(1, len(cells) + 1):
                yield LimitField(one.limit, i, j)


def _confirmation(one: LimitField, fields: Fields, by: str, on: date) -> Confirmation:
    limit = one.limit
    cell = f", row {one.row}, column {one.column}" if one.row else ""

    def said(what: str) -> str:
        return text_of_field(fields, one.beside(what))

    return Confirmation(
        f"{limit.rule_set}/{limit.rule}", limit=limit.name, value=text_of_field(fields, one.name), by=by, on=on,
        where=said("where"), row=one.row, column=one.column, reason=said("reason") or None,
        authority=said("authority") or None, edition=said("edition") or None,
        place=Place(f"{limit.rule} {limit.name.replace('_', ' ')}{cell}"),
    )  # fmt: skip
