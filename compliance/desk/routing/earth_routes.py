"""Soils, their hand tests and jars, trial bricks, mixes, and records that are added."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.desk.earth_forms import Fields, added_record, hand_tests, jar_edits, soil_mark
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.blended_html import mix_page, trial_brick_page
from compliance.desk.pages.earth.earth_html import earth_page
from compliance.desk.pages.earth.jar_forms import jar_now
from compliance.desk.pages.earth.soil_html import EARTH, soil_page
from compliance.desk.pages.edit_html import problems_words
from compliance.desk.pages.frame import page
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import EditForm, FormError, back_in, read_fields, seen_in
from compliance.editing.file_edits import ValueEdit, edit_tree
from compliance.editing.yaml_splice import SpliceError
from compliance.facts.soil.soil_record import soil_record
from compliance.model.project import Project
from compliance.output.checklist.html_tags import tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.problems import ProblemsFound
from compliance.reading.project_folder import read_project
from compliance.reading.source_lines import read_source_lines

_PAGES: dict[str, Callable[[Snapshot, str, ReadLines], bytes]] = {
    "soils": soil_page, "trials": trial_brick_page, "mixes": mix_page,
}  # fmt: skip


def earth_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def one(request: Request) -> Response:
        section, mark = request.path_params["section"], request.path_params["mark"]
        with desk.kept.lock:
            now = desk.kept.look()
            if section not in _PAGES or now.checked is None or mark not in getattr(now.checked.project, section):
                says = tag("p", f"Nothing is called {mark!r} here.")
                return html_of(page("Not found", now, tag("h1", "Not found"), says), 404)
            return html_of(_PAGES[section](now, mark, read_source_lines))

    def jar(request: Request) -> Response:
        """The jar as it would be with what is typed so far, or what stands in its way."""
        fields = {name: request.query_params.getlist(name) for name in request.query_params}
        with desk.kept.lock:
            checked = desk.kept.look().checked
            if checked is None or (mark := request.path_params["mark"]) not in checked.project.soils:
                return PlainTextResponse("There is no such soil.", 404)
            edits = jar_edits(mark, checked.project.soils[mark].jar, fields)
            try:
                soil = read_project(desk.kept.folder, lambda tree: edit_tree(tree, edits)).project.soils[mark]
            except ProblemsFound as found:
                return html_of(tag("p", problems_words(found), class_="care").encode())
            except (LookupError, TypeError, SpliceError):
                return html_of(tag("p", "Nothing to draw yet.").encode())
            record = soil_record(soil, checked.needed_references.practice)
            return html_of(jar_now(mark, checked, soil.jar, record).encode())

    def add(fields: Fields, project: Project) -> list[ValueEdit]:
        return [added_record(fields, project)]

    def jar_of(fields: Fields, project: Project) -> list[ValueEdit]:
        mark = soil_mark(fields, project)
        return jar_edits(mark, project.soils[mark].jar, fields)

    return [
        Route(EARTH, desk.page(lambda now: earth_page(now, read_source_lines))),
        Route("/earth/jar/{mark}", jar),
        Route("/earth/hand-tests", writing(desk, hand_tests, "/earth/hand-tests"), methods=["POST"]),
        Route("/earth/jar", writing(desk, jar_of, "/earth/jar"), methods=["POST"]),
        Route("/add", writing(desk, add, "/add"), methods=["POST"]),
        Route("/earth/{section}/{mark}", one),
    ]


def writing(
    desk: DeskContext, edits_of: Callable[[Fields, Project], Sequence[ValueEdit]], action: str
) -> Callable[[Request], Awaitable[Response]]:
    """Reads a form and writes the edits that it asks for, or answers with why nothing was written."""

    def answered(body: bytes) -> Response:
        with desk.kept.lock:
            try:
                fields = read_fields(body)
                seen, back = seen_in(fields), back_in(fields)
                checked = desk.kept.look().checked
                if checked is None:
                    raise FormError("there is no project that can be read yet")
                form = EditForm((), seen, back)

                def write() -> Response:
                    edits = edits_of(fields, checked.project)
                    if edits:
                        desk.write_step(edits, seen)
                    return RedirectResponse(back, 303)

                return desk.refusing(write, form, fields, action)
            except FormError as error:
                return PlainTextResponse(f"{error}.", 400)

    async def read(request: Request) -> Response:
        return await run_in_threadpool(answered, await request.body())

    return read
