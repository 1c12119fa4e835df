"""The checklist as one page for the phone on site: no network, no scripts, readable in sun and on paper."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from compliance.checked import Checked
from compliance.findings import Finding
from compliance.judging.records import waits_for_the_work
from compliance.output.checklist.html_style import STYLE, SYMBOLS, drawn
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.report.by_rule import RuleFindings, SetFindings, by_rule
from compliance.report.cautions import CAUTIONS, SHORT
from compliance.report.checklist_rows import ChecklistRow, checklist_rows
from compliance.report.grouping import reason_of, subjects, words
from compliance.report.inspection_points import SitePoint, site_points
from compliance.report.limits.open_limits import LimitToRead, limits_to_read
from compliance.report.marks import Mark, mark_of
from compliance.report.result_words import format_result
from compliance.report.tally import counts, tally_word
from compliance.report.value_words import counted
from compliance.report.wall_evidence import WallEvidence, WallFinding, wall_evidence
from compliance.report.words.missing_words import names_what_lacks, reason_text, to_add
from compliance.units import Writer

_ASKING = (Mark.ENGINEER, Mark.REVISE, Mark.MISSING)
_PARTS = (
    ("answer", "How it stands"), ("walls", "Walls"), ("inspection", "Inspection"), ("limits", "Limits to read"),
    ("checklist", "Checklist"), ("cautions", "Cautions"),
)  # fmt: skip
_TO_TICK = "This page keeps no ticks. Printed, it has boxes to tick; what was passed is recorded in the project."
# Nothing may be fetched and nothing may run, whatever stands in a text.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def html_page(checked: Checked) -> str:
    """The whole page; the same project gives the same text."""
    sets = by_rule(checked)
    groups = [group for one in sets for group in one.rules]
    points = site_points(sets, checked.project.footings)
    writer = Writer(checked.project.project.units)
    parts = {
        "answer": [_tally(checked), *_asking(groups, writer)],
        "walls": [_wall(checked, one, writer) for one in wall_evidence(checked, sets, points)],
        "inspection": [_points(points, writer)],
        "limits": [_limits(limits_to_read(sets))],
        "checklist": [_set(one.rule_set, one.rows) for one in checklist_rows(checked, sets)],
        "cautions": [tag("p", tag("b", name), " ", text) for name, text in CAUTIONS],
    }
    body = [tag("section", tag("h2", title), *parts[key], id=key) for key, title in _PARTS]
    page = tag("body", SYMBOLS, _header(checked), tag("main", *body))
    return f"<!doctype html>\n{tag('html', _head(checked), page, lang='en')}\n"


def _head(checked: Checked) -> Markup:
    head = checked.project.project
    return tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", http_equiv="Content-Security-Policy", content=_POLICY),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", name="generator", content="earthwall"),
        tag("meta", name="referrer", content="no-referrer"),
        tag("title", f"{head.name}: checklist, revision {head.revision}"),
        tag("style", STYLE),
    )


def _header(checked: Checked) -> Markup:
    head, place = checked.project.project, checked.project.jurisdiction
    phrases = [head.number or "", f"revision {head.revision}", head.date.isoformat(), place.name, head.address or ""]
    return tag(
        "header",
        tag("p", "Checklist of load-bearing earthen walls", class_="small"),
        tag("h1", head.name),
        tag("p", ", ".join(text for text in phrases if text)),
        tag("p", f"Input {checked.fingerprint[:12]}", class_="small"),
        tag("p", SHORT, class_="care"),
        tag("nav", *(tag("a", title, href=f"#{key}") for key, title in _PARTS)),
    )


def _tally(checked: Checked) -> Markup:
    return tag(
        "ul",
        *(tag("li", drawn(mark), tag("b", str(count)), tally_word(mark)) for mark, count in counts(checked).items()),
        class_="tally",
    )


def _asking(groups: Sequence[RuleFindings], writer: Writer) -> Iterator[Markup]:
    for mark in _ASKING:
        rows = [row for group in groups for row in _reasons(group, mark, writer)]
        if rows:
            yield tag("h3", drawn(mark), mark.value.heading)
            yield tag("ul", *rows, class_="rows two")


def _reasons(group: RuleFindings, mark: Mark, writer: Writer) -> Iterator[Markup]:
    """One line for each reason; subjects that share it share the line."""
    same: dict[tuple[object, ...], list[Finding]] = {}
    for finding in group.findings:
        if mark_of(finding) is mark:
            same.setdefault(words(finding, writer), []).append(finding)
    for found in same.values():
        reason = reason_of(found, writer)
        yield tag(
            "li",
            tag("p", f"{subjects(found)}: {group.first.title}", class_="what"),
            tag("p", reason),
            _small(f"Do: {found[0].remedy}" if found[0].remedy else ""),
            _small(f"To add: {to_add(found)}" if found[0].missing and not names_what_lacks(found) else ""),
            _small(f"{group.code}, {group.first.clause}"),
        )


def _small(text: str) -> Markup | None:
    return tag("p", text, class_="small") if text else None


def _wall(checked: Checked, one: WallEvidence, writer: Writer) -> Markup:
    name = checked.project.walls[one.mark].name
    heading = f"{one.mark}, {name}" if name else one.mark
    shown = (*one.height, *one.strength, *one.asking)
    mark = min((mark_of(each.finding) for each in shown), key=lambda mark: mark.rank, default=Mark.NOT_APPLICABLE)
    return tag(
        "details",
        tag("summary", drawn(mark), f"{heading}: {_question_about(shown)}"),
        *_part("Height", one.height, writer),
        *_part("Strength", one.strength, writer),
        *_part("Asks for something", one.asking, writer),
        _small(f"{counted(one.open, 'finding waits', 'findings wait')} for a limit or rule" if one.open else ""),
        tag("h3", "Inspection"),
        tag("ul", *(_of_wall(point, found) for point, found in one.points), class_="rows"),
        id=f"wall-{one.mark}",
    )


def _question_about(shown: Sequence[WallFinding]) -> str:
    """How many findings of a wall ask for something, by mark."""
    found = Counter(mark_of(one.finding) for one in shown)
    phrases = [
        f"{found[mark]} {mark.value.heading[:1].lower()}{mark.value.heading[1:]}" for mark in _ASKING if found[mark]
    ]
    return ", ".join(phrases) or "nothing to revise, missing or for an engineer"


def _part(heading: str, shown: Sequence[WallFinding], writer: Writer) -> Iterator[Markup]:
    yield tag("h3", heading)
    if not shown:
        yield tag("p", "Nothing.")
        return
    yield tag("ul", *(_wall_finding(one, writer) for one in shown), class_="rows two")


def _wall_finding(one: WallFinding, writer: Writer) -> Markup:
    finding = one.finding
    name = finding.title if finding.subject == finding.wall else f"{finding.title}, {finding.subject}"
    return tag(
        "li",
        tag("p", name, class_="what"),
        tag("p", drawn(mark_of(finding)), f"{finding.verdict}: {format_result(finding, writer)}"),
        _small(f"{one.group.code}, {finding.clause}"),
    )


def _of_wall(point: SitePoint, found: Sequence[Finding]) -> Markup:
    passed = {id(one) for one in point.passed}
    left = [one.subject for one in found if id(one) not in passed]
    return tag("li", *_kind(point), f"{point.stage}: {', '.join(left) if left else 'passed'}")


def _kind(point: SitePoint) -> tuple[Child, ...]:
    return (tag("span", point.kind_word, class_="kind hold" if point.is_hold else "kind"),)


def _points(points: Sequence[SitePoint], writer: Writer) -> Markup:
    if not points:
        return tag("p", "The rule sets name no point of inspection. Ask the official what is inspected.")
    return joined([_small(_TO_TICK), tag("ul", *(_point(point, writer) for point in points), class_="rows two")])


def _point(point: SitePoint, writer: Writer) -> Markup:
    waiting = [tag("p", tag("span", class_="box"), f"waits: {one.subject}") for one in point.to_look_at]
    done = [tag("p", drawn(mark_of(one)), f"{one.subject}: {reason_text(one, writer)}") for one in point.recorded]
    return tag(
        "li",
        tag("p", *_kind(point), f"{point.stage}: {point.group.first.title}", class_="what"),
        tag("p", point.looked_at.look_at),
        tag("p", f"Write down: {point.record_text}"),
        _small(f"Who: {point.inspect.who}. {point.code}, {point.group.first.clause}"),
        *done,
        *waiting,
    )


def _limits(limits: Sequence[LimitToRead]) -> Markup:
    if not limits:
        return tag("p", "No limit that a finding rests on is open.")
    return tag("ul", *map(_limit, limits), class_="rows two")


def _limit(one: LimitToRead) -> Markup:
    return tag(
        "li",
        tag("p", one.what, class_="what"),
        tag("p", tag("span", class_="box"), f"Read in: {one.where}"),
        _small(f"{one.group.code}; {counted(one.waiting, 'finding waits', 'findings wait')} for it"),
    )


def _set(one: SetFindings, rows: Iterable[ChecklistRow]) -> Markup:
    return joined([tag("h3", one.heading), tag("ul", *map(_rule, rows), class_="rows")])


def _rule(row: ChecklistRow) -> Markup:
    first = row.group.first
    return tag(
        "li",
        tag("p", tag("span", row.group.code, class_="code"), first.clause),
        tag("p", first.title, class_="what"),
        tag("div", *_results(row)),
        class_="rule",
    )


def _results(row: ChecklistRow) -> Iterator[Markup]:
    if row.mark is Mark.NOT_APPLICABLE:
        yield tag("p", drawn(Mark.NOT_APPLICABLE), "does not apply")
        return
    waits = [one for one in row.group.findings if mark_of(one) is Mark.LATER and waits_for_the_work(one)]
    if waits:
        yield tag("p", drawn(Mark.LATER), f"waits for the work: {subjects(waits)}")
    for mark in Mark:
        same = [one for one in row.group.findings if mark_of(one) is mark and one not in waits]
        if same and mark is not Mark.NOT_APPLICABLE:
            yield tag("p", drawn(mark), f"{mark.value.word}: {subjects(same)}")
