"""Reading a written PDF back with other libraries than the one that wrote it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import pikepdf
import pypdfium2

Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Read:
    """Pages as text with single blanks, the boxes of their lines of text, sizes in points, bookmarks with pages."""

    pages: list[str]
    boxes: list[list[Box]]
    sizes: list[tuple[float, float]]
    outline: list[tuple[int, str, int]]

    @property
    def text(self) -> str:
        return " ".join(self.pages)


def read_back(path: Path) -> Read:
    """The file as it is now; a file that has not changed is read once."""
    state = path.stat()
    return _read(path, state.st_mtime_ns, state.st_size)


@lru_cache(maxsize=16)
def _read(path: Path, changed: int, size: int) -> Read:
    document = pypdfium2.PdfDocument(path)
    pages, boxes, sizes = [], [], []
    for page in document:
        text = page.get_textpage()
        pages.append(" ".join(text.get_text_bounded().split()))
        boxes.append([text.get_rect(index) for index in range(text.count_rects())])
        sizes.append(page.get_size())
    outline = _outline(document)
    document.close()
    return Read(pages, boxes, sizes, outline)


def _outline(document: pypdfium2.PdfDocument) -> list[tuple[int, str, int]]:
    """(level, title, page from 1) of each bookmark in order."""
    found: list[tuple[int, str, int]] = []
    for entry in document.get_toc():
        title, place = entry.get_title(), entry.get_dest()
        page = place.get_index() if place else None
        assert page is not None, f"the bookmark {title} leads nowhere"
        found.append((entry.level, title, page + 1))
    return found


def one_line(text: str) -> str:
    return " ".join(text.split())


def fonts_without_file(path: Path) -> list[str]:
    """Names of fonts in the file that are not embedded in it."""
    with pikepdf.open(path) as pdf:
        fonts = [one for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and one.get("/Type") == "/Font"]
        return [
            str(font.get("/BaseFont"))
            for font in fonts
            if "/FontDescriptor" not in font or "/FontFile2" not in font["/FontDescriptor"]
        ]


def overlapping(boxes: list[Box]) -> list[tuple[Box, Box]]:
    """Pairs of text boxes of one page that cover more than a fifth of the smaller one."""
    pairs = []
    upwards = sorted(boxes, key=lambda box: box[1])
    for index, one in enumerate(upwards):
        for other in upwards[index + 1 :]:
            if other[1] >= one[3]:  # this box, and so every one after it, begins above
                break
            width = min(one[2], other[2]) - max(one[0], other[0])
            height = min(one[3], other[3]) - other[1]
            if width > 0 and width * height > 0.2 * min(_area(one), _area(other)):
                pairs.append((one, other))
    return pairs


def _area(box: Box) -> float:
    return max((box[2] - box[0]) * (box[3] - box[1]), 1e-6)
