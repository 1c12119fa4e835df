"""What the routes of every area use: the check that is kept, and the ways to answer."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping, Sequence
from types import MappingProxyType
from urllib.parse import urlsplit

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Match

from compliance.desk.guard import Session
from compliance.desk.kept_check import KeptCheck, Snapshot
from compliance.desk.pages.edit_html import problems_words, refusal_page, sent_again
from compliance.desk.sent_forms import EditForm, FormError, local, read_form
from compliance.desk.svg_views import Pictures
from compliance.desk.tried_changes import Trials
from compliance.desk.uploads.held_uploads import HeldUploads
from compliance.desk.uploads.proof_uploads import ProofUpload
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError, ValueEdit
from compliance.editing.yaml_splice import SpliceError
from compliance.problems import ProblemsFound
from compliance.reading.plain_file import NO_FILES
from compliance.record import record, replace
from compliance.refused import RefusedError
from compliance.start.project_files.created_folder import is_project
from compliance.units import MeasureError

_NO_FIELDS: Mapping[str, Sequence[str]] = MappingProxyType({})


@record
class DeskContext:
    """One run of the desk. `end` makes the server come back, `is_ending` says whether it was called. `phone` is who may
    come in by a phone, None where none may; the context of what a phone asks for has the same one as its `session`.
    `proofs` are photos and papers that are not kept yet."""

    kept: KeptCheck
    session: Session
    pictures: Pictures
    trials: Trials
    proofs: HeldUploads[ProofUpload]
    end: Callable[[], None]
    is_ending: Callable[[], bool]
    phone: Session | None = None
    end_phone: Callable[[], None] = lambda: None

    def look(self) -> Snapshot:
        """The check of the files as they stand, for who asks here."""
        return replace(self.kept.look(), is_for_phone=self.session.is_phone)

    def page(self, made: Callable[[Snapshot], bytes]) -> Callable[[Request], Response]:
        """Answers with a page of the check as the files stand; where there is no project, with the way to begin one."""

        def answered(request: Request) -> Response:
            if not is_project(self.kept.folder) and not self.session.is_phone:
                return RedirectResponse("/begin", 303)
            with self.kept.lock:
                return html_of(made(self.look()))

        return answered

    def changes(self, change: Callable[[EditForm], Response]) -> Callable[[Request], Awaitable[Response]]:
        """Reads a form of values, and answers with why nothing was written, where nothing was."""

        def answered(body: bytes) -> Response:
            try:
                form = read_form(body)
            except FormError as error:
                return PlainTextResponse(f"{error}.", 400)
            return self.refusing(lambda: change(form), form)

        async def read(request: Request) -> Response:
            return await run_in_threadpool(answered, await request.body())

        return read

    def write(self, form: EditForm) -> Response:
        """Make the edits and go back. Raises as `write_edits` does; the files are as they were then."""
        if form.edits:
            self.write_step(form.edits, form.seen)
        return RedirectResponse(form.back, 303)

    def write_step(
        self, edits: Sequence[ValueEdit], seen: Mapping[str, str], new_files: Mapping[str, bytes] = NO_FILES
    ) -> None:
        """Make the edits as one step. Raises as `EditHistory.make`; then everything is as it was."""
        self.kept.history.make(edits, seen, new_files)
        if found := self.kept.look().problems:  # read as planned, and yet the files do not: as they were, then
            self.kept.history.undo()
            raise ProblemsFound(found)

    def refusing(
        self, write: Callable[[], Response], form: EditForm, fields: Mapping[str, Sequence[str]] = _NO_FIELDS,
        action: str = "",
    ) -> Response:  # fmt: skip
        """What `write` answers; a page that says why nothing was written, where it raises. `fields` are those of a form
        sent to `action` that can be sent again."""
        with self.kept.lock:
            status, why = 422, ""
            try:
                return write()
            except ProblemsFound as found:
                why = problems_words(found)
            except ChangedMeanwhileError as error:
                status, why = 409, str(error)
            except (RefusedError, MeasureError) as refused:
                why = f"{refused.wrong} ({refused.instead})"
            except FormError as error:
                status, why = 400, str(error)
            except (EditRefusedError, SpliceError, LookupError, TypeError) as error:
                why = str(error)
            except OSError as error:
                status, why = 500, f"the file cannot be written: {error.strerror or error}"
            now = self.look()
            again = sent_again(now, fields, action, form.back) if action else None
            return html_of(refusal_page(now, why, form.edits, form.back, again=again), status)

    def page_before(self, request: Request) -> str:
        """The page of the desk that a form was sent from; the first page where it was none that can be opened again."""
        found = urlsplit(request.headers.get("referer", ""))
        scope = {"type": "http", "method": "GET", "path": found.path, "headers": []}
        is_own = f"{found.scheme}://{found.netloc}" == self.session.origin
        if not is_own or not any(one.matches(scope)[0] is Match.FULL for one in request.app.routes):
            return "/"
        return local(f"{found.path}?{found.query}" if found.query else found.path)


def html_of(text: bytes, status: int = 200) -> Response:
    return Response(text, status, media_type="text/html")
