"""The submittal of a building, and the pages of it that are kept, by the title of their bookmark."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from compliance.documents.submittal.bundle import write_submittal
from tests.documents.reading_back import read_back
from tests.pictures.buildings import BUILDINGS
from tests.pictures.comparing import Picture, pictured

REFERENCES = Path(__file__).parent / "references"


def reference(building: str, title: str) -> Path:
    return REFERENCES / f"{building}-{title.lower().replace(' ', '-')}.png"


def pages(building: str, folder: Path) -> Iterator[tuple[str, Picture]]:
    """The title and the picture of each page that is kept. Raises LookupError where the submittal has none of that
    title."""
    made, titles = BUILDINGS[building]
    path = folder / f"{building}.pdf"
    write_submittal(made(), path)
    starts = {title: page for _, title, page in reversed(read_back(path).outline)}
    for title in titles:
        if title not in starts:
            raise LookupError(f"the submittal of {building} has no bookmark {title!r}")
        yield title, pictured(path, starts[title])
