"""The plan, an elevation or a section alone: the same lines and letters as SVG and as PDF."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pypdfium2
import pytest

from compliance.documents.lone_drawings.svg_canvas import SvgCanvas
from tests.conftest import EXAMPLE, HEAD, Write
from tests.unit.test_cli import run

SVG = "{http://www.w3.org/2000/svg}"
VIEWS = {"plan": [], "elevation": ["W3"], "section": ["W6", "--section"], "curved": ["W2"]}


def letters_of_svg(path: Path) -> list[str]:
    return [text.text or "" for text in ElementTree.parse(path).getroot().iter(f"{SVG}text")]


@pytest.mark.parametrize("view", VIEWS)
def test_both_files_say_the_same(tmp_path: Path, view: str) -> None:
    svg, pdf = tmp_path / "a.svg", tmp_path / "a.pdf"
    for path in (svg, pdf):
        ran = run("plan", str(EXAMPLE), *VIEWS[view], "--output", str(path))
        assert ran.returncode == 0, ran.stdout + ran.stderr
    page = " ".join(" ".join(one.get_textpage().get_text_range().split()) for one in pypdfium2.PdfDocument(pdf))
    said = letters_of_svg(svg)
    assert len(said) > 15
    missing = [text for text in said if " ".join(text.split()) not in page]
    assert missing == []


def test_the_picture_says_what_it_shows_and_holds_no_script(tmp_path: Path) -> None:
    path = tmp_path / "a.svg"
    run("plan", str(EXAMPLE), "--output", str(path))
    root = ElementTree.parse(path).getroot()
    assert root.attrib["role"] == "img"
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None and title.text == "Plan of the walls at the foot of the earth"
    assert desc is not None and "W7" in (desc.text or "")
    assert {re.sub(r"^{.*}", "", one.tag) for one in root.iter()} <= {
        "svg", "title", "desc", "rect", "g", "path", "text", "clipPath",
    }  # fmt: skip
    assert any("no survey, no design" in text for text in letters_of_svg(path))


def test_marks_stand_where_they_are_as_markup(project: Write, tmp_path: Path) -> None:
    folder = project(
        "walls:\n  W1: {name: '<script>&', run: {from: [0 ft, 0 ft], to: [20 ft, 0 ft]}, height: 8 ft, "
        "thickness: 16 in, mix: M1}\n",
        head=HEAD,
    )
    path = tmp_path / "a.svg"
    assert run("plan", str(folder), "W1", "--output", str(path)).returncode == 0
    assert "<script" not in path.read_text(encoding="utf-8")
    assert any("<script>&" in text for text in letters_of_svg(path))


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (["--section"], "--section needs a wall"),
        (["W33"], "W33"),
        (["--output", "a.png"], "ends in .svg or .pdf"),
    ],
)
def test_refusals(args: list[str], says: str) -> None:
    ran = run("plan", str(EXAMPLE), *args)
    assert ran.returncode == 2 and says in ran.stdout + ran.stderr


def test_lines_of_the_page_become_paths() -> None:
    canvas = SvgCanvas(100.0, 50.0, "t")
    canvas.addLiteral("0.500 w 1.0000 0.0000 0.0000 RG [3 2] 0 d 1 2 m 3 4 l S")
    canvas.addLiteral("0.0000 0.0000 1.0000 rg 0 0 10 5 re f*")
    text = canvas.text()
    assert '<path d="M1 2L3 4" fill="none" stroke="#ff0000" stroke-width="0.500" stroke-dasharray="3 2"/>' in text
    assert '<path d="M0 0h10v5h-10Z" fill="#0000ff" fill-rule="evenodd"/>' in text
    with pytest.raises(ValueError, match="operator"):
        canvas.addLiteral("1 2 m 3 4 l b*")
