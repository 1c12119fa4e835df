"""The drawings of a wall in the brief: where it stands, its section, its elevation."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.elements.theme import Paper
from compliance.documents.figures.drawing_block import PAD, DrawingBlock, Issue, least_height
from compliance.documents.figures.drawing_ink import letters
from compliance.documents.figures.drawing_subjects import earth_of, plan_subject, wall_subjects
from compliance.drawings.common.board import TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.wall_types import wall_types
from compliance.drawings.elevation.elevation_drawing import elevations
from compliance.drawings.plan.key_plan import key_plan
from compliance.drawings.section.section_drawing import section
from compliance.record import replace
from compliance.report.by_rule import SetFindings
from compliance.units import Writer

_ROOMS = (170.0, 240.0)
"""Heights for an elevation alone, in points: the first in which the scale stays legible."""
_KEY_HEIGHT, _SECTION_HEIGHT = 190.0, 300.0


def wall_drawings(checked: Checked, sets: tuple[SetFindings, ...], wall: str, paper: Paper) -> list[Any]:
    """Key plan, section with its neighbors named, elevation in parts where the wall is long; nothing where the wall has
    no place in the plan."""
    head = checked.project.project
    metrics, issue = TextMetrics(letters, Writer(head.units)), Issue(head.units, head.revision)
    subjects = wall_subjects(checked, sets)
    own = next((one for one in subjects if one.view.mark == wall), None)
    if own is None:
        return []
    width = paper.body_width - 2 * PAD
    plan = key_plan(plan_subject(checked, subjects), (wall,), metrics=metrics, width=width, tallest=_KEY_HEIGHT)
    types = wall_types(checked.project, checked.facts.views, {one.view.mark: one.flags for one in subjects})
    kind = next(one for one in types if wall in one.walls)
    mix = earth_of(checked, kind.parts.wall.mix)
    cut = section(kind, mix=mix, metrics=metrics, width=width, tallest=_SECTION_HEIGHT)
    views = [replace(one, notes=()) for one in elevations(own, metrics, width, _ROOMS)]  # said around the drawing
    return [_block(one, paper.body_width, issue) for one in (plan, *views, cut)]


def _block(draft: Draft, width: float, issue: Issue) -> DrawingBlock:
    block = DrawingBlock(draft, heading=None, width=width, height=least_height(draft, None, width), issue=issue)
    block.anchors = []
    return block
