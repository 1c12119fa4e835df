"""What the tests of American rule sets share: a published figure with the verdicts around it, and unit factors."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cache

import pytest

from compliance.judging.examples import run_example
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.rules.rule_set import Rule
from compliance.rules.schema import ExampleText, LimitValue, Scalar

INCH, FOOT = 0.0254, 0.3048
POUND = 4.4482216152605
PSI, PSF, PLF = POUND / INCH**2, POUND / FOOT**2, POUND / FOOT
"""NIST SP 811: the inch and the pound-force are exact."""

Given = Mapping[str, Scalar | None]
Facts = Mapping[str, Scalar]
MEETS, REVISE, ENGINEER = "meets", "revise", "engineer"


@cache
def rules(name: str) -> dict[str, Rule]:
    return {rule.id: rule for rule in read_shipped(name).rules}


def verdict(name: str, rule: str, given: Given, limits: Mapping[str, LimitValue] | None = None) -> str:
    """The outcome of one rule for these facts, with open limits filled in."""
    example = ExampleText(given=dict(given), limits=dict(limits or {}), gives="missing")
    return run_example(rules(name)[rule], example).outcome.value


@dataclass(frozen=True)
class Published:
    """A figure as published: `value` in SI, `said` in the source of a limit that was read, and values of the deciding
    fact that lie at the figure (in both unit systems), inside it and outside it. `others` are further facts."""

    rule: str
    limit: str
    value: float
    standing: str
    said: str
    fact: str
    at: tuple[Scalar, ...]
    inside: Scalar
    outside: Scalar
    others: Facts = field(default_factory=dict)
    fails: str = REVISE

    def __str__(self) -> str:
        return f"{self.rule}/{self.limit}"


def hold(name: str, one: Published) -> None:
    """Asserts value, standing and source of the limit, and the verdicts at, inside and outside it."""
    limit = rules(name)[one.rule].limits[one.limit]
    assert limit.value == pytest.approx(one.value, rel=1e-12)
    assert limit.standing.value == one.standing
    assert one.said in limit.source
    found = [verdict(name, one.rule, {**one.others, one.fact: value}) for value in (*one.at, one.inside)]
    assert found == [MEETS] * len(found)
    assert verdict(name, one.rule, {**one.others, one.fact: one.outside}) == one.fails


def numbers_without_case(name: str, cases: Iterable[Published]) -> set[tuple[str, str]]:
    """The limits with a number that no case holds."""
    held = {(one.rule, one.limit) for one in cases}
    return {
        (rule.id, limit.name)
        for rule in rules(name).values()
        for limit in rule.limits.values()
        if isinstance(limit.value, float) and (rule.id, limit.name) not in held
    }


def open_limits(name: str) -> set[tuple[str, str]]:
    """The limits and tables that hold no value yet."""
    found = {(rule.id, limit.name) for rule in rules(name).values() for limit in rule.limits.values()
             if limit.value is None}  # fmt: skip
    return found | {
        (rule.id, table.name) for rule in rules(name).values() for table in rule.tables.values() if table.wholly_open
    }
