"""Ends of walls that run on into one another, and ends that nearly meet another wall."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence

from compliance.facts.geometry.plan.meetings import body_gap, find_meetings
from compliance.facts.geometry.wall_plan import SupportRules, WallLine, neighbours
from compliance.model.lines import Point
from compliance.record import record

_SAME_TURN = 6
"""Decimals of a radian to which turns are compared: the first of two that differ by less is that of the first marks."""


@record
class End:
    """The first or the last end of a wall."""

    mark: str
    last: bool

    def station(self, wall: WallLine) -> float:
        return wall.line.length if self.last else 0.0

    def outward(self, wall: WallLine) -> Point:
        """The direction in which the wall's center line leaves it."""
        x, y = wall.line.direction(self.station(wall))
        return (x, y) if self.last else (-x, -y)


@record
class Meeting:
    """Two walls that meet, and the station on each [m]."""

    one: str
    s: float
    other: str
    t: float


def meetings_in(walls: Mapping[str, WallLine], rules: SupportRules) -> tuple[Meeting, ...]:
    """Every place where two walls of one story meet."""
    return tuple(
        Meeting(one.mark, s, other.mark, t)
        for one, other in neighbours(walls.values()) if one.story == other.story
        for s, t in find_meetings(one, other, rules.joint_gap)
    )  # fmt: skip


def joints(walls: Mapping[str, WallLine], meetings: Sequence[Meeting], rules: SupportRules) -> dict[End, End]:
    """For each end that runs on, the end of the wall it runs on in: of all ends that meet in one place the two with the
    least turn, where that is less than `least_angle`; then of those left."""
    turns = []
    for meeting in meetings:
        for one in _ends_at(walls[meeting.one], meeting.s, walls[meeting.other]):
            for other in _ends_at(walls[meeting.other], meeting.t, walls[meeting.one]):
                angle = turn(one.outward(walls[one.mark]), other.outward(walls[other.mark]))
                if angle < rules.least_angle * (1 - 1e-9):
                    turns.append((round(angle, _SAME_TURN), one.mark, one.last, other.mark, other.last))
    found: dict[End, End] = {}
    for _, mark, last, by, by_last in sorted(turns):
        one, other = End(mark, last), End(by, by_last)
        if one not in found and other not in found:
            found |= {one: other, other: one}
    return found


def turn(out: Point, back: Point) -> float:
    """The angle by which a way that leaves one end along `out` turns to enter another, whose own way out is `back`."""
    return math.acos(max(-1.0, min(1.0, -out[0] * back[0] - out[1] * back[1])))


def _ends_at(wall: WallLine, s: float, other: WallLine) -> Iterator[End]:
    """The ends of a wall that lie at a station, within half of the thicker wall."""
    reach = max(wall.thickness, other.thickness) / 2
    if s <= reach:
        yield End(wall.mark, False)
    if s >= wall.line.length - reach:
        yield End(wall.mark, True)


@record
class NearMiss:
    """An end of `wall` that stops `gap` [m] short of `other`, and is joined to nothing."""

    wall: str
    other: str
    gap: float


def near_misses(walls: Mapping[str, WallLine], rules: SupportRules) -> tuple[NearMiss, ...]:
    """Ends that nothing meets, with the wall each nearly reaches: the clear gap between the faces is more than a joint
    may have and no more than the thicker wall's thickness and `near_gap`."""
    meetings = meetings_in(walls, rules)
    taken = {
        end for meeting in meetings
        for end in (*_ends_at(walls[meeting.one], meeting.s, walls[meeting.other]),
                    *_ends_at(walls[meeting.other], meeting.t, walls[meeting.one]))
    }  # fmt: skip
    joined: dict[tuple[str, str], list[float]] = defaultdict(list)
    for meeting in meetings:
        joined[meeting.one, meeting.other].append(meeting.s)
        joined[meeting.other, meeting.one].append(meeting.t)
    nearest: dict[End, tuple[float, str]] = {}
    for pair in neighbours(walls.values()):
        for wall, other in (pair, pair[::-1]):
            most = max(wall.thickness, other.thickness) + rules.near_gap
            for end in (End(wall.mark, False), End(wall.mark, True)):
                station = end.station(wall)
                _, gap = body_gap(wall.line.point(station), other)
                if any(abs(station - s) <= most + other.thickness for s in joined.get((wall.mark, other.mark), ())):
                    continue  # the far end of a wall so short that the one it stands on is near
                if wall.story == other.story and end not in taken and gap <= most * (1 + 1e-9):
                    nearest[end] = min(nearest.get(end, (math.inf, "")), (gap, other.mark))
    return tuple(NearMiss(end.mark, mark, gap) for end, (gap, mark) in nearest.items())
