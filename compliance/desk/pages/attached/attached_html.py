"""Photos and papers of the project with what they prove, and one that was dropped in before it is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import PurePath
from urllib.parse import quote

from compliance.checked import Checked
from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.described_forms import next_mark, record_form
from compliance.desk.pages.field_forms import choice_field, edit_form, value_input
from compliance.desk.pages.frame import as_data, listed, page, problems_box, section
from compliance.desk.pages.lab.tests_html import drop_field
from compliance.desk.uploads.proof_ties import ties
from compliance.desk.uploads.proof_uploads import TAKEN, TEXTS, ProofUpload
from compliance.facts.common.fact import FieldPath
from compliance.files.file_kinds import PICTURES
from compliance.output.checklist.html_tags import Child, Markup, joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.report.attachment_uses import used_for
from compliance.report.by_rule import by_rule
from compliance.report.value_words import counted

PHOTOS = "/photos"
_DROP = f"Choose a photo or a paper, or drop it here: {', '.join(TAKEN)}. Nothing is written before its title is given."
_TAKE = "Take a photo, or choose one. Nothing is written before its title is given."
PHONE_PHOTO = {"accept": "image/*", "capture": "environment"}
"""What a phone offers its camera for."""
_MOST_SHOWN = 4_000
_FIELDS = ("title", "date", "kind")


def photos_page(snapshot: Snapshot, read_lines: ReadLines) -> bytes:
    """The whole page."""
    checked = snapshot.checked
    children: list[Child] = [problems_box(snapshot, read_lines), tag("h1", "Photos and papers")]
    if checked is not None:
        if snapshot.is_for_phone and not snapshot.problems:
            children.append(drop_field(f"{PHOTOS}/drop/", PHONE_PHOTO["accept"], _TAKE, capture=PHONE_PHOTO["capture"]))
        elif not snapshot.problems:
            children.append(drop_field(f"{PHOTOS}/drop/", ",".join(TAKEN), _DROP))
        rows = [joined(_one(checked, mark, snapshot)) for mark in checked.project.attachments]
        children.append(listed(rows) if rows else tag("p", "Nothing is attached yet."))
    return page("Photos and papers", snapshot, *children, here=PHOTOS, scripts=("drop.js",))


def _one(checked: Checked, mark: str, snapshot: Snapshot) -> Iterator[Child]:
    attachment = checked.project.attachments[mark]
    source = f"{PHOTOS}/file/{quote(mark, safe='')}"
    uses = used_for(checked, by_rule(checked)).get(mark, ())
    dated = f", {attachment.date.isoformat()}" if attachment.date else ""
    yield tag("p", f"{mark}: {attachment.title}", class_="what")
    yield tag("p", tag("a", attachment.file, href=source), dated, class_="small")
    yield tag("p", f"Named for {', '.join(uses)}." if uses else "Nothing names it yet.", class_="small")
    if PurePath(attachment.file).suffix.lower() in PICTURES:
        yield tag("img", src=source, alt=attachment.title, loading="lazy", class_="photo")
    if not snapshot.problems and not snapshot.is_for_phone:
        offered = ties(checked.project)
        tie = edit_form(
            tag("label", "It documents", for_=f"tie-{mark}"), _targets(offered, f"tie-{mark}", "path", required=""),
            tag("input", type="hidden", name="value", value=mark), tag("button", "Tie", type="submit"),
            snapshot=snapshot, back=PHOTOS, class_="fields",
        )  # fmt: skip
        form = record_form(("attachments", mark), attachment, snapshot, PHOTOS)
        yield tag("details", tag("summary", f"Tie {mark} to something, or correct it"), tie, form)


def _targets(offered: Mapping[FieldPath, str], key: str, name: str, **more: str) -> Markup:
    options = [(as_data(list(path)), words) for path, words in offered.items()]
    return choice_field(options, key, name=name, **more)


def new_page(snapshot: Snapshot, number: str, upload: ProofUpload) -> bytes:
    """What was dropped in, as it would be printed, with its title and what it documents."""
    checked = snapshot.checked
    assert checked is not None
    mark = next_mark(snapshot, "attachments")
    rows: list[Child] = [_row("mark", "new-mark", _text("mark", "new-mark", mark, "24"))]
    offered = ties(checked.project, on_site_alone=snapshot.is_for_phone)
    held = {"title": upload.title, "date": upload.dated}
    for name in _FIELDS:
        path = ("attachments", mark, name)
        rows.append(_row(name, f"new-{name}", value_input(path, f"new-{name}", now=held.get(name, ""), name=name)))
    rows.append(_row("it documents", "new-tie", _targets(offered, "new-tie", "tie")))
    leave = tag("a", "Leave", href=PHOTOS, class_="button")
    form = edit_form(
        *rows, tag("div", tag("button", "Keep it", type="submit"), leave, class_="ways"),
        snapshot=snapshot, back=PHOTOS, class_="fields", action=f"{PHOTOS}/new/{number}",
    )  # fmt: skip
    says = f"It would be kept as {upload.file}, {len(upload.data):,} bytes, as it came. Nothing is written yet."
    return page(
        "New photo or paper", snapshot, tag("h1", "New photo or paper"), tag("p", says),
        tag("div", form, _shown(number, upload), class_="beside"),
    )  # fmt: skip


def _row(label: str, key: str, control: Markup) -> Markup:
    return tag("div", tag("label", label, for_=key), control, class_="field")


def _text(name: str, key: str, value: str, most: str) -> Markup:
    return tag("input", type="text", name=name, id=key, value=value, maxlength=most, autocomplete="off", required="")


def _shown(number: str, upload: ProofUpload) -> Markup:
    if upload.picture is not None:
        size = f"{upload.picture.width} by {upload.picture.height} pixels, upright"
        picture = tag("img", src=f"{PHOTOS}/held/{number}", alt="The photo that was dropped in")
        return section("As it is printed", picture, tag("p", size, class_="small"))
    if PurePath(upload.file).suffix.lower() in TEXTS:
        text = upload.data.decode("utf-8-sig", "replace")
        cut = f", the first {_MOST_SHOWN:,}" if len(text) > _MOST_SHOWN else ""
        count = counted(len(text), "character")
        return section("As it reads", tag("pre", text[:_MOST_SHOWN], tabindex="0"), tag("p", f"{count}{cut}"))
    return section("A PDF", tag("p", "Its pages are bound into the submittal as they are."))
