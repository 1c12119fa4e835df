"""The specimens the walls still ask for: by test and mix, by volume and lift, with the days that follow from the dates
and ages the project and its rules state."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from compliance.checked import Checked
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Outcome
from compliance.record import record
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.marks import Mark, worst
from compliance.rules.required_specimens import RequiredSpecimens, required_specimens
from compliance.rules.rule_set import Rule

_DAY = 86400.0
_SAME = 1e-9


@record
class RequiredTest:
    """What one test rule asks for one mix. `sets` are those on record with their number of specimens, `mark` the worst
    finding of the rule about the mix. `before` is the day on which placing of the mix begins: results are with the
    official by then, and specimens cast by `cast_by` are old enough on that day."""

    group: RuleFindings
    kind: str
    mix: str
    required: RequiredSpecimens
    sets: tuple[tuple[str, int], ...]
    mark: Mark
    before: date | None
    cast_by: date | None


@record
class SetByVolume:
    """One set cast while walls of a mix go up: number `index` of `count`, at the latest when `placed` m³ are in the
    walls. `lift` is about which lift that is, of how many; `due` the first day on which it may be tested."""

    mix: str
    index: int
    count: int
    placed: float
    walls: tuple[str, ...]
    lift: tuple[int, int] | None
    day: date | None
    due: date | None


def required_of_mixes(checked: Checked, sets: tuple[SetFindings, ...]) -> tuple[RequiredTest, ...]:
    """In the order of the rules; a rule that does not apply to a mix asks nothing of it."""
    return tuple(row for group, rule in _rules(sets) if rule.test for row in _of_rule(checked, group, rule))


def _rules(sets: tuple[SetFindings, ...]) -> Iterator[tuple[RuleFindings, Rule]]:
    for one in sets:
        rules = {rule.id: rule for rule in one.rule_set.rules}
        yield from ((group, rules[group.rule]) for group in one.rules)


def _of_rule(checked: Checked, group: RuleFindings, rule: Rule) -> Iterator[RequiredTest]:
    assert rule.test
    required = required_specimens(rule)
    tests = checked.project.test_sets
    for mix in checked.project.mixes:
        marks = [mark for mark, test in tests.items() if test.mix == mix and test.kind == rule.test.of]
        found = [one for one in group.judged if one.subject == mix or one.subject in marks]
        if not found:
            continue
        before = _placing_of(checked, mix)
        cast_by = None
        if before and required.least_age is not None:
            cast_by = before - timedelta(days=math.ceil(required.least_age / _DAY - _SAME))
        on_record = tuple((mark, len(checked.specimens.get(mark, ()))) for mark in marks)
        yield RequiredTest(
            group,
            kind=rule.test.of,
            mix=mix,
            required=required,
            sets=on_record,
            mark=worst(found),
            before=before,
            cast_by=cast_by,
        )


def _placing_of(checked: Checked, mix: str) -> date | None:
    days = [wall.placed_from for wall in checked.project.walls.values() if wall.mix == mix and wall.placed_from]
    return min(days, default=None)


def volume_for_a_set(sets: tuple[SetFindings, ...]) -> tuple[RuleFindings, float | None] | None:
    """The rule that ties passing sets to volume, with the volume in m³ each may stand for (None: open); the least of
    several. None where no rule does."""
    found = [
        (group, limit.value if isinstance(limit.value, float) else None)
        for group, rule in _rules(sets)
        if rule.covers and any(one.outcome is not Outcome.NOT_APPLICABLE for one in group.findings)
        for limit in rule.limits.values()
        if limit.kind == "volume"
    ]
    return min(found, key=lambda one: math.inf if one[1] is None else one[1], default=None)


def sets_by_volume(checked: Checked, each: float, least_age: float | None) -> tuple[SetByVolume, ...]:
    """Sets of each mix of structural walls, one for every begun `each` m³, those of walls with an early day first.

    Walls of one mix and day are taken to rise together, lift by lift.
    """
    found: list[SetByVolume] = []
    for mix in checked.project.mixes:
        groups = _walls_by_day(checked, mix)
        total = math.fsum(_volume(wall) for _, walls in groups for wall in walls)
        count = math.ceil(total / each - _SAME) if total > 0 else 0
        found += [
            _one(mix, index=index, count=count, placed=(index - 1) * each, groups=groups, least_age=least_age)
            for index in range(1, count + 1)
        ]
    return tuple(found)


Groups = list[tuple[date | None, list[Subject]]]


def _walls_by_day(checked: Checked, mix: str) -> Groups:
    walls = checked.facts.of("wall")
    by_day: dict[date | None, list[Subject]] = {}
    for mark, wall in checked.project.walls.items():
        if wall.mix == mix and walls[mark].fact("wall.structural").value is not False:
            by_day.setdefault(wall.placed_from, []).append(walls[mark])
    return sorted(by_day.items(), key=lambda one: (one[0] is None, one[0] or date.min))


def _one(mix: str, index: int, count: int, placed: float, groups: Groups, least_age: float | None) -> SetByVolume:
    below, day, walls = _where(placed, groups)
    inside = math.fsum(map(_volume, walls))
    lifts = _lifts(walls)
    lift = None if lifts is None else (min(lifts, int((placed - below) / inside * lifts + _SAME) + 1), lifts)
    first = day if placed - below <= _SAME * max(inside, 1.0) else None
    due = first + timedelta(days=math.ceil(least_age / _DAY - _SAME)) if first and least_age is not None else None
    return SetByVolume(
        mix,
        index=index,
        count=count,
        placed=placed,
        walls=tuple(wall.mark for wall in walls),
        lift=lift,
        day=first,
        due=due,
    )


def _where(placed: float, groups: Groups) -> tuple[float, date | None, Sequence[Subject]]:
    """The walls that go up when `placed` m³ of the mix are in the walls, and what was placed before them."""
    below = 0.0
    for day, walls in groups:
        inside = math.fsum(map(_volume, walls))
        if placed < below + inside * (1 - _SAME):
            return below, day, walls
        below += inside
    raise ValueError("more is placed than the walls hold")


def _volume(wall: Subject) -> float:
    value = wall.fact("wall.volume").value
    return value if isinstance(value, float) else 0.0


def _lifts(walls: Sequence[Subject]) -> int | None:
    """Lifts of the wall that takes most; None where a lift's height is not stated."""
    counts = []
    for wall in walls:
        height, lift = wall.fact("wall.height").value, wall.fact("wall.lift_height").value
        if not isinstance(height, float) or not isinstance(lift, float) or lift <= 0:
            return None
        counts.append(math.ceil(height / lift - _SAME))
    return max(counts)
