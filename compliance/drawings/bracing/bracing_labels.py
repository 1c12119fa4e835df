"""The labels of a bracing plan: beside each solid length its wall, its share and its force."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.drawings.bracing.bracing_subject import LEAST_SHOWN, WIDEST, SharesSubject, Taken, share_text
from compliance.drawings.common.board import LabelLine
from compliance.drawings.common.draft import elevation_key
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Box
from compliance.drawings.common.regions import left_of, shifted
from compliance.drawings.plan.plan_face import PlanFace
from compliance.drawings.plan.plan_marks import beside


def draw_share_labels(face: PlanFace, subject: SharesSubject) -> None:
    """Wall and share, below it the force; the greatest shares first, so that they stand nearest."""
    writer = face.board.metrics.writer
    for one in sorted(subject.taken, key=lambda taken: -taken.share):
        if one.share < LEAST_SHOWN:
            continue
        lines = [LabelLine(f"{one.wall}  {share_text(one.share)}", Role.CODE, link=elevation_key(one.wall))]
        lines += [LabelLine(writer.write(one.force, "force"))] if math.isfinite(one.share) else []
        free = face.board.placer.first(_spots(face, one, *face.board.size(lines)))
        if free is not None:
            face.board.write(lines, free, plate=True)
        elif not _led(face, one, lines):
            face.board.unset.append(", ".join(entry.text for entry in lines))


def _led(face: PlanFace, one: Taken, lines: Sequence[LabelLine]) -> bool:
    """The label farther off, with a line to the edge of its bar."""
    line, wide = face.subject.views[one.wall].place.line, face.board.size(lines)
    s = (one.start + one.end) / 2
    for side in (1, -1):
        at = shifted(face.at(line.point(s)), *left_of(line, s), side * (0.75 * WIDEST + 0.5))
        free = face.board.placer.first(around(at, *wide, WIDEST), at)
        if free is not None:
            face.board.write(lines, free, plate=True)
            face.board.lead(at, free)
            return True
    return False


def _spots(face: PlanFace, one: Taken, width: float, height: float) -> Iterator[Box]:
    """Beside the middle of the length, then beside other places of it, on either side."""
    view = face.subject.views[one.wall]
    half = max(view.place.thickness / 2 * face.scale.per_metre, WIDEST / 2)
    outside = face.subject.outside.get(one.wall)
    sides = (-outside, outside) if outside is not None else (1, -1)
    for share in (0.5, 0.3, 0.7, 0.1, 0.9):
        s = one.start + share * (one.end - one.start)
        for side in sides:
            yield beside(face, line=view.place.line, s=s, side=side, clear=half + 2.5, width=width, height=height)
