"""Answers, limits and inspections that are recorded, and the pages they are recorded on."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.paperwork.asked_people import Asked, given_answers
from compliance.desk.paperwork.inspection_pages import INSPECTIONS, inspection_page, points_asked
from compliance.desk.paperwork.limit_pages import LIMITS, limit_page, limits_read
from compliance.desk.paperwork.question_pages import QUESTIONS, acceptable, question_page, questions_asked
from compliance.desk.paperwork.record_forms import Entry, Fields, Written, day_of_field, read_fields, text_of_field
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import FormError
from compliance.editing.accepted_deviations import Acceptance, accept_deviation
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError, Step
from compliance.editing.limit_confirmation import confirm_limits
from compliance.editing.stage_change import write_stage
from compliance.editing.written_answers import enter_answers
from compliance.editing.yaml_splice import SpliceError
from compliance.problems import ProblemsFound
from compliance.reading.source_lines import read_source_lines
from compliance.report.answer.answer_sheet import entered_lines
from compliance.stages import Stage

PageOf = Callable[[Snapshot, Entry], bytes]
Write = Callable[[Checked, Fields], Written]


class RecordPage:
    """A page whose forms are sent to its own address. What could not be written is typed in again for the reader; what
    was written is told until the next change."""

    def __init__(self, desk: DeskContext, path: str, page_of: PageOf, writers: Mapping[str, Write]) -> None:
        self._desk, self._path, self._page_of, self._writers = desk, path, page_of, writers
        self._by = ""
        self._last: Written | None = None

    def routes(self) -> list[Route]:
        return [Route(self._path, self._show), Route(self._path, self._take, methods=["POST"])]

    def _show(self, request: Request) -> Response:
        with self._desk.kept.lock:
            now, last = self._desk.kept.look(), self._last
            is_last = last is not None and (last.step is None or self._desk.kept.history.is_last(last.step))
            says = last.says if last is not None and is_last else ()
            entry = Entry(says=says, by=self._by, asked=dict(request.query_params))
            return html_of(self._page_of(now, entry))

    async def _take(self, request: Request) -> Response:
        return await run_in_threadpool(self._taken, await request.body())

    def _taken(self, body: bytes) -> Response:
        try:
            fields = read_fields(body)
        except FormError as error:
            return PlainTextResponse(f"{error}.", 400)
        write = self._writers.get(fields.get("do", [""])[0])
        if write is None:
            return PlainTextResponse("This form belongs to no page.", 400)
        with self._desk.kept.lock:
            status, why = 422, []
            try:
                written = self._written(write, fields)
            except ProblemsFound as found:
                why = [_words(one.place.file, one.wrong, one.instead) for one in found.problems]
            except ChangedMeanwhileError as error:
                status, why = 409, [str(error)]
            except (EditRefusedError, SpliceError, LookupError, TypeError) as error:
                why = [str(error)]
            except OSError as error:
                status, why = 500, [f"the file cannot be written: {error.strerror or error}"]
            else:
                self._last, self._by = written, written.by or self._by
                return RedirectResponse(self._path + ("?later=1" if "later" in fields else ""), 303)
            asked = {"later": "1"} if "later" in fields else {}
            entry = Entry(fields, why=tuple(dict.fromkeys(why)), by=self._by, asked=asked)
            return html_of(self._page_of(self._desk.kept.look(), entry), status)

    def _written(self, write: Write, fields: Fields) -> Written:
        """Raises as the writers do, with nothing written."""
        kept = self._desk.kept
        now = kept.look()
        if now.checked is None or now.problems:
            raise ChangedMeanwhileError("the files cannot be read as they stand; nothing was written")
        written = write(now.checked, fields)
        if written.step is not None:
            kept.history.add(written.step)
            if found := kept.look().problems:  # read as planned, and yet the files do not: as they were, then
                kept.history.undo()
                raise ProblemsFound(found)
        return written


def _words(place: str, wrong: str, instead: str) -> str:
    named = "" if place.endswith((".yaml", ".csv", ".json")) else f"{place}: "
    return f"{named}{wrong}" + (f" ({instead})" if instead else "")


def record_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""
    folder = desk.kept.folder

    def answers(asked: Callable[[Checked, Fields], list[Asked]]) -> Write:
        def write(checked: Checked, fields: Fields) -> Written:
            given = given_answers(fields, asked(checked, fields), checked.project.attachments)
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
            desk, INSPECTIONS, lambda now, entry: inspection_page(now, entry, read_source_lines, date.today()),
            {"inspect": answers(lambda checked, _: points_asked(checked))},
        ).routes(),
    ]  # fmt: skip
