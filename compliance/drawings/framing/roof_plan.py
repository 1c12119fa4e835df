"""The roof framing plan: rafters or poles at their spacing over the walls they bear on, beams, eaves, what ties it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from compliance.drawings.common.board import LabelLine, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.inches import written
from compliance.drawings.common.lettering import Role
from compliance.drawings.common.placing import around
from compliance.drawings.common.primitives import Bow, Pen, Point, Tone, box_about
from compliance.drawings.framing.overlay_plan import OverlayPlan
from compliance.drawings.framing.roof_outline import Gabled, Round, roof_form
from compliance.drawings.plan.plan_face import PlanFace, PlanSubject
from compliance.model.project import Project
from compliance.model.structure import BeamBearing, Roof
from compliance.units import Measure

_NAME = "Roof framing plan"
_HOW = (
    "From the description: rafters at their stated spacing over the walls they bear on, eaves in hidden lines. Sizes "
    "of members, bracing, sheathing and connections are not described and belong to the design of the roof."
)
_MOST_LINES = 240


def roof_plan(project: Project, plan: PlanSubject, metrics: TextMetrics, width: float, tallest: float) -> Draft | None:
    """All roofs over the walls; None where no roof is described."""
    if not project.roofs:
        return None
    forms = {mark: roof_form(roof, plan.views) for mark, roof in project.roofs.items()}

    def paint(face: PlanFace) -> None:
        for region in plan.shape.solid:
            face.board.fill(face.points(region.points()), Tone.BAND)
        for edge in plan.shape.edges:
            face.ink(edge, Pen.FINE)
        for mark, roof in project.roofs.items():
            form = forms[mark]
            if isinstance(form, Gabled):
                _gabled(face, form, roof)
            elif isinstance(form, Round):
                _round(face, form, roof)
            _beams(face, roof, plan)
            _label(face, mark, roof, _middle(form, roof, plan))

    undrawn = [mark for mark, form in forms.items() if form is None]
    notes = [_HOW, *(_described(mark, roof, metrics) for mark, roof in project.roofs.items())]
    if undrawn:
        notes.append(f"Roof {', '.join(undrawn)}: the description does not tell how its members run; none is drawn.")
    beyond = max((roof.overhang.si for roof in project.roofs.values() if roof.overhang), default=0.0)
    bears = {wall.wall: mark for mark, roof in project.roofs.items() for wall in roof.bears_on}
    alt = f"{_NAME}: {'; '.join(f'{mark} over {_walls(roof)}' for mark, roof in project.roofs.items())}."
    return OverlayPlan("roof-plan", name=_NAME, alt=alt, subject=plan, metrics=metrics, width=width, notes=tuple(notes),
                       names=lambda mark: f"bears {bears[mark]}" if mark in bears else "", paint=paint,
                       beyond=beyond).draft(tallest)  # fmt: skip


def _walls(roof: Roof) -> str:
    return ", ".join(one.wall for one in roof.bears_on) or "walls not named"


def _gabled(face: PlanFace, form: Gabled, roof: Roof) -> None:
    """Rafters across, the ridge along the middle."""
    corners = [form.point(a, b) for a, b in ((form.first, form.low), (form.last, form.low), (form.last, form.high),
                                             (form.first, form.high))]  # fmt: skip
    face.board.stroke(*face.points(corners), pen=Pen.HIDDEN, closed=True, avoid=False)
    for along in form.stations(roof.rafter_spacing.si if roof.rafter_spacing else None, _MOST_LINES):
        ends = face.points((form.point(along, form.low), form.point(along, form.high)))
        face.board.stroke(*ends, pen=Pen.MEASURE, avoid=False)
    if roof.rise:
        middle = (form.low + form.high) / 2
        face.board.stroke(*face.points((form.point(form.first, middle), form.point(form.last, middle))), pen=Pen.EDGE)


def _round(face: PlanFace, form: Round, roof: Roof) -> None:
    """Poles from the ring to the eaves."""
    k = face.scale.per_metre
    for radius, pen in ((form.reach, Pen.HIDDEN), (form.ring, Pen.EDGE)):
        if radius > 0:
            face.board.bow(Bow(face.at(form.centre), radius=radius * k, first=0.0, sweep=2 * math.pi, pen=pen))
    spacing = roof.rafter_spacing.si if roof.rafter_spacing else None
    count = min(round(2 * math.pi * form.radius / spacing), _MOST_LINES) if spacing else 0
    for index in range(count):
        angle = 2 * math.pi * index / count
        points = [_out(form.centre, angle, radius) for radius in (form.ring, form.reach)]
        face.board.stroke(*face.points(points), pen=Pen.MEASURE, avoid=False)


def _out(centre: Point, angle: float, radius: float) -> Point:
    return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)


def _beams(face: PlanFace, roof: Roof, plan: PlanSubject) -> None:
    """Each beam from bearing to bearing."""
    for mark, beam in roof.beams.items():
        points = [point for one in beam.bears_on if (point := _bearing(one, plan)) is not None]
        if len(points) > 1:
            face.board.stroke(*face.points(points), pen=Pen.CUT)
            label = (LabelLine(f"{mark} {beam.kind}", Role.MARK),)
            at = face.at(((points[0][0] + points[-1][0]) / 2, (points[0][1] + points[-1][1]) / 2))
            face.board.label(label, around(at, *face.board.size(label), 4.0), f"{_NAME}: beam {mark}", at, plate=True)


def _bearing(one: BeamBearing, plan: PlanSubject) -> Point | None:
    if one.point:
        return one.point[0].si, one.point[1].si
    view = plan.views.get(one.wall or "")
    return view.place.line.point(min(one.at.si, view.place.line.length)) if view and one.at else None


def _middle(form: Gabled | Round | None, roof: Roof, plan: PlanSubject) -> Point:
    if isinstance(form, Gabled):
        return form.point((form.first + form.last) / 2, form.low + 0.3 * (form.high - form.low))
    if isinstance(form, Round):
        return form.centre
    x0, y0, x1, y1 = plan.shape.box
    return (x0 + x1) / 2, (y0 + y1) / 2


def _label(face: PlanFace, mark: str, roof: Roof, at: Point) -> None:
    label = (LabelLine(f"roof {mark}", Role.MARK), LabelLine(roof.kind))
    place = face.at(at)
    wide, high = face.board.size(label)
    spots = [box_about(place, wide, high), *around(place, wide, high, 0.0)]
    face.board.label(label, spots, f"{_NAME}: roof {mark}", place, plate=True)


def _described(mark: str, roof: Roof, metrics: TextMetrics) -> str:
    """Kind, sizes, what holds thrust and uplift."""
    return f"{mark}: {'; '.join(_phrases(roof, metrics))}."


def _phrases(roof: Roof, metrics: TextMetrics) -> Iterator[str]:
    yield f"{roof.kind} roof on {_walls(roof)}"
    spacing = roof.rafter_spacing
    yield f"rafters at {_sized(spacing, metrics)} on center" if spacing else "spacing of rafters not described"
    yield f"slope {metrics.writer.write(roof.slope.si, 'angle') if roof.slope else 'not described'}"
    yield f"overhang {_sized(roof.overhang, metrics)}"
    yield f"thrust held by: {(roof.thrust_held_by or 'not described').replace('-', ' ')}"
    anchor = roof.uplift_anchor
    force = "not described" if anchor is None else str(anchor)
    if anchor is not None and not isinstance(anchor, str):
        force = metrics.writer.write(anchor.si, "force")
    every = f" at {_sized(roof.uplift_anchor_spacing, metrics)}" if roof.uplift_anchor_spacing else ""
    yield f"uplift anchors: {force}{every}"


def _sized(measure: Measure | None, metrics: TextMetrics) -> str:
    return written(metrics.writer, measure.si, "length") if measure else "not described"
