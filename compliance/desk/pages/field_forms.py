"""Forms to fill in what is missing right where it is told; a field of a wall asks whether it or its type is meant."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.layer_texts import holds_layers
from compliance.desk.pages.frame import as_data
from compliance.facts.common.fact import FieldPath
from compliance.findings import Finding, Lack
from compliance.model.walls import WallBuild
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.remedies.edited_project import choices_at, holds_long_text, kind_at
from compliance.report.words.page_words import field_words
from compliance.start.project_files.field_hints import hint_of
from compliance.units import KINDS

_MOST_FIELDS = 24


def fields_of_finding(finding: Finding) -> list[FieldPath]:
    """The paths of the fields that a finding lacks."""
    return [one.parts for one in finding.missing if one.kind is Lack.FIELD]


def fields_form(paths: Sequence[FieldPath], snapshot: Snapshot, back: str) -> Markup | None:
    """A form for some fields; those left empty are not written. None where there are none."""
    checked = snapshot.checked
    shown = [path for path in paths if len(path) > 1][:_MOST_FIELDS]
    if checked is None or not shown or snapshot.problems or snapshot.is_for_phone:
        return None
    rows = [_row(path, checked) for path in shown]
    return edit_form(joined(rows), tag("button", "Save", type="submit"), snapshot=snapshot, back=back, class_="fields")


def field_groups_form(
    groups: Sequence[tuple[str, Sequence[FieldPath]]], snapshot: Snapshot, back: str
) -> Markup | None:  # fmt: skip
    """One form for the fields of several things, each group under its words. None where there are none."""
    checked = snapshot.checked
    if checked is None or not groups:
        return None
    blocks = []
    for words, paths in groups:
        rows = [_row(path, checked) for path in paths[:_MOST_FIELDS] if len(path) > 1]
        blocks.append(tag("fieldset", tag("legend", words), *rows))
    button = tag("button", "Save what was filled in", type="submit")
    return edit_form(joined(blocks), button, snapshot=snapshot, back=back, class_="fields")


def change_form(
    changes: Iterable[tuple[FieldPath, str | None]], label: str, snapshot: Snapshot, back: str, action: str = "/try"
) -> Markup:
    """A button that tries some changes, or keeps them; None takes what is there away. Nothing for a phone."""
    if snapshot.is_for_phone:
        return Markup("")
    fields = (
        tag("input", type="hidden", name=name, value=value)
        for path, text in changes
        for name, value in (
            ("path", as_data(list(path))), ("value", text or ""), ("was", "what is there" if text is None else "")
        )
    )  # fmt: skip
    button = tag("button", label, type="submit")
    return edit_form(*fields, button, snapshot=snapshot, back=back, class_="change", action=action)


def edit_form(*children: Child, snapshot: Snapshot, back: str, class_: str, action: str = "/edit") -> Markup:
    """A form that changes the files it was made from, or tries to, and comes back to `back`."""
    return tag(
        "form",
        tag("input", type="hidden", name="seen", value=as_data(dict(snapshot.digests))),
        tag("input", type="hidden", name="back", value=back),
        *children,
        method="post",
        action=action,
        class_=class_,
    )


def _row(path: FieldPath, checked: Checked) -> Markup:
    """One field: where it goes, and its value."""
    key = f"field-{'.'.join(map(str, path))}"
    value = value_input(path, key, checked)
    return tag("div", labeled(field_words(path), key, path), value, place_input(path, checked), class_="field")


def labeled(words: str, key: str, path: FieldPath) -> Markup:
    """The label of the control `key`, and below it what the field asks for, where its name does not say it."""
    hint = hint_of(path)
    says = tag("span", hint, class_="small", id=f"{key}-hint") if hint else None
    return tag("div", tag("label", words, for_=key), says, class_="named")


def place_input(path: FieldPath, checked: Checked) -> Markup:
    """Where the value of a field goes: a choice where it may stand in a type of walls too."""
    places = _places(path, checked)
    if len(places) > 1:
        options = [tag("option", words, value=as_data(list(one))) for words, one in places]
        return tag("select", *options, name="path", aria_label=f"Which {path[-1]}")
    return tag("input", type="hidden", name="path", value=as_data(list(path)))


_LAYERS = "as clay 1 in, lime 1/2 in; none where bare"
_MARKS_OF = {
    "beam": "beams", "footing": "footings", "mix": "mixes", "photo": "attachments", "replaces": "mixes",
    "report": "attachments", "stem": "stems", "trial": "trials", "type": "wall_types", "wall": "walls",
}  # fmt: skip
"""Fields that name something the project describes, with the section it stands in."""


def value_input(
    path: FieldPath, key: str, checked: Checked | None = None, now: str = "", hint: str = "", required: bool = False,
    name: str = "value",
) -> Markup:  # fmt: skip
    """A control for the value of a field: `now` stands in it, `hint` says what holds where it is empty. Marks of the
    checked project are offered where the field names one."""
    needed = {"required": ""} if required else {}
    needed |= {"aria_describedby": f"{key}-hint"} if name == "value" and hint_of(path) else {}
    choices: Sequence[str | tuple[str, str]] = choices_at(path)
    if checked is not None and path[-1] in _MARKS_OF:
        choices = marks_in(checked, _MARKS_OF[str(path[-1])])
    if choices:
        return choice_field(choices, key, name=name, value=now, hint=hint, **needed)
    kind = kind_at(path)
    example = f"as {KINDS[kind].example}" if kind else _LAYERS if holds_layers(path) else ""
    shown = {"placeholder": hint or example} if hint or example else {}
    if holds_long_text(path):
        return tag("textarea", now, name=name, id=key, rows="2", maxlength="4000", **shown, **needed)
    shared = {"name": name, "id": key, "autocomplete": "off", "maxlength": "400", **shown, **needed}
    return tag("input", type="text", **shared, **({"value": now} if now else {}))


def choice_field(
    choices: Iterable[str | tuple[str, str]],
    key: str,
    name: str = "value",
    value: str = "",
    hint: str = "",
    **more: str,
) -> Markup:
    """One of some words, or of pairs of a value and its words; none of them at first where `value` is empty."""
    options = [tag("option", hint, value="")]
    for one in choices:
        held, words = one if isinstance(one, tuple) else (one, one)
        options.append(tag("option", words, value=held, **({"selected": ""} if held == value else {})))
    return tag("select", *options, name=name, id=key, **more)


def marks_in(checked: Checked, section: str) -> list[tuple[str, str]]:
    """The marks of a section, each with its name."""
    held = getattr(checked.project, section)
    named = ((mark, getattr(one, "name", None) or getattr(one, "title", None) or "") for mark, one in held.items())
    return [(mark, f"{mark} {name}".rstrip()) for mark, name in named]


def _places(path: FieldPath, checked: Checked) -> list[tuple[str, FieldPath]]:
    """The type of walls or one of its walls, in words; the path alone where it is no field of walls."""
    section, mark, *rest = path
    if len(rest) != 1 or rest[0] not in WallBuild.model_fields:
        return [("", path)]
    if section == "wall_types":
        walls = [one for one, wall in checked.project.walls.items() if wall.type == mark]
        return [(f"all walls of type {mark}", path), *_walls(walls, rest[0])]
    wall = checked.project.walls.get(str(mark)) if section == "walls" else None
    if wall is not None and wall.type:
        return [(f"{mark} alone", path), (f"all walls of type {wall.type}", ("wall_types", wall.type, rest[0]))]
    return [("", path)]


def _walls(marks: Iterable[str], name: str | int) -> list[tuple[str, FieldPath]]:
    return [(f"{mark} alone", ("walls", mark, name)) for mark in marks]
