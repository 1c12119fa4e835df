"""Marks of sections on the plan: a line through the wall, and at its end the number over the sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product

from compliance.drawings.common.draft import Cut
from compliance.drawings.common.primitives import Box, Bubble, Pen, Point, box_about
from compliance.drawings.common.regions import left_of, shifted
from compliance.drawings.plan.plan_face import PlanFace
from compliance.facts.geometry.wall_facts import WallView

RADIUS = 16.0
"""Of a mark, so that the number of a sheet fits into its lower half, in points."""
_PAST = 8.0
_OFF = (10.0, 26.0, 44.0, 64.0, 90.0)
"""How far from the face of the wall a mark may begin."""
_CLEAR = 0.3
"""From what meets the wall to where a section is taken, in m."""
_SHARES = ((0.5, 0.4, 0.6, 0.3, 0.7), (0.2, 0.8, 0.1, 0.9))
"""Where in a solid length a section may be taken, better places first."""


def draw_cuts(face: PlanFace, cuts: Sequence[Cut]) -> None:
    """Each where it runs over nothing else; one that finds no room is named."""
    for cut in cuts:
        view = face.subject.views[cut.wall]
        for box, back, front in _spots(face, view):
            if face.board.placer.free(box) and face.board.placer.is_clear_line(back, front):
                face.board.placer.take(box)
                face.board.stroke(back, box.nearest(front), pen=Pen.EDGE)
                face.board.items.append(Bubble(box.centre, RADIUS, cut.number, cut.key))
                break
        else:
            face.board.unset.append(f"Plan: section {cut.number} is taken through wall {cut.wall}")


def _spots(face: PlanFace, view: WallView) -> Iterator[tuple[Box, Point, Point]]:
    """Places of a mark with the ends of its line: through solid lengths, the longest first, inside before outside."""
    line, half = view.place.line, view.place.thickness / 2 * face.scale.per_metre
    outside = face.subject.outside.get(view.mark)
    inside = -outside if outside is not None else 1
    piers = [(pier.start, pier.end) for pier in view.opened.piers] or [(0.0, line.length)]
    longest = sorted(piers, key=lambda one: one[0] - one[1])
    for shares in _SHARES:
        stations = off_supports(view, [a + share * (b - a) for a, b in longest for share in shares])
        for off, side in product(_OFF, (inside, -inside)):
            for s in stations:
                (nx, ny), at = left_of(line, s), face.at(line.point(s))
                centre = shifted(at, side * nx, side * ny, half + off + RADIUS)
                back = shifted(at, -side * nx, -side * ny, half + _PAST)
                front = shifted(at, side * nx, side * ny, half + off)
                yield box_about(centre, 2 * RADIUS, 2 * RADIUS), back, front


def off_supports(view: WallView, stations: Sequence[float]) -> list[float]:
    """The stations where nothing meets the wall before those where something does."""
    return sorted(stations, key=lambda s: any(abs(s - one.s) <= one.half_width + _CLEAR for one in view.supports))
