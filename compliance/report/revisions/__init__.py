"""Findings as data that is kept, and what changed between two revisions."""
