"""IRC 2024 Appendix BK: that it continues Appendix AU of 2021 is known second-hand, of its figures nothing.

So the rule set asks its questions, holds no figure, and cannot pass or fail anything before someone has filled it.
"""

from __future__ import annotations

import pytest

from compliance.findings import Standing
from compliance.judging.examples import run_example
from compliance.rules.rule_set import Rule
from compliance.rules.schema import ExampleText, Scalar
from tests.published.american import rules, verdict

BK, AU = "cob-irc-2024-bk", "cob-irc-2021-au"
ALL = rules(BK).values()
CHECKED = [pytest.param(rule, id=rule.id) for rule in ALL if rule.check and rule.standing is not Standing.OPEN]


@pytest.mark.parametrize("rule", CHECKED)
def test_every_limit_is_open_and_says_where_to_read_it(rule: Rule) -> None:
    assert rule.limits or rule.tables
    for limit in rule.limits.values():
        assert limit.value is None and limit.standing is Standing.OPEN
        assert "BK10" in limit.read_in
    for table in rule.tables.values():
        assert all(cell is None for row in table.cells for cell in row) and table.standing is Standing.OPEN
        assert "BK10" in table.read_in and table.rows.fact == "wall.method" and "wall-type" in rule.waits_for


def test_a_wall_type_is_asked_for_and_none_meets() -> None:
    """Its names are those of 2021, recalled; those of 2024 were not seen, so the rule itself is open."""
    rule = rules(BK)["wall-type"]
    assert rule.standing is Standing.OPEN and rule.limits["types"].standing is Standing.RECALLED
    given: tuple[dict[str, Scalar], ...] = ({"wall.method": "A"}, {"wall.method": "F"}, {})
    assert [verdict(BK, "wall-type", one) for one in given] == ["confirm", "engineer", "missing"]


@pytest.mark.parametrize("rule", CHECKED)
def test_nothing_passes_or_fails_before_it_is_filled(rule: Rule) -> None:
    """The facts of every example, those of a passing one too, ask for the adopted copy while the limit is open."""
    for example in rule.examples:
        unfilled = ExampleText(given=example.given, gives="confirm")
        assert run_example(rule, unfilled).outcome.value == (
            "not-applicable" if example.gives == "not-applicable" else "confirm"
        )


@pytest.mark.parametrize("rule", [pytest.param(rule, id=rule.id) for rule in ALL if not rule.check])
def test_words_of_people_rest_on_text_nobody_here_has_read(rule: Rule) -> None:
    assert rule.standing is Standing.OPEN and "not found" in rule.source
    assert rule.otherwise.value == verdict(BK, rule.id, {"answer": "no"})


def test_clauses_carry_the_letters_of_2024() -> None:
    assert all("BK10" in rule.clause and "AU" not in rule.clause for rule in rules(BK).values())


def test_no_figure_of_2021_slips_in() -> None:
    """Not even as the filled value of an example: nobody shall mistake it for one of 2024."""
    known = {
        (rule.question, limit.value)
        for rule in rules(AU).values()
        for limit in rule.limits.values()
        if rule.question and isinstance(limit.value, float)
    }
    filled = {
        (rule.question, used.value.value)
        for rule in rules(BK).values()
        for example in rule.examples
        for used in run_example(rule, example).limits
        if used.name in example.limits and used.value is not None
    }
    assert known and filled
    close = [(question, old, new) for question, old in known for other, new in filled
             if question == other and isinstance(new, float) and new == pytest.approx(old)]  # fmt: skip
    assert close == []


def test_asks_what_the_appendix_of_2021_asks() -> None:
    """The chief questions stand in both, so that a filled set can be laid beside the older one."""
    chief = {
        "stories", "building-height", "seismic-category", "wall-thickness", "wall-height-to-thickness", "stem-height",
        "shrinkage", "compressive-strength", "finish-permeance", "rain-protection", "bond-beam",
        "bond-beam-size", "anchor-spacing", "wall-type", "braced-panel-width", "bracing-length", "lintel-bearing",
    }  # fmt: skip
    assert chief <= {rule.question for rule in rules(BK).values()}
    assert chief <= {rule.question for rule in rules(AU).values()}
