"""Reading formulas: what is refused, with which code, and at which character."""

from __future__ import annotations

from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.rules.formulas.formula import Formula, FormulaError, parse
from compliance.rules.formulas.parsing import read

# A text, the code of its error, and the part of the text the offset must point at.
REFUSED = [
    ("", "formula-syntax", 0),
    ("   \n ", "formula-syntax", 0),
    ("wall.height <= ", "formula-syntax", 12),
    ("a and", "formula-syntax", 2),
    ("a + * b", "formula-syntax", 4),
    ("a b", "formula-syntax", 2),
    ("wall.height = 3", "formula-syntax", 12),
    ("wall.height => least", "formula-syntax", 12),
    ("wall.height ≤ least", "formula-syntax", 12),
    ("wall.height × 2 <= most", "formula-syntax", 12),
    ("(wall.height <= most", "formula-syntax", 0),
    ("a and (b or [c)", "formula-syntax", 14),
    ("a) or (b", "formula-syntax", 1),
    ("wall.height <= 10 ft", "formula-unit", 15),
    ("wall.height <= 10ft", "formula-unit", 15),
    ("wall.thickness >= 10 in", "formula-unit", 18),
    ("(wall.thickness >= 10 in) and a", "formula-unit", 19),
    ("wall.thickness >= 8'", "formula-unit", 18),
    ("site.share <= 25 %", "formula-unit", 14),
    ("1in [1]", "formula-number", 0),
    ("a <= .5", "formula-number", 5),
    ("a <= 5.", "formula-number", 5),
    ("a <= 5. and b", "formula-number", 5),
    ("a <= 5. ", "formula-number", 5),
    ("5.a <= b", "formula-number", 0),
    ("a <= 1_000", "formula-unit", 5),
    ("a <= 0x10", "formula-unit", 5),
    ("a <= 2j", "formula-unit", 5),
    ("a <= 1e400", "formula-number", 5),
    ("a <= " + "9" * 400, "formula-number", 5),
    ("a ** b", "formula-power", 5),
    ("a ** 0.3", "formula-power", 5),
    ("a ** 7", "formula-power", 5),
    ("a ** 0", "formula-power", 5),
    ("a ** -6.5", "formula-power", 5),
    ("9**9**9", "formula-power", 3),
    ("a ** (1 / 2)", "formula-power", 6),
    ("a // b", "formula-syntax", 0),
    ("a % b", "formula-syntax", 2),
    ("a @ b", "formula-syntax", 2),
    ("+a <= b", "formula-syntax", 0),
    ("~a", "formula-syntax", 0),
    ("a is b", "formula-syntax", 2),
    ("a if b else c", "formula-syntax", 2),
    ("wall.class == 'x'", "formula-syntax", 5),
    ("a <= True", "formula-name", 5),
    ("None", "formula-syntax", 0),
    ("Wall.height <= a", "formula-name", 0),
    ("a <= wall.Height", "formula-name", 5),
    ("wall . height <= a", "formula-name", 0),
    ("(wall).height <= a", "formula-name", 0),
    ("min <= 3", "formula-name", 0),
    ("a <= sqrt", "formula-name", 5),
    ("a + round(b)", "formula-call", 4),
    ("a + mix(b)", "formula-call", 4),
    ("wall.height() <= a", "formula-call", 0),
    ("abs(a, b)", "formula-call", 0),
    ("sqrt(a, b)", "formula-call", 0),
    ("sqrt()", "formula-call", 0),
    ("and b", "formula-syntax", 0),
    ("* b", "formula-syntax", 0),
    ("min(a)", "formula-call", 0),
    ("max(*a, b)", "formula-syntax", 4),
    ("max(a, b, key=c)", "formula-syntax", 13),
    ("min()", "formula-call", 0),
    ("a in b in c", "formula-syntax", 0),
    ("a == 'clay' 'loam'", "formula-syntax", 12),
    ("a == 'clay", "formula-syntax", 5),
    ("a == 'cl\\ay'", "formula-syntax", 5),
    ("a == 'cl\nay'", "formula-syntax", 8),
    ('a == """clay"""', "formula-syntax", 7),
    ("a == 'pisé' and b +", "formula-syntax", 18),
    ("a == 'pisé' and c.B", "formula-name", 16),
    # Ways out that must stay shut.
    ("__import__('os')", "formula-call", 0),
    ("__import__", "formula-name", 0),
    ("wall.__class__", "formula-name", 0),
    ("wall._private", "formula-name", 0),
    ("a[0]", "formula-syntax", 0),
    ("wall.names['x']", "formula-syntax", 0),
    ("[x for x in a]", "formula-syntax", 3),
    ("{a: b}", "formula-syntax", 0),
    ("lambda: 1", "formula-syntax", 0),
    ("f'{a}'", "formula-syntax", 0),
    ("b'a' == a", "formula-syntax", 0),
    ("(a := 1)", "formula-syntax", 3),
    ("a; b", "formula-syntax", 1),
    ("a # b", "formula-syntax", 2),
    ("'a'.join", "formula-name", 0),
    ("().__class__", "formula-name", 0),
    ("(1).real", "formula-name", 0),
    ("yield a", "formula-syntax", 0),
    ("await a", "formula-syntax", 0),
    ("a\0b", "formula-syntax", 1),
    ("a == 'x\0'", "formula-syntax", 7),
    ("wаll.height <= a", "formula-syntax", 1),  # Cyrillic а
    ("ｗall.height <= a", "formula-syntax", 0),  # full-width w, which Python would read as w
    ("wall.ﬁnish == 'x'", "formula-syntax", 5),  # ligature
    ("a <= ٣", "formula-syntax", 5),  # Arabic-Indic digit
    ("a\u00a0<= b", "formula-syntax", 1),  # no-break space
    ("a == 'x\u202ey'", "formula-syntax", 7),  # right-to-left override
    ("\ufeffa", "formula-syntax", 0),
]


@pytest.mark.parametrize(("text", "code", "offset"), REFUSED)
def test_refused_with_code_and_character(text: str, code: str, offset: int) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text)
    assert (caught.value.code, caught.value.offset) == (code, offset), str(caught.value)
    assert caught.value.wrong and caught.value.instead


@pytest.mark.parametrize(
    "text",
    [
        "(" * 10_000 + "a" + ")" * 10_000,
        "(" * 240 + "a" + ")" * 240,
        "-" * 400 + "a",
        "not " * 100 + "a",
        " + ".join(["a"] * 32),
        "abs(" * 40 + "a" + ")" * 40,
        "a in [" + ",".join(["1"] * 230) + "]",
    ],
)
def test_too_long_too_deep_or_too_many(text: str) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text)
    assert caught.value.code in ("formula-too-long", "formula-syntax")
    assert 0 <= caught.value.offset <= len(text)


@pytest.mark.parametrize("given_up", [RecursionError, MemoryError, ValueError])
def test_what_the_parser_gives_up_is_refused_as_nested_too_deep(
    monkeypatch: pytest.MonkeyPatch, given_up: type[Exception]
) -> None:
    """No formula of five hundred characters is too deep for every Python; some have less patience than others."""

    def gives_up(*_: object, **__: object) -> None:
        raise given_up

    monkeypatch.setattr("compliance.rules.formulas.parsing.ast", SimpleNamespace(parse=gives_up))
    with pytest.raises(FormulaError) as caught:
        read("a <= b")
    assert (caught.value.code, caught.value.offset) == ("formula-too-long", 0)


def test_caps_stand_where_they_are_said_to() -> None:
    assert parse("a" * 500).names == {"a" * 500}
    with pytest.raises(FormulaError, match="501 characters"):
        parse("a" * 501)
    parse(" + ".join(["a"] * 30))
    with pytest.raises(FormulaError, match="30 deep"):
        parse(" + ".join(["a"] * 31))
    parse("a in [" + ",".join(["1"] * 197) + "]")
    with pytest.raises(FormulaError, match="200 parts"):
        parse("a in [" + ",".join(["1"] * 198) + "]")


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("wall.height / wall.thickness <= most", {"wall.height", "wall.thickness", "most"}),
        ("  wall.bears_load\n and not\n  site.flooded ", {"wall.bears_load", "site.flooded"}),
        ("""site.soil_class in ['A', "B"]""", {"site.soil_class"}),
        ("least <= min(a.b, 2 * c.d2) <= most or false", {"least", "a.b", "c.d2", "most"}),
        ("a == 'pisé' or b == 'torchis'", {"a", "b"}),
        ("true", set()),
        ("case.match == 'type'", {"case.match"}),
    ],
)
def test_names(text: str, names: set[str]) -> None:
    formula = parse(text)
    assert formula.text == text
    assert formula.names == names


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("a = b", "=="),
        ("a ≥ b", "write >="),
        ("a ^ 2", "write ** for a power"),
        ("a && b", "write and"),
        ("a <= 10 ft", "under limits:"),
        ("sqr(a)", "did you mean sqrt?"),
        ("a <= 0.5 *", "comes after"),
        ("a <= False", "write false"),
    ],
)
def test_hints(text: str, hint: str) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text)
    assert hint in caught.value.instead


@pytest.mark.parametrize(
    ("text", "wrong", "instead"),
    [
        ("(wall.height <= most", "the bracket ( is never closed", "close it"),
        ("a and (b or [c", "the bracket [ is never closed", "close it"),
        ("a # b", "'#' is not part of a formula", "write plain letters"),
        ("a\0b", "'U+0000' is not part of a formula", "write plain letters"),
        ("a is b", "'is' cannot stand in a formula", "write == to compare"),
        ("lambda: 1", "'lambda' cannot stand in a formula", "use and, or, not, in, min, max, abs, sqrt and names only"),
        ("a in b in c", "in stands in a chain", "join the parts with and"),
        ("a < b in c", "in stands in a chain", "join the parts with and"),
        ("abs(a, b)", "abs has the wrong values", "give it one value"),
        ("min(a)", "min has the wrong values", "give it two values or more, with commas between them"),
        (f"a[{'b' * 58}]", f"'a[{'b' * 58}' is of no use in a formula", "use names"),
        (f"a[{'b' * 57}]", f"'a[{'b' * 57}]' is of no use in a formula", "use names"),
        (f"{'f' * 61}(a)", f"there is no function '{'f' * 60}'", "the functions are"),
    ],
)
def test_what_is_wrong_and_what_to_write(text: str, wrong: str, instead: str) -> None:
    """At most sixty characters of what is wrong are shown."""
    with pytest.raises(FormulaError) as caught:
        parse(text)
    assert caught.value.wrong == wrong and caught.value.instead.startswith(instead)


def test_a_formula_shows_its_text_and_not_its_parts() -> None:
    assert repr(parse("a <= b")).startswith("Formula(text='a <= b', names=") and "root" not in repr(parse("a <= b"))


def test_an_error_reads_as_one_line() -> None:
    assert str(FormulaError("formula-name", "it is wrong", "mend it", 0)) == "it is wrong (mend it)"
    assert str(FormulaError("formula-name", "it is wrong", "", 0)) == "it is wrong"


def test_powers_go_up_to_six() -> None:
    for power in ("6", "-6", "0.5", "5.5"):
        assert parse(f"a ** {power} <= b").names == {"a", "b"}


def test_constants_are_listed_without_powers() -> None:
    found = parse("1.2 * wall.height ** 2 <= 2 * 5 and 3 <= wall.a <= 4 or min(0.5, b) > -6").constants()
    assert [(each.text, each.value, each.compared) for each in found] == [
        ("1.2", 1.2, False),
        ("2", 2.0, True),
        ("5", 5.0, True),
        ("3", 3.0, True),
        ("4", 4.0, True),
        ("0.5", 0.5, False),
        ("6", 6.0, True),
    ]
    text = "a <= 7 or b <= 7"
    assert [text[each.offset] for each in parse(text).constants()] == ["7", "7"]
    assert [each.offset for each in parse("a <= 7 <= b").constants()] == [5]


_SCRAP = [
    *(
        "a",
        "wall.height",
        "3",
        "0.5",
        "'x'",
        "1e9",
        "2",
        "true",
        "and",
        "or",
        "not",
        "in",
        "min",
        "abs",
        "lambda",
        "is",
    ),
    *("+", "-", "*", "/", "**", "<=", "==", "(", ")", "[", "]", ",", ".", "__", "é", ":", "\n"),
]
_SCRAPS = st.lists(st.sampled_from(_SCRAP), max_size=25)


@given(st.one_of(st.text(max_size=40), _SCRAPS.map(" ".join), _SCRAPS.map("".join)))
def test_any_text_is_a_formula_or_an_error_with_a_place(text: str) -> None:
    try:
        formula = parse(text)
    except FormulaError as error:
        assert error.code.startswith("formula-")
        assert 0 <= error.offset <= max(len(text), 1)
        assert error.wrong
    else:
        assert isinstance(formula, Formula)
        assert all(name in text for name in formula.names)
