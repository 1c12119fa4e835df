"""Drawings inked and set on pages."""
