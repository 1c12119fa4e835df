"""The sides of a building as seen from outside, whatever its outline: at each place along a direction the outermost of
the walls that run across the view makes the side there, on the near and on the far edge of the plan.

Where one wall alone stands there, the edge it is farther from is open. Walls count with how much of them is solid and
counted on to brace; walls turned by more than 60 degrees from the direction make no side of it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from compliance.facts.bracing.solid_lengths import chord, lengths, points_along
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Circular
from compliance.record import record

_TURNED = math.radians(60)
_STEP = math.radians(15)
_SAME = 1e-6
_LOW = 0.75
"""Of the tallest: an outside wall below it leaves its side open above (judgment, no source)."""


@record
class Side:
    """One side: its direction [rad], whether it is the far one, its length and what of it is solid [m], and its walls;
    `open` is the length along which no wall stands at all [m]."""

    direction: float
    far: bool
    length: float
    solid: float
    open: float
    marks: tuple[str, ...]

    @property
    def name(self) -> str:
        return " and ".join(self.marks) if self.marks else "without a wall"


@record
class _Bit:
    """A piece of a wall seen along a direction: from `low` to `high` along it, at `place` across it [m]."""

    mark: str
    low: float
    high: float
    place: float
    solid: bool


def sides(views: Sequence[WallView], braces: frozenset[str]) -> tuple[Side, ...]:
    """Both sides of each direction in which outside walls run."""
    options: list[float] = []
    for option in (option for view in views for option in _options(view)):
        if all(_apart(option, one) > math.radians(1) for one in options):
            options.append(option)
    options = options or [chord(view)[0] for view in views[:1]]
    found = tuple(side for option in options for side in _of_direction(views, braces, option))
    if _close_round(views):  # a wall stands all round, whatever is seen where walls run into the view
        return tuple(replace(one, open=0.0) for one in found)
    return found


def _close_round(views: Sequence[WallView]) -> bool:
    """Whether both ends of every outside wall meet another outside wall, none of them much lower than the rest."""
    marks = {mark for view in views for mark in view.pieces}
    tallest = max(view.place.height for view in views)
    if any(view.place.height < _LOW * tallest for view in views):
        return False
    return all(
        any(one.at_joint & marks and abs(one.s - end) <= view.place.thickness for one in view.supports)
        for view in views if not view.placed.stretch.chain.closed
        for end in (0.0, view.place.line.length)
    )  # fmt: skip


def _options(view: WallView) -> list[float]:
    """The directions to look along for a wall: its own; of a part of a round closed ring, which may be parted anywhere,
    those of its openings."""
    if not view.placed.stretch.ring:
        return [chord(view)[0]]
    ways = [view.place.line.direction((hole.start + hole.end) / 2) for hole in view.opened.holes]
    return [math.atan2(y, x) % math.pi for x, y in ways]


def _apart(one: float, other: float) -> float:
    turn = abs(one - other) % math.pi
    return min(turn, math.pi - turn)


def _bits(view: WallView, braces: bool, option: float) -> list[_Bit]:
    """The solid and the open lengths of a wall, an arc in short chords, where they do not run into the view."""
    c, s = math.cos(option), math.sin(option)
    whole = view.place.line.length
    solid = lengths(view)
    marks = sorted({0.0, whole, *(edge for pair in solid for edge in pair), *_stations_turned(view, option)})
    found = []
    for start, end in pairwise(marks):
        parts = max(1, math.ceil(abs(getattr(view.place.line, "sweep", 0.0)) * (end - start) / whole / _STEP))
        for part in range(parts):
            a, b = (view.place.line.point(start + (end - start) * (part + more) / parts) for more in (0, 1))
            along = sorted((a[0] * c + a[1] * s, b[0] * c + b[1] * s))
            reach = math.dist(a, b)
            if reach <= _SAME or (along[1] - along[0]) / reach < math.cos(_TURNED) - 1e-9:
                continue
            middle = (start + end) / 2
            holds = braces and any(low <= middle <= high for low, high in solid)
            place = ((a[1] + b[1]) * c - (a[0] + b[0]) * s) / 2
            found.append(_Bit(view.mark, low=along[0], high=along[1], place=place, solid=holds))
    return found


def _stations_turned(view: WallView, option: float) -> Iterator[float]:
    """Where an arc begins or ends to run into the view, so that it never depends on where its chords begin."""
    line = view.place.line
    if not isinstance(line, Circular):
        return
    for radial in (option + way * _TURNED + math.pi / 2 + half * math.pi for way in (-1, 1) for half in (0, 1)):
        turn = (radial - line.first) * math.copysign(1.0, line.sweep) % math.tau
        if turn < abs(line.sweep):
            yield turn * line.radius


def _of_direction(views: Sequence[WallView], braces: frozenset[str], option: float) -> tuple[Side, Side]:
    bits = [bit for view in views for bit in _bits(view, view.mark in braces, option)]
    stations = sorted({edge for bit in bits for edge in (bit.low, bit.high)})
    c, s = math.cos(option), math.sin(option)
    points = [point for view in views for point in points_along(view)]
    lowest, highest = (extreme(y * c - x * s for x, y in points) for extreme in (min, max))
    near = max(view.place.thickness for view in views)
    sums = {False: [0.0, 0.0, 0.0], True: [0.0, 0.0, 0.0]}
    names: dict[bool, dict[str, None]] = {False: {}, True: {}}
    for start, end in pairwise(stations):
        here = [bit for bit in bits if bit.low <= start + _SAME and bit.high >= end - _SAME]
        long = end - start
        if long <= _SAME or not here:
            continue
        low, high = min(here, key=lambda one: one.place), max(here, key=lambda one: one.place)
        seen: dict[bool, _Bit | None] = {False: low, True: high}
        if high.place - low.place <= near:
            far = highest - high.place < low.place - lowest
            seen = {far: high if far else low, not far: None}
        for far, bit in seen.items():
            sums[far][0] += long
            sums[far][1] += long if bit and bit.solid else 0.0
            sums[far][2] += 0.0 if bit else long
            if bit:
                names[far][bit.mark] = None
    first, second = (_side(option, far, sums[far], names[far]) for far in (False, True))
    return first, second


def _side(option: float, far: bool, sums: Sequence[float], names: Mapping[str, None]) -> Side:
    length, solid, bare = sums
    return Side(option, far=far, length=length, solid=solid, open=bare, marks=tuple(sorted(names)))
