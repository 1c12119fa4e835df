"""What a finding says of a check: the numbers that decide, and one plain sentence with them."""

from __future__ import annotations

from compliance.facts.catalogue import FACTS
from compliance.findings import Outcome
from compliance.judging.context import NO_NUMBERS, Context, Numbers
from compliance.judging.prepared import Prepared, Values
from compliance.rules.formulas.comparisons import value_left
from compliance.rules.formulas.formula import Comparison, FormulaUndefined
from compliance.rules.formulas.nodes import Compare, Member, Name, Node, Not
from compliance.rules.formulas.printing import written
from compliance.steps import Given


def numbers_of(prepared: Prepared, values: Values) -> Numbers:
    """Value, relation, limit and margin of the comparison that decides: the tightest of several joined by
    `and`, the loosest of several joined by `or`; or the one fact and limit of a check of words."""
    found = []
    for comparison, kind in prepared.comparisons:
        try:
            sides = comparison.sides(values)
            margin = comparison.margin(values, sides)
        except FormulaUndefined:
            continue
        found.append((_rank(comparison, values, margin), sides, comparison, kind, margin))
    if not found:
        return _words(prepared, values)
    formula = prepared.rule.check
    if prepared.rule.test and all(rank >= 0 for rank, *_ in found):
        found = [one for one in found if "result" in one[2].value_text] or found  # when all hold, show the strength
    pick = max if formula is not None and formula.joined == "or" else min
    _, (value, limit), comparison, kind, margin = pick(found, key=lambda one: one[0])
    return Numbers(
        None if value is None else Given(comparison.value_text, value, kind), comparison.relation,
        None if limit is None else Given(comparison.limit_text, limit, kind), margin,
    )  # fmt: skip


def _rank(comparison: Comparison, values: Values, margin: float | None) -> float:
    """The margin to rank comparisons by. Without one: far inside where it holds, far outside where it does not. At a
    limit that is itself not allowed: just outside."""
    if margin:
        return margin
    holds = comparison.holds(values) is not False
    if margin is None:
        return 1e9 if holds else -1e9
    return 0.0 if holds else -1e-12


def _words(prepared: Prepared, values: Values) -> Numbers:
    """The one fact of a check, and the limit that it is plainly held against."""
    formula = prepared.rule.check
    assert formula is not None
    facts = sorted(formula.names & FACTS.keys())
    value = values[facts[0]] if len(facts) == 1 else None
    if not isinstance(value, (float, str, bool)):
        return NO_NUMBERS
    shown = Given(facts[0], value, prepared.kinds[facts[0]])
    relation, name = _held_against(formula.root)
    limit = prepared.rule.limits[name].given if name in prepared.rule.limits else None
    if limit is None:
        return Numbers(shown)
    return Numbers(shown, relation if isinstance(value, float) else _IN_WORDS[relation], limit)


_IN_WORDS = {"in": "in", "not in": "not in", "==": "is", "!=": "is not"}
"""How a word, or a yes or no, must stand to its limit."""


def _held_against(root: Node) -> tuple[str, str]:
    """The relation and the name of the limit, where a check does no more than hold a fact against it; else none."""
    match root:
        case Member(item=Name(), among=Name(name=name), negated=negated):
            return "not in" if negated else "in", name
        case Compare():
            turned = value_left(root)
            if isinstance(turned.left, Name) and isinstance(turned.right, Name):
                return turned.relation, turned.right.name
    return "", ""


def _yes_or_no(root: Node) -> tuple[str, bool] | None:
    """The one fact that a check asks a yes or a no of, and which of the two."""
    match root:
        case Name(name=name):
            return name, True
        case Not(of=Name(name=name)):
            return name, False
    return None


_SAYS_LITTLE = ("count", "ratio")
"""Kinds whose values have no unit to tell what they are of."""

_HELD = {"<=": "≤", "<": "<", ">=": "≥", ">": ">", "==": "=", "!=": "≠"}
_BROKEN = {"<=": ">", "<": "≥", ">=": "<", ">": "≤", "==": "≠", "!=": "="}
_LIMIT = {"<=": "maximum", "<": "limit", ">=": "minimum", ">": "limit", "==": "required", "!=": "ruled out"}
_STRICT = {"<": "; must be less", ">": "; must be more"}
"""What a value that sits at the limit, or beyond, has to be where the limit itself is not allowed."""


def reason_of(context: Context, prepared: Prepared, numbers: Numbers, holds: bool) -> str:
    """One plain sentence with the numbers of the comparison that decides. Where none does and an engineer is called
    for, it is what the rule says."""
    value, limit, formula = numbers.value, numbers.limit, prepared.rule.check
    assert formula is not None
    if value is None or limit is None:
        if not holds and prepared.rule.otherwise is Outcome.ENGINEER:
            return prepared.rule.say
        if yes_or_no := _yes_or_no(formula.root):
            name, wanted = yes_or_no
            got, want = ("yes" if one else "no" for one in (wanted is holds, wanted))
            return f"{prepared.labels[name]}: {got}, {'as required' if holds else f'must be {want}'}"
        words = written(formula.root, lambda name: prepared.labels[name])
        return f"{'satisfied' if holds else 'not satisfied'}: {words}"
    if isinstance(value.value, (str, bool)):
        ruled_out = numbers.relation in ("not in", "is not")
        verdict = "is among" if holds is not ruled_out else "is not among"
        which = "what is ruled out" if ruled_out else "what is allowed"
        return f"{value.written(context.writer)} {verdict} {which}: {limit.written(context.writer)}"
    assert not isinstance(limit.value, str)
    shown, allowed = context.writer.pair(value.value, limit.value, value.kind)
    if value.kind in _SAYS_LITTLE and value.symbol in prepared.labels:
        shown = f"{prepared.labels[value.symbol]} {shown}"
    relation = numbers.relation
    if holds:
        return f"{shown} {_HELD[relation]} {allowed} {_LIMIT[relation]}"
    return f"{shown} {_BROKEN[relation]} {allowed} {_LIMIT[relation]}{_STRICT.get(relation, '')}"
