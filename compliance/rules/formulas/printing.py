"""A formula as people write it: × / − ² √ ≤ ≥ and as few brackets as read without doubt."""

from __future__ import annotations

from collections.abc import Callable

from compliance.rules.formulas.nodes import (
    Arithmetic,
    Call,
    Compare,
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

RELATIONS = {"<=": "≤", "<": "<", ">=": "≥", ">": ">", "==": "=", "!=": "≠"}
_SIGNS = {"+": "+", "-": "−", "*": "×", "/": "/"}
_RAISED = str.maketrans("123456", "¹²³⁴⁵⁶")
# How tightly a part holds together; it is bracketed where its surroundings ask for more.
_LOOSE, _JOINED, _NOT, _RELATION, _SIDE, _SUM, _QUOTIENT, _PRODUCT, _POWER, _WHOLE = range(10)

NameWriter = Callable[[str], str]


def written(node: Node, label: NameWriter = str) -> str:
    """The formula with a label for each name."""
    return _Writing(label, values=False).text(node, _LOOSE)


def written_with_values(node: Node, value: NameWriter) -> str:
    """The formula with a written value for each name: in brackets where it is an operand and has a unit or minus."""
    return _Writing(value, values=True).text(node, _LOOSE)


class _Writing:
    def __init__(self, put: NameWriter, values: bool) -> None:
        self._put, self._values = put, values

    def text(self, node: Node, around: int) -> str:
        text, holds = self._part(node)
        return f"({text})" if holds < around else text

    def _part(self, node: Node) -> tuple[str, int]:
        match node:
            case Number(text=text):
                return text, _POWER if "e" in text.lower() else _WHOLE
            case Text(value=value):
                return value, _WHOLE
            case YesNo(value=value):
                return "yes" if value else "no", _WHOLE
            case Name(name=name):
                text = self._put(name)
                return text, _SIDE if self._values and not text.replace(".", "").isalnum() else _WHOLE
            case Negative(of=of):
                return f"−{self.text(of, _POWER)}", _SUM
            case Arithmetic():
                return self._arithmetic(node)
            case Power():
                return self._power(node)
            case Raised(base=base, exponent=worked):
                return f"{self.text(base, _WHOLE)}^{self.text(worked, _WHOLE)}", _POWER
            case Call():
                return self._call(node)
            case Listed(items=items):
                return ", ".join(self.text(item, _SIDE) for item in items), _LOOSE
        return self._statement(node)

    def _statement(self, node: Compare | Member | Not | Joined) -> tuple[str, int]:
        match node:
            case Compare(left=left, right=right, relation=relation):
                return f"{self.text(left, _SIDE)} {RELATIONS[relation]} {self.text(right, _SIDE)}", _RELATION
            case Member(item=item, among=among, negated=negated):
                words = "is none of" if negated else "is one of"
                return f"{self.text(item, _SIDE)} {words} {self.text(among, _LOOSE)}", _LOOSE
            case Not(of=of):
                return f"not {self.text(of, _SIDE)}", _NOT
            case Joined(word=word, parts=parts):
                return f" {word} ".join(self.text(part, _NOT) for part in parts), _JOINED

    def _arithmetic(self, node: Arithmetic) -> tuple[str, int]:
        """A quotient inside a product is bracketed: a / b × c is read both ways."""
        summed = node.sign in "+-"
        left = self.text(node.left, _SUM if summed else _PRODUCT)
        right = self.text(node.right, _QUOTIENT if summed else _POWER)
        return f"{left} {_SIGNS[node.sign]} {right}", _SUM if summed else _QUOTIENT if node.sign == "/" else _PRODUCT

    def _power(self, node: Power) -> tuple[str, int]:
        exponent = abs(node.exponent)
        if exponent == 0.5:
            text, holds = self._root(node.base), _POWER
        elif exponent == 1:
            text, holds = self._part(node.base)
        elif exponent.is_integer():
            text, holds = self._base(node.base) + f"{exponent:g}".translate(_RAISED), _POWER
        else:
            text, holds = f"{self._base(node.base)}^{exponent:g}", _POWER
        if node.exponent > 0:
            return text, holds
        return f"1 / {text if holds >= _POWER else f'({text})'}", _QUOTIENT

    def _base(self, node: Node) -> str:
        text = self.text(node, _WHOLE)
        return f"({text})" if isinstance(node, Name) and not self._values and " " in text else text

    def _root(self, node: Node) -> str:
        text = self.text(node, _LOOSE)
        return f"√{text}" if isinstance(node, Name | Number) and text.isalnum() else f"√({text})"

    def _call(self, node: Call) -> tuple[str, int]:
        if node.function == "sqrt":
            return self._root(node.arguments[0]), _POWER
        if node.function == "whole_up":
            return self._part(node.arguments[0])
        return f"{node.function}({', '.join(self.text(each, _LOOSE) for each in node.arguments)})", _WHOLE
