"""Objects packed into a file and the structure written into it, read back by pikepdf, qpdf's own reader.

Of ISO 32000-1, 7.5.7, 7.5.8, 7.9.2 and 14.7, recalled. The numbers are plain ones.
"""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from reportlab.lib.utils import ImageReader

from compliance.documents.page.faces import TEXT, register_faces
from compliance.documents.tagging.structure_tree import Structure, text_entry
from compliance.documents.tagging.tagged_canvas import TaggedCanvas
from tests.tries import tries


def canvas(out: BytesIO) -> TaggedCanvas:
    register_faces()
    return TaggedCanvas(out, places={"there": 1}, only_counts=False, invariant=1, initialFontName=TEXT, lang="en")


def opened(made: TaggedCanvas, out: BytesIO) -> Any:
    made.save()
    return pikepdf.open(BytesIO(out.getvalue()))


@settings(max_examples=tries(40), deadline=None)
@given(st.text(max_size=60))
def test_a_text_of_any_letters_comes_back(text: str) -> None:
    text = "".join(one for one in text if not "\ud800" <= one <= "\udfff")
    read = pikepdf.Object.parse(f"<<{text_entry('Alt', text)}>>".encode())
    assert str(read["/Alt"]) == text


@pytest.mark.parametrize("count", [1, 150, 700])
def test_many_objects_are_all_found_again(count: int) -> None:
    """More than fit into one object stream, a picture among them, which is never packed."""
    out = BytesIO()
    made = canvas(out)
    made.bookmarkHorizontal("there", 0, 700)
    for number in range(count):
        made.begin(made.paragraph())
        made.link("there", (10.0 + number / 8, 20.0, 30.5 + number / 8, 40.0))
        made.drawString(20, 20, f"{number}")
        made.end()
    made.begin_decoration()
    made.drawImage(ImageReader(Image.new("RGB", (3, 2), (200, 100, 0))), 50, 50)
    made.end()
    pdf = opened(made, out)
    assert not pdf.check_pdf_syntax()
    links = list(pdf.pages[0].Annots)
    assert [float(one.Rect[2]) for one in links] == [30.5 + number / 8 for number in range(count)]
    assert all(one.Dest[0].objgen == pdf.pages[0].obj.objgen for one in links)
    paragraphs = list(pdf.Root.StructTreeRoot.K.K) if count > 1 else [pdf.Root.StructTreeRoot.K.K]
    assert len(paragraphs) == count
    assert {str(one.S) for one in paragraphs} == {"/P"}
    picture = next(iter(pdf.pages[0].Resources.XObject.values()))
    assert (int(picture.Width), int(picture.Height)) == (3, 2)


def test_what_draws_nothing_leaves_no_mark() -> None:
    out = BytesIO()
    made = canvas(out)
    empty, said = made.paragraph(), made.paragraph()
    made.begin(empty)
    made.end()
    made.begin_decoration()
    made.end()
    made.begin(said)
    made.drawString(20, 20, "said")
    made.end()
    assert empty.kids == [] and said.kids == [0]
    pdf = opened(made, out)
    operators = [str(one.operator) for one in pikepdf.parse_content_stream(pdf.pages[0])]
    assert operators.count("BDC") == operators.count("EMC") == 1 and "BMC" not in operators


def test_a_paragraph_over_two_pages_names_the_second() -> None:
    out = BytesIO()
    made = canvas(out)
    one = made.paragraph()
    for text in ("begins", "ends"):
        made.begin(one)
        made.drawString(20, 20, text)
        made.end()
        made.showPage()
    pdf = opened(made, out)
    first, second = pdf.Root.StructTreeRoot.K.K.K
    assert first == 0 and pdf.Root.StructTreeRoot.K.K.Pg.objgen == pdf.pages[0].obj.objgen
    assert second.Type == "/MCR" and second.MCID == 0 and second.Pg.objgen == pdf.pages[1].obj.objgen
    owners = list(pdf.Root.StructTreeRoot.ParentTree.Nums)
    assert [owners[0], owners[2]] == [page.obj.StructParents for page in pdf.pages]
    assert owners[1][0].objgen == owners[3][0].objgen == pdf.Root.StructTreeRoot.K.K.objgen


def test_a_pass_that_counts_writes_nothing() -> None:
    out = BytesIO()
    register_faces()
    made = TaggedCanvas(out, places={}, only_counts=True, initialFontName=TEXT)
    made.drawString(20, 20, "counted")
    made.save()
    assert out.getvalue() == b""


def test_a_heading_too_deep_is_refused() -> None:
    structure = Structure()
    with pytest.raises(IndexError):
        structure.heading(structure.document, "Deep", 4)
