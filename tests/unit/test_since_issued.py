"""What was issued beside the project as it stands: relabeled sets, answers to what changed, contradicting days."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from compliance.checking import check_folder
from compliance.editing.issuing import keep, plan_issue
from compliance.facts.evidence.described_things import described_things
from compliance.findings import Outcome
from compliance.judging.reasons import Contradicted, Overdue
from compliance.model.issued import IssuedHead
from compliance.reading.issued_heads import read_issued_heads
from compliance.reading.issued_records import read_issued
from compliance.report.revisions.findings_data import as_record
from compliance.report.revisions.revision_changes import Changes, changes
from compliance.report.revisions.revision_words import of_mix, revision_text
from tests.conftest import EXAMPLE
from tests.hostile.tricks.project import lay_out
from tests.sentences import sentence

ANSWER = {"rule": "made-well", "about": "T1", "answer": "yes", "by": "Ann", "on": "2026-05-21", "evidence": ["paper"]}
OF_WALL = ANSWER | {"rule": "pictured", "about": "W1", "on": "2026-07-20", "evidence": ["picture"]}
NEXT = {"project": {"revision": "B", "date": "2026-10-01"}}


@pytest.fixture(scope="module")
def issued(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The record of revision A, in which the set T1 fails."""
    folder = lay_out(tmp_path_factory.mktemp("issued") / "p", {})
    keep(plan_issue(folder, check_folder(folder)))
    return folder / "issued" / "A.json"


def later(tmp_path: Path, issued: Path, **trick: Any) -> Path:
    """The project as changed, with the record of revision A in it."""
    project = dict(trick.pop("project", {}))
    project["project"] = NEXT["project"] | project.get("project", {})
    folder = lay_out(tmp_path / "p", trick | {"project": project})
    (folder / "issued").mkdir()
    (folder / "issued" / "A.json").write_bytes(issued.read_bytes())
    return folder


def since(folder: Path) -> Changes:
    return changes(read_issued(folder)[0], as_record(check_folder(folder)))


RELABELED: list[tuple[str, dict[str, Any], str, str]] = [
    ("of another mix", {"rows": {"all": {"mix": "M9"}}, "project": {"test_sets": {"T1": {"mix": "M9"}}}},
     "Set T1 was of mix M1 and is of mix M9; in that revision set T1 did not meet", "M9"),
    ("a row moved", {"rows": {"T1-4": {"set": "T9", "mix": "M9"}},
     "project": {"test_sets": {"T9": {"kind": "compression", "mix": "M9"}}}},
     "Set T1 of mix M1: T1-4 (50 psi) moved to set T9 of mix M9; in that", "M1"),
    ("a row left out", {"drop": ["T1-4"]}, "Set T1 of mix M1: T1-4 (50 psi) no longer in the project; in", "M1"),
    ("the whole set left out", {"drop": [f"T1-{number}" for number in range(1, 7)],
     "project": {"test_sets": {"T1": None}}}, "Set T1 of mix M1 is no longer in the project: T1-1 (75.6 psi), ", "M1"),
    ("a label", {"rows": {"T1-4": {"dried": "oven"}}}, "T1-4 (50 psi): dried was air and is oven", "M1"),
    ("set aside", {"rows": {"T1-4": {"dried": "oven"}}}, "T1-4 (50 psi) now set aside: ", "M1"),
    ("a result", {"rows": {"T1-4": {"peak_load": "1200"}}}, "the result of T1-4 (50 psi) is 75 psi", "M1"),
    ("a blank result", {"rows": {"T1-4": {"peak_load": ""}}}, "the result of T1-4 (50 psi) is gone", "M1"),
    ("a wall", {"project": {"walls": {"W1": {"mix": "M9"}}}}, "Wall W1 was of mix M1 and is of mix M9; in that", "M9"),
]  # fmt: skip


@pytest.mark.parametrize(("trick", "says", "mix"), [row[1:] for row in RELABELED], ids=[row[0] for row in RELABELED])
def test_what_is_relabeled_is_printed(tmp_path: Path, issued: Path, trick: dict[str, Any], says: str, mix: str) -> None:
    found = since(later(tmp_path, issued, **trick))
    assert not found.nothing
    assert says in " ".join(revision_text(found, 100).split())
    assert any(says in one for one in of_mix(found, mix))


def test_what_is_the_same_in_other_units_is_no_change(tmp_path: Path, issued: Path) -> None:
    si = {"project": {"units": "si"}, "walls": {"W1": {"height": "2438.4 mm"}}}
    folder = later(tmp_path, issued, project=si)
    found = since(folder)
    assert found.sets == () and found.wall_mixes == ()
    assert check_folder(folder).changed == {}


def _answered(folder: Path, rule: str) -> tuple[Outcome, str]:
    (found,) = [one for one in check_folder(folder).findings if one.rule == rule and one.subject in ("T1", "W1")]
    return found.outcome, sentence(found)


@pytest.mark.parametrize(
    ("answer", "rule", "changed", "says"),
    [
        (ANSWER, "made-well", {}, ""),
        (ANSWER, "made-well", {"rows": {"T1-4": {"peak_load": "1200"}}}, "the result of T1-4 (50 psi) is 75 psi"),
        (ANSWER | {"on": "2026-09-20"}, "made-well", {"rows": {"T1-4": {"peak_load": "1200"}}}, ""),
        (OF_WALL, "pictured", {}, ""),
        (OF_WALL, "pictured", {"project": {"walls": {"W1": {"thickness": "20 in"}}}}, 
         "thickness was 16 in and is 20 in"),
        (OF_WALL, "pictured", {"project": {"walls": {"W1": {"note": "Dry.", "placed_from": "2026-06-02"}}}}, ""),
        (OF_WALL, "pictured", {"project": {"walls": {"W1": {"story": 1}}}}, ""),
    ],
)  # fmt: skip
def test_an_answer_is_asked_again_where_its_thing_changed_since(
    tmp_path: Path, issued: Path, answer: dict[str, Any], rule: str, changed: dict[str, Any], says: str
) -> None:
    project = {"attestations": [answer], **changed.get("project", {})}
    outcome, reason = _answered(later(tmp_path, issued, **(changed | {"project": project})), rule)
    assert outcome is (Outcome.MISSING if says else Outcome.MEETS), reason
    assert not says or (says in reason and "has changed since revision A, issued on 2026-09-14" in reason)


def test_an_answer_for_all_does_not_hold_for_a_wall_that_came_later(tmp_path: Path, issued: Path) -> None:
    wall = {"run": {"from": ["0 ft", "20 ft"], "to": ["20 ft", "20 ft"]}, "height": "8 ft", "thickness": "16 in",
            "mix": "M1"}  # fmt: skip
    general = {key: value for key, value in OF_WALL.items() if key != "about"}
    folder = later(tmp_path, issued, project={"walls": {"W2": wall}, "attestations": [general]})
    found = {one.subject: one for one in check_folder(folder).findings if one.rule == "pictured"}
    assert found["W1"].outcome is Outcome.MEETS and found["W2"].outcome is Outcome.MISSING
    assert "W2 is not in revision A, issued on 2026-09-14" in sentence(found["W2"])


@pytest.mark.parametrize(
    ("project", "says"),
    [
        ({"project": {"date": "2026-09-01"}}, "revision B is dated 2026-09-01, before revision A, which was issued on"),
        ({"project": {"revision": "A"}}, "revision A is dated 2026-10-01, and was issued on 2026-09-14"),
        ({"comments": [{"comment": "Thin.", "on": "2026-08-01"}]}, 
         "commented on 2026-08-01, before the first revision A"),
        ({"comments": [{"comment": "Thin.", "on": "2026-09-20"}]}, ""),
    ],
)  # fmt: skip
def test_days_beside_those_of_what_was_issued(tmp_path: Path, issued: Path, project: dict[str, Any], says: str) -> None:
    warnings = [
        one for one in check_folder(later(tmp_path, issued, project=project)).warnings if one.code == "issued-day"
    ]
    assert [says in one.wrong for one in warnings] == ([True] if says else [])


def test_a_limit_amended_after_the_project_is_named(tmp_path: Path) -> None:
    text = """\
        changes:
          - {rule_set: cob-irc-2021-au, rule: compressive-strength, limit: minimum, value: 60 psi, standing: confirmed,
             by: Ann, on: 2027-03-01, where: adopted copy}
        """
    trick = {
        "project": {"amendments": ["a.yaml"]},
        "files": {"a.yaml": "\n".join(line[8:] for line in text.splitlines())},
    }
    warnings = check_folder(lay_out(tmp_path / "p", trick)).warnings
    assert [one.code for one in warnings if "amended on 2027-03-01" in one.wrong] == ["day-after-project"]


@pytest.mark.parametrize(
    ("old", "new"),
    [('"mix": "M1"', '"mix": "M9"'), ('"date": "2026-09-14"', '"date": "2026-13-45"'), ('{\n"issue"', '[\n"issue"'),
     ('"result": {"text": "50 psi"', '"result": {"text": "75 psi"'), ('"issue": 1', '"issue": 1e999')],
)  # fmt: skip
def test_a_record_changed_by_hand_is_named_and_not_used(tmp_path: Path, issued: Path, old: str, new: str) -> None:
    folder = later(tmp_path, issued)
    path = folder / "issued" / "A.json"
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")
    heads, warnings = read_issued_heads(folder)
    assert heads == () and [one.code for one in warnings] == ["issued-record"]
    assert [one.code for one in check_folder(folder).warnings if one.code.startswith("issued")] == ["issued-record"]


def test_the_head_says_what_the_whole_record_says(issued: Path) -> None:
    (head,), _ = read_issued_heads(issued.parent.parent)
    whole = json.loads(issued.read_text("utf-8"))
    assert head == IssuedHead.model_validate({name: whole[name] for name in IssuedHead.model_fields})
    assert read_issued(issued.parent.parent)[0].described == head.described
    assert head.described is not None
    assert head.described.things == described_things(check_folder(issued.parent.parent).project)


def test_the_example_does_not_contradict_itself() -> None:
    """No answer or hold point speaks against a day or its evidence, and the rods that are attested are described."""
    checked = check_folder(EXAMPLE)
    assert [one.subject for one in checked.findings if isinstance(one.reason, (Contradicted, Overdue))] == []
    assert [one.code for one in checked.warnings if "issued" in one.code or "day" in one.code] == []
    assert all(one.reinforced for one in checked.project.walls.values() if one.type)
