"""Changes that are more than one field: a tapered thickness, openings moved or narrowed, buttresses built."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from compliance.facts.geometry.openings import Pier, opened
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section
from compliance.model.lines import line_of
from compliance.model.project import Project
from compliance.model.walls import Wall
from compliance.record import replace
from compliance.remedies.buttressing import end_buttresses, gap_buttresses
from compliance.remedies.changes import Edge, Narrowing, TaperChange
from compliance.remedies.edited_project import measured, with_value
from compliance.remedies.field_changes import ChangeOption, field_option
from compliance.remedies.step_sizes import step_of
from compliance.remedies.trial_judging import ChangeTester

_LEAST_OPENING = 0.2
"""No opening is narrowed below this, m: it would be none."""


def thickness(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    """The thickness of an even wall; base and top together of a tapered one."""
    wall = _wall(tester, subject)
    mark = subject.wall
    if wall.thickness is not None:
        option = field_option(tester, ("walls", mark, "thickness"), step)
        if option:
            yield option
        return
    writer = tester.writer
    base, top = ends_of_section(wall)
    size = step_of(step, "thickness", writer)
    assert size is not None

    def apply(project: Project, value: float) -> Project:
        changed = with_value(project, ("walls", mark, "thickness_base"), measured(value, "thickness", writer))
        return with_value(changed, ("walls", mark, "thickness_top"), measured(top + value - base, "thickness", writer))

    def change(value: float) -> TaperChange:
        return TaperChange(mark, base=(base, value), top=(top, top + value - base))

    yield ChangeOption(
        field=f"walls.{mark}.thickness_base and thickness_top", kind="thickness", now=base, step=size, apply=apply,
        change=change, least=base - top,
    )  # fmt: skip


def thickness_top(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    """The top of a tapered wall, up to its base; the whole wall where it is even."""
    wall, mark = _wall(tester, subject), subject.wall
    if wall.thickness is not None:
        yield from thickness(tester, subject, step)
        return
    for name, bounds in (("top", (0.0, ends_of_section(wall)[0])), ("base", (ends_of_section(wall)[1], float("inf")))):
        option = field_option(tester, ("walls", mark, f"thickness_{name}"), step)
        if option:
            slack = 1e-9 if name == "base" else 0.0
            yield replace(option, least=bounds[0] - slack, most=bounds[1])
    yield from thickness(tester, subject, step)


def move(
    tester: ChangeTester, wall: str, name: str, step: str | None, directions: tuple[int, ...] = (1, -1)
) -> Iterator[ChangeOption]:
    """An opening along its wall."""
    path = ("walls", wall, "openings", name, "start")
    option = field_option(tester, path, step, least=-1e-9)
    if option:
        yield replace(option, directions=directions)


def narrow(
    tester: ChangeTester, wall: str, name: str, step: str | None, keep: Edge = "middle"
) -> Iterator[ChangeOption]:
    """An opening made narrower; `keep` says which edge stays, or that the middle does."""
    writer = tester.writer
    opening = tester.checked.project.walls[wall].openings[name]
    size = step_of(step, "length", writer)
    assert size is not None
    share = {"start": 0.0, "middle": 0.5, "end": 1.0}[keep]
    path = ("walls", wall, "openings", name)

    def apply(project: Project, value: float) -> Project:
        width = measured(value, "length", writer)
        start = measured(opening.start.si + share * (opening.width.si - width.si), "length", writer)
        return with_value(with_value(project, (*path, "width"), width), (*path, "start"), start)

    def change(value: float) -> Narrowing:
        return Narrowing(wall=wall, opening=name, before=opening.width, after=value, keeps=keep)

    yield ChangeOption(
        field=".".join((*path, "width")), kind="length", now=opening.width.si, step=size, apply=apply, change=change,
        least=_LEAST_OPENING, directions=(-1,),
    )  # fmt: skip


def opening_start(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    if subject.about == "opening":
        yield from move(tester, subject.wall, subject.own_mark, step)


def opening_width(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    if subject.about != "opening":
        return
    name = subject.own_mark
    keeps: tuple[Edge, ...] = ("middle", "start", "end")
    for keep in keeps:
        yield from narrow(tester, wall=subject.wall, name=name, step=step, keep=keep)


def pier_width(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    """The openings on either side moved away or narrowed on the side of the pier."""
    if subject.about == "pier":
        pier = next(one for one in _piers(tester, subject) if one.mark == subject.own_mark)
        yield from _widen(tester, subject.wall, pier, step)


def narrowest_pier(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    piers = _piers(tester, subject)
    if piers:
        yield from _widen(tester, subject.wall, min(piers, key=lambda one: one.width), step)


def widest_opening(tester: ChangeTester, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    openings = _wall(tester, subject).openings
    if openings:
        yield from narrow(tester, subject.wall, max(openings, key=lambda name: openings[name].width.si), step)


def _widen(tester: ChangeTester, wall: str, pier: Pier, step: str | None) -> Iterator[ChangeOption]:
    for name, opening in tester.checked.project.walls[wall].openings.items():
        start, end = opening.start.si, opening.start.si + opening.width.si
        if abs(end - pier.start) <= 1e-9 * max(end, 1.0):
            yield from move(tester, wall=wall, name=name, step=step, directions=(-1,))
            yield from narrow(tester, wall=wall, name=name, step=step, keep="start")
        if abs(start - pier.end) <= 1e-9 * max(start, 1.0):
            yield from move(tester, wall=wall, name=name, step=step, directions=(1,))
            yield from narrow(tester, wall=wall, name=name, step=step, keep="end")


def _piers(tester: ChangeTester, subject: Subject) -> tuple[Pier, ...]:
    wall = _wall(tester, subject)
    line = line_of(wall)
    return opened(wall, line.length).piers if line else ()


def _wall(tester: ChangeTester, subject: Subject) -> Wall:
    return tester.checked.project.walls[subject.wall]


PlanOption = Callable[[ChangeTester, Subject, str | None], Iterator[ChangeOption]]

PLAN_OPTIONS: Mapping[str, PlanOption] = {
    "wall.thickness": thickness,
    "wall.thickness_top": thickness_top,
    "wall.unsupported_length": gap_buttresses,
    "wall.free_ends": end_buttresses,
    "wall.widest_opening": widest_opening,
    "wall.narrowest_pier": narrowest_pier,
    "opening.start": opening_start,
    "opening.width": opening_width,
    "pier.width": pier_width,
}
