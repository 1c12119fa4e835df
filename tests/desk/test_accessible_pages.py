"""axe-core finds nothing serious or critical on any page, by day and by night, as wide as a phone and as a screen.

axe-core is a package of npm (MPL-2.0) that tests alone use: `npm install --no-save axe-core` in the checkout, or
EARTHWALL_AXE names its axe.min.js. Without it these tests are skipped. Nothing is fetched here.
"""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import Any

import pytest

from tests.desk.served import Visitor, served

PAGES = (
    "/",
    "/fill",
    "/plan",
    "/plan?wall=W3",
    "/parts",
    "/earth",
    "/earth/soils/S1",
    "/earth/trials/TR1",
    "/earth/mixes/M1",
    "/tests",
    "/photos",
    "/questions?later=1",
    "/limits",
    "/inspections",
    "/papers",
    "/papers/changes?since=A",
    "/cautions",
    "/phone",
    "/subject/W6",
    "/subject/none",
)
AXE = Path(os.environ.get("EARTHWALL_AXE", Path(__file__).parents[2] / "node_modules/axe-core/axe.min.js"))
MENTIONED = "found => found.violations.map(one => [one.id, one.impact, one.nodes[0].html.slice(0, 200)])"


@pytest.fixture(scope="module")
def axe() -> str:
    if not AXE.is_file():
        pytest.skip("axe-core is not installed: npm install --no-save axe-core")
    return AXE.read_text("utf-8")


@pytest.mark.parametrize(("width", "scheme"), [(1440, "light"), (390, "dark")])
def test_axe_finds_nothing_serious(browser: Any, house: Path, axe: str, width: int, scheme: str) -> None:
    with served(house) as desk:
        context = browser.new_context(viewport={"width": width, "height": 900}, color_scheme=scheme)
        page = context.new_page()
        page.goto(desk.session.address)
        page.wait_for_url(f"{desk.session.origin}/")
        found = []
        for path in PAGES:
            page.goto(f"{desk.session.origin}{path}")
            page.evaluate("document.querySelectorAll('details').forEach(one => { one.open = true; })")
            page.evaluate(axe)  # the policy of the pages lets no script of theirs in
            some = page.evaluate("axe.run({resultTypes: ['violations']})" + f".then({MENTIONED})")
            found += [(path, *one) for one in some if one[1] in ("serious", "critical")]
        context.close()
    assert found == []


def test_the_check_can_fail(browser: Any, axe: str) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.set_content("<!doctype html><title>t</title><main><input><img src='x'></main>")
    page.evaluate(axe)
    assert {one[0] for one in page.evaluate(f"axe.run().then({MENTIONED})")} >= {"label", "image-alt"}
    context.close()


def test_every_page_of_the_desk_is_looked_at(reader: Visitor) -> None:
    """What the navigation leads to is in the list above."""
    places = re.findall(r'<a href="(/[a-z]*)"', reader.get("/").text.partition("<nav")[2].partition("</nav>")[0])
    assert len(places) > 5 and {one for one in places if one not in {path.partition("?")[0] for path in PAGES}} == set()
