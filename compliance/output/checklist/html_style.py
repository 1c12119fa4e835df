"""The looks of the page for the phone: the pigments of the documents, marks drawn as shapes, print rules."""

from __future__ import annotations

from pathlib import Path

from compliance.output.checklist.html_tags import Markup
from compliance.report import pigments
from compliance.report.marks import Mark

_PIGMENTS = {
    "ink": pigments.INK, "umber": pigments.UMBER, "slate": pigments.SLATE, "clay": pigments.CLAY,
    "ochre": pigments.OCHRE, "lichen": pigments.LICHEN, "chalk": pigments.CHALK, "sand": pigments.SAND,
    "ash": pigments.ASH,
}  # fmt: skip

_VARIABLES = "".join(f"--{name}:{colour};" for name, colour in _PIGMENTS.items())

STYLE = Markup(f":root{{{_VARIABLES}color-scheme:light}}\n{(Path(__file__).parent / 'page.css').read_text('utf-8')}")

SHAPES = {
    Mark.ENGINEER: '<path d="M0 0h10v3.8H0zM0 6.2h10V10H0z"/>',
    Mark.REVISE: '<path d="M5 .2 10 9.2H0z"/>',
    Mark.MISSING: '<path fill="none" stroke="currentColor" stroke-width="1.4" '
    'd="M1 3.6V1h2.6M6.4 1H9v2.6M9 6.4V9H6.4M3.6 9H1V6.4"/>',
    Mark.CONFIRM: '<path fill="none" stroke="currentColor" d="M5 .6 9.4 5 5 9.4.6 5z"/><path d="M5 .6V9.4L.6 5z"/>',
    Mark.LATER: '<circle cx="2" cy="5" r="1"/><circle cx="5" cy="5" r="1"/><circle cx="8" cy="5" r="1"/>',
    Mark.RESERVED: '<circle cx="5" cy="5" r="3.8" fill="none" stroke="currentColor" stroke-width="1.7"/>',
    Mark.MEETS: '<circle cx="5" cy="5" r="4.6"/>',
    Mark.NOT_APPLICABLE: '<path fill="none" stroke="currentColor" stroke-width="1.4" d="M2 5h6"/>',
}
_NAMES = {colour: name for name, colour in _PIGMENTS.items()}

SYMBOLS = Markup(
    '<svg width="0" height="0" style="position:absolute" aria-hidden="true">'
    + "".join(
        f'<symbol id="m-{mark.name.lower()}" viewBox="0 0 10 10">{shape}</symbol>' for mark, shape in SHAPES.items()
    )
    + "</svg>"
)


def drawn(mark: Mark) -> Markup:
    """The mark as a shape in its pigment; its word always stands beside it."""
    name = mark.name.lower()
    colour = _NAMES[mark.value.pigment]
    return Markup(
        f'<svg class="mark" aria-hidden="true" fill="currentColor" style="color:var(--{colour})">'
        f'<use href="#m-{name}"/></svg>'
    )
