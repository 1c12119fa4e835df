"""One question, several rule sets: their answers side by side, and which of them governs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, title
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.judging.questions import Question
from compliance.report.by_rule import SetFindings
from compliance.report.grouping import Figures, figures, subjects
from compliance.report.words.question_words import governing_words
from compliance.units import Writer

_INTRODUCTION = (
    "Where more than one rule set answers the same question, codes and standards stand first, then guides, then "
    "practice. The strictest binding answer decides; what a guide or practice says beside it is a remark. Where the "
    "code's answer is open, the strictest of the others is the working answer. The answer that decides stands in bold."
)


def questions(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    """Nothing where no question has answers from several rule sets."""
    if not checked.questions:
        return []
    writer = Writer(checked.project.project.units)
    codes = {(group.rule_set, group.rule): group.code for one in sets for group in one.rules}
    same: dict[tuple[object, ...], list[Question]] = {}
    for question in checked.questions:
        answers = tuple((codes[one.rule_set, one.rule], figures(one, writer)) for one in question.findings)
        governs = codes[question.governs.rule_set, question.governs.rule]
        same.setdefault((question.id, governing_words(question, governs), governs, answers), []).append(question)
    rows = [
        row
        for (_, reason, governs, answers), alike in same.items()
        for row in _rows(alike, reason, governs, answers)  # type: ignore[arg-type]
    ]
    head = head_row("Code", "Result", "Limit", "Margin", "Outcome", right=(3,))
    columns = (Column(60), Column(90), Column(share=1), Column(60), Column(176))
    lead = title("questions", "One question, several rule sets", _INTRODUCTION)
    return [*on_this_page(), Sheet(columns, rows, head=[head], lead=lead, below=14)]


def _rows(
    alike: Sequence[Question], reason: str, governs: str, answers: Sequence[tuple[str, Figures]]
) -> Iterator[Row]:
    """What is asked, of what, and why one answer governs; then a row for each answer."""
    marks = subjects(question.findings[0] for question in alike)
    question = cell(f"{alike[0].title}: {marks}", theme.CELL_BOLD, span=3)
    yield Row((question, cell(f"{reason[:1].upper()}{reason[1:]}", theme.CELL_SMALL, span=2)), ruled=False)
    for index, (code, answer) in enumerate(answers, start=1):
        style = theme.CELL_BOLD if code == governs else theme.CELL
        yield Row(
            (
                cell(code, style, link=f"rule-{code}"),
                cell(answer.value, style),
                cell(answer.limit, style),
                cell(answer.margin, style.aligned("right")),
                Cell((Marked(answer.mark, answer.verdict, style),)),
            ),
            joined=True,
            ruled=index == len(answers),
            air=(0.6, 1.2) if index < len(answers) else (0.6, 3.0),
        )
