"""What every page of the desk has around it, and the parts that several use."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from urllib.parse import quote

from compliance.desk.kept_check import Snapshot
from compliance.output.checklist.html_style import SHAPES
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines, problems_text
from compliance.problems import Problem
from compliance.report.cautions import CAUTIONS, SHORT
from compliance.report.marks import Mark

_WIDE = 88
_SYMBOLS = Markup(
    '<svg class="away" aria-hidden="true">'
    + "".join(
        f'<symbol id="m-{mark.name.lower()}" viewBox="0 0 10 10">{shape}</symbol>' for mark, shape in SHAPES.items()
    )
    + "</svg>"
)
_NO_PROJECT = {True: "A new project", False: "A project that cannot be read yet"}
PLACES = (
    ("/", "Answer"),
    ("/plan", "Plan"),
    ("/parts", "Parts"),
    ("/earth", "Earth"),
    ("/tests", "Tests"),
    ("/photos", "Photos and papers"),
    ("/questions", "Questions"),
    ("/limits", "Limits"),
    ("/inspections", "Inspections"),
    ("/papers", "Papers"),
    ("/cautions", "Cautions"),
    ("/phone", "Phone"),
)
PHONE_PLACES = (
    ("/", "Answer"),
    ("/inspections", "Inspections"),
    ("/photos", "Photos and papers"),
    ("/plan", "Plan"),
    ("/limits", "Limits"),
    ("/papers", "Papers"),
    ("/cautions", "Cautions"),
)
"""What a phone may open."""
_ON_PHONE = "A phone reads the project, adds photos and records hold points. Nothing that is sent is encrypted."


def page(title: str, snapshot: Snapshot, *children: Child, here: str = "", scripts: Sequence[str] = ()) -> bytes:
    """The whole page. It says which check it shows, so that its script knows when there is a newer one; `scripts` are
    those that it needs besides."""
    head = snapshot.checked.project.project if snapshot.checked else None
    name = f"{head.name}, revision {head.revision}" if head else _NO_PROJECT[here == "/begin"]
    parts = tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("title", f"{title}: {name}"),
        tag("link", rel="stylesheet", href="/static/desk.css"),
        tag("link", rel="icon", href="/static/icon.svg"),
        *(tag("script", type="module", src=f"/static/{name}") for name in ("live.js", *scripts)),
    )
    all_places = PHONE_PLACES if snapshot.is_for_phone else PLACES
    places = all_places if here != "/begin" else ()  # there is no other page yet
    links = [
        tag("a", label, href=place, **({"aria_current": "page"} if place == here else {})) for place, label in places
    ]
    steps = None if snapshot.is_for_phone else _steps(snapshot)
    body = tag(
        "body",
        _SYMBOLS,
        tag("a", "To the content", class_="skip", href="#content"),
        tag("header", tag("p", name, class_="name"), tag("nav", *links, steps, aria_label="Pages")),
        tag("div", class_="news", id="news", role="status", aria_live="polite"),
        tag("main", *children, id="content", tabindex="-1", data_number=str(snapshot.number)),
        tag("footer", tag("p", SHORT), tag("p", _ON_PHONE) if snapshot.is_for_phone else end_form()),
        **({"class_": "phone"} if snapshot.is_for_phone else {}),
    )
    return f"<!doctype html>\n{tag('html', parts, body, lang='en')}\n".encode()


def _steps(snapshot: Snapshot) -> Markup:
    """The buttons that take the last step back and make it again, if any."""
    shown = [("/undo", "Undo", snapshot.to_undo), ("/redo", "Redo", snapshot.to_redo)]
    return joined(
        tag("form", tag("button", label, type="submit", title=words), method="post", action=address)
        for address, label, words in shown
        if words
    )


def end_form() -> Markup:
    """The button that ends the desk."""
    return tag("form", tag("button", "End the desk", type="submit"), method="post", action="/end", class_="end")


def drawn(mark: Mark) -> Markup:
    """The mark as a shape; its word always stands beside it."""
    name = mark.name.lower()
    return Markup(
        f'<svg class="mark pigment-{name}" aria-hidden="true" fill="currentColor"><use href="#m-{name}"/></svg>'
    )


def subject_path(subject: str, rule: str = "") -> str:
    """The address of the page of a subject, with one rule of it on top."""
    return f"/subject/{quote(subject, safe='')}" + (f"?rule={quote(rule, safe='')}" if rule else "")


def section(title: str, *children: Child, class_: str = "") -> Markup:
    """A part of a page under its heading; nothing where it has no children."""
    if not children:
        return Markup("")
    return tag("section", tag("h2", title), *children, **({"class_": class_} if class_ else {}))


def listed(lines: Iterable[Child], class_: str = "rows") -> Markup:
    return tag("ul", *(tag("li", line) for line in lines), class_=class_)


def problems_box(snapshot: Snapshot, read_lines: ReadLines) -> Markup:
    """What stands in the way of reading the files, where something does."""
    if not snapshot.problems:
        return Markup("")
    old = "Below is the last check that could be made; it is out of date." if snapshot.checked else ""
    text = problems_text(snapshot.problems, _WIDE, read_lines)
    mend = tag("a", "Fix the lines here", href="/mend", class_="button")
    return tag(
        "section",
        tag("h2", "The files cannot be read as they stand"),
        tag("p", f"Nothing was checked anew. {old}"),
        tag("pre", text, tabindex="0"),
        tag("p", "The lines are mended at the desk." if snapshot.is_for_phone else mend),
        class_="care",
        role="alert",
    )


def warnings_box(warnings: Iterable[Problem], read_lines: ReadLines) -> Markup:
    some = list(warnings)
    if not some:
        return Markup("")
    text = problems_text(some, _WIDE, read_lines)
    return tag("details", tag("summary", f"Warnings ({len(some)})"), tag("pre", text, tabindex="0"))


def cautions_page(snapshot: Snapshot) -> bytes:
    """Every caution in full."""
    texts = joined(tag("p", tag("b", name), " ", text) for name, text in CAUTIONS)
    return page("Cautions", snapshot, tag("h1", "Cautions"), texts, here="/cautions")


def as_data(value: object) -> str:
    """A value for a data attribute or a hidden field."""
    return json.dumps(value, ensure_ascii=False)
