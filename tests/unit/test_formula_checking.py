"""Types and dimensions of formulas: every branch, without any value."""

from __future__ import annotations

from collections.abc import Callable

import pint
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from compliance.rules.formulas.formula import (
    FormulaError,
    ListType,
    NumberType,
    TextType,
    Type,
    YesNoType,
    number_of_kind,
    parse,
)
from compliance.rules.formulas.types import kind_for
from compliance.units import KINDS, NUMBER, Dimension, dimension_of

TYPES: dict[str, Type] = {
    "wall.height": number_of_kind("length"),
    "wall.thickness": number_of_kind("thickness"),
    "wall.area": number_of_kind("area"),
    "wall.load": number_of_kind("line_load"),
    "wall.stress": number_of_kind("stress"),
    "wall.force": number_of_kind("force"),
    "wall.bears_load": YesNoType(),
    "wall.open_share": number_of_kind("share"),
    "wall.lean": number_of_kind("angle"),
    "wall.finishes": ListType(TextType(("lime", "clay", "gypsum"))),
    "wall.lifts": ListType(number_of_kind("length")),
    "wall.note": TextType(),
    "site.seismic_class": TextType(("A", "B", "C", "D0", "D1", "D2", "E")),
    "site.exposure": TextType(("left", "right")),
    "site.sds": number_of_kind("ratio"),
    "site.warmest": number_of_kind("temperature"),
    "site.coldest": number_of_kind("temperature"),
    "set.count": number_of_kind("count"),
    "set.other_count": number_of_kind("count"),
    "least": number_of_kind("thickness"),
    "most": number_of_kind("ratio"),
    "strength": number_of_kind("stress"),
    "steepest": number_of_kind("angle"),
}

# A formula, the code of its error, and the character.
REFUSED = [
    ("wall.height / wall.thickness >= least", "formula-dimension", 0),
    ("wall.height + wall.load <= least", "formula-dimension", 0),
    ("least >= wall.height - wall.area", "formula-dimension", 9),
    ("min(wall.height, wall.load) <= least", "formula-dimension", 0),
    ("max(wall.height, least, wall.area) <= least", "formula-dimension", 0),
    ("wall.load / wall.thickness <= wall.area", "formula-dimension", 0),
    ("wall.height in [least, wall.load]", "formula-dimension", 0),
    ("site.sds in wall.lifts", "formula-dimension", 0),
    ("sqrt(wall.height) <= sqrt(least)", "formula-dimension", 0),
    ("wall.height ** 5", "formula-dimension", 0),
    ("0 < sqrt(wall.height)", "formula-dimension", 4),
    ("wall.thickness >= 10", "formula-bare-number", 18),
    ("10 <= wall.thickness", "formula-bare-number", 0),
    ("wall.thickness >= -10", "formula-bare-number", 18),
    ("wall.thickness >= 2 * 5", "formula-bare-number", 18),
    ("wall.thickness >= min(4, 5)", "formula-bare-number", 18),
    ("wall.thickness + 2 >= least", "formula-bare-number", 17),
    ("wall.thickness + 0 >= least", "formula-bare-number", 17),
    ("min(wall.thickness, 0) >= least", "formula-bare-number", 20),
    ("wall.thickness in [0, 16]", "formula-bare-number", 22),
    ("wall.thickness >= 0 * 1", "formula-bare-number", 18),
    ("wall.lean <= 45", "formula-bare-number", 13),
    ("wall.open_share <= 25", "formula-bare-number", 19),
    ("site.warmest > 0", "formula-bare-number", 15),
    ("site.warmest - site.coldest <= site.warmest", "formula-temperature", 0),
    ("-site.coldest <= site.warmest", "formula-temperature", 0),
    ("2 * site.coldest <= site.warmest", "formula-temperature", 0),
    ("site.coldest ** 2 > 0", "formula-temperature", 0),
    ("abs(site.coldest) < site.warmest", "formula-temperature", 0),
    ("wal.height <= least", "formula-name", 0),
    ("wall.bears_load or wall.hieght <= least", "formula-name", 19),
    ("wall.bears_load <= wall.bears_load", "formula-type", 0),
    ("wall.bears_load + 1 > 0", "formula-type", 0),
    ("site.seismic_class <= 'C'", "formula-type", 0),
    ("site.seismic_class == 3", "formula-type", 0),
    ("site.seismic_class == true", "formula-type", 0),
    ("wall.height == true", "formula-type", 0),
    ("site.seismic_class in 'ABC'", "formula-type", 22),
    ("wall.height in wall.thickness", "formula-type", 15),
    ("site.sds in []", "formula-type", 12),
    ("[1, 2]", "formula-type", 0),
    ("(1, 2) == wall.lifts", "formula-type", 0),
    ("1 in [[1]]", "formula-type", 6),
    ("wall.finishes == wall.finishes", "formula-type", 0),
    ("not wall.height", "formula-type", 4),
    ("wall.bears_load and wall.height", "formula-type", 20),
    ("wall.bears_load and 'x'", "formula-type", 20),
    ("sqrt('x') > 0", "formula-type", 5),
    ("abs(wall.bears_load) > 0", "formula-type", 4),
    ("(wall.height <= least) <= most", "formula-type", 1),
    ("site.seismic_class == 'D3'", "formula-choice", 22),
    ("'d0' != site.seismic_class", "formula-choice", 0),
    ("site.seismic_class in ['A', 'b']", "formula-choice", 28),
    ("'limes' in wall.finishes", "formula-choice", 0),
    ("site.seismic_class == site.exposure", "formula-choice", 0),
]


@pytest.mark.parametrize(("text", "code", "offset"), REFUSED)
def test_refused(text: str, code: str, offset: int) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text).check(TYPES)
    assert (caught.value.code, caught.value.offset) == (code, offset), str(caught.value)
    assert caught.value.wrong and caught.value.instead


BAD = "wall.height <= wall.area"


@pytest.mark.parametrize(
    "text",
    [
        f"true or {BAD}",
        f"false and {BAD}",
        f"{BAD} or true",
        f"not (false and (true or not {BAD}))",
        f"wall.bears_load == ({BAD})",
        "most <= site.sds <= wall.height",
        "site.sds in [most, site.sds, wall.height]",
        "max(site.sds, min(most, abs(sqrt(wall.height)))) <= most",
    ],
)
def test_branches_that_never_run_are_checked_too(text: str) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text).check(TYPES)
    assert caught.value.code == "formula-dimension"


@pytest.mark.parametrize(
    "text",
    [
        "wall.thickness >= least",
        "wall.height / wall.thickness <= most",
        "wall.load / wall.thickness <= 0.5 * strength",
        "wall.height > 0 and 0 <= wall.force and sqrt(wall.area) > 0 and wall.lean >= 0 and wall.open_share > 0",
        "sqrt(wall.area) >= least and wall.area ** 0.5 >= least and wall.area ** 1.5 >= least ** 3",
        "wall.height * least ** -1 <= 2 or least <= wall.thickness <= 2 * least",
        "site.seismic_class in ['A', 'B'] and 'lime' not in wall.finishes and wall.note == 'anything'",
        "wall.height in wall.lifts or site.sds in [0.5, 1, most] or set.count >= 5",
        "wall.bears_load == true or wall.bears_load != (site.sds < most)",
        "site.coldest <= site.warmest and max(site.coldest, site.warmest) == site.warmest",
        "1 - wall.open_share <= most and wall.lean <= steepest and wall.lean <= 2 * steepest",
        "0 == 0 * 1",
    ],
)
def test_allowed(text: str) -> None:
    assert parse(text).check(TYPES) == YesNoType()


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("wall.thickness", "thickness"),
        ("wall.height - wall.thickness", "length"),
        ("0.5 * wall.thickness", "thickness"),
        ("wall.open_share * wall.thickness", "thickness"),
        ("wall.area / wall.thickness", "thickness"),
        ("wall.height / wall.thickness", "ratio"),
        ("wall.height * wall.thickness", "area"),
        ("wall.height ** 2", "area"),
        ("wall.force / wall.area", "pressure"),
        ("wall.load / wall.thickness + wall.stress", "stress"),
        ("sqrt(wall.area)", "length"),
        ("min(wall.thickness, wall.height)", "thickness"),
        ("-wall.force", "force"),
        ("2 * wall.open_share", "share"),
        ("wall.open_share / 2", "share"),
        ("2 / wall.open_share", "ratio"),
        ("wall.open_share * wall.open_share", "ratio"),
        ("1 - wall.open_share", "ratio"),
        ("wall.lean + steepest", "angle"),
        ("set.count + set.other_count", "count"),
        ("0.5 * set.count", "ratio"),
        ("set.count / set.other_count", "ratio"),
        ("2 * 3", "ratio"),
        ("wall.force ** 1", "force"),
    ],
)
def test_a_number_comes_with_the_kind_to_write_it_in(text: str, kind: str) -> None:
    found = parse(text).check(TYPES)
    assert found == NumberType(dimension_of(kind), kind)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("wall.height + wall.load > 0", "wall.height is a length and wall.load is a line load: they cannot be added"),
        ("wall.height < site.sds", "wall.height is a length and site.sds is a ratio: they cannot be compared"),
        ("wall.height * wall.load <= wall.area", "wall.height × wall.load is a force and wall.area is an area"),
        ("wall.height / least <= least", "wall.height / least is a plain number and least is a thickness"),
        ("sqrt(wall.height) > 0", "√(wall.height) is a value in m^0.5"),
        ("wall.thickness >= 10", "10 has no unit and wall.thickness is a thickness: they cannot be compared"),
        ("site.seismic_class == 'D'", "site.seismic_class is never 'D'"),
        ("not wall.height", "wall.height is a length, not a yes or no"),
    ],
)  # fmt: skip
def test_errors_say_both_sides_in_words(text: str, words: str) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text).check(TYPES)
    assert words in caught.value.wrong


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("wall.hieght <= least", "did you mean wall.height?"),
        ("leats <= wall.height", "did you mean least?"),
        ("zzz <= wall.height", "use a fact of the subject"),
        ("site.seismic_class == 'D3'", "it can be A, B, C, D0, D1, D2, E"),
        ("site.exposure == 'lef'", "did you mean 'left'?"),
        ("site.seismic_class == 'zzzz'", "it can be A, B, C"),
        ("wall.thickness >= 10", "say the limit with its unit under limits:"),
    ],
)
def test_hints(text: str, hint: str) -> None:
    with pytest.raises(FormulaError) as caught:
        parse(text).check(TYPES)
    assert hint in caught.value.instead


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("min(wall.open_share, wall.open_share)", "share"),
        ("min(wall.open_share, site.sds)", "ratio"),
        ("max(set.count, set.other_count)", "count"),
    ],
)
def test_plain_numbers_of_one_kind_stay_so_in_min_and_max(text: str, kind: str) -> None:
    assert parse(text).check(TYPES) == NumberType(NUMBER, kind)


def test_a_measure_that_no_kind_has_is_named_by_its_units() -> None:
    with pytest.raises(KeyError, match=r"no kind of measure is a value in m\^5"):
        kind_for(NumberType(Dimension(length=5)))
    with pytest.raises(FormulaError, match=r"a value in m\^4·kg·s\^-2 "):
        parse("wall.load * wall.area * wall.area > least").check(TYPES)


# Dimensions against pint, the reference library for units.

_REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry()
_PINT_UNITS = {"wall.height": "m", "wall.load": "N/m", "wall.stress": "Pa", "wall.force": "N", "site.sds": ""}


def _tree(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    pair = st.tuples(inner, inner)
    return st.one_of(
        pair.map(lambda two: f"({two[0]} * {two[1]})"),
        pair.map(lambda two: f"({two[0]} / {two[1]})"),
        pair.map(lambda two: f"({two[0]} + {two[1]})"),
        pair.map(lambda two: f"min({two[0]}, {two[1]})"),
        st.tuples(inner, st.sampled_from(["2", "3", "0.5", "-1", "1.5", "-2"])).map(
            lambda two: f"({two[0]}) ** {two[1]}"
        ),
        inner.map(lambda one: f"(-{one})"),
        inner.map(lambda one: f"sqrt({one})"),
    )


_TREES = st.recursive(st.sampled_from(sorted(_PINT_UNITS)), _tree, max_leaves=6)
_FUNCTIONS: dict[str, Callable[..., object]] = {"min": min, "sqrt": lambda value: value**0.5}


@given(_TREES)
def test_dimensions_agree_with_pint(text: str) -> None:
    """Pint works with values: each is one of its unit, signs left out so that no root is of a negative."""
    python = text.replace("(-", "(+")
    for name in _PINT_UNITS:
        python = python.replace(name, name.replace(".", "_"))
    names = {name.replace(".", "_"): _REGISTRY.Quantity(1.0, unit) for name, unit in _PINT_UNITS.items()}
    try:
        expected = eval(python, {"__builtins__": {}}, {**names, **_FUNCTIONS})
    except pint.DimensionalityError:
        expected = None
    assume(len(text) < 500)
    try:
        found = parse(f"({text}) / ({text}) + 1 > 0").check(TYPES)
        fits = True
    except FormulaError as error:
        assert error.code == "formula-dimension"
        fits = False
    assert fits == (expected is not None)
    if expected is None:
        return
    assert found == YesNoType()
    powers = dict(expected.dimensionality)
    dimension = Dimension(*(powers.get(f"[{base}]", 0) for base in ("length", "mass", "time", "temperature")))
    same = any(kind.dimension == dimension for kind in KINDS.values())
    try:
        shown = parse(text).check(TYPES)
    except FormulaError as error:
        assert error.code == "formula-dimension" and not same
    else:
        assert isinstance(shown, NumberType)
        assert shown.dimension == pytest.approx(dimension)
        assert shown.kind is not None and KINDS[shown.kind].dimension == shown.dimension


def test_plain_numbers_mix_and_their_dimension_is_none() -> None:
    for kind in ("share", "angle", "ratio", "count"):
        assert dimension_of(kind) == NUMBER
    assert parse("site.sds * wall.open_share <= most").check(TYPES) == YesNoType()
