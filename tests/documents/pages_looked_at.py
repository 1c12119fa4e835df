"""Pages as pictures: how far down each is filled, and headings that stand alone at the foot of a page."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

import numpy as np
import numpy.typing as npt
import pypdf
import pypdfium2

Picture = npt.NDArray[np.uint8]

_SCALE = 0.5  # pixels for a point
_PALE = 215  # lighter than this is paper
_RUNNING = 62.0  # the running lines above and below, in points
_HEADING = 48.0  # from the place a bookmark leads to down to below its heading


def filled(path: Path) -> list[float]:
    """For each page the share of the height between the running lines that is filled, from above to the last ink."""
    shares = []
    for picture in _pictures(path):
        edge = int(_RUNNING * _SCALE)
        rows = np.flatnonzero((picture[edge:-edge] < _PALE).any(axis=1))
        shares.append(float(rows[-1] + 1) / (picture.shape[0] - 2 * edge) if len(rows) else 0.0)
    return shares


def headings_alone(path: Path) -> list[tuple[str, int]]:
    """Bookmarked headings under which nothing follows on their page, with the page."""
    pictures = _pictures(path)
    return [
        (title, number + 1)
        for title, number, top in _headings(pypdf.PdfReader(path))
        if not _drawn_below(pictures[number], top - _HEADING)
    ]


def _pictures(path: Path) -> list[Picture]:
    """Each page in grays. Kept for the file looked at last, as it was then."""
    state = path.stat()
    return _drawn(path, state.st_mtime_ns, state.st_size)


@lru_cache(maxsize=1)
def _drawn(path: Path, changed: int, size: int) -> list[Picture]:
    document = pypdfium2.PdfDocument(path)
    try:
        # Copied: the memory of a bitmap goes with its page.
        return [
            np.array(page.render(scale=_SCALE, grayscale=True).to_numpy(), dtype=np.uint8).squeeze()
            for page in document
        ]
    finally:
        document.close()


def _headings(reader: pypdf.PdfReader) -> list[tuple[str, int, float]]:
    found: list[tuple[str, int, float]] = []

    def walk(entries: object) -> None:
        for entry in entries:  # type: ignore[attr-defined]
            if isinstance(entry, list):
                walk(entry)
            elif entry.top is not None:
                number = reader.get_destination_page_number(entry)
                assert number is not None
                found.append((str(entry.title), number, float(entry.top)))

    walk(reader.outline)
    return found


def _drawn_below(picture: Picture, top: float) -> bool:
    """Whether there is ink between `top` and the running line below."""
    start = max(picture.shape[0] - int(top * _SCALE), 0)
    return bool((picture[start : picture.shape[0] - int(_RUNNING * _SCALE)] < _PALE).any())
