"""From the text of a formula to its parts, through Python's own parser and a whitelist over what it returns."""

from __future__ import annotations

import ast
import math
import re
from collections.abc import Mapping
from difflib import get_close_matches

from compliance.record import record
from compliance.rules.formulas.lexing import check_characters
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
)

MOST_NODES = 200
DEEPEST = 30
HIGHEST_POWER = 6
_SIGNS: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
_RELATIONS: dict[type[ast.cmpop], str] = {
    ast.LtE: "<=",
    ast.Lt: "<",
    ast.GtE: ">=",
    ast.Gt: ">",
    ast.Eq: "==",
    ast.NotEq: "!=",
}
_NAME = re.compile(r"[a-z][a-z0-9_]*(?:\.[a-z][a-z0-9_]*)*")
_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?")


@record
class Language:
    """What a formula may hold: `functions` with their least and greatest number of values, and whether the exponent of
    a power may be worked out."""

    functions: Mapping[str, tuple[int, int]]
    worked_exponents: bool = False

    @property
    def named(self) -> str:
        *others, last = self.functions
        return f"{', '.join(others)} and {last}"


RULES = Language({"min": (2, MOST_NODES), "max": (2, MOST_NODES), "abs": (1, 1), "sqrt": (1, 1)})
EQUATIONS = Language(
    {"min": (1, MOST_NODES), "max": (1, MOST_NODES)}
    | dict.fromkeys(("abs", "sqrt", "exp", "ln", "sin", "cos", "tan", "sum", "whole_up"), (1, 1)),
    worked_exponents=True,
)
"""Of facts. `min`, `max` and `sum` of one value go over the numbers of a series."""


def read(text: str, language: Language = RULES) -> Node:
    """The parts of `text`. Raises FormulaError."""
    check_characters(text)
    level = re.sub(r"[\n\r\t]", " ", text)
    indent = len(level) - len(level.lstrip(" "))
    try:
        tree = ast.parse(level.strip(" "), mode="eval")
    except SyntaxError as error:
        offset = min(indent + max((error.offset or 1) - 1, 0), len(text))
        hint = "write for example wall.height / wall.thickness <= most"
        raise FormulaError("formula-syntax", "the formula cannot be read here", hint, offset) from None
    except (ValueError, MemoryError, RecursionError):
        raise _too_long("it is nested too deep for any reader", 0) from None
    reader = _Reader(level, indent, language)
    reader.check_size(tree.body)
    return reader.node(tree.body)


def _too_long(wrong: str, offset: int) -> FormulaError:
    return FormulaError("formula-too-long", wrong, "split the rule into several", offset)


class _Reader:
    """Turns Python's parts into ours; whatever is not named here is refused."""

    def __init__(self, text: str, indent: int, language: Language) -> None:
        self._text, self._indent, self._language = text, indent, language
        self._bytes = None if text.isascii() else text.encode()

    def check_size(self, root: ast.expr) -> None:
        """Counted without recursion, so that no depth can exhaust the stack."""
        waiting, count = [(root, 1)], 0
        while waiting:
            node, depth = waiting.pop()
            count += 1
            if count > MOST_NODES:
                raise _too_long(f"the formula has more than {MOST_NODES} parts", self.start(node))
            if depth > DEEPEST:
                raise _too_long(f"the formula is nested more than {DEEPEST} deep", self.start(node))
            if not isinstance(node, ast.Attribute):  # a dotted name is one part
                waiting += [(child, depth + 1) for child in ast.iter_child_nodes(node) if isinstance(child, ast.expr)]

    def start(self, node: ast.expr) -> int:
        return self._characters(node.col_offset)

    def end(self, node: ast.expr) -> int:
        return self._characters(node.end_col_offset or 0)

    def _characters(self, column: int) -> int:
        """Python counts bytes of UTF-8; people and editors count characters."""
        column += self._indent
        return column if self._bytes is None else len(self._bytes[:column].decode())

    def refused(self, node: ast.expr) -> FormulaError:
        shown = self._text[self.start(node) : self.end(node)]
        return FormulaError(
            "formula-syntax",
            f"{shown[:60]!r} is of no use in a formula",
            "use names, numbers, texts in quotes, + - * / **, comparisons, and or not, in, min max abs sqrt",
            self.start(node),
        )

    def node(self, node: ast.expr) -> Node:
        start, end = self.start(node), self.end(node)
        match node:
            case ast.Constant():
                return self.constant(node)
            case ast.Name() | ast.Attribute():
                return self.name(node)
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                return Negative(start, end, self.node(operand))
            case ast.UnaryOp(op=ast.Not(), operand=operand):
                return Not(start, end, self.node(operand))
            case ast.BinOp(op=ast.Pow()):
                if self._language.worked_exponents and any(isinstance(part, ast.Name) for part in ast.walk(node.right)):
                    return Raised(start, end, self.node(node.left), self.node(node.right))
                return Power(start, end, self.node(node.left), self.exponent(node.right))
            case ast.BinOp(op=sign) if type(sign) in _SIGNS:
                return Arithmetic(
                    start, end=end, sign=_SIGNS[type(sign)], left=self.node(node.left), right=self.node(node.right)
                )
            case ast.BoolOp(op=word, values=values):
                name = "and" if isinstance(word, ast.And) else "or"
                return Joined(start, end, name, tuple(map(self.node, values)))
            case ast.Compare():
                return self.compare(node)
            case ast.Call():
                return self.call(node)
            case ast.List(elts=items) | ast.Tuple(elts=items):
                return Listed(start, end, tuple(map(self.node, items)))
        raise self.refused(node)

    def constant(self, node: ast.Constant) -> Node:
        start, end, value = self.start(node), self.end(node), node.value
        if isinstance(value, str):
            return Text(start, end, value)
        text = self._text[start:end]
        if isinstance(value, bool) or not isinstance(value, int | float) or not _NUMBER.fullmatch(text):
            raise FormulaError("formula-number", f"{text} is not a number here", "write for example 0.5 or 12", start)
        number = float(text)
        if not math.isfinite(number):
            raise FormulaError("formula-number", f"{text} is too large", "write a number of ordinary size", start)
        return Number(start, end, number, text)

    def name(self, node: ast.Name | ast.Attribute) -> Node:
        start, end = self.start(node), self.end(node)
        name = self._text[start:end]
        if name in ("true", "false"):
            return YesNo(start, end, name == "true")
        if not _NAME.fullmatch(name):
            hint = "write small letters, digits and _ with single dots between words, as in wall.least_thickness"
            raise FormulaError("formula-name", f"{name!r} is not a name", hint, start)
        if name.partition(".")[0] in (*self._language.functions, "true", "false"):
            raise FormulaError("formula-name", f"{name!r} is no name of a value", "put ( ) after a function", start)
        return Name(start, end, name)

    def exponent(self, node: ast.expr) -> float:
        sign = 1.0
        inner = node
        if isinstance(inner, ast.UnaryOp) and isinstance(inner.op, ast.USub):
            sign, inner = -1.0, inner.operand
        read = self.constant(inner) if isinstance(inner, ast.Constant) else None
        if isinstance(read, Number) and 0 < read.value <= HIGHEST_POWER and (2 * read.value).is_integer():
            return sign * read.value
        raise FormulaError(
            "formula-power",
            f"{self._text[self.start(node) : self.end(node)]!r} cannot be a power",
            f"write a whole or half number up to {HIGHEST_POWER}, as in ** 2 or ** 0.5",
            self.start(node),
        )

    def compare(self, node: ast.Compare) -> Node:
        start, end = self.start(node), self.end(node)
        sides = [self.node(side) for side in (node.left, *node.comparators)]
        if any(isinstance(sign, ast.In | ast.NotIn) for sign in node.ops):
            if len(node.ops) > 1:
                raise FormulaError("formula-syntax", "in stands in a chain", "join the parts with and", start)
            return Member(start, end=end, item=sides[0], among=sides[1], negated=isinstance(node.ops[0], ast.NotIn))
        if not all(type(sign) in _RELATIONS for sign in node.ops):
            raise self.refused(node)
        pairs = tuple(
            Compare(left.start, end=right.end, relation=_RELATIONS[type(sign)], left=left, right=right)
            for sign, left, right in zip(node.ops, sides, sides[1:], strict=False)
        )
        return pairs[0] if len(pairs) == 1 else Joined(start, end, "and", pairs)

    def call(self, node: ast.Call) -> Node:
        start, end = self.start(node), self.end(node)
        name = self._text[self.start(node.func) : self.end(node.func)]
        functions = self._language.functions
        if name not in functions or not isinstance(node.func, ast.Name):
            near = next(iter(get_close_matches(name, functions)), None)
            hint = f"did you mean {near}?" if near else f"the functions are {self._language.named}"
            raise FormulaError("formula-call", f"there is no function {name[:60]!r}", hint, start)
        least, most = functions[name]
        if node.keywords or not least <= len(node.args) <= most:
            wanted = "one value" if most == 1 else "two values or more, with commas between them"
            raise FormulaError("formula-call", f"{name} has the wrong values", f"give it {wanted}", start)
        return Call(start, end, name, tuple(map(self.node, node.args)))
