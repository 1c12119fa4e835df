"""Even loads on one or several spans: M = w L²/k, and moments over inner supports."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.rules.formulas.equations import equation
from compliance.rules.formulas.symbols import Symbol, need_not_negative, need_positive, positive

uniform_moment = equation(
    "Bending moment", "load * span ** 2 / divisor", Symbol("M", "moment", "bending moment"), "statics",
    load=Symbol("w", "line_load", "even load"), span=positive("L", "length", "span"),
    divisor=positive("k", "ratio", "how the ends are held: 8 simple, 2 cantilever, 12 fixed"),
)  # fmt: skip

strip_moment = uniform_moment.of_kinds(load="pressure", result="line_moment")
"""For a strip of wall, for each metre of its width."""

EQUATIONS = (uniform_moment, strip_moment)


def support_moments(spans: Sequence[float], loads: Sequence[float]) -> tuple[float, ...]:
    """Moments [N·m] over every support of a beam running over several spans, ends free to turn.

    `spans` [m], `loads` [N/m], one even load for each span; a moment with tension on the loaded face is above
    zero. Three-moment equation (Clapeyron), equal section throughout. Raises ValueError when the lists differ in
    length.
    """
    if len(spans) != len(loads) or not spans:
        raise ValueError("one load for each span, and at least one span")
    for span, load in zip(spans, loads, strict=True):
        need_positive(span=span)
        need_not_negative(load=load)
    inner = len(spans) - 1
    diagonal = [2 * (spans[i] + spans[i + 1]) for i in range(inner)]
    right = [(loads[i] * spans[i] ** 3 + loads[i + 1] * spans[i + 1] ** 3) / 4 for i in range(inner)]
    for i in range(1, inner):
        share = spans[i] / diagonal[i - 1]
        diagonal[i] -= share * spans[i]
        right[i] -= share * right[i - 1]
    moments = [0.0] * (inner + 2)  # none over either end
    for i in reversed(range(inner)):
        moments[i + 1] = (right[i] - spans[i + 1] * moments[i + 2]) / diagonal[i]
    return tuple(moments)


def support_reactions(spans: Sequence[float], loads: Sequence[float]) -> tuple[float, ...]:
    """Reactions [N] at every support of the same beam; their sum is the whole load."""
    moments = support_moments(spans, loads)
    found = [0.0] * (len(spans) + 1)
    for i, (span, load) in enumerate(zip(spans, loads, strict=True)):
        lean = (moments[i] - moments[i + 1]) / span
        found[i] += load * span / 2 + lean
        found[i + 1] += load * span / 2 - lean
    return tuple(found)
