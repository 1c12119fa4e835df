"""Figures as printed: a value outside its limit never reads as equal to it, a margin never as none."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.findings import Outcome
from compliance.report.value_words import counted, percent, quoted, relation, value_and_limit
from compliance.steps import Given
from compliance.units import Writer
from tests.documents.buildings import finding

US, SI = Writer("us"), Writer("si")
INCH = 0.0254


def compared(value: float, limit: float, kind: str = "thickness") -> tuple[str, str]:
    one = finding("rule-1", Outcome.REVISE, value=Given("v", value, kind), limit=Given("l", limit, kind))
    return value_and_limit(one, US)


def test_limits_are_quoted_in_both_systems() -> None:
    """1 in = 25.4 mm exactly (international inch, 1959)."""
    assert quoted(Given("least", 10 * INCH, "thickness"), US) == "10 in (254 mm)"
    assert quoted(Given("least", 10 * INCH, "thickness"), SI) == "254 mm (10 in)"
    assert quoted(Given("most", 7.0), US) == "7"
    assert quoted(Given("kinds", "barley, oat", "words"), US) == "barley, oat"
    assert quoted(Given("asked", True, "yes-no"), US) == "yes"
    assert quoted(None, US) == "open"


def test_a_value_and_its_limit_in_both_systems() -> None:
    assert compared(9 * INCH, 10 * INCH) == ("9 in", "10 in (254 mm)")


def test_a_value_just_outside_is_told_from_its_limit() -> None:
    value, limit = compared(9.999 * INCH, 10 * INCH)
    assert value == "9.999 in" and limit.startswith("10 in (")
    value, limit = compared(10 * INCH * (1 - 2e-9), 10 * INCH)
    assert value.startswith("just under 10 in")


@given(st.floats(0.01, 10), st.floats(1e-8, 0.5), st.booleans())
def test_two_values_that_differ_never_print_alike(limit: float, share: float, over: bool) -> None:
    value = limit * (1 + share if over else 1 - share)
    shown, allowed = compared(value, limit)
    assert shown != allowed.partition(" (")[0]


@given(st.floats(-10, 10, allow_subnormal=False))
def test_a_margin_keeps_its_sign_and_is_zero_only_at_zero(share: float) -> None:
    text = percent(share)
    number = float(re.sub(r"[ %+]", "", text.replace("−", "-")))
    assert (number == 0) == (abs(share) < 0.5e-8 or share == 0) or abs(share) < 1e-7
    if abs(share) > 1e-7:
        assert math.copysign(1, number) == math.copysign(1, share)
        assert number == pytest.approx(share * 100, rel=0.5, abs=0.5)


def test_margins() -> None:
    assert [percent(one) for one in (0.4, -0.334, 0.0004, -0.0004, 0.0)] == [
        "+40 %",
        "−33 %",
        "+0.04 %",
        "−0.04 %",
        "0 %",
    ]
    assert percent(None) == percent(math.inf) == "—"


def test_relations_in_signs_and_words() -> None:
    signs = {"<=": "≤", ">=": "≥", "==": "=", "!=": "≠", "<": "<", "in": "one of", "is": "is", "": ""}
    for written, shown in signs.items():
        assert relation(finding("rule-1", Outcome.MEETS, relation=written)) == shown


def test_counting() -> None:
    assert (counted(1, "wall"), counted(0, "wall"), counted(2, "check")) == ("1 wall", "0 walls", "2 checks")
