"""Text fields a reader can fill in on screen, with an embedded face, so that no font is left to the viewer."""

from __future__ import annotations

from typing import Any

from reportlab.pdfbase.pdfdoc import PDFArray, PDFDictionary, PDFName, PDFObject, PDFStream, PDFString, PDFZCompress

from compliance.documents.page.faces import FONTS, TEXT, face

_FONT = "Form"
_SIZE = 9
_PRINTS = 4
_FIRST, _LAST = 32, 255
_NONSYMBOLIC = 32
_APPEARANCE = f"/{_FONT} {_SIZE} Tf 0 g"


class _Form(PDFObject):  # type: ignore[misc]
    """The document's one form: its fields, and the face they are filled in with."""

    def __init__(self, doc: Any) -> None:
        self.fields: list[Any] = []
        self.font = doc.Reference(_whole_face(doc), "form-font")

    def format(self, doc: Any) -> Any:
        resources = PDFDictionary({"Font": PDFDictionary({_FONT: self.font})})
        entries = {"Fields": PDFArray(self.fields), "DA": PDFString(_APPEARANCE), "DR": resources}
        return PDFDictionary(entries).format(doc)


def text_field(canvas: Any, name: str, tip: str, area: tuple[float, float, float, float]) -> None:
    """An empty field called `name` over `area` (left, bottom, right, top, in the current coordinates)."""
    doc = canvas._doc
    if not hasattr(doc._catalog, "AcroForm") or doc._catalog.AcroForm is None:
        doc._catalog.AcroForm = _Form(doc)
    form: _Form = doc._catalog.AcroForm
    left, bottom = canvas.absolutePosition(area[0], area[1])
    right, top = canvas.absolutePosition(area[2], area[3])
    widget = PDFDictionary(
        {
            "Type": PDFName("Annot"), "Subtype": PDFName("Widget"), "FT": PDFName("Tx"), "F": _PRINTS,
            "T": PDFString(name), "TU": PDFString(tip), "V": PDFString(""), "DA": PDFString(_APPEARANCE),
            "Rect": PDFArray([left, bottom, right, top]),
            "AP": PDFDictionary({"N": doc.Reference(_empty(right - left, top - bottom), f"form-look-{name}")}),
        }
    )  # fmt: skip
    parent = canvas.field(f"form-{name}")
    if parent is not None:
        widget["StructParent"] = parent
    canvas._addAnnotation(widget, f"form-{name}")
    form.fields.append(doc.refAnnotation(f"form-{name}"))


def _empty(width: float, height: float) -> Any:
    look = PDFDictionary(
        {"Type": PDFName("XObject"), "Subtype": PDFName("Form"), "BBox": PDFArray([0, 0, width, height])}
    )
    return PDFStream(look, "/Tx BMC EMC")


def _whole_face(doc: Any) -> Any:
    """The text face, embedded whole: what will be typed is not known."""
    font = face(TEXT).face
    name = PDFName(font.name.decode("ascii"))
    characters = [bytes([code]).decode("cp1252", errors="ignore") for code in range(_FIRST, _LAST + 1)]
    widths = [font.charWidths.get(ord(one), font.defaultWidth) if one else font.defaultWidth for one in characters]
    file = PDFStream(content=(FONTS / "IBMPlexSans-Regular.ttf").read_bytes(), filters=[PDFZCompress])
    file.dictionary["Length1"] = len(file.content)
    descriptor = PDFDictionary(
        {
            "Type": PDFName("FontDescriptor"), "FontName": name, "Flags": _NONSYMBOLIC,
            "FontBBox": PDFArray(font.bbox), "ItalicAngle": 0, "Ascent": font.ascent, "Descent": font.descent,
            "CapHeight": font.capHeight, "StemV": font.stemV, "FontFile2": doc.Reference(file, "form-font-file"),
        }
    )  # fmt: skip
    return PDFDictionary(
        {
            "Type": PDFName("Font"), "Subtype": PDFName("TrueType"), "BaseFont": name,
            "FirstChar": _FIRST, "LastChar": _LAST, "Widths": PDFArray(widths),
            "Encoding": PDFName("WinAnsiEncoding"), "FontDescriptor": doc.Reference(descriptor, "form-font-descriptor"),
        }
    )  # fmt: skip
