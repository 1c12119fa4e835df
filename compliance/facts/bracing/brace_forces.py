"""Earthquake and wind along the walls, and the share that each solid length takes of them.

Both act at the tops of the walls; what pushes the lower half of a wall goes straight into its footing. Each solid
length
takes the width of building its line braces or, under a diaphragm stated to be rigid, its share by stiffness with
torsion. Forces are at the level of allowable stresses.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from functools import partial

from compliance.facts.bracing.brace_shares import Braced, Push, share_by_weight, share_by_width, twist_steps
from compliance.facts.bracing.solid_lengths import (
    Extent,
    Lump,
    Solid,
    bracing_lines,
    bracing_walls,
    directions,
    extent,
    house_walls,
    lump_of,
    solids_of,
)
from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.plan.closed_runs import centroid_of_line
from compliance.facts.mechanics.lateral.torsion import Bracing, centre_of_mass
from compliance.facts.site.wind import pressure_steps
from compliance.facts.site.wind_actions import wind_edition, wind_site
from compliance.facts.site.wind_on_building import building_pressures
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Step, no_steps

EARTHQUAKE, WIND = "earthquake", "wind"


Key = tuple[str, int]


@record
class BracedWalls:
    """Every solid length by wall and column, with what it takes of each push. `two_way` says whether the walls brace
    the building in more than one direction."""

    solids: dict[Key, Solid]
    taken: dict[Key, tuple[Braced, ...]]
    by_wall: dict[str, list[Key]]
    two_way: bool

    def of(self, wall: str) -> list[tuple[Solid, tuple[Braced, ...]]]:
        """The solid lengths of one wall, from its start to its end."""
        return [(self.solids[key], self.taken[key]) for key in self.by_wall.get(wall, ())]


def braced_walls(building: Building, need: Needs) -> BracedWalls | None:
    """The whole distribution, worked out once; None where a value lacks, which `need` then names."""
    known_walls, found = building.cached(("braced walls",), lambda: _worked(building))
    need.of(known_walls)
    return found


def _worked(building: Building) -> tuple[Fact, BracedWalls | None]:
    """With a fact that says what it rests on, or what lacks."""
    need = Needs(building.subject("project", "project"))
    shear, blows = need.number("project.base_shear"), _Wind.of(building, need)
    marks, bracing = house_walls(building, need), bracing_walls(building, need)
    *_, within = (need.use(building.screening[name]) for name in ("pier_bending", "pier_shear", "parallel_within"))
    shaken, blown = need.use(building.screening["shaken_off"]), need.use(building.screening["blown_off"])
    if not marks:
        need.lack("all walls are garden walls")
    if need.lacks or blows is None:
        return need.lacking, None
    views = [building.views[mark] for mark in marks]
    found = solids_of(building, bracing)
    weights = [(view, _weight(building, view.mark)) for view in views]
    middle = centre_of_mass([(weight, *centroid_of_line(view.place.line)) for view, weight in weights])
    pushes, lumps = [], {}
    for direction in directions(found):
        seen = extent(views, direction)
        lumps[direction] = [lump_of(view, weight, direction) for view, weight in weights]
        pushes.append(Push(EARTHQUAKE, force=shear, seen=seen, at=middle, off=shaken * seen.across, steps=()))
        force, steps = blows.on(seen)
        pushes.append(Push(WIND, force=force, seen=seen, at=seen.middle, off=blown * seen.across, steps=steps))
    same = max(view.place.thickness for view in views)
    return need.known(True, lambda: ()), _shared(
        found, pushes, lumps, _Sharing(within, same, building.project.project.diaphragm or "")
    )


def _weight(building: Building, mark: str) -> float:
    value = building.subject("wall", mark).fact("wall.shaking_weight").value
    assert isinstance(value, float)
    return value


@record
class _Sharing:
    """How walls make lines, and the diaphragm as stated."""

    within: float
    same: float
    diaphragm: str


def _shared(
    found: Sequence[Solid], pushes: Sequence[Push], lumps: Mapping[float, Sequence[Lump]], sharing: _Sharing
) -> BracedWalls:
    taken: dict[Key, list[Braced]] = {(one.wall, one.index): [] for one in found}
    try:
        plan: Bracing | None = Bracing([one.panel for one in found])
    except ValueError:
        plan = None
    for push in pushes:
        loose = _by_lines(found, push, lumps[push.seen.direction], sharing)
        for place, (one, stiff) in enumerate(zip(found, _stiff(plan, push, len(found)), strict=True)):
            force = loose.get((one.wall, one.index)) or share_by_width(push.force, 0.0, push.seen.across, 0.0)
            twisted = partial(twist_steps, plan, push, place) if plan and math.isfinite(stiff) else no_steps
            taken[one.wall, one.index].append(
                Braced(push, loose=force, stiff=stiff, twisted=twisted, diaphragm=sharing.diaphragm)
            )
    by_wall: dict[str, list[Key]] = {}
    for one in found:
        by_wall.setdefault(one.wall, []).append((one.wall, one.index))
    solid = {(one.wall, one.index): one for one in found}
    return BracedWalls(solid, {key: tuple(parts) for key, parts in taken.items()}, by_wall, plan is not None)


def _by_lines(found: Sequence[Solid], push: Push, lumps: Sequence[Lump], sharing: _Sharing) -> dict[Key, Solved]:
    """What the solid lengths along a push take of it: of wind by the width braced, of an earthquake by the weight."""
    lines, whole = bracing_lines(found, push.seen, sharing.within, sharing.same), math.fsum(one.weight for one in lumps)
    shares: dict[Key, Solved] = {}
    for place, line in enumerate(lines):
        braced = line.weight_braced(lumps, place == 0, place == len(lines) - 1)
        for one, share in line.parts:
            if push.name == EARTHQUAKE:
                taken = share_by_weight.titled(f"{share_by_weight.title}, {push.name}")(
                    push.force, braced, whole, share
                )
            else:
                named = share_by_width.titled(f"{share_by_width.title}, {push.name}")
                taken = named(push.force, line.width, push.seen.across, share)
            shares[one.wall, one.index] = taken
    return shares


def _stiff(plan: Bracing | None, push: Push, count: int) -> tuple[float, ...]:
    """Infinite where the walls brace one direction only, or all meet in a point and cannot hold a twist."""
    try:
        return plan.worst(push.force, push.seen.direction, *push.at, push.off) if plan else (math.inf,) * count
    except ValueError:
        return (math.inf,) * count


@record
class _Wind:
    """What gives the wind on the whole building along any direction."""

    pressure: Callable[[float], tuple[float, tuple[Step, ...]]]
    height: float
    lowest: float
    level: float

    @classmethod
    def of(cls, building: Building, need: Needs) -> _Wind | None:
        edition, site = wind_edition(building, need), wind_site(building, need)
        height = need.number_of(building.subject("project", "project").fact("project.building_height"))
        if need.lacks or edition is None or site is None:
            return None
        coefficients = building.tables.building
        need.rest_on(coefficients.standing)

        def pressure(ratio: float) -> tuple[float, tuple[Step, ...]]:
            found = building_pressures(
                height, length_over_width=ratio, internal=0.0, site=site, edition=edition, coefficients=coefficients
            )
            return found.across, (*pressure_steps(height, site, edition, False), found.steps[-1])

        lowest = min((building.views[mark].place.height for mark in house_walls(building, need)), default=0.0)
        return cls(pressure, height, lowest, edition.to_allowable)

    def on(self, seen: Extent) -> tuple[float, tuple[Step, ...]]:
        """On the building's height but for the lower half of its lowest wall, the roof taken for wall: on the safe side
        [N]."""
        strength, steps = self.pressure(seen.along / seen.across)
        force = wind_at_tops(self.level, strength, seen.across, self.height, self.lowest)
        return force, (*steps, force.step())


wind_at_tops = equation(
    "Wind at the tops of the walls", "level * pressure * across * (height - lowest / 2)", Symbol("V", "force"),
    "statics; the lower half of the walls hands its wind to the footings",
    level=Symbol("c", "ratio", "to allowable stresses"), pressure=Symbol("p", "pressure"),
    across=Symbol("B", "length", "width of the building"), height=Symbol("H", "length", "its height"),
    lowest=Symbol("h", "length", "height of its lowest wall"),
)  # fmt: skip

EQUATIONS = (wind_at_tops,)
