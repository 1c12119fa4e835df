"""One test for many things of a kind: it tries all of them and names each that fails.

A test of its own for each of thousands of rules or lines costs more in collecting and reporting than the check does.
"""

from __future__ import annotations

import traceback
from collections.abc import Callable, Iterable
from typing import Any

import pytest

Named = tuple[Any, ...]
"""A name, then what the check takes."""


def try_each(check: Callable[..., None], things: Iterable[Named]) -> None:
    """The check of every thing; fails with the name, the line and the reason of each that fails, and where there is
    nothing to check."""
    tried, failed = 0, []
    for name, *values in things:
        tried += 1
        try:
            check(*values)
        except Exception as error:
            line = traceback.extract_tb(error.__traceback__)[-1].lineno
            failed.append(f"{name} (line {line}): {type(error).__name__}: {error}")
    assert not failed, f"{len(failed)} of {tried} fail:\n" + "\n".join(failed)
    assert tried, "there is nothing to check"


def for_each(
    groups: Iterable[str], things: Callable[[str], Iterable[Named]]
) -> Callable[[Callable[..., None]], Callable[[str], None]]:
    """Makes of a check of one thing a test for each group, which tries all `things` of the group. They are asked for
    when the test runs, not when it is collected."""

    def as_test(check: Callable[..., None]) -> Callable[[str], None]:
        def test(group: str) -> None:
            try_each(check, things(group))

        test.__name__, test.__qualname__, test.__doc__ = check.__name__, check.__qualname__, check.__doc__
        test.__module__ = check.__module__
        return pytest.mark.parametrize("group", list(groups))(test)

    return as_test
