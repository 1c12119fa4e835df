"""Demand against capacity of walls, lintels, ties and footings."""
