"""A rule set that says something else is noticed, also where it says which specimens count and what of them governs.

Formulas, their limits and tables are changed one place at a time in `test_rule_cases.py`. Here it is what picks the
specimens of a set: shapes, drying, rank and number, factors by shape, the statistic. The governing value of each case
is worked by hand from its rows. Together they leave no limit of any shipped rule idle.
"""

from __future__ import annotations

import pytest

from compliance.facts.specimens.sample import StatisticError
from compliance.reading.rule_files.rule_library import shipped_rule_sets
from compliance.rules.rule_set import Rule
from tests.rule_cases import rules_of
from tests.specimen_cases import (
    SpecimenCase,
    filled,
    judged,
    picking_changes,
    picking_limits,
    result_of,
    specimen_cases,
)

RULES = {f"{name}/{rule.id}": rule for name in shipped_rule_sets() for rule in rules_of(name).values()}
TESTS = {name: rule for name, rule in RULES.items() if rule.test}
_COUNTED = "the rule asks how many specimens there are, whatever governs them"
UNSEEN = {
    name: {"governs: highest": _COUNTED, "governs: mean": _COUNTED}
    for name in (
        "hb-195-2002/specimens-count",
        "india-is-13827-1993/specimens-count",
        "nzs-4298-materials/compression-count",
        "zimbabwe-saz-724/specimens-count",
    )
}
"""Changes no case can see, by rule, each with its reason."""


def comes_out(rule: Rule, case: SpecimenCase) -> bool:
    """Whether the rule gives what the case says: its outcome, and the value that governs."""
    assert rule.test is not None
    try:
        found = judged(rule, case)
    except StatisticError:
        return False
    if found.outcome is not case.outcome:
        return False
    if case.result is None:
        return True
    value = found.value.value if found.value else None
    return isinstance(value, float) and value == pytest.approx(result_of(case.result, rule.test.of), rel=1e-6)


@pytest.mark.parametrize(("name", "case"), [(name, case) for name, cases in specimen_cases().items() for case in cases])
def test_rows_give_what_is_worked_by_hand(name: str, case: SpecimenCase) -> None:
    rule = filled(TESTS[name], case)
    assert comes_out(rule, case), judged(rule, case)


@pytest.mark.parametrize("name", TESTS)
def test_a_change_of_what_picks_specimens_is_noticed(name: str) -> None:
    cases = specimen_cases().get(name, [])
    passed = {
        says
        for says, changed in picking_changes(TESTS[name])
        if all(comes_out(filled(changed, case), case) for case in cases)
    }
    assert passed == set(UNSEEN.get(name, {}))


def test_no_limit_is_idle() -> None:
    """Each stands in a formula or picks specimens; `test_rule_cases.py` changes the former, this file the latter."""
    idle = []
    for name, rule in RULES.items():
        used = {one for formula in (rule.when, rule.check) if formula for one in formula.names}
        used |= set(picking_limits(rule)) if rule.test else set()
        idle += [f"{name}: {limit}" for limit in rule.limits if limit not in used]
    assert not idle
