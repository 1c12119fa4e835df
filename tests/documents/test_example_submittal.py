"""The submittal of the example project: complete, inside its margins, the same every time."""

from __future__ import annotations

import pytest

from compliance.report.by_rule import by_rule
from tests.documents.conftest import PrintedExample
from tests.documents.reading_back import fonts_without_file, one_line
from tests.documents.test_submittal import every_finding, within_margins


@pytest.fixture
def example(printed_example: PrintedExample) -> PrintedExample:
    return printed_example


def test_every_finding_is_in_it(example: PrintedExample) -> None:
    every_finding(example[2], example[0])


def test_nothing_outside_its_margins_or_over_other_text(example: PrintedExample) -> None:
    within_margins(example[2])


def test_every_limit_relied_on_is_in_the_register(example: PrintedExample) -> None:
    made, _, read = example
    register = read.text[read.text.index("Limits relied on Every limit") :]
    for group in (group for one in by_rule(made) for group in one.rules):
        for limit in group.limits:
            assert f"{group.code} {one_line(limit.clause)}" in register
            assert one_line(limit.name.replace("_", " ")) in register


def test_every_specimen_and_every_wall_is_listed(example: PrintedExample) -> None:
    made, _, read = example
    for one in (one for rows in made.specimens.values() for one in rows):
        assert f" {one.mark} " in read.text
    for mark, wall in made.project.walls.items():
        assert f" {mark} {wall.name} " in read.text


def test_no_page_but_the_last_of_a_section_is_nearly_empty(example: PrintedExample) -> None:
    """Ends of sections may leave room; the pages between are more than half filled: a figure of half a page goes whole
    to the next one."""
    _, _, read = example
    starts = {page for level, _, page in read.outline if level == 0}
    bound_in = next(
        page for level, title, page in read.outline if title == "Attachments"
    )  # pictures, which have no text
    for number, boxes in enumerate(read.boxes, start=1):
        if number + 1 in starts or number >= bound_in:
            continue
        lowest = min(bottom for _, bottom, _, _ in boxes if bottom > 50)
        assert lowest < 394, f"page {number} is filled only down to {lowest:.0f} points"


def test_fonts_are_embedded(example: PrintedExample) -> None:
    assert fonts_without_file(example[1]) == []
