"""Who may ask the desk for anything: a browser of this machine that was let in, and no other page in it.

Every web page that is open in a browser can send requests to a port of the machine. A cookie alone does not hold them
off: neither cookies nor "same site" take note of ports, so that another local server counts as the same site. What
holds are the Host header (against a name that is made to lead to this machine), the Origin header of what changes
anything, and the cookie that only the address printed in the terminal gives out.
"""

from __future__ import annotations

import secrets
from collections.abc import Awaitable, Callable, MutableMapping
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

NOT_IN = "Open the address that was printed in the terminal. It is good once; start the desk again for a new one."

_TOO_LONG = "That is more than this page takes."

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HEADERS = (
    (b"content-security-policy", POLICY.encode()),
    (b"referrer-policy", b"same-origin"),  # with no-referrer a plain form sends "Origin: null"
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
)


class Session:
    """One run of the desk: the token in its address, good once, and the cookie that it gives out."""

    def __init__(self, port: int) -> None:
        self.origin = f"http://{HOST}:{port}"
        self.host = f"{HOST}:{port}"
        self.cookie_name = f"earthwall-desk-{port}"
        self._token: str | None = secrets.token_urlsafe(32)
        self._secret = secrets.token_urlsafe(32)

    @property
    def address(self) -> str:
        """What to open, until it was opened; then the plain address."""
        return f"{self.origin}{ENTRANCE}?token={self._token}" if self._token else self.origin

    @property
    def cookie(self) -> str:
        """The value of the header that sets it."""
        return f"{self.cookie_name}={self._secret}; Path=/; HttpOnly; SameSite=Strict"

    def admit(self, token: str) -> bool:
        """Whether the token is that of the address; from then on it is used up."""
        if self._token is None or not secrets.compare_digest(token.encode(), self._token.encode()):
            return False
        self._token = None
        return True

    def knows(self, cookies: str) -> bool:
        """Whether the Cookie header carries the secret of this run."""
        try:
            found = SimpleCookie(cookies).get(self.cookie_name)
        except CookieError:
            return False
        return found is not None and secrets.compare_digest(found.value.encode(), self._secret.encode())


class Guard:
    """Refuses what is not from the desk's own pages, bounds what is sent, and puts the policy on every answer."""

    def __init__(self, app: App, session: Session) -> None:
        self._app, self._session = app, session

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            raise RuntimeError(f"the desk takes no {scope['type']}")

        async def guarded(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *_HEADERS]
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
            return 403, NOT_IN
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
