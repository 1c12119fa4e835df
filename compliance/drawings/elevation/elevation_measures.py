"""The dimensions of an elevation: openings and piers, bays between supports, the whole, and heights."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from compliance.drawings.common.board import TextMetrics
from compliance.drawings.common.dimension_chains import Span, chain, chain_depth, rows_needed, spans_between
from compliance.drawings.common.primitives import Box
from compliance.drawings.elevation.levels import height_spans
from compliance.drawings.elevation.wall_face import Face
from compliance.facts.geometry.openings import Hole

_FIRST = 7.0
"""From the lowest line of the wall down to the texts of the first chain, in points."""
_INSET = 4.0


def chains_below(face: Face) -> list[list[Span]]:
    """Chains from the nearest to the farthest: piers and openings, bays between counted supports, the whole length;
    of a part without any of these as much as it shows."""
    found = [
        spans for spans in (_openings_and_piers(face), _bays(face)) if len(spans) > 1 or (spans and not face.whole)
    ]
    if not found and not face.whole:
        shown = [max(face.low, 0.0), min(face.high, face.subject.length)]
        found.append(_spans(face, shown, [f"{face.subject.view.mark}, length in this part"]))
    if face.whole:
        found.append(_spans(face, [0.0, face.subject.length], [f"{face.subject.view.mark}, whole length"]))
    return found


def depth_below(chains: Sequence[Sequence[Span]], metrics: TextMetrics, frame: Box) -> float:
    """What the chains take below the wall, in points."""
    return _FIRST + sum(chain_depth(rows_needed(metrics, spans, frame.left, frame.right)) for spans in chains)


def draw_chains_below(face: Face, chains: Sequence[Sequence[Span]], lowest: float) -> None:
    """The chains under `lowest`, a height on the page."""
    board, y, foot = face.board, lowest - _FIRST, lowest - _INSET
    frame = board.frame
    for spans in chains:
        y -= chain_depth(rows_needed(board.metrics, spans, frame.left, frame.right))
        chain(board, spans=spans, at=y, least=frame.left, most=frame.right, feet=[foot] * len(spans), plate=True)
        foot = y - 1.0


def _spans(face: Face, stations: Sequence[float], subjects: Sequence[str]) -> list[Span]:
    return list(spans_between(stations, [face.x(s) for s in stations], subjects))


def _openings_and_piers(face: Face) -> list[Span]:
    """Piers, and between them what is open; openings over each other count as one."""
    view = face.subject.view
    piers = [pier for pier in view.opened.piers if face.shows(pier.start) and face.shows(pier.end)]
    spans = [_spans(face, [pier.start, pier.end], [f"{view.mark}, pier {pier.mark}"])[0] for pier in piers]
    for one, other in pairwise(view.opened.piers):
        if face.shows(one.end) and face.shows(other.start):
            spans.append(_spans(face, [one.end, other.start], [f"{view.mark}, width of {one.between[1]}"])[0])
    return sorted((span for span in spans if span.value > 1e-9), key=lambda span: span.low)


def bays(face: Face) -> list[tuple[float, float]]:
    """Stations between which nothing that counts holds the wall."""
    view = face.subject.view
    stations = sorted({0.0, face.subject.length, *(one.s for one in view.supports if not one.why_not)})
    return [(a, b) for a, b in pairwise(stations) if b - a > 1e-9]


def _bays(face: Face) -> list[Span]:
    subjects = [f"{face.subject.view.mark}, length between supports"]
    return [_spans(face, [a, b], subjects)[0] for a, b in bays(face) if face.shows(a) and face.shows(b)]


def draw_heights(face: Face) -> None:
    """Heights of the parts on the left, and at each opening its sill, its height and the earth over it."""
    mark = face.subject.view.mark
    spans = [
        Span(face.y(low), high=face.y(high), value=high - low, subject=f"{mark}, {says}", kind="length")
        for low, high, says in height_spans(face.subject.parts.levels)
    ]
    x = face.left - 24.0
    feet = [face.left - 2.0] * len(spans)
    frame = face.board.frame
    chain(
        face.board, spans=spans, at=x, least=frame.bottom, most=frame.top, upright=True, away=-1, feet=feet, plate=True
    )
    for hole in face.subject.view.opened.holes:
        if face.shows(hole.start) and face.shows(hole.end):
            _opening_heights(face, hole)


def _opening_heights(face: Face, hole: Hole) -> None:
    head, top = hole.sill + hole.height, face.subject.parts.levels.top
    mark = f"{face.subject.view.mark}.{hole.mark}"
    heights = ((0.0, hole.sill, "sill above the stem wall"), (hole.sill, head, "height"), (head, top, "earth over it"))
    spans = [
        Span(face.y(low), high=face.y(high), value=high - low, subject=f"{mark}, {says}", kind="length")
        for low, high, says in heights
        if high - low > 1e-9
    ]
    left, right = sorted((face.x(hole.start), face.x(hole.end)))
    x = right - min(_INSET, (right - left) / 4)
    chain(face.board, spans=spans, at=x, least=face.y(0.0), most=face.y(top), upright=True, away=-1, plate=True)
