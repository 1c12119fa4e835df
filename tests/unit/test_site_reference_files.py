"""The reference files of the site: their head, and errors in them that name the place."""

from __future__ import annotations

import copy
from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.facts.common.reference_values import Part, ReferenceValueError
from compliance.facts.site.seismic_category import AsceCategories, ResidentialCategories
from compliance.facts.site.seismic_site import SiteTables
from compliance.facts.site.snow import SnowTables
from compliance.facts.site.wind import WindEdition
from compliance.facts.site.wind_on_building import BuildingCoefficients
from compliance.facts.site.wind_on_walls import WallCoefficients
from compliance.findings import Standing

FOLDER = Path(__file__).parents[2] / "rulesets" / "reference"
FILES = ("asce7-10-seismic", "asce7-16-seismic", "irc-seismic", "asce7-wind", "snow", "screening")


def whole(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))
    return loaded


def values(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = whole(name)["values"]
    return loaded


@pytest.mark.parametrize("name", FILES)
def test_reference_files_have_their_head_and_no_repeated_keys(name: str) -> None:
    loaded = whole(name)
    assert list(loaded) == ["reference", "title", "edition", "source", "standing", "values"]
    assert loaded["reference"] == name
    assert loaded["standing"] in list(Standing)
    text = (FOLDER / f"{name}.yaml").read_text(encoding="utf-8")
    assert not any(isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None) for event in yaml.parse(text))
    check_keys(yaml.compose(text))


def check_keys(node: Any) -> None:
    if isinstance(node, yaml.MappingNode):
        keys = [key.value for key, _ in node.value]
        assert len(keys) == len(set(keys))
        for _, value in node.value:
            check_keys(value)
    elif isinstance(node, yaml.SequenceNode):
        for item in node.value:
            check_keys(item)


def standings(node: object) -> list[Standing]:
    if isinstance(node, dict):
        own = [Standing(node["standing"])] if "standing" in node else []
        return own + [found for value in node.values() for found in standings(value)]
    return [found for item in node for found in standings(item)] if isinstance(node, list) else []


@pytest.mark.parametrize("name", FILES)
def test_the_standing_of_a_file_is_that_of_its_weakest_table(name: str) -> None:
    loaded = whole(name)
    assert Standing(loaded["standing"]) is max(standings(loaded["values"]), key=lambda standing: standing.rank)


def changed(name: str, path: tuple[str, ...], value: object) -> dict[str, Any]:
    read = copy.deepcopy(values(name))
    place: Any = read
    for key in path[:-1]:
        place = place[key]
    if value is None:
        del place[path[-1]]
    else:
        place[path[-1]] = value
    return read


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        (("Fa", "columns"), [0.25, 0.25, 0.75, 1.0, 1.25], r"values\.Fa\.columns must rise"),
        (("Fa", "columns"), [], r"values\.Fa\.columns must be a list of numbers"),
        (("Fa", "rows", "D"), [1.6, 1.4], r"values\.Fa\.rows\.D must have 5 cells, has 2"),
        (("Fa", "rows", "D"), [1.6, 1.4, 1.2, True, 1.0], r"values\.Fa\.rows\.D must be a number, not True"),
        (("Fa", "rows", "D"), [1.6, 1.4, 1.2, "study", 1.0], r"values\.Fa\.rows\.D must be a number, not 'study'"),
        (("Fa", "standing"), "sure", r"values\.Fa\.standing must be one of confirmed, read"),
        (("Fv", "source"), None, r"values\.Fv\.source is missing; there are: acceleration"),
        (("Fv", "source"), 3, r"values\.Fv\.source must be text"),
        (("design",), 3, r"values\.design must hold keys with values"),
        (("design", "over"), float("nan"), r"values\.design\.over must be a number"),
        (("site_studies",), "none", r"values\.site_studies must be a list"),
    ],
)
def test_errors_in_site_tables_name_the_place(path: tuple[str, ...], value: object, says: str) -> None:
    with pytest.raises(ReferenceValueError, match=says):
        SiteTables.from_values(changed("asce7-10-seismic", path, value))


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        (("categories", "by_SDS", "I"), ["A", "B"], r"by_SDS\.I must have 4 categories, has 2"),
        (("categories", "by_SDS", "I"), ["A", "B", 3, "D"], r"by_SDS\.I must be a list of texts"),
        (("categories", "by_SD1", "at_least"), [0.1, 0.2, 0.3, 0.4], r"by_SD1\.at_least must begin at 0"),
        (("categories", "order"), ["A", "B", "C", "D", "E"], r"order must hold every category the tables name; F"),
    ],
)
def test_errors_in_categories_name_the_place(path: tuple[str, ...], value: object, says: str) -> None:
    with pytest.raises(ReferenceValueError, match=says):
        AsceCategories.from_values(changed("asce7-10-seismic", path, value))


def test_errors_in_the_other_files_name_the_place() -> None:
    with pytest.raises(ReferenceValueError, match=r"irc-2021\.categories must have 6 names, has 1"):
        ResidentialCategories.from_values(changed("irc-seismic", ("irc-2021", "categories"), ["A"]), "irc-2021")
    with pytest.raises(ReferenceValueError, match=r"values\.air\.us .*is not a wind factor"):
        WindEdition.from_values(changed("asce7-wind", ("air", "us"), "3 psf"), "asce7-10", "us")
    with pytest.raises(ReferenceValueError, match=r"values\.editions\.asce7-98 is missing"):
        WindEdition.from_values(values("asce7-wind"), "asce7-98", "us")
    least = values("asce7-wind")["least_height"]
    for key, wrong in (("zg", "3 ft"), ("zg", least), ("alpha", 0), ("alpha", -9.5)):
        flat = changed("asce7-wind", ("editions", "asce7-10", "C", key), wrong)
        with pytest.raises(ReferenceValueError, match=r"asce7-10\.C must have alpha above zero"):
            WindEdition.from_values(flat, "asce7-10", "us")
    for path, value, says in (
        (("walls", "areas"), {"small": "5 m2", "large": "5 m2"}, r"walls\.areas must have a large area"),
        (("walls", "areas", "small"), "lots", r"walls\.areas\.small 'lots' is not a measure"),
        (("walls", "inward"), [1.0], r"walls\.inward must be two numbers"),
    ):
        with pytest.raises(ReferenceValueError, match=says):
            WallCoefficients.from_values(changed("asce7-wind", path, value))
    with pytest.raises(ReferenceValueError, match=r"building\.leeward\.coefficients must be 3 numbers"):
        BuildingCoefficients.from_values(changed("asce7-wind", ("building", "leeward", "coefficients"), [-0.5]))
    steep = [{"thermal_at_most": 1.0, "other": {"full": "70 deg", "none": "30 deg"}}]
    with pytest.raises(ReferenceValueError, match=r"slope_factor\.1\.other\.none must be steeper than full"):
        SnowTables.from_values(changed("snow", ("slope_factor",), steep))


@pytest.mark.parametrize("weak", ["walls", "internal"])
def test_wall_coefficients_are_known_no_better_than_the_weaker_of_their_tables(weak: str) -> None:
    read = changed("asce7-wind", ("walls", "standing"), "confirmed")
    read["internal"]["standing"] = "confirmed"
    assert WallCoefficients.from_values(read).standing is Standing.CONFIRMED
    read[weak]["standing"] = "recalled"
    assert WallCoefficients.from_values(read).standing is Standing.RECALLED


def test_a_part_lists_what_it_holds() -> None:
    assert list(Part({"a": 1, "b": 2})) == ["a", "b"]
    with pytest.raises(ReferenceValueError, match="there are: no keys"):
        Part({}).number("a")
