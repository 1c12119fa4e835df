"""What changed between two revisions, in words: for the terminal, and the phrases the submittal prints too."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from compliance.facts.evidence.set_differences import SetChangeKind
from compliance.model.issued import FindingRecord, HeadRecord, LimitRecord, RuleSetRecord
from compliance.report.revisions.revision_changes import Changes, FindingChange, SetChange, WallMixChange
from compliance.report.value_words import counted

NONE = "none"
SETS = "Sets of specimens"
_AS_WRITTEN: Mapping[str, str] = {}
_WORDS = {"worse": "worse", "better": "better", "changed": "changed otherwise", "new": "new", "gone": "gone"}


def revision_text(changes: Changes, width: int) -> str:
    """The whole comparison. Findings that are new or gone while not applicable are only counted."""
    lines = [f"{headed(changes.before)}, compared with {headed(changes.after)}", in_numbers(changes)]
    lines += [wording for wording in wall_texts(changes) if wording]
    for old, new in changes.editions:
        lines += textwrap.wrap(edition_text(old, new), width, subsequent_indent="  ")
    if changes.sets or changes.wall_mixes:
        lines += ["", SETS]
        for sentence in (*map(set_text, changes.sets), *map(wall_mix_text, changes.wall_mixes)):
            lines += textwrap.wrap(sentence, width, initial_indent="  ", subsequent_indent="      ")
    for name, found in changes.by_subject:
        shown = [change for change in found if worth_a_line(change)]
        if shown:
            lines += ["", f"{name[:1].upper()}{name[1:]}"]
            lines += [line for change in shown for line in _wrapped(change, width)]
    if changes.limits:
        lines += ["", "Limits"]
        for change in changes.limits:
            of = change.of
            wording = f"{of.title}, {of.name.replace('_', ' ')} ({of.clause}): {limit_text(change.before)} -> "
            lines += textwrap.wrap(f"{wording}{limit_text(change.after)}", width, initial_indent="  ",
                                   subsequent_indent="      ")  # fmt: skip
    return "\n".join(lines) + "\n"


def _wrapped(change: FindingChange, width: int) -> Iterator[str]:
    of = change.of
    head = f"{change.word:<8} {of.subject}: {of.title} ({of.clause}): "
    wording = f"{head}{finding_text(change.before)} -> {finding_text(change.after)}"
    yield from textwrap.wrap(wording, width, initial_indent="  ", subsequent_indent=" " * 11)


def headed(head: HeadRecord) -> str:
    return f"revision {head.revision} ({head.date}, input {head.fingerprint[:12]})"


def in_numbers(changes: Changes) -> str:
    """One sentence on how much changed."""
    if changes.nothing:
        return "no finding and no limit changed"
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
