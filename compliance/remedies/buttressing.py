"""Buttresses against a wall: in its largest free length, or at its free ends."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

from compliance.facts.geometry.plan.lateral_supports import find_stretches, on_wall
from compliance.facts.geometry.subjects import Subject
from compliance.facts.geometry.wall_facts import ends_of_section, largest_gap
from compliance.facts.geometry.wall_plan import SupportRules
from compliance.facts.geometry.wall_views import wall_lines
from compliance.model.project import Project
from compliance.model.walls import Buttress, Wall
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
    writer, wall = tester.writer, tester.checked.project.walls[mark]

    def apply(project: Project, value: float) -> Project | None:
        built = _built(tester, mark, wall, places(round(value)))
        return with_value(project, ("buttresses",), {**project.buttresses, **built}) if built else None

    def says(value: float) -> str:
        built = list((_built(tester, mark, wall, places(round(value))) or {}).values())
        if not built:
            return "build buttresses"
        at = ", ".join(writer.write(one.at.si, "length") for one in built)
        one = built[0]
        count = "a buttress" if len(built) == 1 else f"{len(built)} buttresses"
        return (
            f"build {count} into {mark} and its footing, {one.width} wide, {one.projection} out from the face and "
            f"{one.height} high, with the middle {at} from the start of the wall; or cross walls there"
        )

    return ChangeOption(f"buttresses of {mark}", "count", 0.0, 1.0, apply, says, 0.5, float(most), (1,))


def _built(tester: ChangeTester, mark: str, wall: Wall, places: Sequence[float]) -> dict[str, Buttress] | None:
    """Buttresses that count as supports, as wide as the wall is thick; None where an opening leaves no room."""
    project, writer = tester.checked.project, tester.writer
    base, height = wall.thickness_base or wall.thickness, wall.height
    length = _stations(tester, mark)[1]
    assert base is not None and height is not None
    out = projection(height.si, base.si, tester.supports, 0.0254 if writer.system == "us" else 0.02)
    form = project.mixes[wall.mix].form if wall.mix else None
    found: dict[str, Buttress] = {}
    for place in places:
        at = _clear_of_openings(wall, place, base.si, length)
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


def _clear_of_openings(wall: Wall, place: float, width: float, length: float) -> float | None:
    """The place nearest to `place` where a buttress of `width` stands on the wall and clear of every opening."""
    holes = sorted((one.start.si, one.start.si + one.width.si) for one in wall.openings.values())
    options = [place, *(start - width / 2 for start, _ in holes), *(end + width / 2 for _, end in holes)]
    half = width / 2 - 1e-9
    clear = [
        at for at in options if 0 < at < length and all(at + half <= start or at - half >= end for start, end in holes)
    ]
    return min(clear, key=lambda at: abs(at - place), default=None)


def _free_mark(project: Project, more: dict[str, Buttress]) -> str:
    taken = {*project.buttresses, *more}
    return next(name for index in range(1, 1000) if (name := f"BT{index}") not in taken)
