"""What the tests of rule sets from other countries share: every limit of a set, verdicts, and a small SI project."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path

from compliance.checking import check_folder
from compliance.findings import Finding
from compliance.judging.examples import run_example
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.rules.rule_set import Rule, RuleSet
from compliance.rules.schema import ExampleText, LimitValue, Scalar

Known = dict[tuple[str, str], tuple[object, str]]
"""A limit by rule and name: its value in SI (or words, or None while open), and how well it is known."""

Facts = dict[str, Scalar | None]
"""Facts of one example, by name."""

Entered = dict[str, LimitValue]
"""Open limits filled in, by name."""

MM, CM = 1e-3, 1e-2
MPA = 1e6
KGF_PER_CM2 = 9.80665 / CM**2
GRAVITY = 9.80665
"""Factors by hand: the kilogram-force is that of standard gravity, 9.80665 m/s² (CGPM 1901)."""

HEAD = """\
project: {{name: Trial, date: 2026-12-30, units: si, use: dwelling, stories: 1, building_height: 4.5 m}}
jurisdiction: {{name: Nowhere, rule_sets: [{rule_set}]}}
soils: {{S1: {{name: clay}}}}
"""


@cache
def rules_of(name: str) -> RuleSet:
    return read_shipped(name)


def rule(name: str, rule_id: str) -> Rule:
    return next(one for one in rules_of(name).rules if one.id == rule_id)


def limits_of(name: str) -> Known:
    """Every limit of a rule set; tables are left to tests of their own."""
    found: Known = {}
    for one in rules_of(name).rules:
        for limit in one.limits.values():
            value = sorted(limit.value) if isinstance(limit.value, frozenset) else limit.value
            found[one.id, limit.name] = (value, limit.standing.value)
    return found


def verdict(
    name: str, rule_id: str, given: Mapping[str, Scalar | None], limits: Mapping[str, LimitValue] | None = None
) -> str:
    """The outcome of one rule for these facts, with open limits filled in."""
    example = ExampleText(given=dict(given), limits=dict(limits or {}), gives="missing")
    return run_example(rule(name, rule_id), example).outcome.value


def findings(folder: Path) -> dict[tuple[str, str], Finding]:
    """The findings of a project folder, by rule and subject."""
    return {(one.rule, one.subject): one for one in check_folder(folder).findings}


def cubes(loads: list[float], side: int = 100, height: int | None = None) -> str:
    """The lab table of a compression set C1 of mix M1: peak loads in kN on a square of `side` in mm."""
    heading = "set,specimen,mix,cast,tested,dried,shape,width [mm],depth [mm],height [mm],mass [kg],peak_load [kN],"
    shape = "prism" if height else "cube"
    rows = [
        f"C1,C1-{number},M1,2026-01-05,2026-03-05,air,{shape},{side},{side},{height or side},,{load},"
        for number, load in enumerate(loads, start=1)
    ]
    return "\n".join([heading + "strength [MPa]", *rows]) + "\n"
