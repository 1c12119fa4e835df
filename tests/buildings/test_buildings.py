"""The corpus against the list of what is wrong today, and the corpus itself: complete, readable, of one danger each."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from tests.buildings.judging import Result, check_building, check_corpus
from tests.buildings.known import compare, gather, read_known
from tests.buildings.mended import wrong_changes
from tests.buildings.printing import table_lines
from tests.buildings.reading import HERE, KINDS, CorpusError, list_buildings, merge, read_building, read_text

LEAST = {"sound": 40, "dangerous": 60}


@pytest.fixture(scope="module")
def results() -> tuple[Result, ...]:
    return check_corpus()


def test_wrong_as_listed(results: tuple[Result, ...]) -> None:
    """A line of known.yaml that is wrong no more is to be deleted; anything new is to be mended."""
    assert compare(read_known(), gather(results)) == []


def test_every_building_is_a_valid_project(results: tuple[Result, ...]) -> None:
    """None is refused but for the danger it shows, or as listed; so no danger hides behind a slip of its file."""
    refused = {one.building.mark: one.unwanted_problems for one in results if one.unwanted_problems}
    assert refused == read_known().get("problems", {})


@pytest.mark.parametrize("kind", KINDS)
def test_corpus_is_large_enough(kind: str) -> None:
    assert sum("@" not in one.mark for one in list_buildings(kind)) >= LEAST[kind]


def test_every_item_has_dangerous_buildings() -> None:
    items = {one.item for one in list_buildings("dangerous")}
    assert {str(item) for item in (*range(1, 11), 13, 14, 15, 16)} <= items


def test_marks_fit_the_transformations() -> None:
    """Pieces of split walls are told by a hyphen."""
    for kind in KINDS:
        for building in list_buildings(kind):
            assert not [mark for mark in building.sections["walls"] if "-" in mark], building.mark


def test_assumed_values_are_marked() -> None:
    """Whatever is taken from a real building says what was filled in."""
    for path in (HERE / "dangerous").glob("outcome-*.yaml"):
        assert read_text(f"dangerous/{path.stem}").get("assumed"), path.stem


def test_order_names_buildings_there_are() -> None:
    marks = {one.mark for kind in KINDS for one in list_buildings(kind)}
    for kind in KINDS:
        for building in list_buildings(kind):
            assert set(building.milder_than) <= marks, building.mark


def test_stated_strength_is_the_lowest_of_five(results: tuple[Result, ...]) -> None:
    """The rows laid out under lab/ give back what the file states: 100 psi meets 85, and 9.8 misses 60."""
    found = {one.building.mark: one for one in results}
    rule = "cob-irc-2021-au/compressive-strength-bracing"
    strong = next(one for one in found["sound/cabin-16x12"].findings if one.rule == rule)
    weak = next(one for one in found["dangerous/weak-earth"].findings if one.rule == rule)
    assert strong.margin == pytest.approx(100 / 85 - 1, rel=1e-3)
    assert weak.margin == pytest.approx(9.8 / 85 - 1, rel=1e-3)


def test_table_counts_what_is_wrong(results: tuple[Result, ...]) -> None:
    lines = list(table_lines(results))
    missed = sum(bool(one.misses) for one in results if not one.building.sound)
    assert sum("  MISS " in line for line in lines) == missed
    total = sum(len(subjects) for one in results if one.building.sound for subjects in one.alarms.values())
    assert any(re.search(rf"buildings, {total} engineer findings", line) for line in lines)


def test_merging() -> None:
    below = {"a": {"b": 1, "c": 2}, "run": [1], "thickness": "1 in", "list": [1, 2]}
    assert merge(below, {"a": {"b": 3}, "list": [3]}) == {**below, "a": {"b": 3, "c": 2}, "list": [3]}
    assert merge(below, {"arc": [2]}) == {"a": {"b": 1, "c": 2}, "arc": [2], "thickness": "1 in", "list": [1, 2]}
    assert "thickness" not in merge(below, {"thickness_base": "2 in"})
    assert merge(below, {"a": None})["a"] is None


def test_buildings_must_say_what_they_show(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.buildings.reading.read_text", lambda mark: {"why": "a reason", "must_find": []})
    with pytest.raises(CorpusError, match="no danger"):
        list(read_building("dangerous/anything"))


def test_the_nearest_change_meets_where_another_rule_then_decides(tmp_path: Path) -> None:
    """Of the gables that are twice as slender, two rules say how thick the wall must be: once one of them holds, the
    other decides. `python -m tests.buildings.mended` tries all buildings."""
    building = next(one for one in read_building("dangerous/gable-of-ten-inches") if one.mark.endswith("@twice"))
    assert list(wrong_changes(building, tmp_path / "building")) == []


def test_a_stub_thicker_than_long_is_judged() -> None:
    """What holds it sideways takes up all of its length, and a bond beam over it spans nothing: no division by zero."""
    (open_front,) = read_building("dangerous/open-front")
    thick = merge(dict(open_front.sections), {"walls": {"S2": {"thickness": "29 in"}}})
    result = check_building(replace(open_front, sections=thick))
    assert (result.crash, result.problems) == ("", {})
    assert ("structural-screening/bond-beam-moment", "S2") not in {
        (one.rule, one.subject) for one in result.findings if one.outcome == "meets"
    }
