"""Statements about ground and earth that cannot both be true are named; sound ones are left alone."""

from __future__ import annotations

import pytest

from compliance.checking import check_folder
from tests.buildings.judging import check_building
from tests.buildings.reading import read_building
from tests.conftest import EXAMPLE, HEAD, WALLS, Write

COLUMNS = (
    "set,specimen,mix,cast,tested,dried,shape,width [in],depth [in],height [in],mass [lb],peak_load [lbf],"
    "strength [psi]\n"
)


def rows(mark: str, mix: str, loads: tuple[int, ...], mass: str = "4") -> str:
    return "".join(f"{mark},{mark}{i},{mix},,,air,cube,4,4,4,{mass},{load},\n" for i, load in enumerate(loads))


def contradictions(project: Write, head: str, more: str = "", lab: str = "") -> list[str]:
    files = {"lab/compression.csv": COLUMNS + lab} if lab else {}
    checked = check_folder(project(text=WALLS + more, head=head, files=files))
    return [one.wrong for one in checked.warnings if one.code == "contradiction"]


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("site: {soil_group: CH, expansive_soil: no}\n", "swells and shrinks"),
        ("site: {soil_group: CH, expansive_soil: yes}\n", ""),
        ("site: {soil_group: SM, expansive_soil: no}\n", ""),
        ("site: {wind_speed: 115 km/h}\n", "maps of wind speed in the US give mph"),
        ("site: {wind_speed: 115 mph}\n", ""),
    ],
)
def test_the_ground_and_the_wind(project: Write, more: str, says: str) -> None:
    found = contradictions(project, HEAD, more)
    assert (len(found) == 1 and says in found[0]) if says else found == []


@pytest.mark.parametrize(("use", "warned"), [("interior", True), ("exterior", False)])
def test_an_interior_wall_in_the_rain(project: Write, use: str, warned: bool) -> None:
    walls = WALLS.replace("mix: M1}", f"mix: M1, use: {use}, rain_exposed: yes}}")
    checked = check_folder(project(text=walls))
    assert any("called interior" in one.wrong for one in checked.warnings) is warned


@pytest.mark.parametrize(("stated", "warned"), [("60 pcf", True), ("100 pcf", False), ("110 pcf", False)])
def test_a_stated_density_beside_the_measured_one(project: Write, stated: str, warned: bool) -> None:
    """A cube of 4 in of 4 lb weighs 4 / (4³/1728) = 108 pcf."""
    head = HEAD.replace("{name: mix,", f"{{name: mix, dry_density: {stated},")
    found = contradictions(project, head, "test_sets: {C: {kind: compression, mix: M1}}\n", rows("C", "M1", (1600,)))
    assert bool(found) is warned
    assert not found or "108 pcf" in found[0]


@pytest.mark.parametrize(
    ("name", "stated", "warned"),
    [
        ("Portland cement", "no", True), ("lime putty", "no", True), ("Portland cement", "yes", False),
        ("crushed limestone sand", "no", False), ("clay", "no", False),
    ],
)  # fmt: skip
def test_a_stabilizer_among_the_soils(project: Write, name: str, stated: str, warned: bool) -> None:
    head = HEAD.replace("{name: clay}", f"{{name: {name}}}").replace(
        "{name: mix,", f"{{name: mix, stabilised: {stated},"
    )
    assert bool(contradictions(project, head)) is warned


@pytest.mark.parametrize(
    ("other", "mix", "warned"),
    [
        ((1600, 1650, 1700), "M2", True), ((1700, 1600, 1650), "M2", True), ((1600, 1650, 1710), "M2", False),
        ((1600, 1650, 1700), "M1", False),
    ],
)  # fmt: skip
def test_the_rows_of_one_set_as_those_of_another_mix(
    project: Write, other: tuple[int, ...], mix: str, warned: bool
) -> None:
    head = HEAD.replace(
        "{M1: {name: mix, parts: {S1: 1}}}", "{M1: {name: a, parts: {S1: 1}}, M2: {name: b, parts: {S1: 2}}}"
    )
    sets = f"test_sets: {{C: {{kind: compression, mix: M1}}, D: {{kind: compression, mix: {mix}}}}}\n"
    lab = rows("C", "M1", (1600, 1650, 1700)) + rows("D", mix, other)
    assert bool(contradictions(project, head, sets, lab)) is warned


def test_the_example_contradicts_itself_nowhere() -> None:
    assert not [one for one in check_folder(EXAMPLE).warnings if one.code == "contradiction"]


def test_fat_clay_is_warned_of_once_whatever_is_adopted() -> None:
    """A set whose rules work out values of the site says it no second time."""
    building = next(read_building("dangerous/fat-clay-that-does-not-swell"))
    result = check_building(building)
    assert result.warnings.count("contradiction") == 1
