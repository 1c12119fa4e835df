"""The sheet of questions to fill in, as comma-separated values, and what came of the answers in lines."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence

from compliance.checked import Checked
from compliance.findings import Finding, Outcome
from compliance.report.answer.questions_due import OpenQuestion
from compliance.report.revisions.findings_data import harmless
from compliance.report.words.reason_words import reason_words
from compliance.units import Writer

KEYS = ("rule", "about")
KNOWN = ("title", "clause", "question", "evidence asked for")
TO_FILL = ("answer", "by", "on", "evidence", "title of evidence", "dated", "note")
COLUMNS = (*KEYS, *KNOWN, *TO_FILL)


def answer_sheet(questions: Sequence[OpenQuestion]) -> str:
    """A line for each question and each mark it is asked of."""
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(COLUMNS)
    for one in questions:
        known = (one.rule.title, one.rule.clause, one.asks, ", ".join(one.evidence))
        for mark in one.subjects:
            rows.writerow([harmless(cell) for cell in (one.name, mark, *known, *("" for _ in TO_FILL))])
    return out.getvalue()


def entered_lines(checked: Checked, findings: Sequence[Finding]) -> Iterator[str]:
    """What each rule says now, marks alike on one line."""
    writer = Writer(checked.project.project.units)
    alike: dict[tuple[str, str, str], list[str]] = {}
    for one in findings:
        why = "" if one.outcome is Outcome.MEETS else reason_words(one.reason, writer)
        alike.setdefault((one.title, one.outcome.words, why), []).append(one.subject)
    for (title, outcome, why), marks in alike.items():
        yield f"{title} ({', '.join(marks)}): {outcome}" + (f": {why}" if why else "")
