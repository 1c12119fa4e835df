"""What a section of a folder that is gone on with is made of."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from compliance.editing.file_edits import ValueEdit
from compliance.editing.yaml_values import plain_copy
from compliance.facts.common.fact import FieldPath
from compliance.model.base import Described
from compliance.model.project import Project
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.start.interview.interview_question import Answers, Question
from compliance.start.interview.wall_questions import field_question
from compliance.start.project_files.form_lines import flow

Tree = Mapping[str, Any]


@record
class Section:
    """`says` what stands there already, `questions` ask for what is not there yet, and `edits` are what their answers
    write. Questions about a field that exists bear its path as their key, its parts joined by dots."""

    name: str
    title: str
    says: Callable[[Project], str]
    questions: Callable[[Project, Answers], Iterator[Question]]
    edits: Callable[[Project, Answers], Sequence[ValueEdit]]


def edit(path: FieldPath, value: Any) -> ValueEdit:
    """A value as a file would hold it: `2` a number, `4:12` a text."""
    return ValueEdit(path, plain_copy(parse_yaml(f"value: {flow(value)}\n", "value"))["value"])


def field_edits(answers: Answers, sections: Sequence[str]) -> list[ValueEdit]:
    """One for each answer whose key is the path of a field in one of the `sections`."""
    return [
        edit(tuple(key.split(".")), text)
        for key, text in answers.items()
        if text and "." in key and key.partition(".")[0] in sections
    ]


def lacking_fields(
    path: tuple[str, ...], held: Described | None, model: type[Described], fields: Sequence[tuple[str, str]],
    units: str, about: str = "",
) -> Iterator[Question]:  # fmt: skip
    """A question for each of the fields that a record does not state; all of them where there is no record yet."""
    for name, asks in fields:
        if held is None or getattr(held, name) is None:
            yield field_question(".".join((*path, name)), about + asks, model, name, units)


def free_marks(letter: str, taken: Sequence[str]) -> Iterator[str]:
    """`S3`, `S4` and so on, those that are taken left out."""
    return (mark for number in range(1, 10_000) if (mark := f"{letter}{number}") not in taken)
