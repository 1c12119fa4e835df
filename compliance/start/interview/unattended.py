"""The same questions answered from a file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.yaml.placed import PlacedDict
from compliance.refused import RefusedError, nearest
from compliance.start.interview.first_questions import MORE
from compliance.start.interview.interview_question import Answers, Question, Script
from compliance.start.project_files.kept_answers import flat
from compliance.units import MeasureError

NOTHING_KNOWN: Mapping[str, str] = {}


def answers_of(tree: PlacedDict, script: Script, known: Mapping[str, str] = NOTHING_KNOWN) -> Answers:
    """Every question of the script answered from `tree`, what it does not answer left open.

    What is `known` from the folder need not be said again. Raises ProblemsFound: `start-missing`, `start-unknown`, and
    the codes with which an answer is refused.
    """
    given = flat(tree)
    answers: Answers = {}
    problems: list[Problem] = []
    known_keys: list[str] = []
    try:
        for question in script.questions(answers):
            known_keys.append(question.key)
            text, place = _given(question, given, tree.file)
            problems += _take(question, known.get(question.key, text), answers, place)
            if question.key not in answers:
                raise ProblemsFound(problems)
            if question.closes and not problems:
                found = script.read(answers).problems
                problems += [Problem(place, one.code, one.wrong, one.instead) for one in found]
    except RefusedError as refused:  # a shape that its sizes do not make: what else is asked follows from it
        if refused.code not in {one.code for one in problems}:
            problems.append(refused.at(Place(tree.file)))
        raise ProblemsFound(problems) from None
    problems += [_unknown(key, place, known_keys) for key, (_, place) in given.items() if key not in known_keys]
    if problems:
        raise ProblemsFound(problems)
    return answers


def _take(question: Question, text: str, answers: Answers, place: Place) -> Iterator[Problem]:
    """Puts the answer among `answers`; gives what is wrong with it."""
    if not text and question.required:
        wrong = f"there is no answer to {question.key!r}: {question.asks}"
        example = f"write {question.key}: {question.example}" if question.example else f"add {question.key}:"
        yield Problem(place, "start-missing", wrong, example)
        return
    try:
        answers[question.key] = question.read(text) if text else ""
    except (RefusedError, MeasureError) as refused:
        yield Problem(place, refused.code, refused.wrong, refused.instead)
        if not question.required:
            answers[question.key] = ""


def _given(question: Question, given: Mapping[str, tuple[str, Place]], file: str) -> tuple[str, Place]:
    """The answer of the file, else the default. A file that is there means that all is asked."""
    text, place = given.get(question.key, ("", Place(file)))
    if question.key in (MORE, "permit"):
        return text or "yes", place
    return text.strip() or question.default, place


def _unknown(key: str, place: Place, known_keys: list[str]) -> Problem:
    near = nearest(key, known_keys)
    known = ", ".join(dict.fromkeys(one.partition(".")[0] for one in known_keys))
    instead = f"did you mean {near}?" if near else f"asked here: {known}"
    return Problem(place, "start-unknown", f"no question asks for {key!r} here", instead)
