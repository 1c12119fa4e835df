"""The canvas every document is drawn on: it marks what is drawn as belonging to an element of the structure, or as mere
decoration, and keeps links in the structure too.

ISO 32000-1, 14.6 (marked content) and 14.7.4 (what a structure holds), recalled.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from reportlab.lib.rl_accel import fp_str
from reportlab.pdfbase.pdfdoc import PDFObject, PDFPage
from reportlab.pdfgen.canvas import Canvas

from compliance.documents.page.inked import Draw, Figure, Ink, Ornament
from compliance.documents.tagging.packing import packed
from compliance.documents.tagging.slots import Slot
from compliance.documents.tagging.structure_tree import Element, Structure, text_entry

DECORATION = "/Artifact BMC"
RUNNING = "/Artifact <</Type/Pagination>> BDC"
"""What opens a sequence that is read to nobody: decoration, and what is repeated on every page."""
END = "EMC"
NO_LABELS: Mapping[str, str] = {}
Area = tuple[float, float, float, float]
"""Left, bottom, right, top."""


class TaggedCanvas(Canvas):  # type: ignore[misc]
    """`places` are the pages of the places of the document, as far as known; while they are not, `only_counts` says
    that pages are counted and need no contents. `labels` are the places that are named otherwise than by a page of
    this document: sheets of drawings, and what stands in another part of the same submittal."""

    def __init__(
        self,
        *args: Any,
        places: Mapping[str, int],
        only_counts: bool,
        labels: Mapping[str, str] = NO_LABELS,
        **options: Any,
    ) -> None:
        super().__init__(*args, pdfVersion=(1, 7), **options)
        self.places, self.only_counts, self._labels = places, only_counts, labels
        self.sheets: Mapping[str, str] = NO_LABELS
        """The number of the sheet that a place is on."""
        self.structure = Structure()
        self.is_accessible = True
        """Until a page of others is drawn whose letters cannot be read out."""
        self._titles: dict[str, str] = {}
        self._table: tuple[object, Element] | None = None
        """The table last drawn: whose it is, and its element."""
        self.row: tuple[object, list[Slot]] | None = None
        """The row last drawn, and where its cells went."""
        self._inside: Element | None = None
        self._opened = 0

    def _escape(self, text: str | bytes) -> str:
        """As it stands between brackets in the contents of a page."""
        return (text if isinstance(text, str) else text.decode("latin-1")).translate(_ESCAPED)

    def label(self, key: str, before: str = "p. ") -> str:
        """Where the place is, as a reader of paper turns to it: "sheet A-101", or its page with `before` in front;
        empty for an unknown place."""
        page = self.places.get(key)
        return self._labels.get(key) or (f"{before}{page}" if page else "")

    def begin(self, element: Element) -> None:
        """What is drawn until `end` belongs to `element`."""
        self._code.append(self.opening(element))
        self._inside, self._opened = element, len(self._code)

    def begin_decoration(self, opening: str = DECORATION) -> None:
        """What is drawn until `end` is read to nobody."""
        self._code.append(opening)
        self._inside, self._opened = None, len(self._code)

    def opening(self, element: Element) -> str:
        """What opens a sequence of `element`, for one that is written elsewhere than by `begin`."""
        return f"/{element.kind} <</MCID {self.structure.mark(element)}>> BDC"

    def end(self) -> None:
        """A sequence in which nothing was drawn is taken back."""
        if len(self._code) > self._opened:
            self._code.append(END)
        else:
            self._code.pop()
            if self._inside is not None:
                self.structure.unmark(self._inside)
        self._inside = None

    def table_of(self, whole: object) -> tuple[Element, bool]:
        """The table of a sheet, and whether it was begun on a page before."""
        begun = self._table is not None and self._table[0] is whole
        if self._table is None or not begun:
            self._table = whole, self.structure.new("Table", self.structure.document)
        return self._table[1], begun

    def paragraph(self) -> Element:
        """A new paragraph of the document."""
        return self.structure.new("P", self.structure.document)

    def figure(self, holder: Element, alt: str, area: Area) -> Element:
        """A new figure in `holder`: what it says to those who do not see it, and its box in the current coordinates."""
        return self.structure.figure(holder, alt, self._absRect(area, 1))

    def ink(self, one: Ink, slot: Slot | None, left: float, top: float, width: float, height: float) -> None:
        """Draw it as what it is. Without a slot it is decoration, whatever it is."""
        if slot is None or isinstance(one, Ornament):
            self.decorate(one.draw, left, top, width)
            return
        if isinstance(one, Figure):
            element = self.figure(slot.holder, one.alt, (left, top - height, left + width, top))
        else:
            element = self.text_of(slot)
        self.begin(element)
        one.draw(self, left, top, width)
        self.end()

    def text_of(self, slot: Slot) -> Element:
        """The element that the text of a cell belongs to."""
        if slot.text is None:
            slot.text = self.structure.new("P", slot.holder)
        return slot.text

    def linked(self, key: str, area: Area, slot: Slot | None) -> Slot | None:
        """The slot within a link that leads to the place `key`: the whole cell is one."""
        element = self.structure.new("Link", slot.text or slot.holder) if slot else None
        self.link(key, area, element)
        return Slot(element, element) if element else None

    def decorate(self, draw: Draw, left: float, top: float, width: float) -> None:
        self.begin_decoration()
        draw(self, left, top, width)
        self.end()

    def link(self, key: str, area: Area, element: Element | None = None) -> None:
        """A click on the area leads to the place `key`, and `element` is the link; without it one is added to what is
        being drawn."""
        if element is None and self._inside is not None:
            element = self.structure.new("Link", self._inside)
        name = f"L{self._annotationCount}"
        parent = None if element is None else self.structure.note(element, name)
        target = self._bookmarkReference(key)
        self._addAnnotation(_Link(self._absRect(area, 1), target, parent, lambda: self._leads_to(key)), name)

    def _leads_to(self, key: str) -> str:
        """The bookmark of a place and its page or sheet, for whoever has the link read out."""
        return ", ".join(text for text in (self._titles.get(key, ""), self.label(key, "page ")) if text)

    def addOutlineEntry(self, title: str, key: str, level: int = 0, closed: object = None) -> None:  # noqa: N802
        self._titles[key] = title
        super().addOutlineEntry(title, key, level, closed)

    def begin_link(self, key: str, area: Area) -> None:
        """What is drawn until `end_link` is the text of a link within what is being drawn."""
        holder = self._inside
        if holder is None:
            self.link(key, area)
            return
        self.end()
        element = self.structure.new("Link", holder)
        self.link(key, area, element)
        self.begin(element)

    def end_link(self) -> None:
        element = self._inside
        if element is not None and element.parent is not None:
            self.end()
            self.begin(element.parent)

    def field(self, name: str) -> int | None:
        """A form field of what is being drawn, by the name of its annotation: the key that its dictionary names."""
        return self.structure.note(self.structure.new("Form", self._inside), name) if self._inside else None

    def showPage(self) -> None:  # noqa: N802
        super().showPage()
        key = self.structure.end_page()
        if key is not None:
            page = self._doc.Pages.pages[-1]
            page.__NoDefault__ = _ENTRIES_OF_PAGES
            page.StructParents, page.Tabs = key, "/S"

    def save(self) -> None:
        """Nothing is written of a pass that only counts."""
        if self._code:
            self.showPage()
        if not self.only_counts:
            self._filename.write(packed(self, self._objects))

    def _objects(self, root: int, first: int) -> list[tuple[int, bytes]]:
        numbers = self._doc.idToObjectNumberAndVersion
        pages = [numbers[f"Page{index + 1}"][0] for index in range(self.structure.page)]
        return self.structure.objects(root, first, pages, lambda name: int(numbers[f"Annot.{name}"][0]))


_ESCAPED = {code: f"\\{code:03o}" for code in range(256) if not 32 <= code < 127} | {
    ord(one): f"\\{one}" for one in "\\()"
}
_ENTRIES_OF_PAGES = [*PDFPage.__NoDefault__, "StructParents", "Tabs"]


class _Link(PDFObject):  # type: ignore[misc]
    """The annotation of a link within the document; `parent` is its key in the structure, `leads_to` gives in words
    where it leads, once all places are known."""

    def __init__(self, area: Area, target: Any, parent: int | None, leads_to: Callable[[], str]) -> None:
        self._area, self._target, self._parent, self._leads_to = area, target, parent, leads_to

    def format(self, doc: Any) -> bytes:
        target = self._target.format(doc).decode("ascii")
        parent = "" if self._parent is None else f"/StructParent {self._parent}"
        words = text_entry("Contents", self._leads_to())
        area = fp_str(*self._area)
        return f"<</Type/Annot/Subtype/Link/F 4/Border[0 0 0]/Rect[{area}]/Dest{target}{parent}{words}>>".encode()
