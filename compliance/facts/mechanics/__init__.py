"""Statics of earthen walls and what stands on and under them: pure functions of floats in SI units."""
