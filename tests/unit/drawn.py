"""Buildings to draw, plain or random, and what can be wrong with a drawing: synthetic numbers only."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

from hypothesis import strategies as st

from compliance.drawings.common.board import TextMetrics, bow_points
from compliance.drawings.common.draft import Draft, Flag
from compliance.drawings.common.primitives import Bow, Box, Dimension, Drawing, Filled, Lettering, Sign, Stroke
from compliance.drawings.common.wall_types import wall_types
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.drawings.elevation.levels import parts_of
from compliance.drawings.elevation.wall_face import WallSubject
from compliance.drawings.plan.outer_faces import outside_faces
from compliance.drawings.plan.plan_drawing import plans
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.drawings.section.details import bond_beam_detail
from compliance.drawings.section.section_drawing import section
from compliance.facts.derive import derive
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import line_of
from compliance.model.project import Project
from compliance.units import Writer
from compliance.units.writing import System
from tests.support_rules import RULES as SUPPORTS


def hand(system: System = "si") -> TextMetrics:
    """Every character as wide as a wide letter of a condensed face."""
    return TextMetrics(lambda text, role: 0.52 * role.size * len(text), Writer(system))


def project(walls: dict[str, Any], **more: Any) -> Project:
    """A project of `walls`; a wall that is only a line is 2.4 m high and 0.4 m thick."""
    plain = {"height": "2.4 m", "thickness": "0.4 m"}
    given = {}
    for mark, wall in walls.items():
        said = {**plain, **wall}
        if "thickness_base" in wall:
            del said["thickness"]
        given[mark] = said
    return Project.model_validate(
        {
            "project": {"name": "Drawn", "date": "2026-12-30", "units": "si", "paper": "a4"},
            "jurisdiction": {"name": "Nowhere", "rule_sets": ["none"]},
            "walls": given,
            **more,
        }
    )


def run(x0: float, y0: float, x1: float, y1: float, **more: Any) -> dict[str, Any]:
    return {"run": {"from": [f"{x0:.9f} m", f"{y0:.9f} m"], "to": [f"{x1:.9f} m", f"{y1:.9f} m"]}, **more}


def arc(*points: float, **more: Any) -> dict[str, Any]:
    named = zip(("from", "through", "to"), zip(points[::2], points[1::2], strict=True), strict=True)
    return {"arc": {name: [f"{x:.9f} m", f"{y:.9f} m"] for name, (x, y) in named}, **more}


def room(width: float, depth: float, **more: Any) -> dict[str, Any]:
    """Four walls from the lower left corner, counter-clockwise."""
    corners = ((0, 0), (width, 0), (width, depth), (0, depth), (0, 0))
    return {f"W{index + 1}": run(*corners[index], *corners[index + 1], **more) for index in range(4)}


def views_of(made: Project) -> dict[str, WallView]:
    return dict(derive(made, {}, SUPPORTS).views)


def length(value: float) -> str:
    return f"{value:.4f} m"


@st.composite
def buildings(draw: Any) -> Project:
    """From a hut to a wall of 36 m: straight and curved walls at any angle, thin and thick, with openings of any size,
    with or without what they stand on."""
    walls: dict[str, Any] = {}
    points = [(0.0, 0.0)]
    for number in range(1, draw(st.integers(1, 5)) + 1):
        reach = draw(st.sampled_from((0.9, 2.0, 4.0, 7.0, 12.0, 36.0)))
        turned = math.radians(draw(st.one_of(st.sampled_from((0, 90, 180, 270)), st.integers(0, 359))))
        start = draw(st.sampled_from(points))
        end = (start[0] + reach * math.cos(turned), start[1] + reach * math.sin(turned))
        bulge = draw(st.sampled_from((0.0, 0.0, 0.0, 0.1, -0.3)))
        middle = (
            (start[0] + end[0]) / 2 - bulge * (end[1] - start[1]),
            (start[1] + end[1]) / 2 + bulge * (end[0] - start[0]),
        )
        line = arc(*start, *middle, *end) if bulge else run(start[0], start[1], end[0], end[1])
        walls[f"W{number}"] = line | draw(_builds(reach))
        points.append(end)
    return project(
        walls,
        project={"name": "Random", "date": "2026-12-30", "units": draw(st.sampled_from(("us", "si"))), "paper": "a4"},
        stems={"ST1": draw(_some(material="stone", thickness="0.45 m", above_grade="0.4 m", above_floor="0.25 m"))},
        footings={"F1": draw(_some(kind="stone", width="0.7 m", thickness="0.5 m", bottom="0.9 m", drain="yes"))},
        beams={"B1": draw(_some(material="wood", width="0.3 m", depth="0.15 m", grade="a grade in many words " * 3))},
        roofs={"R1": draw(_some(kind="framed", overhang="0.8 m", slope="30 deg")) | {"bears_on": [{"wall": "W1"}]}},
        buttresses=draw(st.sampled_from(({}, {"BT1": {
            "wall": "W1", "at": "0.4 m", "projection": "0.8 m", "width": "0.4 m", "height": "1.5 m"}}))),
    )  # fmt: skip


@st.composite
def _some(draw: Any, /, **fields: str) -> dict[str, Any]:
    """A record with its first field and any of the others."""
    first, *others = fields
    return {first: fields[first]} | {name: fields[name] for name in others if draw(st.booleans())}


@st.composite
def _builds(draw: Any, reach: float) -> dict[str, Any]:
    height = draw(st.sampled_from((0.8, 2.4, 3.5, 6.0)))
    base = draw(st.sampled_from((0.13, 0.4, 0.9)))
    wall: dict[str, Any] = {"height": length(height), "openings": draw(_openings(reach, height))}
    if draw(st.booleans()):
        wall |= {"thickness_base": length(base), "thickness_top": length(0.7 * base)}
    else:
        wall["thickness"] = length(base)
    choices = {"stem": "ST1", "footing": "F1", "beam": "B1", "lift_height": "0.4 m", "use": "interior"}
    wall |= {name: value for name, value in choices.items() if draw(st.booleans())}
    layers = [{"material": "lime", "thickness": "20 mm"}, {"material": "clay"}]
    return wall | {"outside": layers[: draw(st.integers(0, 2))]}


@st.composite
def _openings(draw: Any, reach: float, height: float) -> dict[str, Any]:
    found: dict[str, Any] = {}
    at = draw(st.sampled_from((0.0, 0.05, 0.5)))
    for number in range(draw(st.integers(0, 7))):
        width = draw(st.sampled_from((0.06, 0.4, 0.9, 2.2)))
        tall = min(height, draw(st.sampled_from((0.08, 0.6, 2.0))))
        if at + width > reach:
            break
        sill = draw(st.sampled_from((0.0, 0.5, 1.0))) * (height - tall)
        lintel = {
            "material": draw(st.sampled_from(("wood", "arch", "bond-beam"))),
            "depth": "0.2 m",
            "bearing": "0.3 m",
        }
        found[f"N{number}"] = {
            "kind": draw(st.sampled_from(("door", "window", "arch", "vent"))), "start": length(at),
            "width": length(width), "height": length(tall), "sill": length(sill), "lintel": lintel,
        }  # fmt: skip
        at += width + draw(st.sampled_from((0.0, 0.1, 0.6, 2.5)))
    return found


def sound(made: Project) -> bool:
    """Has every wall a line? A random arc may be too short for its thickness."""
    return all(line_of(wall) is not None for wall in made.walls.values())


def faults(drawing: Drawing) -> list[str]:
    """Lettering over lettering, anything outside the frame, dimensions not to scale or lost."""
    return [*_lettering(drawing), *_outside(drawing), *_dimensions(drawing)]


def _lettering(drawing: Drawing) -> Iterable[str]:
    frame = Box(-1e-6, -1e-6, drawing.width + 1e-6, drawing.height + 1e-6)
    boxes = [item for item in drawing.items if isinstance(item, (Lettering, Sign))]
    for index, one in enumerate(boxes):
        if not frame.holds(one.box):
            yield f"{one} outside the frame"
        for other in boxes[index + 1 :]:
            if one.box.overlaps(other.box, -1e-6):
                yield f"{one} over {other}"


def _outside(drawing: Drawing) -> Iterable[str]:
    for item in drawing.items:
        points: Iterable[tuple[float, float]] = ()
        if isinstance(item, (Stroke, Filled)):
            points = item.points
        elif isinstance(item, Bow):
            points = bow_points(item)
        elif isinstance(item, Dimension):
            points = (item.start, item.end, *item.feet)
        if any(not (-2 <= x <= drawing.width + 2 and -2 <= y <= drawing.height + 2) for x, y in points):
            yield f"{item} outside the frame"


def _dimensions(drawing: Drawing) -> Iterable[str]:
    texts = [item.text for item in drawing.items if isinstance(item, Lettering)]
    for item in drawing.items:
        if isinstance(item, Dimension):
            drawn = math.dist(item.start, item.end)
            if drawing.scale and not math.isclose(
                drawn, item.value * drawing.scale.per_metre, rel_tol=1e-6, abs_tol=1e-6
            ):
                yield f"{item} is not to scale"
            if item.text not in texts and not any(item.subject in text for text in drawing.unset):
                yield f"{item} is nowhere to be read"


def every_draft(made: Project) -> list[Draft]:
    """All drawings of a project at the sizes of a page, each finding-free."""
    views = views_of(made)
    outside = outside_faces(views)
    pen, width = hand(made.project.units), 470.0
    north = made.site.north.si if made.site.north else None
    plan = PlanSubject(views, walls=made.walls, buttresses=made.buttresses, outside=outside, north=north)
    drafts = plans(plan, pen, width, 520.0)
    for mark in views:
        drafts += elevations(wall_subject(made, mark), pen, width, (250.0, 560.0))
    drafts += [section(one, mix="the mix", metrics=pen, width=width, tallest=560.0) for one in wall_types(made, views)]
    return drafts + [
        bond_beam_detail(mark, beam=beam, views=views, metrics=pen, width=width) for mark, beam in made.beams.items()
    ]


def wall_subject(made: Project, mark: str, flags: Sequence[Flag] = ()) -> WallSubject:
    views = views_of(made)
    heights = {name: view.place.height for name, view in views.items()}
    beside = {name: one.height.si for name, one in made.buttresses.items()}
    outside = outside_faces(views)[mark]
    return WallSubject(
        views[mark], parts=parts_of(mark, made), outside=outside, heights=heights, buttresses=beside, flags=tuple(flags)
    )
