"""What a worked-out fact needs: its values gathered with their standing and steps, and all that lacks named at once."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, TypeVar, cast

from compliance.facts.common.coefficients import Coefficient
from compliance.facts.common.fact import Fact, FieldPath, Lacks, known
from compliance.facts.geometry.subjects import Subject
from compliance.findings import Standing, lowest
from compliance.rules.formulas.equations import Solved
from compliance.rules.formulas.symbols import Input
from compliance.steps import Step, Worked

if TYPE_CHECKING:
    from compliance.facts.geometry.building import Building

T = TypeVar("T")


class Needs:
    """Gathers what one fact of `subject` is worked out from.

    A value that lacks comes back as a stand-in (not a number, or None) that must not be used: ask `lacks` before
    computing. `known` gives the fact, or what lacks for it.
    """

    __slots__ = ("_beyond", "_coefficients", "_missing", "_reasons", "_standings", "_used", "subject")

    def __init__(self, subject: Subject) -> None:
        self.subject = subject
        self._used: list[Fact] = []
        self._coefficients: list[Coefficient] = []
        self._missing: list[Lacks] = []
        self._reasons: list[str] = []
        self._standings: set[Standing] = set()
        self._beyond = False

    def number(self, name: str) -> float:
        """A fact of the subject, or of one it looks to, that is a number."""
        return self.number_of(self.subject.fact(name))

    def number_of(self, fact: Fact) -> float:
        """Raises TypeError for a fact that is no number."""
        value = self.of(fact)
        if value is None:
            return math.nan
        if not isinstance(value, float):
            raise TypeError(f"{value!r} is no number")
        return value

    def of(self, fact: Fact) -> object:
        """The value of any fact; None where it lacks."""
        self._used.append(fact)
        if fact.standing:
            self._standings.add(fact.standing)
        if fact.value is None:
            self._missing += fact.missing
            self._reasons += [fact.reason] if fact.reason else []
            self._beyond |= fact.beyond
        return fact.value

    def field(self, value: T | None, *path: str | int) -> T:
        """A field of the project, named by its path where the user left it out."""
        if value is None:
            self._missing.append(path)
        return cast(T, value)

    def use(self, coefficient: Coefficient | None, *path: str | int) -> float:
        """A coefficient; where there is none, the field that must be stated in its place."""
        if coefficient is None:
            self._missing.append(path)
            return math.nan
        self._standings.add(coefficient.standing)
        self._coefficients.append(coefficient)
        return coefficient.value

    def rest_on(self, standing: Standing | None) -> None:
        if standing:
            self._standings.add(standing)

    def lack(self, reason: str, *paths: FieldPath) -> None:
        """No value, for a reason; with `paths`, fields that would give one."""
        self._missing += paths
        self._reasons.append(reason)

    @property
    def lacks(self) -> bool:
        return bool(self._missing or self._reasons)

    @property
    def lacking(self) -> Fact:
        """The fact without a value: every field that is missing, and every reason."""
        missing = tuple(dict.fromkeys(self._missing))
        return Fact(
            None,
            missing=missing,
            reason="; ".join(dict.fromkeys(self._reasons)),
            standing=lowest([*self._standings]),
            beyond=self._beyond,
        )

    def take(self, other: Needs) -> None:
        """All that another gathered, as if it had been gathered here."""
        self._used += other._used
        self._coefficients += other._coefficients
        self._missing += other._missing
        self._reasons += other._reasons
        self._standings |= other._standings
        self._beyond |= other._beyond

    def known(self, value: float | str | bool, worked: Worked) -> Fact:
        """The fact: `worked` are its own steps, before them come those of all that was used."""
        if self.lacks:
            return self.lacking

        def steps() -> tuple[Step, ...]:
            own = worked()
            return (*self.steps, *self._taken(own), *own)

        return known(value, remembered(steps), lowest([*self._standings]))

    def worked(self, *solved: Solved) -> Fact:
        """The fact whose value is that of the last of these equations; each is a line of its own."""
        return self.known(float(solved[-1]), lambda: tuple(one.step() for one in solved))

    def solved(self, equation: Callable[..., Solved], *values: Input, **named: Input) -> Fact:
        """The fact whose value is that of one equation for these numbers; lacking where one of them lacks."""
        return self.lacking if self.lacks else self.worked(equation(*values, **named))

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps of all that was used so far."""
        return tuple(step for fact in self._used for step in fact.steps)

    def _taken(self, own: tuple[Step, ...]) -> Iterator[Step]:
        """A line for each coefficient, but for one that is itself a line of its fact."""
        stated = {(step.result.value, step.source) for step in own if not step.formula}
        for one in self._coefficients:
            if (one.value, one.source) not in stated:
                yield one.step


def once(
    building: Building, need: Needs, key: tuple[str, ...], subject: Subject, work: Callable[[Needs], T]
) -> T | None:
    """What `work` gives, worked out for `subject` once for all facts that ask for it under `key`: `need` takes over
    what it needs. None where something lacks."""

    def worked() -> tuple[T, Needs]:
        own = Needs(subject)
        return work(own), own

    found, own = building.cached(key, worked)
    need.take(own)
    return None if need.lacks else found


def remembered(worked: Callable[[], tuple[Step, ...]]) -> Worked:
    """Steps worked out once and each given once: facts that rest on the same fact share its steps."""
    found: list[tuple[Step, ...]] = []

    def distinct_steps() -> tuple[Step, ...]:
        if not found:
            found.append(tuple(dict.fromkeys(worked())))
        return found[0]

    return distinct_steps
