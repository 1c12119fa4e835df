"""Sections through walls, and details."""
