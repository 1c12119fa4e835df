"""Photos and papers: dropped in, looked at, titled, tied to what they prove, kept; and shown again."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path, PurePath
from typing import Any

from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Route

from compliance.desk.earth_forms import Fields, one_of, refuse_mark
from compliance.desk.pages.attached.attached_html import PHOTOS, new_page, photos_page
from compliance.desk.pages.edit_html import refusal_page
from compliance.desk.routing.desk_context import DeskContext, html_of
from compliance.desk.routing.lab_routes import read_whole
from compliance.desk.sent_forms import EditForm, FormError, path_of_text, read_fields, seen_in, written_value
from compliance.desk.uploads.proof_ties import ties
from compliance.desk.uploads.proof_uploads import ProofUpload, proof_upload
from compliance.documents.attachments.pictures import Picture, read_picture
from compliance.editing.evidence_files import MOST_BYTES
from compliance.editing.file_edits import EditRefusedError, ValueEdit
from compliance.files.file_kinds import PDF, PDF_BEGINS, PICTURES
from compliance.files.safe_paths import inside
from compliance.model.project import Project
from compliance.problems import ProblemsFound
from compliance.reading.plain_file import read_bytes
from compliance.reading.source_lines import read_source_lines
from compliance.refused import RefusedError

GONE = "This file is not held any more: drop it in again."
_NO_FILE = PlainTextResponse("There is no such file.", 404)
_WRITTEN = ("title", "date", "kind")


def attached_routes(desk: DeskContext) -> list[Route]:
    """Those of this area."""
    held, is_phone = desk.proofs, desk.session.is_phone

    def drop(request: Request, data: bytes) -> Response:
        """Where the page goes on, or why the file is not taken, as a line of text for the script that sent it."""
        try:
            upload = proof_upload(desk.kept.folder, request.path_params["name"], data)
        except RefusedError as refused:
            return PlainTextResponse(f"{refused.wrong} ({refused.instead})", 415)
        if is_phone and upload.picture is None:
            return PlainTextResponse("A phone adds photos alone; papers are dropped in at the desk.", 415)
        return PlainTextResponse(f"{PHOTOS}/new/{held.add(upload)}")

    def new(request: Request) -> Response:
        number = request.path_params["number"]
        upload = held.of(number)
        with desk.kept.lock:
            now = desk.look()
            if upload is None or now.checked is None:
                return html_of(refusal_page(now, GONE, (), PHOTOS), 404)
            return html_of(new_page(now, number, upload))

    def shown(request: Request) -> Response:
        upload = held.of(request.path_params["number"])
        return _NO_FILE if upload is None or upload.picture is None else _picture(upload.picture)

    def keep(request: Request, body: bytes) -> Response:
        upload = held.of(request.path_params["number"])
        with desk.kept.lock:
            now = desk.look()
            if upload is None or now.checked is None:
                return html_of(refusal_page(now, GONE, (), PHOTOS), 404)
            project = now.checked.project
            try:
                fields = read_fields(body)
                form = EditForm((), seen_in(fields), PHOTOS)

                def write() -> Response:
                    desk.write_step(_edits(fields, upload, project, is_phone), form.seen, {upload.file: upload.data})
                    return RedirectResponse(PHOTOS, 303)

                return desk.refusing(write, form)
            except FormError as error:
                return PlainTextResponse(f"{error}.", 400)

    def file(request: Request) -> Response:
        """A picture upright, any other file to be saved."""
        checked = desk.kept.now.checked
        attachment = checked.project.attachments.get(request.path_params["mark"]) if checked else None
        if attachment is None:
            return _NO_FILE
        try:
            return _answer(inside(desk.kept.folder, attachment.file), attachment.file)
        except (RefusedError, ProblemsFound, OSError):
            return _NO_FILE

    return [
        Route(PHOTOS, desk.page(lambda now: photos_page(now, read_source_lines))),
        Route(f"{PHOTOS}/drop/{{name}}", read_whole(drop), methods=["PUT"]),
        Route(f"{PHOTOS}/new/{{number}}", new),
        Route(f"{PHOTOS}/new/{{number}}", read_whole(keep), methods=["POST"]),
        Route(f"{PHOTOS}/held/{{number}}", shown),
        Route(f"{PHOTOS}/file/{{mark}}", file),
    ]


def _edits(fields: Fields, upload: ProofUpload, project: Project, is_phone: bool) -> list[ValueEdit]:
    """Its entry, and its mark where it is proof of something, from a phone of an inspection alone. Raises
    EditRefusedError or FormError."""
    mark = one_of(fields, "mark")
    refuse_mark("attachments", mark, project)
    entry: dict[str, Any] = {"file": upload.file}
    for name in _WRITTEN:
        if text := one_of(fields, name):
            entry[name] = written_value(("attachments", mark, name), text)
    edits = [ValueEdit(("attachments", mark), entry)]
    if tie := one_of(fields, "tie"):
        path = path_of_text(tie)
        if path not in ties(project, on_site_alone=is_phone):
            raise EditRefusedError("what it documents is not there any more, or names another attachment by now")
        edits.append(ValueEdit(path, mark))
    return edits


def _answer(path: Path, name: str) -> Response:
    suffix = PurePath(name).suffix.lower()
    if suffix in PICTURES:
        found = path.stat()
        return _picture(_upright(path, found.st_mtime_ns, found.st_size))
    data = read_bytes(path, name, "attachment", MOST_BYTES)
    kind = "application/pdf" if suffix == PDF and data.startswith(PDF_BEGINS) else "application/octet-stream"
    return Response(data, media_type=kind, headers={"Content-Disposition": "attachment"})


@lru_cache(maxsize=24)
def _upright(path: Path, changed: int, size: int) -> Picture:
    """The picture in a file, made again when the file is another. Raises RefusedError or ProblemsFound."""
    return read_picture(read_bytes(path, path.name, "attachment", MOST_BYTES))


def _picture(picture: Picture) -> Response:
    kind = "image/png" if picture.data.startswith(PICTURES[".png"]) else "image/jpeg"
    return Response(picture.data, media_type=kind)
