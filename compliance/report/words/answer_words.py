"""The answer of a check in words: the sentence on top, the lines of what to do, where the project stands."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.checked import Checked
from compliance.facts.catalogue import ABOUT_LABELS
from compliance.findings import Finding, Outcome, same_value
from compliance.judging.reasons import Compared, Contradicted, RuleSays, YesOrNo
from compliance.record import replace
from compliance.remedies.changes import Change, FieldChange
from compliance.report.answer.answer import Answer, Clause
from compliance.report.answer.causes import Cause
from compliance.report.answer.to_decide import Item, JoinedItem
from compliance.report.mark_runs import in_runs
from compliance.report.value_words import counted
from compliance.report.words.missing_words import missing_name, reason_text
from compliance.report.words.reason_words import reason_words
from compliance.report.words.remedy_words import short_change_words
from compliance.stages import UNSTATED, Stage
from compliance.steps import Given
from compliance.units import Measure, Writer

_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")

FOR_AN_ENGINEER, TO_CHANGE = "Stops you, for an engineer", "Stops you, to change"
ACCEPTED, DECIDE_NOW, ASK = "Accepted by the official, not met", "Decide now", "Ask at the counter"
"""Headings of the sections of an answer, wherever it is shown."""


def answer_sentence(found: Answer, count: int) -> str:
    """Whether it can be built so far, and what to do first. `count` is how many findings there are."""
    if not count:
        return "Nothing was checked: no adopted rule is about anything here."
    parts = [_engineers(found.walls_for_an_engineer)] if found.walls_for_an_engineer else []
    parts += [f"{_number(found.changes)} {_noun('thing', found.changes)} to change"] if found.changes else []
    parts += [f"{_number(found.decisions)} to decide"] if found.decisions else []
    clauses = len(found.to_read)
    parts += [f"{_number(clauses)} {_noun('clause', clauses)} to ask about"] if clauses else []
    if parts:
        return f"Not yet: {', '.join(parts)}."
    if found.accepted:
        return "Not by the rules alone: everything due meets but what the official accepted."
    if not found.all_meet:
        return "Not yet: nothing that was checked meets."
    return f"Yes, as far as stage {found.reached.stage.words} asks: everything due there meets."


def _engineers(walls: Sequence[str]) -> str:
    count = sum(bool(wall) for wall in walls)
    many = f"{_number(count)} {_noun('wall', count)}" if count else ""
    who = " and ".join(one for one in (many, "" if all(walls) else "the building") if one)
    return f"{who} {'needs' if len(walls) == 1 or not count else 'need'} an engineer"


def _number(count: int) -> str:
    return _NUMBERS[count] if count < len(_NUMBERS) else str(count)


def _noun(one: str, count: int) -> str:
    return one if count == 1 else f"{one}s"


def cause_words(cause: Cause, writer: Writer) -> str:
    """Which subjects, what does not hold, by how much where it is worst, and how well the limit is known."""
    worst = cause.worst
    differ = len({(one.value, one.limit) for one in cause.findings}) > 1
    at = f", at worst {worst.subject}:" if differ else ""
    known = f" ({worst.standing.value})" if worst.standing and worst.limit else ""
    return f"{subject_words(cause.findings)}: {_what(worst, at, writer)}{known}"


def _what(finding: Finding, at: str, writer: Writer) -> str:
    """What does not hold, named once: the title with its numbers, or a reason that says it all."""
    title = finding.title[:1].lower() + finding.title[1:]
    match finding.reason:
        case Compared() as compared:
            is_count = bool(compared.name) and compared.value.kind == "count"
            says = reason_words(compared if is_count else replace(compared, name=""), writer)
            return f"{title}{at or (':' if is_count else '')} {says}"
        case Contradicted() as doubtful:
            return f"{title}{at}, {doubtful.against}"
        case YesOrNo() | RuleSays() as whole:
            return reason_words(whole, writer).rstrip(".")
    return f"{title}{at}, {reason_text(finding, writer).rstrip('.')}"


def do_words(cause: Cause, change: Change | None, writer: Writer) -> str:
    """The nearest change that meets, for the subject that is furthest outside; empty where none is known, and where it
    is to make the value what the limit says."""
    limit = cause.worst.limit
    if change is None or (isinstance(change, FieldChange) and limit and _is_the_limit(change, limit)):
        return ""
    return f"nearest: {short_change_words(change, writer, cause.worst.subject)}"


def _is_the_limit(change: FieldChange, limit: Given) -> bool:
    after = change.after.si if isinstance(change.after, Measure) else float(change.after)
    return same_value(after, limit.value)


def remedy_words(cause: Cause) -> str:
    """What the rule itself says to do; empty where it says nothing."""
    remedy = cause.worst.remedy.rstrip(".")
    return remedy[:1].lower() + remedy[1:]


def subject_words(findings: Sequence[Finding]) -> str:
    """The marks of findings, those that count on as a run."""
    marks = dict.fromkeys(one.subject for one in findings)
    return ", ".join(in_runs(sorted(marks, key=_by_length)))


def _by_length(mark: str) -> tuple[str, int, str]:
    return mark.rstrip("0123456789"), len(mark), mark


def item_words(item: Item, writer: Writer) -> str:
    """What to write or record, and where; what is wrong in a record."""
    match item.kind:
        case "field":
            return _field(item)
        case "record":
            named = "; ".join(missing_name(one, more_follow=True) for one in item.lacks)
            return f"add {named} in {item.file} {needed_words(item)}"
        case "answer":
            return f"answer (earthwall answer, or attestations: in {item.file}): {', '.join(item.names)}"
        case "inspection":
            return f"record in {item.file}, inspections: {_each_rule(item)}"
    first = item.findings[0]
    why = first.reason.against if isinstance(first.reason, Contradicted) else reason_text(first, writer)
    return f"fix {_each_rule(item)}: {why}"


def _field(item: Item) -> str:
    if not item.holders:
        return f"write {', '.join(item.names)} in {item.file} {needed_words(item)}"
    names = f"{', '.join(item.names)}:"
    first, *others = item.holders
    same = ", ".join([".".join(map(str, first)), *(".".join(map(str, one[1:])) for one in others)])
    return f"write {names} under {same} in {item.file} {needed_words(item)}"


def needed_words(item: Item) -> str:
    """How many checks need it: "(16 checks each)"."""
    if not isinstance(item, JoinedItem) or len(item.names or item.lacks) < 2:
        return f"({counted(item.needed_by, 'check')})"
    if item.most != item.fewest:
        return f"({item.fewest} to {counted(item.most, 'check')})"
    return f"({counted(item.most, 'check')} each)"


def _each_rule(item: Item) -> str:
    """The rules of an item, those about the same subjects together."""
    rules: dict[str, list[Finding]] = {}
    for one in item.findings:
        rules.setdefault(one.rule, []).append(one)
    alike: dict[str, list[str]] = {}
    for rule, found in rules.items():
        alike.setdefault(_few(found), []).append(rule)
    return "; ".join(f"{', '.join(names)} ({about})" for about, names in alike.items())


_MOST_NAMED = 4


def _few(findings: Sequence[Finding]) -> str:
    """The marks, or how many there are where they are many."""
    listed = subject_words(findings)
    if listed.count(",") < _MOST_NAMED:
        return listed
    return counted(len({one.subject for one in findings}), ABOUT_LABELS[findings[0].about])


def clause_words(clause: Clause) -> str:
    """A clause with what is to be read in it."""
    titles = "; ".join(title[:1].lower() + title[1:] for title in clause.titles)
    return f"{clause.clause} ({clause.rule_set}): {titles}"


def stage_words(found: Answer) -> str:
    """At which stage the project was asked, why, and what is still to come."""
    reached = found.reached
    if reached.because:
        stated = f"it says {reached.stated.words}" if reached.stated else "it says nothing"
        where = f"Stage: {reached.stage.words}, for {reached.because} ({stated})"
    elif reached.stated is None and reached.stage is UNSTATED:
        where = f"Stage: {reached.stage.words}, as project.stage is not written"
    else:
        where = f"Stage: {reached.stage.words}"
    return f"{where}. {later_words(found.later)}."


def later_words(later: Mapping[Stage, int]) -> str:
    """How many answers are due at each later stage."""
    if not later:
        return "Nothing is put off to a later stage"
    return "Later: " + ", ".join(f"{count} {_WHEN[stage]}" for stage, count in later.items())


_WHEN = {
    Stage.EARTH: "at earth",
    Stage.DESIGN: "at design",
    Stage.APPLICATION: "at application",
    Stage.BEFORE_PLACING: "before placing",
    Stage.DURING_THE_WORK: "during the work",
    Stage.COMPLETION: "at completion",
}


def tally_words(checked: Checked) -> str:
    """How many findings of each outcome there are, but for those that do not apply."""
    unsure = sum(one.outcome is Outcome.MEETS and one.wants_confirming for one in checked.findings)
    reserve = {Outcome.MEETS: f" ({unsure} on limits to confirm)"} if unsure else {}
    counts = [(outcome, count) for outcome, count in checked.tally().items() if outcome is not Outcome.NOT_APPLICABLE]
    return ", ".join(f"{count} {outcome.words}{reserve.get(outcome, '')}" for outcome, count in counts if count)
