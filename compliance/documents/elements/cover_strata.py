"""The cover's one ornament: the lifts of an earthen wall, drawn."""

from __future__ import annotations

from typing import Any

from compliance.documents.elements import theme

HEIGHT = 40.0
_LIFTS = (
    (theme.UMBER, 0.23, 0.0),
    (theme.CLAY, 0.40, 2.2),
    (theme.OCHRE, 0.64, -1.8),
    (theme.SAND, 0.79, 1.6),
    (theme.LICHEN, 0.89, -1.4),
    (theme.SLATE, 1.0, 0.0),
)
"""From below: pigment, height of the upper joint as a share, and how far the joint strays, in points."""


def strata(canvas: Any, left: float, top: float, width: float) -> None:
    """Lifts from below upward, their joints slightly uneven, as they come from the hand."""
    base = top - HEIGHT
    for pigment, share, stray in reversed(_LIFTS):
        joint = base + HEIGHT * share
        path = canvas.beginPath()
        path.moveTo(left, base)
        path.lineTo(left, joint + stray)
        path.curveTo(
            left + width / 3, joint - 2 * stray, left + 2 * width / 3, joint + 2 * stray, left + width, joint - stray
        )
        path.lineTo(left + width, base)
        path.close()
        canvas.setFillColor(pigment)
        canvas.drawPath(path, stroke=0, fill=1)
