"""The checklist as tables for spreadsheets: a row for each finding, then walls, specimens, limits, what it all is."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from compliance.checked import Checked
from compliance.facts.catalogue import FACTS
from compliance.facts.specimens.specimen_results import age_in_days, density, measured
from compliance.findings import Finding
from compliance.model.lab_columns import LAB_COLUMNS, LabColumn
from compliance.model.specimens import Specimen
from compliance.output.checklist.workbook import CellValue, Column, Number, Table
from compliance.report.by_rule import SetFindings, by_rule
from compliance.report.cautions import CAUTIONS
from compliance.report.checklist_rows import ChecklistRow, checklist_rows
from compliance.report.limits.limit_list import ListedLimit, limits_relied_on
from compliance.report.words.missing_words import missing_texts, reason_text
from compliance.steps import Given
from compliance.units import KINDS, Writer

_CHECKLIST = (
    Column("Code", 6), Column("Rule set", 11), Column("Clause", 11), Column("Check", 20), Column("Answered", 10),
    Column("About", 8), Column("Subject", 8), Column("Wall", 5), Column("Result", 12), Column("Value", 9),
    Column("Relation", 8), Column("Limit", 9), Column("Unit of value and limit", 8), Column("Margin [%]", 8),
    Column("Standing of the limit", 9), Column("Reason", 28), Column("Remedy", 17), Column("To add", 14),
    Column("Evidence", 12), Column("Rule", 12),
)  # fmt: skip
_WALL = (
    "wall.use", "wall.bears_load", "wall.braces", "wall.length", "wall.height", "wall.base_thickness",
    "wall.least_thickness", "wall.height_to_thickness", "wall.unsupported_length", "wall.opening_count",
    "wall.opening_share", "wall.line_load", "wall.volume",
)  # fmt: skip

_NARROW = 8.5
_WORKED_OUT = (("density", "density"), ("strength", "stress"), ("shrinkage", "share"))
"""What is worked out of a specimen, with its kind."""


def checklist_table(checked: Checked, sets: tuple[SetFindings, ...]) -> Table:
    """Every finding, in the order of the rule sets."""
    writer = Writer(checked.project.project.units)
    rows = [
        _finding(row, finding, writer)
        for one in checklist_rows(checked, sets)
        for row in one.rows
        for finding in row.group.findings
    ]
    return Table("Checklist", _CHECKLIST, tuple(rows))


def all_tables(checked: Checked) -> tuple[Table, ...]:
    writer = Writer(checked.project.project.units)
    tables = (
        checklist_table(checked, by_rule(checked)),
        _walls(checked, writer),
        _specimens(checked, writer),
        _limits(limits_relied_on(checked.findings), writer),
        _about(checked),
    )
    return tuple(table for table in tables if table.rows)


def _finding(row: ChecklistRow, finding: Finding, writer: Writer) -> tuple[CellValue, ...]:
    compared = [one for one in (finding.value, finding.limit) if one and _is_number(one)]
    unit = next((_unit(one, writer) for one in compared), "")
    value, limit = (_cell(one, writer, compared) for one in (finding.value, finding.limit))
    return (
        row.group.code, finding.rule_set, finding.clause, finding.title, row.how, finding.about, finding.subject,
        finding.wall, finding.verdict, value, finding.relation, limit,
        unit, None if finding.margin is None else _number(finding.margin, "share", writer),
        finding.standing.value if finding.standing else "", reason_text(finding, writer), finding.remedy,
        "; ".join(missing_texts(finding)), "; ".join(one.text for one in row.evidence), finding.rule,
    )  # fmt: skip


def _is_number(given: Given) -> bool:
    """One that a cell can hold; what has no end is told in words."""
    return not isinstance(given.value, (bool, str)) and math.isfinite(given.value) and given.kind in KINDS


def _cell(given: Given | None, writer: Writer, compared: Sequence[Given]) -> CellValue:
    """A number in the project's unit, with the decimals that tell it from what it is `compared` with; or the word."""
    if given is None:
        return None
    if isinstance(given.value, (bool, str)) or not _is_number(given):
        return given.written(writer)
    alike = [float(one.value) for one in compared if one.kind == given.kind]
    return _number(given.value, given.kind, writer, alike)


def _number(value: float, kind: str, writer: Writer, alike: Sequence[float] = ()) -> Number:
    return Number(rounded(writer.number(value, kind)), writer.decimals(kind, value, *alike))


def rounded(number: float) -> float:
    """To ten digits: what is over comes from turning units."""
    return float(f"{number:.10g}")


def _unit(given: Given, writer: Writer) -> str:
    return writer.unit_symbol(given.kind)


def _titled(label: str, kind: str, writer: Writer, width: float = 13) -> Column:
    unit = writer.unit_symbol(kind) if kind in KINDS else ""
    return Column(f"{label[:1].upper()}{label[1:]}{f' [{unit}]' if unit else ''}", width)


def _walls(checked: Checked, writer: Writer) -> Table:
    columns = [Column("Wall", 8), Column("Name", 26), Column("Mix", 8)]
    columns += [_titled(FACTS[name].label, FACTS[name].kind, writer) for name in _WALL]
    rows = []
    for mark, subject in checked.facts.of("wall").items():
        wall = checked.project.walls[mark]
        values = (_fact(subject.fact(name).value, FACTS[name].kind, writer) for name in _WALL)
        rows.append((mark, wall.name or "", wall.mix or "", *values))
    return Table("Walls", tuple(columns), tuple(rows))


def _fact(value: object, kind: str, writer: Writer) -> CellValue:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and kind in KINDS:
        return _number(value, kind, writer) if math.isfinite(value) else writer.write(value, kind)
    return None if value is None else str(value)


def _specimens(checked: Checked, writer: Writer) -> Table:
    """A row for each specimen: every column of the lab tables that holds anything, then what is worked out from it."""
    known = {column.name: column for column in reversed(LAB_COLUMNS)}
    entered = [known[name] for name in dict.fromkeys(column.name for column in LAB_COLUMNS)]
    columns = [Column("Test", 11), *(_lab_titled(column, writer) for column in entered)]
    columns += [Column("Age [days]", 7), *(_titled(*one, writer, _NARROW) for one in _WORKED_OUT)]
    rows = [_specimen(one, entered, writer) for one in _each(checked.specimens)]
    held = [place for place in range(len(columns)) if any(row[place] not in (None, "") for row in rows)]
    return Table(
        "Specimens",
        tuple(columns[place] for place in held),
        tuple(tuple(row[place] for place in held) for row in rows),
    )


def _lab_titled(column: LabColumn, writer: Writer) -> Column:
    if column.kind is not None:
        return _titled(column.title, column.what, writer, _NARROW)
    return Column(column.title, 20 if column.printed == "below" else 9)


def _each(specimens: Mapping[str, Sequence[Specimen]]) -> Iterator[Specimen]:
    for rows in specimens.values():
        yield from rows


def _specimen(one: Specimen, entered: Sequence[LabColumn], writer: Writer) -> tuple[CellValue, ...]:
    result, heavy = measured(one).value, density(one)
    shrinks = one.kind == "shrinkage"
    return (
        one.kind,
        *(_entered(one, column, writer) for column in entered),
        age_in_days(one),
        _measure(heavy, "density", writer),
        None if shrinks else _measure(result, "stress", writer),
        _measure(result, "share", writer) if shrinks else None,
    )


def _entered(one: Specimen, column: LabColumn, writer: Writer) -> CellValue:
    """What stands in a column of the lab tables, measures in the project's unit."""
    if column.name == "specimen":
        return one.mark
    value = one.value(column.name)
    return _measure(value, column.what, writer) if isinstance(value, float) else value


def _measure(value: float | None, kind: str, writer: Writer) -> Number | None:
    return None if value is None else _number(value, kind, writer)


def _limits(listed: Sequence[ListedLimit], writer: Writer) -> Table:
    columns = (
        Column("Rule set", 17), Column("Clause", 14), Column("Check", 30), Column("Limit", 14), Column("Value", 12),
        Column("Unit of value", 9), Column("Standing", 11), Column("Source", 46), Column("Where to read it", 30),
        Column("Amended by", 16), Column("Amended on", 11), Column("Findings resting on it", 10),
    )  # fmt: skip
    return Table("Limits", columns, tuple(_limit(one, writer) for one in listed))


def _limit(listed: ListedLimit, writer: Writer) -> tuple[CellValue, ...]:
    limit, amended = listed.limit, listed.limit.amended
    value = limit.value
    return (
        limit.rule_set, limit.clause, listed.title, limit.name.replace("_", " "),
        "open" if value is None else _cell(value, writer, ()),
        _unit(value, writer) if value is not None and _is_number(value) else "", limit.standing.value, limit.source,
        limit.read_in, amended.by if amended else "", amended.on if amended else "", len(listed.subjects),
    )  # fmt: skip


def _about(checked: Checked) -> Table:
    head = checked.project.project
    rows: list[tuple[CellValue, ...]] = [
        ("Project", head.name), ("Number", head.number or ""), ("Revision", head.revision), ("Date", head.date),
        ("Fingerprint of the input", checked.fingerprint),
        *((f"Rule set {one.id}", f"{one.title}, {one.edition}") for one in checked.rule_sets),
        *CAUTIONS,
    ]  # fmt: skip
    return Table("About", (Column("What", 30), Column("Said", 110)), tuple(rows))
