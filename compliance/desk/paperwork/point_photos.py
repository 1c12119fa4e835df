"""Photos that are taken while a point is recorded: their field on the page, and the photos in what was sent."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from compliance.desk.pages.attached.attached_html import PHONE_PHOTO, PHOTOS
from compliance.desk.paperwork.asked_people import Asked, Photos
from compliance.desk.paperwork.record_forms import Entry, Fields, text_of_field
from compliance.desk.uploads.held_uploads import HeldUploads
from compliance.desk.uploads.proof_uploads import ProofUpload
from compliance.editing.evidence_files import Evidence
from compliance.editing.file_edits import EditRefusedError
from compliance.output.checklist.html_tags import Markup, tag


def photo_field(one: Asked, entry: Entry, held: HeldUploads[ProofUpload]) -> Markup:
    """A way to take a photo, and those that were taken and are not written yet. The script of the page sends each as it
    is taken and adds its number and its title to the form."""
    name = _numbers(one)
    taken = [_shot(name, number, entry) for number in entry.typed.get(name, ()) if held.of(number) is not None]
    return tag(
        "div",
        tag("label", "Add a photo", for_=f"take-{one.key}"),
        tag("input", type="file", id=f"take-{one.key}", **PHONE_PHOTO),
        tag("p", "", class_="care", role="alert", hidden=""),
        *taken,
        class_="shots", data_name=name, data_title=one.title, data_address=f"{PHOTOS}/drop/",
        data_held=f"{PHOTOS}/held/",
    )  # fmt: skip


def _shot(name: str, number: str, entry: Entry) -> Markup:
    title = _title(number)
    return tag(
        "div",
        tag("img", src=f"{PHOTOS}/held/{number}", alt="The photo that was taken", class_="photo"),
        tag("input", type="hidden", name=name, value=number),
        tag("label", "Title of the photo", for_=title),
        tag("input", type="text", name=title, id=title, value=entry.value(title), maxlength="400", autocomplete="off"),
        class_="shot",
    )


def point_photos(fields: Fields, asked: Sequence[Asked], held: HeldUploads[ProofUpload]) -> Photos:
    """Those that were sent with a form, by the key of what is asked. Raises EditRefusedError."""
    return {one.key: tuple(_photos(fields, one, held)) for one in asked}


def _photos(fields: Fields, one: Asked, held: HeldUploads[ProofUpload]) -> Iterator[Evidence]:
    for number in fields.get(_numbers(one), ()):
        upload = held.of(number)
        if upload is None or upload.picture is None:
            raise EditRefusedError(f"{one.title}: a photo is not held any more; take it again")
        dated = date.fromisoformat(upload.dated) if upload.dated else None
        title = text_of_field(fields, _title(number)) or one.title
        yield Evidence(upload.file, title=title, dated=dated, data=upload.data)


def _numbers(one: Asked) -> str:
    return f"photo:{one.key}"


def _title(number: str) -> str:
    return f"title:{number}"
