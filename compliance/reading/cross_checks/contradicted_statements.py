"""Statements about the ground and the earth that other statements or measurements contradict: warnings, whichever value
is then used."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from compliance.facts.common.fact import FieldPath
from compliance.facts.specimens.specimen_results import density
from compliance.model.project import Project
from compliance.model.specimens import Specimen
from compliance.problems import Place, Problem
from compliance.units import Writer

Specimens = Mapping[str, Sequence[Specimen]]

_SWELLING = ("CH", "MH", "OH")
"""Groups of the unified soil classification whose change in volume the residential code calls high (IRC table R405.1,
recalled from memory)."""
_DENSITY_DIFFERS = 0.15
"""Share by which a stated density may differ from the measured one (common practice, no source)."""
_FEWEST_ALIKE = 3
_STABILIZER = re.compile(r"\b(cement|portland|lime|quicklime|bitumen|asphalt|fly ash)\b", re.IGNORECASE)


def contradicted_statements(
    project: Project, specimens: Specimens, where: Callable[[FieldPath], Place], writer: Writer
) -> Iterator[Problem]:
    """A warning for each statement that cannot be true beside another one."""
    for path, wrong, instead in (
        *_ground(project, writer),
        *_walls(project),
        *_densities(project, specimens, writer),
        *_stabilizers(project),
        *_copied_rows(project, specimens),
    ):
        yield Problem(where(path), "contradiction", wrong, instead, warning=True)


Found = tuple[FieldPath, str, str]


def _ground(project: Project, writer: Writer) -> Iterator[Found]:
    site = project.site
    if site.soil_group in _SWELLING and site.expansive_soil is False:
        wrong = f"expansive_soil: no, and soil of the group {site.soil_group} swells and shrinks with water"
        yield ("site", "expansive_soil"), wrong, "have the ground tested, and state what the report says"
    speed = site.wind_speed
    if speed is not None and project.project.units == "us" and speed.unit.startswith("km"):
        shown = writer.write(speed.si, "speed")
        wrong = f"the wind speed of {speed} is {shown}, and maps of wind speed in the US give mph"
        yield ("site", "wind_speed"), wrong, "write it as the map gives it, such as 115 mph"


def _walls(project: Project) -> Iterator[Found]:
    for mark, wall in project.walls.items():
        if wall.use == "interior" and wall.rain_exposed:
            wrong = f"{mark} is called interior, and rain is said to reach it"
            yield ("walls", mark, "use"), wrong, "write use: exterior, or rain_exposed: no"


def _densities(project: Project, specimens: Specimens, writer: Writer) -> Iterator[Found]:
    """Stated dry densities beside the mean of the specimens of the mix."""
    for mark, mix in project.mixes.items():
        if mix.dry_density is None:
            continue
        sets = [name for name, test in project.test_sets.items() if test.mix == mark]
        measured = [value for name in sets for value in map(density, specimens.get(name, ())) if value is not None]
        if not measured:
            continue
        mean = sum(measured) / len(measured)
        if abs(mix.dry_density.si - mean) > _DENSITY_DIFFERS * mean:
            shown, found = (writer.write(value, "density") for value in (mix.dry_density.si, mean))
            wrong = f"the dry density of {mark} is stated as {shown}, and its specimens weigh {found} on average"
            yield ("mixes", mark, "dry_density"), wrong, "state what was measured"


def _stabilizers(project: Project) -> Iterator[Found]:
    """Mixes said to hold no stabilizer, one of whose parts is one by its name."""
    for mark, mix in project.mixes.items():
        if mix.stabilised is not False:
            continue
        for part in mix.parts:
            found = _STABILIZER.search(project.soils[part].name)
            if found:
                name = project.soils[part].name
                wrong = f"{mark} is said to hold no stabilizer, and its part {part} is called {name}"
                yield ("mixes", mark, "parts", part), wrong, "write stabilised: yes, or name the part as what it is"


def _copied_rows(project: Project, specimens: Specimens) -> Iterator[Found]:
    """Sets of two mixes with the very same results: one was copied from the other."""
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
