"""The shipped rule sets, each read once in a process: many tests read them, and none changes them."""

from __future__ import annotations

from functools import cache

from compliance.reading.rule_files import rule_library

read_shipped = cache(rule_library.read_shipped)
