"""The submittal for the building official, from cover to sign-off."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from reportlab.platypus.flowables import PageBreak

from compliance.checked import Checked
from compliance.documents.attachments.attachment_pages import attachments
from compliance.documents.attachments.bound_files import Bound
from compliance.documents.calculations.wall_sheets import wall_sheets
from compliance.documents.counter.counter_sheet import counter_questions
from compliance.documents.earth.material_pages import materials
from compliance.documents.elements.theme import PAPERS
from compliance.documents.figures.bracing_pages import bracing_shares
from compliance.documents.figures.drawing_block import DrawingBlock
from compliance.documents.figures.drawing_pages import drawings
from compliance.documents.inspection.inspection_plan import inspection_plan
from compliance.documents.page.book import Book
from compliance.documents.page.contents import Contents, in_contents
from compliance.documents.page.document_head import head_of
from compliance.documents.page.faces import register_faces
from compliance.documents.page.sheet import Sheet
from compliance.documents.submittal.answer_page import answer
from compliance.documents.submittal.clause_checklist import checklist
from compliance.documents.submittal.cover import cautions_height, cover, draw_cautions
from compliance.documents.submittal.every_check import checks
from compliance.documents.submittal.items_requiring_action import read_first
from compliance.documents.submittal.limits_register import register
from compliance.documents.submittal.revision_history import revisions
from compliance.documents.submittal.rule_set_statements import statements
from compliance.documents.submittal.schedule import schedule
from compliance.documents.submittal.shared_questions import questions
from compliance.documents.submittal.sign_off import sign_off
from compliance.documents.submittal.wall_matrix import matrix
from compliance.documents.submittal.wall_pages import wall_pages
from compliance.model.issued import IssuedRecord
from compliance.report.by_rule import by_rule


def write_submittal(
    checked: Checked,
    path: Path,
    previous: IssuedRecord | None = None,
    draft: bool = False,
    bound: Sequence[Bound] | None = None,
) -> None:
    """Write the submittal of `checked` to `path` as PDF, whole or not at all. What changed since `previous` is told in
    it; a draft says on every page that it is one. `bound` are the attachments as read; without them they are only
    listed, and the list says so.

    Raises DocumentError for a text that the document's faces cannot set, OSError where the file cannot be
    written; whatever stood at `path` before is then still there.
    """
    register_faces()
    project = checked.project.project
    paper = PAPERS[project.paper]
    sets = by_rule(checked)
    references = checked.needed_references
    body = [
        *counter_questions(checked, sets, references.counter_questions()),
        *revisions(checked, previous),
        *drawings(checked, sets, paper),
        *schedule(checked),
        *wall_pages(checked, sets),
        *bracing_shares(checked, paper),
        *matrix(checked, sets, paper),
        *read_first(checked, sets),
        *checklist(checked, sets),
        *wall_sheets(checked, sets),
        *checks(checked, sets),
        *questions(checked, sets),
        *materials(checked, sets, references.practice),
        *register(checked, sets),
        *statements(sets),
        *inspection_plan(checked, sets),
        *attachments(checked, sets, bound, paper),
        *sign_off(checked),
    ]
    head = head_of(checked, "submittal to the building official", draft=draft)
    opening = [*cover(checked, sets, head), *answer(checked, sets), PageBreak()]
    story = [*opening, Contents(_entries([*opening, *body])), *body]
    book = Book(head, paper, draw_cautions, cautions_height(paper))
    book.write(story, path)


def _entries(body: list[Any]) -> int:
    """How many lines the contents will have."""
    anchors = [row.anchor for one in body if isinstance(one, Sheet) for row in one.lead]
    anchors += [anchor for one in body if isinstance(one, DrawingBlock) for anchor in one.anchors]
    return sum(map(in_contents, anchors))
