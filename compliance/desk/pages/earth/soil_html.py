"""The page of one soil: what it is good for, its hand tests, its jar, and all else that is recorded of it."""

from __future__ import annotations

from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.earth.described_forms import record_form
from compliance.desk.pages.earth.hand_test_forms import hand_test_form
from compliance.desk.pages.earth.jar_forms import jar_form, jar_now
from compliance.desk.pages.frame import listed, page, problems_box, section
from compliance.output.checklist.html_tags import Child, Markup, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.report.earth.soil_words import REMARK, soil_line, soil_uses, steps_of

EARTH = "/earth"


def earth_path(section_name: str, mark: str) -> str:
    """The address of the page of a soil, a trial brick or a mix."""
    return f"{EARTH}/{section_name}/{mark}"


def soil_page(snapshot: Snapshot, mark: str, read_lines: ReadLines) -> bytes:
    """The soil is one of the project."""
    checked = snapshot.checked
    assert checked is not None
    soil, back = checked.project.soils[mark], earth_path("soils", mark)
    record = checked.evidence.soils.get(mark)
    use = next(one for one in soil_uses(checked) if one.mark == mark)
    line = soil_line(use, checked)
    steps = list(steps_of(use, checked))
    children: list[Child] = [
        problems_box(snapshot, read_lines),
        tag("h1", line.head),
        *(tag("p", text) for text in line.says),
        section("Next for this soil", listed(step.says for step in steps)) if steps else None,
        tag("p", REMARK, class_="small"),
    ]
    if not snapshot.problems:
        practice = checked.needed_references.practice.field_tests
        now = tag("div", jar_now(mark, checked, soil.jar, record), id="jar-now", aria_live="polite")
        form = jar_form(mark, soil.jar, snapshot, back)
        children += [
            section("Jar", tag("div", form, now, class_="beside")),
            section(
                "Hand tests",
                tag("p", practice.note, class_="small"),
                hand_test_form(mark, soil.field_tests, practice, snapshot=snapshot, back=back),
            ),
            section("What is recorded", record_form(("soils", mark), soil, snapshot, back)),
        ]
    return page(f"Soil {mark}", snapshot, *children, _back(), here="", scripts=("earth.js",))


def _back() -> Markup:
    return tag("p", tag("a", "All of the earth", href=EARTH, class_="button"))
