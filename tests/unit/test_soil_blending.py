"""Blends and targets on plain synthetic numbers."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.facts.mixes.blend_target import Material, Target
from compliance.facts.mixes.blending import best_blend, best_buckets, blend_of
from compliance.facts.soil.fractions import SoilError

ROOT = Path(__file__).parents[2]
VALUES: dict[str, Any] = yaml.safe_load((ROOT / "rulesets/reference/mix-practice.yaml").read_text("utf-8"))["values"]
COB = Target.from_values(VALUES, "cob")
CLAYEY = Material("subsoil", {"clay": 0.5, "fine sand": 0.5}, "settled depth")
SHARP = Material("sharp sand", {"coarse sand": 1.0}, "settled depth")


def test_target_is_half_a_quarter_a_quarter() -> None:
    assert {component.name: component.share for component in COB.components} == {
        "coarse sand": 0.5,
        "fine sand": 0.25,
        "clay": 0.25,
    }
    assert COB.tolerance == pytest.approx(0.05)
    assert "no source" in COB.source


def test_every_target_of_the_reference_can_be_read() -> None:
    for name in VALUES["targets"]:
        assert sum(component.share for component in Target.from_values(VALUES, name).components) == pytest.approx(1)


def test_a_blend_that_reaches_its_target_exactly() -> None:
    """Half a clayey subsoil, half sharp sand: 25 % clay, 25 % fine sand, 50 % coarse sand."""
    blend = best_blend([CLAYEY, SHARP], COB)
    assert blend.parts == pytest.approx({"subsoil": 0.5, "sharp sand": 0.5})
    assert blend.reached and blend.distance == pytest.approx(0, abs=1e-15) and not blend.lacking
    buckets = best_buckets([CLAYEY, SHARP], COB, 10)
    assert buckets.parts == {"subsoil": 1, "sharp sand": 1}


def test_a_blend_that_lacks_clay_says_so() -> None:
    lean = Material("lean soil", {"clay": 0.1, "fine sand": 0.9}, "settled depth")
    blend = best_blend([lean, SHARP], COB)
    assert not blend.reached
    assert blend.lacking == ("clay",)
    assert "No blend of these materials reaches the target" in blend.says
    assert "clay (a subsoil with more clay)" in blend.says
    assert best_buckets([lean, SHARP], COB, 10).lacking == ("clay",)


def test_halves_where_whole_buckets_are_too_coarse() -> None:
    """Four parts rich soil, one fine sand, five sharp sand reach the target: 2, 1/2 and 2 1/2 buckets."""
    rich = Material("rich soil", {"clay": 0.625, "fine sand": 0.375}, "settled depth")
    fine = Material("fine sand", {"fine sand": 1.0}, "settled depth")
    assert best_blend([rich, fine, SHARP], COB).parts == pytest.approx(
        {"rich soil": 0.4, "fine sand": 0.1, "sharp sand": 0.5}
    )
    whole = best_buckets([rich, fine, SHARP], COB, 5)
    assert whole.distance == pytest.approx(0.0625 * 2**0.5)
    assert not whole.reached and not whole.lacking
    assert "Allow more buckets or half buckets" in whole.says
    halves = best_buckets([rich, fine, SHARP], COB, 5, halves=True)
    assert halves.reached and halves.parts == {"rich soil": 2, "fine sand": 0.5, "sharp sand": 2.5}


def test_unwanted_fractions_count_against_the_blend() -> None:
    silty = Material("silty soil", {"clay": 0.4, "silt": 0.2, "fine sand": 0.4}, "settled depth")
    blend = blend_of([silty, SHARP], [1, 1], COB)
    assert blend.gaps == pytest.approx({"coarse sand": 0, "fine sand": -0.05, "clay": -0.05, "silt": 0.1})
    assert blend.distance == pytest.approx(0.015**0.5)
    assert [remark.code for remark in blend.remarks] == ["blend-silt", "blend-unwanted"]
    assert blend.surplus == ("silt",) and "In surplus: silt (10 %, where the target has 0 %)" in blend.says


def test_shares_by_weight_are_not_compared_with_parts_by_volume_without_densities() -> None:
    shares = {"clay": 0.5, "fine sand": 0.5}
    with pytest.raises(SoilError, match="the shares of soil are by dry weight"):
        best_blend([Material("soil", shares), SHARP], COB)
    for sound in (Material("soil", shares, "settled depth"), Material("soil", shares, "dry weight", 1200.0)):
        assert best_blend([sound, SHARP], COB).parts


def test_bulk_densities_turn_buckets_into_weight() -> None:
    """Two buckets at 1200 kg/m3 weigh what 1.5 buckets at 1600 kg/m3 weigh."""
    soil = Material("soil", {"clay": 0.5, "fine sand": 0.5}, "dry weight", 1200.0)
    sand = Material("sand", {"coarse sand": 1.0}, "dry weight", 1600.0)
    blend = blend_of([soil, sand], [2, 1.5], COB)
    assert blend.shares == pytest.approx({"coarse sand": 0.5, "fine sand": 0.25, "clay": 0.25})
    assert [remark.code for remark in blend.remarks] == ["blend-by-weight"]
    assert best_blend([soil, sand], COB).parts == pytest.approx({"soil": 4 / 7, "sand": 3 / 7})
    assert best_buckets([soil, sand], COB, 4, halves=True).parts == {"soil": 2, "sand": 1.5}


def test_weight_shares_without_bulk_density_are_told() -> None:
    soil = Material("soil", {"clay": 0.5, "fine sand": 0.5}, "dry weight", 1200.0)
    blend = blend_of([soil, Material("sand", {"coarse sand": 1.0})], [1, 1], COB)
    assert [remark.code for remark in blend.remarks] == ["blend-weight-as-volume"]


def test_a_target_that_adds_fractions_up() -> None:
    target = Target.from_values(VALUES, "cob-with-gravel")
    soil = Material("soil", {"clay": 0.3, "silt": 0.2, "sand": 0.5}, "settled depth")
    stone = Material("pea gravel", {"gravel": 1.0}, "settled depth")
    blend = best_blend([soil, stone], target)
    assert blend.parts == pytest.approx({"soil": 2 / 3, "pea gravel": 1 / 3})
    assert blend.shares["clay and silt"] == pytest.approx(1 / 3)


def test_whole_sand_against_a_target_that_parts_it_is_refused() -> None:
    whole = Material("soil", {"clay": 0.3, "sand": 0.7}, "settled depth")
    with pytest.raises(SoilError, match="choose a target that takes sand whole"):
        best_blend([whole], COB)
    assert best_blend([whole], Target.from_values(VALUES, "cob-sand-whole")).distance == pytest.approx(0.05 * 2**0.5)


def test_records_that_make_no_sense_are_refused() -> None:
    with pytest.raises(SoilError, match="add up"):
        Material("soil", {"clay": 0.5})
    with pytest.raises(SoilError, match="above zero"):
        Material("soil", {"clay": 1.0}, bulk_density=0.0)
    with pytest.raises(SoilError, match="at least one material"):
        best_blend([], COB)
    with pytest.raises(SoilError, match="same name"):
        best_blend([CLAYEY, CLAYEY], COB)
    with pytest.raises(SoilError, match="one part for each"):
        blend_of([CLAYEY], [0.0], COB)
    with pytest.raises(SoilError, match="at least one bucket"):
        best_buckets([CLAYEY], COB, 0)
    with pytest.raises(SoilError, match="too many counts"):
        best_buckets([CLAYEY, SHARP], COB, 1000)


@pytest.mark.parametrize(
    "components",
    [
        [],
        [{"of": ["clay"], "parts": 0}],
        [{"of": ["clay"], "parts": 1}, {"of": ["clay", "silt"], "parts": 1}],
        [{"of": [], "parts": 1}],
        [{"of": ["clay"], "parts": True}],
    ],
)
def test_targets_that_make_no_sense_are_refused(components: list[dict[str, object]]) -> None:
    target = {"title": "t", "source": "s", "components": components}
    with pytest.raises(ReferenceValueError):
        Target.from_values(VALUES | {"targets": {"odd": target}}, "odd")
    with pytest.raises(ReferenceValueError):
        Target.from_values(VALUES, "nowhere")


def test_a_miss_by_a_hair_does_not_read_like_the_tolerance() -> None:
    off = 0.25 - 0.05001 / 2**0.5
    soil = Material("soil", {"clay": off, "fine sand": 0.5 - off, "coarse sand": 0.5}, "settled depth")
    blend = blend_of([soil], [1], COB)
    assert not blend.reached
    assert "5.0010 %" in blend.says and "outside the tolerance of 5 %" in blend.says


def test_a_blend_at_the_tolerance_reaches() -> None:
    off = 0.25 - 0.05 / 2**0.5
    soil = Material("soil", {"clay": off, "fine sand": 0.5 - off, "coarse sand": 0.5}, "settled depth")
    assert blend_of([soil], [1], COB).reached


def test_all_that_is_lacking_is_named_the_most_helpful_first() -> None:
    """Worked by hand: without coarse sand 50 points are short, of clay 5; adding pure clay still helps half as much."""
    blend = best_blend([Material("soil", {"clay": 0.2, "fine sand": 0.8}, "settled depth")], COB)
    assert blend.lacking == ("coarse sand", "clay")


def test_what_is_there_in_plenty_is_not_lacking_even_where_more_would_thin_the_silt() -> None:
    blend = best_blend([Material("soil", {"clay": 0.26, "silt": 0.74}, "settled depth")], COB)
    assert blend.lacking == ("coarse sand", "fine sand")


def test_shares_of_settled_depth_are_blended_by_volume_whatever_the_bulk_density() -> None:
    soil = Material("soil", {"clay": 0.5, "fine sand": 0.5}, "settled depth", 1200.0)
    sand = Material("sand", {"coarse sand": 1.0}, "settled depth", 1600.0)
    blend = blend_of([soil, sand], [1, 1], COB)
    assert blend.shares["coarse sand"] == pytest.approx(0.5)
    assert blend.remarks == ()


def test_of_equal_counts_the_fewest_buckets_win_despite_the_last_digit() -> None:
    soil = Material("soil", {"clay": 0.52, "fine sand": 0.48}, "dry weight", 1393.0)
    sand = Material("sand", {"coarse sand": 0.9, "fine sand": 0.1}, "dry weight", 1633.0)
    assert best_buckets([soil, sand], COB, 9).parts == {"soil": 1, "sand": 1}
