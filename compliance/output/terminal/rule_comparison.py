"""What one rule set changes against another, rule by rule and limit by limit."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.rules.rule_set import Limit, Rule, RuleSet
from compliance.rules.tables import Table


def comparison(one: RuleSet, other: RuleSet) -> str:
    """Rules only in one, rules in both that differ, and how many are alike. Rules are matched by id, those
    without a namesake by the question they answer."""
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
    by_id = {rule.id: rule for rule in other}
    pairs = [(rule, by_id[rule.id]) for rule in one if rule.id in by_id]
    left = [rule for rule in one if rule.id not in by_id]
    right = [rule for rule in other if rule.id not in {first.id for first, _ in pairs}]
    by_question = {(rule.question, rule.about): rule for rule in right if rule.question}
    for rule in list(left):
        twin = by_question.pop((rule.question, rule.about), None) if rule.question else None
        if twin:
            pairs.append((rule, twin))
            left.remove(rule)
            right.remove(twin)
    return pairs, left, right


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
