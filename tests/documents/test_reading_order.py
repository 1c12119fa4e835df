"""The order of the bundle, the answer that fits one page, the checklist, and the ways from the cover to any wall."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

import pypdf
import pypdfium2
import pytest

from compliance.checked import Checked
from compliance.documents.papers.adopted_checklist import adopted_sets
from compliance.documents.submittal.bundle import write_submittal
from compliance.findings import Outcome
from compliance.report.by_rule import by_rule
from compliance.report.checklist_rows import checklist_rows
from compliance.report.inspection_points import site_points
from compliance.report.marks import Mark
from compliance.report.wall_evidence import wall_evidence
from tests.documents.buildings import checked, finding, project, rule_set
from tests.documents.conftest import PrintedExample
from tests.documents.findings_told import section
from tests.documents.reading_back import Read, one_line, overlapping, read_back

Case = tuple[Path, Read, Checked]


@pytest.fixture
def example(printed_example: PrintedExample) -> Case:
    return printed_example.path, printed_example.read, printed_example.made


@dataclass(frozen=True)
class Link:
    """The page it stands on, the text under it, and the page it leads to."""

    page: int
    text: str
    target: int


def links(path: Path, pages: Iterable[int] = ()) -> list[Link]:
    """Every link inside the document; only those of `pages` where they are given."""
    reader, shown, numbers = _opened(path, path.stat().st_mtime_ns)
    found = []
    for number in pages or range(1, len(reader.pages) + 1):
        text = shown[number - 1].get_textpage()
        for one in reader.pages[number - 1].get("/Annots") or ():
            annotation: Any = one.get_object()
            if annotation.get("/Subtype") == "/Link":
                target = annotation["/Dest"][0].idnum
                under = text.get_text_bounded(*map(float, annotation["/Rect"]))
                found.append(Link(number, one_line(under), numbers[target]))
    return found


@lru_cache(maxsize=1)
def _opened(path: Path, changed: int) -> tuple[pypdf.PdfReader, pypdfium2.PdfDocument, dict[int, int]]:
    """The file by two readers, and the number of each page by its object."""
    reader = pypdf.PdfReader(path)
    numbers = {page.indirect_reference.idnum: number for number, page in enumerate(reader.pages, start=1)}  # type: ignore[union-attr]
    return reader, pypdfium2.PdfDocument(path.read_bytes()), numbers


def test_the_order_asked_for(example: Case) -> None:
    titles = [title for level, title, _ in example[1].outline if level == 0]
    wanted = [
        "Cover", "The answer on one page", "Code path", "Design data", "Building and walls", "Items requiring action",
        "Checklist of the adopted code", "Wall by wall", "Tests in summary", "Statement of special inspections",
        "Since revision A", "Sign-off", "Drawings", "Calculations", "Materials and tests", "Limits relied on",
        "Attachments",
    ]  # fmt: skip
    assert [title for title in titles if title in wanted] == wanted
    assert titles[-1] == "Attachments"


def test_the_answer_is_the_page_after_the_cover_and_is_one(example: Case) -> None:
    _, read, _ = example
    answer_page(read, 2)


def answer_page(read: Read, number: int) -> str:
    page = read.pages[number - 1]
    for words in ("What is asked", "What meets", "For an engineer", "To revise", "Missing", "Limits open"):
        assert words in page, words
    assert sum("The answer on one page" in one and "Contents" not in one for one in read.pages) == 1
    assert not overlapping(read.boxes[number - 1])
    return page


def crowded() -> Checked:
    """Rules beyond counting, each of walls beyond counting as far as the answer lists the rule; one wall for others."""
    long = "A very long title of something that nobody would ever call so " * 5
    sets = tuple(replace(rule_set(12), id=f"set-{n}", title=long[:390]) for n in range(12))
    outcomes = (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING, Outcome.CONFIRM, Outcome.MEETS, Outcome.REVISE)
    found = [
        replace(finding(f"rule-{rule}", outcomes[rule % 6], f"W{wall}", title=long[:380]), rule_set=f"set-{n}")
        for n in range(12)
        for rule in range(1, 13)
        for wall in (range(1, 41, 3) if n < 3 else (1 + 3 * ((n + rule) % 14),))
    ]
    of = project(40, name=long[:390])
    third = {mark: wall for mark, wall in of.walls.items() if int(mark[1:]) % 3 == 1}  # no other has a finding
    return checked(of=of.model_copy(update={"walls": third}), findings=found, sets=sets)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_answer_fits_one_page_also_where_there_is_much_of_it(tmp_path: Path, paper: str) -> None:
    made = crowded()
    head = made.project.project.model_copy(update={"paper": paper})
    made = replace(made, project=made.project.model_copy(update={"project": head}))
    write_submittal(made, tmp_path / "s.pdf")
    read = read_back(tmp_path / "s.pdf")
    number = next(page for _, title, page in read.outline if title == "The answer on one page")
    page = answer_page(read, number)
    assert len(re.findall(r"and \d+ more, p\. \d+", page)) == 3
    following = next(page for _, title, page in read.outline if title == "Contents")
    assert following == number + 1


def test_nothing_that_asks_is_left_uncounted_in_the_answer(example: Case) -> None:
    _, read, made = example
    page = answer_page(read, 2)
    tally = made.tally()
    for count, words in (
        (tally[Outcome.REVISE], "findings."), (tally[Outcome.ENGINEER], "findings: a licensed engineer"),
        (tally[Outcome.MISSING], "findings."), (tally[Outcome.CONFIRM], "findings wait for"),
    ):  # fmt: skip
        assert f"{count} {words}" in page


def test_where_nothing_asks_the_answer_does_not_promise_safety(tmp_path: Path) -> None:
    write_submittal(checked(findings=[finding("rule-1", Outcome.MEETS)]), tmp_path / "s.pdf")
    page = read_back(tmp_path / "s.pdf").pages[1]
    assert page.count("Nothing.") == 3
    assert "does not say that no engineer is needed" in page and "no design" in page


def test_every_link_leads_to_the_page_that_it_names(example: Case) -> None:
    found = links(example[0])
    assert len(found) > 500
    named = [(link, re.search(r"p\. (\d+)$", link.text)) for link in found]
    assert sum(match is not None for _, match in named) > 80
    for link, match in named:
        assert match is None or int(match[1]) == link.target, link
    sheets = [(link, match[1]) for link in found if (match := re.search(r"sheet ([AG]-\d{3})$", link.text))]
    assert len(sheets) > 20
    for link, number in sheets:
        assert number in example[1].pages[link.target - 1], link


def test_from_the_contents_each_wall_is_one_link_away(example: Case) -> None:
    path, read, made = example
    contents = next(page for _, title, page in read.outline if title == "Contents")
    from_contents = links(path, [contents, contents + 1, contents + 2])
    for wall in made.project.walls:
        link = next(one for one in from_contents if one.text.startswith(f"{wall}, p."))
        page = read.pages[link.target - 1]
        own = page[page.index(f"{wall} · ") :]
        assert "Items" in own and "Site" in own and "Check met" in own
        onward = links(path, [link.target])
        assert any(one.text.startswith("trench (hold") for one in onward)
        code = next(one for one in onward if re.fullmatch(r"[A-E]\d+", one.text))
        assert code.text in read.pages[code.target - 1]


def test_a_wall_sheet_holds_height_strength_and_inspection(example: Case) -> None:
    _, _, made = example
    sets = by_rule(made)
    for one in wall_evidence(made, sets, site_points(sets)):
        wall = made.project.walls[one.mark]
        assert one.height, f"{one.mark} has no check of its height"
        assert {told.finding.subject for told in one.strength if told.finding.kind == "test"} <= {
            wall.mix, *(mark for mark, test in made.project.test_sets.items() if test.mix == wall.mix)
        }  # fmt: skip
        assert one.points
        subjects = {f.subject for _, found in one.points for f in found}
        assert one.mark in subjects and wall.footing in subjects
        assert not any(f.wall not in ("", one.mark) for _, found in one.points for f in found)


def test_many_walls_are_found_from_the_contents_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without their drawings, which are most of the work."""
    monkeypatch.setattr("compliance.documents.submittal.bundle.drawings_story", lambda of, first: [])
    made = checked(walls=70, rules=2)
    write_submittal(made, tmp_path / "s.pdf")
    read = read_back(tmp_path / "s.pdf")
    first = next(page for _, title, page in read.outline if title == "Contents")
    pages = range(first, first + 3)
    assert "and 10 walls more" in " ".join(read.pages[number - 1] for number in pages)
    found = links(tmp_path / "s.pdf", pages)
    for n in range(1, 61):
        assert sum(one.text.startswith(f"W{n}, p.") for one in found) >= 1
    assert any(one.text.startswith("and 10 walls more") for one in found)


def test_the_checklist_has_every_clause_of_the_adopted_code_in_order(example: Case) -> None:
    path, read, made = example
    (adopted,) = adopted_sets(by_rule(made))
    title = "Checklist of the adopted code"
    start = next(page for level, name, page in read.outline if (level, name) == (0, title))
    end = next(page for level, name, page in read.outline if (level, name) == (0, "Wall by wall"))
    text = section(read, made, title)
    shown = [group for group in adopted.rules if group.judged]
    places = [text.find(f" {group.code} {one_line(group.first.clause)} ") for group in shown]
    assert len(shown) > 50 and all(place > 0 for place in places) and places == sorted(places)
    found = {one.text.rsplit(" ", 1)[-1]: one.target for one in links(path, range(start, end + 1))}
    for group in shown:
        assert one_line(group.first.title) in read.pages[found[group.code] - 1], group.code


def test_how_each_rule_is_answered(example: Case) -> None:
    _, _, made = example
    rows = {row.group.rule: row for one in checklist_rows(made, by_rule(made)) for row in one.rows}
    assert rows["compressive-strength"].how == "tested"
    assert [one.text for one in rows["compressive-strength"].evidence] == ["calculation", "set T1", "set T5"]
    assert rows["straw-dry-and-sound"].how == "attested"
    assert [one.text for one in rows["straw-dry-and-sound"].evidence][-1] == "Bales under cover before mixing"
    assert rows["straw-dry-and-sound"].evidence[0].text == "Ilse Varga, 2026-04-02"
    assert rows["inspect-trench"].how == "looked at on site"
    assert rows["wall-height"].how == "computed"
    assert rows["free-ends"].mark is Mark.REVISE


def test_nothing_runs_over_other_text_in_the_whole_bundle(example: Case) -> None:
    _, read, _ = example
    for number, (boxes, (width, _)) in enumerate(zip(read.boxes, read.sizes, strict=True), start=1):
        if width > read.sizes[0][1]:
            continue  # drawings have their own test
        for left, bottom, right, _ in boxes:
            assert left >= 52 and right <= width - 50 and bottom >= 18, f"page {number} at {left, bottom}"


def test_one_line_texts_of_users_are_never_markup(tmp_path: Path) -> None:
    text = "x <b> & y"
    building = project(2, name=text)
    write_submittal(checked(of=building, findings=[finding("rule-1", Outcome.REVISE, title=text)]), tmp_path / "s.pdf")
    assert one_line(text) in read_back(tmp_path / "s.pdf").pages[1]
