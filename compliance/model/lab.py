"""How a laboratory's own tables are to be read: its file, its sheet, its headings, its units."""

from typing import Annotated, Literal

from pydantic import Field, StringConstraints

from compliance.model.base import Described, FilePath, Text, no_items

DateOrder = Literal["month/day/year", "day/month/year", "month-day-year", "day-month-year", "day.month.year"]
"""Orders in which a table may write its days; year-month-day is always read."""
CellRange = Annotated[str, StringConstraints(pattern=r"^[A-Z]{1,3}[1-9][0-9]{0,6}:[A-Z]{1,3}[1-9][0-9]{0,6}$")]


class LabTable(Described):
    """One table. `columns` gives for each of our columns the laboratory's own heading, `units` the unit of a
    column whose heading does not hold it in square brackets, `every_row` what is the same for all specimens.

    `heading_row` and `last_row` are line numbers of the file, from 1, where text stands above or below the table;
    `cells` gives both, and the first and last column, as a spreadsheet names them: A5:H20. `dates` is the order of days
    that are not written year-month-day, `decimal` the sign before the decimals, `thousands` the mark between thousands.
    """

    file: FilePath
    sheet: Text | None = None
    heading_row: int | None = Field(default=None, ge=1, le=200_000)
    last_row: int | None = Field(default=None, ge=1, le=1_000_000)
    cells: CellRange | None = None
    dates: DateOrder | None = None
    decimal: Literal["point", "comma"] = "point"
    thousands: Literal["comma", "point", "blank", "apostrophe"] | None = None
    columns: dict[Text, Text] = Field(default_factory=dict, max_length=30)
    units: dict[Text, Text] = Field(default_factory=dict, max_length=30)
    every_row: dict[Text, Text] = Field(default_factory=dict, max_length=30)


class FurtherTable(LabTable):
    """One more table of a kind of test."""

    kind: Literal["compression", "rupture", "shrinkage"]


class Lab(Described):
    """The laboratory's tables by kind of test, and `more` of them where a kind has several. Tables under lab/ with our
    own headings need no entry."""

    compression: LabTable | None = None
    rupture: LabTable | None = None
    shrinkage: LabTable | None = None
    more: list[FurtherTable] = Field(default_factory=no_items, max_length=100)

    def tables_of(self, kind: str) -> list[tuple[tuple[str | int, ...], LabTable]]:
        """The tables of a kind of test, each with its path below `lab`."""
        first: LabTable | None = getattr(self, kind)
        found: list[tuple[tuple[str | int, ...], LabTable]] = [((kind,), first)] if first else []
        return found + [(("more", index), one) for index, one in enumerate(self.more) if one.kind == kind]

    def file_of(self, kind: Literal["compression", "rupture", "shrinkage"]) -> str:
        """The file in which rows of a kind of test are looked for first."""
        tables = self.tables_of(kind)
        return tables[0][1].file if tables else own_table(kind)


def own_table(kind: str) -> str:
    """The file of the project folder that holds a kind of test under our own headings."""
    return f"lab/{kind}.csv"
