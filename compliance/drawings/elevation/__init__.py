"""Elevations of walls."""
