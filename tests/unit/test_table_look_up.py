"""Looking up in a table: between entries, at an edge and beyond it, and what is said of how it was looked up."""

from __future__ import annotations

import pytest

from compliance.findings import Standing
from compliance.problems import Place
from compliance.rules.tables import Axis, Looked, Table

HEIGHTS = Axis("wall.height", (2.0, 3.0, 4.0), "larger")
WIDTHS = Axis("pier.width", (1.2, 0.6), "smaller")
CELLS = ((10.0, 8.0), (7.0, 4.0), (None, 1.0))


def table(between: str, columns: Axis | None = WIDTHS, cells: tuple[tuple[float | None, ...], ...] = CELLS) -> Table:
    return Table(
        "t",
        rows=HEIGHTS,
        columns=columns,
        cells=cells,
        kind="thickness",
        between=between,
        standing=Standing.RECALLED,
        source="",
        clause="",
        place=Place("t.yaml"),
    )


@pytest.mark.parametrize(
    ("height", "width", "looked"),
    [
        (2.0, 1.2, Looked(10.0, "row 1 column 1")),
        (2.5, 0.9, Looked(4.0, "row 2 column 2")),  # higher and narrower are worse
        (1.0, 5.0, Looked(10.0, "row 1 column 1")),  # beyond the edges on the better side the last entry stands
        (4.0, 0.6, Looked(1.0, "row 3 column 2")),  # at the edges on the worse side
        (4.0 * (1 + 1e-10), 0.6 * (1 - 1e-10), Looked(1.0, "row 3 column 2")),  # but for the last digits
        (4.001, 1.2, Looked(None, "outside the table's wall.height entries", outside=True)),
        (2.0, 0.599, Looked(None, "outside the table's pier.width entries", outside=True)),
        (5.0, 0.1, Looked(None, "outside the table's wall.height entries", outside=True)),
        (3.5, 1.2, Looked(None, "row 3 column 1", open=True)),
    ],
)
def test_the_next_worse_entry(height: float, width: float, looked: Looked) -> None:
    assert table("next-worse").look_up(height, width) == looked


def test_an_entry_is_met_within_a_billionth() -> None:
    """What calculating leaves of equal heights is no more height; a little beyond that is."""
    assert table("next-worse").look_up(2.0 * (1 + 0.95e-9), 1.2) == Looked(10.0, "row 1 column 1")
    assert table("next-worse").look_up(2.0 * (1 + 1.05e-9), 1.2) == Looked(7.0, "row 2 column 1")


def test_a_word_is_an_entry_or_outside() -> None:
    soils = Table(
        "t",
        rows=Axis("site.soil", ("A", "B")),
        columns=None,
        cells=((3.0,), (5.0,)),
        kind="pressure",
        between="next-worse",
        standing=Standing.RECALLED,
        source="",
        clause="",
        place=Place("t.yaml"),
    )
    assert soils.look_up("A") == Looked(3.0, "row 1") and soils.look_up("B") == Looked(5.0, "row 2")
    assert soils.look_up("C") == Looked(None, "outside the table's site.soil entries", outside=True)


def test_a_straight_line_both_ways() -> None:
    """A quarter up from 2 to 3, a third down from 1.2 to 0.6: 10 − 2/3 and 7 − 1 between the columns, then a quarter
    of the way from 28/3 to 6."""
    looked = table("linear").look_up(2.25, 1.0)
    assert looked.value == pytest.approx(28 / 3 - (28 / 3 - 6) / 4, rel=1e-12)
    assert looked.how == "row 1 and 2 column 2 and 1, straight line between"
    along = table("linear").look_up(2.25, 0.6)
    assert along.value == pytest.approx(7, rel=1e-12) and along.how.startswith("row 1 and 2 column 2,")
    assert table("linear").look_up(3.5, 1.0).open and table("linear").look_up(4.5, 1.0).outside


def test_rows_alone() -> None:
    rows = table("linear", None, ((10.0,), (7.0,), (1.0,)))
    assert rows.look_up(3.0) == Looked(7.0, "row 2")
    assert rows.look_up(3.5) == Looked(4.0, "row 2 and 3, straight line between")
    assert rows.look_up(4.1) == Looked(None, "outside the table's wall.height entries", outside=True)


def test_a_table_with_columns_is_never_read_without_one() -> None:
    with pytest.raises(AssertionError):
        table("next-worse").look_up(2.0)
