"""Texture references that cannot be right, on plain synthetic rules; published points test the real rules."""

from __future__ import annotations

from typing import Any

import pytest

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.facts.soil.fractions import SoilError, SoilShares
from compliance.facts.soil.texture import TextureRules, texture_class, texture_classes

HALF_CLAY = {"of": {"clay": 1}, "at_least": "50 %"}
HALF_SILT = {"of": {"silt": 1}, "at_least": "50 %"}


def reference(*classes: tuple[str, Any], corners: Any = None) -> dict[str, object]:
    return {
        "sizes": "usda",
        "classes": [{"name": name, "any_of": lists} for name, lists in classes],
        "outlines": {"corners": corners or {"heavy": [[100, 0, 0], [50, 50, 0], [50, 0, 50]]}},
    }


def shares(clay: float, silt: float) -> SoilShares:
    return SoilShares(clay, silt=silt, sand=1 - clay - silt, sizes="usda", basis="dry weight")


def test_a_gap_or_an_overlap_in_edited_rules_gives_no_class() -> None:
    rules = TextureRules.from_values(reference(("heavy", [[HALF_CLAY]]), ("silty", [[HALF_SILT]])))
    assert texture_class(rules, shares(0.6, 0.1)).name == "heavy"
    gap = texture_class(rules, shares(0.1, 0.1))
    assert gap.name is None and "no class" in gap.reason
    overlap = texture_class(rules, shares(0.5, 0.5))
    assert overlap.name is None and "heavy and silty" in overlap.reason


def test_a_share_on_a_limit_is_on_it_whatever_its_last_digit() -> None:
    rules = TextureRules.from_values(reference(("heavy", [[{"of": {"clay": 1}, "above": "30 %"}]])))
    for on_limit in (0.3, 0.1 + 0.2, 3 * 0.1, 1 - 0.7):
        assert texture_classes(rules, on_limit, 0.0) == ()
    assert texture_classes(rules, 0.3001, 0.0) == ("heavy",)


def test_steps_name_the_limit_and_the_share() -> None:
    rules = TextureRules.from_values(
        reference(("heavy", [[HALF_CLAY, {"of": {"silt": 1, "clay": 2}, "above": "1 %"}]]))
    )
    first, second = texture_class(rules, shares(0.6, 0.1)).steps
    assert first.says == "Heavy asks for at least 50 %" and first.result.value == pytest.approx(0.6)
    assert second.formula == "silt + 2 × clay" and second.result.value == pytest.approx(1.3)


@pytest.mark.parametrize(
    "lists",
    [
        [[]],
        [[{"of": {"clay": 1}}]],
        [[{"of": {"clay": 1}, "near": "50 %"}]],
        [[{"of": {"clay": 1}, "below": "50 %", "above": "10 %"}]],
        [[{"of": {"gravel": 1}, "below": "50 %"}]],
        [[{"of": {}, "below": "50 %"}]],
        [[{"of": {"clay": 1}, "below": 50}]],
        [[{"of": {"clay": 1}, "below": "50 mm"}]],
        [{"of": {"clay": 1}, "below": "50 %"}],
        "clay",
    ],
)
def test_rules_that_make_no_sense_are_refused(lists: Any) -> None:
    with pytest.raises(ReferenceValueError):
        TextureRules.from_values(reference(("odd", lists)))


@pytest.mark.parametrize("corner", [[50, 50], [50, 50, 1], [110, -10, 0], ["50", 50, 0]])
def test_corners_that_make_no_sense_are_refused(corner: list[Any]) -> None:
    with pytest.raises(ReferenceValueError):
        TextureRules.from_values(reference(("heavy", [[HALF_CLAY]]), corners={"heavy": [corner]}))


@pytest.mark.parametrize(("clay", "silt"), [(-0.1, 0.5), (0.6, 0.5), (0.5, -0.1)])
def test_shares_outside_the_triangle_are_refused(clay: float, silt: float) -> None:
    rules = TextureRules.from_values(reference(("heavy", [[HALF_CLAY]])))
    with pytest.raises(SoilError):
        texture_classes(rules, clay, silt)
