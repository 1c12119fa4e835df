"""Buttresses against a wall: in its largest free length, or at its free ends."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from compliance.facts.geometry.plan.lateral_supports import find_stretches, on_wall
from compliance.facts.geometry.plan.meetings import find_meetings
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section, largest_gap
from compliance.facts.geometry.wall_plan import SupportRules
from compliance.facts.geometry.wall_views import wall_lines
from compliance.model.project import Project
from compliance.model.walls import Buttress, Wall
from compliance.remedies.changes import NewButtresses
from compliance.remedies.edited_project import measured, with_value
from compliance.remedies.field_changes import ChangeOption
from compliance.remedies.trial_judging import ChangeTester

_MOST = 6
_FORMS = {"cob": "cob", "adobe": "adobe"}


def gap_buttresses(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    """One, two and more buttresses that part the largest length without support into equal lengths."""
    stations, length = _stations(tester, subject.wall)
    start, _, gap = largest_gap(stations, length)
    yield _buttress_option(
        tester, subject.wall, lambda count: [start + gap * (one + 1) / (count + 1) for one in range(count)]
    )


def end_buttresses(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    """A buttress at each end that nothing holds."""
    stations, length = _stations(tester, subject.wall)
    base, _ = ends_of_section(tester.checked.project.walls[subject.wall])
    ends = [base / 2] if not stations or min(stations) > base else []
    ends += [length - base / 2] if not stations or max(stations) < length - base else []
    if ends:
        yield _buttress_option(tester, subject.wall, lambda count: ends[:count], len(ends))


def _stations(tester: ChangeTester, wall: str) -> tuple[list[float], float]:
    """Where the wall is held sideways, and its length."""
    project = tester.checked.project
    lines = wall_lines(project)
    supports = on_wall(find_stretches(lines, project.buttresses, tester.supports)[wall])
    return [one.s for one in supports if not one.why_not], lines[wall].line.length


def _buttress_option(
    tester: ChangeTester, mark: str, places: Callable[[int], list[float]], most: int = _MOST
) -> ChangeOption:
    wall = tester.checked.project.walls[mark]

    def apply(project: Project, value: float) -> Project | None:
        built = _built(tester, mark, wall, places(round(value)))
        return with_value(project, ("buttresses",), {**project.buttresses, **built}) if built else None

    def change(value: float) -> NewButtresses:
        built = list((_built(tester, mark, wall, places(round(value))) or {}).values())
        if not built:
            return NewButtresses(mark)
        one, at = built[0], tuple(each.at.si for each in built)
        return NewButtresses(wall=mark, at=at, width=one.width, projection=one.projection, height=one.height)

    return ChangeOption(
        field=f"buttresses of {mark}", kind="count", now=0.0, step=1.0, apply=apply, change=change, least=0.5,
        most=float(most), directions=(1,),
    )  # fmt: skip


def _built(tester: ChangeTester, mark: str, wall: Wall, places: Sequence[float]) -> dict[str, Buttress] | None:
    """Buttresses that count as supports, as wide as the wall is thick; None where openings, other
    buttresses or walls that cross leave no room."""
    project, writer = tester.checked.project, tester.writer
    base, height = wall.thickness_base or wall.thickness, wall.height
    length = _stations(tester, mark)[1]
    assert base is not None and height is not None
    taken = _taken(project, mark, wall)
    out = projection(height.si, base.si, tester.supports, 0.0254 if writer.system == "us" else 0.02)
    form = project.mixes[wall.mix].form if wall.mix else None
    found: dict[str, Buttress] = {}
    for place in places:
        at = _clear(taken, place, base.si, length)
        if at is None:
            return None
        found[_free_mark(project, found)] = Buttress(
            wall=mark, at=measured(at, "length", writer), projection=measured(out, "length", writer),
            width=base, height=height,
            material=_FORMS.get(form or "cob", "other"),  # type: ignore[arg-type]
        )  # fmt: skip
    return found


def projection(height: float, thickness: float, rules: SupportRules, step: float) -> float:
    """How far a buttress must stand out from the face to count, m, rounded up to whole steps."""
    return math.ceil(max(rules.least_projection_share * height, step) / step - 1e-9) * step


def _taken(project: Project, mark: str, wall: Wall) -> list[tuple[float, float]]:
    """Lengths of a wall where no buttress can be built: openings, other buttresses on that side, and walls that meet
    it, but for those inside that meet an outside wall."""
    taken = [(one.start.si, one.start.si + one.width.si) for one in wall.openings.values()]
    taken += [
        (one.at.si - one.width.si / 2, one.at.si + one.width.si / 2)
        for one in project.buttresses.values() if one.wall == mark and one.side == "outside"
    ]  # fmt: skip
    lines = wall_lines(project)
    here, out = lines[mark], wall.use == "exterior"
    for other in lines.values():
        inside = project.walls[other.mark].use == "interior"
        if other.mark != mark and other.story == here.story and not (out and inside):
            taken += [(s - other.thickness / 2, s + other.thickness / 2) for s, _ in find_meetings(here, other, 0.0254)
                      if here.thickness < s < here.line.length - here.thickness]  # fmt: skip
    return sorted(taken)


def _clear(taken: Sequence[tuple[float, float]], place: float, width: float, length: float) -> float | None:
    """The place nearest to `place` where a buttress of `width` stands on the wall and clear of all that is taken."""
    options = [place, *(start - width / 2 for start, _ in taken), *(end + width / 2 for _, end in taken)]
    half = width / 2 - 1e-9
    clear = [
        at for at in options if 0 < at < length and all(at + half <= start or at - half >= end for start, end in taken)
    ]
    return min(clear, key=lambda at: abs(at - place), default=None)


def _free_mark(project: Project, more: dict[str, Buttress]) -> str:
    taken = {*project.buttresses, *more}
    return next(name for index in range(1, 1000) if (name := f"BT{index}") not in taken)
