"""Trial mixes ranked by how they broke, and a mix compared with the trial it was chosen from."""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.common.reference_values import Part
from compliance.facts.soil.fractions import Values
from compliance.model.materials import Mix
from compliance.model.trials import Trial
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Source, Step

_READINGS: dict[str, tuple[str, str]] = {
    "largest_piece": ("share of the largest piece", "share"),
    "pieces": ("number of pieces", "count"),
    "drop_height": ("height of the drop", "length"),
}
_SAME = 1e-9


@record
class TrialOrder:
    """Which readings rank trials, in turn; True where the highest is best. `note` goes with every ranking."""

    keys: tuple[tuple[str, bool], ...]
    note: str
    unlike_heights: str
    source: str = Source("common practice, no source")

    @classmethod
    def from_values(cls, values: Values) -> TrialOrder:
        """From the values of the trials reference. Raises ReferenceValueError."""
        root = Part(values)
        keys = []
        for one in root.parts("order"):
            if one.text("by") not in _READINGS or one.text("best") not in ("highest", "lowest"):
                one.refuse("by", f"must be one of {', '.join(_READINGS)}, with best: highest or lowest")
            keys.append((one.text("by"), one.text("best") == "highest"))
        return cls(tuple(keys), root.text("note"), root.text("unlike_heights"))

    @property
    def says(self) -> str:
        """The order in words: "share of the largest piece (highest first), then ..."."""
        return ", then ".join(f"{_READINGS[by][0]} ({'highest' if high else 'lowest'} first)" for by, high in self.keys)


@record
class RankedTrial:
    """`rank` counts from 1; trials that are alike in every reading share one. None: no reading to rank it by."""

    mark: str
    rank: int | None
    steps: tuple[Step, ...]


@record
class Ranking:
    """All trials, best first, with what must be said of the ranking."""

    trials: tuple[RankedTrial, ...]
    order: str
    remarks: tuple[str, ...]

    def of(self, mark: str) -> RankedTrial | None:
        return next((one for one in self.trials if one.mark == mark), None)


def ranked_trials(trials: Mapping[str, Trial], order: TrialOrder) -> Ranking:
    """The trials by the stated order; those without any reading come last, unranked."""
    sorting = {mark: _sorting(trial, order) for mark, trial in trials.items()}
    marks = sorted(trials, key=lambda mark: sorting[mark])
    found: list[RankedTrial] = []
    for place, mark in enumerate(marks, start=1):
        rank: int | None = place
        if not any(_reading(trials[mark], by) is not None for by, _ in order.keys):
            rank = None
        elif found and sorting[found[-1].mark] == sorting[mark]:
            rank = found[-1].rank
        found.append(
            RankedTrial(mark, rank, _rank_steps(mark, trial=trials[mark], order=order, rank=rank, count=len(trials)))
        )
    heights = {round(trial.drop_height.si, 6) for trial in trials.values() if trial.drop_height}
    remarks = ([order.note] if trials else []) + ([order.unlike_heights] if len(heights) > 1 else [])
    return Ranking(tuple(found), order.says, tuple(remarks))


def _reading(trial: Trial, by: str) -> float | None:
    if by == "pieces":
        return None if trial.pieces is None else float(trial.pieces)
    measure = trial.largest_piece if by == "largest_piece" else trial.drop_height
    return None if measure is None else measure.si


def _sorting(trial: Trial, order: TrialOrder) -> tuple[float, ...]:
    values = [(_reading(trial, by), high) for by, high in order.keys]
    return tuple(math.inf if value is None else round(-value if high else value, 9) for value, high in values)


def _rank_steps(mark: str, trial: Trial, order: TrialOrder, rank: int | None, count: int) -> tuple[Step, ...]:
    given = tuple(
        Given(_READINGS[by][0], value, _READINGS[by][1])
        for by, _ in order.keys
        if (value := _reading(trial, by)) is not None
    )
    lines = [
        Step(f"Trial {mark}: {one.symbol}", formula="", given=(), result=one, source="as recorded") for one in given
    ]
    if rank is not None:
        says = f"Rank of trial {mark} among {count}, by {order.says}"
        lines.append(Step(says, formula="", given=given, result=Given("", float(rank), "count"), source=order.source))
    return tuple(lines)


@record
class TrialComparison:
    """Does a mix keep the proportions of its trial? `differences` says in words where it does not; `unsaid` names
    what the mix or the trial leaves open, as (section, field)."""

    differences: tuple[str, ...]
    unsaid: tuple[tuple[str, str], ...]
    steps: tuple[Step, ...]


def compare_with_trial(mix: Mix, trial: Trial) -> TrialComparison:
    """Compares parts, kind of straw and dose of straw, each dose for one part of soil and sand together."""
    differences: list[str] = []
    steps: list[Step] = []
    own, tried = _by_total(mix.parts), _by_total(trial.parts)
    for soil in dict.fromkeys((*trial.parts, *mix.parts)):
        one, other = own.get(soil, 0.0), tried.get(soil, 0.0)
        steps.append(_part_step("the mix", soil, mix.parts))
        steps.append(_part_step("its trial", soil, trial.parts))
        if not math.isclose(one, other, rel_tol=_SAME):
            differences.append(f"{soil} is {100 * one:.1f} % of the soil and sand, {100 * other:.1f} % in the trial")
    unsaid = [
        (section, field)
        for section, record in (("mixes", mix), ("trials", trial))
        for field in ("straw", "straw_parts")
        if getattr(record, field) is None and not (field == "straw_parts" and record.straw == "none")
    ]
    if mix.straw and trial.straw and mix.straw != trial.straw:
        differences.append(f"the straw is {mix.straw}, {trial.straw} in the trial")
    if mix.straw_parts and trial.straw_parts:
        dose, tried_dose = (record.straw_parts / sum(record.parts.values()) for record in (mix, trial))  # type: ignore[operator]
        steps.append(Step("Straw of the mix for each part of soil and sand", "", (), Given("", dose, "ratio")))
        steps.append(Step("Straw of its trial for each part of soil and sand", "", (), Given("", tried_dose, "ratio")))
        if not math.isclose(dose, tried_dose, rel_tol=_SAME):
            differences.append(f"the straw is {dose:.3g} of the soil and sand, {tried_dose:.3g} in the trial")
    return TrialComparison(tuple(differences), tuple(unsaid), tuple(steps))


def _by_total(parts: Mapping[str, float]) -> dict[str, float]:
    total = math.fsum(parts.values())
    return {name: part / total for name, part in parts.items()}


share_of_part = equation(
    "Share of a part", "part / total", Symbol("", "share"), "by definition",
    part=Symbol("p"), total=Symbol("P", "ratio", "all parts"),
)  # fmt: skip

EQUATIONS = (share_of_part,)


def _part_step(whose: str, soil: str, parts: Mapping[str, float]) -> Step:
    part = Given("p", parts.get(soil, 0.0), "ratio", f"parts of {soil}")
    return share_of_part.titled(f"Share of {soil} in {whose}").step(part, math.fsum(parts.values()))
