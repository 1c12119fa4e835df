"""Arithmetic of formulas against Python's own evaluation, and the printed formula against both."""

from __future__ import annotations

import math
import re
from types import SimpleNamespace
from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from compliance.rules.formulas.formula import FormulaUndefined, parse
from compliance.units import Writer


def _tree(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """Some with brackets and some without, so that precedence counts."""
    bracketed = inner.map(lambda one: f"({one})")
    some = st.one_of(inner, bracketed)
    pair = st.tuples(some, some)
    return st.one_of(
        st.tuples(some, st.sampled_from(["+", "-", "*", "/"]), some).map(" ".join),
        st.tuples(st.sampled_from(["min", "max"]), pair).map(lambda two: f"{two[0]}({two[1][0]}, {two[1][1]})"),
        inner.map(lambda one: f"abs({one})"),
        inner.map(lambda one: f"sqrt(abs({one}))"),
        st.tuples(bracketed, st.sampled_from(["2", "-1", "1"])).map(lambda two: f"{two[0]} ** {two[1]}"),
        inner.map(lambda one: f"abs({one}) ** 0.5"),
        some.map(lambda one: f"-{one}"),
    )


_LEAVES = st.one_of(
    st.sampled_from(["a", "b", "c", "wall.d"]),
    st.integers(0, 400).map(lambda quarters: f"{quarters / 4}"),
)
TREES = st.recursive(_LEAVES, _tree, max_leaves=8)
_NUMBERS = st.integers(-400, 400).map(lambda quarters: quarters / 4)


def python_value(text: str, numbers: dict[str, float]) -> Any:
    names = {**numbers, "min": min, "max": max, "abs": abs, "sqrt": math.sqrt, "wall": SimpleNamespace(d=numbers["d"])}
    return eval(text, {"__builtins__": {}}, names)


def _short(text: str) -> bool:
    return len(text) <= 500


@given(TREES.filter(_short), _NUMBERS, _NUMBERS, _NUMBERS, _NUMBERS)
@example("-a ** 2", 3.0, 0.0, 0.0, 0.0)
@example("a - b - c", 1.0, 2.0, 3.0, 0.0)
@example("a / b / c", 1.0, 2.0, 3.0, 0.0)
@example("a / 0.0", 1.0, 2.0, 3.0, 0.0)
def test_arithmetic_is_that_of_python(text: str, a: float, b: float, c: float, d: float) -> None:
    formula = parse(text)
    values = {"a": a, "b": b, "c": c, "wall.d": d}
    try:
        expected = python_value(text, {"a": a, "b": b, "c": c, "d": d})
    except ZeroDivisionError:
        with pytest.raises(FormulaUndefined, match="division by zero"):
            formula.compile()(values)
    else:
        assert formula.compile()(values) == expected


@given(TREES.filter(_short), st.sampled_from(["<=", "<", ">=", ">"]), TREES.filter(_short), _NUMBERS, _NUMBERS)
def test_comparisons_are_those_of_python_away_from_the_limit(
    left: str, relation: str, right: str, a: float, b: float
) -> None:
    text = f"{left} {relation} {right}"
    assume(_short(text))
    try:
        one, other = (python_value(side, {"a": a, "b": b, "c": 1.5, "d": -2.0}) for side in (left, right))
    except ZeroDivisionError:
        assume(False)
    assume(abs(one - other) > 1e-6 * max(abs(one), abs(other), 1e6))
    expected = {"<=": one <= other, "<": one < other, ">=": one >= other, ">": one > other}[relation]
    assert parse(text).compile()({"a": a, "b": b, "c": 1.5, "wall.d": -2.0}) is expected


_BACK = {"×": "*", "−": "-", "²": "**2", "³": "**3", "⁴": "**4", "^": "**"}


def read_back(text: str) -> str:
    """What people read, as Python."""
    text = re.sub(r"√([\w.]+?)(?=[²³⁴^ ),]|$)", r"sqrt(\1)", text).replace("√(", "sqrt(")
    for sign, python in _BACK.items():
        text = text.replace(sign, python)
    return text


_WHOLE = st.integers(-20, 20).map(float)


@given(TREES.filter(lambda text: len(text) <= 500), _WHOLE, _WHOLE, _WHOLE, _WHOLE)
def test_what_is_printed_comes_to_what_it_says(text: str, a: float, b: float, c: float, d: float) -> None:
    """Formula and numbers put in, read back as Python reads them, give the value of the formula itself."""
    numbers = {"a": a, "b": b, "c": c, "d": d}
    try:
        expected = python_value(text, numbers)
    except ZeroDivisionError:
        assume(False)
    labels = {"wall.d": "d"}
    kinds = dict.fromkeys(("a", "b", "c", "wall.d"), "ratio")
    (step,) = parse(text).explain({"a": a, "b": b, "c": c, "wall.d": d}, labels, kinds)
    assert step.result.value == expected
    names = {"min": min, "max": max, "abs": abs, "sqrt": math.sqrt}
    tolerance = pytest.approx(expected, rel=1e-9, abs=1e-9 * max(1.0, abs(expected)))
    assert eval(read_back(step.formula), {"__builtins__": {}}, {**names, **numbers}) == tolerance
    put_in = step.numbers_put_in(Writer()) or step.formula
    assert not re.search(r"[abcd](?![a-z])", re.sub(r"abs|max|min", "", put_in))
    assert eval(read_back(put_in), {"__builtins__": {}}, names) == tolerance
