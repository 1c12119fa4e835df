"""Earth, tests and photos in a real browser: by the keyboard alone at the width of a phone, and as wide as a screen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from compliance.reading.project_folder import read_project
from tests.desk.served import served
from tests.desk.test_lab_tables import PASTED, assert_read_as_typed
from tests.desk.test_photos import photo

PAGES = ("/earth", "/earth/soils/S1", "/earth/trials/TR2", "/earth/mixes/M1", "/tests", "/photos")


def opened(browser: Any, desk: Any, width: int) -> tuple[Any, list[str]]:
    page = browser.new_context(viewport={"width": width, "height": 900}).new_page()
    complaints: list[str] = []
    page.on("console", lambda said: complaints.append(said.text) if said.type in ("error", "warning") else None)
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("request", lambda one: complaints.append(one.url) if not one.url.startswith(desk.session.origin) else None)
    page.goto(desk.session.address)
    page.wait_for_url(f"{desk.session.origin}/")
    return page, complaints


@pytest.mark.usefixtures("one_rule_set", "without_nearest_changes")
def test_a_jar_and_a_table_by_the_keyboard_alone_at_the_width_of_a_phone(browser: Any, house: Path) -> None:
    earth = house / "earth.yaml"
    text = earth.read_text("utf-8").replace("test_sets:\n", "test_sets:\n  T8: {kind: compression, mix: M2}\n")
    earth.write_text(text, "utf-8")
    with served(house) as desk:
        page, complaints = opened(browser, desk, 390)
        for path in PAGES:
            page.goto(f"{desk.session.origin}{path}")
            assert page.evaluate("document.documentElement.scrollWidth") <= 390, path
        page.goto(f"{desk.session.origin}/earth/soils/S2")
        page.get_by_label("top of sand", exact=True).focus()
        for typed in ("9 in", "", "9 1/8 in", "", "9 1/4 in"):
            page.keyboard.type(typed)
            page.keyboard.press("Tab")
        page.wait_for_function("() => document.getElementById('jar-now').textContent.includes('sand 97.3 %, 9 in')")
        page.get_by_role("button", name="Save the jar").focus()
        page.keyboard.press("Enter")
        page.get_by_role("button", name="Undo").wait_for()
        page.goto(f"{desk.session.origin}/tests")
        page.locator("#paste-kind").focus()
        page.keyboard.type("compression")
        page.keyboard.press("Tab")
        page.keyboard.type("report")
        page.keyboard.press("Tab")
        page.keyboard.insert_text(PASTED)
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.wait_for_url("**/tests/table/*")
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        for field, typed in (("#every-dried", "air"), ("#every-shape", "prism")):
            page.locator(field).focus()
            page.keyboard.type(typed)
        page.get_by_role("button", name="Show the result").focus()
        page.keyboard.press("Enter")
        page.get_by_role("button", name="Keep the table").wait_for()
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        page.get_by_role("button", name="Keep the table").focus()
        page.keyboard.press("Enter")
        page.wait_for_url("**/tests")
        page.context.close()
    assert complaints == []
    assert_read_as_typed(house, "lab/report.csv")
    jar = read_project(house).project.soils["S2"].jar
    assert jar is not None and [one.height.text for one in (jar.sand, jar.silt, jar.top)] == [
        "9 in",
        "9 1/8 in",
        "9 1/4 in",
    ]


@pytest.mark.usefixtures("one_rule_set", "without_nearest_changes")
def test_a_photo_is_chosen_looked_at_and_kept(browser: Any, house: Path, tmp_path: Path) -> None:
    chosen = tmp_path / "pit.jpg"
    chosen.write_bytes(photo(6))
    with served(house) as desk:
        page, complaints = opened(browser, desk, 1440)
        for path in PAGES:
            page.goto(f"{desk.session.origin}{path}")
            assert page.evaluate("document.documentElement.scrollWidth") <= 1440, path
        page.locator("#drop-file").set_input_files(str(chosen))
        page.wait_for_url("**/photos/new/*")
        size = page.locator("main img").evaluate("one => [one.naturalWidth, one.naturalHeight]")
        assert size == [30, 60]
        page.locator("#new-tie").select_option(label="trial brick TR2")
        page.get_by_role("button", name="Keep it").click()
        page.wait_for_url("**/photos")
        page.context.close()
    assert complaints == []
    project = read_project(house).project
    assert project.attachments[project.trials["TR2"].photo or ""].file == "photos/pit.jpg"
