"""Sheets for the soils dug: the hand tests with boxes to tick, and the jars with the times at which to mark them."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import running_text
from compliance.documents.elements.tick_boxes import TickBoxes
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.sheets.blank_table import BlankColumn, blank_table, notes, sheet_title
from compliance.facts.soil.field_tests import HandTest
from compliance.facts.soil.fractions import duration
from compliance.facts.soil.settling import reading_schedule
from compliance.model.materials import Soil
from compliance.units import Writer

_DIGGING = (
    "One sheet for each soil. Strip the topsoil first, and note how deep you dug. Compare several tests: no single one "
    "decides."
)
_JAR = (
    "Fill a straight jar a third with crushed soil, nearly full with water, add a pinch of salt, shake it well and set "
    "it down. Mark the top of each layer on the glass at its time, then measure every mark from the bottom of the jar."
)
_MOST_SOILS = 12


def soils_to_test(checked: Checked) -> dict[str, Soil]:
    """Clay soils without field tests or a jar; all of them where every one has both."""
    soils = {mark: soil for mark, soil in checked.project.soils.items() if soil.material == "clay-subsoil"}
    open_ones = {mark: soil for mark, soil in soils.items() if not soil.field_tests or not soil.jar}
    return dict(list((open_ones or soils).items())[:_MOST_SOILS])


def hand_test_sheets(checked: Checked) -> Iterator[Sheet]:
    """A sheet for each soil to test, and one without a name."""
    practice, writer = checked.needed_references.practice.field_tests, Writer(checked.project.project.units)
    found: list[tuple[str, Soil | None]] = [*soils_to_test(checked).items(), ("", None)]
    for mark, soil in found:
        named = f"{mark} {soil.name}" if soil else "____________________________"
        known = f"Soil: {named}  ·  Place: {(soil.place if soil else None) or '____________________'}  ·  Depth: "
        depth = writer.write(soil.depth.si, "length") if soil and soil.depth else "__________"
        lead = sheet_title(f"soil-{mark or 'blank'}", "Soil dug, and its hand tests", _DIGGING)
        lead.append(Row((cell(known + depth, theme.BODY),), ruled=False, air=(0.0, 6.0)))
        rows = [_hand_test(one) for one in practice.tests.values()]
        rows.append(_organic())
        columns = (Column(share=2), Column(share=3), Column(share=4))
        yield Sheet(columns, rows, head=[head_row("Test", "What to do", "What came of it")], lead=lead, below=8)


def _hand_test(test: HandTest) -> Row:
    boxes = TickBoxes(tuple(test.words), write=bool(test.ranges), style=theme.CELL)
    looked = [f"{word}: {meaning.means}" for word, meaning in test.words.items()]
    if test.ranges:
        looked.append("Or the length at which it broke, on the line.")
    return Row(
        (
            cell(test.title, theme.CELL_BOLD),
            cell(test.how),
            Cell((boxes, Words(" ".join(looked), theme.CELL_SMALL))),
        )
    )


def _organic() -> Row:
    boxes = TickBoxes(("yes", "no"), write=False, style=theme.CELL)
    how = "Look for roots and dark crumbs, and at the jar for what floats."
    return Row((cell("Organic matter", theme.CELL_BOLD), cell(how), Cell((boxes,))))


def jar_sheet(checked: Checked) -> list[Sheet]:
    """The times for each soil's depth and temperature where they are recorded, else for those of practice."""
    practice, writer = checked.needed_references.practice, Writer(checked.project.project.units)
    earth = practice.earth
    marks: list[tuple[str, Soil | None]] = [*soils_to_test(checked).items()]
    rows, remarks = [], dict[str, None]()
    for mark, soil in (*marks, ("", None)):
        jar = soil.jar if soil else None
        depth = jar.depth.si if jar and jar.depth else earth.depth
        warmth = jar.temperature.si if jar and jar.temperature else earth.temperature
        schedule = reading_schedule(practice.settling, practice.sizes, depth, warmth)
        waits = [duration(one.time) if one.time else "when clear" for one in schedule.readings]
        remarks |= dict.fromkeys(remark.says for one in schedule.readings for remark in one.remarks)
        filled = f"{writer.write(depth, 'layer_height')}, {writer.write(warmth, 'temperature')}"
        rows.append([mark, filled, waits[0], "", waits[1], "", waits[2], ""])
    filled = f"{writer.write(earth.depth, 'layer_height')} of water at {writer.write(earth.temperature, 'temperature')}"
    lead = [*sheet_title("jars", "Jars", _JAR), *notes(
        f"Where a jar's own are not recorded the times are for {filled}: write yours beside them. Each is the shortest "
        "wait after the shaking stops.",
    )]  # fmt: skip
    columns = [
        BlankColumn("Soil", 1.2), BlankColumn("Filled to, water", 1.8), BlankColumn("Mark the sand after", 1.2),
        BlankColumn("Top of the sand", 1.2), BlankColumn("Mark the silt after", 1.2),
        BlankColumn("Top of the silt", 1.2), BlankColumn("Mark the clay", 1.2), BlankColumn("Top of the clay", 1.2),
    ]  # fmt: skip
    blank = blank_table(columns, rows, blanks=4, lead=lead)
    return [blank, running_text(notes(*practice.settling.schedule_notes, *remarks))]
