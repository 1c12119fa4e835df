"""The pictures of the README: the check as the terminal shows it, and three pages of the submittal of the example."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from html import escape
from pathlib import Path

import pypdfium2
from PIL import Image

from compliance.checking import check_folder
from compliance.documents.submittal.bundle import write_submittal
from tests.conftest import EXAMPLE, ROOT

FOLDER = Path(__file__).parent
CHECK = FOLDER / "check.svg"
COMMAND = "earthwall check example_project --wall W6 --outcome engineer --outcome revise"
PAGES = {"cover": "", "drawings": "Floor plan", "wall": "W3"}
"""Names of pictures, and how the bookmark of the page begins; the first page without one."""

_COLUMNS = 92
_ADVANCE, _LEADING, _SIZE, _EDGE = 8.4, 19.0, 14, 16.0
_WIDE = 620
_COLOURS = 48
_FAR = 64
"""How far one pixel may be from another, of 255, before it counts as another: libraries smooth edges differently."""


def check_picture() -> str:
    """What the command prints, drawn line by line."""
    done = subprocess.run(
        [sys.executable, "-m", "compliance", *COMMAND.split()[1:]], cwd=EXAMPLE.parent, capture_output=True,
        text=True, check=False, encoding="utf-8", env=os.environ | {"COLUMNS": str(_COLUMNS), "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    return _drawn([f"$ {COMMAND}", *done.stdout.splitlines()])


def _drawn(lines: list[str]) -> str:
    width, height = 2 * _EDGE + _COLUMNS * _ADVANCE, 2 * _EDGE + len(lines) * _LEADING
    texts = [
        f'<text x="{_EDGE:g}" y="{_EDGE + _LEADING * (index + 0.75):g}">{_text(line)}</text>'
        for index, line in enumerate(lines)
        if line
    ]
    return "\n".join((
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:g} {height:g}" width="{width:g}" '
        f'height="{height:g}" font-family="ui-monospace, Menlo, Consolas, monospace" font-size="{_SIZE}" '
        'fill="#26221d">',
        "<title>What the command prints</title>",
        f'<rect x="0.5" y="0.5" width="{width - 1:g}" height="{height - 1:g}" rx="4" fill="#faf7f1" stroke="#b9ac97"/>',
        *texts, "</svg>", "",
    ))  # fmt: skip


def _text(line: str) -> str:
    """With blanks that no browser draws together."""
    return escape(line, quote=False).replace(" ", "\u00a0")


def page_pictures(scratch: Path) -> dict[str, Image.Image]:
    """The pages by name, out of the submittal as it is written now."""
    path = scratch / "submittal.pdf"
    write_submittal(check_folder(EXAMPLE), path)
    document = pypdfium2.PdfDocument(path)
    try:
        return {name: _rendered(document[_page(document, begins)]) for name, begins in PAGES.items()}
    finally:
        document.close()


def _page(document: pypdfium2.PdfDocument, begins: str) -> int:
    """The index of the page that the first such bookmark leads to."""
    marks = (mark for mark in document.get_toc() if mark.get_title().startswith(begins))
    return next(mark.get_dest().get_index() for mark in marks) if begins else 0


def _rendered(page: pypdfium2.PdfPage) -> Image.Image:
    image: Image.Image = page.render(scale=_WIDE / page.get_width()).to_pil().convert("RGB")
    return image


def png(image: Image.Image) -> bytes:
    """Small enough to lie in a repository."""
    out = io.BytesIO()
    image.quantize(_COLOURS, dither=Image.Dither.NONE).save(out, "PNG", optimize=True)
    return out.getvalue()


def share_of_others(one: Image.Image, other: Image.Image) -> float:
    """The share of pixels of two pictures that are not alike; all where the size is another."""
    if one.size != other.size:
        return 1.0
    pairs = zip(one.convert("L").tobytes(), other.convert("L").tobytes(), strict=True)
    return sum(abs(a - b) > _FAR for a, b in pairs) / (one.width * one.height)
