"""Answers from the command line or a sheet, as `answer` enters them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from compliance.checked import Checked
from compliance.commands.common.shared import checked_folder, put, stop, stop_with, unknown_mark
from compliance.editing.evidence_files import Evidence, day_taken
from compliance.editing.written_answers import AnswerError, GivenAnswer, enter_answers
from compliance.problems import Problem, ProblemsFound
from compliance.reading.filled_answers import FilledAnswer, read_filled_answers
from compliance.record import replace
from compliance.refused import at_most, nearest
from compliance.report.answer.answer_sheet import entered_lines
from compliance.report.answer.questions_due import OpenQuestion, question_names, questions_by_name


def question_named(checked: Checked, rule: str, about: Sequence[str]) -> tuple[OpenQuestion, ...]:
    """The one question of a rule, of the marks that are named. Stops where there is none, or several."""

    found = questions_by_name(checked, rule)
    if not found:
        near = nearest(rule, question_names(checked))
        more = f" (did you mean {near}?)" if near else ""
        raise stop(f"no rule {rule!r} of the adopted rule sets asks a person anything here{more}")
    if len(found) > 1:
        raise stop(f"{rule} stands in several rule sets: write {' or '.join(one.name for one in found)}")
    known = _marks(checked, found[0])
    for mark in about:
        if mark not in known:
            raise stop(unknown_mark(mark, known))
    return (replace(found[0], subjects=tuple(about)) if about else found[0],)


def evidence_of(files: Sequence[str], titles: Sequence[str], dated: date | None) -> tuple[Evidence, ...]:

    named = [*titles, *("" for _ in files[len(titles) :])]
    return tuple(
        Evidence(file, title, dated or day_taken(Path(file))) for file, title in zip(files, named, strict=True)
    )


def given_answer(
    question: OpenQuestion, answer: bool, by: str, on: date, evidence: tuple[Evidence, ...], note: str
) -> GivenAnswer:
    return GivenAnswer(
        question.section, rule=question.name, about=question.subjects, answer=answer, by=by, on=on,
        evidence=evidence, note=note,
    )  # fmt: skip


def enter(folder: Path, answers: Sequence[GivenAnswer]) -> None:
    """Writes them and says what came of each. Stops where nothing can be written."""

    try:
        entered = enter_answers(folder, answers)
    except ProblemsFound as found:
        raise stop_with(found) from None
    except (AnswerError, OSError) as error:
        raise stop(f"{error}; nothing was written") from None
    for name in entered.copied:
        put(f"Copied {name}\n")
    for line in entered_lines(entered.checked, entered.findings):
        put(f"{line}\n")


def enter_sheet(folder: Path, path: Path, by: str, on: date) -> None:
    """Writes every answer of a filled-in sheet, or none. Stops where one cannot be taken."""
    checked = checked_folder(folder)
    try:
        answers = _of_sheet(checked, path, read_filled_answers(path, path.as_posix(), by=by, on=on))
    except ProblemsFound as found:
        raise stop_with(found) from None
    enter(folder, answers)


def _of_sheet(checked: Checked, path: Path, lines: Sequence[FilledAnswer]) -> list[GivenAnswer]:
    """Raises ProblemsFound for lines that name no question, or nothing that one is asked of."""
    problems, answers = [], []
    for line in lines:
        found = questions_by_name(checked, line.rule)
        if len(found) != 1:
            wrong = f"{line.rule!r} names {'several questions' if found else 'no question that is asked here'}"
            instead = (
                f"write {' or '.join(one.name for one in found)}" if found else "earthwall answer --sheet lists them"
            )
            problems.append(Problem(line.places["rule"], "answer-sheet", wrong, instead))
            continue
        marks = _marks(checked, found[0])
        if line.about not in marks:
            wrong, near = f"{line.rule} is asked of nothing called {line.about!r}", nearest(line.about, marks)
            instead = f"did you mean {near}?" if near else f"known: {', '.join(marks[:20])}"
            problems.append(Problem(line.places["about"], "answer-sheet", wrong, instead))
            continue
        files = [_beside(path, file, checked) for file in line.evidence]
        evidence = evidence_of(files, line.titles[: len(files)], line.dated)
        question = replace(found[0], subjects=(line.about,))
        answers.append(given_answer(question, line.answer, by=line.by, on=line.on, evidence=evidence, note=line.note))
    if problems:
        raise ProblemsFound(at_most(problems, "too-many-problems"))
    return answers


def _marks(checked: Checked, question: OpenQuestion) -> list[str]:
    rule = question.rule
    return [one.subject for one in checked.findings if (one.rule_set, one.rule) == (rule.rule_set, rule.id)]


def _beside(sheet: Path, file: str, checked: Checked) -> str:
    """A mark as it is; a file beside the sheet."""
    return file if file in checked.project.attachments else (sheet.parent / file).as_posix()
