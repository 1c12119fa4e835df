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
    gathered,
    gathering,
    middle_moved,
    stretches,
    sure_load,
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
    if need.lacks or found is None:
        return ()
    if mode == UPRIGHT:
        return tuple(_upright(found, column, one, load, offset) for one in both for column in found.all)
    bent, view = [], building.views[wall.mark]
    if mode == ALONE:
        aside = offset + middle_moved(need, building, found)
        if need.lacks:
            return ()
        bent += [_alone(found, column, one, load, aside, push) for one in both for column in found.all]
    bent += [_sideways(view, stretch, one) for one in both for stretch in stretches(view) if stretch.mode == SIDEWAYS]
    return tuple(bent)


def _upright(found: Columns, column: Column, action: Action, load: float, offset: float) -> Bent:
    """Between foot and top, section at mid-height."""
    height, thick = found.profile.height, found.profile.thickness_at(found.profile.height / 2)
    times = gathering(column)
    if not math.isfinite(times):
        return Bent(action, math.inf, 0.0, thick, lambda: ())
    pressure = gathered(column, action)
    moment = greatest_moment(pressure, height, load * times, offset)
    sure = sure_load(found, column, action, height / 2)
    return Bent(
        action, moment, sure, thick, lambda: (pressure.step(), moment.step(), action.step, sure.step())
    )  # fmt: skip


moment_at_base = equation(
    "Moment at the base", "sides + aside", Symbol("M", "line_moment"), "statics",
    sides=Symbol("M_w", "line_moment", "from the sides"),
    aside=Symbol("m", "line_moment", "load on top off the middle of the base"),
)  # fmt: skip


def _alone(found: Columns, column: Column, action: Action, load: float, offset: float, push: float) -> Bent:
    """A free top: section at the base, the load on top off its middle to the worse side."""
    height, base, times = found.profile.height, found.profile.base, gathering(column)
    if not math.isfinite(times):
        return Bent(action, math.inf, 0.0, base, lambda: ())
    pressure, thrust = gathered(column, action), push * times
    aside = load * times * offset
    pushed = cantilever_moment(pressure, height, thrust)
    moment, sure = moment_at_base(pushed, aside), sure_load(found, column, action, 0.0)

    def steps() -> tuple[Step, ...]:
        both = moment.steps() if aside else ()
        return (pressure.step(), pushed.step(), *both, action.step, sure.step())

    return Bent(action, moment, sure, base, steps)


pressure_on_solid_height = equation(
    "Pressure on the height that is solid", "pressure * height / (height - open_height)", Symbol("w", "pressure"),
    "statics", pressure=Symbol("w", "pressure"), height=Symbol("h", "length"),
    open_height=Symbol("h_o", "length", "openings above one another"),
)  # fmt: skip

moment_sideways = strip_moment.titled("Moment between supports sideways")

EQUATIONS = (moment_at_base, pressure_on_solid_height, moment_sideways)


def _sideways(view: WallView, stretch: Stretch, action: Action) -> Bent:
    """Between supports, least thickness, nothing pressing; openings leave so much less height to bend."""
    height = view.place.height
    holes = [hole for hole in view.opened.holes if stretch.start < hole.end and hole.start < stretch.end]
    open_height = max((_open_at(holes, hole.start) for hole in holes), default=0.0)
    thick = min(ends_of_section(view.wall))
    if open_height >= height:
        return Bent(action, math.inf, 0.0, thick, lambda: ())
    push = Given("w", action.pressure, "pressure", action.name)
    pressure = pressure_on_solid_height(push, height, open_height)
    moment = moment_sideways(pressure, stretch.length, 8)
    return Bent(action, moment, 0.0, thick, lambda: (pressure.step(), moment.step()))


def _open_at(holes: list[Hole], start: float) -> float:
    """Height that is open right of a station."""
    return sum(hole.height for hole in holes if hole.start <= start < hole.end)
