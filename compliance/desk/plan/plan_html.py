"""The plan with the wall that is chosen: the drawing, its elevation and section, and the forms that change them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from urllib.parse import quote

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import edit_form
from compliance.desk.pages.frame import drawn, listed, page, problems_box, section, subject_path
from compliance.desk.plan.line_forms import corner_form, curve_form, ends_list, wall_form
from compliance.desk.plan.part_folds import PARTS_PATH, fold, part_folds
from compliance.desk.plan.part_forms import change_fields, parts_of_wall, remove_form
from compliance.desk.plan.plan_overlay import FAILS, Failing, failing, overlay, wall_path
from compliance.documents.lone_drawings.lone_drawing import PlanPicture
from compliance.facts.common.fact import FieldPath
from compliance.findings import Finding
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.record import record, replace
from compliance.report.marks import mark_of

_STEPS = {
    "us": (("0.0254", "1 in"), ("0.0127", "1/2 in"), ("0.1524", "6 in"), ("0.3048", "1 ft")),
    "si": (("0.01", "1 cm"), ("0.005", "5 mm"), ("0.05", "5 cm"), ("0.1", "10 cm")),
}
"""What the pointer and the arrow keys move by, in m."""
_WIDE = 720.0
"""Points beyond which a drawing needs more room than a narrow page has."""
_TOOLS = (("move", "Select and move"), ("wall", "Draw walls"), ("arc", "Draw arcs"), ("opening", "Place an opening"))


@record
class Chosen:
    """What the address of the page names: a wall, a corner by its place as it is written, and the part after which a
    new one is filled in, as "openings-N4"."""

    wall: str = ""
    corner: str = ""
    like: str = ""


def plan_page(snapshot: Snapshot, picture: PlanPicture | None, chosen: Chosen, read_lines: ReadLines) -> bytes:
    """The drawing with its forms; where the project has no walls, the way to its building."""
    children: list[Child] = [problems_box(snapshot, read_lines), tag("h1", "Plan")]
    checked = snapshot.checked
    if checked is None:
        return page("Plan", snapshot, *children, here="/plan")
    if checked.project.is_earth_only:
        begin = tag("p", tag("a", "Describe the building", href="/begin", class_="button"))
        children += [tag("p", "The project describes no wall yet."), None if snapshot.is_for_phone else begin]
        return page("Plan", snapshot, *children, here="/plan")
    mark = chosen.wall if chosen.wall in checked.project.walls else next(iter(checked.project.walls))
    fails = failing(checked.findings)
    left = tag("div", _sheet(snapshot, checked, picture, mark=mark, fails=fails), _walls(checked, mark, fails))
    children.append(tag("div", left, _beside(snapshot, checked, mark, fails.get(mark, [])), class_="beside"))
    can_change = not snapshot.problems and not snapshot.is_for_phone
    if can_change:
        children += _forms(checked, snapshot, replace(chosen, wall=mark))
    return page("Plan", snapshot, *children, here="/plan", scripts=("plan.js",) if can_change else ())


def _sheet(snapshot: Snapshot, checked: Checked, picture: PlanPicture | None, mark: str, fails: Failing) -> Markup:
    if picture is None:
        return tag("p", "No wall has a place in the plan yet: write where it begins and ends.")
    source = f"/picture/plan.svg?number={snapshot.number}"
    if snapshot.is_for_phone:
        return tag("a", tag("img", src=source, alt="The plan, as the papers draw it"), href=source)
    size = {"width": f"{picture.width:.0f}", "height": f"{picture.height:.0f}"}
    wide = "drawn wide" if picture.width > _WIDE else "drawn"
    image = tag("img", src=source, alt="The plan, as the papers draw it", **size)
    sheet = tag("div", tag("div", image, overlay(checked, picture, mark, fails), class_=wide), class_="sheet")
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


def _beside(snapshot: Snapshot, checked: Checked, mark: str, found: Sequence[Finding]) -> Markup:
    """The elevation and the section of the wall, and what fails there."""
    wall = checked.project.walls[mark]
    pictures = []
    if mark in checked.facts.views:
        pictures = [
            tag("img", src=f"/picture/{view}.svg?wall={quote(mark, safe='')}&number={snapshot.number}",
                alt=f"{view.capitalize()} of {mark}, as the papers draw it")
            for view in ("elevation", "section")
        ]  # fmt: skip
    lines = listed(_line(one) for one in found) if found else tag("p", "No limit fails at this wall.")
    name = f"{mark}, {wall.name}" if wall.name else mark
    more = tag("p", tag("a", f"Everything about {mark}", href=subject_path(mark)))
    return tag("aside", tag("h2", name), lines, *pictures, more, aria_label="The chosen wall")


def _line(one: Finding) -> Markup:
    link = tag("a", one.title, href=subject_path(one.subject, f"{one.rule_set}/{one.rule}"))
    where = f" {one.subject}: " if one.subject != one.wall else " "
    return tag("p", drawn(mark_of(one)), tag("span", mark_of(one).value.word, class_="word"), where, link)


def _walls(checked: Checked, chosen: str, fails: Failing) -> Markup:
    """The way to each wall for who cannot point, with the shape of what fails there."""
    rows = []
    for mark, wall in checked.project.walls.items():
        found = fails.get(mark, [])
        signs = [
            joined([drawn(one), f"{sum(mark_of(each) is one for each in found)} {one.value.word} "])
            for one in FAILS
            if any(mark_of(each) is one for each in found)
        ]
        here = {"aria_current": "true"} if mark == chosen else {}
        name = f"{mark}, {wall.name}" if wall.name else mark
        rows.append(joined([tag("a", name, href=wall_path(mark), **here), " ", *signs]))
    return section("Walls", listed(rows, class_="walls"))


def _forms(checked: Checked, snapshot: Snapshot, chosen: Chosen) -> Iterator[Markup]:
    mark, back = chosen.wall, wall_path(chosen.wall)
    yield ends_list(checked.project)
    yield section(
        "Draw",
        fold("Add a wall", wall_form(checked, snapshot), "wall-form"),
        fold(
            "Move a corner", corner_form(checked, snapshot, chosen.corner, back), "corner-form",
            is_open=bool(chosen.corner),
        ),
    )  # fmt: skip
    wall = checked.project.walls[mark]
    path: FieldPath = ("walls", mark)
    own: list[Child] = [fold(f"Fields of {mark}", change_fields(checked, snapshot, path, back), "wall-fields")]
    if wall.type:
        fields = change_fields(checked, snapshot, ("wall_types", wall.type), back)
        own.append(fold(f"Fields of type {wall.type}, for all its walls", fields, "type-fields"))
    if wall.arc or wall.run:
        title = f"Curve of {mark}" if wall.arc else f"Make {mark} a curve"
        own.append(fold(title, curve_form(checked, snapshot, mark, back), f"curve-{mark}"))
    for kind in parts_of_wall(mark):
        own += part_folds(checked, snapshot, kind, back, like=chosen.like)
    label = f"Take {mark} away, with its buttresses and what bears on it"
    own.append(remove_form(snapshot, path, label, back="/plan"))
    yield section(f"Wall {mark}", *own)
    yield tag("p", tag("a", "Types of walls, footings, stem walls, beams, roofs", href=PARTS_PATH, class_="button"))
