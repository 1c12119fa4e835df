"""The chain from the pit to the wall as data, and the facts that rest on it."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.facts.common.fact import Fact
from compliance.findings import Lack, Missing, Outcome
from tests.conftest import EXAMPLE, WALLS, Write
from tests.unit.test_material_reading import EARTH, HEAD, ROW, TABLE

WAITING = ROW.replace(",1600,", ",,")


def checked(project: Write, earth: str = EARTH, rows: str = ROW, walls: str = WALLS) -> Checked:
    files = {"earth.yaml": earth, "lab/compression.csv": TABLE + rows, "pic.png": "x"}
    return check_folder(project(text=walls + "include: [earth.yaml]\n", head=HEAD, files=files))


def fact(found: Checked, about: str, mark: str, name: str) -> Fact:
    return found.facts.of(about)[mark].facts[f"{about}.{name}"]


def test_every_link_in_the_order_of_the_work(project: Write) -> None:
    earth = EARTH.replace("name: clay\n", "name: clay\n    place: Hill pit\n    depth: 3 ft\n    dug: 2026-02-01\n")
    chain = checked(project, earth).evidence.chains["W1"]
    assert [(one.kind, one.mark, one.of) for one in chain.links] == [
        ("pit", "S1", "S1"), ("soil", "S1", "M1"), ("trial", "TR1", "M1"), ("mix", "M1", ""), ("batch", "BA1", "M1"),
        ("set", "C1", "M1"), ("specimen", "C1-1", "C1"), ("wall", "W1", "M1"),
    ]  # fmt: skip
    assert chain.gaps == ()
    lines = [step.result.value for step in chain.steps()]
    assert lines[0] == "Hill pit, 3 ft deep, dug 2026-02-01"
    assert "cast 2026-03-02, of batch BA1, tested 2026-04-02" in lines
    assert [one.mark for one in chain.of_kind("specimen")] == ["C1-1"]
    assert len(chain.steps(without=("specimen",))) == 7


@pytest.mark.parametrize(
    ("earth", "rows", "gap"),
    [
        (EARTH, ROW, "soil S1 does not say where it comes from"),
        (EARTH.replace(", trial: TR1", ""), ROW, "names no trial"),
        (EARTH.replace("{C1: {kind: compression, mix: M1}}", "{}"), "", "mix M1 has no set of specimens"),
        (EARTH, "", "set C1 has no rows"),
    ],
)
def test_what_breaks_the_chain_is_said(project: Write, earth: str, rows: str, gap: str) -> None:
    assert any(gap in one for one in checked(project, earth, rows).evidence.chains["W1"].gaps)


def test_a_wall_without_a_mix_has_no_chain(project: Write) -> None:
    found = checked(project, walls=WALLS.replace(", mix: M1", ""))
    assert [one.kind for one in found.evidence.chains["W1"].links] == ["wall"]
    assert fact(found, "wall", "W1", "compression_evidence").missing == (("walls", "W1", "mix"),)


def test_a_batch_for_other_walls_is_not_in_the_chain(project: Write) -> None:
    walls = WALLS + WALLS.partition("\n")[2].replace("W1", "W2").replace("0 ft]", "10 ft]")
    chains = checked(project, walls=walls).evidence.chains
    assert [one.mark for one in chains["W1"].of_kind("batch")] == ["BA1"]
    assert chains["W2"].of_kind("batch") == ()


def test_evidence_of_the_walls(project: Write) -> None:
    found = checked(project)
    assert fact(found, "wall", "W1", "compression_evidence").value is True
    assert fact(found, "wall", "W1", "compression_evidence").steps
    assert fact(found, "wall", "W1", "rupture_evidence").missing == (Missing(Lack.TEST_SET, ("rupture", "M1"), ""),)


@pytest.mark.parametrize("rows", ["", WAITING], ids=["no rows", "a row without a result"])
def test_a_set_that_waits_for_its_results_is_no_tested_one(project: Write, rows: str) -> None:
    empty = checked(project, rows=rows)
    for about, mark, name in (
        ("wall", "W1", "compression_evidence"), ("wall", "W1", "compression_sets"), ("mix", "M1", "compression_sets"),
    ):  # fmt: skip
        assert fact(empty, about, mark, name).missing == (Missing(Lack.ROWS, ("C1",), "lab/compression.csv"),)
    assert fact(empty, "mix", "M1", "rupture_sets").value == 0.0


def test_beside_a_tested_set_one_that_waits_does_not_count(project: Write) -> None:
    sets = "test_sets: {C1: {kind: compression, mix: M1}, C2: {kind: compression, mix: M1}}\n"
    earth = EARTH.replace("test_sets: {C1: {kind: compression, mix: M1}}\n", sets)
    found = checked(project, earth, rows=ROW + WAITING.replace("C1", "C2"))
    assert fact(found, "wall", "W1", "compression_sets").value == 1.0
    assert fact(found, "mix", "M1", "compression_sets").value == 1.0


def test_no_wall_is_of_a_tested_mix_while_its_set_waits(project: Write) -> None:
    """AU103.4 of the proposal RB299-19 (read): the very mix of each wall has passed the tests."""
    head, outcomes = HEAD.replace("rules.yaml", "cob-irc-2021-au"), []
    five = "".join(
        ROW.replace("C1-1", f"C1-{number}", 1).replace(",1600", f",16{number}0", 1) for number in range(1, 6)
    )
    assert len(set(five.splitlines())) == 5
    earth = EARTH.replace("{name: one,", "{name: one, form: cob,")
    for rows in (five, WAITING):
        files = {"earth.yaml": earth, "lab/compression.csv": TABLE + rows, "pic.png": "x"}
        found = check_folder(project(text=WALLS + "include: [earth.yaml]\n", head=head, files=files)).findings
        outcomes += [one.outcome for one in found if one.rule == "wall-mix-tested"]
    assert outcomes == [Outcome.MEETS, Outcome.MISSING]


@pytest.mark.parametrize(
    ("shown", "placed", "value"),
    [
        ("2026-04-03", "", True),
        ("2026-04-03", "2026-04-03", True),
        ("2026-04-03", "2026-04-02", False),
        ("", "2026-04-02", None),
        ("", "", None),
    ],
)
def test_results_shown_by_the_day_placing_begins(project: Write, shown: str, placed: str, value: bool | None) -> None:
    earth = EARTH.replace("mix: M1}}", f"mix: M1, shown_to_official: {shown}}}}}") if shown else EARTH
    walls = WALLS.replace("mix: M1}", f"mix: M1, placed_from: {placed}}}") if placed else WALLS
    found = fact(checked(project, earth, walls=walls), "wall", "W1", "tests_shown")
    assert found.value is value
    assert value is not None or found.missing == (("test_sets", "C1", "shown_to_official"),)
    assert value is None or any("2026-04-03" in str(step.result.value) for step in found.steps)


def test_one_kind_shown_late_is_late_whatever_the_other(project: Write) -> None:
    sets = (
        "test_sets:\n  C1: {kind: compression, mix: M1, shown_to_official: 2026-04-03}\n"
        "  C2: {kind: compression, mix: M1, shown_to_official: 2026-06-01}\n"
        "  H1: {kind: shrinkage, mix: M1, shown_to_official: 2026-05-02}\n"
    )
    earth = EARTH.replace("test_sets: {C1: {kind: compression, mix: M1}}\n", sets)
    walls = WALLS.replace("mix: M1}", "mix: M1, placed_from: 2026-05-01}")
    assert fact(checked(project, earth, walls=walls), "wall", "W1", "tests_shown").value is False
    later = walls.replace("2026-05-01", "2026-05-02")
    assert fact(checked(project, earth, walls=later), "wall", "W1", "tests_shown").value is True


def test_one_kind_shown_late_is_late_whatever_is_not_known_of_another(project: Write) -> None:
    sets = (
        "test_sets:\n  C1: {kind: compression, mix: M1}\n"
        "  H1: {kind: shrinkage, mix: M1, shown_to_official: 2026-05-12}\n"
    )
    earth = EARTH.replace("test_sets: {C1: {kind: compression, mix: M1}}\n", sets)
    walls = WALLS.replace("mix: M1}", "mix: M1, placed_from: 2026-05-05}")
    assert fact(checked(project, earth, walls=walls), "wall", "W1", "tests_shown").value is False
    later = walls.replace("2026-05-05", "2026-06-05")
    found = fact(checked(project, earth, walls=later), "wall", "W1", "tests_shown")
    assert found.value is None and found.missing == (("test_sets", "C1", "shown_to_official"),)


def test_facts_of_mixes_and_sets(project: Write) -> None:
    found = checked(project)
    values: dict[str, Any] = {
        name: fact(found, "mix", "M1", name).value
        for name in (
            "compression_sets",
            "rupture_sets",
            "batches",
            "has_trial",
            "replaced",
            "replaces_another",
            "trial_rank",
        )
    }
    assert values == {
        "compression_sets": 1.0, "rupture_sets": 0.0, "batches": 1.0, "has_trial": True, "replaced": True,
        "replaces_another": False, "trial_rank": None,
    }  # fmt: skip
    assert fact(found, "mix", "M2", "replaces_another").value is True
    assert fact(found, "mix", "M2", "follows_trial").missing == (("mixes", "M2", "trial"),)
    assert ("mixes", "M1", "straw") in fact(found, "mix", "M1", "follows_trial").missing
    assert fact(found, "set", "C1", "least_age").value == 31 * 86400.0
    assert fact(found, "set", "C1", "drying").value == "air"
    assert fact(found, "set", "C1", "batches").value == 1.0
    assert fact(found, "set", "C1", "stands_apart").reason


@pytest.mark.parametrize(
    ("rows", "name"),
    [(ROW.replace("2026-03-02,", ","), "least_age"), (ROW.replace(",air,", ",,"), "drying"), ("", "least_age")],
)
def test_what_a_row_leaves_out_is_lacking_in_the_table(project: Write, rows: str, name: str) -> None:
    missing = fact(checked(project, rows=rows), "set", "C1", name).missing
    assert isinstance(missing[0], Missing) and missing[0].kind in (Lack.ROWS, Lack.CELLS)
    assert missing[0].file == "lab/compression.csv"


def test_sets_dried_in_two_ways_are_mixed(project: Write) -> None:
    rows = ROW + ROW.replace("C1-1", "C1-2").replace(",air,", ",oven,")
    assert fact(checked(project, rows=rows), "set", "C1", "drying").value == "mixed"


def test_the_example_carries_its_whole_chain() -> None:
    evidence = check_folder(EXAMPLE).evidence
    kinds = [one.kind for one in evidence.chains["W1"].links]
    assert set(kinds) == {"pit", "soil", "trial", "mix", "batch", "set", "specimen", "wall"}
    assert evidence.chains["W1"].gaps == ()
    assert [one.mark for one in evidence.ranking.trials] == ["TR2", "TR1", "TR3", "TR4"]
    assert {mark: record.origin for mark, record in evidence.soils.items()} == {
        "S1": "grading",
        "S2": "stated",
        "S3": "jar",
    }
