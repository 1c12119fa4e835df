"""The pages say what a check of the same files says, follow the files, and hold no text of a user as markup."""

from __future__ import annotations

import http.client
import re
import socket
import time
from html import escape, unescape
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.desk.serving import Desk
from compliance.report.answer.answer import answer
from compliance.report.words.answer_words import answer_sentence, cause_words, clause_words
from compliance.report.words.page_words import item_on_page
from compliance.units import Writer
from tests.desk.served import Visitor, served


def words(html: str) -> str:
    return re.sub(r"\s+", " ", unescape(re.sub(r"<[^>]+>", " ", html)))


def test_the_first_page_says_all_that_the_check_says(reader: Visitor) -> None:
    checked = check_folder(reader.desk.kept.folder)
    found, writer = answer(checked), Writer(checked.project.project.units)
    text = words(reader.get("/").text)
    told = [answer_sentence(found, len(checked.findings))]
    told += [cause_words(one, writer) for one in found.stops]
    told += [item_on_page(one, writer) for one in found.to_write]
    told += [clause_words(one) for one in found.to_read]
    assert len(told) > 30
    assert [one for one in told if re.sub(r"\s+", " ", one) not in text] == []


def test_the_nearest_changes_follow(reader: Visitor) -> None:
    until = time.monotonic() + 20
    while not reader.desk.kept.now.is_complete and time.monotonic() < until:
        time.sleep(0.02)
    assert "nearest: thickness 20 in" in words(reader.get("/").text)


def test_a_subject_shows_its_calculation_and_what_would_mend_it(reader: Visitor) -> None:
    page = reader.get("/subject/W6?rule=structural-screening/slenderness").text
    checked = check_folder(reader.desk.kept.folder)
    worst = next(
        one for one in checked.findings if one.subject == "W6" and one.margin is not None and one.outcome.rank == 0
    )
    text = words(reader.get(f"/subject/W6?rule={worst.rule_set}/{worst.rule}").text)
    writer = Writer("us")
    assert worst.steps and all(re.sub(r"\s+", " ", one.line(writer)) in text for one in worst.steps)
    assert worst.verdict in text and "make the" in text
    assert "/picture/elevation.svg?wall=W6" in page and "/picture/section.svg?wall=W6" in page


@pytest.mark.parametrize("path", ["plan.svg", "elevation.svg?wall=W3", "section.svg?wall=W3"])
def test_drawings_are_those_of_the_papers(reader: Visitor, path: str) -> None:
    reply = reader.get(f"/picture/{path}")
    assert reply.status == 200 and reply.headers["content-type"].startswith("image/svg+xml")
    assert reply.text.startswith("<svg") and "style=" not in reply.text and "<desc>" in reply.text


def test_nothing_that_is_not_there_has_a_page(reader: Visitor) -> None:
    for path in ("/subject/W99", "/subject/%3Cscript%3E", "/subject/../x", "/x"):
        reply = reader.get(path)
        assert reply.status == 404 and "<script>" not in reply.text


def test_no_page_holds_a_script_or_a_style_of_its_own(reader: Visitor) -> None:
    for path in ("/", "/plan", "/cautions", "/subject/W3", "/earth", "/earth/soils/S1", "/tests", "/photos"):
        page = reader.get(path).text
        assert not re.search(r"<style|style=|\son\w+=|<script(?! type=\"module\" src=\"/static/)|javascript:", page), (
            path
        )
        assert re.findall(r"(?:href|src|action)=\"(?!/|#)[^\"]*", page) == []


def events(desk: Desk, cookie: str) -> http.client.HTTPResponse:
    connection = http.client.HTTPConnection(desk.session.host, timeout=20)
    connection.request("GET", "/events", headers={"Host": desk.session.host, "Cookie": cookie})
    return connection.getresponse()


def number_of(stream: http.client.HTTPResponse) -> int:
    line = stream.readline()
    while not line.startswith(b"data: "):
        line = stream.readline()
    return int(line[6:])


def test_pages_follow_the_files_also_where_they_stop_reading(house: Path) -> None:
    walls = house / "walls.yaml"
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        visitor.get("/")
        stream = events(desk, visitor.cookie)
        first = number_of(stream)
        text = walls.read_text("utf-8")
        hostile = "<img src=x onerror=alert(1)>"
        walls.write_text(text.replace("name: north wall", f"name: {hostile}"), "utf-8")
        while number_of(stream) == first:
            pass
        plan = visitor.get("/plan").text
        assert hostile not in plan and escape(hostile) in plan
        walls.write_text(text.replace("height: 8 ft", "height: 8 bananas", 1), "utf-8")
        page = visitor.get("/").text
        assert "bananas" in page and "out of date" in page and "Stops you" in page
        walls.write_text("]" + hostile, "utf-8")
        assert hostile not in visitor.get("/").text
        walls.write_text(text, "utf-8")
        assert "out of date" not in visitor.get("/").text


def test_a_folder_that_cannot_be_read_yet_has_a_page(tmp_path: Path) -> None:
    (tmp_path / "project.yaml").write_text("project: [\n", "utf-8")
    with served(tmp_path) as desk:
        page = Visitor(desk).let_in().get("/").text
    assert "cannot be read as they stand" in page and "yaml-syntax" in page


def test_nobody_is_asked_for_anything(house: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The desk takes connections and makes none."""
    made: list[object] = []
    connect = socket.socket.connect

    def watched(self: socket.socket, address: object) -> None:
        made.append(address)
        connect(self, address)  # type: ignore[arg-type]

    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        own = int(desk.session.host.rpartition(":")[2])
        monkeypatch.setattr(socket.socket, "connect", watched)
        for path in ("/", "/plan", "/subject/W3", "/picture/plan.svg"):
            assert visitor.get(path).status == 200
    assert made and set(made) == {("127.0.0.1", own)}


def test_it_ends_when_told(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        stream = events(desk, visitor.cookie)
        number_of(stream)
        assert visitor.post("/end").status == 200
