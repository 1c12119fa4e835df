"""Every paper passes the rules of PDF/UA-1 that a machine can check, by two validators that know nothing of each other.

`test_round_example.py` asks them of the second example. Neither sees whether a text in words
tells what its picture shows, or whether the order of reading makes sense: that needs a person.
"""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from reportlab.pdfgen.canvas import Canvas

from compliance.checking import check_folder
from compliance.documents.attachments.pdf_inspection import read_letter
from compliance.documents.submittal.bundle import write_submittal
from tests.buildings.laying_out import lay_out
from tests.buildings.reading import read_building
from tests.documents.accessibility import faults
from tests.documents.papers import COMMANDS, Papers
from tests.documents.test_attachments import book_of, bound_in, letter


@pytest.mark.parametrize("command", COMMANDS)
def test_every_paper_of_the_example(papers: Papers, command: str) -> None:
    assert faults(papers[command][0]) == []


def test_a_cottage_in_si_on_a4(tmp_path: Path) -> None:
    building = next(read_building("sound/cottage-20x14"))
    head = {**building.sections["project"], "units": "si", "paper": "a4"}
    building = replace(building, sections={**building.sections, "project": head})
    write_submittal(check_folder(lay_out(building, tmp_path / "cottage")), tmp_path / "cottage.pdf")
    assert faults(tmp_path / "cottage.pdf") == []


def test_faults_put_in_by_hand_are_seen(tmp_path: Path) -> None:
    """No title and no mark in the metadata, tables without a heading, links that do not say where they lead."""
    path, sound = tmp_path / "faulty.pdf", tmp_path / "sound.pdf"
    book_of([bound_in("words of a letter")], sound)
    assert faults(sound) == []
    with pikepdf.open(sound) as pdf:
        del pdf.Root.Metadata
        for one in pdf.objects:
            if isinstance(one, pikepdf.Dictionary) and one.get("/Subtype") == "/Link":
                del one.Contents
            if isinstance(one, pikepdf.Dictionary) and one.get("/S") == "/TH":
                one.S = pikepdf.Name.TD
        pdf.save(path)
    found = " ".join(faults(path))
    for rule in ("PDFUA1-ID-PART-001", "PDFUA1-METADATA-TITLE-001", "PDFUA1-LINK-CONTENTS-001", "UA-15-003"):
        assert rule in found


def test_links_say_in_words_where_they_lead(papers: Papers) -> None:
    """The bookmark of the place, and its page; a place with no bookmark by its page alone."""
    with pikepdf.open(papers["submittal"][0]) as pdf:
        links = [note for one in pdf.pages for note in one.get("/Annots", []) if note.Subtype == "/Link"]
        words = [str(note.Contents) for note in links]
    assert len(words) > 1000 and all(re.search(r"\bpage \d+$|\bsheet [A-Z]-\d{3}$", one) for one in words)
    assert "Design data, page " in " ".join(words)


@pytest.mark.parametrize("face", ["Helvetica", ""])
def test_an_attachment_whose_face_is_not_embedded_takes_the_mark_away(tmp_path: Path, face: str) -> None:
    """And the page says so, naming the face; a letter with its faces embedded takes nothing away."""

    def write(canvas: Canvas, _: int) -> None:
        if face:
            canvas.setFont(face, 12)
            canvas.drawString(100, 300, "set in a face of the reader's own")

    path = tmp_path / "out.pdf"
    told = book_of([bound_in(read_letter(letter(1, before=write)))], path).text
    with pikepdf.open(path) as pdf:
        packet = bytes(pdf.Root.Metadata.read_bytes())
    assert (b"pdfuaid:part" in packet) is not bool(face)
    assert ("does not bear the mark of PDF/UA" in told and "P1 (Helvetica)" in told) is bool(face)
    assert not face or any("FONT-EMBEDDING" in one for one in faults(path))
    assert face or faults(path) == []


def test_a_composite_face_without_a_table_to_characters_is_named() -> None:
    """Embedded, but its codes say nothing to a screen reader."""
    out = BytesIO()
    with pikepdf.new() as pdf:
        file = pdf.make_stream(b"no face")
        inner = pikepdf.Dictionary(
            Type=pikepdf.Name.Font, Subtype=pikepdf.Name.CIDFontType2, BaseFont=pikepdf.Name("/Odd"),
            FontDescriptor=pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.FontDescriptor, FontFile2=file)),
        )  # fmt: skip
        font = pikepdf.Dictionary(
            Type=pikepdf.Name.Font, Subtype=pikepdf.Name.Type0, BaseFont=pikepdf.Name("/Odd"),
            DescendantFonts=pikepdf.Array([pdf.make_indirect(inner)]),
        )  # fmt: skip
        pdf.add_blank_page()
        pdf.pages[0].Resources = pikepdf.Dictionary(Font=pikepdf.Dictionary(F1=pdf.make_indirect(font)))
        pdf.save(out)
    assert read_letter(out.getvalue()).unreadable == ("Odd",)
