"""What changed since a revision was issued: what was stated, tests, limits, and what that did."""

from __future__ import annotations

from collections.abc import Iterator

from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import listed, page, section, subject_path
from compliance.desk.paperwork.paper_pages import PAPERS
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.report.revisions.revision_changes import Changes, FindingChange
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


def change_page(snapshot: Snapshot, found: Changes) -> bytes:
    """The whole page."""
    head = [tag("h1", f"Since {headed(found.before)}"), tag("p", f"{_capital(in_numbers(found))}.")]
    back = tag("p", tag("a", "To the papers", href=PAPERS, class_="button"))
    return page("What changed", snapshot, *head, *_parts(found), back, here=PAPERS)


def _parts(found: Changes) -> Iterator[Child]:
    yield from (tag("p", f"{_capital(text)}.") for text in wall_texts(found) if text)
    yield from (tag("p", f"{_capital(edition_text(old, new))}.") for old, new in found.editions)
    if found.inputs is None:
        yield tag("p", "What was stated is not in both records: changed inputs are not listed.")
    elif found.inputs:
        rows = (
            _was_is(one.path, one.before.text if one.before else NONE, one.after.text if one.after else NONE)
            for one in found.inputs
        )
        yield section("Stated", listed(rows))
    sentences = [*map(set_text, found.sets), *map(wall_mix_text, found.wall_mixes)]
    if sentences:
        yield section(SETS, listed(sentences))
    if found.limits:
        rows = (
            _was_is(f"{one.of.title}, {one.of.name.replace('_', ' ')} ({one.of.clause})", limit_text(one.before),
                    limit_text(one.after))
            for one in found.limits
        )  # fmt: skip
        yield section("Limits", listed(rows))
    for name, changes in found.by_subject:
        shown = sorted(filter(worth_a_line, changes), key=lambda one: one.direction)
        if shown:
            yield section(_capital(name), listed(map(_finding, shown)))


def _finding(one: FindingChange) -> Markup:
    of = one.of
    link = tag("a", f"{of.subject}: {of.title}", href=subject_path(of.subject, f"{of.rule_set}/{of.rule}"))
    what = tag("p", tag("span", one.word, class_="word"), " ", link, f" ({of.clause})")
    return joined([what, _was_is("", finding_text(one.before), finding_text(one.after))])


def _was_is(what: str, was: str, now: str) -> Markup:
    head = tag("p", what) if what else None
    return joined([head, tag("p", f"Was: {was}", class_="small"), tag("p", f"Is: {now}", class_="small")])


def _capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
