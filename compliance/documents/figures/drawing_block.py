"""A drawing as it stands on a page: its frame, the sentences under it, and the line that says what it is."""

from __future__ import annotations

from typing import Any

from reportlab.platypus.flowables import Flowable

from compliance.documents.elements import theme
from compliance.documents.elements.strokes import STROKE, circle
from compliance.documents.figures.drawing_ink import ink, ink_items, letters
from compliance.documents.page.faces import NARROW, NARROW_BOLD, NARROW_MEDIUM, TEXT_BOLD, face_for
from compliance.documents.page.line_breaking import shortened
from compliance.documents.page.rows import Anchor
from compliance.documents.tagging.structure_tree import Element
from compliance.drawings.common.board import Board, TextMetrics
from compliance.drawings.common.draft import Draft
from compliance.drawings.common.lettering import LEAST, Role, one_line, wrapped
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
_BLOCK, _CAUTION_LINE = 36.0, 11.5
_SCALE_CELL = 160.0
_LEADING = 11.6
_NOTE_PAD = 4.0
_CAUTION = "From the description: no survey, no design. Code and official come first."
_UNITS = {"us": "feet and inches", "si": "metres; thicknesses in millimetres"}
_SMALL = LEAST
_NUMBERED = 22.0
"""Taken by the circle with the number of a section, before its name."""
_LINE = 11.5
"""Of the title line, from one baseline to the next."""
_HEADING, _HEADING_SIZE = 13.0, 12.0


@record
class Issue:
    """What the title line of every drawing repeats, and a caution where it `stands_alone`, on no sheet or page that
    bears one."""

    system: System
    revision: str
    stands_alone: bool = False

    @property
    def block(self) -> float:
        """The height of the title line."""
        return _BLOCK + (_CAUTION_LINE if self.stands_alone else 0.0)

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
        self._number = draft.number
        self._notes, self._names = note_lines(draft, width), _name_lines(draft, width)
        self._block = issue.block + _LINE * (len(self._names) - 1)
        self.drawing = draft.draw(height - around_it(draft, heading, width, issue.block))
        self._alt = f"{one_line(draft.alt)} {_scale_of(self.drawing.scale)}."
        own = Anchor(self.drawing.key, one_line(self.drawing.name), level, listed=False)
        self.anchors = [heading, own] if heading else [own]

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return self.width, self.height

    @property
    def drawing_at(self) -> tuple[float, float]:
        """Where the lower left corner of the drawing lies in the block."""
        return PAD, self._block + _NOTE_PAD + len(self._notes) * _LEADING + PAD

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
        figure = canvas.figure(structure.document, self._alt, (0.0, self._block, self.width, self.height))
        notes = canvas.paragraph() if self._notes else None
        return _Parts(headings[0] if headings else None, name, figure, notes)

    def _title_line(self, canvas: Any, parts: _Parts) -> None:
        """Name; units and revision; the caution. In a cell of its own the scale with its bar."""
        canvas.begin_decoration()
        canvas.setFillColor(theme.CHALK)
        canvas.rect(0, 0, self.width, self._block, stroke=1, fill=1)
        cell = self.width - _SCALE_CELL
        canvas.line(cell, 0, cell, self._block)
        canvas.end()
        aside = _NUMBERED if self._number else 0.0
        canvas.begin(parts.name)
        if self._number:
            _numbered(canvas, self._number, self._block - 14.0)
        for index, line in enumerate(self._names):
            y = self._block - 11.5 - index * _LINE
            after = " " if index < len(self._names) - 1 else ""
            _put(canvas, text=line + after, face=NARROW_BOLD, size=_SMALL, x=PAD + aside, y=y, room=cell - 2 * PAD)
        canvas.end()
        wording = f"Dimensions in {self._issue.units}: field-verify   ·   revision {one_line(self._issue.revision)}"
        canvas.begin(canvas.paragraph())
        y = self._block - 12.5 - len(self._names) * _LINE
        _put(canvas, text=wording, face=NARROW_MEDIUM, size=_SMALL, x=PAD + aside, y=y, room=cell - 2 * PAD)
        canvas.end()
        if self._issue.stands_alone:
            canvas.begin(canvas.paragraph())
            _put(canvas, text=_CAUTION, face=NARROW, size=_SMALL, x=PAD, y=4.5, room=cell - 2 * PAD)
            canvas.end()
        scale = self.drawing.scale
        canvas.begin(canvas.paragraph())
        _put(
            canvas,
            text=_scale_of(scale),
            face=NARROW_MEDIUM,
            size=_SMALL,
            x=cell + PAD,
            y=self._block - 11.5,
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


def _numbered(canvas: Any, number: str, y: float) -> None:
    """The number of a section in its circle."""
    canvas.addLiteral(f"{circle(PAD + 9.0, y, 9.0)} {STROKE}")
    half = letters(number, Role.MARK) / 2
    _put(canvas, text=f"{number} ", face=NARROW_BOLD, size=Role.MARK.size, x=PAD + 9.0 - half, y=y - 3.6, room=40.0)


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


def _name_lines(draft: Draft, width: float) -> list[str]:
    room = width - _SCALE_CELL - 2 * PAD - (_NUMBERED if draft.number else 0.0)
    return wrapped(draft.name, Role.HEADING, room, letters)


def around_it(draft: Draft, heading: Anchor | None, width: float, block: float = _BLOCK) -> float:
    """What frame, heading, sentences and title line take of the height."""
    above = _HEADING if heading else 0.0
    block += _LINE * (len(_name_lines(draft, width)) - 1)
    return above + 2 * PAD + _NOTE_PAD + len(note_lines(draft, width)) * _LEADING + block


def least_height(draft: Draft, heading: Anchor | None, width: float, block: float = _BLOCK) -> float:
    """`block` is the height of the title line."""
    return draft.least + around_it(draft, heading, width, block)
