"""Mixes: blending soils, ranking trials, quantities to order."""
