"""Projects of any size: rooms of four walls in a row, a window in each wall. Invented."""

from __future__ import annotations

from pathlib import Path

_HEAD = """\
project: {name: Rooms, date: 2026-12-30}
jurisdiction: {name: Nowhere, rule_sets: [cob-irc-2021-au, cob-practice]}
soils: {S1: {name: clay}}
mixes: {M1: {name: mix, parts: {S1: 1}, straw: wheat, stabilised: no}}
site: {seismic_category: B, sds: 0.2, wind_speed: 110 mph, soil_bearing: 2000 psf}
wall_types:
  all: {use: exterior, height: 8 ft, thickness: 16 in, mix: M1, bears_load: yes, braces: yes, method: A}
walls:
"""
_WINDOW = "N1: {kind: window, start: 5 ft, width: 3 ft, height: 3 ft, sill: 3 ft}"
_SIDES = (((0, 0), (20, 0)), ((20, 0), (20, 15)), ((20, 15), (0, 15)), ((0, 15), (0, 0)))


def write_rooms(folder: Path, walls: int) -> None:
    """Writes a project of `walls` walls, 30 ft from room to room."""
    lines = []
    for index in range(walls):
        (x0, y0), (x1, y1) = _SIDES[index % 4]
        east = 30 * (index // 4)
        run = f"{{from: [{east + x0} ft, {y0} ft], to: [{east + x1} ft, {y1} ft]}}"
        lines.append(f"  W{index + 1}: {{type: all, run: {run}, openings: {{{_WINDOW}}}}}\n")
    folder.mkdir(parents=True)
    (folder / "project.yaml").write_text(_HEAD + "".join(lines), encoding="utf-8")
