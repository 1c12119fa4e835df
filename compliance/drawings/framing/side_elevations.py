"""The elevations of a building from its four sides, each named by the compass where north is stated."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from compliance.drawings.common.board import Board, LabelLine, TextMetrics
from compliance.drawings.common.dimension_chains import Span, chain
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box, Drawing, Pen, Point, Tone, box_about
from compliance.drawings.common.scales import Scale, largest
from compliance.drawings.elevation.wall_face import WallSubject
from compliance.drawings.framing.side_faces import Corners, Face, Hole, Side, faces_seen, roofs_seen, slices
from compliance.drawings.plan.plan_shape import plan_shape
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.structure import Roof
from compliance.record import record

_At = Callable[[Point], Point]
"""From metres to points."""
_SIDES: tuple[tuple[str, Point], ...] = (
    ("bottom", (0.0, -1.0)), ("right", (1.0, 0.0)), ("top", (0.0, 1.0)), ("left", (-1.0, 0.0)),
)  # fmt: skip
_COMPASS = ("North", "Northeast", "East", "Southeast", "South", "Southwest", "West", "Northwest")
_LEFT, _RIGHT, _BELOW, _ABOVE = 62.0, 20.0, 40.0, 22.0
_OFF_GROUND, _OFF_FACE = 22.0, 24.0
_LARGEST = 32.0
_NOTE = (
    "Faces of the walls in the open as seen from that side, heights over the ground outside, which is drawn level. "
    "Roofs are outlines (hidden lines): their build is not described."
)


@record
class Outside:
    """What elevations of all sides are drawn from. `north` as in a plan."""

    subjects: Sequence[WallSubject]
    views: Mapping[str, WallView]
    roofs: Mapping[str, Roof]
    north: float | None

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Of the walls on plan: left, bottom, right, top, in m."""
        return plan_shape(self.views, {}, {}).box


def side_elevations(of: Outside, metrics: TextMetrics, width: float, tallest: float) -> list[Draft]:
    """One for each side from which a wall is seen, all to one scale."""
    made = [_Elevation(of, key, Side(toward), metrics=metrics, width=width) for key, toward in _SIDES]
    seen = [one for one in made if one.faces]
    if not seen:
        return []

    def fits(scale: Scale) -> bool:
        return all(one.fits(scale, tallest) for one in seen)

    scale = largest(metrics.writer.system, fits, _LARGEST)
    return [one.draft(scale) for one in seen]


class _Elevation:
    def __init__(self, of: Outside, key: str, side: Side, metrics: TextMetrics, width: float) -> None:
        self._key, self._side, self._metrics, self._width = f"side-{key}", side, metrics, width
        self.faces, self._holes = faces_seen(side, of.subjects, of.box)
        self._roofs = roofs_seen(side, of.subjects, of.roofs, of.views) if self.faces else {}
        self._name = _name(key, side, of.north)

    @property
    def _box(self) -> tuple[float, float, float, float]:
        """Left, low, right, high in m."""
        roofs = [point for corners in self._roofs.values() for point in corners]
        across = [*(x for x, _ in roofs), *(x for one in self.faces for x in (one.low, one.high))]
        heights = [y for _, y in roofs] + [one.highest for one in self.faces]
        return min(across), 0.0, max(across), max(heights)

    def _needed(self, scale: Scale) -> float:
        _, low, _, high = self._box
        return (high - low) * scale.per_metre + _BELOW + _ABOVE

    def fits(self, scale: Scale, tallest: float) -> bool:
        left, _, right, _ = self._box
        wide = (right - left) * scale.per_metre + _LEFT + _RIGHT
        return wide <= self._width and self._needed(scale) <= tallest

    def draft(self, scale: Scale) -> Draft:
        walls = list(dict.fromkeys(one.wall for one in self.faces))
        openings = ", ".join(one.mark for one in self._holes) or "none"
        alt = (
            f"{self._name}: walls {', '.join(walls)}; openings: {openings}; roofs: {', '.join(self._roofs) or 'none'}."
        )
        return Draft(self._key, name=self._name, alt=alt, least=self._needed(scale),
                     draw=lambda height: self._drawn(scale, height), notes=(_NOTE,))  # fmt: skip

    def _drawn(self, scale: Scale, height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, self._width, height), self._metrics)
        left, _, right, _ = self._box
        k = scale.per_metre
        start = _LEFT + (self._width - _LEFT - _RIGHT - (right - left) * k) / 2 - left * k
        ground = _BELOW + max(height - self._needed(scale), 0.0) / 2

        def at(point: Point) -> Point:
            return start + point[0] * k, ground + point[1] * k

        for face in self.faces:
            _face(board, face, self.faces, at)
        for hole in self._hidden_last():
            board.fill([at(one) for one in hole.corners], Tone.PAPER)
            board.stroke(*(at(one) for one in hole.corners), pen=Pen.EDGE, closed=True)
        for corners in self._roofs.values():
            board.stroke(*(at(one) for one in corners), pen=Pen.HIDDEN, closed=True)
        board.stroke(at((left, 0.0)), at((right, 0.0)), pen=Pen.CUT)
        self._dimensions(board, at)
        self._labels(board, at)
        return Drawing(self._key, name=self._name, scale=scale, width=self._width, height=height,
                       items=board.finished(), notes=(_NOTE,), unset=tuple(board.unset))  # fmt: skip

    def _hidden_last(self) -> list[Hole]:
        """Openings that no nearer wall covers in the middle."""
        return [one for one in self._holes if not any(_covers(face, one) for face in self.faces)]

    def _dimensions(self, board: Board, at: _At) -> None:
        low, high = min(one.low for one in self.faces), max(one.high for one in self.faces)
        (x0, ground), (x1, _) = at((low, 0.0)), at((high, 0.0))
        span = Span(x0, x1, high - low, f"{self._name}, over all")
        chain(board, spans=[span], at=ground - _OFF_GROUND, least=board.frame.left, most=board.frame.right,
              upright=False, away=-1, feet=[ground - 3.0])  # fmt: skip
        tallest = max(self.faces, key=lambda one: one.highest)
        levels = [0.0, tallest.stem, tallest.top, *([tallest.beam_top] if tallest.beam_top else [])]
        ridge = max((y for corners in self._roofs.values() for _, y in corners), default=0.0)
        levels += [ridge] if ridge > levels[-1] else []
        spans = [
            Span(at((0.0, one))[1], at((0.0, other))[1], other - one, f"{self._name}, height")
            for one, other in pairwise(levels)
            if other - one > 1e-6
        ]
        left = at((self._box[0], 0.0))[0]
        chain(board, spans=spans, at=left - _OFF_FACE, least=board.frame.bottom, most=board.frame.top,
              upright=True, away=-1, feet=[left - 3.0] * len(spans))  # fmt: skip

    def _labels(self, board: Board, at: _At) -> None:
        for hole in self._hidden_last():
            (x0, y0), (x1, y1) = hole.corners[0], hole.corners[2]
            self._label(board, hole.mark, at(((x0 + x1) / 2, (y0 + y1) / 2)))
        for hole in self._hidden_last():  # a mark of a wall stands on the wall
            (x0, y0), (x1, y1) = (at(hole.corners[index]) for index in (0, 2))
            board.placer.take(Box(x0, y0, x1, y1))
        for mark in dict.fromkeys(one.wall for one in self.faces):
            parts = [one for one in self.faces if one.wall == mark]
            one = max(parts, key=lambda part: part.high - part.low)
            low, high = min(part.low for part in parts), max(part.high for part in parts)
            places = [
                at((low + across * (high - low), one.stem + up * (one.top - one.stem)))
                for up in (0.85, 0.6, 0.35)
                for across in (0.5, 0.3, 0.7, 0.15, 0.85)
            ]
            self._label(board, mark, *places)

    def _label(self, board: Board, mark: str, *places: Point) -> None:
        """At the first place with room, else led to the first of them."""
        label = (LabelLine(mark, Role.MARK),)
        wide, high = board.size(label)
        box = board.placer.first([box_about(place, wide, high) for place in places])
        if box is not None:
            board.write(label, box, plate=True)
            return
        board.label(label, around(places[0], wide, high, 0.0), f"{self._name}: {mark}", places[0], plate=True)


def _face(board: Board, face: Face, faces: Sequence[Face], at: _At) -> None:
    """Its bands as far as they are seen, and the edges at the ends of the wall."""
    for part in slices(face, faces):
        for low, high, tone in face.bands():
            low = max(low, part.above)
            if high - low > 1e-6:
                board.fill([at(one) for one in _corners(part.low, part.high, low, high)], tone)
                board.stroke(at((part.low, high)), at((part.high, high)), pen=Pen.EDGE)
        if part.above:
            board.stroke(at((part.low, part.above)), at((part.high, part.above)), pen=Pen.FINE)
        for end in face.ends:
            if part.low - 1e-6 <= end <= part.high + 1e-6:
                board.stroke(at((end, part.above)), at((end, face.highest)), pen=Pen.EDGE)


def _corners(left: float, right: float, low: float, high: float) -> Corners:
    return (left, low), (right, low), (right, high), (left, high)


def _covers(face: Face, hole: Hole) -> bool:
    """Whether a nearer face stands before the middle of an opening of another wall."""
    (x0, y0), (x1, y1) = hole.corners[0], hole.corners[2]
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    return face.wall != hole.wall and face.depth > hole.depth and face.low < x < face.high and y < face.highest


def _name(key: str, side: Side, north: float | None) -> str:
    if north is None:
        return f"Elevation from the {key} of the plan"
    bearing = (math.atan2(side.toward[0], side.toward[1]) - north) % (2 * math.pi)
    return f"{_COMPASS[round(bearing / (math.pi / 4)) % 8]} elevation"
