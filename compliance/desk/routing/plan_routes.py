"""The plan, its drawings as pictures, and the forms that draw walls, move corners, add parts and take them away."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping, Sequence

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.desk.plan.part_folds import PARTS_PATH, parts_page
from compliance.desk.plan.plan_html import Chosen, plan_page
from compliance.desk.plan.sent_parts import corner_edits, curve_edits, part_edits, removed_edits, wall_edits
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import EditForm, FormError, form_of, read_fields
from compliance.desk.svg_views import VIEWS
from compliance.editing.file_edits import EditRefusedError, ValueEdit
from compliance.model.project import Project
from compliance.reading.source_lines import read_source_lines
from compliance.record import replace
from compliance.start.project_files.created_folder import is_project

Fields = Mapping[str, Sequence[str]]
Made = Callable[[Project, Fields], tuple[ValueEdit, ...]]


def plan_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def plan(request: Request) -> Response:
        if not is_project(desk.kept.folder) and not desk.session.is_phone:
            return RedirectResponse("/begin", 303)
        asked = request.query_params
        with desk.kept.lock:
            now = desk.look()
            chosen = Chosen(asked.get("wall", ""), asked.get("corner", ""), asked.get("like", ""))
            return html_of(plan_page(now, desk.pictures.plan(), chosen, read_source_lines))

    def picture(request: Request) -> Response:
        view, asked = VIEWS.get(request.path_params["view"]), request.query_params
        trial = desk.trials.of(asked["trial"]) if "trial" in asked else None
        is_gone = "trial" in asked and trial is None
        made = None if is_gone or view is None else desk.pictures.picture(view, asked.get("wall", ""), trial)
        if made is None:
            return PlainTextResponse("There is no such drawing.", 404)
        return Response(made, media_type="image/svg+xml")

    def edits(make: Made, action: str) -> Callable[[Request], Awaitable[Response]]:
        """Reads a form of the plan, makes its edits, and comes back to the wall that they are about."""

        def answered(body: bytes) -> Response:
            try:
                fields = read_fields(body)
                form = form_of(fields, ())
            except FormError as error:
                return PlainTextResponse(f"{error}.", 400)
            return desk.refusing(lambda: write(fields, form), form, fields, action)

        def write(fields: Fields, form: EditForm) -> Response:
            now = desk.look()
            if now.checked is None or now.problems:
                raise EditRefusedError("the files cannot be read as they stand; mend them first")
            made = make(now.checked.project, fields)
            new = [one.path[1] for one in made if one.path[0] == "walls" and len(one.path) == 2 and one.value]
            return desk.write(replace(form, edits=made, back=f"/plan?wall={new[0]}" if new else form.back))

        async def read(request: Request) -> Response:
            return await run_in_threadpool(answered, await request.body())

        return read

    return [
        Route("/plan", plan),
        Route(PARTS_PATH, desk.page(lambda now: parts_page(now, read_source_lines))),
        Route("/picture/{view}.svg", picture),
        Route("/plan/wall", edits(wall_edits, "/plan/wall"), methods=["POST"]),
        Route("/plan/curve", edits(curve_edits, "/plan/curve"), methods=["POST"]),
        Route("/plan/corner", edits(corner_edits, "/plan/corner"), methods=["POST"]),
        Route("/plan/part", edits(part_edits, "/plan/part"), methods=["POST"]),
        Route("/plan/remove", edits(removed_edits, "/plan/remove"), methods=["POST"]),
    ]
