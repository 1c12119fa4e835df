"""Every equation of facts: dimensions agree, it has a source, its printed line gives its value; none is left out."""

from __future__ import annotations

import importlib
import math
import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from compliance.rules.formulas.equations import Equation, Solved, equation
from compliance.rules.formulas.nodes import FormulaError, FormulaUndefined
from compliance.rules.formulas.parsing import read
from compliance.rules.formulas.symbols import (
    GRAVITY,
    PI,
    Input,
    Numeral,
    Numerals,
    Series,
    Symbol,
    not_negative,
    positive,
    size,
)
from compliance.steps import Given
from compliance.units import KINDS, Writer, measure
from tests.each import for_each
from tests.recomputing import recomputed, recomputed_as_printed

ROOT = Path(__file__).parents[2]
DEFINED = re.compile(r"^(\w+)(?:, \w+)* = (?:equation|_figure)\(", re.MULTILINE)
US, SI = Writer("us"), Writer("si")


def modules() -> list[tuple[str, str]]:
    """Every module of facts that makes equations, with its text."""
    texts = {path: path.read_text("utf-8") for path in sorted((ROOT / "compliance/facts").rglob("*.py"))}
    return [
        (".".join(path.relative_to(ROOT).with_suffix("").parts), text)
        for path, text in texts.items()
        if DEFINED.search(text)
    ]


@cache
def registered() -> dict[str, Equation]:
    found: dict[str, Equation] = {}
    for name, _ in modules():
        for one in importlib.import_module(name).EQUATIONS:
            found[f"{name.rpartition('.')[2]}: {one.title}: {one.expression}"] = one
    return found


@for_each(["all"], lambda _: [(name, name, text) for name, text in modules()])
def test_every_equation_of_a_module_is_registered(name: str, text: str) -> None:
    module = importlib.import_module(name)
    made = [getattr(module, one) for one in DEFINED.findall(text)]
    assert made and all(any(one is listed for listed in module.EQUATIONS) for one in made)


def test_there_are_many() -> None:
    assert len(registered()) > 100


@for_each(["all"], lambda _: registered().items())
def test_dimensions_agree_on_both_sides(one: Equation) -> None:
    one.check()
    assert {symbol.kind for symbol in (*one.symbols.values(), one.result)} <= set(KINDS)


def test_a_line_without_a_source_is_refused() -> None:
    """So that no formula of a project, nor one here, is printed without one."""
    with pytest.raises(AssertionError, match="Thrust has no source"):
        THRUST.sourced("").step(1500.0, 6.0, 1.5)


def inputs(one: Equation, writer: Writer, growth: float) -> dict[str, Input]:
    """Numbers that print exactly, no two alike."""
    found: dict[str, Input] = {}
    for index, (name, symbol) in enumerate(one.symbols.items()):
        if symbol.is_parameter:
            several = [_number(symbol.kind, writer, growth ** (index + place)) for place in range(3)]
            found[name] = several if symbol.several else several[0]
    return found


def _number(kind: str, writer: Writer, times: float) -> float:
    example = KINDS[kind].example.split(", or")[0]
    if not KINDS[kind].si:
        return round(0.3 * times, 3) if kind == "ratio" else float(round(5 * times))
    return measure(writer.write(measure(example, kind).si * times, kind).replace("−", "-"), kind).si


def each_printed(system: str) -> list[tuple[str, Equation, Writer]]:
    return [(name, one, US if system == "us" else SI) for name, one in registered().items()]


@for_each(["us", "si"], each_printed)
def test_the_printed_line_gives_the_value(one: Equation, writer: Writer) -> None:
    tried = 0
    for growth in (1.13, 0.8, 1.5):
        try:
            found = one.sourced(one.source or "that of a coefficient")(**inputs(one, writer, growth))
        except (FormulaUndefined, ValueError):
            continue
        step, tried = found.step(), tried + 1
        assert step.result.value == found and math.isfinite(found)
        for value in (recomputed(step), recomputed_as_printed(step, writer)):
            whole = math.ceil(value) if step.says.endswith("rounded up") else value
            assert whole == pytest.approx(found, rel=1e-9, abs=1e-12), step.line(writer)
        assert step.line(writer).startswith(step.says)
    assert tried


THRUST = equation(
    "Thrust", "load * span ** 2 / (8 * rise)", Symbol("H", "line_load", "outward thrust"), "statics",
    load=not_negative("w", "pressure"), span=positive("L", "length"), rise=positive("f", "length"),
)  # fmt: skip


def test_numbers_are_given_in_order_or_by_name() -> None:
    assert THRUST(1500.0, 6.0, 1.8) == THRUST(1500.0, rise=1.8, span=6) == 3750
    for values, named in (((1500.0, 6.0), {}), ((1.0, 2.0, 3.0, 4.0), {}), ((1.0, 2.0), {"span": 2.0})):
        with pytest.raises(TypeError, match="load, span, rise"):
            THRUST(*values, **named)
    with pytest.raises(ValueError, match="rise must be above zero"):
        THRUST(1500.0, 6.0, 0.0)
    with pytest.raises(ValueError, match="load must not be below zero"):
        THRUST(-1.0, 6.0, 1.0)


def test_a_value_is_a_float_that_shows_its_line() -> None:
    found = THRUST(1500.0, 6.0, Given("anything", 1.5, "length", "as measured"))
    assert isinstance(found, Solved) and found == 4500.0 and hash(found) == hash(4500.0) and found + 1 == 4501
    step = found.step()
    assert step.line(SI) == "Thrust: H = w × L² / (8 × f) = (1.5 kPa) × (6 m)² / (8 × (1.5 m)) = 4.5 kN/m"
    assert [one.symbol for one in step.given] == ["w", "L", "f"] and step.given[2].meaning == "as measured"
    assert found.steps() == (step,) and step.source == "statics"


def test_the_same_under_another_name() -> None:
    other = THRUST.titled("Push").sourced("a book").giving("P").of_kinds(load="line_load", result="force")
    step = other(1500.0, 6.0, 1.5).step()
    assert (step.says, step.source, step.result.symbol, step.result.kind) == ("Push", "a book", "P", "force")
    other.check()


def test_without_value_names_its_numbers_and_no_formula() -> None:
    step = THRUST.without_value(math.inf, 1500.0, rise=0.0).step()
    assert (step.formula, step.result.value, [one.symbol for one in step.given]) == ("", math.inf, ["w", "f"])


def test_series_are_written_out() -> None:
    mean = equation("Mean", "sum(x) / n", Symbol("m", "stress"), "by definition", x=Series("x", "stress"),
                    n=Symbol("n", "count"))  # fmt: skip
    mean.check()
    assert mean([1e6, 2e6], 2).step().formula == "(x1 + x2) / n"
    long = mean([float(one) for one in range(1, 12)], 11)
    assert long == 6 and long.step().formula == "(x1 + x2 + … + x11) / n"
    largest = equation("Largest", "max(x)", Symbol("m", "stress"), "by definition", x=Series("x", "stress"))
    assert largest((1e6, 3e6)).step().formula == "max(x1, x2)"
    both = equation(
        "Both", "a + sum(x)", Symbol("s", "stress"), "sum", a=Symbol("a", "stress"), x=Series("x", "stress")
    )
    assert both(1.0, ()).step().formula == "a" and both(1.0, (2.0, 3.0)).step().formula == "a + x1 + x2"
    assert equation("None", "sum(x)", Symbol(""), "sum", x=Series("x"))(()).step().formula == "0"


def test_numbers_of_the_data_stand_as_numbers() -> None:
    load = equation("Load", "sum(factor * load)", Symbol("w", "line_load"), "a code", factor=Numerals(),
                    load=Series("load", "line_load"))  # fmt: skip
    step = load((1.2, 1.6), [Given("D", 5000.0, "line_load"), Given("S", 2500.0, "line_load")]).step()
    assert step.formula == "1.2 × D + 1.6 × S" and [one.symbol for one in step.given] == ["D", "S"]
    assert step.numbers_put_in(SI) == "1.2 × (5 kN/m) + 1.6 × (2.5 kN/m)"
    times = equation("Times", "times * (z / top) ** (2 / alpha)", Symbol("K"), "a code", times=Numeral(),
                     z=positive("z", "length"), top=positive("zg", "length"), alpha=positive("α"))  # fmt: skip
    times.check()
    assert times(2.01, 10.0, 365.76, 7.0) == pytest.approx(2.01 * (10 / 365.76) ** (2 / 7))
    assert times(2.01, 10.0, 365.76, 7.0).step().formula == "2.01 × (z / zg)^(2 / α)"


def test_constants_are_not_asked_for() -> None:
    weight = equation("Weight", "density * gravity * pi * d ** 2 / 4", Symbol("w", "line_load"), "mass × gravity",
                      density=Symbol("ρ", "density"), d=size("d", "length"), gravity=GRAVITY, pi=PI)  # fmt: skip
    weight.check()
    found = weight(1000.0, -2.0)
    assert found == pytest.approx(1000 * 9.80665 * math.pi)
    assert found.step().numbers_put_in(SI) == "(1000 kg/m³) × (standard gravity) × π × (2 m)² / 4"
    assert [one.symbol for one in found.step().given] == ["ρ", "g", "d"]


def test_numbers_without_limit_go_through() -> None:
    assert THRUST.expression and equation("Use", "max(load / allowed, 0)", Symbol(""), "x", load=Symbol("n", "force"),
                                          allowed=Symbol("N", "force"))(math.inf, 1.0) == math.inf  # fmt: skip
    for bad in ((math.nan, 1.0), (1.0, 0.0), (math.inf, math.inf)):
        with pytest.raises(FormulaUndefined):
            equation("Use", "load / allowed", Symbol(""), "x", load=Symbol("n"), allowed=Symbol("N"))(*bad)


@pytest.mark.parametrize(
    ("expression", "result", "code"),
    [
        ("load * span", "force", "formula-dimension"),
        ("load + span", "pressure", "formula-dimension"),
        ("exp(load)", "ratio", "formula-dimension"),
        ("span ** load", "length", "formula-dimension"),
        ("load + 1", "pressure", "formula-bare-number"),
        ("load", "pressure", "formula-name"),
        ("load * spam", "line_load", "formula-name"),
    ],
)
def test_a_slip_is_found_by_the_check(expression: str, result: str, code: str) -> None:
    symbols: dict[str, Any] = {"load": Symbol("w", "pressure"), "span": Symbol("L", "length")}
    if code != "formula-name" and "span" not in expression:
        del symbols["span"]
    with pytest.raises(FormulaError) as caught:
        equation("Slip", expression, Symbol("x", result), "none", **symbols).check()
    assert caught.value.code == code


@pytest.mark.parametrize("text", ["sin(a)", "exp(a)", "ln(a)", "sum(a)", "max(a)", "2 ** a", "a ** (b + 1)"])
def test_rules_may_use_no_more_than_before(text: str) -> None:
    with pytest.raises(FormulaError):
        read(text)
