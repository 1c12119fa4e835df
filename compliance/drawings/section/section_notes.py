"""The labels of a section: every layer and part by name, with its sizes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.drawings.common.inches import written
from compliance.drawings.common.label_columns import Note
from compliance.drawings.common.lettering import one_line
from compliance.drawings.section.section_body import DRAIN, UNSIZED_STEM, rod_at, roof_ends
from compliance.drawings.section.section_face import SectionFace, faces_at, roof_drawn
from compliance.model.structure import Anchor
from compliance.model.walls import Finish
from compliance.units import Measure


def outside_notes(face: SectionFace) -> list[Note]:
    """Labels of the outer side."""
    notes = list(_finishes(face, face.parts.wall.outside, -1, "outside"))
    parts, levels = face.parts, face.parts.levels
    if levels.grade is not None:
        stem = parts.stem.thickness.si / 2 if parts.stem and parts.stem.thickness else 0.25
        between = parts.wall.use == "interior"
        says = "level of the ground outside the building" if between else "ground outside"
        notes.append(Note((face.x(-stem) - 12.0, face.y(levels.grade)), says))
    if parts.footing and parts.footing.drain and parts.footing.width and levels.footing_bottom is not None:
        at = face.at(-parts.footing.width.si / 2 - 1.6 * DRAIN, levels.footing_bottom + DRAIN)
        notes.append(Note(at, "drain", "its size, place and fall are not described"))
    return notes


def inside_notes(face: SectionFace) -> list[Note]:
    """Labels of the roof, the beam, the earth, the inner side and what is below."""
    return [
        *_roof(face), *_beam(face), *_earth(face), *_finishes(face, face.parts.wall.inside, 1, "inside"), *_stem(face),
        *_footing(face),
    ]  # fmt: skip


def _written(face: SectionFace, measure: Measure | None, kind: str = "thickness") -> str:
    return written(face.board.metrics.writer, measure.si, kind) if measure else "not given"


def _finishes(face: SectionFace, layers: Sequence[Finish] | None, side: int, name: str) -> Iterator[Note]:
    height = face.parts.levels.top * (0.55 if side < 0 else 0.42)
    edge = faces_at(face.parts, height)[0 if side < 0 else 1]
    between = face.parts.wall.use in ("interior", "garden")
    of = f"on the face described as {name}" if between else ""
    if not layers:
        text = "bare" if layers is not None else "finish not described"
        yield Note(face.at(edge, height), f"{name} face", text)
        return
    off = 0.0
    for index, layer in enumerate(layers):
        thick = layer.thickness.si if layer.thickness else 0.03
        at = face.at(edge + side * (off + thick / 2), height - index * 0.12 * face.parts.levels.top)
        phrases = (f"{layer.material.replace('-', ' ')}, {_written(face, layer.thickness)}", layer.note, of)
        number = f", layer {index + 1}" if len(layers) > 1 else ""
        head = "finish" if between else f"{name} finish"
        yield Note(at, head + number, ", ".join(one for one in phrases if one))
        off += thick


def _roof(face: SectionFace) -> Iterator[Note]:
    found, ends = roof_drawn(face.parts), roof_ends(face)
    if found is None or ends is None:
        return
    name, roof = found
    slope = f"slope {_written(face, roof.slope, 'angle')}" if roof.slope else "slope not given, drawn level"
    others = [other for other, _ in face.parts.roofs if other != name]
    more = f"; {', '.join(others)} bears here too" if others else ""
    (x0, y0), (x1, y1) = ends
    text = f"{roof.kind}, {slope}; its line only; wall plate, build and fixing are not described{more}"
    yield Note((x0 + 0.9 * (x1 - x0), y0 + 0.9 * (y1 - y0)), f"roof {name}", text)


def anchor_text(face_written: tuple[str, str, str], kind: str | None) -> str:
    """Diameter, spacing and embedment in one phrase."""
    diameter, spacing, embedment = face_written
    named = f"{kind}, " if kind else ""
    return f"{named}diameter {diameter}, spaced {spacing}, {embedment} into the earth"


def _anchors(face: SectionFace, anchors: Anchor) -> str:
    sizes = (
        _written(face, anchors.diameter), _written(face, anchors.spacing, "length"),
        _written(face, anchors.embedment, "length"),
    )  # fmt: skip
    return anchor_text(sizes, anchors.kind)


def _beam(face: SectionFace) -> Iterator[Note]:
    parts, levels = face.parts, face.parts.levels
    inner = faces_at(parts, levels.top)
    middle = sum(inner) / 2
    if parts.beam is None:
        restraint = {
            "free": "free at the top",
            "roof": "held by the roof",
            "bond-beam": "a bond beam is said, none is named",
        }
        says = restraint.get(parts.wall.top_restraint or "", "what holds the top is not described")
        yield Note(face.at(inner[1], levels.top), "top of the wall", says)
        return
    width = parts.beam.width.si / 2 if parts.beam.width else (inner[1] - inner[0]) / 2
    text = f"{parts.beam.material}, {_written(face, parts.beam.width)} wide, {_written(face, parts.beam.depth)} deep"
    more = "; ".join(one for one in (parts.beam.grade, parts.beam.bars) if one)
    yield Note(face.at(middle + 0.8 * width, (levels.top + face.beam_top) / 2), f"bond beam {parts.wall.beam}",
               f"{text}; {more}" if more else text, face.wall_type.flagged("beam"))  # fmt: skip
    if parts.beam.anchors is None:
        return
    into = parts.beam.anchors.embedment
    at = face.at(middle, levels.top - (into.si * 0.7 if into else 0.0))
    yield Note(at, "anchors of the bond beam", _anchors(face, parts.beam.anchors))


def _earth(face: SectionFace) -> Iterator[Note]:
    wall, top = face.parts.wall, face.parts.levels.top
    lifts = f"; lifts of at most {_written(face, wall.lift_height, 'length')}" if wall.lift_height else ""
    at = face.at(faces_at(face.parts, 0.55 * top)[1] * 0.5, 0.55 * top)
    yield Note(at, "earth", f"{face.mix}{lifts}", face.wall_type.flagged("earth"))
    if wall.reinforcement and wall.reinforced is not False:
        at = face.at(rod_at(face, 0.3 * top), 0.3 * top)
        yield Note(at, "reinforcement", f"{one_line(wall.reinforcement)}; dashed as a sign, its places not described")


def _stem(face: SectionFace) -> Iterator[Note]:
    parts, levels = face.parts, face.parts.levels
    if levels.floor is not None:
        half = parts.stem.thickness.si / 2 if parts.stem and parts.stem.thickness else 0.25
        yield Note((face.x(half) + 16.0, face.y(levels.floor)), "finished floor")
    if parts.stem is None:
        yield Note(face.at(0.0, 0.0), "no stem wall described")
        return
    half = parts.stem.thickness.si / 2 if parts.stem.thickness else faces_at(parts, 0.0)[1]
    broken = parts.stem.moisture_break
    text = {None: "not described", "none": "none"}.get(broken, str(broken))
    yield Note(face.at(half * 0.9, 0.0), "capillary break", text)
    material = parts.stem.material.replace("-", " ")
    y = face.y(levels.grade / 2) if levels.grade is not None else face.y(0.0) - UNSIZED_STEM / 2
    yield Note((face.x(half * 0.75), y), f"stem wall {parts.wall.stem}",
               f"{material}, {_written(face, parts.stem.thickness)} thick", face.wall_type.flagged("stem"))  # fmt: skip
    if parts.stem.anchors:
        yield Note(face.at(0.0, -0.02), "anchors of the stem wall", _anchors(face, parts.stem.anchors))


def _footing(face: SectionFace) -> Iterator[Note]:
    footing, levels = face.parts.footing, face.parts.levels
    if footing is None:
        yield Note(face.at(0.0, levels.lowest), "no footing described")
        return
    half = footing.width.si / 2 if footing.width else 0.25
    low = levels.footing_bottom if levels.footing_bottom is not None else levels.lowest
    high = levels.footing_top if levels.footing_top is not None else low
    sizes = f"{_written(face, footing.width)} wide, {_written(face, footing.thickness)} thick"
    more = f"; {footing.bars}" if footing.bars else ""
    if footing.kind == "rubble-trench-grade-beam":
        more += "; the grade beam's own size is not described"
    text = f"{footing.kind.replace('-', ' ')}, {sizes}{more}"
    at = face.at(half * 0.75, (low + high) / 2)
    yield Note(at, f"footing {face.parts.wall.footing}", text, face.wall_type.flagged("footing"))
