"""Answers, limits and inspections that are recorded, and the pages they are recorded on."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from starlette.routing import Route

from compliance.checked import Checked
from compliance.desk.paperwork.asked_people import Asked, given_answers
from compliance.desk.paperwork.inspection_pages import INSPECTIONS, inspection_page, points_asked
from compliance.desk.paperwork.limit_pages import LIMITS, limit_page, limits_read
from compliance.desk.paperwork.point_photos import point_photos
from compliance.desk.paperwork.question_pages import QUESTIONS, acceptable, question_page, questions_asked
from compliance.desk.paperwork.record_forms import Fields, Written, day_of_field, text_of_field
from compliance.desk.routing.desk_context import DeskContext
from compliance.desk.routing.record_page import RecordPage, Write
from compliance.editing.accepted_deviations import Acceptance, accept_deviation
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError, Step
from compliance.editing.limit_confirmation import confirm_limits
from compliance.editing.stage_change import write_stage
from compliance.editing.written_answers import enter_answers
from compliance.reading.source_lines import read_source_lines
from compliance.report.answer.answer_sheet import entered_lines
from compliance.stages import Stage


def record_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""
    folder = desk.kept.folder

    def answers(asked_of: Callable[[Checked, Fields], list[Asked]]) -> Write:
        def write(checked: Checked, fields: Fields) -> Written:
            asked = asked_of(checked, fields)
            photos = point_photos(fields, asked, desk.proofs)
            given = given_answers(fields, asked, checked.project.attachments, photos)
            entered = enter_answers(folder, given)
            return Written(entered.step, tuple(entered_lines(entered.checked, entered.findings)), by=given[0].by)

        return write

    def confirm(checked: Checked, fields: Fields) -> Written:
        read = limits_read(checked, fields)
        step = confirm_limits(folder, read)
        says = tuple(f"{one.rule} {one.limit} is {one.value}, read by {one.by}" for one in read)
        return Written(step, says, by=read[0].by)

    def accept(checked: Checked, fields: Fields) -> Written:
        named = text_of_field(fields, "finding", "choose the finding that was accepted")
        found = [one for one in acceptable(checked) if f"{one.rule_set}/{one.rule} {one.subject}" == named]
        if not found:
            raise ChangedMeanwhileError("that finding is not outside a limit any more; nothing was written")
        on = day_of_field(fields, "accepted-on", "write on which day it was accepted")
        assert on is not None
        step = accept_deviation(
            folder,
            Acceptance(
                f"{found[0].rule_set}/{found[0].rule}", subject=found[0].subject, on=on,
                official=text_of_field(fields, "official", "write which official accepted it"),
                document=text_of_field(fields, "document", "write which letter or decision says so"),
                condition=text_of_field(fields, "condition") or None, until=day_of_field(fields, "until"),
            ),
        )  # fmt: skip
        return Written(step, (step.words,))

    def stage(checked: Checked, fields: Fields) -> Written:
        try:
            wanted = Stage(text_of_field(fields, "stage"))
        except ValueError:
            raise EditRefusedError("choose a stage") from None
        step: Step = write_stage(folder, wanted)
        return Written(step, (f"The project stands at the stage {wanted.words}.",))

    return [
        *RecordPage(
            desk, QUESTIONS, lambda now, entry: question_page(now, entry, read_source_lines, date.today()),
            {"answer": answers(lambda checked, fields: questions_asked(checked, "later" in fields)),
             "accept": accept, "stage": stage},
        ).routes(),
        *RecordPage(
            desk, LIMITS, lambda now, entry: limit_page(now, entry, read_source_lines, date.today()),
            {"confirm": confirm},
        ).routes(),
        *RecordPage(
            desk, INSPECTIONS,
            lambda now, entry: inspection_page(
                now, entry, held=desk.proofs, read_lines=read_source_lines, today=date.today()
            ),
            {"inspect": answers(lambda checked, _: points_asked(checked))},
        ).routes(),
    ]  # fmt: skip
