"""The lowest value reduced by the scatter of its set: (1 − 1.5 × s / m) × lowest.

The form is recalled from NZS 4298:1998 (smallest set five; it was not read in a copy, and larger sets may follow
another rule). The figures here are recomputed by hand, not printed in the standard.
"""

from __future__ import annotations

import pytest

from compliance.facts.specimens.statistics import govern
from compliance.units import Writer

STATISTIC = "lowest-reduced-by-scatter"
FACTOR = {"factor": 1.5}
FIVE = [1.6e6, 1.7e6, 1.8e6, 1.9e6, 2.0e6]


def test_five_values() -> None:
    """1.6 ... 2.0 MPa: m 1.8, s 0.158114, value 1.389181 MPa."""
    governed = govern(FIVE, "stress", STATISTIC, FACTOR)
    assert governed.value == pytest.approx(1.389181e6, abs=0.5)
    mean, deviation, reduction, _ = governed.steps
    assert mean.result.value == pytest.approx(1.8e6, rel=1e-12)
    assert deviation.result.value == pytest.approx(0.158114e6, abs=0.5)
    assert reduction.result.value == pytest.approx(1.389181 / 1.6, abs=5e-7)


def test_its_lines_print_every_number() -> None:
    lines = [step.line(Writer("si")) for step in govern(FIVE, "stress", STATISTIC, FACTOR).steps]
    assert lines[2] == (
        "Reduction for scatter: r = max(0, 1 − c × s / m) = max(0, 1 − 1.5 × (0.158 MPa) / (1.8 MPa)) = 0.868"
    )
    assert lines[3] == "Lowest value, reduced for scatter: x = r × x₁ = 0.868 × (1.6 MPa) = 1.389 MPa"


def test_reduction_at_a_published_scatter() -> None:
    """Sasui, Jinwuth, Hengrasmee (IJSRP): five alike handmade adobe bricks scattered by 59.21 % (abstract read).

    At that scatter hardly anything is left: 1 − 1.5 × 0.5921 = 0.11185. The single values are not published, so
    this takes a plain synthetic set of that coefficient of variation: 1 ± 0.5921 × √2 / 2 around a mean of 1.
    """
    half = 0.5921 / 2**0.5
    governed = govern([1.0 - half, 1.0 + half], "ratio", STATISTIC, FACTOR)
    assert governed.steps[2].result.value == pytest.approx(0.11185, abs=5e-6)


def test_never_below_zero() -> None:
    """The reduction reaches zero at a coefficient of variation of 1 / 1.5 = 0.6667; beyond it the value stays zero."""
    for variation, expected in ((0.66, 0.01), (0.67, 0.0), (0.70, 0.0)):
        half = variation / 2**0.5
        governed = govern([1.0 - half, 1.0 + half], "ratio", STATISTIC, FACTOR)
        assert governed.steps[2].result.value == pytest.approx(expected, abs=1e-12)
        assert governed.value == pytest.approx(expected * (1.0 - half), abs=1e-12)


def test_one_value_has_no_scatter() -> None:
    refused = govern([1.6e6], "stress", STATISTIC, FACTOR)
    assert (refused.value, refused.steps) == (None, ())
    assert refused.reason == "needs 2 or more values, has 1"
