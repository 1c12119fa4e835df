"""Unit factors against NIST Special Publication 811 (2008), appendix B.8 (figures recalled from memory where the
definition is not exact; those are marked)."""

from __future__ import annotations

import math

import pytest

from compliance.units.unit_table import unit

EXACT = {
    "in": 2.54e-2,
    "ft": 3.048e-1,
    "yd": 9.144e-1,
    "lb": 4.5359237e-1,
    "mph": 4.4704e-1,
    "gal": 3.785411784e-3,
    "kgf": 9.80665,
    "lbf": 4.4482216152605,
}
SEVEN_DIGITS = {  # as the appendix prints them (recalled)
    "psi": 6.894757e3,
    "ksi": 6.894757e6,
    "psf": 4.788026e1,
    "plf": 1.459390e1,
    "pcf": 1.601846e1,
    "kgf/cm2": 9.80665e4,
    "ft3": 2.831685e-2,
    "yd3": 7.645549e-1,
    "perm": 5.72135e-11,
    "Btu/(lb*F)": 4.1868e3,
    "Btu/(h*ft2*F)": 5.678263,
    "Btu*in/(h*ft2*F)": 1.442279e-1,
    "Btu/(h*ft*F)": 1.730735,
    "Btu/(ft2*F)": 2.044175e4,
    "ft2*h*F/Btu": 1.761102e-1,
}


@pytest.mark.parametrize(("symbol", "factor"), EXACT.items())
def test_exact(symbol: str, factor: float) -> None:
    assert math.isclose(unit(symbol).factor, factor, rel_tol=1e-13)


@pytest.mark.parametrize(("symbol", "factor"), SEVEN_DIGITS.items())
def test_to_the_printed_digits(symbol: str, factor: float) -> None:
    assert math.isclose(unit(symbol).factor, factor, rel_tol=5e-7)


def test_temperatures() -> None:
    """NIST SP 811 B.8: t/°C = (t/°F - 32)/1.8; 0 °C is 273.15 K."""
    assert math.isclose(unit("degF").to_si(212), 373.15, rel_tol=1e-12)
    assert math.isclose(unit("degC").to_si(0), 273.15, rel_tol=1e-12)


def test_ten_point_two_kilogram_force() -> None:
    """10.2 kgf/cm² is 1.00028 MPa (computed from the standard gravity 9.80665 m/s²)."""
    assert math.isclose(unit("kgf/cm2").to_si(10.2), 1.0002783e6, rel_tol=1e-9)
