"""A test that tries many things fails for each that fails, and where there is none."""

from __future__ import annotations

import pytest

from tests.each import for_each, try_each


def is_small(number: int) -> None:
    assert number < 3
    if number < 0:
        raise ValueError("below zero")


def test_each_that_fails_is_named_with_its_reason() -> None:
    try_each(is_small, [("one", 1), ("two", 2)])
    with pytest.raises(AssertionError) as found:
        try_each(is_small, [("one", 1), ("minus", -1), ("four", 4), ("five", 5)])
    said = str(found.value)
    assert "3 of 4 fail" in said and "ValueError: below zero" in said
    assert "four (line 11)" in said and "five (line 11)" in said and "one (" not in said


def test_nothing_to_check_fails() -> None:
    with pytest.raises(AssertionError, match="nothing to check"):
        try_each(is_small, [])


@for_each(["low", "high"], lambda group: [(group, 0 if group == "low" else 2)])
def test_a_check_becomes_a_test_for_each_group(number: int) -> None:
    """The groups are tried."""
    is_small(number)


def test_the_test_made_of_a_check_fails_with_it() -> None:
    made = for_each(["all"], lambda group: [("seven", 7)])(is_small)
    assert made.__name__ == "is_small"
    with pytest.raises(AssertionError, match="seven"):
        made("all")
