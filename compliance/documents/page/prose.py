"""Running text with markup of our own: the cautions. All text of users goes through `faces.escape`."""

from __future__ import annotations

from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus.paragraph import Paragraph

from compliance.documents.elements.theme import SMALL, Style
from compliance.documents.page.faces import TEXT_BOLD, escape
from compliance.report.cautions import CAUTIONS


class _TaggedParagraph(Paragraph):  # type: ignore[misc]
    """A paragraph that belongs to the structure. A blank ends the last word of each line."""

    def draw(self) -> None:
        for line in self.blPara.lines[:-1]:
            line.words[-1].text += " "
        self.canv.begin(self.canv.paragraph())
        super().draw()
        self.canv.end()


def paragraph(markup: str, style: Style, after: float = 0.0) -> Any:
    """A paragraph of markup. Every text in it that is not ours must have gone through `escape`."""
    return _TaggedParagraph(
        markup,
        ParagraphStyle(
            style.face,
            fontName=style.face,
            fontSize=style.size,
            leading=style.leading,
            textColor=style.colour,
            spaceAfter=after,
            bulletFontName=style.face,
        ),
    )


def caution_paragraphs(style: Style = SMALL) -> list[Any]:
    """Each caution, its name in bold."""
    return [
        paragraph(f'<font name="{TEXT_BOLD}">{escape(name, TEXT_BOLD)}</font> {escape(text, style.face)}', style, 2.4)
        for name, text in CAUTIONS
    ]
