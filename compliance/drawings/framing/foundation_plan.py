"""The foundation plan: footings and stem walls under the walls, as wide as described."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.drawings.common.board import TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.inches import written
from compliance.drawings.common.primitives import Pen, Tone
from compliance.drawings.framing.overlay_plan import OverlayPlan
from compliance.drawings.plan.plan_face import PlanFace, PlanSubject
from compliance.facts.geometry.openings import Opened
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.project import Project
from compliance.model.structure import Footing, Stem
from compliance.record import replace
from compliance.units import Measure

_TONES = {"rubble-trench": Tone.RUBBLE, "stone": Tone.MASONRY}
_NAME = "Foundation plan"
_HOW = (
    "Footings (hidden lines) and stem walls (solid lines) stand in the middle under the centerline of each wall; "
    "lengths run along it. Thresholds, steps in level and drains are drawn in no plan: see the sections."
)


def foundation_plan(project: Project, plan: PlanSubject, metrics: TextMetrics, width: float, tallest: float) -> Draft:
    """What each wall stands on. A wall without a footing of known width is drawn as wide as its earth, and named."""
    footings, stems = _widened(project, plan, of_footing=True), _widened(project, plan, of_footing=False)

    def paint(face: PlanFace) -> None:
        for region in footings.shape.solid:
            face.board.fill(face.points(region.points()), Tone.CONCRETE)
        for mark, view in footings.views.items():
            footing = project.footings.get(project.walls[mark].footing or "")
            if footing and footing.kind in _TONES:
                own = replace(footings, views={mark: view})
                for region in own.shape.solid:
                    face.board.fill(face.points(region.points()), _TONES[footing.kind])
        for region in stems.shape.solid:
            face.board.fill(face.points(region.points()), Tone.PAPER)
        for edge in footings.shape.edges:
            face.ink(edge, Pen.HIDDEN)
        for edge in stems.shape.edges:
            face.ink(edge, Pen.EDGE)
        for view in plan.views.values():
            face.ink(view.place.line, Pen.BREAK)

    def names(mark: str) -> str:
        wall = project.walls[mark]
        return ", ".join(one for one in (wall.footing, wall.stem) if one) or "footing not described"

    notes = (_HOW, *_schedule(project, metrics))
    alt = f"{_NAME}: {'; '.join(f'{mark} on {names(mark)}' for mark in plan.views)}."
    return OverlayPlan("foundation-plan", name=_NAME, alt=alt, subject=footings, metrics=metrics, width=width,
                       notes=notes, names=names, paint=paint).draft(tallest)  # fmt: skip


def _widened(project: Project, plan: PlanSubject, of_footing: bool) -> PlanSubject:
    """The plan with every wall as thick as what it stands on, and without openings."""
    views = {mark: _as_wide(view, _width(project, mark, of_footing)) for mark, view in plan.views.items()}
    return replace(plan, views=views, buttresses={})


def _as_wide(view: WallView, width: float | None) -> WallView:
    place = replace(view.place, thickness=width) if width else view.place
    return replace(view, place=place, opened=Opened((), ()))


def _width(project: Project, mark: str, of_footing: bool) -> float | None:
    wall = project.walls[mark]
    footing, stem = project.footings.get(wall.footing or ""), project.stems.get(wall.stem or "")
    size = (footing.width if footing else None) if of_footing else (stem.thickness if stem else None)
    return size.si if size else None


def _schedule(project: Project, metrics: TextMetrics) -> Iterator[str]:
    """Each footing and stem wall that a wall names, with its sizes."""
    walls = project.walls.values()
    for mark in dict.fromkeys(one.footing for one in walls if one.footing):
        if mark in project.footings:
            yield f"{mark}: {_footing(project.footings[mark], metrics)}."
    for mark in dict.fromkeys(one.stem for one in walls if one.stem):
        if mark in project.stems:
            yield f"{mark}: {_stem(project.stems[mark], metrics)}."


def _footing(of: Footing, metrics: TextMetrics) -> str:
    drain = "drain not described" if of.drain is None else "with a drain" if of.drain else "without a drain"
    sizes = f"{_sized(of.width, metrics)} wide, {_sized(of.thickness, metrics)} thick"
    bars = of.bars or (f"{of.bar_count} bars" if of.bar_count else "")
    parts = (
        f"footing, {of.kind.replace('-', ' ')}",
        sizes,
        f"underside {_sized(of.bottom, metrics)} below grade",
        bars,
    )
    return "; ".join([*(one for one in parts if one), drain])


def _stem(of: Stem, metrics: TextMetrics) -> str:
    broken = (of.moisture_break or "not described").replace("-", " ")
    height = f"{_sized(of.above_grade, metrics)} above grade"
    return f"stem wall, {of.material}, {_sized(of.thickness, metrics)} thick; {height}; capillary break: {broken}"


def _sized(measure: Measure | None, metrics: TextMetrics) -> str:
    return written(metrics.writer, measure.si, "thickness") if measure else "size not described"
