"""Laboratory grading: sieve and hydrometer points into shares at given size limits, by dry weight.

Between two measured sizes the share passing is read off a straight line over the logarithm of the size, as on
a grading chart. Beyond the measured sizes nothing is read: the share is None, with the reason.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from itertools import pairwise

from compliance.facts.soil.fractions import (
    CLAY,
    SAND,
    SILT,
    GrainSizes,
    Remark,
    SoilError,
    SoilShares,
    millimetres,
    percent,
)
from compliance.facts.soil.jar_test import JarResult
from compliance.record import record
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step
from compliance.units.sieves import OPENINGS

_LINE = "straight line over the logarithm of the size"


@record
class GradingPoint:
    """A share of the dry weight, 0 to 1, that is finer than `size` m: from a sieve or from a hydrometer reading."""

    size: float
    finer: float

    def __lt__(self, other: GradingPoint) -> bool:
        return (self.size, self.finer) < (other.size, other.finer)


@record
class Graded:
    """What a grading gives. `shares` is None where a limit lies outside the measured sizes; `reasons` say which.

    `finer` holds the share of the whole sample below each limit that could be read, by limit in m.
    """

    shares: SoilShares | None
    finer: Mapping[float, float]
    steps: tuple[Step, ...]
    reasons: tuple[str, ...] = ()


@record
class ChosenShares:
    """The shares to go on with, and what the reader must know of them; None where no test gives any."""

    shares: SoilShares | None
    steps: tuple[Step, ...]
    remarks: tuple[Remark, ...]


def ordered_points(points: Iterable[GradingPoint]) -> tuple[GradingPoint, ...]:
    """Sieve and hydrometer points by rising size. Raises SoilError where they contradict each other."""
    found = sorted(points)
    if not found:
        raise SoilError("the grading has no points")
    for point in found:
        if not (point.size > 0 and math.isfinite(point.size) and 0 <= point.finer <= 1):
            raise SoilError("a grading point needs a size above zero and a share of 0 to 100 % that is finer")
    for low, high in pairwise(found):
        if low.size == high.size:
            raise SoilError(f"the grading gives two shares at {millimetres(low.size)}")
        if low.finer > high.finer:
            raise SoilError(
                f"{percent(low.finer)} are finer than {millimetres(low.size)} but only {percent(high.finer)} are "
                f"finer than {millimetres(high.size)}"
            )
    return tuple(found)


def finer_than(points: tuple[GradingPoint, ...], size: float) -> float | None:
    """Share of the whole sample finer than `size` m; None outside the measured sizes.

    Above a size that everything passes, and below one that nothing passes, the answer is known without reading on.
    """
    if size <= points[0].size:
        at_edge = size == points[0].size or points[0].finer == 0
        return points[0].finer if at_edge else None
    if size > points[-1].size:
        return 1.0 if points[-1].finer == 1 else None
    low, high = next(pair for pair in pairwise(points) if pair[0].size < size <= pair[1].size)
    if size == high.size:
        return high.finer
    return min(float(between_sizes(low.finer, high.finer, size, low.size, high.size)), high.finer)


between_sizes = equation(
    "Finer than the limit", "low + (high - low) * (ln(size / below) / ln(above / below))", Symbol("p", "share"), _LINE,
    low=Symbol("p1", "share", "finer than the size below"), high=Symbol("p2", "share", "finer than the size above"),
    size=Symbol("d", "grain_size", "limit"), below=Symbol("d1", "grain_size", "size below"),
    above=Symbol("d2", "grain_size", "size above"),
)  # fmt: skip

_CLAY, _SILT, _WHOLE = (Symbol(symbol, "share") for symbol in ("pc", "ps", "pf"))

share_of_clay = equation("Clay", "clay / whole", Symbol("", "share"), "", clay=_CLAY, whole=_WHOLE)
share_of_silt = equation(
    "Silt", "(silt - clay) / whole", Symbol("", "share"), "", clay=_CLAY, silt=_SILT, whole=_WHOLE
)  # fmt: skip
share_of_sand = equation("Sand", "(whole - silt) / whole", Symbol("", "share"), "", silt=_SILT, whole=_WHOLE)
share_of_gravel = equation("Gravel", "1 - whole", Symbol("", "share"), "share of the whole sample", whole=_WHOLE)

EQUATIONS = (between_sizes, share_of_clay, share_of_silt, share_of_sand, share_of_gravel)


def graded_shares(points: Iterable[GradingPoint], sizes: GrainSizes) -> Graded:
    """Clay, silt and sand of the fine earth and gravel of the whole, at the limits of `sizes`. Raises SoilError."""
    measured = ordered_points(points)
    limits = [size for size in (sizes.clay, sizes.silt, sizes.fine_sand, sizes.sand) if size is not None]
    read = {size: finer_than(measured, size) for size in limits}
    finer = {size: share for size, share in read.items() if share is not None}
    steps = [_reading_step(measured, size, share) for size, share in finer.items()]
    reasons = tuple(_out_of_reach(measured, size) for size in limits if size not in finer and size != sizes.fine_sand)
    fine_earth = finer.get(sizes.sand)
    if reasons or fine_earth is None:
        return Graded(None, finer, tuple(steps), reasons)
    if fine_earth == 0:
        return Graded(None, finer, tuple(steps), (f"nothing is finer than {millimetres(sizes.sand)}",))
    shares, lines = _shares(finer, fine_earth, sizes)
    return Graded(shares, finer, (*steps, *lines))


def _shares(
    finer: Mapping[float, float], fine_earth: float, sizes: GrainSizes
) -> tuple[SoilShares, tuple[Step, ...]]:  # fmt: skip
    source = f"share of the fine earth, limits of {sizes.system.upper()}"
    clay, silt, whole = (
        Given(symbol, share, "share", f"finer than {millimetres(size)}")
        for symbol, share, size in (("pc", finer[sizes.clay], sizes.clay), ("ps", finer[sizes.silt], sizes.silt),
                                    ("pf", fine_earth, sizes.sand))
    )  # fmt: skip
    lines = (share_of_clay.sourced(source)(clay, whole), share_of_silt.sourced(source)(clay, silt, whole),
             share_of_sand.sourced(source)(silt, whole), share_of_gravel(whole))  # fmt: skip
    split = None if sizes.fine_sand is None else finer.get(sizes.fine_sand)
    shares = SoilShares(
        clay=float(lines[0]),
        silt=float(lines[1]),
        sand=float(lines[2]),
        sizes=sizes.system,
        basis="dry weight",
        fine_sand=None if split is None else (split - finer[sizes.silt]) / fine_earth,
        coarse_sand=None if split is None else (fine_earth - split) / fine_earth,
        gravel=float(lines[3]),
    )
    return shares, tuple(one.step() for one in lines)


def _reading_step(points: tuple[GradingPoint, ...], size: float, share: float) -> Step:
    says, result = f"Finer than {millimetres(size)}", Given("p", share, "share")
    beside = [pair for pair in pairwise(points) if pair[0].size < size < pair[1].size]
    if not beside:
        return Step(says, formula="", given=(), result=result, source="as measured")
    low, high = beside[0]
    return between_sizes.titled(says)(low.finer, high.finer, size, low.size, high.size).step()


def _out_of_reach(points: tuple[GradingPoint, ...], size: float) -> str:
    edge = "smallest" if size < points[0].size else "largest"
    measured = points[0].size if edge == "smallest" else points[-1].size
    return (
        f"the limit of {millimetres(size)} lies beyond the {edge} measured size, {millimetres(measured)}; "
        f"a share is not guessed from outside the measured sizes: add what is finer {_by(size)}"
    )


def _by(size: float) -> str:
    """How a share at a size is measured: by which sieve, or by hydrometer below the finest."""
    number = next((number for number, opening in OPENINGS.items() if math.isclose(float(opening) / 1000, size)), None)
    if number is not None:
        return f"than the sieve No. {number}"
    if size < float(OPENINGS[max(OPENINGS)]) / 1000:
        return f"than {millimetres(size)}, by hydrometer or pipette"
    return f"than a sieve of {millimetres(size)}"


def chosen_shares(graded: Graded | None, jar: JarResult | None) -> ChosenShares:
    """The laboratory grading where it is complete, else the jar; with what the two say of each other."""
    remarks: list[Remark] = []
    if graded is not None and graded.shares is None:
        remarks.append(
            Remark("grading-incomplete", "The laboratory grading is incomplete: " + "; ".join(graded.reasons))
        )
    if graded is not None and graded.shares is not None:
        if jar is not None:
            remarks.append(_jar_beside_grading(graded.shares, jar.shares))
        return ChosenShares(graded.shares, graded.steps, tuple(remarks))
    if jar is not None:
        return ChosenShares(jar.shares, jar.steps, (*remarks, *jar.remarks))
    return ChosenShares(None, (), tuple(remarks))


def _jar_beside_grading(lab: SoilShares, jar: SoilShares) -> Remark:
    pairs = ((CLAY, lab.clay, jar.clay), (SILT, lab.silt, jar.silt), (SAND, lab.sand, jar.sand))
    compared = ", ".join(f"{name} {percent(seen)} against {percent(true)}" for name, true, seen in pairs)
    return Remark("grading-outranks-jar", f"The laboratory grading outranks the jar, which read {compared}.")


def without(weights: Mapping[str, float], left_out: Iterable[str]) -> dict[str, float]:
    """Shares of what is left when some parts are taken out of an analysis, summing to one. Raises SoilError."""
    dropped = set(left_out)
    unknown = dropped - set(weights)
    if unknown:
        raise SoilError(f"the analysis has no part called {', '.join(sorted(unknown))}")
    kept = {name: weight for name, weight in weights.items() if name not in dropped}
    total = math.fsum(kept.values())
    if any(not weight >= 0 for weight in kept.values()) or not total > 0:
        raise SoilError("the parts that are left of the analysis do not weigh anything")
    return {name: weight / total for name, weight in kept.items()}
