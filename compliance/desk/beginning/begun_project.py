"""Which questions of the interview the form asks, and the project that its answers make."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from datetime import date
from pathlib import Path

from compliance.problems import Place, Problem, ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError
from compliance.start.interview.first_questions import BUILDING, MORE, script
from compliance.start.interview.interview_question import NOTHING_THERE, Answers, Question, Standing
from compliance.start.interview.trial_reading import new_project
from compliance.start.interview.unattended import answers_of
from compliance.start.project_files.added_building import add_building, known_answers, standing
from compliance.start.project_files.created_folder import is_project, write_project
from compliance.start.project_files.kept_answers import kept, kept_file
from compliance.start.shapes.building_shapes import SHAPES, WALLS_WORD
from compliance.units import MeasureError

RECTANGLE = "rectangle"
FORM_SHAPES = {
    RECTANGLE: "a rectangle, by its length and width",
    **{word: says for word, says in SHAPES.items() if word != WALLS_WORD},
}
_FIXED = {"begin": BUILDING, MORE: "no"}
"""What the form does not ask: more is filled in on the pages of the desk."""
_LEADING = ("place", "rule_sets", "units", "roof")
"""Answers on which it depends what else is asked."""
_ROOF = "framed"
_ANY = {"path": "0 ft, 0 ft; 9 ft, 0 ft"}


@record
class Beginning:
    """What is there already: answers that an interview kept, or the earth of a folder that has no walls yet."""

    given: Mapping[str, str]
    there: Standing = NOTHING_THERE
    is_earth: bool = False

    def asked(self, given: Mapping[str, str], shape: str) -> list[Question]:
        """The questions of the form for a shape, without those whose answer stands in the folder; with those that a
        roof brings along."""
        known = self.given if self.is_earth else {}
        shown = {**self.given, **given, "roof": _ROOF}
        return [one for one in questions(shown, shape, self.there) if one.key not in known]


def beginning_of(folder: Path) -> Beginning:
    """Raises ProblemsFound where files that are there do not read."""
    if is_project(folder):
        project = read_project(folder).project
        return Beginning(known_answers(project), standing(project), is_earth=True)
    return Beginning(kept(kept_file(folder)))


def questions(given: Mapping[str, str], shape: str, there: Standing) -> list[Question]:
    """Every question that the form asks for a shape, in order. Sizes are those of the examples here: they change
    nothing in what is asked."""
    answers: Answers = {}
    found = []
    for question in script(answers, there):
        answers[question.key] = _for_asking(question, given, shape)
        if question.key not in _FIXED and not (question.key == "length" and shape != RECTANGLE):
            found.append(question)
    return found


def _for_asking(question: Question, given: Mapping[str, str], shape: str) -> str:
    key = question.key
    example = _ANY.get(key, question.default or question.example) if question.required or question.default else ""
    own = _answer(key, given, shape) if key in (*_LEADING, *_FIXED, "length") else ""
    for text in filter(None, (own, example)):
        try:
            return question.read(text)
        except (RefusedError, MeasureError):
            continue
    return ""


def _answer(key: str, given: Mapping[str, str], shape: str) -> str:
    if key == "length" and shape != RECTANGLE:
        return shape
    return _FIXED.get(key) or given.get(key, "").strip()


def write_begun(folder: Path, given: Mapping[str, str], shape: str, today: date) -> None:
    """Save the project, by the same way as the command that asks. Raises EntryError, OSError, and ProblemsFound, its
    lines those of the answers in the order of `keys_of`; nothing is written then."""
    start = beginning_of(folder)
    texts = {key: _answer(key, given, shape) for key in keys_of(given, shape, start.there)}
    if given.get("roof_walls", "").strip() and not texts.get("roof"):
        place = Place("answers", list(texts).index("roof") + 1)
        wrong, instead = "walls hold up a roof that is not described", f"write its kind, for example {_ROOF}"
        raise ProblemsFound([Problem(place, "start-missing", wrong, instead)])
    lines = [f"{json.dumps(key)}: {json.dumps(text, ensure_ascii=False)}\n" for key, text in texts.items()]
    known = start.given if start.is_earth else {}
    asked = new_project(today, start.there)
    answers = answers_of(parse_yaml("".join(lines), "answers"), asked, known=known)
    if start.is_earth:
        add_building(folder, answers, start.there, today)
    else:
        write_project(folder, answers, kept_file(folder), today)


def keys_of(given: Mapping[str, str], shape: str, there: Standing) -> list[str]:
    """The keys of all answers, those that the form does not ask among them."""
    asked = [one.key for one in questions(given, shape, there)]
    return [*_FIXED, *(key for key in ("length",) if key not in asked), *asked]


def words_by_key(found: ProblemsFound, keys: Iterable[str]) -> dict[str, list[str]]:
    """What is wrong and what to write instead, by the key of the answer; "" where it is no single one."""
    order = list(keys)
    words: dict[str, list[str]] = {}
    for one in found.problems:
        key = order[one.place.line - 1] if 0 < one.place.line <= len(order) and one.place.file == "answers" else ""
        words.setdefault(key, []).append(f"{one.wrong} ({one.instead})" if one.instead else one.wrong)
    return words
