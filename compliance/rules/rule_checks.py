"""Whether the values of a rule fit it: checked when a rule set is compiled, and again when an amendment changes one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.facts.specimens.sample import StatisticError
from compliance.facts.specimens.statistics import STATISTICS, check_parameters
from compliance.rules.formulas.formula import parse
from compliance.rules.formulas.nodes import FormulaError
from compliance.rules.formulas.types import Type, number_of_kind
from compliance.rules.limit_values import RefusedLimitError, read_limit, type_of_limit
from compliance.rules.rule_set import Covers, Limit, Rule, Test
from compliance.rules.schema import CoversText, LimitText, RuleText, TestText
from compliance.rules.tables import Table
from compliance.rules.vocabulary import facts_for

RESULT_KINDS = {"compression": "stress", "rupture": "stress", "shrinkage": "share"}
COVER_COUNTS = ("passing", "failing")


def types_of_names(
    about: str,
    test: Test | TestText | None,
    covers: Covers | CoversText | None,
    limits: Mapping[str, Limit],
    tables: Mapping[str, Table],
) -> dict[str, Type]:
    """The type of each name that the check of a rule may use."""
    types = dict(facts_for("set" if test else about))
    types |= {name: type_of_limit(limit) for name, limit in limits.items()}
    aspect = test.aspect if test else None
    types |= {name: number_of_kind(table.kind) for name, table in tables.items() if name != aspect}
    if test:
        types |= {"result": number_of_kind(RESULT_KINDS[test.of]), "specimens": number_of_kind("count")}
    if covers:
        types |= {name: number_of_kind("count") for name in COVER_COUNTS}
    return types


def pounds_as_forces(text: RuleText, limits: Mapping[str, Limit], types: Mapping[str, Type]) -> dict[str, Limit]:
    """The limits in pounds whose kind is not stated as forces, where the check fits in no other way; else none."""
    pounds = [name for name, limit in limits.items() if limit.kind == "mass" and text.limits[name].kind is None]
    if not pounds or not text.check or _fits(text.check, types):
        return {}
    forces = {name: read_limit(name, _force(text.limits[name]), limits[name].place) for name in pounds}
    return forces if _fits(text.check, {**types, **{name: type_of_limit(forces[name]) for name in pounds}}) else {}


def _force(text: LimitText) -> LimitText:
    return text.model_copy(update={"kind": "force"})


def _fits(text: str, types: Mapping[str, Type]) -> bool:
    try:
        parse(text).check(types)
    except FormulaError:
        return False
    return True


def statistic_refusals(test: Test | TestText, limits: Mapping[str, Limit]) -> Iterator[RefusedLimitError]:
    """Why the statistic cannot be worked out with the parameters it is given; nothing while one of them is open.
    `where` of each is the path of the limit in its rule."""
    named = limits[test.statistic].value
    for parameter, name in test.parameters.items():
        if name not in limits:
            wrong = f"{name!r} is no limit of this rule"
            instead = "add it under limits: as a plain number"
            yield RefusedLimitError("rule-test", wrong, instead, ("test", "parameters", parameter))
            return
        value = limits[name].value
        if value is not None and not isinstance(value, float):
            wrong = f"{name!r} holds a {limits[name].kind}, and {parameter} of a statistic is a plain number"
            yield RefusedLimitError("rule-statistic", wrong, "write a plain number", ("limits", name, "value"))
            return
    values = {parameter: limits[name].value for parameter, name in test.parameters.items()}
    if named is None or any(value is None for value in values.values()):
        return
    try:
        check_parameters(str(named), {name: value for name, value in values.items() if isinstance(value, float)})
    except StatisticError as error:
        where = ("limits", test.statistic, "value")
        yield RefusedLimitError("rule-statistic", str(error), f"known: {', '.join(STATISTICS)}", where)


def refusals(rule: Rule) -> Iterator[RefusedLimitError]:
    """Why a rule cannot be judged with the values it has: an unknown statistic, a rank that is no whole number, a word
    that its check cannot be held against."""
    types = types_of_names(rule.about, test=rule.test, covers=rule.covers, limits=rule.limits, tables=rule.tables)
    for formula in (rule.when, rule.check):
        try:
            if formula is not None:
                formula.check(types)
        except FormulaError as error:
            yield RefusedLimitError(error.code, error.wrong, error.instead)
    if rule.test:
        yield from statistic_refusals(rule.test, rule.limits)
