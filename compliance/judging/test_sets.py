"""Rules about specimens: which of a set count, which value of theirs governs, and whether it is enough."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.facts.specimens.specimen_results import age_in_days, measured, slenderness
from compliance.facts.specimens.statistics import govern
from compliance.findings import Finding, Lack, Missing, Outcome, SetAside
from compliance.judging.aspect import Corrected, corrected
from compliance.judging.checks import applies, conclude, look_up
from compliance.judging.context import Context, finding, open_reason
from compliance.judging.prepared import Prepared, Values
from compliance.judging.reasons import Entry
from compliance.judging.set_reasons import NoGoverningValue, NoResult, NoRows, NoTest, OpenFactors
from compliance.model.specimens import Specimen
from compliance.record import record, replace
from compliance.rules.rule_set import Rule
from compliance.steps import Given, Step

_DAY = 86400.0
_SAME = 1e-9


def judge_test(context: Context, prepared: Prepared, mix: Subject) -> list[Finding]:
    """One finding for each set of the mix; `missing` about the mix where it has none of the kind."""
    rule = prepared.rule
    assert rule.test is not None
    names = [name for name in prepared.fact_names if FACTS[name].about != "set"]
    values: Values = {name: mix.fact(name).value for name in names}
    values |= prepared.limit_values
    verdict = applies(context, prepared, mix, values)
    if verdict and (verdict.outcome is Outcome.NOT_APPLICABLE or not prepared.opened):
        return [verdict]
    sets = [
        subject
        for mark, subject in context.facts.of("set").items()
        if (test := context.project.test_sets[mark]).mix == mix.mark and test.kind == rule.test.of
    ]
    if sets:
        return [_judge_set(context, prepared, one) for one in sets]
    if prepared.opened:
        return [finding(context, rule, mix, Outcome.CONFIRM, open_reason(prepared.opened), limits=prepared.limits)]
    lacks = context.lacking(Missing(Lack.TEST_SET, (rule.test.of, mix.mark), ""))
    reason = NoTest(mix.mark, rule.test.of)
    return [finding(context, rule, mix, Outcome.MISSING, reason, limits=prepared.limits, missing=(lacks,))]


def _judge_set(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    rule = prepared.rule
    assert rule.test is not None
    specimens = context.specimens.get(subject.mark, ())
    facts = {name: subject.fact(name) for name in prepared.fact_names}
    values: Values = {name: fact.value for name, fact in facts.items()}
    values |= prepared.limit_values
    if prepared.opened:
        return finding(context, rule, subject, Outcome.CONFIRM, open_reason(prepared.opened), limits=prepared.limits)
    taken = _counted(context, rule, specimens)
    counted, steps = taken.results, taken.steps
    lab = context.project.lab.file_of(context.project.test_sets[subject.mark].kind)
    rows = Missing(Lack.ROWS, (subject.mark,), lab)
    if taken.opened:
        found = finding(
            context, rule, subject, Outcome.CONFIRM, OpenFactors(tuple(taken.opened)), limits=prepared.limits,
            worked=lambda: tuple(steps),
        )  # fmt: skip
        return taken.noted(found)
    statistic = str(rule.limits[rule.test.statistic].value)
    parameters = {name: _number(rule, limit) for name, limit in rule.test.parameters.items()}
    kind = "share" if rule.test.of == "shrinkage" else "stress"
    if not counted:
        reason = NoResult(subject.mark, bool(taken.aside)) if specimens else NoRows(subject.mark, lab)
        found = finding(
            context, rule, subject, Outcome.MISSING, reason, limits=prepared.limits, missing=(rows,),
            worked=lambda: tuple(steps),
        )  # fmt: skip
        return taken.noted(found)
    governed = govern(counted, kind, statistic, parameters)
    if governed.value is None:
        found = finding(
            context, rule, subject, Outcome.MISSING, NoGoverningValue(subject.mark, governed.reason),
            limits=prepared.limits, missing=(rows,), worked=lambda: (*steps, *governed.steps),
        )  # fmt: skip
        return taken.noted(found)
    values |= {"result": governed.value, "specimens": float(len(counted))}
    looked = look_up(prepared, values)
    return taken.noted(conclude(context, prepared, subject, values, facts, looked, (*steps, *governed.steps)))


def _number(rule: Rule, name: str) -> float:
    value = rule.limits[name].value
    assert isinstance(value, float)
    return value


@record
class _Counted:
    """Results of the specimens that count, a line or more for each specimen, the open factors that stood in the way,
    and the specimens set aside."""

    results: list[float] = field(default_factory=list)
    steps: list[Step] = field(default_factory=list)
    opened: list[Entry] = field(default_factory=list)
    aside: list[SetAside] = field(default_factory=list)
    corrected: list[str] = field(default_factory=list)

    def noted(self, found: Finding) -> Finding:
        """The finding with the specimens that do not count."""
        return replace(found, aside=tuple(self.aside), corrected=bool(self.corrected))

    def lacks_result(self, mark: str, why: str) -> None:
        self.steps.append(Step(f"{mark} has no result", "", (), Given("", why), "the laboratory file"))

    def set_aside(self, mark: str, why: str) -> None:
        self.aside.append(SetAside(mark, why))
        self.steps.append(Step(f"{mark} is set aside", "", (), Given("", why), "asked by the rule"))

    def add(self, mark: str, found: Corrected) -> None:
        self.steps.extend(found.steps)
        if found.value is not None:
            self.results.append(found.value)
            self.corrected.append(mark)
        elif found.opened:
            self.opened.append(found.opened)
        else:
            self.set_aside(mark, found.aside)


def _counted(context: Context, rule: Rule, specimens: Sequence[Specimen]) -> _Counted:
    """Each specimen: its result, corrected where the rule asks for it, or why it lacks one or is set aside."""
    assert rule.test is not None
    taken = _Counted()
    weighs = rule.test.own_weight is not None and rule.limits[rule.test.own_weight].value is True
    for specimen in specimens:
        found = measured(specimen, context.gravity if weighs else None)
        if found.value is None:
            taken.lacks_result(specimen.mark, found.reason)
            continue
        why_not = _why_not(rule, specimen)
        if why_not:
            taken.set_aside(specimen.mark, why_not)
            continue
        if found.step:
            says = f"{specimen.mark}: {found.step.says[:1].lower()}{found.step.says[1:]}"
            taken.steps.append(replace(found.step, says=says))
        if rule.test.aspect:
            taken.add(specimen.mark, corrected(rule.tables[rule.test.aspect], specimen, found.value))
        else:
            taken.results.append(found.value)
    return taken


def _why_not(rule: Rule, specimen: Specimen) -> str:
    """Why a specimen does not count under the rule; empty when it does."""
    test = rule.test
    assert test is not None
    if test.shapes and specimen.shape not in _words(rule, test.shapes):
        return f"shape {specimen.shape or 'not given'}; {_listed(rule, test.shapes)} required"
    if test.dried and specimen.dried not in _words(rule, test.dried):
        return f"dried {specimen.dried or 'in a way not given'}; {_listed(rule, test.dried)} required"
    if test.least_age:
        age, least = age_in_days(specimen), _number(rule, test.least_age) / _DAY
        if age is None or age < least * (1 - _SAME):
            return f"tested at an age {'not known' if age is None else f'of {age} days'}; {least:g} days minimum"
    if test.least_height_to_width:
        ratio, least = slenderness(specimen), _number(rule, test.least_height_to_width)
        if ratio is None or ratio < least * (1 - _SAME):
            return f"height to width {'not known' if ratio is None else f'{ratio:.2f}'}; {least:g} minimum"
    return ""


def _words(rule: Rule, name: str) -> frozenset[str]:
    value = rule.limits[name].value
    assert isinstance(value, frozenset)
    return value


def _listed(rule: Rule, name: str) -> str:
    return " or ".join(sorted(_words(rule, name)))
