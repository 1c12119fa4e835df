"""The page of problems that stand in the way of reading the files: each with its lines, and a form for the one at
fault."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from urllib.parse import quote

from compliance.desk.kept_check import Snapshot
from compliance.desk.mending.file_lines import Excerpt, excerpt, name_in
from compliance.desk.pages.frame import page, section
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.problems import Problem

_MOST = 20


def mend_page(snapshot: Snapshot, folder: Path, file: str = "", line: int = 0, why: str = "", typed: str = "") -> bytes:
    """`file` and `line` name one more place to show first; `why` says what was not written, `typed` what it was."""
    parts: list[Child] = [tag("h1", "Fix the files")]
    if why:
        parts.append(tag("p", f"Nothing was written: {why}", class_="care", role="alert"))
    asked = excerpt(folder, file, line) if file else None
    if asked is not None:
        parts.append(section(f"{file}, line {asked.line}", *_lines(asked, typed or asked.text, "asked")))
    if not snapshot.problems:
        parts += [tag("p", "The files can be read as they stand."), tag("p", tag("a", "To the answer", href="/"))]
    parts += _problems(snapshot.problems[:_MOST], folder)
    if len(snapshot.problems) > _MOST:
        parts.append(tag("p", f"{len(snapshot.problems) - _MOST} more follow when these are mended."))
    return page("Fix the files", snapshot, *parts, here="/mend")


def _problems(problems: Sequence[Problem], folder: Path) -> Iterator[Child]:
    for number, one in enumerate(problems, 1):
        name = name_in(folder, one.place.file)
        found = excerpt(folder, name, one.place.line) if name and one.place.line else None
        where = f"{name or Path(one.place.file).name}, line {one.place.line}" if one.place.line else name
        says: list[Child] = [tag("p", f"{one.wrong} [{one.code}]", class_="what")]
        says += [tag("p", f"{one.instead[:1].upper()}{one.instead[1:]}.")] if one.instead else []
        if found is None:
            says.append(tag("p", "This page cannot change it; change the folder or the file itself.", class_="small"))
        else:
            says += _lines(found, found.text, str(number))
        yield section(where or "The folder", *says)


def _lines(found: Excerpt, text: str, key: str) -> Iterator[Markup]:
    """The lines about the place, and the form for one of them; each other number leads to a form of its own."""
    rows = [_row(number, line, found) for number, line in found.lines]
    yield tag("pre", joined(rows), tabindex="0")
    rows_of_text = str(min(max(text.count("\n") + 1, 2), 8))
    yield tag(
        "form",
        _unseen("file", found.file), _unseen("line", str(found.line)), _unseen("digest", found.digest),
        tag("label", f"Line {found.line} becomes", for_=f"text-{key}"),
        tag("textarea", f"\n{text}", name="text", id=f"text-{key}", rows=rows_of_text, spellcheck="false",
            autocomplete="off"),
        tag("p", "Blanks at its beginning count. Several lines may be written, or none to empty it.", class_="small"),
        tag("button", "Save the line", type="submit"),
        method="post", action="/mend",
    )  # fmt: skip


def _row(number: int, line: str, found: Excerpt) -> Markup:
    here = number == found.line
    address = f"/mend?file={quote(found.file, safe='')}&line={number}"
    label = tag("b", f"{number:>5}") if here else tag("a", f"{number:>5}", href=address)
    return joined([label, f"{' > ' if here else '   '}{line}\n"])


def _unseen(name: str, value: str) -> Markup:
    return tag("input", type="hidden", name=name, value=value)
