"""Earth buildings in New Zealand: NZS 4297, 4298 and 4299.

Read on pages of Standards New Zealand and of the national catalogue of building standards: what the editions cover,
grades, the cement limit, density classes. Read in the acceptable solution B1/AS1: the change for Canterbury. Eaves are
second-hand, as a public mailing list quoted NZS 4299:1998 in 2010. The 6.5 m of a Nepali draft on the lines of NZS
4297 is no figure of the standard and is left open. All other figures are recalled from memory. The characteristic
strength was recomputed from the form
that is recalled.
"""

from __future__ import annotations

from functools import partial

import numpy as np
import pytest

from compliance.facts.specimens.statistics import govern
from compliance.findings import Standing
from tests.conftest import Write
from tests.published.international import (
    GRAVITY,
    HEAD,
    MM,
    MPA,
    Entered,
    Facts,
    Known,
    cubes,
    findings,
    limits_of,
    rule,
    rules_of,
)
from tests.published.international import verdict as verdict_of

ENGINEERING, MATERIALS, PLAIN = "nzs-4297-engineering", "nzs-4298-materials", "nzs-4299-not-engineered"
LIMITS: dict[str, Known] = {
    ENGINEERING: {
        ("earth-wall-height", "maximum"): (None, "open"),
        ("slenderness", "maximum"): (None, "open"),
        ("compression", "strength"): (0.5 * MPA, "recalled"),
        ("compression", "load_factor"): (None, "open"),
        ("compression", "reduction"): (None, "open"),
        ("compression", "slenderness_factor"): (None, "open"),
        ("compression", "gravity"): (GRAVITY, "recalled"),
    },
    MATERIALS: {
        ("form-of-earth", "forms"): (["adobe", "cob", "poured-earth", "pressed-block", "rammed-earth"], "read"),
        ("cement-most", "maximum"): (0.15, "read"),
        ("grade-declared", "grades"): (["special", "standard"], "read"),
        ("compression-count", "count"): (5, "recalled"),
        ("compression-count", "governs"): ("lowest", "recalled"),
        ("standard-grade-compression", "minimum"): (1.3 * MPA, "recalled"),
        ("standard-grade-compression", "count"): (5, "recalled"),
        ("standard-grade-compression", "governs"): ("lowest", "recalled"),
        ("standard-grade-rupture", "minimum"): (0.25 * MPA, "recalled"),
        ("standard-grade-rupture", "count"): (5, "recalled"),
        ("standard-grade-rupture", "governs"): ("lowest", "recalled"),
        ("special-grade-compression", "governs"): ("lowest-reduced-by-scatter", "recalled"),
        ("special-grade-compression", "scatter_weight"): (1.5, "recalled"),
        ("special-grade-compression", "count"): (5, "recalled"),
        ("special-grade-compression", "asked"): (None, "open"),
        ("shrinkage-mould", "long"): (600 * MM, "recalled"),
        ("shrinkage-compacted", "maximum"): (None, "open"),
        ("shrinkage-compacted", "governs"): ("highest", "recalled"),
        ("shrinkage-wet", "maximum"): (None, "open"),
        ("shrinkage-wet", "governs"): ("highest", "recalled"),
        ("spray-erosion", "less_than"): (120 * MM, "recalled"),
        ("spray-erosion-exposed", "less_than"): (90 * MM, "recalled"),
        ("drip-pit", "less_than"): (15 * MM, "recalled"),
    },
    PLAIN: {
        ("form-of-earth", "forms"): (["adobe", "cob", "pressed-block", "rammed-earth"], "read"),
        ("use", "uses"): (["dwelling", "townhouse"], "read"),
        ("stories", "maximum"): (1, "read"),
        ("standard-grade", "grade"): ("standard", "read"),
        ("density", "minimum"): (800, "read"),
        ("density", "maximum"): (2200, "read"),
        ("low-density", "heavy_from"): (1400, "read"),
        ("unreinforced-zone", "maximum"): (None, "open"),
        ("wall-thickness", "minimum"): (280 * MM, "recalled"),
        ("wall-thickness", "listed"): (["adobe", "pressed-block", "rammed-earth"], "read"),
        ("wall-thickness-cob", "minimum"): (None, "open"),
        ("wall-height", "maximum"): (None, "open"),
    },
}
KREFELD = {0.0: 0.0, 0.4: 0.50, 0.7: 0.60, 1.0: 0.70, 3.0: 0.85, 5.0: 1.00}
EAVES = [(32, 4, 1), (37, 8, 3), (44, 3, 2), (50, 1, 1)]
"""Wind speed in m/s, exposed height of wall to width of eaves."""

materials, plain = partial(verdict_of, MATERIALS), partial(verdict_of, PLAIN)


@pytest.mark.parametrize("name", LIMITS)
def test_every_limit_and_how_well_it_is_known(name: str) -> None:
    assert limits_of(name) == {
        key: (pytest.approx(value, rel=1e-12) if isinstance(value, (int, float)) else value, standing)
        for key, (value, standing) in LIMITS[name].items()
    }


@pytest.mark.parametrize("name", LIMITS)
def test_figures_of_little_certainty_are_left_out(name: str) -> None:
    """What was remembered as a guess stands nowhere as a limit: 3.3 m, 600 m2, 0.05 %, 3 %, 0.70 and 0.80."""
    values = {limit.value for one in rules_of(name).rules for limit in one.limits.values()}
    assert not values & {3.3, 600.0, 0.0005, 0.03, 0.7, 0.8}


# ------------------------------------------------------------------------------------------------------------ strength
@pytest.mark.parametrize(
    ("rule_id", "fact", "at", "inside", "outside"),
    [
        ("cement-most", "mix.cement", "15 %", "14.9 %", "15.1 %"),
        ("shrinkage-mould", "set.form_length", "600 mm", "600 mm", "599 mm"),
        ("compression-count", "specimens", 5, 6, 4),
        ("standard-grade-compression", "result", "1.3 MPa", "1.301 MPa", "1.299 MPa"),
        ("standard-grade-compression", "specimens", 5, 6, 4),
        ("standard-grade-rupture", "result", "0.25 MPa", "0.251 MPa", "0.249 MPa"),
        ("standard-grade-rupture", "specimens", 5, 6, 4),
    ],
)
def test_at_inside_and_outside(
    rule_id: str, fact: str, at: str | float, inside: str | float, outside: str | float
) -> None:
    fails = rule(MATERIALS, rule_id).otherwise.value
    for value, outcome in ((at, "meets"), (inside, "meets"), (outside, fails)):
        facts: Facts = {"mix.stabilised": "yes", "mix.volume": "1 m3", "mix.strength_class": "standard"}
        if rule(MATERIALS, rule_id).test:
            facts |= {"result": "2 MPa", "specimens": 5}
        else:
            facts |= {"set.kind": "shrinkage"}
        assert materials(rule_id, facts | {fact: value}) == outcome


@pytest.mark.parametrize("rule_id", ["standard-grade-compression", "special-grade-compression"])
@pytest.mark.parametrize(("ratio", "factor"), [*KREFELD.items(), (2.0, 0.775), (0.55, 0.55), (7.0, 1.0)])
def test_factor_for_the_shape(rule_id: str, ratio: float, factor: float) -> None:
    table = rule(MATERIALS, rule_id).tables["shape_factor"]
    assert table.standing is Standing.RECALLED
    assert table.look_up(ratio).value == pytest.approx(factor)
    assert factor == pytest.approx(np.interp(ratio, list(KREFELD), list(KREFELD.values())))


def test_characteristic_strength_of_special_grade() -> None:
    """1.6, 1.7, 1.8, 1.9 and 2.0 MPa: mean 1.8, deviation 0.158114, so (1 − 1.5 × 0.158114 / 1.8) × 1.6 = 1.389181."""
    one = rule(MATERIALS, "special-grade-compression")
    assert one.test is not None
    statistic = str(one.limits[one.test.statistic].value)
    parameters = {name: float(one.limits[limit].value) for name, limit in one.test.parameters.items()}  # type: ignore[arg-type]
    governed = govern([1.6e6, 1.7e6, 1.8e6, 1.9e6, 2.0e6], "stress", statistic, parameters)
    assert governed.value == pytest.approx(1.389181e6, abs=0.5)
    facts: Facts = {"mix.volume": "1 m3", "mix.strength_class": "special", "result": "1.389181 MPa", "specimens": 5}
    assert materials("special-grade-compression", facts) == "confirm"
    for asked, outcome in (("1.389181 MPa", "meets"), ("1.389 MPa", "meets"), ("1.39 MPa", "engineer")):
        assert materials("special-grade-compression", facts, {"asked": asked}) == outcome
    assert materials("special-grade-compression", facts | {"specimens": 6}, {"asked": "1 MPa"}) == "engineer"


# ---------------------------------------------------------------------------------------------------------- durability
@pytest.mark.parametrize(
    ("depth", "anywhere", "exposed"),
    [(19, "meets", "meets"), (50, "meets", "meets"), (89.9, "meets", "meets"), (90, "meets", "revise"),
     (119.9, "meets", "revise"), (120, "revise", "revise"), (140, "revise", "revise")],
)  # fmt: skip
def test_spray(depth: float, anywhere: str, exposed: str) -> None:
    """Depths where the index changes: 90 mm is index 5, no good where rain strikes, and 120 mm fails everywhere."""
    assert materials("spray-erosion", {"mix.volume": "1 m3", "mix.spray_erosion": f"{depth} mm"}) == anywhere
    facts: Facts = {"wall.rain_exposed": "yes", "mix.spray_erosion": f"{depth} mm"}
    assert materials("spray-erosion-exposed", facts) == exposed


@pytest.mark.parametrize(("depth", "outcome"), [(5, "meets"), (14.9, "meets"), (15, "revise"), (16, "revise")])
def test_drip(depth: float, outcome: str) -> None:
    assert materials("drip-pit", {"mix.volume": "1 m3", "mix.drip_pit": f"{depth} mm"}) == outcome


# --------------------------------------------------------------------------------------------------------------- scope
@pytest.mark.parametrize(
    ("form", "by_materials", "by_plain"),
    [("adobe", "meets", "meets"), ("cob", "meets", "meets"), ("pressed-block", "meets", "meets"),
     ("rammed-earth", "meets", "meets"), ("poured-earth", "meets", "engineer"), ("cut-sod", "engineer", "engineer")],
)  # fmt: skip
def test_what_the_editions_cover(form: str, by_materials: str, by_plain: str) -> None:
    """NZS 4298:2020 covers five ways of building with earth, NZS 4299:2024 all of them but poured earth."""
    facts: Facts = {"mix.volume": "1 m3", "mix.form": form}
    assert materials("form-of-earth", facts) == by_materials
    assert plain("form-of-earth", facts) == by_plain


@pytest.mark.parametrize(
    ("density", "within", "light"),
    [(799, "engineer", "engineer"), (800, "meets", "engineer"), (1399, "meets", "engineer"),
     (1400, "meets", "not-applicable"), (2200, "meets", "not-applicable"), (2201, "engineer", "not-applicable")],
)  # fmt: skip
def test_density_classes(density: int, within: str, light: str) -> None:
    """NZS 4299:2024: low density from 800 to below 1400 kg/m3, heavy earth from 1400 to 2200 kg/m3 (read).
    What light walls may carry was not seen: that rule is open, so nothing meets it."""
    facts: Facts = {"mix.volume": "1 m3", "mix.dry_density": f"{density} kg/m3", "mix.bears_load": "yes"}
    assert plain("density", {key: facts[key] for key in ("mix.volume", "mix.dry_density")}) == within
    assert plain("low-density", facts) == light
    assert plain("low-density", facts | {"mix.bears_load": "no"}) == (
        "confirm" if light == "engineer" else "not-applicable"
    )


@pytest.mark.parametrize(("speed", "rise", "run"), EAVES)
def test_eaves_by_wind(speed: float, rise: int, run: int) -> None:
    table = rule(PLAIN, "eaves").tables["maximum"]
    assert table.standing is Standing.REPORTED
    assert table.look_up(float(speed)).value == pytest.approx(rise / run)
    width = 2400 * run / rise
    for eaves, outcome in ((width, "meets"), (width + 1, "meets"), (width - 1, "revise")):
        facts: Facts = {
            "wall.use": "exterior", "site.wind_speed": f"{speed} m/s", "wall.exposed_height": "2400 mm",
            "wall.overhang": f"{eaves:.9f} mm",
        }  # fmt: skip
        assert plain("eaves", facts) == outcome


def test_eaves_in_low_wind_as_quoted() -> None:
    """600 mm of eaves over 2400 mm of wall; slower winds ask for no less, faster ones than 50 m/s for an engineer."""
    facts: Facts = {"wall.use": "exterior", "wall.exposed_height": "2400 mm", "wall.overhang": "600 mm"}
    speeds = [("25 m/s", "meets"), ("32 m/s", "meets"), ("32.1 m/s", "revise"), ("50.1 m/s", "engineer")]
    for speed, outcome in speeds:
        assert plain("eaves", facts | {"site.wind_speed": speed}) == outcome


@pytest.mark.parametrize(("thickness", "outcome"), [(280, "meets"), (281, "meets"), (279, "revise")])
@pytest.mark.parametrize("form", ["adobe", "pressed-block", "rammed-earth"])
def test_thickness_of_1998(form: str, thickness: int, outcome: str) -> None:
    facts: Facts = {"wall.use": "exterior", "mix.form": form, "wall.least_thickness": f"{thickness} mm"}
    assert plain("wall-thickness", facts) == outcome
    assert plain("wall-thickness-cob", facts) == "not-applicable"
    assert plain("wall-thickness-cob", facts | {"mix.form": "cob"}) == "confirm"


@pytest.mark.parametrize(("height", "outcome"), [(6.5, "meets"), (6.49, "meets"), (6.51, "engineer")])
def test_height_over_the_footing(height: float, outcome: str) -> None:
    """Footing from 0.8 m to 0.5 m below grade, stem to 0.2 m above: 0.7 m from the footing's top to the earth."""
    facts: Facts = {
        "wall.height": f"{height - 0.7:.9f} m", "stem.above_grade": "0.2 m", "footing.bottom": "0.8 m",
        "footing.thickness": "0.3 m",
    }  # fmt: skip
    assert verdict_of(ENGINEERING, "earth-wall-height", facts, {"maximum": "6.5 m"}) == outcome
    assert verdict_of(ENGINEERING, "earth-wall-height", facts) == "confirm"


def test_compression_once_its_factors_are_entered() -> None:
    """0.5 MPa of standard grade (recalled), with factors put in only to work the formula."""
    entered: Entered = {"load_factor": 1, "reduction": 0.5, "slenderness_factor": 0.8}
    most = (0.5 * 0.8 * 0.5 * MPA - 1600 * GRAVITY * 2.4) * 0.3
    for load, outcome in ((most, "meets"), (most - 1, "meets"), (most + 1, "engineer")):
        facts: Facts = {
            "wall.bears_load": "yes", "mix.strength_class": "standard", "wall.line_load": f"{load:.6f} N/m",
            "wall.least_thickness": "300 mm", "mix.dry_density": "1600 kg/m3", "wall.height": "2.4 m",
            "wall.opening_share": "0 %",
        }  # fmt: skip
        assert verdict_of(ENGINEERING, "compression", facts, entered) == outcome
        assert verdict_of(ENGINEERING, "compression", facts) == "confirm"


# ---------------------------------------------------------------------------------------------------- a project in SI
HOUSE = """\
site: {wind_speed: 37 m/s, zone_factor: 0.3}
mixes:
  M1: {name: brick, parts: {S1: 1}, form: adobe, stabilised: no, strength_class: standard, dry_density: 1650 kg/m3}
test_sets: {C1: {kind: compression, mix: M1}}
roofs: {R1: {kind: framed, overhang: 900 mm, bears_on: [{wall: W1}]}}
walls:
  W1:
    run: {from: [0 m, 0 m], to: [5 m, 0 m]}
    height: 2.3 m
    exposed_height: 2.4 m
    thickness: 280 mm
    mix: M1
    use: exterior
    bears_load: yes
    braces: no
    reinforced: no
    gable: no
    rain_exposed: yes
  W2:
    run: {from: [5 m, 0 m], to: [5 m, 4 m]}
    height: 2.3 m
    thickness: 279 mm
    mix: M1
    use: exterior
    bears_load: no
    braces: yes
    reinforced: yes
    rain_exposed: no
"""


def test_a_house_under_4299(project: Write) -> None:
    """8 to 3 at 37 m/s: 2.4 m of wall under 0.9 m of eaves. W2 carries no roof, so a person answers for its shelter."""
    found = findings(project(HOUSE, head=HEAD.format(rule_set=PLAIN)))
    outcomes = {key: one.outcome.value for key, one in found.items()}
    assert outcomes["eaves", "W1"] == "meets" and found["eaves", "W1"].standing is Standing.REPORTED
    assert outcomes["eaves-where-no-roof-bears", "W1"] == "not-applicable"
    assert outcomes["eaves-where-no-roof-bears", "W2"] == "missing"
    assert (outcomes["wall-thickness", "W1"], outcomes["wall-thickness", "W2"]) == ("meets", "revise")
    assert (outcomes["reinforced", "W1"], outcomes["reinforced", "W2"]) == ("engineer", "meets")
    assert (outcomes["unreinforced-zone", "W1"], outcomes["unreinforced-zone", "W2"]) == ("confirm", "not-applicable")
    assert outcomes["standard-grade", "M1"] == outcomes["density", "M1"] == outcomes["use", "project"] == "meets"
    assert outcomes["wall-height", "W1"] == "confirm"


@pytest.mark.parametrize(("weakest", "outcome"), [(18.6, "meets"), (18.5, "revise")])
def test_five_cubes_under_4298(project: Write, weakest: float, outcome: str) -> None:
    """Cubes count for 0.70: 1.86 MPa makes 1.302 MPa and 1.85 MPa makes 1.295 MPa, where 1.3 MPa is asked."""
    files = {"lab/compression.csv": cubes([weakest, 20, 21, 22, 23])}
    found = findings(project(HOUSE, head=HEAD.format(rule_set=MATERIALS), files=files))
    strength = found["standard-grade-compression", "C1"]
    assert strength.outcome.value == outcome
    assert strength.value is not None and strength.value.value == pytest.approx(0.7 * weakest * 1e5)
    assert found["compression-count", "C1"].outcome.value == "meets"
    assert found["special-grade-compression", "M1"].outcome.value == "not-applicable"
    assert found["spray-erosion-exposed", "W1"].outcome.value == "missing"
    assert found["shrinkage-wet", "M1"].outcome.value == "confirm"


def test_taller_prisms_count_for_more(project: Write) -> None:
    """Five times as high as wide: nothing is taken off, and 1.3 MPa is just enough."""
    files = {"lab/compression.csv": cubes([13.0, 14, 15, 16, 17], height=500)}
    found = findings(project(HOUSE, head=HEAD.format(rule_set=MATERIALS), files=files))
    assert found["standard-grade-compression", "C1"].outcome.value == "meets"
    assert found["standard-grade-compression", "C1"].margin == pytest.approx(0.0, abs=1e-9)


def test_special_grade_from_cubes_to_the_designers_figure(project: Write) -> None:
    """Cubes of 1.6 to 2.0 MPa: 0.70 × 1.389181 = 0.972427 MPa, with a designer who asks for 0.97 MPa."""
    house = HOUSE.replace("strength_class: standard", "strength_class: special") + "amendments: [asked.yaml]\n"
    amended = """\
changes:
  - {rule_set: nzs-4298-materials, rule: special-grade-compression, limit: asked, value: 0.97 MPa, standing: confirmed,
     by: A. Designer, on: 2026-01-03, where: specification}
"""
    files = {"lab/compression.csv": cubes([16.0, 17, 18, 19, 20]), "asked.yaml": amended}
    found = findings(project(house, head=HEAD.format(rule_set=MATERIALS), files=files))
    strength = found["special-grade-compression", "C1"]
    assert strength.outcome.value == "meets"
    assert strength.value is not None and strength.value.value == pytest.approx(0.7 * 1.389181e6, abs=0.5)
    assert found["standard-grade-compression", "M1"].outcome.value == "not-applicable"


def test_nothing_is_decided_by_an_engineering_standard_without_an_engineer(project: Write) -> None:
    found = findings(project(HOUSE, head=HEAD.format(rule_set=ENGINEERING)))
    assert found["specific-design", "project"].outcome.value == "missing"
    assert found["slenderness", "W1"].outcome.value == found["compression", "W1"].outcome.value == "confirm"
    assert found["earth-wall-height", "W1"].outcome.value == "confirm"
