"""What several materials hold of one fraction when they are mixed, by volume or by weight."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.mixes.blend_target import Material
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given

_PARTS, _SHARES, _MIXED = Series("n"), Series("s", "share"), Symbol("", "share")

mean_by_volume = equation(
    "Share in the mix", "sum(part * share) / sum(part)", _MIXED, "weighted mean", part=_PARTS, share=_SHARES
)  # fmt: skip

mean_by_weight = equation(
    "Share in the mix", "sum(part * density * share) / sum(part * density)", _MIXED, "weighted mean",
    part=_PARTS, density=Series("ρ", "density"), share=_SHARES,
)  # fmt: skip

EQUATIONS = (mean_by_volume, mean_by_weight)


def weighted_mean(
    title: str, source: str, name: str, materials: Sequence[Material], parts: Sequence[float],
    held: Sequence[float], weighed: bool,
) -> Solved:  # fmt: skip
    """The share of the fraction `name` in `parts` of the materials, which hold `held` of it; those of which there is
    no part are left out. `weighed`: parts count by their bulk density."""
    used = [index for index, part in enumerate(parts) if part > 0]
    part = [Given(f"n{i + 1}", parts[i], "ratio", f"parts of {materials[i].name}") for i in used]
    share = [Given(f"s{i + 1}", held[i], "share", f"{name} in {materials[i].name}") for i in used]
    if not weighed:
        return mean_by_volume.titled(title).sourced(source)(part, share)
    density = [Given(f"ρ{i + 1}", materials[i].bulk_density or 1.0, "density", materials[i].name) for i in used]
    return mean_by_weight.titled(title).sourced(source)(part, density, share)
