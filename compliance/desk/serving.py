"""The server of the desk: one socket of this machine, the guard in front, the routes of each area behind it."""

from __future__ import annotations

import socket
from collections.abc import Callable
from pathlib import Path

import uvicorn
from starlette.applications import Starlette
from starlette.routing import Route

from compliance.desk.guard import HOST, Guard, Session
from compliance.desk.kept_check import KeptCheck, Watcher
from compliance.desk.routing.answer_routes import answer_routes
from compliance.desk.routing.attached_routes import attached_routes
from compliance.desk.routing.begin_routes import begin_routes
from compliance.desk.routing.desk_context import DeskContext
from compliance.desk.routing.earth_routes import earth_routes
from compliance.desk.routing.edit_routes import edit_routes
from compliance.desk.routing.lab_routes import lab_routes
from compliance.desk.routing.mend_routes import mend_routes
from compliance.desk.routing.paper_routes import paper_routes
from compliance.desk.routing.plan_routes import plan_routes
from compliance.desk.routing.record_routes import record_routes
from compliance.desk.routing.session_routes import session_routes
from compliance.desk.svg_views import Pictures
from compliance.desk.tried_changes import Trials

AREAS: tuple[Callable[[DeskContext], list[Route]], ...] = (
    session_routes,
    begin_routes,
    answer_routes,
    edit_routes,
    plan_routes,
    mend_routes,
    earth_routes,
    lab_routes,
    attached_routes,
    record_routes,
    paper_routes,
)
_GRACE = 1  # second: a stream of events would keep the server open


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
        context = DeskContext(
            self.kept, self.session, pictures=Pictures(self.kept), trials=Trials(self.kept), end=self.end,
            is_ending=lambda: self._server.should_exit,
        )  # fmt: skip
        config = uvicorn.Config(
            Guard(Starlette(routes=[route for area in AREAS for route in area(context)]), self.session),
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
