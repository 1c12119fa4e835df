"""A described building with one of its values changed, all else as it was."""

from __future__ import annotations

import types
from enum import StrEnum
from functools import lru_cache
from typing import Annotated, Any, Literal, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from compliance.facts.common.fact import FieldPath
from compliance.model.base import MeasureOf, TextOf
from compliance.model.project import Project
from compliance.model.walls import WallBuild
from compliance.units import KINDS, Measure, Writer, parse_measure

Record = TypeVar("Record")
_MOST_IN_A_LINE = 400
"""Characters of a text that are written in one line."""
_MOST_KEPT = 4096
_TAPER = ("thickness_base", "thickness_top")


def with_value(record: Record, path: FieldPath, value: object) -> Record:
    """`record` with the value at `path` replaced; records, mappings and lists on the way are copied."""
    if not path:
        return value  # type: ignore[return-value]
    first, rest = path[0], path[1:]
    if isinstance(record, BaseModel):
        return record.model_copy(update={str(first): with_value(getattr(record, str(first)), rest, value)})
    if isinstance(record, dict):
        return {**record, first: with_value(record.get(first), rest, value)}  # type: ignore[return-value]
    assert isinstance(record, list) and isinstance(first, int)
    return [with_value(one, rest, value) if index == first else one for index, one in enumerate(record)]  # type: ignore[return-value]


def value_at(record: object, path: FieldPath) -> Any:
    """The value at `path`; None where something on the way is not described."""
    for name in path:
        if isinstance(record, BaseModel):
            record = getattr(record, _name_of(type(record), str(name)), None)
        elif isinstance(record, dict):
            record = record.get(name)
        elif isinstance(record, list) and isinstance(name, int):
            record = record[name] if name < len(record) else None
        else:
            return None
    return record


def _name_of(model: type[BaseModel], word: str) -> str:
    """The name of a field by the word that stands for it in files."""
    return next((name for name, field in model.model_fields.items() if field.alias == word), word)


@lru_cache(_MOST_KEPT)
def kind_at(path: FieldPath) -> str:
    """The kind of measure that the field at `path` of a project holds; empty for a plain number or anything else."""
    return next((one.kind.name for one in _marked_at(path) if isinstance(one, MeasureOf)), "")


@lru_cache(_MOST_KEPT)
def choices_at(path: FieldPath) -> tuple[str, ...]:
    """The words that the field at `path` takes, yes and no where it asks for one of them; empty where it takes others
    too."""
    for part in (*_parts(_annotation_at(path)[0]), *_marked_at(path)):
        if part is bool:
            return "yes", "no"
        if get_origin(part) is Literal:
            return tuple(map(str, get_args(part)))
        if isinstance(part, type) and issubclass(part, StrEnum):
            return tuple(one.value for one in part)
    return ()


def is_plain(path: FieldPath) -> bool:
    """Whether the field at `path` of a project holds one value, and neither a record nor a list or a mapping."""
    parts = _parts(_annotation_at(path)[0])
    return not any(get_origin(one) in (dict, list) or _model_in(one) is not None for one in parts)


def holds_text(path: FieldPath) -> bool:
    """Whether the field at `path` holds words, so that what looks like a number or a yes is words too."""
    return any(isinstance(one, TextOf) for one in _marked_at(path)) or any(
        get_origin(part) is Literal for part in _parts(_annotation_at(path)[0])
    )


def holds_long_text(path: FieldPath) -> bool:
    """Whether the words of the field at `path` may have several lines."""
    return any(isinstance(one, TextOf) and one.most > _MOST_IN_A_LINE for one in _marked_at(path))


def fields_below(path: FieldPath, record: object = None) -> list[FieldPath]:
    """The paths of all fields below a path that hold one value each, those of the records in it and of the entries
    that lists in `record`, which stands there, have already."""
    model = _model_in(_annotation_at(path)[0])
    found: list[FieldPath] = []
    for name, field in (model.model_fields if model else {}).items():
        own, held = (*path, field.alias or name), getattr(record, name, None)
        if _model_in(field.annotation) is not None:
            found += fields_below(own, held)
        elif isinstance(held, list) and any(isinstance(one, BaseModel) for one in held):
            found += [below for index, one in enumerate(held) for below in fields_below((*own, index), one)]
        elif not any(get_origin(part) in (dict, list) for part in _parts(field.annotation)):
            found.append(own)
    return found


@lru_cache(_MOST_KEPT)
def is_required(path: FieldPath) -> bool:
    """Whether a record cannot be without the field at a path."""
    *above, name = path
    model = _model_in(_annotation_at(tuple(above))[0])
    field = _field_of(model, str(name)) if model else None
    return field is not None and field.is_required()


def text_at(record: object, path: FieldPath) -> str:
    """What is written at a path, as a person would type it; empty where nothing is."""
    value = value_at(record, path)
    return "" if value is None else written_plainly(value)


def _marked_at(path: FieldPath) -> tuple[Any, ...]:
    """Everything by which the type of a field is marked."""
    found, metadata = _annotation_at(path)
    return (*metadata, *(one for part in _parts(found) if get_origin(part) is Annotated for one in get_args(part)))


def _annotation_at(path: FieldPath) -> tuple[Any, tuple[Any, ...]]:
    found: Any = Project
    metadata: tuple[Any, ...] = ()
    for name in path:
        model = _model_in(found)
        field = _field_of(model, str(name)) if model is not None else None
        if field is not None:
            found, metadata = field.annotation, tuple(field.metadata)
        else:
            found, metadata = next((get_args(part)[-1] for part in _parts(found) if get_args(part)), None), ()
    return found, metadata


def _field_of(model: type[BaseModel], word: str) -> FieldInfo | None:
    return model.model_fields.get(_name_of(model, word))


def _parts(annotation: Any) -> tuple[Any, ...]:
    return get_args(annotation) if get_origin(annotation) in (Union, types.UnionType) else (annotation,)


def _model_in(annotation: Any) -> type[BaseModel] | None:
    return next((one for one in _parts(annotation) if isinstance(one, type) and issubclass(one, BaseModel)), None)


def measured(value: float, kind: str, writer: Writer) -> Measure:
    """A measure as a person would write it in the project's units: the value is that of the text."""
    return parse_measure(writer.write(value, kind).replace("°", " deg").replace("−", "-"), KINDS[kind])


def edits(before: object, after: object, path: FieldPath = ()) -> list[tuple[FieldPath, str]]:
    """Every field that differs, with the text to write there. A new record is one text in braces."""
    if before is after or before == after:
        return []
    if isinstance(after, BaseModel) and before is not None:
        found: list[tuple[FieldPath, str]] = []
        for name, field in type(after).model_fields.items():
            old = getattr(before, name, field.default)
            found += edits(old, getattr(after, name), (*path, field.alias or name))
        return _both_ends(found, after, path)
    if isinstance(after, dict):
        known = before if isinstance(before, dict) else {}
        return [one for name, value in after.items() for one in edits(known.get(name), value, (*path, name))]
    if isinstance(after, list):
        return [(path, f"[{', '.join(map(written_plainly, after))}]")]
    return [(path, written_plainly(after))]


def _both_ends(found: list[tuple[FieldPath, str]], after: BaseModel, path: FieldPath) -> list[tuple[FieldPath, str]]:
    """A wall that states one end of its taper itself takes neither from its type, so it must state both."""
    if isinstance(after, WallBuild) and any(one[-1] in _TAPER for one, _ in found):
        kept = [(one, text) for one, text in found if one[-1] not in _TAPER]
        return kept + [((*path, name), written_plainly(getattr(after, name))) for name in _TAPER]
    return found


def written_plainly(value: object) -> str:
    """A value as the text that stands for it in a file."""
    if isinstance(value, BaseModel):
        stated = [(name, field.alias or name) for name, field in type(value).model_fields.items()]
        given = [
            f"{wording}: {written_plainly(getattr(value, name))}"
            for name, wording in stated
            if name in value.model_fields_set
        ]
        return "{" + ", ".join(given) + "}"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return f"{value:.12g}" if isinstance(value, float) else str(value)
