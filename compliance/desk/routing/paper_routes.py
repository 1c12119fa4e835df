"""Papers made and opened, revisions, what changed since one, comments of the official."""

from __future__ import annotations

from datetime import date

from starlette.requests import Request
from starlette.responses import FileResponse, PlainTextResponse, Response
from starlette.routing import Route

from compliance.checked import Checked
from compliance.checking import check_folder
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.edit_html import problems_words
from compliance.desk.pages.frame import page
from compliance.desk.paperwork.change_pages import change_page
from compliance.desk.paperwork.paper_files import TYPES, paper_path, papers_there
from compliance.desk.paperwork.paper_kinds import BY_NAME
from compliance.desk.paperwork.paper_pages import PAPERS, PaperDesk, paper_page
from compliance.desk.paperwork.paper_worker import PaperWorker
from compliance.desk.paperwork.record_forms import Entry, Fields, Written, day_of_field, text_of_field
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.routing.record_page import RecordPage
from compliance.desk.sent_forms import FormError, read_seen
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError, ValueEdit, write_edits
from compliance.model.issued import IssuedRecord
from compliance.output.checklist.html_tags import tag
from compliance.problems import ProblemsFound
from compliance.reading.issued_records import read_issued
from compliance.reading.source_lines import read_source_lines
from compliance.report.revisions.findings_data import as_record
from compliance.report.revisions.revision_changes import changes
from compliance.stages import Stage


def paper_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""
    folder, worker = desk.kept.folder, PaperWorker(desk.kept)

    def show(now: Snapshot, entry: Entry) -> bytes:
        issued: tuple[IssuedRecord, ...] = ()
        problem = ""
        try:
            issued = read_issued(folder)
        except ProblemsFound as found:
            problem = problems_words(found)
        there = PaperDesk(worker.jobs, papers_there(folder), issued=issued, problem=problem)
        return paper_page(now, entry, there=there, read_lines=read_source_lines, today=date.today())

    def make(checked: Checked, fields: Fields) -> Written:
        kind = BY_NAME.get(text_of_field(fields, "what"))
        if kind is None:
            raise EditRefusedError("choose a paper")
        worker.ask(kind, reissue="reissue" in fields)
        return Written(None)

    def edited(fields: Fields, *edits: ValueEdit) -> Written:
        try:
            seen = read_seen(text_of_field(fields, "seen"))
        except FormError as error:
            raise EditRefusedError(str(error)) from None
        step = write_edits(folder, edits, seen)
        return Written(step, (step.words,))

    def revise(checked: Checked, fields: Fields) -> Written:
        revision = text_of_field(fields, "revision", "write the name of the next revision")
        dated = day_of_field(fields, "dated", "write its date")
        assert dated is not None
        return edited(fields, ValueEdit(("project", "revision"), revision),
                      ValueEdit(("project", "date"), dated.isoformat()))  # fmt: skip

    def comment(checked: Checked, fields: Fields) -> Written:
        said = {"comment": text_of_field(fields, "comment", "write what the official said")}
        if by := text_of_field(fields, "comment-by"):
            said["by"] = by
        if on := day_of_field(fields, "comment-on"):
            said["on"] = on.isoformat()
        return edited(fields, ValueEdit(("comments", len(checked.project.comments)), said))

    def reply(checked: Checked, fields: Fields) -> Written:
        number = text_of_field(fields, "number")
        comments = checked.project.comments
        if number not in map(str, range(len(comments))) or comments[int(number)].answer:
            raise ChangedMeanwhileError("that comment is not open any more; nothing was written")
        answer = text_of_field(fields, f"answer:{number}", "write the answer")
        edits = [ValueEdit(("comments", int(number), "answer"), answer)]
        if met_in := text_of_field(fields, f"met-in:{number}"):
            edits.append(ValueEdit(("comments", int(number), "met_in"), met_in))
        return edited(fields, *edits)

    def changed(request: Request) -> Response:
        since = request.query_params.get("since", "")
        with desk.kept.lock:
            now = desk.kept.look()
            try:
                issued = next((one for one in read_issued(folder) if one.project.revision == since), None)
                if issued is None:
                    return PlainTextResponse("That revision was not issued.", 404)
                checked = check_folder(folder, at_least=Stage.APPLICATION)
            except ProblemsFound as found:
                says = tag("p", problems_words(found), class_="care", role="alert")
                return html_of(page("What changed", now, tag("h1", "What changed"), says, here=PAPERS), 422)
            return html_of(change_page(now, changes(issued, as_record(checked))))

    def opened(request: Request) -> Response:
        path = paper_path(folder, request.path_params["name"])
        if path is None:
            return PlainTextResponse("There is no such paper.", 404)
        how = "inline" if path.suffix.lower() == ".pdf" else "attachment"
        kind = TYPES[path.suffix.lower()]
        return FileResponse(path, media_type=kind, filename=path.name, content_disposition_type=how)

    return [
        *RecordPage(desk, PAPERS, show, {"make": make, "revise": revise, "comment": comment, "reply": reply}).routes(),
        Route(f"{PAPERS}/changes", changed),
        Route("/out/{name:path}", opened),
    ]
