"""Seismic design categories of the residential code by S_DS, at their exact edges.

IRC Table R301.2.2.1.1, read in third parties' copies: 2015 (District of Columbia), 2021 (Colorado), 2024 (New York and
Georgia), 2018 (Ohio) up to C; the rest of 2018 and all of 2012 are recalled from memory. The table counts a value at a
bound to the milder category, the other way round from ASCE 7 Tables 11.6-1 and 11.6-2.
"""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.facts.site.seismic_category import (
    AsceCategories,
    ResidentialCategories,
    asce_category,
    residential_category,
)
from compliance.findings import Standing

FOLDER = Path(__file__).parents[2] / "rulesets" / "reference"


def values(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))
    return loaded["values"]  # type: ignore[no-any-return]


ABOVE = 1e-6
NAMES = ("A", "B", "C", "D0", "D1", "D2", "E")
LATER = (0.17, 0.33, 0.50, 0.67, 0.83, 1.25)
EARLIER = (0.17, 0.33, 0.50, 0.67, 0.83, 1.17)


EDITIONS = (
    ("irc-2012", EARLIER, Standing.RECALLED),
    ("irc-2015", LATER, Standing.READ),
    ("irc-2018", LATER, Standing.RECALLED),
    ("irc-2021", LATER, Standing.READ),
    ("irc-2024", LATER, Standing.READ),
)


@pytest.mark.parametrize(("edition", "edges", "standing"), EDITIONS)
def test_edges(edition: str, edges: tuple[float, ...], standing: Standing) -> None:
    table = ResidentialCategories.from_values(values("irc-seismic"), edition)
    for place, edge in enumerate(edges):
        assert residential_category(edge, table).name == NAMES[place]
        assert residential_category(edge + ABOVE, table).name == NAMES[place + 1]
    assert residential_category(0.0, table).name == "A"
    assert residential_category(9.0, table).name == "E"
    assert table.standing is standing


def test_the_equals_sign_stands_on_different_sides() -> None:
    residential = ResidentialCategories.from_values(values("irc-seismic"), "irc-2021")
    general = AsceCategories.from_values(values("asce7-10-seismic"))
    for edge, milder, harder in ((0.33, "B", "C"), (0.50, "C", "D")):
        assert residential_category(edge, residential).name == milder
        assert asce_category(edge, sd1=0.0, s1=0.0, risk="II", tables=general).name == harder


def test_an_edge_reached_by_computation_counts_as_the_edge() -> None:
    """A last digit lost or gained on the way does not change a category."""
    residential = ResidentialCategories.from_values(values("irc-seismic"), "irc-2021")
    general = AsceCategories.from_values(values("asce7-10-seismic"))
    assert residential_category(math.nextafter(0.33, 1.0), residential).name == "B"
    assert asce_category(math.nextafter(0.33, 0.0), sd1=0.0, s1=0.0, risk="II", tables=general).name == "C"


def test_an_edition_that_is_not_held_is_refused() -> None:
    with pytest.raises(ReferenceValueError, match=r"values\.irc-2009 is missing; there are: irc-2012"):
        ResidentialCategories.from_values(values("irc-seismic"), "irc-2009")


def test_without_an_acceleration_there_is_no_category() -> None:
    found = residential_category(None, ResidentialCategories.from_values(values("irc-seismic"), "irc-2021"))
    assert found.name is None and found.missing == ("SDS",)
