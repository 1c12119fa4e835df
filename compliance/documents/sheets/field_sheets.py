"""Field sheets: the records of a workday or a class, blank where nothing is known, in the order in which they are asked
for."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any, Literal, get_args

from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.elements.theme import PAPERS, Paper
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.page.sheet import Sheet
from compliance.documents.sheets.mixing_sheets import bar_sheet, batch_sheets, cast_sheets, trial_sheet
from compliance.documents.sheets.soil_sheets import hand_test_sheets, jar_sheet

Topic = Literal["soils", "jars", "trials", "batches", "bars", "specimens"]
TOPICS: tuple[Topic, ...] = get_args(Topic)
_SUBJECT = "Blank records to print and fill in by hand: soils, jars, trial bricks, batches, shrinkage bars, specimens."
_CAUTION = (
    "Field tests and drops rank soils and mixes; they do not measure strength. The mix is judged by its own tests, and "
    "the building official decides."
)


def write_field_sheets(checked: Checked, path: Path, topics: Sequence[Topic] = TOPICS) -> None:
    """Write the sheets of `topics` to `path` as PDF, each beginning a page. Raises DocumentError or OSError; nothing is
    written then."""
    register_faces()
    paper = PAPERS[checked.project.project.paper]
    wide = Paper(paper.height, height=paper.width, side=40.0, top=paper.top, bottom=paper.bottom)
    story: list[Any] = []
    for topic in (one for one in TOPICS if one in topics):
        for page in _pages(checked, topic):
            story += [*([PageBreak()] if story else []), *page]
    Book(head_of(checked, "field sheets", _SUBJECT, caution=_CAUTION), wide, covered=False).write(story, path)


def _pages(checked: Checked, topic: Topic) -> list[list[Sheet]]:
    """Each begins a page."""
    if topic == "soils":
        return [[one] for one in hand_test_sheets(checked)]
    if topic == "jars":
        return [jar_sheet(checked)]
    if topic == "trials":
        return [[trial_sheet(checked)]]
    if topic == "batches":
        return [batch_sheets(checked)]
    if topic == "bars":
        return [[bar_sheet(checked)]]
    return [[one] for one in cast_sheets(checked)]
