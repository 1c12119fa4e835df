"""Sets of specimens, and tables of a laboratory: pasted or dropped in, matched, looked at, kept."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.checking import check_folder
from compliance.desk.earth_forms import Fields, one_of
from compliance.desk.guard import PASTED
from compliance.desk.pages.edit_html import refusal_page
from compliance.desk.pages.lab.match_html import match_page
from compliance.desk.pages.lab.result_html import refused_page, result_page
from compliance.desk.pages.lab.tests_html import TESTS, tests_page
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import EditForm, FormError, read_fields, seen_in
from compliance.desk.uploads.held_uploads import HeldUploads, free_name
from compliance.desk.uploads.lab_uploads import LabUpload, pasted_table, refuse_size, suffix_of
from compliance.desk.uploads.table_matches import KINDS, TableMatch, edits_of_match, every_in, match_of, proposed_match
from compliance.editing.file_edits import EditRefusedError, edit_tree
from compliance.editing.yaml_splice import SpliceError
from compliance.problems import ProblemsFound
from compliance.reading.source_lines import read_source_lines
from compliance.reading.tables.proposed_columns import Numbered
from compliance.refused import RefusedError
from compliance.remedies.comparing import compared

GONE = "This table is not held any more: paste or drop it again."
_ROOM = "lab"


def lab_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""
    held: HeldUploads[LabUpload] = HeldUploads()

    def paste(body: bytes) -> Response:
        try:
            fields = read_fields(body)
            data = pasted_table(one_text(fields, "table"))
            kind, named = one_of(fields, "kind"), one_of(fields, "name") or "table"
            refuse_size(data)
            file = free_name(desk.kept.folder, _ROOM, named, ".csv")
        except FormError as error:
            return PlainTextResponse(f"{error}.", 400)
        except RefusedError as refused:
            return _refused(desk, refused)
        number = held.add(LabUpload(file, data))
        return RedirectResponse(f"/tests/table/{number}?kind={kind if kind in KINDS else KINDS[0]}", 303)

    def drop(request: Request, data: bytes) -> Response:
        """Where the page goes on, or why the file is not taken, as a line of text for the script that sent it."""
        name = request.path_params["name"]
        try:
            suffix = suffix_of(name)
            refuse_size(data)
            file = free_name(desk.kept.folder, _ROOM, name, suffix)
        except RefusedError as refused:
            return PlainTextResponse(f"{refused.wrong} ({refused.instead})", 415)
        return PlainTextResponse(f"/tests/table/{held.add(LabUpload(file, data))}")

    def first(request: Request) -> Response:
        """The match that is proposed."""
        number, asked = request.path_params["number"], request.query_params.get("kind", "")
        fields: Fields = {"kind": [asked]}
        return answered(number, {**fields, "do": ["again"]})

    def filled_in(number: str, body: bytes) -> Response:
        try:
            return answered(number, read_fields(body))
        except FormError as error:
            return PlainTextResponse(f"{error}.", 400)

    def answered(number: str, fields: Fields) -> Response:
        upload = held.of(number)
        with desk.kept.lock:
            if upload is None:
                return html_of(refusal_page(desk.kept.look(), GONE, (), TESTS), 404)
            form, do = EditForm((), seen_in(fields), TESTS), one_of(fields, "do")
            try:
                match = match_of(fields)
                is_anew = do == "again"
                rows = upload.rows(match.kind, match.sheet or None, match.chosen_line if is_anew else match.line)
                if is_anew and rows:
                    every = every_in(fields)
                    match = proposed_match(match.kind, match.sheet, rows, heading_row=match.chosen_line, every=every)
                if do in ("again", "change"):
                    now, sheets = desk.kept.look(), upload.sheets
                    return html_of(match_page(now, number, upload=upload, match=match, rows=rows, sheets=sheets))
                if do == "keep":
                    return desk.refusing(lambda: keep(upload, match, rows, form), form)
                return show(number, upload, match, rows, fields)
            except ProblemsFound as found:
                now, problems = desk.kept.look(), tuple(found.problems)
                return html_of(refused_page(now, number, upload=upload, fields=_sent(fields), problems=problems), 422)
            except (EditRefusedError, SpliceError, LookupError, TypeError) as error:
                return html_of(refusal_page(desk.kept.look(), str(error), (), f"/tests/table/{number}"), 422)

    def show(number: str, upload: LabUpload, match: TableMatch, rows: Sequence[Numbered], fields: Fields) -> Response:
        now = desk.kept.look()
        if now.checked is None or now.problems:
            return html_of(refusal_page(now, "the files of the project cannot be read as they stand", (), TESTS), 422)
        edits = edits_of_match(match, upload.file, rows, now.checked.project)
        then = check_folder(desk.kept.folder, lambda tree: edit_tree(tree, edits), new_files={upload.file: upload.data})
        return html_of(
            result_page(
                now, number, upload=upload, fields=_sent(fields), then=then, left_out=_left_out(match, rows),
                differences=compared(now.checked.findings, then.findings),
            )
        )  # fmt: skip

    def keep(upload: LabUpload, match: TableMatch, rows: Sequence[Numbered], form: EditForm) -> Response:
        checked = desk.kept.look().checked
        if checked is None:
            raise EditRefusedError("there is no project that can be read yet")
        edits = edits_of_match(match, upload.file, rows, checked.project)
        desk.write_step(edits, form.seen, {upload.file: upload.data})
        return RedirectResponse(TESTS, 303)

    return [
        Route(TESTS, desk.page(lambda now: tests_page(now, read_source_lines))),
        Route(PASTED, read_whole(lambda request, body: paste(body)), methods=["POST"]),
        Route("/tests/drop/{name}", read_whole(drop), methods=["PUT"]),
        Route("/tests/table/{number}", first),
        Route(
            "/tests/table/{number}",
            read_whole(lambda request, body: filled_in(request.path_params["number"], body)),
            methods=["POST"],
        ),
    ]


def read_whole(answer: Callable[[Request, bytes], Response]) -> Callable[[Request], Awaitable[Response]]:
    """Gives the body of a request with it, and answers away from the loop of events."""

    async def read(request: Request) -> Response:
        body = await request.body()
        return await run_in_threadpool(answer, request, body)

    return read


def one_text(fields: Fields, name: str) -> str:
    """A field as it was sent, blanks around it included."""
    return next(iter(fields.get(name, ())), "")


def _refused(desk: DeskContext, refused: RefusedError) -> Response:
    with desk.kept.lock:
        return html_of(refusal_page(desk.kept.look(), f"{refused.wrong} ({refused.instead})", (), TESTS), 422)


def _sent(fields: Fields) -> list[tuple[str, str]]:
    """Each field with each of its texts."""
    return [(name, text) for name, texts in fields.items() for text in texts]


def _left_out(match: TableMatch, rows: Sequence[Numbered]) -> list[Numbered]:
    """What stands above the headings and below the last row."""
    last = int(match.last_row) if match.last_row.isascii() and match.last_row.isdecimal() else None
    return [
        (line, cells) for line, cells in rows
        if any(cell.strip() for cell in cells)
        and ((match.line is not None and line < match.line) or (last is not None and line > last))
    ]  # fmt: skip
