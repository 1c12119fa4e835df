"""Thicknesses in inches with a fraction: what is written reads back as the very measure."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.drawings.common.inches import written
from compliance.units import KINDS, Writer, parse_measure

INCH = 0.0254


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        (0.75, "3/4 in"),
        (5.5, "5 1/2 in"),
        (15.75, "15 3/4 in"),
        (0.0625, "1/16 in"),
        (14.0, "14 in"),
        (11.3125, "11 5/16 in"),
    ],
)
def test_sixteenths_are_fractions(inches: float, text: str) -> None:
    assert written(Writer("us"), inches * INCH, "thickness") == text


def test_what_is_no_sixteenth_stays_as_it_is() -> None:
    for value in (0.02, 0.3 * INCH):
        assert written(Writer("us"), value, "thickness") == Writer("us").write(value, "thickness")
    assert written(Writer("si"), 0.75 * INCH, "thickness") == Writer("si").write(0.75 * INCH, "thickness")


@given(st.integers(1, 16 * 60))
def test_every_sixteenth_reads_back(parts: int) -> None:
    value = parts / 16 * INCH
    assert parse_measure(written(Writer("us"), value, "thickness"), KINDS["thickness"]).si == pytest.approx(value)
