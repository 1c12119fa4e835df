"""A small plan of all walls with some of them filled, to show where what is drawn beside it stands."""

from __future__ import annotations

from collections.abc import Collection

from compliance.drawings.common.board import Board, LabelLine, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box, Drawing, Pen, Tone
from compliance.drawings.common.regions import length_of_wall
from compliance.drawings.common.scales import Scale, largest_within
from compliance.drawings.plan.plan_face import PlanFace, PlanSubject
from compliance.drawings.plan.plan_marks import draw_north
from compliance.record import record

_AROUND = 34.0
"""Kept on each side for marks, in points."""
_LARGEST = 48.0


def key_plan(subject: PlanSubject, walls: Collection[str], metrics: TextMetrics, width: float, tallest: float) -> Draft:
    """The plan without dimensions, `walls` filled, every wall with its mark."""
    return _KeyPlan(subject, tuple(walls), metrics, width).draft(tallest)


@record
class _KeyPlan:
    subject: PlanSubject
    walls: tuple[str, ...]
    metrics: TextMetrics
    width: float

    @property
    def _key(self) -> str:
        return f"key-plan-{'-'.join(self.walls)}"

    @property
    def _name(self) -> str:
        return f"Key plan: {', '.join(self.walls)} filled"

    def _sizes(self, scale: Scale) -> tuple[float, float]:
        left, bottom, right, top = self.subject.shape.box
        return (right - left) * scale.per_metre + 2 * _AROUND, (top - bottom) * scale.per_metre + 2 * _AROUND

    def draft(self, tallest: float) -> Draft:
        scale = largest_within(self.metrics.writer.system, self._sizes, self.width, tallest, least_ratio=_LARGEST)
        alt = f"{self._name}, among all walls: {', '.join(self.subject.views)}."
        return Draft(self._key, name=self._name, alt=alt, least=self._sizes(scale)[1],
                     draw=lambda height: self._drawn(scale, height))  # fmt: skip

    def _drawn(self, scale: Scale, height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, self.width, height), self.metrics)
        across, up = self._sizes(scale)
        left, bottom = _AROUND + (self.width - across) / 2, _AROUND + max(height - up, 0.0) / 2
        face = PlanFace(board, subject=self.subject, scale=scale, left=left, bottom=bottom)
        draw_north(face)
        shape = self.subject.shape
        for region in shape.solid:
            board.fill(face.points(region.points()), Tone.PAPER)
        for mark in self.walls:
            place = self.subject.views[mark].place
            whole = length_of_wall(place.line, 0.0, place.line.length, place.thickness)
            board.fill(face.points(whole.points()), Tone.INK)
        for region in shape.cuts.values():
            board.fill(face.points(region.points()), Tone.PAPER)
        for edge in shape.edges:
            face.ink(edge, Pen.FINE)
        self._marks(face)
        return Drawing(self._key, name=self._name, scale=scale, width=self.width, height=height,
                       items=board.finished(), unset=tuple(board.unset))  # fmt: skip

    def _marks(self, face: PlanFace) -> None:
        """Of the walls shown first, so that these have a mark whatever room is left."""
        views = self.subject.views
        for mark in (*self.walls, *(one for one in views if one not in self.walls)):
            place = views[mark].place
            label = (LabelLine(mark, Role.MARK if mark in self.walls else Role.NOTE),)
            at = face.at(place.line.point(place.line.length / 2))
            clear = place.thickness / 2 * face.scale.per_metre
            box = face.board.placer.first(list(around(at, *face.board.size(label), clear)), at)
            if box is not None:
                face.board.write(label, box)
