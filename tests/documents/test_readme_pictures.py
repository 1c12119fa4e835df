"""The pictures of the README show what the tool prints and writes now. To draw them anew: python -m tests.readme"""

from __future__ import annotations

import pytest
from PIL import Image, ImageChops

from tests.readme.pictures import CHECK, FOLDER, PAGES, check_picture, page_pictures, png, share_of_others

MOST_OTHER = 0.012
"""Share of pixels: a number of a page may be another; a line that moves is more."""
ANEW = "draw the pictures anew: python -m tests.readme"


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Image.Image]:
    return page_pictures(tmp_path_factory.mktemp("readme"))


def stored(name: str) -> Image.Image:
    with Image.open(FOLDER / f"{name}.png") as image:
        return image.convert("RGB")


def test_the_check_is_as_the_terminal_shows_it() -> None:
    assert CHECK.read_text(encoding="utf-8") == check_picture(), ANEW


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_as_it_is_written(pages: dict[str, Image.Image], name: str) -> None:
    assert share_of_others(stored(name), pages[name]) <= MOST_OTHER, ANEW


@pytest.mark.parametrize("name", PAGES)
def test_another_page_or_one_whose_lines_have_moved_would_be_told(pages: dict[str, Image.Image], name: str) -> None:
    others = [page for other, page in pages.items() if other != name]
    assert all(share_of_others(stored(name), page) > MOST_OTHER for page in others)
    assert share_of_others(stored(name), ImageChops.offset(pages[name], 0, 9)) > MOST_OTHER


def test_pictures_are_small(pages: dict[str, Image.Image]) -> None:
    assert all(len(png(page)) < 80_000 for page in pages.values())
