"""Pages as grey pictures, and how far two pictures of a page differ.

What is tolerated: the rounding of a kept picture to sixteen greys (8 of 255 at most), another release of the renderer
(two that were two years apart, 6462 and 8149 of PDFium, differed by 1 of 255 on thirteen of these pages), and a number
of another value in running text, such as that of a page. What is not is anything added, lost or moved:

- A pixel differs when its grey is off by more than `GREYS` of 255.
- Of a whole page at most `SHARE` of its pixels may differ. At `DPI` a Letter page has 233 750 pixels, so 233 of them,
  fewer than one line of small text.
- Of any square of `SQUARE` pixels a side (8 mm on paper) at most `SHARE_OF_SQUARE` may differ: a lost mark shows here
  long before it shows on the page as a whole.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2
from numpy.typing import NDArray
from PIL import Image

Picture = NDArray[np.uint8]

DPI = 50
GREYS = 24
SHARE = 0.001
SQUARE = 16
SHARE_OF_SQUARE = 0.12


@dataclass(frozen=True)
class Difference:
    """The share of all pixels that differ, and the greatest share in any square."""

    whole: float
    square: float

    @property
    def tolerable(self) -> bool:
        return self.whole <= SHARE and self.square <= SHARE_OF_SQUARE


def pictured(path: Path, page: int) -> Picture:
    """A page of a PDF, counted from 1, in grey; the fonts are those embedded in it."""
    document = pypdfium2.PdfDocument(path)
    try:
        found: Picture = document[page - 1].render(scale=DPI / 72, grayscale=True).to_numpy()
        return np.array(found.reshape(found.shape[:2]))
    finally:
        document.close()


def differing(one: Picture, other: Picture) -> NDArray[np.bool_]:
    """Raises ValueError for pictures of unlike size."""
    if one.shape != other.shape:
        raise ValueError(
            f"one is {one.shape[1]} by {one.shape[0]} pixels, the other {other.shape[1]} by {other.shape[0]}"
        )
    off: NDArray[np.bool_] = np.abs(one.astype(int) - other.astype(int)) > GREYS
    return off


def compared(one: Picture, other: Picture) -> Difference:
    off = differing(one, other)
    high, wide = (-(-side // SQUARE) * SQUARE for side in off.shape)
    padded = np.zeros((high, wide), dtype=bool)
    padded[: off.shape[0], : off.shape[1]] = off
    squares = padded.reshape(high // SQUARE, SQUARE, wide // SQUARE, SQUARE).mean(axis=(1, 3))
    return Difference(float(off.mean()), float(squares.max()))


def read_picture(path: Path) -> Picture:
    with Image.open(path) as found:
        return np.array(found.convert("L"))


def write_picture(picture: Picture, path: Path) -> None:
    """As small as it goes: a page has few greys."""
    greys = ((picture.astype(int) + 8) // 17 * 17).astype(np.uint8)  # sixteen of them; the step is far below `GREYS`
    Image.fromarray(greys).quantize(16).save(path, optimize=True)


def write_difference(kept: Picture, made: Picture, path: Path) -> None:
    """What was kept, what was made, and what differs between them in black, side by side."""
    panels = [kept, made]
    if kept.shape == made.shape:
        panels.append(np.where(differing(kept, made), 0, 255).astype(np.uint8))
    high = max(panel.shape[0] for panel in panels)
    padded = [np.pad(panel, ((0, high - panel.shape[0]), (0, 8)), constant_values=128) for panel in panels]
    Image.fromarray(np.hstack(padded)).save(path)
