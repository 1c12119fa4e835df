"""Rule sets that go together: all of them ship, what binds stands first, and `start` takes a pack by its name."""

from __future__ import annotations

from typer.testing import CliRunner

from compliance.cli import app
from compliance.findings import BINDING
from compliance.reading.reference_files.packs_reference import read_packs
from compliance.reading.rule_files.rule_library import read_shipped, shipped_rule_sets
from compliance.start.interview.first_questions import script
from compliance.start.interview.interview_question import Answers

ORDER = ("code", "standard", "practice", "guide")


def test_every_pack_is_of_shipped_sets_and_ends_in_the_screening() -> None:
    packs = read_packs()
    assert packs[0].id == "us-cob" and len({one.id for one in packs}) == len(packs)
    for one in packs:
        assert set(one.rule_sets) <= set(shipped_rule_sets()) and len(set(one.rule_sets)) == len(one.rule_sets)
        assert one.rule_sets[-2:] == ["engineers-list", "structural-screening"], one.id
        assert "earth-evidence" in one.rule_sets


def test_what_binds_stands_first() -> None:
    for one in read_packs():
        binds = [read_shipped(name).status in BINDING for name in one.rule_sets]
        assert binds == sorted(binds, reverse=True), one.id


def test_the_command_lists_them() -> None:
    printed = CliRunner().invoke(app, ["rules", "packs"])
    assert printed.exit_code == 0
    text = " ".join(printed.stdout.split())
    assert all(f"{one.id}: " in text and f"rule_sets: [{', '.join(one.rule_sets)}]" in text for one in read_packs())


def test_start_takes_a_pack_by_its_name() -> None:
    answers = Answers({"name": "House", "begin": "building", "place": "Hill County"})
    asked = next(one for one in script(answers) if one.key == "rule_sets")
    assert asked.read("US-Cob ") == ", ".join(read_packs()[0].rule_sets)
    assert asked.read("cob-practice") == "cob-practice"
    assert ("us-adobe", "adobe, United States") in asked.choices and "cob-practice: Cob by common" in asked.help
