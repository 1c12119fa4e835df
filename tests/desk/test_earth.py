"""Soils, hand tests, jars, bricks and mixes entered on the page: what stands in the files is what a check reads."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlencode

import pytest

from compliance.checking import check_folder
from compliance.desk.kept_check import Watcher
from compliance.output.terminal.blend_text import batch_line
from compliance.reading.project_folder import read_project
from compliance.report.earth.earth_answer import earth_answer
from compliance.report.earth.mix_blends import blend_of_mix
from tests.desk.form_fields import fields_of_form
from tests.desk.served import Reply, Visitor, served
from tests.desk.test_editing import seen_of, state
from tests.desk.test_pages import words


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


def sent(page: Reply, action: str, changes: dict[str, str]) -> list[tuple[str, str]]:
    """What the first form of a page for `action` sends as it stands, with some of its fields changed."""
    form = fields_of_form(page.text, action)
    known = {name for name, _ in form}
    return [(name, changes.get(name, value)) for name, value in form] + [
        (name, value) for name, value in changes.items() if name not in known
    ]


def filled(fields: list[tuple[str, str]], values: dict[str, str]) -> list[tuple[str, str]]:
    """The fields of a form of paths and values, some of them by the end of their path filled in."""
    result, path = [], ""
    order = [name for name, _ in fields]
    has_value_first = order.index("value") < order.index("path") if "value" in order else False
    for at, (name, value) in enumerate(fields):
        if name == "path":
            path = value
        if name == "value":
            path = next(text for one, text in fields[at:] if one == "path") if has_value_first else path
            value = next((new for end, new in values.items() if path.endswith(end)), value)
        result.append((name, value))
    return result


def test_the_page_says_what_the_report_and_the_blend_say(reader: Visitor) -> None:
    checked = check_folder(reader.desk.kept.folder)
    text = words(reader.get("/earth").text)
    found = earth_answer(checked)
    says = [found.sentence, *(line.head for part in found.sections[:2] for line in part.lines)]
    says += [step.says for step in found.steps if step.says.startswith(("Make bricks", "Then try straw"))]
    says += [batch_line(blend_of_mix(checked, mark), checked.project) for mark in checked.project.mixes]
    assert len(says) > 10 and [one for one in says if " ".join(one.split()) not in text] == []


def test_a_soil_shows_every_word_of_the_hand_tests_and_its_jar_drawn(reader: Visitor) -> None:
    practice = check_folder(reader.desk.kept.folder).needed_references.practice.field_tests
    page = reader.get("/earth/soils/S1")
    text = words(page.text)
    for test in practice.tests.values():
        assert test.how in text and all(one.means in text for one in test.words.values())
    assert "Jar as it was read, from below: sand 38.9 %, 1.75 in" in text and page.text.count("<svg xmlns") == 2
    assert "Texture triangle of clay, silt and sand" in text
    assert reader.get("/earth/soils/S99").status == 404 and reader.get("/earth/people/owner").status == 404


def test_a_jar_is_drawn_while_it_is_typed_and_nothing_is_written(reader: Visitor) -> None:
    before = state(reader.desk.kept.folder)
    asked = {"height.sand": "3 in", "height.silt": "3 5/8 in", "height.clay": "4 1/8 in"}
    fragment = words(reader.get(f"/earth/jar/S2?{urlencode(asked)}").text)
    assert "sand 72.7 %, 3 in" in fragment and "Texture class: sandy loam." in fragment
    wrong = reader.get(f"/earth/jar/S2?{urlencode(asked | {'height.silt': '2 in <b>'})}")
    assert "<b>" not in wrong.text and "2 in" in wrong.text
    falls = words(reader.get(f"/earth/jar/S2?{urlencode(asked | {'height.silt': '2 in'})}").text)
    assert "must rise" in falls
    assert state(reader.desk.kept.folder) == before


@pytest.mark.usefixtures("one_rule_set")
def test_a_soil_from_nothing_to_its_texture(house: Path) -> None:
    hostile = "<b>Red</b>: clay"
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        before = state(house)
        new = filled(sent(visitor.get("/earth"), "/add", {}), {'"name"]': hostile, '"place"]': "Mill field"})
        assert visitor.post("/add", new).status == 303
        assert {name for name, data in state(house).items() if data != before[name]} == {"earth.yaml"}
        page = visitor.get("/earth/soils/S4")
        assert page.status == 200 and "<b>Red" not in page.text
        jar = {"height.sand": "3 in", "time.sand": "40 s", "height.silt": "3 5/8 in", "height.clay": "4 1/8 in",
               "leaf.clear": "yes"}  # fmt: skip
        assert visitor.post("/earth/jar", sent(page, "/earth/jar", jar)).status == 303
        page = visitor.get("/earth/soils/S4")
        tests = {"word.shaking": "slow", "length.ribbon": "1 1/2 in", "by": "Ilse Varga", "on": "2026-05-02"}
        assert visitor.post("/earth/hand-tests", sent(page, "/earth/hand-tests", tests)).status == 303
        page = visitor.get("/earth/soils/S4")
        assert "sandy loam" in words(page.text) and "Recorded: slow" in page.text
        again = sent(page, "/earth/hand-tests", {"word.shaking": "rapid"})
        again = [(name, "rapid" if name == "word.shaking" else value) for name, value in again]
        assert visitor.post("/earth/hand-tests", again).status == 303
        wrong = sent(visitor.get("/earth/soils/S4"), "/earth/hand-tests", {"length.roll": "a hand"})
        assert visitor.post("/earth/hand-tests", wrong).status == 422
    soil = read_project(house).project.soils["S4"]
    assert soil.name == hostile and soil.place == "Mill field" and soil.jar is not None and soil.jar.clear
    assert soil.jar.sand.time is not None and (soil.jar.sand.time.si, soil.jar.silt.time) == (40, None)
    assert sorted((one.kind, one.reading, one.by) for one in soil.field_tests) == [
        ("ribbon", "1 1/2 in", "Ilse Varga"), ("shaking", "rapid", "Ilse Varga"),
    ]  # fmt: skip
    lines = (house / "earth.yaml").read_text("utf-8").splitlines()
    assert "  S4:" in lines and "    place: Mill field" in lines


@pytest.mark.usefixtures("one_rule_set")
def test_a_brick_as_advised_becomes_a_mix(house: Path) -> None:
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        page = visitor.get("/earth")
        button = re.search(r'<form[^>]*action="/add" class="change">.*?</form>', page.text)
        assert button and "Add a brick of 1 S1 : 1.5 S2" in button[0]
        ready = sent(Reply(200, {}, button[0]), "/add", {})
        assert visitor.post("/add", ready).status == 303
        assert visitor.post("/add", ready).status == 422  # the mark is taken now
        other = [(name, "TR6" if name == "mark" else value) for name, value in ready]
        assert visitor.post("/add", other).status == 409  # made from files that are not these any more
        page = visitor.get("/earth/trials/TR5")
        broke = filled(sent(page, "/edit", {}), {'"largest_piece"]': "97 %", '"pieces"]': "2", '"S2"]': "1.4"})
        assert visitor.post("/edit", broke).status == 303
        page = visitor.get("/earth/trials/TR5")
        assert "1. TR5" in words(page.text)
        assert visitor.post("/add", sent(page, "/add", {})).status == 303
        page = visitor.get("/earth/mixes/M3")
        emptied = filled(sent(page, "/edit", {}), {'"trial"]': ""})
        assert visitor.post("/edit", emptied).status == 303
    project = read_project(house).project
    assert project.trials["TR5"].parts == {"S1": 1, "S2": 1.4} and project.trials["TR5"].pieces == 2
    assert project.mixes["M3"].parts == {"S1": 1, "S2": 1.4} and project.mixes["M3"].trial is None


@pytest.mark.usefixtures("one_rule_set")
def test_what_is_no_mark_or_no_section_is_not_added(house: Path) -> None:
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        seen = seen_of(visitor.get("/earth"))
        path = '["soils", "S1", "name"]'
        for section, mark, where, status in (
            ("soils", "S1", path, 422), ("soils", "../x", path, 422), ("soils", "S9", '["project", "S9", "name"]', 400),
            ("walls", "W9", path, 400), ("soils", "S9", '["soils"]', 400),
        ):  # fmt: skip
            fields = [("seen", seen), ("section", section), ("mark", mark), ("path", where), ("value", "Loam")]
            assert visitor.post("/add", fields).status == status, (section, mark)
        assert visitor.post("/earth/jar", [("seen", seen), ("soil", "S99")]).status == 400
    assert state(house) == before
