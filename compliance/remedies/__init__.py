"""The nearest change that meets a limit, and how far a wall may be changed. Models in, models out; no files."""

from compliance.remedies.difference import Difference
from compliance.remedies.free_range import FreeRange, free_ranges
from compliance.remedies.nearest import NearestChanges
from compliance.remedies.search import Remedy, remedies
from compliance.remedies.trial_judging import ChangeTester, tester_for

__all__ = [
    "ChangeTester",
    "Difference",
    "FreeRange",
    "NearestChanges",
    "Remedy",
    "free_ranges",
    "remedies",
    "tester_for",
]
