"""How a laboratory's own tables are to be read: its file, its sheet, its headings, its units."""

from typing import Literal

from pydantic import Field

from compliance.model.base import Described, FilePath, Text


class LabTable(Described):
    """One table. `columns` gives for each of our columns the laboratory's own heading, `units` the unit of a
    column whose heading does not hold it in square brackets, `every_row` what is the same for all specimens.

    `heading_row` and `last_row` are line numbers of the file, from 1, where text stands above or below the table.
    """

    file: FilePath
    sheet: Text | None = None
    heading_row: int | None = Field(default=None, ge=1, le=200_000)
    last_row: int | None = Field(default=None, ge=1, le=1_000_000)
    columns: dict[Text, Text] = Field(default_factory=dict, max_length=30)
    units: dict[Text, Text] = Field(default_factory=dict, max_length=30)
    every_row: dict[Text, Text] = Field(default_factory=dict, max_length=30)


class Lab(Described):
    """The laboratory's tables by kind of test. Tables under lab/ with our own headings need no entry."""

    compression: LabTable | None = None
    rupture: LabTable | None = None
    shrinkage: LabTable | None = None

    def file_of(self, kind: Literal["compression", "rupture", "shrinkage"]) -> str:
        """The file in which rows of a kind of test are looked for first."""
        table: LabTable | None = getattr(self, kind)
        return table.file if table else own_table(kind)


def own_table(kind: str) -> str:
    """The file of the project folder that holds a kind of test under our own headings."""
    return f"lab/{kind}.csv"
