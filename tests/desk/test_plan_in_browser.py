"""The pointer and the arrow keys on the plan, in a real browser: what they do stands in the files."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest

from compliance.model.walls import Wall
from compliance.reading.project_folder import read_project
from tests.desk.browsing import complaints_of
from tests.desk.served import served

PLACE = """([x, y]) => {
  const over = document.getElementById("over"), data = (name) => Number(over.dataset[name]);
  const at = new DOMPoint(data("east") + x * data("perMetre"), data("north") - y * data("perMetre"));
  const point = at.matrixTransform(over.getScreenCTM());
  return [point.x, point.y];
}"""
FOOT = 0.3048


def drag(page: Any, start: tuple[float, float], end: tuple[float, float]) -> None:
    """From one place of the plan to another, in ft."""
    points = [page.evaluate(PLACE, [x * FOOT, y * FOOT]) for x, y in (start, end)]
    page.mouse.move(*points[0])
    page.mouse.down()
    page.mouse.move(*points[0])
    page.mouse.move(*points[1], steps=4)
    page.mouse.up()


def walls_when(folder: Path, holds: Any) -> dict[str, Wall]:
    """The walls as soon as something holds of them; as they are after a while at the latest."""
    until = time.monotonic() + 60
    walls = read_project(folder).project.walls
    while not holds(walls) and time.monotonic() < until:
        time.sleep(0.05)
        walls = read_project(folder).project.walls
    return walls


@pytest.mark.usefixtures("one_rule_set", "without_nearest_changes")
def test_the_pointer_and_the_keys_draw_and_move(browser: Any, house: Path) -> None:
    with served(house) as desk:
        context = browser.new_context(viewport={"width": 1440, "height": 1000})
        page = context.new_page()
        complaints = complaints_of(page)
        page.goto(desk.session.address)
        page.wait_for_url(f"{desk.session.origin}/")
        page.goto(f"{desk.session.origin}/plan?wall=W3")

        page.get_by_label("Draw walls").check()
        drag(page, (0.1, 25.1), (9.04, 25.02))
        walls = walls_when(house, lambda walls: "W8" in walls)
        assert walls["W8"].run and [str(one) for one in (*walls["W8"].run.start, *walls["W8"].run.end)] == [
            "0 ft", "25 ft", "9 ft", "25 ft",
        ]  # fmt: skip
        page.wait_for_url("**/plan?wall=W8")

        page.get_by_label("Draw arcs").check()
        drag(page, (9, 25), (15, 25))
        page.mouse.click(*page.evaluate(PLACE, [12 * FOOT, 22 * FOOT]))
        walls = walls_when(house, lambda walls: "W9" in walls)
        assert walls["W9"].arc and [str(one) for one in walls["W9"].arc.through] == ["12 ft", "22 ft"]

        page.wait_for_url("**/plan?wall=W9")
        page.get_by_label("Select and move").check()
        drag(page, (9, 25), (9.5, 27))
        walls = walls_when(house, lambda walls: walls["W8"].run and str(walls["W8"].run.end[1]) == "27 ft")
        assert walls["W8"].run and walls["W9"].arc
        assert walls["W8"].run.end == walls["W9"].arc.start and str(walls["W8"].run.end[0]) == "9 ft 6 in"

        page.wait_for_selector("[data-at='9 ft 6 in, 27 ft']", state="attached")
        drag(page, (5, 0), (6.3, 0.4))
        walls = walls_when(house, lambda walls: str(walls["W1"].openings["N1"].start) != "4 ft")
        assert str(walls["W1"].openings["N1"].start) == "5 ft 4 in"
        place = page.evaluate("JSON.parse(document.querySelector('[data-path*=N3]').dataset.line).centre")
        assert place[0] < 24 * FOOT  # the middle of the arc of W2

        page.wait_for_function("() => document.querySelector('[data-path*=N1]').dataset.start > 1.6")
        opening = page.get_by_role("link", name="Opening N4, window in W3")
        opening.focus()
        for _ in range(3):
            page.keyboard.press("ArrowRight")
        walls = walls_when(house, lambda walls: str(walls["W3"].openings["N4"].start) == "4 ft 3 in")
        assert str(walls["W3"].openings["N4"].start) == "4 ft 3 in"
        page.wait_for_function("() => document.activeElement.getAttribute('data-path')?.includes('N4')")
        page.keyboard.press("ArrowLeft")
        walls = walls_when(house, lambda walls: str(walls["W3"].openings["N4"].start) == "4 ft 2 in")
        assert str(walls["W3"].openings["N4"].start) == "4 ft 2 in"

        page.wait_for_function("() => document.activeElement.getAttribute('data-path')?.includes('N4')")
        page.get_by_role("button", name="Undo").press("Enter")
        walls = walls_when(house, lambda walls: str(walls["W3"].openings["N4"].start) == "4 ft 3 in")
        assert str(walls["W3"].openings["N4"].start) == "4 ft 3 in" and "/plan" in page.url
        page.goto(f"{desk.session.origin}/plan?wall=W4")
        page.get_by_label("Place an opening").check()
        drag(page, (0, 6), (0.1, 3))
        assert page.evaluate("document.activeElement.id") == "new-walls-W4-openings-kind"
        page.keyboard.type("window")
        for name, text in (("height", "3 ft"), ("sill", "3 ft")):
            page.locator(f"#new-walls-W4-openings-{name}").fill(text)
        page.get_by_role("button", name="Add the opening").press("Enter")
        walls = walls_when(house, lambda walls: walls["W4"].openings)
        placed = walls["W4"].openings["N1"]
        assert (str(placed.start), str(placed.width), placed.kind) == ("10 ft", "3 ft", "window")

        page.set_viewport_size({"width": 390, "height": 844})
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        context.close()
    assert complaints == []
