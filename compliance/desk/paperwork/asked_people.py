"""Questions and points of inspection as blocks of a form, and the answers in what was sent."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence
from datetime import date
from types import MappingProxyType

from compliance.checked import Checked
from compliance.desk.paperwork.record_forms import (
    Entry,
    Fields,
    choice_field,
    day_of_field,
    evidence_field,
    long_field,
    text_of_field,
)
from compliance.editing.evidence_files import Evidence
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError
from compliance.editing.written_answers import GivenAnswer
from compliance.output.checklist.html_tags import Markup, tag
from compliance.record import record
from compliance.report.answer.questions_due import Section
from compliance.report.mark_runs import in_runs

Photos = Mapping[str, Sequence[Evidence]]
NO_PHOTOS: Photos = MappingProxyType({})
_MOST_EACH = 60
_WORDS: dict[Section, tuple[str, str, str]] = {
    "attestations": ("not answered", "yes", "no"),
    "inspections": ("not inspected yet", "passed", "not passed"),
}


@record
class Asked:
    """What is asked of some subjects. `key` tells it from the others of the page, `name` is how an entry of `section`
    names its rule; `remarks` stand below the question."""

    section: Section
    key: str
    name: str
    title: str
    asks: str
    remarks: tuple[str, ...]
    subjects: tuple[str, ...]


def asked_block(one: Asked, checked: Checked, entry: Entry, photos: Markup | None = None) -> Markup:
    """The question, an answer for all subjects or for each, evidence, `photos` that are taken with it, and a note."""
    options = list(zip(("", "yes", "no"), _WORDS[one.section], strict=True))
    each = None
    if 1 < len(one.subjects) <= _MOST_EACH:
        rows = [choice_field(_each(one, mark), mark, options, entry) for mark in one.subjects]
        is_open = any(entry.value(_each(one, mark)) for mark in one.subjects)
        each = tag("details", tag("summary", "One by one"), *rows, **({"open": "open"} if is_open else {}))
    about = ", ".join(in_runs(one.subjects))
    return tag(
        "fieldset",
        tag("legend", one.title),
        tag("p", one.asks),
        *(tag("p", text, class_="small") for text in one.remarks),
        choice_field(_all(one), about, options, entry),
        each,
        evidence_field(_evidence(one), checked, entry),
        photos,
        long_field(_note(one), "Note", entry),
        class_="asked",
    )


def given_answers(
    fields: Fields, asked: Sequence[Asked], attached: Container[str], photos: Photos = NO_PHOTOS
) -> list[GivenAnswer]:
    """The answers that were given, at least one. Raises EditRefusedError where who or when is not said, and
    ChangedMeanwhileError for an answer to what is not asked any more, or by evidence that is not `attached`: a file of
    the machine is never taken in by its path. `photos` go with the answers by the key of what is asked."""
    known = {name for one in asked for name in (_all(one), *(_each(one, mark) for mark in one.subjects))}
    for name, values in fields.items():
        if name.startswith(("all:", "one:")) and values[0].strip() and name not in known:
            raise ChangedMeanwhileError(f"{name.partition(':')[2]} is not asked any more; nothing was written")
    for name, values in fields.items():
        if strange := [one for one in values if name.startswith("evidence:") and one and one not in attached]:
            raise ChangedMeanwhileError(f"{strange[0]} is no photo or paper of the project; nothing was written")
    answered = [(one, list(_by_answer(fields, one))) for one in asked]
    if idle := [one for one, parts in answered if photos.get(one.key) and not parts]:
        raise EditRefusedError(f"{idle[0].title}: a photo is there and no answer; choose one")
    if not any(parts for _, parts in answered):
        raise EditRefusedError("nothing is answered yet: choose an answer first")
    by = text_of_field(fields, "by", "write who says so")
    on = day_of_field(fields, "on", "write on which day, as 2026-05-14")
    assert on is not None
    return [
        _given(fields, one, marks, answer=answer, by=by, on=on, photos=photos.get(one.key, ()))
        for one, parts in answered
        for answer, marks in parts
    ]


def _given(
    fields: Fields, one: Asked, marks: tuple[str, ...], answer: bool, by: str, on: date, photos: Sequence[Evidence]
) -> GivenAnswer:
    evidence = (*(Evidence(mark) for mark in fields.get(_evidence(one), ()) if mark), *photos)
    return GivenAnswer(
        one.section, rule=one.name, about=marks, answer=answer, by=by, on=on, evidence=evidence,
        note=text_of_field(fields, _note(one)),
    )  # fmt: skip


def _by_answer(fields: Fields, one: Asked) -> Iterator[tuple[bool, tuple[str, ...]]]:
    """The subjects that were answered yes, then those that were answered no; what is said of one goes before what is
    said of all."""
    of_all = text_of_field(fields, _all(one))
    said = {mark: text_of_field(fields, _each(one, mark)) or of_all for mark in one.subjects}
    if any(text not in ("", "yes", "no") for text in said.values()):
        raise EditRefusedError(f"{one.title}: answer yes or no")
    for answer, word in ((True, "yes"), (False, "no")):
        marks = tuple(mark for mark, text in said.items() if text == word)
        if marks:
            yield answer, marks


def _all(one: Asked) -> str:
    return f"all:{one.key}"


def _each(one: Asked, mark: str) -> str:
    return f"one:{one.key}:{mark}"


def _evidence(one: Asked) -> str:
    return f"evidence:{one.key}"


def _note(one: Asked) -> str:
    return f"note:{one.key}"
