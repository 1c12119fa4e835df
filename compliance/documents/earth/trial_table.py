"""Trial mixes in the order of their rank, with what they broke into and which mix was chosen from them."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, head_row
from compliance.documents.page.sheet import Sheet
from compliance.facts.mixes.trial_ranking import RankedTrial
from compliance.model.materials import Mix
from compliance.model.trials import Batch, Trial
from compliance.report.value_words import NOTHING
from compliance.units import Measure, Writer


def trial_sheets(checked: Checked, writer: Writer) -> list[Sheet]:
    """Nothing where no trial is described."""
    ranking = checked.evidence.ranking
    if not ranking.trials:
        return []
    rows = [_row(one, checked, writer) for one in ranking.trials]
    rows += [
        Row((cell(remark, theme.CELL_SMALL, span=8),), joined=True, ruled=False, air=(2.0, 0.0))
        for remark in ranking.remarks
    ]
    head = head_row(
        "Rank",
        "Trial",
        "Parts by volume",
        "Straw",
        "Dropped",
        "Largest",
        "Pieces",
        "Chosen for, and what was seen",
        right=(0, 5, 6),
    )
    columns = (Column(30), Column(38), Column(share=2), Column(62), Column(66), Column(44), Column(40), Column(share=3))
    lead = part("trials", "Trial mixes", f"Ranked by {ranking.order}.")
    return [Sheet(columns, rows, head=[head], lead=lead, below=12)]


def _row(ranked: RankedTrial, checked: Checked, writer: Writer) -> Row:
    trial = checked.project.trials[ranked.mark]
    return Row(
        (
            cell(NOTHING if ranked.rank is None else str(ranked.rank), theme.CELL_BOLD.aligned("right")),
            cell(ranked.mark, theme.CELL_BOLD),
            cell(parts_of(trial)),
            cell(straw_of(trial)),
            Cell(tuple(_dropped(trial, writer))),
            cell(_written(trial.largest_piece, "share", writer), theme.NUMBER),
            cell(NOTHING if trial.pieces is None else str(trial.pieces), theme.NUMBER),
            Cell(tuple(_trial_notes(ranked.mark, trial, checked))),
        )
    )


def parts_of(mix: Trial | Mix) -> str:
    """The parts as builders say them: "1 S1 : 2 S2"."""
    return " : ".join(f"{part:g} {mark}" for mark, part in mix.parts.items())


def straw_of(mix: Trial | Mix | Batch) -> str:
    if mix.straw is None and mix.straw_parts is None:
        return NOTHING
    if mix.straw == "none":
        return "none"
    dose = f"{mix.straw_parts:g} parts" if mix.straw_parts else "dose not given"
    return f"{mix.straw or 'kind not given'}, {dose}"


def _dropped(trial: Trial, writer: Writer) -> Iterator[Part]:
    yield Words(_written(trial.drop_height, "length", writer), theme.CELL)
    if trial.dropped:
        yield Words(trial.dropped.isoformat(), theme.CELL_SMALL)


def _trial_notes(mark: str, trial: Trial, checked: Checked) -> Iterator[Part]:
    chosen = [name for name, mix in checked.project.mixes.items() if mix.trial == mark]
    if chosen:
        yield Words(f"Chosen for {', '.join(chosen)}", theme.CELL_BOLD)
    remarks = (trial.remarks or "").removesuffix(".") if trial.by else trial.remarks
    notes = "; ".join(text for text in (remarks, trial.by and f"by {trial.by}") if text)
    if notes:
        yield Words(notes, theme.CELL_SMALL)


def _written(measure: Measure | None, kind: str, writer: Writer) -> str:
    return NOTHING if measure is None else writer.write(measure.si, kind)
