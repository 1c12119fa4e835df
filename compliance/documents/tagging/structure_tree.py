"""The logical structure of a document: which parts of its pages are headings, paragraphs, cells and pictures, in the
order they are read.

ISO 32000-1, 14.7 (logical structure) and 14.8 (the standard kinds of elements), recalled.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from compliance.record import record

Kind = Literal["P", "H1", "H2", "H3", "H4", "Table", "TR", "TH", "TD", "Link", "Form"]
"""What `Structure.new` makes. A figure is made by `Structure.figure` alone, which asks what it shows."""
_HEADINGS: tuple[Kind, ...] = ("H1", "H2", "H3", "H4")


@record
class Note:
    """A link or a form field of a page, by the name of its annotation."""

    name: str


@dataclass(slots=True, eq=False)
class Element:
    """`kids` are other elements, what is marked with a number on the page with the index `page`, or with a page and
    number on another, and notes. `entries` are further entries of its dictionary, as they are written."""

    kind: str
    parent: Element | None
    entries: str = ""
    page: int = -1
    kids: list[int | tuple[int, int] | Element | Note] = field(default_factory=list)
    number: int = 0


class Structure:
    """The structure of one document, built while its pages are drawn. `page` is the index of the page at hand."""

    def __init__(self) -> None:
        self.page = 0
        self.document = Element("Document", None)
        self._elements = [self.document]
        self._parents: list[list[Element] | Element] = []
        """By key: of each page the elements of its numbered marks, of each note the element it belongs to."""
        self._key: int | None = None

    def new(self, kind: Kind, parent: Element, entries: str = "") -> Element:
        return self._added(Element(kind, parent, entries), parent)

    def figure(self, parent: Element, alt: str, box: tuple[float, float, float, float]) -> Element:
        """`alt` says in words what it shows; `box` is left, bottom, right and top on the page, in points. Raises
        ValueError for no words."""
        if not alt.strip():
            raise ValueError("a figure says in words what it shows")
        edges = " ".join(f"{one:.1f}" for one in box)
        entries = f"{text_entry('Alt', alt)}/A<</O/Layout/Placement/Block/BBox[{edges}]>>"
        return self._added(Element("Figure", parent, entries), parent)

    def heading(self, parent: Element, title: str, level: int) -> Element:
        """A heading of the level of its bookmark, 0 the highest, with the words of the bookmark."""
        return self.new(_HEADINGS[level], parent, text_entry("T", title))

    def _added(self, element: Element, parent: Element) -> Element:
        parent.kids.append(element)
        self._elements.append(element)
        return element

    def mark(self, element: Element) -> int:
        """The number under which what is drawn next on the page belongs to `element`."""
        if self._key is None:
            self._key = len(self._parents)
            self._parents.append([])
        marked = self._parents[self._key]
        assert isinstance(marked, list)
        number = len(marked)
        marked.append(element)
        if element.page < 0:
            element.page = self.page
        element.kids.append(number if element.page == self.page else (self.page, number))
        return number

    def unmark(self, element: Element) -> None:
        """Take back the last mark, under which nothing was drawn."""
        assert self._key is not None
        marked = self._parents[self._key]
        assert isinstance(marked, list) and marked[-1] is element
        marked.pop()
        number = len(marked)
        element.kids.remove(number if element.page == self.page else (self.page, number))

    def note(self, element: Element, name: str) -> int:
        """The key under which the annotation `name` of this page is found."""
        if element.page < 0:
            element.page = self.page
        element.kids.append(Note(name))
        self._parents.append(element)
        return len(self._parents) - 1

    def end_page(self) -> int | None:
        """The key of the page that ends here, None where nothing was marked on it."""
        key, self._key = self._key, None
        self.page += 1
        return key

    def objects(
        self, root: int, first: int, pages: Sequence[int], note: Callable[[str], int]
    ) -> list[tuple[int, bytes]]:
        """The root under its number, then all else numbered from `first`. `pages` are the numbers of the page objects,
        `note` gives that of an annotation."""
        for number, element in enumerate(self._elements, start=first):
            element.number = number
        parents = first + len(self._elements)
        written = [(one.number, _element(one, root, pages, note)) for one in self._elements]
        tree = f"<</Type/StructTreeRoot/K {first} 0 R/ParentTree {parents} 0 R/ParentTreeNextKey {len(self._parents)}>>"
        return [(root, tree.encode()), *written, (parents, self._parent_tree())]

    def _parent_tree(self) -> bytes:
        rows = [
            f"{key} {one.number} 0 R" if isinstance(one, Element) else f"{key}[{_references(one)}]"
            for key, one in enumerate(self._parents)
        ]
        return f"<</Nums[{' '.join(rows)}]>>".encode()


def _references(elements: Sequence[Element]) -> str:
    return " ".join([f"{one.number} 0 R" for one in elements])


def _element(one: Element, root: int, pages: Sequence[int], note: Callable[[str], int]) -> bytes:
    parent = one.parent.number if one.parent else root
    page = f"/Pg {pages[one.page]} 0 R" if one.page >= 0 else ""
    kids = [
        str(kid) if isinstance(kid, int)
        else f"{kid.number} 0 R" if isinstance(kid, Element)
        else f"<</Type/OBJR/Obj {note(kid.name)} 0 R>>" if isinstance(kid, Note)
        else f"<</Type/MCR/Pg {pages[kid[0]]} 0 R/MCID {kid[1]}>>"
        for kid in one.kids
    ]  # fmt: skip
    inside = f"/K {kids[0]}" if len(kids) == 1 else f"/K[{' '.join(kids)}]" if kids else ""
    return f"<</S/{one.kind}/P {parent} 0 R{page}{one.entries}{inside}>>".encode()


def text_entry(name: str, text: str) -> str:
    """An entry that holds a text, for `Element.entries`."""
    if text.isascii() and text.isprintable():
        plain = text.replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
        return f"/{name}({plain})"
    return f"/{name}<FEFF{text.encode('utf-16-be').hex().upper()}>"
