"""Every finding in full, rule by rule: what the rule says, the calculation, value against limit, what to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.calculations.calculation_table import (
    MOST_ABREAST,
    Beside,
    CalculationTable,
    columns_for,
    worth_a_table,
)
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.rule_names import title_and_clause
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.page.line_breaking import Part, Words, Worked
from compliance.documents.page.rows import Anchor, Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Finding, LimitUsed, Outcome, Standing
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.calculations.calculation_lines import EXPLAINED, Ledger, LedgerLine
from compliance.report.grouping import Alike, alike, remedy_of, subjects
from compliance.report.mark_runs import in_runs
from compliance.report.revisions.older_words import RuleTitles, titles_of
from compliance.report.value_words import NOTHING, counted, quoted
from compliance.report.words.missing_words import names_what_lacks
from compliance.report.words.plain_missing import plain_lacks, plain_reasons
from compliance.units import Writer

_INTRODUCTION = (
    "Rule by rule, in the order of the rule sets. Under each subject stands the calculation that leads to its value; "
    "where several subjects go the same way, one table holds the formula once and the numbers of each under its mark. "
    "Margin is the share of the limit that is left: above zero inside, below zero outside."
)
_COLUMNS = (Column(84), Column(76), Column(share=1), Column(46), Column(166))
_HEAD = head_row("Subject", "Result", "Limit", "Margin", "Outcome and standing", right=(3,))
_ACROSS = len(_COLUMNS)
_AIR_OF_NOT_APPLICABLE = (1.4, 1.8)
_MOST_NAMED = 6  # over one column of numbers; further up every subject is named
_SHORT = 130  # characters of a reason that still stands well between subject and verdict


@record
class _Judged:
    """What is printed of one rule. `tables` are the calculations laid side by side; without them each line stands
    under its subject. `limits` are those of the rule, their sources in words."""

    group: RuleFindings
    limits: tuple[LimitUsed, ...]
    found: tuple[Alike, ...]
    tables: tuple[tuple[Beside, ...], ...]


def checks(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    writer = Writer(checked.project.project.units)
    titles = titles_of(checked.rule_sets)
    judged = {group.code: _judged(group, writer, titles) for one in sets for group in one.rules if group.judged}
    ledger = Ledger(_places(judged.values()))
    story = on_this_page()
    lead = title("checks", "Calculations", _INTRODUCTION, EXPLAINED)
    for one in sets:
        lead += part(f"checks-{one.letter}", one.heading)
        story += _of_set([judged[group.code] for group in one.rules if group.judged], ledger, writer, lead)
        story += _not_applicable(one, writer, lead if not any(group.judged for group in one.rules) else [])
        lead = []
    return story


def _judged(group: RuleFindings, writer: Writer, titles: RuleTitles) -> _Judged:
    limits = tuple(map(titles.of_limit, group.limits))
    found = tuple(alike(group.judged, writer))
    beside = [_beside(one) for one in found if one.lines]
    if len(beside) < 2 or not worth_a_table(beside):
        return _Judged(group, limits, found, ())
    tables = -(-len(beside) // MOST_ABREAST)
    each = -(-len(beside) // tables)
    return _Judged(group, limits, found, tuple(tuple(beside[at : at + each]) for at in range(0, len(beside), each)))


def _beside(one: Alike) -> Beside:
    names = in_runs([finding.subject for finding in one.findings])
    more = len(one.findings) - 1
    heading = ", ".join(names) if len(names) <= _MOST_NAMED else f"{one.first.subject} and {more} more"
    return Beside(heading, one.first.marks, one.lines)


def _places(judged: Iterable[_Judged]) -> Iterator[Iterable[Any]]:
    """The lines of every place where lines are printed together, in the order of printing."""
    for one in judged:
        for table in one.tables:
            yield [line for subject in table for line in subject.lines]
        if not one.tables:
            yield from (same.lines for same in one.found)


def _of_set(judged: Sequence[_Judged], ledger: Ledger, writer: Writer, lead: list[Row]) -> Iterator[Sheet]:
    """Rules one under the other in one sheet, which ends where a table of calculations follows."""
    rows: list[Row] = []
    for one in judged:
        rows += _rows_of_rule(one, ledger, writer)
        if one.tables:
            yield Sheet(_COLUMNS, rows, head=[_HEAD], lead=lead, below=3)
            yield from _tables(one, ledger, writer)
            rows, lead = [], []
    if rows:
        yield Sheet(_COLUMNS, rows, head=[_HEAD], lead=lead, below=12)


def _rows_of_rule(one: _Judged, ledger: Ledger, writer: Writer) -> Iterator[Row]:
    reasons = {_reason(same, writer) for same in one.found}
    shared = reasons.pop() if len(one.found) > 1 and len(reasons) == 1 and not one.found[0].first.missing else ""
    yield _rule(one, shared, writer)
    for index, same in enumerate(one.found):
        first, *rest = _rows(same, _below(same, None if one.tables else ledger, shared, writer), one.group.heading)
        yield Row(first.cells, joined=not index, ruled=first.ruled, named=one.group.heading)
        yield from rest


def _rule(one: _Judged, shared: str, writer: Writer) -> Row:
    group, first = one.group, one.group.first
    parts: list[Part] = [Words(group.heading, theme.BODY_BOLD), Words(first.say, theme.SMALL)]
    if shared:
        parts.append(Words(shared, theme.SMALL))
    parts += [Words(text, theme.SOURCE) for text in _limits(one.limits, writer)]
    if not one.limits and first.source:
        parts.append(Words(f"Source: {first.source}", theme.SOURCE))
    anchor = Anchor(group.key, f"{group.code} {first.title}", 2)
    return Row((Cell(tuple(parts), span=_ACROSS),), anchor=anchor, air=(7.0, 2.0))


def _limits(limits: Iterable[LimitUsed], writer: Writer) -> list[str]:
    """The limits with their standing, those of one source together."""
    by_source: dict[str, list[str]] = {}
    for limit in limits:
        known = limit.standing is not Standing.OPEN
        value = f"{quoted(limit.value, writer)}, {limit.standing.value}" if known else "open"
        by_source.setdefault(limit.source, []).append(f"{limit.name.replace('_', ' ')}: {value}")
    return [
        f"{'; '.join(wording)}. {source}" if source else "; ".join(wording) for source, wording in by_source.items()
    ]


def _rows(one: Alike, below: list[Part], heading: str) -> Iterator[Row]:
    """A line of figures, then what is to be said and the calculation, kept with it. Where there are no figures, a
    short text takes their place."""
    figures = one.figures
    subject = cell(subjects(one.findings), theme.CELL_BOLD)
    verdict = Cell((Marked(figures.mark, figures.verdict, theme.CELL),))
    if (figures.value, figures.limit, figures.margin) == (NOTHING,) * 3:
        short = sum(len(getattr(part, "text", "")) for part in below) <= _SHORT
        between: tuple[Cell, ...] = (Cell(tuple(below) if short else (), span=3),)
        below = [] if short else below
    else:
        between = (cell(figures.value), cell(figures.limit), cell(figures.margin, theme.NUMBER))
    yield Row((subject, *between, verdict), ruled=not below)
    if below:
        yield Row((Cell(tuple(below), span=_ACROSS),), joined=True, air=(0.0, 4.0), named=heading)


def _reason(one: Alike, writer: Writer) -> str:
    """The reason in words; none where figures or worked lines tell why the limit is met."""
    first = one.first
    in_figures = first.outcome is Outcome.MEETS and (one.lines or (first.value is not None and first.limit is not None))
    return "" if in_figures else plain_reasons(one.findings, writer)


def _set_lines(lines: Iterable[LedgerLine]) -> list[Part]:
    set_as = {True: Worked, False: Words}
    return [set_as[line.calculation](line.text, theme.CALCULATION) for line in lines]


def _below(one: Alike, ledger: Ledger | None, shared: str, writer: Writer) -> list[Part]:
    """Reason, calculation unless a table holds it, what to add and what to change."""
    reason = "" if shared else _reason(one, writer)
    parts: list[Part] = [Words(reason, theme.SMALL)] if reason else []
    parts += _set_lines(ledger.lines(one.lines)) if ledger else []
    if one.first.missing and not (reason and names_what_lacks(one.findings)):
        parts.append(Words(f"Not given: {plain_lacks(one.findings)}", theme.SMALL_ITALIC))
    if remedy := remedy_of(one.first):
        parts.append(Words(remedy, theme.SMALL_ITALIC))
    return parts


def _tables(one: _Judged, ledger: Ledger, writer: Writer) -> Iterator[Sheet]:
    for table in one.tables:
        heads = [cell(f"{one.group.code} worked out", theme.HEADING)]
        heads += [cell(subject.heading, theme.HEADING.aligned("right")) for subject in table]
        carried = full_row(Words(f"{one.group.heading}, continued", theme.CELL_BOLD, after=2.0))
        rows = CalculationTable(table, ledger, writer).rows()
        head = Row(tuple(heads), ruled=False)
        yield Sheet(columns_for(len(table)), rows, head=[head], carried=[carried], below=12)


def _not_applicable(one: SetFindings, writer: Writer, lead: list[Row]) -> list[Any]:
    """Rules that do not apply to a subject, gathered by rule and reason."""
    rows = []
    for group in one.rules:
        same: dict[str, list[Finding]] = {}
        for finding in group.set_aside:
            same.setdefault(plain_reasons([finding], writer), []).append(finding)
        for index, (reason, findings) in enumerate(same.items()):
            anchor = None if group.judged or index else Anchor(group.key)
            code = cell(group.code, theme.CELL_BOLD)
            cells = (code, title_and_clause(group), cell(subjects(findings)), cell(reason))
            rows.append(Row(cells, anchor=anchor, air=_AIR_OF_NOT_APPLICABLE))
    if not rows:
        return [Sheet(_COLUMNS, (), lead=lead)] if lead else []
    count = counted(sum(len(group.set_aside) for group in one.rules), "finding")
    sentence = f"{count} of rules that do not apply to the subject, or are not due yet."
    lead = lead + part(f"apart-{one.letter}", f"{one.letter}  ·  Rules that do not apply, or not yet", sentence)
    columns = (Column(28), Column(share=5), Column(share=4), Column(share=9))
    return [Sheet(columns, rows, head=[head_row("Code", "Check", "Subjects", "Reason")], lead=lead, below=14)]
