"""From a checked project to what is drawn: each wall with its findings and the tests of its earth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from compliance.checked import Checked
from compliance.drawings.common.draft import Flag, elevation_key
from compliance.drawings.elevation.levels import parts_of
from compliance.drawings.elevation.wall_face import WallSubject
from compliance.drawings.plan.outer_faces import outside_faces
from compliance.drawings.plan.plan_face import PlanSubject
from compliance.findings import Finding
from compliance.report.by_rule import RuleFindings, SetFindings
from compliance.report.marks import Mark, mark_of

_MARKED = (Mark.ENGINEER, Mark.REVISE)
"""What breaks a limit is marked at its place; what is open or missing is counted under the drawing."""
_PARTS = ("stem", "footing", "beam")


def link_to_wall(checked: Checked, wall: str) -> str:
    """The place of the elevation of a wall; empty where the wall has none."""
    return elevation_key(wall) if wall in checked.facts.views else ""


def wall_subjects(checked: Checked, sets: tuple[SetFindings, ...], is_scheduled: bool = False) -> list[WallSubject]:
    """Every wall that stands in the plan, in the order of the project; `is_scheduled`: the schedules go with them."""
    views, project = checked.facts.views, checked.project
    sides = outside_faces(views)
    heights = {mark: view.place.height for mark, view in views.items()}
    buttresses = {mark: one.height.si for mark, one in project.buttresses.items()}
    found = _by_wall(checked, sets)
    return [
        WallSubject(
            view, parts=parts_of(mark, project), outside=sides[mark], heights=heights, buttresses=buttresses,
            flags=tuple(flag for group, one in found[mark] if (flag := _flag(checked, group, one)) is not None),
            notes=(f"Earth: {earth_of(checked, project.walls[mark].mix)}.", *_open(found[mark])),
            is_scheduled=is_scheduled,
        )
        for mark, view in views.items()
    ]  # fmt: skip


def plan_subject(checked: Checked, walls: Sequence[WallSubject]) -> PlanSubject:
    """The plan of all walls, with the outer face that each has."""
    project = checked.project
    outside = {one.view.mark: one.outside for one in walls}
    north = project.site.north.si if project.site.north else None
    return PlanSubject(
        checked.facts.views,
        walls=project.walls,
        buttresses=project.buttresses,
        outside=outside,
        north=north,
        rooms=project.rooms,
    )


def earth_of(checked: Checked, mix: str | None) -> str:
    """The earth of a wall in words."""
    if mix is None:
        return "mix not described"
    found = checked.project.mixes.get(mix)
    return f"mix {mix}, {found.name}" if found else f"mix {mix}, not described"


def _by_wall(checked: Checked, sets: tuple[SetFindings, ...]) -> Mapping[str, list[tuple[RuleFindings, Finding]]]:
    """The findings of each wall with its openings and piers, and of what it stands on and carries."""
    walls = checked.project.walls
    found: dict[str, list[tuple[RuleFindings, Finding]]] = {mark: [] for mark in walls}
    users: dict[tuple[str, str], list[str]] = {}
    for mark, wall in walls.items():
        for about in _PARTS:
            users.setdefault((about, getattr(wall, about) or ""), []).append(mark)
    for group in (group for one in sets for group in one.rules):
        for finding in group.findings:
            marks = [finding.wall] if finding.wall else users.get((finding.about, finding.subject), [])
            for mark in marks:
                if mark in found:
                    found[mark].append((group, finding))
    return found


def _flag(checked: Checked, group: RuleFindings, finding: Finding) -> Flag | None:
    mark = mark_of(finding)
    if mark not in _MARKED:
        return None
    names = tuple(sorted(_names(checked, group)))
    return Flag(finding.about, subject=finding.own_mark, code=group.code, mark=mark.name, link=group.key, facts=names)


def _names(checked: Checked, group: RuleFindings) -> Iterable[str]:
    """The facts that the rule compares."""
    for one in checked.rule_sets:
        if one.id == group.rule_set:
            for rule in one.rules:
                if rule.id == group.rule and rule.check:
                    return rule.check.names
    return ()


def _open(found: list[tuple[RuleFindings, Finding]]) -> list[str]:
    marks = [mark_of(finding) for _, finding in found]
    marked = sum(mark in _MARKED for mark in marks)
    missing, confirm = marks.count(Mark.MISSING), marks.count(Mark.CONFIRM)
    phrases = [f"{marked} beyond a limit, marked with the code of the rule"] if marked else []
    phrases += [f"{missing} not judged for want of a value"] if missing else []
    phrases += [f"{confirm} with an open limit or rule"] if confirm else []
    return [f"Findings: {'; '.join(phrases)}."] if phrases else []
