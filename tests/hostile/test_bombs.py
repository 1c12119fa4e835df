"""Inputs that are small to send and large to read, or simply large: refused early, with little memory.

Each is made here, because none belongs into a repository.
"""

from __future__ import annotations

import resource
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.hostile.laying_out import SOUND, write
from tests.hostile.running import HARD_TIMEOUT, MOST_MEMORY, Host, command, environment, listing

LAB = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\n"
)
WALL = "{run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 16 in}"
RULES = (
    'rule_set: trial\ntitle: T\nedition: "1"\njurisdiction: N\nmaterial: cob\nforms: [any]\nstatus: practice\n'
    "scope: S\nsource: S\nverify: V\nrules:\n"
)


def project(text: str) -> dict[str, str]:
    return {"project.yaml": text}


def more(text: str) -> dict[str, str]:
    return {"project.yaml": SOUND + text}


def table(text: str) -> dict[str, str]:
    return {"project.yaml": SOUND, "lab/compression.csv": text}


def rules(text: str) -> dict[str, str]:
    return {"project.yaml": SOUND.replace("cob-practice", "rules.yaml"), "rules.yaml": text}


def _rule(number: int) -> str:
    return f"  - {{id: r{number}, title: T, clause: C, about: wall, check: wall.height >= 0, say: S}}\n"


BOMBS: dict[str, tuple[Callable[[], dict[str, str]], list[str]]] = {
    "ten megabytes of nothing": (lambda: project(" " * 10_000_000), ["project.yaml yaml-size"]),
    "ten megabytes of comment": (lambda: project("#" * 10_000_000), ["project.yaml yaml-size"]),
    "two megabytes of brackets": (lambda: more("x: " + "[" * 1_900_000), ["project.yaml:8:1003 yaml-depth"]),
    "two megabytes of braces": (lambda: more("x: " + "{" * 1_900_000), ["project.yaml:8:1003 yaml-depth"]),
    "deep blocks": (
        lambda: more("x:\n" + "".join(" " * depth + "a:\n" for depth in range(1, 1900))),
        ["project.yaml:48:41 yaml-depth"],
    ),
    "half a million lists": (lambda: more(f"x: [{'[],' * 500_000}]"), ["project.yaml:8:1199885 yaml-nodes"]),
    "a key for each of 100,000 lines": (
        lambda: more("".join(f"k{number}: 1\n" for number in range(100_000))),
        [*(f"project.yaml:{line}:1 field-unknown" for line in range(8, 108)), "project.yaml:107:1 too-many-problems"],
    ),
    "a hundred thousand directives": (
        lambda: project("%A\n" * 100_000), [f"project.yaml:{line}:1 yaml-directive" for line in range(1, 101)]
    ),
    "a hundred thousand anchors": (
        lambda: more("x: [" + "&a ," * 100_000 + "]"),
        [
            *(f"project.yaml:8:{5 + 4 * count} yaml-anchor" for count in range(100)),
            "project.yaml:8:401 yaml-too-many-problems",
        ],
    ),
    "a text of a megabyte": (lambda: project(SOUND.replace("Trial", "x" * 1_900_000)), ["project.yaml:1:17 text-long"]),
    "a measure of a megabyte": (
        lambda: project(SOUND.replace("8 ft", "8 " + "f" * 1_900_000)), ["project.yaml:7:62 measure-form"]
    ),
    "a number of a megabyte": (
        lambda: project(SOUND.replace("{S1: 1}, ", "").replace("S1: 1", "S1: " + "9" * 1_900_000, 1)),
        ["project.yaml:4:37 yaml-number"],
    ),
    "a mark of a megabyte": (lambda: more("stems: {" + "S" * 1000 + ": {material: stone}}"), ["project.yaml:8:9 mark"]),
    "a word of a megabyte": (
        lambda: more(f"site: {{site_class: {'D' * 1_900_000}}}"), ["project.yaml:8:20 word-unknown"]
    ),
    "a path of a megabyte": (
        lambda: more(f"include: [{'a/' * 900_000}a.yaml]"), ["project.yaml:8:11 path-long"]
    ),
    "sixty thousand walls": (
        lambda: project(SOUND + "".join(f"  V{number:05}: {{}}\n" for number in range(60_000))),
        [*(f"project.yaml:{line}:11 wall-line" for line in range(8, 107)), "project.yaml:107:11 too-many-problems"],
    ),
    "ten thousand walls in one place": (
        lambda: project(SOUND + "".join(f"  V{number}: {WALL}\n" for number in range(10_000))),
        [
            "project.yaml:7:3 walls-crowded",
            *(f"project.yaml:{line}:3 walls-alike" for line in range(8, 106)),
            "project.yaml:106:3 too-many-problems",
            "project.yaml:106:3 walls-alike",
        ],
    ),
    "ten thousand walls across one another": (
        lambda: project(
            SOUND + "".join(f"  V{n}: {WALL.replace('[20 ft, 0 ft]', f'[20 ft, {n + 1} in]')}\n" for n in range(10_000))
        ),
        ["project.yaml:7:3 walls-crowded"],
    ),
    "one wall across ten thousand": (
        lambda: project(
            SOUND
            + "  L: {run: {from: [0 ft, 0 ft], to: [20000 ft, 20000 ft]}, height: 8 ft, thickness: 16 in}\n"
            + "".join(
                f"  V{n}: {{run: {{from: [{5 * n} ft, 9 ft], to: [{5 * n + 2} ft, 9 ft]}}, "
                "height: 8 ft, thickness: 1 in}\n"
                for n in range(10_000)
            )
        ),
        ["project.yaml:7:3 walls-crowded"],
    ),
    "a wall around the earth": (
        lambda: project(SOUND.replace("[20 ft, 0 ft]", "[30000000 ft, 0 ft]")), ["project.yaml:7:7 wall-line"]
    ),
    "two thousand openings": (
        lambda: project(
            SOUND.replace("mix: M1}\n", "mix: M1, openings: {")
            + "".join(
                f"D{n}: {{kind: door, start: 1 ft, width: 1 ft, height: 1 ft, sill: 0 ft}}, " for n in range(2000)
            )
            + "}}\n"
        ),
        ["project.yaml:7:105 too-long"],
    ),
    "twenty thousand mixes in a circle": (
        lambda: project(
            SOUND.partition("mixes:")[0]
            + "mixes: {" + "".join(
                f"M{n}: {{name: m, parts: {{S1: 1}}, replaces: M{(n + 1) % 20_000}}}, " for n in range(20_000)
            )
            + "}\nwalls: {W1: " + WALL + "}\n"
        ),
        ["project.yaml:4:8 too-long"],
    ),
    "two hundred mixes in a circle": (
        lambda: project(
            SOUND.partition("mixes:")[0] + "mixes:\n"
            + "".join(f"  M{n}: {{name: m, parts: {{S1: 1}}, replaces: M{(n + 1) % 200}}}\n" for n in range(200))
            + "walls: {W1: " + WALL + "}\n"
        ),
        [
            *(f"project.yaml:{n + 5}:{42 + len(str(n))} mix-replaces" for n in range(100)),
            "project.yaml:104:44 too-many-problems",
        ],
    ),
    "attestations without end": (
        lambda: more("attestations:\n" + "- {rule: r, answer: yes, by: A, on: 2026-01-01}\n" * 38_000),
        ["project.yaml:9:1 too-long"],
    ),
    "fifty includes of two megabytes": (
        lambda: {
            "project.yaml": SOUND + "include:\n" + "".join(f"  - f{n}.yaml\n" for n in range(50)),
            **{f"f{n}.yaml": "#" * 1_900_000 + "\nsite: {}\n" for n in range(50)},
        },
        [*(f"project.yaml:{line}:5 include-size" for line in range(11, 59))],
    ),
    "a table of ten megabytes and one": (lambda: table(LAB + "x" * 10_000_000), ["lab/compression.csv csv-size"]),
    "a million rows": (
        lambda: table(LAB + "C1,c\n" * 1_000_000),
        [*(f"lab/compression.csv:{line}:5 csv-cells-few" for line in range(2, 102)),
         "lab/compression.csv:101:5 too-many-problems"],
    ),
    "sixty thousand sound rows": (
        lambda: table(LAB + "".join(f"C1,a{n},M1,,,air,cube,4,4,4,,2000,\n" for n in range(60_000))),
        ["lab/compression.csv:50002:1 csv-rows"],
    ),
    "a cell that never ends": (
        lambda: table(LAB + 'C1,"' + "x" * 5_000_000), ["lab/compression.csv:2:1 csv-cell-size"]
    ),
    "a row of a million cells": (
        lambda: table(LAB + "x," * 1_000_000 + "\n"), ["lab/compression.csv:2:27 csv-cells-many"]
    ),
    "a heading of a million cells": (lambda: table("a," * 1_000_000 + "\n"), ["lab/compression.csv:1:1 csv-columns"]),
    "quotes without end": (lambda: table(LAB + '"' * 5_000_000), ["lab/compression.csv:2:1 csv-cell-size"]),
    "ten thousand rules": (
        lambda: rules(RULES + "".join(_rule(number) for number in range(10_000))), ["rules.yaml:12:3 too-long"]
    ),
    "a formula of a megabyte": (
        lambda: rules(RULES + _rule(1).replace(">= 0", ">= 0 and true" + " and true" * 100_000)),
        ["rules.yaml:12:55 string-too-long"],
    ),
    "a table of a million cells": (
        lambda: rules(
            RULES + "  - {id: r, title: T, clause: C, about: wall, check: wall.height <= t, say: S, tables: {t: {rows: "
            "{fact: wall.height, at: [" + "1 ft, " * 200_000 + "]}, cells: [], kind: length, standing: recalled}}}\n"
        ),
        ["rules.yaml:12:123 too-long", "rules.yaml:12:1200135 too-short"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", BOMBS)
def test_bomb(name: str, host: Host, tmp_path: Path) -> None:
    make, expected = BOMBS[name]
    write(tmp_path / "p", {file: text.encode() for file, text in make().items()})
    before = listing(tmp_path)
    ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    assert not ran.traced, ran.err[:2000]
    assert sorted(ran.problems) == sorted(f"p/{problem}" for problem in expected)
    assert ran.code == 2
    assert ran.peak < MOST_MEMORY
    assert len(ran.err) < 100_000
    assert listing(tmp_path) == before


def test_limits_hold_from_a_cold_start(tmp_path: Path) -> None:
    """One bomb with the whole process under the limit of memory, the libraries it loads included."""
    make, _ = BOMBS["half a million lists"]
    write(tmp_path / "p", {file: text.encode() for file, text in make().items()})

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (3 * MOST_MEMORY, 3 * MOST_MEMORY))

    done = subprocess.run(
        command("check", "p"), cwd=tmp_path, env=environment(), capture_output=True, timeout=HARD_TIMEOUT,
        preexec_fn=limit, check=False,
    )  # fmt: skip
    assert done.returncode == 2
    assert b"[yaml-nodes]" in done.stderr


def test_too_little_memory_is_told(tmp_path: Path) -> None:
    """Where memory runs out all the same, one sentence says so and nothing is written."""
    write(
        tmp_path / "p",
        {"project.yaml": SOUND.encode(), "lab/compression.csv": (LAB + "C1,,M1,,,,,,,,,,\n" * 40_000).encode()},
    )

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_DATA, (60_000_000, 60_000_000))

    done = subprocess.run(
        command("submittal", "p", "--output", "o.pdf"), cwd=tmp_path, env=environment(), capture_output=True,
        timeout=HARD_TIMEOUT, preexec_fn=limit, check=False,
    )  # fmt: skip
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    assert not (tmp_path / "o.pdf").exists()
