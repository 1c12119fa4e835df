"""Formulas as people read them: signs, brackets, and numbers put in that come to the result shown."""

from __future__ import annotations

from pathlib import Path

import pytest
from reportlab.pdfbase.ttfonts import TTFontFile

import compliance
from compliance.rules.formulas.formula import Value, parse
from compliance.steps import Step
from compliance.units import Writer, measure

US, SI = Writer("us"), Writer("si")
LABELS = {
    "wall.height": "height",
    "wall.thickness": "thickness",
    "most": "most slenderness",
    "least": "least thickness",
    "a": "a",
    "b": "b",
    "c": "c",
    "wall.d": "d",
    "t.t": "t",
}
KINDS = {
    **dict.fromkeys(("a", "b", "c", "wall.d", "most", "site.sds"), "ratio"),
    "wall.height": "length",
    "wall.thickness": "thickness",
    "least": "thickness",
    "t.t": "thickness",
    "beam.height": "length",
    "wall.force": "force",
    "wall.area": "area",
    "strength": "stress",
    "test.water": "share",
    "most_water": "share",
    "soil.coldest": "temperature",
    "freezing": "temperature",
}


def steps(text: str, values: dict[str, Value]) -> tuple[Step, ...]:
    return parse(text).explain(values, LABELS, KINDS)


def lines(text: str, values: dict[str, Value], writer: Writer = US) -> list[str]:
    return [step.line(writer) for step in steps(text, values)]


def in_inches(**inches: float) -> dict[str, Value]:
    return {name.replace("__", "."): measure(f"{number} in", "length").si for name, number in inches.items()}


@pytest.mark.parametrize(
    ("text", "people"),
    [
        ("a * b / c", "a × b / c"),
        ("a / b * c", "(a / b) × c"),
        ("1e3 ** 2", "(1e3)²"),
        ("12 ** 2", "12²"),
        ("a / b / c", "(a / b) / c"),
        ("a / (b * c)", "a / (b × c)"),
        ("a / (b / c)", "a / (b / c)"),
        ("a - (b - c)", "a − (b − c)"),
        ("(a - b) - c", "a − b − c"),
        ("a + (b + c)", "a + (b + c)"),
        ("a + (b / c)", "a + b / c"),
        ("(a + b) * c", "(a + b) × c"),
        ("-a", "−a"),
        ("-a + b", "−a + b"),
        ("b - -a", "b − (−a)"),
        ("b * -a", "b × (−a)"),
        ("-(a + b)", "−(a + b)"),
        ("-(a * b)", "−(a × b)"),
        ("--a", "−(−a)"),
        ("-a ** 2", "−a²"),
        ("(-a) ** 2", "(−a)²"),
        ("(a + b) ** 3", "(a + b)³"),
        ("(a ** 2) ** 2", "(a²)²"),
        ("a ** 0.5", "√a"),
        ("sqrt(a / b)", "√(a / b)"),
        ("sqrt(a) ** 2", "(√a)²"),
        ("sqrt(1.5)", "√(1.5)"),
        ("a ** 1.5", "a^1.5"),
        ("a * b ** -2", "a × (1 / b²)"),
        ("c / b ** -0.5", "c / (1 / √b)"),
        ("(a + b) ** -1", "1 / (a + b)"),
        ("(a / b) ** -1", "1 / (a / b)"),
        ("(a / b) ** 1 * c", "(a / b) × c"),
        ("least ** 2", "(least thickness)²"),
        ("sqrt(most)", "√(most slenderness)"),
        ("least / wall.height", "least thickness / height"),
        ("min(a, b + c, 2)", "min(a, b + c, 2)"),
        ("abs(a - b) ** 2", "abs(a − b)²"),
        ("1e3 * a", "1e3 × a"),
    ],
)
def test_as_people_write_it(text: str, people: str) -> None:
    (step,) = steps(text, {})
    assert step.formula == people


@pytest.mark.parametrize(
    ("text", "people"),
    [
        ("a <= b and not c > 2 or wall.flag", "(a ≤ b and not (c > 2)) or wall flag"),
        ("wall.flag and (wall.use in ['shed', 'barn'] or not wall.flag)", None),
        ("not (wall.use == 'shed')", "not (wall use = shed)"),
        ("wall.use not in ['shed', 'barn'] and true", "(wall use is none of shed, barn) and yes"),
        ("not not wall.flag", "not (not wall flag)"),
    ],
)
def test_statements_as_people_write_them(text: str, people: str | None) -> None:
    last = steps(text, {})[-1]
    assert last.says == "together"
    expected = people or "wall flag and ((wall use is one of shed, barn) or not wall flag)"
    assert last.formula == expected


def test_a_comparison_worked_out() -> None:
    values = {**in_inches(wall__height=102, wall__thickness=16), "most": 7.0}
    assert lines("wall.height / wall.thickness <= most", values) == [
        "value: height / thickness = (8 ft 6 in) / (16 in) = 6.375",
        "check: height / thickness ≤ most slenderness; 6.375 ≤ 7: holds",
    ]
    assert lines("most >= wall.height / wall.thickness", values, SI) == [
        "value: height / thickness = (2.591 m) / (406.4 mm) = 6.375",
        "check: height / thickness ≤ most slenderness; 6.375 ≤ 7: holds",
    ]


def test_a_limit_worked_out_too() -> None:
    values = {**in_inches(wall__height=102, wall__thickness=10), "most": 8.0}
    assert lines("wall.thickness >= wall.height / most and wall.thickness >= least", {**values, "least": 0.254}) == [
        "limit: height / most slenderness = (8 ft 6 in) / 8 = 12.75 in",
        "check: thickness ≥ height / most slenderness; 10 in ≥ 12.75 in: does not hold",
        "check: thickness ≥ least thickness; 10 in ≥ 10 in: holds",
        "together: thickness ≥ height / most slenderness and thickness ≥ least thickness: does not hold",
    ]


def test_value_and_limit_that_look_alike_get_more_decimals() -> None:
    values = in_inches(wall__thickness=9.999, least=10)
    assert lines("wall.thickness >= least", values) == [
        "check: thickness ≥ least thickness; 9.999 in ≥ 10 in: does not hold"
    ]


@pytest.mark.parametrize(
    ("text", "values", "expected"),
    [
        ("2 * t.t ** 2", {"t.t": 0.254}, "value: 2 × t² = 2 × (10 in)² = 1.4 ft²"),
        ("sqrt(t.t ** 2)", {"t.t": 0.254}, "value: √(t²) = √((10 in)²) = 10 in"),
        ("sqrt(t.t * wall.height)", {"t.t": 0.254, "wall.height": 0.254}, None),
        ("min(wall.thickness, least)", {"wall.thickness": 0.254, "least": 0.3048}, None),
        ("a - b", {"a": 5.0, "b": -3.0}, "value: a − b = 5 − (−3) = 8"),
        ("a ** 2", {"a": -3.0}, "value: a² = (−3)² = 9"),
        ("-a", {"a": -3.0}, "value: −a = −(−3) = 3"),
        ("wall.force / wall.area", {"wall.force": 100.0, "wall.area": 2.0}, None),
        ("a + b", {"a": 1.0, "b": None}, "value: a + b = 1 + missing = missing"),
        ("a / b", {"a": 1.0, "b": 0.0}, "value: a / b = 1 / 0 = without a value: division by zero"),
        ("2 * 3", {}, "value: 2 × 3 = 6"),
        ("wall.height", {"wall.height": 2.54}, "value: height = 8 ft 4 in"),
    ],
)
def test_numbers_put_in(text: str, values: dict[str, Value], expected: str | None) -> None:
    others = {
        "sqrt(t.t * wall.height)": "value: √(t × height) = √((10 in) × (10 in)) = 10 in",
        "min(wall.thickness, least)": "value: min(thickness, least thickness) = min(10 in, 12 in) = 10 in",
        "wall.force / wall.area": "value: wall force / wall area = (22 lbf) / (21.5 ft²) = 1 psf",
    }
    assert lines(text, values) == [expected or others[text]]


@pytest.mark.parametrize(
    ("text", "values", "expected"),
    [
        ("wall.height <= 0", {"wall.height": 1.0}, ["check: height ≤ 0; 3 ft 3 3/8 in ≤ 0 in: does not hold"]),
        ("wall.height <= least", {"least": 1.0}, ["check: height ≤ least thickness; missing ≤ 3 ft 3 3/8 in: missing"]),
        ("a / b <= 2", {"a": 1.0, "b": 0.0}, [
            "value: a / b = 1 / 0 = without a value: division by zero",
            "check: a / b ≤ 2; without a value: division by zero ≤ 2: without a value: division by zero",
        ]),
        ("test.water <= most_water", {"test.water": 0.04, "most_water": 0.05},
            ["check: test water ≤ most water; 4 % ≤ 5 %: holds"]),
        ("soil.coldest >= freezing", {"soil.coldest": 270.15, "freezing": 273.15},
            ["check: soil coldest ≥ freezing; 27 °F ≥ 32 °F: does not hold"]),
        ("a == 2", {"a": 2.0}, ["check: a = 2; 2 = 2: holds"]),
        ("a != b", {"a": 2.0, "b": 3.0}, ["check: a ≠ b; 2 ≠ 3: holds"]),
        ("wall.use == 'shed'", {"wall.use": "barn"}, ["check: wall use = shed; barn = shed: does not hold"]),
        ("wall.use in ['shed', 'old barn']", {"wall.use": "old barn"},
            ["check: wall use is one of shed, old barn; old barn is one of shed, old barn: holds"]),
        ("'lime' not in wall.finishes", {"wall.finishes": frozenset({"clay", "lime"})},
            ["check: lime is none of wall finishes; lime is none of clay, lime: does not hold"]),
        ("'lime' in wall.finishes", {"wall.finishes": ()},
            ["check: lime is one of wall finishes; lime is one of none: does not hold"]),
        ("'lime' in wall.finishes", {}, ["check: lime is one of wall finishes; lime is one of missing: missing"]),
        ("wall.thickness in [least, 0]", {"wall.thickness": 0.254, "least": 0.3048},
            ["check: thickness is one of least thickness, 0; 10 in is one of 12 in, 0: does not hold"]),
        ("wall.flag", {"wall.flag": True}, ["wall flag: yes"]),
        ("wall.flag", {}, ["wall flag: missing"]),
        ("not wall.flag", {"wall.flag": True}, ["wall flag: yes", "together: not wall flag: does not hold"]),
        ("true", {}, []),
        ("wall.flag and a <= 2", {"wall.flag": False, "a": 1.0}, [
            "wall flag: no",
            "check: a ≤ 2; 1 ≤ 2: holds",
            "together: wall flag and a ≤ 2: does not hold",
        ]),
        ("wall.flag or a <= 2", {"a": 1.0}, [
            "wall flag: missing",
            "check: a ≤ 2; 1 ≤ 2: holds",
            "together: wall flag or a ≤ 2: holds",
        ]),
    ],
)  # fmt: skip
def test_statements(text: str, values: dict[str, Value], expected: list[str]) -> None:
    assert lines(text, values) == expected


def test_a_chain_is_worked_out_once() -> None:
    values = {**in_inches(wall__height=96, wall__thickness=16), "most": 7.0}
    assert lines("5 <= wall.height / wall.thickness <= most", values) == [
        "value: height / thickness = (8 ft) / (16 in) = 6",
        "check: height / thickness ≥ 5; 6 ≥ 5: holds",
        "check: height / thickness ≤ most slenderness; 6 ≤ 7: holds",
        "together: 5 ≤ height / thickness and height / thickness ≤ most slenderness: holds",
    ]


def test_labels_that_collide_give_way_to_the_names() -> None:
    same = {"wall.height": "height", "beam.height": "height"}
    (step,) = parse("wall.height - beam.height").explain({"wall.height": 3.048, "beam.height": 0.3048}, same, KINDS)
    assert step.line(US) == "value: wall height − beam height = (10 ft) − (1 ft) = 9 ft"
    again = {"a.b_c": "x", "a_b.c": "x"}
    (step,) = parse("a.b_c - a_b.c").explain({}, again, {"a.b_c": "ratio", "a_b.c": "ratio"})
    assert step.formula == "a.b_c − a_b.c"


def test_every_symbol_is_among_the_given() -> None:
    for step in steps("2 * wall.height / least <= most or wall.use == 'shed'", {"wall.height": 2.0})[:-1]:
        assert step.given
        for given_value in step.given:
            assert given_value.symbol in step.formula


def test_a_number_without_a_kind_is_an_error_not_a_guess() -> None:
    with pytest.raises(Exception, match=r"wall\.width"):
        parse("wall.width * 2 <= 3").explain({"wall.width": 1.0}, {}, {})


@pytest.mark.parametrize(
    "face", sorted(Path(compliance.__file__).parent.glob("documents/page/fonts/*.ttf")), ids=lambda p: p.stem
)
def test_every_sign_is_in_the_embedded_faces(face: Path) -> None:
    glyphs = TTFontFile(str(face)).charToGlyph
    for sign in "+−×/=≠≤≥<>√^()¹²³⁴⁵⁶,;:":
        assert ord(sign) in glyphs, sign
