"""Buildings that cannot be: loads off their wall, ties over the ridge; and walls that stand on nothing, so far."""

from __future__ import annotations

import math
from collections.abc import Iterator

from compliance.model.lines import line_of
from compliance.model.project import Project
from compliance.model.structure import BeamBearing, Roof
from compliance.model.walls import Wall
from compliance.problems import Problem
from compliance.reading.yaml.placed import PlacedDict, place_of
from compliance.units import Measure

_SAME = 1e-9


def structure_problems(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """What no building can have, though each part of it is sound by itself."""
    for mark, wall in project.walls.items():
        yield from _stem_below_footing(mark, wall, project, tree)
        yield from _load_off_wall(mark, wall, tree)
    yield from single_load_problems(project, tree)
    for mark, roof in project.roofs.items():
        yield from _roof(mark, roof, project, tree)
        yield from _slope(f"the roof {mark}", roof.slope, ("roofs", mark, "slope"), tree)
    yield from _slope("the ground", project.site.ground_slope, ("site", "ground_slope"), tree)


def walls_on_nothing(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """A warning for each structural wall without a footing while others have one. A description that is not finished
    is no mistake, so the check goes on, and what needs the footing is missing."""
    for mark, wall in project.walls.items():
        if project.footings and wall.footing is None and (wall.bears_load or wall.braces):
            wrong = f"{mark} bears load or braces, but stands on none of the footings described"
            place = place_of(tree, ("walls", mark), at_key=True)
            yield Problem(place, "footing-missing", wrong, "name its footing:", warning=True)


def _stem_below_footing(mark: str, wall: Wall, project: Project, tree: PlacedDict) -> Iterator[Problem]:
    stem, footing = project.stems.get(wall.stem or ""), project.footings.get(wall.footing or "")
    if not stem or not footing or not stem.above_grade or not footing.thickness or not footing.bottom:
        return
    if footing.thickness.si > (footing.bottom.si + stem.above_grade.si) * (1 + _SAME):
        wrong = (
            f"under {mark} footing {wall.footing} reaches higher than the top of stem wall {wall.stem}: it is "
            f"{footing.thickness} thick, from {footing.bottom} below grade, and the stem ends {stem.above_grade} above"
        )
        place = place_of(tree, ("footings", wall.footing or "", "thickness"))
        yield Problem(place, "stem-below-footing", wrong, "correct thickness: or bottom: of the footing")


def _load_off_wall(mark: str, wall: Wall, tree: PlacedDict) -> Iterator[Problem]:
    off = wall.load_eccentricity
    if off and off.si >= _half(wall):
        wrong = f"the load on {mark} stands {off} off the middle of its top, past its face"
        yield Problem(place_of(tree, ("walls", mark, "load_eccentricity")), "load-off-wall", wrong, "correct it")


def _half(wall: Wall) -> float:
    """Half the thickness at the top, m."""
    top = wall.thickness_top or wall.thickness
    assert top is not None
    return top.si / 2


def single_load_problems(project: Project, tree: PlacedDict) -> Iterator[Problem]:
    """Single loads, of roof beams too, stand within the length of their wall and on its top."""
    for mark, wall in project.walls.items():
        line = line_of(wall)
        for name, load in wall.loads.items():
            if line and load.at.si > line.length * (1 + _SAME):
                wrong = f"{name} stands {load.at} along {mark}, beyond the wall's end"
                yield Problem(
                    place_of(tree, ("walls", mark, "loads", name, "at")), "load-outside", wrong, "correct at:"
                )
            if load.eccentricity and load.eccentricity.si >= _half(wall):
                wrong = f"{name} stands {load.eccentricity} off the middle of the top of {mark}, past its face"
                place = place_of(tree, ("walls", mark, "loads", name, "eccentricity"))
                yield Problem(place, "load-off-wall", wrong, "correct it, or thicken the wall")
    for mark, roof in project.roofs.items():
        for beam, each in roof.beams.items():
            for index, one in enumerate(each.bears_on):
                path = ("roofs", mark, "beams", beam, "bears_on", index)
                yield from _beam_on_wall(f"{beam} of {mark}", one=one, path=path, project=project, tree=tree)


def _beam_on_wall(
    what: str, one: BeamBearing, path: tuple[str | int, ...], project: Project, tree: PlacedDict
) -> Iterator[Problem]:
    wall = project.walls.get(one.wall or "")
    line = line_of(wall) if wall else None
    if line and one.at and one.at.si > line.length * (1 + _SAME):
        wrong = f"{what} bears {one.at} along {one.wall}, beyond the wall's end"
        yield Problem(place_of(tree, (*path, "at")), "load-outside", wrong, "correct at:")
    if wall and one.eccentricity and one.eccentricity.si >= _half(wall):
        wrong = f"{what} bears {one.eccentricity} off the middle of the top of {one.wall}, past its face"
        yield Problem(place_of(tree, (*path, "eccentricity")), "load-off-wall", wrong, "correct it")


def _slope(what: str, slope: Measure | None, path: tuple[str, ...], tree: PlacedDict) -> Iterator[Problem]:
    if slope is not None and not 0 <= slope.si < math.pi / 2 * (1 - _SAME):
        wrong = f"{what} cannot slope by {slope}"
        yield Problem(place_of(tree, path), "slope-impossible", wrong, "write an angle from level up, below 90 deg")


def _roof(mark: str, roof: Roof, project: Project, tree: PlacedDict) -> Iterator[Problem]:
    if roof.tie_height and roof.rise and roof.tie_height.si >= roof.rise.si:
        wrong = f"the tie of {mark} lies {roof.tie_height} over the plate, not below the ridge at {roof.rise}"
        yield Problem(place_of(tree, ("roofs", mark, "tie_height")), "tie-above-ridge", wrong, "correct one of them")
    if roof.ring_radius and roof.radius and roof.ring_radius.si >= roof.radius.si:
        wrong = f"the ring of {mark}, of radius {roof.ring_radius}, lies outside the wall at {roof.radius}"
        yield Problem(place_of(tree, ("roofs", mark, "ring_radius")), "ring-outside", wrong, "correct one of them")
    for index, bearing in enumerate(roof.bears_on):
        wall, off = project.walls.get(bearing.wall), bearing.eccentricity
        if wall and off and off.si >= _half(wall):
            wrong = f"{mark} bears {off} off the middle of the top of {bearing.wall}, past its face"
            place = place_of(tree, ("roofs", mark, "bears_on", index, "eccentricity"))
            yield Problem(place, "load-off-wall", wrong, "correct it, or thicken the wall")
