"""Figures of the rule set on adobe of Apache Junction, Arizona: ordinance 341, which amends section 2405 of the UBC of
1982, read in part in a third party's copy."""

from __future__ import annotations

import pytest

from compliance.rules.schema import Scalar
from tests.published.american import (
    ENGINEER,
    FOOT,
    INCH,
    PSI,
    Facts,
    Published,
    hold,
    numbers_without_case,
    open_limits,
    rules,
    verdict,
)  # fmt: skip

NAME = "apache-junction-341-adobe"
MADE: Facts = {"mix.volume": "5 m3", "specimens": 5}


def of(
    rule: str, value: float, fact: str, at: tuple[Scalar, ...], inside: Scalar, outside: Scalar, **more: object
) -> Published:
    """A figure of the ordinance; `others` and `fails` as `Published` takes them."""
    limit = "maximum" if rule in ("stories", "height-to-thickness", "unsupported-length") else "minimum"
    others, fails = more.get("others", {}), more.get("fails", "revise")
    assert isinstance(others, dict) and isinstance(fails, str)
    return Published(
        rule, limit=limit, value=value, standing="read", said="ordinance 341", fact=fact, at=at, inside=inside,
        outside=outside, others=others, fails=fails,
    )  # fmt: skip


OUT: Facts = {"wall.use": "exterior"}
FIGURES = (
    of("stories", value=1, fact="project.stories", at=(1,), inside=1, outside=2, fails=ENGINEER),
    of("height-to-thickness", value=10, fact="wall.height_to_thickness", at=(10,), inside=9.9, outside=10.1),
    of("exterior-thickness", value=16 * INCH, fact="wall.least_thickness", at=("16 in", "406.4 mm"), inside="17 in",
       outside="15 in", others=OUT),
    of("unsupported-length", value=24 * FOOT, fact="wall.unsupported_length", at=("24 ft", "7.3152 m"), inside="20 ft",
       outside="25 ft", others=OUT),
    of("interior-thickness", value=12 * INCH, fact="wall.least_thickness", at=("12 in", "304.8 mm"), inside="13 in",
       outside="11 in", others={"wall.use": "interior"}),
    of("compressive-strength", value=300 * PSI, fact="result", at=("300 psi",), inside="310 psi", outside="299 psi",
       others=MADE),
    of("compressive-strength-single", value=250 * PSI, fact="result", at=("250 psi",), inside="260 psi",
       outside="249 psi", others=MADE),
    of("rupture-strength", value=50 * PSI, fact="result", at=("50 psi",), inside="51 psi", outside="49 psi",
       others=MADE),
)  # fmt: skip


@pytest.mark.parametrize("one", FIGURES, ids=str)
def test_figures(one: Published) -> None:
    hold(NAME, one)


def test_every_number_is_held_and_none_is_open() -> None:
    """But for the count of five, which is recalled: the ordinance speaks of one of five."""
    counts = {(rule, "count") for rule in ("compressive-strength", "compressive-strength-single", "rupture-strength")}
    assert numbers_without_case(NAME, FIGURES) == counts
    assert open_limits(NAME) == set()


def test_groups_r3_and_m() -> None:
    """R-3 and M, read; dwellings and their private accessory buildings by the UBC of 1982, recalled."""
    uses = ("dwelling", "two-family", "accessory", "townhouse", "other")
    found = [verdict(NAME, "building-use", {"project.use": use}) for use in uses]
    assert found == ["meets"] * 3 + [ENGINEER] * 2
    assert rules(NAME)["building-use"].limits["uses"].standing.value == "recalled"
