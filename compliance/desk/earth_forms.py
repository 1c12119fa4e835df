"""What the forms of soils, trial bricks and mixes ask for, as edits of the project."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from compliance.desk.pages.earth.described_forms import ADDED
from compliance.desk.pages.earth.jar_forms import LAYERS, LEAVES
from compliance.desk.sent_forms import FormError, path_of_text, typed, written_value
from compliance.editing.file_edits import EditRefusedError, ValueEdit
from compliance.facts.common.fact import FieldPath
from compliance.model.base import MARK_PATTERN
from compliance.model.project import Project
from compliance.model.soil_tests import JarRecord, LayerReading
from compliance.remedies.edited_project import written_plainly

Fields = Mapping[str, Sequence[str]]


def added_record(fields: Fields, project: Project) -> ValueEdit:
    """A new record of a section. Raises FormError, and EditRefusedError where its mark is there or is none."""
    section, mark = one_of(fields, "section"), one_of(fields, "mark")
    if section not in ADDED:
        raise FormError("records of this kind are not added here")
    refuse_mark(section, mark, project)
    paths, values = fields.get("path", ()), fields.get("value", ())
    if len(paths) != len(values):
        raise FormError("a field has no value, or a value no field")
    record: dict[str, Any] = {}
    for text, value in zip(paths, values, strict=True):
        path = path_of_text(text)
        if path[0] != section or len(path) < 3:
            raise FormError("a field has no place")
        if value.strip():
            _put(record, path[2:], written_value(path, value))
    return ValueEdit((section, mark), record)


def refuse_mark(section: str, mark: str, project: Project) -> None:
    """Raises EditRefusedError."""
    if not re.fullmatch(MARK_PATTERN, mark):
        raise EditRefusedError(f"{mark!r} is no mark: write a letter, then letters, digits, - or _, 24 at most")
    if mark in getattr(project, section):
        raise EditRefusedError(f"{mark} is there already under {section}: give another mark")


def one_of(fields: Fields, name: str) -> str:
    """The text of a field; empty where it was not sent."""
    return next(iter(fields.get(name, ())), "").strip()


def _put(record: dict[str, Any], below: FieldPath, value: object) -> None:
    *above, last = below
    for part in above:
        record = record.setdefault(str(part), {})
    record[str(last)] = value


def hand_tests(fields: Fields, project: Project) -> list[ValueEdit]:
    """Readings that differ from those recorded last, in their place or after them. Raises FormError."""
    mark = soil_mark(fields, project)
    tests = project.soils[mark].field_tests
    last: dict[str, int] = {one.kind: index for index, one in enumerate(tests)}
    signed = {name: text for name, text in (("date", one_of(fields, "on")), ("by", one_of(fields, "by"))) if text}
    edits: list[ValueEdit] = []
    added: list[dict[str, str]] = []
    for kind, reading in _readings(fields).items():
        index = last.get(kind)
        if index is None or one_of(fields, "way") == "add":
            if index is None or reading != tests[index].reading or signed:
                added.append({"kind": kind, "reading": reading, **signed})
        elif reading != tests[index].reading:
            edits += [ValueEdit(("soils", mark, "field_tests", index, name), text)
                      for name, text in ({"reading": reading} | signed).items()]  # fmt: skip
    if added and not tests:
        return [ValueEdit(("soils", mark, "field_tests"), added)]
    return edits + [ValueEdit(("soils", mark, "field_tests", len(tests) + n), one) for n, one in enumerate(added)]


def _readings(fields: Fields) -> dict[str, str]:
    """What was chosen or measured, by the kind of test; a length that was typed counts before a word."""
    found = {}
    for name in fields:
        what, _, kind = name.partition(".")
        if what in ("word", "length") and kind:
            reading = one_of(fields, f"length.{kind}") or one_of(fields, f"word.{kind}")
            if reading:
                found[kind] = reading
    return found


def soil_mark(fields: Fields, project: Project) -> str:
    """Raises FormError."""
    mark = one_of(fields, "soil")
    if mark not in project.soils:
        raise FormError("there is no such soil")
    return mark


def jar_edits(mark: str, jar: JarRecord | None, fields: Fields) -> list[ValueEdit]:
    """What differs from the jar as it is recorded. A first jar is written whole."""
    wanted: dict[str, Any] = {}
    for name in LAYERS:
        height, time = one_of(fields, f"height.{name}"), one_of(fields, f"time.{name}")
        if height or time:
            wanted[name] = {"height": typed(height), "time": typed(time)} if time else typed(height)
    for name in LEAVES:
        if text := one_of(fields, f"leaf.{name}"):
            wanted[name] = written_value(("soils", mark, "jar", name), text)
    if jar is None:
        return [ValueEdit(("soils", mark, "jar"), wanted)] if wanted else []
    edits = []
    for name in (*LAYERS, *LEAVES):
        held = getattr(jar, name)
        if _texts(wanted.get(name)) != _texts(held):
            edits.append(ValueEdit(("soils", mark, "jar", name), wanted.get(name)))
    return edits


def _texts(value: object) -> tuple[str, ...]:
    """What is written of a mark of a jar, or of another field, as texts."""
    if isinstance(value, LayerReading):
        value = {"height": value.height, "time": value.time} if value.time else value.height
    if isinstance(value, dict):
        return tuple(written_plainly(one) for one in value.values())
    return () if value is None else (written_plainly(value),)
