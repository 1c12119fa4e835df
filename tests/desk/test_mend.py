"""Files that do not read are mended on the page, line by line; nothing else of the machine is shown or written."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from compliance.desk.kept_check import Watcher
from tests.desk.served import Reply, Visitor, served
from tests.desk.test_editing import state


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


def form_of(page: Reply, line: int) -> dict[str, str]:
    """What the form of a line holds."""
    for one in re.findall(r'<form method="post" action="/mend">.*?</form>', page.text, re.DOTALL):
        fields = dict(re.findall(r'name="(file|line|digest)" value="([^"]*)"', one))
        text = re.search(r"<textarea[^>]*>\n(.*?)</textarea>", one, re.DOTALL)
        if fields["line"] == str(line) and text:
            return {**fields, "text": html.unescape(text[1])}
    raise AssertionError(f"no form for line {line}")


def line_of(path: Path, text: str) -> int:
    return path.read_bytes().decode("utf-8-sig").splitlines().index(text) + 1


@pytest.mark.parametrize("form", ["lf", "crlf and a mark"])
def test_two_faults_are_mended_one_after_the_other(house: Path, form: str) -> None:
    walls = house / "walls.yaml"
    if form != "lf":
        walls.write_bytes(b"\xef\xbb\xbf" + walls.read_bytes().replace(b"\n", b"\r\n"))
    sound = walls.read_bytes()
    hostile = b"    height: </textarea><b>5 bananas"
    walls.write_bytes(
        sound.replace(b"    height: 5 ft", hostile).replace(b"    bears_load: no", b"    bears_load: maybe")
    )
    broken = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        assert 'href="/mend"' in visitor.get("/").text
        page = visitor.get("/mend")
        assert "bananas" in page.text and "<b>5" not in page.text and page.text.count("<textarea") == 2
        first = line_of(walls, hostile.decode())
        sent = form_of(page, first)
        assert sent["text"] == hostile.decode() and sent["file"] == "walls.yaml"
        assert visitor.post("/mend", sent).status == 422 and state(house) == broken  # as it was
        reply = visitor.post("/mend", {**sent, "text": "    height: 5 ft"})
        assert (reply.status, reply.headers["location"]) == (303, "/mend")
        stale = visitor.post("/mend", {**sent, "text": "    height: 6 ft"})
        assert stale.status == 409 and "6 ft" in stale.text
        second = form_of(visitor.get("/mend"), line_of(walls, "    bears_load: maybe"))
        reply = visitor.post("/mend", {**second, "text": "    bears_load: no"})
        assert (reply.status, reply.headers["location"]) == (303, "/") and walls.read_bytes() == sound
        assert "can be read as they stand" in visitor.get("/mend").text
        assert visitor.post("/undo").status == visitor.post("/undo").status == 303 and state(house) == broken


def test_a_line_far_from_what_stumbles_over_it_can_be_mended(house: Path) -> None:
    """A bracket that is not closed is found lines below; any line can be asked for."""
    project = house / "project.yaml"
    sound = project.read_text("utf-8")
    project.write_text(sound.replace("include:\n", "include: [\n"), "utf-8")
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        assert "yaml-syntax" in visitor.get("/mend").text
        at = line_of(project, "include: [")
        page = visitor.get(f"/mend?file=project.yaml&line={at}")
        assert visitor.post("/mend", {**form_of(page, at), "text": "include:"}).status == 303
    assert project.read_text("utf-8") == sound


OUTSIDE = (
    "../secret.yaml",
    "/etc/passwd",
    "photos/mixing.png",
    ".hidden.yaml",
    "link.yaml",
    "",
    "no.yaml",
    "a\\..\\b.yaml",
)


def test_nothing_but_the_texts_of_the_project_is_shown_or_written(house: Path) -> None:
    (house.parent / "secret.yaml").write_text("secret: words\n", "utf-8")
    (house / ".hidden.yaml").write_text("secret: words\n", "utf-8")
    (house / "link.yaml").symlink_to(house.parent / "secret.yaml")
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        for name in OUTSIDE:
            page = visitor.ask("GET", f"/mend?file={name.replace(chr(92), '%5C')}&line=1")
            assert "secret: words" not in page.text and "root:" not in page.text and "<textarea" not in page.text, name
            sent = {"file": name, "line": "1", "text": "x: 1", "digest": ""}
            assert visitor.post("/mend", sent).status in (409, 422), name
        for line in ("0", "-1", "99999", "x", "\u0661"):
            sent = {"file": "walls.yaml", "line": line, "text": "x: 1", "digest": desk.kept.now.digests["walls.yaml"]}
            assert visitor.post("/mend", sent).status == 422, line
    assert state(house) == before and (house.parent / "secret.yaml").read_text("utf-8") == "secret: words\n"
