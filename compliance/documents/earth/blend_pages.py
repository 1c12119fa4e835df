"""What the parts of a mix become, beside the mix that practice aims for, and what the walls of the mix take."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part, running_text
from compliance.documents.page.line_breaking import Words, Worked
from compliance.documents.page.rows import Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.facts.mixes.blending import Blend
from compliance.facts.mixes.mix_blend import Aim, MixBlend
from compliance.facts.mixes.mix_composition import MixRecord
from compliance.facts.mixes.quantities import Quantities
from compliance.facts.soil.fractions import percent
from compliance.model.materials import Ordering
from compliance.report.earth.mix_blends import blend_of_mix
from compliance.report.value_words import NOTHING, ordering_words, usual_figures
from compliance.steps import Step
from compliance.units import Writer

_FIELDS = {"straw": "kind of straw", "straw_parts": "dose of straw"}
_RECORDS = {"mixes": "mix", "trials": "trial"}
_CAUTION = (
    "The targets and the figures for ordering are common practice and no rule of a code. What a mix carries is shown "
    "by its own compression tests, not by its recipe."
)


def blend_sheets(checked: Checked, writer: Writer) -> Iterator[Sheet]:
    """For each mix with a record: shares, target, quantities, each worked out."""
    lead = part("blends", "Blends and quantities", _CAUTION)
    for mark, record in checked.evidence.mixes.items():
        blend = blend_of_mix(checked, mark)
        yield from _mix(blend, record=record, ordering=checked.project.ordering, writer=writer, lead=lead)
        lead = []


def _mix(
    blend: MixBlend, record: MixRecord, ordering: Ordering, writer: Writer, lead: list[Row]
) -> Iterator[Sheet]:  # fmt: skip
    rows = [*lead, full_row(Words(f"{blend.mark}  ·  {blend.mix.name}", theme.BODY_BOLD), air=(4.0, 1.0))]
    rows += [full_row(Words(says, theme.SMALL)) for says in _statements(record)]
    if blend.unknown:
        words = f"Not blended: the shares of {', '.join(blend.unknown)} are not known."
        yield running_text([*rows, full_row(Words(words, theme.SMALL))])
    else:
        yield _shares(blend, rows)
    remarks = [remark.says for remark in record.remarks]
    remarks += [one.says for aim in blend.aims[:1] for one in aim.described.remarks if one.code == "blend-silt"]
    remarks += [f"Not compared with {reason}." for reason in blend.unfit_before]
    steps = [step for one in record.steps.values() for step in one]
    if steps or remarks:
        yield running_text([*_lines(steps, writer), *(full_row(Words(says, theme.SMALL_ITALIC)) for says in remarks)])
    if blend.needs:
        yield from _needs(blend, blend.needs, ordering, writer)


def _statements(record: MixRecord) -> Iterator[str]:
    """Does the mix keep to its trial?"""
    if record.comparison is None:
        yield "The mix names no trial."
        return
    rank = f", rank {record.rank.rank} of the trials" if record.rank and record.rank.rank else ""
    if record.comparison.differences:
        yield f"Differs from its trial{rank}: {'; '.join(record.comparison.differences)}."
    elif record.comparison.unsaid:
        open_ones = ", ".join(
            f"{_FIELDS[field]} of the {_RECORDS[section]}" for section, field in record.comparison.unsaid
        )
        yield f"Whether it keeps to its trial{rank} cannot be told: {open_ones} not given."
    else:
        yield f"In the proportions of its trial{rank}."


def _shares(blend: MixBlend, lead: list[Row]) -> Sheet:
    """The first target that fits, as described and at its nearest."""
    aim = blend.aims[0] if blend.aims else None
    if aim is None:
        return running_text(lead)
    names = list(aim.described.shares)
    lead = [*lead, full_row(Words(f"Target: {aim.target.title} ({aim.target.source}).", theme.SMALL))]
    rows = [
        Row(
            (
                cell("Target"),
                cell(NOTHING),
                *(cell(_aimed(aim, name), theme.NUMBER) for name in names),
                cell(f"within {percent(aim.target.tolerance)}"),
            )
        )
    ]
    for label, found in (
        ("As described", aim.described),
        ("Nearest by volume", aim.exact),
        ("Nearest in whole buckets", aim.whole),
        ("Nearest in half buckets", aim.halves),
    ):
        rows.append(_blend(label, found, names, exact=found is aim.exact))
    says = aim.exact.says if not aim.exact.reached else ""
    rows += [Row((cell(says, theme.CELL_SMALL, span=3 + len(names)),), joined=True)] if says else []
    head = head_row(
        "Blend", "Parts", *(name.capitalize() for name in names), "From the target", right=range(2, 2 + len(names))
    )
    columns = (Column(100), Column(share=1), *(Column(50) for _ in names), Column(84))
    return Sheet(columns, rows, head=[head], lead=lead, below=6)


def _aimed(aim: Aim, name: str) -> str:
    share = next((one.share for one in aim.target.components if one.name == name), 0.0)
    return percent(share)


def _blend(label: str, found: Blend, names: list[str], exact: bool) -> Row:
    amounts = ((percent(part) if exact else f"{part:g}", name) for name, part in found.parts.items() if part > 0)
    parts = " : ".join(f"{amount} {name}" for amount, name in amounts)
    far = f"{percent(found.distance)}, {'within' if found.reached else 'outside'}"
    figures = (cell(percent(found.shares.get(name, 0.0)), theme.NUMBER) for name in names)
    style = theme.CELL_BOLD if label == "As described" else theme.CELL
    return Row((cell(label, style), cell(parts), *figures, cell(far)))


def _lines(steps: list[Step], writer: Writer) -> list[Row]:
    return [full_row(_line(step, writer)) for step in steps]


def _line(step: Step, writer: Writer) -> Worked:
    source = f"  [{step.source}]" if step.source else ""
    return Worked(f"{step.line(writer)}{source}", theme.CALCULATION)


def _needs(blend: MixBlend, needs: Quantities, ordering: Ordering, writer: Writer) -> Iterator[Sheet]:
    rows = [
        Row(
            (
                cell(one.name, theme.CELL_BOLD),
                cell(writer.write(one.volume, "volume"), theme.NUMBER),
                cell(str(one.buckets), theme.NUMBER),
                cell(NOTHING if one.mass is None else writer.write(one.mass, "tonnage"), theme.NUMBER),
                cell("" if one.mass is not None else "no bulk density is stated"),
            )
        )
        for one in needs.materials
    ]
    if needs.straw_mass:
        dose = "dose of the mix" if blend.dose_stated else "usual dose: the mix does not say its own"
        rows.append(
            Row(
                (
                    cell("straw", theme.CELL_BOLD),
                    cell(writer.write(needs.straw_volume, "volume"), theme.NUMBER),
                    cell(NOTHING, theme.NUMBER),
                    cell(writer.write(needs.straw_mass, "mass"), theme.NUMBER),
                    cell(f"{needs.bales} bales; pressed into buckets, {dose}"),
                )
            )
        )
    usual = usual_figures(ordering)
    figures = ordering_words(blend.ordering, writer) + (
        " (common practice where the builder does not say)" if usual else ""
    )
    says = f"For {writer.write(blend.volume, 'volume')} of wall, counted with {figures}:"
    head = head_row("Material", "Loose volume", "Buckets", "Weight", "", right=(1, 2, 3))
    columns = (Column(80), Column(80), Column(60), Column(70), Column(share=1))
    lead = [full_row(Words(says, theme.SMALL), air=(2.0, 2.0))]
    yield Sheet(columns, rows, head=[head], lead=lead, below=4)
    yield running_text(_lines(list(needs.steps), writer), below=12)
