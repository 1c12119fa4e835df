"""The comparisons of a formula: value left, limit right, and what is left of the limit."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.rules.formulas.comparisons import kind_of_sides
from compliance.rules.formulas.formula import FormulaUndefined, TextType, number_of_kind, parse
from compliance.rules.formulas.nodes import Compare
from compliance.rules.formulas.types import Types

KINDS_OF_NAMES = {
    "wall.height": "length",
    "wall.thickness": "thickness",
    "wall.load": "line_load",
    "wall.share": "share",
    "wall.force": "force",
    "wall.area": "area",
    "least": "thickness",
    "most": "ratio",
    "most_share": "share",
    "strength": "stress",
}


@pytest.mark.parametrize(
    ("text", "value", "relation", "limit"),
    [
        ("wall.thickness >= least", "wall.thickness", ">=", "least"),
        ("least <= wall.thickness", "wall.thickness", ">=", "least"),
        ("least < wall.thickness", "wall.thickness", ">", "least"),
        ("least > wall.thickness", "wall.thickness", "<", "least"),
        ("least >= wall.thickness", "wall.thickness", "<=", "least"),
        ("2 * least == wall.thickness", "wall.thickness", "==", "2 * least"),
        ("0 != wall.thickness", "wall.thickness", "!=", "0"),
        ("(wall.height / wall.thickness)<=( 2 * most )", "wall.height / wall.thickness", "<=", "2 * most"),
        ("wall.thickness >= wall.height / most", "wall.thickness", ">=", "wall.height / most"),
        ("least <= most", "least", "<=", "most"),
        ("not_a_fact == 1", "not_a_fact", "==", "1"),
        ("min(least, wall.height) > 3", "min(least, wall.height)", ">", "3"),
    ],
)
def test_value_stands_left(text: str, value: str, relation: str, limit: str) -> None:
    found = parse(text).comparison()
    assert found is not None
    assert (found.value_text, found.relation, found.limit_text) == (value, relation, limit)


@pytest.mark.parametrize(
    ("text", "joined", "count"),
    [
        ("wall.thickness >= least", "", 1),
        ("least <= wall.thickness <= 2 * least", "and", 2),
        ("wall.thickness >= least and wall.height / wall.thickness <= most", "and", 2),
        ("wall.height < least or wall.share > 0.1 or (wall.load > 0 or wall.force > 0)", "or", 4),
        ("wall.height < least and (wall.share > 0.1 and wall.load > 0)", "and", 3),
        ("wall.height < least and (wall.share > 0.1 or wall.load > 0)", "and", 0),
        ("wall.height < least and wall.bears_load", "and", 0),
        ("not wall.height < least", "", 0),
        ("wall.height in [least]", "", 0),
        ("wall.class_of_use == word", "", 0),
        ("wall.use == 'shed'", "", 0),
        ("wall.bears_load", "", 0),
        ("wall.height / least", "", 0),
    ],
)
def test_comparisons_of_a_whole_formula(text: str, joined: str, count: int) -> None:
    formula = parse(text)
    assert formula.joined == joined
    assert len(formula.comparisons()) == count
    assert (formula.comparison() is not None) == (count == 1)


@pytest.mark.parametrize(
    ("text", "thickness", "margin", "holds"),
    [
        ("wall.thickness >= least", 0.5, 0.25, True),
        ("wall.thickness >= least", 0.4, 0.0, True),
        ("wall.thickness > least", 0.4, 0.0, False),
        ("wall.thickness >= least", 0.3, -0.25, False),
        ("least >= wall.thickness", 0.3, 0.25, True),
        ("wall.thickness < least", 0.5, -0.25, False),
        ("wall.thickness - least >= -least", 0.4, 1.0, True),
        ("wall.thickness >= 0 * least", 0.4, None, True),
        ("wall.thickness == 1 * least", 0.4, None, True),
        ("wall.thickness >= least", None, None, None),
        ("wall.thickness >= lacking", 0.4, None, None),
    ],
)
def test_margin(text: str, thickness: float | None, margin: float | None, holds: bool | None) -> None:
    values = {"wall.thickness": thickness, "least": 0.4}
    found = parse(text).comparison()
    assert found is not None
    assert found.holds(values) is holds
    left = found.margin(values)
    assert (left is None) if margin is None else left == pytest.approx(margin)


def test_comparisons_of_one_text_are_equal_and_say_what_they_compare() -> None:
    one, same, other = (
        parse(text).comparison() for text in ("wall.height <= 3", "wall.height <= 3", "wall.height < 3")
    )
    assert one == same and hash(one) == hash(same) and one != other
    assert repr(one) == "Comparison(relation='<=', value_text='wall.height', limit_text='3')"


def test_sides_are_worked_out_apart() -> None:
    found = parse("2 * least <= wall.height / wall.thickness").comparison()
    assert found is not None
    values = {"wall.height": 3.0, "wall.thickness": 0.5, "least": 2.0}
    assert (found.value(values), found.limit(values)) == (6.0, 4.0)
    assert found.value({"wall.height": 3.0}) is None
    with pytest.raises(FormulaUndefined):
        found.margin({**values, "wall.thickness": 0.0})


def test_only_numbers_have_a_kind() -> None:
    types: Types = {"a": number_of_kind("length"), "b": TextType()}
    for text in ("a == b", "b == a", "b == b"):
        root = parse(text).root
        assert isinstance(root, Compare)
        with pytest.raises(TypeError, match="only numbers have a kind"):
            kind_of_sides(root, types)


@given(
    st.sampled_from(["<=", "<", ">=", ">"]),
    st.floats(-1e6, 1e6),
    st.floats(-1e6, 1e6).filter(lambda limit: abs(limit) > 1e-6),
    st.booleans(),
)
def test_margin_and_outcome_never_contradict(relation: str, value: float, limit: float, turned: bool) -> None:
    text = f"limit {relation} wall.height" if turned else f"wall.height {relation} limit"
    found = parse(text).comparison()
    assert found is not None
    values = {"wall.height": value, "limit": limit}
    margin = found.margin(values)
    assert margin is not None
    if margin > 0:
        assert found.holds(values) is True
    elif margin < 0:
        assert found.holds(values) is False
    else:
        assert found.holds(values) is ("=" in relation)
    assert found.holds(values) is parse(text).compile()(values)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("wall.thickness >= least", "thickness"),
        ("wall.height >= least", "length"),
        ("least <= wall.height", "length"),
        ("wall.force / wall.area <= strength", "stress"),
        ("strength >= wall.load / wall.thickness", "stress"),
        ("wall.force / wall.area <= 2 * wall.force / wall.area", "pressure"),
        ("wall.height / wall.thickness <= most", "ratio"),
        ("wall.height / wall.thickness <= most_share", "share"),
        ("wall.share <= most", "share"),
        ("0 <= wall.force", "force"),
        ("0 <= wall.height * wall.height", "area"),
        ("1 <= 2", "ratio"),
    ],
)
def test_both_sides_are_written_in_one_kind(text: str, kind: str) -> None:
    found = parse(text).comparison()
    assert found is not None
    assert found.kind(KINDS_OF_NAMES) == kind
