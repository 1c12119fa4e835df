"""Every wall as its facts see it: as described, for drawings, and as built, with the pieces of one wall together."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from compliance.facts.geometry.openings import opened, opened_all_round
from compliance.facts.geometry.plan.chains import Link
from compliance.facts.geometry.plan.lateral_supports import RUNS_ON, Placed, find_stretches, on_wall
from compliance.facts.geometry.plan.runs import Run, find_runs
from compliance.facts.geometry.wall_facts import WallView
from compliance.facts.geometry.wall_plan import Support, SupportRules, WallLine, wall_line
from compliance.model.project import Project
from compliance.record import record, replace


@record
class Views:
    """`pieces` by the mark of each wall as described; `runs` by the same marks, those of one run being one record."""

    pieces: Mapping[str, WallView]
    runs: Mapping[str, WallView]


def wall_lines(project: Project) -> dict[str, WallLine]:
    """The line of each wall in the plan, walls without a sound line left out."""
    lines = {mark: wall_line(mark, wall) for mark, wall in project.walls.items()}
    return {mark: line for mark, line in lines.items() if line is not None}


def find_views(project: Project, rules: SupportRules) -> Views:
    """All walls whose line the reader has already found sound."""
    lines = wall_lines(project)
    placed = find_stretches(lines, project.buttresses, rules)
    runs = find_runs(project, placed)
    pieces = {mark: _piece(mark, project, placed[mark], rules) for mark in lines}
    whole: dict[str, WallView] = {}
    for mark in lines:
        run = runs[mark]
        if len(run.pieces) == 1:
            whole[mark] = pieces[mark]
        elif mark not in whole:
            whole |= dict.fromkeys(run.marks, _whole(run, placed[run.mark], lines[run.mark], rules))
    return Views(pieces, whole)


def _piece(mark: str, project: Project, placed: Placed, rules: SupportRules) -> WallView:
    wall, link = project.walls[mark], placed.link
    return WallView(
        mark=mark, wall=wall, place=link.wall, supports=on_wall(placed), opened=opened(wall, link.wall.line.length),
        rules=rules, placed=placed, pieces=(mark,), span=(link.start, link.end), turned=link.turned,
    )  # fmt: skip


def _whole(run: Run, placed: Placed, lead: WallLine, rules: SupportRules) -> WallView:
    length = run.line.length
    found = opened_all_round(run.wall, length) if run.closed else opened(run.wall, length)
    place = WallLine(
        run.mark,
        line=run.line,
        height=lead.height,
        thickness=lead.thickness,
        holes=tuple((one.start, one.end) for one in found.holes),
        story=lead.story,
    )
    return WallView(
        mark=run.mark, wall=run.wall, place=place, supports=_on_run(run, placed), opened=found, rules=rules,
        placed=placed, pieces=run.marks, span=(run.start, run.end), turned=run.turned, closed=run.closed,
    )  # fmt: skip


def _on_run(run: Run, placed: Placed) -> tuple[Support, ...]:
    """What meets the run, by its own stations."""
    stretch, found = placed.stretch, []
    total, length = stretch.length, run.line.length
    for one in stretch.supports:
        for station in (one.s, one.s - total, one.s + total) if stretch.chain.closed else (one.s,):
            if run.start - 1e-6 <= station <= run.end + 1e-6:
                at = run.end - station if run.turned else station - run.start
                at = min(max(at, 0.0), length)
                found.append(replace(one, s=at))
    for other, last in _beyond(run, placed):
        at = length if last is not run.turned else 0.0
        found.append(Support(at, other.wall.mark, other.wall.thickness / 2, RUNS_ON))
    return tuple(sorted(found, key=lambda one: (one.s, one.by)))


def _beyond(run: Run, placed: Placed) -> Iterator[tuple[Link, bool]]:
    """The links of the stretch that the run runs on into, and whether at its last end."""
    chain = placed.stretch.chain
    order = [one.wall.mark for one in chain.links]
    first, last = order.index(run.marks[0]), order.index(run.marks[-1])
    if len(run.pieces) == len(order):
        return
    if chain.closed or first > 0:
        yield chain.links[first - 1], False
    if chain.closed or last + 1 < len(order):
        yield chain.links[(last + 1) % len(order)], True
