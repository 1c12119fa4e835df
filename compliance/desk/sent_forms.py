"""What a form of the desk asks for: values to write, a step to take back, a change to try."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from urllib.parse import parse_qs

from compliance.editing.file_edits import ValueEdit
from compliance.editing.yaml_values import plain_copy
from compliance.facts.common.fact import FieldPath
from compliance.problems import ProblemsFound
from compliance.reading.yaml.scalars import plain_scalar
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError

_MOST_FIELDS = 200
_DEEPEST = 12


class FormError(ValueError):
    """A form that no page of the desk has."""


@record
class EditForm:
    """What was sent: the edits of fields that were filled in or altered, the digests the form was made from, where to
    go on."""

    edits: tuple[ValueEdit, ...]
    seen: dict[str, str]
    back: str


def read_form(body: bytes) -> EditForm:
    """Raises FormError."""
    fields = read_fields(body)
    paths, values = fields.get("path", []), fields.get("value", [])
    was = fields.get("was", [""] * len(paths))
    if not len(paths) == len(values) == len(was):
        raise FormError("a field has no value, or a value no field")
    edits = tuple(
        ValueEdit(path_of_text(path), typed(text) if text.strip() else None)
        for path, text, before in zip(paths, values, was, strict=True)
        if text.strip() != before.strip()
    )
    return form_of(fields, edits)


def form_of(fields: Mapping[str, Sequence[str]], edits: tuple[ValueEdit, ...]) -> EditForm:
    """Some edits with what every form says of itself. Raises FormError."""
    return EditForm(edits, _seen(fields.get("seen", ["{}"])[0]), local(fields.get("back", ["/"])[0]))


def read_fields(body: bytes) -> dict[str, list[str]]:
    """The values of each field of a form, by name. Raises FormError."""
    try:
        return parse_qs(body.decode("ascii"), keep_blank_values=True, strict_parsing=True, max_num_fields=_MOST_FIELDS)
    except ValueError as error:
        raise FormError("this form cannot be read") from error


def local(address: str) -> str:
    """The address where it is one of the desk's own pages; the first page elsewhere."""
    is_own = address.startswith("/") and not address.startswith(("//", "/\\")) and address.isprintable()
    return address if is_own else "/"


def path_of_text(text: str, shortest: int = 2) -> FieldPath:
    """Raises FormError."""
    try:
        found = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise FormError("a field has no place") from error
    if (
        not isinstance(found, list)
        or not shortest <= len(found) <= _DEEPEST
        or any(type(one) not in (str, int) for one in found)
    ):
        raise FormError("a field has no place")
    return tuple(found)


def _seen(text: str) -> dict[str, str]:
    try:
        found = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise FormError("the form does not say what it was made from") from error
    if not isinstance(found, dict) or any(not isinstance(one, str) for one in found.values()):
        raise FormError("the form does not say what it was made from")
    return found


def typed(text: str) -> object:
    """A value as the reader of files takes it: a number, a list or a mapping in brackets, else a text."""
    text = text.strip()
    try:
        if text[:1] in ("[", "{") and "\n" not in text and "#" not in text:
            return plain_copy(parse_yaml(f"value: {text}\n", "value"))["value"]
        found = plain_scalar(text)
    except (ProblemsFound, RefusedError):
        return text
    return text if found is None else found
