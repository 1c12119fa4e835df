"""What one rule set changes against another, rule by rule and limit by limit."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from compliance.rules.rule_set import Limit, Rule, RuleSet
from compliance.rules.tables import Table


def comparison(one: RuleSet, other: RuleSet) -> str:
    """Rules only in one, rules in both that differ, and how many are alike. Rules are matched by the question they
    answer, the rest by id, the rest by the facts that their checks look at."""
    pairs, only_one, only_other = _matched(one.rules, other.rules)
    lines = [f"{one.id} ({one.edition}) against {other.id} ({other.edition})"]
    alike = 0
    for first, second in pairs:
        differences = _differences(first, second)
        alike += not differences
        if differences:
            name = first.id if first.id == second.id else f"{first.id} / {second.id}"
            lines += ["", f"{name}: {first.title}", *(f"  {line}" for line in differences)]
    for title, rules in ((f"only in {one.id}", only_one), (f"only in {other.id}", only_other)):
        if rules:
            lines += ["", f"{title}:", *(f"  {rule.id} ({rule.clause}): {rule.title}" for rule in rules)]
    lines += [
        "",
        f"{alike} rules alike, {len(pairs) - alike} differ, {len(only_one)} and {len(only_other)} in one only",
    ]
    return "\n".join(lines) + "\n"


def _matched(one: tuple[Rule, ...], other: tuple[Rule, ...]) -> tuple[list[tuple[Rule, Rule]], list[Rule], list[Rule]]:
    """Pairs in the order of `one`, then what is left on each side. Of several rules with one question, namesakes go
    together first."""
    twins: dict[str, Rule] = {}
    left, right = list(one), list(other)
    for key in (_by_name_and_question, _by_question, _by_name, _by_facts):
        waiting: dict[Hashable, list[Rule]] = {}
        for rule in right:
            waiting.setdefault(key(rule), []).append(rule)
        for rule in list(left):
            named = key(rule)
            if named is not None and waiting.get(named):
                twins[rule.id] = waiting[named].pop(0)
                left.remove(rule)
                right.remove(twins[rule.id])
    return [(rule, twins[rule.id]) for rule in one if rule.id in twins], left, right


def _by_name_and_question(rule: Rule) -> Hashable:
    return (rule.id, rule.question, rule.about) if rule.question else None


def _by_question(rule: Rule) -> Hashable:
    return (rule.question, rule.about) if rule.question else None


def _by_name(rule: Rule) -> Hashable:
    return rule.id


def _by_facts(rule: Rule) -> Hashable:
    """Rules of one kind about one subject that look at the same facts: without a question, or with two of their own."""
    facts = frozenset(name for name in rule.check.names if "." in name) if rule.check else frozenset()
    return (rule.kind, rule.about, facts) if facts else None


def _differences(one: Rule, other: Rule) -> list[str]:
    lines = []
    for name in ("clause", "about", "otherwise"):
        before, after = str(getattr(one, name)), str(getattr(other, name))
        if before != after:
            lines.append(f"{name}: {before} -> {after}")
    for name in ("when", "check"):
        texts = [formula.text if (formula := getattr(rule, name)) else "none" for rule in (one, other)]
        if texts[0] != texts[1]:
            lines.append(f"{name}: {texts[0]} -> {texts[1]}")
    return lines + _limit_differences({**one.limits, **one.tables}, {**other.limits, **other.tables})


def _limit_differences(one: Mapping[str, Limit | Table], other: Mapping[str, Limit | Table]) -> list[str]:
    lines = []
    for name in dict.fromkeys((*one, *other)):
        before, after = (_shown(limits[name]) if name in limits else "none" for limits in (one, other))
        if before != after:
            lines.append(f"{name}: {before} -> {after}")
    return lines


def _shown(limit: Limit | Table) -> str:
    if isinstance(limit, Limit):
        return f"{limit.written} ({limit.standing.value})"
    known = sum(cell is not None for row in limit.cells for cell in row)
    size = f"table of {len(limit.cells)} by {len(limit.cells[0])}, {known} cells known"
    return f"{size}, {limit.standing.value}: {_digest(limit)}"


def _digest(table: Table) -> str:
    """The cells on one line, so that any difference shows."""
    return "; ".join(", ".join("open" if cell is None else f"{cell:g}" for cell in row) for row in table.cells)
