"""The pages in a real browser, at the width of a phone and of a screen; skipped where none is installed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tests.benchmarks.rows_of_rooms import write_rooms
from tests.desk.browsing import complaints_of
from tests.desk.served import served

WIDTHS = (390, 1440)


@pytest.mark.usefixtures("without_nearest_changes")
@pytest.mark.parametrize("width", WIDTHS)
def test_pages_fit_ask_nobody_else_and_follow_the_files(browser: Any, house: Path, width: int) -> None:
    with served(house) as desk:
        context = browser.new_context(viewport={"width": width, "height": 900})
        page = context.new_page()
        asked: list[str] = []
        complaints = complaints_of(page)
        page.on("request", lambda request: asked.append(request.url))
        page.goto(desk.session.address)
        page.wait_for_url(f"{desk.session.origin}/")
        for path in ("/plan", "/subject/W3", "/questions", "/limits", "/inspections", "/papers", "/cautions", "/"):
            page.goto(f"{desk.session.origin}{path}")
            assert page.evaluate("document.documentElement.scrollWidth") <= width, path
        sentence = page.locator("h1").inner_text()
        walls = house / "walls.yaml"
        walls.write_text(walls.read_text("utf-8").replace("    height: 11 ft 6 in\n", ""), "utf-8")
        page.wait_for_function("was => document.querySelector('h1').innerText !== was", arg=sentence)
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.textContent") == "To the content"
        context.close()
    assert complaints == []
    assert asked and all(one.startswith(desk.session.origin) for one in asked)


def test_a_field_is_filled_in_and_taken_back_by_the_keyboard_alone(browser: Any, house: Path) -> None:
    before = (house / "project.yaml").read_bytes()
    with served(house) as desk:
        context = browser.new_context(viewport={"width": 390, "height": 900})
        page = context.new_page()
        page.goto(desk.session.address)
        page.wait_for_url(f"{desk.session.origin}/")
        page.wait_for_function("() => !document.body.innerText.includes('Looking for the nearest')")
        form = page.locator("details", has=page.get_by_label("project: diaphragm", exact=True)).first
        form.locator("summary").focus()
        page.keyboard.press("Enter")
        page.get_by_label("project: diaphragm", exact=True).focus()
        page.keyboard.type("flexible")
        page.keyboard.press("Tab")
        page.keyboard.press("Enter")
        page.get_by_role("button", name="Undo").wait_for()
        assert b"  diaphragm: flexible" in (house / "project.yaml").read_bytes()
        page.get_by_role("button", name="Undo").focus()
        page.keyboard.press("Enter")
        page.get_by_role("button", name="Redo").wait_for()
        context.close()
    assert (house / "project.yaml").read_bytes() == before


@pytest.mark.usefixtures("without_nearest_changes")
def test_a_question_is_answered_and_a_paper_made_by_the_keyboard_alone(browser: Any, tmp_path: Path) -> None:
    folder = tmp_path / "rooms"
    write_rooms(folder, 4)
    with served(folder) as desk:
        context = browser.new_context(viewport={"width": 390, "height": 900})
        page = context.new_page()
        complaints: list[str] = []
        page.on("console", lambda said: complaints.append(said.text) if said.type in ("error", "warning") else None)
        page.goto(desk.session.address)
        page.wait_for_url(f"{desk.session.origin}/")
        page.goto(f"{desk.session.origin}/questions?later=1")
        asked = page.locator("fieldset.asked").first
        title = asked.locator("legend").inner_text()
        asked.locator("select").first.focus()
        page.keyboard.type("no")
        page.get_by_label("Answered by").focus()
        page.keyboard.type("Ana Diaz")
        page.keyboard.press("Enter")
        page.get_by_role("heading", name="Saved").wait_for()
        assert title not in page.locator("form legend").all_inner_texts()
        assert "Ana Diaz" in (folder / "project.yaml").read_text("utf-8")
        page.goto(f"{desk.session.origin}/papers")
        page.get_by_role("button", name="Make: Plan alone").focus()
        page.keyboard.press("Enter")
        page.get_by_text("Plan alone: made").wait_for()  # told by the page itself, which is not opened anew
        with context.expect_page() as opened:
            page.get_by_role("link", name="rooms-plan.pdf").first.focus()
            page.keyboard.press("Enter")
        opened.value.wait_for_load_state()
        assert opened.value.evaluate("document.contentType") == "application/pdf"
        context.close()
    assert complaints == []
