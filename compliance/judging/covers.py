"""Rules that ask for passing sets behind each wall: the findings of test rules, brought to the walls they are for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.facts.common.fact import Fact
from compliance.facts.evidence.chain import Chain
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding, Lack, Missing, Outcome, Reason, lowest
from compliance.judging.checks import applies, conclude, look_up
from compliance.judging.context import Context, finding, withheld
from compliance.judging.prepared import Prepared, Values, left_open
from compliance.judging.reasons import Lacks
from compliance.judging.set_reasons import NoSetPasses, NoTestRequired, SetsFail, SetsWait, SomeFail
from compliance.record import record, replace
from compliance.rules.formulas.formula import FormulaUndefined
from compliance.rules.rule_set import Covers, Rule
from compliance.steps import Given, Step


@record
class Shown:
    """What the named test rules say of one mix. `by_set` holds their findings of each set that one of them applies
    to, `of_mix` those about the mix as a whole: no set, not applicable, or a limit that is open."""

    by_set: Mapping[str, tuple[Finding, ...]]
    of_mix: tuple[Finding, ...]

    def sets(self, *outcomes: Outcome) -> list[str]:
        """The sets whose worst finding is one of `outcomes`."""
        return [mark for mark, found in self.by_set.items() if _worst(found) in outcomes]

    @property
    def passing(self) -> int:
        """How many sets pass everything asked of them, under the rule that has fewest: a bar does not stand in for a
        crushed prism."""
        passed = self.sets(Outcome.MEETS)
        applying = [one for found in (*self.by_set.values(), self.of_mix) for one in found]
        rules = {(one.rule_set, one.rule) for one in applying if one.outcome is not Outcome.NOT_APPLICABLE}
        return min(
            (sum((one.rule_set, one.rule) == rule for mark in passed for one in self.by_set[mark]) for rule in rules),
            default=0,
        )


def _worst(found: Sequence[Finding]) -> Outcome:
    return min((one.outcome for one in found), key=lambda outcome: outcome.rank)


def shown_for(mix: str, covers: Covers, rule: Rule, tests: Sequence[Finding], sets: Mapping[str, str]) -> Shown:
    """`tests` are the findings of all test rules, `sets` the mix of each set."""
    named = [
        one
        for one in tests
        if (
            one.question == covers.question
            if covers.question
            else one.rule_set == rule.rule_set and one.rule in covers.rules
        )
    ]
    by_set: dict[str, tuple[Finding, ...]] = {}
    for one in named:
        if one.about == "set" and sets.get(one.subject) == mix and one.outcome is not Outcome.NOT_APPLICABLE:
            by_set[one.subject] = (*by_set.get(one.subject, ()), one)
    return Shown(by_set, tuple(one for one in named if one.about == "mix" and one.subject == mix))


def judge_covers(
    context: Context, prepared: Prepared, subject: Subject, tests: Sequence[Finding], chain: Chain | None
) -> Finding:
    """Meets only where sets of the wall's mix pass every named rule, as many as the check asks, and none fails."""
    rule = prepared.rule
    assert rule.covers is not None
    facts = {name: subject.fact(name) for name in prepared.fact_names}
    values: Values = {name: fact.value for name, fact in facts.items()}
    values |= prepared.limit_values
    verdict = applies(context, prepared, subject, values)
    if verdict and (verdict.outcome is Outcome.NOT_APPLICABLE or not prepared.opened):
        return verdict
    if prepared.opened:
        return left_open(context, prepared, subject)
    mix = context.project.walls[subject.mark].mix
    if mix is None:
        lacks = (context.lacking(("walls", subject.mark, "mix")),)
        reason = Lacks(("the wall names no mix",))
        return finding(
            context,
            rule=rule,
            subject=subject,
            outcome=Outcome.MISSING,
            reason=reason,
            limits=prepared.limits,
            missing=lacks,
        )
    sets = {mark: test.mix for mark, test in context.project.test_sets.items()}
    shown = shown_for(mix, covers=rule.covers, rule=rule, tests=tests, sets=sets)

    def before() -> tuple[Step, ...]:
        return (*(chain.steps(without=("specimen",)) if chain else ()), *_set_steps(context, shown))

    values |= counts(shown.passing, len(shown.sets(Outcome.REVISE, Outcome.ENGINEER)))
    found = _first_reason(context, prepared=prepared, subject=subject, mix=mix, shown=shown) or conclude_covers(
        context, prepared=prepared, subject=subject, values=values, facts=facts, mix=mix
    )
    standings = [one.standing for of_set in shown.by_set.values() for one in of_set] + [found.standing]
    standing = lowest([one for one in standings if one is not None])
    return withheld(replace(found, standing=standing, worked=lambda: (*before(), *found.worked())), rule)


def counts(passing: int, failing: int) -> Values:
    return {"passing": float(passing), "failing": float(failing)}


def conclude_covers(
    context: Context, prepared: Prepared, subject: Subject, values: Values, facts: Mapping[str, Fact], mix: str
) -> Finding:
    """The check on the counts. Too few passing sets are missing evidence; a failing set is not outweighed."""
    found = conclude(
        context, prepared=prepared, subject=subject, values=values, facts=facts, looked=look_up(prepared, values)
    )
    if values["failing"]:
        failing = values["failing"]
        assert isinstance(failing, float)
        return replace(found, outcome=prepared.rule.otherwise, reason=SomeFail(round(failing)), missing=())
    if found.outcome is prepared.rule.otherwise and _too_few(prepared, values):
        lacks = context.lacking(Missing(Lack.PASSING_SET, (mix,), ""))
        return replace(found, outcome=Outcome.MISSING, missing=(lacks,), remedy="")
    return found


def _too_few(prepared: Prepared, values: Values) -> bool:
    """No where the check has no value or no answer: that is for whoever `conclude` calls for."""
    assert prepared.check is not None
    try:
        return prepared.check(values) is False
    except FormulaUndefined:
        return False


def _first_reason(context: Context, prepared: Prepared, subject: Subject, mix: str, shown: Shown) -> Finding | None:
    """Why the sets cannot be counted: one fails, one waits for a limit, or there is none."""
    rule = prepared.rule

    def found(outcome: Outcome, reason: Reason, missing: tuple[Missing, ...] = ()) -> Finding:
        return finding(
            context, rule=rule, subject=subject, outcome=outcome, reason=reason, limits=prepared.limits, missing=missing
        )

    failing = shown.sets(Outcome.REVISE, Outcome.ENGINEER)
    if failing:
        return found(rule.otherwise, SetsFail(mix, tuple(failing), tuple(shown.sets(Outcome.MEETS))))
    waiting = shown.sets(Outcome.CONFIRM) or [mix for one in shown.of_mix if one.outcome is Outcome.CONFIRM]
    if waiting:
        return found(Outcome.CONFIRM, SetsWait(tuple(dict.fromkeys(waiting))))
    if shown.passing:
        return None
    lacks = [lack for of_set in (*shown.by_set.values(), shown.of_mix) for one in of_set for lack in one.missing]
    if not lacks:
        lacks = [context.lacking(Missing(Lack.PASSING_SET, (mix,), ""))]
    is_tested = shown.by_set or any(one.outcome is Outcome.MISSING for one in shown.of_mix)
    reason = NoSetPasses(mix) if is_tested else NoTestRequired(mix)
    return found(Outcome.MISSING, reason, tuple(dict.fromkeys(lacks)))


def _set_steps(context: Context, shown: Shown) -> tuple[Step, ...]:
    """A line for each finding of each set."""
    lines = []
    for mark, of_set in shown.by_set.items():
        for one in of_set:
            value = f"{one.value.written(context.writer)}: " if one.value else ""
            says = f"Set {mark}, {one.title} ({one.clause})"
            lines.append(
                Step(
                    says,
                    formula="",
                    given=(),
                    result=Given("", f"{value}{one.verdict}"),
                    source="finding of the test rule",
                )
            )
    return tuple(lines)
