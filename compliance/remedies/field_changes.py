"""One thing to change in a described building, in steps; and the ways that are a single field."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from compliance.facts.common.fact import FieldPath
from compliance.facts.geometry.subjects import Subject
from compliance.model.project import Project
from compliance.record import record
from compliance.remedies.edited_project import kind_at, measured, value_at, with_value
from compliance.remedies.step_sizes import step_of
from compliance.remedies.trial_judging import ChangeTester
from compliance.steps import Given
from compliance.units import Measure, Writer


@record
class ChangeOption:
    """One thing to change, in steps. `apply` gives a building with the value changed, None where that cannot be;
    `says` puts it as an instruction. `now` and `step` in SI; the value stays above `least`, at most at `most`."""

    field: str
    kind: str
    now: float
    step: float
    apply: Callable[[Project, float], Project | None]
    says: Callable[[float], str]
    least: float = 0.0
    most: float = float("inf")
    directions: tuple[int, ...] = (1, -1)

    def given(self, value: float) -> Given:
        return Given(self.field, value, self.kind or "ratio")


def field_options(tester: ChangeTester, change: str, subject: Subject, step: str | None) -> Iterator[ChangeOption]:
    """The field that a change such as `footing.width` names, of each record it can mean for the subject."""
    about, _, field = change.partition(".")
    for path, name in _records(tester.checked.project, about, subject):
        option = field_option(tester, (*path, *field.split(".")), f"{field.replace('_', ' ').replace('.', ' ')} "
                              f"of {name}", step)  # fmt: skip
        if option:
            yield option


def field_option(
    tester: ChangeTester, path: FieldPath, label: str, step: str | None, least: float = 0.0
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

    def says(value: float) -> str:
        return f"make the {label} {written(typed(value), writer)} (now {written(now, writer)})"

    value = now.si if isinstance(now, Measure) else float(now)
    return ChangeOption(".".join(map(str, path)), kind, value, size, apply, says, least)


def written(value: Measure | float | int, writer: Writer) -> str:
    return value.text if isinstance(value, Measure) else writer.write(float(value), "ratio")


def _records(project: Project, about: str, subject: Subject) -> Iterator[tuple[FieldPath, str]]:
    """Paths of the records that `about` means for the subject, and what to call them."""
    wall = project.walls.get(subject.wall) if subject.wall else None
    if about == "project":
        yield ("project", "project"), "the project"
    elif about == "opening" and subject.about == "opening":
        yield subject.path, subject.mark
    elif about == "wall" and wall is not None:
        yield ("walls", subject.wall), subject.wall
    elif about == "roof":
        over = [mark for mark, roof in project.roofs.items() if any(one.wall == subject.wall for one in roof.bears_on)]
        for mark in [subject.mark] if subject.about == "roof" else over:
            yield ("roofs", mark), f"roof {mark}"
    elif about in ("mix", "stem", "footing", "beam"):
        named = subject.mark if subject.about == about else getattr(wall, about, None)
        section = {"mix": "mixes", "stem": "stems", "footing": "footings", "beam": "beams"}[about]
        if named:
            yield (section, named), _shared(project, about, named)


def _shared(project: Project, about: str, mark: str) -> str:
    walls = [name for name, wall in project.walls.items() if getattr(wall, about) == mark]
    return f"{mark} (of {', '.join(walls)})" if walls else mark
