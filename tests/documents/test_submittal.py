"""The submittal as a file: whole, the same every time, every finding in it, nothing outside its margins."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import pikepdf
import pypdf
import pytest

from compliance.checked import Checked
from compliance.documents.page.errors import DocumentError
from compliance.documents.submittal.bundle import write_submittal
from compliance.findings import Outcome
from compliance.report.by_rule import by_rule
from compliance.report.cautions import CAUTIONS, SHORT
from tests.documents.buildings import checked, finding, project, rule_set
from tests.documents.findings_told import in_checklist, in_json, with_runs_told
from tests.documents.reading_back import Read, fonts_without_file, one_line, overlapping, read_back

ROOT = Path(__file__).parents[2]


def written(made: Checked, folder: Path) -> tuple[Path, Read]:
    path = folder / "submittal.pdf"
    write_submittal(made, path)
    return path, read_back(path)


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Read, Checked]:
    made = checked()
    return *written(made, tmp_path_factory.mktemp("plain")), made


_BLANK = 2.7  # at the end of a line, in points: it ends a word that is followed by another line


def within_margins(read: Read) -> None:
    for page, (boxes, (width, height)) in enumerate(zip(read.boxes, read.sizes, strict=True), start=1):
        side = 35 if width > height else 53
        for left, bottom, right, top in boxes:
            inside = left >= side and right <= width - side + _BLANK
            assert inside, f"page {page}: text outside its margins at {left, bottom}"
            assert bottom >= 18 and top <= max(800, height - 25), (
                f"page {page}: text outside the page at {left, bottom}"
            )
        assert not overlapping(boxes), f"page {page}: text over text"


def test_every_page_has_its_number_the_revision_the_project_and_the_caution(plain: tuple[Path, Read, Checked]) -> None:
    _, read, made = plain
    count = len(read.pages)
    for number, page in enumerate(read.pages, start=1):
        assert f"Page {number} of {count}" in page
    for page, (width, height) in list(zip(read.pages, read.sizes, strict=True))[1:]:
        assert "2026-05-14" in page and "Row of walls" in page
        if width > height:  # a sheet of drawings: its title block
            assert "no survey, no design" in page and "Revision, date" in page and made.fingerprint[:12] in page
        else:
            assert one_line(SHORT) in page and "Revision B" in page and "No. T-1" in page


def test_the_cautions_stand_on_the_cover_and_at_the_signatures(plain: tuple[Path, Read, Checked]) -> None:
    _, read, _ = plain
    signed = next(page for _, title, page in read.outline if title == "Sign-off")
    for name, text in CAUTIONS:
        assert one_line(f"{name} {text}") in read.pages[0]
        assert one_line(f"{name} {text}") in " ".join(read.pages[signed - 1 : signed + 1])


def test_bookmarks_lead_to_the_page_that_bears_their_title(plain: tuple[Path, Read, Checked]) -> None:
    _, read, _ = plain
    assert [title for level, title, _ in read.outline if level == 0] == [
        "Cover", "The answer on one page", "Contents", "Code path", "Design data", "Building and walls",
        "Items requiring action", "Checklist of the adopted code", "Wall by wall", "Tests in summary",
        "Statement of special inspections", "Sign-off", "Drawings", "Basis of the calculations", "Walls by checks",
        "Calculations", "Materials and tests", "Limits relied on", "The rule sets in their own words",
    ]  # fmt: skip
    for level, title, page in read.outline:
        if title != "Cover":
            words = title.split()[-1] if level == 2 else one_line(title)
            assert words in read.pages[page - 1], f"{title} is not on page {page}"
    assert len({page for _, _, page in read.outline}) > 5


def test_contents_give_the_pages_of_the_bookmarks(plain: tuple[Path, Read, Checked]) -> None:
    _, read, _ = plain
    first = next(page for _, title, page in read.outline if title == "Contents")
    contents = " ".join(read.pages[first - 1 : first + 1])
    listed = [(title, page) for level, title, page in read.outline if level < 2 and title not in ("Cover", "Contents")]
    listed = [(title, page) for title, page in listed if not re.fullmatch(r"W\d+", title)]  # walls: bookmarks only
    assert len(listed) > 20
    for title, page in listed:
        assert re.search(rf"{re.escape(one_line(title))} {page}\b", contents), f"{title} {page}"


def test_every_finding_stands_under_its_rule(plain: tuple[Path, Read, Checked]) -> None:
    _, read, made = plain
    every_finding(read, made)


def every_finding(read: Read, made: Checked) -> None:
    """Each finding of an adopted code counted once in the checklist, and every finding under its rule in the
    calculations."""
    told, wanted = in_checklist(read, made), in_json(made)
    assert told == wanted, (told - wanted, wanted - told)
    start = read.text.index("Calculations Rule by rule")
    text = read.text[start : read.text.index("Materials and tests", start)]
    groups = [group for one in by_rule(made) for group in one.rules]
    assert sum(len(group.findings) for group in groups) == len(made.findings)
    _, _, apart = map(with_runs_told, text.partition("Rules that do not apply, or not yet"))
    headings = [one_line(group.heading) for group in groups if group.judged]
    starts = [text.index(heading) for heading in headings] + [len(text)]
    parts = {heading: with_runs_told(text[starts[n] : starts[n + 1]]) for n, heading in enumerate(headings)}
    for group in groups:
        part = parts.get(one_line(group.heading), "")
        for one in group.judged:
            assert re.search(rf"(?<![\w.]){re.escape(one.subject)}(?![\w.])", part), f"{group.code} {one.subject}"
            assert one.verdict in part or one.verdict_with_standing in part
        for one in group.set_aside:
            named = rf"{group.code} {re.escape(one_line(one.title))} {re.escape(one_line(one.clause))}"
            assert re.search(named, apart) and one.subject in apart


def test_value_relation_limit_margin_steps_and_remedy_are_printed(plain: tuple[Path, Read, Checked]) -> None:
    _, read, _ = plain
    assert "16 in ≥ 10 in (254 mm) +60 % meets, limit to be confirmed (reported)" in read.text
    assert "Least thickness: t = min(t_base, t_top) = min(16 in, 16 in) = 16 in [from the plan]" in read.text
    assert "Remedy: thicken W1" in read.text
    assert "Not given: wall type of the code's table of wall W1" in one_line(read.text)


def test_the_tally_counts_every_finding(plain: tuple[Path, Read, Checked]) -> None:
    _, read, made = plain
    tally = made.tally()
    cover = read.pages[0]
    assert all(re.search(rf"(?<!\d){count}(?!\d)", cover) for count in tally.values())
    listed = next(page for page in read.pages if "Checks made: " in page)
    asking = ", ".join(f"{tally[one]} {one.words}" for one in (Outcome.ENGINEER, Outcome.REVISE, Outcome.MISSING))
    judged = len(made.findings) - tally[Outcome.NOT_APPLICABLE]
    assert f"Checks made: {judged}" in listed and f"Findings that require action: {asking};" in listed


def test_nothing_runs_out_of_its_margins_or_over_other_text(plain: tuple[Path, Read, Checked]) -> None:
    within_margins(plain[1])


def test_every_font_is_embedded_also_that_of_the_fields(plain: tuple[Path, Read, Checked]) -> None:
    path, _, _ = plain
    assert fonts_without_file(path) == []
    assert b"Helvetica" not in path.read_bytes()


def test_fields_for_name_licence_and_date_of_four_signers(plain: tuple[Path, Read, Checked]) -> None:
    fields = pypdf.PdfReader(plain[0]).get_fields()
    assert fields is not None
    names = {
        f"{who}_{what}" for who in ("owner", "designer", "engineer", "official") for what in ("name", "licence", "date")
    }
    assert set(fields) == names
    assert all(field["/FT"] == "/Tx" for field in fields.values())


def test_version_language_title_author_and_dates(plain: tuple[Path, Read, Checked]) -> None:
    path, _, _ = plain
    with pikepdf.open(path) as pdf:
        assert pdf.pdf_version == "1.7"
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        assert str(pdf.docinfo["/Title"]) == "Row of walls: submittal to the building official, revision B"
        assert str(pdf.docinfo["/Author"]) == "Zoë Müller-Łukasz"
        assert str(pdf.docinfo["/CreationDate"]).startswith("D:20260514000000")
        assert str(pdf.docinfo["/ModDate"]) == str(pdf.docinfo["/CreationDate"])


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
def test_qpdf_finds_no_fault(plain: tuple[Path, Read, Checked]) -> None:
    run = subprocess.run(["qpdf", "--check", str(plain[0])], capture_output=True, text=True, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
    assert "WARNING" not in run.stdout + run.stderr


_SCRIPT = """
import sys
from pathlib import Path
from compliance.documents.submittal.bundle import write_submittal
from tests.documents.buildings import checked
write_submittal(checked(), Path(sys.argv[1]))
"""


def test_the_same_bytes_in_another_process_at_another_time(plain: tuple[Path, Read, Checked], tmp_path: Path) -> None:
    """This process has a seed and a zone of its own."""
    path = tmp_path / "again.pdf"
    surroundings = os.environ | {"PYTHONHASHSEED": "1", "TZ": "Pacific/Auckland", "PYTHONPATH": str(ROOT)}
    subprocess.run([sys.executable, "-c", _SCRIPT, str(path)], check=True, env=surroundings, cwd=ROOT)
    assert path.read_bytes() == plain[0].read_bytes()


def test_forty_walls_and_sixty_rules(tmp_path: Path) -> None:
    made = checked(walls=40, rules=60)
    path, read = written(made, tmp_path)
    within_margins(read)
    every_finding(read, made)
    marks = "".join(page for page in read.pages if "Walls by checks" in page)
    assert all(f"W{number} " in marks for number in range(1, 41))
    assert fonts_without_file(path) == []


def test_a4_and_si(tmp_path: Path) -> None:
    _, read = written(checked(of=project(units="si", paper="a4")), tmp_path)
    assert {(round(width), round(height)) for width, height in read.sizes} == {(595, 842), (1191, 842)}
    assert "406 mm ≥ 254 mm (10 in) +60 %" in read.text
    within_margins(read)


def test_no_lab_data_no_soils_no_findings(tmp_path: Path) -> None:
    bare = project(1).model_copy(update={"soils": {}, "mixes": {}, "test_sets": {}, "roofs": {}, "footings": {}})
    building = bare.model_copy(update={"walls": {"W1": bare.walls["W1"].model_copy(update={"mix": None})}})
    _, read = written(checked(of=building, findings=[], with_specimens=False), tmp_path)
    assert "no test records" in read.text
    assert "no statement that the building is safe" in read.text
    within_margins(read)


def test_a_set_without_rows_says_so(tmp_path: Path) -> None:
    _, read = written(checked(with_specimens=False), tmp_path)
    assert "The lab tables have no row of this set." in read.text


@pytest.mark.parametrize(
    "text", ["x <b>", '<img src="/etc/passwd"/>', "a & b &lt; c", "</para><a href='x'>", "100 % 'quoted' \"twice\""]
)
def test_text_of_users_is_never_markup(text: str, tmp_path: Path) -> None:
    building = project(2, name=text, description=text, address=text)
    found = finding("rule-1", Outcome.REVISE, reason=text, remedy=text, title=text, say=text, clause=text)
    made = checked(of=building, findings=[found], sets=(rule_set(1, title=text, scope=text, notes=(text,)),))
    _, read = written(made, tmp_path)
    assert read.text.count(one_line(text)) >= 8
    assert text in read.pages[0]


def test_long_names_stay_within_the_page(tmp_path: Path) -> None:
    name = "An uncommonly long name of a project " * 9
    word = "Unbreakable" * 30
    building = project(3, name=name.strip(), address=word, number=word[:200])
    found = [finding("rule-1", Outcome.ENGINEER, f"W{n}", reason=word, title=word, clause=word[:80]) for n in (1, 2, 3)]
    _, read = written(checked(of=building, findings=found), tmp_path)
    within_margins(read)


def test_cells_and_leads_taller_than_a_page_run_on(tmp_path: Path) -> None:
    long = " ".join(f"word{number}" for number in range(900))
    soils = {"S1": project(1).soils["S1"].model_copy(update={"description": long})}
    building = project(2).model_copy(update={"soils": soils})
    found = [
        finding("rule-1", Outcome.REVISE, "W1", say=long, reason="short"),
        finding("rule-1", Outcome.REVISE, "W2", reason=long, remedy=long),
    ]
    _, read = written(checked(of=building, findings=found), tmp_path)
    for number in (0, 450, 899):
        assert len(re.findall(rf"\bword{number}\b", read.text, re.IGNORECASE)) == 6
    within_margins(read)


@pytest.mark.parametrize("text, character", [("جدار", "ج"), ("土墙 wall", "土"), ("wall \u2603", "\u2603")])
def test_a_script_the_faces_lack_is_refused_before_anything_is_written(
    text: str, character: str, tmp_path: Path
) -> None:
    path = tmp_path / "submittal.pdf"
    path.write_bytes(b"what was there")
    for made in (
        checked(of=project(1, name=text)),
        checked(findings=[finding("rule-1", Outcome.REVISE, reason=text)]),
        replace(checked(), rule_sets=(rule_set(8, verify=text),)),
    ):
        with pytest.raises(DocumentError) as refused:
            write_submittal(made, path)
        assert refused.value.character == character
        assert character in refused.value.text
        assert text.casefold() in str(refused.value).casefold()
    assert path.read_bytes() == b"what was there"
    assert [one.name for one in tmp_path.iterdir()] == ["submittal.pdf"]


def test_accents_greek_and_cyrillic_are_set(tmp_path: Path) -> None:
    name = "Łódź Žďár Ångström Ñandú São İzmir Стена Τοίχος"
    _, read = written(checked(of=project(1, name=name)), tmp_path)
    assert name in read.pages[0]
    decomposed = "Cafe\u0301"
    _, read = written(checked(of=project(1, name=decomposed)), tmp_path)
    assert "Café" in read.pages[0]


def test_nothing_is_left_behind_when_the_target_cannot_be_written(tmp_path: Path) -> None:
    (tmp_path / "submittal.pdf").mkdir()
    with pytest.raises(OSError):
        write_submittal(checked(1, 1), tmp_path / "submittal.pdf")
    with pytest.raises(OSError):
        write_submittal(checked(1, 1), tmp_path / "absent" / "submittal.pdf")
    assert [one.name for one in tmp_path.iterdir()] == ["submittal.pdf"]
    assert list((tmp_path / "submittal.pdf").iterdir()) == []


def test_many_rule_sets_make_contents_of_two_pages(tmp_path: Path) -> None:
    sets = tuple(replace(rule_set(1), id=f"set-{n}", title=f"Set number {n}") for n in range(20))
    found = [replace(finding("rule-1", Outcome.MEETS), rule_set=f"set-{n}") for n in range(20)]
    _, read = written(checked(findings=found, sets=sets), tmp_path)
    titles = [title for level, title, _ in read.outline if level == 1]
    assert sum(title.endswith("Set number 19") for title in titles) == 4
    for _, title, page in read.outline:
        if "Set number" in title:
            assert one_line(title) in read.pages[page - 1]
    within_margins(read)


def test_the_date_is_that_of_the_project(tmp_path: Path) -> None:
    path, _ = written(checked(of=project(1, date=date(1999, 12, 31))), tmp_path)
    with pikepdf.open(path) as pdf:
        assert str(pdf.docinfo["/CreationDate"]).startswith("D:19991231000000")


def test_a_finding_of_an_unknown_rule_is_never_dropped(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="rule-99"):
        write_submittal(checked(findings=[finding("rule-99", Outcome.MEETS)]), tmp_path / "x.pdf")
