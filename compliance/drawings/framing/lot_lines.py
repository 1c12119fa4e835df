"""Property lines in m, with their inner side, and how far the walls stand off them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.drawings.common.lettering import one_line
from compliance.drawings.common.regions import shifted
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.model.lines import Line, Point
from compliance.model.site import PropertyLine, SitePlan
from compliance.record import record

_TOUCHES = 1e-6
_STEP = 0.25


@record
class LotLine:
    """`inward` points from the line to the building. `off` is the distance of the nearest point of a wall that lies
    beside the line, None where none does; `crosses`: walls lie on both sides of it."""

    name: str
    start: Point
    end: Point
    inward: Point
    setback: float | None
    nearest: Point | None
    off: float | None
    crosses: bool

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    def point(self, share: float) -> Point:
        (x0, y0), (x1, y1) = self.start, self.end
        return x0 + share * (x1 - x0), y0 + share * (y1 - y0)

    def moved_in(self, by: float) -> tuple[Point, Point]:
        return shifted(self.start, *self.inward, by), shifted(self.end, *self.inward, by)


def lot_lines(of: SitePlan, plan: PlanSubject) -> Iterator[LotLine]:
    """The lines in their order, named by what lies along them."""
    outline = [point for region in plan.shape.solid for side in region.sides for point in _points(side)]
    left, bottom, right, top = plan.shape.box
    for number, line in enumerate(of.lines, start=1):
        yield _lot_line(number, line, outline, ((left + right) / 2, (bottom + top) / 2))


def _points(side: Line) -> list[Point]:
    """Along a face, so that a short line finds what lies beside it."""
    count = max(1, math.ceil(side.length / _STEP))
    return [side.point(side.length * index / count) for index in range(count + 1)]


def _lot_line(number: int, line: PropertyLine, outline: Sequence[Point], middle: Point) -> LotLine:
    start, end = ((point[0].si, point[1].si) for point in (line.start, line.end))
    length = math.dist(start, end)
    along = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    left = -along[1], along[0]
    inward = left if _off(middle, start, left) >= 0 else (along[1], -along[0])
    beside = [one for one in outline if -_TOUCHES <= _off(one, start, along) <= length + _TOUCHES]
    nearest = min(beside, key=lambda one: _off(one, start, inward), default=None)
    off = None if nearest is None else _off(nearest, start, inward)
    name = f"line along {one_line(line.along)}" if line.along else f"property line {number}"
    setback = line.setback.si if line.setback else None
    return LotLine(name, start=start, end=end, inward=inward, setback=setback, nearest=nearest,
                   off=off, crosses=off is not None and off < -_TOUCHES)  # fmt: skip


def _off(point: Point, start: Point, direction: Point) -> float:
    return (point[0] - start[0]) * direction[0] + (point[1] - start[1]) * direction[1]
