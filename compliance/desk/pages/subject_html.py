"""All about one subject: the finding that was chosen with its calculation, its drawings, all other findings."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from urllib.parse import quote

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.field_forms import change_form, fields_form, fields_of_finding
from compliance.desk.pages.frame import drawn, listed, page, problems_box, section, subject_path
from compliance.desk.pages.lab.tests_html import TESTS
from compliance.desk.paperwork.question_pages import QUESTIONS
from compliance.facts.common.fact import FieldPath
from compliance.findings import Finding, Lack, LimitUsed, Missing, Outcome
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.output.terminal.remedy_text import type_with_all
from compliance.remedies import Difference, Remedy
from compliance.remedies.edited_project import edits
from compliance.report.marks import mark_of
from compliance.report.value_words import counted
from compliance.report.words.missing_words import missing_name, reason_text
from compliance.report.words.page_words import field_words
from compliance.report.words.remedy_words import change_words
from compliance.steps import Step
from compliance.units import Writer

REMEDY_CAUTION = (
    "Each change is the smallest that meets that one finding, by the rules and the description alone. It is not a "
    "design; what needs a licensed engineer, the engineer decides."
)


def findings_about(checked: Checked, subject: str) -> list[Finding]:
    """Those about the subject or a part of it, worst first, in the order of judging otherwise."""
    about = [one for one in checked.findings if subject in (one.subject, one.wall)]
    return sorted(about, key=lambda one: one.outcome.rank)


def chosen(findings: Sequence[Finding], rule: str) -> Finding:
    """The finding of a rule, as RULE_SET/RULE; the worst where none is named."""
    return next((one for one in findings if f"{one.rule_set}/{one.rule}" == rule), findings[0])


def subject_page(
    snapshot: Snapshot, subject: str, one: Finding, found: Sequence[Remedy], read_lines: ReadLines
) -> bytes:
    """`one` of the findings about the subject is shown whole, with its remedies `found`."""
    assert snapshot.checked is not None
    checked = snapshot.checked
    writer = Writer(checked.project.project.units)
    back = subject_path(one.subject, f"{one.rule_set}/{one.rule}")
    children = [
        problems_box(snapshot, read_lines),
        tag("h1", f"{one.subject}: {one.title}"),
        tag("p", drawn(mark_of(one)), tag("b", one.verdict), ": ", reason_text(one, writer)),
        _calculation(one, writer, snapshot),
        tag("div", section("Fill in", form), id="fill-in")
        if (form := fields_form(fields_of_finding(one), snapshot, back))
        else None,
        _nearest(one, found, snapshot, back),
        _drawings(snapshot, checked, one.wall or subject),
        section(f"Everything about {subject}", *_others(findings_about(checked, subject), one)),
    ]
    return page(one.subject, snapshot, *children)


def _calculation(one: Finding, writer: Writer, snapshot: Snapshot) -> Markup:
    steps = [_step(step, writer) for step in one.steps]
    margin = "" if one.margin is None else f"Margin {one.margin * 100:.1f} %."
    parts: list[Child] = [tag("p", f"{one.say} ({one.rule_set}, {one.clause})")]
    parts += [tag("ol", *(tag("li", step) for step in steps), class_="steps")] if steps else []
    parts += [listed((_limit(limit, writer) for limit in one.limits), class_="limits")] if one.limits else []
    parts += [tag("p", margin)] if margin else []
    parts += [tag("p", tag("b", "Do: "), one.remedy)] if one.remedy else []
    parts += [tag("p", tag("b", "Missing: "), _missing(lack, snapshot)) for lack in one.missing]
    return section("Calculation", *parts)


def _missing(lack: Missing, snapshot: Snapshot) -> Child:
    """What is missing, with the way to the form that takes it."""
    if snapshot.is_for_phone:
        return missing_name(lack)
    if lack.kind is Lack.FIELD:
        return tag("a", field_words(lack.parts), href="#fill-in")
    return tag("a", missing_name(lack), href=QUESTIONS if lack.kind is Lack.ANSWER else TESTS)


def _step(step: Step, writer: Writer) -> Markup:
    source = tag("span", f" {step.source}", class_="small") if step.source else None
    return joined([step.line(writer), source])


def _limit(limit: LimitUsed, writer: Writer) -> str:
    where = limit.source or limit.read_in or limit.clause
    if limit.value is None:
        value = "open"
    elif isinstance(limit.value.value, float):
        value = writer.both(limit.value.value, limit.value.kind)
    else:
        value = limit.value.written(writer)
    return f"Limit {limit.name}: {value}, {limit.standing.value} ({where})"


def _nearest(one: Finding, found: Sequence[Remedy], snapshot: Snapshot, back: str) -> Markup:
    checked = snapshot.checked
    if checked is None or one.outcome not in (Outcome.ENGINEER, Outcome.REVISE):
        return Markup("")
    in_order = [*(one for one in found if not one.makes_worse), *(one for one in found if one.makes_worse)]
    rows = [joined(_remedy(remedy, checked, snapshot, back)) for remedy in in_order]
    if not rows:
        return section("Nearest changes", tag("p", "None was found among what is changed in steps."))
    return section("Nearest changes", listed(rows), tag("p", REMEDY_CAUTION, class_="small"))


def _remedy(remedy: Remedy, checked: Checked, snapshot: Snapshot, back: str) -> Iterator[Child]:
    yield tag("p", change_words(remedy.changes, Writer(checked.project.project.units)))
    effects = [f"Makes worse: {_named(remedy.makes_worse)}"] if remedy.makes_worse else ["Makes nothing else worse"]
    effects += [f"better: {_named(remedy.makes_better)}"] if remedy.makes_better else []
    effects += [f"affects what cannot be judged yet: {_named(remedy.unjudged)}"] if remedy.unjudged else []
    yield tag("p", f"{'; '.join(effects)}.", class_="small")
    changes = edits(checked.project, remedy.project)
    yield change_form(changes, "Try", snapshot, back)
    if kind := type_with_all(checked.project, changes):
        of_type: list[tuple[FieldPath, str]] = [(("wall_types", kind, *path[2:]), text) for path, text in changes]
        yield change_form(of_type, f"Try with all walls of type {kind}", snapshot, back)


_MOST_NAMED = 6


def _named(differences: Iterable[Difference]) -> str:
    found = [one.after or one.before for one in differences]
    names = list(dict.fromkeys(f"{one.subject} {one.title[:1].lower()}{one.title[1:]}" for one in found if one))
    more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    return ", ".join(names[:_MOST_NAMED]) + more


def _drawings(snapshot: Snapshot, checked: Checked, wall: str) -> Markup:
    if wall not in checked.facts.views:
        return Markup("")
    pictures = [
        tag(
            "img",
            src=f"/picture/{view}.svg?wall={quote(wall, safe='')}&number={snapshot.number}",
            alt=f"{view.capitalize()} of {wall}, as the papers draw it",
        )
        for view in ("elevation", "section")
    ]
    return section(f"Drawings of {wall}", *pictures, class_="drawings")


def _others(findings: Sequence[Finding], shown: Finding) -> Iterator[Child]:
    asking = [one for one in findings if one.outcome.rank <= Outcome.CONFIRM.rank]
    rest = findings[len(asking) :]
    if asking:
        yield listed(_line(one, shown) for one in asking)
    if rest:
        fold = listed(_line(one, shown) for one in rest)
        yield tag(
            "details", tag("summary", f"{counted(len(rest), 'more finding')}: later, meets, not applicable"), fold
        )


def _line(one: Finding, shown: Finding) -> Markup:
    here = {"aria_current": "true"} if one is shown else {}
    link = tag("a", f"{one.subject}: {one.title}", href=subject_path(one.subject, f"{one.rule_set}/{one.rule}"), **here)
    return tag("p", drawn(mark_of(one)), tag("span", one.verdict, class_="word"), " ", link)
