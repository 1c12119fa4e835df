"""What is drawn on the plan stands in the files: walls, corners, openings and parts, put in, moved and taken away."""

from __future__ import annotations

import html
import json
import math
import re
from pathlib import Path
from typing import Any

import pytest

from compliance.checking import check_folder
from compliance.desk.kept_check import Watcher
from compliance.desk.plan.plan_overlay import failing, overlay
from compliance.documents.lone_drawings.lone_drawing import plan_picture
from compliance.editing.drawn_plan.corners import corner_moved, corners
from compliance.model.lines import Circular, line_of
from compliance.model.project import Project
from compliance.model.walls import Arc, Run
from compliance.reading.project_folder import read_project
from compliance.units import Writer
from tests.conftest import EXAMPLE
from tests.desk.served import Reply, Visitor, served
from tests.desk.test_editing import edit, seen_of, state


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


def send(visitor: Visitor, to: str, fields: dict[str, str] | list[tuple[str, str]], wall: str = "W1") -> Reply:
    """A form of the plan with the files as they are."""
    page = visitor.get(f"/plan?wall={wall}")
    pairs = list(fields.items()) if isinstance(fields, dict) else fields
    return visitor.post(to, [("seen", seen_of(page)), ("back", f"/plan?wall={wall}"), *pairs])


def part(holder: list[str], mark: str, **values: str) -> list[tuple[str, str]]:
    pairs = [("holder", json.dumps(holder)), ("mark", mark)]
    for name, value in values.items():
        pairs += [("field", json.dumps(name.split("__"))), ("value", value)]
    return pairs


@pytest.mark.usefixtures("one_rule_set")
def test_a_plan_is_drawn_changed_and_taken_back(house: Path) -> None:
    before = state(house)
    walls_before = before["walls.yaml"].decode()
    lintel = {"lintel__material": "wood", "lintel__depth": "8 in", "lintel__bearing": "12 in"}
    hole = part(["walls", "W8", "openings"], "N7", kind="window", start="2 ft", width="3 ft", height="3 ft",
                sill="3 ft", **lintel)  # fmt: skip
    steps: list[tuple[str, Any]] = [
        ("/plan/wall", {"mark": "W8", "name": "lean-to: east, #1", "type": "outer", "from": "24 ft, 0 ft", "to": "",
                        "through": "", "length": "10 ft 6 in", "direction": "South", "height": "", "thickness": ""}),
        ("/plan/wall", {"mark": "W9", "type": "", "from": "24 ft, -10 ft 6 in", "to": "30 ft, -10 ft 6 in",
                        "through": "27 ft, -13 ft", "height": "7 ft", "thickness": "14 in"}),
        ("/plan/part", hole),
        ("/plan/part", part(["walls", "W8", "loads"], "PL1", at="1 ft", dead="100 lbf", live="0 lbf", snow="0 lbf")),
        ("/plan/part", part(["buttresses"], "BU1", wall="W8", at="8 ft", projection="2 ft", width="2 ft",
                            height="6 ft")),
        ("/plan/part", part(["beams"], "B2", material="wood", anchors__spacing="4 ft")),
        ("/plan/part", part(["roofs"], "R2", kind="framed", slope="6:12")),
        ("/plan/part", part(["roofs", "R2", "beams"], "RB1", kind="ridge")),
        ("/plan/corner", {"at": "24 ft, 0 ft", "to": "25 ft, -6 in", "only": ""}),
        ("/plan/corner", {"at": "14 ft 6 in, 8 ft", "to": "14 ft 6 in, 7 ft", "only": "W6"}),
    ]  # fmt: skip
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        for to, fields in steps:
            reply = send(visitor, to, fields)
            assert reply.status == 303, (fields, re.findall(r'role="alert">([^<]*)', reply.text))
        assert edit(visitor, [(["roofs", "R2", "bears_on", 0], "{wall: W8}"),
                              (["walls", "W8", "openings", "N7", "start"], "2 ft 3 in")],
                    seen_of(visitor.get("/plan"))).status == 303  # fmt: skip
        project = read_project(house).project
        new = project.walls["W8"]
        assert new.name == "lean-to: east, #1" and new.run and new.arc is None
        assert [one.text for one in (*new.run.start, *new.run.end)] == ["25 ft", "-6 in", "24 ft", "-10 ft 6 in"]
        assert str(new.openings["N7"].start) == "2 ft 3 in" and new.openings["N7"].lintel
        assert project.walls["W9"].arc and str(project.walls["W9"].height) == "7 ft"
        assert project.roofs["R2"].bears_on[0].wall == "W8" and project.beams["B2"].anchors
        ends = {(mark, end) for one in corners(project) if one.named == "25 ft, -6 in" for mark, end in one.ends}
        assert ends == {("W1", "to"), ("W2", "from"), ("W8", "from")}
        now = (house / "walls.yaml").read_text("utf-8")
        unchanged = [line for line in walls_before.splitlines() if line not in now.splitlines()]
        assert len(unchanged) == 3, unchanged  # the lines of W1, W2 and W6, and no other
        assert 'id="roofs-R2"' in visitor.get("/parts").text and 'id="beams-B2"' in visitor.get("/parts").text
        like = visitor.get("/plan?wall=W8&like=openings-N7").text.partition("Add an opening like N7")[2]
        assert re.search(r'id="new-walls-W8-openings-sill"[^>]*value="3 ft"', like)
        assert not re.search(r'id="new-walls-W8-openings-start"[^>]*value=', like)
        page = html.unescape(visitor.get("/plan?wall=W8").text)
        assert 'aria-label="Wall W8, lean-to: east, #1' in page and 'id="openings-N7"' in page
        after = state(house)
        reply = send(visitor, "/plan/remove", {"holder": '["walls", "W8"]'})
        assert reply.status == 303, re.findall(r'role="alert">([^<]*)', reply.text)
        project = read_project(house).project
        assert "W8" not in project.walls and not project.buttresses and not project.roofs["R2"].bears_on
        for _ in range(len(steps) + 2):
            assert visitor.post("/undo").status == 303
        assert state(house) == before
        for _ in range(len(steps) + 1):
            assert visitor.post("/redo").status == 303
        assert state(house) == after


@pytest.mark.usefixtures("one_rule_set")
def test_the_fields_of_a_wall_say_what_its_type_says_and_write_only_what_is_altered(house: Path) -> None:
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        page = visitor.get("/plan?wall=W6")
        form = re.search(r"<details[^>]*id=\"wall-fields\".*?</form>", page.text)
        assert form and 'placeholder="14 in, of type inner"' in form[0] and 'value="11 ft 6 in"' in form[0]
        pairs = [
            (html.unescape(path), html.unescape(was))
            for path, was in re.findall(r'name="path" value="([^"]*)"><input type="hidden" name="was" value="([^"]*)"',
                                        re.sub(r'<select name="path".*?<option value="([^"]*)".*?</select>',
                                               r'<input type="hidden" name="path" value="\1">', form[0]))
        ]  # fmt: skip
        assert len(pairs) > 30 and ('["walls", "W6", "height"]', "11 ft 6 in") in pairs
        fields = [("seen", seen_of(page)), ("back", "/plan")]
        for path, was in pairs:
            value = {'["walls", "W6", "height"]': "11 ft", '["walls", "W6", "mix"]': ""}.get(path, was)
            fields += [("path", path), ("value", value), ("was", was)]
        tried = visitor.post("/try", fields)
        assert tried.status == 200 and state(house) == before
        keep = re.search(r'<form method="post" action="/edit".*?</form>', tried.text)
        assert keep
        kept = [(name, html.unescape(value)) for name, value in re.findall(r'name="(\w+)" value="([^"]*)"', keep[0])]
        assert visitor.post("/edit", kept).status == 303
        written = state(house)
        assert visitor.post("/undo").status == 303
        reply = visitor.post("/edit", fields)
        assert reply.status == 303, re.findall(r'role="alert">([^<]*)', reply.text)
        old, new = before["walls.yaml"].decode(), (house / "walls.yaml").read_text("utf-8")
        assert new == old.replace("    height: 11 ft 6 in\n    mix: M1\n", "    height: 11 ft\n")
        assert state(house) == written
        assert visitor.post("/undo").status == 303 and state(house) == before


REFUSED: dict[str, tuple[str, Any, int, str]] = {
    "a wall without an end": ("/plan/wall", {"mark": "W8", "type": "outer", "from": "0 ft, 0 ft"}, 422, "no end"),
    "with two": ("/plan/wall", {"mark": "W8", "type": "outer", "from": "0 ft, 0 ft", "to": "9 ft, 0 ft",
                                "length": "3 ft"}, 422, "both an end and a length"),
    "of no length": ("/plan/wall", {"mark": "W8", "type": "outer", "from": "0 ft, 0 ft", "to": "0 ft, 0 ft"}, 422,
                     "W8"),
    "a mark that is taken": ("/plan/wall", {"mark": "W1", "type": "outer", "from": "0 ft, 0 ft", "to": "9 ft, 0 ft"},
                             422, "there already"),
    "a mark that is none": ("/plan/wall", {"mark": "<b>", "type": "outer", "from": "0 ft, 0 ft", "to": "9 ft, 0 ft"},
                            422, ""),
    "no point": ("/plan/wall", {"mark": "W8", "type": "outer", "from": "here", "to": "9 ft, 0 ft"}, 422,
                 "is not a point"),
    "a corner that is none": ("/plan/corner", {"at": "1 ft, 1 ft", "to": "2 ft, 2 ft"}, 422, "no wall begins"),
    "a corner where it is": ("/plan/corner", {"at": "0 ft, 0 ft", "to": "0 ft, 0 in"}, 422, "already"),
    "a wall that is not there": ("/plan/corner", {"at": "0 ft, 0 ft", "to": "1 ft, 0 ft", "only": "W5"}, 422,
                                 "neither begins nor ends"),
    "an opening beyond the wall": ("/plan/part", part(["walls", "W1", "openings"], "N9", kind="door", start="23 ft",
                                                      width="3 ft", height="6 ft", sill="0 ft"), 422, ""),
    "an opening without a size": ("/plan/part", part(["walls", "W1", "openings"], "N9", kind="door"), 422, ""),
    "a section that no form has": ("/plan/part", part(["attachments"], "x", file="/etc/passwd", title="x"), 422,
                                   "no form of the plan"),
    "another section to take away": ("/plan/remove", {"holder": '["people", "owner"]'}, 422, "no form of the plan"),
    "nothing to take away": ("/plan/remove", {"holder": '["walls", "W99"]'}, 422, "no walls.W99"),
    "a field to take away that must be there": ("/plan/remove", {"holder": '["walls", "W6", "run"]'}, 422, "no line"),
    "a mark in a list": ("/plan/part", part(["roofs", "R1", "bears_on"], "x", wall="W1"), 422, "bears_on.x"),
    "a mark in a list that is tried": ("/try", [("path", '["roofs", "R1", "bears_on", "x"]'), ("value", "{wall: W1}")],
                                       422, "no number of an entry"),
    "no holder": ("/plan/remove", {}, 400, ""),
}  # fmt: skip


@pytest.mark.usefixtures("one_rule_set")
def test_what_makes_no_plan_is_not_written(house: Path) -> None:
    before = state(house)
    with served(house) as desk:
        visitor = Visitor(desk).let_in()
        seen = seen_of(visitor.get("/plan"))
        for name, (to, fields, status, says) in REFUSED.items():
            pairs = list(fields.items()) if isinstance(fields, dict) else fields
            reply = visitor.post(to, [("seen", seen), ("back", "/plan"), *pairs])
            assert reply.status == status and says in html.unescape(reply.text), (name, reply.status, reply.text)
            assert state(house) == before, name
        stale = visitor.post("/plan/corner", [("seen", "{}"), ("back", "/plan"), ("at", "0 ft, 0 ft"),
                                              ("to", "1 ft, 0 ft")])  # fmt: skip
        assert stale.status == 409 and state(house) == before


@pytest.fixture(scope="module")
def example() -> Project:
    return read_project(EXAMPLE).project


def test_ends_that_differ_by_a_rounding_are_one_corner_and_others_are_not(example: Project) -> None:
    def near(millimetres: float) -> Project:
        walls = dict(example.walls)
        run = {"from": [f"{7315.2 + millimetres} mm", "-0.5 mm"], "to": ["20 m", "0 m"]}
        walls["X1"] = walls["W7"].model_copy(update={"run": Run.model_validate(run)})
        return example.model_copy(update={"walls": walls})

    for millimetres, together in ((0.0, True), (4.9, True), (-4.9, True), (5.1, False)):
        found = next(one for one in corners(near(millimetres)) if ("W1", "to") in one.ends)
        assert (("X1", "from") in found.ends) is together, millimetres


def test_an_arc_keeps_its_form_when_its_end_is_moved(example: Project) -> None:
    """The angle that it turns through stays: it follows from the three points by elementary geometry."""

    def sweep(line: object) -> float:
        assert isinstance(line, Circular)
        return line.sweep

    edits = corner_moved(example, ("24 ft", "0 ft"), ("31 ft", "-4 ft"), Writer("us"))
    by_path = {one.path: one.value for one in edits}
    assert set(by_path) == {
        ("walls", "W1", "run", "to"),
        ("walls", "W2", "arc", "from"),
        ("walls", "W2", "arc", "through"),
    }
    wall = example.walls["W2"]
    assert wall.arc
    new = wall.model_copy(update={"arc": Arc.model_validate({
        "from": by_path["walls", "W2", "arc", "from"], "through": by_path["walls", "W2", "arc", "through"],
        "to": [one.text for one in wall.arc.end],
    })})  # fmt: skip
    assert math.isclose(sweep(line_of(new)), sweep(line_of(wall)), rel_tol=2e-3)  # the point is written to 1/16 in


def test_shapes_lie_on_the_drawing_of_what_they_belong_to() -> None:
    """The scale and the middle of a wall, reckoned from the description alone."""
    checked = check_folder(EXAMPLE)
    picture = plan_picture(checked)
    assert 5 < picture.per_metre < 150 and f'viewBox="0 0 {picture.width:g} {picture.height:g}"' in picture.svg
    ratio = 72 / 0.0254 / picture.per_metre
    assert any(f"1:{ratio:g}" in text for text in re.findall(r"<text[^>]*>([^<]*)</text>", picture.svg))
    drawn = overlay(checked, picture, "W3", failing(checked.findings))
    paths = dict(re.findall(r'data-wall="(\w+)"[^>]*><title>[^<]*</title><path d="([^"]*)"', html.unescape(drawn)))
    assert set(paths) == set(checked.project.walls)
    xs, ys = zip(*[map(float, one.split()) for one in paths["W5"][1:-1].split("L")], strict=True)
    east, south, north = 14.5 * 0.3048, 0.0, 16 * 0.3048
    half = 7 * 0.0254
    assert math.isclose(min(xs), picture.east + (east - half) * picture.per_metre, abs_tol=0.06)
    assert math.isclose(max(xs), picture.east + (east + half) * picture.per_metre, abs_tol=0.06)
    assert math.isclose(max(ys), picture.north - south * picture.per_metre, abs_tol=0.06)
    assert math.isclose(min(ys), picture.north - north * picture.per_metre, abs_tol=0.06)
    marks = re.findall(r'<text transform="matrix\(1 0 0 -1 ([\d.-]+) ([\d.-]+)\)"[^>]*>D2</text>', picture.svg)
    assert len(marks) == 1 and abs(float(marks[0][0]) - (picture.east + east * picture.per_metre)) < 60
    assert drawn.count('class="corner"') == len(corners(checked.project)) and drawn.count('class="opening"') == 8
