"""Does one value of a set stand apart from the rest? Grubbs' test; Dixon's is in `compliance.facts.specimens.dixon`.

The answer is a remark. It never removes a value and never changes a governing value: a weak specimen may be a
weak wall. It asks for a second look at that specimen, its making, drying, capping and crushing.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from compliance.facts.specimens.quantiles import student_t_quantile
from compliance.facts.specimens.sample import (
    Sample,
    StatisticError,
    deviation,
    deviation_step,
    mean,
    mean_step,
    ranked,
    sample,
)
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

Side = Literal["lowest", "highest", "either"]
"""Which value is suspect: one chosen before looking, or whichever stands furthest off (a two-sided test)."""

LEAST_COUNT, MOST_COUNT = 3, 1000
LEAST_LEVEL, MOST_LEVEL = 0.001, 0.2
GRUBBS_SOURCE = "Grubbs' test, NIST/SEMATECH e-Handbook 1.3.5.17; critical value computed from Student's t"


@record
class OutlierRemark:
    """What a test for one outlier found. `suspect` counts from 0 in the order the values were given.

    `level` is the chance of calling a value of a sound normal set an outlier. `beyond` is None, and `reason` says
    why, where the set cannot be tested.
    """

    test: str
    side: Side
    level: float
    suspect: int | None = None
    value: float | None = None
    statistic: float | None = None
    critical: float | None = None
    beyond: bool | None = None
    steps: tuple[Step, ...] = ()
    reason: str = ""


def grubbs_critical(count: int, level: float, sides: Literal[1, 2]) -> float:
    """The value Grubbs' G exceeds with chance `level` in a normal set: (n − 1) × t / √(n × (n − 2 + t²)).

    t is Student's t not exceeded with 1 − level / (sides × n), n − 2 degrees of freedom. Source: Grubbs 1969;
    NIST/SEMATECH e-Handbook 1.3.5.17. Raises StatisticError for a number of values or a level out of bounds.
    """
    check_level(level)
    if not LEAST_COUNT <= count <= MOST_COUNT:
        raise StatisticError(f"needs {LEAST_COUNT} to {MOST_COUNT} values, has {count}")
    t = _t_value(count, level, sides)
    return float(critical_value(count, t))


def grubbs(values: Sequence[float], kind: str, level: float, side: Side) -> OutlierRemark:
    """Grubbs' test of one value of a set, SI units of `kind`: G = distance from the mean / standard deviation.

    Raises StatisticError for a level out of bounds or a value that is not finite.
    """
    check_level(level)
    known = sample(values, kind)
    untestable = why_not(known)
    if untestable:
        return OutlierRemark("Grubbs", side, level, reason=untestable)
    m, s = mean(known.values), deviation(known.values)
    low = side == "lowest" or (side == "either" and m - known.lowest >= known.highest - m)
    value = known.lowest if low else known.highest
    statistic = (m - value if low else value - m) / s
    sides: Literal[1, 2] = 2 if side == "either" else 1
    critical = grubbs_critical(known.count, level, sides)
    return OutlierRemark(
        test="Grubbs",
        side=side,
        level=level,
        suspect=list(values).index(value),
        value=value,
        statistic=statistic,
        critical=critical,
        beyond=statistic > critical,
        steps=(*_distance_steps(known, low), *_critical_steps(known.count, level, sides)),
    )


def check_level(level: float) -> None:
    """Raises StatisticError for a level of significance outside 0.001 ... 0.2."""
    if not LEAST_LEVEL <= level <= MOST_LEVEL:
        raise StatisticError(f"a level of significance from {LEAST_LEVEL} to {MOST_LEVEL} is needed, not {level}")


def why_not(known: Sample) -> str:
    """Why a set cannot be tested for outliers; empty where it can."""
    if known.count < LEAST_COUNT:
        return f"needs {LEAST_COUNT} or more values, has {known.count}"
    if known.count > MOST_COUNT:
        return f"tests at most {MOST_COUNT} values, has {known.count}"
    if known.lowest == known.highest:
        return "all values are equal"
    return ""


def _t_value(count: int, level: float, sides: int) -> float:
    return student_t_quantile(1.0 - level / (sides * count), count - 2)


def _distance_steps(known: Sample, low: bool) -> tuple[Step, ...]:
    suspect = ranked(known)[0 if low else -1]
    distance = (distance_below if low else distance_above).naming(suspect=suspect.symbol)
    named = distance.of_kinds(suspect=known.kind, mean=known.kind, deviation=known.kind)
    last = named.step(suspect, mean(known.values), deviation(known.values))
    return mean_step(known), deviation_step(known), last


_SUSPECT, _MEAN = Symbol("x", "stress"), Symbol("m", "stress", "mean")
_DEVIATION = Symbol("s", "stress", "sample standard deviation")
_DISTANCE = Symbol("G", "ratio", "distance from the mean in standard deviations")

distance_below = equation(
    "Distance of the suspect value", "(mean - suspect) / deviation", _DISTANCE, GRUBBS_SOURCE,
    suspect=_SUSPECT, mean=_MEAN, deviation=_DEVIATION,
)  # fmt: skip

distance_above = equation(
    "Distance of the suspect value", "(suspect - mean) / deviation", _DISTANCE, GRUBBS_SOURCE,
    suspect=_SUSPECT, mean=_MEAN, deviation=_DEVIATION,
)  # fmt: skip

critical_value = equation(
    "Critical value", "(count - 1) * t / sqrt(count * (count - 2 + t * t))", Symbol("Gc", "ratio", "critical value"),
    GRUBBS_SOURCE, count=Symbol("n", "count", "number of values"), t=Symbol("t", "ratio", "Student's t value"),
)  # fmt: skip

EQUATIONS = (distance_below, distance_above, critical_value)


def _critical_steps(count: int, level: float, sides: int) -> tuple[Step, ...]:
    n, a = Given("n", float(count), "count", "number of values"), Given("a", level, "ratio", "level of significance")
    t = Given("t", _t_value(count, level, sides), "ratio", "Student's t value")
    share = "a / n" if sides == 1 else "a / (2 × n)"
    return (
        Step("Student's t value", formula=f"t(1 − {share}; n − 2)", given=(a, n), result=t, source=GRUBBS_SOURCE),
        critical_value.step(count, t),
    )
