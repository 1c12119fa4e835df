"""A phone of 390 px with a finger in place of a pointer: it comes in by the code, reads, and records with a photo."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from compliance.checking import check_folder
from compliance.desk.phone.network_address import network_address
from compliance.refused import RefusedError
from tests.desk.browsing import complaints_of
from tests.desk.served import served
from tests.desk.test_accessible_pages import AXE, MENTIONED
from tests.desk.test_phone import ELSEWHERE, PAGES

_WIDTH, _TARGET = 390, 44
_SMALL = """least => Array.from(document.querySelectorAll("a, button, input, select, textarea, summary"))
  .filter((one) => one.type !== "hidden" && one.checkVisibility() && !one.classList.contains("skip"))
  .map((one) => [one, (one.closest("label") ?? one).getBoundingClientRect()])
  .filter(([, box]) => box.width < least - 0.5 || box.height < least - 0.5)
  .map(([one, box]) => `${one.outerHTML.slice(0, 120)} ${box.width}x${box.height}`)"""


def address() -> str:
    """That of the network, where browsers take nothing for granted; another of this machine where there is none."""
    try:
        return network_address()
    except RefusedError:
        return ELSEWHERE


@pytest.mark.usefixtures("without_nearest_changes")
def test_a_phone_reads_and_records_with_a_photo(browser: Any, house: Path) -> None:
    out = io.BytesIO()
    Image.new("RGB", (400, 300), "#8A5F14").save(out, "JPEG")
    asked: list[str] = []
    with served(house, address()) as desk:
        assert desk.phone is not None
        context = browser.new_context(viewport={"width": _WIDTH, "height": 844}, has_touch=True, is_mobile=True)
        page = context.new_page()
        complaints = complaints_of(page)
        page.on("request", lambda request: asked.append(request.url) if not request.url.startswith("blob:") else None)
        page.goto(desk.phone.address)
        page.wait_for_url(f"{desk.phone.origin}/")
        for path in PAGES:
            page.goto(f"{desk.phone.origin}{path}")
            page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
            assert page.evaluate("document.documentElement.scrollWidth") <= _WIDTH, path
            assert page.evaluate(_SMALL, _TARGET) == [], path
            if AXE.is_file():
                page.evaluate(AXE.read_text("utf-8"))
                for scheme in ("light", "dark") if path in ("/inspections", "/subject/W6") else ("dark",):
                    page.emulate_media(color_scheme=scheme)
                    some = page.evaluate("axe.run({resultTypes: ['violations']})" + f".then({MENTIONED})")
                    assert [one for one in some if one[1] in ("serious", "critical")] == [], (path, scheme)
        page.get_by_role("navigation").get_by_role("link", name="Inspections").tap()
        point = page.locator("fieldset.asked").first
        point.locator("select").first.select_option("yes")
        camera = point.locator("input[type=file]")
        assert camera.get_attribute("capture") == "environment" and camera.get_attribute("accept") == "image/*"
        camera.set_input_files({"name": "image.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()})
        point.locator(".shot img").wait_for()
        page.wait_for_function("() => document.querySelector('.shot img').naturalWidth === 400")
        assert page.evaluate(_SMALL, _TARGET) == []
        point.get_by_label("Title of the photo").fill("Trench, north side")
        page.get_by_label("Inspected by").fill("Bo Li")
        page.get_by_role("button", name="Save the records").tap()
        page.get_by_role("heading", name="Saved").wait_for()
        now = check_folder(house).project
        assert now.inspections[-1].by == "Bo Li" and now.inspections[-1].passed
        assert now.attachments[now.inspections[-1].evidence[0]].title == "Trench, north side"
        assert (house / "photos" / "image.jpg").read_bytes() == out.getvalue()
        page.goto(f"{desk.phone.origin}/photos")
        page.locator("#drop-file").set_input_files(
            {"name": "image.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}
        )
        page.get_by_role("button", name="Keep it").wait_for()
        page.wait_for_load_state()  # a page is as wide as its styles say once they are there
        assert page.evaluate("document.documentElement.scrollWidth") <= _WIDTH and page.evaluate(_SMALL, _TARGET) == []
        page.get_by_label("title").fill("South wall")
        page.get_by_role("button", name="Keep it").tap()
        page.get_by_text("South wall").first.wait_for()
        context.close()
    assert complaints == []
    assert asked and all(one.startswith(desk.phone.origin) for one in asked)
