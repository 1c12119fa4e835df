"""A project begun on the page: nothing is there before it reads, and what is there is never written over."""

from __future__ import annotations

from pathlib import Path

import pytest

from compliance.desk.beginning.begun_project import FORM_SHAPES
from compliance.desk.kept_check import Watcher
from compliance.reading.project_folder import read_project
from compliance.start.shapes.building_shapes import NAMES
from tests.conftest import EXAMPLE
from tests.desk.served import Visitor, served


@pytest.fixture(autouse=True)
def without_watching(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Watcher, "run", lambda self: None)


ANSWERS = {
    "name": "<i>Clay & Co</i>", "place": "Quillmoor County", "rule_sets": "us-cob", "units": "us",
    "height": "8 ft", "thickness": "16 in", "mix": "", "roof": "framed 12 ft",
    "roof_walls": "W1, W3", "site.soil_group": "SM",
}  # fmt: skip
ELL = {"shape": "L", "size_east": "30 ft", "size_north": "26 ft", "wing_south": "14 ft", "wing_west": "14 ft"}


def test_a_project_is_begun_by_a_form_and_only_whole(tmp_path: Path) -> None:
    folder = tmp_path / "house"
    with served(folder) as desk:
        visitor = Visitor(desk).let_in()
        assert visitor.get("/").headers["location"] == visitor.get("/plan").headers["location"] == "/begin"
        first = visitor.get("/begin").text
        assert all(f'value="{word}"' in first for word in (*FORM_SHAPES, "us-cob", "germany"))
        assert 'name="wing_west"' in visitor.get("/begin?shape=L&units=us").text
        for wrong, says in (
            ({"wing_west": "14"}, "has no unit"), ({"wing_west": "30 ft"}, "as wide as the whole"),
            ({"roof": "", "roof_walls": "W1, W3"}, "a roof that is not described"),
            ({"roof_walls": "W1, W99"}, "W99"), ({"point_loads": "W1: 3 lb"}, "does not say a wall"),
            ({"name": ""}, "no answer to &#x27;name&#x27;"), ({"thickness": "9 ft"}, "leaves no room"),
        ):  # fmt: skip
            reply = visitor.post("/begin", {**ANSWERS, **ELL, **wrong})
            assert reply.status == 422 and says in reply.text and list(tmp_path.iterdir()) == [], wrong
            assert "<i>" not in reply.text and 'value="26 ft"' in reply.text
        assert visitor.post("/begin", {**ANSWERS, "shape": "star"}).status == 400
        reply = visitor.post("/begin", {**ANSWERS, **ELL})
        assert (reply.status, reply.headers["location"]) == (303, "/plan")
        assert "south wall" in visitor.get("/plan").text and visitor.get("/picture/plan.svg").status == 200
        before = (folder / "walls.yaml").read_bytes()
        assert visitor.post("/begin", {**ANSWERS, **ELL}).status == 409
        assert visitor.get("/begin").headers["location"] == "/plan"
    project = read_project(folder).project
    assert project.project.name == "<i>Clay & Co</i>" and [one.name for one in project.walls.values()] == [*NAMES["L"]]
    assert (folder / "walls.yaml").read_bytes() == before
    assert [one.wall for one in project.roofs["R1"].bears_on] == ["W1", "W3"] and project.site.soil_group == "SM"


def test_the_building_of_a_folder_that_began_with_the_earth(tmp_path: Path) -> None:
    folder = tmp_path / "earth"
    folder.mkdir()
    kept = (EXAMPLE / "earth.yaml").read_text("utf-8").partition("batches:")[0]
    (folder / "earth.yaml").write_text(kept, "utf-8")
    (folder / "project.yaml").write_text(
        "project: {name: Pit, stage: earth, revision: A, date: 2026-09-14, units: si}\ninclude: [earth.yaml]\n", "utf-8"
    )
    with served(folder) as desk:
        visitor = Visitor(desk).let_in()
        page = visitor.get("/begin?shape=round").text
        assert 'name="diameter"' in page and 'name="name"' not in page and ">M1: Wall mix" in page
        sizes = {"shape": "round", "diameter": "6 m", "place": "Quillmoor", "rule_sets": "germany", "height": "2.4 m",
                 "thickness": "400 mm", "mix": "M1", "roof": ""}  # fmt: skip
        assert visitor.post("/begin", sizes).status == 303, visitor.post("/begin", sizes).text
        assert visitor.get("/picture/plan.svg").status == 200
    project = read_project(folder).project
    assert set(project.walls) == {"W1", "W2"} and project.walls["W1"].mix == "M1" and project.soils["S1"]
    assert (folder / "earth.yaml").read_text("utf-8") == kept
