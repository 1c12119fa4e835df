"""The first screen of a check: short, nothing lost, nothing twice, and nothing bad told under something milder."""

from __future__ import annotations

import json
import subprocess
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.commands.common.first_screen import first_screen
from compliance.findings import Accepted, Outcome
from compliance.judging.questions import side_by_side
from compliance.judging.reasons import GivesWay
from compliance.reading.yaml.strict_yaml import parse_yaml
from compliance.record import replace
from compliance.remedies import NearestChanges, remedies, tester_for
from compliance.report.answer.answer import Answer, answer, cause_of_each
from compliance.report.answer.folding import STOPS, folded
from compliance.report.revisions.findings_data import as_data
from compliance.report.words.answer_words import answer_sentence, item_words
from compliance.stages import Stage
from compliance.start.interview.trial_reading import new_project, write_files
from compliance.start.interview.unattended import answers_of
from compliance.units import Writer
from tests.conftest import EXAMPLE, HEAD, RULE_SET, WALLS, Write
from tests.kept_texts import assert_kept
from tests.unit.test_cli import run

TEN = """\
name: Clay Cottage
place: Quillmoor County
rule_sets: [cob-irc-2021-au, cob-practice]
length: 24 ft
width: 16 ft
height: 8 ft
thickness: 12 in
mix: 1 clay soil, 2 sand, 0.6 wheat straw
roof: framed 15 ft
"""
DAY = date(2026, 5, 14)


@pytest.fixture
def cottage(tmp_path: Path) -> Path:
    """What the README's ten questions make."""
    folder = tmp_path / "cottage"
    folder.mkdir()
    write_files(folder, answers_of(parse_yaml(TEN, "answers.yaml"), new_project(DAY)), DAY)
    return folder


@cache
def example() -> Checked:
    return check_folder(EXAMPLE)


@cache
def answered() -> Answer:
    return answer(example())


@pytest.mark.kept_text
def test_the_cottage_after_ten_questions_fits_on_forty_lines(cottage: Path) -> None:
    text = first_screen(check_folder(cottage), 100)
    assert len(text.splitlines()) <= 40 and max(map(len, text.splitlines())) <= 100
    assert_kept("check_cottage", text)


@pytest.mark.kept_text
def test_the_example_fits_on_sixty_lines() -> None:
    text = first_screen(example(), 100)
    assert len(text.splitlines()) <= 60 and max(map(len, text.splitlines())) <= 100
    assert_kept("check_example", text)


@pytest.mark.parametrize("width", [40, 60, 80, 200])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    assert max(map(len, first_screen(example(), width).splitlines())) <= max(width, 60)


def test_no_line_of_the_cottage_stands_twice(cottage: Path) -> None:
    lines = [line.strip() for line in first_screen(check_folder(cottage), 100).splitlines() if line.strip()]
    assert len(lines) == len(set(lines))


def told(found: Answer) -> set[tuple[str, str, str, str]]:
    """The keys of all findings that some line of the screen stands for."""
    lines = [one.findings for one in (*found.stops, *found.accepted, *found.to_write, *found.to_read)]
    return {one.key for findings in lines for one in findings} | set(found.under)


def test_every_finding_that_is_open_stands_behind_a_line_and_no_other() -> None:
    """Told, folded under one that is told, or counted as later."""
    shown = told(answered())
    opened = {one.key for one in example().findings
              if one.outcome in (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING, Outcome.CONFIRM)}  # fmt: skip
    later = {one.key for one in example().findings if one.outcome is Outcome.LATER}
    assert opened <= shown <= opened | later
    assert sum(answered().later.values()) == len(later)


def test_nothing_is_folded_under_a_milder_one_or_out_of_sight() -> None:
    by_key = {one.key: one for one in example().findings}
    assert answered().under
    for key, root in answered().under.items():
        assert root.outcome.rank <= by_key[key].outcome.rank and root.key not in answered().under
        assert root.key in by_key


def test_demand_over_capacity_is_told_under_the_axial_check_it_follows_from() -> None:
    key = ("engineers-list", "demand-over-capacity", "wall", "W3")
    root = answered().under[key]
    assert (root.rule, root.subject) == ("axial-buckling-form", "W3")
    assert cause_of_each(answered())[key] == "structural-screening/axial-buckling-form"


def test_sets_that_answer_one_question_are_one_cause() -> None:
    """The pier of one foot: for an engineer by a guide, which makes what practice says a remark."""
    (practice,) = (one for one in example().findings if (one.rule, one.subject) == ("pier-width", "W3.P3"))
    assert (practice.outcome, practice.remark) == (Outcome.NOT_APPLICABLE, Outcome.REVISE)
    assert isinstance(practice.reason, GivesWay) and practice.reason.rule == "narrow-pier"
    (guide,) = (one for one in example().findings if (one.rule, one.subject) == ("narrow-pier", "W3.P3"))
    assert guide.outcome is Outcome.ENGINEER


TWO = RULE_SET + "".join(
    f"""\
  - id: {name}
    title: Thickness
    clause: T1
    about: wall
    limits: {{least: {{value: {value}, standing: read, source: trial}}}}
    check: wall.least_thickness >= least
    otherwise: {otherwise}
    say: Thick enough.
    {more}
"""
    for name, value, otherwise, more in (
        ("thin", "20 in", "revise", "note: by itself"),
        ("follows-it", "24 in", "engineer", "follows: [trial/thin]"),
        ("milder", "18 in", "revise", "follows: [trial/follows-it]"),
    )
)


def test_what_follows_is_never_told_under_what_is_milder(project: Write) -> None:
    checked = check_folder(project(rules=TWO))
    under = {key[1]: root.rule for key, root in folded(checked).items()}
    assert under == {"milder": "follows-it"}
    assert [one.key for one in answer(checked).stops] == ["trial/follows-it", "trial/thin"]


def with_accepted(checked: Checked, rule: str) -> Checked:
    """The findings of a rule accepted by an official."""
    accepted = Accepted("O. Fficial", on="2026-01-01", document="letter")
    findings = tuple(replace(one, accepted=accepted) if one.rule == rule else one for one in checked.findings)
    return replace(checked, findings=findings, questions=side_by_side(findings))


def test_what_is_not_accepted_is_not_told_under_what_is(project: Write) -> None:
    checked = check_folder(project(rules=TWO))
    accepted = with_accepted(checked, "follows-it")
    assert folded(accepted) == {}
    found = answer(accepted)
    assert {one.key for one in found.stops} == {"trial/thin", "trial/milder"}
    assert [one.key for one in found.accepted] == ["trial/follows-it"]
    assert set(folded(with_accepted(checked, "milder"))) == {("trial", "milder", "wall", "W1")}


def test_the_wall_furthest_outside_speaks_for_its_cause(project: Write) -> None:
    second = WALLS.splitlines()[1].replace("W1", "W2").replace("0 ft]", "30 ft]").replace("16 in", "8 in")
    checked = check_folder(project(text=f"{WALLS}{second}\n", rules=TWO))
    text = first_screen(checked, 120)
    assert "W1, W2: thickness, at worst W2: 8 in < 24 in minimum (read)" in text


def test_the_nearest_change_is_that_of_the_full_search() -> None:
    """Of the same field; where the quick one finds none the screen says what the rule says."""
    tester = tester_for(example())
    nearest, tried = NearestChanges(tester, 1000), 0
    for cause in answered().stops:
        change = nearest.look_for(cause.worst)
        if change is not None and cause.worst.rule != "demand-over-capacity":
            full = [one for remedy in remedies(tester, cause.worst) for one in remedy.changes]
            assert change in full, (cause.key, change, full)
            tried += 1
    assert tried >= 8


def test_no_change_is_looked_for_once_the_trials_are_used_up() -> None:
    assert NearestChanges(tester_for(example()), 0).look_for(answered().stops[1].worst) is None
    meets = next(one for one in example().findings if one.outcome is Outcome.MEETS)
    assert NearestChanges(tester_for(example()), 10).look_for(meets) is None


def lines_to_write(checked: Checked) -> list[str]:
    writer = Writer("us")
    return [item_words(one, writer) for one in answer(checked).to_write]


NEEDS = RULE_SET + "".join(
    f"  - {{id: needs-{n}, title: T, clause: C, about: wall, say: S., check: {check}}}\n"
    for n, check in enumerate(("wall.braces", "wall.bears_load and wall.braces", "wall.retains_soil or wall.braces"))
)
TYPED = """\
wall_types: {outer: {height: 8 ft, thickness: 16 in, mix: M1}}
walls:
  W1: {type: outer, run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}}
  W2: {type: outer, run: {from: [0 ft, 30 ft], to: [20 ft, 30 ft]}}
"""


def test_a_field_that_lacks_is_one_line_at_the_type_of_its_walls_most_needed_first(project: Write) -> None:
    assert lines_to_write(check_folder(project(text=TYPED, rules=NEEDS))) == [
        "write braces: under wall_types.outer in project.yaml (6 checks)",
        "write bears_load, retains_soil: under wall_types.outer in project.yaml (2 checks each)",
    ]


def test_walls_without_a_type_are_named_each(project: Write) -> None:
    plain = TYPED.replace("type: outer,", "height: 8 ft, thickness: 16 in, mix: M1,").partition("\n")[2]
    assert lines_to_write(check_folder(project(text=plain, rules=NEEDS)))[0] == (
        "write braces: under walls.W1, W2 in project.yaml (6 checks)"
    )


def test_a_type_in_a_file_of_its_own_is_written_there(project: Write) -> None:
    types, _, walls = TYPED.partition("\n")
    folder = project(text=f"{walls}include: [types.yaml]\n", rules=NEEDS, files={"types.yaml": f"{types}\n"})
    assert lines_to_write(check_folder(folder))[0] == "write braces: under wall_types.outer in types.yaml (6 checks)"


def test_the_sentence_counts_what_is_told() -> None:
    found = answered()
    sentence = answer_sentence(found, len(example().findings))
    assert sentence == (
        "Not yet: four walls need an engineer, seven things to change, 16 to decide, 12 clauses to ask about."
    )
    assert set(found.walls_for_an_engineer) == {
        one.wall for one in example().findings if one.outcome is Outcome.ENGINEER
    }


@pytest.mark.parametrize(("thickness", "says"), [
    ("16 in", "Yes, as far as stage design asks: everything due there meets."),
    ("9 in", "Not yet: one thing to change."),
])  # fmt: skip
def test_yes_names_the_stage_it_holds_for(project: Write, thickness: str, says: str) -> None:
    head = HEAD.replace("2026-12-30}", "2026-12-30, stage: design}")
    checked = check_folder(project(head=head, text=WALLS.replace("16 in", thickness)))
    assert answer_sentence(answer(checked), len(checked.findings)) == says


def test_where_nothing_was_judged_the_answer_is_not_yes(project: Write) -> None:
    checked = check_folder(project(rules=RULE_SET + "  - {id: r, title: T, clause: C, about: roof, say: S., "
                                   "check: roof.dead <= 10 psf}\n".replace("10 psf", "roof.dead")))  # fmt: skip
    assert answer_sentence(answer(checked), len(checked.findings)).startswith("Nothing was checked")
    apart = RULE_SET + "  - {id: r, title: T, clause: C, about: wall, say: S., when: wall.curved, check: wall.braces}\n"
    checked = check_folder(project(rules=apart))
    assert answer_sentence(answer(checked), len(checked.findings)) == "Not yet: nothing that was checked meets."


def test_json_keeps_every_finding_with_its_stage_cause_and_fold() -> None:
    data = as_data(example())
    assert data["project"]["stage"] == {"judged": "before-placing", "stated": "before-placing", "because": None}
    assert len(data["findings"]) == len(example().findings)
    for one, finding in zip(data["findings"], example().findings, strict=True):
        assert one["stage"] == finding.stage.value
        assert bool(one["cause"]) == (finding.outcome in (*STOPS, Outcome.MISSING, Outcome.CONFIRM)), one
    axial = next(one for one in data["findings"] if one["rule"] == "demand-over-capacity" and one["subject"] == "W3")
    assert axial["folded_under"] == {
        "rule_set": "structural-screening", "rule": "axial-buckling-form", "subject": "W3"
    }  # fmt: skip


def kept(folder: Path) -> str:
    return (folder / "project.yaml").read_text(encoding="utf-8")


def test_the_stage_moves_on_and_all_else_of_the_file_stays(cottage: Path) -> None:
    before = kept(cottage)
    done = run("stage", cottage, "application")
    assert done.returncode == 1 and "> application" in done.stdout
    assert kept(cottage) == before.replace("  stage: design\n", "  stage: application\n")
    assert check_folder(cottage).reached.stage is Stage.APPLICATION
    bare = before.replace("  stage: design\n", "")
    (cottage / "project.yaml").write_text(bare, encoding="utf-8")
    assert "project.stage is not written" in run("stage", cottage).stdout
    assert kept(cottage) == bare
    run("stage", cottage, "earth")
    assert check_folder(cottage).project.project.stage == "earth"
    assert "Stage: design, for walls are described (it says earth)." in run("check", cottage).stdout
    assert kept(cottage).replace("  stage: earth\n", "") == bare


def test_a_stage_that_cannot_be_written_is_refused_and_nothing_is(project: Write) -> None:
    folder = project()  # its project: stands on one line
    before = kept(folder)
    done = run("stage", folder, "design")
    assert done.returncode == 2 and "write stage: design under project: yourself" in done.stderr
    assert kept(folder) == before
    assert run("stage", folder, "later").returncode == 2


def test_check_asks_at_another_stage_and_says_so(cottage: Path) -> None:
    done: subprocess.CompletedProcess[str] = run("check", cottage, "--stage", "completion", "--format", "json")
    assert json.loads(done.stdout)["tally"]["later"] == 0
    last = run("check", cottage, "--stage", "completion").stdout.splitlines()[-1]
    assert last == "Stage: completion. Nothing is put off to a later stage."
    assert "W1: " in run("check", cottage, "--why", "W1").stdout
    assert run("check", cottage, "--why", "W9").returncode == 2
