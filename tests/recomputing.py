"""A worked line computed again from nothing but its own text: with its values, or with the numbers as printed."""

from __future__ import annotations

import math
import re

from compliance.rules.formulas.symbols import STANDARD_GRAVITY
from compliance.steps import Step
from compliance.units import KINDS, Writer, measure

_NAMED = {"max": max, "min": min, "exp": math.exp, "root": math.sqrt, "sin": math.sin, "cos": math.cos,
          "tan": math.tan, "ln": math.log, "log": math.log, "abs": abs, "π": math.pi}  # fmt: skip
_SIGNS = {"×": "*", "²": "**2", "³": "**3", "⁴": "**4", "−": "-", "^": "**", "√": "root"}


def recomputed(step: Step) -> float:
    """The formula with the values beside it put in."""
    values = {given.symbol: given.value for given in step.given if given.symbol}
    if values.get("g") == "standard gravity":
        values["g"] = STANDARD_GRAVITY
    names = {symbol: f"v{index}_" for index, symbol in enumerate(sorted(values, key=len, reverse=True))}
    text = re.sub(r"\|([^|]*)\|", r"abs(\1)", step.formula)
    for symbol, name in names.items():
        text = re.sub(rf"(?<![\w.]){re.escape(symbol)}(?![A-Za-z0-9_])", name, text)
    return _calculated(text, {names[symbol]: value for symbol, value in values.items()})


def recomputed_as_printed(step: Step, writer: Writer) -> float:
    """The line of numbers, each as it is printed."""
    text = step.numbers_put_in(writer).replace("standard gravity", f"{STANDARD_GRAVITY}")
    numbers = {step.put_in(given, writer): given for given in step.given if isinstance(given.value, float)}
    names: dict[str, object] = {}
    for index, written in enumerate(sorted(numbers, key=len, reverse=True)):
        kind = numbers[written].kind
        plain = not KINDS[kind].si
        number = written.replace("−", "-")
        names[f"v{index}_"] = float(number) if plain else measure(number, kind).si
        text = re.sub(rf"(?<![\w.]){re.escape(written)}(?![\w.])", f"v{index}_", text)
    return _calculated(text, names)


def _calculated(text: str, names: dict[str, object]) -> float:
    text = re.sub(r"√(\w+)", r"root(\1)", text)
    for sign, meant in _SIGNS.items():
        text = text.replace(sign, meant)
    return float(eval(text, {"__builtins__": {}}, _NAMED | names))
