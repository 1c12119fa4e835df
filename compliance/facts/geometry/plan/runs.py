"""Pieces of one wall: walls described one after another that go straight on, or around one circle, and are built alike.

A wall described in pieces is one wall. Everything that depends on its length is worked out for the whole. Three
straight walls or more that turn a little, all one way, with their corners on one circle, are an arc drawn as chords.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from itertools import pairwise
from typing import Any

from compliance.facts.geometry.plan.chains import Chain, Link, turn_between
from compliance.facts.geometry.plan.chords import (
    MOST_CHORD_TURN,
    MOST_TURN,
    SAME_CIRCLE,
    STRAIGHT_ON,
    arc_of_chords,
    join_chords,
)
from compliance.facts.geometry.plan.closed_runs import is_one_wall, line_of_ring, station_of_start
from compliance.facts.geometry.plan.lateral_supports import Placed
from compliance.model.lines import Circular, Line, Straight, arc_through
from compliance.model.project import Project
from compliance.model.walls import Opening, PointLoad, Wall, WallBuild
from compliance.record import record
from compliance.units import Measure

_BUILD = tuple(name for name in WallBuild.model_fields if name != "note")


@record
class Run:
    """Pieces of one wall in order, called by the mark of the one described first; `wall` is the whole with all
    openings and loads, those of other pieces under `PIECE.MARK`, by stations from its start. It runs along the chain
    from `start` to `end` [m]; a `closed` one comes back to where it begins."""

    mark: str
    pieces: tuple[Link, ...]
    wall: Wall
    line: Line
    turned: bool
    start: float
    end: float
    closed: bool = False

    @property
    def marks(self) -> tuple[str, ...]:
        return tuple(one.wall.mark for one in self.pieces)


def find_runs(project: Project, placed: Mapping[str, Placed]) -> dict[str, Run]:
    """The run of every wall. Those of one run share one record."""
    order = {mark: index for index, mark in enumerate(project.walls)}
    bearings = _bearings(project)
    found: dict[str, Run] = {}
    for one in placed.values():
        if one.link.wall.mark in found:
            continue
        chain, alike = one.stretch.chain, partial(_built_alike, project, bearings)
        if one.stretch.ring and is_one_wall(chain, alike):
            run = _closed_run(chain, project, min(chain.links, key=lambda link: order[link.wall.mark]))
            found |= dict.fromkeys(run.marks, run)
            continue
        groups = tuple(_alike(_from_a_corner(chain, project, bearings), project, bearings))
        for pieces in join_chords(groups, alike):
            run = _run(pieces, project, min(pieces, key=lambda link: order[link.wall.mark]))
            found |= dict.fromkeys(run.marks, run)
    return found


def hole_mark(run_mark: str, wall: str, opening: str) -> str:
    """What an opening or a load of a piece is called in the whole."""
    return opening if wall == run_mark else f"{wall}.{opening}"


def piece_of(run_mark: str, mark: str) -> tuple[str, str]:
    """The piece, and the mark on it, of what the whole calls `mark`."""
    wall, dot, own = mark.partition(".")
    return (wall, own) if dot else (run_mark, mark)


def _bearings(project: Project) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = {}
    for mark, roof in project.roofs.items():
        for one in roof.bears_on:
            found.setdefault(one.wall, []).append((mark, one.model_copy(update={"wall": ""})))
    return found


def _from_a_corner(chain: Chain, project: Project, bearings: Mapping[str, list[Any]]) -> tuple[Link, ...]:
    """The links of a chain; of a closed one from a joint on at which one wall ends, where there is any, for no wall
    ends where the drawing happens to begin."""
    links = chain.links
    for place, link in enumerate(links if chain.closed else ()):
        before = links[place - 1]
        if not _built_alike(project, bearings, before, link) or turn_between(before, link) > MOST_CHORD_TURN:
            return (*links[place:], *(Link(one.wall, one.start + chain.length, one.turned) for one in links[:place]))
    return links


def _alike(links: Sequence[Link], project: Project, bearings: Mapping[str, list[Any]]) -> Iterator[tuple[Link, ...]]:
    """The links of a chain, those that make one wall together."""
    group = [links[0]]
    for before, link in pairwise(links):
        if _built_alike(project, bearings, before, link) and _one_line(group, link):
            group.append(link)
        else:
            yield tuple(group)
            group = [link]
    yield tuple(group)


def _built_alike(project: Project, bearings: Mapping[str, list[Any]], before: Link, link: Link) -> bool:
    one, other = before.wall.mark, link.wall.mark
    alike = all(getattr(project.walls[one], name) == getattr(project.walls[other], name) for name in _BUILD)
    return alike and bearings.get(one) == bearings.get(other)


def _one_line(group: Sequence[Link], link: Link) -> bool:
    one, other = group[-1].wall.line, link.wall.line
    if turn_between(group[-1], link) > STRAIGHT_ON:
        return False
    if isinstance(one, Straight) and isinstance(other, Straight):
        return turn_between(group[0], link) <= STRAIGHT_ON
    if not isinstance(one, Circular) or not isinstance(other, Circular):
        return False
    apart = max(math.dist(one.centre, other.centre), abs(one.radius - other.radius))
    total = math.fsum(abs(each.wall.line.sweep) for each in (*group, link) if isinstance(each.wall.line, Circular))
    return apart <= SAME_CIRCLE * one.radius and total <= MOST_TURN


def _run(pieces: tuple[Link, ...], project: Project, lead: Link) -> Run:
    mark, described = lead.wall.mark, project.walls[lead.wall.mark]
    start, length = pieces[0].start, pieces[-1].end - pieces[0].start
    if len(pieces) == 1:
        return Run(
            mark,
            pieces=pieces,
            wall=described,
            line=lead.wall.line,
            turned=lead.turned,
            start=start,
            end=start + length,
        )
    whole = _whole(pieces, project, lead, start=start, length=length)
    line = _line(pieces, lead)
    return Run(mark, pieces=pieces, wall=whole, line=line, turned=lead.turned, start=start, end=start + length)


def _closed_run(chain: Chain, project: Project, lead: Link) -> Run:
    loads = [link.along(load.at.si) for link in chain.links for load in project.walls[link.wall.mark].loads.values()]
    of = {link.wall.mark: link for link in chain.links}
    stands = [of[one.wall].along(one.at.si) for one in project.buttresses.values() if one.wall in of]
    start, length = station_of_start(chain, [*loads, *stands]), chain.length
    whole = _whole(chain.links, project, lead, start=start, length=length)
    line = line_of_ring(chain, start, lead.turned)
    return Run(
        lead.wall.mark, pieces=chain.links, wall=whole, line=line, turned=lead.turned, start=start, end=start + length,
        closed=True,
    )  # fmt: skip


def _whole(pieces: Sequence[Link], project: Project, lead: Link, start: float, length: float) -> Wall:
    """The piece that gives a run its mark, with the openings and loads of all."""
    mark, described = lead.wall.mark, project.walls[lead.wall.mark]
    openings: dict[str, Opening] = {}
    loads: dict[str, PointLoad] = {}
    for link in sorted(pieces, key=lambda one: one is not lead):
        wall = project.walls[link.wall.mark]

        def along(s: float, link: Link = link) -> float:
            at = link.along(s) - start
            at += length if at < -1e-6 else 0.0  # of a closed run, before the place where it begins
            return length - at if lead.turned else at

        for name, hole in wall.openings.items():
            first = min(along(hole.start.si), along(hole.start.si + hole.width.si))
            moved = Measure(first, hole.start.unit, hole.start.text)
            openings[hole_mark(mark, link.wall.mark, name)] = hole.model_copy(update={"start": moved})
        for name, load in wall.loads.items():
            moved = Measure(along(load.at.si), load.at.unit, load.at.text)
            loads[hole_mark(mark, link.wall.mark, name)] = load.model_copy(update={"at": moved})
    return described.model_copy(update={"openings": openings, "loads": loads})


def _line(pieces: tuple[Link, ...], lead: Link) -> Line:
    """From the first end to the last, in the sense of the piece that gives the run its mark."""

    def point(link: Link, share: float) -> tuple[float, float]:
        length = link.wall.line.length
        return link.wall.line.point(length * (1 - share if link.turned else share))

    ends = [point(pieces[0], 0.0), point(pieces[-1], 1.0)]
    start, end = ends[::-1] if lead.turned else ends
    if any(isinstance(one.wall.line, Straight) for one in pieces):
        if isinstance(lead.wall.line, Straight) and turn_between(pieces[0], pieces[-1]) <= STRAIGHT_ON:
            return Straight(start, end)
        drawn = arc_of_chords(pieces)
        assert drawn is not None
        return drawn.turned() if lead.turned else drawn
    middle = (pieces[0].start + pieces[-1].end) / 2
    link = next(one for one in pieces if one.start - 1e-9 <= middle <= one.end + 1e-9)
    arc = arc_through(start, point(link, (middle - link.start) / link.wall.line.length), end)
    assert arc is not None
    return arc
