"""What the trial bricks say so far: the best, and which to make next, first the proportions around it, then straw."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from compliance.facts.earth.earth_practice import EarthPractice
from compliance.facts.mixes.trial_ranking import Ranking
from compliance.model.materials import Mix, Soil
from compliance.model.trials import Trial
from compliance.record import record

_SAME = 1e-6
Parts = Mapping[str, float]


@record
class TrialAdvice:
    """`best` are the marks of the best brick, several where they broke alike; `waiting` those not broken yet. `weak`:
    the best kept too little of itself in one piece; None where that is not recorded. `next_parts` are proportions to
    try next, `next_straw` buckets of straw for each bucket of soil and sand to try at the best proportion; both empty
    where the best lies between tried neighbors and all doses of straw were tried."""

    best: tuple[str, ...]
    waiting: tuple[str, ...]
    weak: bool | None
    next_parts: tuple[Parts, ...]
    next_straw: tuple[float, ...]

    @property
    def is_found(self) -> bool:
        return bool(self.best) and not self.weak and not self.next_parts and not self.next_straw


def trial_advice(
    trials: Mapping[str, Trial], ranking: Ranking, soils: Mapping[str, Soil], practice: EarthPractice
) -> TrialAdvice:
    """Only bricks of which it is recorded how they broke count; the height of a drop alone ranks nothing."""
    broken = [one.mark for one in ranking.trials if one.rank is not None and is_broken(trials[one.mark])]
    waiting = tuple(mark for mark, trial in trials.items() if not is_broken(trial))
    if not broken:
        return TrialAdvice((), waiting=waiting, weak=None, next_parts=(), next_straw=())
    first = _rank(ranking, broken[0])
    best = tuple(mark for mark in broken if _rank(ranking, mark) == first)
    kept = trials[best[0]].largest_piece
    like = [trial for trial in trials.values() if _same_materials(trial, trials[best[0]], soils)]
    return TrialAdvice(
        best,
        waiting=waiting,
        weak=None if kept is None else kept.si < practice.weak_below * (1 - _SAME),
        next_parts=_next_parts(trials[best[0]], like, soils, practice.step),
        next_straw=_next_straw(trials[best[0]], like, soils, practice.straw),
    )


def is_broken(trial: Trial) -> bool:
    return trial.pieces is not None or trial.largest_piece is not None


def straw_dose(trial: Trial | Mix) -> float | None:
    """Buckets of straw for each bucket of soil and sand; None where it is not recorded."""
    if trial.straw == "none":
        return 0.0
    return None if trial.straw_parts is None else trial.straw_parts / math.fsum(trial.parts.values())


def _rank(ranking: Ranking, mark: str) -> int | None:
    found = ranking.of(mark)
    return found.rank if found else None


def _split(parts: Parts, soils: Mapping[str, Soil]) -> tuple[dict[str, float], dict[str, float]]:
    """Parts of clay soils and parts of sand and other aggregates, each as shares of their own total."""
    is_soil = {mark: mark not in soils or soils[mark].material == "clay-subsoil" for mark in parts}
    binders = {mark: part for mark, part in parts.items() if is_soil[mark]}
    aggregates = {mark: part for mark, part in parts.items() if not is_soil[mark]}
    return binders, aggregates


def _ratio(parts: Parts, soils: Mapping[str, Soil]) -> float | None:
    """Parts of sand to one of clay soil; None without clay soil."""
    binders, aggregates = _split(parts, soils)
    total = math.fsum(binders.values())
    return math.fsum(aggregates.values()) / total if total else None


def _same_materials(one: Trial, other: Trial, soils: Mapping[str, Soil]) -> bool:
    """The same soils, and where several clay soils or sands are mixed, in the same proportion among themselves."""
    if set(one.parts) != set(other.parts):
        return False
    for mine, theirs in zip(_split(one.parts, soils), _split(other.parts, soils), strict=True):
        total, other_total = math.fsum(mine.values()), math.fsum(theirs.values())
        for mark in mine:
            if not math.isclose(mine[mark] / total, theirs[mark] / other_total, rel_tol=_SAME):
                return False
    return True


def _next_parts(best: Trial, like: Sequence[Trial], soils: Mapping[str, Soil], step: float) -> tuple[Parts, ...]:
    """Halfway to the nearest tried proportion on either side, a step further where none was tried on that side."""
    at = _ratio(best.parts, soils)
    if at is None or not _split(best.parts, soils)[1]:
        return ()
    tried = [ratio for one in like if (ratio := _ratio(one.parts, soils)) is not None]
    below = max((one for one in tried if one < at * (1 - _SAME)), default=None)
    above = min((one for one in tried if one > at * (1 + _SAME)), default=None)
    wanted = []
    if below is None:
        wanted += [at - step] if at - step > _SAME else [at / 2]
    elif at - below > step * (1 + _SAME):
        wanted.append((at + below) / 2)
    if above is None:
        wanted.append(at + step)
    elif above - at > step * (1 + _SAME):
        wanted.append((at + above) / 2)
    return tuple(_of_ratio(best.parts, soils, ratio) for ratio in wanted)


def _of_ratio(parts: Parts, soils: Mapping[str, Soil], ratio: float) -> Parts:
    """The same materials with so many parts of sand to one of clay soil."""
    binders, aggregates = _split(parts, soils)
    one, sand = math.fsum(binders.values()), math.fsum(aggregates.values())
    return {mark: part / one if mark in binders else ratio * part / sand for mark, part in parts.items()}


def _next_straw(
    best: Trial, like: Sequence[Trial], soils: Mapping[str, Soil], doses: Sequence[float]
) -> tuple[float, ...]:
    """The doses of practice that were not tried at the best proportion."""
    at = _ratio(best.parts, soils)
    tried = [
        dose
        for one in like
        if at is not None
        and math.isclose(_ratio(one.parts, soils) or 0.0, at, rel_tol=_SAME)
        and (dose := straw_dose(one)) is not None
    ]
    return tuple(dose for dose in doses if not any(math.isclose(dose, one, rel_tol=0.02) for one in tried))
