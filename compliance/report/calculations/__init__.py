"""Worked lines, each printed once."""
