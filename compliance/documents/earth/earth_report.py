"""A short report of soils, trial bricks, mixes and tests, for a project that has no building yet."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from compliance.checked import Checked
from compliance.documents.earth.material_pages import materials
from compliance.documents.elements import theme
from compliance.documents.elements.section_titles import part, running_text, title
from compliance.documents.elements.theme import PAPERS
from compliance.documents.page.book import Book
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.page.line_breaking import Words
from compliance.documents.page.rows import Row, full_row
from compliance.documents.page.sheet import Sheet
from compliance.report.by_rule import by_rule
from compliance.report.earth.answer_parts import EarthSection, NextStep
from compliance.report.earth.earth_answer import NO_BUILDING, earth_answer

_SUBJECT = "Soils, trial bricks, mixes and tests of earth for building. Says nothing of a building."
_CAUTION = (
    "Field tests, trial bricks and targets of practice are no rule of a code and no proof of strength. The adopted "
    "code and the building official decide which tests a building needs."
)


def write_earth_report(checked: Checked, path: Path) -> None:
    """Write the report to `path` as PDF. Raises DocumentError or OSError with nothing written."""
    register_faces()
    answer = earth_answer(checked)
    without_walls = [NO_BUILDING] if checked.project.is_earth_only else []
    lead = title("answer", "Soils and mixes", answer.sentence, *without_walls)
    sheets: list[Sheet] = [running_text(lead)]
    sheets += [_section(f"answer-{number}", one) for number, one in enumerate(answer.sections)]
    if answer.steps:
        sheets.append(_steps(answer.steps))
    story = [*sheets, *materials(checked, by_rule(checked), checked.needed_references.practice)]
    paper = PAPERS[checked.project.project.paper]
    Book(head_of(checked, "soils and mixes", _SUBJECT, caution=_CAUTION), paper, covered=False).write(story, path)


def _section(key: str, section: EarthSection) -> Sheet:
    rows = list(part(key, section.title))
    for line in section.lines:
        rows += list(_line(line.head, line.says))
    rows += [full_row(Words(remark, theme.SMALL_ITALIC)) for remark in section.remarks]
    return running_text(rows)


def _line(head: str, says: tuple[str, ...]) -> Iterator[Row]:
    yield full_row(Words(head, theme.BODY_BOLD), air=(3.0, 0.0))
    for text in says:
        yield full_row(Words(text, theme.BODY, indent=12.0))


def _steps(steps: tuple[NextStep, ...]) -> Sheet:
    """What to do next, without the names of the files: those are for the screen."""
    rows = list(part("next", "Next"))
    rows += [full_row(Words(f"{number}. {one.says}", theme.BODY, after=2.0)) for number, one in enumerate(steps, 1)]
    return running_text(rows)
