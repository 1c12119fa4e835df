"""Papers are made beside the pages, listed with their age, opened from their own folder alone; revisions, comments."""

from __future__ import annotations

import html
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.desk.kept_check import Watcher
from compliance.desk.paperwork.paper_kinds import BY_NAME
from tests.benchmarks.rows_of_rooms import write_rooms
from tests.desk.served import Reply, Visitor, served
from tests.desk.test_editing import seen_of, state
from tests.desk.test_pages import words


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


@pytest.fixture
def rooms(tmp_path: Path) -> Path:
    write_rooms(tmp_path / "rooms", 4)
    return tmp_path / "rooms"


@pytest.fixture
def visitor(rooms: Path) -> Iterator[Visitor]:
    with served(rooms) as desk:
        yield Visitor(desk).let_in()


def made(visitor: Visitor, what: str, **more: str) -> str:
    """The words of the page of papers once a paper was made, or was not."""
    assert visitor.post("/papers", {"do": "make", "what": what, **more}).status == 303
    until = time.monotonic() + 120
    while "being made" in (text := words(visitor.get("/papers").text)):
        assert time.monotonic() < until, "the paper is never done"
        time.sleep(0.05)
    return text


def test_a_paper_is_made_without_a_new_check_listed_and_opened(rooms: Path, visitor: Visitor) -> None:
    checked = visitor.desk.kept.look().checked
    text = made(visitor, "plan")
    assert "Plan alone: made" in text and "no file changed since" in text
    assert visitor.desk.kept.now.checked is checked
    opened = visitor.ask("GET", "/out/rooms-plan.pdf", headers={"Range": "bytes=0-7"})
    assert (opened.status, opened.text[:5]) == (206, "%PDF-")
    assert (
        opened.headers["content-type"] == "application/pdf"
        and "default-src" in opened.headers["content-security-policy"]
    )
    assert opened.headers["content-disposition"].startswith("inline")
    time.sleep(0.02)
    project = rooms / "project.yaml"
    project.write_text(project.read_text("utf-8") + "# changed\n", "utf-8")
    assert "project.yaml changed since: make it again" in words(visitor.get("/papers").text)


def test_every_paper_of_the_page_is_known(visitor: Visitor) -> None:
    page = html.unescape(visitor.get("/papers").text)
    assert all(f'value="{name}"' in page for name in BY_NAME)


ELSEWHERE = (
    "../project.yaml",
    "%2e%2e/project.yaml",
    "..%2fproject.pdf",
    "/etc/passwd",
    "%2fetc%2fpasswd",
    ".hidden.pdf",
    "link.pdf",
    "far.pdf",
    "notes.yaml",
    "folder.pdf",
    "folder.pdf/../../project.yaml",
    "a%00.pdf",
    "none.pdf",
    "",
)


def test_only_papers_of_the_folder_for_them_are_opened(rooms: Path, visitor: Visitor, tmp_path: Path) -> None:
    out = rooms / "out"
    (out / "folder.pdf").mkdir(parents=True)
    (tmp_path / "secret.pdf").write_bytes(b"%PDF-secret")
    (rooms / "own.pdf").write_bytes(b"%PDF-own")
    (out / "link.pdf").symlink_to(tmp_path / "secret.pdf")
    (out / "far.pdf").symlink_to(rooms / "own.pdf")
    (out / "notes.yaml").write_text("a: 1\n", "utf-8")
    (out / ".hidden.pdf").write_bytes(b"%PDF-hidden")
    for name in ELSEWHERE:
        reply = visitor.get(f"/out/{name}")
        assert reply.status in (400, 404) and "%PDF" not in reply.text and "walls" not in reply.text, name
    (out / "mine.pdf").write_bytes(b"%PDF-1.4 mine")
    assert visitor.get("/out/mine.pdf").text == "%PDF-1.4 mine"
    page = visitor.get("/papers").text
    assert "/out/mine.pdf" in page and "secret" not in page and "link.pdf" not in page


def test_what_another_made_is_not_replaced_and_no_folder_elsewhere_is_written(
    rooms: Path, visitor: Visitor, tmp_path: Path
) -> None:
    out = rooms / "out"
    out.mkdir()
    (out / "rooms-plan.pdf").write_bytes(b"%PDF-1.4 by another program")
    assert "was not written by earthwall" in made(visitor, "plan")
    assert (out / "rooms-plan.pdf").read_bytes() == b"%PDF-1.4 by another program"
    (out / "rooms-plan.pdf").unlink()
    out.rmdir()
    (tmp_path / "elsewhere").mkdir()
    out.symlink_to(tmp_path / "elsewhere")
    assert "Plan alone: not made" in made(visitor, "plan")
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_revision_is_issued_once_and_the_next_is_compared_with_it(rooms: Path, visitor: Visitor) -> None:
    text = made(visitor, "issue")
    assert "Submittal, issued: made" in text and "A, issued 2026-12-30" in text
    names = {path.relative_to(rooms).as_posix() for path in rooms.rglob("*.*") if path.is_file()}
    parts = {f"out/rooms-submittal-A/{part}.pdf" for part in ("papers", "drawings", "calculations")}
    assert names == {"project.yaml", "issued/A.json", *parts}
    project = rooms / "project.yaml"
    project.write_text(project.read_text("utf-8").replace("thickness: 16 in", "thickness: 10 in"), "utf-8")
    assert "was issued on 2026-12-30 with other input" in made(visitor, "issue")
    page = visitor.get("/papers")
    sent = {"do": "revise", "seen": seen_of(page), "revision": "B", "dated": "2027-01-04"}
    assert visitor.post("/papers", sent).status == 303
    head = check_folder(rooms).project.project
    assert (head.revision, head.date.isoformat()) == ("B", "2027-01-04")
    changed = words(visitor.get("/papers/changes?since=A").text)
    assert "Since revision A" in changed and "wall_types.all.thickness Was: 16 in" in changed and "worse" in changed
    assert visitor.get("/papers/changes?since=Z").status == 404


def reply_to(visitor: Visitor, page: Reply, **fields: str) -> int:
    return visitor.post(
        "/papers", {"seen": seen_of(page), **{key.replace("_", "-"): value for key, value in fields.items()}}
    ).status


def test_comments_and_answers_are_written_and_taken_back(rooms: Path, visitor: Visitor) -> None:
    before = state(rooms)
    page = visitor.get("/papers")
    assert (
        reply_to(
            visitor, page, do="comment", comment="Show <b>why</b>: #1", comment_by="R. Pell", comment_on="2026-12-31"
        )
        == 303
    )
    assert reply_to(visitor, page, do="comment", comment="Again") == 409
    page = visitor.get("/papers")
    assert "<b>why" not in page.text and "1 comment, 1 without an answer" in words(page.text)
    assert (
        visitor.post(
            "/papers", {"do": "reply", "seen": seen_of(page), "number": "0", "answer:0": "See W1", "met-in:0": "W1"}
        ).status
        == 303
    )
    assert (
        visitor.post("/papers", {"do": "reply", "seen": seen_of(page), "number": "0", "answer:0": "Else"}).status == 409
    )
    one = check_folder(rooms).project.comments[0]
    assert (one.comment, one.by, one.answer, one.met_in) == ("Show <b>why</b>: #1", "R. Pell", "See W1", "W1")
    assert visitor.post("/undo").status == 303 and visitor.post("/undo").status == 303
    assert state(rooms) == before
