"""Fingers on the plan, in a real browser: one draws and moves as a pointer does, two change nothing."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.desk.browsing import complaints_of
from tests.desk.served import served
from tests.desk.test_editing import state
from tests.desk.test_plan_in_browser import FOOT, PLACE, walls_when


class Fingers:
    """Touches as a screen reports them: scrolling, zooming and taps come of them as they do for a reader."""

    def __init__(self, page: Any) -> None:
        self.page = page
        self.scrolled = [0, 0]
        """Where the window was when the fingers of the last drag left."""
        self._session = page.context.new_cdp_session(page)

    def show_plan(self) -> None:
        self.page.evaluate("document.getElementById('over').scrollIntoView({block: 'center'})")

    def at(self, point: tuple[float, float]) -> tuple[float, float]:
        """A place of the plan, in ft, as pixels of the window."""
        x, y = self.page.evaluate(PLACE, [point[0] * FOOT, point[1] * FOOT])
        return x, y

    def send(self, kind: str, *points: tuple[float, float]) -> None:
        touches = [{"x": x, "y": y, "id": number} for number, (x, y) in enumerate(points)]
        self._session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": touches})

    def drag(self, *ways: tuple[tuple[float, float], tuple[float, float]]) -> None:
        """Each finger goes from one place to another, all at once; the first is down a moment before the others."""
        starts = [self.at(start) for start, _ in ways]
        ends = [self.at(end) for _, end in ways]
        for count in range(1, len(ways) + 1):
            self.send("touchStart", *starts[:count])
        for step in range(1, 9):
            self.send("touchMove", *(
                (x + (to_x - x) * step / 8, y + (to_y - y) * step / 8)
                for (x, y), (to_x, to_y) in zip(starts, ends, strict=True)
            ))  # fmt: skip
        self.scrolled = self.page.evaluate("[scrollX, scrollY]")
        self.send("touchEnd")

    def tap(self, point: tuple[float, float]) -> None:
        self.send("touchStart", self.at(point))
        self.send("touchEnd")


@pytest.mark.usefixtures("one_rule_set", "without_nearest_changes")
def test_one_finger_draws_and_moves_and_two_do_not(browser: Any, house: Path) -> None:
    with served(house) as desk:
        context = browser.new_context(viewport={"width": 1024, "height": 1300}, has_touch=True, is_mobile=True)
        page = context.new_page()
        complaints = complaints_of(page)
        page.goto(desk.session.address)
        page.wait_for_url(f"{desk.session.origin}/")
        page.goto(f"{desk.session.origin}/plan?wall=W3")
        fingers = Fingers(page)
        page.wait_for_function("() => !document.querySelector('#tools').hidden")
        fingers.show_plan()

        before = state(house)
        for tool in ("Draw walls", "Draw arcs", "Place an opening", "Select and move"):
            page.get_by_label(tool).check()
            start = (24, 0) if tool == "Select and move" else (4, 12)
            fingers.drag((start, (10, 12)), ((20, 20), (16, 14)))
            assert page.locator(".draft").count() == 0 and not page.evaluate("'drawing' in document.body.dataset"), tool
        assert page.evaluate("location.search") == "?wall=W3" and state(house) == before

        page.get_by_label("Draw walls").check()
        fingers.drag(((0.1, 25.1), (9.04, 25.02)))
        walls = walls_when(house, lambda walls: "W8" in walls)
        assert walls["W8"].run and [str(one) for one in (*walls["W8"].run.start, *walls["W8"].run.end)] == [
            "0 ft", "25 ft", "9 ft", "25 ft",
        ]  # fmt: skip
        page.wait_for_selector("[data-wall=W8]", state="attached")

        page.get_by_label("Draw arcs").check()
        fingers.drag(((9, 25), (15, 25)))
        after = state(house)
        fingers.drag(((12, 22), (14, 19)), ((20, 14), (16, 17)))  # the arc still lacks its middle, and keeps its ends
        assert state(house) == after and page.locator(".draft").count() == 1
        fingers.tap((12, 22))
        walls = walls_when(house, lambda walls: "W9" in walls)
        assert walls["W9"].arc and [str(one) for one in walls["W9"].arc.through] == ["12 ft", "22 ft"]

        page.wait_for_selector("[data-wall=W9]", state="attached")
        page.get_by_label("Select and move").check()
        scrolled = page.evaluate("[scrollX, scrollY]")
        fingers.drag(((9.3, 25.2), (9.5, 27)))  # a finger is broader than the corner is drawn
        walls = walls_when(house, lambda walls: walls["W8"].run and str(walls["W8"].run.end[1]) == "27 ft")
        assert walls["W8"].run and str(walls["W8"].run.end[1]) == "27 ft"
        assert walls["W9"].arc and walls["W8"].run.end == walls["W9"].arc.start
        assert fingers.scrolled == scrolled

        page.wait_for_selector("[data-at$=', 27 ft']", state="attached")
        fingers.drag(((5, 0), (6.3, 0.4)))
        walls = walls_when(house, lambda walls: str(walls["W1"].openings["N1"].start) != "4 ft")
        assert str(walls["W1"].openings["N1"].start) == "5 ft 4 in"

        page.goto(f"{desk.session.origin}/plan?wall=W4")
        page.get_by_label("Place an opening").check()
        fingers.drag(((0, 6), (0.1, 3)))
        assert page.evaluate("document.activeElement.id") == "new-walls-W4-openings-kind"
        page.goto(f"{desk.session.origin}/plan?wall=W4")
        fingers.show_plan()
        fingers.tap((2.5, 0))
        page.wait_for_url("**/plan?wall=W1")
        context.close()
    assert complaints == []
