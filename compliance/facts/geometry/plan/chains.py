"""Walls that run on end to end, laid out along one line: stations from its start, its openings, its turns."""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.geometry.plan.joints import End, turn
from compliance.facts.geometry.wall_plan import WallLine
from compliance.model.lines import Point
from compliance.record import record

_SAME = 1e-7


@record
class Link:
    """A wall of a chain: where it begins along the chain [m], and whether it is drawn against the chain's sense."""

    wall: WallLine
    start: float
    turned: bool

    @property
    def end(self) -> float:
        return self.start + self.wall.line.length

    def along(self, s: float) -> float:
        """The chain's station of a station on the wall."""
        return self.end - s if self.turned else self.start + s

    def on_wall(self, station: float) -> float:
        """The wall's station of one along the chain."""
        return self.end - station if self.turned else station - self.start

    def direction(self, station: float) -> Point:
        x, y = self.wall.line.direction(min(max(self.on_wall(station), 0.0), self.wall.line.length))
        return (-x, -y) if self.turned else (x, y)


@record
class Turn:
    """A part of a chain in which it turns: from a station to another [m], by a signed angle [rad]."""

    start: float
    end: float
    angle: float


@record
class Chain:
    """Walls in the order in which they run on. A `closed` chain runs on into its own start."""

    links: tuple[Link, ...]
    closed: bool

    @property
    def length(self) -> float:
        return self.links[-1].end

    def at(self, station: float) -> list[tuple[Link, float]]:
        """The links at a station, two at a joint, each with the station as it falls within the link."""
        length = self.length
        places = [station, station - length, station + length] if self.closed else [min(max(station, 0.0), length)]
        return [
            (one, min(max(place, one.start), one.end))
            for one in self.links for place in places if one.start - _SAME <= place <= one.end + _SAME
        ]  # fmt: skip

    def between(self, start: float, end: float) -> tuple[Link, ...]:
        """The links on which a length between two stations lies, in order; around the start of a closed chain, too."""
        rounds = (-self.length, 0.0, self.length) if self.closed else (0.0,)
        return tuple(
            one for off in rounds for one in self.links
            if min(one.end + off, end) - max(one.start + off, start) > _SAME
        )  # fmt: skip

    def point(self, station: float) -> Point:
        link, place = self.at(station)[0]
        return link.wall.line.point(link.on_wall(place))

    def direction(self, station: float) -> Point:
        """Of the chain at a station; at a joint the middle of both directions."""
        directions = [link.direction(place) for link, place in self.at(station)]
        x, y = (math.fsum(direction[axis] for direction in directions) for axis in (0, 1))
        size = math.hypot(x, y)
        return x / size, y / size

    @property
    def holes(self) -> tuple[tuple[float, float], ...]:
        """Openings along the chain, in order."""
        return tuple(
            sorted(
                (min(one.along(a), one.along(b)), max(one.along(a), one.along(b)))
                for one in self.links
                for a, b in one.wall.holes
            )
        )

    def solid_reaches(self, station: float) -> tuple[float, float]:
        """The solid lengths that run from a station back and forth to an opening or the chain's end [m]; zero within
        an opening. A station of a closed chain may lie past its start or end, as on a wall that runs over them."""
        holes, length = self.holes, self.length
        station = station % length if self.closed else station
        if any(start + _SAME < station < end - _SAME for start, end in holes):
            return 0.0, 0.0
        ends = [end for _, end in holes if end <= station + _SAME]
        starts = [start for start, _ in holes if start >= station - _SAME]
        last, first = 0.0, length
        if self.closed:
            last, first = station - length, station + length
            if holes:
                last, first = holes[-1][1] - length, holes[0][0] + length
        return station - max(ends, default=last), min(starts, default=first) - station

    def solid_beyond(self, station: float, sense: int) -> float:
        """The solid length from a station back or forth to the end, openings left out; of a closed chain all [m]."""
        start, end = (station, self.length) if sense > 0 else (0.0, station)
        if self.closed:
            start, end = 0.0, self.length
        return end - start - math.fsum(max(min(b, end) - max(a, start), 0.0) for a, b in self.holes)


def chains(walls: Mapping[str, WallLine], runs_on: Mapping[End, End]) -> tuple[Chain, ...]:
    """Every wall in one chain, in the order of the walls. A chain runs in the sense of its first wall."""
    found, used = [], set[str]()
    for mark in walls:
        if mark in used:
            continue
        start, closed = End(mark, False), False
        while (before := runs_on.get(start)) is not None:
            start = End(before.mark, not before.last)
            if start == End(mark, False):
                closed = True
                break
        links: list[Link] = []
        at = start
        while True:
            wall = walls[at.mark]
            links.append(Link(wall, links[-1].end if links else 0.0, at.last))
            used.add(at.mark)
            following = runs_on.get(End(at.mark, not at.last))
            if following is None or following == start:
                break
            at = following
        found.append(Chain(tuple(links), closed))
    return tuple(found)


def turn_between(one: Link, other: Link) -> float:
    """The angle by which a chain turns from one link to the next [rad]."""
    x, y = other.direction(other.start)
    return turn(one.direction(one.end), (-x, -y))
