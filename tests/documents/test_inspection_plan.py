"""The inspection and test plan: order, what is on record, lines to sign, numbers and days of specimens."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.documents.earth.specimen_plan import required_of_mixes, sets_by_volume, volume_for_a_set
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import running_text, title
from compliance.documents.inspection.specimens_to_cast import specimens_to_cast
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.reading.rule_files.rule_library import read_shipped
from compliance.report.by_rule import by_rule
from compliance.report.inspection_points import site_points
from compliance.rules.required_specimens import NOTHING_REQUIRED, required_specimens
from compliance.rules.schema import STAGES
from tests.conftest import EXAMPLE, Write
from tests.documents.reading_back import Read, read_back
from tests.documents.sites import HEAD, RULES, WALLS, site

PASSED = """
inspections:
  - {rule: see-first-lift, about: W1, passed: yes, by: O. Ficial, on: 2026-06-02}
  - {rule: see-finish, about: W2, passed: no, by: O. Ficial, on: 2026-08-02, note: crack at the door}
"""


def printed(checked: object, folder: Path) -> Read:
    above = running_text(title("tests", "Tests", ""))
    story = [above, *specimens_to_cast(checked, by_rule(checked))]  # type: ignore[arg-type]
    path = folder / "plan.pdf"
    Book(head_of(checked, "plan"), theme.PAPERS["letter"], covered=False).write(story, path)  # type: ignore[arg-type]
    return read_back(path)


def test_points_stand_in_the_order_of_the_work(project: Write) -> None:
    points = site_points(by_rule(site(project)))
    assert [point.group.rule for point in points] == ["see-first-lift", "see-finish"]
    example = site_points(by_rule(check_folder(EXAMPLE)))
    stages = [STAGES.index(point.inspect.stage) for point in example]
    assert stages == sorted(stages) and len(set(stages)) >= 6


def test_a_subject_to_which_the_point_does_not_apply_is_not_asked_for(project: Write) -> None:
    first, finish = site_points(by_rule(site(project)))
    assert [one.subject for one in first.to_look_at] == ["W1"]
    assert [one.subject for one in finish.to_look_at] == ["W1", "W2"]


def test_where_it_is_not_known_whether_a_point_applies_somebody_looks(project: Write) -> None:
    walls = WALLS.replace("bears_load: no,", "")
    first, _ = site_points(by_rule(site(project, walls=walls)))
    assert [one.subject for one in first.unsure] == ["W2"]
    assert [one.subject for one in first.to_look_at] == ["W1", "W2"]


def test_what_was_passed_is_recorded_and_what_was_not_waits_again(project: Write) -> None:
    made = site(project, PASSED, head=HEAD.replace("2026-05-01", "2026-09-01"))
    first, finish = site_points(by_rule(made))
    assert [one.subject for one in first.passed] == ["W1"] and first.to_look_at == ()
    assert [one.subject for one in finish.to_look_at] == ["W1", "W2"]
    assert [one.subject for one in finish.recorded] == ["W2"]


def test_days_follow_from_the_day_of_placing_and_the_age(project: Write, tmp_path: Path) -> None:
    made = site(project)
    (asked,) = required_of_mixes(made, by_rule(made))
    assert (asked.required.count, asked.required.shapes, asked.required.dried) == (5, ("cube",), ("air",))
    assert asked.required.least_age == 28 * 86400
    # 28 days before the first of June and 28 days after it, counted on a calendar.
    assert (asked.before, asked.cast_by) == (date(2026, 6, 1), date(2026, 5, 4))
    read = printed(made, tmp_path)
    assert "at least 5; cube; dried: air; 28 days old or more" in read.text
    assert "cast by 2026-05-04" in read.text and "2026-06-29" in read.text


def test_no_day_is_made_up(project: Write, tmp_path: Path) -> None:
    made = site(project, walls=WALLS.replace(", placed_from: 2026-06-01", ""))
    (asked,) = required_of_mixes(made, by_rule(made))
    assert (asked.before, asked.cast_by) == (None, None)
    assert "no day stated" in printed(made, tmp_path).text
    rules = RULES.replace("{value: 28 days, standing: read, source: trial}", "{value: open, kind: age, standing: open}")
    made = site(project, rules=rules)
    (asked,) = required_of_mixes(made, by_rule(made))
    assert asked.required.opened == ("age",) and asked.cast_by is None
    assert "age open" in printed(made, tmp_path).text


def test_sets_by_volume_worked_by_hand(project: Write) -> None:
    """W1 alone is structural: 20 ft × 8 ft × 16 in = 213.33 ft³ = 6.041 m³. One set for 3 m³: three sets, at 0, 3 and
    6 m³. Lifts of 14 in make 96 / 14 = 6.9, so 7; at 3 m³ of 6.041 that is lift 0.4966 × 7 = 3.48, the fourth; at
    6 m³ 0.9932 × 7 = 6.95, the seventh."""
    made = site(project)
    found = volume_for_a_set(by_rule(made))
    assert found is not None and found[1] == pytest.approx(3.0)
    plan = sets_by_volume(made, 3.0, 28 * 86400.0)
    assert [(one.index, one.count, one.placed, one.lift) for one in plan] == [
        (1, 3, 0.0, (1, 7)), (2, 3, 3.0, (4, 7)), (3, 3, 6.0, (7, 7)),
    ]  # fmt: skip
    assert [one.day for one in plan] == [date(2026, 6, 1), None, None]
    assert [one.due for one in plan] == [date(2026, 6, 29), None, None]
    assert {one.walls for one in plan} == {("W1",)}


def test_a_volume_exactly_filled_takes_no_further_set(project: Write) -> None:
    made = site(project)
    volume = made.facts.of("wall")["W1"].facts["wall.volume"].value
    assert isinstance(volume, float)
    assert len(sets_by_volume(made, volume / 2, None)) == 2
    assert len(sets_by_volume(made, volume * 0.999, None)) == 2
    assert len(sets_by_volume(made, volume, None)) == 1


def test_walls_of_a_later_day_come_later(project: Write) -> None:
    later = WALLS.replace("bears_load: no,\n       use: garden", "bears_load: yes").replace(
        "braces: no, lift_height: 14 in}", "braces: no, placed_from: 2026-07-01}"
    )
    plan = sets_by_volume(site(project, walls=later), 6.04, None)
    assert [one.walls for one in plan] == [("W1",), ("W1",), ("W2",)]
    assert plan[-1].walls == ("W2",) and plan[-1].lift is None


def test_an_open_volume_is_said_to_be_open(project: Write, tmp_path: Path) -> None:
    rules = RULES.replace(
        "each: {value: 3 m3, standing: read, source: trial}", "each: {value: open, kind: volume, standing: open}"
    )
    read = printed(site(project, rules=rules), tmp_path)
    assert "How much wall one set may stand for is open" in read.text


def test_what_shipped_rules_ask_of_specimens() -> None:
    """As the rule sets state it: AU106.6.1 of the cob appendix of 2021; the adobe section of the IBC 2021."""
    rules = {rule.id: rule for rule in read_shipped("cob-irc-2021-au").rules}
    asked = required_specimens(rules["compressive-strength"])
    assert (asked.count, asked.shapes, asked.dried, asked.least_age) == (5, ("cube", "prism"), ("air",), None)
    assert required_specimens(rules["wall-thickness-least"]) == NOTHING_REQUIRED
    adobe = [required_specimens(rule) for rule in read_shipped("ibc-2021-2109-adobe").rules if rule.test]
    assert any(one.count for one in adobe)


def test_an_open_number_of_specimens_is_open() -> None:
    rule = next(rule for rule in read_shipped("cob-irc-2021-au").rules if rule.id == "compressive-strength")
    limits = dict(rule.limits)
    limits["drying"] = replace(limits["drying"], value=None)
    assert required_specimens(replace(rule, limits=limits)).opened == ("drying",)
