"""The grammar of measures: what is read, what is refused, and that nothing is guessed."""

from __future__ import annotations

import math
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.units import KINDS, MeasureError, Writer, kind_of_text, measure, parse_measure
from compliance.units.everyday import in_strict_grammar
from compliance.units.registry import frozen
from compliance.units.unit_table import SPELLINGS, unit
from compliance.units.writing import System

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
     ("25 %", "share"), ("45 deg", "angle"), ("5 perms", "permeance"), ("28 days", "age"), ("air", None), ("7", None),
     ("40 s", "seconds"), ("9 kg", "mass"), ("12 inches", "thickness"), ("8' 6", "length"), ("3 ft2", "area"),
     ("1,500 psf", "pressure"),
     ("6:12", "angle"), ("6 in 12", "angle"), ("6/12", None), ("0", None)],
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
        ("8 GAL", "'gal'"),
        ("8 kn", "'kN'"),
        ("8 M", "'m'"),
        ("8 MM", "'mm'"),
        ("8 gallons", "'gal'"),
    ],
)
def test_an_unknown_unit_names_the_nearest(text: str, hint: str) -> None:
    with pytest.raises(MeasureError) as found:
        measure(text, "length")
    assert f"did you mean {hint}?" in found.value.instead


LB, FOOT = 4.4482216152605, 0.3048
EVERYDAY = (
    # text, kind, SI value worked from the inch, the pound and standard gravity (NIST SP 811, appendix B)
    ("12 feet", "length", 12 * FOOT), ("1 foot", "length", FOOT), ("8 Feet", "length", 8 * FOOT),
    ("8 ft.", "length", 8 * FOOT), ("8 FT", "length", 8 * FOOT),
    ("12 inches", "thickness", 12 * INCH), ("1 inch", "thickness", INCH), ("12 in.", "thickness", 12 * INCH),
    ("12 IN", "thickness", 12 * INCH), ("9½ in", "thickness", 9.5 * INCH), ("9 ½ in", "thickness", 9.5 * INCH),
    ("½ in", "thickness", INCH / 2), ("1¾”", "thickness", 1.75 * INCH), ("3⅝ inches", "thickness", 3.625 * INCH),
    ("8' 6", "length", 102 * INCH), ("8'6", "length", 102 * INCH), ("8 ft 6", "length", 102 * INCH),
    ("8’ 6”", "length", 102 * INCH), ("8′-6″", "length", 102 * INCH), ("8' - 6\"", "length", 102 * INCH),
    ("8 feet 6 inches", "length", 102 * INCH), ("8 ft. 6 in.", "length", 102 * INCH), ("8ft 6in", "length", 102 * INCH),
    ("8 feet, 6 inches", "length", 102 * INCH), ("8 ft-6 in", "length", 102 * INCH),
    ("8' 6½\"", "length", 102.5 * INCH),
    ("8 ft 6 1/2", "length", 102.5 * INCH), ("8' 1/2\"", "length", 96.5 * INCH),
    ("-3 feet", "coordinate", -3 * FOOT), ("2 meters", "length", 2.0), ("40 millimetres", "length", 0.04),
    ("10\u00a0in", "thickness", 10 * INCH),
    ("60 PSI", "stress", 60 * LB / INCH**2), ("60 lb/in2", "stress", 60 * LB / INCH**2),
    ("115 MPH", "speed", 115 * 1609.344 / 3600), ("115 miles per hour", "speed", 115 * 1609.344 / 3600),
    ("9 lbs", "mass", 9 * 0.45359237), ("9 pounds", "mass", 9 * 0.45359237), ("9 LB", "mass", 9 * 0.45359237),
    ("900 lb", "force", 900 * LB), ("900 lbs", "force", 900 * LB), ("900 pounds", "force", 900 * LB),
    ("900 lbs.", "test_load", 900 * LB), ("500 lb/min", "force_rate", 500 * LB / 60),
    ("300 lb/ft", "line_load", 300 * LB / FOOT), ("300 lbs/ft", "line_load", 300 * LB / FOOT),
    ("35 lb/ft2", "pressure", 35 * LB / FOOT**2), ("35 lb/ft²", "pressure", 35 * LB / FOOT**2),
    ("35 lbs./sq. ft.", "pressure", 35 * LB / FOOT**2), ("35 lb/ft^2", "pressure", 35 * LB / FOOT**2),
    ("1,500 psf", "pressure", 1500 * LB / FOOT**2), ("12,345.5 lb", "force", 12345.5 * LB),
    ("1,200 sq ft", "area", 1200 * FOOT**2), ("1,234,567 lbf", "force", 1234567 * LB),
    ("110 lb/cu ft", "density", 110 * 0.45359237 / FOOT**3),
    ("24 hours", "time", 86400.0), ("1 hour", "time", 3600.0), ("2 hrs", "time", 7200.0),
    ("40 seconds", "seconds", 40.0),
    ("30 minutes", "minutes", 1800.0), ("45 degrees", "angle", math.pi / 4), ("25 percent", "share", 0.25),
    (".5 in", "thickness", INCH / 2), ("1–1/2 in", "thickness", 1.5 * INCH), ("0.4 m.", "thickness", 0.4),
    ("35 lb/sf", "pressure", 35 * LB / FOOT**2), ("35 lbs per square foot", "pressure", 35 * LB / FOOT**2),
    ("1.5 ksf", "pressure", 1500 * LB / FOOT**2), ("1.5 kips/ft2", "pressure", 1500 * LB / FOOT**2),
    ("0.4 klf", "line_load", 400 * LB / FOOT), ("0.4 kip/ft", "line_load", 400 * LB / FOOT),
    ("400 lbs per foot", "line_load", 400 * LB / FOOT), ("400 lb / ft", "line_load", 400 * LB / FOOT),
    ("400 pounds/ft", "line_load", 400 * LB / FOOT), ("400 lb/lf", "line_load", 400 * LB / FOOT),
    ("110 lbs per cubic foot", "density", 110 * 0.45359237 / FOOT**3),
    ("60 lbs per square inch", "stress", 60 * LB / INCH**2), ("60 p.s.i.", "stress", 60 * LB / INCH**2),
    ("115 mi/hr", "speed", 115 * 1609.344 / 3600), ("180 kph", "speed", 50.0), ("180 km/hr", "speed", 50.0),
    ("28 d", "age", 2419200.0), ("4 weeks", "age", 2419200.0), ("28 Days", "age", 2419200.0),
    ("25 pct", "share", 0.25), ("25 %.", "share", 0.25), ("5 kgs", "mass", 5.0), ("3 tonnes", "tonnage", 3000.0),
    ("68 F", "temperature", 293.15), ("68 deg F", "temperature", 293.15), ("20 C", "temperature", 293.15),
    ("2 hr*ft2*F/Btu", "thermal_resistance", 2 * 0.1761102), ("2.3 m2K/W", "thermal_resistance", 2.3),
    ("0.65 W/mK", "conductivity", 0.65), ("0.84 kJ/kgK", "specific_heat", 840.0),
    ("0", "length", 0.0), ("0.0", "coordinate", 0.0), ("0", "pressure", 0.0), ("0", "share", 0.0), ("0", "angle", 0.0),
)  # fmt: skip


@pytest.mark.parametrize(("text", "kind", "si"), EVERYDAY)
def test_what_people_write_is_read(text: str, kind: str, si: float) -> None:
    found = measure(text, kind)
    assert math.isclose(found.si, si, rel_tol=1e-12, abs_tol=1e-12)
    assert found.text == text and found.unit in SPELLINGS


@pytest.mark.parametrize(
    ("text", "kind", "code"),
    [
        # Commas: a decimal mark in many countries.
        ("1,500 kPa", "pressure", "measure-comma"), ("1,500 kg/m3", "density", "measure-comma"),
        ("1,50 psf", "pressure", "measure-comma"), ("0,500 in", "length", "measure-comma"),
        ("01,500 psf", "pressure", "measure-comma"), ("1,500,00 psf", "pressure", "measure-comma"),
        ("1.500,5 psf", "pressure", "measure-comma"), ("1,500 t", "tonnage", "measure-comma"),
        # Inches or feet, a range or a difference.
        ("8' 1/2", "length", "measure-form"), ("8 ft 1/2", "length", "measure-form"),
        ("8'-10", "length", "measure-form"),
        ("8 ft-6", "length", "measure-form"), ("8 ft - 6 in", "length", "measure-form"),
        ("8-6", "length", "measure-form"),
        ("8.5 ft 6 in", "length", "measure-form"), ("8' 6'", "length", "measure-form"),
        ("8''", "length", "measure-unit"),
        ("6 in 12", "length", "measure-form"), ("8 - 10 ft", "length", "measure-form"),
        ("8 ft 14", "length", "measure-inches"),
        ("5^2 ft", "length", "measure-form"), ("12", "thickness", "measure-no-unit"),
        ("00", "ratio", "measure-no-unit"),
        # SI prefixes, tons and gallons of several sizes, degrees of two scales, weight where no force fits.
        ("5 mpa", "stress", "measure-unit"), ("5 KPA", "stress", "measure-unit"), ("400 MM", "length", "measure-unit"),
        ("3 tons", "tonnage", "measure-unit"), ("3 TON", "tonnage", "measure-unit"),
        ("20 degrees", "temperature", "measure-unit"),
        ("0", "temperature", "measure-no-unit"), ("9 pounds", "length", "measure-dimension"),
        ("900 lb", "stress", "measure-dimension"), ("900 kg", "force", "measure-dimension"),
        # Ranges, sums and what is only said.
        ("8–10 ft", "length", "measure-form"), ("8 ft +/- 1 in", "length", "measure-form"),
        ("~8 ft", "length", "measure-form"), ("8' .5", "length", "measure-form"), ("1 .5 in", "length", "measure-form"),
        ("16 in thick", "thickness", "measure-form"), ("2x4", "thickness", "measure-unit"),
        ("#4", "thickness", "measure-form"), ("1 m 20", "length", "measure-form"),
        ("1 500 psf", "pressure", "measure-form"), ("8-foot", "length", "measure-form"),
        ("1 h 30 min", "time", "measure-form"), ("90 m", "time", "measure-dimension"),
        # Mass for a force, thousands for kips, insulation without its system, tons and yards of two sorts.
        ("72 kg/m2", "pressure", "measure-unit"), ("600 kg/m", "line_load", "measure-unit"),
        ("1 k", "force", "measure-unit"), ("1 ton", "force", "measure-dimension"),
        ("2 yards", "volume", "measure-dimension"), ("R-13", "thermal_resistance", "measure-form"),
        ("5 gallons", "vessel_volume", "measure-unit"), ("68 F", "length", "measure-dimension"),
        # A pitch where no roof is asked for, and a run that is not twelve.
        ("6:12", "angle", "measure-form"), ("6/12", "angle", "measure-no-unit"), ("6/12", "length", "measure-no-unit"),
    ],
)  # fmt: skip
def test_what_could_mean_two_things_stays_asked(text: str, kind: str, code: str) -> None:
    with pytest.raises(MeasureError) as refused:
        measure(text, kind)
    assert refused.value.code == code and refused.value.instead


def test_a_comma_parts_thousands_in_us_projects_alone() -> None:
    with pytest.raises(MeasureError) as refused:
        parse_measure("1,500 psf", KINDS["pressure"], commas=False)
    assert refused.value.code == "measure-comma"


@pytest.mark.parametrize("text", ["6:12", "6/12", "6 in 12", "6 : 12", "6.0:12"])
def test_a_roof_is_pitched_on_a_run_of_twelve(text: str) -> None:
    assert math.isclose(parse_measure(text, KINDS["angle"], pitch=True).si, math.atan(0.5), rel_tol=1e-12)
    assert math.isclose(parse_measure("4 1/2:12", KINDS["angle"], pitch=True).si, math.atan(0.375), rel_tol=1e-12)


@pytest.mark.parametrize("text", ["1:2", "12:6", "6:10", "6 in 10", "6-12", "6:12:1", "-6:12", "6/1/2"])
def test_no_other_ratio_is_a_pitch(text: str) -> None:
    with pytest.raises(MeasureError):
        parse_measure(text, KINDS["angle"], pitch=True)


def test_no_two_readings_of_one_text() -> None:
    """What the strict grammar reads keeps its value: rewriting what people write never touches it."""
    for kind in KINDS.values():
        for symbol, name in SPELLINGS.items():
            if unit(symbol).dimension == kind.dimension and symbol not in ("%", "lb", "deg", "°", "rad"):
                assert in_strict_grammar(f"3 {symbol}", kind) == f"3 {symbol}", (kind.name, name)


@pytest.mark.parametrize(
    ("text", "kind"),
    [("72 kg/m2", "pressure"), ("600 kg/m", "line_load"), ("28 dd", "age"), ("25 pcx", "share"), ("2m40", "length"),
     ("840 J/kgK", "specific_heat"), ("650 mW/(m·K)", "conductivity"), ("1.76 t/m3", "density"), ("1 k", "force")],
)  # fmt: skip
def test_no_hint_proposes_another_measure_or_prefix(text: str, kind: str) -> None:
    with pytest.raises(MeasureError) as found:
        measure(text, kind)
    assert "did you mean" not in found.value.instead


def test_of_a_word_for_two_units_the_one_that_fits_is_named() -> None:
    with pytest.raises(MeasureError) as found:
        measure("20 degrees", "temperature")
    assert found.value.instead.startswith("did you mean 'degC'?")


def test_a_unit_like_none_gets_an_example_alone() -> None:
    with pytest.raises(MeasureError) as found:
        measure("8 zzzz", "length")
    assert found.value.instead == "write for example 8 ft 6 in, or 2.6 m"


def test_lengths_that_differ_by_less_than_a_sixteenth_are_shown_in_inches() -> None:
    """8 ft 6 in is 102 in; a hundredth of an inch more shows with two decimals."""
    for kind in ("length", "coordinate"):
        assert Writer("us").pair(102.012 * INCH, 102 * INCH, kind) == ("102.01 in", "102 in")


def test_a_pair_has_no_more_decimals_than_show_the_difference() -> None:
    """With none more where whole millimetres differ; with five more at most, which seven decimals of an inch are."""
    assert Writer("si").pair(0.2544, 0.3004, "thickness") == ("254 mm", "300 mm")
    assert Writer("si").pair(0.2544, 0.2542, "thickness") == ("254.4 mm", "254.2 mm")
    assert Writer("us").pair(10.0000001 * INCH, 10 * INCH, "thickness") == ("10.0000001 in", "10 in")
    assert Writer("us").pair(10.00000002 * INCH, 10 * INCH, "thickness") == ("10 in", "10 in")


def test_values_within_a_billionth_are_one_value_to_a_pair() -> None:
    """What calculating leaves of equal values is not looked for; a little more than that is, in vain here."""
    assert Writer("si").pair(0.2544 * (1 + 0.95e-9), 0.2544, "thickness") == ("254 mm", "254 mm")
    assert Writer("si").pair(0.2544 * (1 + 1.05e-9), 0.2544, "thickness") == ("254.4 mm", "254.4 mm")


@pytest.mark.parametrize(
    ("value", "kind", "us", "si"),
    [
        (math.inf, "stress", "without limit", "without limit"),
        (-math.inf, "stress", "not finite", "not finite"),
        (math.nan, "stress", "not finite", "not finite"),
        (0.0, "thickness", "0 in", "0 mm"),
        (-0.0, "pressure", "0 psf", "0 kPa"),
        (0.0003, "thickness", "0.01 in", "0.3 mm"),
        (-1700.0, "pressure", "−35.5 psf", "−1.7 kPa"),
        (0.95e-12, "ratio", "0", "0"),
        (1e-12, "ratio", "0", "0"),
        (1.05e-12, "ratio", "1e−12", "1e−12"),
        (-0.95e-12, "pressure", "0 psf", "0 kPa"),
        (math.pi / 4, "angle", "45°", "45°"),
        (0.0, "coordinate", "0 in", "0 m"),
        (-0.01, "coordinate", "−3/8 in", "−0.01 m"),
        (-1.0, "coordinate", "−3 ft 3 3/8 in", "−1 m"),
        (-0.0004, "coordinate", "0 in", "−0.0004 m"),
        (1.0, "count", "1", "1"),
    ],
)
def test_what_is_written(value: float, kind: str, us: str, si: str) -> None:
    """1700 Pa are 35.5 psf; 10 mm are 6.3 sixteenths of an inch; 1 m is 39.37 in; 0.4 mm is no sixteenth."""
    assert (Writer("us").write(value, kind), Writer("si").write(value, kind)) == (us, si)


@pytest.mark.parametrize(
    ("kind", "us", "si"),
    [("thickness", "in", "mm"), ("length", "ft", "m"), ("coordinate", "ft", "m"), ("stress", "psi", "MPa"),
     ("count", "", "")],
)  # fmt: skip
def test_a_bare_number_goes_with_its_unit(kind: str, us: str, si: str) -> None:
    assert (Writer("us").unit_symbol(kind), Writer("si").unit_symbol(kind)) == (us, si)
    for system, symbol in (("us", us), ("si", si)):
        value = unit(symbol).to_si(2.5) if symbol else 2.5
        assert Writer("us" if system == "us" else "si").number(value, kind) == pytest.approx(2.5, rel=1e-12)


def test_dimensions_are_multiplied_divided_and_raised() -> None:
    foot, square, cube = (unit(symbol).dimension for symbol in ("ft", "ft2", "ft3"))
    assert foot.times(square) == cube == foot.power(3) and cube.over(foot) == square == foot.power(2)
    speed = unit("mph").dimension
    assert speed == foot.over(unit("s").dimension) and speed.power(0.5).time == -0.5


def test_the_bounds_of_what_anything_measures_are_within_reach() -> None:
    """Ten kilometres, and a millionth of a millimetre."""
    for text in ("10000 m", "0.000001 mm"):
        assert measure(text, "thickness").text == text
    for text in ("10001 m", "0.0000009 mm"):
        with pytest.raises(MeasureError) as found:
            measure(text, "thickness")
        assert found.value.code == "measure-size"


@pytest.mark.parametrize("kind", ["time", "age", "seconds", "minutes"])
def test_no_time_is_too_short(kind: str) -> None:
    assert measure("0.5 s", kind).si == 0.5


def test_sixty_characters_are_looked_at_and_no_more() -> None:
    for length, code in ((60, "measure-unit"), (61, "measure-form")):
        with pytest.raises(MeasureError) as found:
            measure("8 " + "f" * (length - 2), "length")
        assert found.value.code == code


@given(st.sampled_from(sorted(KINDS)), st.floats(-1e4, 1e4), st.sampled_from(("us", "si")))
def test_a_number_without_its_unit_is_the_one_written_with_it(kind: str, value: float, system: System) -> None:
    writer = Writer(system)
    bare, symbol = writer.write_bare(value, kind), writer.unit_symbol(kind)
    if system == "us" and KINDS[kind].us == "ft-in":
        assert abs(float(bare.replace("−", "-")) * 0.3048 - value) <= 0.005 * 0.3048 + 1e-9
        assert writer.write_bare(6 * 0.3048 + 2 * 0.0254, kind) == "6.17"
    else:
        assert writer.write(value, kind) in (bare, f"{bare} {symbol}", f"{bare}{symbol}")
