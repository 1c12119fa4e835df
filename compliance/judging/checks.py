"""Rules that compare facts with limits and tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from compliance.facts.catalogue import FACTS
from compliance.facts.fact import Fact
from compliance.facts.subjects import Subject
from compliance.findings import Finding, LimitUsed, Outcome, Standing
from compliance.judging.context import Context, Numbers, finding, kind_of, label, open_limits, open_reason
from compliance.record import record, replace
from compliance.rules.compiling import COVER_COUNTS, RESULT_KINDS
from compliance.rules.formula import Comparison, Evaluator, Formula, FormulaUndefined, Value
from compliance.rules.formula_nodes import Member, Name, Node, Not
from compliance.rules.formula_writing import written
from compliance.rules.rule_set import Limit, Rule
from compliance.rules.tables import Looked, Table
from compliance.steps import Given, Step

Values = dict[str, Value]


@record
class Prepared:
    """A rule with its formulas compiled, once for all subjects; what is for its check only where it applies to one.
    `fact_names` are all the facts it asks for, `checked` those that its check and its tables rest on; `opened` are its
    open limits."""

    rule: Rule
    when: Evaluator | None
    fact_names: tuple[str, ...]
    checked: tuple[str, ...]
    limit_values: Mapping[str, Value]
    limits: tuple[LimitUsed, ...]
    opened: tuple[LimitUsed, ...]

    @cached_property
    def check(self) -> Evaluator | None:
        return self.rule.check.compile() if self.rule.check else None

    @cached_property
    def kinds(self) -> Mapping[str, str]:
        """The kind of measure of each name in its formulas."""
        rule = self.rule
        kinds = {name: kind_of(name) for name in self.fact_names}
        kinds |= {name: limit.kind for name, limit in rule.limits.items()}
        kinds |= {name: table.kind for name, table in rule.looked_up.items()}
        if rule.covers:
            kinds |= dict.fromkeys(COVER_COUNTS, "count")
        if rule.test:
            kinds |= {"result": RESULT_KINDS[rule.test.of], "specimens": "count"}
        return kinds

    @cached_property
    def labels(self) -> Mapping[str, str]:
        return {name: label(name) for name in self.kinds}

    @cached_property
    def comparisons(self) -> tuple[tuple[Comparison, str], ...]:
        """Those of its check, each with the kind to write its sides in."""
        found = self.rule.check.comparisons() if self.rule.check else ()
        return tuple((comparison, comparison.kind(self.kinds)) for comparison in found)

    @cached_property
    def condition(self) -> str:
        """Where the rule applies, in words."""
        assert self.rule.when is not None
        return written(self.rule.when.root, lambda name: self.labels[name])


def prepare(rule: Rule) -> Prepared:
    formulas = [formula for formula in (rule.when, rule.check) if formula]
    axes = {name for table in rule.looked_up.values() for name in table.fact_names}
    facts = axes | {name for formula in formulas for name in formula.names if name in FACTS}
    checked = axes | (facts & rule.check.names if rule.check else set())
    limits: list[Limit | Table] = [*rule.limits.values(), *rule.tables.values()]
    used_limits = tuple(rule.limit_used(limit) for limit in limits)
    return Prepared(
        rule,
        rule.when.compile() if rule.when else None,
        tuple(sorted(facts)),
        tuple(sorted(checked)),
        {name: limit.value for name, limit in rule.limits.items()},
        used_limits,
        tuple(open_limits(used_limits)),
    )


def applies(context: Context, prepared: Prepared, subject: Subject, values: Values) -> Finding | None:
    """None when the rule applies to the subject; else the finding that says why nothing more can be said."""
    if prepared.when is None:
        return None
    rule = prepared.rule
    assert rule.when is not None
    try:
        holds = prepared.when(values)
    except FormulaUndefined as undefined:
        return finding(
            context, rule, subject, Outcome.ENGINEER, f"whether the rule applies cannot be said: {undefined}"
        )
    if holds is True:
        return None
    if holds is False:
        reason = f"the rule applies only where this holds: {prepared.condition}"
        return finding(context, rule, subject, Outcome.APART, reason)
    return _lacking(context, prepared, subject, rule.when, ())


def judge_check(context: Context, prepared: Prepared, subject: Subject) -> Finding:
    """The finding of one check rule for one subject."""
    facts = {name: subject.fact(name) for name in prepared.fact_names}
    values: Values = {name: fact.value for name, fact in facts.items()}
    values |= prepared.limit_values
    verdict = applies(context, prepared, subject, values)
    if verdict and (verdict.outcome is Outcome.APART or not prepared.opened):
        return verdict
    looked = look_up(prepared, values)
    return conclude(context, prepared, subject, values, facts, looked)


def conclude(
    context: Context, prepared: Prepared, subject: Subject, values: Values, facts: Mapping[str, Fact],
    looked: Mapping[str, Looked], before: Sequence[Step] = (),
) -> Finding:  # fmt: skip
    """Evaluates the check. Order: an open limit, a lacking fact, a place outside a table, then yes or no."""
    rule, formula, check = prepared.rule, prepared.rule.check, prepared.check
    assert formula is not None and check is not None
    numbers = _numbers(prepared, values)
    rests_on = [facts[name] for name in prepared.checked if name in facts]
    worked = Working(prepared, values, rests_on, looked, before)

    def found(outcome: Outcome, reason: str, limits: tuple[LimitUsed, ...]) -> Finding:
        return finding(
            context, rule, subject, outcome, reason, limits=limits, facts=rests_on, worked=worked, numbers=numbers
        )

    if prepared.opened:
        return found(Outcome.CONFIRM, open_reason(prepared.opened), prepared.limits)
    if any(one.open for one in looked.values()):
        return found(
            Outcome.CONFIRM, _open_cell(rule, looked), tuple(_as_open(limit, looked) for limit in prepared.limits)
        )
    try:
        holds = check(values)
    except FormulaUndefined as undefined:
        return found(Outcome.ENGINEER, f"the check has no value here: {undefined}", prepared.limits)
    if holds is not None:
        outcome = Outcome.MEETS if holds else rule.otherwise
        return found(outcome, _reason(context, prepared, numbers, bool(holds)), prepared.limits)
    outside = [f"{name.replace('_', ' ')}: {one.how}" for name, one in looked.items() if one.outside]
    if outside:
        return found(Outcome.ENGINEER, "; ".join(outside), prepared.limits)
    return _lacking(context, prepared, subject, formula, prepared.limits)


@record
class Working:
    """The worked lines of a check, made when they are asked for: what was worked out `before`, the facts it rests on,
    what its tables say, and the check itself; of a check whose limit is open, the value that is held against it."""

    prepared: Prepared
    values: Values
    rests_on: Sequence[Fact]
    looked: Mapping[str, Looked]
    before: Sequence[Step]

    def __call__(self) -> tuple[Step, ...]:
        prepared, rule = self.prepared, self.prepared.rule
        derived = dict.fromkeys(step for fact in self.rests_on for step in fact.steps)  # facts may rest on the same
        tables = [_table_step(rule, name, one, self.values) for name, one in self.looked.items()]
        check = rule.check.explain(self.values, prepared.labels, prepared.kinds) if rule.check else ()
        if prepared.opened:
            check = tuple(step for step in check if step.says == "value" and isinstance(step.result.value, float))
        return (*self.before, *derived, *tables, *check)


def look_up(prepared: Prepared, values: Values) -> dict[str, Looked]:
    """What each table of the rule says; its value goes into `values`."""
    looked: dict[str, Looked] = {}
    for name, table in prepared.rule.looked_up.items():
        entries = [values[fact] for fact in table.fact_names]
        values[name] = None
        if all(isinstance(entry, (float, str, bool)) for entry in entries):
            looked[name] = table.look_up(*entries)  # type: ignore[arg-type]
            values[name] = looked[name].value
    return looked


def _table_step(rule: Rule, name: str, looked: Looked, values: Values) -> Step:
    table = rule.tables[name]
    entries = " and ".join(label(fact) for fact in table.fact_names)
    result = Given("", "open" if looked.open else "outside" if looked.value is None else looked.value, table.kind)
    given = tuple(
        Given(label(fact), entry, kind_of(fact))
        for fact in table.fact_names
        if isinstance(entry := values[fact], (float, str, bool))
    )
    return Step(f"{name.replace('_', ' ')} by {entries} ({looked.how})", "", given, result, table.source)


def _open_cell(rule: Rule, looked: Mapping[str, Looked]) -> str:
    names = [name for name, one in looked.items() if one.open]
    parts = [
        f"{name.replace('_', ' ')}, {looked[name].how} ({rule.tables[name].read_in or rule.clause})" for name in names
    ]
    return f"this entry of the table is not known here: read {'; '.join(parts)} in the adopted copy and enter it"


def _as_open(limit: LimitUsed, looked: Mapping[str, Looked]) -> LimitUsed:
    one = looked.get(limit.name)
    return replace(limit, standing=Standing.OPEN, value=None) if one and one.open else limit


def _lacking(
    context: Context, prepared: Prepared, subject: Subject, formula: Formula, limits: tuple[LimitUsed, ...]
) -> Finding:
    """What the formula lacks: fields to write, or facts that have no meaning here (then the rule stands apart)."""
    names = prepared.checked if limits else sorted(formula.names & FACTS.keys())
    facts = [subject.fact(name) for name in names]
    missing = tuple(dict.fromkeys(context.field(path) for fact in facts for path in fact.missing))
    reasons = [fact.reason for fact in facts if fact.reason]
    if not missing and reasons:
        return finding(context, prepared.rule, subject, Outcome.APART, "; ".join(dict.fromkeys(reasons)))
    words = f"the project lacks {', '.join(missing)}" if missing else "a value the rule needs is lacking"
    if reasons:
        words += f" ({'; '.join(dict.fromkeys(reasons))})"
    return finding(context, prepared.rule, subject, Outcome.MISSING, words, limits=limits, missing=missing)


def _numbers(prepared: Prepared, values: Values) -> Numbers:
    """Value, relation, limit and margin of the comparison that decides: the tightest of several joined by
    `and`, the loosest of several joined by `or`; or the one fact and limit of a check of words."""
    found = []
    for comparison, kind in prepared.comparisons:
        try:
            sides = comparison.sides(values)
            margin = comparison.margin(values, sides)
        except FormulaUndefined:
            continue
        found.append(
            (margin if margin is not None else _plain_margin(comparison, values), sides, comparison, kind, margin)
        )
    if not found:
        return _words(prepared, values)
    formula = prepared.rule.check
    if prepared.rule.test and all(margin is None or margin >= 0 for *_, margin in found):
        found = [one for one in found if "result" in one[2].value_text] or found  # when all hold, show the strength
    pick = max if formula is not None and formula.joined == "or" else min
    _, (value, limit), comparison, kind, margin = pick(found, key=lambda one: one[0])
    return Numbers(
        None if value is None else Given(comparison.value_text, value, kind), comparison.relation,
        None if limit is None else Given(comparison.limit_text, limit, kind), margin,
    )  # fmt: skip


def _plain_margin(comparison: Comparison, values: Values) -> float:
    """To rank comparisons without a margin: far inside when it holds, far outside when it does not."""
    return 1e9 if comparison.holds(values) is not False else -1e9


def _words(prepared: Prepared, values: Values) -> Numbers:
    formula = prepared.rule.check
    assert formula is not None
    facts = [name for name in sorted(formula.names) if name in FACTS]
    limits = [name for name in sorted(formula.names) if name in prepared.rule.limits]
    value = values[facts[0]] if len(facts) == 1 else None
    shown = Given(facts[0], value, prepared.kinds[facts[0]]) if isinstance(value, (float, str, bool)) else None
    limit = prepared.rule.limits[limits[0]].given if len(limits) == 1 and shown else None
    numeric = shown is not None and isinstance(shown.value, float)
    relation = "" if limit is None else "in" if isinstance(formula.root, Member) else "==" if numeric else "is"
    return Numbers(shown, relation, limit)


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

_HOW = {"<=": "at most", "<": "below", ">=": "at least", ">": "above", "==": "exactly", "!=": "other than"}


def _reason(context: Context, prepared: Prepared, numbers: Numbers, holds: bool) -> str:
    """One plain sentence with the numbers of the comparison that decides. Where none does and an engineer is called
    for, it is what the rule says."""
    value, limit, formula = numbers.value, numbers.limit, prepared.rule.check
    assert formula is not None
    if value is None or limit is None:
        if not holds and prepared.rule.otherwise is Outcome.ENGINEER:
            return prepared.rule.say
        if asked := _yes_or_no(formula.root):
            name, wanted = asked
            got, want = ("yes" if one else "no" for one in (wanted is holds, wanted))
            return f"{prepared.labels[name]}: {got}, {'as' if holds else 'where'} {want} is asked"
        words = written(formula.root, lambda name: prepared.labels[name])
        return f"{'this holds' if holds else 'this does not hold'}: {words}"
    if isinstance(value.value, (str, bool)) or isinstance(limit.value, str):
        verdict = "is among" if holds else "is not among"
        return f"{value.written(context.writer)} {verdict} what is allowed: {limit.written(context.writer)}"
    shown, allowed = context.writer.pair(value.value, limit.value, value.kind)
    if value.kind in _SAYS_LITTLE and value.symbol in FACTS:
        shown = f"{prepared.labels[value.symbol]} = {shown}"
    return f"{shown}, where {_HOW[numbers.relation]} {allowed} is asked"
