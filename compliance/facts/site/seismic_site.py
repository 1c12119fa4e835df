"""Ground motion of a site: site coefficients Fa and Fv, design accelerations S_DS and S_D1.

Accelerations are shares of g, plain numbers. Tables and bounds come from the reference files asce7-10-seismic and
asce7-16-seismic. What a table leaves to a study of the site stays without a value here.
"""

from __future__ import annotations

from collections.abc import Mapping

from compliance.facts.common.reference_values import Part, at_least, need_not_negative
from compliance.findings import Standing, lowest
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Numeral, Symbol
from compliance.steps import Given, Source, Step

SITE_STUDY = "site study"

_Ends = tuple[tuple[float, float], tuple[float, float]]


@record
class CoefficientTable:
    """Fa or Fv by site class over Ss or S1. A cell that is None is left to a study of the site."""

    symbol: str
    acceleration: str
    columns: tuple[float, ...]
    rows: Mapping[str, tuple[float | None, ...]]
    source: Source
    standing: Standing

    @classmethod
    def from_part(cls, symbol: str, part: Part) -> CoefficientTable:
        """Raises ReferenceValueError."""
        columns = part.rising("columns")
        rows = part.part("rows")
        read = {name: rows.cells(name, len(columns), SITE_STUDY) for name in rows}
        return cls(
            symbol,
            acceleration=part.text("acceleration"),
            columns=columns,
            rows=read,
            source=part.source(),
            standing=part.standing(),
        )

    def at(self, site_class: str, acceleration: float) -> float | None:
        """The coefficient, straight between columns and flat beyond the ends; None where the table has none.

        Raises ValueError for a class the table does not know, or an acceleration below zero.
        """
        ends = self._ends(site_class, acceleration)
        return None if ends is None else _between(ends, acceleration)

    def step(self, site_class: str, acceleration: float) -> Step | None:
        """How `at` finds its value; None where it finds none. Raises ValueError as `at` does."""
        ends = self._ends(site_class, acceleration)
        if ends is None:
            return None
        f, s = self.symbol, self.acceleration
        says = f"Site coefficient from the table, site class {site_class}"
        mapped = Given(s, acceleration, "ratio", "mapped acceleration, share of g")
        if ends[0] == ends[1]:
            return Step(says, formula="", given=(mapped,), result=Given(f, ends[0][1], "ratio"), source=self.source)
        beside = [
            Given(letter, value, "ratio", meaning)
            for column, cell in ends
            for letter, value, meaning in (("x", column, f"{s} of the column"), ("y", cell, f"{f} in that column"))
        ]
        named = between_columns.titled(says).giving(f).sourced(self.source).naming(acceleration=s)
        return named(mapped, *beside).step()

    def _ends(self, site_class: str, acceleration: float) -> _Ends | None:
        """The columns on either side with their values, the same twice at a column or beyond the ends."""
        need_not_negative(acceleration=acceleration)
        if site_class not in self.rows:
            raise ValueError(f"site class must be one of {', '.join(self.rows)}, not {site_class!r}")
        row = self.rows[site_class]
        low, high = self._columns_about(acceleration)
        below, above = row[low], row[high]
        if below is None or above is None:
            return None
        return (self.columns[low], below), (self.columns[high], above)

    def _columns_about(self, acceleration: float) -> tuple[int, int]:
        for place, column in enumerate(self.columns):
            if at_least(acceleration, column) and at_least(column, acceleration):
                return place, place
            if acceleration < column:
                return (place - 1, place) if place else (0, 0)
        return len(self.columns) - 1, len(self.columns) - 1


between_columns = equation(
    "Between two columns of a table", "low + (high - low) * (acceleration - left) / (right - left)", Symbol("F"), "",
    acceleration=Symbol("S"), left=Symbol("x1"), low=Symbol("y1"), right=Symbol("x2"), high=Symbol("y2"),
)  # fmt: skip

least_coefficient = equation(
    "Not less than the value for a class without measurements", "max(found, least)", Symbol("F"), "",
    found=Symbol("F", "ratio", "from the table"), least=Symbol("Fleast", "ratio", "least, not measured"),
)  # fmt: skip

site_acceleration = equation(
    "Acceleration for the site class", "coefficient * acceleration", Symbol("SM"), "",
    coefficient=Symbol("F", "ratio", "site coefficient"), acceleration=Symbol("S", "ratio", "mapped acceleration"),
)  # fmt: skip

design_acceleration = equation(
    "Design acceleration", "times * mapped / over", Symbol("SD"), "",
    times=Numeral(), mapped=Symbol("SM"), over=Numeral(),
)  # fmt: skip

EQUATIONS = (between_columns, least_coefficient, site_acceleration, design_acceleration)


def _between(ends: _Ends, acceleration: float) -> float:
    (left, low), (right, high) = ends
    return low if left == right else float(between_columns(acceleration, left, low, right, high))


@record
class StudyRequired:
    """Where the standard asks for ground motions from a study of the site."""

    site_class: str
    acceleration: str
    at_least: float
    says: str


@record
class SiteTables:
    """What one edition needs to go from mapped to design accelerations. `least` is by site class and symbol."""

    fa: CoefficientTable
    fv: CoefficientTable
    default_class: str
    default_clause: str
    times: float
    over: float
    design_clause: str
    least: Mapping[str, Mapping[str, float]]
    least_sources: Mapping[str, Source]
    studies: tuple[StudyRequired, ...]
    long_above_short: str = ""

    @classmethod
    def from_values(cls, values: Mapping[str, object]) -> SiteTables:
        """From the `values` of a reference file. Raises ReferenceValueError."""
        part = Part(values)
        design, least = part.part("design"), part.part("least_where_not_measured")
        return cls(
            fa=CoefficientTable.from_part("Fa", part.part("Fa")),
            fv=CoefficientTable.from_part("Fv", part.part("Fv")),
            default_class=part.text("default_class"),
            default_clause=part.text("default_clause"),
            times=design.number("times"),
            over=design.number("over"),
            design_clause=design.text("clause"),
            least={name: _least(least.part(name)) for name in least},
            least_sources={name: least.part(name).source(part.part("Fa").standing()) for name in least},
            studies=tuple(_study(item) for item in part.parts("site_studies")),
            long_above_short=part.text("SM1_above_SMS") if "SM1_above_SMS" in part else "",
        )

    @property
    def standing(self) -> Standing:
        return lowest([self.fa.standing, self.fv.standing]) or Standing.OPEN


def _least(part: Part) -> dict[str, float]:
    return {symbol: part.number(symbol) for symbol in ("Fa", "Fv") if symbol in part}


def _study(part: Part) -> StudyRequired:
    return StudyRequired(part.text("site_class"), part.text("acceleration"), part.number("at_least"), part.text("says"))


@record
class GroundMotion:
    """Coefficients and accelerations of a site, each None where `missing` says why. `remarks` are for readers."""

    site_class: str
    fa: float | None
    fv: float | None
    sms: float | None
    sm1: float | None
    sds: float | None
    sd1: float | None
    standing: Standing
    remarks: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    steps: tuple[Step, ...] = ()
    studies: tuple[str, ...] = ()


def ground_motion(ss: float, s1: float, site_class: str | None, measured: bool, tables: SiteTables) -> GroundMotion:
    """S_MS = Fa Ss, S_M1 = Fv S1, S_DS = 2/3 S_MS, S_D1 = 2/3 S_M1 (ASCE 7 section 11.4).

    `measured` says that the site class rests on the soil measurements the standard calls for. Without a class, the
    default class of the edition stands in, as one not measured. Raises ValueError as `CoefficientTable.at` does.
    """
    need_not_negative(ss=ss, s1=s1)
    named = site_class or tables.default_class
    known = measured and site_class is not None
    remarks = [] if site_class else [f"Site class not given: class {named} taken ({tables.default_clause})."]
    short = _part_motion(
        tables.fa, mapped="SMS", design="SDS", acceleration=ss, named=named, known=known, tables=tables
    )
    long = _part_motion(tables.fv, mapped="SM1", design="SD1", acceleration=s1, named=named, known=known, tables=tables)
    accelerations, studies = {"Ss": ss, "S1": s1}, []
    for study in tables.studies:
        if study.site_class == named and at_least(accelerations[study.acceleration], study.at_least):
            studies.append(study.says)
    remarks += studies
    if short.mapped is not None and long.mapped is not None and long.mapped > short.mapped and tables.long_above_short:
        remarks.append(tables.long_above_short)
        studies.append(tables.long_above_short)
    return GroundMotion(
        site_class=named,
        fa=short.coefficient,
        fv=long.coefficient,
        sms=short.mapped,
        sm1=long.mapped,
        sds=short.design,
        sd1=long.design,
        standing=tables.standing,
        remarks=tuple(remarks),
        missing=tuple(reason for reason in (short.missing, long.missing) if reason),
        steps=short.steps + long.steps,
        studies=tuple(studies),
    )


@record
class _PartMotion:
    coefficient: float | None = None
    mapped: float | None = None
    design: float | None = None
    missing: str = ""
    steps: tuple[Step, ...] = ()


def _part_motion(
    table: CoefficientTable, mapped: str, design: str, acceleration: float, named: str, known: bool, tables: SiteTables
) -> _PartMotion:
    """One of the two periods, from the table to the design acceleration."""
    first = table.step(named, acceleration)
    found = table.at(named, acceleration)
    if first is None or found is None:
        where = f"site class {named} with {table.acceleration} {acceleration:g}"
        return _PartMotion(missing=f"{table.symbol} for {where} needs a site study: the table has no value for it")
    steps = [first]
    least = 0.0 if known else tables.least.get(named, {}).get(table.symbol, 0.0)
    coefficient: float = found
    if least > found:
        says = f"Not less than the value for class {named} without measurements"
        raised = least_coefficient.titled(says).giving(table.symbol).sourced(tables.least_sources[named])(found, least)
        steps.append(raised.step())
        coefficient = raised
    of_site = site_acceleration.giving(mapped).naming(coefficient=table.symbol, acceleration=table.acceleration)
    site = of_site.sourced(table.source)(coefficient, acceleration)
    value = (
        design_acceleration.giving(design)
        .naming(mapped=mapped)
        .sourced(tables.design_clause)(tables.times, site, tables.over)
    )
    return _PartMotion(
        float(coefficient),
        mapped=float(site),
        design=float(value),
        missing="",
        steps=(*steps, site.step(), value.step()),
    )
