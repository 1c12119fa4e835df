"""One thing to change in a described building, in steps; and the ways that are a single field."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from compliance.facts.common.fact import FieldPath
from compliance.facts.geometry.subjects import Subject
from compliance.model.project import Project
from compliance.record import record
from compliance.remedies.changes import Change, FieldChange
from compliance.remedies.edited_project import kind_at, measured, value_at, with_value
from compliance.remedies.step_sizes import step_of
from compliance.remedies.trial_judging import ChangeTester
from compliance.steps import Given
from compliance.units import Measure


@record
class ChangeOption:
    """One thing to change, in steps. `apply` gives a building with the value changed, None where that cannot be;
    `change` is what it comes to. `now` and `step` in SI; the value stays above `least`, at most at `most`."""

    field: str
    kind: str
    now: float
    step: float
    apply: Callable[[Project, float], Project | None]
    change: Callable[[float], Change]
    least: float = 0.0
    most: float = float("inf")
    directions: tuple[int, ...] = (1, -1)

    def given(self, value: float) -> Given:
        return Given(self.field, value, self.kind or "ratio")


def field_options(tester: ChangeTester, change: str, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    """The field that a change such as `footing.width` names, of each record it can mean for the subject."""
    about, _, field = change.partition(".")
    for path, walls in _records(tester.checked.project, about, subject):
        option = field_option(tester, (*path, *field.split(".")), step, shared_by=walls)
        if option:
            yield option


def field_option(
    tester: ChangeTester, path: FieldPath, step: str | None, *, least: float = 0.0, shared_by: tuple[str, ...] = ()
) -> ChangeOption | None:
    """A field that holds a measure or a number; None where it is not described or not changed in steps."""
    writer = tester.writer
    now, kind = value_at(tester.checked.project, path), kind_at(path)
    size = step_of(step, kind, writer)
    if isinstance(now, bool) or not isinstance(now, (Measure, float, int)) or size is None:
        return None

    def apply(project: Project, value: float) -> Project:
        return with_value(project, path, typed(value))

    def typed(value: float) -> Measure | float | int:
        if kind:
            return measured(value, kind, writer)
        return round(value) if isinstance(now, int) else round(value, 6)

    def change(value: float) -> FieldChange:
        return FieldChange(path=path, kind=kind, before=now, after=typed(value), shared_by=shared_by)

    value = now.si if isinstance(now, Measure) else float(now)
    return ChangeOption(
        field=".".join(map(str, path)), kind=kind, now=value, step=size, apply=apply, change=change, least=least
    )


def _records(project: Project, about: str, subject: Subject) -> Iterator[tuple[FieldPath, tuple[str, ...]]]:
    """Paths of the records that `about` means for the subject, and the walls that share each."""
    wall = project.walls.get(subject.wall) if subject.wall else None
    if about == "project":
        yield ("project", "project"), ()
    elif about == "opening" and subject.about == "opening":
        yield subject.path, ()
    elif about == "wall" and wall is not None:
        yield ("walls", subject.wall), ()
    elif about == "roof":
        over = [mark for mark, roof in project.roofs.items() if any(one.wall == subject.wall for one in roof.bears_on)]
        for mark in [subject.mark] if subject.about == "roof" else over:
            yield ("roofs", mark), ()
    elif about in ("mix", "stem", "footing", "beam"):
        named = subject.mark if subject.about == about else getattr(wall, about, None)
        section = {"mix": "mixes", "stem": "stems", "footing": "footings", "beam": "beams"}[about]
        if named:
            yield (section, named), _shared(project, about, named)


def _shared(project: Project, about: str, mark: str) -> tuple[str, ...]:
    return tuple(name for name, wall in project.walls.items() if getattr(wall, about) == mark)
