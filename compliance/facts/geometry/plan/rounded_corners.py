"""Corners that are rounded or cut off: a stretch that turns enough within a short way is held as at a sharp one."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from compliance.facts.geometry.plan.chains import Chain, Turn
from compliance.facts.geometry.plan.chords import turns_of
from compliance.facts.geometry.wall_plan import SupportRules
from compliance.record import record

_SAME = 1e-7


@record
class Corner:
    """A rounded corner: the station at which half of its turn is made [m], and the whole turn [rad]."""

    station: float
    angle: float


def rounded_corners(chain: Chain, rules: SupportRules) -> list[Corner]:
    """Where a chain turns by `least_angle` within `corner_share` thicknesses, of the thickest walls first, then the
    sharpest, none in another. Of the walls that turn the thinnest counts: a thick one elsewhere rounds no corner."""
    turns = list(_around(chain))
    taken: list[tuple[float, float]] = []
    found: list[Corner] = []
    thicknesses = sorted({link.wall.thickness for link in chain.links}, reverse=True) if turns else []
    for thick in thicknesses:
        parts = None if thick == thicknesses[-1] else _parts_as_thick(chain, thick)
        found += _corners_within(turns, rules.corner_share * thick, rules.least_angle, taken=taken, parts=parts)
    if chain.closed:
        found = [one for one in found if -_SAME <= one.station < chain.length - _SAME]
    return found


def _parts_as_thick(chain: Chain, thick: float) -> list[tuple[float, float]]:
    """The lengths of a chain, rounds before and after as well, along which its walls are as thick as that. One at an
    open end has no end there: a corner may lie nearer to it than it is long."""
    parts: list[tuple[float, float]] = []
    for off in (-chain.length, 0.0, chain.length) if chain.closed else (0.0,):
        for link in chain.links:
            if link.wall.thickness < thick - _SAME:
                continue
            if parts and parts[-1][1] >= link.start + off - _SAME:
                parts[-1] = parts[-1][0], link.end + off
            else:
                parts.append((link.start + off, link.end + off))
    if not chain.closed:
        parts = [(a if a > _SAME else -math.inf, b if b < chain.length - _SAME else math.inf) for a, b in parts]
    return parts


def _corners_within(
    turns: Sequence[Turn],
    within: float,
    least_angle: float,
    taken: list[tuple[float, float]],
    parts: Sequence[tuple[float, float]] | None,
) -> Iterator[Corner]:
    """Corners that turn `within` a length, which lies in one of the `parts` where there are any and in nothing `taken`
    by another, to which each is added."""

    def free(start: float) -> bool:
        inside = parts is None or any(a - _SAME <= start and start + within <= b + _SAME for a, b in parts)
        return inside and not any(start + within > a + _SAME and start < b - _SAME for a, b in taken)

    edges = {start for one in turns for start in (one.start, one.end, one.start - within, one.end - within)}
    starts = sorted(filter(free, edges))
    while starts:
        most = max(abs(_turned(turns, start, start + within)) for start in starts)
        if most < least_angle * (1 - 1e-9):
            break
        best = [start for start in starts if abs(_turned(turns, start, start + within)) >= most - _SAME]
        first = best[0]
        last = max(
            start
            for start in best
            if start <= first + within or _steady(turns, first=first, last=start, within=within, most=most)
        )
        taken.append((first, last + within))
        yield _corner(turns, first, last + within)
        starts = [start for start in starts if start + within <= first + _SAME or start >= last + within - _SAME]


def _around(chain: Chain) -> Iterator[Turn]:
    """Every turn; of a closed chain those of the rounds before and after as well."""
    for off in (-chain.length, 0.0, chain.length) if chain.closed else (0.0,):
        for one in turns_of(chain):
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
