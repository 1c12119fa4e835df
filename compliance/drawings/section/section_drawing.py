"""The section through a type of wall, every layer named and dimensioned."""

from __future__ import annotations

import math

from compliance.drawings.alt_texts import section_alt
from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.label_columns import notes_height, set_column
from compliance.drawings.common.primitives import Box, Drawing
from compliance.drawings.common.scales import Scale, largest
from compliance.drawings.common.wall_types import WallType
from compliance.drawings.section.section_body import ROOF_RISE, ROOF_RUN, draw_section_body, roof_ends
from compliance.drawings.section.section_face import SectionFace, faces_at, half_widths, roof_drawn
from compliance.drawings.section.section_measures import PAST_EAVE, draw_heights, draw_widths
from compliance.drawings.section.section_notes import inside_notes, outside_notes
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.record import record, replace
from compliance.report.mark_runs import in_runs

_LEFT, _RIGHT = 108.0, 148.0
"""Widths of the columns of labels, in points."""
_HEIGHTS = 60.0
_BESIDE = 54.0
_BELOW = 26.0
_ABOVE = 30.0
_LARGEST = 8.0
_EDGE = 6.0
_MOST_NAMED = 9
_TEXT = 16.0
"""What a text takes beside the line of heights."""


def section(
    wall_type: WallType, mix: str, metrics: TextMetrics, width: float, tallest: float, number: str = ""
) -> Draft:
    """`mix` names the earth in words; `number` is the one that marks of the section bear."""
    return replace(_Section(wall_type, mix, metrics, width).draft(tallest), number=number)


@record
class _Section:
    wall_type: WallType
    mix: str
    metrics: TextMetrics
    width: float

    def _reach(self, scale: Scale) -> tuple[float, float]:
        """What the section takes to the left and to the right of the centre line, in points."""
        out, inside = half_widths(self.wall_type.parts)
        left = out * scale.per_metre + _HEIGHTS + _LEFT
        found = roof_drawn(self.wall_type.parts)
        if found and found[1].overhang:
            outer = faces_at(self.wall_type.parts, self.wall_type.parts.levels.top)[0]
            left = max(left, (found[1].overhang.si - outer) * scale.per_metre + PAST_EAVE + _TEXT + _LEFT)
        return left + _EDGE, inside * scale.per_metre + _BESIDE + _RIGHT + _EDGE

    def _roof_rise(self, scale: Scale) -> float:
        """How far the roof line stands over the top of the wall at its inner end, in points."""
        found = roof_drawn(self.wall_type.parts)
        if found is None or found[1].slope is None:
            return 8.0 if found else 0.0
        out, inside = half_widths(self.wall_type.parts)
        rise = ((out + inside) * scale.per_metre + ROOF_RUN) * math.tan(found[1].slope.si)
        return min(rise, ROOF_RISE) + 8.0

    def _body(self, scale: Scale) -> float:
        """The height of what is drawn, in points; the smaller the scale, the less."""
        levels = self.wall_type.parts.levels
        return (levels.highest - levels.lowest) * scale.per_metre + self._roof_rise(scale) + _ABOVE + _BELOW

    def _needed(self, scale: Scale) -> float:
        board = Board(Box(0.0, 0.0, self.width, 1e6), self.metrics)
        face = SectionFace(board, wall_type=self.wall_type, mix=self.mix, scale=scale, middle=0.0, foot=0.0)
        columns = (notes_height(inside_notes(face), _RIGHT, board), notes_height(outside_notes(face), _LEFT, board))
        return max(self._body(scale), max(columns) + _BELOW)

    def draft(self, tallest: float) -> Draft:
        def fits(scale: Scale) -> bool:
            return sum(self._reach(scale)) <= self.width and self._body(scale) <= tallest

        # Labels do not shrink with the scale: where they are more than a page holds, those left over are named below.
        scale = largest(self.metrics.writer.system, fits, _LARGEST)
        key = self.wall_type.key
        alt = section_alt(self._name, self.wall_type, self.mix, self.metrics.writer)
        least = min(self._needed(scale), tallest)
        return Draft(
            key,
            name=self._name,
            alt=alt,
            least=least,
            draw=lambda height: self._drawn(scale, height),
            notes=self._notes(),
        )

    @property
    def _name(self) -> str:
        names = in_runs(self.wall_type.walls)
        more = len(self.wall_type.walls) - _MOST_NAMED
        if len(names) > _MOST_NAMED:
            return f"Section of {', '.join(self.wall_type.walls[:_MOST_NAMED])} and {more} more"
        return f"Section of {', '.join(names)}"

    def _notes(self) -> tuple[str, ...]:
        parts = self.wall_type.parts
        notes = []
        names = in_runs(self.wall_type.walls)
        if len(names) > _MOST_NAMED:
            notes.append(f"Stands for {', '.join(names)}.")
        base, top = ends_of_section(parts.wall)
        if base != top and parts.wall.tapered_face is None:
            notes.append("Which face leans is not described: both are drawn leaning alike.")
        if parts.roofs:
            notes.append("Overhang is measured on plan from the outer face of the earth at its top.")
        if (parts.stem is not None and parts.levels.grade is None) or parts.stem is None:
            notes.append("The project does not say how high the earth starts over the ground: the ground is not drawn.")
        if parts.footing and parts.footing.drain is None:
            notes.append("Whether there is a drain at the footing is not described.")
        return tuple(notes)

    def _drawn(self, scale: Scale, height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, self.width, height), self.metrics)
        left, right = self._reach(scale)
        levels = self.wall_type.parts.levels
        spare = max(height - self._needed(scale), 0.0)
        middle = left + max(self.width - left - right, 0.0) / 2
        foot = _BELOW + spare / 2 - levels.lowest * scale.per_metre
        face = SectionFace(board, wall_type=self.wall_type, mix=self.mix, scale=scale, middle=middle, foot=foot)
        draw_section_body(face)
        draw_heights(face)
        draw_widths(face)
        low = 4.0
        ends = roof_ends(face)
        eaves = min(ends[0][1] - 14.0, height) if ends else height - 4.0
        set_column(board, notes=outside_notes(face), left=_EDGE, width=_LEFT, low=low, high=eaves)
        set_column(
            board, notes=inside_notes(face), left=self.width - _EDGE - _RIGHT, width=_RIGHT, low=low, high=height - 4.0
        )
        return Drawing(
            self.wall_type.key,
            name=self._name,
            scale=scale,
            width=self.width,
            height=height,
            items=board.finished(),
            notes=self._notes(),
            unset=tuple(board.unset),
        )
