"""The face of a wall unrolled along its centre line: from stations and heights to the page."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.drawings.common.board import Board
from compliance.drawings.common.draft import Cut, Flag
from compliance.drawings.common.primitives import Box, Point
from compliance.drawings.common.scales import Scale
from compliance.drawings.elevation.levels import Parts
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.geometry.wall_plan import Support
from compliance.record import record


@record
class WallSubject:
    """A wall to draw. `outside` is the side of its line that faces the open (1 left, -1 right), None where the plan
    does not tell. `heights` are those of the walls that can meet it, by mark, `buttresses` those of buttresses.
    `is_scheduled`: schedules of walls and openings go with the drawing. `cut` is the section
    marked on it."""

    view: WallView
    parts: Parts
    outside: int | None
    heights: Mapping[str, float]
    buttresses: Mapping[str, float]
    flags: tuple[Flag, ...] = ()
    notes: tuple[str, ...] = ()
    is_scheduled: bool = False
    cut: Cut | None = None

    @property
    def mirrored(self) -> bool:
        """Seen from outside, a wall whose left side is outside runs from right to left."""
        return self.outside == 1

    @property
    def length(self) -> float:
        return self.view.place.line.length

    def beyond(self, at_start: bool) -> float:
        """How far the wall reaches past the end of its centre line, to the face of the wall it meets there."""
        end = 0.0 if at_start else self.length
        return max(
            (one.half_width for one in self.view.supports if abs(one.s - end) <= 1e-6 and one.by in self.heights),
            default=0.0,
        )

    @property
    def highest(self) -> float:
        """Of the wall with its beam and its lintels, over the foot of the earth in m."""
        lintels = (
            one.sill.si + one.height.si + one.lintel.depth.si
            for one in self.parts.wall.openings.values()
            if one.lintel and one.lintel.depth
        )
        return max(self.parts.levels.highest, *lintels, 0.0)

    def height_of(self, mark: str) -> float:
        """Height in m of a wall or buttress that meets this one."""
        return self.heights[mark] if mark in self.heights else self.buttresses[mark]


@record
class Face:
    """`low` and `high` are the stations between which the face is drawn, `left` where it begins on the page, `foot` the
    height on the page of the top of the stem wall."""

    board: Board
    subject: WallSubject
    scale: Scale
    low: float
    high: float
    left: float
    foot: float

    def x(self, s: float) -> float:
        along = self.high - s if self.subject.mirrored else s - self.low
        return self.left + along * self.scale.per_metre

    def y(self, height: float) -> float:
        return self.foot + height * self.scale.per_metre

    def at(self, s: float, height: float) -> Point:
        return self.x(s), self.y(height)

    def box(self, s0: float, s1: float, h0: float, h1: float) -> Box:
        a, b = sorted((self.x(s0), self.x(s1)))
        return Box(a, self.y(h0), b, self.y(h1))

    def clipped(self, s0: float, s1: float, h0: float, h1: float) -> Box:
        """The same, cut where the drawn part of the wall ends."""
        return self.box(max(s0, self.low), min(s1, self.high), h0, h1)

    @property
    def whole(self) -> bool:
        """Is all of the wall drawn, not a part of it?"""
        return self.low <= 0 and self.high >= self.subject.length

    def shows(self, s: float) -> bool:
        return self.low - 1e-9 <= s <= self.high + 1e-9

    @property
    def right_edge(self) -> float:
        return self.left + (self.high - self.low) * self.scale.per_metre

    @property
    def supports(self) -> list[Support]:
        return [one for one in self.subject.view.supports if self.shows(one.s)]
