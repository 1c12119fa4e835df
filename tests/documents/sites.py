"""A small project on disk with hold and witness points, ages and a volume for each set: plain numbers of our own."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from compliance.checked import Checked
from compliance.checking import check_folder

HEAD = """\
project: {name: Two walls, number: T-2, date: 2026-05-01, revision: A}
jurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}
soils: {S1: {name: clay}}
mixes: {M1: {name: mix, parts: {S1: 1}}}
"""

WALLS = """\
walls:
  W1: {name: south wall, run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in, mix: M1,
       bears_load: yes, lift_height: 14 in, placed_from: 2026-06-01}
  W2: {run: {from: [0 ft, 10 ft], to: [20 ft, 10 ft]}, height: 8 ft, thickness: 16 in, mix: M1, bears_load: no,
       use: garden, braces: no, lift_height: 14 in}
"""

RULES = """\
rule_set: site
title: Rules of the site
edition: "2026"
jurisdiction: nowhere
material: cob
forms: [any]
status: practice
scope: trial
source: written for the tests
verify: verify locally
rules:
  - id: strength
    title: Strength of the mix
    clause: S.1
    about: mix
    test: {of: compression, statistic: governs, shapes: shapes, dried: drying, least_age: age}
    limits:
      least: {value: 60 psi, standing: read, source: trial}
      governs: {value: lowest, standing: read, source: trial}
      number: {value: 5, kind: count, standing: read, source: trial}
      shapes: {value: [cube], standing: read, source: trial}
      drying: {value: [air], standing: read, source: trial}
      age: {value: 28 days, standing: read, source: trial}
    check: result >= least and specimens >= number
    say: Strong enough.
  - id: sets-for-volume
    title: Sets for the volume
    clause: S.2
    about: wall
    when: wall.structural
    covers: {rules: [strength]}
    limits:
      each: {value: 3 m3, standing: read, source: trial}
    check: passing * each >= mix.volume
    say: Enough sets.
  - id: see-finish
    title: Look at the finish
    clause: S.9
    about: wall
    inspect: {stage: finish, point: witness, who: builder, look_at: The face., record: Cracks seen.}
    say: Last look.
    standing: recalled
    source: trial
  - id: see-first-lift
    title: Look at the first lift
    clause: S.3
    about: wall
    when: wall.bears_load
    inspect: {stage: first-lift, point: hold, who: building official, look_at: The first lift., record: Its thickness.}
    say: First look.
    standing: read
    source: trial
"""

Write = Callable[..., Path]


def site(project: Write, more: str = "", rules: str = RULES, walls: str = WALLS, head: str = HEAD) -> Checked:
    return check_folder(project(text=walls + more, head=head, rules=rules))
