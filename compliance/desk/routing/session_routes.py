"""Coming in, going out, what lies still, and the stream that says when there is a new check."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from pathlib import Path

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route

from compliance.desk.guard import ENTRANCE
from compliance.desk.routing.desk_context import DeskContext
from compliance.output.checklist.html_tags import tag

STATIC = Path(__file__).parents[1] / "static"
STATIC_FILES = {
    "desk.css": "text/css",
    "drop.js": "text/javascript",
    "earth.js": "text/javascript",
    "icon.svg": "image/svg+xml",
    "live.js": "text/javascript",
    "plan.js": "text/javascript",
    "shots.js": "text/javascript",
}
_EVERY, _BEAT = 0.05, 15.0


def session_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def open_(request: Request) -> Response:
        """Gives the cookie out. The page then goes on by itself: a redirect that began in another program would come
        without the cookie."""
        if not desk.session.admit(request.query_params.get("token", "")):
            return PlainTextResponse(desk.session.not_in, 403)
        if desk.session.is_phone:
            desk.kept.tell()  # the page of the desk with the code in it
        on = tag("meta", http_equiv="refresh", content="0; url=/")
        icon = tag("link", rel="icon", href="/static/icon.svg")  # without it the browser asks for one of its own
        head = tag("head", on, tag("title", "Opening the desk"), icon)
        text = f"<!doctype html>\n{tag('html', head, tag('body', tag('a', 'Open the desk', href='/')), lang='en')}"
        return Response(text, media_type="text/html", headers={"Set-Cookie": desk.session.cookie})

    def static(request: Request) -> Response:
        name = request.path_params["name"]
        if name not in STATIC_FILES:
            return PlainTextResponse("There is no such file.", 404)
        return Response((STATIC / name).read_bytes(), media_type=STATIC_FILES[name])

    def icon(request: Request) -> Response:
        """A browser asks for it by this name beside a PDF."""
        return Response((STATIC / "icon.svg").read_bytes(), media_type=STATIC_FILES["icon.svg"])

    async def events(request: Request) -> Response:
        """The number of the check each time there is a new one."""

        async def numbers() -> AsyncIterator[str]:
            told, quiet = -1, 0.0
            while not desk.is_ending() and not desk.session.is_ended and not await request.is_disconnected():
                number = desk.kept.now.number
                if number != told or quiet >= _BEAT:
                    yield f"data: {number}\n\n"
                    told, quiet = number, 0.0
                await asyncio.sleep(_EVERY)
                quiet += _EVERY

        return StreamingResponse(numbers(), media_type="text/event-stream")

    async def end(request: Request) -> Response:
        await request.body()
        desk.end()
        return PlainTextResponse("The desk has ended. This page can be closed.")

    return [
        Route(ENTRANCE, open_),
        Route("/static/{name}", static),
        Route("/favicon.ico", icon),
        Route("/events", events),
        Route("/end", end, methods=["POST"]),
    ]
