"""Measures: reading what people write, the one registry, and writing in US or SI units."""

from compliance.units.everyday import symbol_of
from compliance.units.grammar import Measure, MeasureError, kind_of_text, measure, parse_measure, parse_number
from compliance.units.kinds import KINDS, Kind, dimension_of
from compliance.units.unit_table import NUMBER, SPELLINGS, Dimension, Unit, unit
from compliance.units.unit_words import words_of
from compliance.units.writing import Writer

__all__ = [
    "KINDS", "NUMBER", "SPELLINGS", "Dimension", "Kind", "Measure", "MeasureError", "Unit", "Writer",
    "dimension_of", "kind_of_text", "measure", "parse_measure", "parse_number", "symbol_of", "unit", "words_of",
]  # fmt: skip
