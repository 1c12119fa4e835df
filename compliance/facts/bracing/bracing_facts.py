"""Facts of bracing: the force along each wall, shear, and tipping of each solid length."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable

from compliance.facts.bracing.brace_forces import EARTHQUAKE, braced_walls
from compliance.facts.bracing.brace_shares import Braced
from compliance.facts.bracing.solid_lengths import Solid
from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Columns, columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.facts.loads.lateral_pressure import (
    Action,
    seismic_dead_share,
    wind_dead_share_step,
)
from compliance.facts.mechanics.lateral.in_plane import shear_stress, tipping
from compliance.facts.strength.spanning import sure_load
from compliance.facts.strength.wall_stress import column_of
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Series, Symbol
from compliance.steps import Given, Step

_NOT = "the wall is not counted on to brace"
_NOTHING = Step("The wall has no solid length to brace with", "", (), Given("V", math.inf, "force"))
Worst = tuple[float, Callable[[], tuple[Step, ...]]]


def _solids(building: Building, need: Needs, wall: str) -> list[tuple[Solid, tuple[Braced, ...]]] | None:
    """The solid lengths of a bracing wall; None where a value lacks or the wall does not brace."""
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


def _of_wall(
    building: Building, wall: Subject, each: Callable[[Needs, Solid, Braced], Worst | None], most: bool
) -> Fact:
    """The greatest or the least of all solid lengths of a wall under all pushes."""
    need = Needs(wall)
    found = _solids(building, need, wall.mark)
    if found is None:
        return need.lacking
    return _worst(need, [(one, part) for one, parts in found for part in parts], each, most)


def _worst(
    need: Needs, parts: Iterable[tuple[Solid, Braced]], each: Callable[[Needs, Solid, Braced], Worst | None], most: bool
) -> Fact:
    found = [worst for one, part in parts if (worst := each(need, one, part)) is not None]
    if need.lacks:
        return need.lacking
    if not found:
        return need.known(math.inf if most else 0.0, lambda: (_NOTHING,))
    value, steps = (max if most else min)(found, key=lambda one: one[0])
    return need.known(value, steps)


def wall_shear_stress(building: Building, wall: Subject) -> Fact:
    """The greatest mean shear stress of its solid lengths, least thickness [Pa]."""
    return _of_wall(building, wall, _shear(building, wall.mark), True)


def wall_tipping(building: Building, wall: Subject) -> Fact:
    """The least factor against tipping along the wall of its solid lengths."""
    return _of_wall(building, wall, _tips(building, wall.mark), False)


def pier_shear_stress(building: Building, pier: Subject) -> Fact:
    """Mean shear stress of one pier [Pa]."""
    return _of_pier(building, pier, _shear(building, pier.wall), True)


def pier_tipping(building: Building, pier: Subject) -> Fact:
    """Factor against tipping along the wall of one pier."""
    return _of_pier(building, pier, _tips(building, pier.wall), False)


def _of_pier(
    building: Building, pier: Subject, each: Callable[[Needs, Solid, Braced], Worst | None], most: bool
) -> Fact:
    need = Needs(pier)
    found, piers = _solids(building, need, pier.wall), column_of(building, need, pier)
    if found is None or piers is None:
        return need.lacking
    parts = [(one, part) for one, taken in found for part in taken if one.index == piers[0]]
    return _worst(need, parts, each, most)


def _shear(building: Building, wall: str) -> Callable[[Needs, Solid, Braced], Worst | None]:
    thick = min(ends_of_section(building.project.walls[wall]))

    def each(need: Needs, solid: Solid, part: Braced) -> Worst:
        if not math.isfinite(part.force):
            return math.inf, lambda: part.steps
        found = shear_stress(part.force, thick, solid.length)
        return found, lambda: (*part.steps, found.step())

    return each


def _tips(building: Building, wall: str) -> Callable[[Needs, Solid, Braced], Worst | None]:
    """Dead load sure to be there, wind lift taken off. Of an earthquake, what the length's own weight makes acts at its
    mid-height; all else, and all of the wind, is put at the top, which is on the safe side."""
    subject, project = building.subject("wall", wall), building.subject("project", "project")

    def each(need: Needs, solid: Solid, part: Braced) -> Worst | None:
        found = columns(building, need, subject)
        quake = part.push.name == EARTHQUAKE
        share = seismic_dead_share(building, need) if quake else need.use(building.screening["dead_share"])
        lift = 0.0 if quake else need.number_of(subject.fact("wall.lift"))
        shear, weight = (need.number_of(project.fact(f"project.{name}")) for name in ("base_shear", "seismic_weight"))
        if need.lacks or found is None or share is None:
            return None
        if not math.isfinite(part.force):
            return 0.0, lambda: part.steps
        step = share.step() if isinstance(share, Solved) else wind_dead_share_step(building)
        action = Action(part.push.name, 0.0, share, lift, step)
        return _tipped(found, solid, part, action, shear / weight if quake else 0.0)

    return each


def _tipped(found: Columns, solid: Solid, part: Braced, action: Action, coefficient: float) -> Worst:
    column, profile = found.all[solid.index], found.profile
    own = min(coefficient * found.own_above(column, 0.0), part.force)
    sure = sure_load(found, column, action, 0.0)
    force, dead = force_at_top_of_pier(part.force, own), dead_load_of_pier(sure, column.width)
    tips = tipping(force, profile.height, dead, solid.length, min(profile.base, profile.top), solid.length)

    def steps() -> tuple[Step, ...]:
        lines = (sure, dead, force, *tips.lines)
        return (*part.steps, action.step, *(one.step() for one in lines))

    return tips.factor, steps


dead_load_of_pier = equation(
    "Dead load sure to be there", "line * width", Symbol("D", "force"), "load along the wall × its length",
    line=Symbol("N", "line_load"), width=Symbol("b", "length", "solid length"),
)  # fmt: skip

force_at_top_of_pier = equation(
    "Force at the top that tips as much", "force - own / 2", Symbol("V", "force"), "statics",
    force=Symbol("V_i", "force"), own=Symbol("V_o", "force", "of its own weight, at mid-height"),
)  # fmt: skip

EQUATIONS = (sum_of_forces, dead_load_of_pier, force_at_top_of_pier)
