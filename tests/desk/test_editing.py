"""What is typed on a page stands in the files afterwards, can be taken back, and never replaces what another wrote."""

from __future__ import annotations

import html
import json
import re
from pathlib import Path

import pytest

from compliance.checking import check_folder
from compliance.desk.kept_check import Watcher
from compliance.desk.sent_forms import local
from compliance.reading.project_folder import read_project
from tests.desk.served import Reply, Visitor, served


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each request looks at the files by itself; the search for nearest changes behind it would cost as much again."""
    monkeypatch.setattr(Watcher, "run", lambda self: None)


DIAPHRAGM = ["project", "diaphragm"]


def seen_of(page: Reply) -> str:
    found = re.search(r'name="seen" value="([^"]*)"', page.text)
    assert found
    return html.unescape(found[1])


def edit(visitor: Visitor, pairs: list[tuple[list[str | int], str]], seen: str, to: str = "/edit") -> Reply:
    fields = [("seen", seen), ("back", "/plan")]
    for path, value in pairs:
        fields += [("path", json.dumps(path)), ("value", value)]
    return visitor.post(to, fields)


def state(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.glob("*.yaml")}


def test_a_value_is_written_where_it_belongs_undone_and_made_again(house: Path) -> None:
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        first = visitor.get("/")
        assert '"diaphragm"' in html.unescape(first.text) and ">flexible</option>" in first.text
        reply = edit(visitor, [(DIAPHRAGM, "flexible"), (["walls", "W6", "height"], "8 ft")], seen_of(first))
        assert (reply.status, reply.headers["location"]) == (303, "/plan")
        after = state(house)
        assert {name for name in after if after[name] != before[name]} == {"project.yaml", "walls.yaml"}
        assert len(after["walls.yaml"].splitlines()) == len(before["walls.yaml"].splitlines())
        assert b"    height: 8 ft\n    mix: M1" in after["walls.yaml"]
        page = visitor.get("/").text
        assert "diaphragm" not in page.partition("Decide now")[2].partition("Ask at")[0]
        assert visitor.post("/undo").status == 303 and state(house) == before
        assert visitor.post("/redo").status == 303 and state(house) == after
        assert visitor.post("/redo").status == 409
        origin = desk.session.origin
        pages = {f"{origin}/plan?a=b": "/plan?a=b", f"{origin}/try": "/", "http://127.0.0.1:9/plan": "/", "": "/"}
        for sent_from, page_after in pages.items():
            went = [visitor.ask("POST", way, b"", {"Referer": sent_from}) for way in ("/undo", "/redo")]
            assert [one.headers["location"] for one in went] == [page_after] * 2, sent_from


@pytest.mark.usefixtures("one_rule_set")
def test_what_another_wrote_meanwhile_is_never_replaced(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        seen = seen_of(visitor.get("/"))
        project = house / "project.yaml"
        project.write_text(project.read_text("utf-8") + "# by another\n", "utf-8")
        now = state(house)
        reply = edit(visitor, [(DIAPHRAGM, "flexible")], seen)
        assert reply.status == 409 and "flexible" in reply.text and state(house) == now
        assert edit(visitor, [(DIAPHRAGM, "flexible")], seen_of(visitor.get("/"))).status == 303
        project.write_text(project.read_text("utf-8") + "# again\n", "utf-8")
        now = state(house)
        assert visitor.post("/undo").status == 409 and state(house) == now


REFUSED: dict[str, tuple[list[str | int], str, int]] = {
    "no measure": (["walls", "W1", "height"], "8 bananas", 422),
    "no unit": (["walls", "W1", "height"], "8", 422),
    "no such field": (["walls", "W1", "hight"], "8 ft", 422),
    "no such type": (["walls", "W1", "type"], "none", 422),
    "below a value": (["project", "name", "x"], "8 ft", 422),
    "another file": (["include", 0], "../../etc/passwd", 422),
    "a file of the machine": (["attachments", "straw", "file"], "/etc/passwd", 422),
    "a hidden character": (["project", "name"], "a\u202eb", 422),
    "no place": (["walls"], "8 ft", 400),
    "a place that is none": (["walls", True], "8 ft", 400),  # type: ignore[list-item]
}


@pytest.mark.usefixtures("one_rule_set")
def test_what_would_not_read_is_not_written(house: Path) -> None:
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        seen = seen_of(visitor.get("/"))
        for name, (path, value, status) in REFUSED.items():
            assert edit(visitor, [(path, value)], seen).status == status, name
            assert state(house) == before, name


@pytest.mark.usefixtures("one_rule_set")
def test_text_of_a_user_stays_a_text_and_is_never_markup(house: Path) -> None:
    hostile = "<b>x</b>: #&*!|>'\"%@`{}[],"
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        assert edit(visitor, [(["project", "name"], hostile)], seen_of(visitor.get("/"))).status == 303
        assert "<b>x" not in visitor.get("/").text
    assert read_project(house).project.project.name == hostile


def test_a_change_is_tried_without_a_file_and_kept_with_one(house: Path) -> None:
    before = state(house)
    change: list[tuple[list[str | int], str]] = [(["walls", "W6", "thickness"], "20 in")]
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        seen = seen_of(visitor.get("/"))
        page = edit(visitor, change, seen, to="/try")
        assert page.status == 200 and "Gets better" in page.text and state(house) == before
        picture = re.search(r'src="(/picture/plan.svg\?trial=\d+)"', page.text)
        assert picture and visitor.get(picture[1]).text != visitor.get("/picture/plan.svg").text
        assert visitor.get("/picture/plan.svg?trial=99").status == 404
        assert edit(visitor, change, seen_of(page)).status == 303
    assert b"    thickness: 20 in\n" in (house / "walls.yaml").read_bytes()


def test_a_nearest_change_can_be_tried_from_its_page(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        checked = check_folder(house)
        one = next(one for one in checked.findings if one.subject == "W7" and one.outcome.rank == 0 and one.margin)
        page = visitor.get(f"/subject/W7?rule={one.rule_set}/{one.rule}").text
        form = re.search(r'<form method="post" action="/try".*?</form>', page)
        assert form and re.search(r'\["walls", "W7", "\w+"\]', html.unescape(form[0]))


@pytest.mark.parametrize("back", ["//example.org", "https://example.org", "/\\example.org", "javascript:x", "/a\nb"])
def test_a_form_sends_nobody_elsewhere(back: str) -> None:
    assert local(back) == "/" and local("/plan") == "/plan"


def test_a_wall_or_all_of_its_type(house: Path) -> None:
    walls = house / "walls.yaml"
    walls.write_text(walls.read_text("utf-8").replace("    retains_soil: no\n", ""), "utf-8")
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        page = visitor.get("/")
        text = html.unescape(page.text)
        assert "all walls of type outer" in text and ">W2 alone</option>" in text
        one_wall: list[str | int] = ["walls", "W2", "retains_soil"]
        of_type: list[str | int] = ["wall_types", "inner", "retains_soil"]
        assert edit(visitor, [(one_wall, "no"), (of_type, "no")], seen_of(page)).status == 303
    read = read_project(house).project.walls
    assert [mark for mark, wall in read.items() if wall.retains_soil is False] == ["W2", "W5", "W6"]


@pytest.mark.usefixtures("one_rule_set")
def test_an_edit_mends_what_does_not_read(house: Path) -> None:
    project = house / "project.yaml"
    project.write_text(project.read_text("utf-8").replace("  units: us\n", "  units: bananas\n"), "utf-8")
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        assert desk.kept.look().problems
        seen = json.dumps(dict(desk.kept.look().digests))
        assert edit(visitor, [(["project", "units"], "us")], seen).status == 303
        assert not desk.kept.look().problems
