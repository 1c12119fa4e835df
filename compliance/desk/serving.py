"""The server of the desk: one socket of this machine, the guard in front, the routes of each area behind it.

With a phone's address there is a second server at a socket of its own, with a session, a guard and a short list of
routes of its own: nothing that the first one lets in or can do is known there, and its end closes the socket.
"""

from __future__ import annotations

import socket
import threading
from collections.abc import Callable
from pathlib import Path

import uvicorn
from starlette.applications import Starlette
from starlette.routing import Match, Route

from compliance.desk.guard import HOST, Guard, Message, Session
from compliance.desk.kept_check import KeptCheck, Watcher
from compliance.desk.routing.access_routes import access_routes
from compliance.desk.routing.answer_routes import answer_routes
from compliance.desk.routing.attached_routes import attached_routes
from compliance.desk.routing.begin_routes import begin_routes
from compliance.desk.routing.desk_context import DeskContext
from compliance.desk.routing.earth_routes import earth_routes
from compliance.desk.routing.edit_routes import edit_routes
from compliance.desk.routing.lab_routes import lab_routes
from compliance.desk.routing.mend_routes import mend_routes
from compliance.desk.routing.paper_routes import paper_routes
from compliance.desk.routing.phone_routes import phone_routes
from compliance.desk.routing.plan_routes import plan_routes
from compliance.desk.routing.record_routes import record_routes
from compliance.desk.routing.session_routes import session_routes
from compliance.desk.svg_views import Pictures
from compliance.desk.tried_changes import Trials
from compliance.desk.uploads.held_uploads import HeldUploads
from compliance.record import replace

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
    access_routes,
)
_GRACE = 1  # second: a stream of events would keep the server open


class Desk:
    """The desk of one folder, listening at `port` of this machine (0: a free one), and for a phone at `phone_address`
    of the network where one is given. Raises OSError where one cannot be listened at."""

    def __init__(self, folder: Path, port: int = 0, phone_address: str | None = None) -> None:
        self._socket = _listening(HOST, port)
        try:
            self._phone_socket = _listening(phone_address, port) if phone_address else None
        except OSError:
            self._socket.close()
            raise
        self.kept = KeptCheck(folder)
        self.session = Session(self._socket.getsockname()[1])
        self.phone: Session | None = None
        self._phone_server: uvicorn.Server | None = None
        if self._phone_socket is not None:
            host, own_port = self._phone_socket.getsockname()
            self.phone = Session(own_port, host, is_phone=True)
        context = DeskContext(
            self.kept, self.session, pictures=Pictures(self.kept), trials=Trials(self.kept), proofs=HeldUploads(),
            end=self.end, is_ending=lambda: self._server.should_exit, phone=self.phone, end_phone=self.end_phone,
        )  # fmt: skip
        self._server = _server(
            Guard(Starlette(routes=[route for area in AREAS for route in area(context)]), self.session)
        )
        if self.phone is not None:
            routes = phone_routes(replace(context, session=self.phone, proofs=HeldUploads()))
            self._phone_server = _server(
                Guard(Starlette(routes=routes), self.phone, lambda scope: _is_for(scope, routes))
            )

    def serve(self) -> None:
        """Answer until told to end, or until Ctrl-C."""
        self.kept.look()
        watcher = Watcher(self.kept)
        watcher.start()
        phones = threading.Thread(target=self._serve_phones, name="phones", daemon=True)
        phones.start()
        try:
            self._server.run(sockets=[self._socket])
        finally:
            watcher.end()
            self._socket.close()
            self.end_phone()
            phones.join(_GRACE + 2)

    def _serve_phones(self) -> None:
        if self._phone_server is not None and self._phone_socket is not None:
            try:
                self._phone_server.run(sockets=[self._phone_socket])
            finally:
                self._phone_socket.close()

    def end(self) -> None:
        """Let `serve` come back; may be called from another thread."""
        self._server.should_exit = True

    def end_phone(self) -> None:
        """Shut phones out and listen on the network no longer; may be called from another thread."""
        if self.phone is not None and self._phone_server is not None:
            self.phone.end()
            self._phone_server.should_exit = True


def _listening(host: str, port: int) -> socket.socket:
    """Raises OSError."""
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    try:
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        made.bind((host, port))
        made.listen()  # who asks before the server is ready waits
    except OSError:
        made.close()
        raise
    return made


def _is_for(scope: Message, routes: list[Route]) -> bool:
    """Whether one of the routes takes it."""
    return any(one.matches(scope)[0] is Match.FULL for one in routes)


def _server(guard: Guard) -> uvicorn.Server:
    return uvicorn.Server(
        uvicorn.Config(
            guard,
            http="h11",
            ws="none",
            lifespan="off",
            access_log=False,
            log_config=None,
            server_header=False,
            proxy_headers=False,
            timeout_graceful_shutdown=_GRACE,
        )
    )
