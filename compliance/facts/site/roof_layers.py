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
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import GRAVITY, Series, Symbol, not_negative
from compliance.steps import Given, Step

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


weight_of_layer = equation(
    "Weight per area of the surface", "thickness * density * gravity", Symbol("w", "pressure"), SOURCE,
    thickness=not_negative("t", "thickness", "thickness"),
    density=not_negative("γ", "density", "saturated density"), gravity=GRAVITY,
)  # fmt: skip

load_over_plan = equation(
    "Load over the plan of the roof", "sum(weight) / cos(slope)", Symbol("p", "pressure"), SOURCE,
    weight=Series("w", "pressure"), slope=Symbol("slope", "angle", "slope of the roof"),
)  # fmt: skip

EQUATIONS = (weight_of_layer, load_over_plan)


def layer_weight(layer: Layer, place: int = 1) -> Solved | None:
    """Weight per area of the sloping surface [Pa]; None where a value lacks. Raises ValueError for one below zero."""
    named = weight_of_layer.giving(f"w{place}")
    if layer.weight is not None:
        need_not_negative(weight=layer.weight)
        return named.titled(f"{layer.name}, weight per area as given").sourced("").without_value(layer.weight)
    if layer.thickness is None or layer.saturated_density is None:
        return None
    need_not_negative(thickness=layer.thickness, saturated_density=layer.saturated_density)
    return named.titled(f"{layer.name}, weight per area of the surface")(layer.thickness, layer.saturated_density)


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
        weight = layer_weight(layer, place)
        if weight is None:
            missing.append(f"{layer.name}: {' and '.join(layer.missing)}")
            continue
        steps.append(weight.step())
        (passes if layer.passing_water else stays).append(Given(f"w{place}", float(weight), "pressure", layer.name))
    if missing:
        return RoofWeight(None, None, missing=tuple(missing))
    dead = load_over_plan.titled("Dead load of the layers, soaked, over the plan of the roof")(stays, slope)
    live = load_over_plan.titled("Water passing through, live load over the plan of the roof")(passes, slope)
    steps += [*(dead.steps() if stays else ()), *(live.steps() if passes else ())]
    return RoofWeight(float(dead), float(live), tuple(steps))
