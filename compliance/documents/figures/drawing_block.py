"""A drawing as it stands on a page: its frame, the sentences under it, and the line that says what it is."""

from __future__ import annotations

from typing import Any

from reportlab.platypus.flowables import Flowable

from compliance.documents.elements import theme
from compliance.documents.figures.drawing_ink import ink, ink_items, letters
from compliance.documents.page.faces import NARROW, NARROW_BOLD, NARROW_MEDIUM, TEXT_BOLD, face_for
from compliance.documents.page.line_breaking import shortened
from compliance.documents.page.rows import Anchor
from compliance.documents.tagging.structure_tree import Element
from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.lettering import Role, one_line, wrapped
from compliance.drawings.common.primitives import Box
from compliance.drawings.common.scale_bar import BAR_HEIGHT, draw_scale_bar
from compliance.drawings.common.scales import Scale
from compliance.drawings.section.details import NOT_TO_SCALE
from compliance.record import record
from compliance.units import Writer
from compliance.units.writing import System

PAD = 6.0
GAP = 12.0
"""Between one drawing and the next, in points."""
_BLOCK = 39.0
_SCALE_CELL = 152.0
_LEADING = 9.8
_NOTE_PAD = 4.0
_CAUTION = "From the description: no survey, no design. Field-verify dimensions. Code, official, engineer come first."
_UNITS = {"us": "feet and inches", "si": "metres; thicknesses in millimetres"}
_NAME, _SMALL = 9.4, 8.0
_HEADING, _HEADING_SIZE = 12.0, 11.0


@record
class Issue:
    """What the title line of every drawing repeats."""

    system: System
    revision: str

    @property
    def units(self) -> str:
        return _UNITS[self.system]


@record
class _Parts:
    """Of a drawing on its page, as they are read."""

    heading: Element | None
    name: Element
    figure: Element
    notes: Element | None


class DrawingBlock(Flowable):  # type: ignore[misc]
    """One drawing of the given whole height, as wide as the page's text. The first of its kind bears a heading, which
    is a bookmark too; that of the drawing itself stands on `level`."""

    def __init__(
        self, draft: Draft, heading: Anchor | None, width: float, height: float, issue: Issue, level: int = 2
    ) -> None:
        super().__init__()
        self.width, self.height, self._issue, self._heading = width, height, issue, heading
        self.spaceAfter = GAP
        self._notes = note_lines(draft, width)
        self.drawing = draft.draw(height - around_it(draft, heading, width))
        self._alt = f"{one_line(draft.alt)} {_scale_of(self.drawing.scale)}."
        own = Anchor(self.drawing.key, one_line(self.drawing.name), level, listed=False)
        self.anchors = [heading, own] if heading else [own]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return self.width, self.height

    @property
    def drawing_at(self) -> tuple[float, float]:
        """Where the lower left corner of the drawing lies in the block."""
        return PAD, _BLOCK + _NOTE_PAD + len(self._notes) * _LEADING + PAD

    def draw(self) -> None:
        canvas = self.canv
        if getattr(canvas, "only_counts", False):
            return
        for anchor in self.anchors:
            canvas.bookmarkHorizontal(anchor.key, 0, self.height + 10)
        parts = self._parts(canvas)
        canvas.begin_decoration()
        canvas.setLineWidth(0.7)
        canvas.setStrokeColor(theme.UMBER)
        canvas.rect(0, 0, self.width, self.height, stroke=1, fill=0)
        canvas.end()
        self._title_line(canvas, parts)
        if self._heading:
            top, room = self.height - PAD - 9.0, self.width - 2 * PAD
            canvas.begin(parts.heading)
            _put(canvas, text=self._heading.title, face=TEXT_BOLD, size=_HEADING_SIZE, x=PAD, y=top, room=room)
            canvas.end()
        left, low = self.drawing_at
        y = low - PAD
        if self._notes:
            canvas.begin(parts.notes)
            canvas.setFont(NARROW, Role.NOTE.size)
            canvas.setFillColor(theme.INK)
            for index, line in enumerate(self._notes):
                canvas.setFont(face_for(line, NARROW), Role.NOTE.size)
                canvas.drawString(PAD, y - (index + 1) * _LEADING + 2.2, f"{line} ")
            canvas.end()
        canvas.begin(parts.figure)
        canvas.saveState()
        canvas.translate(left, low)
        ink(canvas, self.drawing)
        canvas.restoreState()
        canvas.end()

    def _parts(self, canvas: Any) -> _Parts:
        """In the order of reading: headings, the figure, what stands under it."""
        structure = canvas.structure
        headings = [structure.heading(structure.document, one.title, one.level) for one in self.anchors]
        name = headings.pop() if headings else canvas.paragraph()
        figure = canvas.figure(structure.document, self._alt, (0.0, _BLOCK, self.width, self.height))
        notes = canvas.paragraph() if self._notes else None
        return _Parts(headings[0] if headings else None, name, figure, notes)

    def _title_line(self, canvas: Any, parts: _Parts) -> None:
        """Name; units and revision; the caution. In a cell of its own the scale with its bar."""
        canvas.begin_decoration()
        canvas.setFillColor(theme.CHALK)
        canvas.rect(0, 0, self.width, _BLOCK, stroke=1, fill=1)
        cell = self.width - _SCALE_CELL
        canvas.line(cell, 0, cell, _BLOCK)
        canvas.end()
        canvas.begin(parts.name)
        _put(
            canvas,
            text=one_line(self.drawing.name),
            face=NARROW_BOLD,
            size=_NAME,
            x=PAD,
            y=_BLOCK - 11.5,
            room=cell - 2 * PAD,
        )
        canvas.end()
        wording = f"Dimensions in {self._issue.units}   ·   revision {one_line(self._issue.revision)}"
        canvas.begin(canvas.paragraph())
        _put(canvas, text=wording, face=NARROW_MEDIUM, size=_SMALL, x=PAD, y=_BLOCK - 22.5, room=cell - 2 * PAD)
        canvas.end()
        canvas.begin(canvas.paragraph())
        _put(canvas, text=_CAUTION, face=NARROW, size=_SMALL, x=PAD, y=5.0, room=cell - 2 * PAD)
        canvas.end()
        scale = self.drawing.scale
        canvas.begin(canvas.paragraph())
        _put(
            canvas,
            text=_scale_of(scale),
            face=NARROW_MEDIUM,
            size=_SMALL + 0.4,
            x=cell + PAD,
            y=_BLOCK - 11.5,
            room=_SCALE_CELL - 2 * PAD,
        )
        canvas.end()
        if scale:
            canvas.begin(parts.figure)
            board = Board(Box(0.0, 0.0, _SCALE_CELL, BAR_HEIGHT), TextMetrics(letters, Writer(self._issue.system)))
            draw_scale_bar(board, scale=scale, left=PAD, bottom=2.0, longest=_SCALE_CELL - 3 * PAD)
            canvas.saveState()
            canvas.translate(cell, 1.0)
            ink_items(canvas, board.finished())
            canvas.restoreState()
            canvas.end()


def _scale_of(scale: Scale | None) -> str:
    return f"Scale {scale.title}" if scale else f"{NOT_TO_SCALE[:1].upper()}{NOT_TO_SCALE[1:]}"


def _put(canvas: Any, text: str, face: str, size: float, x: float, y: float, room: float) -> None:
    """One line, cut where it is too long."""
    face = face_for(text, face)
    canvas.setFillColor(theme.INK)
    canvas.setFont(face, size)
    canvas.drawString(x, y, shortened(text, face, size, room))


def note_lines(draft: Draft, width: float) -> list[str]:
    """Its notes as running text."""
    return wrapped(" ".join(draft.notes), Role.NOTE, width - 2 * PAD, letters) if draft.notes else []


def around_it(draft: Draft, heading: Anchor | None, width: float) -> float:
    """What frame, heading, sentences and title line take of the height."""
    above = _HEADING if heading else 0.0
    return above + 2 * PAD + _NOTE_PAD + len(note_lines(draft, width)) * _LEADING + _BLOCK


def least_height(draft: Draft, heading: Anchor | None, width: float) -> float:
    return draft.least + around_it(draft, heading, width)
