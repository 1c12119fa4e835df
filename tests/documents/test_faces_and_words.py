"""Faces and lines of text: glyphs checked against the font files, widths against fontTools, lines never too wide."""

from __future__ import annotations

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from compliance.documents.elements.theme import CALCULATION, CELL
from compliance.documents.elements.tick_boxes import FewParts
from compliance.documents.page import faces
from compliance.documents.page.errors import DocumentError
from compliance.documents.page.line_breaking import Words, Worked, break_line, shortened
from compliance.units import words_of

SYMBOLS = "≤≥≠√×·−–—…½¼¾²³⁴₀₁₂₃₉σφΔΣμπηαβγρ°′″±≈"


@pytest.mark.parametrize("name", sorted(faces._FILES))
def test_glyphs_and_widths_are_those_of_the_font_file(name: str) -> None:
    """Reference: fontTools reading the same file."""
    font = TTFont(faces.FONTS / faces._FILES[name])
    table, metrics, unit = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    assert faces.face(name).characters >= {chr(code) for code in table}
    for text in ("Wall W1 16 in", "10 in (254 mm)", "ÅŁž"):
        expected = sum(metrics[table[ord(one)]][0] for one in text) / unit
        assert faces.em_width(text, name) == pytest.approx(expected, abs=0.001 * len(text))


def test_the_text_face_has_every_symbol_of_a_calculation() -> None:
    assert faces.face_for(SYMBOLS, faces.TEXT) == faces.TEXT


def test_a_text_the_condensed_cut_lacks_is_set_in_the_wide_one() -> None:
    assert faces.face_for("stress", faces.NARROW) == faces.NARROW
    assert faces.face_for("σ = P / A", faces.NARROW) == faces.TEXT
    assert faces.face_for("Стена", faces.NARROW_BOLD) == faces.TEXT_BOLD


class _SomeDocument:
    """What reportlab keeps the subsets of a face under."""


def test_a_missing_glyph_names_text_and_character() -> None:
    with pytest.raises(DocumentError, match=r"'墙' \(U\+5899\) in 'wall 墙'") as refused:
        faces.face_for("wall 墙", faces.NARROW)
    assert refused.value.text == "wall 墙" and refused.value.character == "墙"
    with pytest.raises(DocumentError):
        faces.face(faces.TEXT).splitString("墙", _SomeDocument())
    with pytest.raises(DocumentError):
        faces.escape("墙")


def test_codes_of_a_text_are_the_same_whichever_way_they_are_found() -> None:
    """More characters than one subset holds; those met before go another way than those met first."""
    wide = faces.face(faces.TEXT)
    every = "".join(sorted(wide.characters))
    texts = ["Wall W1 · 3½ in", every[:300], "Wall", every[200:400], every[300:310] + "W1"]
    document = _SomeDocument()
    for text in texts:
        wide.splitString(text, document)
    for text in texts:
        assert wide.splitString(text, document) == super(faces.EmbeddedFace, wide).splitString(text, document), text


def test_a_long_text_is_shortened_in_the_message() -> None:
    with pytest.raises(DocumentError) as refused:
        faces.face_for("x" * 4000 + "墙", faces.TEXT)
    assert len(str(refused.value)) < 400


@pytest.mark.parametrize(
    "text, escaped",
    [
        ("x <b>", "x &lt;b&gt;"),
        ("a & b", "a &amp; b"),
        ("&lt;", "&amp;lt;"),
        ('<img src="x">', "&lt;img src=&quot;x&quot;&gt;"),
        ("one\ntwo\tthree", "one<br/>two three"),
        ("it's", "it&#39;s"),
    ],
)
def test_escape(text: str, escaped: str) -> None:
    assert faces.escape(text) == escaped


LATIN = st.text(st.characters(codec="latin-1", categories=("L", "N", "P", "Zs")), max_size=300)


@given(LATIN, st.floats(20, 600))
def test_no_line_is_wider_than_its_room_and_no_word_is_lost(text: str, width: float) -> None:
    lines = break_line(text, faces.TEXT, 9.0, width)
    assert "".join("".join(lines).split()) == "".join(text.split())
    for line in lines:
        assert faces.text_width(line, faces.TEXT, 9.0) <= width + 0.01 or len(line) == 1


def test_a_number_stays_with_its_unit() -> None:
    width = faces.text_width("thickness of 16", faces.TEXT, 9.0) + 1
    assert break_line("thickness of 16 in here", faces.TEXT, 9.0, width) == ["thickness of", "16 in here"]
    width = faces.text_width("length of 6 1/2", faces.TEXT, 9.0) + 1
    assert break_line("length of 6 1/2 in", faces.TEXT, 9.0, width) == ["length of", "6 1/2 in"]


def test_only_a_number_before_a_unit_is_tied() -> None:
    plain = "in 2021 the walls W1 W2 of 6 walls"
    assert words_of(plain) == tuple(plain.split())
    assert words_of("two No. 4, at No. end") == ("two", "No. 4,", "at", "No.", "end")
    assert words_of("(16 in) 8 ft 6 1/2 in 4 in.") == ("(16 in)", "8 ft", "6 1/2 in", "4 in.")


def test_a_long_word_is_cut_after_a_hyphen() -> None:
    width = faces.text_width("rubble-trench-gr", faces.TEXT, 9.0)
    assert break_line("rubble-trench-grade-beam", faces.TEXT, 9.0, width) == ["rubble-trench-", "grade-beam"]


def test_line_breaks_of_the_user_are_kept() -> None:
    assert [line.text for line in Words("one\n\ntwo", CELL).lines(200)] == ["one", "", "two"]


def test_a_long_worked_line_is_broken_before_its_equal_signs() -> None:
    text = "Stress: σ = P / (b × d) = (3200 lbf) / ((4 in) × (4 in)) = 200 psi"
    lines = [line.text for line in Worked(text, CALCULATION).lines(150)]
    assert lines == ["Stress: σ = P / (b × d)", "= (3200 lbf) / ((4 in) × (4 in))", "= 200 psi"]
    assert [line.text for line in Worked(text, CALCULATION).lines(600)] == [text]


def test_a_list_that_is_too_long_says_how_much_is_left_out() -> None:
    parts = tuple(f"a check of some length, number {n}" for n in range(1, 21))
    lines = [line.text for line in FewParts(parts, CELL, 3).lines(300)]
    said = " ".join(lines)
    assert len(lines) == 3 and "…" not in said
    kept = said.partition("; and ")[0].split("; ")
    assert tuple(kept) == parts[: len(kept)] and said.endswith(f"; and {20 - len(kept)} more") and len(kept) > 2
    assert [line.text for line in FewParts(("one", "two"), CELL, 3).lines(300)] == ["one; two"]


def test_an_equal_sign_in_a_source_is_no_step_of_the_calculation() -> None:
    text = "Slope factor: Cs = max(0, 1 − slope) = 1  [a figure, recalled; the line Cs = 1 - (slope - 10) / 60]"
    lines = [line.text for line in Worked(text, CALCULATION).lines(150)]
    assert sum(line.startswith("=") for line in lines) == 1 and "Cs = 1 -" in " ".join(lines)


def test_shortening_ends_in_an_ellipsis_and_fits() -> None:
    text = shortened("A very long name of a project", faces.TEXT, 9.0, 80)
    assert text.endswith("…") and faces.text_width(text, faces.TEXT, 9.0) <= 80
    assert shortened("Short", faces.TEXT, 9.0, 80) == "Short"
