"""The faces of attached pages: which are not embedded, or do not say what their letters are.

ISO 14289-1 (PDF/UA-1), 7.21.4.1 (fonts are embedded) and 7.21.7 (codes lead to Unicode), recalled.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

_FILES = ("/FontFile", "/FontFile2", "/FontFile3")
_DEEPEST = 20


def unreadable_faces(pages: Sequence[Any]) -> tuple[str, ...]:
    """The names of such faces among the resources of the pages, of what is drawn in them and of their visible notes, in
    order, each once."""
    found = {str(font.get("/BaseFont", "/a face without a name"))[1:]: None for font in _fonts(pages) if _fails(font)}
    return tuple(sorted(found))


def _fonts(pages: Sequence[Any]) -> Iterator[Any]:
    seen: set[int] = set()
    waiting = [(page.get("/Resources"), 0) for page in pages]
    waiting += [(look, 1) for page in pages for look in _notes(page)]
    while waiting:
        resources, depth = waiting.pop()
        resources = _object(resources)
        if not isinstance(resources, dict) or id(resources) in seen or depth > _DEEPEST:
            continue
        seen.add(id(resources))
        for font in _values(resources.get("/Font")):
            yield font
            waiting += [(font.get("/Resources"), depth + 1)]
        for drawn in (*_values(resources.get("/XObject")), *_values(resources.get("/Pattern"))):
            waiting.append((drawn.get("/Resources"), depth + 1))


def _notes(page: Any) -> Iterator[Any]:
    """The resources of all looks of the notes on a page."""
    for note in _object(page.get("/Annots")) or ():
        looks = _object(_object(note).get("/AP"))
        for look in _values(looks):
            yield look.get("/Resources")
            yield from (state.get("/Resources") for state in _values(look))


def _values(entries: Any) -> list[Any]:
    entries = _object(entries)
    values = [_object(one) for one in entries.values()] if isinstance(entries, dict) else []
    return [one for one in values if isinstance(one, dict)]


def _object(one: Any) -> Any:
    return one.get_object() if hasattr(one, "get_object") else one


def _fails(font: Any) -> bool:
    kind = str(font.get("/Subtype"))
    if kind == "/Type3":
        return "/ToUnicode" not in font
    if kind == "/Type0":
        [*inner] = _object(font.get("/DescendantFonts")) or [{}]
        return "/ToUnicode" not in font or not _is_embedded(_object(inner[0]))
    return not _is_embedded(font) or ("/ToUnicode" not in font and "/Encoding" not in font)


def _is_embedded(font: Any) -> bool:
    descriptor = _object(font.get("/FontDescriptor"))
    return isinstance(descriptor, dict) and any(name in descriptor for name in _FILES)
