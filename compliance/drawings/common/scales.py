"""Usual drawing scales of both systems of units, and the largest of them at which something fits."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction

from compliance.record import record
from compliance.units.writing import System

POINTS_PER_METRE = 72 / 0.0254
_INCHES_TO_A_FOOT = (
    Fraction(3), Fraction(3, 2), Fraction(1), Fraction(3, 4), Fraction(1, 2), Fraction(3, 8), Fraction(1, 4),
    Fraction(3, 16), Fraction(1, 8), Fraction(3, 32), Fraction(1, 16),
)  # fmt: skip
_FEET_TO_AN_INCH = (20, 30, 40, 50, 60, 100)
_RATIOS = (5, 10, 20, 25, 50, 75, 100, 150, 200, 250, 500)
_TENS = (1, 2, 5)


@record
class Scale:
    """`ratio` is how many times smaller than life; `name` is how people write it."""

    ratio: float
    name: str

    @property
    def per_metre(self) -> float:
        """Points on the page for a metre of the building."""
        return POINTS_PER_METRE / self.ratio

    @property
    def title(self) -> str:
        """The name, with the ratio where the name is another."""
        ratio = f"1:{self.ratio:g}"
        return ratio if self.name == ratio else f"{self.name} ({ratio})"


def usual_scales(system: System) -> Iterator[Scale]:
    """Without end, from the largest drawing to ever smaller ones.

    Architect's and engineer's scales in feet and inches (common practice); in metric the ratios of ISO 5455:1979,
    recalled, with 1:25, 1:75, 1:150 and 1:250 between them (common practice).
    """
    if system == "us":
        yield from (Scale(float(12 / inches), f"{_mixed(inches)} in = 1 ft") for inches in _INCHES_TO_A_FOOT)
        yield from (Scale(12.0 * feet, f"1 in = {feet} ft") for feet in _FEET_TO_AN_INCH)
        yield from (Scale(12.0 * feet, f"1 in = {feet:g} ft") for feet in _onward(200.0))
    else:
        yield from (Scale(float(ratio), f"1:{ratio}") for ratio in _RATIOS)
        yield from (Scale(ratio, f"1:{ratio:g}") for ratio in _onward(1000.0))


def _mixed(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    return " ".join(str(part) for part in (whole, rest) if part)


def _onward(first: float) -> Iterator[float]:
    """1, 2, 5, 10 ... times a power of ten, from `first`."""
    power = 1.0
    while True:
        for step in _TENS:
            if step * power >= first:
                yield step * power
        power *= 10


def largest(system: System, fits: Callable[[Scale], bool], least_ratio: float = 1.0) -> Scale:
    """The largest usual scale for which `fits` says yes, none larger than 1 to `least_ratio`."""
    return next(scale for scale in usual_scales(system) if scale.ratio >= least_ratio and fits(scale))


def largest_within(
    system: System, sizes: Callable[[Scale], tuple[float, float]], width: float, height: float, least_ratio: float
) -> Scale:
    """The largest usual scale at which what has these `sizes` across and up [pt] fits into a width and a height."""

    def fits(scale: Scale) -> bool:
        across, up = sizes(scale)
        return across <= width and up <= height

    return largest(system, fits, least_ratio)


@record
class BarParts:
    """A scale bar: the length of one part in m, the number at the start of each and at the end of the last, and their
    unit."""

    part: float
    numbers: tuple[str, ...]
    unit: str


def bar_parts(scale: Scale, system: System, longest: float) -> BarParts:
    """Parts of 1, 2 or 5 times a power of ten metres or feet, or of some inches; as many as fit into `longest` points,
    two to five."""
    number, unit, symbol = next(
        one for one in _bar_sizes(system) if 2 * one[0] * one[1] * scale.per_metre <= longest or one[0] * one[1] < 0.03
    )
    width = number * unit * scale.per_metre
    count = min(5, int(longest // width))
    return BarParts(number * unit, tuple(f"{index * number:g}" for index in range(count + 1)), symbol)


def _bar_sizes(system: System) -> Iterator[tuple[float, float, str]]:
    """Sizes of a part, largest first: number, unit in m, symbol."""
    feet = system == "us"
    power = 1e6
    while power >= (1 if feet else 1e-3):
        for step in (5, 2, 1):
            yield step * power, 0.3048 if feet else 1.0, "ft" if feet else "m"
        power /= 10
    yield from ((number, 0.0254, "in") for number in (6.0, 3.0, 1.0))
