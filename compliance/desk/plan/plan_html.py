"""The plan with the wall that is chosen: the drawing, its elevation and section, and the forms that change them."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import quote

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import edit_form
from compliance.desk.pages.frame import as_data, drawn, listed, page, problems_box, section, subject_path
from compliance.desk.plan.line_forms import corner_form, ends_list, wall_form
from compliance.desk.plan.part_forms import (
    OF_THE_BUILDING,
    PartKind,
    add_form,
    change_fields,
    parts_of_wall,
    remove_form,
)
from compliance.desk.plan.plan_overlay import FAILS, failing, overlay, wall_path
from compliance.documents.lone_drawings.lone_drawing import PlanPicture
from compliance.facts.common.fact import FieldPath
from compliance.findings import Finding
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.record import record
from compliance.remedies.edited_project import value_at
from compliance.report.marks import mark_of

_STEPS = {
    "us": (("0.0254", "1 in"), ("0.0127", "1/2 in"), ("0.1524", "6 in"), ("0.3048", "1 ft")),
    "si": (("0.01", "1 cm"), ("0.005", "5 mm"), ("0.05", "5 cm"), ("0.1", "10 cm")),
}
"""What the pointer and the arrow keys move by, in m."""
_WIDE = 720.0
"""Points beyond which a drawing needs more room than a narrow page has."""
_TOOLS = (("move", "Choose and move"), ("wall", "Draw walls"), ("arc", "Draw arcs"))


@record
class Chosen:
    """What the address of the page names: a wall, and a corner by its place as it is written."""

    wall: str = ""
    corner: str = ""


def plan_page(snapshot: Snapshot, picture: PlanPicture | None, chosen: Chosen, read_lines: ReadLines) -> bytes:
    """The drawing with its forms; where the project has no walls, the way to its building."""
    children = [problems_box(snapshot, read_lines), tag("h1", "Plan")]
    checked = snapshot.checked
    if checked is None:
        return page("Plan", snapshot, *children, here="/plan")
    if checked.project.is_earth_only:
        begin = tag("p", tag("a", "Describe the building", href="/begin", class_="button"))
        return page("Plan", snapshot, *children, tag("p", "The project describes no wall yet."), begin, here="/plan")
    mark = chosen.wall if chosen.wall in checked.project.walls else next(iter(checked.project.walls))
    left = tag("div", _sheet(snapshot, checked, picture, mark), _walls(checked, mark))
    children.append(tag("div", left, _beside(snapshot, checked, mark), class_="beside"))
    if not snapshot.problems:
        children += _forms(checked, snapshot, mark, chosen.corner)
        children.append(tag("script", type="module", src="/static/plan.js"))
    return page("Plan", snapshot, *children, here="/plan")


def _sheet(snapshot: Snapshot, checked: Checked, picture: PlanPicture | None, mark: str) -> Markup:
    if picture is None:
        return tag("p", "No wall has a place in the plan yet: write where it begins and ends.")
    source = f"/picture/plan.svg?number={snapshot.number}"
    size = {"width": f"{picture.width:.0f}", "height": f"{picture.height:.0f}"}
    wide = "drawn wide" if picture.width > _WIDE else "drawn"
    image = tag("img", src=source, alt="The plan, as the papers draw it", **size)
    sheet = tag("div", tag("div", image, overlay(checked, picture, mark), class_=wide), class_="sheet")
    shown = [tag("span", drawn(one), one.value.word, ": ", one.value.heading.lower()) for one in FAILS]
    legend = tag("p", "Marked on a wall: ", shown[0], ", ", shown[1], ".", class_="small")
    return joined([_tools(snapshot, checked), sheet, legend])


def _tools(snapshot: Snapshot, checked: Checked) -> Markup:
    """What the pointer does; shown by the script alone. The form below is the one it fills in to move an opening."""
    units = checked.project.project.units
    tools = [tag("label", _tool(value), f" {label}") for value, label in _TOOLS]
    steps = [tag("option", label, value=value) for value, label in _STEPS["si" if units == "si" else "us"]]
    step = tag("label", "Step ", tag("select", *steps, id="step"))
    says = tag("p", "", id="pointer-says", class_="small", aria_live="polite")
    put = edit_form(
        tag("input", type="hidden", name="path", value=""), tag("input", type="hidden", name="value", value=""),
        snapshot=snapshot, back="/plan", class_="away",
    )  # fmt: skip
    bar = tag("fieldset", tag("legend", "Pointer"), *tools, step, says, id="tools", data_units=units, hidden="")
    return joined([bar, tag("div", put, id="put", hidden="")])


def _tool(value: str) -> Markup:
    return tag("input", type="radio", name="tool", value=value, **({"checked": ""} if value == _TOOLS[0][0] else {}))


def _beside(snapshot: Snapshot, checked: Checked, mark: str) -> Markup:
    """The elevation and the section of the wall, and what fails there."""
    wall = checked.project.walls[mark]
    pictures = []
    if mark in checked.facts.views:
        pictures = [
            tag("img", src=f"/picture/{view}.svg?wall={quote(mark, safe='')}&number={snapshot.number}",
                alt=f"{view.capitalize()} of {mark}, as the papers draw it")
            for view in ("elevation", "section")
        ]  # fmt: skip
    found = failing(checked.findings, mark)
    lines = listed(_line(one) for one in found) if found else tag("p", "No limit fails at this wall.")
    name = f"{mark}, {wall.name}" if wall.name else mark
    more = tag("p", tag("a", f"Everything about {mark}", href=subject_path(mark)))
    return tag("aside", tag("h2", name), lines, *pictures, more, aria_label="The chosen wall")


def _line(one: Finding) -> Markup:
    link = tag("a", one.title, href=subject_path(one.subject, f"{one.rule_set}/{one.rule}"))
    where = f" {one.subject}: " if one.subject != one.wall else " "
    return tag("p", drawn(mark_of(one)), tag("span", mark_of(one).value.word, class_="word"), where, link)


def _walls(checked: Checked, chosen: str) -> Markup:
    """The way to each wall for who cannot point, with the shape of what fails there."""
    rows = []
    for mark, wall in checked.project.walls.items():
        found = failing(checked.findings, mark)
        signs = [
            joined([drawn(one), f"{sum(mark_of(each) is one for each in found)} {one.value.word} "])
            for one in FAILS
            if any(mark_of(each) is one for each in found)
        ]
        here = {"aria_current": "true"} if mark == chosen else {}
        name = f"{mark}, {wall.name}" if wall.name else mark
        rows.append(joined([tag("a", name, href=wall_path(mark), **here), " ", *signs]))
    return section("Walls", listed(rows, class_="walls"))


def _forms(checked: Checked, snapshot: Snapshot, mark: str, corner: str) -> Iterator[Markup]:
    back = wall_path(mark)
    yield ends_list(checked.project)
    yield section(
        "Draw",
        _fold("Add a wall", wall_form(checked, snapshot), "wall-form"),
        _fold("Move a corner", corner_form(checked, snapshot, corner, back), "corner-form", is_open=bool(corner)),
    )
    wall = checked.project.walls[mark]
    path: FieldPath = ("walls", mark)
    own: list[Child] = [_fold(f"Fields of {mark}", change_fields(checked, snapshot, path, back), "wall-fields")]
    if wall.type:
        fields = change_fields(checked, snapshot, ("wall_types", wall.type), back)
        own.append(_fold(f"Fields of type {wall.type}, for all its walls", fields, "type-fields"))
    if wall.arc:
        own.append(_through(snapshot, checked, mark, back))
    for kind in parts_of_wall(mark):
        own += _parts(checked, snapshot, kind, back)
    own.append(
        remove_form(snapshot, path, f"Take {mark} away, with what stands against it and bears on it", back="/plan")
    )
    yield section(f"Wall {mark}", *own)
    others: list[Child] = []
    for kind in OF_THE_BUILDING:
        others += _parts(checked, snapshot, kind, back)
    for name in checked.project.roofs:
        others.append(_bearing(checked, snapshot, name, back))
        others += _parts(checked, snapshot, PartKind(("roofs", name, "beams"), f"beam of roof {name}", "RB"), back)
    yield section("Bond beams and roofs", *others)


def _parts(checked: Checked, snapshot: Snapshot, kind: PartKind, back: str) -> Iterator[Markup]:
    """A form for each part that is there, and one for a new one."""
    known = value_at(checked.project, kind.holder) or {}
    for name, one in known.items():
        path = (*kind.holder, name)
        if any(getattr(one, field) != text for field, text in kind.fixed):
            continue
        yield _fold(
            f"{kind.word[:1].upper()}{kind.word[1:]} {name}",
            joined([
                change_fields(checked, snapshot, path, back),
                remove_form(snapshot, path, f"Take {name} away", back),
            ]),
            f"{kind.holder[-1]}-{name}",
        )  # fmt: skip
    stem = "-".join(map(str, kind.holder))
    yield _fold(f"Add a {kind.word}" if kind.word[0] not in "aeiou" else f"Add an {kind.word}",
                add_form(checked, snapshot, kind, back), f"add-{stem}")  # fmt: skip


def _bearing(checked: Checked, snapshot: Snapshot, roof: str, back: str) -> Markup:
    """One more wall that a roof bears on."""
    count, key = len(checked.project.roofs[roof].bears_on), f"bearing-{roof}"
    options = [tag("option", "", value=""), *(tag("option", mark, value=f"{{wall: {mark}}}") for mark in
                                              checked.project.walls)]  # fmt: skip
    form = edit_form(
        tag("div", tag("label", f"Roof {roof} bears on one more wall", for_=key),
            tag("select", *options, name="value", id=key, required=""),
            tag("input", type="hidden", name="path", value=as_data(["roofs", roof, "bears_on", count])),
            class_="field"),
        tag("button", "Add the bearing", type="submit"), snapshot=snapshot, back=back, class_="fields",
    )  # fmt: skip
    return _fold(f"Bearings of roof {roof}", form, f"bearings-{roof}")


def _through(snapshot: Snapshot, checked: Checked, mark: str, back: str) -> Markup:
    """The point between its ends that a curved wall passes through."""
    arc = checked.project.walls[mark].arc
    assert arc is not None
    now, key = f"[{', '.join(one.text for one in arc.through)}]", f"through-{mark}"
    form = edit_form(
        tag("div", tag("label", "Passes through, in brackets: east, north", for_=key),
            tag("input", type="text", name="value", id=key, value=now, autocomplete="off"),
            tag("input", type="hidden", name="path", value=as_data(["walls", mark, "arc", "through"])),
            tag("input", type="hidden", name="was", value=now), class_="field"),
        tag("button", "Write the change", type="submit"), snapshot=snapshot, back=back, class_="fields",
    )  # fmt: skip
    return _fold(f"Curve of {mark}", form, f"curve-{mark}")


def _fold(title: str, content: Markup, key: str, is_open: bool = False) -> Markup:
    return tag("details", tag("summary", title), content, id=key, **({"open": ""} if is_open else {}))
