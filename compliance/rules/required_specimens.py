"""What a test rule asks of its specimens: how many, of what shape, how dried, how old."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.record import record
from compliance.rules.formulas.formula import Formula, FormulaUndefined, Value
from compliance.rules.rule_set import Rule

_COUNTED = "specimens"
_RANKED_OF = "of"


@record
class RequiredSpecimens:
    """`count` is the least number of specimens, `least_age` in s; None where the rule asks for none. What is asked but
    open is named in `opened`."""

    count: int | None
    shapes: tuple[str, ...]
    dried: tuple[str, ...]
    least_age: float | None
    opened: tuple[str, ...]


NOTHING_REQUIRED = RequiredSpecimens(None, shapes=(), dried=(), least_age=None, opened=())


def required_specimens(rule: Rule) -> RequiredSpecimens:
    """Nothing where the rule is no test rule."""
    if rule.test is None:
        return NOTHING_REQUIRED
    values: dict[str, Value] = {name: limit.value for name, limit in rule.limits.items()}
    counts, opened = _counts(rule.check, values)
    test = rule.test
    of = values.get(test.parameters.get(_RANKED_OF, ""))
    if isinstance(of, float):
        counts.append(int(of))
    named = {"shapes": test.shapes, "drying": test.dried, "age": test.least_age}
    opened += tuple(what for what, name in named.items() if name and values[name] is None)
    age = values[test.least_age] if test.least_age else None
    return RequiredSpecimens(
        max(counts, default=None),
        shapes=_words(values, test.shapes),
        dried=_words(values, test.dried),
        least_age=age if isinstance(age, float) else None,
        opened=opened,
    )


def _counts(check: Formula | None, values: Mapping[str, Value]) -> tuple[list[int], tuple[str, ...]]:
    """The least numbers that comparisons of the check ask for, and whether one of them is open."""
    counts: list[int] = []
    opened: tuple[str, ...] = ()
    for comparison in check.comparisons() if check else ():
        if comparison.value_text != _COUNTED or comparison.relation not in (">=", ">", "=="):
            continue
        try:
            limit = comparison.limit(values)
        except FormulaUndefined:
            continue
        if limit is None:
            opened = ("number",)
        else:
            counts.append(int(limit) + (comparison.relation == ">"))
    return counts, opened


def _words(values: Mapping[str, Value], name: str | None) -> tuple[str, ...]:
    found = values[name] if name else None
    return tuple(sorted(found)) if isinstance(found, frozenset) else ()
