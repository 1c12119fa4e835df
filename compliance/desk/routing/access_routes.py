"""The page where a phone is let in, a new code for it, and the end of its access."""

from __future__ import annotations

from collections.abc import Callable

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from compliance.desk.phone.access_page import PHONE, access_page
from compliance.desk.routing.desk_context import DeskContext


def access_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def renew() -> None:
        if desk.phone is not None:
            desk.phone.renew()

    def then_back(change: Callable[[], None]) -> Callable[[Request], Response]:
        def answered(request: Request) -> Response:
            change()
            return RedirectResponse(PHONE, 303)

        return answered

    return [
        Route(PHONE, desk.page(lambda now: access_page(now, desk.phone))),
        Route(f"{PHONE}/code", then_back(renew), methods=["POST"]),
        Route(f"{PHONE}/end", then_back(desk.end_phone), methods=["POST"]),
    ]
