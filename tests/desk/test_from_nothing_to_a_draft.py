"""From nothing to a draft submittal in a real browser, by the keyboard alone and by the pointer: an L-shaped house with
a round end and seven openings, two soils, a mix, a table of a laboratory, three photos, ten answers, four limits. No
file is opened.

By default somebody describes less of it, by the keyboard. EARTHWALL_WALK=whole takes the whole way, both ways, some
minutes of a busy machine."""

from __future__ import annotations

import html
import io
import os
import re
from pathlib import Path
from typing import Any

import pypdf
import pytest

from compliance.checking import check_folder
from compliance.findings import Standing
from compliance.reading.project_folder import read_project
from compliance.report.answer.answer import answer
from compliance.report.limits.limit_list import limits_of_codes
from compliance.report.words.answer_words import answer_sentence, cause_words, clause_words
from compliance.report.words.page_words import item_on_page
from compliance.units import KINDS, Writer, parse_measure
from tests.desk import walk_story as story
from tests.desk.walkers import KeyboardWalker, Walker, started_desk

MOST_STEPS = 750
"""25 minutes at 2 s for each field and each thing pressed."""


WHOLE = os.environ.get("EARTHWALL_WALK") == "whole"


WAYS = {"keyboard": KeyboardWalker, "pointer": Walker} if WHOLE else {"keyboard": KeyboardWalker}


@pytest.mark.parametrize("by", WAYS.values(), ids=WAYS)
def test_from_nothing_to_a_draft(browser: Any, tmp_path: Path, by: type[Walker]) -> None:
    folder, house = tmp_path / "house", story.WHOLE if WHOLE else story.SHORT
    with started_desk(folder) as address:
        walker = by(browser, address, 1440)
        story.begin(walker)
        story.draw(walker, house)
        story.describe_earth(walker, house)
        story.describe_parts(walker, house)
        story.take_in_tests(walker)
        story.attach_photos(walker, house, tmp_path)
        story.answer_questions(walker, house)
        story.read_limits(walker, house)
        paper = story.make_the_draft(walker)
        fetched = walker.context.request.get(f"{walker.origin}{paper}")
        text = "".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(fetched.body())).pages[:3])
        assert story.NAME in text and "draft" in text.casefold()
        walker.link("Answer")
        assert_says_what_a_check_says(walker, folder)
        assert_reads_on_a_phone(walker)
        walker.close()
    assert walker.complaints == []
    assert (150 if WHOLE else 80) < walker.steps <= MOST_STEPS  # as many things were typed and pressed at least
    assert_holds_what_was_typed(folder, house)


def assert_says_what_a_check_says(walker: Walker, folder: Path) -> None:
    checked = check_folder(folder)
    found, writer = answer(checked), Writer("us")
    wanted = [answer_sentence(found, len(checked.findings)), *(cause_words(one, writer) for one in found.stops),
              *(item_on_page(one, writer) for one in found.to_write), *map(clause_words, found.to_read)]  # fmt: skip
    text = plain(walker.page.content())
    assert len(wanted) > 20 and [one for one in wanted if plain(html.escape(one)) not in text] == []


READ = ("/", "/plan", "/subject/W2", "/limits", "/inspections", "/papers", "/cautions", "/photos", "/fill")
_SMALL = """() => Array.from(document.querySelectorAll('nav a, button, summary, .rows a, select, textarea, .button'))
  .filter(one => one.checkVisibility()).map(one => [one.outerHTML.slice(0, 90), one.getBoundingClientRect()])
  .filter(([_, box]) => box.height < 24 || box.width < 16).map(([text]) => text)"""


def assert_reads_on_a_phone(walker: Walker) -> None:
    """No page is wider than 390 px, and what can be pressed is at least 24 px high (WCAG 2.2, 2.5.8)."""
    walker.page.set_viewport_size({"width": 390, "height": 844})
    for path in READ:
        walker.page.goto(f"{walker.origin}{path}", wait_until="domcontentloaded")
        assert walker.page.evaluate("document.documentElement.scrollWidth") <= 390, path
        assert walker.page.evaluate(_SMALL) == [], path


def plain(text: str) -> str:
    return re.sub(r"\s+", " ", html.unescape(re.sub(r"<[^>]+>", " ", text)))


def assert_holds_what_was_typed(folder: Path, house: story.House) -> None:
    read = read_project(folder)
    project = read.project
    assert (project.project.name, project.jurisdiction and project.jurisdiction.name) == (story.NAME, story.PLACE)
    assert project.walls["W2"].arc and ", ".join(map(str, project.walls["W2"].arc.through)) == story.ROUND_END
    for wall, openings in house.openings.items():
        kind, _, *sizes = openings[0]
        for one, (_, start, *_rest) in zip(project.walls[wall].openings.values(), openings, strict=True):
            assert one.lintel is not None
            assert (one.kind, str(one.start)) == (kind, start)
            assert [str(each) for each in (one.width, one.height, one.sill)] == sizes
            assert [str(each) for each in (one.lintel.material, one.lintel.width, one.lintel.depth, one.lintel.bearing)
                    ] == [*story.LINTEL.values()]  # fmt: skip
    count = sum(len(one.openings) for one in project.walls.values())
    assert count == sum(map(len, house.openings.values())) and (count == 7 or not WHOLE)
    for mark, fields in house.soils.items():
        held = project.soils[mark]
        assert {name: str(getattr(held, name) or "") for name in fields} == fields
        assert {one.kind: one.reading for one in held.field_tests} == story.HAND_TESTS[mark]
    jar = project.soils["S1"].jar
    assert jar and {name: getattr(jar, name).height.text for name in story.JAR} == story.JAR
    assert {mark: f"{part:g}" for mark, part in project.mixes["M1"].parts.items()} == {
        mark: story.PARTS[mark] for mark in house.soils
    }
    for section, (mark, fields) in house.parts_of_the_building.items():
        assert {name: str(getattr(getattr(project, section)[mark], name)) for name in fields} == fields
    for path, text in house.filled_in.items():
        node: Any = read.tree
        for name in path.split("."):
            node = node[name]
        typed = {True: "yes", False: "no"}.get(node, str(node)) if isinstance(node, bool) else str(node)
        assert typed == text, path
    rows = read.specimens["T1"]
    assert [(one.mark, one.texts["peak_load"]) for one in rows] == [(row[0], row[6]) for row in story.ROWS]
    assert {(one.mix, one.dried, one.shape) for one in rows} == {("M1", "air", "prism")}
    photos = [(one.file, one.title) for one in project.attachments.values()]
    assert photos == [(f"photos/{name}", title) for name, title, _ in house.photos]
    ties = (*project.soils["S1"].photos, jar.photo, project.test_sets["T1"].report)
    assert [one for one in ties if one] == [*project.attachments]
    answers = {one.rule_id: one for one in project.attestations}
    assert set(answers) == set(house.answered)
    assert all(one.by == story.WHO and not one.answer for one in answers.values())
    used = (one.limit for one in limits_of_codes(check_folder(folder)) if one.limit.standing is Standing.CONFIRMED)
    known = {f"{one.rule_set}/{one.rule}/{one.name}": one.value.value if one.value else None for one in used}
    for name, text in house.limits.items():
        value = known.pop(name)
        assert value == (parse_measure(text, KINDS["length"]).si if " " in text else float(text)), name
    assert known == {}
