"""The plan with what each solid length takes of a push along the walls: outlines light, bars as wide as the share."""

from __future__ import annotations

from compliance.drawings.alt_texts import shares_alt
from compliance.drawings.bracing.bracing_body import draw_bars, draw_centres, draw_push
from compliance.drawings.bracing.bracing_labels import draw_share_labels
from compliance.drawings.bracing.bracing_subject import SharesSubject
from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.primitives import Box, Drawing
from compliance.drawings.common.scales import Scale, largest
from compliance.drawings.plan.plan_face import PlanFace
from compliance.drawings.plan.plan_marks import draw_north

_ASIDE, _BELOW, _ABOVE = 76.0, 74.0, 48.0
"""What the arrow and the labels take on each side of the plan, in points."""
_LARGEST = 24.0


def shares_plan(subject: SharesSubject, metrics: TextMetrics, width: float, tallest: float) -> Draft:
    """The drawing to the largest usual scale at which it is no taller than `tallest` points."""
    left, bottom, right, top = subject.plan.shape.box

    def needed(scale: Scale) -> float:
        return (top - bottom) * scale.per_metre + _ABOVE + _BELOW

    def fits(scale: Scale) -> bool:
        return (right - left) * scale.per_metre + 2 * _ASIDE <= width and needed(scale) <= tallest

    scale = largest(metrics.writer.system, fits, _LARGEST)

    def drawn(height: float) -> Drawing:
        board = Board(Box(0.0, 0.0, width, height), metrics)
        aside = (width - (right - left) * scale.per_metre) / 2
        face = PlanFace(
            board, subject=subject.plan, scale=scale, left=aside, bottom=_BELOW + max(height - needed(scale), 0.0) / 2
        )
        draw_north(face)
        draw_bars(face, subject)
        draw_push(face, subject)
        draw_centres(face, subject)
        draw_share_labels(face, subject)
        return Drawing(
            subject.key,
            name=subject.name,
            scale=scale,
            width=width,
            height=height,
            items=board.finished(),
            notes=subject.notes,
            unset=tuple(board.unset),
        )

    return Draft(
        subject.key,
        name=subject.name,
        alt=shares_alt(subject, metrics.writer),
        least=needed(scale),
        draw=drawn,
        notes=subject.notes,
    )
