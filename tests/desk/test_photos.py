"""Photos and papers dropped in: what they are by content, upright, titled, tied, kept as they came, taken back."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from PIL import Image

from compliance.desk.kept_check import Watcher
from compliance.desk.uploads.proof_ties import ties
from compliance.editing.file_edits import ValueEdit, edit_tree
from compliance.reading.project_folder import read_project
from tests.desk.form_fields import fields_of_form
from tests.desk.served import Visitor, served
from tests.desk.test_editing import state
from tests.desk.test_pages import words

PIXELS = (60, 30)


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


def photo(orientation: int = 1, kind: str = "JPEG") -> bytes:
    out = io.BytesIO()
    picture = Image.new("RGB", PIXELS, "#A1432F")
    exif = picture.getexif()
    exif[0x0112] = orientation  # Exif 2.3, table 6: 6 is turned a quarter
    exif.get_ifd(0x8769)[0x9003] = "2026:05:14 09:30:00"
    picture.save(out, kind, exif=exif)
    return out.getvalue()


def kept(visitor: Visitor, address: str, **changes: str) -> int:
    page = visitor.get(address)
    assert page.status == 200
    fields = [(name, changes.get(name, value)) for name, value in fields_of_form(page.text, address)]
    return visitor.post(address, fields).status


@pytest.mark.usefixtures("one_rule_set")
def test_a_photo_is_turned_upright_titled_tied_and_kept_as_it_came(house: Path) -> None:
    before, data = state(house), photo(6)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        address = visitor.ask("PUT", "/photos/drop/..%5Cpit%20wall_2.png", data).text  # a JPEG by its content
        page = visitor.get(address)
        proposed = dict(fields_of_form(page.text, address))
        assert "photos/pit wall_2.jpg" in page.text and "30 by 60 pixels, upright" in page.text
        assert (proposed["title"], proposed["date"]) == ("pit wall 2", "2026-05-14")
        shown = visitor.ask("GET", address.replace("/new/", "/held/"), headers={}, raw=True)
        assert shown.headers["content-type"] == "image/jpeg"
        assert state(house) == before and not (house / "photos" / "pit wall_2.jpg").exists()
        tie = next(path for path in proposed_ties(page.text) if path.startswith('["soils", "S1", "photos"'))
        assert kept(visitor, address, mark="pit", title="<b>Pit</b>: yes", tie=tie) == 303
        text = visitor.get("/photos").text
        assert "<b>Pit" not in text and "Named for soil S1" in words(text)
        assert visitor.ask("GET", "/photos/file/pit", raw=True).headers["content-type"] == "image/jpeg"
        after = state(house)
        assert visitor.post("/undo").status == 303 and state(house) == before
        assert not (house / "photos" / "pit wall_2.jpg").exists()
        assert visitor.post("/redo").status == 303 and state(house) == after
    assert (house / "photos" / "pit wall_2.jpg").read_bytes() == data
    read = read_project(house).project
    assert read.attachments["pit"].title == "<b>Pit</b>: yes" and read.soils["S1"].photos == ["pit"]


def proposed_ties(text: str) -> list[str]:
    import html
    import re

    return [html.unescape(one) for one in re.findall(r'<option value="(\[[^"]*)"', text)]


@pytest.mark.usefixtures("one_rule_set")
def test_papers_are_kept_and_one_that_is_there_is_never_replaced(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        for name, data, file in (
            ("letter.pdf", b"%PDF-1.7\n...", "papers/letter.pdf"), ("letter.pdf", b"%PDF-1.4\n", "papers/letter-2.pdf"),
            ("notes.TXT", b"Dug at noon.\n", "papers/notes.txt"),
        ):  # fmt: skip
            address = visitor.ask("PUT", f"/photos/drop/{name}", data).text
            assert file in visitor.get(address).text
            assert kept(visitor, address) == 303
            assert (house / file).read_bytes() == data
            assert kept(visitor, address) == 422  # the file is there by now
        mark = next(
            mark for mark, one in read_project(house).project.attachments.items() if one.file.endswith("-2.pdf")
        )
        reply = visitor.get(f"/photos/file/{mark}")
        assert reply.headers["content-disposition"] == "attachment" and reply.text == "%PDF-1.4\n"
        assert visitor.get("/photos/file/none").status == 404 and visitor.get("/photos/new/99").status == 404


REFUSED = {
    "IMG_1.HEIC": (b"\x00\x00\x00\x18ftypheic", "HEIC photos cannot be printed (save it as JPEG"),
    "IMG_2.jpg": (b"\x00\x00\x00\x18ftypmif1", "HEIC photos cannot be printed"),
    "virus.exe": (b"MZ", "'virus.exe' is neither a picture, nor a PDF, nor a text"),
    "page.html": (b"<script>", "neither a picture"),
    "fake.png": (b"GIF89a", "does not begin as a .png file does"),
    "cut.jpg": (photo()[:200], "the picture is damaged"),
    "bytes.txt": (b"\xff\xfe\x00", "UTF-16"),
    "empty.txt": (b"", "0 bytes"),
}


def test_what_cannot_be_printed_is_refused_by_name(reader: Visitor) -> None:
    for name, (data, why) in REFUSED.items():
        reply = reader.ask("PUT", f"/photos/drop/{name}", data)
        assert reply.status == 415 and why in reply.text, (name, reply.text)
    assert reader.ask("PUT", "/photos/drop/a.jpg", photo(), {"Sec-Fetch-Site": "cross-site"}).status == 403

    def pieces() -> object:
        for _ in range(90):
            yield b"\xff\xd8\xff" + b"x" * 500_000

    assert reader.ask("PUT", "/photos/drop/a.jpg", pieces()).status == 413  # type: ignore[arg-type]


def test_everything_that_can_be_tied_reads(house: Path) -> None:
    project = read_project(house).project
    offered = ties(project)
    assert {path[0] for path in offered} == {
        "soils", "trials", "batches", "test_sets", "attestations", "inspections",
    } & {name for name in ("soils", "trials", "batches", "test_sets", "attestations", "inspections")
         if getattr(project, name)}  # fmt: skip
    edits = [ValueEdit(path, "mixing") for path in offered]
    tied = read_project(house, lambda tree: edit_tree(tree, edits)).project
    assert {path[-2] for path in ties(tied)} == {"photos", "evidence"}
    assert project.attachments and tied.soils["S1"].photos == [*project.soils["S1"].photos, "mixing"]
