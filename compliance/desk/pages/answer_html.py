"""The answer of a check as a page: what stops, what to decide, what to ask, what comes later."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.soil_html import EARTH
from compliance.desk.pages.field_forms import field_groups_form, fields_form
from compliance.desk.pages.frame import drawn, listed, page, problems_box, section, subject_path, warnings_box
from compliance.desk.pages.lab.tests_html import TESTS
from compliance.desk.paperwork.inspection_pages import INSPECTIONS
from compliance.desk.paperwork.question_pages import QUESTIONS
from compliance.findings import Finding, Lack, Outcome
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.remedies.changes import Change
from compliance.report.answer.answer import Answer
from compliance.report.answer.causes import Cause
from compliance.report.answer.folding import STOPS
from compliance.report.answer.to_decide import Item
from compliance.report.earth.answer_parts import NextStep
from compliance.report.earth.earth_answer import NO_BUILDING, earth_answer
from compliance.report.marks import Mark, mark_of
from compliance.report.value_words import counted
from compliance.report.words.answer_words import (
    ACCEPTED,
    ASK,
    DECIDE_NOW,
    FOR_AN_ENGINEER,
    TO_CHANGE,
    answer_sentence,
    cause_words,
    clause_words,
    do_words,
    remedy_words,
    stage_words,
    tally_words,
)
from compliance.report.words.page_words import item_on_page
from compliance.units import Writer

FILL = "/fill"
_FORMS = {"answer": QUESTIONS, "inspection": INSPECTIONS}
_OF_TESTS = (Lack.TEST_SET, Lack.PASSING_SET, Lack.ROWS, Lack.CELLS, Lack.CELL)


def answer_page(snapshot: Snapshot, read_lines: ReadLines) -> bytes:
    """The whole page; where nothing could be checked yet, what stands in the way."""
    return page("Answer", snapshot, *answer_parts(snapshot, read_lines), here="/")


def answer_parts(snapshot: Snapshot, read_lines: ReadLines) -> Iterator[Child]:
    """What stands in the page."""
    yield problems_box(snapshot, read_lines)
    checked = snapshot.checked
    if checked is None:
        return
    if snapshot.found is None:
        yield from _earth(snapshot, checked)
    else:
        left = joined(_building(snapshot, checked, snapshot.found))
        yield tag("div", tag("div", left, class_="answer"), _plan(snapshot, checked), class_="beside")
    yield warnings_box(checked.warnings, read_lines)


def _building(snapshot: Snapshot, checked: Checked, found: Answer) -> Iterator[Child]:
    writer = Writer(checked.project.project.units)
    yield tag("h1", answer_sentence(found, len(checked.findings)), class_="sentence")
    yield tag("p", stage_words(found), class_="small")
    folded = sum(cause.folded for cause in found.stops)
    if folded:
        yield tag("p", f"{counted(folded, 'finding')} that follow from these are not listed.", class_="small")
    for title, outcome in zip((FOR_AN_ENGINEER, TO_CHANGE), STOPS, strict=True):
        some = [one for one in found.stops if one.outcome is outcome]
        if some:
            yield section(title, listed(_cause(one, snapshot, writer) for one in some))
    if found.accepted:
        accepted = listed(_cause(one, snapshot, writer) for one in found.accepted)
        yield section(ACCEPTED, accepted)
    if found.to_write:
        count = sum(bool(one.paths) for one in found.to_write)
        to_fill = tag("p", tag("a", "Fill in all of these on one page", href=FILL, class_="button"))
        whole = to_fill if count > 1 and not snapshot.is_for_phone else None
        yield section(DECIDE_NOW, whole, listed(_item(one, snapshot, writer) for one in found.to_write))
    if found.to_read:
        clauses = (joined([_links(one.findings), clause_words(one)]) for one in found.to_read)
        yield section(ASK, listed(_marked(Mark.CONFIRM, text) for text in clauses))
    later = [one for one in checked.findings if one.outcome is Outcome.LATER]
    if later:
        fold = tag("details", tag("summary", counted(len(later), "finding")), _titles(later))
        yield section("Later", fold)
    yield tag("p", tally_words(checked), class_="small")
    if not snapshot.is_complete:
        yield tag("p", "Looking for the nearest changes.", class_="small")


def _cause(cause: Cause, snapshot: Snapshot, writer: Writer) -> Markup:
    change: Change | None = snapshot.nearest.get(cause.key)
    do = do_words(cause, change, writer) or remedy_words(cause)
    return joined(
        [
            _marked(mark_of(cause.worst), tag("a", cause_words(cause, writer), href=_path(cause.worst))),
            tag("p", do, class_="do") if do else None,
            tag("p", "Each: ", _links(cause.findings), class_="small") if len(cause.findings) > 1 else None,
        ]
    )


def _item(item: Item, snapshot: Snapshot, writer: Writer) -> Markup:
    line = _marked(Mark.MISSING, tag("a", item_on_page(item, writer), href=_place_of(item, snapshot)))
    form = fields_form(item.paths, snapshot, "/")
    return joined([line, tag("details", tag("summary", "Fill in"), form) if form else None])


def _place_of(item: Item, snapshot: Snapshot) -> str:
    """Where an item is decided: the page with its form, or what it is about, which is all that a phone shows."""
    if snapshot.is_for_phone:
        return _path(item.findings[0])
    if item.kind in _FORMS:
        return _FORMS[item.kind]
    if item.kind == "record" and all(one.kind in _OF_TESTS for one in item.lacks):
        return TESTS
    return _path(item.findings[0])


def fill_page(snapshot: Snapshot, read_lines: ReadLines) -> bytes:
    """Every field that is to be decided now, in one form."""
    parts: list[Child] = [problems_box(snapshot, read_lines), tag("h1", "Fill in what is missing")]
    checked, found = snapshot.checked, snapshot.found
    if checked is not None and found is not None and not snapshot.problems:
        parts.append(tag("p", "Fields left empty stay as they are."))
        writer = Writer(checked.project.project.units)
        asked = ((item_on_page(one, writer), one.paths) for one in found.to_write)
        form = field_groups_form([one for one in asked if one[1]], snapshot, "/")
        parts.append(form or tag("p", "No field is missing now."))
    return page("Fill in", snapshot, *parts, here="/")


def _marked(mark: Mark, text: Child) -> Markup:
    """The shape and the word of a mark, and what it is of."""
    return tag("p", drawn(mark), tag("span", mark.value.word, class_="word"), " ", text)


def _path(finding: Finding) -> str:
    return subject_path(finding.subject, f"{finding.rule_set}/{finding.rule}")


_MOST_LINKS = 12


def _links(findings: Iterable[Finding]) -> Markup:
    """The subjects, each with the way to its page."""
    by_subject = {one.subject: one for one in findings}
    shown = list(by_subject.values())[:_MOST_LINKS]
    more = f"and {len(by_subject) - _MOST_LINKS} more " if len(by_subject) > _MOST_LINKS else None
    parts = [part for one in shown for part in (tag("a", one.subject, href=_path(one)), " ")]
    return tag("span", *parts, more, class_="links")


def _titles(findings: Iterable[Finding]) -> Markup:
    by_title: dict[str, list[Finding]] = {}
    for one in findings:
        by_title.setdefault(one.title, []).append(one)
    return listed(joined([f"{title}: ", _links(some)]) for title, some in by_title.items())


def _plan(snapshot: Snapshot, checked: Checked) -> Markup | None:
    """The drawing, with a way to each wall below it for who cannot point."""
    if not checked.facts.views:
        return None
    drawing = tag("img", src=f"/picture/plan.svg?number={snapshot.number}", alt="The plan, as the papers draw it")
    worst = _worst_of_walls(checked)
    walls = [joined([drawn(worst[mark]), tag("a", mark, href=subject_path(mark))]) for mark in checked.project.walls]
    return tag("aside", tag("a", drawing, href="/plan"), listed(walls, class_="walls"), aria_label="Plan")


def _worst_of_walls(checked: Checked) -> dict[str, Mark]:
    worst = dict.fromkeys(checked.project.walls, Mark.NOT_APPLICABLE)
    for one in checked.findings:
        if one.wall in worst:
            worst[one.wall] = min(worst[one.wall], mark_of(one), key=lambda mark: mark.rank)
    return worst


def _earth(snapshot: Snapshot, checked: Checked) -> Iterator[Child]:
    found = earth_answer(checked)
    yield tag("h1", found.sentence, class_="sentence")
    yield tag("p", NO_BUILDING)
    for part in found.sections:
        lines = (
            joined([tag("p", line.head), *(tag("p", text, class_="small") for text in line.says)])
            for line in part.lines
        )
        yield section(part.title, listed(lines), *(tag("p", text, class_="small") for text in part.remarks))
    steps = (
        step.says if snapshot.is_for_phone else tag("a", step.says, href=_page_of_step(step)) for step in found.steps
    )
    yield section("Next", tag("ol", *(tag("li", step) for step in steps)))


def _page_of_step(step: NextStep) -> str:
    """Where the form of a next step is."""
    return TESTS if step.write.startswith(("test_sets", "lab")) else EARTH
