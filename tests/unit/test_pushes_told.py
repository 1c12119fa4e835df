"""What pushes a wall square to its face, and which of wind and earthquake is told, worked by hand. Synthetic."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.common.needs import Needs
from compliance.facts.loads.lateral_pressure import actions
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    LIME,
    PSF,
    ROOF,
    SITE,
    WALL,
    alone,
    bears,
    box,
    facts,
    missing,
    number,
    run,
)


def test_a_face_weighs_its_earth_and_its_finishes() -> None:
    found = alone(outside=LIME)
    assert number(found, "wall.face_weight") / PSF == pytest.approx(110 * 16 / 12 + 110 / 12)
    line = found.of("wall")["W1"].fact("wall.face_weight").steps[-1]
    assert recomputed(line) == pytest.approx(float(line.result.value))


@pytest.mark.parametrize(("sds", "name"), [(0.0, "wind"), (2.0, "earthquake")])
def test_the_greater_of_wind_and_earthquake_is_told(sds: float, name: str) -> None:
    wall = {**WALL, "run": run(0, 0, 20, 0), "line_load": "0 plf", "load_eccentricity": "0 in"}
    found = facts({"W1": wall}, site={**SITE, "sds": sds})
    fact = found.of("wall")["W1"].fact("wall.lateral_pressure")
    both = {"wind": number(found, "wall.wind_pressure"), "earthquake": number(found, "wall.seismic_pressure")}
    assert fact.value == max(both.values()) == both[name]
    assert fact.steps[-1].says == f"Governs square to the wall: {name}"


def test_wind_lifts_and_an_earthquake_does_not() -> None:
    found = facts(box(20, 16), {"R": {**ROOF, "bears_on": bears("W1", "W3")}})
    assert found.building is not None
    wind, quake = actions(found.building, Needs(found.of("wall")["W1"]))
    assert (wind.name, quake.name) == ("wind", "earthquake")
    assert wind.lift == number(found, "wall.lift") > 0 and quake.lift == 0.0


def test_a_garden_wall_goes_by_its_length_over_its_height() -> None:
    garden: dict[str, Any] = {"use": "garden", "top_restraint": "free", "beam": None, "bears_load": "no"}
    *before, line = alone(**garden).of("wall")["W1"].fact("wall.wind_pressure").steps
    (velocity,) = (one for one in before if one.says == "Velocity pressure")
    assert velocity.result.value == next(one.value for one in line.given if one.symbol == "q")
    factor = next(one for one in line.given if one.symbol == "C_f")
    assert factor.meaning == "force coefficient, length over height 2.50"
    assert recomputed(line) == pytest.approx(float(line.result.value))
    longer = alone(**garden, run=run(0, 0, 40, 0)).of("wall")["W1"].fact("wall.wind_pressure").steps[-1]
    assert next(one for one in longer.given if one.symbol == "C_f").meaning.endswith("5.00")


def test_what_wind_lacks_is_named() -> None:
    wall = {**WALL, "run": run(0, 0, 20, 0)}
    calm = {**SITE, "wind_speed": None}
    for use in ("exterior", "garden"):
        assert missing(facts({"W1": {**wall, "use": use}}, site=calm), "wall.wind_pressure")
