"""Limits that a rule set takes from another: where that one is adopted its own limit stands in, amended or not."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.record import replace
from compliance.rules.rule_set import Limit, Plain, Rule, RuleSet

Lenders = Mapping[str, Limit]


def with_borrowed(rule_sets: Sequence[RuleSet]) -> tuple[RuleSet, ...]:
    """The rule sets with each borrowed limit as the adopted rule sets have it: the most restrictive of those that are
    known. Where none of them is adopted or known, and where an amendment gave it a value, the limit stays as it is."""
    lenders = {
        f"{one.id}/{rule.id}/{name}": limit
        for one in rule_sets
        for rule in one.rules
        for name, limit in rule.limits.items()
    }
    return tuple(_in_set(one, lenders) if _borrows(one) else one for one in rule_sets)


def _borrows(rule_set: RuleSet) -> bool:
    return any(limit.lenders for rule in rule_set.rules for limit in rule.limits.values())


def _in_set(rule_set: RuleSet, lenders: Lenders) -> RuleSet:
    return replace(rule_set, rules=tuple(_in_rule(rule, lenders) for rule in rule_set.rules))


def _in_rule(rule: Rule, lenders: Lenders) -> Rule:
    limits = {name: _borrowed(limit, lenders) for name, limit in rule.limits.items()}
    return rule if limits == rule.limits else replace(rule, limits=limits)


def _borrowed(limit: Limit, lenders: Lenders) -> Limit:
    if not limit.lenders or limit.history:
        return limit
    known = {
        name: one for name in limit.lenders
        if (one := lenders.get(name)) is not None and one.value is not None and one.kind == limit.kind
    }  # fmt: skip
    if not known:
        return replace(limit, note=" ".join(part for part in (limit.note, _OWN) if part))
    values = {name: one.value for name, one in known.items() if one.value is not None}
    lender = next(name for name, value in values.items() if value == _strictest(limit, list(values.values())))
    taken = known[lender]
    return replace(
        limit,
        value=taken.value,
        written=taken.written,
        standing=taken.standing,
        source=f"the limit of {lender.rpartition('/')[0]}, which is adopted: {taken.source}",
        clause=taken.clause,
        note=taken.note,
        read_in=taken.read_in,
        history=taken.history,
    )


_OWN = "The figure of this list: none of the rule sets that it refers to is adopted with a known limit."


def _strictest(limit: Limit, values: list[Plain]) -> Plain:
    """Of numbers the smallest or largest, as the limit says; of lists of words the shortest."""
    if limit.severest == "larger":
        return max(value for value in values if isinstance(value, float))
    if limit.severest == "smaller":
        return min(value for value in values if isinstance(value, float))
    return min(values, key=lambda value: len(value) if isinstance(value, frozenset) else 0)
