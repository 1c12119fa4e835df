"""What is missing leads to the form that takes it, all of it can be filled in at once, and a refusal keeps what was
typed."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from compliance.desk.kept_check import Watcher
from compliance.desk.layer_texts import layers_typed
from compliance.reading.project_folder import read_project
from compliance.report.words.page_words import holder_words
from tests.desk.form_fields import fields_of_form
from tests.desk.served import Visitor, served
from tests.desk.test_editing import edit, seen_of
from tests.desk.test_pages import words

FORMS = ("/questions", "/inspections", "/tests", "/subject/")


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


def test_no_line_of_the_answer_sends_anybody_to_a_file(reader: Visitor) -> None:
    page = reader.get("/").text
    decide = page.partition("Decide now")[2].partition("Ask at the counter")[0]
    links = re.findall(r'class="word">missing</span> <a href="([^"]*)">([^<]*)<', decide)
    assert len(links) > 5 and not re.search(r"\.(yaml|csv)", words(decide.partition("</section>")[0]))
    assert all(place.startswith(FORMS) for place, _ in links)
    assert [place for place, says in links if says.startswith("answer:")] == ["/questions"]
    subject = words(reader.get("/subject/W6?rule=structural-screening/sliding").text)
    assert "Write:" not in subject


def test_everything_that_is_missing_is_filled_in_at_once(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        assert 'href="/fill"' in visitor.get("/").text
        fields = fields_of_form(visitor.get("/fill").text, "/edit")
        paths = [value for name, value in fields if name == "path"]
        assert '["project", "diaphragm"]' in paths and len(paths) == len(set(paths)) > 4
        at = next(index for index, one in enumerate(fields) if one == ("path", '["project", "diaphragm"]'))
        fields[at - 1] = ("value", "flexible")
        assert visitor.post("/edit", fields).status == 303
    assert read_project(house).project.project.diaphragm == "flexible"


@pytest.mark.usefixtures("one_rule_set")
def test_what_was_refused_is_corrected_where_it_was_typed(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        typed: list[tuple[list[str | int], str]] = [
            (["walls", "W6", "height"], "8 bananas"), (["walls", "W6", "name"], "<b>west</b>"),
        ]  # fmt: skip
        reply = edit(visitor, typed, seen_of(visitor.get("/")))
        assert reply.status == 422 and "<b>west" not in reply.text
        fields = fields_of_form(reply.text, "/edit")
        assert [value for name, value in fields if name == "value"] == ["8 bananas", "<b>west</b>"]
        mended = [(name, "9 ft" if value == "8 bananas" else value) for name, value in fields]
        assert visitor.post("/edit", mended).status == 303
        opening = {"holder": '["walls", "W6", "openings"]', "mark": "N77", "field": '["kind"]', "value": "hatch",
                   "seen": seen_of(visitor.get("/plan")), "back": "/plan"}  # fmt: skip
        reply = visitor.post("/plan/part", opening)
        assert reply.status == 422
        sent = dict(fields_of_form(reply.text, "/plan/part"))
        assert {name: sent[name] for name in opening if name != "seen"} == {
            name: text for name, text in opening.items() if name != "seen"
        }
    wall = read_project(house).project.walls["W6"]
    assert (str(wall.height), wall.name) == ("9 ft", "<b>west</b>")


@pytest.mark.usefixtures("one_rule_set")
def test_a_straight_wall_is_made_a_curve_and_straight_again(house: Path) -> None:
    before = (house / "walls.yaml").read_bytes()
    with served(house) as desk:
        visitor = Visitor(desk).let_in()

        def curve(through: str) -> int:
            seen = seen_of(visitor.get("/plan?wall=W1"))
            form = {"wall": "W1", "through": through, "seen": seen, "back": "/plan?wall=W1"}
            return visitor.post("/plan/curve", form).status

        straight = read_project(house).project.walls["W1"].run
        assert straight and curve("") == 422 and curve("here") == 422
        assert curve("12 ft, -3 ft") == 303
        arc = read_project(house).project.walls["W1"].arc
        assert arc and (arc.start, arc.end) == (straight.start, straight.end)
        assert [str(one) for one in arc.through] == ["12 ft", "-3 ft"]
        assert curve("12 ft, -4 ft") == 303 and curve("") == 303
        assert read_project(house).project.walls["W1"].run == straight
        for _ in range(3):
            visitor.post("/undo")
    assert (house / "walls.yaml").read_bytes() == before


@pytest.mark.usefixtures("one_rule_set")
def test_layers_of_a_finish_are_typed_in_words(house: Path) -> None:
    assert layers_typed("none") == [] and layers_typed("[{material: clay}]") is None
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        value = [(["walls", "W6", "inside"], "clay 1 in, lime 1/2 in")]
        assert edit(visitor, value, seen_of(visitor.get("/"))).status == 303  # type: ignore[arg-type]
        wrong = [(["walls", "W6", "inside"], "mud 1 in")]
        reply = edit(visitor, wrong, seen_of(visitor.get("/")))  # type: ignore[arg-type]
        assert reply.status == 422 and "mud" in html.unescape(reply.text)
    layers = read_project(house).project.walls["W6"].inside
    assert layers and [(one.material, str(one.thickness)) for one in layers] == [("clay", "1 in"), ("lime", "1/2 in")]


def test_what_a_field_belongs_to() -> None:
    assert holder_words(("walls", "W1", "openings", "N2", "lintel")) == "wall W1, opening N2, lintel"
    assert holder_words(("roofs", "R1", "bears_on", 0)) == "roof R1, bears on 1"
