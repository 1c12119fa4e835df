"""One worked line of a hand calculation, kept as data so that it prints in either system of units."""

from __future__ import annotations

import re
from collections.abc import Callable, Container

from compliance.record import record
from compliance.units import Writer

Scalar = float | str | bool


class Named(str):
    """A text that names marks, "Length of W3", and keeps them apart, so that it can be compared without them.

    `texts` are the pieces around the `marks`, one more than there are marks.
    """

    __slots__ = ("marks", "texts")
    texts: tuple[str, ...]
    marks: tuple[str, ...]

    def __new__(cls, form: str, *marks: str) -> Named:
        """`form` has {} for each mark: "Length of {}". Raises ValueError where there are more or fewer."""
        return cls.of(tuple(form.split("{}")), marks)

    @classmethod
    def of(cls, texts: tuple[str, ...], marks: tuple[str, ...]) -> Named:
        first, *rest = texts
        made = super().__new__(cls, first + "".join(m + text for m, text in zip(marks, rest, strict=True)))
        made.texts, made.marks = texts, marks
        return made

    def __reduce__(self) -> tuple[Callable[..., Named], tuple[tuple[str, ...], tuple[str, ...]]]:
        return Named.of, (self.texts, self.marks)

    def without(self, marks: Container[str], instead: str) -> Named:
        """The same with `instead` in the place of those of its marks that are among `marks`."""
        return Named.of(self.texts, tuple(instead if one in marks else one for one in self.marks))


class Source(str):
    """Where a form or a number comes from: a clause, a book, a convention. `is_doubtful` where nobody read it in full,
    or where it is an assumption or a practice without a source."""

    __slots__ = ("is_doubtful",)
    is_doubtful: bool

    def __new__(cls, text: str, is_doubtful: bool = True) -> Source:
        made = super().__new__(cls, text)
        made.is_doubtful = is_doubtful
        return made

    def __reduce__(self) -> tuple[type[Source], tuple[str, bool]]:
        return Source, (str(self), self.is_doubtful)

    @classmethod
    def joined(cls, *sources: Source) -> Source:
        """Of a form that rests on several."""
        return cls("; ".join(sources), any(one.is_doubtful for one in sources))


@record
class Given:
    """A named value: `symbol` as it stands in the formula, SI value (or word, or yes/no), kind of measure."""

    symbol: str
    value: Scalar
    kind: str = "ratio"
    meaning: str = ""

    def written(self, writer: Writer, extra_figures: int = 0) -> str:
        if isinstance(self.value, bool):
            return "yes" if self.value else "no"
        if isinstance(self.value, str):
            return self.value
        return writer.write(self.value, self.kind, extra_figures)


@record
class Step:
    """`result = formula` with its numbers: "stress: σ = P / (b × d) = 3200 lbf / (4 in × 4 in) = 200 psi".

    `formula` is the right-hand side for people, its symbols those of `given`; empty where a value is simply
    as described. `source` names the clause, book or convention; a `Source` where it may be doubtful. `says` is `Named`
    where it names marks. `is_assumed`: the project does not state the value.
    """

    says: str
    formula: str
    given: tuple[Given, ...]
    result: Given
    source: str = ""
    is_assumed: bool = False

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

    def put_in(self, given: Given, writer: Writer) -> str:
        """One of `given` as it stands among the numbers put in."""
        return given.written(writer)

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
