"""A section through a wall on the page: outside to the left, inside to the right, from the centre line of its foot."""

from __future__ import annotations

from compliance.drawings.common.board import Board
from compliance.drawings.common.primitives import Box, Point
from compliance.drawings.common.scales import Scale
from compliance.drawings.common.wall_types import WallType
from compliance.drawings.elevation.levels import Parts
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.model.structure import Roof
from compliance.model.walls import Finish
from compliance.record import record

_UNSIZED_BEAM = 14.0


@record
class SectionFace:
    """`middle` is where the centre line stands on the page, `foot` the top of the stem wall. `mix` names the earth."""

    board: Board
    wall_type: WallType
    mix: str
    scale: Scale
    middle: float
    foot: float

    @property
    def parts(self) -> Parts:
        return self.wall_type.parts

    def x(self, across: float) -> float:
        return self.middle + across * self.scale.per_metre

    def y(self, height: float) -> float:
        return self.foot + height * self.scale.per_metre

    def at(self, across: float, height: float) -> Point:
        return self.x(across), self.y(height)

    @property
    def beam_top(self) -> float:
        """Of the bond beam as drawn, in m: where its depth is not given, a little over the earth."""
        levels = self.parts.levels
        return levels.beam_top if levels.beam_top is not None else levels.top + _UNSIZED_BEAM / self.scale.per_metre

    def box(self, left: float, right: float, low: float, high: float) -> Box:
        return Box(self.x(left), self.y(low), self.x(right), self.y(high))


def faces_at(parts: Parts, height: float) -> tuple[float, float]:
    """The outer and the inner face of the earth from the centre line of its foot, at a height over it, in m.

    Which face leans is as described; not described, both lean alike.
    """
    base, top = ends_of_section(parts.wall)
    lean = (base - top) * (height / parts.levels.top if parts.levels.top else 0.0)
    outer, inner = {"outside": (lean, 0.0), "inside": (0.0, lean)}.get(
        parts.wall.tapered_face or "", (lean / 2, lean / 2)
    )
    return -base / 2 + outer, base / 2 - inner


def thickness_of(layers: list[Finish] | None) -> float:
    """Of all layers of a face whose thickness is known, in m."""
    return sum(layer.thickness.si for layer in layers or [] if layer.thickness)


def roof_drawn(parts: Parts) -> tuple[str, Roof] | None:
    """Of the roofs that bear on the wall the one that reaches least over it."""
    if not parts.roofs:
        return None
    return min(parts.roofs, key=lambda one: one[1].overhang.si if one[1].overhang else 0.0)


def half_widths(parts: Parts) -> tuple[float, float]:
    """How far parts reach to the outside and to the inside of the centre line, in m, the roof left out."""
    outer, inner = faces_at(parts, 0.0)
    reach = [parts.stem.thickness.si / 2 if parts.stem and parts.stem.thickness else 0.0]
    reach += [parts.footing.width.si / 2 if parts.footing and parts.footing.width else 0.0]
    out = max(-outer + thickness_of(parts.wall.outside), *reach)
    inside = max(inner + thickness_of(parts.wall.inside), *reach)
    if parts.beam and parts.beam.width:
        middle = sum(faces_at(parts, parts.levels.top)) / 2
        out = max(out, parts.beam.width.si / 2 - middle)
        inside = max(inside, parts.beam.width.si / 2 + middle)
    return out, inside
