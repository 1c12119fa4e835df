"""How far each dimension of a wall may go before a finding of the wall gets worse."""

from __future__ import annotations

from compliance.model.lines import line_of
from compliance.model.project import Project
from compliance.record import record
from compliance.remedies.changes import FieldChange
from compliance.remedies.difference import Difference
from compliance.remedies.edited_project import measured, with_value
from compliance.remedies.field_changes import ChangeOption, field_option
from compliance.remedies.plan_changes import thickness
from compliance.remedies.step_sizes import step_of, stepped
from compliance.remedies.trial_judging import ChangeTester
from compliance.steps import Given

_MOST_FACTOR = 3.0
_LEAST_FACTOR = 0.25
_FINER = 8


@record
class FreeRange:
    """The values of one dimension, SI, between which no finding of the wall is worse than now.

    `stops` are the findings that get worse just beyond each end, empty where the search ended there; `elsewhere`
    those of other subjects that get worse already within the range, with the value at which each first does;
    `unjudged` those of the wall that lack a limit or a value and so say nothing about the range.
    """

    what: str
    kind: str
    now: float
    least: float
    most: float
    stops_below: tuple[Difference, ...]
    stops_above: tuple[Difference, ...]
    elsewhere: tuple[tuple[float, Difference], ...]
    unjudged: tuple[Difference, ...]

    def given(self, value: float) -> Given:
        return Given(self.what, value, self.kind)


def free_ranges(tester: ChangeTester, wall: str) -> tuple[FreeRange, ...]:
    """Height, thickness and length of a wall. Every step is tried (1 in or 20 mm, lengths in 6 in or 100 mm) from a
    quarter to three times the value of now, then the last one in eighths; what lies within a step is not looked at.

    The length is that of the building in the direction of the wall: all that stands at or beyond the wall's end moves
    along with it. A curved wall has none. Raises KeyError for a wall that is not there.
    """
    subject = tester.checked.facts.of("wall")[wall]
    options = {"height": field_option(tester, ("walls", wall, "height"), None)}
    options["thickness"] = next(thickness(tester, subject, None), None)
    options["length"] = _length_option(tester, wall)
    return tuple(_ranged(tester, wall, what, option) for what, option in options.items() if option)


def _length_option(tester: ChangeTester, mark: str) -> ChangeOption | None:
    wall = tester.checked.project.walls[mark]
    line = line_of(wall)
    if wall.run is None or line is None:
        return None
    step = step_of("6 in", "length", tester.writer)
    assert step is not None
    (x0, y0), (dx, dy) = (wall.run.start[0].si, wall.run.start[1].si), line.direction(0.0)
    thick = wall.thickness_base or wall.thickness
    assert thick is not None
    reached = line.length - thick.si / 2

    def apply(project: Project, value: float) -> Project:
        shift = value - line.length
        for name, one in project.walls.items():
            course = one.run or one.arc
            for end in ("start", "through", "end") if one.arc else ("start", "end"):
                x, y = (part.si for part in getattr(course, end))
                if (x - x0) * dx + (y - y0) * dy >= reached:
                    moved = [measured(v, "coordinate", tester.writer) for v in (x + shift * dx, y + shift * dy)]
                    project = with_value(project, ("walls", name, "run" if one.run else "arc", end), moved)
        return project

    def change(value: float) -> FieldChange:
        """Of a field that is not written: the length follows from where the wall runs."""
        return FieldChange(path=("walls", mark, "length"), kind="length", before=line.length, after=value)

    return ChangeOption(
        field=f"walls.{mark}.run", kind="length", now=line.length, step=step, apply=apply, change=change, least=thick.si
    )


def _ranged(tester: ChangeTester, wall: str, what: str, option: ChangeOption) -> FreeRange:
    below, above = (_Reach(tester, wall, option, direction) for direction in (-1, 1))
    return FreeRange(
        what,
        kind=option.kind,
        now=option.now,
        least=below.free,
        most=above.free,
        stops_below=below.stops,
        stops_above=above.stops,
        elsewhere=tuple({**above.elsewhere, **below.elsewhere}.values()),
        unjudged=tuple({**above.unjudged, **below.unjudged}.values()),
    )


class _Reach:
    """How far one way goes in one direction: the last free value, what stops it, what it touches on the way."""

    def __init__(self, tester: ChangeTester, wall: str, option: ChangeOption, direction: int) -> None:
        self.tester, self.wall, self.option, self.direction = tester, wall, option, direction
        self.free = option.now
        self.stops: tuple[Difference, ...] = ()
        self.elsewhere: dict[tuple[str, str], tuple[float, Difference]] = {}
        self.unjudged: dict[tuple[str, str], Difference] = {}
        for step in (option.step, option.step / _FINER):
            self._walk(step)

    def _walk(self, step: float) -> None:
        start, count = self.free, 1
        while self._within(value := stepped(start, step, self.direction * count)) and self._free_at(value):
            self.free = value
            count += 1

    def _within(self, value: float) -> bool:
        """Whether the search goes so far."""
        option, slack = self.option, 1e-9 * self.option.now
        low, high = option.now * _LEAST_FACTOR - slack, option.now * _MOST_FACTOR + slack
        return option.least < value <= option.most and low <= value <= high

    def _free_at(self, value: float) -> bool:
        """Whether no finding of the wall is worse at a value, and the building can be so; notes what is touched."""
        project = self.option.apply(self.tester.checked.project, value)
        if project is None or not self.tester.sound(project):
            self.stops = ()
            return False
        touched = self.tester.differences(self.tester.context(project))
        self.unjudged |= {_id(one): one for one in touched if one.unjudged and one.wall == self.wall}
        worse = [one for one in touched if one.worse]
        self.stops = tuple(one for one in worse if one.wall == self.wall)
        if self.stops:
            return False
        for one in worse:
            self.elsewhere.setdefault(_id(one), (value, one))
        return True


def _id(one: Difference) -> tuple[str, str]:
    finding = one.after or one.before
    assert finding is not None
    return finding.subject, finding.rule
