"""The jars of all soils: drawn side by side, then when each mark was made and when it was due."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import running_text
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.jar_drawing import JarFigure
from compliance.facts.soil.fractions import duration, millimetres
from compliance.facts.soil.settling import ScheduledReading, reading_schedule
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.facts.soil.soil_record import SoilRecord
from compliance.model.materials import Soil
from compliance.model.soil_tests import JarRecord, LayerReading
from compliance.report.value_words import NOTHING
from compliance.units import Writer

_SAME = 1e-9
EARLY, LATE, ON_TIME, NO_TIME = "EARLY", "LATE", "on time", "no time recorded"
_CLEAR = {
    True: "water clear",
    False: f"{EARLY}: the water was still cloudy",
    None: "not told whether the water was clear",
}


def reading_words(layer: ScheduledReading, reading: LayerReading, late_after: float) -> str:
    """Whether a mark was made in time: early, on time, late, or not known; as `facts.jar` remarks on it."""
    if reading.time is None or layer.time is None:
        return NO_TIME
    marked = reading.time.si
    if marked < layer.time and not math.isclose(marked, layer.time, rel_tol=_SAME):
        return EARLY
    return LATE if marked > late_after * layer.time else ON_TIME


def jar_sheets(
    soils: Mapping[str, Soil], records: Mapping[str, SoilRecord], practice: MaterialPractice, writer: Writer,
    lead: list[Row],
) -> list[Sheet]:  # fmt: skip
    """The jars of all soils that have one, three in a row, then the times of their marks."""
    jars = [(mark, soil.jar) for mark, soil in soils.items() if soil.jar and records[mark].jar]
    if not jars:
        return []
    cells = [Cell((Words(_title(mark, jar), theme.LABEL, after=3.0), JarFigure(jar, writer))) for mark, jar in jars]
    cells += [Cell(())] * (-len(cells) % 3)
    rows = [Row(tuple(cells[start : start + 3]), ruled=False, air=(2.0, 6.0)) for start in range(0, len(cells), 3)]
    times = [row for mark, jar in jars for row in _rows(mark, jar, practice, writer)]
    notes = [
        full_row(Words(note, theme.CELL_SMALL)) for note in (*practice.jar.notes, *practice.settling.schedule_notes)
    ]
    return [Sheet([Column(share=1)] * 3, rows, lead=lead, below=4), _times(times), running_text(notes, below=12)]


def _title(mark: str, jar: JarRecord) -> str:
    phrases = [f"soil {mark}", jar.date.isoformat() if jar.date else "", jar.by or ""]
    return ", ".join(text for text in phrases if text)


def _times(rows: Sequence[Row]) -> Sheet:
    head = head_row("Soil", "Layer", "Grains down to", "Shortest wait", "Marked after", "Top of the layer", "Mark",
                    right=(2, 3, 4, 5))  # fmt: skip
    columns = (Column(46), Column(46), Column(70), Column(70), Column(70), Column(76), Column(share=1))
    return Sheet(columns, rows, head=[head], below=4)


def _rows(mark: str, jar: JarRecord, practice: MaterialPractice, writer: Writer) -> list[Row]:
    schedule: tuple[ScheduledReading, ...] = ()
    if jar.temperature is not None and jar.depth is not None:
        schedule = reading_schedule(practice.settling, practice.sizes, jar.depth.si, jar.temperature.si).readings
    sizes = {"sand": practice.sizes.silt, "silt": practice.sizes.clay}
    found = []
    for name, reading in (("sand", jar.sand), ("silt", jar.silt), ("clay", jar.top)):
        due = next((one for one in schedule if one.layer == name), None)
        wait = "until clear" if name == "clay" else duration(due.time) if due and due.time else NOTHING
        phrases, is_off = _mark(name, due=due, reading=reading, jar=jar, practice=practice)
        found.append(
            Row(
                (
                    cell(mark, theme.CELL_BOLD),
                    cell(name),
                    cell(millimetres(sizes[name]) if name in sizes else NOTHING, theme.NUMBER),
                    cell(wait, theme.NUMBER),
                    cell(duration(reading.time.si) if reading.time else NOTHING, theme.NUMBER),
                    cell(writer.write(reading.height.si, "layer_height"), theme.NUMBER),
                    cell(phrases, theme.CELL_BOLD if is_off else theme.CELL),
                )
            )
        )
    return found


def _mark(
    name: str, due: ScheduledReading | None, reading: LayerReading, jar: JarRecord, practice: MaterialPractice
) -> tuple[str, bool]:
    """What the mark says, and whether it was made too early or too late."""
    if name == "clay":
        return _CLEAR[jar.clear], jar.clear is False
    if due is None:
        return f"{'depth of water' if jar.depth is None else 'water temperature'} not recorded", False
    phrases = reading_words(due, reading, practice.jar.late_after)
    return phrases, phrases in (EARLY, LATE)
