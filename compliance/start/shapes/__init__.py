"""Walls from the shape of a building: outside sizes, an outline, a table, or wall after wall."""
