"""What could be written in a field whose kind of measure alone would suggest an unlikely size. Only the form of an
answer is shown: none of these is a figure of a code."""

from __future__ import annotations

EXAMPLES: dict[tuple[str, str], tuple[str, str]] = {
    ("Opening", "start"): ("4 ft", "1.2 m"),
    ("Opening", "width"): ("3 ft", "900 mm"),
    ("Opening", "sill"): ("2 ft 6 in", "750 mm"),
    ("Opening", "height"): ("4 ft", "1.2 m"),
    ("Lintel", "depth"): ("8 in", "200 mm"),
    ("Lintel", "bearing"): ("12 in", "300 mm"),
    ("Site", "ground_snow"): ("30 psf", "1.4 kPa"),
    ("Site", "soil_bearing"): ("2000 psf", "100 kPa"),
    ("Site", "frost_depth"): ("18 in", "450 mm"),
    ("Stem", "above_grade"): ("12 in", "300 mm"),
    ("Stem", "above_floor"): ("6 in", "150 mm"),
    ("Footing", "width"): ("24 in", "600 mm"),
    ("Footing", "thickness"): ("12 in", "300 mm"),
    ("Footing", "bottom"): ("24 in", "600 mm"),
    ("BondBeam", "width"): ("12 in", "300 mm"),
    ("BondBeam", "depth"): ("6 in", "150 mm"),
    ("Roof", "slope"): ("20 deg", "20 deg"),
    ("Roof", "overhang"): ("24 in", "600 mm"),
    ("Roof", "rafter_spacing"): ("24 in", "600 mm"),
    ("Roof", "dead"): ("15 psf", "0.7 kPa"),
    ("Roof", "live"): ("20 psf", "1 kPa"),
    ("Roof", "snow"): ("25 psf", "1.2 kPa"),
}
"""By model and field, in US units and in SI."""
