"""Published figures reached from a described building: through description, facts and coefficients, not formulas alone.

- Masonry slenderness, form and factors of TMS 402 as in Taly, Design of Reinforced Masonry Structures, chapter 5:
  allowable stresses recomputed from the form for walls of 60, 85 and 300 psi (no worked example of just this form was
  at hand).
- Earthquake square to a wall: Taly, pp. 385 and 405 (ASCE 7-05 section 12.11): a wall of 84 psf, S_DS 1.0, I 1.25 gives
  F_p = 42 psf, and 29.4 psf at the level of allowable stresses.
- Strip footing: an earth wall of 24 in by 8 ft at 110 pcf with 400 plf on it, soil of 1,500 psf: 2,160 plf, 17.28 in
  (computed from load over bearing; common practice, no source).
"""

from __future__ import annotations

import pytest

from tests.unit.structural_houses import (
    INCH,
    PARTS,
    PLF,
    PSF,
    PSI,
    SITE,
    box,
    crushed,
    described,
    facts_of,
    number,
)


@pytest.mark.parametrize(
    ("height", "thickness", "strength", "allowable"),
    [(96, 16, 60, 14.66939), (96, 24, 60, 14.85306), (120, 16, 85, 20.51818), (144, 10, 300, 65.47837)],
)
def test_allowable_axial_stress(height: float, thickness: float, strength: float, allowable: float) -> None:
    walls = box(20, 16)
    walls["W1"] |= {"height": f"{height} in", "thickness": f"{thickness} in"}
    found = facts_of(described(walls), {"C1": crushed(strength, strength + 10)})
    assert number(found, "wall.slender_allowable") == pytest.approx(allowable * PSI, rel=1e-6)


def test_earthquake_square_to_a_wall() -> None:
    """Nominal pounds: 84 pcf over 12 in weigh 84 psf. S_DS 1.0 and I 1.25 of risk category III: 0.4 × 1.25 = 0.5."""
    walls = box(20, 16)
    walls["W1"]["thickness"] = "12 in"
    mixes = {"M1": {"name": "as heavy", "parts": {"S1": 1.0}, "dry_density": "84 pcf"}}
    found = facts_of(described(walls, site={**SITE, "sds": 1.0, "risk_category": "III"}, mixes=mixes))
    assert number(found, "wall.face_weight") == pytest.approx(84 * PSF, rel=1e-6)
    assert number(found, "wall.seismic_pressure") == pytest.approx(29.4 * PSF, rel=1e-6)


def test_width_of_a_strip_footing() -> None:
    walls = box(20, 16)
    walls["W1"] |= {
        "thickness": "24 in",
        "line_load": "400 plf",
        "load_eccentricity": "0 in",
        "stem": None,
        "beam": None,
    }
    light = {"F1": {**PARTS["footings"]["F1"], "density": "10 pcf"}}  # 10 psf of itself, so 1,510 leave 1,500
    found = facts_of(described(walls, site={**SITE, "soil_bearing": "1510 psf"}, footings=light))
    assert number(found, "wall.soil_load") == pytest.approx(2160 * PLF, rel=1e-6)
    assert number(found, "wall.footing_needed") == pytest.approx(17.28 * INCH, rel=1e-6)
