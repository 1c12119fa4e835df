"""What every wall of the brief shares, once: the building, its roofs, site and editions, coefficients."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from compliance.checked import Checked
from compliance.documents.brief.brief_facts import BUILDING, ROOF, LabeledText, coefficients, doubted, fact_texts
from compliance.documents.brief.brief_tables import heading, lines, pairs
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import title
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.design_data_sheet import COLUMNS, design_rows
from compliance.documents.papers.schedule import NOT_GIVEN
from compliance.findings import Finding
from compliance.model.structure import Roof
from compliance.units import Writer

_INTRODUCTION = "What holds for every wall of this brief: the building and its roofs, site and editions, coefficients."
_NOT_READ = "Not read in full, or without a published source: verify before relying on a number that rests on them."
_TAKEN = "Taken for granted by the calculations; the least known first. Change any of them and calculate anew."


def common_pages(checked: Checked, worked: Sequence[Finding]) -> Iterator[Sheet]:
    """The pages behind the walls; `worked` are the calculations of all of them."""
    writer = Writer(checked.project.project.units)
    lead = title("brief-common", "Building, roof, site and coefficients", _INTRODUCTION)
    building = pairs("The building", fact_texts(checked.facts.of("project")["project"], BUILDING, writer))
    building.lead = [*lead, *building.lead]
    yield building
    for mark, roof in checked.project.roofs.items():
        yield pairs(f"Roof {mark}", fact_texts(checked.facts.of("roof")[mark], ROOF, writer))
        yield lines("", list(_roof(roof, writer)))
    if not checked.project.roofs:
        yield lines("Roof", [("Roof", "none described")])
    yield lines("Codes and editions", list(_editions(checked)))
    yield Sheet(COLUMNS, design_rows(checked), lead=heading("Site and design data"), below=10)
    yield _coefficients(worked, writer)
    rows = [Row((cell(one, theme.CELL),), air=(0.8, 1.0)) for one in doubted(worked)]
    if rows:
        yield Sheet((Column(share=1),), rows, lead=heading("Sources of forms and tables", _NOT_READ), below=8)


def _roof(roof: Roof, writer: Writer) -> Iterator[LabeledText]:
    """What holds thrust and uplift, and the walls it bears on."""
    held = (roof.thrust_held_by or NOT_GIVEN).replace("-", " ")
    yield "Thrust held by", f"{held}; capacities by: {roof.capacity_source or NOT_GIVEN}"
    spacing = roof.uplift_anchor_spacing
    anchor = roof.uplift_anchor
    stated = NOT_GIVEN if anchor is None else anchor if isinstance(anchor, str) else writer.write(anchor.si, "force")
    every = writer.write(spacing.si, "length") if spacing else NOT_GIVEN
    yield "Uplift anchors", f"capacity of one {stated}; spacing {every}"
    bearings = []
    for one in roof.bears_on:
        width = writer.write(one.tributary.si, "length") if one.tributary else "from the plan"
        off = writer.write(one.eccentricity.si, "thickness") if one.eccentricity else NOT_GIVEN
        bearings.append(f"{one.wall}: tributary {width}, eccentricity {off}")
    yield "Bears on", "; ".join(bearings) or NOT_GIVEN


def _editions(checked: Checked) -> Iterator[LabeledText]:
    head = checked.project.jurisdiction
    yield "Jurisdiction", ", ".join(text for text in (head.name, head.state, head.adopting_text) if text)
    for one in checked.rule_sets:
        yield one.title, ", ".join(text for text in (one.edition, one.status) if text)
    asce7 = checked.project.site.asce7
    yield "Loads by", f"ASCE {asce7}" if asce7 else f"edition of ASCE 7 {NOT_GIVEN}"


def _coefficients(worked: Sequence[Finding], writer: Writer) -> Sheet:
    rows = [
        Row((cell(one.name), cell(one.value, theme.NUMBER), cell(one.standing), cell(one.source, theme.CELL_SMALL)),
            air=(0.8, 1.0))
        for one in coefficients(worked, writer)
    ]  # fmt: skip
    lead = heading("Coefficients", _TAKEN)
    if not rows:
        return Sheet((Column(share=1),), (), lead=[*lead, full_row(Words("None is taken.", theme.CELL))])
    head = head_row("Coefficient", "Value", "Standing", "Source", right=(1,))
    return Sheet((Column(share=5), Column(62), Column(52), Column(share=5)), rows, head=[head], lead=lead, below=8)
