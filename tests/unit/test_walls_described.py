"""What follows from the description of one wall alone: section, lengths, faces, finishes. Worked by hand."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.common.fact import Fact
from compliance.facts.geometry.subjects import Facts
from compliance.units import measure
from tests.recomputing import recomputed
from tests.unit.structural_houses import (
    FOOT,
    INCH,
    LBF,
    PLF,
    ROOF,
    WALL,
    bears,
    facts,
    missing,
    number,
    opening,
    run,
)

PERM = measure("1 perm", "permeance").si


def alone(roofs: dict[str, Any] | None = None, **changes: Any) -> Facts:
    """20 ft of wall, 8 ft high and 16 in thick."""
    return facts({"W1": {**WALL, "run": run(0, 0, 20, 0)} | changes}, roofs)


def fact(found: Facts, name: str) -> Fact:
    return found.of("wall")["W1"].fact(f"wall.{name}")


def layer(thickness: str | None = "1 in", permeance: str | None = None, material: str = "lime") -> dict[str, Any]:
    return {"material": material, "thickness": thickness, "permeance": permeance}


# finishes


def test_layers_in_series_resist_one_after_the_other() -> None:
    """20 and 5 perms: 1 / (1/20 + 1/5) = 4. The face that lets least through counts."""
    series = [layer(permeance="20 perm"), layer(permeance="5 perm", material="clay")]
    for face in ("outside", "inside"):
        changes: dict[str, Any] = {face: series}
        found = fact(alone(**changes), "finish_permeance")
        assert found.value == pytest.approx(4 * PERM) == recomputed(found.steps[-1])
        assert found.steps[-1].says == f"Permeance of the {face} finishes in series"
        assert found.steps[-1].result.value == found.value
        assert [one.symbol for one in found.steps[-1].given] == ["p1", "p2"]
        assert [one.value for one in found.steps[-1].given] == pytest.approx([20 * PERM, 5 * PERM])
    both = fact(alone(outside=[layer(permeance="4.1 perm")], inside=series), "finish_permeance")
    assert both.value == pytest.approx(4 * PERM)
    both = fact(alone(outside=[layer(permeance="3.9 perm")], inside=series), "finish_permeance")
    assert both.value == pytest.approx(3.9 * PERM)


def test_every_layer_without_permeance_is_named() -> None:
    """One of nothing too, which no other layer can be in series with."""
    found = alone(outside=[layer(permeance="5 perm"), layer()], inside=[layer(permeance="0 perm")])
    assert missing(found, "wall.finish_permeance") == {
        "walls.W1.outside.1.permeance", "walls.W1.inside.0.permeance",
    }  # fmt: skip


def test_the_thickest_finish_is_that_of_one_face_all_layers_together() -> None:
    found = alone(outside=[layer("1 in"), layer("0.5 in")], inside=[layer("1.25 in")])
    assert number(found, "wall.thickest_finish") == pytest.approx(1.5 * INCH)
    assert number(found, "wall.outside_finish") == pytest.approx(1.5 * INCH)
    other = alone(outside=[layer("1 in")], inside=[layer("1.25 in")])
    assert number(other, "wall.thickest_finish") == pytest.approx(1.25 * INCH)
    assert number(other, "wall.outside_finish") == pytest.approx(1 * INCH)


def test_layers_without_thickness_are_named() -> None:
    found = alone(outside=[layer(), layer(None)], inside=[layer(None)])
    assert missing(found, "wall.thickest_finish") == {"walls.W1.outside.1.thickness", "walls.W1.inside.0.thickness"}
    assert missing(found, "wall.outside_finish") == {"walls.W1.outside.1.thickness"}


OUTSIDE_FACTS = ("outside_plaster", "outside_cement", "outside_clay", "outside_all_clay", "cement_over_clay")
ANY_OUTSIDE = {"plastered_outside": "outside_plaster", "cement_outside": "outside_cement"}


@pytest.mark.parametrize(("materials", "expected"), [
    ((), (0, 0, False, False, False)),
    (("siding",), (0, 0, False, False, False)),
    (("clay",), (1, 0, True, True, False)),
    (("clay", "clay"), (2, 0, True, True, False)),
    (("clay", "siding"), (1, 0, True, True, False)),
    (("clay", "lime"), (2, 0, True, False, False)),
    (("clay-lime",), (1, 0, True, False, False)),
    (("clay", "cement"), (2, 1, True, False, True)),
    (("clay", "lime", "cement-lime"), (3, 0, True, False, True)),
    (("clay-lime", "soil-cement"), (2, 0, True, False, True)),
    (("cement", "clay"), (2, 1, True, False, False)),
    (("cement", "cement"), (2, 2, False, False, False)),
    (("other",), (1, 0, False, False, False)),
])  # fmt: skip
def test_plasters_of_the_outside(materials: tuple[str, ...], expected: tuple[float | bool, ...]) -> None:
    """Layers of 1 in from the earth outward. Siding is no plaster; a layer that is not named counts as one."""
    found = alone(outside=[layer(material=one) for one in materials], inside=[layer(material="cement")])
    values = [fact(found, name).value for name in OUTSIDE_FACTS]
    assert values[:2] == pytest.approx([inches * INCH for inches in expected[:2]])
    assert values[2:] == list(expected[2:])
    assert all(fact(found, name).value is (number(found, f"wall.{of}") > 0) for name, of in ANY_OUTSIDE.items())


def test_a_plaster_without_thickness_is_named_where_it_counts() -> None:
    found = alone(outside=[layer(material="lime"), layer(None, material="siding")])
    assert number(found, "wall.outside_plaster") == pytest.approx(INCH)
    found = alone(outside=[layer(None, material="cement")])
    assert missing(found, "wall.outside_cement") == {"walls.W1.outside.0.thickness"}
    for name in (*OUTSIDE_FACTS, *ANY_OUTSIDE):
        assert missing(alone(outside=None), f"wall.{name}") == {"walls.W1.outside"}, name


def test_a_bare_face_is_known_to_be_bare_and_one_not_described_is_not() -> None:
    bare = alone()
    assert fact(bare, "finished_outside").value is False and number(bare, "wall.outside_finish") == 0
    for name in ("finish_permeance", "thickest_finish"):
        assert fact(bare, name).reason == "the wall has no finish" and not fact(bare, name).missing
    assert fact(alone(outside=[layer()]), "finished_outside").value is True
    unsaid = alone(outside=None)
    for name in ("finished_outside", "outside_finish", "finish_permeance", "thickest_finish"):
        assert missing(unsaid, f"wall.{name}") == {"walls.W1.outside"}, name
    neither = alone(outside=None, inside=None)
    for name in ("finish_permeance", "thickest_finish"):
        assert missing(neither, f"wall.{name}") == {"walls.W1.outside", "walls.W1.inside"}, name


# the section


TAPER: dict[str, Any] = {"thickness": None, "thickness_base": "24 in", "thickness_top": "12 in", "tapered_face": "both"}


@pytest.mark.parametrize(
    ("name", "inches"),
    [("base_thickness", 24), ("least_thickness", 12), ("mean_thickness", 18), ("upper_thickness", 20)],
)
def test_thickness_of_a_tapered_wall(name: str, inches: float) -> None:
    """24 in at the base and 12 at the top: 18 in the middle, 24 − 12 / 3 = 20 at a third of the height."""
    found = fact(alone(**TAPER), name)
    assert found.value == pytest.approx(inches * INCH)
    for step in found.steps:
        assert recomputed(step) == step.result.value == found.value


def test_height_counts_against_the_least_thickness() -> None:
    for changes, ratio in ((TAPER, 8), ({}, 6)):
        found = fact(alone(**changes), "height_to_thickness")
        assert found.value == pytest.approx(ratio) == recomputed(found.steps[-1])
        assert found.steps[-1].result.value == found.value


# along the wall


def crossed(*places: float, **changes: Any) -> Facts:
    """20 ft of wall, 12 in thick, crossed so many feet from its start by walls 12 in thick."""
    walls = {"W1": {**WALL, "run": run(0, 0, 20, 0), "thickness": "12 in"} | changes}
    walls |= {f"C{place}": {**WALL, "run": run(at, -8, at, 8), "thickness": "12 in"} for place, at in enumerate(places)}
    return facts(walls)


@pytest.mark.parametrize(
    ("places", "gap", "count", "free"),
    [
        ((), 20, 0, 2),
        ((0, 20), 20, 2, 0),
        ((0, 12, 20), 12, 3, 0),
        ((0, 7, 20), 13, 3, 0),
        ((0,), 20, 1, 1),
        ((20,), 20, 1, 1),
        ((8,), 12, 1, 2),
        ((1.01, 18.99), 17.98, 2, 2),  # farther from the ends than the wall is thick
        ((0.99, 19.01), 18.02, 2, 0),
    ],
)
def test_lengths_without_support_and_free_ends(places: tuple[float, ...], gap: float, count: int, free: int) -> None:
    found = crossed(*places)
    assert number(found, "wall.unsupported_length") / FOOT == pytest.approx(gap)
    assert (number(found, "wall.support_count"), number(found, "wall.free_ends")) == (count, free)
    last = fact(found, "unsupported_length").steps[-1]
    assert recomputed(last) == last.result.value == number(found, "wall.unsupported_length")
    says = [step.says for step in fact(found, "free_ends").steps]
    assert len(says) == count + 1 and fact(found, "free_ends").steps[-1].result.value == free
    assert all("counts as a lateral support" in one for one in says[:-1])


@pytest.mark.parametrize(("places", "free"), [((0.5, 7.5), 0), ((0.75, 7.5), 1), ((0.5, 7.25), 1)])
def test_an_end_is_free_where_nothing_holds_it_within_the_thickness(places: tuple[float, float], free: int) -> None:
    """A wall 0.5 m thick and 8 m long; numbers that floats hold exactly."""

    def metres(x0: float, y0: float, x1: float, y1: float) -> dict[str, Any]:
        return {"from": [f"{x0} m", f"{y0} m"], "to": [f"{x1} m", f"{y1} m"]}

    walls = {"W1": {**WALL, "run": metres(0, 0, 8, 0), "thickness": "0.5 m"}}
    walls |= {mark: {**WALL, "run": metres(at, -4, at, 4)} for mark, at in zip("CD", places, strict=True)}
    assert number(facts(walls), "wall.free_ends") == free


def test_what_meets_the_wall_without_holding_it_is_told_with_the_reason() -> None:
    """1 ft beyond the junction is less than a fifth of the height of 8 ft (reference file of supports)."""
    walls = {"W1": {**WALL, "run": run(0, 0, 20, 0)}, "C": {**WALL, "run": run(8, 0, 8, 1)}}
    found = facts(walls)
    told = fact(found, "support_count").steps[0].says
    assert number(found, "wall.support_count") == 0
    assert told.startswith("C meets W1 (not counted, it ")


# faces


def test_areas_volume_and_shares_of_a_wall_with_openings() -> None:
    """20 × 8 ft with windows of 4 × 3 and 2 × 3 ft, sills at 3 ft; 24 in thick at the base and 12 at the top, so
    24 − 12 × 4.5 / 8 = 17.25 in at the middle of the windows."""
    found = alone(**TAPER, openings={"A": opening(4, 4), "B": opening(12, 2)})
    square = FOOT**2
    assert number(found, "wall.opening_count") == 2
    assert number(found, "wall.face_area") == pytest.approx(160 * square)
    assert number(found, "wall.net_area") == pytest.approx(142 * square)
    assert number(found, "wall.volume") == pytest.approx((160 * 18 - 18 * 17.25) / 12 * FOOT**3)
    assert number(found, "wall.opening_share") == pytest.approx(0.3)
    assert number(found, "wall.widest_opening") == pytest.approx(4 * FOOT)
    assert number(found, "wall.narrowest_pier") == pytest.approx(4 * FOOT)
    for name in ("opening_share", "face_area", "net_area"):
        last = fact(found, name).steps[-1]
        assert recomputed(last) == pytest.approx(number(found, f"wall.{name}")) == last.result.value


def test_a_wall_without_openings_has_no_pier() -> None:
    for name in ("widest_opening", "narrowest_pier"):
        found = fact(alone(), name)
        assert found.reason == "the wall has no opening" and not found.missing
    assert number(alone(), "wall.opening_share") == 0 == number(alone(), "wall.opening_count")


# what is stated


@pytest.mark.parametrize(
    ("bears_load", "braces", "structural"),
    [("yes", "yes", True), ("yes", "no", True), ("no", "yes", True), ("no", "no", False), ("yes", None, True),
     (None, "yes", True)],
)  # fmt: skip
def test_a_wall_that_bears_or_braces_is_structural(
    bears_load: str | None, braces: str | None, structural: bool
) -> None:
    assert fact(alone(bears_load=bears_load, braces=braces), "structural").value is structural


def test_a_wall_that_may_bear_or_brace_is_not_known_to_be_apart() -> None:
    both = {"walls.W1.bears_load", "walls.W1.braces"}
    assert missing(alone(bears_load=None, braces=None), "wall.structural") == both
    assert missing(alone(bears_load="no", braces=None), "wall.structural") == {"walls.W1.braces"}
    assert missing(alone(bears_load=None, braces="no"), "wall.structural") == {"walls.W1.bears_load"}


def test_what_a_wall_has_and_of_which_story_it_is() -> None:
    full, plain = alone(story=1), alone(beam=None, stem=None, top_restraint="free")
    assert fact(full, "has_beam").value is True is fact(full, "has_stem").value
    assert fact(plain, "has_beam").value is False is fact(plain, "has_stem").value
    assert number(full, "wall.story") == 1 and missing(plain, "wall.story") == {"walls.W1.story"}
    assert fact(full, "curved").value is False


def test_the_least_overhang_of_the_roofs_on_a_wall() -> None:
    roofs = {
        mark: {**ROOF, "overhang": out, "bears_on": bears(*on)}
        for mark, out, on in (("A", "2 ft", ("W1",)), ("B", "1.5 ft", ("W1", "W2")), ("C", "1 ft", ("W2",)))
    }
    walls = {"W1": {**WALL, "run": run(0, 0, 20, 0)}, "W2": {**WALL, "run": run(0, 0, 0, 16)}}
    assert number(facts(walls, roofs), "wall.overhang") == pytest.approx(1.5 * FOOT)
    roofs["B"]["overhang"] = None
    assert missing(facts(walls, roofs), "wall.overhang") == {"roofs.B.overhang"}
    found = fact(alone(), "overhang")
    assert not found.missing and found.reason == "no roof is said to bear on the wall"


# what it weighs


def test_the_wall_weighs_its_earth_and_its_finishes() -> None:
    """110 pcf on (160 − 12) × 16 / 12 cubic feet; lime of 1 in, 110 pcf, on the 148 square feet of one face."""
    found = alone(openings={"A": opening(8, 4)}, outside=[layer()])
    earth, lime = 110 * 148 * 4 / 3, 110 / 12 * 148
    whole = fact(found, "earth_weight")
    assert whole.value == pytest.approx(earth * LBF) == recomputed(whole.steps[-1])
    assert next(one.value for one in whole.steps[-1].given if one.symbol == "V") == pytest.approx(148 * 4 / 3 * FOOT**3)
    along = fact(found, "own_weight")
    assert along.value == pytest.approx((earth + lime) / 20 * PLF) == recomputed(along.steps[-1])
