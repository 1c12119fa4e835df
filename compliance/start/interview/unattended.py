"""The same questions answered from a file."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.yaml.placed import PlacedDict
from compliance.refused import RefusedError, nearest
from compliance.start.interview.first_questions import script
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.trial_reading import trouble
from compliance.start.project_files.kept_answers import flat
from compliance.units import MeasureError


def answers_of(tree: PlacedDict, titles: dict[str, str], today: date) -> Answers:
    """Every question of the script answered from `tree`, what it does not answer left open.

    Raises ProblemsFound: `start-missing`, `start-unknown`, and the codes with which an answer is refused.
    """
    given = flat(tree)
    answers: Answers = {}
    problems: list[Problem] = []
    known_keys: list[str] = []
    for question in script(answers, titles):
        known_keys.append(question.key)
        text, place = _given(question, given, tree.file)
        if not text and question.required:
            wrong = f"there is no answer to {question.key!r}: {question.asks}"
            example = f"write {question.key}: {question.example}" if question.example else f"add {question.key}:"
            raise ProblemsFound([*problems, Problem(place, "start-missing", wrong, example)])
        try:
            answers[question.key] = question.read(text) if text else ""
        except (RefusedError, MeasureError) as refused:
            problems.append(Problem(place, refused.code, refused.wrong, refused.instead))
            if question.required:
                raise ProblemsFound(problems) from None
            answers[question.key] = ""
        if question.closes and not problems:
            problems += [Problem(place, one.code, one.wrong, one.instead) for one in trouble(answers, today)]
    problems += [_unknown(key, place, known_keys) for key, (_, place) in given.items() if key not in known_keys]
    if problems:
        raise ProblemsFound(problems)
    return answers


def _given(question: Question, given: Mapping[str, tuple[str, Place]], file: str) -> tuple[str, Place]:
    """The answer of the file, else the default. A file that is there means that all is asked."""
    text, place = given.get(question.key, ("", Place(file)))
    if question.key == "more":
        return text or "yes", place
    return text.strip() or question.default, place


def _unknown(key: str, place: Place, known_keys: list[str]) -> Problem:
    near = nearest(key, known_keys)
    known = ", ".join(dict.fromkeys(one.partition(".")[0] for one in known_keys))
    instead = f"did you mean {near}?" if near else f"asked here: {known}"
    return Problem(place, "start-unknown", f"no question asks for {key!r} here", instead)
