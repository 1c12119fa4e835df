"""The table of a set of specimens: whatever columns it has, no figure and no word of it is broken."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.documents.earth.specimen_columns import Arrangement, Field, arrange, fields_of
from compliance.documents.earth.specimen_table import specimen_sheet
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.book import Book
from compliance.documents.page.column_widths import columns_fitted
from compliance.documents.page.document_head import head_of
from compliance.documents.page.rows import Column, Row, cell
from compliance.model.lab_columns import LabColumn
from compliance.units import Writer
from tests.added_columns import ADDED, MORE, add_columns, folder_with_added
from tests.documents.reading_back import Read, overlapping, read_back

OWN = (
    ("frame", "east"),
    ("Serial number of the testing machine", "MTS-20417"),
    ("unusuallyLongHeadingWithoutAnyBlank", "118.4375"),
)
CASES: dict[str, tuple[Sequence[LabColumn], Sequence[tuple[str, str]]]] = {
    "as it is": ((), ()),
    "one more": (ADDED[1:2], ()),
    "three more": (ADDED, ()),
    "six more": ((*ADDED, *MORE), ()),
    "six more and three of the lab": ((*ADDED, *MORE), OWN),
}


def written(folder: Path, units: str, path: Path) -> tuple[Arrangement, list[Field], Read]:
    made = check_folder(folder)
    writer = Writer("si" if units == "si" else "us")
    specimens = made.specimens["T1"]
    paper = PAPERS[made.project.project.paper]
    sheet = specimen_sheet(made, mark="T1", kind="compression", specimens=specimens, writer=writer, lead=[])
    Book(head_of(made, "specimens", "Specimens"), paper, covered=False).write([sheet], path)
    fields = fields_of("compression", specimens, writer)
    return arrange(fields, [one.mark for one in specimens], paper.body_width), fields, read_back(path)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("case", CASES)
def test_no_figure_and_no_word_is_broken(
    case: str, units: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Each word that goes into the table stands on the page at least as often as it goes in."""
    added, own = CASES[case]
    add_columns(monkeypatch, added)
    found, fields, read = written(folder_with_added(tmp_path / "house", added, own, units), units, tmp_path / "t.pdf")
    expected: Counter[str] = Counter()
    for field in fields:
        texts = field.texts[:1] if field in found.common else field.texts
        expected.update(word for text in texts for word in text.split())
        if field in found.columns:
            expected.update(re.findall(r"\S+", field.heading))
    shown = Counter(word.rstrip(".;,") for word in read.text.split())
    shown.update(word for word in read.text.split() if word[-1] in ".;,")
    lacking = {word: (count, shown[word]) for word, count in expected.items() if shown[word] < count}
    assert not lacking
    assert {*(one.title for one in added), *(name for name, _ in own)} - {"Soaked on"} <= {one.title for one in fields}
    for page, (boxes, size) in enumerate(zip(read.boxes, read.sizes, strict=True)):
        assert not overlapping(boxes), page
        assert all(left >= 50 and right <= size[0] - 50 for left, _, right, _ in boxes), page


def test_every_field_stands_in_one_place(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    added, own = CASES["six more and three of the lab"]
    add_columns(monkeypatch, added)
    found, fields, _ = written(folder_with_added(tmp_path / "house", added, own), "us", tmp_path / "t.pdf")
    assert sorted([*found.columns, *found.common, *found.below], key=str) == sorted(fields, key=str)
    assert {"Width", "Depth", "Peak load", "Result"} <= {one.title for one in found.columns}
    assert {one.title for one in found.below} >= {name for name, _ in OWN[1:]}
    assert "Operator" in {one.title for one in found.common}


def field(title: str, *texts: str, rank: int = 1, right: bool = True) -> Field:
    return Field(title, texts, rank=rank, right=right)


def test_what_fits_stays_as_it_is() -> None:
    fields = [field("Width", "4.02", "4.01"), field("Shape", "prism", "prism", right=False)]
    assert arrange(fields, ["T1", "T2"], 400.0) == Arrangement(tuple(fields), (), ())


def test_shared_words_are_said_once_before_letters_shrink_and_fields_go_below() -> None:
    shape = field("Shape", "prism", "prism", right=False)
    fields = [*(field(f"Measured{n}", "1234567", "7654321", rank=n % 3 + 1) for n in range(8)), shape]
    marks = ["T1", "T2"]
    wide = arrange(fields, marks, 1000.0)
    assert wide.columns == tuple(fields)
    steps = [arrange(fields, marks, room) for room in range(500, 60, -5)]
    assert steps[-1].common == (shape,) and steps[-1].below and steps[-1].cell.size < wide.cell.size
    for before, after in pairwise(steps):
        assert len(before.columns) >= len(after.columns) and before.cell.size >= after.cell.size
    least = next(one for one in steps if one.below).below
    assert [one.rank for one in least] == [1] * len(least)


def test_in_too_little_room_long_words_are_broken_before_figures() -> None:
    """Widths as widest words ask for, but for the widest column, which gives way."""
    rows = [Row((cell("x" * 200), cell("2140"), cell("133.8")))]
    wide, load, strength = columns_fitted([Column(natural=True)] * 3, 200.0, rows)
    alone = columns_fitted([Column(natural=True)] * 2, 1.0, [Row((cell("2140"), cell("133.8")))])
    assert wide + load + strength == pytest.approx(200.0)
    assert load > 20 and strength > 22 and wide > 140
    assert sum(alone) == pytest.approx(1.0)
