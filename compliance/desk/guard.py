"""Who may ask the desk for anything: a browser of this machine that was let in, and no other page in it; with `--phone`
a phone that was let in, at an address of its own and for what the routes of the phone hold alone.

Every web page that is open in a browser can send requests to a port of the machine. A cookie alone does not hold them
off: neither cookies nor "same site" take note of ports, so that another local server counts as the same site. What
holds are the Host header (against a name that is made to lead to this machine), the Origin header of what changes
anything, and the cookie that only the address printed in the terminal gives out.
"""

from __future__ import annotations

import secrets
import threading
from collections.abc import Awaitable, Callable, MutableMapping
from datetime import datetime
from http.cookies import CookieError, SimpleCookie
from typing import Any

from starlette.exceptions import HTTPException

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]

HOST = "127.0.0.1"
ENTRANCE = "/open"
PASTED = "/tests/paste"
_MOST_BODY, _MOST_PASTED, _MOST_DROPPED = 256_000, 8_000_000, 40_000_000
"""Bytes of a form, of a form with a table pasted into it, of a file."""
_MOST_ADDRESS = 8_000
_READS, _CHANGES = ("GET", "HEAD"), ("POST", "PUT")

_NOT_IN = {
    "desk": "Open the address that was printed in the terminal. It is good once; start the desk again for a new one.",
    "phone": "Scan the code that the desk shows. It is good once; the page Phone of the desk makes a new one.",
}
NOT_FOR_PHONES = "A phone may read, add photos and record hold points; everything else is done at the desk."

_TOO_LONG = "That is more than this page takes."

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_OPENER = (b"cross-origin-opener-policy", b"same-origin")
"""For the desk alone: browsers complain of it at an address that is neither encrypted nor of their own machine."""
_HEADERS = (
    (b"content-security-policy", POLICY.encode()),
    (b"referrer-policy", b"same-origin"),  # with no-referrer a plain form sends "Origin: null"
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)


class Session:
    """One run of the desk, or of the phone's access to it: the token in its address, good once, and the cookie that it
    gives out. `let_in` is when the token was used last, None before that."""

    def __init__(self, port: int, host: str = HOST, is_phone: bool = False) -> None:
        self.is_phone = is_phone
        self.origin = f"http://{host}:{port}"
        self.host = f"{host}:{port}"
        self.cookie_name = f"earthwall-{'phone' if is_phone else 'desk'}-{port}"
        self.let_in: datetime | None = None
        self.is_ended = False
        self._lock = threading.Lock()
        self._token: str | None = secrets.token_urlsafe(32)
        self._secret = secrets.token_urlsafe(32)

    @property
    def not_in(self) -> str:
        """What to tell who was not let in."""
        return _NOT_IN["phone" if self.is_phone else "desk"]

    @property
    def awaits(self) -> bool:
        """Whether its address still lets somebody in."""
        return self._token is not None

    @property
    def address(self) -> str:
        """What to open, until it was opened; then the plain address."""
        token = self._token
        return f"{self.origin}{ENTRANCE}?token={token}" if token else self.origin

    @property
    def cookie(self) -> str:
        """The value of the header that sets it."""
        return f"{self.cookie_name}={self._secret}; Path=/; HttpOnly; SameSite=Strict"

    def admit(self, token: str) -> bool:
        """Whether the token is that of the address; from then on it is used up."""
        with self._lock:
            if self._token is None or not secrets.compare_digest(token.encode(), self._token.encode()):
                return False
            self._token, self.let_in = None, datetime.now()
            return True

    def renew(self) -> None:
        """Make a new token in place of the last one; who was let in stays in."""
        with self._lock:
            if not self.is_ended:
                self._token = secrets.token_urlsafe(32)

    def end(self) -> None:
        """Let nobody in any more, and know nobody."""
        with self._lock:
            self._token, self.is_ended = None, True

    def knows(self, cookies: str) -> bool:
        """Whether the Cookie header carries the secret of this run."""
        if self.is_ended:
            return False
        try:
            found = SimpleCookie(cookies).get(self.cookie_name)
        except CookieError:
            return False
        return found is not None and secrets.compare_digest(found.value.encode(), self._secret.encode())


class Guard:
    """Refuses what is not from the desk's own pages, bounds what is sent, and puts the policy on every answer. What is
    not `permitted` is refused to who was let in."""

    def __init__(self, app: App, session: Session, permitted: Callable[[Message], bool] | None = None) -> None:
        self._app, self._session, self._permitted = app, session, permitted
        self._headers = _HEADERS if session.is_phone else (*_HEADERS, _OPENER)

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            raise RuntimeError(f"the desk takes no {scope['type']}")

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *self._headers]
            await send(message)

        refused = self._refusal(scope)
        if refused is not None:
            await _answer(guarded, *refused)
            return
        await self._app(scope, _bounded(receive, _most_body(scope)), guarded)

    def _refusal(self, scope: Message) -> tuple[int, str] | None:
        """The status and the words of a refusal; None for what may pass."""
        headers: dict[str, list[str]] = {}
        for name, value in scope["headers"]:
            headers.setdefault(name.decode("latin-1").lower(), []).append(value.decode("latin-1"))
        if headers.get("host") != [self._session.host]:
            return 421, "This address is not the desk's."
        method = scope["method"]
        if method not in (*_READS, *_CHANGES):
            return 405, "The desk does not take that method."
        if len(scope.get("raw_path") or b"") + len(scope["query_string"]) > _MOST_ADDRESS:
            return 414, "The address is too long."
        if any(one not in ("same-origin", "none") for one in headers.get("sec-fetch-site", [])):
            return 403, "Another page asked for this; open the address printed in the terminal."
        origins = headers.get("origin", [])
        if any(one != self._session.origin for one in origins) or (method in _CHANGES and not origins):
            return 403, "Only the desk's own pages may change anything."
        lengths = headers.get("content-length", ["0"])
        if not lengths[0].isdecimal() or int(lengths[0]) > _most_body(scope):
            return 413, _TOO_LONG
        entering = method == "GET" and scope["path"] == ENTRANCE
        if not entering and not self._session.knows("; ".join(headers.get("cookie", []))):
            return 403, self._session.not_in
        if self._permitted is not None and not self._permitted(scope):
            return 403, NOT_FOR_PHONES
        return None


def _most_body(scope: Message) -> int:
    """Bytes that a request may bring along."""
    if scope["method"] == "PUT":
        return _MOST_DROPPED
    return _MOST_PASTED if scope["path"] == PASTED else _MOST_BODY


def _bounded(receive: Receive, most: int) -> Receive:
    """Counts what comes, for a body that is sent in pieces does not say how long it is."""
    taken = 0

    async def counted() -> Message:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > most:
            raise HTTPException(413, _TOO_LONG)
        return message

    return counted


async def _answer(send: Send, status: int, words: str) -> None:
    body = words.encode()
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
