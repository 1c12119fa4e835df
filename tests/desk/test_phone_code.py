"""The code on the page and in the terminal is read back by another program than the one that made it."""

from __future__ import annotations

import re

import pytest

from compliance.desk.phone.address_code import code_lines, code_modules, code_svg

zxingcpp = pytest.importorskip("zxingcpp")

ADDRESSES = (
    "http://192.168.1.20:43211/open?token=" + "aZ3_-" * 8 + "xyz",
    "http://10.0.0.7:8000/open?token=0",
)


def read(dark: list[list[bool]], side: int = 6) -> list[str]:
    """What a camera that sees these modules reads."""
    from PIL import Image

    picture = Image.new("L", (len(dark[0]), len(dark)), 255)
    picture.putdata([0 if one else 255 for row in dark for one in row])
    return [one.text for one in zxingcpp.read_barcodes(picture.resize((len(dark[0]) * side, len(dark) * side), 0))]


def drawn(svg: str) -> list[list[bool]]:
    """The modules that the shapes of the picture cover."""
    size = int(re.search(r'viewBox="0 0 (\d+) \1"', svg)[1])  # type: ignore[index]
    rows = [[False] * size for _ in range(size)]
    shapes = re.search(r'<path d="([^"]*)"', svg)[1]  # type: ignore[index]
    for x, y, width, back in re.findall(r"M(\d+) (\d+)h(\d+)v1h-(\d+)z", shapes):
        assert width == back
        for at in range(int(x), int(x) + int(width)):
            rows[int(y)][at] = True
    return rows


@pytest.mark.parametrize("address", ADDRESSES)
def test_the_code_of_the_page_reads_as_the_address(address: str) -> None:
    svg = code_svg(address, "Code")
    assert read(drawn(svg)) == [address]
    assert "style" not in svg and 'fill="#000"' in svg and 'fill="#fff"' in svg and 'role="img"' in svg
    flipped = [[not one for one in row] for row in drawn(svg)][5:-5]
    assert address not in read(flipped)  # the reading can fail


@pytest.mark.parametrize("address", ADDRESSES)
def test_the_code_of_the_terminal_reads_as_the_address(address: str) -> None:
    rows: list[list[bool]] = []
    for line in code_lines(address):
        assert line.startswith("\x1b[38;5;16;48;5;231m") and line.endswith("\x1b[0m")
        blocks = re.sub(r"\x1b\[[0-9;]*m", "", line)
        rows += [[one in "▀█" for one in blocks], [one in "▄█" for one in blocks]]
    assert read(rows) == [address]


def test_light_modules_stand_around_it() -> None:
    """ISO/IEC 18004: four modules wide."""
    rows = code_modules(ADDRESSES[0])
    edge = [*rows[:4], *rows[-4:], *(row[:4] + row[-4:] for row in rows)]
    assert len(rows) == len(rows[0]) and not any(one for row in edge for one in row) and rows[4][4]
