"""Which specimens wait for a laboratory, and what the adopted rules ask of their sets."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from compliance.checked import Checked
from compliance.facts.specimens.specimen_results import measured
from compliance.facts.specimens.statistics import STATISTICS
from compliance.findings import Finding, Standing
from compliance.model.materials import TestSet
from compliance.model.specimens import Specimen
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.rules.formulas.formula import FormulaUndefined
from compliance.rules.required_specimens import RequiredSpecimens, required_specimens
from compliance.rules.rule_set import Rule
from compliance.units import Writer

_DAY = 86400.0
_SAME = 1e-9


@record
class SetRequirement:
    """What one test rule asks of a set: its specimens, the value that governs and the limit, in words. `standing` is
    the lowest it rests on; `opened` names what is not known."""

    group: RuleFindings
    required: RequiredSpecimens
    governs: str
    limit: str
    standing: Standing | None
    opened: tuple[str, ...]


@record
class Planned:
    """A specimen without a result. `row` is its row in the lab tables, None for one that has none yet. `due` is the
    first day on which it is old enough, None where no day or no age is known."""

    mark: str
    row: Specimen | None
    due: date | None


@record
class PlannedSet:
    """A set with specimens that wait. `done` are those with a result. `stated`: a rule states how many are cast.
    `besides` are other rules about the set, such as on capping, with the finding of each."""

    mark: str
    test: TestSet
    specimens: tuple[Planned, ...]
    done: int
    stated: bool
    required: tuple[SetRequirement, ...]
    besides: tuple[tuple[RuleFindings, Rule, Finding], ...]


def planned_sets(checked: Checked, sets: tuple[SetFindings, ...], writer: Writer) -> list[PlannedSet]:
    """Sets with a row that has no result, and sets without rows; in the order of the project."""
    found = []
    for mark, test in checked.project.test_sets.items():
        rows = checked.specimens.get(mark, ())
        waiting = [one for one in rows if measured(one).value is None]
        if rows and not waiting:
            continue
        about = [
            (group, rule, one)
            for group, rule in _rules(sets)
            for one in group.judged
            if one.about == "set" and one.subject == mark
        ]
        required = tuple(_set_requirement(group, rule, writer) for group, rule, _ in about if rule.test)
        ages = [one.required.least_age for one in required if one.required.least_age is not None]
        counts = [one.required.count for one in required if one.required.count is not None]
        found.append(
            PlannedSet(
                mark,
                test=test,
                specimens=tuple(_specimens(mark, waiting, max(counts, default=1), max(ages, default=None))),
                done=len(rows) - len(waiting),
                stated=bool(counts),
                required=required,
                besides=tuple((group, rule, one) for group, rule, one in about if not rule.test),
            )
        )
    return found


def _rules(sets: tuple[SetFindings, ...]) -> Iterator[tuple[RuleFindings, Rule]]:
    for one in sets:
        rules = {rule.id: rule for rule in one.rule_set.rules}
        yield from ((group, rules[group.rule]) for group in one.rules)


def _specimens(mark: str, waiting: Sequence[Specimen], count: int, age: float | None) -> Iterator[Planned]:
    if not waiting:
        yield from (Planned(f"{mark}-{number}", None, None) for number in range(1, count + 1))
    for one in waiting:
        yield Planned(one.mark, one, due_day(one.cast, age))


def due_day(cast: date | None, least_age: float | None) -> date | None:
    """The first day on which a specimen cast on `cast` has the age in s."""
    if cast is None or least_age is None:
        return None
    return cast + timedelta(days=math.ceil(least_age / _DAY - _SAME))


def _set_requirement(group: RuleFindings, rule: Rule, writer: Writer) -> SetRequirement:
    assert rule.test is not None
    used = [rule.limits[name] for name in rule.limits]
    standings = [limit.standing for limit in used]
    return SetRequirement(
        group,
        required=required_specimens(rule),
        governs=_governs(rule),
        limit=_limit(rule, writer),
        standing=max(standings, key=lambda one: one.rank, default=None),
        opened=tuple(limit.name.replace("_", " ") for limit in used if limit.standing is Standing.OPEN),
    )


def _governs(rule: Rule) -> str:
    """Which value of the results stands for the set, with what it is reckoned by."""
    assert rule.test is not None
    statistic = STATISTICS.get(str(rule.limits[rule.test.statistic].value))
    if statistic is None:
        return "open"
    meanings = {one.name: one.meaning for one in statistic.parameters}
    values = {name: rule.limits[limit].value for name, limit in rule.test.parameters.items()}
    phrases = [
        f"{meanings.get(name, name)}: {f'{value:g}' if isinstance(value, float) else 'open'}"
        for name, value in values.items()
    ]
    return f"{statistic.meaning} ({'; '.join(phrases)})" if phrases else statistic.meaning


def _limit(rule: Rule, writer: Writer) -> str:
    """What the governing value must reach, where the check compares it with something known."""
    assert rule.test is not None
    kind = "share" if rule.test.of == "shrinkage" else "stress"
    phrases = []
    for one in rule.check.comparisons() if rule.check else ():
        if one.value_text != "result":
            continue
        try:
            limit = one.limit({name: limit.value for name, limit in rule.limits.items()})
        except FormulaUndefined:
            limit = None
        word = {">=": "at least", ">": "more than", "<=": "at most", "<": "less than"}.get(one.relation, one.relation)
        phrases.append(f"{word} {writer.both(limit, kind) if limit is not None else 'an open limit'}")
    return ", ".join(phrases) or "see the rule"
