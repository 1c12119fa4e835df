"""The piers of a wall as rigid blocks pushed along it: which are coupled, the force at which each rocks, and at which
the whole wall turns.

A pier is coupled where a bond beam runs through over it and enough earth stands over every opening beside it; else it
turns as a cantilever. Which of the two is taken, and why, is a line of its own.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from compliance.facts.bracing.solid_lengths import Solid
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns
from compliance.facts.geometry.openings import Hole
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.lateral_pressure import Action
from compliance.facts.mechanics.lateral.in_plane import stiffness_over_modulus
from compliance.facts.mechanics.lateral.rocking_piers import (
    greater_share,
    rocking_of_pier,
    rocking_of_wall,
    rocking_together,
    share_of_rocking,
    share_of_stiffness,
)
from compliance.facts.strength.spanning import top_restraint_step
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step

COUPLED = "coupled by the bond beam and the earth over the openings beside it"
_SLACK = 1e-9


@record
class Rocking:
    """One pier: the force at which it rocks, the dead load on its base sure to be there [N], the height over which it
    rocks [m], its stiffness over E [m], why it is not coupled, where it is not, and what holds the wall's top."""

    solid: Solid
    force: Solved
    dead: float
    height: float
    stiffness: Solved
    why_not: str
    lines: tuple[Solved, ...]
    coupled: bool
    top: Step

    @property
    def arm(self) -> float:
        """By which the force along the pier bends its base [m]: half of its height where its head cannot turn."""
        return self.height / 2 if self.coupled else self.height

    @property
    def steps(self) -> tuple[Step, ...]:
        """The choice first, then its numbers."""
        wording = f"not coupled: {self.why_not}" if self.why_not else COUPLED
        choice = Step(
            "How the pier rocks",
            formula="",
            given=(),
            result=Given("", wording, "word"),
            source="from the elevation and the bond beam",
        )
        return (self.top, choice, *(one.step() for one in self.lines), self.force.step())


@record
class WallRocks:
    """All piers of a wall with one action, together, and the whole wall as one block; the share of dead load that is
    sure."""

    piers: tuple[Rocking, ...]
    together: Solved
    block: Solved
    block_lines: tuple[Solved, ...]
    sure: Step


load_on_head = equation(
    "Dead load on the head of the pier, sure to be there", "max(share * (bears + earth) - lift, 0)",
    Symbol("P_D", "force"), "combinations for allowable stresses, ASCE 7", share=Symbol("k"),
    bears=Symbol("D", "force", "dead load on top"), lift=Symbol("U", "force", "wind lift"),
    earth=Symbol("W", "force", "earth over it and over half of the openings beside it"),
)  # fmt: skip

own_weight_sure = equation(
    "Own weight of the pier, sure to be there", "share * earth", Symbol("P_W", "force"), "mass × gravity",
    share=Symbol("k"), earth=Symbol("W", "force", "earth between the openings"),
)  # fmt: skip

weight_of_all = equation(
    "Dead load of the whole wall, sure to be there", "max(share * (bears + earth) - lift, 0)",
    Symbol("W", "force"), "combinations for allowable stresses, ASCE 7", share=Symbol("k"),
    bears=Symbol("D", "force", "dead load on top"), lift=Symbol("U", "force", "wind lift"),
    earth=Symbol("W_e", "force", "earth"),
)  # fmt: skip

_COEFFICIENTS = ("rocking_toe", "rocking_fixed", "rocking_free", "coupling_earth_least", "coupling_earth_share")

EQUATIONS = (load_on_head, own_weight_sure, weight_of_all)


def wall_rocks(
    building: Building,
    need: Needs,
    wall: Subject,
    found: Columns,
    solids: tuple[Solid, ...],
    action: Action,
    under: str,
) -> WallRocks | None:
    """The piers `under` the dead load so called, worked out once for each. None where a coefficient lacks, which `need`
    then names."""
    for name in _COEFFICIENTS:
        need.use(building.screening[name])
    if need.lacks:
        return None
    key = ("rocks", wall.mark, action.name, under, repr(float(action.dead_share)), repr(float(action.lift)))
    return building.cached(key, lambda: _all_piers(building, wall=wall.mark, found=found, solids=solids, action=action))


def _all_piers(building: Building, wall: str, found: Columns, solids: tuple[Solid, ...], action: Action) -> WallRocks:
    toe, fixed, free, *_ = (building.screening[name] for name in _COEFFICIENTS)
    held, bent, sheared = (building.screening[name] for name in ("pier_held", "pier_bending", "pier_shear"))
    beam, thick = why_no_beam(building, wall), min(found.profile.base, found.profile.top)
    share = Given("k", float(action.dead_share), "ratio", f"share of dead load with {action.name}")
    holes, high = building.views[wall].opened.holes, found.profile.height
    held_top = top_restraint_step(building.project.walls[wall])
    piers = []
    for solid in solids:
        column = found.all[solid.index]
        beside = _beside(column, holes)
        why_not = "no opening beside it" if not beside else beam or _thin_over(building, beside, high)
        coupled = beside and not why_not
        low, top = _heights(beside, high, bool(coupled))
        head = load_on_head(share, _bears(column), action.lift * column.gathered, _earth_over(found, column, top))
        own = own_weight_sure(share, found.earth.weight(column.left, column.left + column.width, low, top))
        height = top - low if coupled else high - low
        fixity = (fixed if coupled else free).given("α")
        force = rocking_of_pier.sourced(toe.source)(toe.given("c_t"), fixity, head, own, solid.length, height)
        stiff = stiffness_over_modulus(height, solid.length, thick, (held if coupled else bent).value, sheared.value)
        piers.append(
            Rocking(
                solid,
                force=force,
                dead=head + own,
                height=height,
                stiffness=stiff,
                why_not=why_not if beside else "",
                lines=(head, own),
                coupled=bool(coupled),
                top=held_top,
            )
        )
    together = rocking_together([one.force for one in piers])
    bears = sum(_bears(one) for one in found.all)
    lift = action.lift * sum(one.gathered for one in found.all)
    weight = weight_of_all(share, bears, lift, found.earth.whole_weight)
    block = rocking_of_wall.sourced(toe.source)(toe.given("c_t"), weight, _chord(building, wall), high)
    return WallRocks(tuple(piers), together=together, block=block, block_lines=(weight,), sure=action.step)


def pier_shares(rocks: WallRocks, force: float) -> Mapping[int, tuple[Solved, ...]]:
    """What each pier takes of the force along the wall, the last of these [N], by its place among all columns."""
    whole = math.fsum(one.stiffness for one in rocks.piers)
    shares = [(one, share_of_stiffness(force, one.stiffness, whole)) for one in rocks.piers]
    if rocks.together <= 0 or not any(elastic > one.force for one, elastic in shares):
        return {one.solid.index: (one.stiffness, elastic) for one, elastic in shares}
    found = {}
    for one, elastic in shares:
        rocking = share_of_rocking(force, one.force, rocks.together)
        found[one.solid.index] = one.stiffness, elastic, rocks.together, rocking, greater_share(elastic, rocking)
    return found


def why_no_beam(building: Building, wall: str) -> str:
    """Why no bond beam ties the heads of the piers together; empty where one does."""
    described = building.project.walls[wall]
    beam = building.project.beams.get(described.beam or "")
    if described.top_restraint != "bond-beam" or beam is None:
        return "no bond beam over it"
    if not beam.continuous:
        return "the bond beam is not said to be continuous"
    if beam.material == "wood" and beam.splice_lap is None:
        return "the splices of the bond beam are not described"
    if beam.material == "wood" and beam.splice_lap is not None and beam.splice_lap.si == 0:
        return "the pieces of the bond beam do not lap"
    return ""


def _thin_over(building: Building, beside: tuple[Hole, ...], high: float) -> str:
    least, share = building.screening["coupling_earth_least"], building.screening["coupling_earth_share"]
    for hole in beside:
        if high - hole.sill - hole.height < max(least.value, share.value * hole.width) * (1 - _SLACK):
            return f"too little earth over {hole.mark}"
    return ""


def _beside(column: Column, holes: tuple[Hole, ...]) -> tuple[Hole, ...]:
    """The openings in the gaps on either side of a pier."""
    left, right = column.left, column.left + column.width
    before, after = column.gaps
    slack = 1e-6
    return tuple(
        hole for hole in holes
        if (before and left - before - slack <= hole.start and hole.end <= left + slack)
        or (after and right - slack <= hole.start and hole.end <= right + after + slack)
    )  # fmt: skip


def _heights(beside: tuple[Hole, ...], high: float, coupled: bool) -> tuple[float, float]:
    """Between which heights the own weight of the pier counts as such: over the taller opening where it is coupled,
    from the lowest sill to the top of the wall where it is not."""
    if not beside:
        return 0.0, high
    if coupled:
        taller = max(beside, key=lambda one: (one.height, -one.sill))
        return taller.sill, taller.sill + taller.height
    return min(one.sill for one in beside), max(one.sill + one.height for one in beside)


def _bears(column: Column) -> float:
    return column.sure.on_top + column.sure.opening_top + column.sure.points


def _earth_over(found: Columns, column: Column, up: float) -> float:
    over = found.earth.weight(column.left, column.left + column.width, up, found.profile.height)
    return column.sure.opening_weight + over


def _chord(building: Building, wall: str) -> float:
    line = building.views[wall].place.line
    (x0, y0), (x1, y1) = line.start, line.end
    return float(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)
