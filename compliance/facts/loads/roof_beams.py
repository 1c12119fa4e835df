"""Beams under a roof, and what their ends put on the walls; with them every single load that stands on a wall.

A beam is taken as simple spans between its supports with overhangs at its ends; an inner support takes the greater of
that and of the reaction of a continuous beam. It runs as far as the roof does, rakes and all.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from itertools import pairwise

from compliance.facts.common.fact import FieldPath, si
from compliance.facts.common.needs import Needs
from compliance.facts.geometry.building import Building
from compliance.facts.geometry.plan.runs import piece_of
from compliance.facts.loads.roof_lines import RoofPlan, roof_plan, station_on_whole
from compliance.facts.loads.tributary import Hung, ridge_width
from compliance.facts.mechanics.spans import support_reactions
from compliance.model.lines import Point
from compliance.model.structure import BeamBearing, RoofBeam
from compliance.record import record
from compliance.rules.formulas.equations import Solved, equation
from compliance.rules.formulas.symbols import Symbol
from compliance.steps import Step, no_steps

WORKED = ("ridge", "purlin")
"""Beams whose reactions follow from an even load. Those of valley and hip rafters are for an engineer."""

length_on_support = equation(
    "Length of beam that a support carries", "max(past + span / 2 + (past ** 2 - other ** 2) / (2 * span), 0)",
    Symbol("l", "length"), "simple span with overhangs, statics",
    past=Symbol("c", "length", "past this support"), span=Symbol("L", "length", "to the other support"),
    other=Symbol("c'", "length", "past the other support"),
)  # fmt: skip

load_of_support = equation(
    "Load from the beam", "load * width * length", Symbol("P", "force"), "statics",
    load=Symbol("w", "pressure", "load on the roof's plan"), width=Symbol("b", "length", "width the beam carries"),
    length=Symbol("l", "length", "length of beam on this support"),
)  # fmt: skip

EQUATIONS = (length_on_support, load_of_support)


@record
class SingleLoad:
    """A load on top of a wall as built: its station [m] and forces [N], its plate [m] and how far off the middle of the
    top that stands. `path` leads to its description. None where the project does not say. `lift` is what the wind lifts
    there [N], of a beam that is worked out from its roof."""

    name: str
    at: float
    dead: float
    live: float
    snow: float
    length: float | None
    width: float | None
    off: float | None
    path: FieldPath
    lift: float = 0.0
    steps: Callable[[], tuple[Step, ...]] = no_steps

    @property
    def full(self) -> float:
        """Dead load with the greater of live load and snow [N]."""
        return self.dead + max(self.live, self.snow)

    def plate(self, need: Needs) -> tuple[float, float]:
        """Length along and width across the wall of its plate [m]."""
        return need.field(self.length, *self.path, "length"), need.field(self.width, *self.path, "width")


@record
class Support:
    """A support of a beam, with the length of beam on it [m]."""

    bearing: BeamBearing
    place: int
    length: float


def supports(building: Building, need: Needs, roof: str, mark: str) -> tuple[Support, ...]:
    """The supports of a beam from its start to its end; empty where a value lacks, which `need` then names."""
    described = building.project.roofs[roof]
    beam = described.beams[mark]
    path = ("roofs", roof, "beams", mark)
    points: list[tuple[int, BeamBearing, Point]] = []
    for place, one in enumerate(beam.bears_on):
        if one.point is not None:
            points.append((place, one, (one.point[0].si, one.point[1].si)))
        elif one.wall is None or one.at is None:
            need.field(None, *path, "bears_on", place, "wall" if one.wall is None else "at")
        else:
            line = building.pieces[one.wall].place.line
            points.append((place, one, line.point(min(one.at.si, line.length))))
    if len(beam.bears_on) < 2:
        need.field(None, *path, "bears_on")
    plan = roof_plan(building, roof)
    if plan is not None and plan.length is None:
        need.field(None, "roofs", roof, "rake")
    if need.lacks:
        return ()
    found = building.cached(("supports of a beam", roof, mark), lambda: _supports(points, plan))
    if not found:
        need.lack("the supports of a beam stand apart along it", (*path, "bears_on"))
    return found


def _supports(points: list[tuple[int, BeamBearing, Point]], plan: RoofPlan | None) -> tuple[Support, ...]:
    (x0, y0), (x1, y1) = points[0][2], points[-1][2]
    apart = math.dist((x0, y0), (x1, y1))
    if apart == 0:
        return ()
    direction = ((x1 - x0) / apart, (y1 - y0) / apart)
    where = sorted((x * direction[0] + y * direction[1], place, one) for place, one, (x, y) in points)
    if any(after[0] - before[0] <= 0 for before, after in pairwise(where)):
        return ()
    before = after = 0.0
    if plan is not None and plan.start is not None and plan.end is not None:
        near = abs(direction[0] * plan.direction[0] + direction[1] * plan.direction[1]) > math.cos(math.radians(10))
        first, last = (plan.along(point) for point in (points[0][2], points[-1][2]))
        if near:
            before, after = min(first, last) - plan.start, plan.end - max(first, last)
            before, after = (before, after) if first <= last else (after, before)
    lengths = reactions([one[0] for one in where], max(before, 0.0), max(after, 0.0))
    return tuple(Support(one, place, length) for (_, place, one), length in zip(where, lengths, strict=True))


def reactions(stations: list[float], before: float, after: float) -> list[float]:
    """Length of an evenly loaded beam that each support carries [m], the beam running on past both ends."""
    spans = [b - a for a, b in pairwise(stations)]
    found = [0.0] * len(stations)
    for place, span in enumerate(spans):
        left, right = before * (place == 0), after * (place == len(spans) - 1)
        found[place] += length_on_support(left, span, right)
        found[place + 1] += length_on_support(right, span, left)
    if len(spans) > 1:
        running = support_reactions(spans, [1.0] * len(spans))
        found[1:-1] = [max(one, other) for one, other in zip(found[1:-1], running[1:-1], strict=True)]
    return found


def beam_width(building: Building, need: Needs, roof: str, mark: str) -> Hung:
    """Width of roof that a beam carries on plan [m]."""
    beam = building.project.roofs[roof].beams[mark]
    if beam.kind == "ridge":
        return ridge_width(building, need, roof)
    return Hung(need.field(si(beam.tributary), "roofs", roof, "beams", mark, "tributary"))


def single_loads(building: Building, need: Needs, wall: str) -> Mapping[str, SingleLoad]:
    """Every single load on a wall as built, described ones first; empty where a value lacks, which `need` names."""
    found: dict[str, SingleLoad] = {}
    for mark, load in building.views[wall].wall.loads.items():
        piece, own = piece_of(wall, mark)
        found[mark] = SingleLoad(
            mark,
            at=load.at.si,
            dead=load.dead.si,
            live=load.live.si,
            snow=load.snow.si,
            length=si(load.length),
            width=si(load.width),
            off=si(load.eccentricity),
            path=("walls", piece, "loads", own),
        )
    for roof, described in building.project.roofs.items():
        for mark, beam in described.beams.items():
            if beam.kind in WORKED and any(_on(building, one, wall) for one in beam.bears_on):
                found |= _of_beam(building, need=need, wall=wall, roof=roof, mark=mark, beam=beam)
    return {} if need.lacks else found


def _on(building: Building, bearing: BeamBearing, wall: str) -> bool:
    return bearing.wall is not None and building.views[bearing.wall].mark == wall


def _of_beam(building: Building, need: Needs, wall: str, roof: str, mark: str, beam: RoofBeam) -> dict[str, SingleLoad]:
    stand = supports(building, need, roof, mark)
    suction = need.number_of(building.subject("roof", roof).fact("roof.suction"))
    wide = beam_width(building, need, roof, mark)
    subject = building.subject("roof", roof)
    dead, live, snow, water = (
        need.number_of(subject.fact(f"roof.{name}")) for name in ("dead", "live", "snow", "water")
    )
    if need.lacks:
        return {}
    found = {}
    for one in stand:
        if not _on(building, one.bearing, wall):
            continue
        bearing, name = one.bearing, f"{roof} {mark} {one.place + 1}"
        of = load_of_support.titled(f"Load from {mark} of {roof} on {wall}")
        forces = [of(pressure, wide.width, one.length) for pressure in (dead, live + water, snow + water)]
        found[name] = SingleLoad(
            name=name, at=_station(building, bearing), dead=float(forces[0]), live=float(forces[1]),
            snow=float(forces[2]), length=si(bearing.length), width=si(bearing.width), off=si(bearing.eccentricity),
            path=("roofs", roof, "beams", mark, "bears_on", one.place), lift=suction * wide.width * one.length,
            steps=_lines(wide, forces),
        )  # fmt: skip
    return found


def _lines(wide: Hung, forces: list[Solved]) -> Callable[[], tuple[Step, ...]]:
    return lambda: (*wide.steps, *(one.step() for one in forces))


def _station(building: Building, bearing: BeamBearing) -> float:
    """Its station on the wall as built [m]."""
    assert bearing.wall is not None and bearing.at is not None
    return station_on_whole(building, bearing.wall, min(bearing.at.si, building.pieces[bearing.wall].place.line.length))
