"""What columns and footings carry, worked by hand in feet and pounds, and exactly at the bounds. Synthetic numbers."""

from __future__ import annotations

import math
from typing import Any

import pytest

from compliance.facts.geometry.columns import standing_on
from compliance.facts.geometry.subjects import Facts
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    INCH,
    LBF,
    LIME,
    PARTS,
    PLAIN,
    PSF,
    PSI,
    WALL,
    alone,
    columns_of,
    facts,
    missing,
    number,
    opening,
    run,
)

# columns


def test_columns_carry_their_finishes_and_half_of_what_is_beside_them() -> None:
    """8 ft of pier beside a window of 4 ft, 300 plf on top, 110 pcf of earth 16 in thick and of lime 1 in thick.
    Finishes: 9.1667 psf on 8 × 8 ft and on 2 × 2 ft over the window; 6 ft of the pier stand above 2 ft."""
    found = alone(openings={"A": opening(8, 4)}, line_load="300 plf", outside=LIME)
    left, right = columns_of(found).all
    earth, lime = 110 * 16 / 12, 110 / 12
    for one in (left, right):
        assert (one.width / FOOT, one.gathered / FOOT) == pytest.approx((8, 10))
        assert one.at_base / LBF == pytest.approx(300 * 10 + (earth + lime) * (8 * 8 + 2 * 2))
        assert columns_of(found).own_above(one, 2 * FOOT) / LBF == pytest.approx((earth + lime) * 8 * 6)
        assert columns_of(found).earth_above(one, 2 * FOOT) / LBF == pytest.approx(earth * 8 * 6)
    assert (left.name, right.name) == ("P1", "P2")
    assert [gap / FOOT for gap in (*left.gaps, *right.gaps)] == pytest.approx([0, 4, 4, 0])
    assert columns_of(found).below_sills[0] / LBF == pytest.approx((earth + lime) * 4 * 3)
    assert columns_of(found).total / LBF == pytest.approx(300 * 20 + (earth + lime) * (20 * 8 - 4 * 3))
    assert [one.name for one in columns_of(alone()).all] == [""]


def test_each_column_has_the_openings_on_either_side_of_it() -> None:
    """Windows of 2 and 4 ft leave piers of 3, 5 and 6 ft."""
    found = columns_of(alone(openings={"A": opening(3, 2), "B": opening(10, 4)}))
    assert [one.width / FOOT for one in found.all] == pytest.approx([3, 5, 6])
    assert [gap / FOOT for one in found.all for gap in one.gaps] == pytest.approx([0, 2, 2, 4, 4, 0])


def test_an_opening_a_last_digit_too_large_ends_where_its_wall_does() -> None:
    """Half a millionth of a millimetre, in length and in height: to the wall's end and to its top."""
    hole = {"start": "2 m", "width": "1.0000000005 m", "sill": "1 m", "height": "1.4000000005 m"}
    wide: dict[str, Any] = {"height": "2.4 m", "run": {"from": ["0 m", "0 m"], "to": ["3 m", "0 m"]}}
    found = columns_of(alone(openings={"A": opening(0, 1) | hole}, **wide))
    (seen,) = found.earth.openings
    assert (seen.right, seen.head) == pytest.approx((3.0, 2.4), abs=1e-15)


def test_the_thinnest_finish_weighs() -> None:
    """Lime of 0.001 in, 110 pcf: 110 / 12 000 psf, under half a pascal, on 8 ft of height."""
    film = [{"material": "lime", "thickness": "0.001 in"}]
    bare, coated = (columns_of(alone(outside=one)).total for one in ([], film))
    plain = columns_of(alone())
    assert plain.finish is None
    assert plain.own_above(plain.all[0], 0.0) == plain.earth_above(plain.all[0], 0.0)
    assert (coated - bare) / LBF == pytest.approx(110 / 12_000 * 8 * 20, rel=1e-5)


@pytest.mark.parametrize(
    ("at", "on"), [("0 m", (1, 0)), ("2 m", (1, 0)), ("2.001 m", (0, 0)), ("3 m", (0, 1)), ("6 m", (0, 1))]
)
def test_a_single_load_just_at_the_jamb_stands_on_the_pier(at: str, on: tuple[int, int]) -> None:
    """Piers of 2 and 3 m beside a window of 1 m; the greater of live load and snow with the dead load: 1.5 kN."""
    load = {"at": at, "dead": "1 kN", "live": "0.25 kN", "snow": "0.5 kN", "length": "12 in", "width": "12 in"}
    window = opening(0, 1) | {"start": "2 m", "width": "1 m"}
    found = alone(run={"from": ["0 m", "0 m"], "to": ["6 m", "0 m"]}, openings={"A": window}, loads={"P": load})
    loads = columns_of(found).loads
    assert [standing_on(loads, one) for one in columns_of(found).all] == pytest.approx([1500.0 * each for each in on])


# footings


def under(stem: dict[str, Any] | None = None, wall: dict[str, Any] | None = None, **changes: Any) -> Facts:
    """2000 plf on a wall of 1173.3 plf, on a stem wall of 400 plf and a footing of concrete, 24 by 12 in, 300 plf."""
    parts = {
        "footings": {"F1": {**PARTS["footings"]["F1"], **changes}},
        "stems": {"ST1": stem or PARTS["stems"]["ST1"]},
    }
    return facts({"W1": {**WALL, **PLAIN, "run": run(0, 0, 20, 0), "line_load": "2000 plf"} | (wall or {})}, **parts)


ON_SOIL = 2000 + 110 * 16 / 12 * 8 + 400


def test_width_and_pressure_of_a_footing() -> None:
    """n = 3573.3 plf; width n / (2000 − 150), pressure (n + 300) / 2 on the soil."""
    found = under()
    assert number(found, "wall.footing_needed") == pytest.approx(ON_SOIL / 1850 * FOOT)
    assert number(found, "wall.soil_pressure") == pytest.approx((ON_SOIL + 300) / 2 * PSF)
    for name in ("footing_needed", "soil_pressure", "footing_tension", "footing_tension_allowed"):
        steps = [step for step in found.of("wall")["W1"].fact(f"wall.{name}").steps if step.formula]
        results = [float(step.result.value) for step in steps]
        assert [recomputed(step) for step in steps] == pytest.approx(results)
        assert number(found, f"wall.{name}") in results


def test_a_load_off_the_middle_presses_one_edge_of_the_footing_more() -> None:
    """2000 plf 2 in off the base of a wall with a free top: m = 333.3 lbf·ft/ft, e = m / (n + 300), q (1 + 6 e / B)."""
    free = {"top_restraint": "free", "beam": None, "load_eccentricity": "2 in"}
    e = 2000 * 2 / 12 / (ON_SOIL + 300)
    expected = (ON_SOIL + 300) / 2 * (1 + 6 * e / 2)
    assert number(under(wall=free), "wall.soil_pressure") == pytest.approx(expected * PSF)


def test_the_shortest_pier_turns_the_footing_most() -> None:
    """Piers of 3 and 13 ft beside a window of 4 ft. The short one takes 5 ft of 2000 plf and half of 4 ft of the 2 ft
    of wall over the window, 2 in off the middle."""
    free = {"top_restraint": "free", "beam": None, "load_eccentricity": "2 in"}
    for where in (3, 13):
        found = under(wall=free | {"openings": {"A": opening(where, 4)}})
        n = number(found, "wall.soil_load") + number(found, "wall.footing_weight")
        e = (2000 * 5 + 110 * 16 / 12 * 2 * 2) / 3 * LBF / FOOT * (FOOT / 6) / n
        assert number(found, "wall.soil_pressure") == pytest.approx(n / (2 * FOOT) * (1 + 6 * e / (2 * FOOT)))


def test_of_piers_as_short_the_one_that_carries_most_turns_the_footing_most() -> None:
    """Three of 4 ft beside windows of 2 and 6 ft: the middle one takes 8 ft of 2000 plf, and 2 ft of wall over 4 ft."""
    windows = {"A": opening(4, 2), "B": opening(10, 6)}
    found = under(wall={"top_restraint": "free", "beam": None, "load_eccentricity": "2 in", "openings": windows})
    n = number(found, "wall.soil_load") + number(found, "wall.footing_weight")
    e = (2000 * 8 + 110 * 16 / 12 * 2 * 4) / 4 * LBF / FOOT * (FOOT / 6) / n
    assert number(found, "wall.soil_pressure") == pytest.approx(n / (2 * FOOT) * (1 + 6 * e / (2 * FOOT)))


def test_where_the_top_is_held_a_load_off_the_middle_has_come_to_the_middle_at_the_base() -> None:
    found = under(wall={"load_eccentricity": "2 in"})
    assert number(found, "wall.soil_pressure") == pytest.approx((ON_SOIL + 300) / 2 * PSF)


def test_what_the_pressure_on_the_soil_lacks() -> None:
    assert missing(under(wall={"footing": None}), "wall.soil_pressure")
    assert missing(under(wall={"load_eccentricity": None}), "wall.soil_pressure")


def test_a_footing_that_uses_up_the_soil_to_the_last_has_no_width() -> None:
    """2000 psf are what a footing of 150 pcf weighs that is 13 1/3 ft thick."""
    found = under(thickness="160 in", bottom="15 ft").of("wall")["W1"]
    assert found.fact("wall.footing_needed").value == math.inf


@pytest.mark.parametrize(("material", "arm"), [("concrete", 4), ("brick", 8)])
def test_a_plain_footing_bends_at_the_face_of_concrete_and_inside_that_of_masonry(material: str, arm: float) -> None:
    """4 in past the face of the stem wall, a quarter of its 16 in farther in under masonry; depth 12 − 2 in: 3 × q ×
    (arm / 10)², q the pressure of what stands on the footing, its own weight taken off."""
    found = under({**PARTS["stems"]["ST1"], "material": material, "density": "150 pcf"})
    assert number(found, "wall.footing_tension") == pytest.approx(3 * ON_SOIL / 2 * (arm / 10) ** 2 * PSF)


def test_without_a_stem_wall_the_base_of_the_wall_stands_on_the_footing() -> None:
    """24 in under 18: 3 in past each side."""
    taper = {"thickness": None, "thickness_base": "18 in", "thickness_top": "12 in", "tapered_face": "both"}
    found = under(wall={**taper, "stem": None, "base_restraint": "floor"})
    assert number(found, "wall.footing_projection") == pytest.approx(3 * INCH)
    line = found.of("wall")["W1"].fact("wall.footing_projection").steps[-1]
    assert recomputed(line) == line.result.value


@pytest.mark.parametrize(("thick", "stands"), [("2 in", False), ("2.01 in", True)])
def test_two_inches_of_concrete_cast_on_soil_do_not_count(thick: str, stands: bool) -> None:
    tension = under(thickness=thick).of("wall")["W1"].fact("wall.footing_tension")
    assert isinstance(tension.value, float) and math.isfinite(tension.value) is stands
    assert ("Nothing of the depth counts" in [step.says for step in tension.steps]) is not stands


def test_a_footing_says_what_leaves_it_without_a_width() -> None:
    """Its own weight or a load that has nothing to stand on; never the one for the other."""
    heavy = under(thickness="14 ft", bottom="15 ft").of("wall")["W1"].fact("wall.footing_needed")
    open_end = under(wall={"openings": {"A": opening(0, 4)}}).of("wall")["W1"]
    assert heavy.value == math.inf and heavy.steps[-1].says == "The footing's own weight uses up the soil"
    for name in ("footing_needed", "footing_tension"):
        fact = open_end.fact(f"wall.{name}")
        says = [step.says for step in fact.steps]
        assert fact.value == math.inf and says
        assert "The footing's own weight uses up the soil" not in says and "Nothing of the depth counts" not in says


def test_a_footing_of_another_kind_has_no_tension_of_concrete_and_none_lacks() -> None:
    rubble = under(kind="rubble-trench").of("wall")["W1"].fact("wall.footing_tension")
    assert rubble.value is None and "not of concrete" in rubble.reason
    beam = number(under(kind="rubble-trench-grade-beam"), "wall.footing_tension")
    assert beam == pytest.approx(number(under(), "wall.footing_tension"))
    assert missing(under(wall={"footing": None}), "wall.footing_tension") >= {"walls.W1.footing"}


def test_plain_concrete_bends_as_far_as_its_strength_allows() -> None:
    """1.6 √f'c psi: 80 psi at 2500 psi (reference file screening)."""
    assert number(under(), "wall.footing_tension_allowed") == pytest.approx(80 * PSI, rel=1e-6)
    assert missing(under(concrete_strength=None), "wall.footing_tension_allowed") == {"footings.F1.concrete_strength"}
