"""The document every PDF is made as: cover and body pages, running lines, bookmarks, page x of y, same bytes."""

from __future__ import annotations

import contextlib
import time
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime
from io import BytesIO
from pathlib import Path
from typing import Any

from reportlab import rl_config
from reportlab.lib.utils import TimeStamp
from reportlab.platypus.doctemplate import BaseDocTemplate, IndexingFlowable, PageTemplate
from reportlab.platypus.flowables import Flowable
from reportlab.platypus.frames import Frame

from compliance.documents.elements import title_block
from compliance.documents.elements.theme import Paper
from compliance.documents.page import faces, running_lines
from compliance.documents.tagging.tagged_canvas import NO_LABELS, TaggedCanvas
from compliance.files.atomic_files import write_whole
from compliance.record import record
from compliance.report.cautions import SHORT

rl_config.useA85 = 0  # binary streams: a quarter smaller, and quicker to write

COVER, BODY, DRAWN_WHOLE, DRAWN_IN_TWO = "cover", "body", "drawn-whole", "drawn-in-two"
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
    part: str = ""
    """Of a submittal: what this document is called among its parts."""
    address: str = ""


class _Pages(IndexingFlowable):  # type: ignore[misc]
    """Counts the pages of a pass and notes the page of each place; the next pass prints both. Takes no room."""

    _ZEROSIZE = True

    def __init__(self) -> None:
        super().__init__()
        self.width = self.height = 0
        self.counted, self.known = 0, 0
        self.found: dict[str, int] = {}
        self.places: dict[str, int] = {}
        self.sheets_found: dict[int, str] = {}
        self.sheets: dict[int, str] = {}

    def beforeBuild(self) -> None:  # noqa: N802
        self.known, self.counted = self.counted, 0
        self.places, self.found = self.found, {}
        self.sheets, self.sheets_found = self.sheets_found, {}

    def notify(self, kind: str, stuff: Any) -> None:
        if kind == "page":
            self.counted = stuff
        elif kind == "places":
            keys, page = stuff
            self.found |= dict.fromkeys(keys, page)
        elif kind == "sheet":
            page, number = stuff
            self.sheets_found[page] = number

    def isSatisfied(self) -> bool:  # noqa: N802
        return (self.known, self.places, self.sheets) == (self.counted, self.found, self.sheets_found)

    def draw(self) -> None:
        """Nothing is drawn."""


class SheetSeries(Flowable):  # type: ignore[misc]
    """From here on sheets of drawings are numbered in this series ("A-2": A-201, A-202 ...) under this title."""

    def __init__(self, series: str, title: str) -> None:
        super().__init__()
        self.width = self.height = 0
        self.series, self.title = series, title

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        return 0, 0

    def draw(self) -> None:
        """Nothing is drawn."""


class Book(BaseDocTemplate):  # type: ignore[misc]
    """The first pass finds the pages and draws no sheet, the second draws. `draw_cover` draws what stands still on
    the cover; `cover_foot` is the height it takes at the foot. Without `covered` all pages are those of the body.
    `drawn_on` is the paper of sheets of drawings; `drawn_first`: the document begins with one. `elsewhere` names the
    places in other parts of the same submittal."""

    def __init__(
        self,
        head: Head,
        paper: Paper,
        draw_cover: DrawCover | None = None,
        cover_foot: float = 0.0,
        covered: bool = True,
        drawn_on: Paper | None = None,
        drawn_first: bool = False,
    ) -> None:
        faces.register_faces()
        self.head, self.paper = head, paper
        self.section, self._last_section, self._fresh = "", "", True
        self.elsewhere: Mapping[str, str] = NO_LABELS
        self.series, self._in_series = SheetSeries("", ""), 0
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
                *(self._sheet_templates(drawn_on) if drawn_on and drawn_first else []),
                *(
                    [self._template(COVER, paper=paper, on_end=self._cover_page, foot=cover_foot, rise=_COVER_RISE)]
                    if covered
                    else []
                ),
                self._template(BODY, paper, self._body_page),
                *(self._sheet_templates(drawn_on) if drawn_on and not drawn_first else []),
            ],
        )

    def _sheet_templates(self, paper: Paper) -> list[PageTemplate]:
        """Of a sheet of drawings: one of two columns, and one that is a single area."""
        made = []
        for name, columns in ((DRAWN_IN_TWO, title_block.columns(paper)), (DRAWN_WHOLE, (title_block.area(paper),))):
            frames = [
                Frame(left, bottom, right - left, top - bottom, 0, 0, 0, 0, id=f"{name}{index}")
                for index, (left, bottom, right, top) in enumerate(columns)
            ]
            template = PageTemplate(name, frames, onPageEnd=self._sheet_page, pagesize=(paper.width, paper.height))
            template.paper = paper
            made.append(template)
        return made

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

    def count(self, story: Sequence[Any]) -> None:
        """Find the pages of all places, and draw nothing."""
        with contextlib.suppress(IndexError):  # raised since one pass never settles what the next one prints
            self.multiBuild([self._pages, *story], maxPasses=0, canvasmaker=self._canvas)
        for undo, *of in self._multiBuildEdits.__self__:  # what the library does between two of its own passes
            undo(*of)

    def labels(self, prefix: str) -> dict[str, str]:
        """Of each place found, how another part of the same submittal names it."""
        return {
            key: f"drawings, sheet {sheet}" if (sheet := self._pages.sheets_found.get(page)) else f"{prefix} p. {page}"
            for key, page in self._pages.found.items()
        }

    @property
    def counted(self) -> int:
        """How many pages the last pass found."""
        return self._pages.counted

    def made(self, story: Sequence[Any]) -> bytes:
        """The document; `total` is then how many pages it has. Raises DocumentError."""
        self.multiBuild([self._pages, *story], maxPasses=_MOST_PASSES, canvasmaker=self._canvas)
        return self._target.getvalue()

    def _canvas(self, *args: Any, **options: Any) -> TaggedCanvas:
        places, sheets = self._pages.places, self._pages.sheets
        numbers = {key: sheets[page] for key, page in places.items() if page in sheets}
        on_sheets = {key: f"sheet {number}" for key, number in numbers.items()}
        labels = {key: text for key, text in self.elsewhere.items() if key not in places} | on_sheets
        canvas = TaggedCanvas(*args, places=places, only_counts=self.total == 0, labels=labels, **options)
        canvas.sheets = numbers
        canvas._doc._timeStamp = _stamp(self.head.dated)
        canvas.showOutline()
        return canvas

    def beforeDocument(self) -> None:  # noqa: N802
        self.section, self._last_section = "", ""
        self.series, self._in_series = SheetSeries("", ""), 0

    def beforePage(self) -> None:  # noqa: N802
        self.section, self._fresh = self._last_section, True

    def afterPage(self) -> None:  # noqa: N802
        self.notify("page", self.page)

    def afterFlowable(self, flowable: Any) -> None:  # noqa: N802
        """Bookmarks, and `section`: the one the page begins with."""
        if isinstance(flowable, SheetSeries):
            self.series, self._in_series = flowable, 0
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

    def _sheet_page(self, canvas: Any, book: Any) -> None:
        self._in_series += 1
        number = f"{self.series.series}{self._in_series:02d}"
        self.notify("sheet", (self.page, number))
        if not canvas.only_counts:
            title_block.draw(canvas, self, self.pageTemplate.paper, number, self.series.title)


def _stamp(dated: date) -> TimeStamp:
    """Midnight of the project's date: no clock is read."""
    stamp = TimeStamp(invariant=1)
    moment = datetime(dated.year, dated.month, dated.day, tzinfo=UTC).timestamp()
    stamp.t, stamp.lt = moment, time.gmtime(moment)
    stamp.YMDhms = tuple(stamp.lt)[:6]
    return stamp
