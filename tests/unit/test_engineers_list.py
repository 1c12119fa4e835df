"""The engineer's list gathers exactly what calls for an engineer, and nothing takes a wall off it."""

from __future__ import annotations

import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.files.shipped import shipped
from compliance.findings import Finding, Outcome
from compliance.judging.engineers_list import engineers_list
from compliance.judging.reasons import RuleSays
from compliance.problems import Place
from compliance.reading.rule_files.rule_library import read_rule_set
from tests.conftest import EXAMPLE
from tests.tries import tries
from tests.unit.buildings_at_random import write_building

OUTCOMES = list(Outcome)


def finding(outcome: Outcome, about: str = "wall", subject: str = "W1", rule: str = "r") -> Finding:
    wall = subject.partition(".")[0] if about in ("wall", "opening", "pier") else ""
    return Finding(
        rule_set="set", rule=rule, kind="limit", title="Title", clause="1", about=about, subject=subject,
        outcome=outcome, standing=None, say="Says.", reason=RuleSays(f"reason of {rule}"),
        place=Place("project.yaml"), wall=wall,
    )  # fmt: skip


def test_openings_and_piers_count_for_their_wall_and_shared_parts_for_the_building() -> None:
    found = engineers_list([
        finding(Outcome.ENGINEER, rule="a"), finding(Outcome.ENGINEER, "pier", "W1.P2", "b"),
        finding(Outcome.ENGINEER, "opening", "W2.D1", "c"), finding(Outcome.ENGINEER, "site", "site", "d"),
        finding(Outcome.ENGINEER, "footing", "F1", "e"),
    ])  # fmt: skip
    assert [(item.called, [(one.subject, one.rule) for one in item.findings]) for item in found] == [
        ("the building", [("site", "d"), ("F1", "e")]), ("W1", [("W1", "a"), ("W1.P2", "b")]), ("W2", [("W2.D1", "c")]),
    ]  # fmt: skip


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
    assert {"W3", "W6", "W7"} <= walls and "W4" not in walls
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


REASONS = {
    "seismic category": ("seismic-category",),
    "wind": ("strong-wind", "open-shore"),
    "stories": ("more-stories",),
    "height to thickness": ("slender-wall",),
    "edge of the table": ("beyond-height-table",),
    "openings": ("many-openings", "wide-opening", "open-side"),
    "width of piers": ("narrow-pier",),
    "concentrated load": ("concentrated-load",),
    "eccentricity": ("load-off-centre",),
    "thrust": ("thrust-on-wall", "roof-kind"),
    "retaining": ("retaining",),
    "free-standing height": ("tall-free-standing",),
    "weak or expansive soil": ("weak-soil", "swelling-ground"),
    "slope": ("steep-ground",),
    "flood": ("floods",),
    "strength below the limit": ("weak-earth", "weak-earth-bracing"),
    "curved wall as its own bracing": ("curved-bracing",),
    "demand over the screening's capacity": ("demand-over-capacity",),
}
"""What takes a wall or a building out of prescriptive rules, and the rules that say so."""


def test_the_table_has_every_reason_each_in_one_plain_sentence() -> None:
    rules = {
        one.id: one for one in read_rule_set(shipped("rulesets") / "engineers-list.yaml", "engineers-list.yaml").rules
    }
    assert {name for names in REASONS.values() for name in names} <= set(rules)
    for name, one in rules.items():
        assert one.otherwise is Outcome.ENGINEER, name
        assert one.say.endswith(".") and ". " not in one.say and 4 <= len(one.say.split()) <= 25, name
        assert one.limits or one.source or one.tables, name


@settings(max_examples=tries(10), deadline=None)
@given(st.integers(0, 10_000))
def test_being_within_the_screening_takes_no_wall_off(seed: int) -> None:
    """The list is the same whether the building is screened or not, and whatever the screening says."""
    with tempfile.TemporaryDirectory() as name:
        folder = write_building(Path(name) / "trial", seed)
        text = (folder / "project.yaml").read_text(encoding="utf-8")
        found = []
        for adopted in ("engineers-list", "structural-screening, engineers-list"):
            other = text.replace("rule_sets: [cob-practice, cob-irc-2021-au]", f"rule_sets: [{adopted}]")
            assert other != text
            (folder / "project.yaml").write_text(other, encoding="utf-8")
            checked = check_folder(folder)
            found.append({(one.wall, one.subject, one.rule) for item in engineers_list(checked.findings)
                          for one in item.findings if one.rule_set == "engineers-list"})  # fmt: skip
        held = [replace(one, outcome=Outcome.MEETS) if one.rule_set == "structural-screening" else one
                for one in checked.findings]  # fmt: skip
    assert found[0] == found[1]
    assert {(one.wall, one.subject, one.rule) for item in engineers_list(held) for one in item.findings} == found[0]
