"""What is kept of an issued submittal, and what is refused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from compliance.checking import check_folder
from compliance.cli import app
from compliance.editing.issuing import IssueError, keep, plan_issue
from compliance.model.issued import IssuedRecord
from compliance.problems import ProblemsFound
from compliance.reading.issued_records import read_issued
from tests.conftest import HEAD, WALLS, Write


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(app, [str(one) for one in arguments])


def revised(project: Write, revision: str = "A", text: str = WALLS) -> Path:
    return project(text=text, head=HEAD.replace("2026-12-30}", f"2026-12-30, revision: {revision}}}"))


def issue(folder: Path, **options: bool) -> str | None:
    """Keeps a record as the submittal does, without making the PDF; gives what it follows."""
    planned = plan_issue(folder, check_folder(folder), **options)
    keep(planned)
    return planned.previous.project.revision if planned.previous else None


def test_the_record_holds_findings_limits_fingerprint_and_date(project: Write) -> None:
    folder = revised(project)
    checked = check_folder(folder)
    assert issue(folder) is None
    data = json.loads((folder / "issued" / "A.json").read_text(encoding="utf-8"))
    assert data["project"]["fingerprint"] == checked.fingerprint
    assert data["project"]["date"] == "2026-12-30"
    assert [one["outcome"] for one in data["findings"]] == ["meets"]
    assert data["limits"][0]["value"] == {"text": "10 in", "number": pytest.approx(10.0), "unit": "in"}
    (record,) = read_issued(folder)
    assert isinstance(record, IssuedRecord) and (record.issue, record.follows) == (1, None)


def test_the_record_is_no_part_of_the_input(project: Write) -> None:
    folder = revised(project)
    before = check_folder(folder).fingerprint
    issue(folder)
    assert check_folder(folder).fingerprint == before


def test_the_same_input_is_left_alone(project: Write) -> None:
    folder = revised(project)
    issue(folder)
    path = folder / "issued" / "A.json"
    path.touch()
    stamp = path.stat().st_mtime_ns
    assert plan_issue(folder, check_folder(folder)).text is None
    issue(folder)
    assert path.stat().st_mtime_ns == stamp


def test_other_input_under_the_same_revision_is_refused_unless_asked_for(project: Write) -> None:
    issue(revised(project))
    folder = revised(project, text=WALLS.replace("16 in", "9 in"))
    kept = (folder / "issued" / "A.json").read_bytes()
    with pytest.raises(IssueError, match=r"revision A was issued on 2026-12-30 with other input"):
        issue(folder)
    assert (folder / "issued" / "A.json").read_bytes() == kept
    issue(folder, reissue=True)
    assert read_issued(folder)[0].findings[0].outcome == "revise"


def test_a_draft_keeps_nothing_and_is_compared_with_what_was_issued_last(project: Write) -> None:
    folder = revised(project)
    assert issue(folder, draft=True) is None
    assert not (folder / "issued").exists()
    issue(folder)
    assert issue(revised(project, text=WALLS.replace("16 in", "9 in")), draft=True) == "A"
    assert issue(revised(project, "B"), draft=True) == "A"
    assert [record.project.revision for record in read_issued(folder)] == ["A"]


def test_each_revision_follows_the_one_before_also_when_made_again(project: Write) -> None:
    assert issue(revised(project, "A")) is None
    assert issue(revised(project, "C")) == "A"
    assert issue(revised(project, "B")) == "C"
    folder = revised(project, "C")
    assert plan_issue(folder, check_folder(folder)).previous is not None
    assert issue(folder) == "A"
    assert [(one.issue, one.project.revision, one.follows) for one in read_issued(folder)] == [
        (1, "A", None), (2, "C", "A"), (3, "B", "C"),
    ]  # fmt: skip


@pytest.mark.parametrize("revision", ["../../up", "a/b", "C:1", "Rév. 2 (draft)", ".hidden", "x" * 300])
def test_a_revision_is_no_path(project: Write, revision: str) -> None:
    folder = revised(project, json.dumps(revision, ensure_ascii=False))
    issue(folder)
    (path,) = (folder / "issued").iterdir()
    assert path.suffix == ".json" and not path.name.startswith(".")
    assert read_issued(folder)[0].project.revision == revision
    issue(folder)


def test_two_revisions_never_share_a_file(project: Write) -> None:
    issue(revised(project, "'a/b'"))
    with pytest.raises(IssueError, match="another revision"):
        issue(revised(project, "a-b"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "no JSON"), ("{", "no JSON"), ("[1]", "no record"), ("{}", "no record"), ('{"issue": NaN}', "no number"),
        ("[" * 100_000, "no JSON"), ("\ufffe", "no JSON"),
    ],
)  # fmt: skip
def test_a_record_that_is_none_is_named_and_nothing_is_written(project: Write, text: str, said: str) -> None:
    folder = revised(project)
    (folder / "issued").mkdir()
    (folder / "issued" / "0.json").write_text(text, encoding="utf-8")
    with pytest.raises(ProblemsFound, match=said) as found:
        issue(folder)
    assert found.value.problems[0].place.file.endswith("issued/0.json")
    assert not (folder / "issued" / "A.json").exists()


def test_two_files_of_one_revision_are_refused(project: Write) -> None:
    folder = revised(project)
    issue(folder)
    path = folder / "issued" / "A.json"
    (folder / "issued" / "copy.json").write_bytes(path.read_bytes())
    with pytest.raises(ProblemsFound, match="two files hold revision A"):
        read_issued(folder)


def test_a_record_that_leads_out_of_the_folder_is_refused(project: Write, tmp_path: Path) -> None:
    folder = revised(project)
    issue(folder)
    outside = tmp_path / "outside.json"
    (folder / "issued" / "A.json").rename(outside)
    (folder / "issued" / "A.json").symlink_to(outside)
    with pytest.raises(ProblemsFound, match="out of the folder"):
        read_issued(folder)


def test_the_commands_keep_refuse_and_compare(project: Write, tmp_path: Path) -> None:
    target = tmp_path / "out.pdf"
    folder = revised(project)
    done = run("submittal", folder, "--output", target)
    assert done.exit_code == 0 and "Kept as issued" in done.output
    folder = revised(project, text=WALLS.replace("16 in", "9 in"))
    before = target.read_bytes()
    done = run("submittal", folder, "--output", target)
    assert done.exit_code == 2 and "nothing was written" in done.output and target.read_bytes() == before
    done = run("submittal", folder, "--output", target, "--draft")
    assert done.exit_code == 0 and "Kept" not in done.output
    done = run("compare", folder, "A")
    assert done.exit_code == 0
    said = " ".join(done.output.split())
    was, now = "meets (practice) [16 in; limit >= 10 in, read]", "revise [9 in; limit >= 10 in, read]"
    assert f"worse W1: Thickness (T1): {was} -> {now}" in said
    folder = revised(project, "B", text=WALLS.replace("16 in", "9 in"))
    assert run("submittal", folder, "--output", target).exit_code == 0
    done = run("compare", folder, "B", "A")
    assert "better" in done.output
    done = run("compare", folder, "A", "Z")
    assert done.exit_code == 2 and "issued: A, B" in done.output


def test_nothing_is_kept_when_the_document_cannot_be_written(project: Write, tmp_path: Path) -> None:
    folder = revised(project, text=WALLS.replace("W1: {run", "W1: {name: 土墙, run"))
    done = run("submittal", folder, "--output", tmp_path / "out.pdf")
    assert done.exit_code == 2
    assert not (folder / "issued").exists() and not (tmp_path / "out.pdf").exists()
