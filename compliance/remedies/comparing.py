"""Two checks of one building beside each other."""

from __future__ import annotations

from collections.abc import Iterable

from compliance.findings import Finding
from compliance.remedies.difference import Difference


def compared(before: Iterable[Finding], after: Iterable[Finding]) -> tuple[Difference, ...]:
    """Every finding that is not the same in both, in the order of the second, then those that are gone."""
    old, new = {one.key: one for one in before}, {one.key: one for one in after}
    changed = [Difference(old.get(key), one) for key, one in new.items() if not _alike(old.get(key), one)]
    return (*changed, *(Difference(one, None) for key, one in old.items() if key not in new))


def _alike(one: Finding | None, other: Finding) -> bool:
    return one is not None and all(
        getattr(one, name) == getattr(other, name) for name in ("outcome", "value", "limit", "margin", "missing")
    )
