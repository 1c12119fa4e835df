"""Whether what a wall leans on can take it: each buttress, crossing wall and return, under the load of half of the
lengths it holds, from the same wind and earthquake as the wall. A wall that braces the building counts with all of its
solid length, any other up to its first opening."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from compliance.facts.common.fact import Fact, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.plan.stretches import Stretch
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import IN_A_RING, WallView, ends_of_section
from compliance.facts.geometry.wall_plan import Support, SupportSide
from compliance.facts.loads.lateral_pressure import Action, actions
from compliance.facts.mechanics.lateral.leaning import (
    edge_set_in,
    factor_against_sliding,
    overturned_by,
    pushed_by,
    resists_away,
    resists_sliding,
    resists_towards,
    weight_of_block,
)
from compliance.facts.mechanics.lateral.rocking import stability_factor
from compliance.facts.strength.spanning import assumed_top
from compliance.record import record, replace
from compliance.rules.formulas.equations import Solved
from compliance.steps import Given, Named, Step

_NONE = "the wall has no buttress and no other lateral support"


@record
class Leaning:
    """A support with the wall bonded to it: `out`, `wide`, `high` its size, `flange` the length of wall that goes with
    it, `held` the length of wall that leans on it [m], `sine` of its angle to the wall."""

    mark: str
    out: float
    wide: float
    high: float
    flange: float
    held: float
    sine: float


Worst = tuple[float, Callable[[], tuple[Step, ...]]]


def support_overturning(building: Building, wall: Subject) -> Fact:
    """The least factor against overturning of all that the wall leans on."""
    return _least(building, wall, _overturning)


def support_sliding(building: Building, wall: Subject) -> Fact:
    """The least factor against sliding of all that the wall leans on."""
    return _least(building, wall, _sliding)


@record
class _Wall:
    """What all supports of a wall share: density, strength [Pa], thickness and height [m], friction on the base, and
    the part of the push that goes to the base."""

    density: float
    strength: float
    thick: float
    high: float
    friction: Given
    friction_source: str
    part: Given


def _least(building: Building, wall: Subject, each: Callable[[_Wall, Leaning, Action], list[Worst]]) -> Fact:
    view, need = building.views[wall.mark], Needs(wall)
    if view.placed.stretch.ring:
        return without_meaning(IN_A_RING)
    leaning = tuple(_leaning(building, need, view))
    if not leaning and not need.lacks:
        return without_meaning(_NONE)
    both, found = actions(building, need), _wall(building, need, view)
    if need.lacks or found is None:
        return need.lacking
    worst = min((one for action in both for support in leaning for one in each(found, support, action)),
                key=lambda one: one[0])  # fmt: skip
    return need.known(worst[0], worst[1])


def _wall(building: Building, need: Needs, view: WallView) -> _Wall | None:
    density, strength = need.number("wall.unit_weight"), need.number("mix.lowest_compression")
    stem, project = view.wall.stem, building.project
    smooth = stem is not None and project.stems[stem].moisture_break == "bituminous"
    friction = building.screening["friction_on_bitumen" if smooth else "friction"]
    need.use(friction)
    restraint = assumed_top(need, building, view.mark)
    foot = need.field(view.wall.base_restraint, "walls", view.mark, "base_restraint")
    if need.lacks:
        return None
    shared = restraint == "bond-beam" and foot != "none"
    part = Given("c", 0.5 if shared else 1.0, "ratio", "beam and foot share the load" if shared else "all of the load")
    thick, high = min(ends_of_section(view.wall)), view.place.height
    return _Wall(
        density,
        strength=strength,
        thick=thick,
        high=high,
        friction=friction.given("μ"),
        friction_source=friction.known_by,
        part=part,
    )


def _leaning(building: Building, need: Needs, view: WallView) -> Iterator[Leaning]:
    """Every buttress, even one that counts for too little to hold the wall; of crossing walls those that count."""
    stretch, project = view.placed.stretch, building.project
    for one in stretch.supports:
        if view.own_station(one.s) is None or not math.sin(one.angle) > 0:
            continue
        buttress = project.buttresses.get(one.by)
        if buttress is not None:
            out, wide, high = one.projection, buttress.width.si, buttress.height.si
        elif one.why_not or one.by in stretch.marks:
            continue  # judged by its place alone, or a corner of the wall itself
        else:
            side = _side(building, need, stretch, one)
            if side is None:
                continue
            out, high = side.in_all, min(building.pieces[mark].place.height for mark in side.walls)
            wide = min(min(ends_of_section(project.walls[mark])) for mark in side.walls)
        if out > 0:
            held, flange = _held(stretch, one), _flange(stretch, one, wide, view.place.thickness)
            yield Leaning(
                one.by,
                out=out,
                wide=wide,
                high=min(high, view.place.height),
                flange=flange,
                held=held,
                sine=math.sin(one.angle),
            )


def _side(building: Building, need: Needs, stretch: Stretch, one: Support) -> SupportSide | None:
    """The side of what meets the wall that takes its load: of all that counts at the joint the longest that braces the
    building, with all of its solid length, for the bond beam ties its parts; where none braces the longest up to its
    first opening. None where something else at the joint takes it."""
    near = max(link.wall.thickness for link, _ in stretch.chain.at(one.s))
    walls = building.project.walls
    sides = [side for each in stretch.supports if abs(each.s - one.s) <= near for side in each.sides if side.counts]
    bracing = [side for side in sides if all(walls[mark].braces for mark in side.walls)]
    if not bracing:
        for mark in sorted({mark for side in sides for mark in side.walls}):
            need.field(walls[mark].braces, "walls", mark, "braces")
        sides = [replace(side, in_all=side.projection) for side in sides]
    best = max(bracing or sides, key=lambda side: (side.in_all, side.walls))
    return best if any(side.walls == best.walls for side in one.sides) else None


def _held(stretch: Stretch, one: Support) -> float:
    """Half of the length to the next support on either side; all of it where there is none [m]."""
    total = 0.0
    for bay in stretch.bays():
        for start, end, far in ((bay.start, one.s, bay.held[0]), (one.s, bay.end, bay.held[1])):
            inside = bay.start - 1e-6 <= one.s <= bay.end + 1e-6
            if inside and end - start > 1e-6:
                total += (end - start) * (0.5 if far else 1.0)
    return total


def _flange(stretch: Stretch, one: Support, wide: float, thick: float) -> float:
    """The width of the support and a thickness of solid wall on each side of it, up to half of the length to the next
    support [m]."""
    found = wide
    for back in (True, False):
        edge = one.s - wide / 2 if back else one.s + wide / 2
        if not stretch.chain.closed and not 0 <= edge <= stretch.length:
            found -= min(abs(min(edge, stretch.length - edge)), wide / 2)
            continue
        solid = stretch.chain.solid_reaches(edge % stretch.length)[0 if back else 1]
        ends = [bay.start if back else bay.end for bay in stretch.bays() if bay.start - 1e-6 <= one.s <= bay.end + 1e-6]
        distances = [abs(one.s - end) / 2 for end in ends if abs(one.s - end) > 1e-6]
        found += min(thick, solid, *(max(distance - wide / 2, 0.0) for distance in distances))
    return found


def _weights(wall: _Wall, one: Leaning) -> tuple[Solved, Solved]:
    own = weight_of_block.titled(Named("Weight of {}, which stands out", one.mark))
    with_it = weight_of_block.titled(Named("Weight of the wall bonded to {}", one.mark)).giving("W_w")
    return (
        own(wall.density, one.out, one.wide, one.high),
        with_it.naming(out="L_f", wide="t", height="h")(wall.density, one.flange, wall.thick, wall.high),
    )


def _share(action: Action) -> Given:
    return Given("k", float(action.dead_share), "ratio", Named("share of dead load with {}", action.name))


def _overturning(wall: _Wall, one: Leaning, action: Action) -> list[Worst]:
    support, flange = _weights(wall, one)
    share, push = _share(action), Given("w", action.pressure, "pressure", action.name)
    turns = overturned_by(push, wall.high, one.held, one.sine)
    found = []
    for resists, along in ((resists_towards, one.wide), (resists_away, one.flange)):
        inset = edge_set_in(share, support, flange, wall.strength, along)
        if resists is resists_towards:
            stands = resists(share, support, one.out, inset, flange, wall.thick)
        else:
            stands = resists(share, support, wall.thick, one.out, inset, flange)
        factor = stability_factor(stands, turns, "moment")
        lines = (support, flange, inset, turns, stands, factor)
        found.append((float(factor), _lines(action, lines)))
    return found


def _sliding(wall: _Wall, one: Leaning, action: Action) -> list[Worst]:
    support, flange = _weights(wall, one)
    push = Given("w", action.pressure, "pressure", action.name)
    pushes = pushed_by(push, wall.high, one.held, wall.part, one.sine)
    resists = resists_sliding.sourced(wall.friction_source)(wall.friction, _share(action), support, flange)
    if pushes <= 0:
        return [(math.inf, _lines(action, (support, flange, pushes, resists)))]
    factor = factor_against_sliding(resists, pushes)
    return [(float(factor), _lines(action, (support, flange, pushes, resists, factor)))]


def _lines(action: Action, lines: tuple[Solved, ...]) -> Callable[[], tuple[Step, ...]]:
    return lambda: (action.step, *(one.step() for one in lines))
