"""The embedded typefaces: which face can set a text, how wide it runs, and the refusal of what none can set."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from functools import cache, lru_cache
from pathlib import Path
from typing import Any
from xml.sax.saxutils import escape as _escape_xml

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import SUBSETN, TTFont

from compliance.documents.page.errors import no_glyph

FONTS = Path(__file__).parent / "fonts"

TEXT, TEXT_MEDIUM, TEXT_BOLD, TEXT_ITALIC = "Text", "Text-Medium", "Text-Bold", "Text-Italic"
NARROW, NARROW_MEDIUM, NARROW_BOLD = "Narrow", "Narrow-Medium", "Narrow-Bold"

_FILES = {
    TEXT: "IBMPlexSans-Regular.ttf",
    TEXT_MEDIUM: "IBMPlexSans-Medium.ttf",
    TEXT_BOLD: "IBMPlexSans-SemiBold.ttf",
    TEXT_ITALIC: "IBMPlexSans-Italic.ttf",
    NARROW: "IBMPlexSansCondensed-Regular.ttf",
    NARROW_MEDIUM: "IBMPlexSansCondensed-Medium.ttf",
    NARROW_BOLD: "IBMPlexSansCondensed-SemiBold.ttf",
}
# The condensed cut has no Greek and no Cyrillic: such a text is set in the wide cut of the same weight.
_WIDER = {NARROW: TEXT, NARROW_MEDIUM: TEXT_MEDIUM, NARROW_BOLD: TEXT_BOLD}


_BLOCK = 100
_NO_CHARACTER = (0, 0xFEFF, 0xFFFE)
_TO_UNICODE = """/CIDInit /ProcSet findresource begin
12 dict begin
begincmap
/CIDSystemInfo
<< /Registry ({name})
/Ordering ({name})
/Supplement 0
>> def
/CMapName /{name} def
/CMapType 2 def
1 begincodespacerange
<00> <{last}>
endcodespacerange
{body}
endcmap
CMapName currentdict /CMap defineresource pop
end
end"""


class EmbeddedFace(TTFont):  # type: ignore[misc]
    """A face that raises DocumentError where a glyph is missing, whichever way a text reaches the page."""

    def __init__(self, name: str, file: Path) -> None:
        super().__init__(name, str(file), shapable=False)
        self.characters = frozenset(map(chr, self.face.charToGlyph))

    def splitString(self, text: str, doc: object, encoding: str = "utf-8") -> object:  # noqa: N802
        """As codes of the subsets of the face that `doc` embeds. Nearly every text has characters of the first alone,
        each met before; that way is taken without the calls of the other."""
        state = self.state.get(doc)
        if state is not None:
            try:
                return [(0, bytes([state.assignments[code] for code in map(ord, text)]))]
            except (KeyError, ValueError):  # a character met for the first time, or of another subset
                pass
        refuse_missing(text, self)
        return super().splitString(text, doc, encoding)

    def addObjects(self, doc: Any) -> None:  # noqa: N802
        """As the library does, with a table from codes to characters that leaves out the codes that pad a subset: they
        stand for no character, and are on no page."""
        subsets = [list(one) for one in self.state[doc].subsets] if doc in self.state else []
        super().addObjects(doc)
        for number, subset in enumerate(subsets):
            stream = doc.idToObject[f"toUnicodeCMap:{_subset_name(self, number)}"]
            stream.content = _to_unicode(_subset_name(self, number), subset)


def _subset_name(font: EmbeddedFace, number: int) -> str:
    return b"".join((SUBSETN(number), b"+", font.face.name, font.face.subfontNameX)).decode("latin-1")


def _to_unicode(name: str, subset: Sequence[int]) -> str:
    """The table in blocks of at most 100 lines (ISO 32000-1, 9.10.3, and ISO 14289-1, 7.21.7, recalled)."""
    lines = [f"<{code:02X}> <{value:04X}>" for code, value in enumerate(subset) if value not in _NO_CHARACTER]
    blocks = [lines[start : start + _BLOCK] for start in range(0, len(lines), _BLOCK)]
    body = "\n".join("\n".join((f"{len(one)} beginbfchar", *one, "endbfchar")) for one in blocks)
    return _TO_UNICODE.format(name=name, last=f"{len(subset) - 1:02X}", body=body)


def refuse_missing(text: str, face: EmbeddedFace) -> None:
    """Raises DocumentError for the first character of `text` that `face` lacks."""
    if not face.characters.issuperset(text):
        raise no_glyph(text, next(one for one in text if one not in face.characters), face.fontName)


@cache
def face(name: str) -> EmbeddedFace:
    """The face called `name`, read and registered at its first use."""
    font = EmbeddedFace(name, FONTS / _FILES[name])
    pdfmetrics.registerFont(font)
    return font


def register_faces() -> None:
    """Make every face known to reportlab by its name. Cheap after the first time."""
    for name in _FILES:
        face(name)


def clean(text: str) -> str:
    """Composed accents, blanks for tabs: the form in which texts are measured and set."""
    return unicodedata.normalize("NFC", text).replace("\t", " ").replace("\r", "")


def face_for(text: str, wanted: str) -> str:
    """The name of the face to set `text` in: the wanted one, or its wide cut. Raises DocumentError for neither."""
    plain = text.replace("\n", "")
    if face(wanted).characters.issuperset(plain):
        return wanted
    wider = _WIDER.get(wanted, wanted)
    refuse_missing(plain, face(wider))
    return wider


@lru_cache(maxsize=40_000)
def em_width(word: str, face_name: str) -> float:
    """Width of a word at a size of 1 point."""
    widths = face(face_name).face.charWidths
    return float(sum(widths.get(ord(one), 0.0) for one in word)) / 1000


def text_width(text: str, face_name: str, size: float) -> float:
    """Width in points of one line."""
    return em_width(text, face_name) * size


def escape(text: str, face_name: str = TEXT) -> str:
    """User text for a Paragraph: no markup in it is obeyed, line breaks are kept. Raises DocumentError."""
    ready = clean(text)
    face_for(ready, face_name)
    return _escape_xml(ready, {'"': "&quot;", "'": "&#39;"}).replace("\n", "<br/>")
