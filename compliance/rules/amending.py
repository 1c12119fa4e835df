"""Amendments laid over rule sets: each change checked, recorded, and never silently loosening anything."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.findings import Amended
from compliance.problems import Place, Problem
from compliance.record import record, replace
from compliance.rules.amended_limits import RefusedChangeError, change_limit
from compliance.rules.file_schema import AmendmentText, ChangeText, DropText, RuleSetText
from compliance.rules.limit_values import Placed
from compliance.rules.rule_set import Rule, RuleSet


@record
class AmendmentRecord:
    """One change for the register. `what` is "confirm" (the value stays), "change" or "drop"."""

    what: str
    rule_set: str
    rule: str
    title: str
    limit: str
    amended: Amended
    place: Place


def amend(
    rule_sets: Sequence[RuleSet], text: AmendmentText | RuleSetText, placed: Placed, problems: list[Problem]
) -> tuple[tuple[RuleSet, ...], list[AmendmentRecord]]:
    """The rule sets with the changes and drops of one file applied, and a record of each.

    What is wrong goes into `problems`; a change that is refused is not applied. Added rules are compiled by
    the reader as a rule set of their own.
    """
    sets = {one.id: one for one in rule_sets}
    records: list[AmendmentRecord] = []
    entries: list[tuple[tuple[str, int], ChangeText | DropText]] = []
    entries += [(("changes", index), change) for index, change in enumerate(text.changes)]
    entries += [(("drops", index), drop) for index, drop in enumerate(text.drops)]
    for path, one in entries:
        try:
            rule = _find(sets, one)
            place = placed(path)
            changed, record = _changed(sets[one.rule_set], rule, one, place)
        except RefusedChangeError as refused:
            problems.append(Problem(placed((*path, refused.field)), refused.code, refused.wrong, refused.instead))
            continue
        rules = [changed if other is rule else other for other in sets[one.rule_set].rules]
        sets[one.rule_set] = replace(sets[one.rule_set], rules=tuple(other for other in rules if other))
        records.append(record)
    return tuple(sets[one.id] for one in rule_sets), records


def _find(sets: dict[str, RuleSet], one: ChangeText | DropText) -> Rule:
    if one.rule_set not in sets:
        known = ", ".join(sets)
        raise RefusedChangeError(
            "amendment-rule-set", f"the project does not adopt {one.rule_set!r}", f"adopted: {known}", "rule_set"
        )
    for rule in sets[one.rule_set].rules:
        if rule.id == one.rule:
            return rule
    raise RefusedChangeError(
        "amendment-rule", f"{one.rule_set} has no rule {one.rule!r}, or no longer has it",
        "see earthwall rules show, and correct or remove the amendment", "rule",
    )  # fmt: skip


def _changed(
    rule_set: RuleSet, rule: Rule, one: ChangeText | DropText, place: Place
) -> tuple[Rule | None, AmendmentRecord]:
    """The rule as changed, None where it is dropped. Raises RefusedChangeError."""
    if isinstance(one, DropText):
        amended = Amended(None, by=one.by, on=one.on.isoformat(), authority=one.authority, reason=one.reason)
        return None, AmendmentRecord(
            "drop", rule_set=rule.rule_set, rule=rule.id, title=rule.title, limit="", amended=amended, place=place
        )
    changed, amended = change_limit(rule_set, rule, one, place)
    what = "confirm" if amended.is_confirmation else "change"
    limit = f"{one.limit}, {amended.cell}" if amended.cell else one.limit
    return changed, AmendmentRecord(
        what, rule_set=rule.rule_set, rule=rule.id, title=rule.title, limit=limit, amended=amended, place=place
    )
