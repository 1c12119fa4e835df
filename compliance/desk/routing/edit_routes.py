"""Values that are written or tried, and steps that are taken back or made again."""

from __future__ import annotations

from collections.abc import Callable

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from compliance.desk.pages.edit_html import refusal_page, trial_page
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import EditForm
from compliance.editing.file_edits import EditRefusedError
from compliance.remedies.comparing import compared


def edit_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def try_(form: EditForm) -> Response:
        now = desk.kept.look()
        number, then = desk.trials.make(form.edits)
        differences = compared(now.checked.findings if now.checked else (), then.findings)
        picture = f"/picture/plan.svg?trial={number}"
        return html_of(
            trial_page(now, then, differences=differences, edits=form.edits, back=form.back, picture=picture)
        )

    def step(way: str) -> Callable[[Request], Response]:
        def answered(request: Request) -> Response:
            back = desk.page_before(request)
            with desk.kept.lock:
                try:
                    desk.kept.history.undo() if way == "undo" else desk.kept.history.redo()
                except (EditRefusedError, OSError) as error:
                    return html_of(refusal_page(desk.kept.look(), str(error), (), back), 409)
                desk.kept.look()
                return RedirectResponse(back, 303)

        return answered

    return [
        Route("/edit", desk.changes(desk.write), methods=["POST"]),
        Route("/try", desk.changes(try_), methods=["POST"]),
        Route("/undo", step("undo"), methods=["POST"]),
        Route("/redo", step("redo"), methods=["POST"]),
    ]
