"""What changed between two revisions, in words: for the terminal, and the phrases the submittal prints too."""

from __future__ import annotations

import math
import textwrap
from collections.abc import Iterator, Mapping, Sequence

from compliance.facts.evidence.set_differences import SetChangeKind
from compliance.model.issued import FindingRecord, HeadRecord, LimitRecord, RuleSetRecord
from compliance.report.mark_runs import in_runs
from compliance.report.revisions.revision_changes import Changes, FindingChange, SetChange, WallMixChange
from compliance.report.value_words import counted

NONE = "none"
SETS = "Sets of specimens"
_AS_WRITTEN: Mapping[str, str] = {}
_NOTHING = "no finding and no limit changed"
_WORDS = {"worse": "worse", "better": "better", "changed": "changed otherwise", "new": "new", "gone": "gone"}


def revision_text(changes: Changes, width: int, by_wall: bool = False) -> str:
    """The whole comparison: what was changed, then what that did, a line for each rule or `by_wall` for each finding.
    Findings that are new or gone while not applicable are only counted."""
    lines = [f"{headed(changes.before)}, compared with {headed(changes.after)}", in_numbers(changes)]
    lines += [wording for wording in wall_texts(changes) if wording]
    lines += _input_lines(changes, width)
    for old, new in changes.editions:
        lines += textwrap.wrap(edition_text(old, new), width, subsequent_indent="  ")
    if changes.sets or changes.wall_mixes:
        lines += ["", SETS]
        for sentence in (*map(set_text, changes.sets), *map(wall_mix_text, changes.wall_mixes)):
            lines += textwrap.wrap(sentence, width, initial_indent="  ", subsequent_indent="      ")
    if changes.limits:
        lines += ["", "Limits"]
        for change in changes.limits:
            of = change.of
            wording = f"{of.title}, {of.name.replace('_', ' ')} ({of.clause}): {limit_text(change.before)} -> "
            lines += textwrap.wrap(f"{wording}{limit_text(change.after)}", width, initial_indent="  ",
                                   subsequent_indent="      ")  # fmt: skip
    return "\n".join([*lines, *(_by_wall(changes, width) if by_wall else _by_rule(changes, width))]) + "\n"


def _input_lines(changes: Changes, width: int) -> Iterator[str]:
    if changes.inputs is None:
        yield from textwrap.wrap("What was stated is not in both records: changed inputs are not listed.", width)
    elif changes.inputs:
        yield from ("", "Inputs")
        for one in changes.inputs:
            before, after = (side.text if side else NONE for side in (one.before, one.after))
            yield from textwrap.wrap(
                f"{one.path}: {before} -> {after}", width, initial_indent="  ", subsequent_indent="      "
            )


def _by_wall(changes: Changes, width: int) -> Iterator[str]:
    for name, found in changes.by_subject:
        shown = [change for change in found if worth_a_line(change)]
        if shown:
            yield from ("", f"{name[:1].upper()}{name[1:]}")
            for change in shown:
                yield from _wrapped(change, [change.of.subject], width)


def _by_rule(changes: Changes, width: int) -> Iterator[str]:
    """Findings of one rule that changed alike on one line, told of the worst."""
    alike: dict[tuple[str, ...], list[FindingChange]] = {}
    for change in filter(worth_a_line, changes.findings):
        verdicts = tuple(side.verdict if side else "" for side in (change.before, change.after))
        alike.setdefault((change.word, change.of.rule_set, change.of.rule, *verdicts), []).append(change)
    groups = sorted(alike.values(), key=lambda group: _ORDER.index(group[0].word))
    if groups:
        yield from ("", "What that did")
    for group in groups:
        worst = min(group, key=lambda one: math.inf if one.of.margin is None else one.of.margin)
        yield from _wrapped(worst, [one.of.subject for one in group], width)


_ORDER = ("worse", "new", "changed", "better", "gone")


def _wrapped(change: FindingChange, subjects: Sequence[str], width: int) -> Iterator[str]:
    """A change of several subjects, told of one."""
    of = change.of
    worst = f"of {of.subject} " if len(subjects) > 1 and of.value else ""
    head = f"{change.word:<8} {', '.join(in_runs(subjects))}: {of.title} ({of.clause}): {worst}"
    wording = f"{head}{finding_text(change.before)} -> {finding_text(change.after)}"
    yield from textwrap.wrap(wording, width, initial_indent="  ", subsequent_indent=" " * 11)


def headed(head: HeadRecord) -> str:
    return f"revision {head.revision} ({head.date}, input {head.fingerprint[:12]})"


def in_numbers(changes: Changes) -> str:
    """One sentence on how much changed."""
    if changes.nothing:
        return "nothing stated, no finding and no limit changed" if changes.inputs == () else _NOTHING
    counts = [f"{count} {_WORDS[word]}" for word, count in changes.counts().items() if count]
    findings = f"findings: {', '.join(counts)}" if counts else "no finding changed"
    sets = _sets_in_numbers(changes)
    many = len(changes.limits)
    limits = f"{many} {'limit' if many == 1 else 'limits'} changed" if many else "no limit changed"
    return "; ".join(one for one in (findings, limits, sets) if one)


def _sets_in_numbers(changes: Changes) -> str:
    marks = {one.difference.set for one in changes.sets}
    return f"tests: {counted(len(marks), 'set')} relabeled, left out or set aside" if marks else ""


def set_text(change: SetChange) -> str:
    """One sentence on a set that was relabeled, left out or set aside; says whether it failed."""
    one = change.difference
    failed = f"; in that revision set {one.set} did not meet {', '.join(change.failed)}" if change.failed else ""
    mix = "" if one.kind is SetChangeKind.MIX else f" of mix {one.mix}"
    joint = " " if one.kind in (SetChangeKind.GONE, SetChangeKind.MIX) else ": "
    return f"Set {one.set}{mix}{joint}{one.words}{failed}."


def wall_mix_text(change: WallMixChange) -> str:
    """One sentence on a wall that is of another mix."""
    of = f"of mix {change.after}" if change.after else "of no mix"
    sets = ", ".join(change.failed)
    failed = f"; in that revision set {sets} of mix {change.before} did not meet its rules" if sets else ""
    return f"Wall {change.wall} was of mix {change.before} and is {of}{failed}."


def of_mix(changes: Changes, mix: str) -> list[str]:
    """The sentences that belong beside a mix: of sets it has or had, of walls it had."""
    sets = [
        one for one in changes.sets
        if mix == one.difference.mix or (one.difference.kind is SetChangeKind.MIX and mix == one.difference.after)
    ]  # fmt: skip
    walls = [one for one in changes.wall_mixes if mix in (one.before, one.after)]
    return [*map(set_text, sets), *map(wall_mix_text, walls)]


def wall_texts(changes: Changes) -> tuple[str, str]:
    """Walls that are new, and walls that are gone; empty where there are none."""
    new = f"walls that are new: {', '.join(changes.walls_new)}" if changes.walls_new else ""
    gone = f"walls that are gone: {', '.join(changes.walls_gone)}" if changes.walls_gone else ""
    return new, gone


def edition_text(old: RuleSetRecord | None, new: RuleSetRecord | None) -> str:
    if old is None:
        assert new
        return f"rule set added: {new.rule_set} ({new.edition})"
    if new is None:
        return f"rule set no longer used: {old.rule_set} ({old.edition})"
    return f"rule set {new.rule_set}: {old.edition} -> {new.edition}"


def worth_a_line(change: FindingChange) -> bool:
    """Findings that come or go while not applicable say nothing of the building."""
    return not (change.word in ("new", "gone") and change.of.outcome == "not-applicable")


def finding_text(finding: FindingRecord | None, signs: Mapping[str, str] = _AS_WRITTEN) -> str:
    """The verdict with its figures, or with its reason where there are none. `signs` are those of relations."""
    if finding is None:
        return NONE
    if finding.value is None:
        return f"{finding.verdict}: {finding.reason}"
    relation = signs.get(finding.relation or "", finding.relation or "")
    limit = f"{relation} {finding.limit.text}" if finding.limit else ""
    rests = ", ".join(wording for wording in (limit, finding.standing or "") if wording)
    return f"{finding.verdict} [{finding.value.text}{f'; limit {rests}' if rests else ''}]"


def limit_text(limit: LimitRecord | None) -> str:
    if limit is None:
        return NONE
    last, amended = limit.amended, ""
    if last:
        same = last.before is not None and last.before == last.after
        amended = f", {'confirmed' if same else 'amended'} by {last.by} on {last.on}"
    return f"{limit.value.text if limit.value else 'open'} ({limit.standing}{amended})"
