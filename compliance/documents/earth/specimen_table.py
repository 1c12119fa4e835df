"""The table of one set of specimens: as measured, what follows from it, what the lab added, and the mean."""

from __future__ import annotations

from collections.abc import Sequence

from compliance.checked import Checked
from compliance.documents.earth.printed_inputs import kind_of_result, lab_unit, measured_columns, same_unit
from compliance.documents.earth.specimen_columns import Arrangement, arrange, fields_of
from compliance.documents.elements import theme
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.set_plots import aside_of
from compliance.facts.specimens.specimen_results import measured
from compliance.model.lab_columns import COLUMNS
from compliance.model.materials import SpecimenKind
from compliance.model.specimens import Specimen
from compliance.record import replace
from compliance.report.counting_results import counting_results
from compliance.report.value_words import NOTHING, counted
from compliance.units import Writer, parse_number

_KEPT_WHOLE = 8
"""A set of as few specimens stands on one page."""
_BETWEEN = "   ·   "


def specimen_sheet(
    checked: Checked, mark: str, kind: SpecimenKind, specimens: Sequence[Specimen], writer: Writer, lead: list[Row]
) -> Sheet:
    """The table of a set; a line in its place where the set has no rows."""
    if not specimens:
        none = full_row(Words("The lab tables have no row of this set.", theme.BODY_BOLD, after=4.0))
        return Sheet((Column(share=1),), (), lead=[*lead, none])
    room = PAPERS[checked.project.project.paper].body_width
    found = arrange(fields_of(kind, specimens, writer), [one.mark for one in specimens], room)
    if found.common:
        alike = "; ".join(one.text_of(0) for one in found.common)
        lead = [*lead, full_row(Words(f"All specimens: {alike}.", theme.SMALL, after=3.0))]
    aside = _set_aside(checked, mark)
    count = 1 + len(found.columns)
    rows = [
        row
        for index, one in enumerate(specimens)
        for row in _rows(index, one=one, found=found, aside=aside.get(one.mark, []), writer=writer)
    ]
    rows.append(
        Row(
            (Cell(tuple(_summary(checked, mark=mark, kind=kind, specimens=specimens, writer=writer)), span=count),),
            joined=True,
        )
    )
    if len(specimens) <= _KEPT_WHOLE:
        rows = [rows[0], *(replace(row, joined=True) for row in rows[1:])]
    return Sheet([Column(natural=True)] * count, rows, head=[_head(found)], lead=lead, below=14)


def _head(found: Arrangement) -> Row:
    right = found.heading.aligned("right")
    titles = [cell(one.heading, right if one.right else found.heading) for one in found.columns]
    return Row((cell("Specimen", found.heading), *titles), ruled=False)


def _rows(index: int, one: Specimen, found: Arrangement, aside: Sequence[str], writer: Writer) -> list[Row]:
    """The figures, and under them why the specimen is set aside and what has no column."""
    below: list[Part] = [Words(f"Set aside {reason}", theme.CELL_BOLD) for reason in aside]
    if reason := measured(one).reason:
        below.append(Words(f"No result: {reason}", theme.CELL_BOLD))
    if entered := _entered(one, writer):
        below.append(Words(f"entered {', '.join(entered)}", theme.CELL_SMALL))
    added = [phrases for field in found.below if (phrases := field.text_of(index))] + _notes(one)
    if added:
        below.append(Words(_BETWEEN.join(added), theme.CELL_SMALL))
    number = found.cell.aligned("right")
    cells = [cell(field.texts[index] or NOTHING, number if field.right else found.cell) for field in found.columns]
    mark = cell(one.mark, replace(theme.CELL_BOLD, size=found.cell.size, leading=found.cell.leading))
    rows = [Row((mark, *cells), ruled=not below)]
    if below:
        rows.append(Row((Cell(()), Cell(tuple(below), span=len(found.columns))), joined=True, air=(0.0, 3.0)))
    return rows


def _notes(one: Specimen) -> list[str]:
    """What stands in columns that are printed below their row."""
    names = [column.name for column in COLUMNS[one.kind].values() if column.printed == "below"]
    return [str(value) for name in names if (value := one.value(name)) is not None]


def _entered(one: Specimen, writer: Writer) -> list[str]:
    """The lab's own figures with its units, where these are not ours."""
    phrases = []
    for column in measured_columns(one.kind):
        text, value = one.texts.get(column.name, ""), one.measure(column.name)
        number = parse_number(text)
        if number is None or value is None or same_unit(column, one, writer):
            continue
        symbol = lab_unit(number, value, column.what)
        phrases.append(f"{text} {symbol} ({column.title.lower()})" if symbol else f"{text} ({column.title.lower()})")
    return phrases


def _set_aside(checked: Checked, mark: str) -> dict[str, list[str]]:
    """Why specimens of the set do not count under a rule, by specimen."""
    reasons: dict[str, list[str]] = {}
    for finding in checked.findings:
        if finding.kind != "test" or finding.subject != mark:
            continue
        for specimen, why in aside_of(finding).items():
            reasons.setdefault(specimen, []).append(f"under {finding.clause}: {why}")
    return {specimen: list(dict.fromkeys(found)) for specimen, found in reasons.items()}


def _summary(
    checked: Checked, mark: str, kind: SpecimenKind, specimens: Sequence[Specimen], writer: Writer
) -> list[Part]:  # fmt: skip
    """The basic figures of the results that count, those that do not named beside them, and how a result is worked
    out."""
    found = [measured(one) for one in specimens]
    counting = counting_results(checked, mark)
    figures = counting.summary
    if figures is None:
        none = "No result counts." if counting.aside else "No specimen has a result."
        return [Words(none, theme.CELL_BOLD)]
    unit = kind_of_result(kind)
    words = [f"mean {writer.write(figures.mean, unit)}", f"lowest {writer.write(figures.lowest, unit)}",
             f"highest {writer.write(figures.highest, unit)}"]  # fmt: skip
    if figures.deviation is not None:
        words.append(f"standard deviation {writer.write(figures.deviation, unit)}")
    if figures.variation is not None:
        words.append(f"coefficient of variation {writer.write(figures.variation, 'share')}")
    beside = f"; {counting.beside}" if counting.beside else ""
    summary = f"{counted(figures.count, 'result')}: {', '.join(words)}{beside}"
    parts: list[Part] = [Words(summary, theme.CELL_BOLD)]
    formulas = dict.fromkeys(
        f"{one.step.says}: {one.step.result.symbol or 'result'} = {one.step.formula}"
        for one in found
        if one.step and one.step.formula
    )
    return parts + [Words(formula, theme.SMALL_ITALIC) for formula in formulas]
