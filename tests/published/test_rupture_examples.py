"""Modulus of rupture R = 3 P L/(2 b t²).

Source of formula and of the average of 50 psi: 14.7.4.11 D NMAC. No published numeric example was at hand: the rows
were computed from the formula apart from this program. The third-point form with the specimen's own weight,
(P + 0.75 Ps) L/(b d²), is a form printed in Masonry Magazine (reported); it is checked here against bending of the
loaded beam.
"""

from __future__ import annotations

import pytest

from compliance.facts.mechanics.beams import Point, SimpleBeam, Spread
from compliance.facts.mechanics.sections import section_modulus
from compliance.facts.specimens.rupture import (
    rupture_at_centre,
    rupture_at_centre_with_weight,
    rupture_at_thirds,
)
from compliance.units import Writer

INCH = 0.0254
POUND = 4.4482216152605
PSI = POUND / INCH**2


@pytest.mark.parametrize(("force", "span", "printed"), [(600, 10, 56.25), (1000, 12, 112.5)])
def test_rows_of_a_brick_10_by_4(force: float, span: float, printed: float) -> None:
    given = (force * POUND, span * INCH, 10 * INCH, 4 * INCH)
    assert rupture_at_centre(*given) / PSI == pytest.approx(printed)


def test_force_at_the_average_asked_for() -> None:
    """533.33 lb on a 10 in span of a 10 × 4 in brick is just 50 psi."""
    assert rupture_at_centre(1600 / 3 * POUND, 10 * INCH, 10 * INCH, 4 * INCH) / PSI == pytest.approx(50)


def test_centre_load_is_the_beam_formula() -> None:
    beam = SimpleBeam(0.3, [Point(0.15, 2000.0)])
    assert rupture_at_centre(2000.0, 0.3, 0.15, 0.1) == pytest.approx(
        beam.greatest_moment / section_modulus(0.15, 0.1), rel=1e-12
    )


def test_centre_load_with_the_weight_between_the_supports() -> None:
    beam = SimpleBeam(0.3, [Point(0.15, 2000.0), Spread(0.0, 0.3, 150.0, 150.0)])
    assert rupture_at_centre_with_weight(2000.0, 45.0, 0.3, 0.15, 0.1) == pytest.approx(
        beam.greatest_moment / section_modulus(0.15, 0.1), rel=1e-12
    )


def test_third_point_form_counts_the_weight_between_the_supports() -> None:
    beam = SimpleBeam(0.3, [Point(0.1, 1000.0), Point(0.2, 1000.0), Spread(0.0, 0.3, 150.0, 150.0)])
    found = rupture_at_thirds(2000.0, 45.0, 0.3, 0.15, 0.1)
    assert found == pytest.approx(beam.greatest_moment / section_modulus(0.15, 0.1), rel=1e-12)


def test_step_prints_in_field_units() -> None:
    step = rupture_at_centre(600 * POUND, 10 * INCH, 10 * INCH, 4 * INCH).step()
    assert step.result.written(Writer("us")) == "56.2 psi"
