"""From the described building to the facts of every subject. The one door into this package."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from compliance.facts.building import Building
from compliance.facts.described import (
    FOOTING_FIELDS,
    STEM_FIELDS,
    beam_facts,
    field_facts,
    project_facts,
    roof_facts,
    site_facts,
)
from compliance.facts.evidence import NO_EVIDENCE, Evidence
from compliance.facts.evidence_facts import mix_evidence_facts, set_evidence_facts, wall_evidence_facts
from compliance.facts.fact import FieldPath
from compliance.facts.later import attach
from compliance.facts.material_facts import mix_facts, set_facts
from compliance.facts.openings import opened, opening_facts, pier_facts
from compliance.facts.plan import SupportRules, WallLine, find_supports, wall_line
from compliance.facts.soil_facts import soil_facts
from compliance.facts.subjects import Facts, Subject
from compliance.facts.wall_facts import WallView, ends_of_section, wall_facts
from compliance.model.project import Project
from compliance.model.specimens import Specimen

if TYPE_CHECKING:
    from compliance.facts.action_tables import ActionTables

Parents = dict[str, Subject | FieldPath]


def derive(
    project: Project, specimens: Mapping[str, Sequence[Specimen]], rules: SupportRules,
    evidence: Evidence = NO_EVIDENCE, tables: Callable[[], ActionTables] | None = None,
) -> Facts:  # fmt: skip
    """All facts of `project`. `specimens` by mark of their set; `rules` say what supports a wall sideways.

    `evidence` holds the records of the materials; what it does not hold counts as not told. `tables` gives what loads
    are worked out with, when the first rule asks for one; without it there are no facts of loads and structure.
    """
    ground: Parents = {"project": Subject("project", "project", ("project",), project_facts(project))}
    ground["site"] = Subject("site", "site", ("site",), site_facts(project), {"project": ground["project"]})
    subjects: dict[str, dict[str, Subject]] = {"project": {}, "site": {}}
    for about in ("project", "site"):
        one = ground[about]
        assert isinstance(one, Subject)
        subjects[about][about] = one
    subjects |= _parts(project, ground, evidence)
    views = _views(project, rules)
    walls = {
        mark: Subject("wall", mark, ("walls", mark), wall_facts(view, project) | wall_evidence_facts(
            mark, project, specimens, evidence.chains.get(mark)), wall=mark)
        for mark, view in views.items()
    }  # fmt: skip
    subjects["mix"] = _mixes(project, walls, evidence, ground)
    subjects["set"] = _sets(project, specimens, evidence, ground, subjects["mix"])
    subjects["wall"] = walls
    for mark, wall in walls.items():
        wall.parents = ground | _wall_parents(views[mark], subjects)
    subjects["opening"], subjects["pier"] = _openings(views, walls)
    if tables is None:
        return Facts(subjects, views)
    building = Building(project, specimens, views, subjects, tables)
    attach(building, subjects)
    return Facts(subjects, views, building)


def _mixes(project: Project, walls: Mapping[str, Subject], evidence: Evidence, ground: Parents) -> dict[str, Subject]:
    return {
        mark: Subject("mix", mark, ("mixes", mark), mix_facts(mark, mix, project, walls)
                      | mix_evidence_facts(mark, mix, project, evidence.mixes.get(mark)), ground)
        for mark, mix in project.mixes.items()
    }  # fmt: skip


def _sets(
    project: Project, specimens: Mapping[str, Sequence[Specimen]], evidence: Evidence, ground: Parents,
    mixes: Mapping[str, Subject],
) -> dict[str, Subject]:  # fmt: skip
    found = {}
    for mark, test in project.test_sets.items():
        lab = project.lab.file_of(test.kind)
        facts = set_facts(mark, test, specimens.get(mark, ()))
        facts |= set_evidence_facts(mark, test, evidence.sets.get(mark), lab)
        found[mark] = Subject("set", mark, ("test_sets", mark), facts, ground | {"mix": mixes[test.mix]})
    return found


def _parts(project: Project, ground: Parents, evidence: Evidence) -> dict[str, dict[str, Subject]]:
    """Soils, stem walls, footings, beams and roofs."""

    def of(about: str, section: str, records: Mapping[str, object], facts: object) -> dict[str, Subject]:
        return {
            mark: Subject(about, mark, (section, mark), facts(record, (section, mark)), ground)  # type: ignore[operator]
            for mark, record in records.items()
        }

    return {
        "soil": of("soil", "soils", project.soils, lambda r, p: soil_facts(p[1], r, evidence.soils.get(p[1]))),
        "stem": of("stem", "stems", project.stems, lambda r, p: field_facts("stem", r, STEM_FIELDS, p)),
        "footing": of(
            "footing", "footings", project.footings, lambda r, p: field_facts("footing", r, FOOTING_FIELDS, p)
        ),
        "beam": of("beam", "beams", project.beams, beam_facts),
        "roof": of("roof", "roofs", project.roofs, roof_facts),
    }


def _views(project: Project, rules: SupportRules) -> dict[str, WallView]:
    """Walls whose line the reader has already found sound."""
    lines = wall_lines(project)
    supports = find_supports(lines, project.buttresses, rules)
    return {
        mark: WallView(
            mark, project.walls[mark], line, supports[mark], opened(project.walls[mark], line.line.length), rules
        )
        for mark, line in lines.items()
    }


def wall_lines(project: Project) -> dict[str, WallLine]:
    """The line of each wall in the plan, walls without a sound line left out."""
    lines = {mark: wall_line(mark, wall) for mark, wall in project.walls.items()}
    return {mark: line for mark, line in lines.items() if line is not None}


def _wall_parents(view: WallView, subjects: Mapping[str, Mapping[str, Subject]]) -> Parents:
    """The mix, stem, footing and beam of a wall, or the path of the field that would name each."""
    parents: Parents = {}
    for about in ("mix", "stem", "footing", "beam"):
        mark = getattr(view.wall, about)
        parents[about] = subjects[about][mark] if mark else ("walls", view.mark, about)
    return parents


def _openings(
    views: Mapping[str, WallView], walls: Mapping[str, Subject]
) -> tuple[dict[str, Subject], dict[str, Subject]]:
    openings: dict[str, Subject] = {}
    piers: dict[str, Subject] = {}
    for wall_mark, view in views.items():
        parents = {**walls[wall_mark].parents, "wall": walls[wall_mark]}
        length, height = view.place.line.length, view.place.height
        for hole in view.opened.holes:
            facts = opening_facts(
                wall_mark, hole.mark, view.wall.openings[hole.mark], hole, height, length, view.supports
            )
            mark, path = f"{wall_mark}.{hole.mark}", ("walls", wall_mark, "openings", hole.mark)
            openings[mark] = Subject("opening", mark, path, facts, parents, wall_mark)
        for pier in view.opened.piers:
            mark = f"{wall_mark}.{pier.mark}"
            facts = pier_facts(pier, min(ends_of_section(view.wall)))
            piers[mark] = Subject("pier", mark, ("walls", wall_mark), facts, parents, wall_mark)
    return openings, piers
