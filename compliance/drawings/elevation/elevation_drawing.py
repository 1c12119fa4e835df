"""The elevation of a wall: its face unrolled along the centre line, to the largest usual scale that fits."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.drawings.alt_texts import elevation_alt
from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.draft import Draft, elevation_key
from compliance.drawings.common.lettering import one_line
from compliance.drawings.common.primitives import Box, Drawing
from compliance.drawings.common.scales import Scale, largest
from compliance.drawings.elevation.elevation_body import draw_body
from compliance.drawings.elevation.elevation_flags import flags_shown
from compliance.drawings.elevation.elevation_labels import draw_labels
from compliance.drawings.elevation.elevation_measures import chains_below, depth_below, draw_chains_below, draw_heights
from compliance.drawings.elevation.elevation_notes import elevation_notes
from compliance.drawings.elevation.wall_face import Face, WallSubject
from compliance.record import record

_LEFT, _RIGHT = 58.0, 84.0
"""What heights and levels take beside the wall, in points."""
_ABOVE, _FOOT = 30.0, 3.0
_LARGEST = 16.0
_SMALLEST_WHOLE = 100.0
"""Below this scale a wall is drawn in parts rather than smaller."""
_SMALLEST_UNPARTED = 200.0
"""Below this one even where a part has to end inside a pier."""


def elevations(subject: WallSubject, metrics: TextMetrics, width: float, rooms: Sequence[float]) -> list[Draft]:
    """The elevation of a wall, in parts where it is too long for one. `rooms` are heights on a page, least first: the
    first is taken in which the scale stays legible, else the last."""
    ranges = _ranges(subject, metrics, width)
    parts = []
    for index, (low, high) in enumerate(ranges):
        part = f", part {index + 1} of {len(ranges)}" if len(ranges) > 1 else ""
        parts.append(_Elevation(subject, metrics=metrics, width=width, low=low, high=high, part=part, first=index == 0))
    scale = max((part.scale(rooms) for part in parts), key=lambda one: one.ratio)
    return [part.draft(scale) for part in parts]


def _ranges(subject: WallSubject, metrics: TextMetrics, width: float) -> list[tuple[float, float]]:
    """The whole wall, or stretches that each begin and end with a whole pier shown in both, so that no dimension is
    cut. Where no pier is short enough the wall stays whole down to a still smaller scale; below that stretches meet at
    what supports the wall, and where nothing does, at even lengths."""
    first, last = -subject.beyond(True), subject.length + subject.beyond(False)

    def room(ratio: float) -> float:
        scale = largest(metrics.writer.system, lambda scale: True, ratio * 0.9)
        return (width - _LEFT - _RIGHT) / scale.per_metre

    piers = [(pier.start, pier.end) for pier in subject.view.opened.piers[1:-1]]
    reach = sorted((one.s - one.half_width, one.s + one.half_width) for one in subject.view.supports)
    holes = subject.view.opened.holes
    supports = [(a, b) for a, b in reach if not any(hole.start < b and a < hole.end for hole in holes)]
    parted = list(_parted(subject, room(_SMALLEST_WHOLE), piers))
    if len(parted) > 1 or last - first <= room(_SMALLEST_UNPARTED):
        return parted
    return list(_parted(subject, room(_SMALLEST_WHOLE), piers, supports, evenly=True))


def _parted(
    subject: WallSubject, room: float, *places: Sequence[tuple[float, float]], evenly: bool = False
) -> Iterator[tuple[float, float]]:
    """Stretches no longer than `room` that meet at `places`, the first kind of them that serves; the whole where none
    does."""
    first, last = -subject.beyond(True), subject.length + subject.beyond(False)
    low, found = first, []
    while last - low > room:
        cut = next((one for kind in places if (one := _cut(kind, low, room))), None)
        start, end = cut or (_even(subject, low, last, room) if evenly else (first, last))
        if start <= max(low, 0.0) + 1e-9:
            yield first, last
            return
        found.append((low, end))
        low = start
    yield from (*found, (low, last))


def _cut(places: Sequence[tuple[float, float]], low: float, room: float) -> tuple[float, float] | None:
    """The last of the places that lies whole within `room` from `low`."""
    fitting = [(start, end) for start, end in places if end - low <= room and start > max(low, 0.0) + 1e-9]
    return fitting[-1] if fitting else None


def _even(subject: WallSubject, low: float, last: float, room: float) -> tuple[float, float]:
    """Where the rest falls into even lengths, before an opening rather than inside it."""
    s = low + (last - low) / math.ceil((last - low) / room)
    for hole in reversed(subject.view.opened.holes):
        if hole.start < s < hole.end:
            s = hole.start
    return s, s


@record
class _Elevation:
    subject: WallSubject
    metrics: TextMetrics
    width: float
    low: float
    high: float
    part: str
    first: bool

    def scale(self, rooms: Sequence[float]) -> Scale:
        scales = [self._largest(tallest) for tallest in rooms]
        return next((one for one in scales if one.ratio <= _SMALLEST_WHOLE), scales[-1])

    def _largest(self, tallest: float) -> Scale:
        def fits(one: Scale) -> bool:
            across = (self.high - self.low) * one.per_metre
            return across <= self.width - _LEFT - _RIGHT and self._needed(one) <= tallest

        return largest(self.metrics.writer.system, fits, _LARGEST)

    def draft(self, scale: Scale) -> Draft:
        key = elevation_key(self.subject.view.mark) + (
            "" if self.first else self.part.replace(" ", "-").replace(",", "")
        )
        return Draft(
            key,
            name=self._name(),
            alt=self._alt(scale),
            least=self._needed(scale),
            draw=lambda height: self._drawn(key, scale, height),
            notes=self._notes(scale),
        )

    def _name(self) -> str:
        wall, subject = self.subject.parts.wall, self.subject
        seen = "outside" if subject.outside is not None else "the right of its line"
        curved = "unrolled and " if wall.arc else ""
        named = f": {one_line(wall.name)}" if wall.name else ""
        return f"Elevation of {subject.view.mark}{self.part}, {curved}seen from {seen}{named}"

    def _face(self, scale: Scale, board: Board, foot: float) -> Face:
        left = board.frame.left + _LEFT
        slack = self.width - _LEFT - _RIGHT - (self.high - self.low) * scale.per_metre
        return Face(
            board,
            subject=self.subject,
            scale=scale,
            low=self.low,
            high=self.high,
            left=left + max(slack, 0.0) / 2,
            foot=foot,
        )

    def _below(self, scale: Scale) -> float:
        """From the foot of the earth down to the lowest line of the drawing."""
        board = Board(Box(0.0, 0.0, self.width, 1e6), self.metrics)
        face = self._face(scale, board, 0.0)
        down = -self.subject.parts.levels.lowest * scale.per_metre
        return down + depth_below(chains_below(face), self.metrics, board.frame) + _FOOT

    def _needed(self, scale: Scale) -> float:
        return _ABOVE + self.subject.highest * scale.per_metre + self._below(scale)

    def _notes(self, scale: Scale) -> tuple[str, ...]:
        return elevation_notes(self._face(scale, Board(Box(0.0, 0.0, self.width, 1e6), self.metrics), 0.0))

    def _alt(self, scale: Scale) -> str:
        face = self._face(scale, Board(Box(0.0, 0.0, self.width, 1e6), self.metrics), 0.0)
        holes = [one for one in self.subject.view.opened.holes if face.shows((one.start + one.end) / 2)]
        return elevation_alt(
            self._name(), subject=self.subject, holes=holes, flags=flags_shown(face), writer=self.metrics.writer
        )

    def _drawn(self, key: str, scale: Scale, height: float) -> Drawing:
        """Room to spare is left above and below the wall alike."""
        board = Board(Box(0.0, 0.0, self.width, height), self.metrics)
        spare = max(height - self._needed(scale), 0.0)
        face = self._face(scale, board, self._below(scale) + spare * 0.4)
        draw_body(face)
        draw_chains_below(face, chains_below(face), face.y(self.subject.parts.levels.lowest))
        draw_heights(face)
        draw_labels(face)
        return Drawing(
            key,
            name=self._name(),
            scale=scale,
            width=self.width,
            height=height,
            items=board.finished(),
            notes=self._notes(scale),
            unset=tuple(board.unset),
        )
