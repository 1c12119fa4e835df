"""Soils, mixes and specimens on paper."""
