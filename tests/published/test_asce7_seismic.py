"""Site coefficients, design accelerations and categories of ASCE 7 against printed reports and worked examples.

Sources, each read on the page named:
- USGS Design Maps detailed reports (ASCE 7-10): lfweb.sjgov.org/EHD/0/doc/704053 pages 141, 145, 227, 231 and
  559265 pages 448, 452; publicdocs.santa-ana.org/WebLink/1/doc/110043 page 349.
- 2012 IBC Table 1613.3.3 in pddfiles.eugene-or.gov/PDDDocumentViewer/0/doc/1264837 page 39.
- Geotechnical reports by the 2019 and 2022 CBC (ASCE 7-16): cc-publicdocs.santa-ana.org/WebLink/1/doc/139372 page
  821; publicdocs.santa-ana.org/BuildingWeblink/0/doc/549228 page 214 and 380892 page 29.
- Taly, Design of Reinforced Masonry Structures, example 6.1 (ASCE 7-05), pages 384 and 385 of the electronic copy.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from compliance.facts.site.seismic_category import AsceCategories, asce_category
from compliance.facts.site.seismic_site import GroundMotion, SiteTables, ground_motion

FOLDER = Path(__file__).parents[2] / "rulesets" / "reference"
PRINTED = 0.001 + 1e-9  # the reports print three decimals, of their results and of the accelerations they start from


def values(name: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.safe_load((FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))
    return loaded["values"]  # type: ignore[no-any-return]


OLD, NEW = (SiteTables.from_values(values(name)) for name in ("asce7-10-seismic", "asce7-16-seismic"))
OLD_CATEGORIES, NEW_CATEGORIES = (
    AsceCategories.from_values(values(name)) for name in ("asce7-10-seismic", "asce7-16-seismic")
)


def agrees(motion: GroundMotion, **printed: float) -> None:
    for name, number in printed.items():
        assert getattr(motion, name) == pytest.approx(number, abs=PRINTED), name


def sd1(fv: float, s1: float) -> float:
    return 2 / 3 * fv * s1


@pytest.mark.parametrize(
    ("ss", "s1", "site_class", "printed"),
    [
        (0.970, 0.348, "D", {"fa": 1.112, "sds": 0.719, "fv": 1.704, "sd1": 0.395}),  # 704053 pages 227, 231
        (0.970, 0.348, "E", {"fa": 0.935, "sds": 0.605, "sd1": 0.605}),  # 704053 pages 141, 145
        (0.943, 0.344, "D", {"fa": 1.123, "fv": 1.712, "sds": 0.706, "sd1": 0.392}),  # 559265 pages 448, 452
        (0.762, 0.400, "D", {"fa": 1.195, "fv": 1.600}),  # 2012 IBC report, Eugene
    ],
)
def test_reports_of_the_usgs(ss: float, s1: float, site_class: str, printed: dict[str, float]) -> None:
    motion = ground_motion(ss, s1=s1, site_class=site_class, measured=True, tables=OLD)
    agrees(motion, **printed)
    if "sds" in printed:
        assert asce_category(motion.sds, sd1=motion.sd1, s1=s1, risk="I", tables=OLD_CATEGORIES).name == "D"


def test_fv_of_class_e_is_a_slip_of_the_scan() -> None:
    """Page 141 reads 2.808 in the scanned text. Its own S_D1 of 0.605 needs 2.608, which is what the table gives."""
    motion = ground_motion(0.970, s1=0.348, site_class="E", measured=True, tables=OLD)
    assert motion.fv == pytest.approx(2.608, abs=1e-9)
    assert sd1(2.608, 0.348) == pytest.approx(0.605, abs=PRINTED)
    assert sd1(2.808, 0.348) == pytest.approx(0.651, abs=PRINTED)


@pytest.mark.parametrize(
    ("ss", "s1", "measured", "printed"),
    [
        (1.288, 0.459, True, {"fa": 1.0, "fv": 1.841, "sms": 1.288, "sm1": 0.845, "sds": 0.858, "sd1": 0.56333}),
        (1.284, 0.458, True, {"fa": 1.0, "fv": 1.842, "sms": 1.284, "sm1": 0.844, "sds": 0.856, "sd1": 0.562}),
        # Class not measured. S_M1 and S_D1 of this report are left out, see test_a_report_that_rounds_fv_down.
        (1.319, 0.470, False, {"fa": 1.2, "sms": 1.583, "sds": 1.055}),
    ],
)
def test_geotechnical_reports_by_asce_7_16(ss: float, s1: float, measured: bool, printed: dict[str, float]) -> None:
    motion = ground_motion(ss, s1=s1, site_class="D", measured=measured, tables=NEW)
    agrees(motion, **printed)
    assert asce_category(motion.sds, sd1=motion.sd1, s1=s1, risk="II", tables=NEW_CATEGORIES).name == "D"
    assert any("11.4.8" in remark for remark in motion.remarks)


def test_a_report_that_rounds_fv_down() -> None:
    """Report 380892 prints Fv 1.8, S_M1 0.846, S_D1 0.564 for S1 0.47; the table gives 1.83, 0.860, 0.573."""
    motion = ground_motion(1.319, s1=0.470, site_class="D", measured=False, tables=NEW)
    assert motion.fv == pytest.approx(1.83)
    assert motion.sd1 == pytest.approx(0.5734, abs=0.00005)
    assert sd1(1.8, 0.470) == pytest.approx(0.564, abs=PRINTED)


def test_worked_example_of_taly() -> None:
    """Example 6.1: Ss 150 %g, S1 90 %g, site class unknown, category III: S_DS 1.0 (page 385)."""
    motion = ground_motion(1.50, s1=0.90, site_class=None, measured=False, tables=OLD)
    assert motion.site_class == "D"
    assert motion.sds == pytest.approx(1.0)
    assert "Site class not given" in motion.remarks[0]
    assert asce_category(motion.sds, sd1=motion.sd1, s1=0.90, risk="III", tables=OLD_CATEGORIES).name == "E"
    assert asce_category(motion.sds, sd1=motion.sd1, s1=0.90, risk="IV", tables=OLD_CATEGORIES).name == "F"


BELOW = 1e-6
ROWS = (("I", "ABCD"), ("II", "ABCD"), ("III", "ABCD"), ("IV", "ACDD"))


@pytest.mark.parametrize("tables", [OLD_CATEGORIES, NEW_CATEGORIES])
@pytest.mark.parametrize(("risk", "names"), ROWS)
def test_categories_at_the_exact_edges(tables: AsceCategories, risk: str, names: str) -> None:
    """Tables 11.6-1 and 11.6-2 as printed on page 349: a value at a bound belongs to the row above it."""
    for edges, by_sds in (((0.167, 0.33, 0.50), True), ((0.067, 0.133, 0.20), False)):
        for place, edge in enumerate(edges):
            for value, expected in ((edge, names[place + 1]), (edge - BELOW, names[place])):
                sds, sd1 = (value, 0.0) if by_sds else (0.0, value)
                assert asce_category(sds, sd1=sd1, s1=0.0, risk=risk, tables=tables).name == expected


def test_the_worse_of_the_two_tables_and_the_near_fault_rule() -> None:
    assert asce_category(0.20, sd1=0.25, s1=0.20, risk="II", tables=OLD_CATEGORIES).name == "D"
    assert asce_category(0.60, sd1=0.05, s1=0.05, risk="II", tables=OLD_CATEGORIES).name == "D"
    assert asce_category(0.60, sd1=0.60, s1=0.75, risk="II", tables=OLD_CATEGORIES).name == "E"
    assert asce_category(0.60, sd1=0.60, s1=0.75 - BELOW, risk="II", tables=OLD_CATEGORIES).name == "D"
    assert asce_category(0.985, sd1=0.540, s1=0.60, risk="I", tables=OLD_CATEGORIES).name == "D"  # printed on page 349


# Tables 11.4-1 and 11.4-2 of ASCE 7-10 as the report on page 141 prints them, and of ASCE 7-16 as public copies
# agree on them and as remembered. A dash is a cell that sends the reader to a study of the site.
PRINTED_TABLES = {
    "7-10 Fa": "0.25 0.50 0.75 1.00 1.25 | A .8 .8 .8 .8 .8 | B 1 1 1 1 1 | C 1.2 1.2 1.1 1 1 | D 1.6 1.4 1.2 1.1 1 | "
    "E 2.5 1.7 1.2 .9 .9 | F - - - - -",
    "7-10 Fv": "0.1 0.2 0.3 0.4 0.5 | A .8 .8 .8 .8 .8 | B 1 1 1 1 1 | C 1.7 1.6 1.5 1.4 1.3 | D 2.4 2 1.8 1.6 1.5 | "
    "E 3.5 3.2 2.8 2.4 2.4 | F - - - - -",
    "7-16 Fa": "0.25 0.5 0.75 1 1.25 1.5 | A .8 .8 .8 .8 .8 .8 | B .9 .9 .9 .9 .9 .9 | C 1.3 1.3 1.2 1.2 1.2 1.2 | "
    "D 1.6 1.4 1.2 1.1 1 1 | E 2.4 1.7 1.3 - - - | F - - - - - -",
    "7-16 Fv": "0.1 0.2 0.3 0.4 0.5 0.6 | A .8 .8 .8 .8 .8 .8 | B .8 .8 .8 .8 .8 .8 | C 1.5 1.5 1.5 1.5 1.5 1.4 | "
    "D 2.4 2.2 2 1.9 1.8 1.7 | E 4.2 - - - - - | F - - - - - -",
}


@pytest.mark.parametrize("name", PRINTED_TABLES)
def test_every_cell_of_the_tables(name: str) -> None:
    tables = OLD if name.startswith("7-10") else NEW
    table = tables.fa if name.endswith("Fa") else tables.fv
    head, *rows = (part.split() for part in PRINTED_TABLES[name].split("|"))
    assert set(table.rows) == {row[0] for row in rows}
    assert table.columns == tuple(map(float, head))
    for site_class, *cells in rows:
        for column, cell in zip(map(float, head), cells, strict=True):
            assert table.at(site_class, column) == (None if cell == "-" else float(cell)), (site_class, column)
        ends = (table.at(site_class, 0.0), table.at(site_class, 9.0))
        assert ends == (table.at(site_class, float(head[0])), table.at(site_class, float(head[-1])))


def test_class_not_measured_in_asce_7_16() -> None:
    """2021 IBC sections 1613.2.2 and 1613.2.3: B without velocities takes 1.0, default D no less than 1.2 for Fa."""
    assert ground_motion(1.4, s1=0.5, site_class="D", measured=False, tables=NEW).fa == pytest.approx(1.2)
    assert ground_motion(1.4, s1=0.5, site_class="D", measured=True, tables=NEW).fa == pytest.approx(1.0)
    assert ground_motion(0.3, s1=0.1, site_class="D", measured=False, tables=NEW).fa == pytest.approx(1.56)
    rock = ground_motion(0.5, s1=0.2, site_class="B", measured=False, tables=NEW)
    assert (rock.fa, rock.fv) == (1.0, 1.0)
    assert ground_motion(1.4, s1=0.5, site_class=None, measured=True, tables=NEW).fa == pytest.approx(1.2)
    assert ground_motion(1.4, s1=0.5, site_class="D", measured=False, tables=OLD).fa == pytest.approx(1.0)


def test_where_asce_7_16_asks_for_a_site_study() -> None:
    """Section 11.4.8: class D from S1 0.2; class E from Ss 1.0 or S1 0.2 (uec-journal 2020, page 28)."""
    assert not ground_motion(1.0, s1=0.2 - BELOW, site_class="D", measured=True, tables=NEW).remarks
    assert ground_motion(1.0, s1=0.2, site_class="D", measured=True, tables=NEW).remarks
    soft = ground_motion(1.0, s1=0.05, site_class="E", measured=True, tables=NEW)
    assert soft.sds is None and soft.sd1 is not None
    assert "site study" in soft.missing[0] and len(soft.remarks) == 1
    assert not ground_motion(1.0, s1=0.5, site_class="D", measured=True, tables=OLD).remarks


@pytest.mark.parametrize("tables", [OLD, NEW])
def test_class_f_and_blank_cells_have_no_value(tables: SiteTables) -> None:
    loose = ground_motion(0.4, s1=0.1, site_class="F", measured=True, tables=tables)
    assert (loose.fa, loose.sds, loose.sd1) == (None, None, None)
    assert len(loose.missing) == 2 and "site study" in loose.missing[0]
    assert (
        ground_motion(0.80, s1=0.05, site_class="E", measured=True, tables=NEW).sds is None
    )  # between the last value and a blank
    assert ground_motion(0.75, s1=0.05, site_class="E", measured=True, tables=NEW).fa == pytest.approx(1.3)
