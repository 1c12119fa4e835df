"""Facts that are worked out when a rule first asks for them: loads and structure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from importlib import import_module

from compliance.facts.catalogue import FACTS
from compliance.facts.common.fact import Fact
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject

Compute = Callable[[Building, Subject], Fact]


def attach(building: Building, subjects: Mapping[str, Mapping[str, Subject]]) -> None:
    """Gives every subject the facts that are worked out when asked for. Where a value is not stated but follows from
    others that are, its place is left free for the derived one."""

    def work(name: str, subject: Subject) -> Fact:
        if about_wall(name) and (whole := building.views[subject.mark].mark) != subject.mark:
            return building.subject("wall", whole).fact(name)  # a piece of a wall has what the whole has
        return _function(FACTS[name].compute)(building, subject)

    for about, ones in subjects.items():
        derivable = [(name, follows) for name, follows in DERIVABLE.items() if name.partition(".")[0] == about]
        stated_twice = [(name, speaks) for name, speaks in SEVERER.items() if name.partition(".")[0] == about]
        for mark, subject in ones.items():
            subject.later = work
            for name, speaks in stated_twice:
                if name in subject.facts and speaks(building, mark):
                    del subject.facts[name]
            for name, follows in derivable:
                stated = subject.facts.get(name)  # none where the facts are those of the same building before a change
                if stated is not None and stated.value is None and follows(building, mark):
                    del subject.facts[name]


@cache
def _function(path: str) -> Compute:
    """The function that a line of the catalogue names. Raises KeyError where it names none."""
    if not path:
        raise KeyError("a fact that is not worked out on demand")
    module, _, name = path.rpartition(".")
    found: Compute = getattr(import_module(f"compliance.facts.{module}"), name)
    return found


def about_wall(name: str) -> bool:
    return name.startswith("wall.")


def _mapped(building: Building, mark: str) -> bool:
    return building.project.site.ss is not None and building.project.site.s1 is not None


def _sorted_by(building: Building, mark: str) -> bool:
    return building.project.site.category_by is not None


def _layered(building: Building, mark: str) -> bool:
    return bool(building.project.roofs[mark].layers)


def _has_snow_load(building: Building, mark: str) -> bool:
    site = building.project.site
    return site.roof_snow is not None or (
        site.ground_snow is not None and building.project.roofs[mark].warmth is not None
    )


def _under_a_roof(building: Building, mark: str) -> bool:
    return bool(building.roofs_on(mark))


def _roofed_over(building: Building, mark: str) -> bool:
    """A roof bears on the wall, or it is a wall of a house with a roof: only garden walls stand outside."""
    wall = building.project.walls[mark]
    inside = wall.use in ("exterior", "interior") and wall.top_restraint not in (None, "free")
    return bool(building.roofs_on(mark)) or (inside and bool(building.project.roofs))


DERIVABLE: dict[str, Callable[[Building, str], bool]] = {
    "site.sds": _mapped,
    "site.sd1": _mapped,
    "site.seismic_category": _sorted_by,
    "roof.dead": _layered,
    "roof.snow": _has_snow_load,
    "wall.line_load": _under_a_roof,
    "wall.top_cover": _roofed_over,
}
"""Facts the project can state, and whether one follows where it does not."""


def _older_map(building: Building, mark: str) -> bool:
    return building.project.site.asce7 == "7-05"


def _grouped(building: Building, mark: str) -> bool:
    return building.project.site.soil_group is not None


def _with_walls(building: Building, mark: str) -> bool:
    return bool(building.views)


SEVERER: dict[str, Callable[[Building, str], bool]] = {
    "project.stories": _with_walls,
    "project.building_height": _with_walls,
    "site.enclosure": _with_walls,
    "site.sds": _mapped,
    "site.sd1": _mapped,
    "site.seismic_category": _sorted_by,
    "site.wind_speed": _older_map,
    "site.expansive_soil": _grouped,
    "wall.line_load": DERIVABLE["wall.line_load"],
}
"""Facts the project states that another statement may make more severe, and whether there is such a statement."""
