"""Plans at random, good and bad: boxes, wings, courts, bows, rounded corners, rings, polygons, walls on their own, with
partitions, openings, buttresses, gables, loads and roofs as they fall. Plain numbers, no building of anybody's."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from random import Random
from typing import Any

from tests.buildings.reading import Building, build_sections, merge, read_text

Point = tuple[float, float]
"""In inches, whole ones."""
Sections = dict[str, Any]

SETS = ("structural-screening", "engineers-list", "cob-irc-2021-au")
_MORE_SETS = (
    "cob-practice", "cob-irc-2024-bk", "ibc-2024-2109-adobe", "nzs-4299-not-engineered", "india-is-13827-1993",
    "peru-e080-2017", "nm-14-7-4-adobe", "hb-195-2002", "irc-2021-soil-and-footings",
)  # fmt: skip
_GAP = 18
"""Solid wall between two openings at the least, and beside whatever meets the wall [in]."""


def random_plan(number: int) -> Building:
    """The same number gives the same building."""
    chance = Random(number)
    walls = {mark: wall for mark, wall in chance.choice(_SHAPES)(chance).items() if "arc" in wall or _length(wall) > 24}
    crossed = _partitions(chance, walls)
    for mark, wall in walls.items():
        wall |= _build(chance)
        wall["openings"] = _openings(chance, wall, crossed.get(mark, []))
    text: Sections = {"walls": walls, "buttresses": _buttresses(chance, walls, crossed)}
    if chance.random() < 0.4:
        walls["G"] = {"type": "garden", "run": {"from": ["-30 ft", "-20 ft"], "to": ["-20 ft", "-20 ft"]}}
        walls["G"]["height"] = f"{chance.randint(24, 84)} in"
    text["roofs"] = _roofs(chance, {mark: wall for mark, wall in walls.items() if mark != "G"})
    text["site"] = {
        "seismic_category": chance.choice("ABCD"), "wind_speed": f"{chance.choice((95, 110, 130))} mph",
        "wind_exposure": chance.choice("BC"), "ground_snow": f"{chance.choice((0, 30, 60))} psf",
    }  # fmt: skip
    text["project"] = {"diaphragm": chance.choice(("none", "flexible", "rigid", None))}
    full = merge(read_text("defaults"), text)
    sets = (*SETS, *chance.sample(_MORE_SETS, chance.randint(0, 2)))
    full["sets"] = list(sets)
    why = f"plan {number}"
    return Building(f"random/{number}", why=why, sections=build_sections(full), sets=sets, tested=full["tested"])


def _corners(points: Sequence[Point], chance: Random) -> dict[str, Sections]:
    """A closed way round through the points, now and then without its last side or a side in the middle."""
    walls = {f"W{place}": _run(one, points[(place + 1) % len(points)]) for place, one in enumerate(points)}
    if chance.random() < 0.15:
        del walls[chance.choice(list(walls))]
    return walls


def _box(chance: Random) -> dict[str, Sections]:
    long, wide = 12 * chance.randint(8, 44), 12 * chance.randint(7, 20)
    return _corners([(0, 0), (long, 0), (long, wide), (0, wide)], chance)


def _wings(chance: Random) -> dict[str, Sections]:
    """An L or a U, its inner sides drawn through or not."""
    wing, long, deep = (12 * chance.randint(*most) for most in ((8, 14), (18, 40), (16, 30)))
    if chance.random() < 0.5:
        points: list[Point] = [(0, 0), (long, 0), (long, wing), (wing, wing), (wing, deep), (0, deep)]
    else:
        long = max(long, 2 * wing + 72)
        points = [(0, 0), (long, 0), (long, deep), (long - wing, deep), (long - wing, wing), (wing, wing),
                  (wing, deep), (0, deep)]  # fmt: skip
    return _corners(points, chance)


def _skew(chance: Random) -> dict[str, Sections]:
    """Four sides at angles of their own."""
    long, wide = 12 * chance.randint(10, 30), 12 * chance.randint(9, 18)
    return _corners([(0, 0), (long, chance.randint(-60, 60)), (long + chance.randint(-60, 60), wide + 36),
                     (chance.randint(-60, 60), wide)], chance)  # fmt: skip


def _polygon(chance: Random) -> dict[str, Sections]:
    """A regular polygon, its corners rounded to whole inches."""
    count, radius = chance.randint(5, 24), 12 * chance.randint(6, 16)
    turn = chance.uniform(0, math.pi)
    angles = [turn + math.tau * place / count for place in range(count)]
    points = [(float(round(radius * math.cos(angle))), float(round(radius * math.sin(angle)))) for angle in angles]
    return _corners(points, chance)


def _ring(chance: Random) -> dict[str, Sections]:
    """Arcs all round, in two to four parts."""
    count, radius = chance.randint(2, 4), 12 * chance.randint(6, 16)
    edges = [math.tau * place / count + 0.1 for place in range(count + 1)]
    return {f"A{place}": _arc((0, 0), radius, edges[place : place + 2]) for place in range(count)}


def _round_end(chance: Random) -> dict[str, Sections]:
    """A box with a half-round end, which a wall parts off or not."""
    long, radius = 12 * chance.randint(8, 24), 12 * chance.randint(4, 9)
    walls = {
        "S": _run((0, -radius), (long, -radius)),
        "A": _arc((long, 0), radius, (-math.pi / 2, math.pi / 2)),
        "N": _run((long, radius), (0, radius)),
        "W": _run((0, radius), (0, -radius)),
    }
    if chance.random() < 0.5:
        walls["X"] = _run((long, -radius), (long, radius))
    return walls


def _bow(chance: Random) -> dict[str, Sections]:
    """A box, one of its long sides bowed outward, by so little that its end walls meet it at a corner whether it is
    drawn as an arc or as chords."""
    long, wide = 12 * chance.randint(10, 40), 12 * chance.randint(8, 18)
    out = min(chance.randint(6, 60), long // 7)
    return {
        "S": {"arc": {"from": _text(0, 0), "through": _text(long / 2, -out), "to": _text(long, 0)}},
        "E": _run((long, 0), (long, wide)),
        "N": _run((long, wide), (0, wide)),
        "W": _run((0, wide), (0, 0)),
    }


def _rounded(chance: Random) -> dict[str, Sections]:
    """A box with corners rounded by arcs, so narrow that they are corners however they are drawn."""
    long, wide, r = 12 * chance.randint(12, 30), 12 * chance.randint(10, 18), chance.randint(8, 36)
    middles = [(r, r), (long - r, r), (long - r, wide - r), (r, wide - r)]
    walls = {}
    for place, middle in enumerate(middles):
        start = math.pi + place * math.pi / 2
        walls[f"C{place}"] = _arc(middle, r, (start, start + math.pi / 2))
        sides = [((r, 0), (long - r, 0)), ((long, r), (long, wide - r)), ((long - r, wide), (r, wide)),
                 ((0, wide - r), (0, r))]  # fmt: skip
        walls[f"W{place}"] = _run(*sides[place])
    return walls


def _zigzag(chance: Random) -> dict[str, Sections]:
    """Walls end to end, each turning by what it will, ending in the open."""
    at, heading, walls = (0.0, 0.0), 0.0, {}
    for place in range(chance.randint(1, 6)):
        heading += math.radians(chance.choice((0, 10, 30, 46, 50, 75))) * (1 if place % 2 else -1)
        length = 12 * chance.randint(6, 18)
        to = (float(round(at[0] + length * math.cos(heading))), float(round(at[1] + length * math.sin(heading))))
        walls[f"Z{place}"] = _run(at, to)
        at = to
    return walls


_SHAPES = (_box, _box, _wings, _skew, _polygon, _ring, _round_end, _bow, _rounded, _zigzag)


def _partitions(chance: Random, walls: dict[str, Sections]) -> dict[str, list[float]]:
    """Cross walls between two straight walls that run the same way, added to the walls; the stations [in] on each wall
    of what meets it between its ends."""
    crossed: dict[str, list[float]] = {}
    straight = {mark: wall["run"] for mark, wall in walls.items() if "run" in wall}
    flat = {mark: run for mark, run in straight.items() if _number(run["from"][1]) == _number(run["to"][1])}
    pairs = [(one, two) for one in flat for two in flat if one < two]
    for place in range(chance.randint(0, 2) if pairs else 0):
        one, two = chance.choice(pairs)
        spans = [sorted((_number(flat[mark]["from"][0]), _number(flat[mark]["to"][0]))) for mark in (one, two)]
        low, high = max(spans[0][0], spans[1][0]) + 60, min(spans[0][1], spans[1][1]) - 60
        if low >= high:
            continue
        x = float(round(chance.uniform(low, high)))
        if any(abs(x - _number(other["run"]["from"][0])) < 60 for mark, other in walls.items() if mark[0] == "X"):
            continue
        gap = chance.choice((0, 0, 0, 11))  # short of the wall's middle by more than half of it: not joined
        ys = [_number(flat[mark]["from"][1]) for mark in (one, two)]
        walls[f"X{place}"] = {"type": "inner", **_run((x, ys[0]), (x, ys[1] - math.copysign(gap, ys[1] - ys[0])))}
        for mark in (one, two):
            crossed.setdefault(mark, []).append(abs(x - _number(flat[mark]["from"][0])))
    return crossed


def _build(chance: Random) -> Sections:
    """What a wall has of its own."""
    made: Sections = {}
    if chance.random() < 0.2:
        made["height"] = f"{chance.randint(72, 132)} in"
    if chance.random() < 0.2:
        made["thickness"] = f"{chance.randint(10, 24)} in"
    if chance.random() < 0.15:
        made["top_restraint"] = chance.choice(("free", "roof"))
    if chance.random() < 0.1:
        made["gable"], made["gable_height"] = True, f"{chance.randint(12, 72)} in"
    if chance.random() < 0.1:
        made["braces"] = False
    return made


def _openings(chance: Random, wall: Mapping[str, Any], crossed: Sequence[float]) -> Sections:
    """Openings one after the other, none within a joint with another wall."""
    openings: Sections = {}
    length, at = _length(wall), chance.randint(18, 120)
    while chance.random() < 0.6:
        door = chance.random() < 0.3
        width = 36 if door else chance.choice((18, 24, 30, 48, 72))
        if at + width > length - _GAP:
            break
        if not any(at - _GAP < station < at + width + _GAP for station in crossed):
            openings[f"N{len(openings)}"] = {
                "kind": "door" if door else "window", "start": f"{at} in", "width": f"{width} in",
                "height": "80 in" if door else f"{chance.choice((24, 36, 48))} in",
                "sill": "0 in" if door else "30 in", "lintel": {"bearing": "8 in"},
            }  # fmt: skip
        at += width + chance.randint(_GAP, 90)
    return openings


def _buttresses(chance: Random, walls: Mapping[str, Sections], crossed: Mapping[str, Sequence[float]]) -> Sections:
    found: Sections = {}
    for mark, wall in walls.items():
        length = _length(wall)
        if chance.random() > 0.15 or length < 140:
            continue
        at = chance.randint(60, round(length) - 60)
        taken = [(_number(one["start"]), _number(one["width"])) for one in wall["openings"].values()]
        if all(not start - 30 < at < start + wide + 30 for start, wide in taken) and all(
            abs(at - one) > 40 for one in crossed.get(mark, ())
        ):
            found[f"B{len(found)}"] = {
                "wall": mark, "at": f"{at} in", "projection": f"{chance.choice((8, 24, 36))} in",
                "width": f"{chance.choice((8, 16, 24))} in", "height": f"{chance.choice((60, 96))} in",
                "side": chance.choice(("outside", "inside")),
            }  # fmt: skip
    return found


def _roofs(chance: Random, walls: Mapping[str, Sections]) -> Sections:
    """A roof on some of the walls, with tributaries stated or left to the plan; one in ten buildings has none."""
    bearing = [mark for mark, wall in walls.items() if wall.get("type") != "inner" and chance.random() < 0.7]
    if not bearing or chance.random() < 0.1:
        return {}
    stated = chance.random() < 0.6
    bears: list[Any] = [{"wall": mark, "eccentricity": f"{chance.choice((0, 0, 1))} in"} for mark in bearing]
    if stated:
        bears = [{**one, "tributary": f"{chance.randint(40, 110)} in"} for one in bears]
    roof: Sections = {"span": f"{chance.randint(8, 20)} ft", "rise": "3 ft", "plan_area": "500 ft2", "bears_on": bears}
    straight = [mark for mark in bearing if _length(walls[mark]) > 100 and not walls[mark]["openings"]]
    if len(straight) > 1 and chance.random() < 0.4:
        posts = [{"wall": mark, "at": f"{chance.randint(40, round(_length(walls[mark])) - 40)} in", "length": "24 in",
                  "width": "12 in", "eccentricity": "0 in"} for mark in straight[:2]]  # fmt: skip
        roof |= {"thrust_held_by": "ridge-beam", "ridge_capacity": "700 plf",
                 "beams": {"RB": {"kind": "ridge", "tributary": "60 in", "bears_on": posts}}}  # fmt: skip
    elif chance.random() < 0.3:
        roof["thrust_held_by"] = "none"
    return {"R": roof}


def _run(one: Point, other: Point) -> Sections:
    return {"run": {"from": _text(*one), "to": _text(*other)}}


def _arc(middle: Point, radius: float, angles: Sequence[float]) -> Sections:
    """An arc about a point between two angles [rad]."""
    start, end = angles
    points = [
        _text(middle[0] + radius * math.cos(angle), middle[1] + radius * math.sin(angle))
        for angle in (start, (start + end) / 2, end)
    ]
    return {"arc": dict(zip(("from", "through", "to"), points, strict=True))}


def _length(wall: Mapping[str, Any]) -> float:
    """Of a wall's center line [in]."""
    from tests.buildings.transforming import INCH, line_of

    return line_of(wall).length / INCH


def _text(x: float, y: float) -> list[str]:
    return [f"{value + 0.0:.9f} in" for value in (x, y)]


def _number(text: str) -> float:
    return float(text.split()[0])
