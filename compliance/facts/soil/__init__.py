"""Soils: jar test, grading, texture, hand tests, settling times."""
