"""Seismic design categories from design accelerations, and how a given category or S_DS agrees with the derived.

ASCE 7 counts a value at a bound to the category above it; the residential code counts it to the one below.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from compliance.facts.common.reference_values import Part, at_least, at_most, need_not_negative
from compliance.findings import Standing
from compliance.record import record
from compliance.steps import Given, Source, Step


@record
class CategoryFound:
    """A category with its lines, or None and what is missing for it."""

    name: str | None
    standing: Standing
    steps: tuple[Step, ...] = ()
    missing: tuple[str, ...] = ()


@record
class CategoryTable:
    """Categories by risk category; `bounds[i]` is the least acceleration of the i-th, itself included."""

    symbol: str
    bounds: tuple[float, ...]
    names: Mapping[str, tuple[str, ...]]
    source: Source

    @classmethod
    def from_part(cls, symbol: str, part: Part, standing: Standing) -> CategoryTable:
        """The table, its source as well known as `standing` says. Raises ReferenceValueError."""
        bounds = part.rising("at_least")
        if bounds[0] != 0.0:
            part.refuse("at_least", "must begin at 0")
        names = {risk: part.texts(risk) for risk in ("I", "II", "III", "IV")}
        for risk, row in names.items():
            if len(row) != len(bounds):
                part.refuse(risk, f"must have {len(bounds)} categories, has {len(row)}")
        return cls(symbol, bounds, names, part.source(standing))

    def at(self, acceleration: float, risk: str) -> str:
        """The category. Raises ValueError for an unknown risk category or an acceleration below zero."""
        need_not_negative(acceleration=acceleration)
        if risk not in self.names:
            raise ValueError(f"risk category must be one of {', '.join(self.names)}, not {risk!r}")
        reached = [place for place, bound in enumerate(self.bounds) if at_least(acceleration, bound)]
        return self.names[risk][reached[-1]]

    def step(self, acceleration: float, risk: str) -> Step:
        given = (
            Given(self.symbol, acceleration, "ratio", "design acceleration"),
            Given("risk category", risk, "word"),
        )
        result = Given("", self.at(acceleration, risk), "word")
        return Step(
            f"Seismic design category by {self.symbol}, risk category {risk}",
            formula="",
            given=given,
            result=result,
            source=self.source,
        )


@record
class AsceCategories:
    """The two tables of ASCE 7 section 11.6 and the rule for sites near a great fault."""

    by_sds: CategoryTable
    by_sd1: CategoryTable
    near_s1: float
    near_names: Mapping[str, str]
    near_source: Source
    order: tuple[str, ...]
    standing: Standing

    @classmethod
    def from_values(cls, values: Mapping[str, object]) -> AsceCategories:
        """From the `values` of a reference file. Raises ReferenceValueError."""
        part = Part(values).part("categories")
        near = part.part("near_fault")
        read = cls(
            by_sds=CategoryTable.from_part("SDS", part.part("by_SDS"), part.standing()),
            by_sd1=CategoryTable.from_part("SD1", part.part("by_SD1"), part.standing()),
            near_s1=near.number("S1_at_least"),
            near_names={risk: near.text(risk) for risk in ("I", "II", "III", "IV")},
            near_source=near.source(part.standing()),
            order=part.texts("order"),
            standing=part.standing(),
        )
        rows = (*read.by_sds.names.values(), *read.by_sd1.names.values(), tuple(read.near_names.values()))
        unordered = {name for row in rows for name in row} - set(read.order)
        if unordered:
            part.refuse("order", f"must hold every category the tables name; {', '.join(sorted(unordered))} is missing")
        return read


def asce_category(
    sds: float | None, sd1: float | None, s1: float | None, risk: str, tables: AsceCategories
) -> CategoryFound:
    """The worse of the categories by S_DS and S_D1; by S1 alone at or above its bound (ASCE 7 section 11.6).

    All three accelerations are needed: none is taken to be harmless. The standard's leave to go by S_DS alone for
    stiff buildings is left to an engineer. Raises ValueError as `CategoryTable.at` does.
    """
    if s1 is not None and at_least(s1, tables.near_s1):
        if risk not in tables.near_names:
            raise ValueError(f"risk category must be one of {', '.join(tables.near_names)}, not {risk!r}")
        name = tables.near_names[risk]
        given = (Given("S1", s1, "ratio", "mapped acceleration"), Given("risk category", risk, "word"))
        says = f"Seismic design category, S1 {tables.near_s1:g} or more, risk category {risk}"
        return CategoryFound(
            name,
            tables.standing,
            (Step(says, formula="", given=given, result=Given("", name, "word"), source=tables.near_source),),
        )
    missing = tuple(symbol for symbol, value in (("SDS", sds), ("SD1", sd1), ("S1", s1)) if value is None)
    if sds is None or sd1 is None or s1 is None:
        return CategoryFound(None, tables.standing, missing=missing)
    need_not_negative(s1=s1)
    first, second = tables.by_sds.step(sds, risk), tables.by_sd1.step(sd1, risk)
    one, other = tables.by_sds.at(sds, risk), tables.by_sd1.at(sd1, risk)
    worse = max(one, other, key=tables.order.index)
    given = (Given("category by SDS", one, "word"), Given("category by SD1", other, "word"))
    last = Step(
        "Seismic design category, the more severe of the two",
        formula="",
        given=given,
        result=Given("", worse, "word"),
        source=tables.near_source,
    )
    return CategoryFound(worse, tables.standing, (first, second, last))


@record
class ResidentialCategories:
    """Categories of one edition of the residential code; `bounds[i]` is the most S_DS of the i-th, itself included."""

    bounds: tuple[float, ...]
    names: tuple[str, ...]
    source: Source
    standing: Standing

    @classmethod
    def from_values(cls, values: Mapping[str, object], edition: str) -> ResidentialCategories:
        """From the `values` of irc-seismic. Raises ReferenceValueError, also for an edition it does not hold."""
        part = Part(values).part(edition)
        bounds, names = part.rising("at_most"), part.texts("categories")
        if len(names) != len(bounds):
            part.refuse("categories", f"must have {len(bounds)} names, has {len(names)}")
        return cls(bounds, (*names, part.text("beyond")), part.source(), part.standing())

    @property
    def order(self) -> tuple[str, ...]:
        return self.names


def residential_category(sds: float | None, table: ResidentialCategories) -> CategoryFound:
    """The category by S_DS alone (IRC Table R301.2.2.1.1). Raises ValueError for an S_DS below zero."""
    if sds is None:
        return CategoryFound(None, table.standing, missing=("SDS",))
    need_not_negative(sds=sds)
    within = [name for bound, name in zip(table.bounds, table.names, strict=False) if at_most(sds, bound)]
    name = within[0] if within else table.names[-1]
    given = (Given("SDS", sds, "ratio", "design acceleration"),)
    step = Step(
        "Seismic design category of the residential code",
        formula="",
        given=given,
        result=Given("", name, "word"),
        source=table.source,
    )
    return CategoryFound(name, table.standing, (step,))


def differing_acceleration(symbol: str, given: float | None, derived: float | None, rounding: float) -> str:
    """One sentence where a given design acceleration is not the derived one; empty where they agree or one lacks.

    `rounding` is the difference, share of g, that rounding for print explains.
    """
    if given is None or derived is None or at_most(abs(given - derived), rounding):
        return ""
    side = "lower" if given < derived else "higher"
    return (
        f"{symbol} is given as {given:.3f}, {side} than the {derived:.3f} that follows from the mapped accelerations "
        f"and the site class. The greater value is used; settle with the building official which one holds."
    )


def differing_category(given: str | None, derived: str | None, order: Sequence[str]) -> str:
    """One sentence where a given category is not the derived one; empty where they agree or one lacks.

    `order` runs from mildest to most severe and belongs to the same tables as `derived`: compare D0, D1 and D2 with
    the residential code's.
    """
    if given is None or derived is None or given == derived:
        return ""
    tail = "The more severe category is used; settle with the building official which one holds."
    if given not in order:
        return (
            f"Seismic design category is given as {given}, which is none of the categories {', '.join(order)} that the "
            f"design accelerations are sorted into; they give {derived}. {tail}"
        )
    side = "milder" if order.index(given) < order.index(derived) else "more severe"
    return (
        f"Seismic design category is given as {given}, {side} than the {derived} that follows from the design "
        f"accelerations. {tail}"
    )
