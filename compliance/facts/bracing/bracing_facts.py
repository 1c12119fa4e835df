"""Facts of bracing: the force along each wall, shear, overturning of its piers and of the whole wall.

A wall holds where the force along it is no more than that at which all its piers rock, and that at which the whole wall
turns as one block; piers that rock share evenly. Shear is that of the share by stiffness, and once piers rock of the
share by the force at which they do.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from functools import partial

from compliance.facts.bracing.brace_forces import EARTHQUAKE, braced_walls
from compliance.facts.bracing.brace_shares import Braced
from compliance.facts.bracing.solid_lengths import Solid
from compliance.facts.bracing.wall_rocking import WallRocks, pier_shares, wall_rocks
from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import IN_A_RING, ends_of_section
from compliance.facts.loads.lateral_pressure import (
    Action,
    seismic_dead_share,
    wind_dead_share_step,
)
from compliance.facts.mechanics.lateral.in_plane import shear_stress
from compliance.facts.mechanics.lateral.rocking_piers import factor_of_forces
from compliance.facts.mechanics.sections import greatest_edge_pressure
from compliance.facts.strength.wall_stress import column_of
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Step

_NOT = "the wall is not counted on to brace"
_NOTHING = Step("The wall has no solid length to brace with", "", (), Given("V", math.inf, "force"))
Worst = tuple[float, Callable[[], tuple[Step, ...]]]
Parts = list[tuple[Solid, tuple[Braced, ...]]]
Each = Callable[[Needs, Solid, Braced], Worst | None]
Making = Callable[[Building, str, Parts], Each]


def _solids(building: Building, need: Needs, wall: str) -> Parts | None:
    """The solid lengths of a bracing wall; None where a value lacks or the wall does not brace."""
    if building.views[wall].placed.stretch.ring:
        need.lack(IN_A_RING)
        return None
    braces = need.field(building.project.walls[wall].braces, "walls", wall, "braces")
    if braces is False or building.project.walls[wall].use == "garden":
        need.lack(_NOT)
        return None
    found = braced_walls(building, need)
    return None if need.lacks or found is None else found.of(wall)


def brace_shear(building: Building, wall: Subject) -> Fact:
    """The greatest force along the whole wall, its solid lengths together [N]."""
    need = Needs(wall)
    found = _solids(building, need, wall.mark)
    if found is None:
        return need.lacking
    if not found:
        return need.known(math.inf, lambda: (_NOTHING,))
    pushes = range(len(found[0][1]))
    sums = [sum_of_forces([part[index].force for _, part in found]) for index in pushes]
    index = max(pushes, key=lambda one: sums[one])

    def worked() -> tuple[Step, ...]:
        return (*(step for _, parts in found for step in parts[index].steps), sums[index].step())

    return need.known(float(sums[index]), worked)


sum_of_forces = equation(
    "Force along the wall", "sum(force)", Symbol("V_w", "force"), "sum", force=Series("V", "force")
)  # fmt: skip


def _of_wall(building: Building, wall: Subject, making: Making, most: bool) -> Fact:
    """The greatest or the least of all solid lengths of a wall under all pushes."""
    need = Needs(wall)
    found = _solids(building, need, wall.mark)
    if found is None:
        return need.lacking
    each = making(building, wall.mark, found)
    return _worst(need, [(one, part) for one, parts in found for part in parts], each, most)


def _worst(need: Needs, parts: Iterable[tuple[Solid, Braced]], each: Each, most: bool) -> Fact:
    found = [worst for one, part in parts if (worst := each(need, one, part)) is not None]
    if need.lacks:
        return need.lacking
    if not found:
        return need.known(math.inf if most else 0.0, lambda: (_NOTHING,))
    value, steps = (max if most else min)(found, key=lambda one: one[0])
    return need.known(value, steps)


def wall_shear_stress(building: Building, wall: Subject) -> Fact:
    """The mean shear stress of all its solid lengths together, least thickness [Pa]."""
    return _of_wall(building, wall, _mean_shear, True)


def wall_tipping(building: Building, wall: Subject) -> Fact:
    """Factor against overturning of the whole wall as one block."""
    return _of_wall(building, wall, partial(_tips, whole=True), False)


def pier_shear_stress(building: Building, pier: Subject) -> Fact:
    """Shear stress of one pier, by its share of the force along the wall [Pa]."""
    return _of_pier(building, pier, _shear, True)


def pier_tipping(building: Building, pier: Subject) -> Fact:
    """Factor against overturning of one pier, with all piers of its wall: one that rocks hands its share to the
    others."""
    return _of_pier(building, pier, partial(_tips, whole=False), False)


def _of_pier(building: Building, pier: Subject, making: Making, most: bool) -> Fact:
    need = Needs(pier)
    found, piers = _solids(building, need, pier.wall), column_of(building, need, pier)
    if found is None or piers is None:
        return need.lacking
    parts = [(one, part) for one, taken in found for part in taken if one.index == piers[0]]
    return _worst(need, parts, making(building, pier.wall, found), most)


def _mean_shear(building: Building, wall: str, found: Parts) -> Each:
    """A pier that reaches its share hands the rest to the others: the mean is what the wall must hold."""
    thick, long = min(ends_of_section(building.project.walls[wall])), math.fsum(solid.length for solid, _ in found)

    def each(need: Needs, solid: Solid, part: Braced) -> Worst:
        force = sum_of_forces([one.force for _, parts in found for one in parts if one.push is part.push])
        if not math.isfinite(force):
            return math.inf, lambda: part.steps
        stress = shear_stress(force, thick, long)
        return stress, lambda: (*part.steps, force.step(), stress.step())

    return each


def _shear(building: Building, wall: str, found: Parts) -> Each:
    """A pier of a wall with openings takes its share by stiffness, over the height at which it rocks; where some pier
    rocks under such a share, the greater of that and of its share once all piers rock."""
    thick = min(ends_of_section(building.project.walls[wall]))

    def each(need: Needs, solid: Solid, part: Braced) -> Worst | None:
        if not math.isfinite(part.force):
            return math.inf, lambda: part.steps
        rocks = _rocks(building, need=need, wall=wall, found=found, part=part) if len(found) > 1 else None
        if need.lacks:
            return None
        if rocks is None:
            stress = shear_stress(part.force, thick, solid.length)
            return stress, lambda: (*part.steps, stress.step())
        force = _along_wall(found, part)
        taken = _shares(building, wall, rocks=rocks, push=part.push.name, force=force)[solid.index]
        stress = shear_stress(taken[-1], thick, solid.length)
        lines = (*taken, stress)
        return stress, lambda: (
            *part.steps, rocks.sure, *_pier_steps(rocks, solid), *(one.step() for one in lines)
        )  # fmt: skip

    return each


def _shares(
    building: Building, wall: str, rocks: WallRocks, push: str, force: float
) -> Mapping[int, tuple[Solved, ...]]:
    """Of a force along the wall, worked out once for all of its piers."""
    return building.cached(("pier shares", wall, push, repr(force)), lambda: pier_shares(rocks, force))


def _pier_steps(rocks: WallRocks, solid: Solid) -> tuple[Step, ...]:
    return next(one.steps for one in rocks.piers if one.solid.index == solid.index)


def _along_wall(found: Parts, part: Braced) -> float:
    """The force along the whole wall under the push of one of its parts [N]."""
    return math.fsum(one.force for _, parts in found for one in parts if one.push is part.push)


def _rocks(building: Building, need: Needs, wall: str, found: Parts, part: Braced) -> WallRocks | None:
    """Dead load sure to be there, wind lift taken off."""
    subject = building.subject("wall", wall)
    seen, quake = columns(building, need, subject), part.push.name == EARTHQUAKE
    share = seismic_dead_share(building, need) if quake else need.use(building.screening["dead_share"])
    lift = 0.0 if quake else need.number_of(subject.fact("wall.lift"))
    if need.lacks or seen is None or share is None:
        return None
    step = share.step() if isinstance(share, Solved) else wind_dead_share_step(building)
    action = Action(part.push.name, pressure=0.0, dead_share=share, lift=lift, step=step)
    solids = tuple(solid for solid, _ in found)
    return wall_rocks(building, need=need, wall=subject, found=seen, solids=solids, action=action, under="sure load")


def pier_toe(building: Building, pier: Subject) -> Fact:
    """The greatest pressure on the toe of a pier pushed along the wall, under all of its dead load [Pa]."""
    return _of_pier(building, pier, _presses, True)


def _presses(building: Building, wall: str, found: Parts) -> Each:
    """Of an earthquake the part that presses down is added to the dead load."""
    thick = min(ends_of_section(building.project.walls[wall]))

    def each(need: Needs, solid: Solid, part: Braced) -> Worst | None:
        if not math.isfinite(part.force):
            return math.inf, lambda: part.steps
        rocks, heavy = (
            _rocks(building, need=need, wall=wall, found=found, part=part),
            _pressed(building, need=need, wall=wall, found=found, part=part),
        )
        if rocks is None or heavy is None:
            return None
        force = _along_wall(found, part)
        taken = _shares(building, wall, rocks=rocks, push=part.push.name, force=force)[solid.index]
        full = next(one for one in heavy.piers if one.solid.index == solid.index)
        load = load_on_toe(*full.lines)
        turned = moment_on_pier(taken[-1], full.arm)
        off = turned / load if load > 0 else math.inf
        pressure = greatest_edge_pressure(load, off, solid.length, thick)
        lines = (*taken, *full.lines, load, turned, pressure)
        return pressure, lambda: (*part.steps, heavy.sure, *full.steps[:2], *(one.step() for one in lines))

    return each


def _pressed(building: Building, need: Needs, wall: str, found: Parts, part: Braced) -> WallRocks | None:
    """The same piers under all of their dead load."""
    subject = building.subject("wall", wall)
    seen, more = columns(building, need, subject), Fact(0.0)
    level, upward = (building.screening[name] for name in ("seismic_to_allowable", "vertical_share"))
    share: float = 1.0
    if part.push.name == EARTHQUAKE:
        more = building.subject("site", "site").fact("site.sds")
        share = 1.0 + need.use(level) * need.use(upward) * need.number_of(more)
    if need.lacks or seen is None:
        return None
    step = Step(
        "Share of dead load that presses",
        formula="",
        given=(),
        result=Given("k", share, "ratio"),
        source="ASCE 7 combinations",
    )
    action = Action(part.push.name, pressure=0.0, dead_share=share, lift=0.0, step=step)
    solids = tuple(solid for solid, _ in found)
    return wall_rocks(building, need=need, wall=subject, found=seen, solids=solids, action=action, under="all load")


load_on_toe = equation(
    "Dead load of the pier, all of it", "head + own", Symbol("N", "force"), "sum",
    head=Symbol("P_D", "force"), own=Symbol("P_W", "force"),
)  # fmt: skip

moment_on_pier = equation(
    "Moment at the base of the pier", "force * arm", Symbol("M", "moment"), "statics",
    force=Symbol("V", "force"), arm=Symbol("h_m", "length", "height, halved where its head cannot turn"),
)  # fmt: skip


def _tips(building: Building, wall: str, found: Parts, whole: bool) -> Each:
    """All piers together, or the `whole` wall as one block, against the force along the wall."""

    def each(need: Needs, solid: Solid, part: Braced) -> Worst | None:
        rocks = _rocks(building, need=need, wall=wall, found=found, part=part)
        if rocks is None:
            return None
        force = _along_wall(found, part)
        if not math.isfinite(force):
            return 0.0, lambda: part.steps
        resists = rocks.block if whole else rocks.together
        factor = factor_of_forces(resists, force) if force > 0 else factor_of_forces.without_value(math.inf, resists)

        def steps() -> tuple[Step, ...]:
            lines = rocks.block_lines if whole else ()
            piers = () if whole else tuple(step for one in rocks.piers for step in one.steps)
            forces = sum_of_forces([one.force for _, parts in found for one in parts if one.push is part.push])
            own = (*(one.step() for one in lines), *piers, resists.step(), forces.step(), factor.step())
            return (*part.steps, rocks.sure, *own)

        return float(factor), steps

    return each


EQUATIONS = (sum_of_forces, load_on_toe, moment_on_pier)
