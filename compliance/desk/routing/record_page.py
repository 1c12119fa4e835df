"""A page whose forms record something: shown, sent to its own address, and shown again with why nothing was written."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.paperwork.record_forms import Entry, Fields, Written, read_fields
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.sent_forms import FormError
from compliance.editing.file_edits import ChangedMeanwhileError, EditRefusedError
from compliance.editing.yaml_splice import SpliceError
from compliance.problems import ProblemsFound

PageOf = Callable[[Snapshot, Entry], bytes]
Write = Callable[[Checked, Fields], Written]


class RecordPage:
    """A page whose forms are sent to its own address. What could not be written is typed in again for the reader; what
    was written is told until the next change."""

    def __init__(self, desk: DeskContext, path: str, page_of: PageOf, writers: Mapping[str, Write]) -> None:
        self._desk, self._path, self._page_of, self._writers = desk, path, page_of, writers
        self._by = ""
        self._last: Written | None = None

    def routes(self) -> list[Route]:
        return [Route(self._path, self._show), Route(self._path, self._take, methods=["POST"])]

    def _show(self, request: Request) -> Response:
        with self._desk.kept.lock:
            now, last = self._desk.look(), self._last
            is_last = last is not None and (last.step is None or self._desk.kept.history.is_last(last.step))
            says = last.says if last is not None and is_last else ()
            entry = Entry(says=says, by=self._known, asked=dict(request.query_params))
            return html_of(self._page_of(now, entry))

    async def _take(self, request: Request) -> Response:
        return await run_in_threadpool(self._taken, await request.body())

    def _taken(self, body: bytes) -> Response:
        try:
            fields = read_fields(body)
        except FormError as error:
            return PlainTextResponse(f"{error}.", 400)
        write = self._writers.get(fields.get("do", [""])[0])
        if write is None:
            return PlainTextResponse("This form belongs to no page.", 400)
        with self._desk.kept.lock:
            status, why = 422, []
            try:
                written = self._written(write, fields)
            except ProblemsFound as found:
                why = [_words(one.place.file, one.wrong, one.instead) for one in found.problems]
            except ChangedMeanwhileError as error:
                status, why = 409, [str(error)]
            except (EditRefusedError, SpliceError, LookupError, TypeError) as error:
                why = [str(error)]
            except OSError as error:
                status, why = 500, [f"the file cannot be written: {error.strerror or error}"]
            else:
                self._last, self._by = written, written.by or self._by
                return RedirectResponse(self._path + ("?later=1" if "later" in fields else ""), 303)
            asked = {"later": "1"} if "later" in fields else {}
            entry = Entry(fields, why=tuple(dict.fromkeys(why)), by=self._known, asked=asked)
            return html_of(self._page_of(self._desk.look(), entry), status)

    @property
    def _known(self) -> str:
        """Who entered something last at the desk; several people may come in by phones."""
        return "" if self._desk.session.is_phone else self._by

    def _written(self, write: Write, fields: Fields) -> Written:
        """Raises as the writers do, with nothing written."""
        kept = self._desk.kept
        now = kept.look()
        if now.checked is None or now.problems:
            raise ChangedMeanwhileError("the files cannot be read as they stand; nothing was written")
        written = write(now.checked, fields)
        if written.step is not None:
            kept.history.add(written.step)
            if found := kept.look().problems:  # read as planned, and yet the files do not: as they were, then
                kept.history.undo()
                raise ProblemsFound(found)
        return written


def _words(place: str, wrong: str, instead: str) -> str:
    named = "" if place.endswith((".yaml", ".csv", ".json")) else f"{place}: "
    return f"{named}{wrong}" + (f" ({instead})" if instead else "")
