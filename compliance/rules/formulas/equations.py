"""Equations: each formula of facts written once, from which come its value, its printed line and its dimensions.

    thrust = equation(
        "Thrust of rafters without tie", "load * span ** 2 / (8 * rise)",
        Symbol("H", "line_load", "outward thrust"), "three-hinged frame, statics",
        load=not_negative("w", "pressure", "load on plan"),
        span=positive("L", "length", "span between walls"),
        rise=positive("f", "length", "rise from plate to ridge"),
    )
    thrust(1500.0, 6.0, 1.8)         # a float: 3750.0 N/m, in the order of the symbols or by name
    thrust(1500.0, 6.0, 1.8).step()  # "H = w × L² / (8 × f) = (31.3 psf) × (19 ft 8 in)² / ... = 257 plf"

The expression is one of the formula language of rules, with more functions: see `formulas.parsing.EQUATIONS`. It is
read when the equation is first used. Numbers without limit go through it; not-a-number does not.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache, partial

from compliance.record import record, replace
from compliance.rules.formulas.dimensions import infer
from compliance.rules.formulas.nodes import FormulaError, Name, Node, Values, walk
from compliance.rules.formulas.numbers import number
from compliance.rules.formulas.numbers_put_in import FormulaStep
from compliance.rules.formulas.parsing import EQUATIONS, read
from compliance.rules.formulas.printing import written
from compliance.rules.formulas.series import series_written_out, without_zeros
from compliance.rules.formulas.symbols import Input, Symbol
from compliance.rules.formulas.types import NumberType, called, number_of_kind
from compliance.steps import Given, Step
from compliance.units import dimension_of


class Solved(float):
    """The value of an equation, in SI, which can show how it was worked out."""

    __slots__ = ("_step", "_worked")
    _worked: Callable[[], Step]
    _step: Step | None

    def __new__(cls, value: float, worked: Callable[[], Step]) -> Solved:
        made = super().__new__(cls, value)
        made._worked, made._step = worked, None
        return made

    def __eq__(self, other: object) -> bool:
        return float(self) == other

    __hash__ = float.__hash__

    def __reduce__(self) -> tuple[type[float], tuple[float]]:
        return float, (float(self),)

    def step(self) -> Step:
        if self._step is None:
            self._step = self._worked()
        return self._step

    def steps(self) -> tuple[Step, ...]:
        return (self.step(),)


@record
class Equation:
    """`result = expression`. `symbols` says for each name of the expression what it is; `source` names the clause, book
    or convention; empty where it comes with a coefficient: then `sourced` gives it before a line is printed.
    `arguments` are the names that take a number, in their order. Made by `equation`."""

    title: str
    expression: str
    result: Symbol
    source: str
    symbols: Mapping[str, Symbol]
    arguments: Mapping[str, None]

    def __call__(self, *values: Input, **named: Input) -> Solved:
        """The value for these numbers in SI. Raises ValueError for a number that its symbol does not allow,
        FormulaUndefined for a division by zero, TypeError for a number too many or too few."""
        inputs = self._inputs(values, named)
        numbers = {name: symbol.number(name, inputs.get(name)) for name, symbol in self.symbols.items()}
        value = _evaluator(self.expression)(numbers)
        assert isinstance(value, float | int)
        return Solved(value, partial(self._step, inputs, float(value)))

    def step(self, *values: Input, **named: Input) -> Step:
        """The worked line for these numbers. Raises as the call does."""
        return self(*values, **named).step()

    def without_value(self, value: float, *values: Input, **named: Input) -> Solved:
        """`value` for numbers for which the expression has none: the line names them, and no formula."""
        numbers = dict(zip(self.arguments, values, strict=False)) | named

        def worked() -> Step:
            given = [one for name, given in numbers.items() for one in self.symbols[name].givens(name, given).values()]
            return Step(self.title, formula="", given=tuple(given), result=self._result(value), source=self.source)

        return Solved(value, worked)

    def titled(self, title: str) -> Equation:
        return replace(self, title=title)

    def giving(self, symbol: str) -> Equation:
        """With another symbol for its result."""
        return replace(self, result=replace(self.result, symbol=symbol))

    def naming(self, **printed: str) -> Equation:
        """With other symbols in print for some of its names."""
        changed = {name: replace(self.symbols[name], symbol=symbol) for name, symbol in printed.items()}
        return replace(self, symbols={**self.symbols, **changed})

    def sourced(self, source: str) -> Equation:
        return replace(self, source=source)

    def of_kinds(self, *, result: str = "", **kinds: str) -> Equation:
        """The same for other kinds of measure: a load along a line instead of a pressure."""
        symbols = {name: replace(symbol, kind=kinds.get(name, symbol.kind)) for name, symbol in self.symbols.items()}
        return replace(self, symbols=symbols, result=replace(self.result, kind=result or self.result.kind))

    def check(self) -> None:
        """Raises FormulaError where the expression and the symbols do not fit, in names or in dimension."""
        root = without_zeros(_root(self.expression))
        for name in set(self.symbols) - {part.name for part in walk(root) if isinstance(part, Name)}:
            raise FormulaError("formula-name", f"{name} is no part of {self.expression!r}", "leave it out", 0)
        found = infer(root, {name: number_of_kind(symbol.kind) for name, symbol in self.symbols.items()})
        if not isinstance(found, NumberType) or found.dimension != dimension_of(self.result.kind):
            wrong = f"{self.expression!r} is {called(found)}, not {called(number_of_kind(self.result.kind))}"
            raise FormulaError("formula-dimension", wrong, "see what is missing, or too much", 0)

    def _result(self, value: float) -> Given:
        return Given(self.result.symbol, value, self.result.kind, self.result.meaning)

    def _inputs(self, values: tuple[Input, ...], named: Mapping[str, Input]) -> Mapping[str, Input]:
        arguments = self.arguments
        found = {**dict(zip(arguments, values, strict=False)), **named}
        if len(values) + len(named) != len(arguments) or found.keys() != arguments.keys():
            raise TypeError(f"{self.title} takes {', '.join(arguments)}")
        return found

    def _step(self, inputs: Mapping[str, Input], value: float) -> Step:
        assert self.source, f"{self.title} has no source"
        root = _root(self.expression)
        named: dict[str, Given] = {}
        counts: dict[str, int] = {}
        for name in dict.fromkeys(part.name for part in walk(root) if isinstance(part, Name)):
            written_out = self.symbols[name].givens(name, inputs.get(name))
            counts |= {name: len(written_out)} if self.symbols[name].several else {}
            named |= written_out
        node = series_written_out(root, tuple(counts.items()))
        given = tuple(one for one in named.values() if one.symbol and one.symbol != one.value)
        formula = written(node, lambda name: named[name].symbol or str(named[name].value))
        shown = tuple((name, (one,)) for name, one in named.items())
        return FormulaStep(
            self.title,
            formula=formula,
            given=given,
            result=self._result(value),
            source=self.source,
            node=node,
            named=shown,
        )


def equation(title: str, expression: str, result: Symbol, source: str, /, **symbols: Symbol) -> Equation:
    """The symbols in the order in which the equation takes their numbers."""
    arguments = dict.fromkeys(name for name, symbol in symbols.items() if symbol.is_parameter)
    return Equation(title, expression=expression, result=result, source=source, symbols=symbols, arguments=arguments)


@lru_cache(maxsize=1000)
def _root(expression: str) -> Node:
    return read(expression, EQUATIONS)


@lru_cache(maxsize=1000)
def _evaluator(expression: str) -> Callable[[Values], float | None]:
    return number(_root(expression), finite=False)
