"""The engineer's list gathers exactly what calls for an engineer, and nothing takes a wall off it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.findings import Finding, Outcome
from compliance.judging.engineers_list import engineers_list
from compliance.problems import Place
from tests.conftest import EXAMPLE

OUTCOMES = list(Outcome)


def finding(outcome: Outcome, about: str = "wall", subject: str = "W1", rule: str = "r") -> Finding:
    wall = subject.partition(".")[0] if about in ("wall", "opening", "pier") else ""
    return Finding("set", rule, "limit", "Title", "1", about, subject, outcome, None, "Says.", f"reason of {rule}",
                   Place("project.yaml"), wall=wall)  # fmt: skip


def test_openings_and_piers_count_for_their_wall_and_shared_parts_for_the_building() -> None:
    found = engineers_list([
        finding(Outcome.ENGINEER, rule="a"), finding(Outcome.ENGINEER, "pier", "W1.P2", "b"),
        finding(Outcome.ENGINEER, "opening", "W2.D1", "c"), finding(Outcome.ENGINEER, "site", "site", "d"),
        finding(Outcome.ENGINEER, "footing", "F1", "e"),
    ])  # fmt: skip
    assert [(item.called, item.reasons) for item in found] == [
        ("the building", ("Title: reason of d", "F1: Title: reason of e")),
        ("W1", ("Title: reason of a", "W1.P2: Title: reason of b")),
        ("W2", ("W2.D1: Title: reason of c",)),
    ]


def test_a_wall_may_be_called_building() -> None:
    found = engineers_list([finding(Outcome.ENGINEER, subject="building")])
    assert [item.called for item in found] == ["building"] and found[0].wall == "building"


@given(st.lists(st.tuples(st.sampled_from(OUTCOMES), st.sampled_from(["W1", "W2", "W3"]), st.integers(0, 3))))
def test_exactly_the_walls_with_such_a_finding(rows: list[tuple[Outcome, str, int]]) -> None:
    findings = [finding(outcome, subject=wall, rule=f"r{rule}") for outcome, wall, rule in rows]
    found = engineers_list(findings)
    assert {item.wall for item in found} == {wall for outcome, wall, _ in rows if outcome is Outcome.ENGINEER}
    listed = [one for item in found for one in item.findings]
    assert sorted(map(id, listed)) == sorted(id(one) for one in findings if one.outcome is Outcome.ENGINEER)


@given(st.lists(st.sampled_from(OUTCOMES), min_size=1))
def test_what_meets_takes_nothing_off(outcomes: list[Outcome]) -> None:
    findings = [finding(outcome, rule=f"r{index}") for index, outcome in enumerate(outcomes)]
    more = [*findings, *(finding(Outcome.MEETS, rule=f"m{index}") for index in range(5))]
    assert engineers_list(more) == engineers_list(findings)


def test_nothing_calls_for_an_engineer() -> None:
    assert engineers_list([finding(Outcome.MEETS), finding(Outcome.MISSING)]) == ()


def test_the_example_keeps_every_outcome_and_lists_some_walls_only() -> None:
    checked = check_folder(EXAMPLE)
    assert all(checked.tally().values())
    walls = {item.wall for item in engineers_list(checked.findings)}
    assert {"W3", "W6"} <= walls and "W7" not in walls
    dropped = [replace(one, outcome=Outcome.MEETS) if one.rule_set == "structural-screening" else one
               for one in checked.findings]  # fmt: skip
    assert "W6" in {item.wall for item in engineers_list(dropped)}, "its height alone puts it there"


def test_every_wall_of_the_example_prints_a_full_load_path() -> None:
    checked = check_folder(EXAMPLE)
    for mark, wall in checked.facts.of("wall").items():
        for name in ("top_load", "own_weight", "base_load", "base_stress", "soil_load", "soil_pressure", "load_out"):
            assert isinstance(wall.fact(f"wall.{name}").value, float), (mark, name)
    balance = checked.facts.of("project")["project"].fact("project.load_balance").value
    assert isinstance(balance, float) and balance == pytest.approx(0, abs=1e-9)
