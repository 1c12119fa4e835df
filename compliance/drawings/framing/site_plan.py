"""The site plan: property lines and setbacks as given, and how far the walls stand off them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.drawings.common.board import Board, LabelLine, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.lettering import Role, one_line
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box, Drawing, Pen, Tone
from compliance.drawings.common.regions import shifted
from compliance.drawings.common.scales import Scale, largest_within
from compliance.drawings.framing.lot_lines import LotLine, lot_lines
from compliance.drawings.plan.plan_face import PlanFace, PlanSubject
from compliance.drawings.plan.plan_marks import draw_north
from compliance.drawings.plan.plan_measures import slanted
from compliance.facts.geometry.openings import Opened
from compliance.model.lines import Point
from compliance.model.site import SitePlan
from compliance.record import record, replace

_AROUND = 46.0
"""Kept on each side for what is written along the lines, in points."""
_LARGEST = 48.0
_NAME = "Site plan"


def site_plan(of: SitePlan, plan: PlanSubject, metrics: TextMetrics, width: float, tallest: float) -> Draft:
    """The lines of the lot with the walls, without openings, in their place."""
    closed = {mark: replace(view, opened=Opened((), ())) for mark, view in plan.views.items()}
    subject = replace(plan, views=closed)
    return _SitePlan(of, subject, lines=tuple(lot_lines(of, subject)), metrics=metrics, width=width).draft(tallest)


@record
class _SitePlan:
    of: SitePlan
    subject: PlanSubject
    lines: tuple[LotLine, ...]
    metrics: TextMetrics
    width: float

    @property
    def _box(self) -> tuple[float, float, float, float]:
        left, bottom, right, top = self.subject.shape.box
        points = [point for one in self.lines for point in (one.start, one.end)]
        xs, ys = [left, right, *(x for x, _ in points)], [bottom, top, *(y for _, y in points)]
        return min(xs), min(ys), max(xs), max(ys)

    def _sizes(self, scale: Scale) -> tuple[float, float]:
        left, bottom, right, top = self._box
        return (right - left) * scale.per_metre + 2 * _AROUND, (top - bottom) * scale.per_metre + 2 * _AROUND

    def draft(self, tallest: float) -> Draft:
        scale = largest_within(self.metrics.writer.system, self._sizes, self.width, tallest, least_ratio=_LARGEST)
        notes = tuple(self._notes())
        alt = f"{_NAME}: the walls of the building and {len(self.lines)} property lines. {' '.join(notes)}"
        return Draft("site-plan", name=_NAME, alt=alt, least=self._sizes(scale)[1],
                     draw=lambda height: self._drawn(scale, height), notes=notes)  # fmt: skip

    def _notes(self) -> Iterator[str]:
        source = one_line(self.of.source)
        yield (
            f"Property lines and setbacks as the project gives them, in the coordinates of its plan: {source}. "
            "Distances run from the nearest face of a wall at its foot. Eaves, easements, utilities, levels and "
            "drainage of the ground are not described and not drawn."
        )
        write = self.metrics.writer.write
        for one in self.lines:
            if one.crosses:
                yield f"The {one.name} runs through the walls as described: lines or plan are wrong."
            elif one.off is not None and one.setback is not None and one.off < one.setback - 1e-6:
                off, setback = write(one.off, "length"), write(one.setback, "length")
                yield f"Nearer than the setback: walls {off} off the {one.name}, {setback} given."

    def _drawn(self, scale: Scale, height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, self.width, height), self.metrics)
        across, up = self._sizes(scale)
        x0, y0, _, _ = self._box
        left, bottom, _, _ = self.subject.shape.box
        at_left = _AROUND + (self.width - across) / 2 + (left - x0) * scale.per_metre
        at_bottom = _AROUND + max(height - up, 0.0) / 2 + (bottom - y0) * scale.per_metre
        face = PlanFace(board, subject=self.subject, scale=scale, left=at_left, bottom=at_bottom)
        draw_north(face)
        for region in self.subject.shape.solid:
            board.fill(face.points(region.points()), Tone.BAND)
        for edge in self.subject.shape.edges:
            face.ink(edge, Pen.EDGE)
        for line in self.lines:
            board.stroke(face.at(line.start), face.at(line.end), pen=Pen.PROPERTY)
            if line.setback:
                board.stroke(*face.points(line.moved_in(line.setback)), pen=Pen.HIDDEN)
        for line in self.lines:
            self._distance(face, line)
        for line in self.lines:
            self._label(face, line)
        return Drawing("site-plan", name=_NAME, scale=scale, width=self.width, height=height,
                       items=board.finished(), notes=tuple(self._notes()), unset=tuple(board.unset))  # fmt: skip

    def _distance(self, face: PlanFace, line: LotLine) -> None:
        """From the nearest point of a wall square to the line; its text beside it."""
        if line.off is None or line.nearest is None or line.crosses or line.off < 1e-6:
            return
        ends = face.at(line.nearest), face.at(shifted(line.nearest, *line.inward, -line.off))
        along = line.inward[1], -line.inward[0]
        slanted(face, ends=ends, feet=ends, out=along, value=line.off, subject=f"walls off the {line.name}")

    def _label(self, face: PlanFace, line: LotLine) -> None:
        """Its name and length, outside the lot; beside it the setback."""
        write = self.metrics.writer.write
        texts = [f"{line.name}, {write(line.length, 'length')}"]
        texts += [f"setback {write(line.setback, 'length')}"] if line.setback else []
        lines = tuple(LabelLine(one, Role.NOTE) for one in texts)
        wide, high = face.board.size(lines)
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            if self._set(face, line, lines, share=share, wide=wide, high=high):
                return
        face.board.unset.append(f"{_NAME}: {', '.join(texts)}")

    def _set(
        self, face: PlanFace, line: LotLine, lines: Sequence[LabelLine], share: float, wide: float, high: float
    ) -> bool:
        at: Point = face.at(line.point(share))
        (nx, ny) = line.inward
        clear = abs(nx) * wide / 2 + abs(ny) * high / 2 + 4.0
        outside = shifted(at, nx, ny, -clear)
        spots = [Box(outside[0] - wide / 2, outside[1] - high / 2, outside[0] + wide / 2, outside[1] + high / 2)]
        box = face.board.placer.first([*spots, *around(at, wide, high)], at)
        if box is None:
            return False
        face.board.write(lines, box, plate=True)
        return True
