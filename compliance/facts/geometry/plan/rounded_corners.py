"""Corners that are rounded or cut off: a stretch that turns enough within a short way is held as at a sharp one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.facts.geometry.plan.chains import Chain, Turn
from compliance.facts.geometry.wall_plan import SupportRules
from compliance.record import record

_SAME = 1e-7


@record
class Corner:
    """A rounded corner: the station at which half of its turn is made [m], and the whole turn [rad]."""

    station: float
    angle: float


def rounded_corners(chain: Chain, rules: SupportRules) -> list[Corner]:
    """Where a chain turns by `least_angle` within `corner_share` thicknesses, the sharpest first, none in another."""
    turns = list(_around(chain))
    if not turns:
        return []
    within = rules.corner_share * max(link.wall.thickness for link in chain.links)
    starts = sorted({start for one in turns for start in (one.start, one.end, one.start - within, one.end - within)})
    found: list[Corner] = []
    while starts:
        most = max(abs(_turned(turns, start, start + within)) for start in starts)
        if most < rules.least_angle * (1 - 1e-9):
            break
        best = [start for start in starts if abs(_turned(turns, start, start + within)) >= most - _SAME]
        first = best[0]
        last = max(
            start
            for start in best
            if start <= first + within or _steady(turns, first=first, last=start, within=within, most=most)
        )
        found.append(_corner(turns, first, last + within))
        starts = [start for start in starts if start + within <= first + _SAME or start >= last + within - _SAME]
    if chain.closed:
        found = [one for one in found if -_SAME <= one.station < chain.length - _SAME]
    return found


def _around(chain: Chain) -> Iterator[Turn]:
    """Every turn; of a closed chain those of the rounds before and after as well."""
    for off in (-chain.length, 0.0, chain.length) if chain.closed else (0.0,):
        for one in chain.turns():
            yield Turn(one.start + off, one.end + off, one.angle)


def _turned(turns: Sequence[Turn], start: float, end: float) -> float:
    """The angle by which a chain turns from one station to another, joints at both counted [rad]."""
    total = 0.0
    for one in turns:
        if one.end - one.start <= _SAME:
            total += one.angle * (start - _SAME <= one.start <= end + _SAME)
        else:
            total += one.angle * max(min(one.end, end) - max(one.start, start), 0.0) / (one.end - one.start)
    return total


def _steady(turns: Sequence[Turn], first: float, last: float, within: float, most: float) -> bool:
    """Whether the chain turns as much all the way from one start to another: along one arc. Seen closely enough that no
    wall between two corners is stepped over."""
    parts = max(8, math.ceil(4 * (last - first) / within))
    steps = (first + (last - first) * place / parts for place in range(parts + 1))
    return all(abs(_turned(turns, start, start + within)) >= most - _SAME for start in steps)


def _corner(turns: Sequence[Turn], start: float, end: float) -> Corner:
    """The station is found by halving."""
    whole = _turned(turns, start, end)
    low, high = start, end
    for _ in range(60):
        middle = (low + high) / 2
        if abs(_turned(turns, start, middle)) < abs(whole) / 2:
            low = middle
        else:
            high = middle
    joint = next((one.start for one in turns if abs(one.start - high) <= 1e-6 and one.end - one.start <= _SAME), high)
    return Corner(joint, min(abs(whole), math.pi / 2))
