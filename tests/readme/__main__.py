"""Draws the pictures of the README anew: python -m tests.readme"""

from __future__ import annotations

import tempfile
from pathlib import Path

from tests.readme.pictures import CHECK, FOLDER, check_picture, page_pictures, png

CHECK.write_text(check_picture(), encoding="utf-8")
with tempfile.TemporaryDirectory() as scratch:
    for name, image in page_pictures(Path(scratch)).items():
        (FOLDER / f"{name}.png").write_bytes(png(image))
