"""The counter sheet: questions to the official before the application, and the limits that still have to be read."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from pathlib import Path
from typing import Any

from compliance.checked import Checked
from compliance.documents.counter.project_statements import SAYINGS
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import on_this_page, part, title
from compliance.documents.elements.theme import PAPERS, Paper
from compliance.documents.elements.tick_boxes import FewLines, FewParts, TickBoxes
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.files.atomic_files import write_whole
from compliance.findings import Outcome
from compliance.judging.engineers_list import EngineerItem, engineers_list
from compliance.model.reference_texts import CounterQuestion, CounterSection
from compliance.record import replace
from compliance.report.by_rule import SetFindings, by_rule
from compliance.report.limits.open_limits import LimitToRead, limits_to_read
from compliance.report.value_words import counted

PAGES = 2
_INTRODUCTION = (
    "For the talk before the application: tick, write, and leave a copy with the office. An answer given here is no "
    "approval, and what the adopted code says stands above it."
)
_OPEN_SENTENCE = "Read each in the adopted copy and record it. Until then the checks that depend on it stay open."
_NO_OPEN = "No limit that a finding of this project rests on is open."
_OF_FINDINGS = "What the findings ask"
_MOST_FOR_ENGINEER = 8
_COLUMNS = (Column(18), Column(share=1), Column(214))
_LIMIT_COLUMNS = (Column(30), Column(share=1), Column(share=1), Column(36), Column(88))
_CELL, _BOLD = replace(theme.CELL, size=8.4, leading=10.8), replace(theme.CELL_BOLD, size=8.4, leading=10.8)
_NOTE = replace(theme.CELL_SMALL, leading=9.6)
"""Smaller than in other papers: two pages are what an office takes over the counter."""
_LIMIT_AIR = (1.6, 1.8)
_LIMIT_ROW = _CELL.leading + sum(_LIMIT_AIR)


def write_counter_sheet(checked: Checked, questions: Sequence[CounterSection], path: Path) -> None:
    """Write the sheet to `path` as PDF, two pages at most: of many open limits the last are only counted. Raises
    DocumentError or OSError with nothing written."""
    register_faces()
    paper = PAPERS[checked.project.project.paper]
    limits = limits_to_read(by_rule(checked))
    most = len(limits)
    while True:
        book = Book(head_of(checked, "questions for the building official"), paper, covered=False)
        data = book.made(_sheets(checked, questions, limits, most))
        if book.total <= PAGES or not most:
            break
        most = min(most - 1, _estimate(checked, questions, limits, paper)) if most == len(limits) else most - 1
    write_whole(path, data)


def _estimate(
    checked: Checked, questions: Sequence[CounterSection], limits: Sequence[LimitToRead], paper: Paper
) -> int:
    """How many open limits two pages may hold, if nothing is lost at the end of a page."""
    question_rows, to_read = (one.wrap(paper.body_width, 0)[1] for one in _sheets(checked, questions, limits, 1))
    room = PAGES * paper.body_height - question_rows - to_read
    return max(0, 1 + int(room // _LIMIT_ROW))


def counter_questions(
    checked: Checked, sets: tuple[SetFindings, ...], questions: Sequence[CounterSection]
) -> list[Any]:
    """The same as a section of the submittal, with every open limit."""
    limits = limits_to_read(sets)
    return [*on_this_page(), *_sheets(checked, questions, limits, len(limits))]


def _sheets(
    checked: Checked, questions: Sequence[CounterSection], limits: Sequence[LimitToRead], most: int
) -> list[Sheet]:
    rows: list[Row] = []
    number = 0
    for section in questions:
        rows.append(_section(section.section))
        for index, question in enumerate(section.questions):
            number += 1
            rows.append(_question(number, question, checked, joined=index == 0))
    rows += _of_findings(checked, number)
    question_rows = Sheet(_COLUMNS, rows, lead=title("counter", "Questions for the official", _INTRODUCTION), below=10)
    return [question_rows, _to_read(limits, most)]


def _section(name: str) -> Row:
    return Row((cell(name, theme.BODY_BOLD, span=3),), ruled=False, air=(5.0, 0.0))


def _question(number: int, question: CounterQuestion, checked: Checked, joined: bool) -> Row:
    parts: list[Part] = [Words(question.ask, _CELL)]
    if question.why:
        parts.append(Words(question.why, _NOTE))
    if question.shows:
        parts.append(FewLines(f"In the project: {SAYINGS[question.shows](checked)}", _NOTE, 3))
    boxes = TickBoxes(tuple(question.boxes), question.write, _CELL)
    return Row((cell(str(number), _BOLD), Cell(tuple(parts)), Cell((boxes,))), joined=joined, air=(2.2, 2.2))


def _of_findings(checked: Checked, number: int) -> list[Row]:
    """Each wall with something for an engineer; then how much rests on limits that nobody has confirmed."""
    marked = engineers_list(checked.findings)
    unsure = sum(one.outcome is Outcome.MEETS and one.wants_confirming for one in checked.findings)
    question_rows: list[tuple[tuple[str, tuple[str, ...]], tuple[str, ...]]] = [
        (_question_about(one), ("engineer's design", "plan changed")) for one in marked[:_MOST_FOR_ENGINEER]
    ]
    if len(marked) > _MOST_FOR_ENGINEER:
        more = counted(len(marked) - _MOST_FOR_ENGINEER, "more wall has", "more walls have")
        question_rows.append(((f"{more} findings marked engineer.", ("They stand in the bundle.",)), ("seen",)))
    if unsure:
        wording = (
            f"{counted(unsure, 'finding meets', 'findings meet')} a limit that nobody has read in the adopted copy."
        )
        why = "The register of the bundle has room for the office's initials beside each of these limits."
        question_rows.append(((wording, (why,)), ("read together", "office reads", "builder reads")))
    rows = [_own(number + turn, *texts, boxes) for turn, (texts, boxes) in enumerate(question_rows, start=1)]
    return [_section(_OF_FINDINGS), *rows] if rows else []


def _question_about(one: EngineerItem) -> tuple[str, tuple[str, ...]]:
    named = f"Wall {one.wall}" if one.wall else "The building"
    titles = tuple(dict.fromkeys(finding.title for finding in one.findings))
    wording = f"{named} has {counted(len(one.findings), 'finding')} marked engineer. How is it to be shown?"
    return wording, titles


def _own(number: int, wording: str, why: tuple[str, ...], boxes: tuple[str, ...]) -> Row:
    parts = (FewLines(wording, _CELL, 1), FewParts(why, _NOTE, 2))
    return Row((cell(str(number), _BOLD), Cell(parts), Cell((TickBoxes(boxes, False, _CELL),))),
               joined=True, air=(2.2, 2.2))  # fmt: skip


def _to_read(limits: Sequence[LimitToRead], most: int) -> Sheet:
    """A line to write on for the open limits of each rule that are read in one place; `most` lines."""
    if not limits:
        return Sheet((Column(share=1),), (), lead=[full_row(Words(_NO_OPEN, theme.BODY_BOLD), air=(4.0, 4.0))])
    lead = part("counter-limits", f"Limits to read: {len(limits)} open", _OPEN_SENTENCE)
    lines = [tuple(found) for _, found in groupby(limits, key=lambda one: (one.group.code, one.where))]
    rows = [_limits(found) for found in lines[:most]]
    if left_out := sum(map(len, lines[most:])):
        left = f"{counted(left_out, 'more open limit')}: the worksheet of limits and the register list them."
        rows.append(Row((Cell((Words(left, _BOLD),), span=5),)))
    head = head_row("Code", "Where", "Limit", "Waiting", "As read", right=(3,))
    return Sheet(_LIMIT_COLUMNS, rows, head=[head], lead=lead, below=12)


def _limits(found: tuple[LimitToRead, ...]) -> Row:
    one = found[0]
    return Row(
        (
            cell(one.group.code, _BOLD, link=one.group.key),
            Cell((FewLines(one.where, _CELL, 2),)),
            Cell((FewLines(f"{one.title}: {', '.join(each.name for each in found)}", _CELL, 2),)),
            cell(str(one.waiting), _CELL.aligned("right")),
            cell(""),
        ),
        air=_LIMIT_AIR,
    )
