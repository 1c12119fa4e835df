"""Walls that share a section: thickness, height, what they stand on and carry, their finishes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from types import MappingProxyType

from compliance.drawings.common.draft import Flag
from compliance.drawings.elevation.levels import Parts, parts_of
from compliance.model.project import Project
from compliance.model.walls import Finish
from compliance.record import record

NO_FLAGS: Mapping[str, Sequence[Flag]] = MappingProxyType({})
_OTHER_GROUND = ("interior", "garden")
"""Uses of a wall whose section shows floor and ground otherwise than that of an outer wall."""


@record
class WallType:
    """Walls alike in section, and the parts of the first of them, which hold for all; what passes a limit in any."""

    walls: tuple[str, ...]
    parts: Parts
    flags: tuple[Flag, ...] = ()

    def flagged(self, part: str) -> tuple[Flag, ...]:
        """What passes a limit at a part, each rule and outcome once."""
        return tuple({(flag.code, flag.mark): flag for flag in self.flags if flag.part == part}.values())

    @property
    def key(self) -> str:
        return f"section-{self.walls[0]}"


def wall_types(
    project: Project, marks: Iterable[str], flags: Mapping[str, Sequence[Flag]] = NO_FLAGS
) -> list[WallType]:
    """Every distinct section among the walls, in the order of the project. `flags` by wall."""
    found: dict[tuple[object, ...], list[str]] = {}
    for mark in marks:
        found.setdefault(_alike(mark, project), []).append(mark)
    return [
        WallType(
            tuple(walls), parts_of(walls[0], project), tuple(flag for wall in walls for flag in flags.get(wall, ()))
        )
        for walls in found.values()
    ]


def _alike(mark: str, project: Project) -> tuple[object, ...]:
    wall = project.walls[mark]
    sizes = (wall.height, wall.thickness, wall.thickness_base, wall.thickness_top, wall.lift_height)
    roofs = tuple(name for name, roof in project.roofs.items() if any(one.wall == mark for one in roof.bears_on))
    return (
        *(size.si if size else None for size in sizes), wall.tapered_face, wall.mix, wall.stem, wall.footing, wall.beam,
        _layers(wall.outside), _layers(wall.inside), roofs, wall.use if wall.use in _OTHER_GROUND else "",
        None if wall.beam else wall.top_restraint, wall.reinforced, wall.reinforcement,
    )  # fmt: skip


def _layers(layers: list[Finish] | None) -> tuple[str, ...] | None:
    return None if layers is None else tuple(layer.model_dump_json() for layer in layers)
