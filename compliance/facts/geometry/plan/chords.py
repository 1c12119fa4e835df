"""Arcs drawn as chords: straight walls that turn a little, all the same way, with their corners on one circle; in part
perhaps drawn as the arc that they are chords of."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from compliance.facts.geometry.plan.chains import Chain, Link, Turn, turn_between
from compliance.model.lines import Circular, Point, arc_through
from compliance.record import record

STRAIGHT_ON = math.radians(1)
"""Walls that turn by no more go straight on."""
SAME_CIRCLE = 0.02
MOST_TURN = math.tau * 0.99
MOST_CHORD_TURN = math.radians(15.5)
"""15 degrees, and what rounding coordinates to inches does to them."""
_FEWEST_CHORDS = 3
"""The corners of two lie on a circle however they turn."""
_SAME = 1e-6
_UNEVEN = 0.25
"""Of a turn: by how much it may differ from that of chords of these lengths in a circle, where coordinates are rounded
to whole inches."""

Group = tuple[Link, ...]
Alike = Callable[[Link, Link], bool]


def join_chords(groups: Sequence[Group], alike: Alike) -> Iterator[Group]:
    """The groups of links of a chain, in order, those that are chords of one arc, or parts of it, and built `alike` as
    one group."""
    chords: list[Group] = []
    for group in groups:
        if chords and not _runs_on(chords, group, alike):
            if len(chords) >= _FEWEST_CHORDS:
                yield _together(chords)
                chords = []
            while chords and not _runs_on(chords, group, alike):
                yield chords.pop(0)
        chords.append(group)
    if len(chords) >= _FEWEST_CHORDS:
        yield _together(chords)
    else:
        yield from chords


def arc_of_chords(links: Sequence[Link]) -> Circular | None:
    """The arc through the first corner, one in the middle and the last, with a radius that makes it as long as the
    links together, so that stations along both agree: chords of 15 degrees are 0.29 percent shorter than their arc."""
    corners = _corners(links)
    arc = arc_through(corners[0], corners[len(corners) // 2], corners[-1])
    length = links[-1].end - links[0].start
    return arc and Circular(arc.centre, length / abs(arc.sweep), arc.first, arc.sweep)


def direction_at(chain: Chain, s: float) -> Point:
    """The direction of a chain at a station; where it is drawn as chords that of their arc, from which a chord turns by
    half of 15 degrees."""
    for links, arc in _arcs_drawn(chain):
        if links[0].start <= s <= links[-1].end:
            return arc.direction(s - links[0].start)
    return chain.direction(s)


def turns_of(chain: Chain) -> Iterator[Turn]:
    """Every joint that turns and every arc, also one that is drawn as chords, in order; the joint that closes the chain
    last."""
    parts = list(_parts(chain))
    for place, one in enumerate(parts):
        if one.angle:
            yield Turn(one.start, one.end, one.angle)
        if place + 1 < len(parts) or chain.closed:
            (ax, ay), (bx, by) = one.last, parts[(place + 1) % len(parts)].first
            angle = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
            if abs(angle) > _SAME:
                yield Turn(one.end, one.end, angle)


@record
class _Part:
    """A wall of a chain, or the arc that several are chords of: its stations [m], its directions at both ends, and the
    signed angle by which it turns [rad]."""

    start: float
    end: float
    first: Point
    last: Point
    angle: float


def _parts(chain: Chain) -> Iterator[_Part]:
    drawn = {links[0].start: (links, arc) for links, arc in _arcs_drawn(chain)}
    of_arcs = {link.start for links, _ in drawn.values() for link in links}
    for link in chain.links:
        if link.start in drawn:
            links, arc = drawn[link.start]
            first, last = arc.direction(0.0), arc.direction(arc.length)
            yield _Part(link.start, links[-1].end, first=first, last=last, angle=arc.sweep)
        elif link.start not in of_arcs:
            line = link.wall.line
            sweep = line.sweep if isinstance(line, Circular) else 0.0
            first, last = link.direction(link.start), link.direction(link.end)
            yield _Part(link.start, link.end, first=first, last=last, angle=-sweep if link.turned else sweep)


def _arcs_drawn(chain: Chain) -> list[tuple[Group, Circular]]:
    """The walls of a chain that are chords, with the arcs that they are of."""
    if len(chain.links) < _FEWEST_CHORDS or chain.closed:
        return []
    straight_on = [[chain.links[0]]]
    for before, link in pairwise(chain.links):
        if turn_between(before, link) <= STRAIGHT_ON:
            straight_on[-1].append(link)
        else:
            straight_on.append([link])
    groups = [tuple(links) for links in straight_on]
    joined = [links for links in join_chords(groups, lambda one, other: True) if links not in groups]
    return [(links, arc) for links in joined if (arc := arc_of_chords(links))]


def _runs_on(chords: Sequence[Group], group: Group, alike: Alike) -> bool:
    return alike(chords[-1][-1], group[0]) and _on_arc([*chords, group])


def _together(chords: Sequence[Group]) -> Group:
    return tuple(link for chord in chords for link in chord)


def _on_arc(chords: Sequence[Group]) -> bool:
    """Whether straight groups, and arcs of that circle, turn a little into each other, all one way, with their corners
    on one circle and by less than a whole one."""
    links = _together(chords)
    turns = [_signed_turn(one[-1], other[0]) for one, other in pairwise(chords)]
    if not all(_SAME < abs(turn) <= MOST_CHORD_TURN and turn * turns[0] > 0 for turn in turns):
        return False
    arc = arc_of_chords(links)
    if arc is None or abs(arc.sweep) > MOST_TURN:
        return False
    within = SAME_CIRCLE * arc.radius
    drawn = [link.wall.line for link in links if isinstance(link.wall.line, Circular)]
    if any(max(math.dist(arc.centre, one.centre), abs(arc.radius - one.radius)) > within for one in drawn):
        return False
    halves = [_half_turn(chord, arc.radius) for chord in chords]
    return all(abs(math.dist(arc.centre, corner) - arc.radius) <= within for corner in _corners(links)) and all(
        abs(abs(turn) - one - other) <= _UNEVEN * abs(turn)
        for turn, (one, other) in zip(turns, pairwise(halves), strict=True)
    )


def _half_turn(chord: Group, radius: float) -> float:
    """By how much the circle turns from the end of a chord to its direction; an arc runs with it."""
    if isinstance(chord[0].wall.line, Circular):
        return 0.0
    return math.asin(min((chord[-1].end - chord[0].start) / 2 / radius, 1.0))


def _signed_turn(one: Link, other: Link) -> float:
    (ax, ay), (bx, by) = one.direction(one.end), other.direction(other.start)
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def _corners(links: Sequence[Link]) -> list[Point]:
    """The start of the first link, each place at which one turns into the next, and the end of the last."""
    turning = [other for one, other in pairwise(links) if abs(_signed_turn(one, other)) > _SAME]
    return [_end(link, 0.0) for link in (links[0], *turning)] + [_end(links[-1], 1.0)]


def _end(link: Link, share: float) -> Point:
    """A place on a link, by the share of its length from its start along the chain."""
    length = link.wall.line.length
    return link.wall.line.point(length * (1 - share if link.turned else share))
