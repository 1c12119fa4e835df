"""Every rule of every rule set against every subject it is about."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import islice

from compliance.facts.evidence.chain import Chain
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Finding
from compliance.judging.checks import judge_check
from compliance.judging.conditions.forms import within_forms
from compliance.judging.conditions.giving_way import precedence_of
from compliance.judging.context import Context
from compliance.judging.covers import judge_covers
from compliance.judging.prepared import Prepared, prepare
from compliance.judging.records import judge_attest, judge_inspect
from compliance.judging.test_sets import judge_test
from compliance.rules.rule_set import Rule, RuleSet

NO_CHAINS: Mapping[str, Chain] = {}
ProgressCallback = Callable[[int, int], None]
"""Is told how many steps of how many are done."""


def ignore_progress(done: int, of: int) -> None:
    """For whoever does not wait."""


def judge(
    context: Context,
    rule_sets: Iterable[RuleSet],
    chains: Mapping[str, Chain] = NO_CHAINS,
    progress: ProgressCallback = ignore_progress,
) -> tuple[Finding, ...]:
    """All findings, in the order of the rule sets, their rules, and the subjects of the project.

    Subjects are taken up some at a time, so that ten thousand cost no more each than a hundred. Rules that ask for
    passing sets come last, from the findings of the test rules of all rule sets. `chains` holds the chain of evidence
    of each wall, for their worked lines. A finding about a type of earth that its rule set does not cover counts for
    nothing, also not for passing sets; a figure of practice gives way to what an adopted code says. `progress` hears
    how many judgements of how many are made. Of a project of the earth alone nothing is judged that belongs to a
    building.
    """
    adopted = tuple(rule_sets)
    within = within_forms(context, adopted)
    rules = [prepare(rule) for rule_set in adopted for rule in rule_set.rules if _can_be_judged(rule, context)]
    found: list[list[Finding]] = [[] for _ in rules]
    first = {index: one for index, one in enumerate(rules) if one.rule.covers is None}
    last = {index: one for index, one in enumerate(rules) if one.rule.covers is not None}
    count = sum(len(context.facts.of(one.rule.about)) for one in rules)
    done = 0

    def each(chosen: Mapping[int, Prepared], judged: Judged) -> None:
        nonlocal done
        for about in dict.fromkeys(one.rule.about for one in chosen.values()):
            of_kind = [(found[index], one) for index, one in chosen.items() if one.rule.about == about]
            for some in _some(context.facts.of(about).values()):
                for kept, one in of_kind:
                    for subject in some:
                        kept.extend(map(within, judged(one, subject)))
                    done += len(some)
                    progress(done, count)

    each(first, lambda one, subject: judge_one(context, one, subject))
    tests = [one for index, of_rule in enumerate(found) if rules[index].rule.test for one in of_rule]
    each(
        last,
        lambda one, wall: [judge_covers(context, prepared=one, subject=wall, tests=tests, chain=chains.get(wall.mark))],
    )
    judged_all = [one for of_rule in found for one in of_rule]
    return tuple(map(precedence_of(adopted, judged_all, context.project.accepted).applied, judged_all))


def _can_be_judged(rule: Rule, context: Context) -> bool:
    """A site or a number of stories that stands in the file is no building: without walls nothing about it meets."""
    return not context.project.is_earth_only or rule.about in OF_THE_EARTH


_AT_A_TIME = 64
OF_THE_EARTH = ("soil", "mix", "set")
"""What rules can be about where no building is described."""


def _some(subjects: Iterable[Subject]) -> Iterator[tuple[Subject, ...]]:
    """So many subjects at a time that their facts stay near at hand from one rule to the next."""
    waiting = iter(subjects)
    while some := tuple(islice(waiting, _AT_A_TIME)):
        yield some


Judged = Callable[[Prepared, Subject], Sequence[Finding]]


def judge_one(context: Context, prepared: Prepared, subject: Subject) -> Sequence[Finding]:
    """What one rule, not about passing sets, says of one subject: a finding, or one for each set of a mix."""
    if prepared.rule.test:
        return judge_test(context, prepared, subject)
    if prepared.rule.attest:
        return (judge_attest(context, prepared, subject),)
    if prepared.rule.inspect:
        return (judge_inspect(context, prepared, subject),)
    return (judge_check(context, prepared, subject),)
