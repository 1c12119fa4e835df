"""The checklist as data: each rule in the order of its rule set, how it is answered, and where the evidence stands."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.checked import Checked
from compliance.judging.records import waits_for_the_work
from compliance.record import record
from compliance.report.attachment_uses import attachment_key
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.marks import Mark, worst
from compliance.rules.rule_set import Rule

COMPUTED, TESTED, ATTESTED, INSPECTED = "computed", "tested", "attested", "looked at on site"
_HOW = {
    "limit": COMPUTED, "table": COMPUTED, "covers": TESTED, "test": TESTED, "attest": ATTESTED, "inspect": INSPECTED,
}  # fmt: skip


@record
class Evidence:
    """Where something stands: in words, in fewer for a narrow column, and the place in the bundle."""

    text: str
    key: str
    short: str = ""


@record
class ChecklistRow:
    """One rule with all its findings. `mark` is the worst of those judged; where none was, LATER or NOT_APPLICABLE."""

    group: RuleFindings
    rule: Rule
    mark: Mark
    how: str
    evidence: tuple[Evidence, ...]


@record
class ChecklistSet:
    rule_set: SetFindings
    rows: tuple[ChecklistRow, ...]


def checklist_rows(checked: Checked, sets: tuple[SetFindings, ...]) -> tuple[ChecklistSet, ...]:
    """Every rule that has a subject here, none left out."""
    found = []
    for one in sets:
        rules = {rule.id: rule for rule in one.rule_set.rules}
        found.append(ChecklistSet(one, tuple(_row(checked, group, rules) for group in one.rules)))
    return tuple(found)


def _row(checked: Checked, group: RuleFindings, rules: Mapping[str, Rule]) -> ChecklistRow:
    rule = rules[group.rule]
    mark = worst(group.judged or group.findings)
    return ChecklistRow(
        group, rule=rule, mark=mark, how=_HOW[rule.kind], evidence=tuple(_evidence(checked, group, rule))
    )


def _evidence(checked: Checked, group: RuleFindings, rule: Rule) -> list[Evidence]:
    found: list[Evidence] = []
    if rule.inspect and (group.judged or any(map(waits_for_the_work, group.findings))):
        found.append(Evidence("inspection plan", f"point-{group.code}"))
    elif rule.attest and group.judged:
        phrases = {(f"{one.by}, {one.on.isoformat()}", one.by): None
                for one in checked.project.attestations if one.is_of(rule.rule_set, rule.id)}  # fmt: skip
        found += [Evidence(text, group.key, by) for text, by in phrases] or [Evidence("not answered", group.key)]
    elif group.judged:
        found.append(Evidence("calculation", group.key))
    else:
        found.append(Evidence("why it does not apply", group.key, "why not"))
    if rule.test:
        tests = checked.project.test_sets
        marks = dict.fromkeys(one.subject for one in group.judged if one.subject in tests)
        found += [Evidence(f"set {mark}", f"set-{mark}") for mark in marks]
    return found + _papers(checked, rule)


def _papers(checked: Checked, rule: Rule) -> list[Evidence]:
    """The attachments that answers and records of this rule name, each once."""
    named = [one.evidence for one in checked.project.attestations if one.is_of(rule.rule_set, rule.id)]
    named += [one.evidence for one in checked.project.inspections if one.is_of(rule.rule_set, rule.id)]
    marks = dict.fromkeys(mark for evidence in named for mark in evidence)
    return [Evidence(checked.project.attachments[mark].title, attachment_key(mark)) for mark in marks]
