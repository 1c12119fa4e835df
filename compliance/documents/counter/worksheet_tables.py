"""Tables of limits on the worksheet: each cell with what is known of it and room for what is read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from compliance.checked import Checked
from compliance.documents.counter.worksheet_boxes import Box
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding, LimitUsed, Outcome
from compliance.record import record
from compliance.report.by_rule import RuleFindings
from compliance.report.limits.limit_list import ListedLimit
from compliance.report.limits.table_words import corner_words, entry_words, table_of
from compliance.rules.limits.filled_limit import field_name
from compliance.rules.tables import Table
from compliance.units import Writer

_LABELS = 84.0
_LOW = 16.0
_SIDE_BY_SIDE = 7
_APART = Outcome.NOT_APPLICABLE


@record
class _Listed:
    """A table that is relied on, with its code. `rows` are the places of the rows that are printed."""

    one: ListedLimit
    table: Table
    code: str
    rows: tuple[int, ...]

    @property
    def where(self) -> str:
        return self.table.read_in or self.table.clause or self.one.limit.clause

    @property
    def known(self) -> str:
        return "; ".join(text for text in (self.table.standing.value, self.table.source, self.table.note) if text)


def table_sheets(
    checked: Checked, listed: Sequence[ListedLimit], codes: Mapping[tuple[str, str], RuleFindings], writer: Writer
) -> Iterator[Sheet]:
    """The tables relied on, in the order of the list; nothing where there is none.

    Tables of one value a row that go by the same rows are set side by side, as codes print them. Of rows that go by
    words, those that no subject has are left out."""
    lead = part(
        "tables", "Tables",
        "Rows and columns count from 1, the first row being the upper one. Rows that nothing in this "
        "project goes by are left out.",
    )  # fmt: skip
    groups: dict[tuple[str, ...], list[_Listed]] = {}
    for one in listed:
        table = table_of(checked.rule_sets, one.limit)
        if table is None:
            continue
        found = _Listed(
            one, table, codes[one.limit.rule_set, one.limit.rule].code, _rows_relied_on(checked, one, table)
        )
        key = (one.limit.rule_set, table.rows.fact, *map(str, table.rows.entries), *map(str, found.rows))
        alone = () if table.columns is None else (one.limit.rule, one.limit.name)
        groups.setdefault((*key, *alone), []).append(found)
    for group in groups.values():
        for start in range(0, len(group), _SIDE_BY_SIDE):
            yield _sheet(lead, group[start : start + _SIDE_BY_SIDE], writer)
            lead = []


def _rows_relied_on(checked: Checked, one: ListedLimit, table: Table) -> tuple[int, ...]:
    every = tuple(range(len(table.rows.entries)))
    if table.rows.numeric:
        return every
    about = next(each.about for each in checked.findings if _rests_on(each, one.limit))
    facts = checked.facts.of(about)
    used = {facts[subject].fact(table.rows.fact).value for subject in one.subjects if subject in facts}
    return tuple(place for place in every if table.rows.entries[place] in used) or every


def _rests_on(finding: Finding, limit: LimitUsed) -> bool:
    return (finding.rule_set, finding.rule) == (limit.rule_set, limit.rule) and finding.outcome is not _APART


def _sheet(lead: list[Row], group: Sequence[_Listed], writer: Writer) -> Sheet:
    first = group[0].table
    heads = [f"{one.code}  {one.one.title}" for one in group]
    if first.columns:
        titles = [entry_words(first.columns, entry, writer) for entry in first.columns.entries]
        heads = [f"{j}:  {title}" for j, title in enumerate(titles, start=1)]
    rows = []
    for i in group[0].rows:
        cells = [
            _cell(value, table=one.table, at=(i + 1, j), limit=one.one.limit, writer=writer)
            for one in group for j, value in enumerate(one.table.cells[i], start=1)
        ]  # fmt: skip
        name = f"{i + 1}:  {entry_words(first.rows, first.rows.entries[i], writer)}"
        rows.append(Row((cell(name, theme.CELL_BOLD), *cells)))
    columns = [Column(_LABELS), *(Column(share=1) for _ in heads)]
    return Sheet(
        columns,
        rows,
        head=[head_row(corner_words(first), *heads)],
        lead=[*lead, *map(_named, group)],
        grid=True,
        below=12,
    )


def _named(one: _Listed) -> Row:
    name = f"{one.code}  ·  {one.where}  ·  {one.one.title}"
    return full_row(Words(name, theme.CELL_BOLD), Words(one.known, theme.SOURCE), air=(2.0, 1.0))


def _cell(value: float | None, table: Table, at: tuple[int, int], limit: LimitUsed, writer: Writer) -> Cell:
    phrases: list[Part] = [] if value is None else [Words(writer.both(value, table.kind), theme.CELL_SMALL)]
    row, column = at
    name = field_name(limit.rule_set, limit.rule, limit.name, f"{row},{column}")
    return Cell((*phrases, Box(name, f"{table.name.replace('_', ' ')}: row {row}, column {column}", _LOW)))
