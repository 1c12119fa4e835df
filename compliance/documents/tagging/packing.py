"""A finished document as a file: small objects packed together, and a packed table of where each lies.

ISO 32000-1, 7.5.7 (object streams) and 7.5.8 (cross-reference streams), recalled.
"""

from __future__ import annotations

import zlib
from collections.abc import Callable, Sequence
from typing import Any

from reportlab.pdfbase import pdfdoc

from compliance.documents.tagging.metadata import metadata

Objects = list[tuple[int, bytes]]
"""Objects by their numbers, without `obj` and `endobj`."""

_HEAD = b"%PDF-1.7\n%\x93\x8c\x8b\x9e\n"
_TOGETHER = 200
"""Objects in one stream. More pack better, but a reader unpacks all for one; at most 256, for a place is one byte."""
_UP = 12  # the PNG predictor "Up", PDF's name for it
_FREE, _PLAIN, _PACKED = 0, 1, 2


_NEXT = bytes((2, 0, 0, 0, 0, 0, 1))
"""A row of the table of an object that is packed behind that of the row above."""


class _Later(pdfdoc.PDFObject):  # type: ignore[misc]
    """Holds the number of an object that is written after all others."""

    def format(self, doc: Any) -> bytes:
        return b"null"


def packed(canvas: Any, structure: Callable[[int, int], Objects]) -> bytes:
    """The document drawn on `canvas`. `structure` gives the objects of its logical structure: the root, whose number it
    is told, and others numbered from the second on."""
    doc = canvas._doc
    _prepare(doc, canvas)
    root = doc.Reference(_Later(), "structure")
    doc.Catalog.StructTreeRoot, doc.Catalog.MarkInfo = root, "<</Marked true>>"
    large, small = _formatted(doc)
    number = doc.idToObjectNumberAndVersion["structure"][0]
    small += structure(number, doc.objectcounter + 1)
    return _file(large, small, _trailer(doc))


def _prepare(doc: Any, canvas: Any) -> None:
    """As reportlab does before it writes: fonts, properties, bookmarks."""
    for font in doc.delayedFonts:
        font.addObjects(doc)
    doc.info.invariant = doc.invariant
    doc.info.digest(doc.signature)
    doc.Reference(doc.Catalog)
    doc.Reference(doc.info)
    doc.Catalog.Metadata = doc.Reference(_metadata(doc.info, canvas.is_accessible), "metadata")
    doc.Outlines.prepare(doc, canvas)
    if doc.Outlines.ready < 0:
        doc.Catalog.Outlines = None


def _metadata(info: Any, is_accessible: bool) -> Any:
    """Not compressed, as readers that look for it without unpacking ask."""
    entries = pdfdoc.PDFDictionary({"Type": pdfdoc.PDFName("Metadata"), "Subtype": pdfdoc.PDFName("XML")})
    return pdfdoc.PDFStream(entries, metadata(info, is_accessible))


def _formatted(doc: Any) -> tuple[Objects, Objects]:
    """Objects to stand alone, and those to be packed. Formatting one may make more. The properties stand alone, so that
    whose file it is can be seen without unpacking."""
    large: Objects = []
    small: Objects = []
    number = 1
    while number in doc.numberToId:
        one = doc.idToObject[doc.numberToId[number]]
        if not isinstance(one, _Later):
            data = pdfdoc.format(one, doc, toplevel=1)
            alone = one is doc.info or data.endswith(b"endstream\n")
            (large if alone else small).append((number, data))
        number += 1
    return large, small


def _trailer(doc: Any) -> str:
    root, info = (doc.idToObjectNumberAndVersion[one.__InternalName__][0] for one in (doc.Catalog, doc.info))
    digest = doc.signature.hexdigest()
    return f"/Root {root} 0 R/Info {info} 0 R/ID[<{digest}><{digest}>]"


def _file(large: Objects, small: Objects, trailer: str) -> bytes:
    after = max(number for number, _ in (*large, *small)) + 1
    streams = [small[start : start + _TOGETHER] for start in range(0, len(small), _TOGETHER)]
    rows = {0: _row(_FREE, 0, 255)}
    for index, together in enumerate(streams, start=after):
        large.append((index, _object_stream(together)))
        for place, (number, _) in enumerate(together):
            rows[number] = _row(_PACKED, index, place)
    parts, offset = [_HEAD], len(_HEAD)
    for number, data in large:
        rows[number] = _row(_PLAIN, offset)
        parts += (b"%d 0 obj\n" % number, data, b"" if data.endswith(b"\n") else b"\n", b"endobj\n")
        offset += sum(map(len, parts[-4:]))
    last = after + len(streams)
    rows[last] = _row(_PLAIN, offset)
    table = _table([rows[number] for number in range(last + 1)], trailer)
    end = b"\nendobj\nstartxref\n%d\n%%%%EOF\n" % offset
    return b"".join((*parts, b"%d 0 obj\n" % last, table, end))


def _row(kind: int, where: int, place: int = 0) -> bytes:
    """Of the table: an object plain at an offset, or packed in an object stream at a place."""
    return bytes((kind,)) + where.to_bytes(4, "big") + bytes((place,))


def _object_stream(together: Objects) -> bytes:
    places, offset = [], 0
    for number, data in together:
        places.append(f"{number} {offset} ")
        offset += len(data) + 1
    head = "".join(places).encode()
    body = b"\n".join([head, *(data for _, data in together)])
    return _stream(f"/Type/ObjStm/N {len(together)}/First {len(head) + 1}", body) + b"\n"


def _table(rows: Sequence[bytes], trailer: str) -> bytes:
    """Each row as what it differs by from the row above it: rows of objects packed one after the other differ alike."""
    wording, above = [], bytes(6)
    for row in rows:
        if row[:5] == above[:5] and row[5] == above[5] + 1:
            wording.append(_NEXT)
        else:
            wording.append(bytes((2, *((new - old) % 256 for new, old in zip(row, above, strict=True)))))
        above = row
    how = f"/Type/XRef/Size {len(rows)}/W[1 4 1]/DecodeParms<</Predictor {_UP}/Columns 6>>{trailer}"
    return _stream(how, b"".join(wording))


def _stream(entries: str, body: bytes) -> bytes:
    data = zlib.compress(body)
    return f"<<{entries}/Filter/FlateDecode/Length {len(data)}>>\nstream\n".encode() + data + b"\nendstream"
