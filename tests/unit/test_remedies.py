"""Remedies really meet, one step less does not; what a change touches is judged as the whole building is."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st
from pydantic import BaseModel

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.editing.assignments import edit_of, read_assignments
from compliance.facts.derive import derive
from compliance.facts.geometry.subjects import Facts, Subject
from compliance.findings import Finding, Outcome
from compliance.output.terminal.remedy_text import remedy_lines
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.remedies import ChangeTester, Remedy, free_ranges, remedies, tester_for
from compliance.remedies.answers_in_force import deciding
from compliance.remedies.buttressing import _clear
from compliance.remedies.choosing import BEHIND_FACTS, options_for
from compliance.remedies.comparing import compared
from compliance.remedies.difference import badness
from compliance.remedies.edited_project import edits, kind_at, with_value
from compliance.remedies.plan_changes import PLAN_OPTIONS
from compliance.remedies.step_sizes import step_of, stepped
from compliance.report.words.remedy_words import change_words
from compliance.units import Writer, measure
from tests.conftest import EXAMPLE
from tests.tries import tries
from tests.unit.buildings_at_random import write_building

FAILING = (Outcome.REVISE, Outcome.ENGINEER)
SOME = settings(max_examples=tries(8), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
SEEDS = st.integers(0, 10_000)


def failing(checked: Checked) -> list[Finding]:
    return [one for one in checked.findings if one.outcome in FAILING]


def arguments(tester: ChangeTester, remedy: Remedy) -> list[str]:
    """The change as a person would try it."""
    changed = edits(tester.checked.project, remedy.project)
    return [f"{'.'.join(map(str, path))}={text}" for path, text in changed]


def fewer_steps(tester: ChangeTester, finding: Finding, remedy: Remedy) -> list[Outcome | None]:
    """What the finding is with every smaller number of steps of the same change, in the whole building."""
    for way in options_for(tester, finding):
        for direction in way.directions:
            last = stepped(way.now, way.step, direction * remedy.steps)
            if not way.least < last <= way.most or (way.change(last),) != remedy.changes:
                continue
            found = []
            for count in range(1, remedy.steps):
                value = stepped(way.now, way.step, direction * count)
                project = way.apply(tester.checked.project, value) if way.least < value <= way.most else None
                sound = project is not None and tester.sound(project)
                judged = tester.judged(tester.context(project), finding) if sound and project is not None else None
                found.append(judged.outcome if judged else None)
            return found
    raise AssertionError(f"no way makes {remedy.changes}")


@SOME
@given(SEEDS, st.sampled_from(["us", "si"]))
@example(67, "us")  # a taper to nothing, by rounding, was tried as a wall
def test_a_remedy_meets_and_one_step_less_does_not(tmp_path: Path, seed: int, units: str) -> None:
    folder = write_building(tmp_path / f"{seed}{units}", seed, units)
    checked = check_folder(folder)
    tester = tester_for(checked)
    for finding in {(one.rule_set, one.rule): one for one in failing(checked)}.values():
        for remedy in remedies(tester, finding):
            then = check_folder(folder, edit_of(read_assignments(arguments(tester, remedy))))
            after = {one.key: one for one in then.findings}
            in_force = deciding(after, finding.key)
            assert in_force is not None and in_force.outcome is Outcome.MEETS, remedy.changes
            if len(remedy.values) == 1:
                assert Outcome.MEETS not in fewer_steps(tester, finding, remedy), remedy.changes
            worse = {one.after.key for one in remedy.makes_worse if one.after}
            now_worse = {one.after.key for one in compared(checked.findings, then.findings) if one.worse and one.after}
            assert worse == now_worse, remedy.changes


@SOME
@given(SEEDS)
def test_the_part_around_a_wall_is_judged_as_the_whole(tmp_path: Path, seed: int) -> None:
    checked = check_folder(write_building(tmp_path / str(seed), seed))
    tester, findings = tester_for(checked), {one.key: one for one in checked.findings}
    for finding in checked.findings:
        in_force = deciding(findings, finding.key)
        if finding.kind not in ("limit", "table") or in_force is None or in_force is not finding:
            continue
        part = tester.around(finding)
        judged = tester.judged(tester.context(part.project, part), finding)
        assert judged is not None
        assert (judged.outcome, judged.margin) == (in_force.outcome, in_force.margin), finding.key


def facts_of(facts: Facts) -> dict[str, object]:
    """Every fact given with a subject, by the subject and what it looks to."""
    return {
        f"{one.about} {one.mark}": (
            one.facts,
            {about: held.facts if isinstance(held, Subject) else held for about, held in one.parents.items()},
        )
        for one in facts
    }


@SOME
@given(SEEDS, st.integers(0, 3), st.data())
def test_facts_kept_from_before_are_those_that_would_be_made_anew(
    tmp_path: Path, seed: int, cross_walls: int, data: st.DataObject
) -> None:
    checked = check_folder(write_building(tmp_path / f"{seed}-{cross_walls}", seed, cross_walls=cross_walls))
    tester = tester_for(checked)
    for finding in {(one.about, one.rule): one for one in failing(checked)}.values():
        ways = options_for(tester, finding)
        if not ways:
            continue
        way = data.draw(st.sampled_from(ways))
        value = stepped(way.now, way.step, data.draw(st.sampled_from(way.directions)) * data.draw(st.integers(1, 9)))
        project = way.apply(checked.project, value) if way.least + 1e-9 < value <= way.most else None
        if project is None or not tester.sound(project):
            continue
        kept = tester.context(project).facts
        made = derive(
            project, specimens=checked.specimens, rules=tester.supports, evidence=checked.evidence, tables=lambda: 1 / 0
        )  # type: ignore[arg-type, return-value]
        assert facts_of(kept) == facts_of(made), way.change(value)
        assert kept.views == made.views


@SOME
@given(SEEDS)
def test_nothing_of_the_wall_is_worse_within_its_free_range(tmp_path: Path, seed: int) -> None:
    checked = check_folder(write_building(tmp_path / str(seed), seed))
    tester = tester_for(checked)
    for free in free_ranges(tester, "W1"):
        assert free.least <= free.now * (1 + 1e-9) and free.most >= free.now * (1 - 1e-9)
        if free.what != "height":
            continue
        for value, stops in ((free.least, ()), (free.most, ()), (free.most + 0.0254, free.stops_above)):
            text = Writer("us").write(value, "length")
            project = with_value(checked.project, ("walls", "W1", "height"), measure(text, "length"))
            if not tester.sound(project):
                continue
            touched = tester.differences(tester.context(project))
            worse = {one.after.key for one in touched if one.worse and one.wall == "W1" and one.after}
            assert worse >= {one.after.key for one in stops if one.after}
            assert stops or not worse


def test_the_example_has_a_remedy_for_its_shape_and_none_for_its_mix() -> None:
    checked = check_folder(EXAMPLE)
    tester = tester_for(checked)
    rules = ("wall-height-to-thickness", "narrow-pier", "mix-as-tried", "free-ends")
    last = {one.rule: one for one in failing(checked)}
    by_rule = {rule: remedies(tester, last[rule]) for rule in rules}
    thicker, lower = by_rule["wall-height-to-thickness"]
    assert change_words(thicker.changes, tester.writer) == "make the thickness of W6 20 in (now 14 in)"
    assert thicker.volume_change > 0 > lower.volume_change
    assert by_rule["narrow-pier"][0].makes_worse == ()
    assert [one.rule for one in (d.after for d in by_rule["narrow-pier"][-1].makes_worse) if one]
    assert by_rule["mix-as-tried"] == ()
    assert len(by_rule["free-ends"][0].project.buttresses) == 2


def test_what_already_meets_or_rests_on_a_person_has_no_remedy() -> None:
    checked = check_folder(EXAMPLE)
    tester = tester_for(checked)
    assert not any(remedies(tester, one) for one in checked.findings if one.outcome not in FAILING)
    assert not any(options_for(tester, one) for one in checked.findings if one.kind not in ("limit", "table"))


def test_a_check_of_two_comparisons_is_met_by_two_changes(tmp_path: Path) -> None:
    folder = write_building(tmp_path / "two", 3)
    text = (folder / "project.yaml").read_text(encoding="utf-8")
    text = text.replace("rule_sets: [cob-practice, cob-irc-2021-au]", "rule_sets: [rules.yaml]")
    (folder / "project.yaml").write_text(text, encoding="utf-8")
    (folder / "rules.yaml").write_text(
        'rule_set: two\ntitle: T\nedition: "1"\njurisdiction: x\nmaterial: cob\nforms: [any]\nstatus: practice\n'
        "scope: x\nsource: x\nverify: x\nrules:\n  - {id: both, title: Both, clause: A, about: beam, say: Wide.,\n"
        "     check: beam.width >= wide and beam.depth >= deep, limits: {wide: {value: 16 in, standing: recalled},\n"
        "     deep: {value: 10 in, standing: recalled}}}\n", encoding="utf-8",
    )  # fmt: skip
    checked = check_folder(folder)
    tester = tester_for(checked)
    (finding,) = failing(checked)
    (remedy,) = remedies(tester, finding)
    new = {given.symbol: given.value for given in remedy.values}
    assert new == {"beams.B1.width": pytest.approx(16 * 0.0254), "beams.B1.depth": pytest.approx(10 * 0.0254)}


@pytest.mark.parametrize(
    ("text", "kind", "units", "step"),
    [
        ("1 in", "thickness", "us", 0.0254), ("1 in", "thickness", "si", 0.025), ("2 cm", "thickness", "si", 0.02),
        ("2 cm", "thickness", "us", 0.0254), ("50 mm", "length", "us", 0.0508), (None, "length", "us", 0.0254),
        (None, "length", "si", 0.02), ("1 ft", "length", "si", 0.3), ("5 %", "share", "us", 0.05), ("1", "", "us", 1.0),
        ("0.01", "", "us", 0.01), (None, "", "us", 1.0), ("1-1/2 in", "thickness", "us", 0.0381),
    ],
)  # fmt: skip
def test_steps_are_round_in_the_units_of_the_project(text: str | None, kind: str, units: str, step: float) -> None:
    assert step_of(text, kind, Writer(units)) == pytest.approx(step)  # type: ignore[arg-type]


@given(st.floats(0.01, 50), st.sampled_from([0.0254, 0.02, 0.05, 0.3048]), st.integers(-20, 20).filter(bool))
def test_steps_lie_on_the_grid_and_move_at_all(now: float, step: float, count: int) -> None:
    value = stepped(now, step, count)
    assert math.isclose(value / step, round(value / step), abs_tol=1e-6)
    assert (value > now) == (count > 0) and abs(abs(value - now) - abs(count) * step) <= step * (1 + 1e-6)


def known_field(change: str) -> bool:
    """Whether the model has the field that a rule says to change."""
    from compliance.model.project import Project
    from compliance.reading.validation import fields_at

    section = {"project": ("project",), "opening": ("walls", "W", "openings", "N")}
    about, *path = change.split(".")
    above = section.get(about, ({"mix": "mixes"}.get(about, f"{about}s"), "X"))
    return path[-1] in fields_at(Project, (*above, *path[:-1]))


@pytest.mark.parametrize("name", shipped_rule_sets())
def test_what_shipped_rules_say_to_change_can_be_changed(name: str) -> None:
    for rule in read_shipped(name).rules:
        if rule.remedy and rule.remedy.change:
            assert rule.remedy.change in PLAN_OPTIONS or known_field(rule.remedy.change), (name, rule.id)


def test_the_changes_behind_facts_are_fields() -> None:
    for changes in BEHIND_FACTS.values():
        assert all(change in PLAN_OPTIONS or known_field(change) for change in changes)


def test_kinds_of_fields() -> None:
    assert kind_at(("walls", "W1", "thickness")) == "thickness"
    assert kind_at(("walls", "W1", "openings", "N1", "lintel", "bearing")) == "length"
    assert kind_at(("footings", "F1", "bar_count")) == ""


def test_editing_leaves_the_rest_as_it_was() -> None:
    project = check_folder(EXAMPLE).project
    changed = with_value(project, ("walls", "W6", "height"), measure("9 ft", "length"))
    assert edits(project, changed) == [(("walls", "W6", "height"), "9 ft")]
    assert isinstance(changed, BaseModel) and changed.walls["W1"] is project.walls["W1"]
    assert project.walls["W6"].height is not None and project.walls["W6"].height.text == "11 ft 6 in"


def test_no_buttress_is_built_where_another_stands() -> None:
    """Beside one, at the nearest place with room for it; in its place no change is possible."""
    tester = tester_for(check_folder(EXAMPLE))
    project = tester.checked.project
    (finding,) = (one for one in failing(tester.checked) if (one.rule, one.subject) == ("long-without-support", "W6"))
    built = next(one.project for one in remedies(tester, finding) if one.project.buttresses)
    one = next(iter(built.buttresses.values()))
    twice = with_value(project, ("buttresses",), {**built.buttresses, "Z1": one})
    assert tester.sound(built) and not tester.sound(twice)
    assert _clear([(4.0, 5.0)], place=4.4, width=0.5, length=9.0) == pytest.approx(3.75)
    assert _clear([(4.0, 5.0), (3.0, 3.6)], place=4.4, width=0.5, length=9.0) == pytest.approx(5.25)
    assert _clear([(0.0, 9.0)], place=4.4, width=0.5, length=9.0) is None


def test_badness_orders_outcomes() -> None:
    findings = {one.outcome: one for one in check_folder(EXAMPLE).findings}
    order = [
        Outcome.NOT_APPLICABLE, Outcome.MEETS, Outcome.LATER, Outcome.CONFIRM, Outcome.MISSING, Outcome.REVISE,
        Outcome.ENGINEER,
    ]  # fmt: skip
    assert [badness(findings[one]) for one in order] == [0, 0, 1, 2, 3, 4, 5]
    assert badness(None) == 0


def test_a_change_that_makes_something_worse_is_left_out_and_named() -> None:
    """A buttress into W6 would hold it but tip over; only what makes nothing worse can be tried."""
    checked = check_folder(EXAMPLE)
    tester = tester_for(checked)
    (finding,) = (one for one in failing(checked) if (one.rule, one.subject) == ("long-without-support", "W6"))
    found = remedies(tester, finding)
    costly = [one for one in found if one.makes_worse]
    assert costly and len(costly) < len(found)
    lines = remedy_lines(tester, finding=finding, found=found, folder="example", width=10_000)
    tried = [line for line in lines if "earthwall try" in line]
    assert tried and not any("buttresses" in line for line in tried)
    (left_out,) = (line for line in lines if "left out" in line)
    assert "build a buttress into W6" in left_out and left_out.endswith("it makes worse: W6 support-overturning")
    alone = remedy_lines(tester, finding=finding, found=costly, folder="example", width=10_000)
    assert any("no change was found that makes no other finding worse" in line for line in alone)
