"""The submittal for the building official: papers, drawings and calculations of one revision, or all in one file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from compliance.checked import Checked
from compliance.documents.attachments.bound_files import Bound
from compliance.documents.elements.theme import PAPERS, drawn_on
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.papers.cover import PARTS, cautions_height, draw_cautions
from compliance.documents.submittal.stories import Submitted, calculations_story, drawings_story, papers_story
from compliance.files.atomic_files import write_whole
from compliance.model.issued import IssuedRecord
from compliance.record import record
from compliance.report.by_rule import SetFindings, by_rule
from compliance.report.value_words import counted

PART_NAMES = tuple(key for key, _, _ in PARTS)
_WHAT = "submittal to the building official"


@record
class _Part:
    """A part before it is drawn."""

    book: Book
    story: Sequence[Any]


def write_submittal(
    checked: Checked,
    path: Path,
    previous: IssuedRecord | None = None,
    draft: bool = False,
    bound: Sequence[Bound] | None = None,
) -> None:
    """Write the submittal of `checked` to `path` as one PDF, whole or not at all: papers, drawings, calculations. What
    changed since `previous` is told in it; a draft says on every page that it is one. `bound` are the attachments as
    read; without them they are only listed, and the list says so.

    Raises DocumentError for a text that the document's faces cannot set, OSError where the file cannot be
    written; whatever stood at `path` before is then still there.
    """
    register_faces()
    paper, sheet = _papers(checked)
    head = head_of(checked, _WHAT, draft=draft)
    of = Submitted(checked, sets=by_rule(checked), head=head, previous=previous, bound=bound)
    behind = [*drawings_story(of, first=False), *calculations_story(of, alone=False)]
    book = Book(head, paper, draw_cautions, cautions_height(paper), drawn_on=sheet)
    book.elsewhere = {f"extent-{key}": "bound in this file" for key in PART_NAMES}
    book.write([*papers_story(of, behind), *behind], path)


def build_parts(
    checked: Checked,
    wanted: Iterable[str] = PART_NAMES,
    previous: IssuedRecord | None = None,
    draft: bool = False,
    bound: Sequence[Bound] | None = None,
) -> dict[str, bytes]:
    """The wanted parts by name, each as PDF. All are laid out, so that each names pages and extent of the others.
    Raises DocumentError."""
    register_faces()
    sets = by_rule(checked)
    parts = {
        key: _part(checked, key=key, name=name, sets=sets, previous=previous, draft=draft, bound=bound)
        for key, name, _ in PARTS
    }
    for part in parts.values():
        part.book.count(part.story)
    extents = _extents(parts)
    for key, part in parts.items():
        part.book.elsewhere = extents | _places_elsewhere(parts, key)
    return {key: parts[key].book.made(parts[key].story) for key in PART_NAMES if key in set(wanted)}


def write_part(checked: Checked, path: Path, part: str, **options: Any) -> None:
    """Write one part to `path`, whole or not at all. Raises DocumentError or OSError."""
    write_whole(path, build_parts(checked, (part,), **options)[part])


def _part(
    checked: Checked,
    key: str,
    name: str,
    sets: tuple[SetFindings, ...],
    previous: IssuedRecord | None,
    draft: bool,
    bound: Sequence[Bound] | None,
) -> _Part:
    paper, sheet = _papers(checked)
    head = head_of(checked, f"{_WHAT}, {key}", draft=draft, part=name)
    of = Submitted(checked, sets=sets, head=head, previous=previous, bound=bound)
    if key == "papers":
        return _Part(Book(head, paper, draw_cautions, cautions_height(paper)), papers_story(of))
    if key == "drawings":
        return _Part(Book(head, paper, covered=False, drawn_on=sheet, drawn_first=True), drawings_story(of))
    return _Part(Book(head, paper, covered=False), calculations_story(of))


def _papers(checked: Checked) -> tuple[Any, Any]:
    head = checked.project.project
    return PAPERS[head.paper], drawn_on(head.paper, head.paper_of_drawings)


def _extents(parts: Mapping[str, _Part]) -> dict[str, str]:
    """How many pages or sheets each part has."""
    return {
        f"extent-{key}": counted(part.book.counted, "sheet" if key == "drawings" else "page")
        for key, part in parts.items()
    }


def _places_elsewhere(parts: Mapping[str, _Part], own: str) -> dict[str, str]:
    """The places of the other parts as this one names them."""
    found: dict[str, str] = {}
    for key, part in parts.items():
        if key != own:
            found |= part.book.labels(key)
    return found
