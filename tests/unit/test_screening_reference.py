"""The coefficients of the screening: each with a source and a standing, each used, and errors that name the place."""

from __future__ import annotations

import copy
import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.facts.common.coefficients import Screening
from compliance.facts.common.reference_values import ReferenceValueError
from compliance.findings import Standing
from compliance.reading.reference_files.load_tables import read_action_tables
from compliance.reading.reference_files.support_rules import read_reference
from compliance.steps import Given
from compliance.units import Writer

ROOT = Path(__file__).parents[2]
FILE = ROOT / "rulesets" / "reference" / "screening.yaml"
VALUES: dict[str, Any] = yaml.safe_load(FILE.read_text(encoding="utf-8"))["values"]
SCREENING = Screening.from_values(read_reference("screening")["values"])


def entries(node: object) -> list[dict[str, Any]]:
    if isinstance(node, dict):
        own = [node] if "standing" in node else []
        return own + [found for value in node.values() for found in entries(value)]
    return [found for item in node for found in entries(item)] if isinstance(node, list) else []


def test_every_entry_names_its_source_and_standing() -> None:
    found = entries(VALUES)
    assert len(found) > 60
    for one in found:
        assert one["source"] and Standing(one["standing"]) in (Standing.REPORTED, Standing.RECALLED)
        recalled = one["standing"] == "recalled"
        said = re.search(r"recalled|no source|statics|by its own|the unit that|goes with", one["source"])
        assert not recalled or said, f"{one['source']}: say that it is recalled or has no source"


def test_every_coefficient_is_used_and_none_is_asked_for_in_vain() -> None:
    text = "\n".join(path.read_text(encoding="utf-8") for path in (ROOT / "compliance/facts").rglob("*.py"))
    named = set(SCREENING.coefficients)
    assert {name for name in named if f'"{name}"' not in text} == set()
    assert set(re.findall(r'screening\["(\w+)"\]', text)) <= named


def test_a_coefficient_prints_with_its_meaning() -> None:
    assert SCREENING["axial_share"].given("k") == Given("k", 0.25, "ratio", "fraction of the strength under axial load")
    assert SCREENING["inside_pressure"].kind == "pressure"
    with pytest.raises(KeyError):
        SCREENING["no_such"]


def test_wind_on_free_walls_between_and_beyond_its_ratios() -> None:
    """0.8 × 2.25 = 1.8 at 2, 0.8 × 2.425 = 1.94 at 2.5, 0.8 × 4.30 = 3.44 from 45 on, 1.45 below 2 (recalled)."""
    wall = SCREENING.free_wall
    assert [wall.at(ratio) for ratio in (1.0, 2.0, 2.5, 45.0, 90.0)] == pytest.approx([1.45, 1.8, 1.94, 3.44, 3.44])
    with pytest.raises(ValueError, match="ratio"):
        wall.at(-1.0)


@pytest.mark.parametrize(
    ("path", "value", "says"),
    [
        (("coefficients", "axial_share", "value"), "lots", r"coefficients\.axial_share\.value must be a number"),
        (("coefficients", "inside_pressure", "value"), "5 ft", r"inside_pressure\.value"),
        (("coefficients", "axial_share", "standing"), "sure", r"axial_share\.standing must be one of"),
        (("weights", "earth", "cob", "source"), None, r"weights\.earth\.cob\.source is missing"),
        (("combinations", "list"), "none", r"combinations\.list must be a list"),
        (("free_wall", "coefficients"), [1.0], r"free_wall\.coefficients must be 11 numbers"),
        (("importance",), None, r"values\.importance is missing"),
    ],
)
def test_errors_name_the_place(path: tuple[str, ...], value: object, says: str) -> None:
    changed = copy.deepcopy(VALUES)
    place: Any = changed
    for key in path[:-1]:
        place = place[key]
    if value is None:
        del place[path[-1]]
    else:
        place[path[-1]] = value
    with pytest.raises(ReferenceValueError, match=says):
        Screening.from_values(changed)


def test_the_tables_are_read_once_for_each_system() -> None:
    us, si = read_action_tables("us"), read_action_tables("si")
    assert us is read_action_tables("us") and us is not si
    assert us.wind["7-16"].air == pytest.approx(si.wind["7-16"].air, rel=1e-3)
    assert "7-22" in us.wind and "7-22" not in us.seismic
    assert set(us.residential) == {"irc-2012", "irc-2015", "irc-2018", "irc-2021", "irc-2024"}


def test_a_coefficient_is_a_line_of_its_own_with_source_and_standing() -> None:
    line = SCREENING["axial_share"].step
    assert line.line(Writer("us")) == "Coefficient, fraction of the strength under axial load: 0.25"
    assert line.source == "TMS 402 allowable axial compression, recalled"
    assert SCREENING["creep"].step.source == "common practice, no source; recalled"
    groups = [SCREENING.coefficients, *SCREENING.weights.values(), *SCREENING.importance.values()]
    for one in (one for group in groups for one in group.values()):
        assert one.standing in one.step.source and one.source in one.step.source, one.name
