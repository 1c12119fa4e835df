"""A fact: what follows from the description by computation, with how it was worked out."""

from __future__ import annotations

from dataclasses import field

from compliance.findings import Missing, Standing
from compliance.record import record
from compliance.rules.formulas.equations import Solved
from compliance.steps import Scalar, Step, Worked, no_steps
from compliance.units import Measure

FactValue = Scalar | frozenset[str]
FieldPath = tuple[str | int, ...]
Lacks = FieldPath | Missing
"""A field by its path in the project, or something else that is lacking."""


@record
class Fact:
    """`value` in SI, or a word, or yes/no; None where a field is lacking (`missing` names each by its path in
    the project) or where the fact has no meaning for this subject (`reason` says why). `standing` is that of
    the lowest coefficient it rests on. `beyond` marks a value that lies outside the table it would come from: a rule
    that asks for it is for an engineer."""

    value: FactValue | None
    missing: tuple[Lacks, ...] = ()
    reason: str = ""
    standing: Standing | None = None
    beyond: bool = False
    worked: Worked = field(default=no_steps, compare=False, repr=False)

    @property
    def steps(self) -> tuple[Step, ...]:
        return self.worked()


def known(value: FactValue, worked: Worked = no_steps, standing: Standing | None = None) -> Fact:
    return Fact(value, worked=worked, standing=standing)


def lacking(*lacks: Lacks) -> Fact:
    return Fact(None, missing=lacks)


def without_meaning(reason: str) -> Fact:
    return Fact(None, reason=reason)


def beyond_table(reason: str) -> Fact:
    return Fact(None, reason=reason, beyond=True)


def si(measure: Measure | None) -> float | None:
    """The SI value of a measure the user may have left out."""
    return None if measure is None else measure.si


def stated(value: FactValue | None, *path: str | int) -> Fact:
    """A value as the user wrote it; lacking when they did not."""
    return lacking(path) if value is None else Fact(value)


def solved(value: Solved) -> Fact:
    """The value of an equation, with its line."""
    return Fact(float(value), worked=value.steps)
