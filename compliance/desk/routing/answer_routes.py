"""The answer, the page of each subject, the cautions."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from compliance.desk.pages.answer_html import FILL, answer_page, fill_page
from compliance.desk.pages.frame import cautions_page, page
from compliance.desk.pages.subject_html import chosen, findings_about, subject_page
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.output.checklist.html_tags import tag
from compliance.reading.source_lines import read_source_lines
from compliance.remedies import remedies, tester_for


def answer_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""

    def subject_of(request: Request) -> Response:
        subject, rule = request.path_params["subject"], request.query_params.get("rule", "")
        with desk.kept.lock:
            now = desk.look()
            findings = findings_about(now.checked, subject) if now.checked else []
            if now.checked is None or not findings:
                says = tag("p", f"Nothing is called {subject!r}, or no rule is about it.")
                return html_of(page("Not found", now, tag("h1", "Not found"), says), 404)
            one = chosen(findings, rule)
            found = remedies(tester_for(now.checked), one)
            return html_of(subject_page(now, subject, one=one, found=found, read_lines=read_source_lines))

    return [
        Route("/", desk.page(lambda now: answer_page(now, read_source_lines))),
        Route(FILL, desk.page(lambda now: fill_page(now, read_source_lines))),
        Route("/cautions", desk.page(cautions_page)),
        Route("/subject/{subject:path}", subject_of),
    ]
