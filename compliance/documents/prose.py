"""Running text with markup of our own: the cautions. All text of users goes through `faces.escape`."""

from __future__ import annotations

from typing import Any

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus.paragraph import Paragraph

from compliance.documents.cautions import CAUTIONS
from compliance.documents.faces import TEXT_BOLD, escape
from compliance.documents.theme import SMALL, Style


def paragraph(markup: str, style: Style, after: float = 0.0) -> Any:
    """A paragraph of markup. Every text in it that is not ours must have gone through `escape`."""
    return Paragraph(
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
