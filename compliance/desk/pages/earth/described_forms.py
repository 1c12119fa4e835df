"""Forms for records of the project: the fields of one that is there, and of one to add, as the model has them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from pydantic import BaseModel

from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import edit_form, labeled, marks_in, value_input
from compliance.desk.pages.frame import as_data
from compliance.facts.common.fact import FieldPath
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.remedies.edited_project import is_plain, written_plainly


def record_form(
    path: FieldPath, record: BaseModel, snapshot: Snapshot, back: str, more: Iterable[Markup] = ()
) -> Markup:
    """The fields of a record that hold one value each, with what they hold; `more` rows stand above them. One that is
    emptied is taken away."""
    names = [field.alias or name for name, field in type(record).model_fields.items()]
    held = [getattr(record, name) for name in type(record).model_fields]
    rows = [
        held_row((*path, name), "" if value is None else written_plainly(value), snapshot)
        for name, value in zip(names, held, strict=True)
        if is_plain((*path, name))
    ]
    button = tag("button", "Save", type="submit")
    return edit_form(*more, joined(rows), button, snapshot=snapshot, back=back, class_="fields")


def held_row(path: FieldPath, value: str, snapshot: Snapshot, label: str = "") -> Markup:
    """A field with the value that it holds, as `sent_forms.read_form` takes it."""
    key = f"field-{'.'.join(map(str, path))}"
    return tag(
        "div",
        labeled(label or words_of(path[-1]), key, path),
        joined(
            [
                control(path, key, snapshot, value),
                tag("input", type="hidden", name="path", value=as_data(list(path))),
                tag("input", type="hidden", name="was", value=value),
            ]
        ),
        class_="field",
    )


def control(path: FieldPath, key: str, snapshot: Snapshot, value: str = "", name: str = "value") -> Markup:
    """What a field is filled in with."""
    return value_input(path, key, checked=snapshot.checked, now=value, name=name)


def marks_of(snapshot: Snapshot, section: str) -> list[tuple[str, str]]:
    """The marks of a section of the last check, each with its name."""
    return marks_in(snapshot.checked, section) if snapshot.checked else []


def words_of(name: str | int) -> str:
    """The name of a field as words."""
    return str(name).replace("_", " ")


def parts_rows(path: FieldPath, parts: dict[str, float], snapshot: Snapshot) -> Iterator[Markup]:
    """A row for each soil of the project: its part by loose volume, in buckets or whatever is filled level."""
    for mark, words in marks_of(snapshot, "soils"):
        value = written_plainly(parts[mark]) if mark in parts else ""
        yield held_row((*path, "parts", mark), value, snapshot, label=f"parts of {words}")


def add_form(
    section: str, names: Sequence[str], snapshot: Snapshot, back: str, label: str, has_parts: bool = False,
) -> Markup:  # fmt: skip
    """A form for a new record of a section with some of its fields. Its mark is proposed."""
    mark = next_mark(snapshot, section)
    key = f"add-{section}"
    rows: list[Child] = [
        tag(
            "div",
            tag("label", "mark", for_=f"{key}-mark"),
            tag("input", name="mark", id=f"{key}-mark", value=mark, maxlength="24", autocomplete="off"),
            class_="field",
        )
    ]
    paths: list[FieldPath] = [(section, mark, name) for name in names]
    if has_parts:
        paths = [(section, mark, "parts", soil) for soil, _ in marks_of(snapshot, "soils")] + paths
    rows += [_added_row(key, path, snapshot) for path in paths]
    return _adding(section, rows, label, snapshot=snapshot, back=back)


def _added_row(key: str, path: FieldPath, snapshot: Snapshot) -> Markup:
    below = path[2:]
    key = f"{key}-{'.'.join(map(str, below))}"
    label = f"parts of {below[1]}" if len(below) > 1 else words_of(below[0])
    hidden = tag("input", type="hidden", name="path", value=as_data(list(path)))
    return tag("div", labeled(label, key, path), joined([control(path, key, snapshot), hidden]), class_="field")


def ready_form(
    section: str, fields: Iterable[tuple[FieldPath, str]], label: str, snapshot: Snapshot, back: str
) -> Markup:
    """A button that adds a record whose fields are known, by their path below its mark."""
    mark = next_mark(snapshot, section)
    rows: list[Child] = [tag("input", type="hidden", name="mark", value=mark)]
    for below, value in fields:
        rows.append(tag("input", type="hidden", name="path", value=as_data([section, mark, *below])))
        rows.append(tag("input", type="hidden", name="value", value=value))
    return _adding(section, rows, label, snapshot=snapshot, back=back, class_="change")


def _adding(
    section: str, rows: Iterable[Child], label: str, snapshot: Snapshot, back: str, class_: str = "fields"
) -> Markup:
    return edit_form(
        tag("input", type="hidden", name="section", value=section),
        *rows,
        tag("button", label, type="submit"),
        snapshot=snapshot,
        back=back,
        class_=class_,
        action="/add",
    )


def next_mark(snapshot: Snapshot, section: str) -> str:
    """A mark that is free: the letters of the last one of the section that ends in a number, and the next number."""
    known = list(getattr(snapshot.checked.project, section)) if snapshot.checked else []
    numbered = [one.rstrip("0123456789") for one in known if one[-1].isdecimal()]
    letters = numbered[-1] if numbered else _LETTERS[section]
    return next(f"{letters}{n}" for n in range(1, 100_000) if f"{letters}{n}" not in known)


_LETTERS = {"soils": "S", "trials": "P", "mixes": "M", "test_sets": "T", "attachments": "A"}
ADDED = ("soils", "trials", "mixes", "test_sets")
"""Sections to which the pages add records."""
