"""Soil bearing and footings of the model residential code, IRC 2021 chapter 4, and of its forerunner, CABO 1995.

IRC 2021, R401 to R404, was read in a third party's copy of the code as adopted by Colorado (`read`). R322 and R109 are
recalled from memory (`recalled`). CABO 1995 Table 403.1 was read in a copy.
"""

from __future__ import annotations

from collections.abc import Callable
from math import atan, degrees, radians
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.rules.schema import Scalar
from tests.published.american import (
    ENGINEER,
    INCH,
    MEETS,
    PSF,
    PSI,
    REVISE,
    Facts,
    Published,
    hold,
    numbers_without_case,
    open_limits,
    rules,
    verdict,
)

SOIL = "irc-2021-soil-and-footings"
STEM: Facts = {"stem.thickness": "16 in"}
SWELLS: Facts = {
    "site.swell_test": "plasticity", "site.plasticity_index": 15, "site.passing_no_200": "40 %",
    "site.finer_than_5_um": "30 %",
}  # fmt: skip
STEEP = round(degrees(atan(1 / 3)), 4)

FIGURES = (
    # Note of Table R401.4.1: soil likely under 1,500 psf is investigated.
    Published(
        "soil-bearing-low",
        limit="minimum",
        value=1500 * PSF,
        standing="read",
        said="Table R401.4.1, note, read in",
        fact="site.soil_bearing",
        at=("1500 psf", "71.820388451393 kPa"),
        inside="1510 psf",
        outside="1490 psf",
        fails=ENGINEER,
    ),
    # R403.1.1: no footing narrower than 12 in or thinner than 6 in.
    Published(
        "footing-width-least",
        limit="minimum",
        value=12 * INCH,
        standing="read",
        said="R403.1.1, read in",
        fact="footing.width",
        at=("12 in", "304.8 mm"),
        inside="12.1 in",
        outside="11.9 in",
    ),
    Published(
        "footing-thickness",
        limit="minimum",
        value=6 * INCH,
        standing="read",
        said="R403.1.1, read in",
        fact="footing.thickness",
        at=("6 in", "152.4 mm"),
        inside="6.1 in",
        outside="5.9 in",
    ),
    # R403.1.1, R403.1.4, Table R402.2, R404.1.6, R403.1.7 (1 in 3), R403.1.3.
    Published(
        "footing-projection-least",
        limit="minimum",
        value=2 * INCH,
        standing="read",
        said="R403.1.1, read in",
        fact="footing.width",
        at=("20 in", "508 mm"),
        inside="20.1 in",
        outside="19.9 in",
        others=STEM,
    ),
    Published(
        "footing-depth-least",
        limit="minimum",
        value=12 * INCH,
        standing="read",
        said="R403.1.4, read in",
        fact="footing.bottom",
        at=("12 in", "304.8 mm"),
        inside="12.1 in",
        outside="11.9 in",
    ),
    Published(
        "footing-concrete",
        limit="minimum",
        value=2500 * PSI,
        standing="read",
        said="Table R402.2, read in",
        fact="footing.concrete_strength",
        at=("2500 psi", "17.23689323292 MPa"),
        inside="2510 psi",
        outside="2490 psi",
        others={"footing.kind": "concrete"},
    ),
    Published(
        "stem-height",
        limit="minimum",
        value=6 * INCH,
        standing="read",
        said="R404.1.6, read in",
        fact="stem.above_grade",
        at=("6 in", "152.4 mm"),
        inside="6.1 in",
        outside="5.9 in",
    ),
    Published(
        "ground-slope",
        limit="maximum",
        value=radians(STEEP),
        standing="read",
        said="R403.1.7, read in",
        fact="site.ground_slope",
        at=(f"{STEEP} deg", f"{radians(STEEP):.12f} rad"),
        inside="18 deg",
        outside="19 deg",
        fails=ENGINEER,
    ),
    Published(
        "footing-steel-seismic",
        limit="minimum",
        value=1,
        standing="read",
        said="R403.1.3.1 and R403.1.3.2, read in",
        fact="footing.bar_count",
        at=(1,),
        inside=2,
        outside=0,
        others={"site.seismic_category": "D1"},
    ),
    # Table R402.2: walls in the weather, by how concrete weathers.
    Published(
        "stem-concrete",
        limit="minimum",
        value=2500 * PSI,
        standing="read",
        said="Table R402.2, read in",
        fact="stem.concrete_strength",
        at=("2500 psi", "17.23689323292 MPa"),
        inside="2510 psi",
        outside="2490 psi",
        others={"stem.material": "concrete", "site.weathering": "negligible"},
    ),
    Published(
        "stem-concrete",
        limit="exposed_minimum",
        value=3000 * PSI,
        standing="read",
        said="Table R402.2, read in",
        fact="stem.concrete_strength",
        at=("3000 psi", "20.684271879504 MPa"),
        inside="3010 psi",
        outside="2990 psi",
        others={"stem.material": "concrete", "site.weathering": "moderate"},
    ),
    # R403.1.8.1: swelling soil by the laboratory's numbers; a plasticity index of 15 is already outside.
    Published(
        "expansion-index",
        limit="maximum",
        value=20,
        standing="read",
        said="R403.1.8.1, read in",
        fact="site.expansion_index",
        at=(20,),
        inside=19,
        outside=21,
        others={"site.swell_test": "expansion-index"},
        fails=ENGINEER,
    ),
    Published(
        "expansive-soil-tested",
        limit="fines",
        value=0.10,
        standing="read",
        said="R403.1.8.1, read in",
        fact="site.passing_no_200",
        at=("10 %",),
        inside="9.9 %",
        outside="10.1 %",
        others=SWELLS,
        fails=ENGINEER,
    ),
    Published(
        "expansive-soil-tested",
        limit="clay",
        value=0.10,
        standing="read",
        said="R403.1.8.1, read in",
        fact="site.finer_than_5_um",
        at=("10 %",),
        inside="9.9 %",
        outside="10.1 %",
        others=SWELLS,
        fails=ENGINEER,
    ),
)


@pytest.mark.parametrize("one", FIGURES, ids=str)
def test_figure(one: Published) -> None:
    hold(SOIL, one)


def test_every_figure_is_held() -> None:
    apart = {("footing-width-for-load", "gravity"), ("footing-width-for-load", "concrete"),
             ("expansive-soil-tested", "index")}  # fmt: skip
    assert numbers_without_case(SOIL, FIGURES) == apart
    assert open_limits(SOIL) == set()


def test_what_was_read_names_its_copy() -> None:
    for rule in rules(SOIL).values():
        for one in (*rule.limits.values(), *rule.tables.values()):
            if one.standing.value == "read":
                assert "read in the copy adopted by Colorado" in one.source, (rule.id, one.name)


def test_plasticity_of_a_swelling_soil() -> None:
    """R403.1.8.1: an index of 15 or more, with the other two."""
    held = rules(SOIL)["expansive-soil-tested"].limits["index"]
    assert (held.value, held.standing.value) == (15, "read")
    found = [
        verdict(SOIL, "expansive-soil-tested", {**SWELLS, "site.plasticity_index": index}) for index in (14, 15, 16)
    ]
    assert found == [MEETS, ENGINEER, ENGINEER]


def test_one_value_of_the_three_is_not_enough() -> None:
    """An index of 20 alone says nothing; with few fines the soil does not swell, whatever the third value is."""
    plastic: Facts = {"site.swell_test": "plasticity", "site.plasticity_index": 20}
    assert verdict(SOIL, "expansive-soil-tested", plastic) == "missing"
    assert verdict(SOIL, "expansive-soil-tested", {**plastic, "site.passing_no_200": "8 %"}) == MEETS


SITES = (
    ({"expansion_index": 25, "plasticity_index": 10}, {"expansion-index": ENGINEER}),
    ({"expansion_index": 20}, {"expansion-index": MEETS}),
    (
        {"plasticity_index": 15, "passing_no_200": "40 %", "finer_than_5_um": "30 %"},
        {"expansive-soil-tested": ENGINEER},
    ),
    ({"plasticity_index": 15, "passing_no_200": "40 %"}, {"expansive-soil-tested": "missing"}),
    ({}, {}),
)


@pytest.mark.parametrize(("ground", "outcomes"), SITES)
def test_laboratory_values_of_the_ground(
    project: Callable[..., Path], ground: dict[str, object], outcomes: dict[str, str]
) -> None:
    """Item 4 of R403.1.8.1 stands in for items 1 to 3 where it was tested."""
    given = "".join(f", {name}: {value}" for name, value in ground.items())
    head = f"""\
project: {{name: Trial, date: 2026-01-02, stories: 1}}
jurisdiction: {{name: Trial, rule_sets: [irc-2021-soil-and-footings]}}
site: {{expansive_soil: no{given}}}
soils: {{S1: {{name: clay}}}}
mixes: {{M1: {{name: cob, form: cob, parts: {{S1: 1}}}}}}
walls:
  W1: {{run: {{from: [0 ft, 0 ft], to: [20 ft, 0 ft]}}, height: 8 ft, thickness: 24 in, mix: M1}}
"""
    found = {one.rule: one.outcome.value for one in check_folder(project(text="", head=head)).findings}
    rest = dict.fromkeys(("expansion-index", "expansive-soil-tested"), "not-applicable")
    assert {rule: found[rule] for rule in rest} == rest | outcomes
    assert found["expansive-soil"] == MEETS


# Table R401.4.1; Table 1806.2 of IBC 2021 agrees. Rock: the lower figure of the two.
BEARING = {
    "rock": 4000, "GW": 3000, "GP": 3000, "SW": 2000, "SP": 2000, "SM": 2000, "SC": 2000, "GM": 2000, "GC": 2000,
    "CL": 1500, "ML": 1500, "MH": 1500, "CH": 1500,
}  # fmt: skip


@pytest.mark.parametrize(("group", "psf"), BEARING.items())
def test_bearing_of_a_soil_group(group: str, psf: int) -> None:
    bearings = (f"{psf - 10} psf", f"{psf} psf", f"{psf * PSF / 1000:.9f} kPa", f"{psf + 10} psf")
    found = [verdict(SOIL, "soil-bearing-by-group", {"site.soil_group": group, "site.soil_bearing": bearing})
             for bearing in bearings]  # fmt: skip
    assert found == [MEETS, MEETS, MEETS, ENGINEER]


def test_bearing_table() -> None:
    table = rules(SOIL)["soil-bearing-by-group"].tables["presumed"]
    assert table.standing.value == "read" and "adopted by Colorado" in table.source
    assert dict(zip(table.rows.entries, (cell for (cell,) in table.cells), strict=True)) == {
        group: pytest.approx(psf * PSF) for group, psf in BEARING.items()
    }


@pytest.mark.parametrize("group", ["OL", "OH", "PT"])
def test_organic_soils_are_in_no_table(group: str) -> None:
    assert verdict(SOIL, "soil-bearing-by-group", {"site.soil_group": group, "site.soil_bearing": "1 psf"}) == ENGINEER


def test_the_federal_default_is_never_assumed() -> None:
    """24 CFR 3285.202(e), read: 1,500 psf where no test was made. Here an unknown soil stays unknown."""
    for rule in ("soil-bearing-by-group", "soil-bearing-low"):
        assert verdict(SOIL, rule, {}) == "missing"
        assert verdict(SOIL, rule, {"site.soil_group": "SM"}) == "missing"


# Table R403.1(3), one story on a slab: widths in inches for soils of 1,500, 2,000 and 2,500 psf up, by psf of snow.
# All are 6 in thick. The table is for walls lighter than earth; it shows that no footing is under the least figures.
WIDTHS = {20: (13, 12, 12), 30: (13, 12, 12), 50: (15, 12, 12), 70: (17, 13, 12)}


def test_least_figures_are_the_smallest_of_table_r403_1() -> None:
    smallest = min(width for row in WIDTHS.values() for width in row)
    assert rules(SOIL)["footing-width-least"].limits["minimum"].value == pytest.approx(smallest * INCH)
    assert rules(SOIL)["footing-thickness"].limits["minimum"].value == pytest.approx(6 * INCH)


def test_frost() -> None:
    """R403.1.4.1: down to the frost line."""
    found = [verdict(SOIL, "footing-depth-frost", {"site.frost_depth": "30 in", "footing.bottom": bottom})
             for bottom in ("30.1 in", "30 in", "762 mm", "29.9 in")]  # fmt: skip
    assert found == [MEETS, MEETS, MEETS, REVISE]
    standing = rules(SOIL)["footing-depth-frost"].standing
    assert standing is not None and standing.value == "read"


def test_projection_within_the_thickness() -> None:
    """R403.1.1: a footing stands out no farther than it is thick."""
    found = [verdict(SOIL, "footing-projection-most", {**STEM, "footing.thickness": "8 in", "footing.width": width})
             for width in ("31.9 in", "32 in", "812.8 mm", "32.1 in")]  # fmt: skip
    assert found == [MEETS, MEETS, MEETS, REVISE]


@pytest.mark.parametrize(("rule", "fact", "fine", "bad"), [
    ("expansive-soil", "site.expansive_soil", "no", "yes"),  # R403.1.8
    ("flood-zone", "site.flood_zone", "no", "yes"),  # R322, recalled
    ("footing-kind", "footing.kind", "concrete", "rubble-trench"),  # R403.1
    ("soil-questionable", "answer", "yes", "no"),  # R401.4
])  # fmt: skip
def test_ground_for_an_engineer(rule: str, fact: str, fine: Scalar, bad: Scalar) -> None:
    assert [verdict(SOIL, rule, {fact: value}) for value in (fine, bad)] == [MEETS, ENGINEER]
    assert verdict(SOIL, rule, {}) == "missing"


def carried(load: str, bearing: str, width: str, **others: Scalar) -> str:
    """The verdict on the width of a footing under a weightless wall, stem and footing flush with the ground."""
    given: dict[str, Scalar] = {
        "wall.line_load": load, "site.soil_bearing": bearing, "footing.width": width, "mix.dry_density": "0 pcf",
        "wall.height": "8 ft", "wall.mean_thickness": "24 in", "stem.thickness": "24 in", "stem.above_grade": "0 in",
        "footing.bottom": "8 in", "footing.thickness": "8 in",
    }  # fmt: skip
    given |= {name.replace("__", "."): value for name, value in others.items()}
    return verdict(SOIL, "footing-width-for-load", given)


def test_a_foot_of_footing() -> None:
    """CABO 1995, read: a footing 12 in wide on 2,500 psf carries 2,500 lb/ft."""
    assert [carried(load, "2500 psf", "12 in") for load in ("2490 plf", "2500 plf", "2510 plf")] == [
        MEETS,
        MEETS,
        REVISE,
    ]


def test_wall_footing_exercise() -> None:
    """A published exercise: 15,000 lb/ft on 3,000 psf takes 5.0 ft."""
    widths = ("4.99 ft", "5 ft", "1.524 m", "5.01 ft")
    assert [carried("15000 plf", "3000 psf", width) for width in widths] == [REVISE, MEETS, MEETS, MEETS]


def test_earth_wall_by_hand() -> None:
    """24 in of 110 pcf, 8 ft high, and 400 lb/ft of roof: 2,160 lb/ft, 17.28 in on 1,500 psf."""
    for width, outcome in (("17.2 in", REVISE), ("17.28 in", MEETS), ("438.912 mm", MEETS), ("17.3 in", MEETS)):
        assert carried("400 plf", "1500 psf", width, mix__dry_density="110 pcf") == outcome


def test_the_stem_wall_counts() -> None:
    """A stem of 24 in by 24 in of 150 pcf adds 600 lb/ft: 2,760 lb/ft, 22.08 in. Weight of concrete: common practice,
    no source; gravity as set by the CGPM in 1901."""
    limits = rules(SOIL)["footing-width-for-load"].limits
    assert limits["gravity"].value == 9.80665
    assert limits["concrete"].value == pytest.approx(150 * 0.45359237 / 0.3048**3)
    for width, outcome in (("22 in", REVISE), ("22.08 in", MEETS)):
        stem: dict[str, Scalar] = {
            "stem__above_grade": "8 in",
            "footing__bottom": "24 in",
            "mix__dry_density": "110 pcf",
        }
        assert carried("400 plf", "1500 psf", width, **stem) == outcome


# CABO 1995 Table 403.1, read: widths in inches for soils of 1,500 to 4,000 psf.
SOILS = (1500, 2000, 2500, 3000, 3500, 4000)
CABO = {
    "frame, 1 story": (16, 12, 10, 8, 7, 6),
    "frame, 2 stories": (19, 15, 12, 10, 8, 7),
    "frame, 3 stories": (22, 17, 14, 11, 10, 9),
    "8 in solid masonry, 1 story": (22, 17, 13, 11, 10, 9),
    "8 in solid masonry, 2 stories": (31, 23, 19, 16, 13, 12),
    "8 in solid masonry, 3 stories": (40, 30, 24, 20, 17, 15),
}


@pytest.mark.parametrize(("row", "column"), [(row, column) for row in CABO for column in range(1, 6)])
def test_widths_of_cabo_are_what_the_rule_asks(row: str, column: int) -> None:
    """The load that the first soil of a row carries asks, on each other soil, for the printed width within an inch.

    The rows are rounded up in places and to the nearest in others, so the inch is that of the table's own rounding.
    """
    load = f"{CABO[row][0] * SOILS[0] / 12} plf"
    printed, soil = CABO[row][column], f"{SOILS[column]} psf"
    assert carried(load, soil, f"{printed + 1} in") == MEETS
    assert carried(load, soil, f"{printed - 1} in") == REVISE


def test_steel_where_earthquakes_are_strong() -> None:
    """R403.1.3: No. 4 bars in D0 to D2, in footing and stem; a person says that they are drawn."""
    for rule, given in (
        ("footing-steel-seismic", {"footing.bar_count": 1}),
        ("footing-steel-placed", {"answer": "yes"}),
    ):
        found = {
            c: verdict(SOIL, rule, {"site.seismic_category": c, **given}) for c in ("A", "B", "C", "D0", "D1", "D2")
        }
        assert found == {**dict.fromkeys("ABC", "not-applicable"), **dict.fromkeys(("D0", "D1", "D2"), MEETS)}
    bare: Facts = {"site.seismic_category": "D1", "answer": "no"}
    assert verdict(SOIL, "footing-steel-placed", bare) == REVISE


def test_stem_concrete_in_unknown_weather() -> None:
    """2,500 psi do where concrete hardly weathers, and 3,000 psi anywhere; else it stays open."""
    weak: Facts = {"stem.material": "concrete", "stem.concrete_strength": "2500 psi"}
    assert verdict(SOIL, "stem-concrete", weak) == "missing"
    assert verdict(SOIL, "stem-concrete", {**weak, "site.weathering": "severe"}) == REVISE
    assert verdict(SOIL, "stem-concrete", {**weak, "stem.concrete_strength": "3000 psi"}) == MEETS


@pytest.mark.parametrize(("answer", "outcome"), [("yes", MEETS), ("no", REVISE)])
def test_level_footings(answer: str, outcome: str) -> None:
    """R403.1.5: level top, bottom at most 1 in 10."""
    assert verdict(SOIL, "footing-level", {"answer": answer}) == outcome


def test_a_cob_wall_on_clay(project: Callable[..., Path]) -> None:
    """Through the whole program: 24 in of cob 8 ft high on a stem 24 in wide, and on one footing too narrow for it."""
    head = """\
project: {name: Trial, date: 2026-12-30, stories: 1}
jurisdiction: {name: Trial, rule_sets: [irc-2021-soil-and-footings]}
site: {soil_group: CL, soil_bearing: 1500 psf, frost_depth: 18 in, expansive_soil: no, flood_zone: no}
soils: {S1: {name: clay}}
mixes: {M1: {name: cob, form: cob, parts: {S1: 1}, dry_density: 110 pcf}}
stems: {B1: {material: concrete, thickness: 24 in, above_grade: 8 in}}
footings:
  F1: {kind: concrete, width: 28 in, thickness: 8 in, bottom: 24 in}
  F2: {kind: concrete, width: 20 in, thickness: 8 in, bottom: 24 in}
walls:
  W1: {run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, thickness: 24 in, mix: M1, stem: B1, footing: F1,
       line_load: 400 plf}
  W2: {run: {from: [0 ft, 20 ft], to: [20 ft, 20 ft]}, height: 8 ft, thickness: 24 in, mix: M1, stem: B1, footing: F2,
       line_load: 400 plf}
"""
    found = {(one.rule, one.subject): one for one in check_folder(project(text="", head=head)).findings}
    wide, narrow = (found["footing-width-for-load", wall] for wall in ("W1", "W2"))
    assert (wide.outcome.value, narrow.outcome.value) == (MEETS, REVISE)
    assert narrow.limit is not None and narrow.limit.value == pytest.approx(22.08 * INCH)
    assert found["soil-bearing-by-group", "site"].outcome.value == MEETS
    assert found["footing-projection-least", "W2"].outcome.value == REVISE
    assert found["footing-concrete", "W1"].outcome.value == "missing"
