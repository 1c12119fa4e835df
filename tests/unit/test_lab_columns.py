"""The table of the lab's columns: sound in itself, and followed by reading, facts, blank tables and spreadsheets."""

from __future__ import annotations

from pathlib import Path
from typing import get_args, get_type_hints

import pytest
from hypothesis import given
from hypothesis import strategies as st

from compliance.checking import check_folder
from compliance.documents.earth.printed_inputs import choose_decimals, kind_of_result, measured_columns, same_unit
from compliance.documents.lab_request.results_form import headings
from compliance.facts.specimens.material_facts import set_facts
from compliance.facts.specimens.specimen_results import density, measured, slenderness
from compliance.model import materials
from compliance.model.lab_columns import COLUMNS, LAB_COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import FIELDS, Specimen
from compliance.output.checklist.checklist_tables import all_tables
from compliance.output.checklist.workbook import Number
from compliance.problems import Place, ProblemsFound
from compliance.record import replace
from compliance.start.project_files.form_texts import project_files
from compliance.units import KINDS, Writer, parse_measure
from tests.added_columns import ADDED, add_columns, folder_with_added
from tests.conftest import EXAMPLE
from tests.recomputing import recomputed_as_printed

TABLES: tuple[SpecimenKind, ...] = ("compression", "rupture", "shrinkage")


def test_each_name_stands_once_in_a_table_with_a_title_and_a_meaning() -> None:
    for kind in TABLES:
        names = [column.name for column in LAB_COLUMNS if kind in column.tables]
        assert len(names) == len(set(names)) and names == list(COLUMNS[kind])
    assert all(column.title and column.meaning and column.tables for column in LAB_COLUMNS)


def test_columns_of_one_name_hold_one_kind_of_thing() -> None:
    first = {column.name: column for column in reversed(LAB_COLUMNS)}
    for column in LAB_COLUMNS:
        one = first[column.name]
        assert (column.what, column.title, column.choices) == (one.what, one.title, one.choices)


def test_every_field_of_a_specimen_is_a_column_of_its_type() -> None:
    hints = get_type_hints(Specimen)
    by_name = {column.name: column for column in LAB_COLUMNS}
    assert set(by_name) >= FIELDS
    for name in FIELDS:
        column, types = by_name[name], get_args(hints[name]) or (hints[name],)
        assert (float in types) == (column.kind is not None), name
        assert (column.what == "date") == ("date" in str(types)), name


def test_an_added_column_is_read_listed_and_asked_for(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    add_columns(monkeypatch)
    made = check_folder(folder_with_added(tmp_path / "house"))
    one = made.specimens["T1"][0]
    assert one.value("cap_thickness") == pytest.approx(0.125 * 0.0254) and one.measure("cap_thickness")
    assert one.value("operator") == "Marlowe" and one.value("soaked_on") is None
    table = next(table for table in all_tables(made) if table.name == "Specimens")
    titles = [column.title for column in table.columns]
    assert {"Cap thickness [in]", "Operator"} <= set(titles) and "Soaked on" not in titles, "empty columns are left out"
    row = next(row for row in table.rows if one.mark in row)
    assert row[titles.index("Cap thickness [in]")] == Number(0.125, 3)
    assert row[titles.index("Operator")] == "Marlowe"
    assert {"Cap thickness [in]", "Operator", "Soaked on"} <= set(headings("compression", Writer("us")))
    assert "Cap thickness [mm]" in headings("compression", Writer("si"))


def test_a_new_project_gets_the_columns_of_the_table(monkeypatch: pytest.MonkeyPatch) -> None:
    add_columns(monkeypatch)
    tree = {
        "project": {"name": "House", "units": "si", "paper": "a4", "date": "2026-05-14"},
        "jurisdiction": {"name": "Here", "rule_sets": ["cob-practice"]},
        "walls": {},
    }
    files = project_files(tree)
    for kind in TABLES:
        assert files[f"lab/{kind}.csv"] == ",".join(one.heading(Writer("si")) for one in COLUMNS[kind].values()) + "\n"
    assert all(column.name in files["lab/compression.csv"] for column in ADDED)


def test_an_added_measure_of_zero_is_refused(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    add_columns(monkeypatch)
    folder = folder_with_added(tmp_path / "house")
    table = folder / "lab" / "compression.csv"
    table.write_text(table.read_text(encoding="utf-8").replace(",0.125,", ",0,", 1), encoding="utf-8")
    with pytest.raises(ProblemsFound) as found:
        check_folder(folder)
    assert [(one.code, one.place.line) for one in found.value.problems] == [("lab-zero", 2)]


def test_a_load_of_zero_beside_a_stated_strength_is_in_doubt(tmp_path: Path) -> None:
    folder = folder_with_added(tmp_path / "house", ())
    table = folder / "lab" / "compression.csv"
    table.write_text(table.read_text(encoding="utf-8").replace(",2140,", ",0,", 1), encoding="utf-8")
    (warning,) = (one for one in check_folder(folder).warnings if one.code == "lab-strength")
    assert warning.place.line == 2
    assert "133.8 psi, but its load and sides give 0 psi" in warning.wrong
    table.write_text(table.read_text(encoding="utf-8").replace(",0,133.8,", ",0,0,", 1), encoding="utf-8")
    assert measured(check_folder(folder).specimens["T1"][0]).value == 0.0


def specimen_of(kind: SpecimenKind, **fields: object) -> Specimen:
    return Specimen(kind, set="T", mark="T-1", mix="M1", place=Place("lab"), **fields)  # type: ignore[arg-type]


class TestRates:
    """The rate of loading that rules compare: the highest that the set or a row states."""

    @staticmethod
    def rate(stated: str | None, *rows: float | None) -> float | None:
        given_ = {"kind": "rupture", "mix": "M1"} | ({"force_rate": stated} if stated else {})
        specimens = [
            specimen_of("rupture", strength=1e5, more={} if rate is None else {"force_rate": rate}) for rate in rows
        ]
        value = set_facts("T", materials.TestSet.model_validate(given_), specimens)["set.force_rate"].value
        return value if isinstance(value, float) else None

    def test_of_the_set_alone(self) -> None:
        assert self.rate("600 N/min", None, None) == pytest.approx(10.0)

    def test_of_the_rows_the_highest(self) -> None:
        assert self.rate(None, 8.0, 9.0) == 9.0

    def test_a_row_above_the_set_counts(self) -> None:
        assert self.rate("600 N/min", 11.0, 8.0) == 11.0
        assert self.rate("600 N/min", 8.0) == pytest.approx(10.0)

    def test_a_row_without_a_rate_leaves_it_open(self) -> None:
        assert self.rate(None, 8.0, None) is None
        assert self.rate(None) is None

    def test_a_row_without_result_does_not_count(self) -> None:
        waiting = specimen_of("rupture", more={"force_rate": 99.0})
        made = materials.TestSet.model_validate({"kind": "rupture", "mix": "M1"})
        assert set_facts("T", made, [waiting])["set.force_rate"].value is None


INCH, LBF, POUND, PSI = 0.0254, 4.4482216152605, 0.45359237, 6894.757293168
sides = st.floats(2.0, 16.0)


def off(kind: SpecimenKind, one: Specimen, writer: Writer) -> list[tuple[str, float]]:
    """How far results worked out from the printed figures lie from the printed ones, in units of the last digit."""
    decimals = choose_decimals(kind, [one], writer)
    rounded = {}
    for column in measured_columns(kind):
        value = one.measure(column.name)
        if value is not None:
            text = f"{writer.number(value, column.what):.{decimals[column.name]}f} {writer.unit_symbol(column.what)}"
            rounded[column.name] = parse_measure(text, KINDS[column.what]).si
    again = replace(one, **rounded)
    found = []
    for compute, measure in (
        (lambda each: measured(each).value, kind_of_result(kind)),
        (density, "density"),
        (slenderness, "ratio"),
    ):
        exact, printed = compute(one), compute(again)
        if exact is None or printed is None:
            continue
        places = KINDS[measure].us_decimals if writer.system == "us" else KINDS[measure].si_decimals
        shown = round(writer.number(exact, measure), places)
        found.append((measure, abs(writer.number(printed, measure) - shown) * 10**places))
    return found


@pytest.mark.parametrize("system", ["us", "si"])
@given(sides, sides, sides, st.floats(0.5, 60.0), st.floats(5.0, 3000.0))
def test_printed_figures_give_the_printed_strength_density_and_slenderness(
    system: str, width: float, depth: float, height: float, mass: float, strength: float
) -> None:
    load = strength * width * depth * LBF
    one = specimen_of("compression", shape="prism", width=width * INCH, depth=depth * INCH,
                      height=height * INCH, mass=mass * POUND, peak_load=load)  # fmt: skip
    found = off("compression", one, Writer("us" if system == "us" else "si"))
    assert len(found) == 3 and all(distance <= 1 + 1e-6 for _, distance in found), found


@pytest.mark.parametrize("system", ["us", "si"])
@given(st.floats(6.0, 48.0), st.floats(0.0, 0.2), st.floats(3.0, 12.0), st.floats(3.0, 12.0), st.floats(20.0, 4000.0))
def test_printed_figures_give_the_printed_rupture_and_shrinkage(
    system: str, length: float, shrunk: float, width: float, height: float, load: float
) -> None:
    writer = Writer("us" if system == "us" else "si")
    bar = specimen_of("shrinkage", form_length=length * INCH, dried_length=length * (1 - shrunk) * INCH)
    beam = specimen_of("rupture", width=width * INCH, height=height * INCH, depth=length * INCH,
                       span=0.9 * length * INCH, peak_load=load * LBF, loading="centre", mass=20.0)  # fmt: skip
    for one in (bar, beam):
        found = off(one.kind, one, writer)
        assert found and all(distance <= 1 + 1e-6 for _, distance in found), found


@pytest.mark.parametrize("system", ["us", "si"])
def test_worked_lines_of_the_example_give_their_results_again(system: str) -> None:
    """Each line of a specimen, from the numbers printed in it."""
    writer = Writer("us" if system == "us" else "si")
    count = 0
    for one in (one for rows in check_folder(EXAMPLE).specimens.values() for one in rows):
        step = measured(one, 9.80665).step
        if step is None or not step.formula or not isinstance(step.result.value, float):
            continue
        kind = KINDS[step.result.kind]
        places = kind.us_decimals if system == "us" else kind.si_decimals
        shown = round(writer.number(step.result.value, kind.name), places)
        again = writer.number(recomputed_as_printed(step, writer), kind.name)
        assert abs(again - shown) <= 10**-places * (1 + 1e-6), step.line(writer)
        count += 1
    assert count > 12


def test_the_labs_own_figures_are_printed_as_written() -> None:
    """Where the lab works in the paper's unit; a converted figure gets decimals."""
    one = specimen_of("compression", width=4.02 * INCH, texts={"width": "4.02"})
    width = COLUMNS["compression"]["width"]
    assert same_unit(width, one, Writer("us")) and not same_unit(width, one, Writer("si"))
