"""A drawing while it is made: what is inked so far, and labels set where there is room."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from compliance.drawings.common.lettering import Letters, Role
from compliance.drawings.common.placing import Placer
from compliance.drawings.common.primitives import (
    Bow,
    Box,
    Bubble,
    Dimension,
    Filled,
    Item,
    Lettering,
    Pen,
    Point,
    Sign,
    Stroke,
    Tone,
)
from compliance.record import record
from compliance.units import Writer

Align = Literal["left", "centre", "right"]

_SIGN = 6.6
_BESIDE_SIGN = 2.4
_LED_FROM = 5.0
"""A label further than this from what it names gets a line that leads to it, in points."""
_LAYERS = (Filled, Stroke, Bow, Dimension, Lettering, Sign, Bubble)
_SHORT_OF = 1.6
_CHORD = math.radians(4)


@record
class LabelLine:
    """A line of a label: text, and before it the mark of an outcome where it has one."""

    text: str
    role: Role = Role.NOTE
    mark: str = ""
    link: str = ""

    def width(self, letters: Letters) -> float:
        return letters(self.text, self.role) + (_SIGN + _BESIDE_SIGN if self.mark else 0.0)


@record
class TextMetrics:
    """What every drawing of a document is made with: how wide texts run, and the units they are written in."""

    letters: Letters
    writer: Writer


@dataclass(slots=True)
class Board:
    """Collects a drawing inside `frame`. `unset` are labels and dimensions that found no room, in words."""

    frame: Box
    metrics: TextMetrics
    placer: Placer = field(init=False)
    items: list[Item] = field(default_factory=list)
    unset: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.placer = Placer(self.frame)

    def finished(self) -> tuple[Item, ...]:
        """The raster lowest, then fills, lettering on top."""
        return tuple(sorted(self.items, key=_layer))

    def stroke(self, *points: Point, pen: Pen, closed: bool = False, avoid: bool = True) -> None:
        self.items.append(Stroke(points, pen, closed))
        if avoid:
            self.placer.avoid(*points, closed=closed)

    def bow(self, bow: Bow) -> None:
        self.items.append(bow)
        self.placer.avoid(*bow_points(bow))

    def fill(self, points: Sequence[Point], tone: Tone) -> None:
        self.items.append(Filled(tuple(points), tone))

    def block(self, box: Box, tone: Tone, pen: Pen) -> None:
        """A filled rectangle with its outline."""
        corners = corners_of(box)
        self.fill(corners, tone)
        self.stroke(*corners, pen=pen, closed=True)

    def size(self, lines: Sequence[LabelLine]) -> tuple[float, float]:
        """Width and height of a label."""
        letters = self.metrics.letters
        return max(line.width(letters) for line in lines), sum(line.role.height for line in lines)

    def label(
        self,
        lines: Sequence[LabelLine],
        spots: Iterable[Box],
        named: str,
        at: Point | None = None,
        plate: bool = False,
        align: Align = "centre",
    ) -> Box | None:
        """Set a label on the first free spot, with a line from `at` where it ends up away from it, and say where.
        Without room it goes to `unset` as `named`. Spots have the size of the label."""
        box = self.placer.first(spots, at)
        if box is None:
            self.unset.append(named)
            return None
        self.write(lines, box, plate, align)
        if at is not None:
            self.lead(at, box)
        return box

    def lead(self, at: Point, box: Box) -> None:
        """A line from `at` to just short of a label, where the label stands away from it."""
        x, y = box.nearest(at)
        far = math.dist((x, y), at)
        if far > _LED_FROM:
            share = (far - _SHORT_OF) / far
            self.stroke(at, (at[0] + share * (x - at[0]), at[1] + share * (y - at[1])), pen=Pen.MEASURE)

    def write(self, lines: Sequence[LabelLine], box: Box, plate: bool = False, align: Align = "centre") -> None:
        """A label into a box that is already taken for it; flush left where a line bears a sign."""
        align = "left" if any(line.mark for line in lines) else align
        top = box.top
        for line in lines:
            wide, high = line.width(self.metrics.letters), line.role.height
            left = {"left": box.left, "right": box.right - wide}.get(align, (box.left + box.right - wide) / 2)
            if line.mark:
                low = top - high / 2 - _SIGN / 2
                self.items.append(Sign(line.mark, Box(left, low, left + _SIGN, low + _SIGN), line.link))
                left, wide = left + _SIGN + _BESIDE_SIGN, wide - _SIGN - _BESIDE_SIGN
            own = Box(left, top - high, left + wide, top)
            self.items.append(Lettering(line.text, own, line.role, plate=plate, link=line.link))
            top -= high

    def line_at(self, text: str, role: Role, left: float, bottom: float, link: str = "") -> Box:
        """A line of text at a fixed place, taken whatever stands there: for places kept free beforehand."""
        box = Box(left, bottom, left + self.metrics.letters(text, role), bottom + role.height)
        self.placer.take(box)
        self.items.append(Lettering(text, box, role, link=link))
        return box


def _layer(item: Item) -> int:
    return -1 if isinstance(item, Stroke) and item.pen is Pen.RASTER else _LAYERS.index(type(item))


def corners_of(box: Box) -> tuple[Point, Point, Point, Point]:
    return (box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top)


def bow_points(bow: Bow) -> list[Point]:
    """Points along an arc, so close that the chords between them stay on it to the eye."""
    count = max(1, math.ceil(abs(bow.sweep) / _CHORD))
    return [bow.point(index / count) for index in range(count + 1)]
