"""How many examples a property is tried with: a quarter by default, all with EARTHWALL_WHOLE=1 in the environment."""

from __future__ import annotations

from tests.long_form import WHOLE

_LEAST = 3


def tries(whole: int) -> int:
    """The number of examples of this run; the examples named at a test are always tried beside them."""
    return whole if WHOLE else min(whole, max(_LEAST, whole // 4))
