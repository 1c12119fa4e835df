"""The plan with a way to every wall, and the marks of what was found there."""

from __future__ import annotations

from compliance.desk.kept_check import Snapshot
from compliance.desk.pages.frame import drawn, listed, page, problems_box, section, subject_path
from compliance.findings import Outcome
from compliance.output.checklist.html_tags import joined, tag
from compliance.output.terminal.problem_text import ReadLines
from compliance.report.marks import mark_of


def plan_page(snapshot: Snapshot, read_lines: ReadLines) -> bytes:
    """The drawing over the whole width, then each wall with what asks for something."""
    checked = snapshot.checked
    children = [problems_box(snapshot, read_lines), tag("h1", "Plan")]
    if checked is None or not checked.facts.views:
        says = "No wall has a place in the plan yet: write its run or its arc."
        return page("Plan", snapshot, *children, tag("p", says), here="/plan")
    source = f"/picture/plan.svg?number={snapshot.number}"
    children.append(tag("div", tag("img", src=source, alt="The plan, as the papers draw it"), class_="sheet"))
    rows = []
    for mark, wall in checked.project.walls.items():
        stops = [one for one in checked.findings if one.wall == mark and one.outcome.rank <= Outcome.REVISE.rank]
        name = f"{mark}, {wall.name}" if wall.name else mark
        lines = [
            tag(
                "p",
                drawn(mark_of(one)),
                tag("a", one.title, href=subject_path(one.subject, f"{one.rule_set}/{one.rule}")),
            )
            for one in stops
        ]
        rows.append(joined([tag("p", tag("a", name, href=subject_path(mark)), class_="what"), *lines]))
    children.append(section("Walls", listed(rows)))
    return page("Plan", snapshot, *children, here="/plan")
