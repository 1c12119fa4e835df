"""What stops a document from being written."""

from __future__ import annotations

_SHOWN = 120


class DocumentError(Exception):
    """Raised before anything is written. `text` is what could not be set, `character` the one at fault or ""."""

    def __init__(self, message: str, text: str = "", character: str = "") -> None:
        self.text, self.character = text, character
        super().__init__(message)


def no_glyph(text: str, character: str, face: str) -> DocumentError:
    shown = text if len(text) <= _SHOWN else f"{text[:_SHOWN]}…"
    return DocumentError(
        f"the character {character!r} (U+{ord(character):04X}) in {shown!r} has no shape in the typeface {face}; "
        "write the text in Latin, Greek or Cyrillic letters",
        text,
        character,
    )
