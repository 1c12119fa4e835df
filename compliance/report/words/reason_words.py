"""Reasons in words: one sentence for each kind of reason, without a capital and without a stop."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import lru_cache
from typing import Any

from compliance.findings import Reason
from compliance.judging import reasons, set_reasons
from compliance.judging.context import label
from compliance.rules.formulas.formula import Formula
from compliance.rules.formulas.printing import written
from compliance.units import Writer

_SAYS_LITTLE = ("count", "ratio")
"""Kinds whose values have no unit to tell what they are of."""

_HELD = {"<=": "≤", "<": "<", ">=": "≥", ">": ">", "==": "=", "!=": "≠"}
_BROKEN = {"<=": ">", "<": "≥", ">=": "<", ">": "≤", "==": "≠", "!=": "="}
_LIMIT = {"<=": "maximum", "<": "limit", ">=": "minimum", ">": "limit", "==": "required", "!=": "ruled out"}
_STRICT = {"<": "; must be less", ">": "; must be more"}
"""What a value that sits at the limit, or beyond, has to be where the limit itself is not allowed."""


def reason_words(reason: Reason, writer: Writer) -> str:
    """One sentence in the units of `writer`. Raises KeyError for a kind of reason that has no words."""
    return WORDS[type(reason)](reason, writer)


def _compared(one: reasons.Compared, writer: Writer) -> str:
    value, limit, relation = one.value.value, one.limit.value, one.relation
    assert not isinstance(value, str) and not isinstance(limit, str)
    shown, allowed = writer.pair(value, limit, one.value.kind)
    if one.name and one.value.kind in _SAYS_LITTLE:
        shown = f"{label(one.name)} {shown}"
    if one.holds:
        return f"{shown} {_HELD[relation]} {allowed} {_LIMIT[relation]}"
    return f"{shown} {_BROKEN[relation]} {allowed} {_LIMIT[relation]}{_STRICT.get(relation, '')}"


def _among(one: reasons.Among, writer: Writer) -> str:
    ruled_out = one.relation in ("not in", "is not")
    verdict = "is among" if one.holds is not ruled_out else "is not among"
    which = "what is ruled out" if ruled_out else "what is allowed"
    return f"{one.value.written(writer)} {verdict} {which}: {one.limit.written(writer)}"


def _yes_or_no(one: reasons.YesOrNo, writer: Writer) -> str:
    got, wanted = ("yes" if yes else "no" for yes in (one.wanted is one.holds, one.wanted))
    return f"{label(one.name)}: {got}, {'as required' if one.holds else f'must be {wanted}'}"


@lru_cache(maxsize=4096)
def _formula(formula: Formula) -> str:
    """Written out once: many findings of one rule say the same."""
    return written(formula.root, label)


def _evaluated(one: reasons.Evaluated, writer: Writer) -> str:
    return f"{'satisfied' if one.holds else 'not satisfied'}: {_formula(one.formula)}"


def _open_limits(one: reasons.OpenLimits, writer: Writer) -> str:
    named = ", ".join(f'"{_plain(limit.name)}" ({limit.read_in})' for limit in one.limits)
    return f"the limit is not known to this rule set: read {named} in the adopted copy and enter it"


def _open_entries(one: reasons.OpenEntries, writer: Writer) -> str:
    named = "; ".join(f"{_plain(table.name)}, {table.how} ({table.read_in})" for table in one.tables)
    return f"this entry of the table is not known here: read {named} in the adopted copy and enter it"


def _open_rule(one: reasons.OpenRule, writer: Writer) -> str:
    itself = "the rule itself is not known to stand in the adopted code"
    unknown = itself if one.rule_itself else "something it rests on is not known"
    return f"{reason_words(one.held, writer)}; {unknown}; where to read it: {one.read_in}"


def _outside(one: reasons.OutsideTables, writer: Writer) -> str:
    return "; ".join(f"{_plain(table.name)}: {table.how}" for table in one.tables)


def _lacks(one: reasons.Lacks, writer: Writer) -> str:
    """Where nothing is named that could be written."""
    return f"a value the rule needs is lacking{in_brackets(one.because)}"


def in_brackets(because: Iterable[str]) -> str:
    wording = "; ".join(because)
    return f" ({wording})" if wording else ""


def _no_evidence(one: reasons.NoEvidence, writer: Writer) -> str:
    return f"{one.by} says yes, but the rule asks for {' or '.join(one.evidence)} as evidence"


def _answered(one: reasons.Answered, writer: Writer) -> str:
    return f"{one.by} says {'yes' if one.answer else 'no'} on {one.on.isoformat()}{_evidence(one.evidence)}"


def _inspected(one: reasons.Inspected, writer: Writer) -> str:
    passed = "passed" if one.passed else "not passed"
    return f"{one.by} recorded {passed} on {one.on.isoformat()}{_evidence(one.evidence)}"


def _evidence(titles: Iterable[str]) -> str:
    named = ", ".join(titles)
    return f"; evidence: {named}" if named else ""


def _before_the_work(one: reasons.BeforeTheWork, writer: Writer) -> str:
    return f"not judged before the work: {one.point} point of the inspection plan, stage {one.stage}"


def _not_covered(one: reasons.NotCovered, writer: Writer) -> str:
    other = f"its rule set covers {one.covers}, and this is {', '.join(form.replace('-', ' ') for form in one.forms)}"
    return f"{reason_words(one.held, writer)}; but {other}, so it shows nothing" if one.held else other


_WAYS = {
    "answers": "the adopted code answers this: {}",
    "asks": "another rule asks for this: {}",
    "first": "another rule asks first: {}",
    "place": "a rule of the adopted code takes its place: {}",
    "stricter": "another rule has the stricter answer: {}",
}


def _gives_way(one: reasons.GivesWay, writer: Writer) -> str:
    by = _WAYS[one.how].format(one.called)
    return f"{by}; as a remark: {reason_words(one.held, writer)}" if one.held else by


def _no_result(one: set_reasons.NoResult, writer: Writer) -> str:
    return f"no specimen of {one.set} {'counts' if one.aside else 'has a result'}"


_MOST_NAMED = 3


def _counts(one: set_reasons.Counts, writer: Writer) -> str:
    """How many results count, how many are set aside and why, and how many wait."""
    parts = [f"{one.count} result{' counts' if one.count == 1 else 's count'}"]
    for what, marks in (("set aside", one.aside), ("waiting", one.waiting), ("without a result", one.without)):
        if marks:
            named = "; ".join(f"{mark}: {why}" for mark, why in marks[:_MOST_NAMED])
            more = f"; and {len(marks) - _MOST_NAMED} more" if len(marks) > _MOST_NAMED else ""
            parts.append(f"{len(marks)} {what} ({named}{more})")
    return ", ".join(parts)


def _doubtful(one: set_reasons.Doubtful, writer: Writer) -> str:
    sentence = "".join(part if isinstance(part, str) else part.written(writer) for part in one.says)
    return f"{sentence}: {one.cure}"


def _in_doubt(one: set_reasons.InDoubt, writer: Writer) -> str:
    doubts = "; ".join(_doubtful(doubt, writer) for doubt in one.doubts)
    return f"{doubts}; as it stands {reason_words(one.held, writer)}"


def _wait_matters(one: set_reasons.WaitMatters, writer: Writer) -> str:
    return f"counting what waits could change the outcome: {reason_words(one.held, writer)}"


def _contradicted(one: reasons.Contradicted, writer: Writer) -> str:
    return f"{reason_words(one.held, writer)}, but {one.against}"


def _open_factors(one: set_reasons.OpenFactors, writer: Writer) -> str:
    named = "; ".join(f"{entry.name}, {entry.how} ({entry.read_in})" for entry in one.specimens)
    return f"the factor for height to width is not known: {named}"


def _sets_fail(one: set_reasons.SetsFail, writer: Writer) -> str:
    beside = f"; that {', '.join(one.passing)} passes does not outweigh it" if one.passing else ""
    return f"{', '.join(one.failing)} of mix {one.mix} does not pass{beside}"


def _some_fail(one: set_reasons.SomeFail, writer: Writer) -> str:
    return f"{one.failing} {'set fails' if one.failing == 1 else 'sets fail'}, whatever others show"


def _plain(name: str) -> str:
    return name.replace("_", " ")


WORDS: Mapping[type[Reason], Callable[[Any, Writer], str]] = {
    reasons.Compared: _compared,
    reasons.Among: _among,
    reasons.YesOrNo: _yes_or_no,
    reasons.Evaluated: _evaluated,
    reasons.RuleSays: lambda one, _: one.text,
    reasons.NotWhere: lambda one, _: f"the rule applies only where: {_formula(one.condition)}",
    reasons.NoMeaning: lambda one, _: "; ".join(one.because),
    reasons.NoCondition: lambda one, _: f"whether the rule applies cannot be said: {one.because}",
    reasons.NoValue: lambda one, _: f"the check has no value here: {one.because}",
    reasons.WithoutEnd: lambda one, _: one.because,
    reasons.Beyond: lambda one, _: "; ".join(one.because),
    reasons.OutsideTables: _outside,
    reasons.OpenLimits: _open_limits,
    reasons.OpenEntries: _open_entries,
    reasons.OpenRule: _open_rule,
    reasons.Lacks: _lacks,
    reasons.NoAnswer: lambda one, _: f"nobody has answered: {one.ask}",
    reasons.NoEvidence: _no_evidence,
    reasons.Answered: _answered,
    reasons.BeforeTheWork: _before_the_work,
    reasons.NotRecorded: lambda one, _: f"no record of this {one.point} point, stage {one.stage} of the work",
    reasons.NotDue: lambda one, writer: f"due at stage {one.due.replace('-', ' ')}: {reason_words(one.held, writer)}",
    reasons.Contradicted: _contradicted,
    reasons.Overdue: lambda one, _: one.against,
    reasons.Inspected: _inspected,
    reasons.NotCovered: _not_covered,
    reasons.GivesWay: _gives_way,
    reasons.WorkingAnswer: lambda one, _: f"the working answer while that of the adopted code is open: {one.called}",
    reasons.Deviates: lambda one, writer: f"{reason_words(one.held, writer)}; {one.accepted}",
    set_reasons.NoTest: lambda one, _: f"mix {one.mix} has no {one.test} test",
    set_reasons.NoRows: lambda one, _: f"{one.set} has no rows in {one.file}",
    set_reasons.NoResult: _no_result,
    set_reasons.NoGoverningValue: lambda one, _: f"the value that governs {one.set} cannot be found: {one.because}",
    set_reasons.OpenFactors: _open_factors,
    set_reasons.Counts: _counts,
    set_reasons.WaitMatters: _wait_matters,
    set_reasons.Doubtful: _doubtful,
    set_reasons.InDoubt: _in_doubt,
    set_reasons.SetsFail: _sets_fail,
    set_reasons.SomeFail: _some_fail,
    set_reasons.SetsWait: lambda one, _: f"whether {', '.join(one.marks)} passes waits for an open limit or rule",
    set_reasons.NoSetPasses: lambda one, _: f"no set of mix {one.mix} passes yet",
    set_reasons.NoTestRequired: lambda one, _: f"no adopted rule asks for a test of mix {one.mix} here",
}
"""The sentence of each kind of reason."""
