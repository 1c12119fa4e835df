"""Where the boxes of a chain of evidence stand, from the pit down to the specimens and the walls, and their ties."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from compliance.documents.page.faces import NARROW, clean, face_for
from compliance.documents.page.line_breaking import break_line
from compliance.documents.plots.chain_boxes import Box, Flow
from compliance.record import record

Points = tuple[tuple[float, float], ...]
SIZE, LEADING, PAD = 8.0, 9.8, 4.0
_GAP = 8.0
_TIE = 12.0
"""Between two rows of boxes, for the ties."""
_MIDDLE = 200.0
_WIDEST = 150.0
_AWAY = 16.0
"""Between two boxes of one row that are tied."""
_MOST_BESIDE = 2
_TESTED = 0.60
"""Share of the width that the specimens take; the walls take the rest."""
_MOST_LINES = 5
_LANE = 13.0


@record
class Placed:
    """A box with its place: left, top and size in points from the upper left corner of the figure, y downward."""

    box: Box
    lines: tuple[str, ...]
    left: float
    top: float
    width: float
    height: float

    @property
    def middle(self) -> float:
        return self.left + self.width / 2

    @property
    def bottom(self) -> float:
        return self.top + self.height


@dataclass
class Placing:
    """All boxes of a figure and the ties between them, each a line with an arrow at its end. What the specimens say
    runs along `heard` to a lane and by `speaking` from there to the walls."""

    boxes: list[Placed] = field(default_factory=list)
    ties: list[Points] = field(default_factory=list)
    heard: list[Points] = field(default_factory=list)
    speaking: list[Points] = field(default_factory=list)
    height: float = 0.0

    def row(self, boxes: Sequence[Box], lefts: Sequence[float], widths: Sequence[float], top: float) -> list[Placed]:
        """Boxes side by side, all as tall as the tallest."""
        lines = [tuple(_lines(box, width)) for box, width in zip(boxes, widths, strict=True)]
        height = max(len(one) for one in lines) * LEADING + 2 * PAD
        found = [
            Placed(box, lines=text, left=left, top=top, width=width, height=height)
            for box, text, left, width in zip(boxes, lines, lefts, widths, strict=True)
        ]
        self.boxes += found
        return found

    def tie(self, upper: Sequence[Placed], lower: Sequence[Placed]) -> None:
        """From each upper box to each lower one, by a line across half-way."""
        level = (max(one.bottom for one in upper) + min(one.top for one in lower)) / 2
        for one in upper:
            for other in lower:
                points = (
                    (one.middle, one.bottom),
                    (one.middle, level),
                    (other.middle, level),
                    (other.middle, other.top),
                )
                self.ties.append(points)

    def lead(self, one: Placed, other: Placed) -> None:
        """From a box to the one at its right."""
        at = one.top + one.height / 2
        self.ties.append(((one.left + one.width, at), (other.left, at)))


def placing(flow: Flow, width: float) -> Placing:
    """Where everything of the figure stands."""
    found = Placing()
    if flow.sources:
        soils = _soils(found, flow, width)
        start = (width - 2 * _MIDDLE - _AWAY) / 2
        lefts = [start, start + _MIDDLE + _AWAY]
        trial, mix = found.row([flow.trial, flow.mix], lefts, [_MIDDLE] * 2, soils[0].bottom + _TIE)
        found.tie(soils, [trial])
        found.lead(trial, mix)
    else:
        mix = found.row([flow.mix], [(width - _MIDDLE) / 2], [_MIDDLE], 0.0)[0]
    top = mix.bottom + _TIE
    specimens = _tested(found, flow=flow, width=width * _TESTED - _GAP, mix=mix, top=top)
    walls = _built(found, flow=flow, left=width * _TESTED + _GAP, right=width, mix=mix, top=top)
    found.height = max(one.bottom for one in found.boxes) + 4
    if flow.speaks and walls:
        _speak(found, specimens, walls, width * _TESTED + _GAP)
    return found


def _soils(found: Placing, flow: Flow, width: float) -> list[Placed]:
    """Each soil at the right of its pit; below it where more than two stand side by side."""
    count = len(flow.sources)
    pits, soils = [pit for pit, _ in flow.sources], [soil for _, soil in flow.sources]
    if count <= _MOST_BESIDE:
        across = min((width - (count - 1) * _GAP) / count / 2 - _AWAY / 2, _WIDEST)
        start = (width - count * (2 * across + _AWAY) - (count - 1) * _GAP) / 2
        block = 2 * across + _AWAY + _GAP
        lefts = [start + index * block for index in range(count)]
        boxes = [box for pair in flow.sources for box in pair]
        places = [place for left in lefts for place in (left, left + across + _AWAY)]
        placed = found.row(boxes, places, [across] * len(boxes), 0.0)
        for pit, soil in zip(placed[::2], placed[1::2], strict=True):
            found.lead(pit, soil)
        return placed[1::2]
    across = min((width - (count - 1) * _GAP) / count, _WIDEST)
    start = (width - count * across - (count - 1) * _GAP) / 2
    lefts = [start + index * (across + _GAP) for index in range(count)]
    upper = found.row(pits, lefts, [across] * count, 0.0)
    lower = found.row(soils, lefts, [across] * count, upper[0].bottom + _TIE)
    for one, other in zip(upper, lower, strict=True):
        found.tie([one], [other])
    return lower


def _tested(found: Placing, flow: Flow, width: float, mix: Placed, top: float) -> list[Placed]:
    count = sum(len(group.sets) for group in flow.tested)
    if not count:
        none = found.row([Box("set", "none", ("no set of specimens",), given=False)], [0.0], [width], top)
        found.tie([mix], none)
        return []
    across = (width - (count - 1) * _GAP) / count
    lefts, widths, at = [], [], 0
    for group in flow.tested:
        lefts.append(at * (across + _GAP))
        widths.append(len(group.sets) * (across + _GAP) - _GAP)
        at += len(group.sets)
    heads = found.row([group.batch for group in flow.tested], lefts, widths, top)
    found.tie([mix], heads)
    places = [index * (across + _GAP) for index in range(count)]
    pairs = [pair for group in flow.tested for pair in group.sets]
    sets = found.row([one for one, _ in pairs], places, [across] * count, heads[0].bottom + _TIE)
    specimens = found.row([one for _, one in pairs], places, [across] * count, sets[0].bottom + _TIE)
    at = 0
    for group, head in zip(flow.tested, heads, strict=True):
        found.tie([head], sets[at : at + len(group.sets)])
        at += len(group.sets)
    for one, other in zip(sets, specimens, strict=True):
        found.tie([one], [other])
    return specimens


def _built(found: Placing, flow: Flow, left: float, right: float, mix: Placed, top: float) -> list[Placed]:
    """Batches with their walls one under the other, tied to the mix by a lane at the right edge."""
    walls = []
    level = (mix.bottom + top) / 2
    lane = right - 1
    across = right - left - 2 * _LANE
    for head, wall in flow.built:
        one = found.row([head], [left + _LANE], [across], top)[0]
        other = found.row([wall], [left + _LANE], [across], one.bottom + _TIE * 0.8)[0]
        found.tie([one], [other])
        at = one.top + one.height / 2
        found.ties.append(
            ((mix.middle, mix.bottom), (mix.middle, level), (lane, level), (lane, at), (one.left + across, at))
        )
        walls.append(other)
        top = other.bottom + _GAP
    return walls


def _speak(found: Placing, specimens: Sequence[Placed], walls: Sequence[Placed], left: float) -> None:
    """From the specimens to the walls they speak for, under everything and up a lane at the left of the walls."""
    level = found.height + 6
    lane = left + 3
    found.height = level + 14
    for one in specimens:
        if one.box.given:
            found.heard.append(((one.middle, one.bottom), (one.middle, level), (lane, level)))
    for wall in walls:
        at = wall.top + wall.height / 2
        found.speaking.append(((lane, level), (lane, at), (wall.left, at)))


def _lines(box: Box, width: float) -> Iterator[str]:
    """The mark with its kind, then what is said, each piece from a line of its own, too long a piece cut."""
    yield f"{box.kind} {box.marks}"
    room = width - 2 * PAD
    for text in box.says:
        broken = break_line(clean(text).replace("\n", " "), face_for(clean(text), NARROW), SIZE, room)
        yield from broken[:_MOST_LINES]
        if len(broken) > _MOST_LINES:
            return
