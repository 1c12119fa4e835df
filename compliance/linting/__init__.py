"""Linting of rule sets and amendments."""
