"""All that a phone may ask for. What is not in the list is refused, whatever the desk can do."""

from __future__ import annotations

from starlette.routing import Route

from compliance.desk.routing.answer_routes import answer_routes
from compliance.desk.routing.attached_routes import attached_routes
from compliance.desk.routing.desk_context import DeskContext
from compliance.desk.routing.paper_routes import paper_routes
from compliance.desk.routing.plan_routes import plan_routes
from compliance.desk.routing.record_routes import record_routes
from compliance.desk.routing.session_routes import session_routes

PERMITTED = frozenset({
    # coming in, and what every page needs
    ("GET", "/open"),
    ("GET", "/static/{name}"),
    ("GET", "/favicon.ico"),
    ("GET", "/events"),
    # reading
    ("GET", "/"),
    ("GET", "/subject/{subject:path}"),
    ("GET", "/plan"),
    ("GET", "/picture/{view}.svg"),
    ("GET", "/inspections"),
    ("GET", "/limits"),
    ("GET", "/papers"),
    ("GET", "/out/{name:path}"),
    ("GET", "/cautions"),
    ("GET", "/photos"),
    ("GET", "/photos/file/{mark}"),
    # adding photos
    ("PUT", "/photos/drop/{name}"),
    ("GET", "/photos/new/{number}"),
    ("GET", "/photos/held/{number}"),
    ("POST", "/photos/new/{number}"),
    # recording hold and witness points
    ("POST", "/inspections"),
})  # fmt: skip
_AREAS = (session_routes, answer_routes, plan_routes, attached_routes, record_routes, paper_routes)


def phone_routes(desk: DeskContext) -> list[Route]:
    """The routes of the desk that are permitted, with the pages as a phone sees them."""
    return [
        one for area in _AREAS for one in area(desk)
        if all((method, one.path) in PERMITTED for method in (one.methods or ()) if method != "HEAD")
    ]  # fmt: skip
