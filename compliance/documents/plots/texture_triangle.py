"""The texture triangle laid out: where a soil stands in it, and where its label goes so that it covers nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from compliance.facts.mixes.mix_composition import MixRecord
from compliance.facts.soil.fractions import GRAVEL
from compliance.facts.soil.soil_record import SoilRecord
from compliance.record import record

Point = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, bottom, right, top."""
HIGH = math.sqrt(3) / 2
_REACHES = (0.0, 9.0, 20.0, 34.0, 52.0, 74.0, 100.0, 130.0)
_AWAY = (0, 60, 300, 120, 240, 180, 90, 270)
"""Directions a label is tried in, in degrees, the best to read first."""


@record
class Plotted:
    """A soil, or a mix, by its shares of the fine earth."""

    mark: str
    clay: float
    silt: float
    is_mix: bool


@record
class Labelled:
    """A point with its label: `box` None where no place was left."""

    of: Plotted
    at: Point
    box: Box | None


def plotted(soils: Mapping[str, SoilRecord], mixes: Mapping[str, MixRecord]) -> list[Plotted]:
    """Every soil and every mix whose shares are known, gravel left out."""
    found = [
        Plotted(mark, one.shares.clay, one.shares.silt, False) for mark, one in soils.items() if one.shares is not None
    ]
    for mark, mix in mixes.items():
        fine = 1 - mix.shares[GRAVEL] if mix.shares else 0.0
        if mix.shares and fine > 0:
            found.append(Plotted(mark, mix.shares["clay"] / fine, mix.shares["silt"] / fine, True))
    return found


def place(clay: float, silt: float, side: float) -> Point:
    """The place of a soil: clay rises to the top, silt runs to the lower right, sand to the lower left."""
    return (silt + clay / 2) * side, clay * HIGH * side


def outline(corners: Sequence[tuple[float, float, float]], side: float) -> list[Point]:
    return [place(clay, silt, side) for clay, silt, _ in corners]


def centroid(points: Sequence[Point]) -> Point:
    """Centre of the area of a polygon."""
    area = x = y = 0.0
    for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True):
        cross = x0 * y1 - x1 * y0
        area += cross / 2
        x += (x0 + x1) * cross
        y += (y0 + y1) * cross
    return x / (6 * area), y / (6 * area)


def width_at(points: Sequence[Point], x: float, y: float) -> float:
    """Twice the way from (x, y) to the nearer edge of a polygon along a level line."""
    cuts = sorted(
        x0 + (y - y0) / (y1 - y0) * (x1 - x0)
        for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True)
        if (y0 <= y) != (y1 <= y)
    )
    left, right = max((cut for cut in cuts if cut <= x), default=x), min((cut for cut in cuts if cut > x), default=x)
    return 2 * min(x - left, right - x)


def labelled(
    points: Sequence[Plotted], sizes: Sequence[Point], side: float, taken: Sequence[Box], frame: Box, reach: float
) -> list[Labelled]:
    """A label of each point at the first free place near it; `sizes` are widths and heights, `reach` half a mark.
    Names of classes (`taken`) are covered only where no other place is left; marks and labels never."""
    ats = [place(one.clay, one.silt, side) for one in points]
    marks = [(x - reach, y - reach, x + reach, y + reach) for x, y in ats]
    done: list[Box] = []
    found = []
    for one, at, size in zip(points, ats, sizes, strict=True):
        tried = [box for box in _around(at, size, reach) if _inside(box, frame) and not _hits(box, [*marks, *done])]
        box = next((box for box in tried if not _hits(box, taken)), tried[0] if tried else None)
        if box:
            done.append(box)
        found.append(Labelled(one, at, box))
    return found


def _around(at: Point, size: Point, reach: float) -> Iterator[Box]:
    width, height = size
    for out in _REACHES:
        for angle in _AWAY:
            dx, dy = math.cos(math.radians(angle)), math.sin(math.radians(angle))
            x = at[0] + (out + reach + 2) * dx + width / 2 * _side(dx)
            y = at[1] + (out + reach + 2) * dy + height / 2 * _side(dy)
            yield x - width / 2, y - height / 2, x + width / 2, y + height / 2


def _side(share: float) -> float:
    return 0.0 if abs(share) < 1e-6 else math.copysign(1.0, share)


def _inside(box: Box, frame: Box) -> bool:
    return box[0] >= frame[0] and box[1] >= frame[1] and box[2] <= frame[2] and box[3] <= frame[3]


def _hits(box: Box, others: Sequence[Box]) -> bool:
    return any(box[0] < x1 and x0 < box[2] and box[1] < y1 and y0 < box[3] for x0, y0, x1, y1 in others)
