"""Table 1 of 14.7.4.8 B NMAC, 2021 edition: wall heights by thickness and S_DS, in all 36 cells and at the edges.

Sections .12 A and .23 A, which were read, send to the table; its figures come from a second-hand copy and were
never read in the regulation (`reported`). The same table stands in the sets on adobe, rammed earth and block.
"""

from __future__ import annotations

import pytest

from tests.published.american import ENGINEER, INCH, MEETS, REVISE, Facts, rules, verdict

SETS = ("nm-14-7-4-adobe", "nm-14-7-4-rammed-earth", "nm-14-7-4-ceb")

# Heights in inches.
THICKNESSES = (10, 12, 14, 16, 18, 24)
ACCELERATIONS = (0.25, 0.30, 0.35, 0.40, 0.45, 0.50)
TABLE_1 = (
    (120, 120, 120, 120, 104, 96),
    (128, 128, 128, 128, 128, 112),
    (144, 144, 144, 144, 144, 136),
    (144, 144, 144, 144, 144, 144),
    (144, 144, 144, 144, 144, 144),
    (144, 144, 144, 144, 144, 144),
)
CELLS = [
    pytest.param(name, t, sds, TABLE_1[row][column], id=f"{name}/{t}-{sds:.2f}")
    for name in SETS
    for row, t in enumerate(THICKNESSES)
    for column, sds in enumerate(ACCELERATIONS)
]


def height(name: str, thickness: str, sds: float, tall: str) -> str:
    given: Facts = {"wall.use": "exterior", "wall.least_thickness": thickness, "site.sds": sds, "wall.height": tall}
    return verdict(name, "wall-height", given)


@pytest.mark.parametrize(("name", "t", "sds", "most"), CELLS)
def test_cell_of_table_1(name: str, t: int, sds: float, most: int) -> None:
    at = (f"{most} in", f"{most * 25.4:.4f} mm")
    assert [height(name, f"{t} in", sds, tall) for tall in at] == [MEETS, MEETS]
    assert height(name, f"{t * 25.4:.4f} mm", sds, f"{most - 0.1} in") == MEETS
    assert height(name, f"{t} in", sds, f"{most + 0.1} in") == REVISE


@pytest.mark.parametrize("name", SETS)
def test_table_1_is_the_copied_one(name: str) -> None:
    table = rules(name)["wall-height"].tables["table_1"]
    assert table.standing.value == "reported" and "second-hand" in table.source
    assert table.rows.entries == tuple(pytest.approx(t * INCH) for t in THICKNESSES)
    assert table.columns is not None and table.columns.entries == ACCELERATIONS
    assert [[round(cell / INCH, 6) for cell in row if cell] for row in table.cells] == [list(row) for row in TABLE_1]


def test_table_1_follows_one_formula() -> None:
    """Each entry is min(cap, 4.8 t / S_DS to the nearest 8 in) with caps 120, 128 and 144 in: no digit is mistyped.

    Worked out here from the entries; the formula is not in the code and proves nothing about the text in force.
    """
    for row, t in enumerate(THICKNESSES):
        cap = {10: 120, 12: 128}.get(t, 144)
        worked = [min(cap, 8 * round(4.8 * t / sds / 8)) for sds in ACCELERATIONS]
        assert worked == list(TABLE_1[row])


def test_table_1_is_no_ratio_of_height_to_thickness() -> None:
    ratios = [cell / t for t, row in zip(THICKNESSES, TABLE_1, strict=True) for cell in row]
    assert (min(ratios), max(ratios)) == (6, 12)


@pytest.mark.parametrize("name", SETS)
def test_edges_of_table_1(name: str) -> None:
    """Between entries the worse one stands; beyond the worse edge an engineer is named, beyond the better the edge."""
    assert [height(name, "11.9 in", 0.41, tall) for tall in ("104 in", "104.1 in")] == [MEETS, REVISE]
    assert [height(name, "9.9 in", 0.25, tall) for tall in ("50 in", "200 in")] == [ENGINEER, ENGINEER]
    assert [height(name, "24 in", 0.501, tall) for tall in ("50 in", "200 in")] == [ENGINEER, ENGINEER]
    assert [height(name, "48 in", 0.05, tall) for tall in ("144 in", "144.1 in")] == [MEETS, REVISE]
    given = {"wall.use": "exterior", "wall.least_thickness": "14 in", "wall.height": "8 ft"}
    assert verdict(name, "wall-height", given) == "missing"
