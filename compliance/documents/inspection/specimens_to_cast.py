"""The test half of the inspection plan: which specimens the rules ask for, and when sets are cast as walls go up."""

from __future__ import annotations

from typing import Any

from compliance.checked import Checked
from compliance.documents.earth.specimen_plan import (
    RequiredTest,
    SetByVolume,
    required_of_mixes,
    sets_by_volume,
    volume_for_a_set,
)
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.rule_names import code_and_clause
from compliance.documents.elements.section_titles import part
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.report.by_rule import SetFindings
from compliance.report.value_words import NOTHING, counted
from compliance.report.words.specimen_words import in_words
from compliance.units import Writer

_SENTENCE = (
    "What the adopted rules ask of each mix, and what is on record. Results lie with the official before earth of the "
    "mix goes onto a wall; where the project states the day, it stands here."
)
_KINDS = {"compression": "Compression", "rupture": "Rupture", "shrinkage": "Shrinkage"}
_MOST_SETS = 40
_BLANK = "____-__-__"


def specimens_to_cast(checked: Checked, sets: tuple[SetFindings, ...]) -> list[Any]:
    """Nothing where no rule asks for a test of a mix in use."""
    required = required_of_mixes(checked, sets)
    if not required:
        return []
    writer = Writer(checked.project.project.units)
    head = head_row("Rule", "Test of", "Asked of one set", "On record", "Finding", "Results by")
    columns = (Column(60), Column(84), Column(share=1), Column(92), Column(96), Column(58))
    lead = part("specimens-asked", "Specimens to cast", _SENTENCE)
    table = Sheet(columns, [_required_row(one, writer) for one in required], head=[head], lead=lead, below=12)
    return [table, *_by_volume(checked, sets, required, writer)]


def _required_row(one: RequiredTest, writer: Writer) -> Row:
    on_record = "; ".join(f"{mark}: {counted(count, 'specimen')}" for mark, count in one.sets) or "none"
    by = [Words(one.before.isoformat() if one.before else "no day stated", theme.CELL)]
    if one.cast_by:
        by.append(Words(f"cast by {one.cast_by.isoformat()}", theme.CELL_SMALL))
    return Row(
        (
            Cell(code_and_clause(one.group), link=one.group.key),
            Cell((Words(_KINDS[one.kind], theme.CELL_BOLD), Words(f"mix {one.mix}", theme.CELL_SMALL))),
            cell(in_words(one.required, writer)),
            cell(on_record),
            Cell((Marked(one.mark, one.mark.value.word, theme.CELL),)),
            Cell(tuple(by)),
        )
    )


def _by_volume(
    checked: Checked, sets: tuple[SetFindings, ...], required: tuple[RequiredTest, ...], writer: Writer
) -> list[Any]:
    """When to cast sets while the walls go up; a sentence where the volume one set stands for is open."""
    found = volume_for_a_set(sets)
    if found is None:
        return []
    group, each = found
    lead = part("specimens-volume", "Sets by volume and lift")
    if each is None:
        sentence = (
            f"How much wall one set may stand for is open ({group.code}, {group.first.clause}): agree it with the "
            "official and enter it. Until then cast one set with the first lift of every mix, and one more whenever "
            "the soil, the straw or the proportions change."
        )
        return [Sheet((Column(share=1),), (), lead=[*lead, full_row(Words(sentence, theme.BODY, after=6.0))])]
    ages = [one.required.least_age for one in required if one.required.least_age is not None]
    plan = sets_by_volume(checked, each, max(ages, default=None))
    sentence = (
        f"One set for every begun {writer.both(each, 'volume')} of wall ({group.code}, {group.first.clause}). Walls of "
        "one mix and day are taken to rise together; where yours do not, count the volume and not the lift."
    )
    lead.append(full_row(Words(sentence, theme.BODY, after=3.0)))
    if len(plan) > _MOST_SETS:
        more = f"{len(plan) - _MOST_SETS} sets more follow at the same spacing and are not listed."
        lead.append(full_row(Words(more, theme.BODY_BOLD, after=3.0)))
    head = head_row("Mix", "Set", "When in the walls", "Walls", "About lift", "Cast on", "Test from")
    columns = (Column(40), Column(52), Column(90), Column(share=1), Column(64), Column(64), Column(90))
    return [Sheet(columns, [_set(one, writer) for one in plan[:_MOST_SETS]], head=[head], lead=lead, below=12)]


def _set(one: SetByVolume, writer: Writer) -> Row:
    lift = f"{one.lift[0]} of {one.lift[1]}" if one.lift else NOTHING
    return Row(
        (
            cell(one.mix, theme.CELL_BOLD),
            cell(f"{one.index} of {one.count}"),
            cell(writer.write(one.placed, "volume") if one.placed else "at the start"),
            cell(", ".join(one.walls)),
            cell(lift),
            cell(one.day.isoformat() if one.day else _BLANK),
            cell(one.due.isoformat() if one.due else "when dry, or at the age asked"),
        )
    )
