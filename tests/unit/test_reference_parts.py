"""What a reference file may hold, value by value, and how a bound is met but for the last digits."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from compliance.facts.common.reference_values import Part, ReferenceValueError, at_least, at_most


@pytest.mark.parametrize(
    ("value", "read", "says"),
    [
        ({}, lambda part: part.text("a"), "values.a is missing; there are: no keys"),
        ({"b": 1, "c": 2}, lambda part: part.text("a"), "values.a is missing; there are: b, c"),
        ({"a": 1}, lambda part: part.text("a"), "values.a must be text"),
        ({"a": ""}, lambda part: part.text("a"), "values.a must be text"),
        ({"a": []}, lambda part: part.texts("a"), "values.a must be a list of texts"),
        ({"a": ["b", 1]}, lambda part: part.texts("a"), "values.a must be a list of texts"),
        ({"a": ["b", ""]}, lambda part: part.texts("a"), "values.a must be a list of texts"),
        ({"a": [1, 1]}, lambda part: part.rising("a"), "values.a must rise from each number to the next"),
        ({"a": [1, 3, 2]}, lambda part: part.rising("a"), "values.a must rise from each number to the next"),
        ({"a": True}, lambda part: part.number("a"), "values.a must be a number, not True"),
        ({"a": "1"}, lambda part: part.number("a"), "values.a must be a number, not '1'"),
        ({"a": math.inf}, lambda part: part.number("a"), "values.a must be a number, not inf"),
        ({"a": [{"b": 1}, 2]}, lambda part: part.parts("a"), "values.a.2 must hold keys with values"),
    ],
)
def test_what_is_wrong_is_named_with_its_place(
    value: dict[str, object], read: Callable[[Part], object], says: str
) -> None:
    with pytest.raises(ReferenceValueError) as found:
        read(Part(value))
    assert str(found.value) == says


def test_what_is_sound_is_read() -> None:
    part = Part({"a": ["b", "c"], "d": [1, 2.5, 4], "e": [{"f": 1}]})
    assert part.texts("a") == ("b", "c") and part.rising("d") == (1.0, 2.5, 4.0)
    (only,) = part.parts("e")
    assert (only.path, only.number("f")) == ("values.e.1", 1.0)


def test_a_bound_is_met_within_a_billionth() -> None:
    for met, other, side in ((at_least, at_most, -1), (at_most, at_least, 1)):
        assert met(2.0, 2.0) and met(2.0 * (1 + side * 0.95e-9), 2.0) and not met(2.0 * (1 + side * 1.05e-9), 2.0)
        assert met(2.0 - side, 2.0) and not other(2.0 - side, 2.0)
    assert at_least(0.0, 0.0) and at_most(0.0, 0.0)
