"""The record of the earth: soils and their tests, trials, mixes, blends, and the chain from the pit to the wall."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from compliance.checked import Checked
from compliance.documents.earth.blend_pages import blend_sheets
from compliance.documents.earth.soil_pages import soil_sheets, written
from compliance.documents.earth.trial_table import parts_of, straw_of, trial_sheets
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part, running_text
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.plots.chain_boxes import flows
from compliance.documents.plots.chain_drawing import ChainFigure
from compliance.facts.soil.soil_practice import MaterialPractice
from compliance.model.materials import Mix
from compliance.model.trials import Batch
from compliance.report.revisions.revision_changes import Changes
from compliance.report.revisions.revision_words import of_mix
from compliance.report.value_words import NOTHING
from compliance.units import Writer

_CHAIN = (
    "How each wall is tied to its tests. A dashed box is what the project leaves open. Marks, days and figures are as "
    "written in the project; nobody here has seen the pit or the mixing."
)


def mix_record(
    checked: Checked, practice: MaterialPractice, writer: Writer, lead: list[Row], since: Changes | None = None
) -> list[Any]:
    """`lead` goes before the first sheet. Nothing where the project describes neither soil nor mix. `since` is what
    changed since the revision before."""
    story = soil_sheets(checked, practice, writer, lead)
    lead = [] if story else lead
    story += trial_sheets(checked, writer)
    if checked.project.mixes:
        story.append(_mixes(checked.project.mixes, writer, lead))
        story += _since(checked.project.mixes, since)
        story += blend_sheets(checked, writer)
    if checked.project.batches:
        story.append(_batches(checked.project.batches, writer))
    return [*story, *_chains(checked)]


def _mixes(mixes: dict[str, Mix], writer: Writer, lead: list[Row]) -> Sheet:
    rows = []
    for mark, mix in mixes.items():
        phrases = [f"version {mix.version}"] if mix.version else []
        phrases += [f"in place of {mix.replaces}"] if mix.replaces else []
        name = [Words(mix.name, theme.CELL_BOLD)]
        name += [Words(text, theme.CELL_SMALL) for text in (", ".join(phrases), mix.note) if text]
        stabilised = NOTHING if mix.stabilised is None else (mix.stabiliser or "yes") if mix.stabilised else "no"
        rows.append(
            Row((cell(mark, theme.CELL_BOLD), Cell(tuple(name)), cell(parts_of(mix)), cell(straw_of(mix)),
                 cell(mix.trial or NOTHING), cell(stabilised),
                 cell(written(mix.dry_density, "density", writer), theme.NUMBER)))
        )  # fmt: skip
    head = head_row("Mark", "Mix", "Parts by volume", "Straw", "Trial", "Stabilised", "Dry density", right=(6,))
    columns = (Column(natural=True), Column(share=2), Column(share=2), *(Column(natural=True) for _ in range(4)))
    return Sheet(columns, rows, head=[head], lead=lead + part("mixes", "Mixes"), below=12)


def _since(mixes: dict[str, Mix], since: Changes | None) -> list[Any]:
    """What was relabeled, left out or set aside of the tests of each mix since the revision before."""
    rows = [
        full_row(Words(f"{mark}: {sentence}", theme.BODY, after=3.0))
        for mark in mixes
        for sentence in (of_mix(since, mark) if since else ())
    ]
    if not rows or since is None:
        return []
    return [running_text([*part("mixes-since", f"Tests of the mixes since revision {since.before.revision}"), *rows])]


def _batches(batches: dict[str, Batch], writer: Writer) -> Sheet:
    rows = [
        Row(
            (
                cell(mark, theme.CELL_BOLD),
                cell(batch.mix),
                cell(batch.mixed.isoformat() if batch.mixed else NOTHING),
                cell(written(batch.volume, "volume", writer), theme.NUMBER),
                cell(straw_of(batch)),
                cell(", ".join(batch.walls) or NOTHING),
                Cell(
                    tuple(Words(text, theme.CELL_SMALL) for text in (batch.by and f"by {batch.by}", batch.note) if text)
                ),
            )
        )
        for mark, batch in batches.items()
    ]
    head = head_row("Batch", "Mix", "Mixed", "Volume", "Straw", "Walls", "Noted", right=(3,))
    columns = (*(Column(natural=True) for _ in range(5)), Column(share=1), Column(share=2))
    return Sheet(columns, rows, head=[head], lead=part("batches", "Batches"), below=12)


def _chains(checked: Checked) -> Iterator[Sheet]:
    """The figures of each mix, then what breaks its chain."""
    lead = part("chains", "From the pit to the wall", _CHAIN)
    for mark, figures in flows(checked):
        for number, flow in enumerate(figures):
            name = f"{mark}  ·  {checked.project.mixes[mark].name}" + (", continued" if number else "")
            rows = [
                *lead,
                full_row(Words(name, theme.BODY_BOLD, after=4.0), air=(4.0, 0.0)),
                full_row(ChainFigure(flow)),
            ]
            rows += [full_row(Words(f"Not told: {gap}.", theme.CELL_BOLD), air=(2.0, 0.0)) for gap in flow.gaps]
            yield Sheet((Column(share=1),), (), lead=rows, below=16)
            lead = []
