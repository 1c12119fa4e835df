"""The checklist as workbook, as comma-separated values and as a page: every finding, typed, harmless, always alike."""

from __future__ import annotations

import csv
import io
import math
import re
import shutil
import subprocess
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser
from io import BytesIO
from pathlib import Path
from typing import Any

import openpyxl
import pypdfium2
import pytest
from PIL import Image
from typer.testing import CliRunner

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.cli import app
from compliance.findings import Outcome
from compliance.output.checklist.checklist_files import as_csv, as_page, as_workbook
from compliance.record import replace
from compliance.report.by_rule import by_rule
from compliance.report.cautions import CAUTIONS, SHORT
from compliance.report.marks import Mark
from compliance.report.revisions.findings_data import as_data
from compliance.report.tally import counts, tally_word
from compliance.steps import Given
from tests.conftest import EXAMPLE, Write
from tests.documents.buildings import checked, finding, project
from tests.documents.conftest import PrintedExample
from tests.documents.reading_back import one_line

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
NASTY = "</title></style><script>alert(1)</script><img src=x onerror=alert(1)> & \"quoted\" 'too' javascript:alert(1)"


@pytest.fixture(scope="module")
def example(checked_example: Checked) -> Checked:
    return checked_example


@pytest.fixture
def project_folder(request: pytest.FixtureRequest) -> Write:
    """The small project on disk; `project` here makes one in memory."""
    found: Write = request.getfixturevalue("project")
    return found


def test_a_row_for_each_finding_in_the_order_of_the_rules(example: Checked) -> None:
    sheet = openpyxl.load_workbook(BytesIO(as_workbook(example)))["Checklist"]
    titles = [str(cell.value) for cell in sheet[1]]
    rows = [dict(zip(titles, row, strict=True)) for row in sheet.iter_rows(min_row=2, values_only=True)]
    findings = [one for of_set in by_rule(example) for group in of_set.rules for one in group.findings]
    assert len(rows) == len(findings) == len(example.findings)
    for row, one in zip(rows, findings, strict=True):
        assert (row["Rule"], row["Subject"], row["Result"]) == (one.rule, one.subject, one.verdict)


def test_page_workbook_and_cover_of_the_papers_count_alike(example: Checked, printed_example: PrintedExample) -> None:
    """Each number as it is printed; those of the workbook are counted from its rows."""
    sheet = openpyxl.load_workbook(BytesIO(as_workbook(example)))["Checklist"]
    place = [str(cell.value) for cell in sheet[1]].index("Result")
    results = Counter(str(row[place]) for row in sheet.iter_rows(min_row=2, values_only=True))
    page, cover = Page(as_page(example).decode("utf-8")).text, printed_example.read.pages[0]
    for mark, count in counts(example).items():
        assert f"{count} {tally_word(mark)}" in page, mark
        assert re.search(rf"(?<!\d){count}(?!\d)", cover), mark
    for mark in (Mark.ENGINEER, Mark.REVISE, Mark.MISSING, Mark.CONFIRM):
        assert results[mark.value.word] == counts(example)[mark], mark
    assert sum(results.values()) == sum(counts(example).values())


def test_numbers_are_numbers_with_their_unit_beside_or_in_the_title(example: Checked) -> None:
    book = openpyxl.load_workbook(BytesIO(as_workbook(example)))
    sheet = book["Checklist"]
    titles = [str(cell.value) for cell in sheet[1]]
    rows = [dict(zip(titles, row, strict=True)) for row in sheet.iter_rows(min_row=2, values_only=True)]
    (row,) = [row for row in rows if (row["Rule"], row["Subject"]) == ("compressive-strength", "T1")]
    assert (row["Unit of value and limit"], row["Relation"], row["Limit"]) == ("psi", ">=", 60.0)
    assert row["Value"] == pytest.approx(114.6, abs=0.05) and row["Margin [%]"] == pytest.approx(91, abs=0.5)
    shown = {cell.number_format for sheet in book for line in sheet.iter_rows(min_row=2) for cell in line
             if isinstance(cell.value, float)}  # fmt: skip
    assert shown <= {"0", "0.0", "0.00", "0.000", "General"}
    walls = [cell.value for cell in book["Walls"][1]]
    assert "Height of the wall [ft]" in walls and "Minimum thickness [in]" in walls
    w6 = next(row for row in book["Walls"].iter_rows(min_row=2, values_only=True) if row[0] == "W6")
    assert w6[walls.index("Height of the wall [ft]")] == 11.5
    specimens = [str(cell.value) for cell in book["Specimens"][1]]
    assert {"Peak load [lbf]", "Strength [psi]", "Shrinkage [%]", "Age [days]"} <= set(specimens)
    for name in ("Checklist", "Walls", "Specimens", "Limits", "About"):
        assert book[name].freeze_panes == "A2"
        assert all(cell.data_type != "f" for row in book[name].iter_rows() for cell in row)


def test_a_sheet_is_one_page_wide_at_nine_points(example: Checked) -> None:
    """Cells are set in 10 points and scaled to the width of the paper. A character of Calibri 11, by which widths are
    counted, is 7 pixels of 1/96 in wide, and each column has 5 more (OOXML, 18.3.1.13, recalled)."""
    si = check_like(example, example.project.project.model_copy(update={"units": "si"}))
    for made, inches in ((example, 17.0), (si, 420 / 25.4)):
        for sheet in openpyxl.load_workbook(BytesIO(as_workbook(made))):
            margins = sheet.page_margins.left + sheet.page_margins.right
            widths = [sheet.column_dimensions[letter_of(cell)].width for cell in sheet[1]]
            scale = min(1.0, (inches - margins) * 96 / (7 * sum(widths)))
            assert 10 * scale >= 9, (sheet.title, scale)


def letter_of(cell: Any) -> str:
    """The letter under which the width of its column stands: openpyxl keeps columns alike under the first of them."""
    sheet = cell.parent
    kept = [one for one, known in sheet.column_dimensions.items() if known.min <= cell.column <= known.max]
    return str(kept[0])


def test_rows_are_tall_enough_for_their_text(example: Checked) -> None:
    """With a tenth of the width to spare, for faces that run wider; up to the tallest row that a spreadsheet shows."""
    sheet = openpyxl.load_workbook(BytesIO(as_workbook(example)))["Checklist"]
    for row in sheet.iter_rows(min_row=2):
        height = sheet.row_dimensions[row[0].row].height
        for cell in row:
            width = sheet.column_dimensions[letter_of(cell)].width
            lines = -(-len(str(cell.value or "")) // (0.9 * width))
            assert height >= min(409, 13.5 * lines), cell.coordinate


def test_the_workbook_carries_fingerprint_and_cautions(example: Checked) -> None:
    sheet = openpyxl.load_workbook(BytesIO(as_workbook(example)))["About"]
    said = {str(row[0]): str(row[1]) for row in sheet.iter_rows(min_row=2, values_only=True)}
    assert said["Fingerprint of the input"] == example.fingerprint
    assert all(said[name] == text for name, text in CAUTIONS)


def test_si_units(example: Checked) -> None:
    head = example.project.project.model_copy(update={"units": "si"})
    made = check_like(example, head)
    walls = openpyxl.load_workbook(BytesIO(as_workbook(made)))["Walls"]
    titles = [cell.value for cell in walls[1]]
    assert (
        "Height of the wall [m]" in titles and walls.cell(2, titles.index("Height of the wall [m]") + 1).value == 2.4384
    )


def check_like(made: Checked, head: object) -> Checked:
    from dataclasses import replace

    return replace(made, project=made.project.model_copy(update={"project": head}))


def test_csv_holds_the_same_and_no_formula(example: Checked) -> None:
    data = as_csv(example)
    assert data.startswith(b"\xef\xbb\xbfCode,")
    rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"))))
    assert len(rows) == len(example.findings)
    number = re.compile(r"-?\d+(\.\d+)?(e-?\d+)?")
    for row in rows:
        for cell in row.values():
            assert not cell.startswith(("=", "+", "@", "\t")) and (not cell.startswith("-") or number.fullmatch(cell))


@pytest.mark.parametrize("written, value", [("without limit", math.inf), ("not finite", -math.inf)])
def test_a_value_without_end_is_told_in_words(written: str, value: float) -> None:
    """Neither JSON nor a cell has such a number."""
    made = checked(findings=[replace(finding("rule-1", Outcome.ENGINEER), value=Given("e", value, "ratio"))])
    (row,) = as_data(made)["findings"]
    assert row["value"] == {"text": written, "number": None, "unit": None}
    (cells,) = csv.DictReader(io.StringIO(as_csv(made).decode("utf-8-sig")))
    assert cells["Value"] == written


def test_csv_of_nasty_texts() -> None:
    made = checked(findings=[finding("rule-1", Outcome.REVISE, title="=1+1", reason="+x", remedy='@a, "b"\nc')])
    (row,) = csv.DictReader(io.StringIO(as_csv(made).decode("utf-8-sig")))
    assert (row["Check"], row["Reason"], row["Remedy"]) == ("'=1+1", "'+x", '\'@a, "b"\nc')


class Page(HTMLParser):
    """Elements with their attributes, and whether every one that opens is closed in turn."""

    VOID = frozenset({"meta", "br", "input", "path", "circle", "use"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.words: list[str] = []
        self.feed(text)
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words.append(data)

    @property
    def text(self) -> str:
        return one_line(" ".join(self.words))


def test_the_page_asks_for_nothing_from_anywhere_and_runs_nothing(example: Checked) -> None:
    text = as_page(example).decode("utf-8")
    page = Page(text)
    assert not {"script", "link", "img", "iframe", "object", "form", "base"} & {tag for tag, _ in page.found}
    for tag, attributes in page.found:
        for name, value in attributes.items():
            assert not name.startswith("on"), tag
            if name in ("href", "src", "xlink:href", "action"):
                assert (value or "").startswith("#"), f"{tag} {name}={value}"
    assert "url(" not in text and "@import" not in text and "http" not in text.replace("http-equiv", "")
    policies = [
        attributes for tag, attributes in page.found if attributes.get("http-equiv") == "Content-Security-Policy"
    ]
    assert policies[0]["content"] == "default-src 'none'; style-src 'unsafe-inline'"


def test_every_inner_link_has_its_target_and_ids_are_unlike(example: Checked) -> None:
    page = Page(as_page(example).decode("utf-8"))
    ids = [str(attributes["id"]) for _, attributes in page.found if "id" in attributes]
    assert len(ids) == len(set(ids))
    assert {str(one["href"])[1:] for _, one in page.found if "href" in one} <= set(ids)


def test_the_page_holds_every_rule_wall_point_and_caution(example: Checked) -> None:
    page = Page(as_page(example).decode("utf-8"))
    for one in by_rule(example):
        for group in one.rules:
            assert one_line(group.first.title) in page.text
            assert f"{group.code} {one_line(group.first.clause)}" in page.text
    ids = {attributes.get("id") for _, attributes in page.found}
    assert {f"wall-{wall}" for wall in example.project.walls} <= ids
    assert one_line(SHORT) in page.text and all(one_line(text) in page.text for _, text in CAUTIONS)
    assert "HOLD" in page.text and "Write down:" in page.text


def test_a_look_that_is_to_come_is_told_from_a_rule_that_does_not_apply(example: Checked) -> None:
    """The anchors wait to be looked at; the drain along footing F1 no longer does, for it is due before placing, and
    the trench was seen. The walls have no drying holes, and the bond beam is of wood."""
    text = Page(as_page(example).decode()).text
    assert "Inspection: drain before backfilling missing: footing F1" in text
    assert "Inspection: anchors and reinforcement waits for the work: wall W1 to W7" in text
    assert "Inspection: trench and footing before covering missing: footing F1" not in text
    assert (
        "Diameter of drying holes does not apply" in text
        and "Reinforcing bars in a concrete bond beam does not apply" in text
    )


def test_boxes_to_tick_are_on_paper_alone(example: Checked) -> None:
    """No script runs in the page, so that nothing ticked could be kept: on the screen a point says that it waits."""
    text = as_page(example).decode("utf-8")
    screen, _, paper = text.partition("@media print")
    assert ".box{display:none}" in screen and ".box{display:inline-block" in paper.partition("</style>")[0]
    assert "This page keeps no ticks." in text and "waits: W1" in text


def test_a_mark_never_stands_without_its_word(example: Checked) -> None:
    text = as_page(example).decode("utf-8")
    for after in re.findall(r'<use href="#m-\w+"/></svg>(.{30})', text, re.DOTALL):
        assert re.match(r"(<b>\d+</b>)?[A-Za-z]", after), after


def test_nothing_of_a_user_is_markup() -> None:
    found = [finding("rule-1", Outcome.REVISE, title=NASTY, reason=NASTY, remedy=NASTY, clause=NASTY)]
    made = checked(of=project(2, name=NASTY, address=NASTY, number=NASTY), findings=found)
    page = Page(as_page(made).decode("utf-8"))
    assert not {"script", "img"} & {tag for tag, _ in page.found}
    assert page.text.count(one_line(NASTY)) >= 6
    assert all(not name.startswith("on") for _, attributes in page.found for name in attributes)


def test_the_same_bytes_twice(example: Checked) -> None:
    again = check_folder(EXAMPLE)
    for write in (as_workbook, as_csv, as_page):
        assert write(example) == write(again)


def test_the_command_replaces_what_it_wrote_and_nothing_else(project_folder: Write, tmp_path: Path) -> None:
    folder = project_folder()
    for form in ("xlsx", "csv", "html"):
        target = tmp_path / f"list.{form}"
        arguments = ["checklist", str(folder), "--format", form, "--output", str(target)]
        assert CliRunner().invoke(app, arguments).exit_code == 0
        assert CliRunner().invoke(app, arguments).exit_code == 0
        target.write_bytes(b"PK\x03\x04 something else" if form == "xlsx" else b"something else")
        refused = CliRunner().invoke(app, arguments)
        assert refused.exit_code == 2 and "was not written by earthwall" in refused.output
        assert CliRunner().invoke(app, [*arguments, "--force"]).exit_code == 0


def test_a_workbook_that_another_program_saved_is_not_replaced(project_folder: Write, tmp_path: Path) -> None:
    target = tmp_path / "list.xlsx"
    arguments = ["checklist", str(project_folder()), "--output", str(target)]
    assert CliRunner().invoke(app, arguments).exit_code == 0
    book = openpyxl.load_workbook(target)
    book["Checklist"]["P2"] = "my remark"
    book.save(target)
    refused = CliRunner().invoke(app, arguments)
    assert refused.exit_code == 2 and "was not written by earthwall" in refused.output


browser = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine")


@pytest.fixture(scope="module")
def page_file(example: Checked, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    path = tmp_path_factory.mktemp("page") / "page.html"
    path.write_bytes(as_page(example))
    yield path


def chromium(*arguments: str) -> str:
    assert CHROMIUM
    command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars", *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


_MEASURE = """<script>
const wide = document.documentElement.clientWidth;
const over = [...document.querySelectorAll('body *')].filter(e => e.getBoundingClientRect().right > wide + 0.5);
parent.postMessage('measured ' + document.documentElement.scrollWidth + ' of ' + wide + ' over ' + over.length, '*');
</script>"""
_FRAME = """<!doctype html><title>waiting</title><script>let all = '';
onmessage = e => { all += e.data + '; '; document.title = all }</script>"""
_OF_WIDTH = '<iframe style="width:{width}px;height:800px;border:0" src="measured.html"></iframe>'
WIDTHS = (360, 600, 1280)


@browser
def test_nothing_is_wider_than_the_screen(page_file: Path, tmp_path: Path) -> None:
    """A copy of the page that measures itself, all walls opened, in frames of these widths."""
    text = page_file.read_text(encoding="utf-8")
    text = re.sub(r'<meta http-equiv="Content-Security-Policy"[^>]*>', "", text).replace("<details ", "<details open ")
    copy = tmp_path / "measured.html"
    copy.write_text(text.replace("</body>", f"{_MEASURE}</body>"), encoding="utf-8")
    frame = tmp_path / "frame.html"
    frame.write_text(_FRAME + "".join(_OF_WIDTH.format(width=width) for width in WIDTHS), encoding="utf-8")
    dom = chromium("--window-size=1400,900", "--virtual-time-budget=5000", "--dump-dom", frame.as_uri())
    title = re.search(r"<title>(.*?)</title>", dom)
    measured = re.findall(r"measured (\d+) of (\d+) over (\d+);", title[1] if title else "")
    assert len(measured) == len(WIDTHS), dom[:400]
    for width, (scrolled, wide, over) in zip(WIDTHS, sorted(measured, key=lambda one: int(one[1])), strict=True):
        assert int(scrolled) <= int(wide) <= width and int(over) == 0, (width, measured)
        assert int(wide) > width - 30, "not the frame of this width"


@browser
@pytest.mark.parametrize(("width", "name"), [(390, "phone"), (1280, "desk")])
def test_it_is_drawn_at_phone_and_desk_width(page_file: Path, tmp_path: Path, width: int, name: str) -> None:
    shot = tmp_path / f"{name}.png"
    chromium(f"--window-size={width},1400", f"--screenshot={shot}", page_file.as_uri())
    with Image.open(shot) as image:
        assert image.width == width
        colours = image.convert("RGB").getcolors(1_000_000)
    assert colours
    dark = sum(count for count, colour in colours if sum(colour) < 3 * 80)
    assert dark > 2000, "nothing is written on the page"


@browser
def test_it_prints_with_all_walls_opened(page_file: Path, tmp_path: Path) -> None:
    pdf = tmp_path / "page.pdf"
    chromium("--no-pdf-header-footer", f"--print-to-pdf={pdf}", page_file.as_uri())
    text = one_line(" ".join(page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(pdf)))
    assert "Compressive strength, T1" in text, "walls are closed in print"
    assert one_line(CAUTIONS[-1][1]) in text
