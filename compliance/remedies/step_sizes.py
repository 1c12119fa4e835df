"""The steps in which a value is changed: those of the rule, in round figures of the project's own units."""

from __future__ import annotations

import math

from compliance.units import KINDS, MeasureError, Writer, kind_of_text, parse_measure, parse_number, unit

_LENGTHS = ("length", "thickness", "coordinate", "layer_height")
_ROUND_INCHES = (1 / 8, 1 / 4, 1 / 2, 1.0, 2.0, 3.0, 4.0, 6.0, 12.0)
_ROUND_MILLIMETRES = (1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 300.0)
_US_UNITS = ("in", "ft", "yd")
_GRID_SLACK = 1e-6


def step_of(text: str | None, kind: str, writer: Writer) -> float | None:
    """The step in SI that `text` of a rule asks for; without one 1 in or 20 mm for lengths, and the last digit
    that people write for the rest. None for a kind of measure that nobody changes in steps."""
    if not kind:
        return _plain(text)
    try:
        stated = parse_measure(text, KINDS[kind]) if text else None
    except MeasureError:
        stated = None
    if kind in _LENGTHS:
        if stated is None:
            return unit("in").factor if writer.system == "us" else 0.02
        return stated.si if (stated.unit in _US_UNITS) == (writer.system == "us") else _rounded(stated.si, writer)
    if stated is not None:
        return stated.si
    return {"share": 0.01, "angle": math.radians(1.0)}.get(kind)


def _plain(text: str | None) -> float | None:
    number = parse_number(text.strip()) if text and kind_of_text(text) is None else None
    return number if number else 1.0


def _rounded(step: float, writer: Writer) -> float:
    """The round figure of the other system that is nearest by ratio."""
    one, figures = (unit("in").factor, _ROUND_INCHES) if writer.system == "us" else (0.001, _ROUND_MILLIMETRES)
    return min((figure * one for figure in figures), key=lambda figure: abs(math.log(figure / step)))


def stepped(now: float, step: float, count: int) -> float:
    """The value `count` steps from `now` (below zero: downward), on the grid of whole steps."""
    if count > 0:
        return (math.floor(now / step + _GRID_SLACK) + count) * step
    return (math.ceil(now / step - _GRID_SLACK) + count) * step
