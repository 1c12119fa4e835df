"""Blending materials towards a target: the exact parts, the best count of whole or half buckets, what is lacking."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from compliance.facts.mixes.blend_target import Material, Target
from compliance.facts.mixes.least_squares import nearest_blend
from compliance.facts.mixes.weighted_mean import weighted_mean
from compliance.facts.soil.fractions import COARSE_SAND, FINE_SAND, SAND, SILT, Remark, SoilError, percent
from compliance.record import record, replace
from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Step

MOST_COUNTS = 200_000
_SAME = 1e-12


@record
class Blend:
    """A blend beside its target.

    `parts` are by loose volume, in buckets or summing to one. `shares` are those of the blend and `gaps` what is too
    much (above zero) or too little, by component and by unwanted fraction. `distance` is the root of the sum of the
    squared gaps, so no single gap is larger. `lacking` and `surplus` are what keeps a blend from its target.
    """

    parts: Mapping[str, float]
    shares: Mapping[str, float]
    gaps: Mapping[str, float]
    distance: float
    reached: bool
    says: str
    lacking: tuple[str, ...] = ()
    surplus: tuple[str, ...] = ()
    remarks: tuple[Remark, ...] = ()
    steps: tuple[Step, ...] = ()


def blend_of(materials: Sequence[Material], parts: Sequence[float], target: Target) -> Blend:
    """What `parts` by loose volume of `materials` become, beside the target. Raises SoilError."""
    _refuse_unfit(materials, target)
    if len(parts) != len(materials) or any(not part >= 0 for part in parts) or not math.fsum(parts) > 0:
        raise SoilError("a blend needs one part for each material, none below zero and not all zero")
    names, points, aim = _rows(materials, target)
    weights = [part * density for part, density in zip(parts, _densities(materials), strict=True)]
    shares = _mixed(points, weights)
    gaps = [share - goal for share, goal in zip(shares, aim, strict=True)]
    distance = math.hypot(*gaps)
    reached = distance <= target.tolerance or math.isclose(distance, target.tolerance, rel_tol=1e-9)
    stands = f"{'within' if reached else 'outside'} the tolerance of {percent(target.tolerance)}"
    surplus = () if reached else _surplus(names, shares, aim)
    much = _in_surplus(surplus, names, shares, aim)
    says = f"The blend is {_apart(distance, target)} from the target, {stands}.{much}"
    return Blend(
        {material.name: part for material, part in zip(materials, parts, strict=True)},
        shares=dict(zip(names, shares, strict=True)),
        gaps=dict(zip(names, gaps, strict=True)),
        distance=distance,
        reached=reached,
        says=says,
        remarks=_remarks(materials, names[len(target.components) :], surplus),
        surplus=surplus,
        steps=_steps(materials, parts=parts, target=target, names=names, points=points, aim=aim, shares=shares),
    )


def best_blend(materials: Sequence[Material], target: Target) -> Blend:
    """The parts, summing to one, that come nearest to the target; says plainly when no blend reaches it."""
    _refuse_unfit(materials, target)
    names, points, aim = _rows(materials, target)
    by_weight = [float(weight) for weight in nearest_blend(points, aim)]
    volumes = [weight / density for weight, density in zip(by_weight, _densities(materials), strict=True)]
    blend = blend_of(materials, [volume / math.fsum(volumes) for volume in volumes], target)
    if blend.reached:
        return blend
    shares = list(blend.shares.values())
    lacking = _lacking(names[: len(target.components)], shares, aim)
    hints = "; ".join(f"{name} ({_hint(target, name)})" for name in lacking)
    much = _in_surplus(blend.surplus, list(blend.shares), shares, aim)
    says = (
        f"No blend of these materials reaches the target: the nearest is {_apart(blend.distance, target)} from it, "
        f"outside the tolerance of {percent(target.tolerance)}. Lacking: {hints}.{much}"
    )
    return replace(blend, says=says, lacking=lacking)


def best_buckets(materials: Sequence[Material], target: Target, most: int, halves: bool = False) -> Blend:
    """The count of whole or half buckets, up to `most` buckets in all, that comes nearest to the target.

    Every count is tried. Of equally near counts the one with fewest buckets is taken, then the one with more of the
    materials that stand first. Raises SoilError where there would be more than MOST_COUNTS counts to try.
    """
    exact = best_blend(materials, target)
    units = most * (2 if halves else 1)
    if units < 1:
        raise SoilError("a blend in buckets needs at least one bucket")
    if math.comb(units + len(materials), len(materials)) > MOST_COUNTS:
        raise SoilError("too many counts to try: state fewer buckets, whole buckets, or fewer materials")
    _, points, aim = _rows(materials, target)
    densities = _densities(materials)
    best: tuple[int, ...] = ()
    least = math.inf
    for counts in _counts(units, len(materials)):
        weights = [count * density for count, density in zip(counts, densities, strict=True)]
        distance = math.dist(_mixed(points, weights), aim)
        if distance < least - _SAME:
            best, least = counts, distance
    blend = blend_of(materials, [count / (2 if halves else 1) for count in best], target)
    if blend.reached:
        return blend
    if not exact.reached:
        return replace(blend, says=exact.says, lacking=exact.lacking)
    size, more = ("half or whole", "more buckets") if halves else ("whole", "more buckets or half buckets")
    says = (
        f"The exact parts reach the target, but no count of up to {most} {size} buckets does: the nearest is "
        f"{_apart(blend.distance, target)} from it, outside the tolerance of {percent(target.tolerance)}. Allow {more}."
    )
    return replace(blend, says=says)


def _counts(units: int, materials: int) -> Iterator[tuple[int, ...]]:
    """Every count with a total of 1 to `units`: small totals first, then more of the first material first."""
    for total in range(1, units + 1):
        yield from _splits(total, materials)


def _splits(total: int, materials: int) -> Iterator[tuple[int, ...]]:
    if materials == 1:
        yield (total,)
        return
    for first in range(total, -1, -1):
        for rest in _splits(total - first, materials - 1):
            yield (first, *rest)


def _apart(distance: float, target: Target) -> str:
    """The distance, with more digits where it would read the same as the tolerance it misses."""
    written = percent(distance)
    return f"{100 * distance:.4f} %" if written == percent(target.tolerance) else written


def _refuse_unfit(materials: Sequence[Material], target: Target) -> None:
    if not materials:
        raise SoilError("a blend needs at least one material")
    names = [material.name for material in materials]
    if len(set(names)) != len(names):
        raise SoilError("two materials of the blend have the same name")
    targeted = {fraction for component in target.components for fraction in component.of}
    whole = [material.name for material in materials if material.shares.get(SAND, 0) > 0]
    if whole and SAND not in targeted and targeted & {COARSE_SAND, FINE_SAND}:
        raise SoilError(
            f"the target tells coarse sand from fine sand, but the shares of {', '.join(whole)} do not: "
            "give them apart or choose a target that takes sand whole"
        )
    unknown = [one.name for one in materials if _needs_density(one)] if target.by == "volume" else []
    if unknown:
        raise SoilError(
            f"its parts are by volume, and the shares of {', '.join(unknown)} are by dry weight: state their loose "
            "bulk density, or a jar test, whose shares are by volume"
        )


def _needs_density(material: Material) -> bool:
    """Shares by weight of several fractions: what a bucket holds of each by volume is not known. A material of one
    fraction is all of it either way."""
    several = sum(share > 0 for share in material.shares.values()) > 1
    return several and material.by == "dry weight" and material.bulk_density is None


def _rows(materials: Sequence[Material], target: Target) -> tuple[list[str], list[list[float]], list[float]]:
    """Names of the components and unwanted fractions, the shares of each material in them, and the target's shares."""
    groups = [component.of for component in target.components]
    targeted = {fraction for group in groups for fraction in group}
    unwanted = dict.fromkeys(name for one in materials for name in one.shares if name not in targeted)
    groups += [(name,) for name in unwanted]
    points = [[math.fsum(one.shares.get(name, 0.0) for name in group) for group in groups] for one in materials]
    aim = [component.share for component in target.components] + [0.0] * len(unwanted)
    return [component.name for component in target.components] + list(unwanted), points, aim


def _by_weight(materials: Sequence[Material]) -> bool:
    return all(material.by == "dry weight" and material.bulk_density is not None for material in materials)


def _densities(materials: Sequence[Material]) -> list[float]:
    """What a bucket counts for: its weight where every share is by weight and every bulk density known, else one."""
    if not _by_weight(materials):
        return [1.0] * len(materials)
    return [material.bulk_density or 1.0 for material in materials]


def _mixed(points: Sequence[Sequence[float]], weights: Sequence[float]) -> list[float]:
    total = sum(weights)
    return [
        sum(w * point[row] for w, point in zip(weights, points, strict=True)) / total for row in range(len(points[0]))
    ]


def _lacking(names: Sequence[str], shares: Sequence[float], aim: Sequence[float]) -> tuple[str, ...]:
    """Components of which a pure material would bring the nearest blend nearer still, the most helpful first.

    Moving from blend b towards a pure component e helps where (target − b) · (e − b) > 0; those that help at least half
    as much as the best are named.
    """
    short = [goal - share for goal, share in zip(aim, shares, strict=True)]
    along = sum(gap * share for gap, share in zip(short, shares, strict=True))
    helps = {name: gap - along for name, gap in zip(names, short, strict=False) if gap > 0}
    most = max(helps.values())
    return tuple(sorted((name for name in helps if helps[name] >= most / 2), key=lambda name: -helps[name]))


def _surplus(names: Sequence[str], shares: Sequence[float], aim: Sequence[float]) -> tuple[str, ...]:
    """Components and unwanted fractions of which there is too much, the most first; those that are at least half as
    much over as the first."""
    over = {name: share - goal for name, share, goal in zip(names, shares, aim, strict=True) if share > goal}
    most = max(over.values(), default=0.0)
    return tuple(sorted((name for name in over if over[name] >= most / 2), key=lambda name: -over[name]))


def _in_surplus(
    surplus: Sequence[str], names: Sequence[str], shares: Sequence[float], aim: Sequence[float]
) -> str:  # fmt: skip
    """A sentence with a blank before it, that names what is too much; empty where nothing is."""
    figures = {name: (share, goal) for name, share, goal in zip(names, shares, aim, strict=True)}
    said = [
        f"{name} ({percent(figures[name][0])}, where the target has {percent(figures[name][1])})" for name in surplus
    ]
    return f" In surplus: {'; '.join(said)}." if said else ""


def _hint(target: Target, name: str) -> str:
    of = next(component.of for component in target.components if component.name == name)
    return " or ".join(target.lacking.get(fraction, f"a material rich in {fraction}") for fraction in of)


def _remarks(materials: Sequence[Material], unwanted: Sequence[str], surplus: Sequence[str]) -> tuple[Remark, ...]:
    found = []
    if SILT in surplus:
        says = "Silt is in surplus: it feels like clay but hardly binds, and draws water."
        found.append(Remark("blend-silt", says))
    if unwanted:
        words = ", ".join(unwanted)
        found.append(Remark("blend-unwanted", f"The target does not name {words}: any of it counts as off the target."))
    if _by_weight(materials):
        says = "Buckets were turned into weight by the bulk densities given; the shares of the blend are by dry weight."
        found.append(Remark("blend-by-weight", says))
    elif any(material.by == "dry weight" for material in materials):
        says = (
            "Shares by dry weight were blended as if every bucket weighed the same, because not every material has "
            "both a grading by weight and a bulk density."
        )
        found.append(Remark("blend-weight-as-volume", says))
    return tuple(found)


def _steps(
    materials: Sequence[Material],
    parts: Sequence[float],
    target: Target,
    names: Sequence[str],
    points: Sequence[Sequence[float]],
    aim: Sequence[float],
    shares: Sequence[float],
) -> tuple[Step, ...]:
    """One line for each share of the blend, then the distance."""
    weighed = _by_weight(materials)
    steps = [
        weighted_mean(
            f"Share of {name} in the blend",
            source="weighted mean",
            name=name,
            materials=materials,
            parts=parts,
            held=[point[row] for point in points],
            weighed=weighed,
        ).step()
        for row, name in enumerate(names)
    ]
    blended, aimed = (
        [Given(f"{letter}{row}", value, "share", f"{name} {what}")
         for row, (name, value) in enumerate(zip(names, values, strict=True), start=1)]
        for letter, what, values in (("b", "in the blend", shares), ("t", "in the target", aim))
    )  # fmt: skip
    return (*steps, distance_from_target.sourced(target.source)(blended, aimed).step())


distance_from_target = equation(
    "Distance from the target", "sqrt(sum((blended - aimed) ** 2))", Symbol("", "share", "distance"), "",
    blended=Series("b", "share"), aimed=Series("t", "share"),
)  # fmt: skip

EQUATIONS = (distance_from_target,)
