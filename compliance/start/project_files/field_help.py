"""What a field of the model takes, in words, and reading an answer for it as strictly as a file is read."""

from __future__ import annotations

import types
from functools import cache
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError, create_model

from compliance.model.base import MARK_PATTERN, Described, MeasureOf, YesNo
from compliance.model.walls import Point
from compliance.reading.yaml.scalars import plain_scalar
from compliance.refused import RefusedError, nearest, one_of, shortened
from compliance.start.interview.field_examples import EXAMPLES
from compliance.units import KINDS

Units = str
R = TypeVar("R", bound=BaseModel)

# Fields of the length of a wall or a room. All other lengths are shown with an example of the size of a step.
_LONG = frozenset({
    "at", "building_height", "exposed_height", "height", "radius", "rise", "run", "span", "start", "tie_height",
    "tributary", "uplift_anchor_spacing",
})  # fmt: skip


@cache
def _marks(model: type[BaseModel], name: str) -> tuple[Any, ...]:
    """The annotation of a field taken apart: origins, literals and what pydantic was told besides."""
    field = model.model_fields[name]
    found: list[Any] = [*field.metadata]
    parts = [field.annotation]
    while parts:
        part = parts.pop()
        found.append(part)
        if get_origin(part) in (Union, types.UnionType, Annotated):
            parts += get_args(part)
    return tuple(found)


def words_of(model: type[BaseModel], name: str) -> tuple[str, ...]:
    """The words a field takes; none for a field that takes anything else."""
    return next((tuple(map(str, get_args(one))) for one in _marks(model, name) if get_origin(one) is Literal), ())


def example_of(model: type[BaseModel], name: str, units: Units) -> str:
    """What could be written in a field, in the units of the project; empty where nothing can be said in general."""
    if own := EXAMPLES.get((model.__name__, name)):
        return own[units == "si"]
    marks = _marks(model, name)
    kind = next((one.kind for one in marks if isinstance(one, MeasureOf)), None)
    if kind is not None:
        short = kind.name == "length" and name not in _LONG
        return kind_example("thickness" if short else kind.name, units)
    if any(one is int for one in marks):
        return "2"
    return "0.2" if any(one is float for one in marks) else ""


def is_yes_or_no(model: type[BaseModel], name: str) -> bool:
    return any(one == YesNo or one is bool for one in _marks(model, name))


def takes(model: type[BaseModel], name: str, units: Units) -> str:
    """In words what a field takes, with an example."""
    words, example, marks = words_of(model, name), example_of(model, name, units), _marks(model, name)
    if words:
        return f"one of: {', '.join(words)}"
    if example:
        return f"for example {example}"
    if is_yes_or_no(model, name):
        return "yes or no"
    if any(getattr(one, "__name__", "") == "date" for one in marks):
        return "for example 2026-05-14"
    if any(MARK_PATTERN in str(getattr(one, "pattern", "")) for one in marks):
        return "a mark"
    if any(get_origin(one) is list for one in marks):
        return "a list"
    inner = next((one for one in marks if isinstance(one, type) and issubclass(one, BaseModel)), None)
    if inner is not None:
        return "in braces: " + ", ".join(field.alias or each for each, field in inner.model_fields.items())
    return "some words"


@cache
def _alone(model: type[BaseModel], name: str) -> type[BaseModel]:
    """A record that has only this field, to read an answer with."""
    field = model.model_fields[name]
    annotation: Any = field.annotation
    for one in field.metadata:
        annotation = Annotated[annotation, one]
    return create_model("Answer", __base__=Described, answer=(annotation, ...))


def read_field(model: type[BaseModel], name: str, text: str) -> str:
    """`text` as given, when the field takes it. Raises RefusedError with what to write instead."""
    words = words_of(model, name)
    if words:
        return read_word(text, words)
    number = any(one in (int, float) for one in _marks(model, name))
    _try(_alone(model, name), plain_scalar(text) if number else text)
    return text


def read_record(model: type[R], value: object) -> R:
    """A record as a file would hold it. Raises RefusedError with what to write instead."""
    try:
        return model.model_validate(value)
    except ValidationError as error:
        raise _refused(error, str(value)) from None


def read_point(text: str) -> list[str]:
    """Two coordinates separated by a comma. Raises RefusedError: `start-point`, and the codes of measures."""
    parts = [part.strip() for part in text.strip("[] ").split(",")]
    if len(parts) != 2 or not all(parts):
        raise RefusedError("start-point", f"{shortened(text)} is not a point of the plan",
                           "write how far east, a comma, how far north, as in 12 ft, 8 ft 6 in")  # fmt: skip
    _try(_POINT, parts)
    return parts


_POINT = create_model("PointAnswer", __base__=Described, answer=(Point, ...))


def _try(model: type[BaseModel], value: object) -> None:
    try:
        model.model_validate({"answer": value})
    except ValidationError as error:
        raise _refused(error, str(value)) from None


def _refused(error: ValidationError, value: str) -> RefusedError:
    first = error.errors(include_url=False)[0]
    context = first.get("ctx", {})
    if "instead" in context:
        return RefusedError(first["type"], str(context["wrong"]), str(context["instead"]))
    return RefusedError("start-answer", f"{shortened(value)} is refused: {first['msg'].lower()}", "write another value")


def read_word(text: str, words: tuple[str, ...]) -> str:
    """One of `words`, or its number in the list. Raises RefusedError: `start-choice`."""
    if text in words:
        return text
    if text.isdigit() and 1 <= int(text) <= len(words):
        return words[int(text) - 1]
    near = nearest(text, words)
    raise RefusedError("start-choice", f"{shortened(text)} is none of these",
                       (f"did you mean {near}? " if near else "") + one_of(words))  # fmt: skip


def read_words(text: str, words: tuple[str, ...]) -> str:
    """Several of `words`, or their numbers, separated by commas. Raises RefusedError: `start-choice`."""
    parts = [part.strip() for part in text.replace(";", ",").split(",") if part.strip()]
    if not parts:
        raise RefusedError("start-choice", "none is chosen", one_of(words))
    return ", ".join(dict.fromkeys(read_word(part, words) for part in parts))


def kind_example(kind: str, units: Units) -> str:
    """An example of a kind of measure in the units of the project."""
    us, _, si = KINDS[kind].example.partition(", or ")
    return (si or us) if units == "si" else us
