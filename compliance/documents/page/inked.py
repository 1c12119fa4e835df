"""What is drawn rather than set as text, told apart by what a reader who does not see it is told.

A new drawing is a `Figure`, and says what it shows: how that is said is told in DEVELOPERS.md.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from compliance.record import record

Draw = Callable[[Any, float, float, float], None]
"""Draws on a canvas: (canvas, left edge, top edge, width)."""


@record
class Figure:
    """A picture that says something. `alt` says it in words, in a sentence or two."""

    draw: Draw
    alt: str


@record
class Lettered:
    """Text, set by whatever draws it, with what belongs to it: boxes to tick, lines to write on."""

    draw: Draw


@record
class Ornament:
    """Decoration, or a sign whose meaning stands beside it in words: read to nobody."""

    draw: Draw


Ink = Figure | Lettered | Ornament
