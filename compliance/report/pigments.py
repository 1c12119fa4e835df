"""The earth pigments of papers and pages, in hexadecimal RGB.

Each also differs in lightness, so that a gray print keeps them apart.
"""

from __future__ import annotations

INK = "#221E1A"
UMBER = "#5A4536"
SLATE = "#3E4A52"
CLAY = "#A1432F"
OCHRE = "#BE8A34"
LICHEN = "#55703F"
CHALK = "#F6F2EA"
SAND = "#CDBFA6"
ASH = "#8A8178"
