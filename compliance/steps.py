"""One worked line of a hand calculation, kept as data so that it prints in either system of units."""

from __future__ import annotations

import re
from collections.abc import Callable

from compliance.record import record
from compliance.units import Writer

Scalar = float | str | bool


@record
class Given:
    """A named value: `symbol` as it stands in the formula, SI value (or word, or yes/no), kind of measure."""

    symbol: str
    value: Scalar
    kind: str = "ratio"
    meaning: str = ""

    def written(self, writer: Writer) -> str:
        if isinstance(self.value, bool):
            return "yes" if self.value else "no"
        if isinstance(self.value, str):
            return self.value
        return writer.write(self.value, self.kind)


@record
class Step:
    """`result = formula` with its numbers: "stress: σ = P / (b × d) = 3200 lbf / (4 in × 4 in) = 200 psi".

    `formula` is the right-hand side for people, its symbols those of `given`; empty where a value is simply
    as described. `source` names the clause, book or convention.
    """

    says: str
    formula: str
    given: tuple[Given, ...]
    result: Given
    source: str = ""

    def numbers_put_in(self, writer: Writer) -> str:
        """The formula with each symbol replaced by its value, a value with a unit in brackets."""
        if not self.formula or not self.given:
            return ""
        values = {given.symbol: given for given in self.given}
        pattern = "|".join(re.escape(symbol) for symbol in sorted(values, key=len, reverse=True))

        def put(match: re.Match[str]) -> str:
            text = values[match[0]].written(writer)
            before, after = self.formula[: match.start()].rstrip()[-1:], self.formula[match.end() :].lstrip()[:1]
            alone = before in ("", "(", ",") and after in ("", ")", ",")
            return f"({text})" if not alone and (" " in text or text.startswith("−")) else text

        return re.sub(rf"(?<![\w.])(?:{pattern})(?![A-Za-z0-9_])", put, self.formula)

    def line(self, writer: Writer) -> str:
        """The whole step as one line of text."""
        parts = [self.formula, self.numbers_put_in(writer), self.result.written(writer)]
        shown = [part for index, part in enumerate(parts) if part and part not in parts[:index]]
        head = f"{self.result.symbol} = " if self.result.symbol else ""
        after = " " if self.says.endswith("?") else ": "
        return f"{self.says}{after}{head}{' = '.join(shown)}"


Worked = Callable[[], tuple[Step, ...]]


def no_steps() -> tuple[Step, ...]:
    return ()
