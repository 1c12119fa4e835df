"""What is seen of a building from one side: faces of walls, their openings, and outlines of roofs, near before far."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from compliance.drawings.common.primitives import Point, Tone
from compliance.drawings.common.regions import left_of, shifted
from compliance.drawings.elevation.wall_face import WallSubject
from compliance.drawings.framing.roof_outline import Gabled, roof_form
from compliance.facts.geometry.wall_facts import WallView
from compliance.model.lines import Straight
from compliance.model.structure import Roof
from compliance.record import record, replace

_SEEN = math.cos(math.radians(80))
_CHORDS = 12
_SAME = 1e-6
Corners = tuple[Point, ...]
"""Across the view and upward, in m, heights over the ground."""


@record
class Face:
    """A part of a wall's face as it is seen. `depth` grows toward who looks; `ends` are where what is seen of the wall
    ends."""

    wall: str
    depth: float
    low: float
    high: float
    stem: float
    top: float
    beam_top: float | None
    ends: tuple[float, ...] = ()

    @property
    def highest(self) -> float:
        return self.top if self.beam_top is None else max(self.top, self.beam_top)

    def bands(self) -> Iterator[tuple[float, float, Tone]]:
        """From the ground up: stem wall, earth, bond beam."""
        yield 0.0, self.stem, Tone.MASONRY
        yield self.stem, self.top, Tone.EARTH
        if self.beam_top is not None:
            yield self.top, self.beam_top, Tone.WOOD


@record
class Slice:
    """A length of a face that is seen from a height on: below it something nearer stands before it."""

    low: float
    high: float
    above: float


@record
class Hole:
    """An opening as it is seen, of a wall, with its mark."""

    wall: str
    mark: str
    depth: float
    corners: Corners


@record
class Side:
    """The direction from the building to who looks, as a unit vector of the plan."""

    toward: Point

    def across(self, point: Point) -> float:
        (x, y), (vx, vy) = point, self.toward
        return -x * vy + y * vx

    def depth(self, point: Point) -> float:
        return point[0] * self.toward[0] + point[1] * self.toward[1]


def faces_seen(
    side: Side, subjects: Sequence[WallSubject], box: tuple[float, float, float, float]
) -> tuple[list[Face], list[Hole]]:
    """Of every wall that faces the open and who looks, the farthest first. Of a wall both of whose faces stand in the
    open, both are tried. `box` bounds the building on plan: no face reaches past it."""
    faces: list[Face] = []
    left, bottom, right, top = box
    reach = [side.across(one) for one in ((left, bottom), (right, bottom), (right, top), (left, top))]
    lowest, highest = min(reach), max(reach)
    holes: list[Hole] = []
    for subject in subjects:
        sides = (subject.outside,) if subject.outside is not None else (1, -1) if _stands_free(subject) else ()
        for out in sides:
            parts = [
                replace(one, low=max(one.low, lowest), high=min(one.high, highest))
                for one in _faces(side, subject, out)
            ]
            ends = {min(one.low for one in parts), max(one.high for one in parts)} if parts else set()
            on = {side.across(_at(subject, s, out)) for s in _runs_on(subject)}
            ends -= {end for end in on if lowest + _SAME < end < highest - _SAME}
            faces += [replace(one, ends=tuple(end for end in (one.low, one.high) if end in ends)) for one in parts]
            holes += _holes(side, subject, out)
    return sorted(faces, key=lambda one: one.depth), sorted(holes, key=lambda one: one.depth)


def slices(face: Face, faces: Sequence[Face]) -> list[Slice]:
    """What is seen of a face behind those that stand nearer."""
    nearer = [one for one in faces if one.wall != face.wall and one.depth > face.depth + _SAME]
    cuts = {x for one in nearer for x in (one.low, one.high) if face.low < x < face.high}
    found: list[Slice] = []
    for low, high in pairwise(sorted({face.low, face.high, *cuts})):
        middle = (low + high) / 2
        above = max((one.highest for one in nearer if one.low < middle < one.high), default=0.0)
        if found and found[-1].above == above:
            found[-1] = Slice(found[-1].low, high, above)
        else:
            found.append(Slice(low, high, above))
    return [one for one in found if one.above < face.highest - _SAME]


def _stands_free(subject: WallSubject) -> bool:
    return subject.parts.wall.use == "garden"


def _runs_on(subject: WallSubject) -> list[float]:
    """The ends at which another wall as tall goes on without a joint: nothing is seen there."""
    view, found = subject.view, []
    for end in (0.0, view.place.line.length):
        at_end = [one.by for one in view.supports if abs(one.s - end) <= _SAME]
        as_tall = [one for one in at_end if subject.heights.get(one) == view.place.height]
        if any(one in view.placed.stretch.marks for one in as_tall):
            found.append(end)
    return found


def _pieces(side: Side, subject: WallSubject) -> list[tuple[float, float]]:
    """Stations between which the wall is as good as straight; of a curve also where it turns out of sight."""
    line, on = subject.view.place.line, _runs_on(subject)
    first = 0.0 if 0.0 in on else -subject.beyond(at_start=True)
    last = line.length + (0.0 if line.length in on else subject.beyond(at_start=False))
    if isinstance(line, Straight):
        return [(first, last)]
    step = (last - first) / _CHORDS
    stations = {first, last, *(first + index * step for index in range(1, _CHORDS))}
    turn, toward = math.copysign(1.0, line.sweep), math.atan2(side.toward[1], side.toward[0])
    for angle in (toward - math.pi / 2, toward + math.pi / 2):
        s = (angle - line.first) * turn % (2 * math.pi) * line.radius
        stations |= {s} if first < s < last else set()
    return list(pairwise(sorted(stations)))


def _at(subject: WallSubject, s: float, out: int) -> Point:
    """A point of the face; past the ends of a straight line it runs on."""
    line = subject.view.place.line
    within = min(max(s, 0.0), line.length)
    x, y = shifted(line.point(within), *left_of(line, within), out * subject.view.place.thickness / 2)
    dx, dy = line.direction(within)
    return x + (s - within) * dx, y + (s - within) * dy


def _is_seen(side: Side, subject: WallSubject, s: float, out: int, least: float) -> bool:
    """Whether the face turns to who looks by more than `least`, the cosine of the angle between."""
    nx, ny = left_of(subject.view.place.line, s)
    return out * (nx * side.toward[0] + ny * side.toward[1]) > least


def _faces(side: Side, subject: WallSubject, out: int) -> Iterator[Face]:
    length, levels = subject.view.place.line.length, subject.parts.levels
    ground = levels.grade if levels.grade is not None else 0.0
    least = _SEEN if isinstance(subject.view.place.line, Straight) else _SAME
    for low, high in _pieces(side, subject):
        middle = min(max((low + high) / 2, 0.0), length)
        if _is_seen(side, subject, middle, out=out, least=least):
            ends = sorted(side.across(_at(subject, s, out)) for s in (low, high))
            yield Face(
                subject.view.mark,
                depth=side.depth(_at(subject, middle, out)),
                low=ends[0],
                high=ends[1],
                stem=-ground,
                top=levels.top - ground,
                beam_top=levels.beam_top - ground if levels.beam_top is not None else None,
            )


def _holes(side: Side, subject: WallSubject, out: int) -> Iterator[Hole]:
    ground = subject.parts.levels.grade or 0.0
    for hole in subject.view.opened.holes:
        middle = (hole.start + hole.end) / 2
        if not _is_seen(side, subject, middle, out=out, least=_SEEN):
            continue
        left, right = sorted(side.across(_at(subject, s, out)) for s in (hole.start, hole.end))
        low, high = hole.sill - ground, hole.sill + hole.height - ground
        corners = ((left, low), (right, low), (right, high), (left, high))
        yield Hole(subject.view.mark, hole.mark, side.depth(_at(subject, middle, out)), corners)


def roofs_seen(
    side: Side, subjects: Sequence[WallSubject], roofs: Mapping[str, Roof], views: Mapping[str, WallView]
) -> dict[str, Corners]:
    """The outline of each roof whose description tells its form and rise."""
    eaves = {one.view.mark: one.parts.levels.eaves - (one.parts.levels.grade or 0.0) for one in subjects}
    found = {}
    for mark, roof in roofs.items():
        plate = max((eaves[one.wall] for one in roof.bears_on if one.wall in eaves), default=None)
        form = roof_form(roof, views)
        if plate is None or form is None or not roof.rise:
            continue
        ridge = plate + roof.rise.si
        if isinstance(form, Gabled):
            found[mark] = _gabled(side, form, plate, ridge)
        else:
            middle, fall = side.across(form.centre), _fall(roof, form.reach - form.radius)
            found[mark] = (
                (middle - form.reach, plate - fall), (middle - form.ring, ridge), (middle + form.ring, ridge),
                (middle + form.reach, plate - fall),
            )  # fmt: skip
    return found


def _fall(roof: Roof, past: float) -> float:
    """How far the eaves hang below the plate."""
    return past * math.tan(roof.slope.si) if roof.slope and roof.slope.si < math.radians(80) else 0.0


def _gabled(side: Side, form: Gabled, plate: float, ridge: float) -> Corners:
    """The gable end where one looks along the ridge, else the slope between ridge and eave."""
    half = (form.high_plate - form.low_plate) / 2
    fall = (ridge - plate) / half * (form.high - form.high_plate)
    dx, dy = form.direction
    if abs(dx * side.toward[0] + dy * side.toward[1]) > math.sqrt(0.5):
        middle = (form.low + form.high) / 2
        ends = [side.across(form.point(form.first, across)) for across in (form.low, middle, form.high)]
        return ((ends[0], plate - fall), (ends[1], ridge), (ends[2], plate - fall))
    left, right = sorted(side.across(form.point(along, form.low)) for along in (form.first, form.last))
    return ((left, plate - fall), (left, ridge), (right, ridge), (right, plate - fall))
