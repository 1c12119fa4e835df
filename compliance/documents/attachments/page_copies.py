"""Pages of another PDF as drawings of ours: contents and visible notes are copied, whatever acts is left behind."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import Any

from reportlab.pdfbase.pdfdoc import (
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFObject,
    PDFObjectReference,
    PDFStream,
    PDFZCompress,
)

from compliance.record import record

Matrix = tuple[float, float, float, float, float, float]
_DEEPEST = 120
_LEFT_BEHIND = {"/Length", "/StructParent", "/StructParents"}
_HIDDEN = 2 | 32


@record
class PageForms:
    """A page upright with its lower left corner at (0, 0), `width` by `height` points: `forms` are drawn in turn, each
    under its matrix. `box` is what shows of the page, in the coordinates of the first form."""

    width: float
    height: float
    box: tuple[float, float, float, float]
    forms: tuple[tuple[str, Matrix], ...]


class _Leaf(PDFObject):  # type: ignore[misc]
    """A name, number or string, written as its reader writes it."""

    def __init__(self, data: bytes) -> None:
        self._data = data

    def format(self, doc: Any) -> bytes:
        return self._data


class Copy:
    """Copies objects of one attached file into a document, each once. Without a document it only tries."""

    def __init__(self, key: str, doc: Any = None) -> None:
        self._key, self._doc = key, doc
        self._known: set[tuple[int, int]] = set()

    def page(self, page: Any, number: int = 0) -> PageForms:
        """The forms of a page. Raises ValueError for a page without an area or objects nested without end."""
        left, bottom, right, top = (float(edge) for edge in page.cropbox)
        left, right, bottom, top = min(left, right), max(left, right), min(bottom, top), max(bottom, top)
        if right - left < 1 or top - bottom < 1:
            raise ValueError("a page has no area")
        upright, width, height = _upright((left, bottom, right, top), page.rotation % 360)
        body = PDFDictionary({"Resources": self._value(page.get("/Resources"), 0) or PDFDictionary()})
        if "/Group" in page:
            body["Group"] = self._value(page["/Group"], 0)
        contents = b"\n".join(_contents(page.get("/Contents")))
        forms = [(self._form(f"{number}", body, contents, (left, bottom, right, top)), upright)]
        for place, note in enumerate(page.get("/Annots") or ()):
            drawn = looks(note.get_object())
            if drawn is not None:
                matrix = _after(_onto(drawn, note.get_object()["/Rect"]), upright)
                forms.append((self._note(f"{number}-{place}", drawn), matrix))
        return PageForms(width, height, (left, bottom, right, top), tuple(forms))

    def _form(self, name: str, body: Any, contents: bytes, box: Any) -> str:
        body["Type"], body["Subtype"], body["BBox"] = PDFName("XObject"), PDFName("Form"), PDFArray(list(box))
        return self._registered(name, PDFStream(body, contents, filters=[PDFZCompress]))

    def _note(self, name: str, drawn: Any) -> str:
        copied = self._stream(drawn, 0)
        copied.dictionary["Type"], copied.dictionary["Subtype"] = PDFName("XObject"), PDFName("Form")
        return self._registered(name, copied)

    def _registered(self, name: str, made: Any) -> str:
        whole = f"bound-{self._key}-{name}"
        if self._doc is not None:
            self._doc.Reference(made, self._doc.getXObjectName(whole))
        return whole

    def _value(self, one: Any, depth: int) -> Any:
        from pypdf.generic import IndirectObject, StreamObject

        if one is None:
            return None
        if depth > _DEEPEST:
            raise ValueError("objects are nested without end")
        if isinstance(one, IndirectObject):
            return self._reference(one, depth)
        if isinstance(one, StreamObject):
            return self._stream(one, depth)
        if isinstance(one, dict):
            return PDFDictionary(self._entries(one, depth))
        if isinstance(one, list):
            return PDFArray([self._value(entry, depth + 1) for entry in list.__iter__(one)])
        return _Leaf(_written(one))

    def _reference(self, one: Any, depth: int) -> Any:
        key = (one.idnum, one.generation)
        if key not in self._known:
            self._known.add(key)  # before its value: an object may lead back to itself
            made = self._value(one.get_object(), depth + 1)
            if self._doc is not None:
                self._doc.Reference(made, self._name(key))
        return PDFObjectReference(self._name(key))

    def _name(self, key: tuple[int, int]) -> str:
        return f"bound-{self._key}-object-{key[0]}-{key[1]}"

    def _entries(self, one: dict[str, Any], depth: int) -> dict[str, Any]:
        if not all(name.isascii() for name in one):
            raise ValueError("a name has letters beyond ASCII")
        pairs = ((name, entry) for name, entry in dict.items(one) if name not in _LEFT_BEHIND)
        return {name[1:]: self._value(entry, depth + 1) for name, entry in pairs}

    def _stream(self, one: Any, depth: int) -> Any:
        """With its packing as it is."""
        return PDFStream(PDFDictionary(self._entries(one, depth)), one._data, filters=[])


def looks(note: Any) -> Any:
    """How a note on a page is drawn; None for one that is hidden or has no look, as links have none."""
    from pypdf.generic import StreamObject

    drawn = note.get("/AP")
    drawn = drawn.get_object().get("/N") if drawn is not None else None
    drawn = drawn.get_object() if drawn is not None else None
    if drawn is not None and not isinstance(drawn, StreamObject):
        state = drawn.get(note.get("/AS"))
        drawn = state.get_object() if state is not None else None
    hidden = int(note.get("/F", 0)) & _HIDDEN or str(note.get("/Subtype")) == "/Popup"
    return drawn if isinstance(drawn, StreamObject) and "/Rect" in note and not hidden else None


def _contents(contents: Any) -> Iterator[bytes]:
    contents = contents.get_object() if contents is not None else []
    for part in contents if isinstance(contents, list) else [contents]:
        yield part.get_object().get_data()


def _upright(box: tuple[float, float, float, float], turned: int) -> tuple[Matrix, float, float]:
    """What turns a page as its viewer does, clockwise by `turned` degrees, and its width and height then."""
    left, bottom, right, top = box
    width, height = right - left, top - bottom
    matrices: dict[int, Matrix] = {
        0: (1, 0, 0, 1, -left, -bottom),
        90: (0, -1, 1, 0, -bottom, right),
        180: (-1, 0, 0, -1, right, top),
        270: (0, 1, -1, 0, top, -left),
    }
    return (matrices[turned], height, width) if turned in (90, 270) else (matrices[turned], width, height)


def _onto(drawn: Any, rectangle: Any) -> Matrix:
    """What brings the look of a note onto its rectangle (ISO 32000-1, 12.5.5, recalled)."""
    own = tuple(float(one) for one in drawn.get("/Matrix", (1, 0, 0, 1, 0, 0)))
    x0, y0, x1, y1 = (float(one) for one in drawn["/BBox"])
    a, b, c, d, e, f = own
    corners = [(a * x + c * y + e, b * x + d * y + f) for x in (x0, x1) for y in (y0, y1)]
    left, bottom = min(x for x, _ in corners), min(y for _, y in corners)
    width, height = max(x for x, _ in corners) - left, max(y for _, y in corners) - bottom
    p, q, r, s = (float(one) for one in rectangle)
    across = abs(r - p) / width if width else 1.0
    up = abs(s - q) / height if height else 1.0
    return across, 0, 0, up, min(p, r) - left * across, min(q, s) - bottom * up


def _after(first: Matrix, then: Matrix) -> Matrix:
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j, e * g + f * i + k, e * h + f * j + m


def _written(one: Any) -> bytes:
    """As the reader writes it: reportlab would round numbers."""
    out = BytesIO()
    one.write_to_stream(out)
    return out.getvalue()
