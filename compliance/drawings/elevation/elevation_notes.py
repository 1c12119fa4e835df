"""What stands in words under an elevation: section, lintels, lifts, supports, and what the project does not say."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.drawings.common.inches import written
from compliance.drawings.common.lettering import one_line
from compliance.drawings.elevation.elevation_body import lifts_too_close
from compliance.drawings.elevation.elevation_measures import bays
from compliance.drawings.elevation.wall_face import Face
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.model.walls import Lintel
from compliance.units import Measure, Writer


def elevation_notes(face: Face) -> tuple[str, ...]:
    """Sentences that run on."""
    return (*face.subject.notes, *_of_geometry(face), *_lintels(face), *_supports(face), *_unsaid(face))


def _of_geometry(face: Face) -> Iterator[str]:
    wall, writer = face.subject.parts.wall, face.board.metrics.writer
    says = []
    base, top = ends_of_section(wall)
    if base != top:
        face_text = "both faces lean" if wall.tapered_face == "both" else f"the {wall.tapered_face} face leans"
        leans = face_text if wall.tapered_face else "not stated which face leans"
        says.append(
            f"tapered from {written(writer, base, 'thickness')} to {written(writer, top, 'thickness')} ({leans})"
        )
    if wall.arc:
        radius = getattr(face.subject.view.place.line, "radius")  # noqa: B009
        says.append(f"curved, radius {writer.write(radius, 'length')} to the centerline")
    if wall.lift_height:
        far = ", too close to be drawn at this scale" if lifts_too_close(face) else " (light lines)"
        says.append(f"lifts of at most {writer.write(wall.lift_height.si, 'length')}{far}")
    if wall.gable:
        known = face.subject.parts.levels.ridge is not None
        says.append(
            "a gable stands on this wall"
            + ("" if known else "; the project describes neither its height nor the roof's slope")
        )
    if face.subject.outside is None:
        says.append("the plan does not tell which face is outside: start of the wall at the left")
    if not face.whole:
        says.append(f"whole length {writer.write(face.subject.length, 'length')}")
        says += _cut_off(face)
    if says:
        yield _sentence("; ".join(says))
    if wall.reinforcement and not face.subject.is_scheduled:
        yield f"Reinforcement as described, its places not drawn: {one_line(wall.reinforcement)}."


def _cut_off(face: Face) -> Iterator[str]:
    """Piers and bays that end in another part, which therefore have no dimension in this one."""
    write = face.board.metrics.writer.write
    parts = [(f"pier {pier.mark}", pier.start, pier.end) for pier in face.subject.view.opened.piers]
    found = bays(face)
    parts += [("the length between supports", a, b) for a, b in found if len(found) > 1]
    for what, start, end in parts:
        if start < face.high and end > face.low and not (face.shows(start) and face.shows(end)):
            yield f"{what}, {write(end - start, 'length')}, goes on in another part"


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."


def _lintels(face: Face) -> Iterator[str]:
    """Lintels alike are told together; those of a schedule only where it cannot say all."""
    alike: dict[str, list[str]] = {}
    for hole in face.subject.view.opened.holes:
        if face.shows((hole.start + hole.end) / 2):
            lintel = face.subject.parts.wall.openings[hole.mark].lintel
            if face.subject.is_scheduled and lintel is not None and lintel.material != "arch":
                continue
            alike.setdefault(_lintel(lintel, face.board.metrics.writer), []).append(hole.mark)
    for says, marks in alike.items():
        yield f"Over {', '.join(marks)}: {says}."


def _lintel(lintel: Lintel | None, writer: Writer) -> str:
    if lintel is None:
        return "no lintel described"
    if lintel.material == "bond-beam":
        return "spanned by the bond beam"
    if lintel.material == "arch":
        return "an arch, its shape not described (the dashed line is a sign, not a form to build)"
    width, depth, bearing = (_measure_text(one, writer) for one in (lintel.width, lintel.depth, lintel.bearing))
    return f"{lintel.material} lintel, {width} wide, {depth} deep, bearing {bearing} at each end"


def _measure_text(measure: Measure | None, writer: Writer) -> str:
    return written(writer, measure.si, "thickness") if measure else "not given"


def _supports(face: Face) -> Iterator[str]:
    left_out = [one for one in face.subject.view.supports if one.why_not]
    if left_out:
        yield f"Not counted as lateral support: {'; '.join(f'{one.by} {one.why_not}' for one in left_out)}."


def _unsaid(face: Face) -> Iterator[str]:
    """What a reader would look for in the drawing and the project does not say."""
    parts, levels = face.subject.parts, face.subject.parts.levels
    lacking = []
    if parts.stem is None:
        lacking.append("a stem wall")
    elif levels.grade is None:
        lacking.append("the height of the stem wall over the ground")
    if parts.footing is None:
        lacking.append("a footing")
    elif levels.footing_bottom is None:
        lacking.append("how deep the footing reaches")
    elif levels.footing_top is None:
        lacking.append("the thickness of the footing")
    if parts.wall.beam is not None and levels.beam_top is None:
        lacking.append("the depth of the bond beam")
    if parts.wall.lift_height is None:
        lacking.append("the height of the lifts")
    if lacking:
        yield f"Not drawn, for the project does not say: {', '.join(lacking)}."
