"""The plan, and the drawings of the papers as pictures."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.routing import Route

from compliance.desk.pages.plan_html import plan_page
from compliance.desk.routing.desk_context import DeskContext
from compliance.desk.svg_views import VIEWS
from compliance.reading.source_lines import read_source_lines


def plan_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def picture(request: Request) -> Response:
        view, asked = VIEWS.get(request.path_params["view"]), request.query_params
        trial = desk.trials.of(asked["trial"]) if "trial" in asked else None
        is_gone = "trial" in asked and trial is None
        made = None if is_gone or view is None else desk.pictures.picture(view, asked.get("wall", ""), trial)
        if made is None:
            return PlainTextResponse("There is no such drawing.", 404)
        return Response(made, media_type="image/svg+xml")

    return [
        Route("/plan", desk.page(lambda now: plan_page(now, read_source_lines))),
        Route("/picture/{view}.svg", picture),
    ]
