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
    cantilever_moment_step,
    flexural_tension,
    greatest_moment,
    greatest_moment_step,
)
from compliance.facts.mechanics.spans import uniform_moment, uniform_moment_step
from compliance.facts.strength.spanning import (
    ALONE,
    SIDEWAYS,
    UPRIGHT,
    Stretch,
    gathered_step,
    gathering,
    middle_moved,
    stretches,
    sure_load,
)
from compliance.record import record
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
    def tension(self) -> float:
        """[Pa]; infinite where a load has nothing to stand on."""
        if not math.isfinite(self.moment):
            return math.inf
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
    pressure, bears = action.pressure * times, load * times
    moment = greatest_moment(pressure, height, bears, offset)
    pressed, sure = sure_load(found, column, action, height / 2)

    def steps() -> tuple[Step, ...]:
        return (
            gathered_step(column, action),
            greatest_moment_step(pressure, height, bears, offset),
            action.step,
            *sure,
        )

    return Bent(action, moment, pressed, thick, steps)


def _alone(found: Columns, column: Column, action: Action, load: float, offset: float, push: float) -> Bent:
    """A free top: section at the base, the load on top off its middle to the worse side."""
    height, base, times = found.profile.height, found.profile.base, gathering(column)
    if not math.isfinite(times):
        return Bent(action, math.inf, 0.0, base, lambda: ())
    pressure, thrust = action.pressure * times, push * times
    aside = load * times * offset
    moment = cantilever_moment(pressure, height, thrust) + aside
    pressed, sure = sure_load(found, column, action, 0.0)

    def steps() -> tuple[Step, ...]:
        first = cantilever_moment_step(pressure, height, thrust)
        given = (Given("M_w", first.result.value, "line_moment", "from the sides"),
                 Given("m", aside, "line_moment", "load on top off the middle of the base"))  # fmt: skip
        both = Step("Moment at the base", "M_w + m", given, Given("M", moment, "line_moment"), "statics")
        return (gathered_step(column, action), first, *((both,) if aside else ()), action.step, *sure)

    return Bent(action, moment, pressed, base, steps)


def _sideways(view: WallView, stretch: Stretch, action: Action) -> Bent:
    """Between supports, least thickness, nothing pressing; openings leave so much less height to bend."""
    height = view.place.height
    holes = [hole for hole in view.opened.holes if stretch.start < hole.end and hole.start < stretch.end]
    open_height = max((_open_at(holes, hole.start) for hole in holes), default=0.0)
    thick = min(ends_of_section(view.wall))
    left = height - open_height
    if left <= 0:
        return Bent(action, math.inf, 0.0, thick, lambda: ())
    pressure = action.pressure * height / left
    moment = uniform_moment(pressure, stretch.length, 8)

    def steps() -> tuple[Step, ...]:
        given = (Given("w", action.pressure, "pressure", action.name), Given("h", height, "length"),
                 Given("h_o", open_height, "length", "openings above one another"))  # fmt: skip
        push = Step(
            "Pressure on the height that is solid",
            "w × h / (h − h_o)",
            given,
            Given("w", pressure, "pressure"),
            "statics",
        )
        says = "Moment between supports sideways"
        return (push, uniform_moment_step(pressure, stretch.length, 8, says, "pressure", "line_moment"))

    return Bent(action, moment, 0.0, thick, steps)


def _open_at(holes: list[Hole], start: float) -> float:
    """Height that is open right of a station."""
    return sum(hole.height for hole in holes if hole.start <= start < hole.end)
