"""A filled-in sheet of questions that only a person can answer."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.filled_rows import MOST_BYTES, FilledRow, SheetForm, filled_rows
from compliance.reading.plain_file import read_bytes
from compliance.record import record
from compliance.refused import at_most

COLUMNS = ("rule", "about", "answer", "by", "on", "evidence", "title of evidence", "dated", "note")
_CODE = "answer-sheet"
_FORM = SheetForm(("rule", "about", "answer"), COLUMNS, _CODE, "earthwall answer FOLDER --sheet")
_WORDS = {"yes": True, "no": False, "true": True, "false": False}
_MOST_TEXT = 4_000


@record
class FilledAnswer:
    """A line with an answer. `places` are those of its cells by heading."""

    rule: str
    about: str
    answer: bool
    by: str
    on: date
    evidence: tuple[str, ...]
    titles: tuple[str, ...]
    dated: date | None
    note: str
    places: Mapping[str, Place]


def read_filled_answers(path: Path, shown: str, by: str, on: date) -> list[FilledAnswer]:
    """Each line with an answer, in order; `by` and `on` stand in where a line names nobody or no day. Raises
    ProblemsFound, also where nothing is filled in."""
    rows = filled_rows(read_bytes(path, shown, "csv", MOST_BYTES), shown, _FORM)
    problems: list[Problem] = []
    found = [one for row in rows if (one := _answer(row, by=by, on=on, problems=problems)) is not None]
    if not found and not problems:
        problems.append(Problem(Place(shown), _CODE, "no answer is filled in", "write yes or no under answer"))
    if problems:
        raise ProblemsFound(at_most(problems, "too-many-problems"))
    return found


def _answer(row: FilledRow, by: str, on: date, problems: list[Problem]) -> FilledAnswer | None:
    """None for a line without an answer, and for one with a problem, which is added to `problems`."""
    known = len(problems)

    def text(name: str) -> str:
        return row.texts.get(name, "")

    def wrong(name: str, what: str, instead: str) -> None:
        problems.append(Problem(row.places.get(name, row.places["answer"]), _CODE, what, instead))

    def day(name: str) -> date | None:
        try:
            return date.fromisoformat(text(name)) if text(name) else None
        except ValueError:
            wrong(name, f"{text(name)!r} is no date", "write dates as 2026-05-14")
            return None

    if not text("answer"):
        if text("evidence") or text("note"):
            wrong("answer", "evidence or a note stands here, and no answer", "write yes or no, or clear the others")
        return None
    said = _WORDS.get(text("answer").casefold())
    if said is None:
        wrong("answer", f"{text('answer')!r} is neither yes nor no", "write yes or no")
    if not (text("by") or by):
        wrong("by", f"nobody is named who answers {text('rule')}", "write who says so, or give --by")
    if not text("about"):
        wrong("about", f"the line does not say what {text('rule')} is answered of", "write a mark, such as W3")
    for name in ("by", "note", "title of evidence"):
        if len(text(name)) > _MOST_TEXT:
            wrong(name, f"the text has {len(text(name)):,} characters", f"keep to {_MOST_TEXT:,} at most")
    days = day("on"), day("dated")
    if len(problems) > known or said is None:
        return None
    return FilledAnswer(
        text("rule"),
        about=text("about"),
        answer=said,
        by=text("by") or by,
        on=days[0] or on,
        evidence=_parts(text("evidence")),
        titles=_parts(text("title of evidence")),
        dated=days[1],
        note=text("note"),
        places=row.places,
    )


def _parts(text: str) -> tuple[str, ...]:
    """Several in a cell, separated by semicolons."""
    return tuple(part.strip() for part in text.split(";") if part.strip())
