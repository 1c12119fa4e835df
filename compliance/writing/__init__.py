"""Findings in forms for machines and for the terminal."""
