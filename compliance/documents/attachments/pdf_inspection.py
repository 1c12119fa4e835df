"""Looking over an attached PDF before it is bound in: whole, open, without scripts, hidden layers or lost entries."""

from __future__ import annotations

import logging
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from typing import Any

from compliance.documents.attachments.attached_faces import unreadable_faces
from compliance.documents.attachments.page_copies import Copy, looks
from compliance.record import record
from compliance.refused import RefusedError, error_words

MOST_PAGES = 200
_MOST_OBJECTS = 200_000
_MOST_UNPACKED = 150_000_000
_CHUNK = 1 << 20
_ACTIVE = {"/JavaScript", "/Launch", "/SubmitForm", "/ImportData", "/Rendition", "/Movie", "/Sound", "/GoToE"}
_CARRIERS = {"/JS", "/JavaScript", "/XFA", "/RichMediaContent", "/EmbeddedFiles", "/EF"}
_AGAIN = "open it, print it to a new PDF, and attach that"


@record
class Letter:
    """The pages of an attached PDF, as its reader gives them; `unreadable` names its faces whose letters cannot be read
    out."""

    pages: tuple[Any, ...]
    unreadable: tuple[str, ...] = ()


def read_letter(data: bytes, most_pages: int = MOST_PAGES) -> Letter:
    """The pages of the PDF in `data`. Raises RefusedError: `attachment-damaged`, `attachment-encrypted`,
    `attachment-pages`, `attachment-script`, `attachment-layers`, `attachment-form`, `attachment-outside`,
    `attachment-packed`."""
    from pypdf import PdfReader
    from pypdf.errors import DependencyError

    with _warnings() as warnings:
        try:
            reader = PdfReader(BytesIO(data), strict=False)
            if reader.is_encrypted:
                raise _encrypted()
            count = len(reader.pages)
            if not 0 < count <= most_pages:
                wrong = f"the PDF has {count} pages" + (f", more than {most_pages}" if count else "")
                raise RefusedError("attachment-pages", wrong, "attach only the pages that matter")
            _look_through(reader.trailer)
            _refuse_hidden_layers(reader)
            pages = tuple(reader.pages)
            for number, page in enumerate(pages, start=1):
                _refuse_lost_entries(page, number)
                Copy("").page(page)
            unreadable = unreadable_faces(pages)
        except RefusedError:
            raise
        except DependencyError as error:  # a means to decrypt, or to unpack a picture, is missing
            if "crypt" in str(error).lower():
                raise _encrypted() from None
            wrong = f"the PDF packs something in a way that cannot be looked through: {error_words(error)}"
            raise RefusedError("attachment-packed", wrong, _AGAIN) from None
        except Exception as error:  # A broken file makes the reader fail in any way it likes.
            raise _damaged(error_words(error)) from error
    if warnings:
        raise _damaged(warnings[0])
    return Letter(pages, unreadable)


def _encrypted() -> RefusedError:
    advice = "ask for a copy without a password and without restrictions"
    return RefusedError("attachment-encrypted", "the PDF is encrypted", advice)


def _damaged(wording: str) -> RefusedError:
    return RefusedError("attachment-damaged", f"the PDF is damaged: {' '.join(wording.split())[:160]}", _AGAIN)


class _Collector(logging.Handler):
    """Puts what is logged as a warning into a list."""

    def __init__(self, found: list[str]) -> None:
        super().__init__(logging.WARNING)
        self._found = found

    def emit(self, record: logging.LogRecord) -> None:
        self._found.append(record.getMessage())


@contextmanager
def _warnings() -> Iterator[list[str]]:
    """What the reader of PDFs mended or passed over, collected in place of being printed."""
    found: list[str] = []
    logger = logging.getLogger("pypdf")
    handler = _Collector(found)
    before = logger.propagate
    logger.addHandler(handler)
    logger.propagate = False
    try:
        yield found
    finally:
        logger.removeHandler(handler)
        logger.propagate = before


def _look_through(trailer: Any) -> None:
    """Every object that can be reached: nothing missing, every packed stream whole, nothing that acts."""
    from pypdf.generic import IndirectObject, NullObject, StreamObject

    seen: set[tuple[int, int]] = set()
    waiting: list[Any] = [trailer["/Root"]]
    unpacked = 0
    while waiting:
        one = waiting.pop()
        if isinstance(one, IndirectObject):
            key = (one.idnum, one.generation)
            if key in seen:
                continue
            seen.add(key)
            if len(seen) > _MOST_OBJECTS:
                raise RefusedError("attachment-pages", "the PDF holds too many objects", _AGAIN)
            one = one.get_object()
            if one is None or isinstance(one, NullObject):
                raise _damaged(f"its object {key[0]} is missing")
        if isinstance(one, StreamObject):
            unpacked += _unpacked_size(one, _MOST_UNPACKED - unpacked)
        if isinstance(one, dict):
            _refuse_active(one)
            _refuse_outside(one, isinstance(one, StreamObject))
            waiting += dict.values(one)
        elif isinstance(one, list):
            waiting += list.__iter__(one)


def _refuse_active(entries: dict[str, Any]) -> None:
    found = _CARRIERS.intersection(entries)
    if str(entries.get("/S")) in _ACTIVE:
        found.add(str(entries["/S"]))
    if found:
        wrong = f"the PDF carries scripts, actions or files ({', '.join(sorted(one[1:] for one in found))})"
        raise RefusedError("attachment-script", wrong, _AGAIN)


def _refuse_outside(entries: dict[str, Any], is_stream: bool) -> None:
    """Content that lies in another file: external streams (ISO 32000-1, 7.3.8.2), reference XObjects (8.10.4), and
    the proxies of OPI (14.11.7). What is printed would not be what was looked over."""
    found = [name for name in ("/OPI", "/F" if is_stream else "", "/Ref" if is_stream else "") if name in entries]
    if found:
        wrong = f"the PDF shows content of other files ({', '.join(one[1:] for one in found)})"
        raise RefusedError("attachment-outside", wrong, _AGAIN)


def _unpacked_size(stream: Any, room: int) -> int:
    """The size of a stream that is packed by Flate alone, unpacked to its end; 0 for any other, and an empty one."""
    if stream.get("/Filter") not in ("/FlateDecode", ["/FlateDecode"]) or not stream._data:
        return 0
    unpacker = zlib.decompressobj()
    size, waiting = 0, stream._data
    while waiting and not unpacker.eof:
        size += len(unpacker.decompress(waiting, _CHUNK))
        waiting = unpacker.unconsumed_tail
        if size > room:
            raise RefusedError("attachment-size", "the PDF unpacks to more than can be handled", _AGAIN)
    if not unpacker.eof:
        raise _damaged("a packed stream ends too early")
    return size


def _refuse_hidden_layers(reader: Any) -> None:
    """Layers that are switched off would show once the page is bound in."""
    layers = reader.trailer["/Root"].get("/OCProperties")
    shown = layers.get_object().get("/D") if layers is not None else None
    if shown is None:
        return
    shown = shown.get_object()
    if shown.get("/OFF") or str(shown.get("/BaseState")) == "/OFF":
        raise RefusedError("attachment-layers", "the PDF has layers that are switched off", _AGAIN)


def _refuse_lost_entries(page: Any, number: int) -> None:
    """A filled field without a look of its own would vanish."""
    for one in page.get("/Annots") or ():
        note = one.get_object()
        filled = note.get("/FT") and note.get("/V") not in (None, "")
        if filled and looks(note) is None:
            wrong = f"a filled field on page {number} of the PDF has no appearance and would be lost"
            raise RefusedError("attachment-form", wrong, _AGAIN)
