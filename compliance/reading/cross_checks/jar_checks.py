"""What to write instead of heights that no jar can show."""

from __future__ import annotations

from compliance.model.soil_tests import IN_A_JAR, JarRecord
from compliance.units import Writer


def jar_advice(jar: JarRecord, writer: Writer) -> str:
    """The right shape; where the three may be thicknesses of the layers, the tops that these add up to."""
    sand, silt, clay = (one.height.si for one in (jar.sand, jar.silt, jar.top))
    right = f"write the top of each layer above the bottom of the jar, as in {IN_A_JAR}"
    if sand <= silt <= clay or min(sand, silt, clay) < 0:
        return f"{right}; the depth of water is at least the top of the clay, and marks are made one after the other"
    tops = [writer.write(top, "layer_height") for top in (sand, sand + silt, sand + silt + clay)]
    return f"{right}; if yours are thicknesses: sand: {tops[0]}, silt: {tops[1]}, clay: {tops[2]}"
