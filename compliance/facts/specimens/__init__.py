"""Specimens and sets: strength of one, statistics of many, outliers."""
