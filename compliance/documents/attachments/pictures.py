"""Attached pictures: looked over, turned upright, and made no larger than a page can show."""

from __future__ import annotations

from io import BytesIO
from typing import Any

from compliance.documents.page.inked import Figure
from compliance.documents.page.line_breaking import Line
from compliance.record import record
from compliance.refused import RefusedError, error_words

MOST_PIXELS = 60_000_000
MOST_SAMPLES = 80_000_000
"""Pixels times colours of a picture that has to be unpacked whole; a JPEG is unpacked no larger than it is needed."""
MOST_SIDE = 30_000
"""Pixels of a side: a strip one pixel wide unpacks to far more than its pixels."""
_LONGEST = 2200
"""Pixels of the longer side that a page can still show: about 300 an inch over its width."""
_QUALITY = 88
_DOTS = 110.0
"""Pixels for an inch below which a picture is not blown up further."""
_PLAIN = ("L", "RGB")
_ON_ITS_SIDE = (5, 6, 7, 8)  # orientations of Exif 2.3, table 6, that swap width and height


@record
class Picture:
    """A picture upright: its data as PNG or JPEG, its size in pixels, and the file's own where it was made smaller."""

    data: bytes
    width: int
    height: int
    made_from: tuple[int, int] | None = None


def read_picture(data: bytes, most_pixels: int = MOST_PIXELS) -> Picture:
    """Raises RefusedError: `attachment-damaged`, `attachment-pixels`."""
    import warnings

    from PIL import Image, ImageOps

    again = "save it anew as PNG or JPEG"
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # the number of pixels is looked at below
            opened = Image.open(BytesIO(data), formats=("PNG", "JPEG"))
            if max(opened.size) > MOST_SIDE:
                wrong = f"the picture has {opened.width} by {opened.height} pixels"
                raise RefusedError("attachment-pixels", wrong, f"no side may have more than {MOST_SIDE:,}")
            if opened.width * opened.height > most_pixels:
                wrong = f"the picture has {opened.width} by {opened.height} pixels"
                raise RefusedError("attachment-pixels", wrong, f"use at most {most_pixels // 1_000_000} million")
            whole = opened.size
            if opened.format == "JPEG":
                opened.draft(None, (2 * _LONGEST, 2 * _LONGEST))
            elif opened.width * opened.height * len(opened.getbands()) > MOST_SAMPLES:
                wrong = f"the picture has {opened.width} by {opened.height} pixels in {len(opened.getbands())} colours"
                raise RefusedError("attachment-pixels", wrong, "make it smaller, or save it as JPEG")
            opened.load()
            upright = ImageOps.exif_transpose(opened)
    except Image.DecompressionBombError as error:
        wrong = f"the picture has more than {most_pixels // 1_000_000} million pixels"
        raise RefusedError("attachment-pixels", wrong, "make it smaller") from error
    except RefusedError:
        raise
    except Exception as error:  # A broken file makes the decoder fail in any way it likes.
        raise RefusedError("attachment-damaged", f"the picture is damaged: {error_words(error)}", again) from error
    orientation = opened.getexif().get(0x0112, 1)
    turned = orientation != 1
    size = whole[::-1] if orientation in _ON_ITS_SIDE else whole
    if opened.format == "JPEG" and not turned and max(whole) <= _LONGEST and upright.mode in _PLAIN:
        return Picture(data, upright.width, upright.height)
    plain = _on_white(upright)
    plain.thumbnail((_LONGEST, _LONGEST))
    return Picture(_saved(plain, opened.format), plain.width, plain.height, size if plain.size != size else None)


def _on_white(picture: Any) -> Any:
    """Without transparency, palette or deep colours."""
    from PIL import Image

    if picture.mode in _PLAIN:
        return picture
    if picture.mode.startswith("I") or picture.mode == "F":
        return picture.convert("F").point(lambda level: level / 257).convert("L")
    if "A" in picture.getbands() or "transparency" in picture.info:
        clear = picture.convert("RGBA")
        clear.thumbnail((_LONGEST, _LONGEST))
        white = Image.new("RGBA", clear.size, "white")
        return Image.alpha_composite(white, clear).convert("RGB")
    return picture.convert("RGB")


def _saved(picture: Any, kind: str | None) -> bytes:
    out = BytesIO()
    if kind == "JPEG":
        picture.save(out, "JPEG", quality=_QUALITY)
    else:
        picture.save(out, "PNG")
    return out.getvalue()


@record
class Shown:
    """A picture as part of a cell, flush left, no wider than the cell and no taller than `tallest` points."""

    picture: Picture
    tallest: float
    alt: str

    def lines(self, width: float) -> list[Line]:
        return [Line(self._size(width)[1], ink=Figure(self._draw, self.alt))]

    def _size(self, width: float) -> tuple[float, float]:
        across, up = self.picture.width, self.picture.height
        scale = min(width / across, self.tallest / up, 72 / _DOTS)
        return across * scale, up * scale

    def _draw(self, canvas: Any, left: float, top: float, width: float) -> None:
        from reportlab.lib.utils import ImageReader

        across, up = self._size(width)
        canvas.drawImage(ImageReader(BytesIO(self.picture.data)), left, top - up, across, up)
