"""Every paper can be walked by a screen reader: headings, paragraphs, tables and pictures in the order of reading.

What is asked for is that of ISO 32000-1, 14.6 to 14.8, recalled; test_accessibility.py asks validators of PDF/UA.
"""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checked import Checked
from compliance.documents.elements.theme import CELL
from compliance.documents.figures.drawing_block import DrawingBlock
from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Words, Worked
from compliance.documents.page.sheet import Sheet
from compliance.documents.tagging.structure_tree import Structure
from compliance.report.marks import Mark
from compliance.units import Writer
from tests.documents.papers import COMMANDS, Papers
from tests.documents.reading_back import read_back
from tests.documents.structure_back import STANDARD, Element, Tagged, tagged

WORDS = {mark.value.word for mark in Mark}


@pytest.fixture(params=COMMANDS)
def paper(request: pytest.FixtureRequest, papers: Papers) -> tuple[Path, list[Any]]:
    return papers[request.param]


Paper = tuple[Path, list[Any]]


def test_the_document_says_that_it_is_marked_and_in_which_language(paper: Paper) -> None:
    found = tagged(paper[0])
    assert bool(found.root.MarkInfo.Marked) and str(found.root.Lang) == "en"
    assert (
        found.elements[0].kind == "Document" and found.elements[0].entries.P.objgen == found.root.StructTreeRoot.objgen
    )
    assert {one.kind for one in found.elements} <= STANDARD


def test_marks_and_elements_lead_to_each_other(paper: Paper) -> None:
    found = tagged(paper[0])
    of_elements = {mark: one for one in found.elements for mark in one.marks}
    assert len(of_elements) == sum(len(one.marks) for one in found.elements), "a mark belongs to two elements"
    for index, page in enumerate(found.pages):
        assert page.key is not None and not page.faults
        owners = list(found.owners[page.key])
        assert sorted(page.painted) == list(range(len(owners))), "each mark is drawn, and each is known"
        for number, owner in enumerate(owners):
            assert of_elements.pop((index, number)).entries.objgen == owner.objgen
    assert not of_elements, "an element names what is not on the page"


def test_all_that_is_drawn_is_read_or_decoration(paper: Paper) -> None:
    assert not [(number, page.bare) for number, page in enumerate(tagged(paper[0]).pages, start=1) if page.bare]


def test_links_and_fields_stand_where_they_are_read(paper: Paper) -> None:
    """But for the links of what is repeated on a further page of a table."""
    found = tagged(paper[0])
    of_notes = {note: one for one in found.elements for note in one.notes}
    kinds = {"/Link": "Link", "/Widget": "Form"}
    repeated, read = [], set()
    for page in found.pages:
        for note in page.notes:
            if "/StructParent" not in note:
                assert note.Subtype == "/Link"
                repeated.append(str(note.Dest[0].objgen))
                continue
            element = of_notes.pop(note.objgen)
            assert element.kind == kinds[str(note.Subtype)]
            assert found.owners[int(note.StructParent)].objgen == element.entries.objgen
            read |= {str(note.Dest[0].objgen)} if note.Subtype == "/Link" else set()
    assert not of_notes and set(repeated) <= read
    assert {one.kind for one in found.elements if one.notes} <= {"Link", "Form"}


def test_headings_are_the_bookmarks(paper: Paper) -> None:
    found = tagged(paper[0])
    headings = [(int(one.kind[1:]) - 1, one.text("T")) for one in found.of_kind("H1", "H2", "H3")]
    assert headings == [(level, title) for level, title, _ in read_back(paper[0]).outline]
    assert all(texts(found, one) or one.kids[0].kind == "Figure" for one in found.of_kind("H1", "H2", "H3"))


def texts(found: Tagged, one: Element) -> int:
    """How many texts are shown in it, and in what it holds."""
    own = sum(found.pages[page].shown[number] for page, number in one.marks)
    return own + sum(texts(found, kid) for kid in one.kids)


def test_tables_are_rows_of_cells(paper: Paper) -> None:
    found = tagged(paper[0])
    within = {"TR": {"Table"}, "TH": {"TR"}, "TD": {"TR"}, "Table": {"Document"}, "P": {"Document"}}
    for one in found.elements:
        assert one.parent is None or one.parent.kind in within.get(one.kind, {one.parent.kind})
        if one.kind in ("Table", "TR"):
            assert one.kids and not one.marks
        if one.kind == "Table":
            heads = [{cell.kind for cell in row.kids} == {"TH"} and len(row.kids) > 1 for row in one.kids]
            assert heads == sorted(heads, reverse=True), "titles are read once, before the rows"
            assert heads[0] or all(row.kids[0].kind == "TH" for row in one.kids), "something names the cells"
            assert len({across(row) for row in one.kids}) == 1


def across(row: Element) -> int:
    return sum(int(cell.entries.get("/A", {}).get("/ColSpan", 1)) for cell in row.kids)


def test_every_picture_says_what_it_shows(paper: Paper) -> None:
    path, story = paper
    figures = tagged(path).of_kind("Figure")
    assert all(len(one.text("Alt")) > 3 and one.marks for one in figures)
    assert len(figures) == sum(pictures(one) for one in story)
    drawn = [one for one in figures if one.text("Alt") not in WORDS]
    assert len({one.text("Alt") for one in drawn}) == len(drawn), "no two pictures say the same"
    for one in figures:
        left, bottom, right, top = (float(edge) for edge in one.entries.A.BBox)
        assert 0 <= left < right <= 1224 and 0 <= bottom < top <= 842


def pictures(one: Any) -> int:
    """Drawings, plots and signs without a word among the parts that a paper is made of."""
    if isinstance(one, DrawingBlock):
        return 1
    rows = [*one.lead, *one._rows] if isinstance(one, Sheet) else []
    parts = [part for row in rows for cell in row.cells for part in cell.parts]
    return sum(isinstance(line.ink, Figure) for part in parts for line in part.lines(400.0))


def test_the_elevations_of_the_example_say_its_walls(papers: Papers, checked_example: Checked) -> None:
    said = [one.text("Alt") for one in tagged(papers["submittal"][0]).of_kind("Figure")]
    write = Writer(checked_example.project.project.units).write
    for mark, wall in checked_example.project.walls.items():
        (alt,) = [one for one in said if one.startswith(f"Elevation of {mark},")]
        assert wall.height and f" {write(checked_example.facts.views[mark].place.line.length, 'length')} long," in alt
        assert f" {write(wall.height.si, 'length')} high" in alt
        assert all(f"{name} a {one.kind}" in alt for name, one in wall.openings.items())


def test_the_drawings_of_the_example_as_worked_by_hand(papers: Papers) -> None:
    """W1 runs from (0, 0) to (24 ft, 0), 8 ft high, with two windows and a door; W6 is too high and too slender."""
    said = {one.text("Alt") for one in tagged(papers["submittal"][0]).of_kind("Figure")}
    (first,) = [one for one in said if one.startswith("Elevation of W1,")]
    assert "24 ft long, 8 ft high" in first and "3 openings (N1 a window, D1 a door, N2 a window)" in first
    assert "Nothing is marked as beyond a limit." in first
    (tall,) = [one for one in said if one.startswith("Elevation of W6,")]
    assert "11 ft 6 in high" in tall and "Marked as beyond a limit: B7 at wall W6" in tall
    (plot,) = [one for one in said if one.startswith("Plot. Set T1")]
    assert "6 results" in plot and "1 set aside by a rule" in plot and "governs 114.6 psi" in plot


def test_a_picture_without_words_is_refused() -> None:
    """By the type checker where they are left out, when it is drawn where they are empty."""
    structure = Structure()
    with pytest.raises(ValueError, match="in words"):
        structure.figure(structure.document, "  ", (0.0, 0.0, 1.0, 1.0))
    with pytest.raises(TypeError):
        Figure(lambda *_: None)  # type: ignore[call-arg]


@pytest.mark.skipif(shutil.which("pdfinfo") is None, reason="pdfinfo of poppler is not installed")
@pytest.mark.parametrize("command", ["counter", "brief", "inspection"])
def test_another_reader_finds_the_words_of_the_pages_in_the_structure(papers: Papers, command: str) -> None:
    """poppler reads the text of each element out, without figures here: whole words, none run together, none lost but
    those of the running lines."""
    path = papers[command][0]
    run = subprocess.run(
        ["pdfinfo", "-struct-text", str(path)], capture_output=True, encoding="utf-8", errors="replace", check=True
    )
    read: list[str] = []
    figure = 0
    for line in run.stdout.splitlines():
        indent = len(line) - len(line.lstrip())
        figure = 0 if indent <= figure else figure
        if line.lstrip().startswith("Figure"):
            figure = indent
        elif not figure and line.lstrip().startswith('"'):
            read += line.strip()[1:-1].split()
    printed = read_back(path).text.split()
    assert len(read) > 300 and set(read) <= set(printed)
    pages = len(tagged(path).pages)
    drawn = sum(texts(tagged(path), one) for one in tagged(path).of_kind("Figure"))
    assert len(printed) - len(read) <= 90 * pages + 12 * drawn


@given(st.lists(st.text("abcdefg-0123 ", min_size=1, max_size=40), min_size=1, max_size=4), st.floats(12, 200))
def test_lines_put_together_again_are_the_text(parts: list[str], width: float) -> None:
    """With a blank after each line but one whose last word goes on in the next: so it is read out."""
    text = "\n".join(parts)
    lines = Words(text, CELL).lines(width)
    again = "".join(line.text if line.cut else f"{line.text} " for line in lines)
    assert again.split() == text.split()
    worked = Worked(f"What it is: a = {parts[0]} = b", CELL)
    again = "".join(line.text if line.cut else f"{line.text} " for line in worked.lines(width))
    assert again.split() == worked.text.split()
