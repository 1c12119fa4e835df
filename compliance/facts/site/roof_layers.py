"""Weight of a roof from its layers, soaked: for living roofs, and for any roof whose layers are known.

A layer weighs its thickness times its saturated density times gravity, or its weight per area as given. Weights are
per area of the sloping surface; over the horizontal projection they grow by one over the cosine of the slope. Water
that only passes through a drainage layer counts as live load, all that stays counts as dead (ASTM E2397, scope). The
dry weight on a bag, or a guess, is not a saturated density: ASTM E2399 is the test for it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from compliance.facts.common.reference_values import need_not_negative
from compliance.record import record
from compliance.steps import Given, Step

STANDARD_GRAVITY = 9.80665  # m/s², exact by definition (NIST SP 811, appendix B)
SOURCE = "statics; dead and live part as in ASTM E2397"


@record
class Layer:
    """`thickness` [m], `saturated_density` [kg/m³]; or `weight` per area of the surface [Pa], which goes first.

    `passing_water` marks water that fills a drainage layer while it rains and then runs off.
    """

    name: str
    thickness: float | None = None
    saturated_density: float | None = None
    weight: float | None = None
    passing_water: bool = False

    @property
    def missing(self) -> tuple[str, ...]:
        """What is lacking for the weight of the layer, in words."""
        if self.weight is not None:
            return ()
        lacking = (("thickness", self.thickness), ("saturated density", self.saturated_density))
        return tuple(word for word, value in lacking if value is None)


def layer_weight(layer: Layer) -> float | None:
    """Weight per area of the sloping surface [Pa]; None where a value lacks. Raises ValueError for one below zero."""
    if layer.weight is not None:
        need_not_negative(weight=layer.weight)
        return layer.weight
    if layer.thickness is None or layer.saturated_density is None:
        return None
    need_not_negative(thickness=layer.thickness, saturated_density=layer.saturated_density)
    return layer.thickness * layer.saturated_density * STANDARD_GRAVITY


@record
class RoofWeight:
    """`dead` and `live` over the horizontal projection [Pa]; both None where `missing` names layers and values."""

    dead: float | None
    live: float | None
    steps: tuple[Step, ...] = ()
    missing: tuple[str, ...] = ()

    @property
    def total(self) -> float | None:
        return None if self.dead is None or self.live is None else self.dead + self.live


def roof_weight(layers: Sequence[Layer], slope: float) -> RoofWeight:
    """Weight of `layers` on a roof of `slope` [rad].

    One layer whose weight is not known leaves the whole roof without one. Raises ValueError for no layers, for a
    slope that is not from zero to below a right angle, and for a measure below zero.
    """
    if not layers:
        raise ValueError("a roof needs at least one layer")
    need_not_negative(slope=slope)
    if slope >= math.pi / 2:
        raise ValueError(f"slope must be below a right angle, not {slope!r}")
    steps: list[Step] = []
    stays: list[Given] = []
    passes: list[Given] = []
    missing: list[str] = []
    for place, layer in enumerate(layers, start=1):
        weight = layer_weight(layer)
        if weight is None:
            missing.append(f"{layer.name}: {' and '.join(layer.missing)}")
            continue
        given = Given(f"w{place}", weight, "pressure", layer.name)
        steps.append(_layer_step(layer, given))
        (passes if layer.passing_water else stays).append(given)
    if missing:
        return RoofWeight(None, None, missing=tuple(missing))
    dead, live = (_over_plan(part, slope) for part in (stays, passes))
    if stays:
        steps.append(_sum_step("Dead load of the layers, soaked, over the plan of the roof", stays, slope, dead))
    if passes:
        steps.append(_sum_step("Water passing through, live load over the plan of the roof", passes, slope, live))
    return RoofWeight(dead, live, tuple(steps))


def _over_plan(weights: Sequence[Given], slope: float) -> float:
    return sum(float(weight.value) for weight in weights) / math.cos(slope)


def _layer_step(layer: Layer, result: Given) -> Step:
    if layer.weight is not None or layer.thickness is None or layer.saturated_density is None:
        return Step(f"{layer.name}, weight per area as given", "", (), result)
    given = (
        Given("t", layer.thickness, "thickness", "thickness"),
        Given("γ", layer.saturated_density, "density", "saturated density"),
        Given("g", "standard gravity", "word"),
    )
    return Step(f"{layer.name}, weight per area of the surface", "t × γ × g", given, result, SOURCE)


def _sum_step(says: str, weights: Sequence[Given], slope: float, total: float) -> Step:
    terms = " + ".join(weight.symbol for weight in weights)
    formula = f"({terms}) / cos(slope)" if len(weights) > 1 else f"{terms} / cos(slope)"
    given = (*weights, Given("slope", slope, "angle", "slope of the roof"))
    return Step(says, formula, given, Given("p", total, "pressure"), SOURCE)
