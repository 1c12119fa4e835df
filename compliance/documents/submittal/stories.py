"""What stands in each part of the submittal, from its first page to its last."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reportlab.platypus.doctemplate import NextPageTemplate
from reportlab.platypus.flowables import CondPageBreak, PageBreak

from compliance.checked import Checked
from compliance.documents.attachments.attachment_pages import attachments
from compliance.documents.attachments.bound_files import Bound
from compliance.documents.calculations.calculations_front import calculations_front
from compliance.documents.calculations.every_check import checks
from compliance.documents.calculations.limits_register import register
from compliance.documents.calculations.rule_set_statements import statements
from compliance.documents.calculations.shared_questions import questions
from compliance.documents.calculations.wall_matrix import matrix
from compliance.documents.calculations.wall_sheets import wall_sheets
from compliance.documents.earth.material_pages import materials
from compliance.documents.elements.tally_strip import standings
from compliance.documents.elements.theme import PAPERS, drawn_on
from compliance.documents.figures.bracing_pages import bracing_shares
from compliance.documents.figures.drawing_block import DrawingBlock
from compliance.documents.figures.drawing_pages import drawings
from compliance.documents.figures.general_sheet import general_sheet
from compliance.documents.inspection.specimens_to_cast import specimens_to_cast
from compliance.documents.page.book import BODY, DRAWN_IN_TWO, Head
from compliance.documents.page.contents import Contents, in_contents
from compliance.documents.page.sheet import Sheet
from compliance.documents.papers.adopted_checklist import checklist
from compliance.documents.papers.answer_page import answer
from compliance.documents.papers.code_path import code_path
from compliance.documents.papers.cover import cover
from compliance.documents.papers.design_data_sheet import design_data_sheet
from compliance.documents.papers.items_requiring_action import items_requiring_action
from compliance.documents.papers.revision_history import revisions
from compliance.documents.papers.schedule import schedule
from compliance.documents.papers.sign_off import sign_off
from compliance.documents.papers.special_inspections import special_inspections
from compliance.documents.papers.tests_in_summary import tests_in_summary
from compliance.documents.papers.wall_summaries import wall_finder, wall_pages
from compliance.drawings.common.lettering import LEAST
from compliance.model.issued import IssuedRecord
from compliance.record import record
from compliance.report.by_rule import SetFindings
from compliance.report.revisions.findings_data import as_record
from compliance.report.revisions.revision_changes import changes
from compliance.report.summaries.action_items import action_items
from compliance.report.summaries.design_data import stands_alone
from compliance.units import Writer

_OF_PAPERS = "Codes and page numbers are links. Calculations and drawings are parts of their own, of the same revision."
_OF_CALCULATIONS = "To be looked up by the code of a rule or the mark of a wall. Every code and page number is a link."
_DEEPEST_OF_PAPERS = 0
_ROOM_FOR_CONTENTS = 260.0


@record
class Submitted:
    """What a submittal is made of; `bound` are the attachments as read, None where they are only listed."""

    checked: Checked
    sets: tuple[SetFindings, ...]
    head: Head
    previous: IssuedRecord | None = None
    bound: Sequence[Bound] | None = None


def papers_story(of: Submitted, following: Sequence[Any] = ()) -> list[Any]:
    """What the official reads. `following` is bound behind it and listed in its contents."""
    checked, sets = of.checked, of.sets
    writer = Writer(checked.project.project.units)
    items = action_items(sets, writer)
    body = [
        *code_path(checked, sets, items),
        *design_data_sheet(checked),
        *schedule(checked),
        *items_requiring_action(checked, items),
        *checklist(sets, writer, none_adopted=checked.project.jurisdiction.adopts_earthen_code is False),
        *wall_pages(checked, sets, items),
        *tests_in_summary(checked, sets),
        *special_inspections(checked, sets),
        *revisions(checked, of.previous),
        *sign_off(checked),
    ]
    opening = [*cover(checked, of.head), *answer(checked, sets, items)]
    if stands_alone(checked) and not following:  # few enough pages to leaf through
        return [*opening, *body]
    opening.append(CondPageBreak(_ROOM_FOR_CONTENTS))
    deepest = 1 if following else _DEEPEST_OF_PAPERS
    listed = entries([*opening, *body, *following], deepest)
    return [*opening, Contents(listed, _OF_PAPERS, deepest), wall_finder(checked), *body]


def drawings_story(of: Submitted, first: bool = True) -> list[Any]:
    """The sheets of drawings; where they are not `first`, on pages of their own behind what came before."""
    checked = of.checked
    head = checked.project.project
    drawn = drawings(checked, of.sets, drawn_on(head.paper, head.paper_of_drawings))
    before = [] if first else [NextPageTemplate(DRAWN_IN_TWO), PageBreak()]
    sheets = [*general_sheet(checked, drawn), *drawn]
    return [*before, *(one.lettered(LEAST) if isinstance(one, Sheet) else one for one in sheets)]


def calculations_story(of: Submitted, alone: bool = True) -> list[Any]:
    """What an engineer checks; `alone`: a document of its own, with contents."""
    checked, sets = of.checked, of.sets
    paper = PAPERS[checked.project.project.paper]
    references = checked.needed_references
    since = changes(of.previous, as_record(checked)) if of.previous else None
    body = [
        *matrix(checked, sets, paper),
        *wall_sheets(checked, sets),
        *checks(checked, sets),
        *questions(checked, sets),
        *bracing_shares(checked, paper),
        *materials(checked, sets, references.practice, since),
        *specimens_to_cast(checked, sets),
        *register(checked, sets),
        standings(),
        *statements(sets, checked.digests),
        *attachments(checked, sets, of.bound, paper),
    ]
    front = calculations_front(checked, alone)
    if alone:
        return [*front, Contents(entries([*front, *body], 1), _OF_CALCULATIONS), *body]
    return [NextPageTemplate(BODY), PageBreak(), *front, *body]


def entries(story: Sequence[Any], deepest: int) -> int:
    """How many lines contents of a story will have."""
    anchors = [row.anchor for one in story if isinstance(one, Sheet) for row in one.described]
    anchors += [anchor for one in story if isinstance(one, DrawingBlock) for anchor in one.anchors]
    return sum(in_contents(anchor, deepest) for anchor in anchors)
