"""What a form of the desk asks for: values to write, a step to take back, a change to try."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from urllib.parse import parse_qs

from compliance.desk.layer_texts import holds_layers, layers_typed
from compliance.editing.file_edits import ValueEdit
from compliance.editing.yaml_values import plain_copy
from compliance.facts.common.fact import FieldPath
from compliance.problems import ProblemsFound
from compliance.reading.yaml.scalars import plain_scalar
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import record
from compliance.refused import RefusedError
from compliance.remedies.edited_project import holds_text

_MOST_FIELDS = 2_000
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
    before = fields.get("was", [""] * len(paths))
    if not len(paths) == len(values) == len(before):
        raise FormError("a field has no value, or a value no field")
    found = (_edit(path_of_text(path), *texts) for path, *texts in zip(paths, before, values, strict=True))
    return form_of(fields, tuple(one for one in found if one is not None))


def form_of(fields: Mapping[str, Sequence[str]], edits: tuple[ValueEdit, ...]) -> EditForm:
    """Some edits with what every form says of itself. Raises FormError."""
    return EditForm(edits, seen_in(fields), back_in(fields))


def read_fields(body: bytes) -> dict[str, list[str]]:
    """The values of each field of a form, by name. Raises FormError."""
    try:
        return parse_qs(body.decode("ascii"), keep_blank_values=True, strict_parsing=True, max_num_fields=_MOST_FIELDS)
    except ValueError as error:
        raise FormError("this form cannot be read") from error


def _edit(path: FieldPath, before: str, text: str) -> ValueEdit | None:
    """What a field asks for that held `before` when its form was made: nothing where it still does, to take the value
    away where it was emptied."""
    if text.split() == before.split():
        return None
    return ValueEdit(path, written_value(path, text) if text.strip() else None)


def written_value(path: FieldPath, text: str) -> object:
    """What was typed for a field, as its file holds it: words stay words, even if they look like a number or a yes."""
    if holds_layers(path) and (layers := layers_typed(text)) is not None:
        return layers
    return text.replace("\r\n", "\n").strip() if holds_text(path) else typed(text)


def local(address: str) -> str:
    """The address where it is one of the desk's own pages; the first page elsewhere."""
    is_own = address.startswith("/") and not address.startswith(("//", "/\\")) and address.isprintable()
    return address if is_own else "/"


def path_of_text(text: str, shortest: int = 2) -> FieldPath:
    """The place that a field names. Raises FormError."""
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


def back_in(fields: Mapping[str, Sequence[str]]) -> str:
    """Where a form leads back to."""
    return local(fields.get("back", ["/"])[0])


def seen_in(fields: Mapping[str, Sequence[str]]) -> dict[str, str]:
    """The digests of the files that a form was made from. Raises FormError."""
    return read_seen(fields.get("seen", ["{}"])[0])


def read_seen(text: str) -> dict[str, str]:
    """The same of the text of its field. Raises FormError."""
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
