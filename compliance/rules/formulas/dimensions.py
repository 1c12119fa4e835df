"""The type of every part of a formula, inferred from the tree over all branches, without any value.

A slip in a branch that seldom runs is found when the rule set is loaded.
"""

from __future__ import annotations

from difflib import get_close_matches

from compliance.rules.formulas.nodes import (
    Arithmetic,
    Call,
    Compare,
    FormulaError,
    Joined,
    Listed,
    Member,
    Name,
    Negative,
    Node,
    Not,
    Number,
    Power,
    Raised,
    Text,
    YesNo,
    is_bare,
)
from compliance.rules.formulas.printing import written
from compliance.rules.formulas.types import ListType, NumberType, TextType, Type, Types, YesNoType, called, first_kind
from compliance.units import NUMBER, Dimension, dimension_of

TEMPERATURE = dimension_of("temperature")
_LIMIT = "say the limit with its unit under limits: and use its name here"


def infer(node: Node, types: Types) -> Type:
    """The type of a part, every part below it checked on the way. Raises FormulaError."""
    match node:
        case Number():
            return NumberType(NUMBER)
        case Text(value=value):
            return TextType((value,))
        case YesNo():
            return YesNoType()
        case Name(name=name):
            return types[name] if name in types else _unknown(node, types)
        case Negative(of=of):
            return _calculated(node, _number(of, types))
        case Arithmetic():
            return _arithmetic(node, types)
        case Power(base=base, exponent=exponent):
            found = _number(base, types)
            return _calculated(
                node, NumberType(found.dimension.power(exponent), found.kind if exponent == 1 else None), found
            )
        case Raised(base=base, exponent=worked):
            return _plain(node, (base, worked), types)
        case Call(function="exp" | "ln" | "sin" | "cos" | "tan" | "whole_up", arguments=arguments):
            return _plain(node, arguments, types)
        case Call():
            return _call(node, types)
        case Compare():
            return _compare(node, types)
        case Member():
            return _member(node, types)
        case Not(of=of):
            return _yes_no(of, types)
        case Joined(parts=parts):
            for part in parts:
                _yes_no(part, types)
            return YesNoType()
        case Listed():
            raise FormulaError("formula-type", "a list stands by itself", "a list can only follow in", node.start)


def writable(node: Node, found: NumberType) -> None:
    """Raise FormulaError for a number that no kind of measure can write, such as a root of a length."""
    if first_kind(found.dimension) is None:
        wrong = f"{written(node)} is {called(found)}, which no document can write"
        raise FormulaError("formula-dimension", wrong, "rearrange it so that each side is a common measure", node.start)


def _unknown(node: Name, types: Types) -> Type:
    near = next(iter(get_close_matches(node.name, types)), None)
    hint = f"did you mean {near}?" if near else "use a fact of the subject, or a limit or table of the rule"
    raise FormulaError("formula-name", f"{node.name!r} is not known here", hint, offset=node.start, name=node.name)


def _number(node: Node, types: Types) -> NumberType:
    found = infer(node, types)
    if isinstance(found, NumberType):
        return found
    hint = "only numbers can be calculated with"
    raise FormulaError("formula-type", f"{written(node)} is {called(found)}, not a number", hint, node.start)


def _yes_no(node: Node, types: Types) -> YesNoType:
    found = infer(node, types)
    if isinstance(found, YesNoType):
        return found
    hint = "compare it with something"
    raise FormulaError("formula-type", f"{written(node)} is {called(found)}, not a yes or no", hint, node.start)


def _calculated(node: Node, result: NumberType, *operands: NumberType) -> NumberType:
    """Temperatures have no zero of their own in degrees, so nothing can be calculated with them."""
    if any(each.dimension == TEMPERATURE for each in (result, *operands)):
        raise FormulaError(
            "formula-temperature",
            f"{written(node)} calculates with a temperature",
            "temperatures can be compared and put in min and max only",
            node.start,
        )
    return result


def _arithmetic(node: Arithmetic, types: Types) -> NumberType:
    left, right = _number(node.left, types), _number(node.right, types)
    if node.sign in "+-":
        _alike("added" if node.sign == "+" else "subtracted", node, (node.left, left), (node.right, right))
        dimension = left.dimension
    else:
        dimension = left.dimension.times(right.dimension) if node.sign == "*" else left.dimension.over(right.dimension)
    return _calculated(node, NumberType(dimension, _kind_of_result(node, dimension, left, right)), left, right)


def _kind_of_result(node: Arithmetic, dimension: Dimension, left: NumberType, right: NumberType) -> str | None:
    """An operand's own kind where the result still is such a measure; a share of a share is none."""
    if dimension != NUMBER:
        return next((each.kind for each in (left, right) if each.kind and each.dimension == dimension), None)
    if node.sign in "+-":
        return left.kind if left.kind == right.kind else None
    scaled = left.kind if is_bare(node.right) else right.kind if is_bare(node.left) and node.sign == "*" else None
    return scaled if scaled != "count" else None


def _plain(node: Node, parts: tuple[Node, ...], types: Types) -> NumberType:
    """Functions and powers that only plain numbers, shares and angles can be put in."""
    for part in parts:
        if (found := _number(part, types)).dimension != NUMBER:
            wrong = f"{written(part)} is {called(found)}, not a plain number"
            raise FormulaError("formula-dimension", wrong, f"divide it by another in {written(node)}", part.start)
    return NumberType(NUMBER)


def _call(node: Call, types: Types) -> NumberType:
    found = [_number(argument, types) for argument in node.arguments]
    first = found[0]
    if node.function == "sqrt":
        return _calculated(node, NumberType(first.dimension.power(0.5)), first)
    if node.function in ("abs", "sum"):
        return _calculated(node, first)
    for argument, other in zip(node.arguments[1:], found[1:], strict=True):
        _alike(f"put in one {node.function}", node, (node.arguments[0], first), (argument, other))
    kinds = {each.kind for each in found}
    if first.dimension == NUMBER:
        return NumberType(NUMBER, kinds.pop() if len(kinds) == 1 else None)
    return NumberType(first.dimension, next((each.kind for each in found if each.kind), None))


def _compare(node: Compare, types: Types) -> YesNoType:
    left, right = infer(node.left, types), infer(node.right, types)
    _comparable(node, (node.left, left), (node.right, right), ordered=node.relation not in ("==", "!="))
    return YesNoType()


def _member(node: Member, types: Types) -> YesNoType:
    item = infer(node.item, types)
    if isinstance(node.among, Listed):
        if not node.among.items:
            raise FormulaError("formula-type", "the list is empty", "write what it may be", node.among.start)
        for each in node.among.items:
            _comparable(node, (node.item, item), (each, infer(each, types)), ordered=False)
        return YesNoType()
    among = infer(node.among, types)
    if not isinstance(among, ListType):
        wrong = f"{written(node.among)} is {called(among)}, not a list"
        raise FormulaError("formula-type", wrong, "write a list in [ ]", node.among.start)
    _comparable(node, (node.item, item), (node.among, among.element), ordered=False)
    return YesNoType()


def _comparable(node: Node, left: tuple[Node, Type], right: tuple[Node, Type], ordered: bool) -> None:
    match left[1], right[1]:
        case NumberType() as one, NumberType() as other:
            _alike("compared", node, (left[0], one), (right[0], other))
        case TextType() as one, TextType() as other if not ordered:
            _words((left[0], one), (right[0], other))
        case YesNoType(), YesNoType() if not ordered:
            pass
        case one, other:
            wrong = f"{written(left[0])} is {called(one)} and {written(right[0])} is {called(other)}"
            hint = "compare like with like; order is for numbers only"
            raise FormulaError("formula-type", f"{wrong}: they cannot be compared", hint, node.start)


def _words(left: tuple[Node, TextType], right: tuple[Node, TextType]) -> None:
    """A word that the other side can never be is a slip of spelling."""
    for (node, _), (other_node, other) in ((left, right), (right, left)):
        if isinstance(node, Text) and other.choices is not None and node.value not in other.choices:
            near = next(iter(get_close_matches(node.value, other.choices)), None)
            hint = f"did you mean {near!r}?" if near else "it can be " + ", ".join(other.choices)
            raise FormulaError("formula-choice", f"{written(other_node)} is never {node.value!r}", hint, node.start)
    one, other = left[1], right[1]
    if one.choices is not None and other.choices is not None and not set(one.choices) & set(other.choices):
        wrong = f"{written(left[0])} and {written(right[0])} have no word in common"
        raise FormulaError("formula-choice", wrong, "they can never be equal", left[0].start)


_NumberSide = tuple[Node, NumberType]


def _alike(done: str, node: Node, left: _NumberSide, right: _NumberSide) -> None:
    """Raise unless the two can be `done` (compared, added ...)."""
    for (bare, _), (other_node, other) in ((left, right), (right, left)):
        if is_bare(bare) and not is_bare(other_node):
            _check_bare(done, bare, other_node, other)
    one, other = left[1], right[1]
    if one.dimension != other.dimension and not is_bare(left[0]) and not is_bare(right[0]):
        wrong = f"{written(left[0])} is {called(one)} and {written(right[0])} is {called(other)}: they cannot be {done}"
        raise FormulaError("formula-dimension", wrong, "see what is missing, or too much, on one side", node.start)
    if done == "compared":
        writable(*left)
        writable(*right)


def _check_bare(done: str, bare: Node, other_node: Node, other: NumberType) -> None:
    """A number without unit beside a measure. Only zero is the same in every unit, except in degrees."""
    zero = isinstance(bare, Number) and bare.value == 0 and done == "compared"
    if zero and other.dimension != TEMPERATURE:
        return
    unclear = other.kind == "angle" or (other.kind == "share" and done == "compared")
    if other.dimension != NUMBER or unclear:
        wrong = f"{written(bare)} has no unit and {written(other_node)} is {called(other)}: they cannot be {done}"
        raise FormulaError("formula-bare-number", wrong, _LIMIT, bare.start)
