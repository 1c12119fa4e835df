"""Under the table of a set: its plot, what stands apart in it, and what each rule says of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import running_text
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.set_plot_drawing import PlotFigure, key_of
from compliance.documents.plots.set_plots import Plot, aside_of, remarks_of
from compliance.findings import Finding
from compliance.record import replace
from compliance.report.grouping import figures
from compliance.report.value_words import NOTHING
from compliance.report.words.plain_missing import plain_reasons
from compliance.units import Writer


def plot_sheets(
    checked: Checked, mark: str, plot: Plot | None, judged: Sequence[tuple[str, Finding]], writer: Writer
) -> Iterator[Sheet]:
    """Nothing of what a set without results would leave empty."""
    rows = []
    if plot is not None:
        key = replace(full_row(Words(key_of(plot), theme.SMALL_ITALIC), air=(2.0, 2.0)), joined=True)
        rows = [full_row(PlotFigure(plot, writer)), key]
    found = checked.evidence.sets.get(mark)
    if found is not None:
        style = {True: theme.CELL_BOLD, False: theme.CELL_SMALL}
        rows += [full_row(Words(says, style[says in found.remarks])) for says in remarks_of(found)]
    if rows:
        yield running_text(rows)
    if judged:
        yield _verdicts(mark, judged, writer)


def _verdicts(mark: str, judged: Sequence[tuple[str, Finding]], writer: Writer) -> Sheet:
    head = head_row("Code", f"Check of {mark}", "Governs", "Limit", "Margin", "Outcome", right=(4,))
    columns = (Column(30), Column(share=3), Column(60), Column(share=2), Column(46), Column(share=2))
    return Sheet(columns, [_verdict(code, one, writer) for code, one in judged], head=[head], below=16)


def _verdict(code: str, one: Finding, writer: Writer) -> Row:
    shown = figures(one, writer)
    phrases: list[Part] = [Words(one.title, theme.CELL)]
    if one.kind == "test" or not one.limit:
        phrases.append(Words(plain_reasons([one], writer), theme.CELL_SMALL))
    aside = aside_of(one)
    if aside:
        phrases.append(Words(f"set aside: {', '.join(aside)}", theme.CELL_SMALL))
    return Row(
        (
            cell(code, theme.CELL_BOLD, link=f"rule-{code}"),
            Cell(tuple(phrases)),
            cell(shown.value or NOTHING, theme.NUMBER.aligned("left")),
            cell(shown.limit or NOTHING),
            cell(shown.margin, theme.NUMBER),
            Cell((Marked(shown.mark, shown.verdict, theme.CELL),)),
        )
    )
