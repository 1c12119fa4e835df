"""The document every PDF is made as: cover and body pages, running lines, bookmarks, page x of y, same bytes."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from datetime import UTC, date, datetime
from io import BytesIO
from pathlib import Path
from typing import Any

from reportlab import rl_config
from reportlab.lib.utils import TimeStamp
from reportlab.platypus.doctemplate import BaseDocTemplate, IndexingFlowable, PageTemplate
from reportlab.platypus.frames import Frame

from compliance.documents.elements.theme import Paper
from compliance.documents.page import faces, running_lines
from compliance.documents.tagging.tagged_canvas import TaggedCanvas
from compliance.files.atomic_files import write_whole
from compliance.record import record
from compliance.report.cautions import SHORT

rl_config.useA85 = 0  # binary streams: a quarter smaller, and quicker to write

COVER, BODY = "cover", "body"
_MOST_PASSES = 6
_COVER_RISE = 18.0  # the cover has no running line above it
DrawCover = Callable[[Any, "Book"], None]


@record
class Head:
    """What a document says of itself: on its pages and in its properties. `caution` stands at the foot of each page."""

    title: str
    project: str
    number: str
    revision: str
    dated: date
    author: str
    subject: str
    fingerprint: str
    caution: str = SHORT


class _Pages(IndexingFlowable):  # type: ignore[misc]
    """Counts the pages of a pass and notes the page of each place; the next pass prints both. Takes no room."""

    _ZEROSIZE = True

    def __init__(self) -> None:
        super().__init__()
        self.width = self.height = 0
        self.counted, self.known = 0, 0
        self.found: dict[str, int] = {}
        self.places: dict[str, int] = {}

    def beforeBuild(self) -> None:  # noqa: N802
        self.known, self.counted = self.counted, 0
        self.places, self.found = self.found, {}

    def notify(self, kind: str, stuff: Any) -> None:
        if kind == "page":
            self.counted = stuff
        elif kind == "places":
            keys, page = stuff
            self.found |= dict.fromkeys(keys, page)

    def isSatisfied(self) -> bool:  # noqa: N802
        return (self.known, self.places) == (self.counted, self.found)

    def draw(self) -> None:
        """Nothing is drawn."""


class Book(BaseDocTemplate):  # type: ignore[misc]
    """The first pass finds the pages and draws no sheet, the second draws. `draw_cover` draws what stands still on
    the cover; `cover_foot` is the height it takes at the foot. Without `covered` all pages are those of the body."""

    def __init__(
        self,
        head: Head,
        paper: Paper,
        draw_cover: DrawCover | None = None,
        cover_foot: float = 0.0,
        covered: bool = True,
    ) -> None:
        faces.register_faces()
        self.head, self.paper = head, paper
        self.section, self._last_section, self._fresh = "", "", True
        self._target = BytesIO()
        self._pages = _Pages()
        self._draw_cover = draw_cover
        super().__init__(
            self._target,
            pagesize=(paper.width, paper.height),
            invariant=1,
            pageCompression=1,
            lang="en",
            title=head.title,
            author=head.author,
            subject=head.subject,
            creator="earthwall",
            initialFontName=faces.TEXT,
            initialFontSize=9,
            displayDocTitle=True,
            pageTemplates=[
                *(
                    [self._template(COVER, paper=paper, on_end=self._cover_page, foot=cover_foot, rise=_COVER_RISE)]
                    if covered
                    else []
                ),
                self._template(BODY, paper, self._body_page),
            ],
        )

    def _template(
        self, name: str, paper: Paper, on_end: Callable[[Any, Any], None], foot: float = 0.0, rise: float = 0.0
    ) -> PageTemplate:
        height = paper.body_height - foot + rise
        frame = Frame(paper.side, paper.bottom + foot, paper.body_width, height, 0, 0, 0, 0, id=name)
        return PageTemplate(name, [frame], onPageEnd=on_end, pagesize=(paper.width, paper.height))

    @property
    def total(self) -> int:
        """Pages in the whole document, as counted in the pass before."""
        return self._pages.known

    def write(self, story: Sequence[Any], path: Path) -> None:
        """Make the document and put it at `path`. Raises DocumentError or OSError with nothing written."""
        write_whole(path, self.made(story))

    def made(self, story: Sequence[Any]) -> bytes:
        """The document; `total` is then how many pages it has. Raises DocumentError."""
        self.multiBuild([self._pages, *story], maxPasses=_MOST_PASSES, canvasmaker=self._canvas)
        return self._target.getvalue()

    def _canvas(self, *args: Any, **options: Any) -> TaggedCanvas:
        canvas = TaggedCanvas(*args, places=self._pages.places, only_counts=self.total == 0, **options)
        canvas._doc._timeStamp = _stamp(self.head.dated)
        canvas.showOutline()
        return canvas

    def beforeDocument(self) -> None:  # noqa: N802
        self.section, self._last_section = "", ""

    def beforePage(self) -> None:  # noqa: N802
        self.section, self._fresh = self._last_section, True

    def afterPage(self) -> None:  # noqa: N802
        self.notify("page", self.page)

    def afterFlowable(self, flowable: Any) -> None:  # noqa: N802
        """Bookmarks, and `section`: the one the page begins with."""
        for anchor in getattr(flowable, "anchors", ()):
            if anchor.level == 0:
                self._last_section = anchor.title
                self.section = anchor.title if self._fresh else self.section
            self.canv.addOutlineEntry(anchor.title, anchor.key, anchor.level, closed=anchor.level > 0)
            self.notify("entry", (anchor, self.page))
        anchors = getattr(flowable, "anchors", ())
        self.notify("places", (getattr(flowable, "places", [one.key for one in anchors]), self.page))
        self._fresh = self._fresh and not hasattr(flowable, "anchors")

    def _cover_page(self, canvas: Any, book: Any) -> None:
        if self._draw_cover and not canvas.only_counts:
            self._draw_cover(canvas, self)

    def _body_page(self, canvas: Any, book: Any) -> None:
        if not canvas.only_counts:
            running_lines.draw(canvas, self)


def _stamp(dated: date) -> TimeStamp:
    """Midnight of the project's date: no clock is read."""
    stamp = TimeStamp(invariant=1)
    moment = datetime(dated.year, dated.month, dated.day, tzinfo=UTC).timestamp()
    stamp.t, stamp.lt = moment, time.gmtime(moment)
    stamp.YMDhms = tuple(stamp.lt)[:6]
    return stamp
