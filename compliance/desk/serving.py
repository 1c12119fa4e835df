"""The routes of the desk, and the server they are asked through."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import AsyncIterator, Awaitable, Callable
from pathlib import Path

import uvicorn
from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response, StreamingResponse
from starlette.routing import Route

from compliance.desk.guard import ENTRANCE, HOST, NOT_IN, Guard, Session
from compliance.desk.kept_check import KeptCheck, Snapshot, Watcher
from compliance.desk.pages.answer_html import answer_page
from compliance.desk.pages.edit_html import problems_words, refusal_page, trial_page
from compliance.desk.pages.frame import cautions_page, page
from compliance.desk.pages.plan_html import plan_page
from compliance.desk.pages.subject_html import chosen, findings_about, subject_page
from compliance.desk.sent_forms import EditForm, FormError, read_form
from compliance.desk.svg_views import VIEWS, Pictures
from compliance.desk.tried_changes import Trials
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError
from compliance.editing.yaml_splice import SpliceError
from compliance.output.checklist.html_tags import tag
from compliance.problems import ProblemsFound
from compliance.reading.source_lines import read_source_lines
from compliance.remedies import remedies, tester_for
from compliance.remedies.comparing import compared

STATIC = Path(__file__).parent / "static"
_STATIC_FILES = {"desk.css": "text/css", "live.js": "text/javascript", "icon.svg": "image/svg+xml"}
_GRACE = 1  # second: a stream of events would keep the server open
_EVERY, _BEAT = 0.05, 15.0


class Desk:
    """The desk of one folder, listening at `port` of this machine (0: a free one). Raises OSError where it is taken."""

    def __init__(self, folder: Path, port: int = 0) -> None:
        self._socket = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        try:
            self._socket.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            self._socket.bind((HOST, port))
            self._socket.listen()  # who asks before the server is ready waits
        except OSError:
            self._socket.close()
            raise
        self.kept = KeptCheck(folder)
        self.session = Session(self._socket.getsockname()[1])
        self._pictures, self._trials = Pictures(self.kept), Trials(self.kept)
        config = uvicorn.Config(
            Guard(Starlette(routes=self._routes()), self.session),
            http="h11",
            ws="none",
            lifespan="off",
            access_log=False,
            log_config=None,
            server_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=_GRACE,
        )
        self._server = uvicorn.Server(config)

    def serve(self) -> None:
        """Answer until told to end, or until Ctrl-C."""
        self.kept.look()
        watcher = Watcher(self.kept)
        watcher.start()
        try:
            self._server.run(sockets=[self._socket])
        finally:
            watcher.end()
            self._socket.close()

    def end(self) -> None:
        """Let `serve` come back; may be called from another thread."""
        self._server.should_exit = True

    def _routes(self) -> list[Route]:
        return [
            Route(ENTRANCE, self._open),
            Route("/", self._page(lambda now: answer_page(now, read_source_lines))),
            Route("/plan", self._page(lambda now: plan_page(now, read_source_lines))),
            Route("/cautions", self._page(cautions_page)),
            Route("/subject/{subject:path}", self._subject),
            Route("/picture/{view}.svg", self._picture),
            Route("/static/{name}", self._static),
            Route("/events", self._events),
            Route("/edit", self._changes(self._edit), methods=["POST"]),
            Route("/try", self._changes(self._try), methods=["POST"]),
            Route("/undo", self._step("undo"), methods=["POST"]),
            Route("/redo", self._step("redo"), methods=["POST"]),
            Route("/end", self._end, methods=["POST"]),
        ]

    def _page(self, made: Callable[[Snapshot], bytes]) -> Callable[[Request], Response]:
        def answered(request: Request) -> Response:
            with self.kept.lock:
                return _html(made(self.kept.look()))

        return answered

    def _open(self, request: Request) -> Response:
        """Gives the cookie out. The page then goes on by itself: a redirect that began in another program would come
        without the cookie."""
        if not self.session.admit(request.query_params.get("token", "")):
            return PlainTextResponse(NOT_IN, 403)
        on = tag("meta", http_equiv="refresh", content="0; url=/")
        icon = tag("link", rel="icon", href="/static/icon.svg")  # without it the browser asks for one of its own
        head = tag("head", on, tag("title", "Opening the desk"), icon)
        text = f"<!doctype html>\n{tag('html', head, tag('body', tag('a', 'Open the desk', href='/')), lang='en')}"
        return Response(text, media_type="text/html", headers={"Set-Cookie": self.session.cookie})

    def _subject(self, request: Request) -> Response:
        subject, rule = request.path_params["subject"], request.query_params.get("rule", "")
        with self.kept.lock:
            now = self.kept.look()
            findings = findings_about(now.checked, subject) if now.checked else []
            if now.checked is None or not findings:
                says = tag("p", f"Nothing is called {subject!r}, or no rule is about it.")
                return _html(page("Not found", now, tag("h1", "Not found"), says), 404)
            one = chosen(findings, rule)
            found = remedies(tester_for(now.checked), one)
            return _html(subject_page(now, subject, one=one, found=found, read_lines=read_source_lines))

    def _changes(self, change: Callable[[EditForm], Response]) -> Callable[[Request], Awaitable[Response]]:
        """What reads a form and answers with why nothing was written, where nothing was."""

        def answered(body: bytes) -> Response:
            with self.kept.lock:
                try:
                    form = read_form(body)
                except FormError as error:
                    return PlainTextResponse(f"{error}.", 400)
                status, why = 422, ""
                try:
                    return change(form)
                except ProblemsFound as found:
                    why = problems_words(found)
                except ChangedMeanwhileError as error:
                    status, why = 409, str(error)
                except (EditRefusedError, SpliceError, LookupError, TypeError) as error:
                    why = str(error)
                except OSError as error:
                    status, why = 500, f"the file cannot be written: {error.strerror or error}"
                return _html(refusal_page(self.kept.look(), why, form.edits, form.back), status)

        async def read(request: Request) -> Response:
            return await run_in_threadpool(answered, await request.body())

        return read

    def _edit(self, form: EditForm) -> Response:
        if form.edits:
            self.kept.history.make(form.edits, form.seen)
            if found := self.kept.look().problems:  # read as planned, and yet the files do not: as they were, then
                self.kept.history.undo()
                raise ProblemsFound(found)
        return RedirectResponse(form.back, 303)

    def _try(self, form: EditForm) -> Response:
        now = self.kept.look()
        number, then = self._trials.make(form.edits)
        differences = compared(now.checked.findings if now.checked else (), then.findings)
        picture = f"/picture/plan.svg?trial={number}"
        return _html(trial_page(now, then, differences=differences, edits=form.edits, back=form.back, picture=picture))

    def _step(self, way: str) -> Callable[[Request], Response]:
        def answered(request: Request) -> Response:
            with self.kept.lock:
                try:
                    self.kept.history.undo() if way == "undo" else self.kept.history.redo()
                except (EditRefusedError, OSError) as error:
                    return _html(refusal_page(self.kept.look(), str(error), (), "/"), 409)
                self.kept.look()
                return RedirectResponse("/", 303)

        return answered

    def _picture(self, request: Request) -> Response:
        view, asked = VIEWS.get(request.path_params["view"]), request.query_params
        trial = self._trials.of(asked["trial"]) if "trial" in asked else None
        is_gone = "trial" in asked and trial is None
        made = None if is_gone or view is None else self._pictures.picture(view, asked.get("wall", ""), trial)
        if made is None:
            return PlainTextResponse("There is no such drawing.", 404)
        return Response(made, media_type="image/svg+xml")

    def _static(self, request: Request) -> Response:
        name = request.path_params["name"]
        if name not in _STATIC_FILES:
            return PlainTextResponse("There is no such file.", 404)
        return Response((STATIC / name).read_bytes(), media_type=_STATIC_FILES[name])

    async def _events(self, request: Request) -> Response:
        """The number of the check each time there is a new one."""

        async def numbers() -> AsyncIterator[str]:
            told, quiet = -1, 0.0
            while not self._server.should_exit and not await request.is_disconnected():
                number = self.kept.now.number
                if number != told or quiet >= _BEAT:
                    yield f"data: {number}\n\n"
                    told, quiet = number, 0.0
                await asyncio.sleep(_EVERY)
                quiet += _EVERY

        return StreamingResponse(numbers(), media_type="text/event-stream")

    async def _end(self, request: Request) -> Response:
        await request.body()
        self.end()
        return PlainTextResponse("The desk has ended. This page can be closed.")


def _html(text: bytes, status: int = 200) -> Response:
    return Response(text, status, media_type="text/html")
