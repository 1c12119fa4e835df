"""What meets each stretch of wall, and whether it counts as a lateral support by its place and size."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from compliance.facts.geometry.plan.chains import Chain, Link, chains
from compliance.facts.geometry.plan.chords import direction_at
from compliance.facts.geometry.plan.joints import Meeting, joints, meetings_in
from compliance.facts.geometry.plan.rounded_corners import Corner, rounded_corners
from compliance.facts.geometry.plan.stretches import Stretch, find_ring
from compliance.facts.geometry.wall_plan import Support, SupportRules, SupportSide, WallLine
from compliance.model.lines import angle_between
from compliance.model.walls import Buttress
from compliance.record import record, replace

RUNS_ON = "is the same wall, built without a joint"


@record
class Placed:
    """A wall as a part of its stretch."""

    stretch: Stretch
    link: Link


def find_stretches(
    walls: Mapping[str, WallLine], buttresses: Mapping[str, Buttress], rules: SupportRules
) -> dict[str, Placed]:
    """The stretch of every wall, with all that meets it."""
    meetings = meetings_in(walls, rules)
    runs_on = joints(walls, meetings, rules)
    found = chains(walls, runs_on)
    of = {link.wall.mark: (index, link) for index, chain in enumerate(found) for link in chain.links}
    met = _met(found, of, meetings, walls)
    placed: dict[str, Placed] = {}
    for index, chain in enumerate(found):
        supports = [_judge(chain, s=s, by=found[other], t=t, mark=by, rules=rules) for s, other, t, by in met[index]]
        for mark, one in buttresses.items():
            if one.wall in of and of[one.wall][0] == index:
                supports.append(_judge_buttress(chain, link=of[one.wall][1], mark=mark, buttress=one, rules=rules))
        ring = find_ring(chain, rules)
        if ring is None:
            supports += [_judge_corner(chain, one, rules) for one in rounded_corners(chain, rules)]
        supports.sort(key=lambda one: (one.s, one.by))
        slack = chain.links[0].wall.thickness, chain.links[-1].wall.thickness
        stretch = Stretch(chain, tuple(supports), ring, slack)
        placed |= {link.wall.mark: Placed(stretch, link) for link in chain.links}
    return {mark: placed[mark] for mark in walls}


def on_wall(placed: Placed) -> tuple[Support, ...]:
    """What meets a wall, by its own stations: what meets its stretch along it, and the walls it runs on into."""
    stretch, link = placed.stretch, placed.link
    length, total = link.wall.line.length, stretch.length
    found = []
    for one in stretch.supports:
        for station in (one.s, one.s - total, one.s + total) if stretch.chain.closed else (one.s,):
            if link.start - 1e-6 <= station <= link.end + 1e-6:
                s = min(max(link.on_wall(station), 0.0), length)
                found.append(replace(one, s=s))
    links = stretch.chain.links
    place = links.index(link)
    if len(links) > 1:
        for other, station in ((links[place - 1], link.start), (links[(place + 1) % len(links)], link.end)):
            at_rim = (station == link.start and place == 0) or (station == link.end and place == len(links) - 1)
            if stretch.chain.closed or not at_rim:
                s = min(max(link.on_wall(station), 0.0), length)
                found.append(Support(s, other.wall.mark, other.wall.thickness / 2, RUNS_ON))
    return tuple(sorted(found, key=lambda one: (one.s, one.by)))


def _met(
    found: Sequence[Chain],
    of: Mapping[str, tuple[int, Link]],
    meetings: Sequence[Meeting],
    walls: Mapping[str, WallLine],
) -> list[list[tuple[float, int, float, str]]]:
    """For each chain all that meets it: the station, the other chain, the station on that, and the wall that meets."""
    met: list[list[tuple[float, int, float, str]]] = [[] for _ in found]

    def add(index: int, s: float, other: int, t: float, by: str, reach: float) -> None:
        if all(_apart(found[index], s, a) > reach or i != other or _apart(found[other], t, b) > reach
               for a, i, b, _ in met[index]):  # fmt: skip
            met[index].append((s, other, t, by))

    def off(one: Meeting) -> float:
        return round(math.dist(walls[one.one].line.point(one.s), walls[one.other].line.point(one.t)), 6)

    for one in sorted(meetings, key=off):
        (i, here), (j, there) = of[one.one], of[one.other]
        s, t = here.along(one.s), there.along(one.t)
        reach = max(walls[one.one].thickness, walls[one.other].thickness)
        if i == j and _apart(found[i], s, t) <= reach:
            continue
        add(i, s=s, other=j, t=t, by=one.other, reach=reach)
        add(j, s=t, other=i, t=s, by=one.one, reach=reach)
    return met


def _apart(chain: Chain, s: float, t: float) -> float:
    """How far apart two stations of a chain are."""
    apart = abs(s - t)
    return min(apart, chain.length - apart) if chain.closed else apart


def _judge(held: Chain, s: float, by: Chain, t: float, mark: str, rules: SupportRules) -> Support:
    """A wall that meets a stretch, by the better of the two sides on which it stands out; each counts by itself."""
    angle = angle_between(direction_at(held, s), direction_at(by, t))
    sine = max(math.sin(angle), 0.1)
    sides = tuple(_sides(held, s=s, by=by, t=t, sine=sine, rules=rules))
    thick = max((link.wall.thickness for link, _ in by.at(t)), default=0.0)
    half = thick / 2 / sine if math.sin(angle) > 0.1 else thick / 2
    best, reason = (None, "meets it in an opening")
    if sides:
        best, reason = min(sides, key=lambda one: (bool(one[1]), -one[0].projection, one[0].walls))
    if angle < rules.least_angle * (1 - 1e-9):
        reason = "meets it at too flat an angle"
    return Support(
        s,
        by=best.walls[0] if best else mark,
        half_width=half,
        why_not=reason,
        projection=best.projection if best else 0.0,
        angle=angle,
        sides=tuple(replace(side, counts=side.counts and not reason) for side, _ in sides),
    )


def _sides(
    held: Chain, s: float, by: Chain, t: float, sine: float, rules: SupportRules
) -> Iterator[tuple[SupportSide, str]]:
    """The sides of a wall that crosses a stretch which stand out from its face, each with why it does not count. Of the
    walls that make a side as far as it must stand out, the thinnest and the lowest count."""
    (hx, hy), (bx, by_) = held.point(s), by.point(t)
    ux, uy = by.direction(t)
    off = (bx - hx) * ux + (by_ - hy) * uy
    face = _thickest(held, s).thickness / 2 / sine
    least = rules.least_projection_share * _highest(held, s)
    for sense, solid in zip((-1, 1), by.solid_reaches(t), strict=True):
        clear = face - sense * off
        if solid <= clear:
            continue
        along = sorted((t, t + sense * min(solid, max(clear + least, 0.0))))
        links = by.between(*along)[::sense] or tuple(link for link, _ in by.at(t))
        walls = [link.wall for link in links]
        thin = min(walls, key=lambda one: one.thickness)
        reason = _why_not(
            held, s=s, half=walls[0].thickness / 2 / sine, height=min(one.height for one in walls),
            projection=solid - clear, thickness=thin.thickness, rules=rules,
        )  # fmt: skip
        marks = tuple(dict.fromkeys(one.mark for one in walls))
        yield SupportSide(marks, solid - clear, counts=not reason, in_all=by.solid_beyond(t, sense) - clear), reason


def _judge_buttress(held: Chain, link: Link, mark: str, buttress: Buttress, rules: SupportRules) -> Support:
    s, half = link.along(buttress.at.si), buttress.width.si / 2
    projection = buttress.projection.si
    why_not = _why_not(
        held, s=s, half=half, height=buttress.height.si, projection=projection, thickness=buttress.width.si, rules=rules
    )
    return Support(s, by=mark, half_width=half, why_not=why_not, projection=projection)


def _judge_corner(held: Chain, corner: Corner, rules: SupportRules) -> Support:
    """A rounded corner, by the solid wall beyond its middle on the shorter side."""
    s, wall = corner.station, _thickest(held, corner.station)
    projection = max(min(held.solid_reaches(s)) - wall.thickness / 2, 0.0)
    lowest = min(link.wall.height for link, _ in held.at(s))
    why_not = _why_not(
        held, s=s, half=wall.thickness / 2, height=lowest, projection=projection, thickness=wall.thickness, rules=rules
    )
    return Support(
        s, by=wall.mark, half_width=wall.thickness / 2, why_not=why_not, projection=projection, angle=corner.angle
    )


def _thickest(chain: Chain, s: float) -> WallLine:
    return max((link.wall for link, _ in chain.at(s)), key=lambda wall: wall.thickness)


def _highest(chain: Chain, s: float) -> float:
    return max(link.wall.height for link, _ in chain.at(s))


def _why_not(
    held: Chain, s: float, half: float, height: float, projection: float, thickness: float, rules: SupportRules
) -> str:
    """Why what meets a stretch does not hold it sideways; empty when it does."""
    slack, wall, top = 1 - 1e-9, _thickest(held, s), _highest(held, s)
    if height < (top - rules.short_of_top) * slack:
        return "does not reach its top"
    if projection < rules.least_projection_share * top * slack:
        return "stands out too little from its face"
    if thickness < rules.least_thickness_share * wall.thickness * slack:
        return "is too thin"
    clear = half + rules.clear_share * wall.thickness * slack
    if any(start < s + clear and s - clear < end for start, end in _holes_around(held)):
        return "holds it beside an opening"
    return ""


def _holes_around(chain: Chain) -> Iterator[tuple[float, float]]:
    for start, end in chain.holes:
        for off in (0.0, chain.length, -chain.length) if chain.closed else (0.0,):
            yield start + off, end + off
