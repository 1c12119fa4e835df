"""Pages look as they did when somebody looked at them. See `comparing.py` for what is tolerated and why; after a change
that is meant, `python -m tests.pictures` makes the pictures anew."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tests.pictures.buildings import BUILDINGS
from tests.pictures.comparing import (
    DPI,
    GREYS,
    SHARE,
    Picture,
    compared,
    read_picture,
    write_difference,
    write_picture,
)
from tests.pictures.making import REFERENCES, pages, reference

MOST_BYTES = 1_500_000


@pytest.mark.parametrize("building", BUILDINGS)
def test_pages_look_as_they_did(building: str, tmp_path: Path) -> None:
    faults = []
    for title, made in pages(building, tmp_path):
        path = reference(building, title)
        kept = read_picture(path)
        away = compared(kept, made) if kept.shape == made.shape else None
        if away is None or not away.tolerable:
            shown = tmp_path / f"{path.stem}-differs.png"
            write_difference(kept, made, shown)
            told = "another size of page" if away is None else (
                f"{away.whole:.2%} of the page, {away.square:.0%} of one square"
            )  # fmt: skip
            faults.append(f"{building}, page {title!r}: {told} differs: see {shown}")
    assert not faults, "\n".join(faults)


def test_every_picture_kept_is_compared_and_all_are_small() -> None:
    wanted = {reference(building, title) for building, (_, titles) in BUILDINGS.items() for title in titles}
    assert set(REFERENCES.glob("*")) == wanted
    assert sum(path.stat().st_size for path in wanted) < MOST_BYTES


def kept_plan() -> Picture:
    return read_picture(reference("example", "Floor plan"))


def test_smoothing_is_tolerated() -> None:
    """Every pixel a little lighter or darker, as another release of the renderer may have it."""
    plan = kept_plan()
    noise = np.random.default_rng(1).integers(-GREYS, GREYS + 1, plan.shape)
    assert compared(plan, np.clip(plan + noise, 0, 255).astype(np.uint8)).tolerable


def test_a_lost_mark_a_moved_page_and_a_line_too_many_are_not() -> None:
    """Of ink lost in forty places most is seen: lettering is, a piece of a thin line need not be."""
    plan = kept_plan()
    inked = np.argwhere(plan < 90)
    seen = 0
    for row, column in inked[:: len(inked) // 40]:
        lost = plan.copy()
        lost[max(row - 8, 0) : row + 8, max(column - 8, 0) : column + 8] = 255
        seen += not compared(plan, lost).tolerable
    assert seen >= 24
    moved = np.roll(plan, 1, axis=1)
    line = plan.copy()
    line[inked[len(inked) // 2][0], :] = 0
    for other in (moved, line):
        assert not compared(plan, other).tolerable
    assert compared(plan, moved).whole > SHARE


def test_the_kept_picture_stands_for_the_page_it_was_made_from(tmp_path: Path) -> None:
    """Fewer greys make it smaller and lose nothing that is compared."""
    page = np.tile(np.arange(256, dtype=np.uint8), (DPI, 1))
    write_picture(page, tmp_path / "page.png")
    assert np.abs(read_picture(tmp_path / "page.png").astype(int) - page).max() <= GREYS / 3


def test_what_differs_is_shown_in_black(tmp_path: Path) -> None:
    plan = kept_plan()
    other = plan.copy()
    other[100:110, 100:110] = 255 - other[100:110, 100:110]
    write_difference(plan, other, tmp_path / "differs.png")
    shown = read_picture(tmp_path / "differs.png")
    assert shown.shape[1] == 3 * (plan.shape[1] + 8)
    panel = shown[:, 2 * (plan.shape[1] + 8) :][:, : plan.shape[1]]
    black = np.argwhere(panel == 0)
    assert len(black) and black.min() >= 100 and black.max() < 110
