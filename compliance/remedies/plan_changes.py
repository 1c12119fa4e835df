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
from compliance.remedies.field_changes import Way, field_way
from compliance.remedies.step_sizes import step_of
from compliance.remedies.trial_judging import Bench

_LEAST_OPENING = 0.2
"""No opening is narrowed below this, m: it would be none."""


def thickness(bench: Bench, subject: Subject, step: str | None) -> Iterator[Way]:
    """The thickness of an even wall; base and top together of a tapered one."""
    wall = _wall(bench, subject)
    mark = subject.wall
    if wall.thickness is not None:
        way = field_way(bench, ("walls", mark, "thickness"), step)
        if way:
            yield way
        return
    writer = bench.writer
    base, top = ends_of_section(wall)
    size = step_of(step, "thickness", writer)
    assert size is not None

    def apply(project: Project, value: float) -> Project:
        changed = with_value(project, ("walls", mark, "thickness_base"), measured(value, "thickness", writer))
        return with_value(changed, ("walls", mark, "thickness_top"), measured(top + value - base, "thickness", writer))

    def change(value: float) -> TaperChange:
        return TaperChange(mark, base=(base, value), top=(top, top + value - base))

    yield Way(
        field=f"walls.{mark}.thickness_base and thickness_top", kind="thickness", now=base, step=size, apply=apply,
        change=change, least=base - top,
    )  # fmt: skip


def thickness_top(bench: Bench, subject: Subject, step: str | None) -> Iterator[Way]:
    """The top of a tapered wall, up to its base; the whole wall where it is even."""
    wall, mark = _wall(bench, subject), subject.wall
    if wall.thickness is not None:
        yield from thickness(bench, subject, step)
        return
    for name, bounds in (("top", (0.0, ends_of_section(wall)[0])), ("base", (ends_of_section(wall)[1], float("inf")))):
        way = field_way(bench, ("walls", mark, f"thickness_{name}"), step)
        if way:
            slack = 1e-9 if name == "base" else 0.0
            yield replace(way, least=bounds[0] - slack, most=bounds[1])
    yield from thickness(bench, subject, step)


def move(bench: Bench, wall: str, name: str, step: str | None, directions: tuple[int, ...] = (1, -1)) -> Iterator[Way]:
    """An opening along its wall."""
    path = ("walls", wall, "openings", name, "start")
    way = field_way(bench, path, step, least=-1e-9)
    if way:
        yield replace(way, directions=directions)


def narrow(bench: Bench, wall: str, name: str, step: str | None, keep: Edge = "middle") -> Iterator[Way]:
    """An opening made narrower; `keep` says which edge stays, or that the middle does."""
    writer = bench.writer
    opening = bench.checked.project.walls[wall].openings[name]
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

    yield Way(
        field=".".join((*path, "width")), kind="length", now=opening.width.si, step=size, apply=apply, change=change,
        least=_LEAST_OPENING, directions=(-1,),
    )  # fmt: skip


def opening_start(bench: Bench, subject: Subject, step: str | None) -> Iterator[Way]:
    if subject.about == "opening":
        yield from move(bench, subject.wall, subject.own_mark, step)


def opening_width(bench: Bench, subject: Subject, step: str | None) -> Iterator[Way]:
    if subject.about != "opening":
        return
    name = subject.own_mark
    keeps: tuple[Edge, ...] = ("middle", "start", "end")
    for keep in keeps:
        yield from narrow(bench, subject.wall, name, step, keep)


def pier_width(bench: Bench, subject: Subject, step: str | None) -> Iterator[Way]:
    """The openings on either side moved away or narrowed on the side of the pier."""
    if subject.about == "pier":
        pier = next(one for one in _piers(bench, subject) if one.mark == subject.own_mark)
        yield from _widen(bench, subject.wall, pier, step)


def narrowest_pier(bench: Bench, subject: Subject, step: str | None) -> Iterator[Way]:
    piers = _piers(bench, subject)
    if piers:
        yield from _widen(bench, subject.wall, min(piers, key=lambda one: one.width), step)


def widest_opening(bench: Bench, subject: Subject, step: str | None) -> Iterator[Way]:
    openings = _wall(bench, subject).openings
    if openings:
        yield from narrow(bench, subject.wall, max(openings, key=lambda name: openings[name].width.si), step)


def _widen(bench: Bench, wall: str, pier: Pier, step: str | None) -> Iterator[Way]:
    for name, opening in bench.checked.project.walls[wall].openings.items():
        start, end = opening.start.si, opening.start.si + opening.width.si
        if abs(end - pier.start) <= 1e-9 * max(end, 1.0):
            yield from move(bench, wall, name, step, (-1,))
            yield from narrow(bench, wall, name, step, "start")
        if abs(start - pier.end) <= 1e-9 * max(start, 1.0):
            yield from move(bench, wall, name, step, (1,))
            yield from narrow(bench, wall, name, step, "end")


def _piers(bench: Bench, subject: Subject) -> tuple[Pier, ...]:
    wall = _wall(bench, subject)
    line = line_of(wall)
    return opened(wall, line.length).piers if line else ()


def _wall(bench: Bench, subject: Subject) -> Wall:
    return bench.checked.project.walls[subject.wall]


PlanWay = Callable[[Bench, Subject, str | None], Iterator[Way]]

PLAN_WAYS: Mapping[str, PlanWay] = {
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
