"""Site cards: one for each point of the inspection plan, two to a sheet, in type that can be read at arm's length."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from reportlab.platypus.flowables import Flowable

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import running_text, title
from compliance.documents.elements.sign_lines import SignLines, WriteLines, draw_tag, in_turn
from compliance.documents.elements.theme import PAPERS, Paper, Style
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import NARROW, NARROW_BOLD, TEXT, TEXT_BOLD, face_for, register_faces, text_width
from compliance.documents.page.line_breaking import Line, Part, Words
from compliance.documents.page.placed_rows import TextRun
from compliance.documents.page.rows import full_row
from compliance.documents.tagging.slots import Slot
from compliance.record import record, replace
from compliance.report.by_rule import by_rule
from compliance.report.cautions import SHORT
from compliance.report.inspection_points import SitePoint, site_points
from compliance.report.summaries.inspection_values import required_values

_GAP = 14.0
_PAD = 13.0
_SIZES = (14.0, 13.0, 12.0, 11.0, 10.0, 9.0)
_MOST_LINES_TO_SIGN = 3
_SIGN = 21.0
_NAMES = (120.0, 226.0)
_MOST_OF_HALF = 0.33
"""Of the width, for the word before a line to write on, where two stand beside each other."""
_MOST_BEFORE_LINE = 0.7
_RULED = 23.0
_CAUTION = Style(NARROW, 8.0, 9.8, theme.UMBER)
_BY_NAME = Style(NARROW_BOLD, 12.0, 15.0)
_CORRECTION, _AGAIN = "Correction to make:", "Inspected again"
MEANING = (
    "At a hold point nobody goes on before it has been passed. At a witness point those named are invited in time, and "
    "the work may go on without them."
)
_NO_POINTS = "The rule sets of this project name no point of inspection that waits. Ask the official what is inspected."


@record
class _Card:
    """One card: a point, the subjects to sign for, and which of how many cards of the point it is."""

    point: SitePoint
    names: tuple[str, ...]
    required: tuple[str, ...]
    number: int
    of: int


def write_site_cards(checked: Checked, path: Path) -> None:
    """Write the cards of `checked` to `path` as PDF. Raises DocumentError or OSError with nothing written."""
    register_faces()
    paper = PAPERS[checked.project.project.paper]
    cards = [
        card for point in site_points(by_rule(checked), checked.project.footings) for card in _cards(point, checked)
    ]
    first = [CardFlow(card, checked, paper) for card in cards]
    story: list[Any] = [flow for one in first for flow in (one, *one.more)]
    if not cards:
        story = [running_text([*title("cards", "Site cards"), full_row(Words(_NO_POINTS, theme.BODY))])]
    head = head_of(checked, "site cards of the inspection plan")
    Book(head, paper, covered=False).write(story, path)


def _cards(point: SitePoint, checked: Checked) -> Iterator[_Card]:
    parts = in_turn([one.subject for one in point.to_look_at], _MOST_LINES_TO_SIGN)
    values = required_values(checked, point)
    for number, marks in enumerate(parts, start=1):
        shown = ((tuple(one for one in of.subjects if one in marks), of) for of in values)
        required = tuple(replace(of, subjects=own).text for own, of in shown if own)
        names = tuple(_called(mark, checked) for mark in marks)
        yield _Card(point, names=names, required=required, number=number, of=len(parts))


def _called(subject: str, checked: Checked) -> str:
    """The mark, and the name of a wall that has one and for which there is room."""
    wall = checked.project.walls.get(subject)
    named = f"{subject}  {wall.name}" if wall and wall.name else subject
    return named if _name_width(named) <= _NAMES[1] else subject


def _name_width(name: str) -> float:
    return text_width(name, face_for(name, _BY_NAME.face), _BY_NAME.size) + 8.0


class CardFlow(Flowable):  # type: ignore[misc]
    """A card as high as half the page; as high as the whole page where its text needs it, and on further cards where
    even that is not enough."""

    def __init__(self, card: _Card, checked: Checked, paper: Paper, text: list[Line] | None = None) -> None:
        super().__init__()
        self._card, self._checked, self._paper = card, checked, paper
        self._half = (paper.body_height - _GAP) / 2 - 0.01
        inside = paper.body_width - 2 * _PAD
        self._foot = _foot(card, checked, inside)
        self._left: list[Line] = []
        self.height, self._text = self._fitted(text, inside)
        self.width, self.spaceAfter = paper.body_width, _GAP

    def _fitted(self, text: list[Line] | None, inside: float) -> tuple[float, list[Line]]:
        """The largest type with which the text fits half a page, else a whole one; what is over is kept in `_left`."""
        tries = [text] if text is not None else [_text(self._card, size, inside) for size in _SIZES]
        whole = self._paper.body_height - 0.01
        for height in (self._half, whole):
            for lines in tries:
                if _tall(lines) <= self._room(height):
                    return height, lines
        lines, room = tries[-1], self._room(whole)
        count = 0
        while (room := room - lines[count].height) >= 0:
            count += 1
        self._left = lines[count:]
        return whole, lines[:count]

    def _room(self, height: float) -> float:
        return height - 2 * _PAD - 30 - _tall(self._foot)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return self.width, self.height

    def split(self, width: float, height: float) -> list[Any]:
        return []

    @property
    def more(self) -> list[CardFlow]:
        """The cards that the text runs on to."""
        if not self._left:
            return []
        following = CardFlow(self._card, self._checked, self._paper, self._left)
        return [following, *following.more]

    def draw(self) -> None:
        canvas = self.canv
        if canvas.only_counts:
            return
        canvas.begin_decoration()
        canvas.setStrokeColor(theme.INK)
        canvas.setLineWidth(1.6)
        canvas.rect(0, 0, self.width, self.height, stroke=1, fill=0)
        canvas.end()
        canvas.begin(canvas.paragraph())
        self._draw_head(canvas)
        canvas.end()
        run = TextRun(canvas)
        inside = self.width - 2 * _PAD
        top = self.height - _PAD - 30
        _draw_lines(canvas, run=run, lines=self._text, top=top, width=inside)
        _draw_ruled(canvas, run=run, top=top - _tall(self._text), bottom=_PAD + _tall(self._foot), width=inside)
        _draw_lines(canvas, run=run, lines=self._foot, top=_PAD + _tall(self._foot), width=inside)
        run.end()

    def _draw_head(self, canvas: Any) -> None:
        """The stage, hold or witness, and the code."""
        point, y = self._card.point, self.height - _PAD - 18
        big = Style(TEXT_BOLD, 15.0, 18.0)
        wide = draw_tag(canvas, word=point.kind_word, filled=point.is_hold, style=big, x=_PAD, y=y)
        canvas.setFillColor(theme.INK)
        canvas.setFont(TEXT_BOLD, 15.0)
        canvas.drawString(_PAD + wide + 10, y + big.leading - big.baseline, f"{point.stage} ")
        canvas.setFont(NARROW_BOLD, 12.0)
        part = f"  card {self._card.number} of {self._card.of}" if self._card.of > 1 else ""
        code = f"{point.code}  ·  {point.group.first.clause}{part}"
        canvas.drawRightString(self.width - _PAD, y + big.leading - big.baseline, code)
        canvas.setLineWidth(0.8)
        canvas.line(0, y - 6, self.width, y - 6)


def _tall(lines: list[Line]) -> float:
    return sum(line.height for line in lines)


def _draw_lines(canvas: Any, run: TextRun, lines: list[Line], top: float, width: float) -> None:
    slot = Slot(canvas.structure.document)
    for line in lines:
        if line.ink:
            run.close()
            canvas.ink(line.ink, slot, _PAD, top, width, line.height)
        if line.text:
            run.begin(canvas.text_of(slot))
            run.put(line, left=_PAD, top=top, width=width, goes_on=line is not lines[-1])
        top -= line.height
    run.close()


def _draw_ruled(canvas: Any, run: TextRun, top: float, bottom: float, width: float) -> None:
    """Lines to write on in what is left between the text and the lines to sign."""
    count = int((top - bottom - 12) // _RULED)
    if count < 1:
        return
    _draw_lines(canvas, run=run, lines=Words("Seen and measured", _CAUTION).lines(width), top=top - 4, width=width)
    canvas.begin_decoration()
    canvas.setStrokeColor(theme.ASH)
    canvas.setLineWidth(0.4)
    for number in range(1, count + 1):
        y = top - 10 - number * _RULED
        canvas.line(_PAD, y, _PAD + width, y)
    canvas.end()


def _text(card: _Card, size: float, width: float) -> list[Line]:
    """What is looked at, the values it is held against, and a line for each thing to write down, in type of `size`."""
    plain, bold = Style(TEXT, size, size * 1.36), Style(TEXT_BOLD, size * 1.12, size * 1.5)
    small = Style(TEXT, max(size * 0.84, 8.0), size * 1.16, theme.UMBER)
    point = card.point
    parts: list[Part] = [
        Words(point.group.first.title, bold, after=2.0),
        Words(point.looked_at.look_at, plain, after=3.0),
        *(Words(f"Required  {text}.", Style(TEXT_BOLD, size * 0.9, size * 1.25), after=1.0) for text in card.required),
        Words(f"Who: {point.inspect.who}. {point.group.first.say}", small),
        *_record_lines(point, small, width),
    ]
    return [line for part in parts for line in part.lines(width)]


def _record_lines(point: SitePoint, style: Style, width: float) -> list[Part]:
    """A line for each thing to write down; two beside each other where both leave room to write. What is too long to
    stand before a line is a sentence, and the lines below it are for it."""
    wide = {word: text_width(word, face_for(word, style.face), style.size) for word in point.looked_at.record}
    sentences = [word for word in wide if wide[word] > width * _MOST_BEFORE_LINE]
    short = [word for word in wide if word not in sentences]
    across = 2 if all(wide[word] < width * _MOST_OF_HALF for word in short) else 1
    words = tuple(f"{word[:1].upper()}{word[1:]}" for word in short)
    lines = WriteLines(words, style, height=max(style.size * 1.8, 17.0), across=across)
    return [*(Words(f"Write down: {text}", style, after=3.0) for text in sentences), lines]


def _foot(card: _Card, checked: Checked, width: float) -> list[Line]:
    """The lines to sign, what the kind of point means, and the caution: a card that is cut off keeps them."""
    head = checked.project.project
    room = min(max(_NAMES[0], *map(_name_width, card.names)), _NAMES[1])
    again = replace(_BY_NAME, face=NARROW)
    lines = [
        *SignLines(card.names, style=_BY_NAME, across=1, height=_SIGN, name_width=room).lines(width),
        *WriteLines((_CORRECTION,), again, _SIGN).lines(width),
        *SignLines((_AGAIN,), style=again, across=1, height=_SIGN, name_width=room).lines(width),
    ]
    signed = len(lines)
    issue = f"{head.name}, revision {head.revision}, {head.date.isoformat()}, input {checked.fingerprint[:12]}"
    for text in (MEANING, SHORT, issue):
        lines += Words(text, _CAUTION).lines(width)
    return [Line(4.0), *lines[:signed], Line(5.0), *lines[signed:]]
