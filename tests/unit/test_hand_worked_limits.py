"""What a wall resists with eccentricity and buckling, worked by hand in metres by the form of EN 1996-1-1, 6.1.2.2 and
Annex G (recalled), and put beside the facts.

A wall 16 in (0.4064 m) thick of 100 psi (689 476 Pa), the load stated 300 plf. E/f = 300, so the curve is 0.063, 0.73
and 1.17 times √300 = 17.3205: 1.09119, 12.6440, 20.2650. Design strength 689 476 / (3.0 × 1.5) = 153 217 Pa.

- 8 ft high, load 3 in off: out of true 2.4384 / 450 = 5.4187 mm. End 76.2 + 5.4187 = 81.619 mm, Φ = 1 − 2 × 0.200833 =
  0.598333. Mid-height 38.1 + 5.4187 = 43.519 mm, creep 0.002 × 2 × 6 × √(406.4 × 43.519) = 3.1917 mm;
  u = (6 − 1.09119) / (12.6440 − 20.2650 × 0.114937) = 0.475901, Φ = 0.770126 × exp(−u² / 2) = 0.68767. The end governs:
  0.598333 × 0.4064 × 153 217 = 37 257 N/m.
- 16 ft high, load 1 in off: out of true 10.8373 mm. End 36.237 mm, Φ = 0.82167. Mid-height 12.7 + 10.8373 = 23.537 mm,
  creep 0.048 × √(406.4 × 23.537) = 4.6946 mm; u = (12 − 1.09119) / (12.6440 − 20.2650 × 0.0694682) = 0.970864,
  Φ = 0.861064 × exp(−u² / 2) = 0.53747. Mid-height governs: 0.53747 × 0.4064 × 153 217 = 33 467 N/m.
- 16 ft high, load in the middle: at once the least, 0.05 × 406.4 = 20.32 mm, creep 0.048 × √(406.4 × 20.32) =
  4.3619 mm; u = 10.90881 / (12.6440 − 20.2650 × 0.0607331) = 0.955821,
  Φ = 0.878534 × exp(−u² / 2) = 0.55637: 34 644 N/m.
"""

from __future__ import annotations

import pytest

from tests.unit.structural_houses import WALL, facts, number, run

ROUNDED = 1e-4


@pytest.mark.parametrize(
    ("height", "off", "by_hand"),
    [("8 ft", "3 in", 37_257), ("16 ft", "1 in", 33_467), ("16 ft", "0 in", 34_644)],
)
def test_eccentric_resistance(height: str, off: str, by_hand: float) -> None:
    wall = {**WALL, "run": run(0, 0, 20, 0), "height": height, "line_load": "300 plf", "load_eccentricity": off}
    wall |= {"beam": None, "top_restraint": "roof"}
    assert number(facts({"W1": wall}), "wall.eccentric_resistance") == pytest.approx(by_hand, rel=ROUNDED)
