"""Findings that break a limit, marked in an elevation at the place they are about."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.drawings.common.board import LabelLine
from compliance.drawings.common.draft import Flag
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Point, box_about
from compliance.drawings.elevation.wall_face import Face
from compliance.facts.geometry.wall_facts import largest_gap

_MOST_TOGETHER = 5
_ALONG = frozenset(
    f"wall.{name}"
    for name in (
        "length", "unsupported_length", "support_count", "free_ends", "opening_share", "support_overturning",
        "support_sliding",
    )
)  # fmt: skip
"""Facts whose findings stand along the wall, not by its height."""


def flags_shown(face: Face) -> list[Flag]:
    """The findings whose place lies in the drawn part of the wall."""
    return [flag for flag in face.subject.flags if _place(face, flag) is not None]


def draw_flags(face: Face) -> None:
    """Findings that break a limit, those of one place together."""
    places: dict[Point, list[Flag]] = {}
    for flag in face.subject.flags:
        place = _place(face, flag)
        if place is not None:
            places.setdefault(place, []).append(flag)
    for point, flags in places.items():
        for start in range(0, len(flags), _MOST_TOGETHER):
            _flag_label(face, point, flags[start : start + _MOST_TOGETHER])


def _flag_label(face: Face, point: Point, flags: Sequence[Flag]) -> None:
    """At the place itself, else over or under it, or beside it if it is about no opening or pier; else led to it."""
    lines = [LabelLine(one.code, Role.CODE, one.mark, one.link) for one in flags]
    named = f"{face.subject.view.mark}: " + ", ".join(
        f"{one.code} ({one.mark.lower()}) at {one.about} {one.subject}".rstrip() for one in flags
    )
    wide, high = face.board.size(lines)
    x, y = point
    shifts = (0.0, *(sign * step for step in range(3, 36, 3) for sign in (-1, 1)))
    floor = min(y, face.foot) - high / 2 if y < face.foot else face.foot
    aside = shifts if flags[0].about not in ("opening", "pier") else (0.0,)
    near = (box_about((x + across, y + shift), wide, high) for across in aside for shift in shifts)
    box = face.board.placer.first(spot for spot in near if spot.bottom >= floor)
    if box is not None:
        face.board.write(lines, box, plate=True)
        return
    face.board.label(lines, around(point, wide, high), named, point, plate=True)


def _place(face: Face, flag: Flag) -> Point | None:
    """Where on the page a finding belongs; None where that part of the wall is not drawn here."""
    view, levels = face.subject.view, face.subject.parts.levels
    middle = (max(face.low, 0.0) + min(face.high, face.subject.length)) / 2
    for hole in view.opened.holes:
        if flag.about == "opening" and hole.mark == flag.subject:
            return _shown(face, (hole.start + hole.end) / 2, hole.sill + hole.height / 4)
    for pier in view.opened.piers:
        if flag.about == "pier" and pier.mark == flag.subject:
            return _shown(face, (pier.start + pier.end) / 2, levels.top * 0.42)
    footing = [one for one in (levels.footing_bottom, levels.footing_top) if one is not None] or [levels.lowest]
    heights = {
        "stem": (levels.grade or 0.0) / 2, "footing": sum(footing) / len(footing),
        "beam": (levels.top + levels.highest) / 2,
    }  # fmt: skip
    if flag.part in heights:
        return face.at(middle, heights[flag.part])
    if not _ALONG.isdisjoint(flag.facts):
        start, end, _ = largest_gap([one.s for one in view.supports if not one.why_not], face.subject.length)
        return _shown(face, (start + end) / 2, levels.top * 0.12)
    at_left = face.subject.length if face.subject.mirrored else 0.0  # findings of the whole wall stand by its height
    return (face.left + 16.0, face.y(levels.top * 0.5)) if face.shows(at_left) else None


def _shown(face: Face, s: float, height: float) -> Point | None:
    return face.at(s, height) if face.shows(s) else None
