"""What a part of a formula can be: a number of some dimension, a word, yes or no, or a list of these."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.record import record
from compliance.units import KINDS, NUMBER, Dimension, dimension_of


@record
class NumberType:
    """`kind` is how documents write it; None where no operand says."""

    dimension: Dimension
    kind: str | None = None


@record
class TextType:
    """`choices` are the words it can be; None for any."""

    choices: tuple[str, ...] | None = None


@record
class YesNoType:
    pass


@record
class ListType:
    element: NumberType | TextType | YesNoType


Type = NumberType | TextType | YesNoType | ListType
Types = Mapping[str, Type]


def number_of_kind(kind: str) -> NumberType:
    """The type of a value of a kind. Raises KeyError for an unknown kind."""
    return NumberType(dimension_of(kind), kind)


def called(found: Type) -> str:
    """A type in words: "a length"."""
    match found:
        case NumberType(dimension=dimension, kind=kind):
            if kind:
                return KINDS[kind].called
            if dimension == NUMBER:
                return "a plain number"
            first = first_kind(dimension)
            return KINDS[first].called if first else f"a value in {_powers(dimension)}"
        case TextType():
            return "a word"
        case YesNoType():
            return "a yes or no"
    return "a list"


def first_kind(dimension: Dimension) -> str | None:
    """The kind that stands for a dimension where no operand has one; None where none has the dimension."""
    if dimension == NUMBER:
        return "ratio"
    return next((kind.name for kind in KINDS.values() if kind.dimension == dimension), None)


def kind_for(*found: NumberType) -> str:
    """The one kind to write these values in: the first that is declared, else the first with the dimension."""
    declared = next((each.kind for each in found if each.kind), None)
    measured = next((each.dimension for each in found if each.dimension != NUMBER), NUMBER)
    kind = declared or first_kind(measured)
    if kind is None:
        raise KeyError(f"no kind of measure is {called(found[0])}")
    return kind


def _powers(dimension: Dimension) -> str:
    units = zip(("m", "kg", "s", "K"), dimension, strict=True)
    return "·".join(f"{unit}^{power:g}" if power != 1 else unit for unit, power in units if power)
