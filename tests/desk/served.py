"""A desk that listens at a port of its own in a thread, and raw requests to it."""

from __future__ import annotations

import contextlib
import http.client
import threading
from collections.abc import Iterator, Mapping
from pathlib import Path
from urllib.parse import urlencode

from compliance.desk.guard import Session
from compliance.desk.serving import Desk
from compliance.record import record


@record
class Reply:
    status: int
    headers: Mapping[str, str]
    text: str


class Visitor:
    """Asks as a browser that was let in would, at the desk or as a phone; every header can be another."""

    def __init__(self, desk: Desk, session: Session | None = None) -> None:
        self.desk = desk
        self.session = session or desk.session
        self.cookie = ""

    def let_in(self) -> Visitor:
        reply = self.ask("GET", self.session.address.removeprefix(self.session.origin))
        self.cookie = reply.headers["set-cookie"].partition(";")[0]
        return self

    def ask(
        self, method: str, path: str, body: bytes | Iterator[bytes] | None = None,
        headers: Mapping[str, str | None] | None = None, raw: bool = False,
    ) -> Reply:  # fmt: skip
        """`headers` replace those of a browser; None leaves one out. `raw`: what comes is no text and is left out."""
        session = self.session
        all_headers: dict[str, str | None] = {"Host": session.host}
        if self.cookie:
            all_headers["Cookie"] = self.cookie
        if method != "GET":
            all_headers |= {"Origin": session.origin, "Content-Type": "application/x-www-form-urlencoded"}
        all_headers |= headers or {}
        connection = http.client.HTTPConnection(session.host, timeout=30)
        with contextlib.closing(connection):
            given = {name: value for name, value in all_headers.items() if value is not None}
            connection.connect()  # what is refused here is an error: nobody listens
            connection.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
            chunked = body is not None and not isinstance(body, bytes)
            if isinstance(body, bytes) and "Content-Length" not in given:
                given["Content-Length"] = str(len(body))
            for name, value in given.items():
                connection.putheader(name, value)
            if chunked:
                connection.putheader("Transfer-Encoding", "chunked")
            cut_off = contextlib.suppress(BrokenPipeError, ConnectionResetError)  # a refusal does not wait for the rest
            with cut_off:
                connection.endheaders(body, encode_chunked=chunked)
            found, text = connection.getresponse(), b""
            with cut_off:
                text = found.read()
            return Reply(found.status, {k.lower(): v for k, v in found.getheaders()}, "" if raw else text.decode())

    def get(self, path: str) -> Reply:
        return self.ask("GET", path)

    def post(self, path: str, fields: Mapping[str, str] | list[tuple[str, str]] = {}) -> Reply:  # noqa: B006
        return self.ask("POST", path, urlencode(fields).encode())


@contextlib.contextmanager
def served(folder: Path, phone_address: str | None = None) -> Iterator[Desk]:
    """The desk of a folder, listening until the end of the block."""
    desk = Desk(folder, phone_address=phone_address)
    thread = threading.Thread(target=desk.serve, daemon=True)
    thread.start()
    try:
        yield desk
    finally:
        desk.end()
        thread.join(10)
        assert not thread.is_alive(), "the desk does not end"
