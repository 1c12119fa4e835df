"""What changed between two revisions: findings wall by wall, limits, rule sets. Both are records as written out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

from compliance.facts.evidence.set_differences import SetDifference, set_differences
from compliance.findings import Outcome
from compliance.model.issued import (
    FindingRecord,
    FindingsRecord,
    HeadRecord,
    LimitRecord,
    RuleSetRecord,
    ValueRecord,
    is_same_value,
)
from compliance.record import record

Item = TypeVar("Item")


@record
class FindingChange:
    """A finding in one revision and in the other; None where there was or is none."""

    before: FindingRecord | None
    after: FindingRecord | None

    @property
    def of(self) -> FindingRecord:
        found = self.after or self.before
        assert found
        return found

    @property
    def direction(self) -> int:
        """Above 0 where the outcome got better, below 0 where it got worse; 0 for the same, or where one is lacking or
        is not applicable, which is neither."""
        if self.before is None or self.after is None or "not-applicable" in (self.before.outcome, self.after.outcome):
            return 0
        return Outcome(self.after.outcome).rank - Outcome(self.before.outcome).rank

    @property
    def word(self) -> str:
        if self.before is None:
            return "new"
        if self.after is None:
            return "gone"
        return "better" if self.direction > 0 else "worse" if self.direction < 0 else "changed"


@record
class LimitChange:
    before: LimitRecord | None
    after: LimitRecord | None

    @property
    def of(self) -> LimitRecord:
        found = self.after or self.before
        assert found
        return found


@record
class InputChange:
    """A stated value by its path; None where it is not stated."""

    path: str
    before: ValueRecord | None
    after: ValueRecord | None


@record
class SetChange:
    """How a set differs from what it was, and the titles of the rules that it did not meet then."""

    difference: SetDifference
    failed: tuple[str, ...]


@record
class WallMixChange:
    """A wall that is of another mix, with the sets of the mix before that did not meet a rule then."""

    wall: str
    before: str
    after: str
    failed: tuple[str, ...]


@record
class Changes:
    """`inputs` are the stated values that changed, None where a revision kept none. `by_subject` holds the changes of
    each wall, with its openings and piers, and of each other subject, walls first. `walls_new` and `walls_gone` are
    marks. `editions` are rule sets that came, went or changed their edition. `sets` and `wall_mixes` are what was
    relabeled, left out or set aside; nothing where one of the revisions does not tell."""

    before: HeadRecord
    after: HeadRecord
    by_subject: tuple[tuple[str, tuple[FindingChange, ...]], ...]
    limits: tuple[LimitChange, ...]
    editions: tuple[tuple[RuleSetRecord | None, RuleSetRecord | None], ...]
    walls_new: tuple[str, ...]
    walls_gone: tuple[str, ...]
    inputs: tuple[InputChange, ...] | None = None
    sets: tuple[SetChange, ...] = ()
    wall_mixes: tuple[WallMixChange, ...] = ()

    @property
    def findings(self) -> tuple[FindingChange, ...]:
        return tuple(change for _, changes in self.by_subject for change in changes)

    @property
    def nothing(self) -> bool:
        found = (self.by_subject, self.limits, self.editions, self.inputs, self.sets, self.wall_mixes)
        return not any(found)

    def counts(self) -> dict[str, int]:
        """How many findings got worse, better, changed otherwise, are new or gone; none left out."""
        found = dict.fromkeys(("worse", "better", "changed", "new", "gone"), 0)
        for change in self.findings:
            found[change.word] += 1
        return found


def changes(before: FindingsRecord, after: FindingsRecord) -> Changes:
    """Findings are the same where rule, subject, outcome, verdict, figures, reason and what is lacking are; units and
    files do not matter, nor in which words a reason is given."""
    pairs = _paired(before.findings, after.findings, _finding_key)
    changed = [FindingChange(old, new) for old, new in pairs if not _same_finding(old, new)]
    limits = _paired(before.limits, after.limits, lambda one: (one.rule_set, one.rule, one.name))
    editions = _paired(before.rule_sets, after.rule_sets, lambda one: one.rule_set)
    old_walls, new_walls = _walls(before), _walls(after)
    return Changes(
        before.project,
        after=after.project,
        by_subject=_grouped(changed, after),
        limits=tuple(LimitChange(old, new) for old, new in limits if not _same_limit(old, new)),
        editions=tuple((old, new) for old, new in editions if old is None or new is None or old.edition != new.edition),
        walls_new=tuple(wall for wall in new_walls if wall not in old_walls),
        walls_gone=tuple(wall for wall in old_walls if wall not in new_walls),
        inputs=_inputs(before, after),
        sets=tuple(set_changes(before, after)),
        wall_mixes=tuple(wall_mix_changes(before, after)),
    )


def set_changes(before: FindingsRecord, after: FindingsRecord) -> list[SetChange]:
    """Those of sets that failed come first, each in the order of the earlier revision."""
    if before.described is None or after.described is None:
        return []
    failed = _failed(before)
    found = set_differences(before.described.test_sets, after.described.test_sets)
    return sorted((SetChange(one, failed.get(one.set, ())) for one in found), key=lambda change: not change.failed)


def wall_mix_changes(before: FindingsRecord, after: FindingsRecord) -> list[WallMixChange]:
    if before.described is None or after.described is None:
        return []
    failed = _failed(before)
    mixes = {wall: fields.get("mix", "") for wall, fields in after.described.things.get("wall", {}).items()}
    found = []
    for wall, then in before.described.things.get("wall", {}).items():
        mix = then.get("mix", "")
        if mix and mixes.get(wall, mix) != mix:
            sets = tuple(one.set for one in before.described.test_sets if one.mix == mix and one.set in failed)
            found.append(WallMixChange(wall, before=mix, after=mixes[wall], failed=sets))
    return found


def _failed(of: FindingsRecord) -> dict[str, tuple[str, ...]]:
    """The titles of the rules that each set did not meet."""
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for one in of.findings:
        if one.about == "set" and one.kind == "test" and one.outcome in ("revise", "engineer"):
            found[one.subject][f"{one.title} ({one.clause})"] = None
    return {mark: tuple(titles) for mark, titles in found.items()}


def _inputs(before: FindingsRecord, after: FindingsRecord) -> tuple[InputChange, ...] | None:
    """In the order of the later revision, then those that only the earlier has."""
    old, new = before.inputs, after.inputs
    if old is None or new is None:
        return None
    pairs = [InputChange(path, old.get(path), new.get(path)) for path in {**new, **old}]
    return tuple(one for one in pairs if not is_same_value(one.before, one.after))


def _paired(
    before: Iterable[Item], after: Iterable[Item], key: Callable[[Item], Hashable]
) -> list[tuple[Item | None, Item | None]]:
    """In the order of the second, then those that only the first has. Of several alike, first goes with first."""
    old: dict[Hashable, list[Item]] = defaultdict(list)
    for one in before:
        old[key(one)].append(one)
    pairs: list[tuple[Item | None, Item | None]] = []
    for one in after:
        waiting = old[key(one)]
        pairs.append((waiting.pop(0) if waiting else None, one))
    for left in old.values():
        pairs += [(one, None) for one in left]
    return pairs


def _finding_key(one: FindingRecord) -> Hashable:
    return one.rule_set, one.rule, one.about, one.subject


def _same_finding(one: FindingRecord | None, other: FindingRecord | None) -> bool:
    if one is None or other is None:
        return False
    same = ("outcome", "verdict", "standing", "relation")
    if any(getattr(one, name) != getattr(other, name) for name in same):
        return False
    if not (is_same_value(one.value, other.value) and is_same_value(one.limit, other.limit)):
        return False
    if one.value is not None:  # the reason then only repeats the value, in whatever units
        return True
    return (one.why, one.reason_values, _lacking(one)) == (other.why, other.reason_values, _lacking(other))


def _lacking(one: FindingRecord) -> list[tuple[str, list[str | int]]]:
    return [(lack.kind, lack.parts) for lack in one.missing]


def _same_limit(one: LimitRecord | None, other: LimitRecord | None) -> bool:
    if one is None or other is None:
        return False
    return (one.standing, one.source) == (other.standing, other.source) and is_same_value(one.value, other.value)


def _walls(record: FindingsRecord) -> list[str]:
    return list(dict.fromkeys(one.wall for one in record.findings if one.wall))


def _grouped(changed: list[FindingChange], after: FindingsRecord) -> tuple[tuple[str, tuple[FindingChange, ...]], ...]:
    """Walls in the order of the later revision, then other subjects in the order of their findings."""
    groups: dict[tuple[bool, str], list[FindingChange]] = {}
    for change in changed:
        one = change.of
        name = (
            f"wall {one.wall}" if one.wall else one.about if one.subject == one.about else f"{one.about} {one.subject}"
        )
        groups.setdefault((not one.wall, name), []).append(change)
    walls = {f"wall {wall}": index for index, wall in enumerate(_walls(after))}
    order = sorted(groups, key=lambda key: (key[0], walls.get(key[1], len(walls))))
    return tuple((name, tuple(groups[_, name])) for _, name in order)
