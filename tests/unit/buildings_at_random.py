"""Small rectangular buildings at random, many of them outside some limit. Plain numbers, no building of anybody's."""

from __future__ import annotations

from pathlib import Path
from random import Random

_LINTEL = "lintel: {{material: wood, width: 12 in, depth: {depth} in, bearing: {bearing} in}}"


_ROOM = 12
"""From cross wall to cross wall, ft."""


def write_building(folder: Path, seed: int, units: str = "us", cross_walls: int = 0) -> Path:
    """A project folder made from a number; the same number gives the same building: four outer walls, and cross
    walls that part it into rooms."""
    chance = Random(seed)
    long, wide = chance.randint(10, 30), chance.randint(9, 20)
    long = _ROOM * (cross_walls + 1) if cross_walls else long
    corners = [(0, 0), (long, 0), (long, wide), (0, wide)]
    walls = []
    for index in range(4):
        (x0, y0), (x1, y1) = corners[index], corners[(index + 1) % 4]
        length = abs(x1 - x0) + abs(y1 - y0)
        run = f"{{from: [{x0} ft, {y0} ft], to: [{x1} ft, {y1} ft]}}"
        joints = [_ROOM * (one + 1) for one in range(cross_walls)] if y0 == y1 else []
        openings = _openings(chance, length, joints)
        walls.append(f"  W{index + 1}: {{type: outer, run: {run}, openings: {{{openings}}}}}\n")
    for index in range(cross_walls):
        run = f"{{from: [{_ROOM * (index + 1)} ft, 0 ft], to: [{_ROOM * (index + 1)} ft, {wide} ft]}}"
        inner = f"{{type: outer, use: interior, run: {run}, openings: {{{_openings(chance, wide, [])}}}}}"
        walls.append(f"  W{index + 5}: {inner}\n")
    taper = chance.random() < 0.5
    base = chance.randint(9, 22)
    top = max(base - chance.randint(0, 4), 8)
    thickness = f"thickness_base: {base} in, thickness_top: {top} in" if taper else f"thickness: {base} in"
    text = f"""\
project: {{name: Trial, date: 2026-12-30, units: {units}}}
jurisdiction: {{name: Nowhere, rule_sets: [cob-practice, cob-irc-2021-au]}}
soils: {{S1: {{name: clay}}}}
mixes: {{M1: {{name: mix, parts: {{S1: 1}}, stabilised: no}}}}
site: {{seismic_category: B, wind_speed: 110 mph, frost_depth: {chance.randint(0, 30)} in, flood_zone: no,
  expansive_soil: no}}
stems: {{ST1: {{material: stone, thickness: {chance.randint(8, 24)} in, above_grade: {chance.randint(2, 20)} in}}}}
footings:
  F1: {{kind: concrete, width: {chance.randint(10, 30)} in, thickness: {chance.randint(4, 14)} in,
       bottom: {chance.randint(14, 34)} in, bar_count: {chance.randint(0, 3)}}}
beams:
  B1: {{material: wood, width: {chance.randint(4, 14)} in, depth: {chance.randint(2, 8)} in, continuous: yes,
       anchors: {{diameter: 1/2 in, spacing: {chance.randint(20, 90)} in, embedment: {chance.randint(6, 30)} in}}}}
roofs:
  R1: {{kind: framed, span: {wide} ft, overhang: {chance.randint(2, 30)} in,
       rafter_spacing: {chance.randint(12, 40)} in, bears_on: [{{wall: W1}}, {{wall: W3}}]}}
wall_types:
  outer: {{use: exterior, height: {chance.randint(6, 12)} ft, {thickness}, mix: M1, bears_load: yes, braces: yes,
          method: A, top_restraint: bond-beam, retains_soil: no, stem: ST1, footing: F1, beam: B1,
          lift_height: {chance.randint(8, 30)} in}}
walls:
{"".join(walls)}"""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "project.yaml").write_text(text, encoding="utf-8")
    return folder


def _openings(chance: Random, length: int, joints: list[int]) -> str:
    """Openings one after the other, with little or much between them, none across a joint with another wall [ft]."""
    openings, at, beside = [], 0.5 + chance.random() * 3, 0.0
    for number in range(chance.randint(0, 3)):
        width = chance.choice((2, 2.5, 3, 4))
        if at + width > length:
            break
        depth, bearing, gap = chance.randint(4, 8), chance.randint(4, 16), chance.choice((0.5, 1, 2, 3))
        if number:  # two lintels have no more than the wall between them
            bearing = min(bearing, int(12 * beside / 2))
        lintel = _LINTEL.format(depth=depth, bearing=min(bearing, int(12 * gap / 2)))
        where = f"start: {round(at * 12)} in, width: {width} ft, height: 3 ft, sill: 2 ft"
        if not any(at - 0.1 < joint < at + width + 0.1 for joint in joints):
            openings.append(f"N{number + 1}: {{kind: window, {where}, {lintel}}}")
        at += width + gap
        beside = gap
    return ", ".join(openings)
