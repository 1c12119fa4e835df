"""Words of a person that mean something to a page, a spreadsheet, a browser or a terminal: shown, never obeyed."""

from __future__ import annotations

import csv
import io
import json
from html.parser import HTMLParser
from pathlib import Path

import pikepdf
import pytest

from tests.hostile.filled import fill, write_filled
from tests.hostile.running import Host

openpyxl = pytest.importorskip("openpyxl")
pdfium = pytest.importorskip("pypdfium2")

MARKUP = "<blink>&amp;<img src='/etc/hostname'/><a href='javascript:x'>"
FORMULA = "=cmd|' /C calc'!A0"
NO_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")


@pytest.fixture(scope="module")
def marked_up(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, int]:
    """A project with markup in every text field, and how many fields that is."""
    folder = tmp_path_factory.mktemp("marked-up")
    project, paths = fill(lambda number: f"{MARKUP}t{number}t")
    write_filled(folder / "p", project)
    return folder, len(paths)


@pytest.fixture(scope="module")
def calculating(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A project with a spreadsheet formula in every text field."""
    folder = tmp_path_factory.mktemp("calculating")
    write_filled(folder / "p", fill(lambda number: f"{FORMULA}{number}")[0])
    return folder


def test_every_text_field_is_filled(marked_up: tuple[Path, int]) -> None:
    assert marked_up[1] > 150


@pytest.mark.parametrize("command", ["submittal", "inspection", "counter", "worksheet"])
def test_markup_is_printed_as_it_stands(command: str, host: Host, marked_up: tuple[Path, int]) -> None:
    folder, _ = marked_up
    output = folder / f"{command}.pdf"
    ran = host.run([command, "p", "--output", str(output)], folder)
    assert (ran.code, ran.problems) == (0, []), ran.err[:1000]
    document = pdfium.PdfDocument(output)
    text = "".join(page.get_textpage().get_text_bounded() for page in document)
    hostname = Path("/etc/hostname")
    assert "&amp;" in text
    assert not hostname.exists() or len(hostname.read_text().strip()) < 6 or hostname.read_text().strip() not in text
    with pikepdf.open(output) as pdf:
        actions = {str(one.get("/S")) for one in pdf.objects if isinstance(one, pikepdf.Dictionary)}
    assert not actions & {"/URI", "/JavaScript", "/Launch", "/GoToR"}


class _Tags(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.links: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes.update(name for name, _ in attrs)
        self.links.update(value or "" for name, value in attrs if name in ("href", "src"))


def test_a_page_for_the_phone_shows_markup(host: Host, marked_up: tuple[Path, int]) -> None:
    folder, _ = marked_up
    ran = host.run(["checklist", "p", "--format", "html", "--output", "page.html"], folder)
    assert (ran.code, ran.problems) == (0, []), ran.err[:1000]
    found = _Tags()
    found.feed((folder / "page.html").read_text("utf-8"))
    assert not {"img", "script", "iframe", "object", "embed", "form", "link", "blink"} & found.tags
    assert not any(name.startswith("on") for name in found.attributes)
    assert all(link.startswith("#") for link in found.links), found.links


@pytest.mark.parametrize("args", [["check", "p", "--format", "csv"], ["checklist", "p", "--format", "csv"]])
def test_no_cell_begins_like_a_formula(args: list[str], host: Host, calculating: Path) -> None:
    """OWASP, CSV Injection: a cell that begins with = + - @ tab or a line end may be run by a spreadsheet."""
    out = calculating / "table.csv"
    ran = host.run([*args, *(["--output", str(out)] if args[0] == "checklist" else [])], calculating)
    assert ran.code in (0, 1), ran.err[:1000]
    text = out.read_text("utf-8-sig") if args[0] == "checklist" else ran.out
    rows = list(csv.reader(io.StringIO(text)))
    assert len(rows) > 100
    cells = [cell for row in rows for cell in row]
    assert any(FORMULA in cell for cell in cells)
    for cell in cells:
        assert not cell.startswith(NO_FORMULA) or cell.lstrip("-").replace(".", "", 1).isdigit(), cell


def test_no_cell_of_a_workbook_calculates(host: Host, calculating: Path) -> None:
    ran = host.run(["checklist", "p", "--format", "xlsx", "--output", "t.xlsx"], calculating)
    assert (ran.code, ran.problems) == (0, []), ran.err[:1000]
    book = openpyxl.load_workbook(calculating / "t.xlsx")
    kinds = [cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row]
    assert len(kinds) > 1000
    assert "f" not in kinds


@pytest.mark.parametrize("command", ["check", "limits", "blend"])
def test_nothing_reaches_the_terminal_but_characters(command: str, host: Host, marked_up: tuple[Path, int]) -> None:
    folder, _ = marked_up
    ran = host.run([command, "p"], folder)
    assert ran.code in (0, 1)
    assert all(char.isprintable() or char == "\n" for char in ran.out + ran.err)


def test_findings_stay_sound_json(host: Host, calculating: Path) -> None:
    ran = host.run(["check", "p", "--format", "json"], calculating)
    assert ran.code == 1
    assert json.loads(ran.out)["findings"]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("\x1b[31m", "yaml-control-character"), ("a\x00b", "yaml-nul"), ("a\u202eb", "yaml-control-character"),
        ("a\u200bb", "text-control"), ("a\ue000b", "text-control"), ("a\u00adb", "text-control"),
        ("x" * 4001, "text-long"),
    ],
    ids=["terminal", "nul", "turned", "zero-width", "private", "soft-hyphen", "long"],
)  # fmt: skip
def test_every_text_field_refuses(text: str, code: str, host: Host, tmp_path: Path) -> None:
    """The same character in all fields at once: nothing but its own problem is told, up to the most that are."""
    project, paths = fill(lambda number: text)
    if code == "text-long":
        project, paths = fill(lambda number: "x")
        project["project"]["name"] = text
        paths = paths[:1]
    write_filled(tmp_path / "p", project)
    ran = host.run(["submittal", "p", "--output", "o.pdf"], tmp_path)
    assert ran.code == 2
    codes = {problem.split(" ")[1] for problem in ran.problems}
    assert codes - {"too-many-problems", "yaml-too-many-problems"} == {code}
    assert len(ran.problems) >= min(len(paths), 100)
    assert not (tmp_path / "o.pdf").exists()
