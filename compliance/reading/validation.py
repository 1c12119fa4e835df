"""From pydantic's errors to problems with a place and with what to write instead."""

from __future__ import annotations

import types
from typing import Any, Union, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from compliance.problems import Place, Problem
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.refused import MOST_PROBLEMS, at_most, nearest, shortened

_EXPECTED = {
    "dict_type": ("a list of names with values", "write name: value lines, indented"),
    "model_type": ("a list of names with values", "write name: value lines, indented"),
    "list_type": ("a list", "write one item a line, each after a dash"),
    "int_type": ("a whole number", "write for example 2"),
    "float_type": ("a number", "write for example 0.5"),
    "string_type": ("text", "write some words"),
}


_RENAMED_WORDS = {"apart": "not-applicable"}
"""Words that files written for an earlier version may still hold; they are refused with the present one."""


def problems_of(error: ValidationError, tree: PlacedDict, model: type[BaseModel]) -> list[Problem]:
    """The errors as problems at their places in `tree`, not many more than anyone reads. `model` is what was
    validated."""
    first = _each_once(error.errors(include_url=False)[: 5 * MOST_PROBLEMS], tree)
    return at_most((_problem(details, tree, model) for details in first), "too-many-problems")


def _each_once(errors: list[ErrorDetails], tree: PlacedDict) -> list[ErrorDetails]:
    """The errors, a word that none of several lists has once with the words of all of them."""
    found: list[ErrorDetails] = []
    words: dict[Place, ErrorDetails] = {}
    for one in errors:
        place = place_of(tree, one["loc"])
        before = words.get(place) if one["type"] == "literal_error" else None
        if before is not None:
            before["ctx"] = {"expected": f"{before['ctx']['expected']}, {one['ctx']['expected']}"}
            continue
        if one["type"] == "literal_error":
            words[place] = one
        found.append(one)
    return found


def _problem(details: ErrorDetails, tree: PlacedDict, model: type[BaseModel]) -> Problem:
    loc, kind, context = details["loc"], details["type"], details.get("ctx", {})
    place = place_of(tree, loc)
    name = str(loc[-1]) if loc else ""
    if "instead" in context:
        return Problem(place, kind, str(context["wrong"]), str(context["instead"]))
    if kind == "missing":
        within = ".".join(map(str, loc[:-1])) or "the file"
        return Problem(place, "field-missing", f"{within} has no {name!r}", f"add {name}:")
    if kind == "extra_forbidden":
        known = fields_at(model, loc[:-1])
        return _unknown_field(place_of(tree, loc, at_key=True), name, details["input"], known)
    if kind == "literal_error":
        return _unknown_word(place, details["input"], str(context.get("expected", "")))
    if kind == "string_pattern_mismatch":
        return _bad_name(place, name, details["input"], "[key]" in loc)
    if kind in ("too_long", "too_short"):
        return _wrong_count(place, name, details)
    if kind in _EXPECTED:
        expected, instead = _EXPECTED[kind]
        return Problem(place, "wrong-kind", f"{_as_read(details['input'])} stands where {expected} is wanted", instead)
    return Problem(place, kind.replace("_", "-"), f"{_as_read(details['input'])} is refused: {details['msg'].lower()}",
                   "see the meaning of the field in the README")  # fmt: skip


def _wrong_count(place: Place, name: str, details: ErrorDetails) -> Problem:
    count, context = len(details["input"]), details.get("ctx", {})
    wrong = f"there {'is 1 entry' if count == 1 else f'are {count:,} entries'} under {name}:"
    if details["type"] == "too_long":
        return Problem(place, "too-long", wrong, f"keep to {context['max_length']:,} at most")
    return Problem(place, "too-short", wrong, f"write {context['min_length']:,} at least")


def _as_read(value: object) -> str:
    if isinstance(value, dict):
        return "a list of names with values"
    if isinstance(value, list):
        return "a list"
    return "nothing" if value is None else shortened(value if isinstance(value, str) else str(value))


def _unknown_field(place: Place, name: str, value: object, known: tuple[str, ...]) -> Problem:
    """A name without a value is most likely the rest of a text that a comma cut in two."""
    near = nearest(name, known)
    if value is None and not near:
        return Problem(place, "field-unknown", f"{name!r} is no field here",
                       'put a text that holds a comma in "double quotes"')  # fmt: skip
    instead = f"did you mean {near}:?" if near else f"known here: {', '.join(known)}" if known else "remove it"
    return Problem(place, "field-unknown", f"{shortened(name)} is no field here", instead)


def _unknown_word(place: Place, value: object, expected: str) -> Problem:
    words = [word.strip("' ") for word in expected.replace(" or ", ", ").split(",")]
    renamed = _RENAMED_WORDS.get(value, "") if isinstance(value, str) else ""
    if renamed in words:
        return Problem(place, "word-unknown", f"{value!r} is now called {renamed!r}", f"write {renamed}")
    near = nearest(value, words) if isinstance(value, str) else ""
    hint = f"did you mean {near}? " if near else ""
    return Problem(place, "word-unknown", f"{_as_read(value)} is not one of the words for this",
                   f"{hint}write one of {', '.join(words)}")  # fmt: skip


def _bad_name(place: Place, name: str, value: object, is_key: bool) -> Problem:
    what = "mark" if is_key or isinstance(value, str) else name
    return Problem(place, "mark", f"{_as_read(value)} cannot be a {what}",
                   "begin with a letter, then letters, digits, - or _, at most 24 in all")  # fmt: skip


def fields_at(model: type[BaseModel], loc: tuple[str | int, ...]) -> tuple[str, ...]:
    """The names of the fields known at a path below `model`, in the order of the model."""
    found: Any = model
    for element in loc:
        found = _below(found, element)
        if found is None:
            return ()
    kind = _model_in(found)
    return tuple(field.alias or name for name, field in kind.model_fields.items()) if kind else ()


def _below(annotation: Any, element: str | int) -> Any:
    kind = _model_in(annotation)
    if kind is not None:
        for name, field in kind.model_fields.items():
            if element in (field.alias or name, name):
                return field.annotation
        return None
    if get_origin(annotation) in (Union, types.UnionType):
        return next((found for part in get_args(annotation) if (found := _below(part, element)) is not None), None)
    arguments = get_args(annotation)
    if get_origin(annotation) in (dict, list) and arguments:
        return arguments[-1]
    return None


def _model_in(annotation: Any) -> type[BaseModel] | None:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    if get_origin(annotation) in (Union, types.UnionType):
        return next((found for part in get_args(annotation) if (found := _model_in(part))), None)
    return None
