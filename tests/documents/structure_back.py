"""The logical structure of a written PDF as pikepdf reads it, with what is marked on its pages.

After ISO 32000-1, 14.6 (marked content), 14.7.2 (the tree), 14.7.4 (content items and the parent tree) and 14.8.4 (the
standard kinds of elements); recalled.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import pikepdf

SHOW_TEXT = frozenset(("Tj", "TJ", "'", '"'))
PAINT = SHOW_TEXT | frozenset(("S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "INLINE IMAGE"))
STANDARD = frozenset(("Document", "H1", "H2", "H3", "P", "Table", "TR", "TH", "TD", "Link", "Form", "Figure"))
"""Those of the standard kinds that are used."""

Mark = tuple[int, int]
"""Page, from 0, and number."""


@dataclass
class Element:
    kind: str
    parent: Element | None
    entries: Any
    marks: list[Mark] = field(default_factory=list)
    notes: list[tuple[int, int]] = field(default_factory=list)
    kids: list[Element] = field(default_factory=list)

    def text(self, name: str) -> str:
        return str(self.entries.get(f"/{name}", ""))


@dataclass
class Page:
    """`painted` counts by mark what is painted, `shown` what of it is text; `bare` is what stands in no sequence."""

    key: int | None
    painted: Counter[int] = field(default_factory=Counter)
    shown: Counter[int] = field(default_factory=Counter)
    bare: list[str] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)
    notes: list[Any] = field(default_factory=list)


@dataclass
class Tagged:
    """`elements` in the order of reading; `owners` by the keys of the parent tree, elements named by their objects."""

    pdf: pikepdf.Pdf
    root: Any
    elements: list[Element]
    owners: dict[int, Any]
    pages: list[Page]

    def of_kind(self, *kinds: str) -> list[Element]:
        return [one for one in self.elements if one.kind in kinds]


@cache
def tagged(path: Path) -> Tagged:
    pdf = pikepdf.open(path)
    indexes = {page.obj.objgen: index for index, page in enumerate(pdf.pages)}
    root = pdf.Root.StructTreeRoot
    elements = list(_walked(root.K, None, indexes))
    numbers = list(root.ParentTree.Nums)
    keys = [int(one) for one in numbers[::2]]
    assert keys == sorted(set(keys)) and all(key < root.ParentTreeNextKey for key in keys)
    owners = dict(zip(keys, numbers[1::2], strict=True))
    return Tagged(pdf, root=pdf.Root, elements=elements, owners=owners, pages=[_page(page) for page in pdf.pages])


def _walked(one: Any, parent: Element | None, indexes: dict[tuple[int, int], int]) -> Iterator[Element]:
    assert parent is None or one.P.objgen == parent.entries.objgen, "an element names another parent"
    element = Element(str(one.S)[1:], parent, one)
    if parent:
        parent.kids.append(element)
    yield element
    kids = one.get("/K", [])
    for kid in kids if isinstance(kids, (list, pikepdf.Array)) else [kids]:
        if isinstance(kid, int):
            element.marks.append((indexes[one.Pg.objgen], kid))
        elif kid.get("/Type") == "/MCR":
            element.marks.append((indexes[kid.Pg.objgen], int(kid.MCID)))
        elif kid.get("/Type") == "/OBJR":
            element.notes.append(kid.Obj.objgen)
        else:
            yield from _walked(kid, element, indexes)


def _page(page: pikepdf.Page) -> Page:
    entries: Any = page.obj
    found = Page(entries.get("/StructParents"), notes=list(entries.get("/Annots", [])))
    open_ones: list[int | None] = []  # of each sequence the mark, None for decoration
    text_objects: list[int] = []  # how many sequences were open where the text object began
    for one in pikepdf.parse_content_stream(page):
        name = str(one.operator)
        if name in ("BDC", "BMC"):
            if open_ones:
                found.faults.append("a sequence within another")
            open_ones.append(_mark(one.operands))
        elif name == "EMC":
            open_ones.pop()
            if text_objects and len(open_ones) < text_objects[-1]:
                found.faults.append("a sequence that ends within a text object it did not begin in")
        elif name == "BT":
            text_objects.append(len(open_ones))
        elif name == "ET" and text_objects.pop() != len(open_ones):
            found.faults.append("a text object that ends within a sequence it did not begin in")
        if name not in PAINT:
            continue
        if not open_ones:
            found.bare.append(name)
        elif open_ones[-1] is not None:
            found.painted[open_ones[-1]] += 1
            found.shown[open_ones[-1]] += name in SHOW_TEXT
    if open_ones or text_objects:
        found.faults.append("a sequence or text object without an end")
    return found


def _mark(operands: Any) -> int | None:
    kind = str(operands[0])[1:]
    if kind == "Artifact":
        return None
    assert kind in STANDARD
    return int(operands[1].MCID)
