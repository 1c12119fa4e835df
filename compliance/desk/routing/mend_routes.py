"""Lines of files that do not read, shown and replaced."""

from __future__ import annotations

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.desk.mending.file_lines import replace_line
from compliance.desk.mending.mend_html import mend_page
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import FormError, read_fields
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError


def mend_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def show(request: Request) -> Response:
        asked = request.query_params
        with desk.kept.lock:
            return html_of(
                mend_page(desk.kept.look(), desk.kept.folder, asked.get("file", ""), _line(asked.get("line")))
            )

    def write(body: bytes) -> Response:
        try:
            sent = {name: values[-1] for name, values in read_fields(body).items()}
        except FormError as error:
            return PlainTextResponse(f"{error}.", 400)
        file, line, text = sent.get("file", ""), _line(sent.get("line")), sent.get("text", "")
        status = 422
        with desk.kept.lock:
            try:
                step = replace_line(desk.kept.folder, file, line=line, text=text, digest=sent.get("digest", ""))
            except EditRefusedError as error:
                why, status = str(error), 409 if isinstance(error, ChangedMeanwhileError) else 422
            except OSError as error:
                why, status = f"the file cannot be written: {error.strerror or error}", 500
            else:
                desk.kept.history.add(step)
                return RedirectResponse("/mend" if desk.kept.look().problems else "/", 303)
            return html_of(
                mend_page(desk.kept.look(), desk.kept.folder, file=file, line=line, why=why, typed=text), status
            )

    async def send(request: Request) -> Response:
        return await run_in_threadpool(write, await request.body())

    return [Route("/mend", show), Route("/mend", send, methods=["POST"])]


def _line(text: str | None) -> int:
    return int(text) if text and text.isascii() and text.isdecimal() and len(text) < 8 else 0
