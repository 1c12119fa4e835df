"""What of a roof lies past the ends of the walls it bears on, rakes and all: it stands on the wall's ends."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial

from compliance.facts.common.fact import Fact, without_meaning
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.subjects import Subject
from compliance.facts.loads.roof_lines import RoofPlan, roof_plan, station_on_whole
from compliance.facts.loads.tributary import Hung, hung
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Step

load_past_the_end = equation(
    "Roof past the wall's end", "load * width * past", Symbol("P_e", "force"),
    "statics; carried by the wall's end, common practice, no source",
    load=Symbol("w", "pressure", "load on the roof's plan"), width=Symbol("b", "length", "width on the wall"),
    past=Symbol("c", "length", "past the end"),
)  # fmt: skip

EQUATIONS = (load_past_the_end,)


@record
class EndLoad:
    """A force at the station `at` [m], an end of a wall as built: all of it, and its dead part and snow [N]."""

    at: float
    full: Solved
    dead: float
    snow: float
    steps: Callable[[], tuple[Step, ...]]


def end_loads(building: Building, need: Needs, wall: str) -> tuple[EndLoad, ...]:
    """Of every roof that bears on the wall; empty where a value lacks, which `need` then names."""
    found = []
    for roof, described in building.project.roofs.items():
        plan = roof_plan(building, roof)
        for index, bearing in enumerate(described.bears_on if plan is not None else ()):
            assert plan is not None
            line = plan.bearings[index]
            if building.views[bearing.wall].mark != wall:
                continue
            if plan.length is None and _ends_at_a_gable(building, plan):
                need.field(None, "roofs", roof, "rake")
            if not sum(line.past):
                continue
            width, subject = hung(building, need, roof, index), building.subject("roof", roof)
            full, dead, snow = (need.number_of(subject.fact(f"roof.{one}")) for one in ("plan_load", "dead", "snow"))
            if need.lacks:
                return ()
            for at, past in zip((0.0, line.length), line.past, strict=True):
                if past:
                    force = load_past_the_end.titled(f"Of {roof} past an end of {wall}")(full, width.width, past)
                    area, station = float(width.width) * past, station_on_whole(building, bearing.wall, at)
                    found.append(
                        EndLoad(
                            station,
                            full=force,
                            dead=dead * area,
                            snow=snow * area,
                            steps=partial(_worked, width, force),
                        )
                    )
    return tuple(found)


def _worked(width: Hung, force: Solved) -> tuple[Step, ...]:
    return (*width.steps, force.step())


def _ends_at_a_gable(building: Building, plan: RoofPlan) -> bool:
    """Whether a gable stands across the way the roof runs: it has a sloping edge there, however far that goes."""
    gables = (view for mark, view in building.views.items() if building.project.walls[mark].gable)
    directions = (view.place.line.direction(view.place.line.length / 2) for view in gables)
    return any(abs(x * plan.direction[0] + y * plan.direction[1]) < _HALF for x, y in directions)


_HALF = math.cos(math.radians(60))


def end_load(building: Building, wall: Subject) -> Fact:
    """The greater force at an end of the wall [N]."""
    need = Needs(wall)
    found = end_loads(building, need, wall.mark)
    if need.lacks:
        return need.lacking
    if not found:
        return without_meaning("no roof is said to run past the wall's ends")
    worst = max(found, key=lambda one: float(one.full))
    return need.known(float(worst.full), worst.steps)
