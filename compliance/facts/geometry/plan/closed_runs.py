"""A round closed ring built alike all round is one wall, drawn as arcs or as short chords, in however many pieces.

It begins where the drawing has no say: in the middle of its longest solid length, beside openings, loads and
buttresses.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

from compliance.facts.geometry.plan.chains import Chain, Link, turn_between
from compliance.facts.geometry.plan.chords import MOST_CHORD_TURN, turns_of
from compliance.model.lines import Circular, Point, Straight

_SAME = 1e-6


def is_one_wall(chain: Chain, alike: Callable[[Link, Link], bool]) -> bool:
    """Whether a round closed chain is one wall: all its pieces are alike and none turns more than a chord into the
    next."""
    pairs = [*pairwise(chain.links), (chain.links[-1], chain.links[0])]
    return all(alike(one, other) and turn_between(one, other) <= MOST_CHORD_TURN for one, other in pairs)


def station_of_start(chain: Chain, marks: Iterable[float]) -> float:
    """The middle of the longest solid length of a closed chain; of one without openings, of that between the `marks`
    of what stands on it, and of one with nothing where it is drawn from [m]."""
    length = chain.length
    edges = list(chain.holes) or [(at, at) for at in sorted(mark % length for mark in marks)]
    if not edges:
        return 0.0
    around = [*edges, (edges[0][0] + length, edges[0][1] + length)]
    solid = [(after[0] - before[1], before[1]) for before, after in pairwise(around)]
    longest = max(width for width, _ in solid)
    width, start = next((width, start) for width, start in solid if width >= longest - _SAME)
    return (start + width / 2) % length


def line_of_ring(chain: Chain, start: float, turned: bool) -> Circular:
    """The circle of a round closed chain, as long as it is, from a station on, against its sense where `turned`."""
    centre = _centroid(chain.links)
    x, y = chain.point(start)
    sense = math.copysign(1.0, math.fsum(one.angle for one in turns_of(chain)))
    first = math.atan2(y - centre[1], x - centre[0])
    return Circular(centre, chain.length / math.tau, first, (-sense if turned else sense) * math.tau)


def _centroid(links: Sequence[Link]) -> Point:
    """Of the center lines, by their lengths."""
    length = links[-1].end - links[0].start
    parts = [(one.wall.line.length / length, *centroid_of_line(one.wall.line)) for one in links]
    return math.fsum(share * x for share, x, _ in parts), math.fsum(share * y for share, _, y in parts)


def centroid_of_line(line: Straight | Circular) -> Point:
    """Of a line's length: the middle of a straight one, inside its curve for an arc."""
    x, y = line.point(line.length / 2)
    if isinstance(line, Straight):
        return x, y
    half = abs(line.sweep) / 2
    share = math.sin(half) / half
    return line.centre[0] + share * (x - line.centre[0]), line.centre[1] + share * (y - line.centre[1])
