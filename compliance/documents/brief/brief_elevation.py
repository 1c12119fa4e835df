"""The elevation of one wall in the brief, low enough to stand under the question."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.elements.theme import Paper
from compliance.documents.figures.drawing_block import PAD, DrawingBlock, Issue, least_height
from compliance.documents.figures.drawing_ink import letters
from compliance.documents.figures.drawing_subjects import wall_subjects
from compliance.drawings.common.board import TextMetrics
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.record import replace
from compliance.report.by_rule import SetFindings
from compliance.units import Writer

_ROOMS = (128.0, 190.0)
"""Heights for the drawing alone, in points: the first in which the scale stays legible."""


def elevation_of(checked: Checked, sets: tuple[SetFindings, ...], wall: str, paper: Paper) -> list[Any]:
    """The drawing, in parts where the wall is long; nothing where the wall has no place in the plan."""
    head = checked.project.project
    metrics, issue = TextMetrics(letters, Writer(head.units)), Issue(head.units, head.revision)
    subjects = [one for one in wall_subjects(checked, sets) if one.view.mark == wall]
    blocks = []
    for subject in subjects:
        for draft in elevations(subject, metrics, paper.body_width - 2 * PAD, _ROOMS)[:1]:
            bare = replace(draft, notes=())  # the brief says the same around the drawing
            block = DrawingBlock(
                bare,
                heading=None,
                width=paper.body_width,
                height=least_height(bare, None, paper.body_width),
                issue=issue,
            )
            block.anchors = []
            blocks.append(block)
    return blocks
