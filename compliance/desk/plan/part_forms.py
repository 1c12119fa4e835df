"""Forms for the parts of a plan, made from the fields of the model: what is there is changed, new ones are added."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import edit_form, labeled, place_input, value_input
from compliance.desk.pages.frame import as_data
from compliance.editing.drawn_plan.parts_added import free_mark
from compliance.facts.common.fact import FieldPath
from compliance.model.walls import WallBuild
from compliance.output.checklist.html_tags import Child, Markup, tag
from compliance.record import record
from compliance.remedies.edited_project import fields_below, is_required, text_at, value_at


@record
class PartKind:
    """A part under marks of its own: where the marks stand, what one is called, with which letters a new mark
    begins. `fixed` are fields that follow from where the form stands."""

    holder: FieldPath
    word: str
    stem: str
    fixed: tuple[tuple[str, str], ...] = ()


def parts_of_wall(wall: str) -> tuple[PartKind, ...]:
    return (
        PartKind(("walls", wall, "openings"), "opening", "N"),
        PartKind(("walls", wall, "loads"), "point load", "PL"),
        PartKind(("buttresses",), "buttress", "BU", (("wall", wall),)),
    )


OF_THE_BUILDING = (
    PartKind(("wall_types",), "type of walls", "type"),
    PartKind(("footings",), "footing", "F"),
    PartKind(("stems",), "stem wall", "ST"),
    PartKind(("beams",), "bond beam", "B"),
    PartKind(("roofs",), "roof", "R"),
)


def change_fields(checked: Checked, snapshot: Snapshot, path: FieldPath, back: str) -> Markup:
    """Every field of a part that is there, with what stands in it; what is altered is written, what is emptied is
    taken away."""
    shown = fields_below(path, value_at(checked.project, path))
    rows = [_field(checked, path, one) for one in shown if not (len(one) > 3 and _is_of_type(checked, one[:3]))]
    write = tag("button", "Save the changes", type="submit")
    try_ = tag("button", "Try them", type="submit", formaction="/try")
    return edit_form(*rows, tag("p", write, " ", try_), snapshot=snapshot, back=back, class_="fields")


def _field(checked: Checked, part: FieldPath, path: FieldPath) -> Markup:
    now = text_at(checked.project, path)
    inherited = _of_type(checked, path) if now else ""
    own = "" if inherited else now
    key = "-".join(map(str, ("field", *path)))
    return tag(
        "div",
        labeled(_named(path[len(part) :]), key, path),
        value_input(path, key, checked, now=own, hint=inherited),
        place_input(path, checked),
        tag("input", type="hidden", name="was", value=own),
        class_="field",
    )


def _named(below: FieldPath) -> str:
    """A field by its names below a part: "lintel: bearing"."""
    return ": ".join(str(one + 1) if isinstance(one, int) else one.replace("_", " ") for one in below)


def _of_type(checked: Checked, path: FieldPath) -> str:
    """What a wall takes from its type, in words; empty where it says so itself."""
    if not _is_of_type(checked, path):
        return ""
    return f"{text_at(checked.project, path)}, of type {checked.project.walls[str(path[1])].type}"


def _is_of_type(checked: Checked, path: FieldPath) -> bool:
    """Whether a field of a wall holds what its type says."""
    if len(path) != 3 or path[0] != "walls" or path[2] not in WallBuild.model_fields:
        return False
    kind, own = checked.project.walls[str(path[1])].type, value_at(checked.project, path)
    return bool(kind) and own is not None and own == value_at(checked.project, ("wall_types", str(kind), path[2]))


_PLACES = ("at", "start")
"""Where a part stands along its wall: another one stands elsewhere."""


def add_form(checked: Checked, snapshot: Snapshot, kind: PartKind, back: str, like: str = "") -> Markup:
    """A new part with every field that its record has, filled in as those of the part `like` but for its place."""
    known = value_at(checked.project, kind.holder) or {}
    stem = "-".join(map(str, ("new", *kind.holder)))
    mark = tag("input", type="text", name="mark", id=f"{stem}-mark", value=free_mark(kind.stem, known), required="",
               autocomplete="off")  # fmt: skip
    rows: list[Child] = [tag("div", tag("label", "Its mark", for_=f"{stem}-mark"), mark, class_="field")]
    fixed = dict(kind.fixed)
    for name, text in kind.fixed:
        rows += [_unseen("field", as_data([name])), _unseen("value", text)]
    path = (*kind.holder, "new")
    for one in fields_below(path):
        own = one[len(path) :]
        if own[0] in fixed:
            continue
        key = "-".join(map(str, (stem, *own)))
        needed = len(own) == 1 and is_required(one)
        now = text_at(checked.project, (*kind.holder, like, *own)) if like in known and own[0] not in _PLACES else ""
        control = value_input(one, key, checked, now=now, required=needed)
        label = labeled(_named(own) + (" (needed)" if needed else ""), key, one)
        rows.append(tag("div", label, control, _unseen("field", as_data(list(own))), class_="field"))
    return edit_form(
        _unseen("holder", as_data(list(kind.holder))), *rows, tag("button", f"Add the {kind.word}", type="submit"),
        snapshot=snapshot, back=back, class_="fields", action="/plan/part",
    )  # fmt: skip


def remove_form(snapshot: Snapshot, path: FieldPath, label: str, back: str) -> Markup:
    button = tag("button", label, type="submit")
    return edit_form(
        _unseen("holder", as_data(list(path))), button, snapshot=snapshot, back=back, class_="change",
        action="/plan/remove",
    )  # fmt: skip


def _unseen(name: str, value: str) -> Markup:
    return tag("input", type="hidden", name=name, value=value)
