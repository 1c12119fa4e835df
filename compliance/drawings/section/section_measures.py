"""The dimensions of a section: heights on the outer side, floor and footing on the inner one, thicknesses across."""

from __future__ import annotations

from compliance.drawings.common.dimension_chains import Span, chain
from compliance.drawings.elevation.levels import height_spans
from compliance.drawings.section.section_body import roof_ends
from compliance.drawings.section.section_face import SectionFace, faces_at, half_widths, roof_drawn
from compliance.facts.geometry.wall_facts import ends_of_section

PAST_EAVE = 12.0
"""From the eave out to the line of heights, in points."""


def draw_heights(face: SectionFace) -> None:
    """Heights on the outer side, past the roof's overhang, the floor's on the inner one."""
    levels, mark = face.parts.levels, face.wall_type.walls[0]
    out, inside = half_widths(face.parts)
    spans = [_span(face, low, high, f"section {mark}, {says}") for low, high, says in height_spans(levels)]
    frame = face.board.frame
    ends = roof_ends(face)
    x = min(face.x(-out) - 22.0, ends[0][0] - PAST_EAVE if ends else face.x(-out))
    chain(
        face.board,
        spans=spans,
        at=x,
        least=frame.bottom,
        most=frame.top,
        upright=True,
        away=-1,
        feet=[face.x(-out) - 3.0] * len(spans),
        plate=True,
    )
    within = []
    if levels.floor is not None and levels.floor < 0:
        within.append((levels.floor, 0.0, "stem wall above the floor"))
    if levels.footing_bottom is not None and levels.footing_top is not None:
        within.append((levels.footing_bottom, levels.footing_top, "thickness of the footing"))
    for low, high, says in within:
        chain(
            face.board,
            spans=[_span(face, low, high, f"section {mark}, {says}")],
            at=face.x(inside) + 20.0,
            least=frame.bottom,
            most=frame.top,
            upright=True,
            away=1,
            feet=[face.x(inside) + 2.0],
            plate=True,
        )


def _span(face: SectionFace, low: float, high: float, subject: str) -> Span:
    return Span(face.y(low), high=face.y(high), value=high - low, subject=subject, kind="length")


def draw_widths(face: SectionFace) -> None:
    """Thicknesses across the wall at its top and foot, of the stem wall and the footing, and the overhang."""
    parts, levels, mark = face.parts, face.parts.levels, face.wall_type.walls[0]
    base, top = ends_of_section(parts.wall)
    high = max(face.y(levels.top) - 26.0, face.y(0.0) + 30.0)  # of a low wall over that of the foot
    rows = [(faces_at(parts, levels.top), top, high, "thickness of the earth at the top"),
            (faces_at(parts, 0.0), base, face.y(0.0) + 16.0, "thickness of the earth at the foot")]  # fmt: skip
    if parts.stem and parts.stem.thickness and levels.grade is not None and levels.grade < 0:
        half = parts.stem.thickness.si / 2
        rows.append(((-half, half), 2 * half, face.y(levels.grade / 2) - 8.0, "thickness of the stem wall"))
    if parts.footing and parts.footing.width and levels.footing_bottom is not None:
        half = parts.footing.width.si / 2
        rows.append(((-half, half), 2 * half, face.y(levels.footing_bottom) - 15.0, "width of the footing"))
    frame = face.board.frame
    for (left, right), value, y, says in rows:
        spans = [
            Span(face.x(left), high=face.x(right), value=value, subject=f"section {mark}, {says}", kind="thickness")
        ]
        chain(face.board, spans=spans, at=y, least=frame.left, most=frame.right, plate=True)
    found, ends = roof_drawn(parts), roof_ends(face)
    if found and ends and found[1].overhang and found[1].overhang.si > 0:
        outer = faces_at(parts, levels.top)[0]
        if abs(face.x(outer - found[1].overhang.si) - ends[0][0]) > 0.01:
            far = face.board.metrics.writer.write(found[1].overhang.si, "length")
            face.board.unset.append(f"section {mark}, overhang of the roof, cut off: {far}")
            return
        y = ends[0][1] - 11.0
        spans = [
            Span(
                ends[0][0],
                high=face.x(outer),
                value=found[1].overhang.si,
                subject=f"section {mark}, overhang of the roof",
                kind="length",
            )
        ]
        chain(face.board, spans=spans, at=y, least=frame.left, most=frame.right, away=-1, feet=[ends[0][1]], plate=True)
