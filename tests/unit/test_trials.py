"""Trials ranked by the order that is data, and mixes held against the trial they were chosen from."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.facts.common.reference_values import ReferenceValueError
from compliance.facts.mixes.trial_ranking import TrialOrder, compare_with_trial, ranked_trials
from compliance.model.materials import Mix
from compliance.model.trials import Trial
from compliance.reading.reference_files.material_practice import read_material_practice

ORDER = read_material_practice().trials
HEIGHT = {"drop_height": "2 m"}


def trial(**fields: Any) -> Trial:
    return Trial.model_validate({"parts": {"S1": 1.0, "S2": 2.0}} | fields)


def mix(**fields: Any) -> Mix:
    return Mix.model_validate({"name": "m", "parts": {"S1": 1.0, "S2": 2.0}} | fields)


def test_the_shipped_order_ranks_by_the_largest_piece_then_by_pieces_then_by_height() -> None:
    trials = {
        "A": trial(largest_piece="80 %", pieces=3, **HEIGHT),
        "B": trial(largest_piece="95 %", pieces=4, **HEIGHT),
        "C": trial(largest_piece="80 %", pieces=2, **HEIGHT),
        "D": trial(pieces=1, **HEIGHT),
        "E": trial(remarks="not dropped"),
        "F": trial(largest_piece="80 %", pieces=2, **HEIGHT),
    }
    ranking = ranked_trials(trials, ORDER)
    ranks = {one.mark: one.rank for one in ranking.trials}
    assert ranks == {"B": 1, "C": 2, "F": 2, "A": 4, "D": 5, "E": None}
    assert ranking.order.startswith("share of the largest piece (highest first)")
    assert "does not measure strength" in ranking.remarks[0] and len(ranking.remarks) == 1
    best = ranking.of("B")
    assert best is not None and best.steps[-1].result.value == 1.0 and ranking.of("Z") is None


def test_unlike_heights_are_remarked_on() -> None:
    trials = {"A": trial(pieces=1, drop_height="2 m"), "B": trial(pieces=1, drop_height="6 ft")}
    assert ORDER.unlike_heights in ranked_trials(trials, ORDER).remarks


def test_another_order_ranks_otherwise() -> None:
    order = TrialOrder.from_values(
        {"order": [{"by": "drop_height", "best": "lowest"}], "note": "n", "unlike_heights": "u"}
    )
    trials = {"A": trial(pieces=1, drop_height="2 m"), "B": trial(pieces=9, drop_height="1 m")}
    assert [one.mark for one in ranked_trials(trials, order).trials] == ["B", "A"]


@pytest.mark.parametrize("bad", [{"by": "colour", "best": "highest"}, {"by": "pieces", "best": "least"}])
def test_an_order_by_what_nobody_records_is_refused(bad: dict[str, str]) -> None:
    with pytest.raises(ReferenceValueError):
        TrialOrder.from_values({"order": [bad], "note": "n", "unlike_heights": "u"})


@given(st.floats(0.1, 50), st.floats(0.1, 50), st.floats(0.1, 9))
def test_the_same_proportions_in_other_amounts_follow_the_trial(a: float, b: float, times: float) -> None:
    tried = trial(parts={"S1": a, "S2": b}, straw="wheat", straw_parts=0.5)
    own = mix(parts={"S1": a * times, "S2": b * times}, straw="wheat", straw_parts=0.5 * times)
    found = compare_with_trial(own, tried)
    assert found.differences == () and found.unsaid == ()


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"parts": {"S1": 1.0, "S2": 2.01}}, "S1 is 33.2 %"),
        ({"parts": {"S1": 1.0, "S2": 2.0, "S3": 0.1}}, "S3 is 3.2 %"),
        ({"parts": {"S1": 1.0}}, "S2 is 0.0 %"),
        ({"straw": "rice"}, "the straw is rice, wheat in the trial"),
        ({"straw_parts": 0.7}, "the straw is 0.233"),
    ],
)
def test_any_change_is_told(fields: dict[str, Any], said: str) -> None:
    tried = trial(straw="wheat", straw_parts=0.6)
    found = compare_with_trial(mix(**({"straw": "wheat", "straw_parts": 0.6} | fields)), tried)
    assert any(said in one for one in found.differences), found.differences


def test_what_one_of_them_leaves_open_is_named() -> None:
    found = compare_with_trial(mix(straw="none"), trial())
    assert set(found.unsaid) == {("trials", "straw"), ("trials", "straw_parts")}
