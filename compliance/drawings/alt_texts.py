"""What a drawing says to a reader who does not see it: what it is, its main sizes, and what is marked in it as beyond a
limit. Said from what it is drawn from; a scale is added where the drawing is set on its page.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from compliance.drawings.bracing.bracing_subject import SharesSubject, share_text
from compliance.drawings.common.draft import Flag
from compliance.drawings.common.inches import written
from compliance.drawings.common.wall_types import WallType
from compliance.drawings.elevation.wall_face import WallSubject
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.facts.geometry.openings import Hole
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.model.structure import BondBeam
from compliance.model.walls import Wall
from compliance.units import Measure, Writer

MOST_NAMED = 12
"""What is more is counted."""


def named(texts: Sequence[str], most: int = MOST_NAMED) -> str:
    """A list in words, cut where it is long."""
    more = f" and {len(texts) - most} more" if len(texts) > most else ""
    return f"{', '.join(texts[:most])}{more}"


def counted(count: int, one: str, many: str = "") -> str:
    return f"{count or 'no'} {one if count == 1 else many or one + 's'}"


def elevation_alt(name: str, subject: WallSubject, holes: Sequence[Hole], flags: Sequence[Flag], writer: Writer) -> str:
    """`holes` and `flags` are those that the drawing shows."""
    wall = subject.parts.wall
    sizes = f"{writer.write(subject.length, 'length')} long, {writer.write(subject.parts.levels.top, 'length')} high"
    kinds = [f"{hole.mark} a {wall.openings[hole.mark].kind}" for hole in holes]
    openings = counted(len(holes), "opening") + (f" ({named(kinds)})" if kinds else "")
    return f"{name}. The wall is {sizes}, {_thick(wall, writer)}; {openings}. {_marked(flags)}"


def plan_alt(name: str, subject: PlanSubject, writer: Writer) -> str:
    left, bottom, right, top = subject.shape.box
    across, up = (writer.write(one, "length") for one in (right - left, top - bottom))
    walls, openings = list(subject.views), sum(len(view.opened.holes) for view in subject.views.values())
    beside = f" and {counted(len(subject.buttresses), 'buttress', 'buttresses')}" if subject.buttresses else ""
    north = "" if subject.north is None else f" North is {writer.write(subject.north, 'angle')} clockwise from up."
    return (
        f"{name}: {counted(len(walls), 'wall')} ({named(walls)}), {across} across the page and {up} up it over all, "
        f"with {counted(openings, 'opening')}{beside}.{north}"
    )


def section_alt(name: str, of: WallType, mix: str, writer: Writer) -> str:
    parts = of.parts
    stands = f"a {parts.stem.material.replace('-', ' ')} stem wall" if parts.stem else "no stem wall described"
    footing = f"{parts.footing.kind.replace('-', ' ')} footing" if parts.footing else "no footing described"
    beam = f"a {parts.beam.material} bond beam" if parts.beam else "no bond beam described"
    shown = [flag for part in ("earth", "stem", "footing", "beam") for flag in of.flagged(part)]
    sizes = f"{writer.write(parts.levels.top, 'length')} high, {_thick(parts.wall, writer)}"
    return f"{name}: earth ({mix}), {sizes}; below it {stands} and {footing}, on it {beam}. {_marked(shown)}"


def beam_alt(name: str, beam: BondBeam, writer: Writer) -> str:
    anchors = beam.anchors
    spaced = _size(anchors.spacing, writer, "length") if anchors else ""
    held = f"anchors {_size(anchors.diameter, writer)} thick, spacing {spaced}" if anchors else "no anchors described"
    size = f"{_size(beam.width, writer)} wide, {_size(beam.depth, writer)} deep"
    return f"{name}. The beam is of {beam.material}, {size}; {held}."


def shares_alt(subject: SharesSubject, writer: Writer) -> str:
    held = [one for one in subject.taken if math.isfinite(one.share)]
    wording = f"{subject.name}: a push of {writer.write(subject.force, 'force')} on "
    wording += counted(len(subject.taken), "solid length") + " counted on to brace."
    if held:
        most = max(held, key=lambda one: one.share)
        taken = f"{share_text(most.share)} or {writer.write(most.force, 'force')}"
        wording += f" The greatest share is that of a length of wall {most.wall}: {taken}."
    lost = len(subject.taken) - len(held)
    return f"{wording} Under a stiff roof {counted(lost, 'length')} cannot hold the push." if lost else wording


def _thick(wall: Wall, writer: Writer) -> str:
    base, top = (written(writer, one, "thickness") for one in ends_of_section(wall))
    return f"{base} thick" if base == top else f"{base} thick at the base and {top} at the top"


def _size(measure: Measure | None, writer: Writer, kind: str = "thickness") -> str:
    return written(writer, measure.si, kind) if measure else "not given"


def _marked(flags: Iterable[Flag]) -> str:
    found = list(dict.fromkeys(f"{one.code} at {one.about} {one.subject}".rstrip() for one in flags))
    return f"Marked as beyond a limit: {named(found)}." if found else "Nothing is marked as beyond a limit."
