"""Load from above and push from the side at once: f_a / F_a + f_b / F_b, as masonry standards add the two."""

from __future__ import annotations

import math
from collections.abc import Callable

from compliance.facts.common.fact import Fact
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.columns import Column, Columns, columns
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.lateral_pressure import Action, actions
from compliance.facts.loads.point_loads import spread_of, spread_rule
from compliance.facts.mechanics.lateral.out_of_plane import cantilever_moment, greatest_moment
from compliance.facts.strength.spanning import ALONE, SIDEWAYS, gathering
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol, not_negative, positive
from compliance.steps import Step

MASONRY = "unity equation of masonry allowable stress rules, TMS 402 form, quoted in textbooks"

axial_part = equation(
    "Axial stress", "load / thickness", Symbol("f_a", "stress"), "statics",
    load=not_negative("N", "line_load", "load at this section"), thickness=positive("t", "thickness"),
)  # fmt: skip

bending_part = equation(
    "Bending stress", "6 * moment / thickness ** 2", Symbol("f_b", "stress"), "elastic bending",
    moment=not_negative("M", "line_moment", "moment at this section"), thickness=positive("t", "thickness"),
)  # fmt: skip

bending_allowed = equation(
    "Allowable bending compression", "share * strength", Symbol("F_b", "stress"), "",
    share=Symbol("c"), strength=positive("f", "stress", "lowest strength"),
)  # fmt: skip

both_together = equation(
    "Axial load with bending", "axial / axial_allowed + bending / bending_allowed", Symbol("u"), MASONRY,
    axial=Symbol("f_a", "stress"), axial_allowed=positive("F_a", "stress"),
    bending=Symbol("f_b", "stress"), bending_allowed=positive("F_b", "stress"),
)  # fmt: skip

EQUATIONS = (axial_part, bending_part, bending_allowed, both_together)


@record
class _Case:
    """Loads that act at once: share of what comes on top of dead load, the push [Pa], and its name."""

    variable: float
    push: float
    name: str


def combined_use(building: Building, wall: Subject) -> Fact:
    """The greatest sum of the two uses, of every column under every combination. A wall that spans sideways bends in a
    plane that no load presses, which `wall.bending_tension` looks at."""
    need = Needs(wall)
    mode, found, both = need.of(wall.fact("wall.span_mode")), columns(building, need, wall), actions(building, need)
    offset, thrust, top = (need.number(f"wall.{name}") for name in ("load_offset", "top_thrust", "top_load"))
    dead, allowed = need.number("wall.top_dead"), need.number("wall.slender_allowable")
    strength, share = need.number("mix.lowest_compression"), building.screening["bending_share"]
    need.use(share)
    together, rule = need.use(building.screening["together_share"]), spread_rule(building, need)
    if need.lacks or found is None:
        return need.lacking
    at_most = bending_allowed.sourced(share.source)(share.given("c", share.name), strength)
    cases = [_Case(1.0, 0.0, "all loads from above"), *(case for one in both for case in _cases(one, together))]
    push = 0.0 if mode == SIDEWAYS else 1.0
    worst: tuple[float, Callable[[], tuple[Step, ...]]] = (-1.0, lambda: ())
    for column in found.all:
        if column.width <= 0:
            return need.known(math.inf, lambda: ())
        strips = [(0.0, 0.0, offset)]
        for load in found.loads:
            if column.left <= load.at <= column.left + column.width:
                length = spread_of(load, column=column, found=found, rule=rule, below=found.profile.height / 2).length
                strips.append((load.dead / length, load.full / length, max(offset, load.off or 0.0)))
        for case in cases:
            for dead_point, full_point, off in strips:
                point = dead_point + case.variable * (full_point - dead_point)
                above = (dead + case.variable * max(top - dead, 0.0)) * gathering(column) + point
                lines = _section(
                    found,
                    column=column,
                    case=case,
                    point=point,
                    above=above,
                    off=off,
                    push=push,
                    thrust=thrust,
                    alone=mode == ALONE,
                )
                use = both_together.titled(f"Axial load with bending, {case.name}")(
                    lines[-2], allowed, lines[-1], at_most
                )
                if use > worst[0]:
                    worst = float(use), _shown((*lines, at_most, use))
    return need.known(worst[0], worst[1])


def _shown(lines: tuple[Solved, ...]) -> Callable[[], tuple[Step, ...]]:
    return lambda: tuple(one.step() for one in lines)


def _cases(action: Action, together: float) -> tuple[_Case, ...]:
    return (
        _Case(0.0, action.pressure, f"dead load and {action.name}"),
        _Case(together, together * action.pressure, f"dead load, snow or live load, and {action.name}"),
    )


def _section(
    found: Columns, column: Column, case: _Case, point: float, above: float, off: float, push: float, thrust: float,
    alone: bool,
) -> tuple[Solved, ...]:  # fmt: skip
    """Moment, stress from the load and from bending, at mid-height of a wall held at its top, else at the base."""
    profile, times = found.profile, gathering(column)
    height = profile.height
    up, thick = (0.0, profile.base) if alone else (height / 2, profile.thickness_at(height / 2))
    own = found.own_above(column, up) + column.sure.opening_weight
    own += column.finish.from_above if column.finish else 0.0
    even = column.sure.on_top + column.sure.opening_top
    more = column.full.on_top + column.full.opening_top - even
    load = (own + even + case.variable * max(more, 0.0)) / column.width + point
    pressure = case.push * times * push
    if alone:
        moment = cantilever_moment(pressure, height, thrust * times + above * off / height)
    else:
        moment = greatest_moment(pressure, height, above, off)
    return moment, axial_part(load, thick), bending_part(moment, thick)
