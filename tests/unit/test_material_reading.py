"""What soils, trials, mixes, batches and specimens say of each other: each contradiction at its exact place."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from tests.conftest import WALLS, Write

EARTH = """\
soils:
  S1:
    name: clay
    clay: 40 %
    silt: 20 %
    sand: 40 %
    field_tests:
      - {kind: shaking, reading: none, photo: pic}
      - {kind: ribbon, reading: 2 in}
    jar: {depth: 8 in, sand: {height: 2 in}, silt: {height: 3 in}, settled: {height: 4 in}, photo: pic}
    grading: {report: pic, points: [{size: 0.05 mm, finer: 40 %}, {size: 2 mm, finer: 90 %}]}
trials:
  TR1: {parts: {S1: 1}, photo: pic}
mixes:
  M1: {name: one, parts: {S1: 1}, trial: TR1}
  M2: {name: two, parts: {S1: 2}, replaces: M1}
batches:
  BA1: {mix: M1, mixed: 2026-03-02, walls: [W1], photo: pic}
test_sets: {C1: {kind: compression, mix: M1}}
attachments: {pic: {file: pic.png, title: a picture}}
"""
TABLE = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi],batch\n"
)
ROW = "C1,C1-1,M1,2026-03-02,2026-04-02,air,prism,4,4,8,,1600,,BA1\n"
HEAD = "project: {name: Trial, date: 2026-12-30}\njurisdiction: {name: Nowhere, rule_sets: [rules.yaml]}\n"


def read(project: Write, earth: str = EARTH, row: str = ROW) -> Any:
    files = {"earth.yaml": earth, "lab/compression.csv": TABLE + row, "pic.png": "x"}
    return read_project(project(text=WALLS + "include: [earth.yaml]\n", head=HEAD, files=files))


def problems(project: Write, earth: str = EARTH, row: str = ROW) -> list[tuple[str, int, int, str]]:
    with pytest.raises(ProblemsFound) as found:
        read(project, earth, row)
    for problem in found.value.problems:
        assert problem.wrong and problem.instead, problem
    return [
        (one.place.file.rpartition("/")[2], one.place.line, one.place.column, one.code) for one in found.value.problems
    ]


def test_a_sound_chain_is_read(project: Write) -> None:
    found = read(project)
    assert found.specimens["C1"][0].batch == "BA1"
    assert found.project.soils["S1"].field_tests[1].reading == "2 in"
    assert found.project.mixes["M2"].replaces == "M1" and found.project.trials["TR1"].photo == "pic"


@pytest.mark.parametrize(
    ("change", "part", "code"),
    [
        (("reading: none, photo: pic", "reading: none, photo: pix"), "pix", "mark-unknown"),
        (("reading: none", "reading: often"), "often", "soil-test"),
        (("reading: 2 in", "reading: 2"), "2}", "soil-test"),
        (("settled: {height: 4 in}, photo: pic", "settled: {height: 4 in}, photo: pix"), "pix", "mark-unknown"),
        (("silt: {height: 3 in}", "silt: {height: 1 in}"), "{depth", "soil-test"),
        (("depth: 8 in", "depth: 8 in, temperature: 300 degF"), "{depth", "soil-test"),
        (("report: pic", "report: pix"), "pix", "mark-unknown"),
        (("finer: 90 %", "finer: 30 %"), "{report", "soil-test"),
        (("clay: 40 %", "clay: 44 %"), "44 %", "soil-test"),
        (("TR1: {parts: {S1: 1}, photo: pic", "TR1: {parts: {S1: 1}, photo: pix"), "pix", "mark-unknown"),
        (("TR1: {parts: {S1: 1}", "TR1: {parts: {S2: 1}"), "1}, photo", "mark-unknown"),
        (("trial: TR1", "trial: TR2"), "TR2}", "mark-unknown"),
        (("replaces: M1", "replaces: M9"), "M9}", "mark-unknown"),
        (("replaces: M1", "replaces: M2"), "M2}\nbatches", "mix-replaces"),
        (("trial: TR1", "trial: TR1, replaces: M2"), "M2}\n  M2", "mix-replaces"),
        (("BA1: {mix: M1", "BA1: {mix: M9"), "M9, mixed", "mark-unknown"),
        (("walls: [W1]", "walls: [W9]"), "W9", "mark-unknown"),
        (("BA1: {mix: M1", "BA1: {mix: M2"), "W1], photo", "batch-mix"),
        (("walls: [W1], photo: pic", "walls: [W1], photo: pix"), "pix", "mark-unknown"),
        (("kind: shaking", "kind: squeezing"), "squeezing", "word-unknown"),
        (("finer: 40 %", "finer: 40"), "40}", "measure-no-unit"),
        (("{S1: 1}, trial", "{S1: 0}, trial"), "0}, trial", "greater-than"),
    ],
)  # fmt: skip
def test_each_contradiction_at_its_place(project: Write, change: tuple[str, str], part: str, code: str) -> None:
    earth = EARTH.replace(*change)
    assert earth != EARTH
    before = earth[: earth.index(part)]
    place = before.count("\n") + 1, len(before.rpartition("\n")[2]) + 1
    found = problems(project, earth)
    assert ("earth.yaml", *place, code) in found, found


def test_a_jar_and_a_grading_that_are_wrong_are_both_told(project: Write) -> None:
    earth = EARTH.replace("silt: {height: 3 in}", "silt: {height: 1 in}").replace("finer: 90 %", "finer: 30 %")
    assert [code for *_, code in problems(project, earth)] == ["soil-test", "soil-test"]


@pytest.mark.parametrize(
    "row",
    [
        ROW.replace("BA1", "BA2"),
        ROW.replace("2026-03-02,2026", "2026-03-01,2026"),
    ],
)
def test_specimens_and_their_batch(project: Write, row: str) -> None:
    assert problems(project, row=row) == [("compression.csv", 2, 1, "lab-batch")]


def test_a_specimen_of_another_mix_than_its_batch(project: Write) -> None:
    earth = EARTH.replace(
        "BA1: {mix: M1, mixed: 2026-03-02, walls: [W1]", "BA1: {mix: M2, mixed: 2026-03-02, walls: []"
    )
    assert problems(project, earth) == [("compression.csv", 2, 1, "lab-batch")]
