"""Statements that other statements or measurements contradict: warnings, whichever value is then used."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

from compliance.facts.common.fact import FieldPath
from compliance.facts.geometry.statements import SAME, height_of_parts, is_borne_on, stories_of
from compliance.facts.specimens.specimen_results import density
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place, Problem
from compliance.record import record
from compliance.units import Writer

Specimens = Mapping[str, Sequence[Specimen]]

_FEWEST_ALIKE = 3
_STABILIZER = re.compile(r"\b(cement|portland|lime|quicklime|bitumen|asphalt|fly ash)\b", re.IGNORECASE)


@record
class Statements:
    """What may contradict itself, and what it is held against: `swelling` gives the groups of soil that swell,
    `density_differs` the share by which a stated density may differ from the measured one."""

    project: Project
    specimens: Specimens
    writer: Writer
    swelling: Callable[[], Collection[str]]
    density_differs: float


def contradicted_statements(given: Statements, where: Callable[[FieldPath], Place]) -> Iterator[Problem]:
    """A warning for each statement that cannot be true beside another one, whatever rules are adopted."""
    for check in _CHECKS:
        for path, wrong, instead in check(given):
            yield Problem(where(path), "contradiction", wrong, instead, warning=True)


Found = tuple[FieldPath, str, str]


def _ground(given: Statements) -> Iterator[Found]:
    project, site, writer = given.project, given.project.site, given.writer
    if site.soil_group and site.expansive_soil is False and site.soil_group in given.swelling():
        swells = f"soil of the group {site.soil_group} swells and shrinks with water"
        wrong = f"expansive_soil: no, and {swells}; it is taken to be expansive"
        yield ("site", "expansive_soil"), wrong, "have the ground tested, and state what the report says"
    speed = site.wind_speed
    if speed is not None and project.project.units == "us" and speed.unit.startswith("km"):
        shown = writer.write(speed.si, "speed")
        wrong = f"the wind speed of {speed} is {shown}, and maps of wind speed in the US give mph"
        yield ("site", "wind_speed"), wrong, "write it as the map gives it, such as 115 mph"


def _walls(given: Statements) -> Iterator[Found]:
    for mark, wall in given.project.walls.items():
        if wall.use == "interior" and wall.rain_exposed:
            wrong = f"{mark} is called interior, and rain is said to reach it"
            yield ("walls", mark, "use"), wrong, "write use: exterior, or rain_exposed: no"
        if wall.bears_load is False and is_borne_on(given.project, mark):
            wrong = f"{mark} is said to bear no load, but a roof bears on it; it is judged as bearing"
            yield ("walls", mark), wrong, "write bears_load: yes, or correct bears_on:"


def _size(given: Statements) -> Iterator[Found]:
    """Stories and height; the greater is judged."""
    project, writer = given.project, given.writer
    stated, stories = project.project.stories, stories_of(project)
    if stated is not None and stories > stated:
        upper = next(mark for mark, wall in project.walls.items() if (wall.story or 1) == stories)
        wrong = f"stories: is {stated}, but {upper} stands in story {stories}; {stories} stories are judged"
        yield ("project", "stories"), wrong, "correct one of them"
    height, parts = project.project.building_height, height_of_parts(project)
    if height is not None and parts > height.si * (1 + SAME):
        wrong = (
            f"building_height: is {height}, but stem wall, walls, bond beam and half of the roof's rise make "
            f"{writer.write(parts, 'length')}; the height that these make is judged"
        )
        yield ("project", "building_height"), wrong, "correct the heights"


def _densities(given: Statements) -> Iterator[Found]:
    """Stated dry densities beside the mean of the specimens of the mix."""
    project, specimens, writer = given.project, given.specimens, given.writer
    for mark, mix in project.mixes.items():
        if mix.dry_density is None:
            continue
        sets = [name for name, test in project.test_sets.items() if test.mix == mark]
        measured = [value for name in sets for value in map(density, specimens.get(name, ())) if value is not None]
        if not measured:
            continue
        mean = sum(measured) / len(measured)
        if abs(mix.dry_density.si - mean) > given.density_differs * mean:
            shown, found = (writer.write(value, "density") for value in (mix.dry_density.si, mean))
            wrong = f"the dry density of {mark} is stated as {shown}, and its specimens weigh {found} on average"
            yield ("mixes", mark, "dry_density"), wrong, "state what was measured"


def _stabilizers(given: Statements) -> Iterator[Found]:
    """Mixes said to hold no stabilizer, one of whose parts is one by its name."""
    project = given.project
    for mark, mix in project.mixes.items():
        if mix.stabilised is not False:
            continue
        for part in mix.parts:
            found = _STABILIZER.search(project.soils[part].name)
            if found:
                name = project.soils[part].name
                wrong = f"{mark} is said to hold no stabilizer, and its part {part} is called {name}"
                yield ("mixes", mark, "parts", part), wrong, "write stabilised: yes, or name the part as what it is"


def _copied_rows(given: Statements) -> Iterator[Found]:
    """Sets of two mixes with the very same results: one was copied from the other."""
    project, specimens = given.project, given.specimens
    seen: dict[tuple[object, ...], str] = {}
    for mark, test in project.test_sets.items():
        rows = [_results(one) for one in specimens.get(mark, ())]
        if len({row for row in rows if any(row)}) < _FEWEST_ALIKE:
            continue
        first = seen.setdefault((test.kind, *sorted(rows, key=repr)), mark)
        if first != mark and project.test_sets[first].mix != test.mix:
            wrong = f"{mark} of mix {test.mix} has the very results of {first} of mix {project.test_sets[first].mix}"
            yield ("test_sets", mark), wrong, "correct the marks of the rows, or enter the results of each set"


def _results(specimen: Specimen) -> tuple[float | None, ...]:
    return (specimen.peak_load, specimen.strength, specimen.mass, specimen.dried_length)


_CHECKS: tuple[Callable[[Statements], Iterator[Found]], ...] = (
    _ground, _size, _walls, _densities, _stabilizers, _copied_rows,
)  # fmt: skip
"""Everything that is held against itself where a project is read; what follows from the ground motion is in
`site_actions.contradictions`."""
