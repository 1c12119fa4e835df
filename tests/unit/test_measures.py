"""The grammar of measures: what is read, what is refused, and that nothing is guessed."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.units import KINDS, MeasureError, Writer, kind_of_text, measure
from compliance.units.registry import frozen
from compliance.units.unit_table import SPELLINGS, unit

INCH = 0.0254


@pytest.mark.parametrize(
    ("text", "kind", "si"),
    [
        ("16 in", "length", 16 * INCH),
        ("3 1/2 in", "length", 3.5 * INCH),
        ("3-1/2 in", "length", 3.5 * INCH),
        ("8 ft 6 in", "length", 102 * INCH),
        ("8'-6\"", "length", 102 * INCH),
        ("8' 6\"", "length", 102 * INCH),
        ("8 ft 6 1/2 in", "length", 102.5 * INCH),
        ("8'", "length", 96 * INCH),
        ('6"', "length", 6 * INCH),
        ("2.4 m", "length", 2.4),
        ("16in", "length", 16 * INCH),
        ("60 psi", "stress", 60 * 4.4482216152605 / INCH**2),
        ("0.4 MPa", "stress", 0.4e6),
        ("35 psf", "pressure", 35 * 4.4482216152605 / 0.3048**2),
        ("110 mph", "speed", 110 * 1609.344 / 3600),
        ("110 pcf", "density", 110 * 0.45359237 / 0.3048**3),
        ("900 lbf", "force", 900 * 4.4482216152605),
        ("4 kN", "force", 4000.0),
        ("25 %", "share", 0.25),
        ("25%", "share", 0.25),
        ("45 deg", "angle", math.pi / 4),
        ("-3 ft", "coordinate", -0.9144),
        ("0 ft", "length", 0.0),
    ],
)
def test_reads(text: str, kind: str, si: float) -> None:
    found = measure(text, kind)
    assert math.isclose(found.si, si, rel_tol=1e-12, abs_tol=1e-12)
    assert found.text == text


@pytest.mark.parametrize(
    ("text", "kind", "code"),
    [
        ("3,5 MPa", "stress", "measure-comma"),
        ("1,500 psf", "pressure", "measure-comma"),
        ("12", "length", "measure-no-unit"),
        ("3 1/2", "length", "measure-no-unit"),
        ("5 kn", "force", "measure-unit"),
        ("5 KPA", "stress", "measure-unit"),
        ("nan m", "length", "measure-form"),
        ("inf m", "length", "measure-form"),
        ("1e3 psf", "pressure", "measure-form"),
        ("5 furlong", "length", "measure-unit"),
        ("5 psi", "length", "measure-dimension"),
        ("25 %", "angle", "measure-dimension"),
        ("45 deg", "share", "measure-dimension"),
        ("-3 ft", "length", "measure-negative"),
        ("\u22123 ft", "coordinate", "measure-form"),
        ("8 ft 14 in", "length", "measure-inches"),
        ("1/0 in", "length", "measure-number"),
        ("", "length", "measure-form"),
        ("8 ft 6", "length", "measure-form"),
        ("ft 8", "length", "measure-form"),
        ("8..5 ft", "length", "measure-form"),
        ("\u0663 ft", "length", "measure-form"),
        ("8 ft; rm", "length", "measure-form"),
        ("999999999999 ft", "length", "measure-size"),
        ("0.000000000001 in", "thickness", "measure-size"),
        ("-999999999999 m", "coordinate", "measure-size"),
        ("999999999 psi", "stress", "measure-size"),
        ("3600 deg", "angle", "measure-size"),
        ("8 " + "f" * 1_000_000, "length", "measure-form"),
        ("9" * 1_000_000 + " ft", "length", "measure-form"),
    ],
    ids=lambda value: value[:24],
)
def test_refuses(text: str, kind: str, code: str) -> None:
    with pytest.raises(MeasureError) as refused:
        measure(text, kind)
    assert refused.value.code == code
    assert refused.value.instead
    assert len(str(refused.value)) < 300


@given(st.text(max_size=30), st.sampled_from(sorted(KINDS)))
def test_any_text_is_read_or_refused(text: str, kind: str) -> None:
    try:
        found = measure(text, kind)
    except MeasureError:
        return
    assert math.isfinite(found.si)


@given(st.integers(0, 500), st.integers(0, 11), st.sampled_from([Fraction(n, 16) for n in range(16)]))
def test_feet_and_inches_come_back_as_written(feet: int, inches: int, part: Fraction) -> None:
    value = (feet * 12 + inches + part) * INCH
    written = Writer("us").write(float(value), "length")
    assert math.isclose(measure(written, "length").si, float(value), rel_tol=1e-12, abs_tol=1e-12)


@given(st.floats(1e-3, 1e6), st.sampled_from([kind for kind in sorted(KINDS) if KINDS[kind].si]))
def test_bare_numbers_go_there_and_back(number: float, kind: str) -> None:
    symbol = KINDS[kind].si
    assert math.isclose(unit(symbol).from_si(unit(symbol).to_si(number)), number, rel_tol=1e-9, abs_tol=1e-9)


def test_pairs_show_that_they_differ() -> None:
    shown = Writer("us").pair(9.9999 * INCH, 10 * INCH, "thickness")
    assert shown[0] != shown[1]
    assert Writer("us").pair(10 * INCH, 0.254, "thickness") == ("10 in", "10 in")


def test_both_systems_where_a_limit_is_quoted() -> None:
    assert Writer("us").both(10 * INCH, "thickness") == "10 in (254 mm)"
    assert Writer("si").both(10 * INCH, "thickness") == "254 mm (10 in)"


def test_the_table_of_factors_is_what_pint_says() -> None:
    from compliance.units import factors

    assert factors.__file__ is not None
    assert Path(factors.__file__).read_text(encoding="utf-8") == frozen()


def test_every_unit_a_kind_is_written_in_is_known() -> None:
    for kind in KINDS.values():
        for symbol in (kind.us, kind.si):
            assert symbol in ("", "ft-in") or symbol in SPELLINGS, kind
        for example in kind.example.split(", or "):
            if kind.si:
                assert measure(example, kind.name)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("10 in", "thickness"), ("8 ft", "length"), ("8 ft 6 in", "length"), ("60 psi", "stress"), ("35 psf", "pressure"),
     ("25 %", "share"), ("45 deg", "angle"), ("5 perms", "permeance"), ("28 days", "age"), ("air", None), ("7", None)],
)  # fmt: skip
def test_the_kind_a_text_suggests(text: str, kind: str | None) -> None:
    assert kind_of_text(text) == kind


@pytest.mark.parametrize(("count", "begins"), [(60, "'mmmm"), (61, "a text of 61 characters, 'mmmm")])
def test_a_text_longer_than_sixty_characters_is_shown_in_part(count: int, begins: str) -> None:
    with pytest.raises(MeasureError) as found:
        measure("m" * count, "length")
    assert found.value.wrong.startswith(begins) and len(found.value.wrong) < 140


@pytest.mark.parametrize(("text", "code"), [("8 ft 12 in", "measure-inches"), ("8 ft 13 in", "measure-inches")])
def test_inches_stay_below_twelve(text: str, code: str) -> None:
    assert measure("8 ft 11 15/16 in", "length").si == pytest.approx((8 * 12 + 11.9375) * INCH)
    with pytest.raises(MeasureError) as found:
        measure(text, "length")
    assert found.value.code == code


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("8 fot", "'ft'"),
        ("8 KG/M3", "'kg/m3'"),
        ("8 PSI", "'psi'"),
        ("8 IN", "'in'"),
        ("8 GAL", "'gal'"),
        ("8 kn", "'kN'"),
    ],
)
def test_an_unknown_unit_names_the_nearest(text: str, hint: str) -> None:
    with pytest.raises(MeasureError) as found:
        measure(text, "length")
    assert f"did you mean {hint}?" in found.value.instead


def test_lengths_that_differ_by_less_than_a_sixteenth_are_shown_in_inches() -> None:
    """8 ft 6 in is 102 in; a hundredth of an inch more shows with two decimals."""
    assert Writer("us").pair(102.01 * INCH, 102 * INCH, "length") == ("102.01 in", "102 in")
