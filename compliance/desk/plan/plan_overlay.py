"""Shapes without ink over the drawing of the plan: each leads to what it belongs to, and bears its sizes for the
script that lets the pointer move it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from urllib.parse import quote

from compliance.checked import Checked
from compliance.desk.pages.frame import as_data
from compliance.documents.lone_drawings.lone_drawing import PlanPicture
from compliance.drawings.common.regions import length_of_wall
from compliance.drawings.plan.outer_faces import outside_faces
from compliance.drawings.plan.plan_shape import buttress_region
from compliance.editing.drawn_plan.corners import Corner, corners
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.findings import Finding
from compliance.model.lines import Circular, Line, Point, line_of
from compliance.output.checklist.html_tags import Child, Markup, tag
from compliance.record import record
from compliance.report.marks import Mark, mark_of
from compliance.report.value_words import counted

FAILS = (Mark.ENGINEER, Mark.REVISE)
"""What is marked at its place: a limit that fails."""
_SIGN, _CORNER, _LOAD = 11.0, 7.0, 6.0
_REACH = 18.0
"""How far from a corner a finger takes hold of it, in points; a pointer has the corner as it is drawn."""
_STATIONS = (0.25, 0.75, 0.125, 0.875, 0.5)


@record
class _Sheet:
    """From metres of the description to points from the upper left corner of the drawing."""

    picture: PlanPicture

    def at(self, point: Point) -> Point:
        one = self.picture
        return one.east + point[0] * one.per_metre, one.north - point[1] * one.per_metre

    def path(self, points: Iterable[Point]) -> str:
        return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in map(self.at, points)) + "Z"


def wall_path(mark: str) -> str:
    """The address of the plan with a wall chosen."""
    return f"/plan?wall={quote(mark, safe='')}"


def corner_path(corner: Corner) -> str:
    """The address of the plan with a corner chosen in the form that moves it."""
    return f"/plan?wall={corner.ends[0][0]}&corner={quote(corner.named, safe='')}#corner-form"


Failing = Mapping[str, list[Finding]]


def failing(findings: Iterable[Finding]) -> Failing:
    """By wall those about it and its parts whose limit fails, worst first; none for a wall where none does."""
    found: dict[str, list[Finding]] = defaultdict(list)
    for one in findings:
        if one.wall and mark_of(one) in FAILS and one.accepted is None:
            found[one.wall].append(one)
    for some in found.values():
        some.sort(key=lambda one: mark_of(one).rank)
    return found


def overlay(checked: Checked, picture: PlanPicture, chosen: str, fails: Failing) -> Markup:
    """To be laid over the drawing, of the same size."""
    sheet = _Sheet(picture)
    lines = {mark: line for mark, wall in checked.project.walls.items() if (line := line_of(wall)) is not None}
    shapes: list[Child] = []
    for mark, line in lines.items():
        shapes.append(_wall(checked, sheet, mark, line=line, is_chosen=mark == chosen, found=fails.get(mark, [])))
    for mark, line in lines.items():
        shapes += _openings(checked, sheet, mark, line)
        shapes += _loads(checked, sheet, mark, line)
    shapes += _buttresses(checked, sheet)
    shapes += [_corner(one, sheet, checked) for one in corners(checked.project)]
    shapes += [_sign(checked, sheet, mark, line=line, worst=mark_of(fails[mark][0])) for mark, line in lines.items()
               if fails.get(mark)]  # fmt: skip
    return tag(
        "svg", *shapes, class_="over", id="over", viewBox=f"0 0 {picture.width:g} {picture.height:g}", role="group",
        aria_label="Walls, openings and corners of the plan", data_east=f"{picture.east:.3f}",
        data_north=f"{picture.north:.3f}", data_per_metre=f"{picture.per_metre:.6f}",
    )  # fmt: skip


def _wall(checked: Checked, sheet: _Sheet, mark: str, line: Line, is_chosen: bool, found: Sequence[Finding]) -> Markup:
    wall = checked.project.walls[mark]
    points = length_of_wall(line, 0.0, line.length, ends_of_section(wall)[0]).points()
    name = f"Wall {mark}, {wall.name}" if wall.name else f"Wall {mark}"
    state = f"{counted(len(found), 'limit')} that fail" if found else "no limit fails"
    return tag(
        "a",
        tag("title", f"{name}: {state}"),
        tag("path", d=sheet.path(points)),
        href=wall_path(mark),
        class_=f"wall{' chosen' if is_chosen else ''}",
        data_wall=mark,
        data_line=as_data(_line_data(line)),
        data_length=f"{line.length:.6f}",
        aria_label=f"{name}: {state}",
    )


def _openings(checked: Checked, sheet: _Sheet, mark: str, line: Line) -> Iterator[Markup]:
    wall = checked.project.walls[mark]
    for name, one in wall.openings.items():
        start, end = min(max(one.start.si, 0.0), line.length), min(one.start.si + one.width.si, line.length)
        points = length_of_wall(line, start, max(end, start), ends_of_section(wall)[0]).points()
        yield tag(
            "a",
            tag("title", f"{name}, {one.kind} in {mark}"),
            tag("path", d=sheet.path(points)),
            href=f"{wall_path(mark)}#openings-{name}",
            class_="opening",
            data_path=as_data(["walls", mark, "openings", name, "start"]),
            data_start=f"{one.start.si:.6f}",
            data_room=f"{max(line.length - one.width.si, 0.0):.6f}",
            data_line=as_data(_line_data(line)),
            aria_label=f"Opening {name}, {one.kind} in {mark}, {one.start} from its start. The arrow keys move it.",
        )


def _line_data(line: Line) -> dict[str, object]:
    if isinstance(line, Circular):
        return {"centre": line.centre, "radius": line.radius, "first": line.first, "sweep": line.sweep}
    return {"from": line.start, "to": line.end}


def _loads(checked: Checked, sheet: _Sheet, mark: str, line: Line) -> Iterator[Markup]:
    for name, one in checked.project.walls[mark].loads.items():
        x, y = sheet.at(line.point(min(one.at.si, line.length)))
        shape = f"M{x:.1f} {y - _LOAD:.1f}l{_LOAD} {_LOAD}l-{_LOAD} {_LOAD}l-{_LOAD} -{_LOAD}Z"
        says = f"Point load {name} on {mark}, {one.at} from its start"
        yield tag("a", tag("title", says), tag("path", d=shape), href=f"{wall_path(mark)}#loads-{name}",
                  class_="load", aria_label=says)  # fmt: skip


def _buttresses(checked: Checked, sheet: _Sheet) -> Iterator[Markup]:
    views = checked.facts.views
    outside = outside_faces(views) if checked.project.buttresses else {}
    for name, one in checked.project.buttresses.items():
        if one.wall in views:
            region = buttress_region(views[one.wall], one, outside.get(one.wall))
            says = f"Buttress {name} of {one.wall}"
            yield tag("a", tag("title", says), tag("path", d=sheet.path(region.points())),
                      href=f"{wall_path(one.wall)}#buttresses-{name}", class_="buttress", aria_label=says)  # fmt: skip


def _corner(corner: Corner, sheet: _Sheet, checked: Checked) -> Markup:
    x, y = sheet.at(corner.at)
    marks = " and ".join(dict.fromkeys(mark for mark, _ in corner.ends))
    return tag(
        "a",
        tag("title", f"Corner of {marks} at {corner.named}"),
        tag("circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r=f"{_REACH}", class_="reach"),
        tag("circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r=f"{_CORNER}"),
        href=corner_path(corner),
        class_="corner",
        data_at=corner.named,
        data_point=as_data(corner.at),
        data_others=as_data(_others(corner, checked)),
        aria_label=f"Corner of {marks} at {corner.named}. The arrow keys move it.",
    )


def _others(corner: Corner, checked: Checked) -> list[Point]:
    """The other ends of the walls that meet there."""
    found = []
    for mark, field in corner.ends:
        line = line_of(checked.project.walls[mark])
        if line is not None:
            found.append(line.end if field == "from" else line.start)
    return found


def _sign(checked: Checked, sheet: _Sheet, mark: str, line: Line, worst: Mark) -> Markup:
    """The shape of the worst mark of a wall, on solid wall away from its middle, where its name stands."""
    openings = checked.project.walls[mark].openings.values()
    s = _solid(line.length, [(one.start.si, one.start.si + one.width.si) for one in openings])
    (x, y), name, half = sheet.at(line.point(s)), worst.name.lower(), _SIGN / 2
    return tag(
        "g",
        tag("circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r=f"{_SIGN * 0.8:.1f}", class_="plate"),
        tag("use", href=f"#m-{name}", x=f"{x - half:.1f}", y=f"{y - half:.1f}", width=f"{_SIGN}", height=f"{_SIGN}"),
        class_=f"sign pigment-{name}",
        fill="currentColor",
        aria_hidden="true",
    )


def _solid(length: float, holes: Sequence[tuple[float, float]]) -> float:
    places = [share * length for share in _STATIONS]
    return next((s for s in places if not any(start <= s <= end for start, end in holes)), places[0])
