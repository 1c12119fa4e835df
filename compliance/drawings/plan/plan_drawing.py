"""The plan: walls at the foot of the earth to the largest usual scale that fits, and groups of walls apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.drawings.alt_texts import plan_alt
from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.draft import PLAN_KEY, Draft
from compliance.drawings.common.primitives import Box, Drawing
from compliance.drawings.common.scales import Scale, largest
from compliance.drawings.plan.plan_body import draw_plan_body, draw_raster
from compliance.drawings.plan.plan_face import PlanFace, PlanSubject
from compliance.drawings.plan.plan_marks import draw_marks, draw_north
from compliance.drawings.plan.plan_measures import ABOVE, BELOW, LEFT, RIGHT, draw_chains, draw_overall
from compliance.facts.geometry.wall_facts import WallView
from compliance.record import record, replace

_DIMENSIONED = 200.0
_WORTH_PARTING = 100.0
"""A plan that needs a smaller scale than this is drawn group by group too."""
_LARGEST = 24.0


def plans(subject: PlanSubject, metrics: TextMetrics, width: float, tallest: float) -> list[Draft]:
    """The plan of all walls; where that is small, one more for each group of walls that hang together."""
    whole = _Plan(subject, metrics=metrics, width=width, of="", key=PLAN_KEY)
    scale = whole.scale(tallest)
    parts = list(_apart(whole, scale, tallest)) if scale.ratio > _WORTH_PARTING else []
    shown = frozenset(mark for part, _ in parts for mark in part.subject.views)
    return [replace(whole, again=shown).draft(scale), *(part.draft(own) for part, own in parts)]


def _apart(whole: _Plan, scale: Scale, tallest: float) -> Iterator[tuple[_Plan, Scale]]:
    """A plan of each group of walls that can be drawn larger by itself. A wall that meets no other has its
    elevation."""
    for number, marks in enumerate(connected(whole.subject.views), start=1):
        if 1 < len(marks) < len(whole.subject.views):
            part = _Plan(
                whole.subject.only(marks),
                metrics=whole.metrics,
                width=whole.width,
                of=f" of {_named(marks)}",
                key=f"{PLAN_KEY}-{number}",
            )
            own = part.scale(tallest)
            if own.ratio < scale.ratio:
                yield part, own


def _named(marks: list[str]) -> str:
    return ", ".join(marks) if len(marks) <= 6 else f"{', '.join(marks[:5])} and {len(marks) - 5} more"


def connected(views: Mapping[str, WallView]) -> list[list[str]]:
    """Walls that meet, directly or through others, together; in the order of the project."""
    places = {mark: place for place, mark in enumerate(views)}
    group: dict[str, list[str]] = {}
    for mark in views:
        if mark in group:
            continue
        found, waiting = {mark}, [mark]
        while waiting:
            for support in views[waiting.pop()].supports:
                if support.by in views and support.by not in found:
                    found.add(support.by)
                    waiting.append(support.by)
        ordered = sorted(found, key=places.__getitem__)
        group |= dict.fromkeys(ordered, ordered)
    return list({id(marks): marks for marks in group.values()}.values())


@record
class _Plan:
    """`again` are walls that have a larger plan of their own, so that this one need not carry all."""

    subject: PlanSubject
    metrics: TextMetrics
    width: float
    of: str
    key: str
    again: frozenset[str] = frozenset()

    def _sizes(self, scale: Scale) -> tuple[float, float]:
        left, bottom, right, top = self.subject.shape.box
        return (right - left) * scale.per_metre, (top - bottom) * scale.per_metre

    def scale(self, tallest: float) -> Scale:
        def fits(one: Scale) -> bool:
            across = self._sizes(one)[0]
            return across + LEFT + RIGHT <= self.width and self._needed(one) <= tallest

        return largest(self.metrics.writer.system, fits, _LARGEST)

    def _needed(self, scale: Scale) -> float:
        return self._sizes(scale)[1] + ABOVE + BELOW

    def draft(self, scale: Scale) -> Draft:
        alt = plan_alt(self._name, self.subject, self.metrics.writer)
        return Draft(
            self.key,
            name=self._name,
            alt=alt,
            least=self._needed(scale),
            draw=lambda height: self._drawn(scale, height),
            notes=self._notes(scale),
        )

    @property
    def _name(self) -> str:
        return f"Plan{self.of or ' of the walls'} at the foot of the earth"

    def _notes(self, scale: Scale) -> tuple[str, ...]:
        notes = [
            "Walls as thick as at their foot, finishes not drawn. Lengths along a wall run on its centerline "
            "(dash and dot), from where it starts to where it ends; the outermost dimensions run from face to face. "
            "The grid is that of the coordinates in the description."
        ]  # fmt: skip
        if self.again:
            notes.append("Groups of walls that meet are drawn again, larger, with their openings and supports.")
        if scale.ratio > _DIMENSIONED:
            notes.append("At this scale each wall is dimensioned as a whole; the elevations carry the rest.")
        unclear = [mark for mark, one in self.subject.buttresses.items() if self.subject.outside.get(one.wall) is None]
        if unclear:
            notes.append(
                f"Buttress {', '.join(unclear)}: the plan does not tell which face of the wall is outside; taken as "
                "the right of its line, from start to end."
            )
        return tuple(notes)

    def _drawn(self, scale: Scale, height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, self.width, height), self.metrics)
        spare = max(height - self._needed(scale), 0.0)
        aside = (self.width - LEFT - RIGHT - self._sizes(scale)[0]) / 2
        face = PlanFace(board, subject=self.subject, scale=scale, left=LEFT + aside, bottom=BELOW + spare / 2)
        draw_north(face)
        draw_plan_body(face)
        draw_overall(face)
        if not self.again:
            draw_chains(face, scale.ratio <= _DIMENSIONED)
        draw_raster(face)
        draw_marks(face, self.again)
        return Drawing(
            self.key,
            name=self._name,
            scale=scale,
            width=self.width,
            height=height,
            items=board.finished(),
            notes=self._notes(scale),
            unset=tuple(board.unset),
            origin=face.at((0.0, 0.0)),
        )
