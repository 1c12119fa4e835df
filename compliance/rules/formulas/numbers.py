"""The numbers of a formula as closures, and how far rounding alone can move them."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable

from compliance.rules.formulas.nodes import (
    Arithmetic,
    Call,
    Compare,
    FormulaUndefined,
    Name,
    Negative,
    Node,
    Number,
    Power,
    Raised,
    Value,
    Values,
    walk,
)
from compliance.rules.formulas.printing import written

ROUNDING = 1e-12

NumberEvaluator = Callable[[Values], float | None]

_CALCULATE: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}


def whole_up(value: float) -> float:
    """The whole number at or above `value`; a value that is whole but for the last digits of a float stays."""
    nearest = round(value)
    return float(nearest if math.isclose(value, nearest, rel_tol=1e-9, abs_tol=1e-9) else math.ceil(value))


_FUNCTIONS: dict[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "abs": abs,
    "sqrt": math.sqrt,
    "exp": math.exp,
    "ln": math.log,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "whole_up": whole_up,
}
OVER_A_SERIES: dict[str, Callable[[list[float]], float]] = {"sum": math.fsum, "min": min, "max": max}


def number(node: Node, finite: bool = True) -> NumberEvaluator:
    """The closure for a part that is a number. Without `finite`, a number without limit is a number, too."""
    match node:
        case Number(value=value):
            return lambda values: value
        case Name(name=name):
            return _named(name) if finite else _limitless(name)
        case Negative(of=of):
            return _calculated(node, finite, operator.neg, of)
        case Arithmetic(sign=sign, left=left, right=right):
            return _calculated(node, finite, _CALCULATE[sign], left, right)
        case Power(base=base, exponent=exponent):
            return _calculated(node, finite, lambda value: math.pow(value, exponent), base)
        case Raised(base=base, exponent=worked):
            return _calculated(node, finite, math.pow, base, worked)
        case Call(function=function, arguments=(of,)) if function in OVER_A_SERIES:
            return _over_a_series(of, OVER_A_SERIES[function], finite)
        case Call(function=function, arguments=arguments):
            return _calculated(node, finite, _FUNCTIONS[function], *arguments)
    raise TypeError(f"{written(node)} is no number")


def value_of(name: str, values: Values) -> Value:
    value = values.get(name)
    if isinstance(value, float) and not math.isfinite(value):
        raise FormulaUndefined("no finite number", name)
    return value


def _named(name: str) -> NumberEvaluator:
    def read(values: Values) -> float | None:
        value = values.get(name)
        return value if value.__class__ is float and math.isfinite(value) else _number(name, values)

    return read


def _number(name: str, values: Values) -> float | None:
    value = value_of(name, values)
    if value is None or (isinstance(value, float | int) and not isinstance(value, bool)):
        return value
    raise TypeError(f"{name} is {value!r}, not a number")


def _limitless(name: str) -> NumberEvaluator:
    def read(values: Values) -> float | None:
        value = values.get(name)
        return value if isinstance(value, float) and value == value else _number(name, values)

    return read


def _over_a_series(of: Node, calculate: Callable[[list[float]], float], finite: bool) -> NumberEvaluator:
    names = [part.name for part in walk(of) if isinstance(part, Name)]
    each = number(of, finite)

    def run(values: Values) -> float | None:
        series = {name: values[name] for name in names if isinstance(values[name], tuple)}
        items = [each({**values, **dict(zip(series, one, strict=True))}) for one in zip(*series.values(), strict=True)]
        return calculate([one for one in items if one is not None])

    return run


def _calculated(node: Node, finite: bool, calculate: Callable[..., float], *parts: Node) -> NumberEvaluator:
    operands = [number(part, finite) for part in parts]

    def checked(*found: float) -> float:
        """For what `calculate` refuses, or what comes out without limit."""
        try:
            result = calculate(*found)
        except ZeroDivisionError:
            raise FormulaUndefined("division by zero", written(node)) from None
        except ValueError:
            raise FormulaUndefined(_out_of_domain(found), written(node)) from None
        except OverflowError:
            result = math.inf
        if not math.isfinite(result) and (finite or math.isnan(result)):
            raise FormulaUndefined("a result too large", written(node))
        return result

    if len(operands) == 1:
        return _of_one(operands[0], checked)
    if len(operands) == 2:
        return _of_two(operands[0], operands[1], checked)

    def run(values: Values) -> float | None:
        found = [operand(values) for operand in operands]
        return None if None in found else checked(*found)  # type: ignore[arg-type]

    return run


def _of_one(operand: NumberEvaluator, calculate: Callable[..., float]) -> NumberEvaluator:
    def run(values: Values) -> float | None:
        found = operand(values)
        return None if found is None else calculate(found)

    return run


def _of_two(left: NumberEvaluator, right: NumberEvaluator, calculate: Callable[..., float]) -> NumberEvaluator:
    def run(values: Values) -> float | None:
        one, other = left(values), right(values)
        return None if one is None or other is None else calculate(one, other)

    return run


def _out_of_domain(found: tuple[float, ...]) -> str:
    return "division by zero" if found == (0.0,) else "a root of a number below zero"


def rounding_of(node: Compare) -> Callable[[Values], float]:
    """How far apart two sides may come by rounding alone; nothing where neither adds nor subtracts."""
    if not any(isinstance(part, Arithmetic) and part.sign in "+-" for part in walk(node)):
        return lambda values: 0.0
    left, right = _terms(node.left), _terms(node.right)

    def run(values: Values) -> float:
        size = ROUNDING * max(left(values), right(values))
        return size if math.isfinite(size) else 0.0

    return run


def _terms(node: Node) -> Callable[[Values], float]:
    """The size of the terms that a side was put together from; asked for only where the side has a value."""
    match node:
        case Arithmetic(sign="+" | "-", left=left, right=right):
            one, other = _terms(left), _terms(right)
            return lambda values: one(values) + other(values)
        case Arithmetic(sign="*", left=left, right=right):
            one, other = _terms(left), _terms(right)
            return lambda values: one(values) * other(values)
        case Arithmetic(left=left, right=right):
            one, below = _terms(left), number(right)
            return lambda values: one(values) / abs(below(values) or math.inf)
        case Negative(of=of) | Call(function="abs", arguments=(of,)):
            return _terms(of)
    value = number(node)
    return lambda values: abs(value(values) or 0.0)
