"""The bond beam at a corner, or along a length without one, and its anchor: which parts meet, as a schematic, for the
model has no sizes of joints."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import combinations

from compliance.drawings.alt_texts import beam_alt
from compliance.drawings.common import inches
from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.label_columns import Note, notes_height, set_column
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.primitives import Box, Drawing, Pen, Point, Tone
from compliance.drawings.section.section_notes import anchor_text
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Line
from compliance.model.structure import BondBeam
from compliance.record import record
from compliance.report.mark_runs import in_runs
from compliance.units import Measure, Writer

NOT_TO_SCALE = "schematic, not to scale"
_COLUMN = 120.0
_EDGE = 6.0
_TALL = 178.0
_LEG = 104.0
_WALL, _BEAM = 40.0, 22.0


_SAME_PLACE, _BENT = 0.05, math.sin(math.radians(10))
"""How far ends of walls at one corner may lie apart, in m; from which turn on it is a corner."""


def bond_beam_detail(
    mark: str, beam: BondBeam, views: Mapping[str, WallView], metrics: TextMetrics, width: float
) -> Draft:
    """`views` are of the walls the beam lies on."""
    lines = [view.place.line for view in views.values()]
    has_corner = any(_bent(one, other) for one, other in combinations(lines, 2))
    return _Detail(mark, beam=beam, walls=tuple(views), has_corner=has_corner, metrics=metrics, width=width).draft()


def _bent(one: Line, other: Line) -> bool:
    """Whether two walls meet at their ends and turn there."""
    for s in (0.0, one.length):
        for t in (0.0, other.length):
            if math.dist(one.point(s), other.point(t)) <= _SAME_PLACE:
                (ax, ay), (bx, by) = one.direction(s), other.direction(t)
                if abs(ax * by - ay * bx) > _BENT:
                    return True
    return False


@record
class _Detail:
    mark: str
    beam: BondBeam
    walls: tuple[str, ...]
    has_corner: bool
    metrics: TextMetrics
    width: float

    def draft(self) -> Draft:
        board = Board(Box(0.0, 0.0, self.width, 1e6), self.metrics)
        columns = [
            notes_height(notes, _COLUMN, board) for notes in (self._corner_notes((0, 0)), self._anchor_notes((0, 0)))
        ]
        least = max(_TALL, *columns) + 22.0
        return Draft(
            self._key,
            name=self._name,
            alt=beam_alt(self._name, self.beam, self.metrics.writer),
            least=least,
            draw=self._drawn,
            notes=self._notes,
        )

    @property
    def _key(self) -> str:
        return f"detail-{self.mark}"

    @property
    def _name(self) -> str:
        return f"Bond beam {self.mark} on {', '.join(in_runs(self.walls))}: {self._plan}, and anchor"

    @property
    def _plan(self) -> str:
        return "corner from above" if self.has_corner else "a length from above"

    @property
    def _notes(self) -> tuple[str, ...]:
        joint = "How the corner is joined, washers" if self.has_corner else "Drawn straight, curved or not. Washers"
        return (
            "Shows which parts meet and what the project says of them, nothing more. "
            f"{joint}, hooks and nails follow the adopted code or the engineer's detail.",
        )

    def _written(self, measure: Measure | None, kind: str = "thickness") -> str:
        return written(measure, self.metrics.writer, kind)

    def _drawn(self, height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, self.width, height), self.metrics)
        middle = height / 2
        left = (_EDGE + _COLUMN + 20.0, middle - _LEG / 2)
        right = (self.width - _EDGE - _COLUMN - 60.0, middle)
        self._corner(board, left)
        self._anchor(board, right)
        set_column(board, notes=self._corner_notes(left), left=_EDGE, width=_COLUMN, low=4.0, high=height - 14.0)
        set_column(
            board,
            notes=self._anchor_notes(right),
            left=self.width - _EDGE - _COLUMN,
            width=_COLUMN,
            low=4.0,
            high=height - 14.0,
        )
        return Drawing(
            self._key,
            name=self._name,
            scale=None,
            width=self.width,
            height=height,
            items=board.finished(),
            notes=self._notes,
            unset=tuple(board.unset),
        )

    def _corner(self, board: Board, at: Point) -> None:
        """Walls from above, dashed, the beam on them, a splice and anchors; one wall where there is no corner."""
        x, y = at
        rim = (_WALL - _BEAM) / 2
        tone = Tone.WOOD if self.beam.material == "wood" else Tone.CONCRETE
        if self.has_corner:
            board.stroke((x + _LEG, y), (x, y), (x, y + _LEG), pen=Pen.HIDDEN)
            board.stroke((x + _LEG, y + _WALL), (x + _WALL, y + _WALL), (x + _WALL, y + _LEG), pen=Pen.HIDDEN)
            board.block(Box(x + rim, y + rim + _BEAM, x + rim + _BEAM, y + _LEG), tone, Pen.EDGE)
        else:
            for side in (0.0, _WALL):
                board.stroke((x, y + side), (x + _LEG, y + side), pen=Pen.HIDDEN)
        board.block(Box(x + rim, y + rim, x + _LEG, y + rim + _BEAM), tone, Pen.EDGE)
        half = y + rim + _BEAM / 2
        for first, second, level in ((0.56, 0.56, 1.0), (0.86, 0.86, 0.0)):
            board.stroke(
                (x + first * _LEG, half + (level - 1) * _BEAM / 2),
                (x + second * _LEG, half + level * _BEAM / 2),
                pen=Pen.EDGE,
            )
        board.stroke((x + 0.56 * _LEG, half), (x + 0.86 * _LEG, half), pen=Pen.EDGE)
        along = ((0.4, 0.0), (0.95, 0.0))
        across = ((0.0, 0.55), (0.0, 0.9)) if self.has_corner else ((0.0, 0.0),)
        anchors = (*along, *across) if self.beam.anchors else ()
        for dx, dy in anchors:
            spot = (
                x + rim + _BEAM / 2 + dx * (_LEG - rim - _BEAM / 2),
                y + rim + _BEAM / 2 + dy * (_LEG - rim - _BEAM / 2),
            )
            _dot(board, spot)
        board.line_at(self._plan, Role.NOTE, x, y - 13.0)

    def _corner_notes(self, at: Point) -> list[Note]:
        x, y = at
        rim, beam = (_WALL - _BEAM) / 2, self.beam
        runs = {True: "continuous, as described", False: "not continuous, as described"}
        says = runs.get(beam.continuous, "whether it is continuous is not described")  # type: ignore[arg-type]
        bars = "; ".join(one for one in (beam.bars, self._bars()) if one)
        notes = [
            Note((x + rim + _BEAM / 2, y + 0.86 * _LEG) if self.has_corner else (x + 6.0, y + rim + 0.8 * _BEAM),
                 f"bond beam {self.mark}", f"{beam.material}; {says}"),
            Note((x + 4.0, y + 0.42 * _LEG if self.has_corner else y + _WALL - 4.0), "wall below",
                 "dashed: its faces at the top"),
        ]  # fmt: skip
        if self.has_corner:
            notes.append(Note((x + rim + 2.0, y + rim + 3.0), "corner joint", "its make is not described"))
        if beam.material == "wood":
            clear = self._written(beam.splice_clear, "length")
            text = f"lap {self._written(beam.splice_lap)}; clear of openings {clear}"
            notes.append(Note((x + 0.6 * _LEG, y + rim + 1.0), "splice", text))
        else:
            notes.append(Note((x + 0.6 * _LEG, y + rim + 1.0), "bars", bars or "not described"))
        return notes

    def _bars(self) -> str:
        if self.beam.bar_count is None:
            return ""
        thick = f" of diameter {self._written(self.beam.bar_diameter)}" if self.beam.bar_diameter else ""
        return f"{self.beam.bar_count} bars{thick}"

    def _anchor(self, board: Board, at: Point) -> None:
        """Across the wall: the beam on the earth, a rod through both, plates at its ends."""
        x, y = at
        top, foot, half = y + 40.0, y - 78.0, 27.0
        board.fill(((x - half, foot), (x + half, foot), (x + half, top), (x - half, top)), Tone.EARTH)
        for side in (-1, 1):
            board.stroke((x + side * half, foot), (x + side * half, top), pen=Pen.CUT)
        board.stroke((x - half, top), (x + half, top), pen=Pen.CUT)
        board.stroke((x - half - 5, foot), (x - 5, foot - 3), (x + 5, foot + 3), (x + half + 5, foot), pen=Pen.FINE)
        tone = Tone.WOOD if self.beam.material == "wood" else Tone.CONCRETE
        board.block(Box(x - 17.0, top, x + 17.0, top + 22.0), tone, Pen.EDGE)
        if self.beam.anchors is not None:
            low = y - 44.0
            board.stroke((x, low), (x, top + 26.0), pen=Pen.CUT)
            for height in (low, top + 23.0):
                board.stroke((x - 5.0, height), (x + 5.0, height), pen=Pen.CUT)
        board.line_at("anchor, across the wall", Role.NOTE, x - half - 22.0, foot - 16.0)

    def _anchor_notes(self, at: Point) -> list[Note]:
        x, y = at
        beam, anchors = self.beam, self.beam.anchors
        size = f"{self._written(beam.width)} wide, {self._written(beam.depth)} deep"
        more = f"; {beam.grade}" if beam.grade else ""
        notes = [
            Note((x + 13.0, y + 51.0), "bond beam", size + more),
            Note((x + 20.0, y - 62.0), "earth", "top of the wall"),
        ]
        if anchors is None:
            return [*notes, Note((x, y + 36.0), "anchors", "not described")]
        sizes = (
            self._written(anchors.diameter), self._written(anchors.spacing, "length"),
            self._written(anchors.embedment, "length"),
        )  # fmt: skip
        notes.append(Note((x, y - 6.0), "anchor", anchor_text(sizes, anchors.kind)))
        notes.append(Note((x + 4.0, y - 44.0), "hold in the earth", "plate, hook or cross bar: not described"))
        if anchors.capacity:
            says = f"{self.metrics.writer.write(anchors.capacity.si, 'force')} sideways"
            notes.append(Note((x, y + 20.0), "capacity", f"{says}, {anchors.capacity_source or 'nobody named for it'}"))
        return notes


def written(measure: Measure | None, writer: Writer, kind: str) -> str:
    return inches.written(writer, measure.si, kind) if measure else "not given"


def _dot(board: Board, at: Point) -> None:
    x, y = at
    board.block(Box(x - 1.8, y - 1.8, x + 1.8, y + 1.8), Tone.INK, Pen.EDGE)
