"""What changed since the revision before, wall by wall and limit by limit, and the official's comments with answers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from compliance.checked import Checked
from compliance.documents.elements import theme
from compliance.documents.elements.outcome_marks import Marked
from compliance.documents.elements.section_titles import on_this_page, part, running_text, title
from compliance.documents.page.line_breaking import Part, Words
from compliance.documents.page.rows import Cell, Column, Row, cell, full_row, head_row
from compliance.documents.page.sheet import Sheet
from compliance.findings import Outcome, Standing
from compliance.model.issued import FindingRecord, IssuedRecord, RuleSetRecord
from compliance.model.people import OfficialComment
from compliance.report.marks import mark_for
from compliance.report.revisions.findings_data import as_record
from compliance.report.revisions.older_words import without_ids
from compliance.report.revisions.revision_changes import Changes, FindingChange, LimitChange, changes
from compliance.report.revisions.revision_words import (
    NONE,
    SETS,
    edition_text,
    finding_text,
    headed,
    in_numbers,
    limit_text,
    set_text,
    wall_mix_text,
    wall_texts,
    worth_a_line,
)
from compliance.rules.formulas.printing import RELATIONS

_COMMENTS = (
    "Every comment on an earlier revision, what was done about it, and where in this bundle or on site that stands."
)


def revisions(checked: Checked, previous: IssuedRecord | None) -> list[Any]:
    """Nothing for a first revision without comments."""
    story: list[Any] = []
    comments = checked.project.comments
    if previous is None and not comments:
        return story
    name = previous.project.revision if previous else ""
    heading = f"Since revision {name}" if name else "Comments of the official"
    lead = title("revisions", heading)
    if previous is not None:
        found = changes(without_ids(previous, checked.rule_sets), as_record(checked))
        lead += _change_rows(found)
        story += _changed(found, lead)
        lead = []
    if comments:
        lead += part("comments", "Comments and answers", _COMMENTS) if previous else [_sentence(_COMMENTS)]
        head = head_row("Comment", "By, on", "Answer", "Where it is met")
        columns = (Column(share=3), Column(86), Column(share=3), Column(96))
        rows = [_comment(one, checked) for one in comments]
        story.append(Sheet(columns, rows, head=[head], lead=lead, below=14))
    return [*on_this_page(), *story]


def _sentence(text: str) -> Row:
    return full_row(Words(text, theme.BODY, after=4.0))


def _change_rows(found: Changes) -> list[Row]:
    """What was compared, and how much changed."""
    first = f"{headed(found.before)} compared with this one; {in_numbers(found)}."
    sentences = [first[:1].upper() + first[1:]]
    sentences += [f"{wording[:1].upper()}{wording[1:]}." for wording in wall_texts(found) if wording]
    sentences += [
        f"{wording[:1].upper()}{wording[1:]}."
        for wording in (edition_text(_titled(old), _titled(new)) for old, new in found.editions)
    ]
    return [_sentence(sentence) for sentence in sentences]


def _titled(rule_set: RuleSetRecord | None) -> RuleSetRecord | None:
    """Named by its title, for readers who have no rule sets."""
    return rule_set.model_copy(update={"rule_set": rule_set.title}) if rule_set else None


def _changed(found: Changes, lead: list[Row]) -> list[Any]:
    rows = [row for name, of_subject in found.by_subject for row in _subject(name, of_subject)]
    story: list[Any] = []
    if found.sets or found.wall_mixes:
        of_sets = [*map(set_text, found.sets), *map(wall_mix_text, found.wall_mixes)]
        lead = [*lead, *part("revisions-sets", SETS), *map(_sentence, of_sets)]
        story.append(running_text(lead))
        lead = []
    if rows:
        head = head_row("Subject", "Check", "Was", "Is")
        columns = (Column(58), Column(share=2), Column(share=3), Column(share=3))
        story.append(Sheet(columns, rows, head=[head], lead=lead, below=12))
        lead = []
    if found.limits:
        head = head_row("Clause", "Limit", "Was", "Is")
        columns = (Column(78), Column(share=3), Column(share=2), Column(share=2))
        limits = lead + part("revisions-limits", "Limits that changed")
        story.append(Sheet(columns, [_limit(one) for one in found.limits], head=[head], lead=limits, below=12))
        lead = []
    return [*story, running_text(lead)] if lead else story


def _subject(name: str, found: Sequence[FindingChange]) -> Iterator[Row]:
    """The subject's name, kept with its first change; worse ones first."""
    shown = sorted((one for one in found if worth_a_line(one)), key=lambda one: one.direction)
    if not shown:
        return
    yield Row((cell(name[:1].upper() + name[1:], theme.BODY_BOLD, span=4),), ruled=False, air=(5.0, 0.0))
    for index, change in enumerate(shown):
        of = change.of
        word = {"worse": "now worse", "better": "now better"}.get(change.word, change.word)
        check: tuple[Part, ...] = (Words(of.title, theme.CELL), Words(f"{of.clause}; {word}", theme.CELL_SMALL))
        cells = (cell(of.subject, theme.CELL_BOLD), Cell(check), _finding(change.before), _finding(change.after))
        yield Row(cells, joined=index == 0)


def _finding(finding: FindingRecord | None) -> Cell:
    if finding is None:
        return cell(NONE)
    standing = Standing(finding.standing) if finding.standing else None
    return Cell((Marked(mark_for(Outcome(finding.outcome), standing), finding_text(finding, RELATIONS), theme.CELL),))


def _limit(change: LimitChange) -> Row:
    of = change.of
    name = (Words(of.title, theme.CELL), Words(of.name.replace("_", " "), theme.CELL_SMALL))
    now = cell(limit_text(change.after), theme.CELL_BOLD)
    return Row((cell(of.clause), Cell(name), cell(limit_text(change.before)), now))


def _comment(one: OfficialComment, checked: Checked) -> Row:
    by = ", ".join(text for text in (one.by, one.on.isoformat() if one.on else "") if text)
    answer = cell(one.answer) if one.answer else cell("not answered yet", theme.CELL_BOLD)
    wall = one.met_in if one.met_in in checked.project.walls else ""
    return Row((cell(one.comment), cell(by), answer, cell(one.met_in or "", link=f"wall-{wall}" if wall else "")))
