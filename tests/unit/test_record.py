"""Records behave as dataclasses of the standard library do; `dataclasses` is the reference beside each check."""

from __future__ import annotations

import dataclasses
from dataclasses import field

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.record import record


@record
class Point:
    x: float
    y: float = 0.0


@record
class Named(Point):
    name: str = "?"
    tags: list[str] = field(default_factory=list)
    note: str = field(default="", compare=False, repr=False)


@record
class Checked:
    least: float

    def __post_init__(self) -> None:
        if self.least < 0:
            raise ValueError("below zero")


@record
class Bare:
    pass


@dataclasses.dataclass
class Reference:
    x: float
    y: float = 0.0
    name: str = "?"
    tags: list[str] = field(default_factory=list)
    note: str = field(default="", compare=False, repr=False)


def test_fields_are_taken_by_place_and_by_name() -> None:
    for one in (Named(1.0, y=2.0, name="a", tags=["t"], note="n"), Named(x=1.0, y=2.0, name="a", tags=["t"], note="n")):
        assert (one.x, one.y, one.name, one.tags, one.note) == (1.0, 2.0, "a", ["t"], "n")
    assert Named(1.0).y == 0.0 and Named(1.0).name == "?" and Named(1.0).note == ""
    Bare()


def test_a_made_default_is_made_anew() -> None:
    first, second = Named(1.0), Named(1.0)
    first.tags.append("mine")
    assert second.tags == []


@pytest.mark.parametrize("values", [(), (1.0, 2.0, "a", [], "n", "more")])
def test_a_wrong_number_of_values_is_told_with_the_name(values: tuple[object, ...]) -> None:
    with pytest.raises(TypeError, match=r"Named\.__init__\(\)"):
        Named(*values)  # type: ignore[arg-type]
    with pytest.raises(TypeError, match="Named"):
        Named(1.0, colour="red")  # type: ignore[call-arg]


@given(st.floats(allow_nan=False), st.floats(allow_nan=False), st.text(), st.text(), st.text())
def test_equal_hashed_and_shown_as_a_dataclass(x: float, y: float, name: str, note: str, other: str) -> None:
    one, same, reference = (
        Named(x, y=y, name=name, tags=[], note=note),
        Named(x, y=y, name=name, tags=[], note=other),
        Reference(x, y=y, name=name, tags=[], note=note),
    )
    assert one == same
    assert (one == Named(x, y, name + "!")) is False
    assert (one == Point(x, y)) is False
    assert repr(one) == repr(reference).replace("Reference", "Named")
    assert hash(Point(x, y)) == hash(Point(x, y))


def test_the_standard_functions_know_records() -> None:
    one = Named(1.0, y=2.0, name="a", tags=["t"], note="n")
    assert [each.name for each in dataclasses.fields(one)] == [each.name for each in dataclasses.fields(Reference)]
    assert [each.name for each in dataclasses.fields(Point)] == ["x", "y"]
    changed = dataclasses.replace(one, y=5.0)
    assert (changed.x, changed.y, changed.note, one.y) == (1.0, 5.0, "n", 2.0)
    assert Named(3.0).tags == [], "asking for the fields must not take the defaults away"
    assert dataclasses.is_dataclass(Named)


def test_what_checks_itself_does_so() -> None:
    assert Checked(1.0).least == 1.0
    with pytest.raises(ValueError, match="below zero"):
        Checked(-1.0)
    with pytest.raises(ValueError, match="below zero"):
        dataclasses.replace(Checked(1.0), least=-1.0)


def test_a_default_before_a_field_without_one_is_refused() -> None:
    with pytest.raises(TypeError, match=r"Wrong\.second"):

        @record
        class Wrong:
            first: int = 1
            second: int  # type: ignore[misc]
