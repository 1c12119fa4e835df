"""Beginning a project in a folder that holds none, or the building of one that began with the earth."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.desk.beginning.begin_html import SHAPE, first_page, sizes_page
from compliance.desk.beginning.begun_project import (
    FORM_SHAPES,
    RECTANGLE,
    beginning_of,
    keys_of,
    words_by_key,
    write_begun,
)
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import FormError, read_fields
from compliance.editing.file_entries import EntryError
from compliance.problems import ProblemsFound
from compliance.start.project_files.created_folder import is_project


def begin_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def can_begin() -> bool:
        now = desk.kept.look()
        is_earth = now.checked is not None and now.checked.project.is_earth_only and not now.problems
        return is_earth or not is_project(desk.kept.folder)

    def ask(request: Request) -> Response:
        with desk.kept.lock:
            if not can_begin():
                return RedirectResponse("/plan", 303)
            try:
                start = beginning_of(desk.kept.folder)
            except ProblemsFound as found:
                return PlainTextResponse(f"{found}\n", 409)
            given = {**start.given, **request.query_params}
            shape = given.get(SHAPE, "")
            if shape not in FORM_SHAPES:
                return html_of(first_page(desk.kept.now, start.asked(given, RECTANGLE), given, RECTANGLE))
            return html_of(sizes_page(desk.kept.now, start.asked(given, shape), given, shape=shape, wrong={}))

    def write(body: bytes) -> Response:
        try:
            given = {name: values[-1] for name, values in read_fields(body).items()}
        except FormError as error:
            return PlainTextResponse(f"{error}.", 400)
        shape = given.pop(SHAPE, "")
        if shape not in FORM_SHAPES:
            return PlainTextResponse("The form names no shape.", 400)
        with desk.kept.lock:
            if not can_begin():
                return PlainTextResponse("There is a project in this folder already; nothing was written.", 409)
            wrong: Mapping[str, list[str]]
            try:
                write_begun(desk.kept.folder, given, shape, date.today())
            except ProblemsFound as found:
                keys = keys_of(given, shape, beginning_of(desk.kept.folder).there)
                wrong = words_by_key(found, keys)
            except EntryError as error:
                wrong = {"": [str(error)]}
            except OSError as error:
                wrong = {"": [f"the folder cannot be written: {error.strerror or error}"]}
            else:
                desk.kept.look()
                return RedirectResponse("/plan", 303)
            start = beginning_of(desk.kept.folder)
            shown = {**start.given, **given}
            asked = start.asked(given, shape)
            return html_of(sizes_page(desk.kept.look(), asked, shown, shape=shape, wrong=wrong), 422)

    async def send(request: Request) -> Response:
        return await run_in_threadpool(write, await request.body())

    return [Route("/begin", ask), Route("/begin", send, methods=["POST"])]
