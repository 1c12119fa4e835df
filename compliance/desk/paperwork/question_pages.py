"""The questions that only a person can answer, the stage of the project, and what an official accepted."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import listed, section
from compliance.desk.paperwork.asked_people import Asked, asked_block
from compliance.desk.paperwork.record_forms import (
    Entry,
    choice_field,
    entry_form,
    long_field,
    record_page,
    text_field,
    who_and_when,
)
from compliance.findings import Finding
from compliance.judging.conditions.acceptances import ACCEPTABLE
from compliance.model.people import Answer
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.report.answer.questions_due import questions_due
from compliance.report.summaries.stage_outcomes import outcomes_at
from compliance.report.value_words import counted
from compliance.stages import Stage

QUESTIONS = "/questions"
_ACCEPTING = (
    "What an official accepted outside a limit prints as accepted and still does not meet. It lapses by itself when "
    "the value, the limit, the rule or the edition changes, or after its last day."
)


def questions_asked(checked: Checked, later: bool) -> list[Asked]:
    """Those that are due and have no answer; with `later` also those of later stages."""
    return [
        Asked(
            one.section, one.name, name=one.name, title=f"{one.rule.title} ({one.rule.clause})", asks=one.asks,
            remarks=(one.evidence_words,) if one.evidence_words else (), subjects=one.subjects,
        )
        for one in questions_due(checked, later)
        if one.section == "attestations"
    ]  # fmt: skip


def acceptable(checked: Checked) -> list[Finding]:
    """What an official can accept and did not yet."""
    return [one for one in checked.findings if one.outcome in ACCEPTABLE and one.accepted is None]


def question_page(snapshot: Snapshot, entry: Entry, read_lines: ReadLines, today: date) -> bytes:
    """The whole page."""
    return record_page(
        "Questions", here=QUESTIONS, snapshot=snapshot, entry=entry, read_lines=read_lines,
        parts=lambda checked: _parts(checked, entry, today),
    )  # fmt: skip


def _parts(checked: Checked, entry: Entry, today: date) -> Iterator[Child]:
    later = entry.asked.get("later") == "1"
    asked = questions_asked(checked, later)
    other = tag("a", "Ask only what is due" if later else "Ask those of later stages too",
                href=QUESTIONS if later else f"{QUESTIONS}?later=1")  # fmt: skip
    due = "asked, those of later stages among them" if later else "due"
    yield tag("p", f"{counted(len(asked), 'question')} {due}. ", other)
    if asked:
        blocks = [asked_block(one, checked, entry) for one in asked]
        who = who_and_when(checked, entry, "Answered by", today)
        kept = tag("input", type="hidden", name="later", value="1") if later else None
        yield entry_form(QUESTIONS, "answer", kept, who, *blocks, button="Save the answers")
    if given := checked.project.attestations:
        lines = listed(answer_line(checked, one, "yes" if one.answer else "no") for one in given)
        yield tag("details", tag("summary", counted(len(given), "answer") + " given"), lines)
    yield _stage(checked, entry)
    yield _accepted(checked, entry, today)


def answer_line(checked: Checked, one: Answer, says: str) -> Markup:
    """An answer or a record in one line."""
    titles = {rule.id: rule.title for rule_set in checked.rule_sets for rule in rule_set.rules}
    about = f" ({one.about})" if one.about else ""
    by, on, marks, note = (getattr(one, name) for name in ("by", "on", "evidence", "note"))
    files = ", ".join(checked.project.attachments[mark].title for mark in marks)
    more = [f"{by}, {on.isoformat()}", f"evidence: {files}" if files else "", note or ""]
    return joined([
        tag("p", f"{titles.get(one.rule_id, one.rule)}{about}: ", tag("b", says)),
        tag("p", "; ".join(text for text in more if text), class_="small"),
    ])  # fmt: skip


def _stage(checked: Checked, entry: Entry) -> Markup:
    now = checked.reached.stage
    rows = [
        joined([tag("b", stage.words) if stage is now else stage.words, f": {outcomes or 'nothing'}"])
        for stage in Stage
        if (outcomes := outcomes_at(checked, stage)) or stage is now
    ]
    stated = checked.project.project.stage or now.value
    stages = [(one.value, one.words) for one in Stage]
    choice = choice_field("stage", "Move the project to stage", stages, entry, default=stated)
    form = entry_form(QUESTIONS, "stage", choice, button="Change the stage")
    because = f", for {checked.reached.because}" if checked.reached.because else ""
    why = f"The project is judged at stage {now.words}{because}."
    return section("Stage", tag("p", why), listed(rows), form)


def _accepted(checked: Checked, entry: Entry, today: date) -> Markup:
    done = [joined([f"{one.subject}: {one.title}. {one.accepted.words}"]) for one in checked.findings if one.accepted]
    options = [
        (f"{one.rule_set}/{one.rule} {one.subject}", f"{one.subject}: {one.title} ({one.verdict})")
        for one in acceptable(checked)
    ]
    children: list[Child] = [tag("p", _ACCEPTING, class_="small")]
    if done:
        children.append(listed(done))
    if options:
        fields = [
            choice_field("finding", "Which finding", [("", "choose one"), *options], entry),
            text_field("official", "Official who accepted it", entry),
            text_field("accepted-on", "Date", entry, today.isoformat(), kind="date"),
            text_field("document", "Letter or decision", entry),
            long_field("condition", "Condition", entry, "if any"),
            text_field("until", "Last day it applies", entry, kind="date", hint="if any"),
        ]
        children.append(entry_form(QUESTIONS, "accept", *fields, button="Record as accepted"))
    else:
        children.append(tag("p", "No finding stands outside a limit."))
    return section("Accepted by an official", *children)
