"""The earth of a wall in the brief: its mix with what is known and unknown of it, and every set of its tests."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.checked import Checked
from compliance.documents.brief.brief_facts import LabeledText
from compliance.documents.brief.brief_tables import lines
from compliance.documents.elements import theme
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.schedule import NOT_GIVEN
from compliance.model.materials import Mix, TestSet
from compliance.model.specimens import Specimen
from compliance.report.counting_results import counting_results
from compliance.report.value_words import counted
from compliance.units import Writer

_SIZES = {
    "compression": ("width", "depth", "height"), "rupture": ("width", "height", "span"), "shrinkage": ("form_length",),
}  # fmt: skip
_NO_MODULUS = "not tested; where a calculation needs it, it takes a multiple of the compressive strength, listed below"


def material(checked: Checked, mix: str | None, writer: Writer) -> Iterator[Sheet]:
    """What is known of the mix, then a row for each of its sets."""
    found = checked.project.mixes.get(mix or "")
    if mix is None or found is None:
        yield lines("The earth", [("Mix", "not described")])
        return
    yield lines("The earth", list(_mix(mix, found, writer)))
    sets = {mark: test for mark, test in checked.project.test_sets.items() if test.mix == mix}
    rows = [_set(checked, mark, test, writer) for mark, test in sets.items()]
    if not any(test.kind == "compression" for test in sets.values()):
        rows.append(Row((cell(""), cell("compression"), cell("not tested", span=4)), air=(1.0, 1.4)))
    head = head_row("Set", "Test", "Specimens", "Results that count", "Mean, lowest, highest", "Scatter; set aside")
    columns = (Column(30), Column(68), Column(share=3), Column(48), Column(share=2), Column(share=3))
    yield Sheet(columns, rows, head=[head], below=7)


def _mix(mark: str, mix: Mix, writer: Writer) -> Iterator[LabeledText]:
    parts = " : ".join(f"{amount:g} {soil}" for soil, amount in mix.parts.items())
    yield f"Mix {mark}", f"{mix.name}; parts by loose volume {parts}; straw {mix.straw or NOT_GIVEN}"
    density = writer.write(mix.dry_density.si, "density") if mix.dry_density else NOT_GIVEN
    moisture = writer.write(mix.moisture.si, "share") if mix.moisture is not None else NOT_GIVEN
    yield "Dry density", density
    yield "Moisture as placed", moisture
    yield "Modulus of elasticity", _NO_MODULUS


def _set(checked: Checked, mark: str, test: TestSet, writer: Writer) -> Row:
    counting = counting_results(checked, mark)
    found, kind = counting.summary, "share" if test.kind == "shrinkage" else "stress"
    values, scatter = "no result counts" if counting.aside else "no result", ""
    if found:
        values = ", ".join(writer.write(value, kind) for value in (found.mean, found.lowest, found.highest))
        scatter = f"coefficient of variation {writer.write(found.variation, 'share')}" if found.variation else ""
    beside = "; ".join(text for text in (scatter, counting.beside) if text)
    specimens = checked.specimens.get(mark, ())
    made = (Words(_specimens(test, specimens, writer), theme.CELL), Words(_hands(checked, test), theme.CELL_SMALL))
    cells = (
        cell(mark, theme.CELL_BOLD), cell({"rupture": "modulus of rupture"}.get(test.kind, test.kind)), Cell(made),
        cell(str(found.count) if found else "0"), cell(values), cell(beside),
    )  # fmt: skip
    return Row(cells, air=(1.0, 1.4))


def _specimens(test: TestSet, specimens: Sequence[Specimen], writer: Writer) -> str:
    """How many, of which shape and size, how dried."""
    if not specimens:
        return "none on record"
    shapes = ", ".join(dict.fromkeys(one.shape for one in specimens if one.shape)) or "shape not given"
    sizes = " × ".join(_range(specimens, name, writer) for name in _SIZES[test.kind])
    dried = ", ".join(dict.fromkeys(one.dried for one in specimens if one.dried)) or "not given"
    return (
        f"{counted(len(specimens), 'specimen')}, {shapes}; {sizes}; dried: {dried}; capped: {test.capped or NOT_GIVEN}"
    )


def _range(specimens: Sequence[Specimen], name: str, writer: Writer) -> str:
    values = [value for one in specimens if isinstance(value := one.value(name), float)]
    named = name.replace("_", " ")
    if not values:
        return f"{named} not given"
    low, high = (writer.write(value, "thickness") for value in (min(values), max(values)))
    return f"{named} {low}" if low == high else f"{named} {low} to {high}"


def _hands(checked: Checked, test: TestSet) -> str:
    laboratory = checked.project.people.lab
    tester = test.tested_by or (laboratory.name if laboratory and test.report else NOT_GIVEN)
    return f"made by {test.made_by or NOT_GIVEN}; tested by {tester}; report no. {test.report_number or NOT_GIVEN}"
