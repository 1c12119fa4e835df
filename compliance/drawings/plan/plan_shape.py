"""The plan of a building as regions: walls at the foot of the earth, corners, buttresses, openings cut out."""

from __future__ import annotations

from collections.abc import Mapping

from compliance.drawings.common.joins import joins
from compliance.drawings.common.outlines import outline
from compliance.drawings.common.regions import Polygon, Region, box_of, left_of, length_of_wall, outermost, shifted
from compliance.facts.geometry.openings import Hole
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Line
from compliance.model.walls import Buttress
from compliance.record import record


@record
class PlanShape:
    """`solid` are the regions that are filled, `cuts` the openings by (wall, opening), `edges` the outline of what is
    left. `box` bounds it: left, bottom, right, top, in m."""

    solid: tuple[Region, ...]
    cuts: Mapping[tuple[str, str], Region]
    edges: tuple[Line, ...]
    box: tuple[float, float, float, float]


def plan_shape(
    views: Mapping[str, WallView], buttresses: Mapping[str, Buttress], outside: Mapping[str, int | None]
) -> PlanShape:
    bodies = [
        length_of_wall(view.place.line, 0.0, view.place.line.length, view.place.thickness) for view in views.values()
    ]
    piers = [
        buttress_region(views[one.wall], one, outside.get(one.wall)) for one in buttresses.values() if one.wall in views
    ]
    solid = (*bodies, *joins(views), *piers)
    cuts = {(mark, hole.mark): _cut(view, hole) for mark, view in views.items() for hole in view.opened.holes}
    edges = tuple(outline(solid, list(cuts.values())))
    return PlanShape(solid, cuts, edges, box_of([point for region in solid for point in outermost(region)]))


def _cut(view: WallView, hole: Hole) -> Region:
    length = view.place.line.length
    return length_of_wall(view.place.line, max(hole.start, 0.0), min(hole.end, length), view.place.thickness)


def buttress_side(buttress: Buttress, outside: int | None) -> int:
    """The side of the wall's line a buttress stands on; "outside" is the right where the plan does not tell."""
    out = outside if outside is not None else -1
    return out if buttress.side == "outside" else -out


def buttress_region(view: WallView, buttress: Buttress, outside: int | None) -> Polygon:
    """From the centre line of the wall out to the face of the buttress, square to the wall."""
    line = view.place.line
    s = min(buttress.at.si, line.length)
    point, (dx, dy) = line.point(s), line.direction(s)
    nx, ny = left_of(line, s)
    out = buttress_side(buttress, outside) * (view.place.thickness / 2 + buttress.projection.si)
    half = buttress.width.si / 2
    near, far = shifted(point, dx, dy, -half), shifted(point, dx, dy, half)
    corners = (near, far, shifted(far, nx, ny, out), shifted(near, nx, ny, out))
    return Polygon(corners)
