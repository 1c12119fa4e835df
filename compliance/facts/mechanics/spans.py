"""Even loads on one or several spans: M = w L²/k, 5 w L⁴/(384 E I), and moments over inner supports."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.facts.mechanics.sections import need_not_negative, need_positive
from compliance.steps import Given, Step


def uniform_moment(load: float, span: float, divisor: float) -> float:
    """w L²/k [N·m, or N·m per metre]; k is 8 for a simple span, 2 for a cantilever, 12 between fixed ends."""
    need_positive(span=span, divisor=divisor)
    return load * span**2 / divisor


def uniform_moment_step(
    load: float, span: float, divisor: float, says: str, load_kind: str = "line_load", moment_kind: str = "moment"
) -> Step:
    """The same, worked. For a strip of wall the kinds are pressure and line_moment."""
    given = (
        Given("w", load, load_kind, "even load"),
        Given("L", span, "length", "span"),
        Given("k", divisor, "ratio", "how the ends are held: 8 simple, 2 cantilever, 12 fixed"),
    )
    result = Given("M", uniform_moment(load, span, divisor), moment_kind, "bending moment")
    return Step(says, "w × L² / k", given, result, "statics")


def uniform_deflection(load: float, span: float, modulus: float, second_moment: float) -> float:
    """5 w L⁴/(384 E I) [m] of a simple span."""
    need_positive(span=span, modulus=modulus, second_moment=second_moment)
    return 5 * load * span**4 / (384 * modulus * second_moment)


def uniform_deflection_step(load: float, span: float, modulus: float, second_moment: float) -> Step:
    given = (
        Given("w", load, "line_load", "even load"),
        Given("L", span, "length", "span"),
        Given("E", modulus, "stress", "modulus of elasticity"),
        Given("I", second_moment, "second_moment", "second moment of area"),
    )
    sag = uniform_deflection(load, span, modulus, second_moment)
    return Step("Sag", "5 × w × L⁴ / (384 × E × I)", given, Given("δ", sag, "thickness", "sag"), "elastic bending")


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


def span_moment(load: float, span: float, left: float, right: float) -> float:
    """Greatest moment [N·m] within a span whose ends carry `left` and `right` (signs of `support_moments`).

    Where the even load never turns the moment round, the result is the greater of the two ends', below zero.
    """
    need_positive(span=span)
    start = load * span / 2 + (left - right) / span
    if load <= 0 or not 0 < start / load < span:
        return max(-left, -right)
    return start**2 / (2 * load) - left


def support_reactions(spans: Sequence[float], loads: Sequence[float]) -> tuple[float, ...]:
    """Reactions [N] at every support of the same beam; their sum is the whole load."""
    moments = support_moments(spans, loads)
    found = [0.0] * (len(spans) + 1)
    for i, (span, load) in enumerate(zip(spans, loads, strict=True)):
        lean = (moments[i] - moments[i + 1]) / span
        found[i] += load * span / 2 + lean
        found[i + 1] += load * span / 2 - lean
    return tuple(found)
