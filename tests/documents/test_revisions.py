"""What changed since the revision before, and the comments of the official, as they are printed."""

from __future__ import annotations

from pathlib import Path

import pypdf

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.documents.submittal.bundle import write_submittal
from compliance.editing.issuing import keep, plan_issue
from compliance.reading.issued_records import read_issued
from compliance.report.revisions.findings_data import as_record
from compliance.report.revisions.older_words import NO_LONGER, without_ids
from compliance.report.revisions.revision_changes import changes
from tests.conftest import EXAMPLE, HEAD, RULES, WALLS, Write
from tests.documents.conftest import PrintedExample
from tests.documents.first_issue import issue_first
from tests.documents.reading_back import overlapping, read_back
from tests.hostile.tricks.project import lay_out

COMMENTS = """
comments:
  - {comment: "The wall is thin.", by: O. Ficial, on: 2026-01-20, answer: "Made 16 in thick.", met_in: W1}
  - {comment: "Who digs?", by: O. Ficial, on: 2026-01-20}
"""


def folder_of(project: Write, revision: str, thickness: str = "16 in", more: str = "", least: str = "10 in") -> Path:
    head = HEAD.replace("2026-12-30}", f"2026-12-30, revision: {revision}}}")
    return project(text=WALLS.replace("16 in", thickness) + more, head=head, rules=RULES.replace("10 in", least))


def issued_thin(project: Write) -> None:
    folder = folder_of(project, "A", "9 in")
    keep(plan_issue(folder, check_folder(folder)))


def test_changes_wall_by_wall_and_limit_by_limit(project: Write, tmp_path: Path) -> None:
    issued_thin(project)
    folder = folder_of(project, "B", least="12 in")
    path = tmp_path / "b.pdf"
    write_submittal(check_folder(folder), path, read_issued(folder)[-1])
    read = read_back(path)
    page = next(page for page in read.pages if "Since revision A Revision A" in page)
    assert "findings: 1 better; 1 limit changed" in page
    assert "revise [9 in; limit ≥ 10 in, read] meets (practice) [16 in; limit ≥ 12 in, read]" in page
    assert "10 in (read) 12 in (read)" in read.text
    assert "now better" in page
    for boxes in read.boxes:
        assert not overlapping(boxes)


def test_comments_with_answers_and_those_without(project: Write, tmp_path: Path) -> None:
    issued_thin(project)
    folder = folder_of(project, "B", more=COMMENTS)
    path = tmp_path / "b.pdf"
    write_submittal(check_folder(folder), path, read_issued(folder)[-1])
    text = read_back(path).text
    assert "The wall is thin. O. Ficial, 2026-01-20 Made 16 in thick. W1" in text
    assert "Who digs? O. Ficial, 2026-01-20 not answered yet" in text


def test_comments_without_an_earlier_record(project: Write, tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    write_submittal(check_folder(folder_of(project, "B", more=COMMENTS)), path)
    assert "Comments of the official Every comment" in read_back(path).text


def test_a_first_revision_without_comments_has_no_such_section(project: Write, tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    write_submittal(check_folder(folder_of(project, "A")), path)
    titles = [title for level, title, _ in read_back(path).outline if level == 0]
    assert not any(title.startswith(("Since", "Comments")) for title in titles)


def test_a_draft_says_so_on_every_page_and_in_its_title(project: Write, tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    write_submittal(check_folder(folder_of(project, "A")), path, draft=True)
    read = read_back(path)
    assert all("draft, not issued" in page for page in read.pages)
    assert "draft" in str(pypdf.PdfReader(path).metadata["/Title"])  # type: ignore[index]


def test_the_whole_fingerprint_on_the_cover_its_beginning_on_every_page(project: Write, tmp_path: Path) -> None:
    checked = check_folder(folder_of(project, "A"))
    path = tmp_path / "a.pdf"
    write_submittal(checked, path)
    read = read_back(path)
    assert checked.fingerprint in read.pages[0]
    assert all(f"Input {checked.fingerprint[:12]}" in page for page in read.pages[1:])


def test_the_example_tells_what_changed_since_its_first_revision(printed_example: PrintedExample) -> None:
    checked = printed_example.made
    previous = next(record for record in read_issued(EXAMPLE) if record.project.revision == "A")
    assert previous.project.fingerprint != checked.fingerprint
    text = printed_example.read.text
    assert "Since revision A Revision A (2026-09-02" in text
    was, now = "[6 in; limit ≥ 12 in, recalled]", "[12 in; limit ≥ 12 in, recalled]"
    assert f"revise {was} meets (practice) {now}" in text
    assert "The tall wall W6 needs an engineer's letter." in text and "not answered yet" in text


def test_the_first_revision_can_be_made_again(tmp_path: Path) -> None:
    record = issue_first(tmp_path / "example")
    (before,) = read_issued(record.parent.parent)
    found = changes(before, as_record(check_folder(EXAMPLE)))
    better = {(one.of.rule, one.of.subject) for one in found.findings if one.word == "better"}
    assert ("lintel-bearing", "W3.N4") in better
    assert {one.of.wall for one in found.findings} == {"W3"}


def test_a_failing_set_of_another_mix_is_printed_since_the_revision_and_beside_the_mix(tmp_path: Path) -> None:
    folder = lay_out(tmp_path / "a", {})
    keep(plan_issue(folder, check_folder(folder)))
    relabeled = {"project": {"revision": "B"}, "test_sets": {"T1": {"mix": "M9"}}}
    later = lay_out(tmp_path / "b", {"rows": {"all": {"mix": "M9"}}, "project": relabeled})
    path = tmp_path / "b.pdf"
    write_submittal(check_folder(later), path, read_issued(folder)[-1])
    says = "Set T1 was of mix M1 and is of mix M9; in that revision set T1 did not meet Compressive strength"
    pages = [page for page in read_back(path).pages if says in page]
    assert any("Since revision A" in page and "Sets of specimens" in page for page in pages)
    beside = next(page for page in pages if f"M1: {says}" in page)
    assert "Tests of the mixes since revision A" in read_back(path).text and f"M9: {says}" in beside


def test_reasons_of_older_records_name_no_ids(checked_example: Checked) -> None:
    """Sentences of records that earlier versions wrote, and one of a rule that there is no longer."""
    titles = {rule.id: rule.title for one in checked_example.rule_sets for rule in one.rules}
    code = next(one.title for one in checked_example.rule_sets if one.id == "cob-irc-2021-au")
    ratio, before_roof = titles["wall-height-to-thickness"], titles["inspect-before-roof"]
    cases = {
        "height to thickness 6.857 ≤ 7 maximum; the working answer while that of cob-irc-2021-au, "
        "wall-height-to-thickness, is open":
            f"height to thickness 6.857 ≤ 7 maximum; the working answer while that of {ratio} ({code}), is open",
        "cob-irc-2021-au, which is adopted, answers this: wall-thickness-least; as a remark: 14 in ≥ 12 in minimum":
            f"{code}, which is adopted, answers this: {titles['wall-thickness-least']}; as a remark: "
            "14 in ≥ 12 in minimum",
        "answers this: bond-beam; spacing of the bond-beam anchors":
            f"answers this: {titles['bond-beam']}; spacing of the bond-beam anchors",
        "yes; its inspection inspect-before-roof has no record": f"yes; its inspection {before_roof} has no record",
        "that of cob-irc-2021-au, wall-of-old, is open": f"that of {NO_LONGER} ({code}), is open",
        "see wall-of-old-rules": f"see {NO_LONGER}",
        "safety factor against out-of-plane rocking 0.907 < 1": "safety factor against out-of-plane rocking 0.907 < 1",
    }  # fmt: skip
    record = as_record(checked_example)
    first = record.findings[0]
    then = [first.model_copy(update={"reason": text, "rule": "wall-of-old-rules"}) for text in cases]
    plain = without_ids(record.model_copy(update={"findings": then}), checked_example.rule_sets)
    assert [one.reason for one in plain.findings] == list(cases.values())
