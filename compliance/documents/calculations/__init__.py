"""Calculation sheets and tables."""
