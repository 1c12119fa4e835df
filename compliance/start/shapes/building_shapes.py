"""Shapes of buildings by their outside sizes, and the center lines of their walls."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from compliance.refused import RefusedError
from compliance.start.interview.interview_question import Answers
from compliance.units import Writer, measure

ROUND, ELL, YOU, ROUND_END, LINES, WALLS_WORD = "round", "L", "U", "round-end", "lines", "walls"
SHAPES = {
    ROUND: "a circle ( ), by its diameter",
    ELL: "an L, with wings along its south and west sides, by outside sizes and the widths of the wings",
    YOU: "a U around a court open to the north, with wings along its south, west and east sides",
    ROUND_END: "a rectangle [ ) with a half circle at its east end, by its length and width",
    LINES: "any outline of straight walls and arcs, from corner to corner on one line of text",
    WALLS_WORD: "any other shape, wall after wall",
}
"""Words for what is no rectangle."""

SIZES: dict[str, tuple[tuple[str, str, tuple[str, str]], ...]] = {
    ROUND: (("diameter", "Diameter of the building, outside to outside", ("18 ft", "5.5 m")),),
    ELL: (
        ("size_east", "Its longest size from west to east, outside to outside", ("30 ft", "9 m")),
        ("size_north", "Its longest size from south to north, outside to outside", ("26 ft", "8 m")),
        ("wing_south", "Width of the wing along the south side, from south to north", ("14 ft", "4.2 m")),
        ("wing_west", "Width of the wing along the west side, from west to east", ("14 ft", "4.2 m")),
    ),
    YOU: (
        ("size_east", "Its longest size from west to east, outside to outside", ("40 ft", "12 m")),
        ("size_north", "Its longest size from south to north, outside to outside", ("28 ft", "8.5 m")),
        ("wing_south", "Width of the wing along the south side, from south to north", ("14 ft", "4.2 m")),
        ("wing_west", "Width of the wing along the west side, from west to east", ("13 ft", "4 m")),
        ("wing_east", "Width of the wing along the east side, from west to east", ("13 ft", "4 m")),
    ),
    ROUND_END: (
        ("size_east", "Its length from the west wall to the tip of the round end, outside", ("28 ft", "8.5 m")),
        ("size_north", "Its width from south to north, outside to outside", ("16 ft", "5 m")),
    ),
}  # fmt: skip
"""By shape: key, question and examples of each size."""

NAMES = {
    ROUND: ("north half", "south half"),
    ELL: ("south wall", "east wall", "inner wall, north of the south wing", "inner wall, east of the west wing",
          "north wall", "west wall"),
    YOU: ("south wall", "east wall", "end of the east wing", "court wall, east", "court wall, south",
          "court wall, west", "end of the west wing", "west wall"),
    ROUND_END: ("south wall", "round end", "north wall", "west wall"),
}  # fmt: skip

_Point = tuple[float, float]


def outline_walls(answers: Answers) -> dict[str, dict[str, Any]]:
    """Walls along their center lines, from the south-west corner, whole as soon as the thickness is known. Raises
    RefusedError: `start-shape`."""
    shape, thick = answers["length"], measure(answers["thickness"], "thickness").si
    sizes = {key: measure(answers[key], "length").si for key, *_ in SIZES[shape]}
    for key, *_ in SIZES[shape]:
        refuse_no_room(answers[key], answers["thickness"])
    lines = _LINES[shape](sizes, thick)
    writer = Writer("si" if answers["units"] == "si" else "us")
    return {
        f"W{number}": {"name": name, "type": "outer", **_line(points, writer)}
        for number, (name, points) in enumerate(zip(NAMES[shape], lines, strict=True), 1)
    }


def refuse_no_room(size: str, thickness: str) -> None:
    """Raises RefusedError, `start-shape`, for an outside size that two walls fill."""
    if measure(size, "length").si <= 2 * measure(thickness, "thickness").si:
        wrong = f"{size} leaves no room between walls {thickness} thick"
        raise RefusedError("start-shape", wrong, "write the size from outside to outside; back goes back")


def _line(points: tuple[_Point, ...], writer: Writer) -> dict[str, Any]:
    """A straight wall by two points, an arc by three."""
    written = [[writer.write(number + 0.0, "coordinate") for number in point] for point in points]
    if len(written) == 2:
        return {"run": {"from": written[0], "to": written[1]}}
    return {"arc": {"from": written[0], "through": written[1], "to": written[2]}}


def _circle(sizes: dict[str, float], thick: float) -> Iterator[tuple[_Point, ...]]:
    r = (sizes["diameter"] - thick) / 2
    yield (2 * r, r), (r, 2 * r), (0.0, r)
    yield (0.0, r), (r, 0.0), (2 * r, r)


def _ell(sizes: dict[str, float], thick: float) -> Iterator[tuple[_Point, ...]]:
    east, north, south, west = (sizes[key] - thick for key, *_ in SIZES[ELL])
    if south >= north or west >= east:
        raise RefusedError("start-shape", "a wing is as wide as the whole", "make each wing narrower")
    corners = [(0.0, 0.0), (east, 0.0), (east, south), (west, south), (west, north), (0.0, north)]
    yield from zip(corners, [*corners[1:], corners[0]], strict=True)


def _you(sizes: dict[str, float], thick: float) -> Iterator[tuple[_Point, ...]]:
    east, north, south, west, wing = (sizes[key] - thick for key, *_ in SIZES[YOU])
    if south >= north or west + wing + thick >= east:
        wrong = "the wings leave no court between them"
        raise RefusedError("start-shape", wrong, "make each wing narrower")
    corners = [(0.0, 0.0), (east, 0.0), (east, north), (east - wing, north), (east - wing, south), (west, south),
               (west, north), (0.0, north)]  # fmt: skip
    yield from zip(corners, [*corners[1:], corners[0]], strict=True)


def _round_end(sizes: dict[str, float], thick: float) -> Iterator[tuple[_Point, ...]]:
    east, north = sizes["size_east"] - thick, sizes["size_north"] - thick
    r = north / 2
    straight = east - r
    if straight <= thick or math.isclose(straight, thick):
        raise RefusedError(
            "start-shape", "the round end takes up the whole length", "make the length more than the width"
        )
    yield (0.0, 0.0), (straight, 0.0)
    yield (straight, 0.0), (east, r), (straight, north)
    yield (straight, north), (0.0, north)
    yield (0.0, north), (0.0, 0.0)


_LINES = {ROUND: _circle, ELL: _ell, YOU: _you, ROUND_END: _round_end}
