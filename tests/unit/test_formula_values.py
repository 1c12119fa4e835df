"""Values of formulas: against Python's own arithmetic, Kleene's tables, and limits met exactly."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.rules.formulas.formula import FormulaUndefined, Value, parse
from compliance.units import measure

T, F, N = True, False, None


def value(text: str, **values: Value) -> Value:
    return parse(text).compile()(values)


# What is missing: Kleene, Introduction to Metamathematics (1952), section 64, the strong tables; recalled from memory.

KLEENE_AND = [(T, T, T), (T, F, F), (T, N, N), (F, T, F), (F, F, F), (F, N, F), (N, T, N), (N, F, F), (N, N, N)]
KLEENE_OR = [(T, T, T), (T, F, T), (T, N, T), (F, T, T), (F, F, F), (F, N, N), (N, T, T), (N, F, N), (N, N, N)]


@pytest.mark.parametrize(("a", "b", "expected"), KLEENE_AND)
def test_and(a: bool | None, b: bool | None, expected: bool | None) -> None:
    assert value("a and b", a=a, b=b) is expected
    assert value("not (not a or not b)", a=a, b=b) is expected


@pytest.mark.parametrize(("a", "b", "expected"), KLEENE_OR)
def test_or(a: bool | None, b: bool | None, expected: bool | None) -> None:
    assert value("a or b", a=a, b=b) is expected
    assert value("not (not a and not b)", a=a, b=b) is expected


@pytest.mark.parametrize(("a", "expected"), [(T, F), (F, T), (N, N)])
def test_not(a: bool | None, expected: bool | None) -> None:
    assert value("not a", a=a) is expected


@given(st.permutations([T, F, N, T]), st.sampled_from(["and", "or"]))
def test_the_order_of_parts_changes_nothing(parts: list[bool | None], word: str) -> None:
    names = dict(zip("abcd", parts, strict=True))
    assert value(f" {word} ".join("abcd"), **names) is value(f" {word} ".join(sorted("abcd", reverse=True)), **names)


@pytest.mark.parametrize(
    "text",
    [
        *("a", "a + 1", "1 - a", "a * 0", "0 / a", "a ** 2", "-a", "abs(a)", "sqrt(a)", "min(1, a)", "max(a, b)"),
        *("a <= 1", "1 < a", "a == 1", "a != 1", "a == b", "a in [1, 2]", "a not in [1, 2]", "1 <= a <= 2"),
        *("3 in [1, a]", "a < a", "a - a == 0"),
    ],
)
def test_missing_goes_through(text: str) -> None:
    assert value(text, a=None, b=2.0) is None
    assert value(text, b=2.0) is None


def test_lists_with_something_missing() -> None:
    assert value("2 in [1, a, 2]", a=None) is True
    assert value("2 not in [1, a, 2]", a=None) is False
    assert value("3 not in [1, a, 2]", a=None) is None
    assert value("'x' in a", a=None) is None


@pytest.mark.parametrize(
    ("low", "middle", "high", "expected"),
    [(1, 2, 3, T), (3, 2, 3, F), (1, 4, 3, F), (1, 2, None, N), (3, 2, None, F), (None, 4, 3, F), (1, None, 3, N)],
)
def test_chains(low: float | None, middle: float | None, high: float | None, expected: bool | None) -> None:
    assert value("low <= middle <= high", low=low, middle=middle, high=high) is expected


# Words and lists.


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("word == 'clay'", T),
        ("word != 'clay'", F),
        ("word == 'Clay'", F),
        ("word in ['lime', 'clay']", T),
        ("word not in ('lime', 'clay')", F),
        ("word in words", T),
        ("'lime' in words", F),
        ("'cla' in words", F),
        ("'clay' in many", T),
        ("2 in numbers", T),
        ("3 in numbers", F),
        ("yes == true", T),
        ("yes != true", F),
        ("true and not false", T),
        ("yes == (1 < 2)", T),
    ],
)
def test_words_and_lists(text: str, expected: bool) -> None:
    words = frozenset({"clay", "sand"})
    assert value(text, word="clay", words=words, many=("clay",), numbers=(1.0, 2.0 + 1e-12), yes=True) is expected


@pytest.mark.parametrize(
    ("text", "a", "b"),
    [
        ("a + 1", "x", N),
        ("a + 1", True, N),
        ("a <= 1", "1", N),
        ("a and b", 1.0, T),
        ("not a", "no", N),
        ("a == b", 1.0, "x"),
        ("a == b", "x", 1.0),
        ("a == b", True, 1.0),
        ("a == b", frozenset({"x"}), "x"),
        ("'x' in a", "xyz", N),
        ("1 in a", 5.0, N),
    ],
)
def test_a_fact_of_the_wrong_sort_is_loud(text: str, a: Value, b: Value) -> None:
    with pytest.raises(TypeError):
        value(text, a=a, b=b)


def test_a_formula_that_was_not_checked_gives_no_value() -> None:
    for text in ("'x' + 1", "[1, 2]", "not 3", "1 and 2", "true <= false"):
        with pytest.raises(TypeError):
            parse(text).compile()


# No value.


@pytest.mark.parametrize(
    ("text", "reason", "where"),
    [
        ("1 + a / zero", "division by zero", "a / zero"),
        ("zero ** -1", "division by zero", "1 / zero"),
        ("sqrt(below) + 1", "a root of a number below zero", "√below"),
        ("below ** 0.5", "a root of a number below zero", "√below"),
        ("below ** 1.5", "a root of a number below zero", "below^1.5"),
        ("huge * huge - huge * huge", "a result too large", "huge × huge"),
        ("huge ** 2 <= 3", "a result too large", "huge²"),
        ("endless <= 3", "no finite number", "endless"),
        ("3 <= endless", "no finite number", "endless"),
        ("not (wall.nan <= 3)", "no finite number", "wall.nan"),
        ("endless == a", "no finite number", "endless"),
        ("endless in [1]", "no finite number", "endless"),
    ],
)
def test_no_value(text: str, reason: str, where: str) -> None:
    values = {"a": 1.0, "zero": 0.0, "below": -4.0, "huge": 1e200, "endless": math.inf, "wall.nan": math.nan}
    with pytest.raises(FormulaUndefined) as caught:
        parse(text).compile()(values)
    assert (caught.value.reason, caught.value.where) == (reason, where)


@pytest.mark.parametrize("order", ["{0} {2} {1}", "{1} {2} {0}"])
def test_no_value_counts_only_where_the_rest_does_not_decide(order: str) -> None:
    undefined = "1 / zero > 3"
    for word, deciding, open_side in (("or", "true", "false"), ("and", "false", "true")):
        assert value(order.format(undefined, deciding, word), zero=0.0) is (word == "or")
        for other in (open_side, "lacking"):
            with pytest.raises(FormulaUndefined):
                value(order.format(undefined, other, word), zero=0.0)


# A value exactly at its limit meets it. The international inch of 1959 is 25.4 mm exactly (NIST SP 811, B.8), so
# a count of 3/4 inches is a terminating decimal in all four units.

_STEP = {"in": Decimal("0.75"), "ft": Decimal("0.0625"), "mm": Decimal("19.05"), "m": Decimal("0.01905")}
_UNITS = st.sampled_from(sorted(_STEP))
_COUNTS = st.integers(1, 4000)


def _length(count: int, unit: str) -> float:
    return measure(f"{count * _STEP[unit]:f} {unit}", "length").si


@given(_COUNTS, _UNITS, _UNITS)
def test_exactly_at_the_limit_in_any_unit(count: int, unit: str, other: str) -> None:
    values = {"wall.thickness": _length(count, unit), "least": _length(count, other)}
    for relation, holds in (("<=", T), (">=", T), ("==", T), ("<", F), (">", F), ("!=", F)):
        formula = parse(f"wall.thickness {relation} least")
        assert formula.compile()(values) is holds
        assert parse(f"least {relation} wall.thickness").compile()(values) is holds
        comparison = formula.comparison()
        assert comparison is None if relation in ("==", "!=") else comparison and comparison.margin(values) == 0
    assert parse("wall.thickness in [least]").compile()(values) is True


@given(_COUNTS, _UNITS, _COUNTS, _UNITS, _UNITS)
def test_differences_and_products_exactly_at_the_limit(count: int, a: str, more: int, b: str, c: str) -> None:
    values = {
        "wall.length": _length(count + more, a),
        "wall.openings": _length(more, b),
        "least": _length(count, c),
        "times": 3.0,
        "wall.run": _length(3 * count, a),
    }
    for text in (
        "wall.length - wall.openings - least >= 0",
        "wall.length - wall.openings - least <= 0",
        "0 >= (wall.length - (wall.openings + least)) / wall.length",
        "0 <= -(wall.length - wall.openings - least)",
        "abs(2 * (wall.openings + least - wall.length)) <= 0",
        "wall.run / least <= times <= wall.run / least",
        "times * least == 1 * wall.run",
    ):
        assert parse(text).compile()(values) is True, text


@given(_COUNTS, _UNITS, _UNITS, st.sampled_from([1e-6, -1e-6, 1e-8, -1e-8]))
def test_beyond_the_limit_is_beyond_it(count: int, unit: str, other: str, share: float) -> None:
    values = {"wall.thickness": _length(count, unit) * (1 + share), "least": _length(count, other)}
    assert parse("wall.thickness >= least").compile()(values) is (share > 0)
    assert parse("wall.thickness < least").compile()(values) is (share < 0)
    assert parse("wall.thickness - least >= 0").compile()(values) is (share > 0)
    assert parse("wall.thickness == least * 1").compile()(values) is False


def test_what_counts_as_rounding() -> None:
    """A billionth of what is compared; where terms are added, a billionth of a thousandth of what they come to."""
    at_most = parse("a <= b").compile()
    assert at_most({"a": 1 + 0.95e-9, "b": 1.0}) is True and at_most({"a": 1 + 1.05e-9, "b": 1.0}) is False
    differing = parse("a - b <= c").compile()
    assert differing({"a": 1 + 1.9e-12, "b": 1.0, "c": 0.0}) is True
    assert differing({"a": 1 + 2.1e-12, "b": 1.0, "c": 0.0}) is False
    divided = parse("(a - b) / d <= c").compile()
    assert divided({"a": 1 + 1.9e-12, "b": 1.0, "c": 0.0, "d": 1e-3}) is True
    assert divided({"a": 1 + 2.1e-12, "b": 1.0, "c": 0.0, "d": 1e-3}) is False


def test_rounding_goes_with_the_size_of_the_products_that_are_added() -> None:
    """0.07 × 300 000 comes out above 0.21 × 100 000 by the last digit of 21 000, and no more."""
    sizes = {"a": 0.07, "b": 3e5, "c": 0.21, "d": 1e5}
    assert 0 < sizes["a"] * sizes["b"] - sizes["c"] * sizes["d"] < 1e-11
    assert value("c * d - a * b >= 0", **sizes) is True
    assert value("c * d - a * b < 0", **sizes) is False


def test_nothing_is_taken_for_more_than_it_is() -> None:
    """Beside a zero, rounding is that of the other term alone, however small."""
    assert value("a - b <= 0", a=0.0, b=-1e-20) is False
    assert value("a - b > 0", a=0.0, b=-1e-20) is True


@pytest.mark.parametrize(("a", "unlike"), [(0.3, False), (0.3 * (1 + 1e-10), False), (0.3000001, True)])
def test_unlike_is_the_opposite_of_equal(a: float, unlike: bool) -> None:
    assert value("a != 3 * 0.1", a=a) is unlike
    assert value("a == 3 * 0.1", a=a) is not unlike


def test_rounding_never_hides_a_result_that_is_too_large_to_measure() -> None:
    """The terms overflow, the sides do not: the tolerance must not become endless."""
    values = {"a": 1e200, "b": 1e-200}
    assert parse("a * b * (1 + 0) >= 5").compile()(values) is False
    assert parse("(a - a + 1) * (a - a + 1) <= 0.5").compile()(values) is False
