"""The parts a formula is made of once it has been read: a small closed set, each with its place in the text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.record import record

Value = float | str | bool | frozenset[str] | tuple[str | float, ...] | None
Values = Mapping[str, Value]


class FormulaError(ValueError):
    """A formula that cannot be used. `offset` counts characters of the formula's text from 0; `name` is the name that
    is not known, where that is what is wrong."""

    def __init__(self, code: str, wrong: str, instead: str, offset: int, name: str = "") -> None:
        self.code, self.wrong, self.instead, self.offset, self.name = code, wrong, instead, offset, name
        super().__init__(f"{wrong} ({instead})" if instead else wrong)


class FormulaUndefined(ArithmeticError):  # noqa: N818 - no slip of anyone, but an answer
    """A formula without a value for these facts: a division by zero, a root of a number below zero, a result
    too large, or a fact that is not a finite number.

    `reason` says which, `where` is the part of the formula in question. It never stands for "meets": whoever
    judges turns it into a question to an engineer or a missing value.
    """

    def __init__(self, reason: str, where: str) -> None:
        self.reason, self.where = reason, where
        super().__init__(f"{reason} in {where}")


@record
class Part:
    """Where a part stands in the text of the formula: characters `start` up to `end`."""

    start: int
    end: int


@record
class Number(Part):
    value: float
    text: str


@record
class Text(Part):
    value: str


@record
class YesNo(Part):
    value: bool


@record
class Name(Part):
    name: str

    @property
    def is_fact(self) -> bool:
        """Facts have a dot in their name (`wall.height`); limits and tables of the rule have none."""
        return "." in self.name


@record
class Negative(Part):
    of: Node


@record
class Arithmetic(Part):
    """`sign` is one of + - * /."""

    sign: str
    left: Node
    right: Node


@record
class Power(Part):
    base: Node
    exponent: float


@record
class Raised(Part):
    """A power whose exponent is worked out; for the equations of facts only."""

    base: Node
    exponent: Node


@record
class Call(Part):
    """`function` is one of those the language allows where it stands: see `formulas.parsing.Language`."""

    function: str
    arguments: tuple[Node, ...]


@record
class Compare(Part):
    """`relation` is one of <= < >= > == !=. A chain is read as comparisons joined by `and`."""

    relation: str
    left: Node
    right: Node


@record
class Member(Part):
    item: Node
    among: Node
    negated: bool


@record
class Listed(Part):
    items: tuple[Node, ...]


@record
class Not(Part):
    of: Node


@record
class Joined(Part):
    """`word` is `and` or `or`."""

    word: str
    parts: tuple[Node, ...]


Calculated = Number | Name | Negative | Arithmetic | Power | Raised | Call
Node = Calculated | Text | YesNo | Compare | Member | Listed | Not | Joined
NUMERIC = (Number, Negative, Arithmetic, Power, Raised, Call)


def children(node: Node) -> tuple[Node, ...]:
    match node:
        case Negative(of=of) | Not(of=of):
            return (of,)
        case Arithmetic(left=left, right=right) | Compare(left=left, right=right):
            return (left, right)
        case Power(base=base):
            return (base,)
        case Raised(base=base, exponent=exponent):
            return (base, exponent)
        case Call(arguments=parts) | Joined(parts=parts) | Listed(items=parts):
            return parts
        case Member(item=item, among=among):
            return (item, among)
    return ()


def walk(node: Node) -> Iterator[Node]:
    """The node and every node below it, from left to right."""
    yield node
    for child in children(node):
        yield from walk(child)


def has_facts(node: Node) -> bool:
    return any(isinstance(part, Name) and part.is_fact for part in walk(node))


def is_bare(node: Node) -> bool:
    """A number written into the formula, by itself or worked out from such numbers only."""
    return isinstance(node, NUMERIC) and not any(isinstance(part, Name) for part in walk(node))
