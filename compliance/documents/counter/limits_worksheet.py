"""The worksheet for the code counter: each limit of a code that findings rest on, least known first, to write in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from compliance.checked import Checked
from compliance.documents.counter.worksheet_boxes import Box, Lines
from compliance.documents.counter.worksheet_tables import table_sheets
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part, running_text, title
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.page.inked import Lettered
from compliance.documents.page.line_breaking import Drawn, Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import LimitUsed, Standing
from compliance.report.by_rule import RuleFindings, by_rule
from compliance.report.limits.limit_history import history_lines
from compliance.report.limits.limit_list import ListedLimit, limit_text, limits_of_codes
from compliance.report.limits.table_words import table_of
from compliance.report.mark_runs import in_runs
from compliance.report.tally import STANDINGS
from compliance.report.value_words import counted
from compliance.rules.limits.filled_limit import FIELD_PARTS, field_name
from compliance.units import Writer

_INTRODUCTION = (
    "To take to the counter where the adopted copy of the code lies open. For each limit: find the clause, write what "
    "stands there with its unit, the edition, and your initials; strike what does not apply. Filled in on a screen and "
    "saved, the sheet is read back whole, and from then on the findings rest on what it says; of a printed one the "
    "values are typed in. A limit that cannot be found stays as it is: nothing is confirmed by leaving it out."
)
_SUBJECT = "Limits to read in the adopted code, with room for values, edition and initials."
_MOST_SUBJECTS = 6


def write_worksheet(checked: Checked, path: Path) -> None:
    """Write the worksheet to `path` as PDF. Raises as `write_submittal` does."""
    register_faces()
    listed = limits_of_codes(checked)
    codes = {(group.rule_set, group.rule): group for one in by_rule(checked) for group in one.rules}
    writer = Writer(checked.project.project.units)
    paper = PAPERS[checked.project.project.paper]
    story = [_head(checked, listed), *_sheets(checked, listed=listed, codes=codes, writer=writer)]
    story += table_sheets(checked, listed, codes, writer)
    Book(head_of(checked, "worksheet of limits", _SUBJECT), paper, covered=False).write(story, path)


def _head(checked: Checked, listed: Sequence[ListedLimit]) -> Sheet:
    """Whose code it is, and who reads it when."""
    place = checked.project.jurisdiction
    counts = {standing: sum(one.limit.standing is standing for one in listed) for standing in reversed(Standing)}
    wording = ", ".join(f"{count} {standing.value}" for standing, count in counts.items() if count)
    words = (
        f"{counted(len(listed), 'limit')}: {wording}."
        if listed
        else "No finding of this project rests on a limit of a code or standard."
    )
    adopted = f"{place.name}: {place.adopting_text}" if place.adopting_text else place.name
    lines = Lines(
        (("reader", "Read by", 0.36), ("copy", "Copy of the code, edition and printing", 0.44), ("day", "On", 0.16))
    )
    rows = [
        *title("worksheet", "Worksheet of limits", _INTRODUCTION),
        full_row(Words(f"{words} Adopted in {adopted}.", theme.BODY_BOLD, after=4.0)),
        full_row(Drawn(30.0, Lettered(lines.draw))),
    ]
    return running_text(rows, below=10)


def _sheets(
    checked: Checked,
    listed: Sequence[ListedLimit],
    codes: dict[tuple[str, str], RuleFindings],
    writer: Writer,
) -> Iterator[Sheet]:
    """A part for each standing, least known first."""
    for standing in reversed(Standing):
        rows: list[Row] = []
        before: ListedLimit | None = None
        for one in listed:
            if one.limit.standing is standing:
                group = codes[one.limit.rule_set, one.limit.rule]
                rows.append(_limit(checked, one, before=before, group=group, writer=writer))
                before = one
        if rows:
            lead = part(f"standing-{standing.value}", standing.value.capitalize(), STANDINGS[standing])
            head = head_row("Code", "Where to read, and what", "Known so far", "Value as read", "Edition", "Initials")
            columns = (Column(32), Column(share=5), Column(118), Column(88), Column(46), Column(40))
            yield Sheet(columns, rows, head=[head], lead=lead, below=12)


def _limit(checked: Checked, one: ListedLimit, before: ListedLimit | None, group: RuleFindings, writer: Writer) -> Row:
    """A line of the sheet; of what the line before it says already, the limits of one rule as one block, only what is
    another."""
    limit = one.limit
    of_rule = before is not None and (before.limit.rule_set, before.limit.rule) == (limit.rule_set, limit.rule)
    name = limit.name.replace("_", " ")
    what = f"{one.title}: {name}"
    where = limit.read_in or limit.clause
    reads: list[Part] = []
    if not of_rule or before is None or where != (before.limit.read_in or before.limit.clause):
        reads.append(Words(where, theme.CELL_BOLD))
    reads.append(Words(name if of_rule else what, theme.CELL))
    subjects = "" if of_rule and before is not None and before.subjects == one.subjects else _subjects(one)
    reads += [Words(text, theme.CELL_SMALL) for text in (limit.note, subjects) if text]
    in_table = table_of(checked.rule_sets, limit) is not None
    names = {part: field_name(limit.rule_set, limit.rule, limit.name, part) for part in FIELD_PARTS}
    boxes = [Box(name, f"{what}: {part}") for part, name in names.items()]
    value = Cell((Words("in the table below", theme.CELL),)) if in_table else Cell((boxes[0],))
    code = "" if of_rule else group.code
    return Row(
        (cell(code, theme.CELL_BOLD), Cell(tuple(reads)), Cell(tuple(_known(limit, before, writer))), value,
         Cell((boxes[1],)), Cell((boxes[2],))),
        air=(2.0, 2.0), named="" if not of_rule else f"{group.code}  {one.title}",
    )  # fmt: skip


def _subjects(one: ListedLimit) -> str:
    """What waits for it."""
    listed = in_runs(one.subjects)
    if len(listed) <= _MOST_SUBJECTS:
        return f"for {', '.join(listed)}"
    shown = one.subjects[:_MOST_SUBJECTS]
    more = f" and {len(one.subjects) - len(shown)} more" if len(one.subjects) > len(shown) else ""
    return f"for {', '.join(shown)}{more}"


def _known(limit: LimitUsed, before: ListedLimit | None, writer: Writer) -> Iterator[Part]:
    yield Words(limit_text(limit, writer), theme.CELL_BOLD)
    if limit.source:
        same = before is not None and before.limit.source == limit.source
        yield Words("source as above" if same else limit.source, theme.CELL_SMALL)
    yield from (Words(line, theme.CELL_SMALL) for line in history_lines(limit, writer))
