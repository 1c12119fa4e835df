"""The sections of a wall that bend when it is pushed square to its face, under wind and under earthquake."""

from __future__ import annotations

import math
from collections.abc import Callable

from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns, columns
from compliance.facts.geometry.openings import Hole
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import WallView, ends_of_section
from compliance.facts.loads.lateral_pressure import Action, actions
from compliance.facts.loads.point_loads import SpreadRule, spread_rule
from compliance.facts.mechanics.lateral.out_of_plane import (
    cantilever_moment,
    flexural_tension,
    greatest_moment,
)
from compliance.facts.mechanics.spans import strip_moment
from compliance.facts.strength.spanning import (
    ALONE,
    SIDEWAYS,
    UPRIGHT,
    Stretch,
    Zone,
    anchor_depth,
    earth_above,
    gathered,
    gathering,
    middle_moved,
    stretches,
    zones,
)
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Given, Step


@record
class Bent:
    """A section under one action: moment for each length of section [N], what presses it [N/m], thickness [m]."""

    action: Action
    moment: float
    pressed_by: float
    thickness: float
    steps: Callable[[], tuple[Step, ...]]

    @property
    def tension(self) -> Solved:
        """[Pa]; infinite where a load has nothing to stand on."""
        if not math.isfinite(self.moment):
            return flexural_tension.without_value(math.inf)
        return flexural_tension(self.moment, self.pressed_by, self.thickness)


def bent_sections(building: Building, need: Needs, wall: Subject) -> tuple[Bent, ...]:
    """Every section to look at under both actions; empty where a value lacks, which `need` then names."""
    mode, found, both = need.of(wall.fact("wall.span_mode")), columns(building, need, wall), actions(building, need)
    load, offset = need.number("wall.top_load"), need.number("wall.load_offset")
    push = need.number("wall.top_thrust")
    rule = spread_rule(building, need)
    if need.lacks or found is None:
        return ()
    if mode == UPRIGHT:
        anchored = _rods(building, need=need, found=found, both=both, offset=offset, rule=rule)
        if need.lacks:
            return ()
        return tuple(
            bent for one in both for column in found.all
            for bent in _upright(found, column, one, Upright(load, offset, anchored, rule))
        )  # fmt: skip
    bent, view = [], building.views[wall.mark]
    if mode == ALONE:
        aside = offset + middle_moved(need, building, found)
        if need.lacks:
            return ()
        bent += [
            made for one in both for column in found.all
            for made in _alone(found, column=column, action=one, state=Upright(load, aside, 0.0, rule), push=push)
        ]  # fmt: skip
    bent += [_sideways(view, stretch, one) for one in both for stretch in stretches(view) if stretch.mode == SIDEWAYS]
    return tuple(bent)


def _rods(
    building: Building, need: Needs, found: Columns, both: tuple[Action, ...], offset: float, rule: SpreadRule
) -> float:  # fmt: skip
    """How deep the rods reach where wind lifts more than bears on the top; without meaning elsewhere [m]."""
    wide = [column for column in found.all if column.width > 0]
    lifted = any(
        zone.top < 0
        for one in both
        for column in wide
        for zone in zones(found, column=column, action=one, offset=offset, rule=rule)
    )
    return anchor_depth(building, need) if lifted else 0.0


def _beyond(action: Action, thickness: float) -> Bent:
    """Of a load that has nothing to stand on, or of wind beyond its table."""
    return Bent(action, moment=math.inf, pressed_by=0.0, thickness=thickness, steps=lambda: ())


@record
class Upright:
    """What bends a wall between foot and top besides what pushes it: load on top [N/m], how far off the middle it
    stands [m], how deep the rods reach that hold it down [m]."""

    load: float
    offset: float
    rods: float
    rule: SpreadRule


moment_at_depth = equation(
    "Moment at the section with the greatest tension",
    "pressure * depth * (height - depth) / 2 + top * (1 - depth / height)",
    Symbol("M", "line_moment", "moment"), "statics",
    pressure=Symbol("w", "pressure"), depth=Symbol("z", "length", "below the top"), height=Symbol("h", "length"),
    top=Symbol("m", "line_moment", "load on top off the middle"),
)  # fmt: skip

pressed_signed = equation(
    "Load at this section, wind lift taken off", "weight + top", Symbol("N", "line_load"), "sum",
    weight=Symbol("W", "line_load", "earth above"), top=Symbol("N_t", "line_load", "on top"),
)  # fmt: skip


def _upright(found: Columns, column: Column, action: Action, state: Upright) -> list[Bent]:
    """Between foot and top: at mid-height under the greatest moment, and at the depth where tension is greatest, which
    is higher up where less earth presses. Below the ends of the rods wind lift takes from what presses."""
    height, thick = found.profile.height, found.profile.thickness_at(found.profile.height / 2)
    times = gathering(column)
    if not math.isfinite(times * action.pressure):
        return [_beyond(action, thick)]
    pressure = gathered(column, action)
    made = []
    for zone in zones(found, column=column, action=action, offset=state.offset, rule=state.rule):
        highest = min(state.rods, height) if zone.top < 0 else 0.0
        top = state.load * times * zone.off
        weakest = _weakest(found, column, action, pressure, highest=highest, top=top, on_top=float(zone.top))
        for depth in dict.fromkeys((height / 2, weakest)):
            made.append(_section(found, column=column, action=action, state=state, zone=zone, depth=depth))
    return made


def _weakest(
    found: Columns, column: Column, action: Action, pressure: float, *, highest: float, top: float,
    on_top: float,
) -> float:  # fmt: skip
    """Depth below `highest` at which tension is greatest [m], `top` being the moment of the load on top [N], `on_top`
    what of it is sure to press [N/m]: in closed form of an even wall, of one that tapers by trying."""
    height, profile = found.profile.height, found.profile
    resting = earth_above(found, column, action, height)
    grows = earth_above(found, column, action, 0.0) - resting
    if pressure <= 0:
        return max(height / 2, highest)
    if profile.base == profile.top:
        best = height / 2 - top / (pressure * height) - grows / height * profile.top / (6 * pressure)
        return min(max(best, highest), height)

    def tension(depth: float) -> float:
        thick = profile.thickness_at(height - depth)
        share = profile.area(height - depth, height) / profile.area(0.0, height)
        moment = pressure * depth * (height - depth) / 2 + top * (1 - depth / height)
        return 6 * moment / thick**2 - (grows * share + resting + on_top) / thick

    step = (height - highest) / _TRIED
    best = max((highest + step * place for place in range(_TRIED + 1)), key=tension)
    low, high = max(best - step, highest), min(best + step, height)
    for _ in range(_THIRDS):
        first, second = low + (high - low) / 3, high - (high - low) / 3
        low, high = (first, high) if tension(first) < tension(second) else (low, second)
    return (low + high) / 2


_TRIED, _THIRDS = 64, 40


def _section(found: Columns, column: Column, action: Action, state: Upright, zone: Zone, depth: float) -> Bent:
    height, pressure = found.profile.height, gathered(column, action)
    thick = found.profile.thickness_at(height - depth)
    top = state.load * gathering(column) * zone.off
    if depth == height / 2:
        moment = greatest_moment(pressure, height, state.load * gathering(column), zone.off)
    else:
        moment = moment_at_depth(pressure, depth, height, top)
    weight = earth_above(found, column, action, height - depth)
    sure = pressed_signed(weight, max(float(zone.top), 0.0) if depth < state.rods else float(zone.top))

    def steps() -> tuple[Step, ...]:
        lines = (*zone.lines, moment, weight, sure)
        return (pressure.step(), action.step, *(one.step() for one in lines))

    return Bent(action, moment=moment, pressed_by=sure, thickness=thick, steps=steps)


moment_at_base = equation(
    "Moment at the base", "sides + aside", Symbol("M", "line_moment"), "statics",
    sides=Symbol("M_w", "line_moment", "from the sides"),
    aside=Symbol("m", "line_moment", "load on top off the middle of the base"),
)  # fmt: skip


def _alone(found: Columns, column: Column, action: Action, state: Upright, push: float) -> list[Bent]:
    """A free top: section at the base, the load on top off its middle to the worse side."""
    base, times = found.profile.base, gathering(column)
    if not math.isfinite(times * action.pressure):
        return [_beyond(action, base)]
    return [_at_base(found, column=column, action=action, state=state, push=push, zone=zone)
            for zone in zones(found, column=column, action=action, offset=state.offset, rule=state.rule)]  # fmt: skip


def _at_base(found: Columns, column: Column, action: Action, state: Upright, push: float, zone: Zone) -> Bent:
    height, base, times = found.profile.height, found.profile.base, gathering(column)
    pressure, thrust = gathered(column, action), push * times
    aside = state.load * times * zone.off
    pushed = cantilever_moment(pressure, height, thrust)
    moment, weight = moment_at_base(pushed, aside), earth_above(found, column, action, 0.0)
    sure = pressed_signed(weight, zone.top)

    def steps() -> tuple[Step, ...]:
        both = moment.steps() if aside else ()
        lines = (*zone.lines, weight, sure)
        return (pressure.step(), pushed.step(), *both, action.step, *(one.step() for one in lines))

    return Bent(action, moment=moment, pressed_by=sure, thickness=base, steps=steps)


pressure_on_solid_height = equation(
    "Pressure on the height that is solid", "pressure * height / (height - open_height)", Symbol("w", "pressure"),
    "statics", pressure=Symbol("w", "pressure"), height=Symbol("h", "length"),
    open_height=Symbol("h_o", "length", "openings above one another"),
)  # fmt: skip

moment_sideways = strip_moment.titled("Moment between supports sideways")

EQUATIONS = (moment_at_depth, pressed_signed, moment_at_base, pressure_on_solid_height, moment_sideways)


def _sideways(view: WallView, stretch: Stretch, action: Action) -> Bent:
    """Between supports, least thickness, nothing pressing; openings leave so much less height to bend."""
    height = view.place.height
    holes = [hole for hole in view.opened.holes if stretch.start < hole.end and hole.start < stretch.end]
    open_height = max((_open_at(holes, hole.start) for hole in holes), default=0.0)
    thick = min(ends_of_section(view.wall))
    if open_height >= height or not math.isfinite(action.pressure):
        return _beyond(action, thick)
    push = Given("w", action.pressure, "pressure", action.name)
    pressure = pressure_on_solid_height(push, height, open_height)
    moment = moment_sideways(pressure, stretch.length, 8)
    return Bent(action, moment=moment, pressed_by=0.0, thickness=thick, steps=lambda: (pressure.step(), moment.step()))


def _open_at(holes: list[Hole], start: float) -> float:
    """Height that is open right of a station."""
    return sum(hole.height for hole in holes if hole.start <= start < hole.end)
