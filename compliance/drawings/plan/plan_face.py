"""The plan on the page: from coordinates in metres to points."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property
from types import MappingProxyType

from compliance.drawings.common.board import Board
from compliance.drawings.common.draft import Cut
from compliance.drawings.common.primitives import Bow, Pen, Point
from compliance.drawings.common.scales import Scale
from compliance.drawings.plan.plan_shape import PlanShape, plan_shape
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Line, Straight
from compliance.model.site import Room
from compliance.model.walls import Buttress, Wall
from compliance.record import record

NO_ROOMS: Mapping[str, Room] = MappingProxyType({})


@record
class PlanSubject:
    """What a plan shows. `outside` is the open side of each wall's line, `north` an angle clockwise from up, in
    radians, None where the project does not state it. `cuts` are the sections marked on it."""

    views: Mapping[str, WallView]
    walls: Mapping[str, Wall]
    buttresses: Mapping[str, Buttress]
    outside: Mapping[str, int | None]
    north: float | None = None
    cuts: tuple[Cut, ...] = ()
    rooms: Mapping[str, Room] = NO_ROOMS

    @cached_property
    def shape(self) -> PlanShape:
        return plan_shape(self.views, self.buttresses, self.outside)

    def only(self, marks: Iterable[str]) -> PlanSubject:
        """The plan of some of the walls."""
        kept = {mark: self.views[mark] for mark in marks}
        beside = {mark: one for mark, one in self.buttresses.items() if one.wall in kept}
        return PlanSubject(
            kept, walls=self.walls, buttresses=beside, outside=self.outside, north=self.north,
            cuts=tuple(one for one in self.cuts if one.wall in kept), rooms=self.rooms,
        )  # fmt: skip


@record
class PlanFace:
    """`left` and `bottom` are where the lower left corner of the building's box lies on the page."""

    board: Board
    subject: PlanSubject
    scale: Scale
    left: float
    bottom: float

    def at(self, point: Point) -> Point:
        x0, y0, _, _ = self.subject.shape.box
        k = self.scale.per_metre
        return self.left + (point[0] - x0) * k, self.bottom + (point[1] - y0) * k

    def points(self, points: Iterable[Point]) -> list[Point]:
        return [self.at(point) for point in points]

    def ink(self, line: Line, pen: Pen) -> None:
        """A straight line or an arc of the plan."""
        if isinstance(line, Straight):
            self.board.stroke(self.at(line.start), self.at(line.end), pen=pen)
        else:
            radius = line.radius * self.scale.per_metre
            self.board.bow(Bow(self.at(line.centre), radius=radius, first=line.first, sweep=line.sweep, pen=pen))
