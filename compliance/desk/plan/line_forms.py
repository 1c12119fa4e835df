"""Forms that draw a wall and move a corner, by typed places alone; the pointer fills in the same."""

from __future__ import annotations

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import edit_form
from compliance.editing.drawn_plan.corners import Corner, corners
from compliance.editing.drawn_plan.parts_added import free_mark
from compliance.model.project import Project
from compliance.output.checklist.html_tags import Markup, tag
from compliance.start.project_files.field_help import kind_example

_ENDS = "ends-of-walls"
DIRECTIONS = (("0 deg", "east"), ("90 deg", "north"), ("180 deg", "west"), ("270 deg", "south"))


def ends_list(project: Project) -> Markup:
    """The ends of walls, offered wherever a point is typed."""
    return tag("datalist", *(tag("option", value=one.named) for one in corners(project)), id=_ENDS)


def wall_form(checked: Checked, snapshot: Snapshot) -> Markup:
    """A new wall: where it begins, and where it ends or how long it is and which way it runs."""
    project = checked.project
    units = project.project.units
    point = "as 12 ft, 8 ft 6 in" if units == "us" else "as 3.6 m, 2.6 m"
    length = kind_example("length", units)
    types = [tag("option", "none: height and thickness below", value="")]
    first = next(iter(project.wall_types), "")
    types += [tag("option", mark, value=mark, **({"selected": ""} if mark == first else {})) for mark in
              project.wall_types]  # fmt: skip
    return edit_form(
        _text("mark", "Its mark", free_mark("W", project.walls), required=True),
        _text("name", "Name, optional"),
        _row("type", "Its type", tag("select", *types, name="type", id="wall-type")),
        _text("from", "Starts at, east and north of the origin", hint=point, points=True, required=True),
        _text("to", "Ends at", hint=point, points=True),
        _text("through", "For a curved wall: a point it passes through", hint=point, points=True),
        _text("length", "Or its length, instead of its end", hint=f"as {length}"),
        _row("direction", "and its direction, by name or as an angle counterclockwise from east",
             tag("input", type="text", name="direction", id="wall-direction", list="directions", autocomplete="off")),
        tag("datalist", *(tag("option", value=word) for _, word in DIRECTIONS), id="directions"),
        _text("height", "Height, if the type gives none or it differs", hint=f"as {length}"),
        _text("thickness", "Thickness, likewise", hint=f"as {kind_example('thickness', units)}"),
        tag("button", "Add the wall", type="submit"),
        snapshot=snapshot,
        back="/plan",
        class_="fields",
        action="/plan/wall",
    )  # fmt: skip


def corner_form(checked: Checked, snapshot: Snapshot, chosen: str, back: str) -> Markup:
    """Every end at one point goes to another."""
    found = corners(checked.project)
    options = [
        tag(
            "option", f"{one.named}: {_meet(one)}", value=one.named, **({"selected": ""} if one.named == chosen else {})
        )
        for one in found
    ]
    point = "as 12 ft, 8 ft 6 in" if checked.project.project.units == "us" else "as 3.6 m, 2.6 m"
    with_it = [tag("option", "every wall that starts or ends there", value="")]
    with_it += [tag("option", f"{mark} alone", value=mark) for mark in checked.project.walls]
    to = tag("input", type="text", name="to", id="corner-to", placeholder=point, list=_ENDS, autocomplete="off",
             required="")  # fmt: skip
    return edit_form(
        _row("at", "Corner", tag("select", *options, name="at", id="corner-at"), "corner-at"),
        _row("to", "moves to", to, "corner-to"),
        _row("only", "together with", tag("select", *with_it, name="only", id="corner-only"), "corner-only"),
        tag("button", "Move the corner", type="submit"),
        snapshot=snapshot,
        back=back,
        class_="fields",
        action="/plan/corner",
    )


def curve_form(checked: Checked, snapshot: Snapshot, mark: str, back: str) -> Markup:
    """The point between its ends that a curved wall passes through; for a straight one, that makes it a curve."""
    wall = checked.project.walls[mark]
    now = ", ".join(one.text for one in wall.arc.through) if wall.arc else ""
    key = f"through-{mark}"
    point = "as 12 ft, 8 ft 6 in" if checked.project.project.units == "us" else "as 3.6 m, 2.6 m"
    says = "Passes through, east and north of the origin" + ("; empty: straight" if wall.arc else "")
    control = tag("input", type="text", name="through", id=key, value=now, placeholder=point, autocomplete="off",
                  **({} if wall.arc else {"required": ""}))  # fmt: skip
    return edit_form(
        _row("through", says, control, key),
        tag("input", type="hidden", name="wall", value=mark),
        tag("button", "Change the curve" if wall.arc else "Make it a curve", type="submit"),
        snapshot=snapshot,
        back=back,
        class_="fields",
        action="/plan/curve",
    )


def _meet(corner: Corner) -> str:
    return ", ".join(f"{mark} {'begins' if field == 'from' else 'ends'}" for mark, field in corner.ends)


def _text(
    name: str, label: str, now: str = "", hint: str = "", points: bool = False, required: bool = False
) -> Markup:  # fmt: skip
    more = {"placeholder": hint} if hint else {}
    more |= {"list": _ENDS} if points else {}
    more |= {"value": now} if now else {}
    more |= {"required": ""} if required else {}
    control = tag("input", type="text", name=name, id=f"wall-{name}", autocomplete="off", maxlength="400", **more)
    return _row(name, label, control)


def _row(name: str, label: str, control: Markup, key: str = "") -> Markup:
    return tag("div", tag("label", label, for_=key or f"wall-{name}"), control, class_="field")
