"""What holds for every PDF that a command writes, looped over all commands that write one."""

from __future__ import annotations

import inspect
import os
import re
import shutil
import subprocess
from pathlib import Path

import pikepdf
import pypdf
import pytest
from reportlab.pdfgen.canvas import Canvas

from compliance.cli import app
from tests.conftest import EXAMPLE
from tests.documents.pages_looked_at import filled, headings_alone
from tests.documents.papers import COMMANDS, Papers, write_paper
from tests.documents.reading_back import fonts_without_file, overlapping, read_back

SPARE = {"checklist": "writes a workbook, CSV or HTML"}
MAY_BE_SHORT = ("brief", "lab-request", "inspection", "sheets")
"""Papers whose parts begin on a page of their own: two pages for each wall, labels and cards to be cut out, sheets for
a topic each."""


ENDS_EARLY = {
    "submittal": ("Drawings", "Basis of the calculations", "Plan with the bracing shares"),
    "earth": ("Texture of soils and mixes",),
}
"""What begins a page of its own in a paper, so that the page before may end early: a part, a wide picture."""


def named(command: object) -> str:
    name, callback = command.name, command.callback  # type: ignore[attr-defined]
    return str(name or callback.__name__.replace("_", "-"))


def test_no_command_that_writes_a_paper_is_left_out() -> None:
    writing = {
        named(one)
        for one in app.registered_commands
        if one.callback and "output" in inspect.signature(one.callback).parameters
    }
    assert writing == {*COMMANDS, *SPARE}


@pytest.mark.skipif(shutil.which("qpdf") is None, reason="qpdf is not installed")
@pytest.mark.parametrize("command", COMMANDS)
def test_qpdf_finds_no_fault(papers: Papers, command: str) -> None:
    run = subprocess.run(["qpdf", "--check", str(papers[command][0])], capture_output=True, text=True, check=False)
    assert run.returncode == 0 and "WARNING" not in run.stdout + run.stderr, run.stdout + run.stderr


@pytest.mark.parametrize("command", COMMANDS)
def test_fonts_are_embedded_and_no_glyph_is_missing(papers: Papers, command: str) -> None:
    path, _ = papers[command]
    assert fonts_without_file(path) == []
    with pikepdf.open(path) as pdf:
        assert not any(re.search(rb"Helvetica|Times|Courier", str(one).encode()) for one in names_of_fonts(pdf))
    text = read_back(path).text
    assert len(text) > 500 and not re.search("[\ufffd\ufffe\x00\ue000-\uf8ff]", text)


def names_of_fonts(pdf: pikepdf.Pdf) -> list[str]:
    fonts = [one for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/Font"]
    return [str(font.get("/BaseFont")) for font in fonts]


@pytest.mark.parametrize("command", COMMANDS)
def test_the_label_of_each_page_is_the_number_printed_on_it(papers: Papers, command: str) -> None:
    path, _ = papers[command]
    read, labels = read_back(path), pypdf.PdfReader(path).page_labels
    assert len(labels) == len(read.pages)
    for label, page in zip(labels, read.pages, strict=True):
        printed = re.search(rf"Page (\d+) of {len(labels)}(?!\d)", page)
        assert printed and printed[1] == label


@pytest.mark.parametrize("command", COMMANDS)
def test_bookmarks_are_walked_in_the_order_of_pages(papers: Papers, command: str) -> None:
    pages = [page for _, _, page in read_back(papers[command][0]).outline]
    assert pages == sorted(pages) and (pages or command == "inspection")


@pytest.mark.parametrize("command", COMMANDS)
def test_no_page_is_mostly_empty_and_no_heading_stands_alone(papers: Papers, command: str) -> None:
    path, _ = papers[command]
    assert headings_alone(path) == []
    shares = filled(path)
    outline = read_back(path).outline
    starts = {title: page for _, title, page in outline}
    last_of_walls = {page - 1 for level, _, page in outline if level == 0} if command == "brief" else set()
    early = {starts[title] - 1 for title in ENDS_EARLY.get(command, ())}
    empty = [number for number, share in enumerate(shares[:-1], start=1) if share < 0.5 and number not in early]
    assert min(share for number, share in enumerate(shares, start=1) if number not in last_of_walls) > 0.1
    assert not empty or command in MAY_BE_SHORT, f"mostly empty: {empty}"


@pytest.mark.parametrize("command", COMMANDS)
def test_no_text_runs_over_other_text(papers: Papers, command: str) -> None:
    for number, boxes in enumerate(read_back(papers[command][0]).boxes, start=1):
        assert not overlapping(boxes), f"page {number}"


def test_the_same_bytes_again(papers: Papers, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """From another folder and another zone of time; of those left out the bytes are held between processes by
    tests/hostile/test_sameness.py."""
    elsewhere = Path(shutil.copytree(EXAMPLE, tmp_path / "another place" / EXAMPLE.name))
    monkeypatch.setitem(os.environ, "TZ", "Pacific/Auckland")
    for command in set(COMMANDS) - {"submittal", "inspection", "counter", "brief", "worksheet"}:
        again = write_paper(command, tmp_path / f"{command}.pdf", elsewhere)
        assert again.read_bytes() == papers[command][0].read_bytes(), command


def test_a_heading_alone_and_an_empty_page_would_be_seen(tmp_path: Path) -> None:
    canvas = Canvas(str(tmp_path / "alone.pdf"), pagesize=(612, 792))
    for number, lines in enumerate((1, 6)):
        canvas.bookmarkHorizontal(f"k{number}", 0, 700 if lines > 1 else 114)
        canvas.addOutlineEntry(f"Heading {number}", f"k{number}")
        for line in range(lines):
            canvas.drawString(54, (690 if lines > 1 else 100) - 14 * line, "A heading or what stands under it")
        canvas.showPage()
    canvas.save()
    assert headings_alone(tmp_path / "alone.pdf") == [("Heading 0", 1)]
    first, second = filled(tmp_path / "alone.pdf")
    assert first > 0.9 and 0.05 < second < 0.3
