"""The statistics a rule set can choose for a set of test specimens, each by name and with its parameters.

`STATISTICS` is the list of them. `govern` applies one. A rule that asks for a mean with a floor under each single
value is two checks, one on `mean` and one on `lowest`. How many specimens a rule wants is for the rule to say: the
least number here is only what the arithmetic needs.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from compliance.facts.specimens import governing
from compliance.facts.specimens.governing import Governed, Parameters, Work
from compliance.facts.specimens.sample import StatisticError, sample
from compliance.record import record


@record
class Parameter:
    """A number a statistic takes: its bounds, both allowed, and whether it must be whole or may be left out."""

    name: str
    meaning: str
    least: float
    most: float
    whole: bool = False
    optional: bool = False


@record
class Statistic:
    """A way to draw one number from a set: what it is called and needs, and how it is worked out."""

    name: str
    meaning: str
    work: Work
    parameters: tuple[Parameter, ...] = ()
    least_count: int = 1


_MOST_SPECIMENS = 1000
_RANK = Parameter("k", "rank, 1 the lowest", 1, _MOST_SPECIMENS, whole=True)
_RANKED_OF = Parameter("of", "least number of values to rank", 1, _MOST_SPECIMENS, whole=True, optional=True)
_BEST = Parameter("k", "how many of the highest values count", 1, _MOST_SPECIMENS, whole=True)
_BEST_OF = Parameter("of", "exact number of values", 1, _MOST_SPECIMENS, whole=True)
_WEIGHT = Parameter("factor", "weight of the coefficient of variation", 0, 10)
_SHARE = Parameter("share", "share of the population, or probability, above the limit", 0.5, 0.999)
_CONFIDENCE = Parameter("confidence", "confidence of the statement", 0.5, 0.999)
_VARIATION = Parameter("variation", "coefficient of variation known beforehand", 0.01, 1)

_ALL = (
    Statistic("lowest", "lowest single value", governing.lowest),
    Statistic("highest", "highest single value, the worst of a shrinkage", governing.highest),
    Statistic("kth-lowest", "k-th lowest value", governing.kth_lowest, (_RANK, _RANKED_OF)),
    Statistic("mean", "mean of all values", governing.mean_of_all),
    Statistic("mean-of-best", "mean of the k highest of a set number", governing.mean_of_best, (_BEST, _BEST_OF)),
    Statistic(
        "lowest-reduced-by-scatter",
        "lowest value times one less the weighted coefficient of variation, not below zero",
        governing.lowest_reduced_by_scatter,
        (_WEIGHT,),
        least_count=2,
    ),
    Statistic(
        "lower-fractile",
        "value above which a share of a normal population lies, with a confidence",
        governing.lower_fractile,
        (_SHARE, _CONFIDENCE),
        least_count=2,
    ),
    Statistic(
        "lower-fractile-lognormal",
        "value above which a share of a lognormal population lies, with a confidence",
        governing.lower_fractile_lognormal,
        (_SHARE, _CONFIDENCE),
        least_count=2,
    ),
    # The table this follows prints no factor for fewer than three values of unknown scatter.
    Statistic(
        "prediction",
        "value one further test of a normal population exceeds, with a probability",
        governing.prediction,
        (_SHARE,),
        least_count=3,
    ),
    Statistic(
        "prediction-lognormal",
        "value one further test of a lognormal population exceeds, with a probability",
        governing.prediction_lognormal,
        (_SHARE,),
        least_count=3,
    ),
    Statistic(
        "prediction-known-scatter",
        "value one further test exceeds, with a probability, the scatter known beforehand",
        governing.prediction_known_scatter,
        (_SHARE, _VARIATION),
    ),
)

STATISTICS: dict[str, Statistic] = {statistic.name: statistic for statistic in _ALL}


def govern(values: Sequence[float], kind: str, statistic: str, parameters: Parameters) -> Governed:
    """The governing value of a set of test values, SI units of `kind`, with every line that leads to it.

    Gives None and a reason where the set is too small or its values do not allow the statistic. Raises
    StatisticError for an unknown statistic, a parameter that is unknown, missing or out of bounds, or a value that
    is not finite.
    """
    chosen = _find(statistic)
    checked = check_parameters(statistic, parameters)
    known = sample(values, kind)
    if known.count < chosen.least_count:
        return Governed(None, reason=f"needs {chosen.least_count} or more values, has {known.count}")
    return chosen.work(known, checked)


def check_parameters(statistic: str, parameters: Mapping[str, float]) -> dict[str, float]:
    """The parameters of a statistic, checked; whole ones still floats. Raises StatisticError as `govern` does."""
    known = {parameter.name: parameter for parameter in _find(statistic).parameters}
    for name in parameters:
        if name not in known:
            takes = ", ".join(known) or "none"
            raise StatisticError(f'"{statistic}" has no parameter "{name}"; it takes: {takes}')
    for parameter in known.values():
        if parameter.name in parameters:
            _check_bounds(statistic, parameter, parameters[parameter.name])
        elif not parameter.optional:
            raise StatisticError(f'"{statistic}" needs "{parameter.name}" ({parameter.meaning})')
    checked = {name: float(value) for name, value in parameters.items()}
    if "of" in checked and checked["k"] > checked["of"]:
        raise StatisticError(f'"{statistic}": k is {checked["k"]:g}, more than the {checked["of"]:g} it is taken of')
    return checked


def _find(statistic: str) -> Statistic:
    if statistic not in STATISTICS:
        raise StatisticError(f'there is no statistic "{statistic}"; there are: {", ".join(STATISTICS)}')
    return STATISTICS[statistic]


def _check_bounds(statistic: str, parameter: Parameter, value: float) -> None:
    bounds = f"from {parameter.least:g} to {parameter.most:g}"
    if isinstance(value, bool) or not math.isfinite(value) or not parameter.least <= value <= parameter.most:
        raise StatisticError(f'"{statistic}": "{parameter.name}" must be a number {bounds}, not {value}')
    if parameter.whole and value != int(value):
        raise StatisticError(f'"{statistic}": "{parameter.name}" must be a whole number {bounds}, not {value:g}')
