"""Checks load-bearing earthen walls against editable rule sets and writes the submittal."""

__version__ = "0.1.0"
