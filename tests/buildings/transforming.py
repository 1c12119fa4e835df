"""The same building described otherwise: walls split, everything shifted, turned, mirrored, walls drawn from the other
end. Functions over the sections of a project as they stand in YAML; none changes what would be built.

`split_walls` gives its pieces marks of their own, so subjects are to be compared after `original_mark`. A wall with
a load stated for all its length keeps it on each piece, for it is a load along the length. Coordinates are
written in inches with nine decimals, far below what any limit resolves.
"""

from __future__ import annotations

import copy
import itertools
import math
from collections.abc import Callable, Mapping, Sequence
from random import Random
from typing import Any

from compliance.model.lines import Circular, Straight, arc_through
from compliance.units import KINDS, parse_measure

Point = tuple[float, float]
Sections = dict[str, Any]
INCH = 0.0254


def shift(sections: Mapping[str, Any], east: float, north: float) -> Sections:
    """Every wall moved by so many meters."""
    return _move(sections, lambda point: (point[0] + east, point[1] + north))


def rotate(sections: Mapping[str, Any], angle: float) -> Sections:
    """Every wall turned about the origin, counter-clockwise [rad]; north stays where it is in the world."""
    c, s = math.cos(angle), math.sin(angle)
    made = _move(sections, lambda point: (c * point[0] - s * point[1], s * point[0] + c * point[1]))
    site = made.get("site", {})
    if "north" in site:
        site["north"] = f"{(math.degrees(_si(site['north'], 'angle') - angle)) % 360:.9f} deg"
    return made


def mirror(sections: Mapping[str, Any]) -> Sections:
    """East and west exchanged. A buttress keeps its side, which is said of the building and not of the page."""
    return _move(sections, lambda point: (-point[0], point[1]))


def reverse(sections: Mapping[str, Any], marks: set[str] | None = None) -> Sections:
    """The named walls, or all, drawn from their other end: stations count from there."""
    made = copy.deepcopy(dict(sections))
    for mark, wall in made["walls"].items():
        if marks is not None and mark not in marks:
            continue
        length = line_of(wall).length
        way = wall.get("run") or wall["arc"]
        way["from"], way["to"] = way["to"], way["from"]
        for opening in wall.get("openings", {}).values():
            opening["start"] = _inches(length - _si(opening["start"]) - _si(opening["width"]))
        for load in wall.get("loads", {}).values():
            load["at"] = _inches(length - _si(load["at"]))
        for bearing in beam_bearings(made):
            if bearing["wall"] == mark:
                bearing["at"] = _inches(length - _si(bearing["at"]))
        for buttress in made.get("buttresses", {}).values():
            if buttress["wall"] == mark:
                buttress["at"] = _inches(length - _si(buttress["at"]))
    return made


def split_walls(sections: Mapping[str, Any], chance: Random, most: int = 3) -> Sections:
    """Walls in up to `most` pieces that run on end to end. No cut goes through an opening, a load, a buttress or
    the bearing of a beam, nor leaves a piece shorter than twice the wall's thickness; all of these go with the pieces,
    and so do roofs."""
    made = copy.deepcopy(dict(sections))
    walls: Sections = {}
    pieces: dict[str, list[tuple[str, float, float]]] = {}
    for mark, wall in made["walls"].items():
        length = line_of(wall).length
        cuts = _cuts(made, mark=mark, length=length, chance=chance, most=most)
        marks = [mark, *(f"{mark}-{place}" for place in range(2, len(cuts) + 2))]
        edges = list(zip([0.0, *cuts], [*cuts, length], strict=True))
        pieces[mark] = [(one, start, end) for one, (start, end) in zip(marks, edges, strict=True)]
        for one, start, end in pieces[mark]:
            walls[one] = _piece(wall, start, end)
    made["walls"] = walls
    _carry_over(made, pieces)
    return made


def redraw_arcs(sections: Mapping[str, Any]) -> Sections:
    """Arcs drawn as three chords or more that turn by no more than 15 degrees each; an arc whose openings, loads or
    buttresses leave no room for that stays as it is."""
    made = copy.deepcopy(dict(sections))
    walls: Sections = {}
    for mark, wall in made["walls"].items():
        line = line_of(wall)
        cuts = _chord_cuts(made, mark, line) if isinstance(line, Circular) else None
        if cuts is None or not isinstance(line, Circular):
            walls[mark] = wall
            continue
        edges = [0.0, *cuts, line.length]
        pieces = []
        for place, (start, end) in enumerate(itertools.pairwise(edges), start=1):
            one = mark if place == 1 else f"{mark}-{place}"
            walls[one] = _chord(wall, line, start, end)
            pieces.append((one, start, end))
        _carry_over(made, {mark: pieces})
    made["walls"] = walls
    return made


def _carry_over(made: Sections, pieces: Mapping[str, Sequence[tuple[str, float, float]]]) -> None:
    """Roofs, beams and buttresses on the walls named, placed on their pieces."""
    for roof in made.get("roofs", {}).values():
        roof["bears_on"] = [
            {**bearing, "wall": one[0]}
            for bearing in roof["bears_on"]
            for one in pieces.get(bearing["wall"], [(bearing["wall"], 0.0, 0.0)])
        ]
    for placed in [*made.get("buttresses", {}).values(), *beam_bearings(made)]:
        at = _si(placed["at"])
        for one, start, end in pieces.get(placed["wall"], ()):
            if start <= at <= end:
                placed |= {"wall": one, "at": _inches(at - start)}
                break


def beam_bearings(sections: Sections) -> list[dict[str, Any]]:
    """Where beams of roofs bear on walls."""
    return [bearing for bearing in _beam_supports(sections) if "at" in bearing]


def _beam_supports(sections: Sections) -> list[dict[str, Any]]:
    """What beams of roofs stand on, walls and posts."""
    beams = [beam for roof in _of(sections, "roofs") for beam in _of(roof, "beams")]
    return [support for beam in beams for support in beam.get("bears_on", ())]


def original_mark(subject: str) -> str:
    """A subject of a split building as that of the whole one: `S-2.D` is `S.D`. Piers count within their piece."""
    wall, dot, rest = subject.partition(".")
    return wall.partition("-")[0] + dot + rest


def line_of(wall: Mapping[str, Any]) -> Straight | Circular:
    """The center line of a wall of the sections, in meters."""
    if "run" in wall:
        return Straight(_point(wall["run"]["from"]), _point(wall["run"]["to"]))
    line = arc_through(*(_point(wall["arc"][key]) for key in ("from", "through", "to")))
    assert line is not None, "the points of the arc lie on one straight line"
    return line


def _cuts(sections: Sections, mark: str, length: float, chance: Random, most: int) -> list[float]:
    """Stations of the cuts of a wall, in order."""
    wall = sections["walls"][mark]
    keep = 2 * thickness_of(sections, wall)
    closed = _closed_to_cuts(sections, mark, wall, keep)
    cuts: list[float] = []
    for _ in range(chance.randint(0, most - 1)):
        at = round(chance.uniform(0, length) / INCH) * INCH
        if all(abs(at - other) >= keep for other in (0.0, length, *cuts)) and not any(a < at < b for a, b in closed):
            cuts.append(at)
    return sorted(cuts)


def _closed_to_cuts(sections: Sections, mark: str, wall: Mapping[str, Any], keep: float) -> list[tuple[float, float]]:
    """Lengths of a wall that no cut may fall in: openings, and `keep` about loads, buttresses and bearings [m]."""
    closed = [(_si(one["start"]) - INCH, _si(one["start"]) + _si(one["width"]) + INCH) for one in _of(wall, "openings")]
    points = [_si(load["at"]) for load in _of(wall, "loads")]
    placed = [*_of(sections, "buttresses"), *beam_bearings(sections)]
    points += [_si(one["at"]) for one in placed if one["wall"] == mark]
    return closed + [(at - keep / 2, at + keep / 2) for at in points]


def _chord_cuts(sections: Sections, mark: str, line: Circular) -> list[float] | None:
    """Stations that part an arc into equal chords, moved out of what is closed to them; None where none fit."""
    wall = sections["walls"][mark]
    most = math.radians(15) * line.radius
    closed = _closed_to_cuts(sections, mark, wall, keep=thickness_of(sections, wall))
    count = max(math.ceil(line.length / most), 3)
    for _ in range(12):
        cuts = [line.length * place / count for place in range(1, count)]
        moved = []
        for cut in cuts:
            within = next(((a, b) for a, b in closed if a < cut < b), None)
            moved.append(cut if within is None else min(within, key=lambda edge: abs(edge - cut)))
        edges = [0.0, *moved, line.length]
        if all(thickness_of(sections, wall) < b - a <= most * (1 + 1e-9) for a, b in itertools.pairwise(edges)):
            return moved
        count += 1
    return None


def _chord(wall: Mapping[str, Any], line: Circular, start: float, end: float) -> Sections:
    """The straight wall between two stations of an arc; what lies there keeps its share of the length."""
    made = _piece(wall, start, end)
    del made["arc"]
    made["run"] = {"from": _text(line.point(start)), "to": _text(line.point(end))}
    shrink = line_of(made).length / (end - start)
    for opening in made.get("openings", {}).values():
        middle = _si(opening["start"]) + _si(opening["width"]) / 2
        opening["start"] = _inches(middle * shrink - _si(opening["width"]) / 2)
    for load in made.get("loads", {}).values():
        load["at"] = _inches(_si(load["at"]) * shrink)
    return made


def thickness_of(sections: Mapping[str, Any], wall: Mapping[str, Any]) -> float:
    """The thickness of a wall at its base [m], its own or that of its type."""
    for build in (wall, sections.get("wall_types", {}).get(wall.get("type"), {})):
        for key in ("thickness_base", "thickness"):
            if key in build:
                return _si(build[key], "thickness")
    raise KeyError("thickness")


def _piece(wall: Mapping[str, Any], start: float, end: float) -> Sections:
    """The wall between two stations, with what lies there."""
    line = line_of(wall)
    made = {key: copy.deepcopy(value) for key, value in wall.items() if key not in ("run", "arc", "openings", "loads")}
    ends = {"from": _text(line.point(start)), "to": _text(line.point(end))}
    if isinstance(line, Straight):
        made["run"] = ends
    else:
        made["arc"] = {**ends, "through": _text(line.point((start + end) / 2))}
    made["openings"] = {
        mark: {**one, "start": _inches(_si(one["start"]) - start)}
        for mark, one in wall.get("openings", {}).items() if start <= _si(one["start"]) < end
    }  # fmt: skip
    made["loads"] = {
        mark: {**one, "at": _inches(_si(one["at"]) - start)}
        for mark, one in wall.get("loads", {}).items() if start <= _si(one["at"]) < end
    }  # fmt: skip
    return {key: value for key, value in made.items() if value != {}}


def _move(sections: Mapping[str, Any], moved: Callable[[Point], Point]) -> Sections:
    made = copy.deepcopy(dict(sections))
    for wall in made["walls"].values():
        way = wall.get("run") or wall["arc"]
        for key in ("from", "through", "to"):
            if key in way:
                way[key] = _text(moved(_point(way[key])))
    for support in _beam_supports(made):
        if "point" in support:
            support["point"] = _text(moved(_point(support["point"])))
    return made


def _of(sections: Mapping[str, Any], key: str) -> list[Any]:
    return list(sections.get(key, {}).values())


def _si(text: str, kind: str = "length") -> float:
    return parse_measure(text, KINDS[kind]).si


def _point(texts: list[str]) -> Point:
    x, y = (_si(text, "coordinate") for text in texts)
    return x, y


def _text(point: Point) -> list[str]:
    return [_inches(point[0]), _inches(point[1])]


def _inches(meters: float) -> str:
    text = f"{abs(meters) / INCH:.9f}".rstrip("0").rstrip(".")
    return f"-{text} in" if meters < 0 and text != "0" else f"{text} in"
