"""Dixon's test of one suspect value: the gap to its neighbour against the range of the set (ratio r10).

The critical values are a printed table, read from the rule sets' reference data and handed in.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from compliance.facts.specimens.outliers import OutlierRemark, Side, check_level, why_not
from compliance.facts.specimens.sample import Sample, StatisticError, ranked, sample
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step


@record
class DixonTable:
    """Two-sided critical values of r10: for each number of values one row, in the order of `levels`."""

    levels: tuple[float, ...]
    rows: Mapping[int, tuple[float, ...]]
    source: str

    def critical(self, count: int, level: float, side: Side) -> float | None:
        """The critical value; None for a number of values the table does not hold.

        A side chosen beforehand at `level` uses the two-sided column of twice that level. Raises StatisticError
        where the table has no such column; nothing is interpolated.
        """
        wanted = level if side == "either" else 2.0 * level
        for column, printed in enumerate(self.levels):
            if math.isclose(printed, wanted, rel_tol=1e-9):
                return self.rows[count][column] if count in self.rows else None
        held = ", ".join(f"{printed:g}" for printed in self.levels)
        raise StatisticError(f"the table of critical values has no two-sided level {wanted:g}; it has: {held}")


def dixon_table(data: Mapping[str, object]) -> DixonTable:
    """The table from its data: `sides`, `source`, `levels` and `rows` of `n` and `critical`.

    Raises StatisticError for data that is not such a table.
    """
    levels, rows = data.get("levels"), data.get("rows")
    if data.get("sides") != 2 or not isinstance(levels, list) or not isinstance(rows, list):
        raise StatisticError("a table of Dixon's ratio needs sides: 2, a list of levels and a list of rows")
    known: dict[int, tuple[float, ...]] = {}
    for row in rows:
        count, critical = (row.get("n"), row.get("critical")) if isinstance(row, dict) else (None, None)
        if not isinstance(count, int) or not isinstance(critical, list) or len(critical) != len(levels):
            raise StatisticError(f"a row of Dixon's table needs n and {len(levels)} critical values, not {row}")
        if count in known:
            raise StatisticError(f"Dixon's table has two rows for {count} values")
        known[count] = tuple(map(_ratio, critical))
    return DixonTable(tuple(map(_ratio, levels)), known, str(data.get("source", "")))


def dixon(values: Sequence[float], kind: str, level: float, side: Side, table: DixonTable) -> OutlierRemark:
    """Dixon's test of one value of a set, SI units of `kind`: Q = gap to the next value / range.

    Raises StatisticError for a level out of bounds or not in the table, or a value that is not finite.
    """
    check_level(level)
    known = sample(values, kind)
    critical = table.critical(known.count, level, side)
    untestable = why_not(known)
    if not untestable and critical is None:
        untestable = f"the table of critical values has no row for {known.count} values"
    if untestable or critical is None:
        return OutlierRemark("Dixon r10", side, level, reason=untestable)
    below, above = known.values[1] - known.lowest, known.highest - known.values[-2]
    low = side == "lowest" or (side == "either" and below >= above)
    value = known.lowest if low else known.highest
    statistic = (below if low else above) / (known.highest - known.lowest)
    return OutlierRemark(
        test="Dixon r10",
        side=side,
        level=level,
        suspect=list(values).index(value),
        value=value,
        statistic=statistic,
        critical=critical,
        beyond=statistic > critical,
        steps=_steps(known, low, critical, table.source),
    )


def _steps(known: Sample, low: bool, critical: float, source: str) -> tuple[Step, ...]:
    values = ranked(known)
    first, last = values[0], values[-1]
    near = values[1] if low else values[-2]
    named = (gap_below if low else gap_above).sourced(source).naming(near=near.symbol, last=last.symbol)
    n = Given("n", float(known.count), "count", "number of values")
    return (
        named.of_kinds(first=known.kind, near=known.kind, last=known.kind).step(first, near, last),
        Step(
            "Critical value, from the table",
            formula="",
            given=(n,),
            result=Given("Qc", critical, "ratio", "critical value"),
            source=source,
        ),
    )


_FIRST, _NEAR, _LAST = (Symbol(symbol, "stress") for symbol in ("x₁", "x₂", "x₃"))
_GAP = Symbol("Q", "ratio", "gap over range")

gap_below = equation(
    "Gap over range", "(near - first) / (last - first)", _GAP, "", first=_FIRST, near=_NEAR, last=_LAST
)  # fmt: skip
gap_above = equation(
    "Gap over range", "(last - near) / (last - first)", _GAP, "", first=_FIRST, near=_NEAR, last=_LAST
)  # fmt: skip

EQUATIONS = (gap_below, gap_above)


def _ratio(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0.0 < value < 1.0:
        raise StatisticError(f"a level or critical value of Dixon's table lies between 0 and 1, not {value}")
    return float(value)
