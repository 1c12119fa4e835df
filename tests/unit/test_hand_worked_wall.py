"""One wall from roof to soil, worked by hand in feet and pounds and put beside what the facts say.

South wall of a box of 20 by 16 ft: 8 ft high, 16 in thick (4/3 ft, 192 in² a foot), 110 pcf, bare; a window of 4 ft
from 8 ft on, sill at 3 ft, head at 6 ft, so two piers of 8 ft. Bond beam of wood, 12 by 6 in, 35 pcf. Roof: 10 ft of
it on the wall, 15 psf dead, 20 live, 25 snow, 2 ft of it eaves. Stem wall of concrete 16 in thick from the footing's
top, 1 ft below grade, to 1 ft above. Footing 24 by 12 in. Lowest strengths 100 psi pressed, 60 psi bent. S_DS 0.2, wind
110 mph, exposure B, ASCE 7-10. Coefficients are those of the reference file screening, each with its own source there.

- Top: dead 15 × 10 + 35 × 1 × 0.5 = 167.5 plf; snow 250; D + S = 417.5 plf, which governs over D + Lr = 367.5.
- Wall: 110 × 4/3 × 8 = 1173.3 plf; over the window 110 × 4/3 × 2 × 4 = 1173.3 lbf, under its sill 1760 lbf.
- Pier: 417.5 × 8 + 417.5 × 2 + 586.7 + 1173.3 × 8 = 14148.3 lbf, or 1768.5 plf.
- Pressures: base 1768.5 / 192 = 9.211 psi; mid-height (4761.7 + 4693.3) / 8 / 192 = 6.156 psi; top, on the beam,
  4761.7 / 8 / 144 = 4.133 psi.
- All in: 417.5 × 20 + (160 − 12) × 4/3 × 110 = 30056.7 lbf; all out: 2 × 14148.3 + 1760, the same.
- Slender: r = 16 / √12 = 4.6188 in, h/r = 20.785, C = 1 − (20.785 / 140)² = 0.97796, F_a = 0.25 × 100 × C = 24.449 psi
  (60 psi would give 14.669, as recomputed from the published form).
- Soil: stem 150 × 4/3 × 2 = 400 plf; the pier spreads to 8 + 2 ft: 14148.3 / 10 + 1760 / 4 + 400 = 2254.8 plf;
  width 2254.8 / (2000 − 150) = 1.2188 ft; pressure (2254.8 + 300) / 2 = 1277.4 psf.
- Lintel, 6 by 12 in: 417.5 + 293.3 = 710.8 plf over 5 ft: 2221.4 lbf·ft, 370.2 psi; end 1777.1 lbf, 37.0 psi; on the
  earth 2 × 1777.1 / 144 = 24.68 psi.
- Wind square to it: q = 0.00256 × 0.70 × 0.85 × 110² = 18.431 psf; 8²/3 = 21.33 ft², GC_p = −1.4 + 0.6 × ln 2.133 /
  ln 50 = −1.2838; 0.6 × 18.431 × (1.2838 + 0.18) = 16.187 psf. Earthquake: 0.7 × 0.1 × 146.67 = 10.267 psf, for
  0.4 × 0.2 is less.
- Bending of a pier: 16.187 × 10 / 8 = 20.234 psf. On top 0.6 × 1675 less the lift of 1257.5, over 8 ft: −31.56 plf, for
  the rods end above. Earth grows by 0.6 × 146.67 = 88 plf a foot, so that tension is greatest 4 − 88 × 4/3 / (6 ×
  20.234) = 3.0335 ft down: 20.234 × 3.0335 × 4.9665 / 2 = 152.42 lbf; earth 0.6 × (586.7 + 3559.3) / 8 = 310.95 plf;
  tension 6 × 152.42 / (4/3)² − 279.39 / (4/3) = 304.9 psf = 2.1172 psi, of 60 / 3 = 20 psi.
- Anchors: max(16.187 × 8 / 2, 0.7 × 400 × 0.2, 0.7 × 280, 0.7 × 0.2 × (1 + 21.33 / 100) × 586.7 = 99.7) = 196 plf;
  900 / 196 = 4.592 ft. Beam: 16.187 × 8 / 2 = 64.75 plf, × 20² / 8 = 3237.4 lbf·ft of
  850 × 6 × 12² / 6 / 12 = 10200 lbf·ft.
"""

from __future__ import annotations

import pytest

from compliance.facts.geometry.subjects import Facts
from tests.unit.structural_houses import FOOT, INCH, LBF, PLF, PSF, PSI, ROOF, SITE, bears, box, facts, number, opening

ROUNDED = 5e-4  # the hand figures above carry four or five digits


@pytest.fixture(scope="module")
def found() -> Facts:
    walls = box(20, 16, W1={"A": opening(8, 4)})
    return facts(walls, {"R": {**ROOF, "bears_on": bears("W1", "W3")}}, site={**SITE, "asce7": "7-10"})


@pytest.mark.parametrize(
    ("name", "by_hand", "unit"),
    [
        ("wall.top_dead", 167.5, PLF), ("wall.top_snow", 250, PLF), ("wall.top_load", 417.5, PLF),
        ("wall.line_load", 417.5, PLF), ("wall.base_load", 1768.54, PLF), ("wall.base_stress", 9.2111, PSI),
        ("wall.middle_stress", 6.1556, PSI), ("wall.top_stress", 4.1334, PSI), ("wall.greatest_stress", 9.2111, PSI),
        ("wall.load_in", 30056.7 + (400 + 300) * 20, LBF), ("wall.load_out", 30056.7 + (400 + 300) * 20, LBF),
        ("wall.slenderness_factor", 0.97796, 1), ("wall.slender_allowable", 24.449, PSI),
        ("wall.stem_weight", 400, PLF), ("wall.soil_load", 2254.83, PLF),
        ("wall.footing_needed", 1.21883, FOOT), ("wall.soil_pressure", 1277.4, PSF),
        ("wall.footing_projection", 4, INCH), ("wall.wind_pressure", 16.187, PSF),
        ("wall.seismic_pressure", 10.267, PSF), ("wall.lateral_pressure", 16.187, PSF),
        ("wall.lateral_moment", 152.42, LBF), ("wall.bending_tension", 2.1172, PSI), ("wall.tension_allowed", 20, PSI),
        ("wall.bending_use", 0.10586, 1), ("wall.lift", 125.75, PLF),
        ("wall.anchorage_force", 196, PLF), ("wall.anchor_spacing_most", 4.5918, FOOT),
        ("wall.beam_moment", 3237.4, LBF * FOOT),
    ],
)  # fmt: skip
def test_the_wall(found: Facts, name: str, by_hand: float, unit: float) -> None:
    assert number(found, name) == pytest.approx(by_hand * unit, rel=ROUNDED)


@pytest.mark.parametrize(
    ("name", "by_hand"),
    [
        ("lintel_load", 710.8 * PLF / PSI),
        ("lintel_bending", 370.2),
        ("lintel_shear", 37.02),
        ("lintel_pressure", 24.682),
        ("bending_allowed", 850),
    ],
)
def test_its_lintel(found: Facts, name: str, by_hand: float) -> None:
    assert number(found, f"opening.{name}", "W1.A") == pytest.approx(by_hand * PSI, rel=ROUNDED)


def test_its_piers_and_its_beam(found: Facts) -> None:
    for pier in ("W1.P1", "W1.P2"):
        assert number(found, "pier.base_load", pier) == pytest.approx(14148.3 * LBF, rel=ROUNDED)
    assert number(found, "beam.moment_allowed", "B1") == pytest.approx(10200 * LBF * FOOT, rel=1e-9)


def test_the_same_wall_in_metres(found: Facts) -> None:
    """Nothing depends on the units the project is written in, but for the rounded constant of air."""
    walls = box(20, 16, W1={"A": opening(8, 4)})
    roofs = {"R": {**ROOF, "bears_on": bears("W1", "W3")}}
    project = {"name": "Trial", "date": "2026-12-30", "stories": 1, "building_height": "4.2672 m", "units": "si"}
    metric = facts(walls, roofs, project=project, site={**SITE, "asce7": "7-10"})
    for name in ("wall.base_stress", "wall.soil_pressure", "wall.slender_allowable", "wall.load_in"):
        assert number(metric, name) == pytest.approx(number(found, name), rel=1e-9)
    assert number(metric, "wall.wind_pressure") == pytest.approx(number(found, "wall.wind_pressure"), rel=1e-3)
