"""The columns of a set's table: those of the lab, what follows from them, the lab's own; and which of them fit."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence

from compliance.documents.earth.printed_inputs import choose_decimals, kind_of_result, same_unit
from compliance.documents.elements import theme
from compliance.documents.elements.theme import Style
from compliance.documents.page.column_widths import longest_word
from compliance.documents.page.faces import text_width
from compliance.documents.page.rows import GAP
from compliance.facts.specimens.specimen_results import age_in_days, density, measured, slenderness
from compliance.model.lab_columns import COLUMNS, LabColumn
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import FIELDS, Specimen
from compliance.record import record, replace
from compliance.units import Writer

SMALL_CELL = replace(theme.CELL, size=8.0, leading=10.0)
SMALL_HEADING = replace(theme.HEADING, size=8.0, leading=9.4)
_WIDEST_TEXT = 84.0
"""Points; a longer text stands under its row."""
_WORDS, _FIGURES, _COMPUTED, _INPUTS, _RESULT = range(5)


@record
class Field:
    """A column: its title, the unit of its figures, the text for each specimen ("" for nothing). Of fields that do not
    fit side by side, those of the lowest `rank` go below first. `added`: the lab's own, called as the lab calls it."""

    title: str
    texts: tuple[str, ...]
    unit: str = ""
    right: bool = True
    rank: int = _FIGURES
    added: bool = False

    @property
    def heading(self) -> str:
        return f"{self.title}, {self.unit}" if self.unit else self.title

    @property
    def common(self) -> str:
        """The word or day that all specimens share; "" where they differ or figures stand here."""
        alike = not self.right and len(self.texts) > 1 and len(set(self.texts)) == 1
        return self.texts[0] if alike else ""

    def text_of(self, index: int) -> str:
        """Title, figure and unit of one specimen, for a line of text; "" where nothing stands here."""
        text = self.texts[index]
        called = f"{self.title}:" if self.added else self.title.lower()
        return f"{called} {text} {self.unit}".rstrip() if text else ""


@record
class Arrangement:
    """Which fields stand side by side, which are said once for all specimens, which go in a line below each row."""

    columns: tuple[Field, ...]
    common: tuple[Field, ...]
    below: tuple[Field, ...]
    cell: Style = theme.CELL
    heading: Style = theme.HEADING


def fields_of(kind: SpecimenKind, specimens: Sequence[Specimen], writer: Writer) -> list[Field]:
    """Every column in which something stands: the lab tables' own, what follows from them, then the lab's."""
    decimals = choose_decimals(kind, specimens, writer)
    fields = [
        field
        for column in COLUMNS[kind].values()
        if column.printed == "column"
        for field in _with_age(column, specimens, decimals, writer)
    ]
    if kind != "shrinkage":
        fields += [_computed("h/b", kind="ratio", compute=slenderness, specimens=specimens, writer=writer)]
        fields += [_computed("Density", kind="density", compute=density, specimens=specimens, writer=writer)]
    result = _computed(
        "Result", kind=kind_of_result(kind), compute=lambda one: measured(one).value, specimens=specimens, writer=writer
    )
    fields.append(replace(result, rank=_RESULT))
    fields += [Field(name, tuple(one.extra.get(name, "") for one in specimens), right=False, rank=_WORDS, added=True)
               for name in dict.fromkeys(name for one in specimens for name in one.extra)]  # fmt: skip
    return [field for field in fields if any(field.texts)]


def _with_age(
    column: LabColumn, specimens: Sequence[Specimen], decimals: Mapping[str, int], writer: Writer
) -> Iterator[Field]:
    texts = tuple(_text(column, one, decimals, writer) for one in specimens)
    if column.kind is None:
        rank = _WORDS if column.what == "text" else _FIGURES
        yield Field(column.title, texts, right=False, rank=rank)
    else:
        rank = _INPUTS if column.name in FIELDS else _FIGURES
        yield Field(column.title, texts, writer.unit_symbol(column.what), rank=rank)
    if column.name == "tested":
        ages = tuple("" if (age := age_in_days(one)) is None else f"{age}" for one in specimens)
        yield Field("Age", ages, "days", rank=_COMPUTED)


def _text(column: LabColumn, one: Specimen, decimals: Mapping[str, int], writer: Writer) -> str:
    """As the lab wrote it where it works in the same unit, otherwise converted."""
    value = one.value(column.name)
    if value is None:
        return ""
    if not isinstance(value, float):
        return str(value)
    if same_unit(column, one, writer):
        return one.texts[column.name]
    return f"{writer.number(value, column.what):.{decimals[column.name]}f}"


def _computed(
    title: str,
    kind: str,
    compute: Callable[[Specimen], float | None],
    specimens: Sequence[Specimen],
    writer: Writer,
) -> Field:
    values = [compute(one) for one in specimens]
    texts = tuple("" if value is None else writer.write_bare(value, kind) for value in values)
    return Field(title, texts, writer.unit_symbol(kind), rank=_COMPUTED)


def arrange(fields: Sequence[Field], marks: Sequence[str], room: float) -> Arrangement:
    """The fields so that no word and no figure is wider than its column in `room` points.

    Tried in this order: all side by side; words and days that all specimens share said once; smaller letters; fields
    moved to a line below each row, the least needed first.
    """
    long = [one for one in fields if one.rank == _WORDS and _longest_line(one) > _WIDEST_TEXT]
    columns = [one for one in fields if one not in long]
    first = Arrangement(tuple(columns), (), tuple(long))
    if _fits(first, marks, room):
        return first
    common = tuple(one for one in fields if one.common)
    columns = [one for one in columns if not one.common]
    below = [one for one in long if not one.common]
    for cell, heading in ((theme.CELL, theme.HEADING), (SMALL_CELL, SMALL_HEADING)):
        tried = Arrangement(tuple(columns), common=common, below=tuple(below), cell=cell, heading=heading)
        if _fits(tried, marks, room):
            return tried
    while len(columns) > 1 and not _fits(tried, marks, room):
        least = min(range(len(columns)), key=lambda index: (columns[index].rank, -index))
        below.append(columns.pop(least))
        ordered = tuple(one for one in fields if one in below)
        tried = Arrangement(tuple(columns), common=common, below=ordered, cell=SMALL_CELL, heading=SMALL_HEADING)
    return tried


def _longest_line(field: Field) -> float:
    return max(text_width(text, theme.CELL.face, theme.CELL.size) for text in field.texts)


def _longest_word(field: Field, style: Style) -> float:
    return max(longest_word(text, style) for text in field.texts)


def _fits(arrangement: Arrangement, marks: Sequence[str], room: float) -> bool:
    bold = replace(theme.CELL_BOLD, size=arrangement.cell.size)
    widths = [max(longest_word("Specimen", arrangement.heading), *(longest_word(mark, bold) for mark in marks))]
    widths += [
        max(longest_word(one.heading, arrangement.heading), _longest_word(one, arrangement.cell))
        for one in arrangement.columns
    ]
    return math.fsum(widths) + 2 * GAP * len(widths) <= room
