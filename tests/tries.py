"""How much the tests try: with EARTHWALL_WHOLE=1 in the environment all of each matrix and all examples of a property;
by default every row and every column once, and a quarter of the examples."""

from __future__ import annotations

import os

WHOLE = os.environ.get("EARTHWALL_WHOLE") == "1"
_LEAST = 3


def tries(whole: int) -> int:
    """The number of examples of this run; the examples named at a test are always tried beside them."""
    return whole if WHOLE else min(whole, max(_LEAST, whole // 4))
