"""The tables of the brief: what a wall is, what holds it, its openings and piers, what bears on it, its earth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.checked import Checked
from compliance.documents.brief.brief_facts import (
    GEOMETRY,
    LabeledText,
    fact_texts,
    load_texts,
    support_texts,
    top_and_base,
)
from compliance.documents.elements import theme
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.schedule import NOT_GIVEN, shown
from compliance.facts.catalogue import FACTS
from compliance.facts.geometry.subjects import Subject
from compliance.model.walls import Lintel, Opening
from compliance.units import Measure, Writer

_ACROSS = 3
_AIR = (0.8, 1.0)
_PIERS = ("pier.height", "pier.base_load", "pier.shear_stress", "pier.toe_pressure")
_CASES = (
    "D dead, L live, S snow, R water, W wind, E earthquake, each by itself; wind and earthquake are at the "
    "allowable-stress level (ASD). Thicknesses are those of the earth without finishes."
)


def heading(text: str, *sentences: str) -> list[Row]:
    """The title of a part of a wall's pages, and what is said under it."""
    if not text:
        return []
    words = (Words(sentence, theme.SMALL) for sentence in sentences)
    return [full_row(Words(text, theme.SUBSECTION), *words, air=(2.0, 1.0))]


def pairs(title: str, phrases: Sequence[LabeledText], *sentences: str) -> Sheet:
    """Labels with their values, three beside each other, read downwards."""
    deep = -(-len(phrases) // _ACROSS)
    rows = []
    for line in range(deep):
        beside = [phrases[index] if index < len(phrases) else ("", "") for index in range(line, _ACROSS * deep, deep)]
        rows.append(Row(tuple(part for one in beside for part in _pair(one)), air=_AIR))
    columns = (Column(share=10), Column(share=7)) * _ACROSS
    return Sheet(columns, rows, lead=heading(title, *sentences), below=7)


def _pair(one: LabeledText) -> Iterator[Cell]:
    yield cell(one[0], theme.LABEL)
    yield cell(one[1])


def lines(title: str, phrases: Sequence[LabeledText], *sentences: str) -> Sheet:
    """Labels with texts of any length."""
    rows = [Row((cell(label, theme.LABEL), cell(text)), air=_AIR) for label, text in phrases]
    return Sheet((Column(96), Column(share=1)), rows, lead=heading(title, *sentences), below=7)


def geometry(checked: Checked, wall: str, writer: Writer) -> Sheet:
    return pairs("Geometry", fact_texts(checked.facts.of("wall")[wall], GEOMETRY, writer))


def supports(checked: Checked, wall: str, writer: Writer) -> list[Sheet]:
    """What holds top and base, then what meets the wall along its length."""
    held = lines("What holds the wall", top_and_base(checked, wall, writer))
    rows = [Row(tuple(map(cell, one)), air=_AIR) for one in support_texts(checked, wall, writer)]
    if not rows:
        return [held, Sheet((Column(share=1),), [Row((cell("Nothing meets the wall along its length."),))], below=7)]
    held.spaceAfter = 2
    columns = (Column(96), Column(90), Column(90), Column(share=1))
    titles = head_row("Meets along the wall", "Station", "Its height", "Counts as a lateral support")
    return [held, Sheet(columns, rows, head=[titles], below=7)]


def openings(checked: Checked, wall: str, writer: Writer) -> list[Sheet]:
    """Each opening with its place and its lintel; nothing where the wall has none."""
    found = checked.project.walls[wall].openings
    if not found:
        return []
    subjects = {one.own_mark: one for one in checked.facts.of("opening").values() if one.wall == wall}
    rows = [_opening(mark, one, subjects[mark], writer) for mark, one in found.items()]
    head = head_row(
        "Opening", "Station, near edge", "Width", "Height", "Sill", "Wall above", "To corner, clear", "Lintel"
    )
    columns = (Column(48), *(Column(share=2) for _ in range(6)), Column(share=7))
    words = "Stations run along the centerline from the start of the wall; sills are over the top of the stem wall."
    return [Sheet(columns, rows, head=[head], lead=heading("Openings", words), below=7)]


def _opening(mark: str, opening: Opening, subject: Subject, writer: Writer) -> Row:
    sizes = (opening.start, opening.width, opening.height, opening.sill)
    facts = [shown(subject.fact(f"opening.{name}"), "length", writer) for name in ("head", "corner_distance")]
    lintel = _lintel(opening.lintel, writer) if opening.lintel else "not described"
    texts = (f"{mark} {opening.kind}", *(_written(one, writer) for one in sizes), *facts, lintel)
    return Row(tuple(map(cell, texts)), air=_AIR)


def _lintel(lintel: Lintel, writer: Writer) -> str:
    """Material with grade, section, bearing, allowable stresses."""
    sizes = f"{_written(lintel.width, writer, 'thickness')} wide, {_written(lintel.depth, writer, 'thickness')} deep"
    bearing = f"bearing {_written(lintel.bearing, writer, 'thickness')} each end"
    grade = " ".join(text for text in (lintel.species, lintel.grade) if text) or "grade not given"
    bending, modulus = _written(lintel.bending_stress, writer, "stress"), _written(lintel.modulus, writer, "stress")
    return f"{lintel.material.replace('-', ' ')}, {grade}; {sizes}; {bearing}; F_b {bending}, E {modulus}"


def _written(measure: Measure | None, writer: Writer, kind: str = "length") -> str:
    return writer.write(measure.si, kind) if measure else NOT_GIVEN


def loads(checked: Checked, wall: str, writer: Writer) -> Iterator[Sheet]:
    """Loads by case with their sources, concentrated loads, then what arrives pier by pier."""
    subject = checked.facts.of("wall")[wall]
    rows = [
        Row(
            (cell(one.case, theme.CELL_BOLD), cell(one.what), cell(one.value), cell(one.source, theme.CELL_SMALL)),
            air=_AIR,
        )
        for one in load_texts(subject, writer)
    ]
    columns = (Column(52), Column(share=3), Column(76), Column(share=4))
    titles = head_row("Case", "Load", "Value", "Source of the value")
    yield Sheet(columns, rows, head=[titles], lead=heading("Loads by case", _CASES), below=7)
    yield from _concentrated(checked, wall, writer)
    yield from _piers(checked, wall, writer)


def _concentrated(checked: Checked, wall: str, writer: Writer) -> Iterator[Sheet]:
    rows = []
    for mark, one in checked.project.walls[wall].loads.items():
        plate = f"{_written(one.length, writer, 'thickness')} × {_written(one.width, writer, 'thickness')}"
        forces = (writer.write(force.si, "force") for force in (one.dead, one.live, one.snow))
        off = _written(one.eccentricity, writer, "thickness")
        texts = (f"{mark} {one.of or ''}".strip(), _written(one.at, writer), *forces, plate, off)
        rows.append(Row(tuple(map(cell, texts)), air=_AIR))
    if rows:
        head = head_row("Load", "Station", "D", "L", "S", "Plate, along × across", "Eccentricity")
        yield Sheet((Column(share=2), *(Column(share=1) for _ in range(6))), rows, head=[head],
                    lead=heading("Concentrated loads on top"), below=7)  # fmt: skip


def _piers(checked: Checked, wall: str, writer: Writer) -> Iterator[Sheet]:
    """Of a wall without openings the whole wall is the one pier, and the table of loads has it."""
    view = checked.facts.views.get(wall)
    subjects = {one.own_mark: one for one in checked.facts.of("pier").values() if one.wall == wall}
    rows = []
    for pier in view.opened.piers if view else ():
        subject = subjects[pier.mark]
        stations = f"{writer.write(pier.start, 'length')} to {writer.write(pier.end, 'length')}"
        widths = (shown(subject.fact(f"pier.{name}"), "length", writer) for name in ("width", "solid_width"))
        values = (shown(subject.fact(name), FACTS[name].kind, writer) for name in _PIERS)
        rows.append(Row(tuple(map(cell, (pier.mark, stations, *widths, *values))), air=_AIR))
    if rows:
        head = head_row("Pier", "Stations", "Clear width", "Gross width", "Height", "Load at base", "In-plane shear",
                        "Toe pressure, in plane")  # fmt: skip
        words = (
            "Clear width runs from opening to opening or to the end of the wall; gross width also counts solid wall "
            "that runs on past a joint. The height is that of the taller opening beside the pier."
        )
        columns = (Column(34), Column(share=3), *(Column(share=2) for _ in range(6)))
        yield Sheet(columns, rows, head=[head], lead=heading("Pier by pier", words), below=7)
