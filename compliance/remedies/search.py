"""The nearest change that meets: found by trying, step by step, each against the rule it is for, then against all."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from compliance.findings import Finding, Outcome
from compliance.model.project import Project
from compliance.record import record
from compliance.remedies.changes import Change
from compliance.remedies.choosing import options_for
from compliance.remedies.difference import Difference
from compliance.remedies.field_changes import ChangeOption
from compliance.remedies.step_sizes import stepped
from compliance.remedies.trial_judging import Changes, ChangeTester, earth
from compliance.steps import Given

MOST_STEPS = 64
_PROBES = (1, 2, 4, 8, 16, 32, MOST_STEPS)
_MOST_TOGETHER = 8
_SAME = 1e-9


@record
class Remedy:
    """A change with which one finding meets and with one step less would not.

    `changes` are made together, `values` are the new values by field. `makes_worse` and `makes_better` are the
    other findings it alters, `unjudged` those it touches that lack a limit or a value; `volume_change` is of earth in
    the walls and buttresses, m³. A screening: whoever is responsible for the walls decides.
    """

    changes: tuple[Change, ...]
    values: tuple[Given, ...]
    steps: int
    makes_worse: tuple[Difference, ...]
    makes_better: tuple[Difference, ...]
    unjudged: tuple[Difference, ...]
    volume_change: float
    project: Project

    @property
    def new_value(self) -> Given:
        return self.values[0]


def remedies(tester: ChangeTester, finding: Finding) -> tuple[Remedy, ...]:
    """The nearest change of each kind that meets `finding`, those that make nothing else worse first.

    Empty for a finding that is neither `revise` nor `engineer`, that rests on tests or a person's word, or that
    nothing in the plan can meet within `MOST_STEPS` steps. Where the margin rises from probe to probe up to one that
    meets, the last stretch is halved until one step less does not meet; elsewhere every step is taken in turn.
    """
    if finding.outcome not in (Outcome.REVISE, Outcome.ENGINEER):
        return ()
    options = options_for(tester, finding)
    tries = [Trying(tester, finding, (option,)) for option in options]
    found = [one for trying in tries for direction in trying.options[0].directions if (one := trying.along(direction))]
    if not found and _joins(tester, finding):
        pairs = (Trying(tester, finding, pair) for pair in combinations(options, 2) if pair[0].field != pair[1].field)
        found = [one for trying in pairs if (one := trying.together())]
    best: dict[str, Remedy] = {}
    for one in sorted(found, key=lambda one: (len(one.makes_worse), one.steps)):
        best.setdefault(one.new_value.symbol, one)
    return tuple(best.values())


class Trying:
    """Trials of one way, or of two at once, for one finding."""

    def __init__(self, tester: ChangeTester, finding: Finding, options: tuple[ChangeOption, ...]) -> None:
        self.tester, self.finding, self.options = tester, finding, options
        self._part = tester.around(finding)
        self._tried: dict[tuple[int, ...], Finding | None] = {}

    def along(self, direction: int) -> Remedy | None:
        """The fewest steps in one direction, each way alone."""
        reached = [count for count in _PROBES if self.value(self.options[0], direction * count) is not None]
        if not reached or not self._promising(direction, (reached[0], reached[len(reached) // 2], reached[-1])):
            return None
        met = next((count for count in reached if self._meets(direction * count)), None)
        tried = [0, *(count for count in reached if met is None or count <= met)]
        margins = [self._margin(direction * count) for count in tried]
        if met is not None and _rises(margins):
            return self._remedy((direction * self._halved(direction, tried[-2], met),))
        last = reached[-1] if met is None and _turns(margins) else met or 0
        for count in range(1, last + 1):
            if self._meets(direction * count):
                return self._remedy((direction * count,))
        return None

    def _halved(self, direction: int, fails: int, meets: int) -> int:
        """A number of steps that meets where one less does not, between one that fails and one that meets."""
        while meets - fails > 1:
            middle = (fails + meets) // 2
            fails, meets = (fails, middle) if self._meets(direction * middle) else (middle, meets)
        return meets

    def _promising(self, direction: int, counts: tuple[int, ...]) -> bool:
        """Whether any of a few steps, small and large, brings the finding nearer to its limit or to another outcome."""
        for count in counts:
            judged, now = self.judged((direction * count,)), self.finding
            if judged is None:
                continue
            if judged.outcome is not now.outcome or judged.margin is None or now.margin is None:
                return True
            if judged.margin > now.margin + _SAME:
                return True
        return False

    def together(self) -> Remedy | None:
        """The fewest steps of two ways at once, for a check that joins two comparisons. Directions in which not even
        the most steps of both meet are passed over."""
        most = _MOST_TOGETHER
        signs = [
            (one, other)
            for one in self.options[0].directions
            for other in self.options[1].directions
            if any(self._meets(one * far, other * far) for far in (most, most // 2))
        ]
        for first, second in _pairs():
            for one, other in signs:
                if self._meets(one * first, other * second):
                    return self._remedy((one * first, other * second))
        return None

    def value(self, option: ChangeOption, count: int) -> float | None:
        """The value after so many steps of a way; None where that goes too far."""
        value = stepped(option.now, option.step, count) if count else option.now
        # By the rounding of floats, a wall that tapers to nothing can seem thicker than its taper.
        return value if option.least + _SAME < value <= option.most or count == 0 else None

    def _changes(self, counts: tuple[int, ...]) -> Changes | None:
        """Each way with its value; None where one goes too far."""
        found = []
        for option, count in zip(self.options, counts, strict=True):
            value = self.value(option, count)
            if value is None:
                return None
            found.append((option, value))
        return tuple(found)

    def judged(self, counts: tuple[int, ...]) -> Finding | None:
        """The finding with so many steps of each way; None where that cannot be."""
        if counts not in self._tried:
            changes = self._changes(counts)
            context = None if changes is None else self.tester.tried(changes, self._part)
            self._tried[counts] = self.tester.judged(context, self.finding) if context else None
        return self._tried[counts]

    def _meets(self, *counts: int) -> bool:
        judged = self.judged(counts)
        return judged is not None and judged.outcome is Outcome.MEETS

    def _margin(self, count: int) -> float | None:
        judged = self.judged((count,)) if count else self.finding
        return judged.margin if judged else None

    def _remedy(self, counts: tuple[int, ...]) -> Remedy | None:
        """The change of the whole building; None where that cannot be, or does not meet there."""
        changes = self._changes(counts)
        context = None if changes is None else self.tester.tried(changes)
        judged = self.tester.judged(context, self.finding) if context else None
        if changes is None or context is None or judged is None or judged.outcome is not Outcome.MEETS:
            return None
        differences = [one for one in self.tester.touched(changes) if not _same(one, self.finding)]
        return Remedy(
            changes=tuple(option.change(value) for option, value in changes),
            values=tuple(option.given(value) for option, value in changes),
            steps=sum(map(abs, counts)),
            makes_worse=tuple(one for one in differences if one.worse),
            makes_better=tuple(one for one in differences if one.better),
            unjudged=tuple(one for one in differences if one.unjudged and not one.altered),
            volume_change=earth(context.project, context.facts) - self.tester.volume,
            project=context.project,
        )


def _pairs() -> Iterator[tuple[int, int]]:
    """Counts of steps for two ways, fewest in all first."""
    for total in range(2, 2 * _MOST_TOGETHER + 1):
        for first in range(max(1, total - _MOST_TOGETHER), min(_MOST_TOGETHER, total - 1) + 1):
            yield first, total - first


def _joins(tester: ChangeTester, finding: Finding) -> bool:
    """Whether the check joins several comparisons that must all hold."""
    check = tester.rules[finding.rule_set, finding.rule].check
    return check is not None and check.joined == "and" and len(check.comparisons()) > 1


def _rises(margins: list[float | None]) -> bool:
    """Whether every margin is known and none is below the one before."""
    known = [margin for margin in margins if margin is not None]
    return len(known) == len(margins) and all(after >= before for before, after in pairwise(known))


def _turns(margins: list[float | None]) -> bool:
    """Whether the margin rises and falls again between the probes, so that a narrow window may lie between them."""
    known = [margin for margin in margins if margin is not None]
    rises = [after > before for before, after in pairwise(known) if after != before]
    return any(rises) and not all(rises)


def _same(one: Difference, finding: Finding) -> bool:
    judged = one.after or one.before
    return judged is not None and (judged.rule_set, judged.rule, judged.subject) == (
        finding.rule_set, finding.rule, finding.subject
    )  # fmt: skip
