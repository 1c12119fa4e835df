"""The types of earth construction that a rule set covers: another type never meets by it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence

from compliance.findings import STATUSES, Finding, Outcome
from compliance.judging.context import NO_NUMBERS, Context
from compliance.judging.reasons import Lacks, NotCovered
from compliance.model.project import Project
from compliance.record import record, replace
from compliance.rules.rule_set import RuleSet

WithinForms = Callable[[Finding], Finding]


@record
class _Forms:
    """The type of each mix, None where the project does not state it, and the mixes that stand in walls."""

    project: Project
    by_mix: Mapping[str, str | None]
    in_walls: tuple[str, ...]

    def mixes_of(self, finding: Finding) -> tuple[str, ...]:
        """The mixes that a finding is about: that of its wall or set, else all that stand in walls."""
        if finding.about == "mix":
            return (finding.subject,)
        if finding.about == "set":
            return (self.project.test_sets[finding.subject].mix,)
        wall = self.project.walls.get(finding.wall or finding.subject)
        if wall is not None:
            return (wall.mix,) if wall.mix else ()
        return self.in_walls


def within_forms(context: Context, rule_sets: Sequence[RuleSet]) -> WithinForms:
    """What each finding becomes under the types of earth that its rule set covers.

    Of another type, it does not apply where an adopted rule set that binds as much covers that type; else what holds is
    for an engineer, and what does not hold or is missing stays. Of a type that is not stated, a mix or a set that would
    meet lacks it.
    """
    project = context.project
    by_mix = {mark: mix.form for mark, mix in project.mixes.items()}
    in_walls = tuple(dict.fromkeys(wall.mix for wall in project.walls.values() if wall.mix))
    forms = _Forms(project, by_mix, in_walls)
    narrow = {one.id: one for one in rule_sets if one.forms is not None and not _covers_all(one, by_mix.values())}

    def within(finding: Finding) -> Finding:
        rule_set = narrow.get(finding.rule_set)
        if rule_set is None or finding.outcome is Outcome.NOT_APPLICABLE:
            return finding
        return _held_to(context, finding=finding, rule_set=rule_set, forms=forms, rule_sets=rule_sets)

    return within if narrow else lambda finding: finding


def _covers_all(rule_set: RuleSet, forms: Iterable[str | None]) -> bool:
    return rule_set.forms is not None and all(form in rule_set.forms for form in forms)


def _held_to(
    context: Context, finding: Finding, rule_set: RuleSet, forms: _Forms, rule_sets: Sequence[RuleSet]
) -> Finding:
    assert rule_set.forms is not None
    mixes = forms.mixes_of(finding)
    found = {forms.by_mix.get(mix) for mix in mixes}
    known = found - {None}
    if known & rule_set.forms or not found:
        return finding
    if None in found:
        return _unstated(context, finding, rule_set, mixes[0]) if finding.about in ("mix", "set") else finding
    reason = NotCovered(rule_set.id, rule_set.forms_in_words, tuple(sorted(str(form) for form in known)))
    binding = STATUSES.index(rule_set.status)
    if all(
        any(one.forms and form in one.forms and STATUSES.index(one.status) <= binding for one in rule_sets)
        for form in known
    ):
        return replace(
            finding, outcome=Outcome.NOT_APPLICABLE, reason=reason, missing=(), remedy="",
            value=NO_NUMBERS.value, relation="", limit=NO_NUMBERS.limit, margin=None,
        )  # fmt: skip
    if finding.outcome is not Outcome.MEETS:
        return finding
    return replace(finding, outcome=Outcome.ENGINEER, reason=replace(reason, held=finding.reason))


def _unstated(context: Context, finding: Finding, rule_set: RuleSet, mix: str) -> Finding:
    """What would meet, of a mix whose type nobody states."""
    if finding.outcome is not Outcome.MEETS:
        return finding
    lacks = context.lacking(("mixes", mix, "form"))
    because = f"its rule set covers {rule_set.forms_in_words}, and the type of earth construction is not stated"
    return replace(finding, outcome=Outcome.MISSING, reason=Lacks((because,)), missing=(lacks,))
