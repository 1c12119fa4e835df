"""Ends of walls that stand at one point, and the edits that move them together."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator

from compliance.editing.file_edits import EditRefusedError, ValueEdit
from compliance.facts.common.fact import FieldPath
from compliance.model.lines import Point
from compliance.model.project import Project
from compliance.model.walls import Arc, Run, Wall
from compliance.record import record
from compliance.remedies.edited_project import measured
from compliance.units import KINDS, Measure, Writer, parse_measure

ONE_CORNER = 0.005
"""Ends nearer to each other than this are one corner, m: two roundings to 1/8 in."""
PointText = tuple[str, str]


@record
class Corner:
    """`text` is the point as the first of its ends has it, `at` the same in m. `ends` are wall and field, as
    ("W1", "to")."""

    text: PointText
    at: Point
    ends: tuple[tuple[str, str], ...]

    @property
    def named(self) -> str:
        return ", ".join(self.text)


def corners(project: Project) -> list[Corner]:
    """Every point at which a wall begins or ends, in the order of the walls."""
    found: list[Corner] = []
    by_cell: dict[tuple[int, int], list[int]] = defaultdict(list)
    for mark, wall in project.walls.items():
        for field, point in _ends(wall):
            at = _metres(point)
            column, row = math.floor(at[0] / ONE_CORNER), math.floor(at[1] / ONE_CORNER)
            cells = [(column + east, row + north) for east in (-1, 0, 1) for north in (-1, 0, 1)]
            near = [index for cell in cells for index in by_cell.get(cell, ())]
            index = next((one for one in sorted(near) if math.dist(found[one].at, at) <= ONE_CORNER), None)
            if index is None:
                by_cell[column, row].append(len(found))
                found.append(Corner((point[0].text, point[1].text), at, ((mark, field),)))
            else:
                one = found[index]
                found[index] = Corner(one.text, one.at, (*one.ends, (mark, field)))
    return found


def corner_moved(
    project: Project, at: PointText, to: PointText, writer: Writer, only: str = ""
) -> tuple[ValueEdit, ...]:
    """The edits that bring every end at one point to another, or that of the wall `only`. An arc keeps its form: its
    middle point is turned and stretched with its ends. Raises EditRefusedError where no end stands there, and
    MeasureError."""
    where, target = point_of(at), point_of(to)
    corner = min(corners(project), key=lambda one: math.dist(one.at, where), default=None)
    if corner is None or math.dist(corner.at, where) > ONE_CORNER:
        raise EditRefusedError(f"no wall begins or ends at {', '.join(at)}; take one of the corners of the list")
    if math.dist(corner.at, target) == 0:
        raise EditRefusedError(f"the corner stands at {', '.join(to)} already; write another place")
    edits = []
    ends = [end for end in corner.ends if only in ("", end[0])]
    if not ends:
        raise EditRefusedError(f"{only} neither begins nor ends at {', '.join(at)}; take a wall that does")
    for mark, field in ends:
        wall = project.walls[mark]
        edits.append(ValueEdit((*_line_path(mark, wall), field), list(to)))
        if wall.arc:
            other = _metres(wall.arc.end if field == "from" else wall.arc.start)
            through = _carried(_metres(wall.arc.through), other, corner.at, target)
            edits.append(ValueEdit(("walls", mark, "arc", "through"), written(through, writer)))
    return tuple(edits)


def _carried(point: Point, fixed: Point, before: Point, after: Point) -> Point:
    """Where a point comes to when the line from `fixed` to `before` is turned and stretched to end at `after`."""
    old, new, own = (complex(one[0] - fixed[0], one[1] - fixed[1]) for one in (before, after, point))
    if not old:
        return point
    found = own * new / old
    return fixed[0] + found.real, fixed[1] + found.imag


def end_by_length(start: PointText, length: str, angle: str, writer: Writer) -> list[str]:
    """The end of a straight wall by its length and its direction, an angle counter-clockwise from east. Raises
    MeasureError."""
    x, y = point_of(start)
    along, turned = parse_measure(length, KINDS["length"]).si, parse_measure(angle, KINDS["angle"]).si
    return written((x + along * math.cos(turned), y + along * math.sin(turned)), writer)


def point_of(text: PointText) -> Point:
    """In m. Raises MeasureError."""
    x, y = (parse_measure(one, KINDS["coordinate"]).si for one in text)
    return x, y


def written(point: Point, writer: Writer) -> list[str]:
    """A point as the files have it, in the units of the project; no minus before a zero."""
    return [measured(one if abs(one) > 1e-9 else 0.0, "coordinate", writer).text for one in point]


def _line_path(mark: str, wall: Wall) -> FieldPath:
    return "walls", mark, "arc" if wall.arc else "run"


def _ends(wall: Wall) -> Iterator[tuple[str, list[Measure]]]:
    line: Run | Arc | None = wall.arc or wall.run
    assert line is not None
    yield "from", line.start
    yield "to", line.end


def _metres(point: list[Measure]) -> Point:
    return point[0].si, point[1].si
