"""A plan of walls with something else drawn over them: frame, scale and dimensions that all such plans share."""

from __future__ import annotations

from collections.abc import Callable

from compliance.drawings.common.board import Board, LabelLine, TextMetrics
from compliance.drawings.common.draft import Draft, elevation_key
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box, Drawing
from compliance.drawings.common.scales import Scale, largest
from compliance.drawings.plan.plan_body import draw_raster
from compliance.drawings.plan.plan_face import PlanFace, PlanSubject
from compliance.drawings.plan.plan_marks import draw_north, spots_along
from compliance.drawings.plan.plan_measures import ABOVE, BELOW, LEFT, RIGHT, draw_chains, draw_overall
from compliance.facts.geometry.wall_facts import WallView
from compliance.record import record

_LARGEST = 24.0


@record
class OverlayPlan:
    """`paint` draws on the face, `names` are the lines under the mark of each wall. `beyond` is how far what is drawn
    reaches past the walls, in m."""

    key: str
    name: str
    alt: str
    subject: PlanSubject
    metrics: TextMetrics
    width: float
    notes: tuple[str, ...]
    names: Callable[[str], str]
    paint: Callable[[PlanFace], None]
    beyond: float = 0.0

    def _sizes(self, scale: Scale) -> tuple[float, float]:
        left, bottom, right, top = self.subject.shape.box
        more = 2 * self.beyond
        return (right - left + more) * scale.per_metre, (top - bottom + more) * scale.per_metre

    def _needed(self, scale: Scale) -> float:
        return self._sizes(scale)[1] + ABOVE + BELOW

    def draft(self, tallest: float) -> Draft:
        def fits(one: Scale) -> bool:
            return self._sizes(one)[0] + LEFT + RIGHT <= self.width and self._needed(one) <= tallest

        scale = largest(self.metrics.writer.system, fits, _LARGEST)
        return Draft(
            self.key,
            name=self.name,
            alt=self.alt,
            least=self._needed(scale),
            draw=lambda height: self._drawn(scale, height),
            notes=self.notes,
        )

    def _drawn(self, scale: Scale, height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, self.width, height), self.metrics)
        spare = max(height - self._needed(scale), 0.0)
        aside = (self.width - LEFT - RIGHT - self._sizes(scale)[0]) / 2
        past = self.beyond * scale.per_metre
        left, bottom = LEFT + aside + past, BELOW + spare / 2 + past
        face = PlanFace(board, subject=self.subject, scale=scale, left=left, bottom=bottom)
        draw_north(face)
        self.paint(face)
        draw_overall(face)
        draw_chains(face, in_detail=False)
        draw_raster(face)
        for view in self.subject.views.values():
            self._label(face, view)
        return Drawing(self.key, name=self.name, scale=scale, width=self.width, height=height,
                       items=board.finished(), notes=self.notes, unset=tuple(board.unset))  # fmt: skip

    def _label(self, face: PlanFace, view: WallView) -> None:
        """Beside the wall where there is room, else led to it."""
        below = self.names(view.mark)
        mark = LabelLine(view.mark, Role.MARK, link=elevation_key(view.mark))
        label = (mark, LabelLine(below)) if below else (mark,)
        wide, high = face.board.size(label)
        box = face.board.placer.first(list(spots_along(face, view, wide, high)))
        if box is not None:
            face.board.write(label, box, plate=True)
            return
        at = face.at(view.place.line.point(view.place.line.length / 2))
        face.board.label(label, around(at, wide, high), f"{self.name}: {view.mark}, {below}", at)
